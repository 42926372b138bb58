"""How far an alteration draws a piece's outline out of the cloth it was cut to."""

from tracker.alterations.bodyside import split_sides
from tracker.geometry.area import outside_mm
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: An outline is looked at every so many millimetres.
_EVERY_MM = 4.0
#: Edges at the foot of a piece; they are let down out of their turning.
_FEET = ("hem", "wrist")


def let_out(before: Pattern, after: Pattern) -> tuple[str, float]:
    """Return the edge that goes furthest out of its old outline, and how far, millimetres.

    Only what is drawn in both, of the shell; what a piece has at its foot is left out.

    Args:
        before: the pattern.
        after: the pattern altered.
    """
    was = {p.key: p for p in before.pieces}
    split = {p.name for p in after.pieces if p.key not in was and p.has_outline}
    was = {p.key: p for p in split_sides(before, split).pattern.pieces}
    worst = ("", 0.0)
    for piece in after.pieces:
        old = was.get(piece.key)
        if old is None or old is piece or not old.has_outline or piece.layer != "shell":
            continue
        for edge, by in _grown(old, piece):
            if by > worst[1]:
                worst = f"{edge} of the {piece.label}", by
    return worst


def _grown(old: Piece, new: Piece) -> list[tuple[str, float]]:
    known = {e.key: e for e in old.edges}
    out = []
    for edge in new.edges:
        was = known.get(edge.key)
        on_fold = edge.name == new.fold or edge.side is BodySide.CENTRE
        if was is None or was.parts == edge.parts or edge.name in _FEET or on_fold:
            continue
        count = max(2, round(edge.length / _EVERY_MM))
        # A corner is two edges'; just short of it is the one that goes out there.
        shares = (0.002, *(k / count for k in range(1, count)), 0.998)
        spots = [edge.point_at(edge.length * share) for share in shares]
        out.append((edge.name, outside_mm(old.plain_ring, spots)))
    return out


__all__ = ["let_out"]
