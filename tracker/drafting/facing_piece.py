"""A traced facing as a piece: its ring, its notches and its grain."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.drafting.laid_flat import Laid, Row
from tracker.drafting.style_region import Region
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, along, cross, left_of, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Notch
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.trace import SHORTEST_MM
from tracker.pattern.walk import notch_on_edge

#: The edge of a facing that is sewn to nothing, or to a lining.
INNER = "inner edge"
#: A grain line keeps this share of its chord clear at either end.
_GRAIN_CLEAR = 0.15
#: Of grain lines about as long as the longest the one clearest of the edges is drawn.
_LONG_ENOUGH = 0.8


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a laid edge, by distance along its line."""

    laid: Laid
    from_mm: float
    to_mm: float


def joined(laids: Sequence[Laid]) -> Curve:
    """Return laid edges as one line."""
    line = laids[0].line
    for laid in laids[1:]:
        line = line.joined(laid.line.started_at(line.end))
    return line


def stretches(laids: Sequence[Laid], from_mm: float, to_mm: float) -> tuple[Stretch, ...]:
    """Return what of each laid edge lies between two distances along them all."""
    out, at = [], 0.0
    for laid in laids:
        low, high = max(from_mm - at, 0.0), min(to_mm - at, laid.line.length)
        at += laid.line.length
        if high - low > SHORTEST_MM:
            out.append(Stretch(laid, low, high))
    return tuple(out)


@dataclass(frozen=True)
class Ring:
    """A facing's edges.

    Attributes:
        edges: counter-clockwise, those it was traced from first.
        sewn: these with the edges they are sewn to.
        beside: the names of those that lie on a stretch of a parent's edge, with that edge.
    """

    edges: tuple[Edge, ...]
    sewn: tuple[tuple[Edge, tuple[Run, ...]], ...]
    beside: tuple[tuple[str, Run], ...]


def facing_ring(
    row: Row, inner: Curve, beside_start: tuple[Stretch, ...], beside_end: tuple[Stretch, ...]
) -> Ring:
    """Return the ring of a facing.

    Args:
        row: the edges it is traced from.
        inner: its inner line, from where it leaves what lies beside the row's start.
        beside_start: what of the edges before the row it has.
        beside_end: what of the edges after it.
    """
    groups: list[list[Laid]] = []
    for laid in row.edges:
        if groups and groups[-1][-1].edge.key == laid.edge.key:
            groups[-1].append(laid)
        else:
            groups.append([laid])
    outer = beside_start[0].laid, beside_end[-1].laid
    first, last = groups[0][0].edge.start, groups[-1][-1].edge.end
    if first == last:
        first, last = (f"{_whose(e)} {c}" for e, c in ((row.before, first), (row.after, last)))
    keys = [some.laid.edge.key for some in (*beside_start, *beside_end)]

    def named(laid: Laid) -> str:
        twice = keys.count(laid.edge.key) > 1
        return f"{laid.piece.name} {laid.edge.name}" if twice else laid.edge.name

    inner_ends = [f"inner {named(laid)}" for laid in outer]
    if inner_ends[0] == inner_ends[1]:
        inner_ends = [
            f"{_whose(laid)} {name}" for laid, name in zip(outer, inner_ends, strict=True)
        ]
    out, sewn = list[Edge](), []
    for k, group in enumerate(groups):
        edge = Edge(
            group[0].edge.name,
            group[0].edge.side,
            first if k == 0 else group[0].edge.start,
            last if k == len(groups) - 1 else group[-1].edge.end,
            (joined(group),),
        )
        out.append(edge)
        sewn.append((edge, tuple(_run(laid) for laid in group)))
    start_at = out[0].parts[0].start
    for some in beside_end:
        laid, at = some.laid, out[-1].parts[0].end
        line = laid.line.part(some.from_mm, some.to_mm).started_at(at)
        begin = last if laid is row.after else laid.edge.start
        end = inner_ends[1] if laid is outer[1] else laid.edge.end
        out.append(Edge(named(laid), laid.edge.side, begin, end, (line,)))
    lines = [some.laid.line.part(some.from_mm, some.to_mm) for some in beside_start]
    lines[-1] = lines[-1].ended_at(start_at)
    for k in range(len(lines) - 1, 0, -1):
        lines[k - 1] = lines[k - 1].ended_at(lines[k].start)
    sides = {laid.edge.side for laid in row.edges}
    side = sides.pop() if len(sides) == 1 else BodySide.CENTRE
    back = inner.reversed.started_at(out[-1].parts[0].end).ended_at(lines[0].start)
    out.append(Edge(INNER, side, inner_ends[1], inner_ends[0], (back,)))
    for some, line in zip(beside_start, lines, strict=True):
        laid = some.laid
        begin = inner_ends[0] if laid is outer[0] else laid.edge.start
        end = first if laid is row.before else laid.edge.end
        out.append(Edge(named(laid), laid.edge.side, begin, end, (line,)))
    beside = tuple((named(s.laid), _run(s.laid)) for s in (*beside_start, *beside_end))
    return Ring(tuple(out), tuple(sewn), beside)


def _whose(laid: Laid) -> str:
    side = laid.edge.side
    return str(side) if side in (BodySide.RIGHT, BodySide.LEFT) else laid.piece.name


def _run(laid: Laid) -> Run:
    return Run(laid.piece.name, laid.edge.name, laid.edge.side)


def facing_piece(row: Row, ring: Ring, anchor: Laid) -> Piece:
    """Return a facing as a piece, its grain the anchor's, its notches the parents'."""
    parent, edges = anchor.piece, ring.edges
    folds = {(laid.piece.name, laid.piece.fold) for laid in (row.before, row.after)}
    fold = next((name for name, run in ring.beside if (run.piece, run.edge) in folds), None)
    sides = {e.side for e, _ in ring.sewn}
    side = sides.pop() if len(sides) == 1 else BodySide.CENTRE
    both = side is BodySide.BOTH
    piece = Piece(
        name="facing",
        side=side,
        edges=edges,
        notches=tuple(_notches(row, edges)),
        fold=fold if both else None,
        layer="facing",
        copies=2 if both else 1,
        cut="cut 1 on the fold" if fold and both else "cut 2, a pair" if both else "cut 1",
        taken_from=parent.name,
    )
    grain = parent.grain
    return piece if grain is None else replace(piece, grain=grain_in(piece, grain[1] - grain[0]))


def _notches(row: Row, edges: tuple[Edge, ...]) -> list[Notch]:
    """The parents' notches on the row, and one at each seam the facing runs through."""
    out: list[Notch] = []
    at, k, names = 0.0, 0, set[str]()
    for index, laid in enumerate(row.edges):
        if index and laid.edge.key != row.edges[index - 1].edge.key:
            k, at = k + 1, 0.0
        edge = edges[k]
        spots = [
            (notch_on_edge(laid.edge, n), n.name, n.count)
            for n in laid.piece.notches
            if (n.edge, n.side) == laid.edge.key
        ]
        if index and at:
            spots.insert(0, (0.0, f"{row.seams[index - 1]} notch", 1))
        for distance, name, count in spots:
            there = at + distance
            # Its own copy of a notch where the two pieces' shares meet needs no second.
            if 1.0 < there < edge.length - 1.0 and (name, edge.side) not in {n.key for n in out}:
                out.append(Notch(name, edge.side, edge.name, edge.start, there, count))
                names.add(name)
        at += laid.line.length
    return out


def grain_in(piece: Piece, heading: Point) -> tuple[Point, Point] | None:
    """Return a grain line in a direction: where the piece is long along it, clear of its edges."""
    way = unit(heading)
    ring = piece.plain_ring
    points = [p for curve in ring for p in curve.flattened(0.5)]
    across = [cross(way, p) for p in points]
    low, high = min(across), max(across)
    found: list[tuple[Point, Point]] = []
    region = Region(ring)
    for k in range(1, 40):
        through = left_of(way) * (low + (high - low) * k / 40)
        met = sorted(c.second_mm for curve in ring for c in with_line(curve, through, way))
        for a, b in itertools.pairwise(met):
            if b - a > 1.0 and region.holds(through + way * ((a + b) / 2)):
                one, two = through + way * a, through + way * b
                found.append((along(one, two, _GRAIN_CLEAR), along(one, two, 1 - _GRAIN_CLEAR)))
    if not found:
        return None
    longest = max(abs(two - one) for one, two in found)
    enough = [g for g in found if abs(g[1] - g[0]) >= _LONG_ENOUGH * longest]
    return max(enough, key=lambda g: clear_mm(piece, g))


def clear_mm(piece: Piece, grain: tuple[Point, Point]) -> float:
    """Return how far a grain line stays from a piece's outline; less than nothing outside it."""
    spots = [along(*grain, k / 4) for k in range(5)]
    region = Region(piece.plain_ring)
    near = min(curve.nearest(spot)[1] for curve in piece.plain_ring for spot in spots)
    return near if all(region.holds(spot) for spot in spots) else -near


__all__ = [
    "INNER", "Ring", "Stretch", "clear_mm", "facing_piece", "facing_ring", "grain_in", "joined",
    "stretches",
]  # fmt: skip
