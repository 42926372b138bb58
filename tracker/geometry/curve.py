"""A chain of segments: the line of an edge, measured and cut by distance along it."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.point import SAME_MM, Point, cross, dot, rounded
from tracker.geometry.transform import Motion

Run = tuple[Point, ...]
Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Curve:
    """A continuous chain of straight lines and cubic Béziers.

    Attributes:
        start: the first point, millimetres.
        runs: what follows, segment by segment: the end point of a straight line, or two
            handles and the end point of a cubic.

    Example:
        >>> Curve.line(0j, 30 + 40j).length
        50.0
    """

    start: Point
    runs: tuple[Run, ...]

    @classmethod
    def line(cls, *points: Point) -> "Curve":
        """Join points by straight lines."""
        return cls(points[0], tuple((p,) for p in points[1:]))

    @classmethod
    def cubic(cls, a: Point, b: Point, c: Point, d: Point) -> "Curve":
        """Return a chain of one cubic."""
        return cls(a, ((b, c, d),))

    @classmethod
    def of(cls, segments: Iterable[Segment]) -> "Curve":
        """Chain segments; each starts where the one before ended."""
        chain = tuple(segments)
        return cls(chain[0][0], tuple(s[1:] for s in chain))

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """The segments with their start points."""
        out: list[Segment] = []
        start = self.start
        for run in self.runs:
            out.append((start, *run))
            start = run[-1]
        return tuple(out)

    @cached_property
    def lengths(self) -> tuple[float, ...]:
        """The length of each segment, millimetres."""
        return tuple(bezier.arc_length(s) for s in self.segments)

    @cached_property
    def length(self) -> float:
        """The whole length, millimetres."""
        return sum(self.lengths)

    @property
    def end(self) -> Point:
        """The last point."""
        return self.runs[-1][-1] if self.runs else self.start

    @cached_property
    def start_heading(self) -> Point:
        """The unit direction at the start, along the chain."""
        return bezier.heading(self.segments[0], 0.0)

    @cached_property
    def end_heading(self) -> Point:
        """The unit direction at the end, along the chain."""
        return bezier.heading(self.segments[-1], 1.0)

    def locate(self, distance_mm: float) -> tuple[int, float]:
        """Return segment number and parameter at a distance along; held inside the chain."""
        rest = distance_mm
        last = len(self.lengths) - 1
        for index, length in enumerate(self.lengths):
            if rest <= length + SAME_MM or index == last:
                if rest <= SAME_MM:
                    return index, 0.0
                if rest >= length - SAME_MM:
                    return (index + 1, 0.0) if index < last else (index, 1.0)
                return index, bezier.parameter_at(self.segments[index], rest, length)
            rest -= length
        return last, 1.0

    def point_at(self, distance_mm: float) -> Point:
        """Return the point at a distance along, held inside the chain."""
        index, t = self.locate(distance_mm)
        return bezier.point_on(self.segments[index], t)

    def heading_at(self, distance_mm: float) -> Point:
        """Return the unit direction at a distance along."""
        index, t = self.locate(distance_mm)
        return bezier.heading(self.segments[index], t)

    @cached_property
    def reaches(self) -> tuple[float, ...]:
        """The distance along at which each segment begins, millimetres."""
        return tuple(itertools.accumulate(self.lengths[:-1], initial=0.0))

    @cached_property
    def boxes(self) -> tuple[Box, ...]:
        """For each segment a box that holds it (by its handles)."""
        return tuple(box_of(segment) for segment in self.segments)

    def distance_of(self, index: int, t: float) -> float:
        """Return the distance along of a parameter on one segment."""
        if t == 1.0:
            return self.reaches[index] + self.lengths[index]
        return self.reaches[index] + bezier.arc_length(self.segments[index], 0.0, t)

    def part(self, from_mm: float, to_mm: float) -> "Curve":
        """Return the stretch between two distances; segments wholly inside are unchanged."""
        first, t0 = self.locate(from_mm)
        last, t1 = self.locate(to_mm)
        if t1 == 0.0 and last > 0:
            last, t1 = last - 1, 1.0
        if (last, t1) <= (first, t0):
            here = bezier.point_on(self.segments[first], t0)
            return Curve(here, ((here,),))
        if first == last:
            return Curve.of([bezier.between(self.segments[first], t0, t1)])
        head = bezier.between(self.segments[first], t0, 1.0)
        tail = bezier.between(self.segments[last], 0.0, t1)
        return Curve.of([head, *self.segments[first + 1 : last], tail])

    def split(self, at_mm: float) -> tuple["Curve", "Curve"]:
        """Cut at a distance along."""
        return self.part(0.0, at_mm), self.part(at_mm, self.length)

    @cached_property
    def reversed(self) -> "Curve":
        """The same line run the other way."""
        return Curve.of(tuple(reversed(s)) for s in reversed(self.segments))

    def moved(self, motion: Motion) -> "Curve":
        """Return the chain moved as a rigid whole."""
        return Curve(
            motion.of(self.start), tuple(tuple(motion.of(p) for p in run) for run in self.runs)
        )

    def joined(self, after: "Curve") -> "Curve":
        """Chain another after this one; its start is taken to be this one's end."""
        return Curve(self.start, self.runs + after.runs)

    def run_on(self, before_mm: float = 0.0, after_mm: float = 0.0) -> "Curve":
        """Return the chain run on straight at its ends."""
        start, runs = self.start, self.runs
        if after_mm > 0:
            runs = (*runs, (self.end + self.end_heading * after_mm,))
        if before_mm > 0:
            runs = ((start,), *runs)
            start = start - self.start_heading * before_mm
        return Curve(start, runs)

    def ended_at(self, end: Point) -> "Curve":
        """Return the chain with its last point put at ``end``, the last handle going along."""
        *head, last = self.runs
        if len(last) == 1:
            return Curve(self.start, (*head, (end,)))
        return Curve(self.start, (*head, (last[0], last[1] + (end - last[2]), end)))

    def started_at(self, start: Point) -> "Curve":
        """Return the chain with its first point put at ``start``, the first handle along."""
        return self.reversed.ended_at(start).reversed

    @cached_property
    def rounded(self) -> "Curve":
        """The chain as the store keeps it, to 1e-6 mm."""
        return Curve(
            rounded(self.start), tuple(tuple(rounded(p) for p in run) for run in self.runs)
        )

    @cached_property
    def swept(self) -> float:
        """Twice the signed area swept from the origin, mm²; exact for cubics (Green)."""
        total = 0.0
        for segment in self.segments:
            if len(segment) == 2:
                total += cross(segment[0], segment[1])
            else:
                a, b, c, d = segment
                total += 0.1 * (
                    6 * cross(a, b) + 3 * cross(a, c) + cross(a, d)
                    + 3 * cross(b, c) + 3 * cross(b, d) + 6 * cross(c, d)
                )  # fmt: skip
        return total

    @cached_property
    def box(self) -> Box:
        """A box that holds the chain: least x, least y, greatest x, greatest y (by handles)."""
        boxes = self.boxes
        return (
            min(b[0] for b in boxes), min(b[1] for b in boxes),
            max(b[2] for b in boxes), max(b[3] for b in boxes),
        )  # fmt: skip

    def nearest_spot(self, point: Point) -> tuple[int, float, float]:
        """Return segment number, parameter and gap of the point nearest to ``point``."""
        x, y = point.real, point.imag
        best = 0, 0.0, abs(self.start - point)
        for index, segment in enumerate(self.segments):
            left, low, right, high = self.boxes[index]
            dx = left - x if x < left else x - right if x > right else 0.0
            dy = low - y if y < low else y - high if y > high else 0.0
            if dx * dx + dy * dy < best[2] * best[2]:
                for t in _feet(segment, point):
                    gap = abs(bezier.point_on(segment, t) - point)
                    if gap < best[2]:
                        best = index, t, gap
        return best

    def nearest(self, point: Point) -> tuple[float, float]:
        """Return distance along and gap of the point of the chain nearest to ``point``."""
        index, t, gap = self.nearest_spot(point)
        return self.distance_of(index, t), gap

    def flattened(self, tolerance_mm: float) -> list[Point]:
        """Return points on the chain; the lines between them stand off at most the tolerance."""
        out = [self.start]
        for segment in self.segments:
            out.extend(_flat(segment, tolerance_mm))
        return out


def box_of(segment: Segment) -> Box:
    """Return a box that holds a segment: least x, least y, greatest x, greatest y."""
    if len(segment) == 2:
        (ax, ay), (bx, by) = (segment[0].real, segment[0].imag), (segment[1].real, segment[1].imag)
        return (
            ax if ax < bx else bx, ay if ay < by else by,
            bx if ax < bx else ax, by if ay < by else ay,
        )  # fmt: skip
    xs, ys = [p.real for p in segment], [p.imag for p in segment]
    return min(xs), min(ys), max(xs), max(ys)


def _feet(segment: Segment, point: Point) -> Iterable[float]:
    """Return the parameters at which a segment may be nearest to a point: its end among them."""
    if len(segment) == 2:
        d = segment[1] - segment[0]
        size = d.real * d.real + d.imag * d.imag
        share = dot(point - segment[0], d) / size if size else 0.0
        return (min(1.0, max(0.0, share)),)
    a, b, c, d = (p - point for p in segment)
    ab, bc, cd = b - a, c - b, d - c
    # Half the derivative of the squared gap, as Bernstein coefficients of degree 5.
    slope = (
        dot(a, ab),
        (2 * dot(a, bc) + 3 * dot(b, ab)) / 5,
        (dot(a, cd) + 6 * dot(b, bc) + 3 * dot(c, ab)) / 10,
        (dot(d, ab) + 6 * dot(c, bc) + 3 * dot(b, cd)) / 10,
        (2 * dot(d, bc) + 3 * dot(c, cd)) / 5,
        dot(d, cd),
    )
    return (*bezier.roots(slope), 1.0)


def _flat(segment: Segment, tolerance_mm: float) -> list[Point]:
    if len(segment) == 2:
        return [segment[1]]
    a, b, c, d = segment
    # Wang's bound on how far a cubic stands off n equal chords.
    bend = max(abs(a - 2 * b + c), abs(b - 2 * c + d))
    n = max(1, int((0.75 * bend / tolerance_mm) ** 0.5) + 1)
    return [bezier.point_on(segment, k / n) for k in range(1, n)] + [d]
