"""A smooth line drawn as few cubics: ends and directions met, the rest within a tolerance."""

import itertools
import math
from collections.abc import Callable

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.point import FIT_MM, Point, dot, unit

Line = Callable[[float], tuple[Point, Point]]

_SAMPLES = 9


def fitted(line: Line, tolerance_mm: float = FIT_MM * 0.5) -> list[Segment]:
    """Return cubics that follow a smooth line.

    Args:
        line: point and direction of travel (any length) for a parameter from 0 to 1.
        tolerance_mm: how far a sampled point may stand off; half of what is promised,
            since what lies between the samples stands off a little more.
    """
    return _fit(line, 0.0, 1.0, tolerance_mm, 10)


def _fit(line: Line, t0: float, t1: float, tolerance_mm: float, depth: int) -> list[Segment]:
    samples = [line(t0 + (t1 - t0) * k / (_SAMPLES - 1)) for k in range(_SAMPLES)]
    points = [p for p, _ in samples]
    segment, worst = _one(points, unit(samples[0][1]), unit(samples[-1][1]))
    if worst <= tolerance_mm or depth == 0:
        return [segment]
    middle = (t0 + t1) / 2
    return _fit(line, t0, middle, tolerance_mm, depth - 1) + _fit(
        line, middle, t1, tolerance_mm, depth - 1
    )


def _one(points: list[Point], start: Point, end: Point) -> tuple[Segment, float]:
    chord = [0.0]
    for a, b in itertools.pairwise(points):
        chord.append(chord[-1] + abs(b - a))
    size = chord[-1]
    if size < 1e-9:
        return (points[0], points[-1]), 0.0
    ts = [c / size for c in chord]
    segment: Segment = (points[0], points[-1])
    worst = math.inf
    for _ in range(8):
        candidate = _handles(points, ts, start, end, size)
        gaps = [abs(bezier.point_on(candidate, t) - p) for t, p in zip(ts, points, strict=True)]
        if max(gaps) >= worst * 0.98:
            break
        segment, worst = candidate, max(gaps)
        ts = [_nearer(segment, p, t) for t, p in zip(ts, points, strict=True)]
        ts[0], ts[-1] = 0.0, 1.0
    return segment, worst


def _handles(
    points: list[Point], ts: list[float], start: Point, end: Point, size: float
) -> Segment:
    """Solve the two handle lengths by least squares (Schneider, Graphics Gems, 1990)."""
    a, d = points[0], points[-1]
    c00 = c01 = c11 = x0 = x1 = 0.0
    for t, p in zip(ts, points, strict=True):
        u = 1 - t
        b1, b2 = 3 * u * u * t, 3 * u * t * t
        first, second = start * b1, -end * b2
        rest = p - (a * (u**3 + b1) + d * (b2 + t**3))
        c00 += dot(first, first)
        c01 += dot(first, second)
        c11 += dot(second, second)
        x0 += dot(first, rest)
        x1 += dot(second, rest)
    det = c00 * c11 - c01 * c01
    if abs(det) > 1e-12 * max(c00 * c11, 1e-30):
        one, two = (x0 * c11 - x1 * c01) / det, (c00 * x1 - c01 * x0) / det
    else:
        one = two = size / 3
    if not (0.02 * size < one < 2 * size and 0.02 * size < two < 2 * size):
        one = two = size / 3
    return a, a + start * one, d - end * two, d


def _nearer(segment: Segment, point: Point, t: float) -> float:
    for _ in range(2):
        away = bezier.point_on(segment, t) - point
        v, a = bezier.velocity(segment, t), bezier.acceleration(segment, t)
        slope = dot(v, v) + dot(away, a)
        if slope <= 0:
            return t
        t = min(1.0, max(0.0, t - dot(away, v) / slope))
    return t
