"""A smooth line drawn as few cubics: ends and directions met, the rest within a tolerance."""

import itertools
import math
from collections.abc import Callable

from tracker.geometry.bezier import Segment
from tracker.geometry.point import FIT_MM, Point, unit

Line = Callable[[float], tuple[Point, Point]]

_STEPS = 8


def fitted(line: Line, tolerance_mm: float = FIT_MM * 0.4) -> list[Segment]:
    """Return cubics that follow a smooth line.

    Args:
        line: point and direction of travel for a parameter from 0 to 1. Directions may have
            any length; where it is the speed by the parameter, the fit is found sooner.
        tolerance_mm: how far a sampled point may stand off; less than half of what is promised,
            since what lies between the samples stands off a little more.
    """
    return [segment for segment, _, _ in fitted_parts(line, tolerance_mm)]


def fitted_parts(
    line: Line, tolerance_mm: float = FIT_MM * 0.4
) -> list[tuple[Segment, float, float]]:
    """Return the cubics of :func:`fitted`, each with the parameters of its two ends."""
    samples = [line(k / _STEPS) for k in range(_STEPS + 1)]
    return _fit(line, 0.0, 1.0, samples, tolerance_mm, 10)


def _fit(
    line: Line, t0: float, t1: float, samples: list[tuple[Point, Point]], tolerance_mm: float,
    depth: int,
) -> list[tuple[Segment, float, float]]:  # fmt: skip
    segment, worst = _one(samples, t1 - t0, tolerance_mm)
    if worst <= tolerance_mm or depth == 0:
        return [(segment, t0, t1)]
    middle, step = (t0 + t1) / 2, (t1 - t0) / _STEPS
    # Every other sample of a half is one of the whole.
    finer = [line(t0 + (k + 0.5) * step) for k in range(_STEPS)]
    every = [s for pair in zip(samples, finer, strict=False) for s in pair] + [samples[-1]]
    return _fit(line, t0, middle, every[: _STEPS + 1], tolerance_mm, depth - 1) + _fit(
        line, middle, t1, every[_STEPS:], tolerance_mm, depth - 1
    )


def _one(
    samples: list[tuple[Point, Point]], span: float, tolerance_mm: float
) -> tuple[Segment, float]:
    """Return the cubic through both ends that stands off the samples least, and how far.

    The two handle lengths are solved by Gauss and Newton's rule on what each sample is off,
    square to the line; what it is off along the line only says that another parameter is meant.
    """
    (a, first_speed), (d, last_speed) = samples[0], samples[-1]
    chords = [abs(q[0] - p[0]) for p, q in itertools.pairwise(samples)]
    size = sum(chords)
    if size < 1e-9:
        return (a, d), 0.0
    start, end = unit(first_speed), unit(last_speed)
    # Each inner sample: the point, its direction's conjugate (to turn what is off into the
    # line's own terms), how much of either handle is square to it there, and the parameter.
    inner = []
    for k in range(1, len(samples) - 1):
        point, speed = samples[k]
        back = unit(speed).conjugate()
        inner.append((point, back, (back * start).imag, (back * end).imag, k / _STEPS))
    one, two = abs(first_speed) * span / 3, abs(last_speed) * span / 3
    if not (size / 9 < one < size and size / 9 < two < size):
        one = two = size / 3
        ways = itertools.accumulate(chords)
        inner = [(*sample[:-1], way / size) for sample, way in zip(inner, ways, strict=False)]
    best: tuple[Segment, float] = (a, d), math.inf
    for _ in range(5):
        b, c = a + start * one, d - end * two
        p1, p2, p3 = 3 * (b - a), 3 * (c - 2 * b + a), d - 3 * c + 3 * b - a
        worst = c00 = c01 = c11 = x0 = x1 = 0.0
        moved = []
        for point, back, square_0, square_1, t in inner:
            away = back * (a + t * (p1 + t * (p2 + t * p3)) - point)
            off, ahead = away.imag, away.real
            # Far along is far off too, until the parameter has settled.
            gap = max(abs(off), abs(ahead) * 0.1)
            if gap > worst:
                worst = gap
            u = 1 - t
            first, second = 3 * u * u * t * square_0, -3 * u * t * t * square_1
            c00 += first * first
            c01 += first * second
            c11 += second * second
            x0 -= first * off
            x1 -= second * off
            speed_on = (back * (p1 + t * (2 * p2 + 3 * t * p3))).real
            at = t - ahead / speed_on if speed_on > 0.0 else t
            moved.append((point, back, square_0, square_1, min(1.0, max(0.0, at))))
        if worst < best[1]:
            best = (a, b, c, d), worst
        if worst <= tolerance_mm:
            break
        inner = moved
        det = c00 * c11 - c01 * c01
        if det > 1e-9 * c00 * c11:
            one += (x0 * c11 - x1 * c01) / det
            two += (c00 * x1 - c01 * x0) / det
        if not (0.02 * size < one < 2 * size and 0.02 * size < two < 2 * size):
            one = two = size / 3
            if worst > best[1]:
                break
    return best
