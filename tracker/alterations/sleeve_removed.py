"""Sleeves taken off a pattern, with all that is sewn to them and to nothing else."""

from dataclasses import dataclass, replace

from tracker.alterations.set_in import armhole_seams
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece, PieceKey
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace


@dataclass(frozen=True)
class Removed:
    """A pattern without its sleeves.

    Attributes:
        pattern: what is left.
        trace: every edge of them cut away, every name gone.
        labels: the pieces that are gone.
    """

    pattern: Pattern
    trace: Trace
    labels: tuple[str, ...]


def sleeve_pieces(pattern: Pattern, side: BodySide) -> tuple[str, ...]:
    """Return the names of the pieces sewn into the armholes, and of what hangs on them.

    Raises:
        PatternError: the bodice hangs on them too, so that they are no set-in sleeves.
    """
    return tuple(dict.fromkeys(name for name, _ in _hanging(pattern, side)))


def _hanging(pattern: Pattern, side: BodySide) -> tuple[PieceKey, ...]:
    sewn = list(armhole_seams(pattern, side))
    skip = {s.key for s in armhole_seams(pattern)}
    body = {pattern.piece(r.piece, r.side).key for s in sewn for r in s.first}
    found = {pattern.piece(r.piece, r.side).key: None for s in sewn for r in s.second}
    waiting = list(found)
    while waiting:
        name, own_side = waiting.pop()
        for seam in pattern.seams:
            if seam.key in skip:
                continue
            keys = [pattern.piece(r.piece, r.side).key for r in (*seam.first, *seam.second)]
            if (name, own_side) in keys:
                fresh = [k for k in keys if k not in found]
                found.update(dict.fromkeys(fresh))
                waiting += fresh
        for piece in pattern.pieces:
            if piece.taken_from == name and piece.side is own_side and piece.key not in found:
                found[piece.key] = None
    if body & set(found):
        raise PatternError(
            "the sleeves are sewn to the bodice at other seams than the armhole's too, so they "
            "are not set in and cannot be taken off by it"
        )
    return tuple(found)


def without_sleeves(pattern: Pattern, side: BodySide) -> Removed:
    """Take the sleeves of a body side off a pattern whose sleeves are parted where need be."""
    gone = set(_hanging(pattern, side))
    pieces = tuple(p for p in pattern.pieces if p.key in gone)
    seams = tuple(
        s
        for s in pattern.seams
        if any(pattern.piece(r.piece, r.side).key in gone for r in (*s.first, *s.second))
    )
    left = tuple(p for p in pattern.pieces if p.key not in gone)
    lines = {v.name for p in left for v in p.levels}
    lost = {v.name for p in pieces for v in p.levels} - lines
    new = replace(
        pattern,
        pieces=left,
        seams=tuple(s for s in pattern.seams if s not in seams),
        ease=tuple(e for e in pattern.ease if e[0] not in lost),
    )
    fates = tuple(Fate(Stretch.whole(p, e), None) for p in pieces for e in p.edges if e.parts)
    renamed = [Renamed("seam", ("", s.name), ("", "")) for s in seams]
    for piece in pieces:
        renamed += _names_gone(piece)
    return Removed(new, Trace(fates, tuple(renamed)), tuple(p.label for p in pieces))


def _names_gone(piece: Piece) -> list[Renamed]:
    gone = [Renamed("piece", (piece.name, str(piece.side)), ("", ""))]
    for thing, names in (
        ("notch", [n.name for n in piece.notches]), ("level", [v.name for v in piece.levels]),
        ("dart", [d.name for d in piece.darts]), ("mark", [m.name for m in piece.marks]),
    ):  # fmt: skip
        gone += [Renamed(thing, (piece.name, name), ("", "")) for name in names]
    return gone


__all__ = ["Removed", "sleeve_pieces", "without_sleeves"]
