"""Where lines cross: a chain and a straight line, two chains."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Box, Curve, box_of
from tracker.geometry.point import Point, cross, dot, unit

#: A line that comes this near, millimetres, touches.
TOUCH_MM = 1e-7
#: Crossings with a line this near one another, millimetres, are one.
_ONE_MM = 1e-5


@dataclass(frozen=True, slots=True)
class Crossing:
    """A point two lines share.

    Attributes:
        point: where they meet.
        first_mm: distance along the first line.
        second_mm: distance along the second line.
    """

    point: Point
    first_mm: float
    second_mm: float


@dataclass(frozen=True, slots=True)
class Spot:
    """A crossing by segment number and parameter on each line."""

    point: Point
    first: tuple[int, float]
    second: tuple[int, float]


def with_line(curve: Curve, through: Point, heading: Point) -> list[Crossing]:
    """Return the crossings of a chain with an endless straight line, in order along the chain.

    Touching counts, at an end or in passing, to 1e-7 mm. ``second_mm`` is the distance from
    ``through`` along ``heading``, negative behind it.
    """
    direction = unit(heading)
    found: list[Crossing] = []
    for index, segment in enumerate(curve.segments):
        for t in _on_line(segment, through, direction):
            point = bezier.point_on(segment, t)
            first = curve.distance_of(index, t)
            if not any(abs(first - c.first_mm) < _ONE_MM for c in found):
                found.append(Crossing(point, first, dot(point - through, direction)))
    return sorted(found, key=lambda c: c.first_mm)


def _on_line(segment: Segment, through: Point, direction: Point) -> Iterator[float]:
    offs = [cross(direction, p - through) for p in segment]
    if min(offs) > TOUCH_MM or max(offs) < -TOUCH_MM:
        return
    for end in (0, -1):
        if abs(offs[end]) < TOUCH_MM:
            offs[end] = 0.0
    yield from bezier.roots(tuple(offs))
    if len(segment) == 4:
        # Where the segment runs along the line it may touch without crossing.
        a, b, c = offs[1] - offs[0], offs[2] - offs[1], offs[3] - offs[2]
        for t in bezier.roots((a, b, c)):
            if abs(cross(direction, bezier.point_on(segment, t) - through)) < TOUCH_MM:
                yield t


def of_curves(one: Curve, other: Curve) -> list[Crossing]:
    """Return the crossings of two chains, in order along the first.

    Lines that lie on one another have no crossings there.
    """
    found = [
        Crossing(s.point, one.distance_of(*s.first), other.distance_of(*s.second))
        for s in spots(one, other)
    ]
    return sorted(found, key=lambda c: c.first_mm)


def spots(one: Curve, other: Curve) -> list[Spot]:
    """Return the crossings of two chains by segment and parameter, each place once."""
    found: list[Spot] = []
    for i, box_a in enumerate(one.boxes):
        for j, box_b in enumerate(other.boxes):
            if not _apart(box_a, box_b):
                for t, u in _pairs(one.segments[i], other.segments[j]):
                    point = bezier.point_on(one.segments[i], t)
                    if not any(abs(point - s.point) < 1e-6 for s in found):
                        found.append(Spot(point, (i, t), (j, u)))
    return found


def nearest_crossing(one: Curve, other: Curve, to: Point) -> Crossing | None:
    """Return the crossing nearest to a point, or nothing where the chains do not meet."""
    spot = nearest_spot(one, other, to)
    if spot is None:
        return None
    return Crossing(spot.point, one.distance_of(*spot.first), other.distance_of(*spot.second))


def nearest_spot(one: Curve, other: Curve, to: Point) -> Spot | None:
    """Return the crossing nearest to a point, by segment and parameter."""
    return min(spots(one, other), key=lambda s: abs(s.point - to), default=None)


def _apart(a: Box, b: Box) -> bool:
    # A hair of room, so that lines meeting end to end are still found.
    hair = TOUCH_MM
    return a[2] < b[0] - hair or b[2] < a[0] - hair or a[3] < b[1] - hair or b[3] < a[1] - hair


def _pairs(a: Segment, b: Segment) -> list[tuple[float, float]]:
    if len(a) == 2:
        if a[0] == a[1]:
            return []
        direction = unit(a[1] - a[0])
        size = abs(a[1] - a[0])
        # A hair beyond an end, in millimetres, still counts as the end.
        return [
            (min(1.0, max(0.0, along / size)), u)
            for u in _on_line(b, a[0], direction)
            if -TOUCH_MM
            <= (along := dot(bezier.point_on(b, u) - a[0], direction))
            <= size + TOUCH_MM
        ]
    if len(b) == 2:
        return [(t, u) for u, t in _pairs(b, a)]
    search = _Search(a, b)
    # Lines that go on in one another meet at their ends, whatever their directions.
    for t, p in ((0.0, a[0]), (1.0, a[3])):
        for u, q in ((0.0, b[0]), (1.0, b[3])):
            if abs(p - q) < TOUCH_MM:
                search.touch(t, u)
    search.within((a, 0.0, 1.0), (b, 0.0, 1.0), 0)
    return search.found + (search.touching if len(search.touching) < _ALONG else [])


_Part = tuple[Segment, float, float]
#: Touchings this near one another are one, millimetres.
_ONE_TOUCH_MM = 0.1
#: So many touchings side by side are lines that lie on one another.
_ALONG = 40


class _Search:
    """Halves two cubics until each pair of parts can cross at most once, and solves that."""

    def __init__(self, a: Segment, b: Segment) -> None:
        self.a, self.b = a, b
        self.found: list[tuple[float, float]] = []
        self.touching: list[tuple[float, float]] = []
        self.touched: list[Point] = []

    def touch(self, t: float, u: float) -> None:
        point = bezier.point_on(self.a, t)
        if all(abs(point - spot) > _ONE_TOUCH_MM for spot in self.touched):
            self.touching.append((t, u))
            self.touched.append(point)

    def met(self, t: float, u: float) -> bool:
        return abs(bezier.point_on(self.a, t) - bezier.point_on(self.b, u)) < TOUCH_MM

    def within(self, part_a: _Part, part_b: _Part, depth: int) -> None:
        (a, t0, t1), (b, u0, u1) = part_a, part_b
        if _apart(box_of(a), box_of(b)) or len(self.touching) >= _ALONG:
            return
        if _at_most_one(a, b):
            t, u = _newton(self.a, self.b, *_start(part_a, part_b))
            hair = 1e-9
            if t0 - hair <= t <= t1 + hair and u0 - hair <= u <= u1 + hair and self.met(t, u):
                self.found.append((t, u))
        elif depth >= 18 or max(abs(a[3] - a[0]), abs(b[3] - b[0])) < 0.01:
            t, u = _newton(self.a, self.b, (t0 + t1) / 2, (u0 + u1) / 2)
            if abs(t - t0) <= 2 * (t1 - t0) and self.met(t, u):
                self.touch(t, u)
        elif not _beside(a, b) and not any(_is_near(a, spot) for spot in self.touched):
            for half_a in _halves(part_a):
                for half_b in _halves(part_b):
                    self.within(half_a, half_b, depth + 1)


def _beside(a: Segment, b: Segment) -> bool:
    """Tell whether the second lies wholly to one side of the strip the first lies in."""
    chord = unit(a[3] - a[0])
    strip = [cross(chord, p - a[0]) for p in a]
    offs = [cross(chord, p - a[0]) for p in b]
    return min(offs) > max(strip) + TOUCH_MM or max(offs) < min(strip) - TOUCH_MM


def _is_near(segment: Segment, spot: Point) -> bool:
    return max(abs(p - spot) for p in segment) < _ONE_TOUCH_MM


def _halves(part: _Part) -> tuple[_Part, _Part]:
    first, second = bezier.split(part[0], 0.5)
    middle = (part[1] + part[2]) / 2
    return (first, part[1], middle), (second, middle, part[2])


def _at_most_one(a: Segment, b: Segment) -> bool:
    """Tell whether every direction of the one differs from every direction of the other."""
    chord_a, chord_b = a[3] - a[0], b[3] - b[0]
    sizes = abs(chord_a) * abs(chord_b)
    if sizes == 0.0:
        return False
    return _spread(a, chord_a) + _spread(b, chord_b) < 0.9 * abs(cross(chord_a, chord_b)) / sizes


def _spread(segment: Segment, chord: Point) -> float:
    """Return the greatest slope of a cubic's handles against its chord."""
    worst = 0.0
    for k in range(3):
        step = segment[k + 1] - segment[k]
        along = dot(step, chord)
        if along <= 0.0:
            if step:
                return math.inf
            continue
        worst = max(worst, abs(cross(step, chord)) / along)
    return worst


def _start(part_a: _Part, part_b: _Part) -> tuple[float, float]:
    """Guess by the crossing of the chords, held inside the parts."""
    (a, t0, t1), (b, u0, u1) = part_a, part_b
    va, vb, between = a[3] - a[0], b[3] - b[0], b[0] - a[0]
    det = cross(va, vb)
    x, y = (cross(between, vb) / det, cross(between, va) / det) if det else (0.5, 0.5)
    return t0 + (t1 - t0) * min(1.0, max(0.0, x)), u0 + (u1 - u0) * min(1.0, max(0.0, y))


def _newton(a: Segment, b: Segment, t: float, u: float) -> tuple[float, float]:
    for _ in range(20):
        miss = bezier.point_on(a, t) - bezier.point_on(b, u)
        va, vb = bezier.velocity(a, t), bezier.velocity(b, u)
        det = cross(va, -vb)
        if abs(det) < 1e-12:
            break
        dt, du = cross(-miss, -vb) / det, cross(va, -miss) / det
        t, u = min(1.0, max(0.0, t + dt)), min(1.0, max(0.0, u + du))
        if abs(dt) < 1e-15 and abs(du) < 1e-15:
            break
    return t, u
