"""An armhole that goes through under the arm without a seam, cut there so a sleeve can begin.

A sleeve is sewn in from the underarm, round and back to it. Where the side panels were joined
into one piece its armhole has no corner there; the edge is cut at the underarm mark and what
lies behind is called the back armhole. The line stays where it is. With the sleeve off again
the two are one edge as before.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tracker.drafting.sleeve_armhole import BACK_EDGE, EDGE, UNDERARM
from tracker.drafting.style_section import Section, notches_on, section
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch, Trace
from tracker.pattern.walk import notch_on_edge

#: The underarm mark lies this near the armhole, and no nearer than that to its ends.
_ON_MM = 2.0
_INSIDE_MM = 20.0


class ArmholeInUse(TrackerError):
    """An armhole that something else is sewn to as one edge."""


@dataclass(frozen=True, slots=True)
class Recut:
    """A pattern whose armholes were cut at the underarm, or joined there again."""

    pattern: Pattern
    trace: Trace


def cut_at_the_underarm(pattern: Pattern, side: BodySide) -> Recut:
    """Cut armholes that go through under the arm at their underarm mark.

    Args:
        pattern: the pattern.
        side: both, or the wearer's right or left only.

    Raises:
        ArmholeInUse: something is sewn along the whole of such an edge.
    """
    fates: list[Fate] = []
    for piece in pattern.pieces:
        for edge in piece.edges:
            if piece.layer != "shell" or edge.name != EDGE or not edge.parts:
                continue
            if UNDERARM in (edge.start, edge.end) or not _meant(edge.side, side):
                continue
            at = _underarm(piece, edge)
            if at is None:
                continue
            sewn = pattern.seams_on(piece, edge)
            if sewn:
                raise ArmholeInUse(
                    f"the {sewn[0].name} seam runs along the armhole of the {piece.label} through "
                    "the underarm; take that off first, and sew the sleeve in before it"
                )
            current = pattern.piece(*piece.key)
            fresh, more = _cut(current, current.edge(*edge.key), at)
            pattern = pattern.with_pieces(fresh)
            fates += more
    return Recut(pattern, Trace(tuple(fates)))


def joined_at_the_underarm(pattern: Pattern, side: BodySide) -> Recut:
    """Make one edge again of every armhole cut at the underarm that no sleeve is sewn to."""
    fates: list[Fate] = []
    for piece in pattern.pieces:
        for edge in piece.edges:
            if edge.name != BACK_EDGE or not _meant(edge.side, side):
                continue
            current = pattern.piece(*piece.key)
            front = next((e for e in current.edges if e.name == EDGE and e.side is edge.side), None)
            if front is None or pattern.seams_on(current, edge):
                continue
            fresh, more = _joined(current, front, current.edge(*edge.key))
            pattern = pattern.with_pieces(fresh)
            fates += more
    return Recut(pattern, Trace(tuple(fates)))


def _meant(of: BodySide, side: BodySide) -> bool:
    return side not in (BodySide.RIGHT, BodySide.LEFT) or of in (side, BodySide.BOTH)


def _underarm(piece: Piece, edge: Edge) -> float | None:
    """Where along an armhole the underarm is: at its mark, or else at its notch."""
    at = None
    for mark in piece.marks:
        if mark.name == UNDERARM and mark.side is edge.side:
            along, gap = edge.nearest(mark.point)
            at = along if gap <= _ON_MM else None
    if at is None:
        found = [n for n in piece.notches if (n.edge, n.side) == edge.key and "underarm" in n.name]
        at = notch_on_edge(edge, found[0]) if found else None
    if at is None or not _INSIDE_MM < at < edge.length - _INSIDE_MM:
        return None
    return at


def _behind_first(piece: Piece, edge: Edge, at_mm: float) -> bool:
    """Tell whether the stretch before the underarm is the back's: by its double notch."""
    most = [0, 0]
    for notch in piece.notches:
        if (notch.edge, notch.side) == edge.key:
            there = notch_on_edge(edge, notch)
            if abs(there - at_mm) > _ON_MM:
                most[there > at_mm] = max(most[there > at_mm], notch.count)
    if most[0] != most[1]:
        return most[0] > most[1]
    return "back" in edge.start or edge.end == "shoulder point"


def _cut(piece: Piece, edge: Edge, at_mm: float) -> tuple[Piece, list[Fate]]:
    names = (BACK_EDGE, EDGE) if _behind_first(piece, edge, at_mm) else (EDGE, BACK_EDGE)
    halves = (
        replace(section(edge, 0.0, at_mm, edge.start, UNDERARM), name=names[0]),
        replace(section(edge, at_mm, edge.length, UNDERARM, edge.end), name=names[1]),
    )
    spans = (Section(edge, 0.0, at_mm), Section(edge, at_mm, edge.length))
    i = piece.edge_index(edge)
    notches = [n for n in piece.notches if (n.edge, n.side) != edge.key]
    fates: list[Fate] = []
    for half, span in zip(halves, spans, strict=True):
        notches += [replace(n, edge=half.name) for n in notches_on(piece.notches, edge, span, half)]
        was = Stretch(piece.name, edge.name, edge.side, span.from_mm, span.to_mm)
        fates.append(Fate(was, Stretch.whole(piece, half), still=True))
    darts = tuple(
        replace(d, mouth=next((h.name for h in halves if d.name in h.mouths), d.mouth))
        if d.mouth == edge.name and d.side is edge.side
        else d
        for d in piece.darts
    )
    fresh = replace(
        piece,
        edges=(*piece.edges[:i], *halves, *piece.edges[i + 1 :]),
        notches=_in_old_order(piece.notches, notches),
        darts=darts,
    )
    return fresh, fates


def _joined(piece: Piece, front: Edge, back: Edge) -> tuple[Piece, list[Fate]]:
    one, two = (front, back) if piece.after(front).key == back.key else (back, front)
    whole = Edge(
        EDGE, one.side, one.start, two.end,
        (*one.drawn[:-1], one.drawn[-1].joined(two.drawn[0]), *two.drawn[1:]),
        (*one.mouths, *two.mouths),
    )  # fmt: skip
    notches: list[Notch] = []
    fates: list[Fate] = []
    for half, from_mm in ((one, 0.0), (two, one.length)):
        notches += _carried(piece.notches, half, whole, from_mm)
        now = Stretch(piece.name, EDGE, whole.side, from_mm, from_mm + half.length)
        fates.append(Fate(Stretch.whole(piece, half), now, still=True))
    keys = (one.key, two.key)
    others = [n for n in piece.notches if (n.edge, n.side) not in keys]
    edges = [whole if e.key == one.key else e for e in piece.edges if e.key != two.key]
    darts = tuple(replace(d, mouth=EDGE) if (d.mouth, d.side) in keys else d for d in piece.darts)
    fresh = replace(
        piece, edges=tuple(edges), notches=_in_old_order(piece.notches, [*others, *notches]),
        darts=darts,
    )  # fmt: skip
    return fresh, fates


def _carried(
    notches: tuple[Notch, ...], half: Edge, whole: Edge, from_mm: float
) -> Iterator[Notch]:
    for notch in notches:
        if (notch.edge, notch.side) != half.key:
            continue
        if notch.corner in (whole.start, whole.end):
            yield replace(notch, edge=EDGE)
            continue
        at = from_mm + notch_on_edge(half, notch)
        yield replace(notch, edge=EDGE, corner=whole.start, distance_mm=at)


def _in_old_order(old: tuple[Notch, ...], new: list[Notch]) -> tuple[Notch, ...]:
    place = {n.key: k for k, n in enumerate(old)}
    return tuple(sorted(new, key=lambda n: place[n.key]))


__all__ = ["ArmholeInUse", "Recut", "cut_at_the_underarm", "joined_at_the_underarm"]
