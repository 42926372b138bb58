"""Finishing two panels: rounding over the bust, walking, truing the waist, marking."""

import itertools
import math
from dataclasses import dataclass, replace

from tracker.drafting.style_region import Region
from tracker.drafting.style_round import (
    Bulge,
    bulge,
    rounded_corner,
    with_end_heading,
    with_start_heading,
)
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.point import SAME_MM, Point, along, dot, left_of, turn_between, turned, unit
from tracker.geometry.profile import Profile, Sum
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.measure import corner_angle
from tracker.pattern.piece import Piece

#: A corner of less than this is no corner.
NO_BEND_RAD = math.radians(0.5)
#: A difference of the two sides under this is left.
NO_DIFFERENCE_MM = 0.005
#: The waist is blended over this much of it when its end is moved or bent.
BLEND_MM = 60.0
#: A material line ends on an edge within this.
ON_EDGE_MM = 0.05
#: A line that is rounded moves by less than this, and with it the ends of the lines drawn to it.
ENDS_WITHIN_MM = 20.0
#: A grain line keeps this share of its chord clear at either end.
GRAIN_CLEAR = 0.15
#: The piece's own grain line is kept on the panel it lies on, if it is this far inside it.
GRAIN_INSIDE_MM = 10.0


@dataclass(frozen=True, slots=True)
class SeamEnd:
    """One panel's edge in the new seam, and the edge it meets at its foot.

    Attributes:
        seam: the seam edge's name.
        side: the wearer's side it lies on.
        top: the corner at its top.
        foot: the corner at its foot.
        waist: the edge it meets there.
    """

    seam: str
    side: BodySide
    top: str
    foot: str
    waist: str

    def edge(self, piece: Piece) -> Edge:
        """The panel's edge in the seam."""
        return piece.edge(self.seam, self.side)

    def from_top(self, piece: Piece, point: Point) -> float:
        """Return how far from its top a point of the edge lies."""
        edge = self.edge(piece)
        at = edge.nearest(point)[0]
        return at if edge.start == self.top else edge.length - at


def rounded_over(
    piece: Piece, end: SeamEnd, corner: Point, reach_mm: float
) -> tuple[Piece, Bulge, Bulge]:
    """Round a panel's corner in the seam; return it and how far the line moved above and below."""
    edge = end.edge(piece)
    index = min(range(len(edge.parts)), key=lambda i: edge.parts[i].nearest(corner)[1])
    line = edge.parts[index]
    at = line.nearest(corner)[0]
    if not 0 < at < line.length:
        return piece, Bulge(0.0, 0.0), Bulge(0.0, 0.0)
    before, after = line.split(at)
    bend = turn_between(before.end_heading, after.start_heading)
    if reach_mm <= 0 or abs(bend) < NO_BEND_RAD:
        return piece, Bulge(0.0, 0.0), Bulge(0.0, 0.0)
    new = rounded_corner(line, at, min(reach_mm, 0.7 * at, 0.7 * (line.length - at)))
    moved = [bulge(line, new, corner, towards_start) for towards_start in (True, False)]
    if edge.start != end.top:
        moved.reverse()
    parts = (*edge.parts[:index], new, *edge.parts[index + 1 :])
    fresh = piece.with_edge(replace(edge, parts=parts))
    return ends_again(fresh, line, new), moved[0], moved[1]


def ends_again(piece: Piece, old: Curve, new: Curve) -> Piece:
    """Let the material lines that ended on a line end on what it was redrawn to."""
    return replace(
        piece,
        levels=tuple(
            replace(v, strokes=tuple(_ended(_ended(s, old, new)[::-1], old, new)[::-1]
                                     for s in v.strokes))
            for v in piece.levels
        ),
    )  # fmt: skip


def _ended(stroke: Stroke, old: Curve, new: Curve) -> Stroke:
    end = stroke[-1]
    if old.nearest(end)[1] > ON_EDGE_MM or new.nearest(end)[1] <= SAME_MM:
        return stroke
    # The new line may lie several of the stroke's points further in, or further out.
    line = Curve.line(*stroke).run_on(after_mm=ENDS_WITHIN_MM)
    length = line.length - ENDS_WITHIN_MM
    meetings = [c for c in of_curves(line, new) if abs(c.first_mm - length) <= ENDS_WITHIN_MM]
    if not meetings:
        return stroke
    at = min(meetings, key=lambda c: abs(c.first_mm - length)).first_mm
    ended = line.part(0.0, at)
    return (ended.start, *(run[-1] for run in ended.runs))


def trimmed_at_foot(piece: Piece, end: SeamEnd, by_mm: float) -> Piece:
    """Take a length off a panel's seam edge at the waist, the waist blended up to it."""
    edge, waist = end.edge(piece), piece.edge(end.waist, end.side)
    at_start = edge.start == end.foot
    line = edge.parts[0 if at_start else -1]
    short = line.part(by_mm, line.length) if at_start else line.part(0.0, line.length - by_mm)
    foot = short.start if at_start else short.end
    index = len(waist.parts) - 1 if at_start else 0
    part = waist.parts[index]
    over = min(BLEND_MM, 0.8 * part.length)
    heading = part.end_heading if at_start else part.start_heading
    up = dot(foot - (part.end if at_start else part.start), left_of(heading))
    if at_start:
        knots = ((part.length - over, 0.0), (part.length, up))
        moved = displaced(part, Sum.of([Profile(knots)])).ended_at(foot)
    else:
        moved = displaced(part, Sum.of([Profile(((0.0, up), (over, 0.0)))])).started_at(foot)
    rest = (short, *edge.parts[1:]) if at_start else (*edge.parts[:-1], short)
    fresh = piece.with_edge(replace(edge, parts=rest))
    return _with_part(fresh, waist, index, moved)


def _with_part(piece: Piece, edge: Edge, index: int, part: Curve) -> Piece:
    parts = (*edge.parts[:index], part, *edge.parts[index + 1 :])
    return piece.with_edge(replace(edge, parts=parts, bases=(), displacements=()))


def join_deg(one: Piece, other: Piece, end: SeamEnd, at_foot: bool) -> float:
    """Return what two panels' corners at an end of their seam add to, degrees."""
    total = 0.0
    corner = end.foot if at_foot else end.top
    for piece in (one, other):
        edge = end.edge(piece)
        total += corner_angle(piece, edge, edge.end == corner)
    return total


def trued_at_foot(piece: Piece, end: SeamEnd, by_rad: float) -> tuple[Piece, float]:
    """Make a panel's corner at the waist smaller by an angle; return it and the furthest move."""
    waist = piece.edge(end.waist, end.side)
    at_end = waist.end == end.foot
    index = len(waist.parts) - 1 if at_end else 0
    part = waist.parts[index]
    over = min(BLEND_MM, 0.5 * part.length)
    if at_end:
        new = with_end_heading(part, over, turned(part.end_heading, 0j, -by_rad))
    else:
        new = with_start_heading(part, over, turned(part.start_heading, 0j, by_rad))
    most = max(part.nearest(new.point_at(new.length * k / 60))[1] for k in range(61))
    return _with_part(piece, waist, index, new), most


def seam_notch(piece: Piece, end: SeamEnd, name: str, from_top_mm: float, count: int) -> Piece:
    """Add a notch to a panel's seam edge, kept from the top: what is trimmed is at the waist."""
    notch = Notch(name, end.side, end.seam, end.top, from_top_mm, count)
    return replace(piece, notches=(*piece.notches, notch))


def with_grain(piece: Piece, heading: Point, line: str) -> Piece:
    """Give a panel a grain line in a direction, through its middle at a material line."""
    if piece.grain and _well_inside(piece, piece.grain):
        return piece
    through = middle_at(piece, line)
    spots = sorted(c.second_mm for curve in piece.plain_ring
                   for c in with_line(curve, through, heading))  # fmt: skip
    below = [s for s in spots if s < -1.0]
    above = [s for s in spots if s > 1.0]
    if not below or not above:
        return replace(piece, grain=None)
    low, high = through + unit(heading) * below[-1], through + unit(heading) * above[0]
    return replace(piece, grain=(along(low, high, GRAIN_CLEAR), along(low, high, 1 - GRAIN_CLEAR)))


def _well_inside(piece: Piece, grain: tuple[Point, Point]) -> bool:
    """Tell whether a grain line lies on the piece, clear of its outline."""
    line = Curve.line(*grain)
    region = Region(piece.plain_ring)
    return (
        all(region.holds(p) for p in grain)
        and not any(of_curves(line, curve) for curve in piece.plain_ring)
        and all(c.nearest(p)[1] > GRAIN_INSIDE_MM for c in piece.plain_ring for p in grain)
    )


def middle_at(piece: Piece, line: str) -> Point:
    """Return the middle of a panel at a material line, or of its box where it has none."""
    strokes = [s for v in piece.levels if v.name == line for s in v.strokes]
    if not strokes:
        x0, y0, x1, y1 = piece.box
        return complex((x0 + x1) / 2, (y0 + y1) / 2)
    stroke = max(strokes, key=_length)
    rest = _length(stroke) / 2
    for a, b in itertools.pairwise(stroke):
        if rest <= abs(b - a):
            return a + unit(b - a) * rest
        rest -= abs(b - a)
    return stroke[-1]


def _length(stroke: Stroke) -> float:
    return sum(abs(b - a) for a, b in itertools.pairwise(stroke))


def level_crossing(level: Level, line: Curve) -> Point | None:
    """Return where a material line crosses a style line, or nothing."""
    for stroke in level.strokes:
        for a, b in itertools.pairwise(stroke):
            for c in with_line(line, a, b - a):
                if -ON_EDGE_MM <= c.second_mm <= abs(b - a) + ON_EDGE_MM:
                    return c.point
    return None
