"""Below the waist of a front opened through its bust point: the lower edge kept as long as it was.

The slash that runs on through a double-pointed dart widens the lower edge by as much as the bust
point goes out; the side seam takes that back between the waist line and the lower edge, and the
corner goes down, or up, along it until the side is as long as it was too.
"""

from tracker.alterations.shaping import at, level_on_base, shaped
from tracker.alterations.told import mm
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

WAIST = "waist line"
_TRIES = 12
_MET_MM = 0.002


def lower_edge_kept(
    before: Pattern,
    pattern: Pattern,
    key: tuple[str, BodySide],
    side_edge: str,
    side: BodySide,
    step_id: str,
) -> tuple[Pattern, Trace, tuple[str, ...]]:
    """Take in (let out) a side seam below the waist until the lower edge is as long as before.

    Args:
        before: the pattern before the front was opened.
        pattern: the pattern with the front opened.
        key: the front.
        side_edge: the name of its side.
        side: the body side of that edge.
        step_id: the id the displacement carries.

    Returns:
        The pattern, the trace, and what was done in words.
    """
    piece = pattern.piece(*key)
    edge = piece.edge(side_edge, side)
    ends_low = "underarm" in edge.start or "underarm" not in edge.end
    low = piece.after(edge) if ends_low else piece.before(edge)
    wanted = [_length_before(before, key, e) for e in (low, edge)]
    waist = _waist(piece, edge.key)
    corner = edge.end if ends_low else edge.start
    gained = low.length - wanted[0]
    if waist is None:
        way = "longer" if gained > 0 else "shorter"
        return pattern, Trace(), (
            f"{low.name} of the {piece.label} {mm(abs(gained))} {way}: no waist line says from "
            "where the side seam is to take it back",
        )  # fmt: skip
    foot, near, far = edge.base_length, 0.0, low.base_length
    if not ends_low:
        foot, near, far = 0.0, far, near
    amount, down = gained, 0.0
    for _ in range(_TRIES):
        inward = Profile(tuple(sorted(((waist, 0.0), (foot, amount)))))
        lowered = Profile(tuple(sorted(((near, -down), (far, 0.0)))))
        new, trace = shaped(
            pattern, {at(piece, edge): (inward,), at(piece, low): (lowered,)}, step_id
        )
        short = [new.piece(*key).edge(*e.key).length - w
                 for e, w in zip((low, edge), wanted, strict=True)]  # fmt: skip
        if max(map(abs, short)) < _MET_MM:
            break
        amount, down = amount + short[0], down - short[1]
    return new, trace, (
        f"side of the {piece.label} {'in' if amount > 0 else 'out'} {mm(round(abs(amount), 1))} "
        f"at the {corner}, to nothing at the {WAIST}, and {mm(round(abs(down), 1))} "
        f"{'lower' if down > 0 else 'higher'} there: {low.name} and side are as long as they were",
    )  # fmt: skip


def _length_before(before: Pattern, key: tuple[str, BodySide], edge: Edge) -> float:
    piece = before.piece(*key)
    return piece.edge(*_as_before(piece, edge.key)).length


def _as_before(piece: Piece, key: tuple[str, BodySide]) -> tuple[str, BodySide]:
    """The key of an edge before its piece was split into right and left."""
    return key if any(e.key == key for e in piece.edges) else (key[0], BodySide.BOTH)


def _waist(piece: Piece, key: tuple[str, BodySide]) -> float | None:
    edge = piece.edge(*key)
    try:
        level = piece.level(WAIST, edge.side)
    except UnknownName:
        return None
    return level_on_base(edge, level.strokes)


__all__ = ["lower_edge_kept"]
