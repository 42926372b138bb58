"""A facing traced from edges: the edges themselves, and a line a width inside them."""

import math
from dataclasses import dataclass, replace

from tracker.drafting.centre import is_centre
from tracker.drafting.facing_piece import facing_piece, facing_ring, joined, stretches
from tracker.drafting.laid_flat import RUNS_ON_RAD, Laid, NotOneLine, Row, inverse
from tracker.drafting.style_region import Region
from tracker.geometry.crossing import nearest_crossing
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.loops import without_loops
from tracker.geometry.point import (
    SAME_MM,
    Point,
    along,
    cross,
    dot,
    left_of,
    turn_between,
    turned,
    unit,
)
from tracker.geometry.profile import Profile, Sum
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run

#: A line is run on this far to find what it meets, millimetres.
_ON_MM = 300.0
#: What is left of a neighbouring edge beside a facing, at least.
_LEFT_MM = 3.0
#: Edges that bend by less where they meet (sine) are one line.
_ONE_LINE = 0.02
#: An edge that leaves another at a right angle to this (cosine) is square to it: 1.5°.
_SQUARE = 0.026
#: The inner line is drawn over this much of it to end at a slant.
_BLEND_MM = 60.0
#: The edge a facing has where it is sewn to one that is grown on.
JOIN = "facing join"


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
    inner, start, end = inner_line(row, width_mm)
    beside_start = stretches(row.beside_start, start, math.inf)
    beside_end = stretches(row.beside_end, 0.0, end)
    closed = tuple(
        f"{name} of the {some.laid.piece.label}"
        for some in (*beside_start, *stretches(row.edges, 0.0, math.inf), *beside_end)
        for at, name in some.laid.mouths
        if some.from_mm < at < some.to_mm
    )
    ring = facing_ring(row, inner, beside_start, beside_end)
    piece = facing_piece(row, ring, anchor)
    _refuse_darts(row, piece, closed, width_mm)
    seams = tuple(dict.fromkeys(s for s in row.seams if s))
    return Facing(piece, closed, seams, ring.sewn, ring.beside)


def _anchor(pattern: Pattern, row: Row) -> Laid:
    """The end of the row whose grain the facing keeps."""
    for laid in (row.before, row.after):
        if laid.edge.name == laid.piece.fold:
            return laid
    for laid in (row.before, row.after):
        if is_centre(pattern, laid.piece, laid.edge):
            return laid
    return row.edges[0]


# -- the line inside ---------------------------------------------------------------------


def inner_line(row: Row, width_mm: float) -> tuple[Curve, float, float]:
    """Return the line a width inside a row, and where along the edges beside it the facing ends.

    Raises:
        TooWide: there is no room for it.
        NotOneLine: the row goes on at an end without a corner.
    """
    inside = Sum.of([Profile(((0.0, width_mm),))])
    # Edges that go on in one another are one line, however short the one is (a button stand's).
    lines: list[tuple[Curve, Point]] = []
    last: Laid | None = None
    for laid in row.edges:
        # A neckline that bends tightly, as beside a shoulder made to slope more, would loop.
        line = without_loops(displaced(laid.line, inside), 3 * width_mm)
        if last and abs(turn_between(last.line.end_heading, laid.line.start_heading)) < RUNS_ON_RAD:
            one, corner = lines.pop()
            lines.append((_met(one, line, laid.line.start, width_mm), corner))
        else:
            lines.append((line, laid.line.start))
        last = laid
    whole = lines[0][0]
    for line, corner in lines[1:]:
        whole = _met(whole, line, corner, width_mm)
    before, after = joined(row.beside_start), joined(row.beside_end)
    _refuse_running_on(row)
    longer = whole.run_on(_ON_MM, _ON_MM)
    at_start = nearest_crossing(longer, before, before.point_at(before.length - width_mm))
    at_end = nearest_crossing(longer, after, after.point_at(width_mm))
    room = before.length
    used = room if at_start is None else room - at_start.second_mm
    if at_start is None or not 0.0 < used < room - _LEFT_MM:
        raise _past(row.beside_start[::-1], room, width_mm)
    room = after.length
    if at_end is None or not 0.0 < at_end.second_mm < room - _LEFT_MM:
        raise _past(row.beside_end, room, width_mm)
    if at_end.first_mm - at_start.first_mm < _LEFT_MM:
        raise TooWide(f"{width_mm:.0f} mm inside nothing would be left of the facing's inner edge")
    inner = longer.part(at_start.first_mm, at_end.first_mm)
    inner = inner.started_at(at_start.point).ended_at(at_end.point)
    start_mm, end_mm = at_start.second_mm, at_end.second_mm
    if slanted(row.after, row.edges[-1], at_end=True) and width_mm < after.length - _LEFT_MM:
        inner, end_mm = _ended_along(inner, row.edges[-1].line, after, width_mm), width_mm
    if slanted(row.before, row.edges[0], at_end=False) and width_mm < before.length - _LEFT_MM:
        first = row.edges[0].line.reversed
        inner = _ended_along(inner.reversed, first, before.reversed, width_mm).reversed
        start_mm = before.length - width_mm
    return inner, start_mm, end_mm


def slanted(beside: Laid, laid: Laid, *, at_end: bool) -> bool:
    """Tell whether an edge meets what lies beside it at a slant, and not at a centre.

    A neckline may meet the shoulder at 75° in front and at 105° behind: smooth over the seam.
    """
    if _central(beside) or beside.edge.name == JOIN:
        return False
    one, other = (
        (laid.line.end_heading, beside.line.start_heading)
        if at_end
        else (laid.line.start_heading, beside.line.end_heading)
    )
    return abs(dot(one, other)) > _SQUARE


def _central(laid: Laid) -> bool:
    return laid.edge.name == laid.piece.fold or laid.edge.name.startswith("centre ")


def _ended_along(inner: Curve, edge: Curve, beside: Curve, width_mm: float) -> Curve:
    """An inner line that ends a width along what lies beside the edge's end, slanted as it.

    So the facings, or linings, of both pieces meet at the seam as their edges do.
    """
    end = beside.point_at(width_mm)
    lean = turn_between(beside.start_heading, beside.heading_at(width_mm))
    heading = turned(edge.end_heading, 0j, lean)
    keep = inner.length - min(_BLEND_MM, 0.5 * inner.length)
    head = inner.part(0.0, keep)
    handle = abs(end - head.end) / 3
    blend = Curve.cubic(head.end, head.end + head.end_heading * handle, end - heading * handle, end)
    return head.joined(blend)


def _past(beside: tuple[Laid, ...], room_mm: float, width_mm: float) -> TooWide:
    edge, whose = beside[0].edge.name, dict.fromkeys(laid.piece.label for laid in beside)
    return TooWide(
        f"{width_mm:.0f} mm inside, the facing would run past the {edge} of the "
        f"{' and the '.join(whose)}, which is {room_mm:.0f} mm long; make it narrower"
    )


def _refuse_running_on(row: Row) -> None:
    """Refuse a row whose end is no corner: the edge beside it is the same line run on.

    Raises:
        NotOneLine: it is; the sentence says what to name besides.
    """
    ends = ((row.before, row.edges[0], row.before.line.end_heading,
             row.edges[0].line.start_heading),
            (row.after, row.edges[-1], row.edges[-1].line.end_heading,
             row.after.line.start_heading))  # fmt: skip
    for beside, laid, one, two in ends:
        # A pointed neckline comes to the centre at a slant, and ends there all the same; so does
        # one that ends at another facing.
        stops = _central(beside) or beside.edge.name == JOIN
        if abs(turn_between(one, two)) < RUNS_ON_RAD and not stops:
            raise NotOneLine(
                f"the {laid.edge.name} of the {laid.piece.label} runs on into the "
                f"{beside.edge.name}: name that too, and what it ends at"
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


def _refuse_darts(row: Row, facing: Piece, closed: tuple[str, ...], width_mm: float) -> None:
    """Refuse a facing into which a dart reaches that is not closed in it.

    Raises:
        TooWide: one does.
    """
    region = Region(facing.plain_ring)
    for laid in (*row.beside_start, *row.edges, *row.beside_end):
        motion = laid.last if laid in row.beside_start else laid.first
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


__all__ = ["JOIN", "Facing", "TooWide", "facing_of", "inner_line", "slanted"]
