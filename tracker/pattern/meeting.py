"""Where neighbouring edges of a piece meet once their base lines are displaced.

A corner slides along its neighbour until each edge stands off its base line by the amount stated
there. Where it has slid to a stretch that would be moved by another amount, what is stated at the
corner is drawn as if it were stated there: fully where much would be missed, not at all where
little would, and evenly between, so that a hair more of an amount moves no line by more than a
hair.
"""

import math
from collections.abc import Collection
from dataclasses import dataclass

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.crossing import nearest_spot
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.point import SAME_MM, Point, cross, dot, left_of, unit
from tracker.geometry.profile import Profile, Sum
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.legs import RUN_ON_MM
from tracker.pattern.piece import Piece
from tracker.pattern.trimming import End

EdgeKey = tuple[str, BodySide]

#: The corner at which the neighbour is run on square to the seam.
UNDERARM = "underarm point"
#: Edges that bend by less at their corner (as a slope) are one line: neither slides along the
#: other, they move together.
STRAIGHT_ON = 0.02
#: Of an amount stated at a corner so much may be missed there before any of it is held, and so
#: much before it is held fully, millimetres.
_LET_GO_MM, _HELD_MM = 0.0025, 0.0075
#: A nothing stated at a corner is held fully where all that is stated there adds to this,
#: millimetres, and evenly less below: where it adds to nothing the line is only cut.
_NOTHING_HELD_MM = 1.0
#: The foot of a corner is found to this, millimetres.
_FOUND_MM = 1e-6
_ROUNDS = 6


class DoesNotMeet(PatternError):
    """Lines moved so far that they no longer meet, or cross what lies between."""


@dataclass(frozen=True, slots=True)
class Corner:
    """How the edge before a corner ends there, and how the one after it begins."""

    before: End
    after: End


_NOTHING = Sum(())


class Meeting:
    """The displaced lines of a piece, and where they meet."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.corners: dict[int, Corner] = {}
        self._totals: dict[EdgeKey, Sum] = {}
        self._amounts: dict[int, tuple[Edge, Edge, float, float]] = {}
        self._lines: dict[EdgeKey, tuple[Curve, ...]] = {}
        # How far inside the base line, at either end, the corner's foot lies.
        self._feet: dict[EdgeKey, tuple[float, float]] = {}

    def total(self, edge: Edge) -> Sum:
        """All displacements of an edge, as the store will keep them."""
        if not edge.displacements:
            return _NOTHING
        known = self._totals.get(edge.key)
        if known is None:
            known = self._totals[edge.key] = Sum.of(
                d.profile.rounded for d in edge.displacements
            ).merged
        return known

    def line(self, edge: Edge) -> tuple[Curve, ...]:
        """The edge's full lines, part by part: base displaced, not trimmed."""
        known = self._lines.get(edge.key)
        if known is None:
            total = self.total(edge)
            known = edge.base_lines
            if total.profiles:
                total = _drawn_in(edge, total, *self._feet.get(edge.key, (0.0, 0.0)))
                out, at = [], 0.0
                for base in known:
                    out.append(displaced(base, total, at))
                    at += base.length
                known = tuple(out)
            self._lines[edge.key] = known
        return known

    def meet(self, edges: Collection[int]) -> None:
        """Work out the corners at both ends of some edges, and what must be held for them."""
        n = len(self.piece.edges)
        around = sorted({i for k in edges for i in (k, (k + 1) % n)})
        for _ in range(_ROUNDS):
            self._meet(around)
            news = [i for i in around if self._held(i)]
            if not news:
                return
        self._meet(around)

    def forget(self) -> None:
        """Begin again: more edges are to be drawn."""
        self._feet, self._lines, self.corners = {}, {}, {}

    def _meet(self, around: Collection[int]) -> None:
        for i in around:
            if i not in self.corners:
                self.corners[i] = self._corner(i)

    def _at_corner(self, i: int) -> tuple[Edge, Edge, float, float]:
        """The edges that meet at the start of edge i, and how far each is moved there."""
        known = self._amounts.get(i)
        if known is None:
            before, after = self.piece.edges[i - 1], self.piece.edges[i]
            first, second = self.total(before), self.total(after)
            one = first.at(before.base_length)[0] if first.profiles else 0.0
            two = second.at(0.0)[0] if second.profiles else 0.0
            known = self._amounts[i] = before, after, one, two
        return known

    def _expected(self, i: int) -> Point:
        """About where a corner will be, by the directions of its two base lines there."""
        before, after, one, two = self._at_corner(i)
        corner = before.base_lines[-1].end
        h1, h2 = before.base_lines[-1].end_heading, after.base_lines[0].start_heading
        det = cross(h1, h2)
        if abs(det) < 0.1:
            return corner + (left_of(h1) * one if abs(one) > abs(two) else left_of(h2) * two)
        return corner + (h2 * one - h1 * two) / det

    # -- amounts held at a corner --------------------------------------------------------------

    def _held(self, i: int) -> bool:
        """Hold what is stated at a corner where it has slid to; tell whether that is news."""
        if i not in self.corners:
            return True
        before, after, one, two = self._at_corner(i)
        corner = self.corners[i]
        first = corner.before.cut is not None and self._stated(before, before.base_length)
        second = corner.after.cut is not None and self._stated(after, 0.0)
        if not first and not second:
            return False
        # Both directions first: holding the one edge has its line drawn again.
        ahead = _heading(self.line(after)[0], corner.after, at_end=False)
        back = _heading(self.line(before)[-1], corner.before, at_end=True)
        again = False
        if first:
            again = self._hold(before, one, corner.before.point, ahead, at_end=True)
        if second:
            again = self._hold(after, two, corner.after.point, back, at_end=False) or again
        return again

    def _stated(self, edge: Edge, at_mm: float) -> bool:
        """Tell whether anything but nothing is stated there, though it may add to nothing."""
        return any(p.at(at_mm)[0] for p in self._of(edge))

    def _hold(
        self, edge: Edge, amount: float, point: Point, neighbour: Point, *, at_end: bool
    ) -> bool:
        low, high = self._feet.get(edge.key, (0.0, 0.0))
        now = high if at_end else low
        foot = self._foot(edge, amount, point, neighbour, at_end)
        if abs(foot - now) <= _FOUND_MM:
            return False
        ends = (low, foot) if at_end else (foot, high)
        if ends[0] + ends[1] >= edge.base_length - 1.0:
            return False
        self._feet[edge.key] = ends
        total = self.total(edge)
        if _drawn_in(edge, total, *ends) == _drawn_in(edge, total, low, high):
            return False
        self._lines.pop(edge.key, None)
        k = self.piece.edge_index(edge)
        self.corners.pop(k, None)
        self.corners.pop((k + 1) % len(self.piece.edges), None)
        return True

    def _foot(
        self, edge: Edge, amount: float, point: Point, neighbour: Point, at_end: bool
    ) -> float:
        """How far inside the base line's end a corner lies, when it has all of its amount."""
        base = edge.base_lines[-1 if at_end else 0]
        index, t, _ = base.nearest_spot(point)
        along = base.distance_of(index, t)
        inside = base.length - along if at_end else along
        if not SAME_MM < inside < base.length:
            return 0.0
        whole = edge.base_length
        if all(_share(p, inside, whole, amount, at_end) in (None, 1.0) for p in self._of(edge)):
            # Where the corner will be once the amount is had there, along its neighbour.
            segment = base.segments[index]
            heading = bezier.heading(segment, t)
            off = cross(heading, point - bezier.point_on(segment, t))
            square = cross(heading, neighbour)
            if abs(square) > 0.2:
                on = (amount - off) / square * dot(heading, neighbour)
                return min(max(inside + (-on if at_end else on), SAME_MM), base.length)
        return inside

    def _of(self, edge: Edge) -> tuple[Profile, ...]:
        return self.total(edge).profiles

    # -- corners -------------------------------------------------------------------------------

    def _corner(self, i: int) -> Corner:
        """Where two neighbouring edges meet, and how each comes to end there."""
        before, after, one, two = self._at_corner(i)
        line, other = self.line(before)[-1], self.line(after)[0]
        gap = abs(line.end - other.start)
        if gap <= SAME_MM:
            return Corner(End(other.start), End(other.start))
        if gap < 2 * STRAIGHT_ON * max(abs(one), 1.0) and (
            abs(cross(line.end_heading, other.start_heading)) < STRAIGHT_ON
        ):
            middle = (line.end + other.start) / 2
            return Corner(End(middle), End(middle))
        if before.end == UNDERARM:
            level = _level_underarm(line, other, one, two)
            if level is not None:
                return level
        spot = nearest_spot(
            line.run_on(after_mm=RUN_ON_MM), other.run_on(before_mm=RUN_ON_MM), self._expected(i)
        )
        if spot is None:
            raise DoesNotMeet(
                f"the {before.name} and the {after.name} of the {self.piece.label} no longer "
                f"meet at the {before.end}; a smaller amount there would"
            )
        point = spot.point
        first = End(point, spot.first)
        if spot.first[0] == len(line.runs):
            first = End.run_on(line.end, line.end_heading, point)
        second = End(point, (spot.second[0] - 1, spot.second[1]))
        if spot.second[0] == 0:
            second = End.run_on(other.start, -other.start_heading, point)
        return Corner(first, second)


def _level_underarm(line: Curve, other: Curve, one: float, two: float) -> Corner | None:
    """Let a seam out past the armhole's end: the armhole is run on square to the seam.

    Run on by its own direction it would rise or fall, and with it the underarm.
    """
    if one < 0.0 and two == 0.0:
        seam_end, along, hole_end, hole_out = (
            line.end, line.end_heading, other.start, -other.start_heading,
        )  # fmt: skip
    elif two < 0.0 and one == 0.0:
        seam_end, along, hole_end, hole_out = (
            other.start, -other.start_heading, line.end, line.end_heading,
        )  # fmt: skip
    else:
        return None
    corner = seam_end + along * dot(hole_end - seam_end, along)
    square = unit(corner - hole_end)
    if dot(square, hole_out) < math.cos(math.radians(45)):
        return None
    reach = abs(corner - hole_end)
    bend = abs(cross(square, hole_out))
    on: Segment = (hole_end, corner)
    if bend > math.sin(math.radians(0.9)):
        on = hole_end, hole_end + hole_out * (reach / 3), corner - square * (reach / 3), corner
    seam = End.run_on(seam_end, along, corner)
    if dot(corner - seam_end, along) < -SAME_MM:
        return None
    hole = End(corner, on=on)
    return Corner(seam, hole) if one < 0.0 else Corner(hole, seam)


def _heading(line: Curve, end: End, *, at_end: bool) -> Point:
    """The direction of a line where it ends at a corner."""
    if end.cut:
        return bezier.heading(line.segments[end.cut[0]], end.cut[1])
    return line.end_heading if at_end else line.start_heading


def _share(
    profile: Profile, inside_mm: float, whole_mm: float, total_mm: float, at_end: bool
) -> float | None:
    """How much of the way to a corner's foot an amount stated at the corner is held.

    All of it for a nothing beside what others state (``total_mm`` in all), so that a step that
    does nothing at a corner leaves it; none for an amount stated elsewhere.
    """
    place, amount = profile.knots[-1 if at_end else 0]
    if place > whole_mm + SAME_MM if at_end else place < -SAME_MM:
        return None
    if amount == 0.0:
        return _eased(abs(total_mm) / _NOTHING_HELD_MM)
    missed = abs(profile.at(whole_mm - inside_mm if at_end else inside_mm)[0] - amount)
    return _eased((missed - _LET_GO_MM) / (_HELD_MM - _LET_GO_MM))


def _eased(share: float) -> float:
    """From 0 to 1 without a bend at either end."""
    share = min(max(share, 0.0), 1.0)
    return share * share * (3 - 2 * share)


def _drawn_in(edge: Edge, total: Sum, low: float, high: float) -> Sum:
    """Draw amounts stated at an edge's ends further in; those stated beyond it stay.

    Args:
        edge: the edge.
        total: its displacements.
        low: how far inside its base line's start the corner lies; 0 where it does not.
        high: the same at its end.
    """
    if low == high == 0.0:
        return total
    whole = edge.base_length
    one, two = total.at(0.0)[0], total.at(whole)[0]
    out = []
    for profile in total.profiles:
        first = _share(profile, low, whole, one, False) if low else None
        last = _share(profile, high, whole, two, True) if high else None
        out.append(
            profile.held(
                low * first if first else -math.inf, whole - high * last if last else math.inf
            )
        )
    return Sum.of(out)
