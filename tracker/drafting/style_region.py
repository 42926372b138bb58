"""Sharing out what is marked on a piece among the parts it is cut or folded into."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from tracker.geometry.area import FLAT_MM
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point
from tracker.pattern.marks import Stroke

#: Line ends this near each other are the same place: a line broken by a dart, dart closed.
MEET_MM = 0.05


@dataclass(frozen=True)
class Region:
    """A part of a piece, as the closed ring of lines round it."""

    ring: tuple[Curve, ...]

    def holds(self, point: Point) -> bool:
        """Tell whether a point lies within."""
        return _within(self._points, point)

    def off(self, point: Point) -> float:
        """Return how far outside a point lies, millimetres; 0 within."""
        return 0.0 if self.holds(point) else min(c.nearest(point)[1] for c in self.ring)

    @cached_property
    def _points(self) -> list[Point]:
        return [p for c in self.ring for p in c.flattened(FLAT_MM)[:-1]]


def _within(points: Sequence[Point], p: Point) -> bool:
    inside = False
    for a, b in zip(points, [*points[1:], points[0]], strict=True):
        if (a.imag > p.imag) != (b.imag > p.imag):
            x = a.real + (b.real - a.real) * (p.imag - a.imag) / (b.imag - a.imag)
            if x > p.real:
                inside = not inside
    return inside


def region_of(point: Point, regions: Sequence[Region]) -> int:
    """Return which region a point lies in, or lies nearest to."""
    return min(range(len(regions)), key=lambda i: regions[i].off(point))


def strokes_by_region(
    strokes: Iterable[Stroke], cuts: Sequence[Curve], regions: Sequence[Region]
) -> list[list[Stroke]]:
    """Return the strokes of a material line region by region, broken at the cuts.

    What lies in no region (across a dart's mouth) is no cloth and is left out.
    """
    out: list[list[Stroke]] = [[] for _ in regions]
    for stroke in strokes:
        last: int | None = None
        for a, b, is_corner in _bits(stroke, cuts):
            middle = (a + b) / 2
            where = region_of(middle, regions)
            if regions[where].off(middle) > MEET_MM:
                last = None
            elif where != last:
                out[where].append((a, b))
                last = where
            elif is_corner:
                out[where][-1] = (*out[where][-1], b)
            else:
                out[where][-1] = (*out[where][-1][:-1], b)
    return out


def _bits(stroke: Stroke, cuts: Sequence[Curve]) -> Iterable[tuple[Point, Point, bool]]:
    for a, b in itertools.pairwise(stroke):
        line = Curve.line(a, b)
        size = abs(b - a)
        stops = {0.0, size}
        for cut in cuts:
            stops |= {c.first_mm for c in of_curves(line, cut)}
        kept = [0.0]
        for stop in sorted(stops):
            if stop - kept[-1] > 2 * SAME_MM and (size - stop > 2 * SAME_MM or stop == size):
                kept.append(stop)
        for index, (low, high) in enumerate(itertools.pairwise(kept)):
            start = a if low == 0.0 else a + (b - a) * (low / size)
            end = b if high == size else a + (b - a) * (high / size)
            yield start, end, index == 0


def joined_strokes(strokes: Iterable[Stroke]) -> tuple[Stroke, ...]:
    """Return strokes with those that meet end to end made one."""
    out: list[Stroke] = []
    for stroke in strokes:
        if out and abs(out[-1][-1] - stroke[0]) <= MEET_MM:
            out[-1] = (*out[-1], *stroke[1:])
        else:
            out.append(stroke)
    return tuple(out)
