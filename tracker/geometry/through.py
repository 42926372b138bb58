"""A smooth line through points that were read off paper, drawn as few cubics.

Readings carry noise, so a line that meets each of them wobbles, and one that is too stiff cuts
across the bends. The line is a cubic spline fitted by least squares, with as many spans as
cross-validation finds the points to ask for, and never further from a point than is promised.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, unit
from tracker.geometry.spline import nearest_spline

#: A line fitted through points read off paper stands no further from any of them.
THROUGH_MM = 0.3
#: Points this near to the straight line between two corners lie on it, where too few say more.
STRAIGHT_MM = 0.1
#: Nobody reads paper finer than this; closer than that a fit is not made better, only busier.
_READ_MM = 0.02
#: How stiffly a spline holds to what least squares found first is tried from loose to stiff.
_STIFF = (1.0, 6.0, 36.0)
#: What a way to follow the points costs in cross-validation: a little more than it is worth, for
#: few points make plain cross-validation follow their noise.
_DEARER = 1.1
#: So few points between two corners leave nothing to validate by; then this share counts as left.
_FEW, _LEAST_KEPT = 4, 0.1
#: A line whose handles turn by so much at once has doubled back, radians (150°).
_BACK_RAD = 2.6
#: An end may turn by so much before it is held to hook, radians (4°).
_FREE_RAD = 0.07


@dataclass(frozen=True, slots=True)
class Through:
    """A line through points.

    Attributes:
        line: the line, from the first point to the last.
        gaps_mm: how far each point stands off it; the first and the last are on it.
    """

    line: Curve
    gaps_mm: tuple[float, ...]

    @property
    def furthest_mm(self) -> float:
        """The largest of the gaps."""
        return max(self.gaps_mm)

    @property
    def typical_mm(self) -> float:
        """The root of the mean square of the gaps of the points between the ends."""
        return math.sqrt(sum(g * g for g in self.gaps_mm) / max(1, len(self.gaps_mm) - 2))


def through(points: Sequence[Point], tolerance_mm: float = THROUGH_MM) -> Through:
    """Return a smooth line from the first point to the last, near all between.

    Args:
        points: two at least, in order, no two neighbours in one place.
        tolerance_mm: how far a point may stand off.
    """
    straight = _measured(Curve.line(points[0], points[-1]), points)
    inner = len(points) - 2
    if inner <= 0 or (inner < 3 and straight.furthest_mm <= STRAIGHT_MM):
        return straight
    if inner == 1:
        return _measured(_bow(points), points)
    found = [(_score(straight, 0.0, points), straight)]
    for spans in range(1, inner):
        if _enough(found, spans):
            break
        for stiffness in _STIFF:
            near = nearest_spline(points, spans, stiffness)
            fit = _measured(near.line, points)
            if near.ways * _DEARER < inner or (spans == 1 and inner <= _FEW):
                found.append((_score(fit, near.ways, points), fit))
    within = [f for f in found if _follows(f[1], tolerance_mm)]
    if within:
        return min(within, key=lambda f: f[0])[1]
    for spans in range(1, inner):
        fit = _measured(nearest_spline(points, spans).line, points)
        if _follows(fit, tolerance_mm):
            return fit
    return _measured(_met(points), points)


def _follows(fit: Through, tolerance_mm: float) -> bool:
    """Tell whether a line goes from point to point, near each, and nowhere back on itself.

    A reading that is off makes a spline that must meet it run into a loop.
    """
    if fit.furthest_mm > tolerance_mm:
        return False
    legs = [
        b - a for s in fit.line.segments for a, b in itertools.pairwise(s) if abs(b - a) > _READ_MM
    ]
    return all(abs(turn_between(a, b)) < _BACK_RAD for a, b in itertools.pairwise(legs))


def _enough(found: list[tuple[float, Through]], spans: int) -> bool:
    """Tell whether more spans can only make the line busier."""
    best = min(found, key=lambda f: f[0])
    if best[1].typical_mm < _READ_MM / 2:
        return True
    return spans > 3 and best[0] < min(f[0] for f in found[-2 * len(_STIFF) :])


def off_its_neighbours(points: Sequence[Point]) -> list[float]:
    """Return how far each point stands off the cubic through its two neighbours on each side.

    The ends, and what has fewer than two neighbours on a side, count as nothing. A reading that
    was mistyped stands out by far more than any pattern bends.
    """
    away = [0.0] * len(points)
    for k in range(2, len(points) - 2):
        near = [points[k + j] for j in (-2, -1, 1, 2)]
        reach = list(itertools.accumulate(map(abs, _steps(points[k - 2 : k + 3])), initial=0.0))
        at, spots = reach[2], [reach[0], reach[1], reach[3], reach[4]]
        expected = 0j
        for i, p in enumerate(near):
            weight = 1.0
            for j, s in enumerate(spots):
                if j != i:
                    weight *= (at - s) / (spots[i] - s)
            expected += weight * p
        away[k] = abs(points[k] - expected)
    return away


def _steps(points: Sequence[Point]) -> list[Point]:
    return [b - a for a, b in itertools.pairwise(points)]


def _measured(line: Curve, points: Sequence[Point]) -> Through:
    gaps = [line.nearest_spot(p)[2] for p in points[1:-1]]
    return Through(line, (0.0, *gaps, 0.0))


def _score(fit: Through, ways: float, points: Sequence[Point]) -> float:
    """Generalised cross-validation: what a point left out would stand off, squared.

    A line that hooks at an end beyond what its points turn by is held to be worse.
    """
    count = len(points) - 2
    hooked = max(_hook(fit.line, points), _hook(fit.line.reversed, points[::-1]))
    kept = max(1 - _DEARER * ways / count, _LEAST_KEPT)
    gaps = (fit.typical_mm**2 + _READ_MM**2) / kept**2
    return gaps * (1 + (hooked / _FREE_RAD) ** 2)


def _hook(line: Curve, points: Sequence[Point]) -> float:
    """By how much more a line turns towards its second point than is fair, radians."""
    first, second = points[1] - points[0], points[2] - points[1]
    fair = max(_FREE_RAD, 1.5 * abs(turn_between(first, second)))
    return max(0.0, abs(turn_between(line.start_heading, first)) - fair)


def _bow(points: Sequence[Point]) -> Curve:
    """The parabola through three points."""
    a, m, b = points
    first, last = abs(m - a), abs(b - m)
    t = first / (first + last)
    handle = (m - (1 - t) ** 2 * a - t * t * b) / (2 * t * (1 - t))
    return Curve.cubic(a, a + (handle - a) * 2 / 3, b + (handle - b) * 2 / 3, b)


def _met(points: Sequence[Point]) -> Curve:
    """A line through every point, its direction at each that of the circle's arc there."""
    steps = _steps(points)
    headings = [0j] * len(points)
    for k in range(1, len(points) - 1):
        a, b = steps[k - 1], steps[k]
        headings[k] = unit(a / abs(a) ** 2 + b / abs(b) ** 2)
    for k, one, step in ((0, 1, steps[0]), (len(points) - 1, len(points) - 2, steps[-1])):
        along = unit(step)
        headings[k] = unit(along * along / headings[one]) if headings[one] else along
    out: list[Segment] = []
    for k, step in enumerate(steps):
        reach = abs(step) / 3
        a, b = points[k], points[k + 1]
        out.append((a, a + headings[k] * reach, b - headings[k + 1] * reach, b))
    return Curve.of(out)
