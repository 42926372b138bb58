"""A facing traced from edges: the edges themselves, and a line a width inside them."""

import itertools
from dataclasses import dataclass, replace

from tracker.drafting.laid_flat import Laid, Row, inverse
from tracker.drafting.style_region import Region
from tracker.geometry.crossing import nearest_crossing, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.point import SAME_MM, Point, along, cross, left_of, unit
from tracker.geometry.profile import Profile, Sum
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.walk import notch_on_edge

#: The edge of a facing that is sewn to nothing, or to a lining.
INNER = "inner edge"
#: A line is run on this far to find what it meets, millimetres.
_ON_MM = 300.0
#: What is left of a neighbouring edge beside a facing, at least.
_LEFT_MM = 3.0
#: Edges that bend by less where they meet (sine) are one line.
_ONE_LINE = 0.02
#: A grain line keeps this share of its chord clear at either end.
_GRAIN_CLEAR = 0.15


class TooWide(PatternError):
    """A facing that is wider than the piece has room for."""


@dataclass(frozen=True)
class Facing:
    """A facing as it was traced.

    Attributes:
        piece: the facing, without its name.
        closed: the darts that are closed in it, by name and piece.
        seams: the seams it runs through without one.
        sewn: its edges in their order with the edges they are sewn to.
        beside: its edges that lie on a stretch of a parent's edge.
    """

    piece: Piece
    closed: tuple[str, ...]
    seams: tuple[str, ...]
    sewn: tuple[tuple[Edge, tuple[Run, ...]], ...]
    beside: tuple[tuple[str, Run], ...]


def facing_of(pattern: Pattern, row: Row, width_mm: float) -> Facing:
    """Trace a facing from a row of edges.

    The grain is that of the piece on the fold, or at the centre, or of the first named; what
    lies there stays where the pattern has it, and the rest is laid to it.

    Args:
        pattern: the pattern.
        row: the edges, laid end to end.
        width_mm: how far inside them the facing ends, square to them.

    Raises:
        TooWide: the pieces have no room for it.
    """
    anchor = _anchor(pattern, row)
    row = row.moved(inverse(anchor.last if anchor is row.after else anchor.first))
    inner, start, end = _inner(row, width_mm)
    closed = tuple(
        f"{name} of the {laid.piece.label}"
        for laid, low, high in (
            (row.before, start, row.before.line.length),
            *((e, 0.0, e.line.length) for e in row.edges),
            (row.after, 0.0, end),
        )
        for at, name in laid.mouths
        if low < at < high
    )
    edges, sewn, beside = _edges(row, inner, start, end)
    piece = _piece(pattern, row, edges, anchor)
    _refuse_darts(row, piece, closed, width_mm)
    return Facing(piece, closed, tuple(dict.fromkeys(s for s in row.seams if s)), sewn, beside)


def _anchor(pattern: Pattern, row: Row) -> Laid:
    """The end of the row whose grain the facing keeps."""
    for laid in (row.before, row.after):
        if laid.edge.name == laid.piece.fold:
            return laid
    for laid in (row.before, row.after):
        if is_centre(pattern, laid.piece, laid.edge):
            return laid
    return row.edges[0]


def is_centre(pattern: Pattern, piece: Piece, edge: Edge) -> bool:
    """Tell whether an edge is the centre of the garment: a fold, a centre seam, or named so."""
    return (
        edge.name == piece.fold
        or any(s.side is BodySide.CENTRE for s in pattern.seams_on(piece, edge))
        or edge.name in ("centre front", "centre back")
    )


# -- the line inside ---------------------------------------------------------------------


def _inner(row: Row, width_mm: float) -> tuple[Curve, float, float]:
    """The inner line, and where along the edges beside it the facing ends."""
    inside = Sum.of([Profile(((0.0, width_mm),))])
    lines = [displaced(laid.line, inside) for laid in row.edges]
    whole = lines[0]
    for laid, line in zip(row.edges[1:], lines[1:], strict=True):
        whole = _met(whole, line, laid.line.start, width_mm)
    before, after = row.before.line, row.after.line
    longer = whole.run_on(_ON_MM, _ON_MM)
    at_start = nearest_crossing(longer, before, before.point_at(before.length - width_mm))
    at_end = nearest_crossing(longer, after, after.point_at(width_mm))
    for found, laid in ((at_start, row.before), (at_end, row.after)):
        room = laid.line.length
        used = room if found is None else found.second_mm
        used = room - used if found is at_start and found is not None else used
        if found is None or not 0.0 < used < room - _LEFT_MM:
            raise TooWide(
                f"{width_mm:.0f} mm inside, the facing would run past the {laid.edge.name} of the "
                f"{laid.piece.label}, which is {room:.0f} mm long; make it narrower"
            )
    assert at_start is not None
    assert at_end is not None
    if at_end.first_mm - at_start.first_mm < _LEFT_MM:
        raise TooWide(f"{width_mm:.0f} mm inside nothing would be left of the facing's inner edge")
    inner = longer.part(at_start.first_mm, at_end.first_mm)
    return (
        inner.started_at(at_start.point).ended_at(at_end.point),
        at_start.second_mm,
        (at_end.second_mm),
    )


def _met(one: Curve, other: Curve, corner: Point, width_mm: float) -> Curve:
    """Two inner lines made one where they meet: cut back, run on, or simply joined."""
    if abs(one.end - other.start) <= SAME_MM:
        return one.joined(other)
    if abs(cross(one.end_heading, other.start_heading)) < _ONE_LINE:
        middle = (one.end + other.start) / 2
        return one.ended_at(middle).joined(other.started_at(middle))
    ahead, behind = one.run_on(0.0, _ON_MM), other.run_on(_ON_MM, 0.0)
    expected = corner + width_mm * unit(left_of(one.end_heading) + left_of(other.start_heading))
    spot = nearest_crossing(ahead, behind, expected)
    if spot is None:
        raise TooWide(
            f"{width_mm:.0f} mm inside, the facing's inner edge would not meet itself at a corner; "
            "make it narrower"
        )
    return (
        ahead.part(0.0, spot.first_mm)
        .ended_at(spot.point)
        .joined(behind.part(spot.second_mm, behind.length).started_at(spot.point))
    )


# -- the piece ---------------------------------------------------------------------------

_Sewn = tuple[tuple[Edge, tuple[Run, ...]], ...]


def _edges(
    row: Row, inner: Curve, start_mm: float, end_mm: float
) -> tuple[tuple[Edge, ...], _Sewn, tuple[tuple[str, Run], ...]]:
    """The facing's ring, counter-clockwise, and what its edges are sewn to."""
    groups: list[list[Laid]] = []
    for laid in row.edges:
        if groups and groups[-1][-1].edge.key == laid.edge.key:
            groups[-1].append(laid)
        else:
            groups.append([laid])
    before, after = row.before, row.after
    first, last = groups[0][0].edge.start, groups[-1][-1].edge.end
    if first == last:
        first, last = (f"{_whose(e)} {c}" for e, c in ((before, first), (after, last)))
    names = [before.edge.name, after.edge.name]
    if before.edge.key == after.edge.key:
        names = [f"{laid.piece.name} {laid.edge.name}" for laid in (before, after)]
    inner_ends = [f"inner {name}" for name in names]
    if inner_ends[0] == inner_ends[1]:
        inner_ends = [f"{_whose(laid)} {name}" for laid, name in zip((before, after), inner_ends,
                                                                     strict=True)]  # fmt: skip
    out, sewn = list[Edge](), []
    for k, group in enumerate(groups):
        line = group[0].line
        for laid in group[1:]:
            line = line.joined(laid.line.started_at(line.end))
        edge = Edge(
            group[0].edge.name,
            group[0].edge.side,
            first if k == 0 else group[0].edge.start,
            last if k == len(groups) - 1 else group[-1].edge.end,
            (line,),
        )
        out.append(edge)
        sewn.append((edge, tuple(_run(laid) for laid in group)))
    cut_after = after.line.part(0.0, end_mm).started_at(out[-1].parts[0].end)
    cut_before = before.line.part(start_mm, before.line.length).ended_at(out[0].parts[0].start)
    sides = {laid.edge.side for laid in row.edges}
    side = sides.pop() if len(sides) == 1 else BodySide.CENTRE
    back = inner.reversed.started_at(cut_after.end).ended_at(cut_before.start)
    out += [
        Edge(names[1], after.edge.side, last, inner_ends[1], (cut_after,)),
        Edge(INNER, side, inner_ends[1], inner_ends[0], (back,)),
        Edge(names[0], before.edge.side, inner_ends[0], first, (cut_before,)),
    ]
    return tuple(out), tuple(sewn), ((names[0], _run(before)), (names[1], _run(after)))


def _whose(laid: Laid) -> str:
    side = laid.edge.side
    return str(side) if side in (BodySide.RIGHT, BodySide.LEFT) else laid.piece.name


def _run(laid: Laid) -> Run:
    return Run(laid.piece.name, laid.edge.name, laid.edge.side)


def _piece(pattern: Pattern, row: Row, edges: tuple[Edge, ...], anchor: Laid) -> Piece:
    parent = anchor.piece
    fold = next(
        (
            name
            for laid, name in ((row.before, edges[-1].name), (row.after, edges[-3].name))
            if laid.edge.name == laid.piece.fold
        ),
        None,
    )
    sides = {e.side for e in edges[:-3]}
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
    """Return a grain line in a direction where a piece is longest along it."""
    way = unit(heading)
    ring = piece.plain_ring
    points = [p for curve in ring for p in curve.flattened(0.5)]
    across = [cross(way, p) for p in points]
    low, high = min(across), max(across)
    best: tuple[float, Point, Point] | None = None
    region = Region(ring)
    for k in range(1, 40):
        through = left_of(way) * (low + (high - low) * k / 40)
        met = sorted(c.second_mm for curve in ring for c in with_line(curve, through, way))
        for a, b in itertools.pairwise(met):
            one, two = through + way * a, through + way * b
            if b - a > (best[0] if best else 1.0) and region.holds((one + two) / 2):
                best = b - a, one, two
    if best is None:
        return None
    _, one, two = best
    return along(one, two, _GRAIN_CLEAR), along(one, two, 1 - _GRAIN_CLEAR)


def _refuse_darts(row: Row, facing: Piece, closed: tuple[str, ...], width_mm: float) -> None:
    """Refuse a facing into which a dart reaches that is not closed in it.

    Raises:
        TooWide: one does.
    """
    region = Region(facing.plain_ring)
    for laid in (row.before, *row.edges, row.after):
        motion = laid.last if laid is row.before else laid.first
        for dart in laid.piece.darts:
            name = f"{dart.name} of the {laid.piece.label}"
            if name in closed or dart.side is not laid.edge.side:
                continue
            moved = replace(dart, legs=(dart.legs[0].moved(motion), dart.legs[1].moved(motion)))
            if _reaches(moved, region):
                raise TooWide(
                    f"{width_mm:.0f} mm inside, the facing would reach over the {name}, which is "
                    "not sewn shut in it; make it narrower, or turn the dart elsewhere first"
                )


def _reaches(dart: Dart, region: Region) -> bool:
    """Tell whether a dart's fold, from its sewn point to its mouth or other point, comes in."""
    one, *other = dart.sewn_points
    far = other[0] if other else (dart.mouth_start + dart.mouth_end) / 2
    return any(region.holds(along(one, far, k / 12)) for k in range(13))


__all__ = ["INNER", "Facing", "TooWide", "facing_of", "grain_in", "is_centre"]
