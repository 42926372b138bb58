"""One segment of a chain: a straight line (2 points) or a cubic Bézier (4 points)."""

import itertools
import math
from collections.abc import Iterator

from tracker.geometry.point import Point

Segment = tuple[Point, ...]

# Abscissae and weights of Gauss and Legendre's rule of order 12 on −1…1 (positive half);
# the table is in Abramowitz and Stegun, Handbook of Mathematical Functions, 25.4.
_GAUSS_12 = (
    (0.1252334085114689, 0.2491470458134028),
    (0.3678314989981802, 0.2334925365383548),
    (0.5873179542866175, 0.2031674267230659),
    (0.7699026741943047, 0.1600783285433462),
    (0.9041172563704749, 0.1069393259953184),
    (0.9815606342467192, 0.0471753363865118),
)
#: Arc length is good to this many millimetres on a segment.
LENGTH_MM = 1e-9


def is_line(segment: Segment) -> bool:
    """Tell whether a segment is a straight line."""
    return len(segment) == 2


def as_cubic(segment: Segment) -> tuple[Point, Point, Point, Point]:
    """Return four control points; a line's stand at its thirds."""
    if len(segment) == 2:
        a, b = segment
        return a, a + (b - a) / 3, b - (b - a) / 3, b
    a, b, c, d = segment
    return a, b, c, d


def point_on(segment: Segment, t: float) -> Point:
    """Return the point at parameter t, 0 to 1."""
    if len(segment) == 2:
        return segment[0] + (segment[1] - segment[0]) * t
    a, b, c, d = segment
    u = 1 - t
    return u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d


def velocity(segment: Segment, t: float) -> Point:
    """Return the derivative by the parameter at t."""
    if len(segment) == 2:
        return segment[1] - segment[0]
    a, b, c, d = segment
    u = 1 - t
    return 3 * (u * u * (b - a) + 2 * u * t * (c - b) + t * t * (d - c))


def acceleration(segment: Segment, t: float) -> Point:
    """Return the second derivative by the parameter at t."""
    if len(segment) == 2:
        return 0j
    a, b, c, d = segment
    return 6 * ((1 - t) * (c - 2 * b + a) + t * (d - 2 * c + b))


def heading(segment: Segment, t: float) -> Point:
    """Return the unit direction at t; where a handle is missing, that of the nearest other."""
    v = velocity(segment, t)
    if abs(v) > 1e-9:
        return v / abs(v)
    points = segment if t < 0.5 else segment[::-1]
    for other in points[1:]:
        if abs(other - points[0]) > 1e-9:
            d = other - points[0]
            return d / abs(d) if t < 0.5 else -d / abs(d)
    return 0j


def split(segment: Segment, t: float) -> tuple[Segment, Segment]:
    """Cut a segment at t (de Casteljau); both parts are exact."""
    if len(segment) == 2:
        middle = point_on(segment, t)
        return (segment[0], middle), (middle, segment[1])
    a, b, c, d = segment
    ab, bc, cd = a + (b - a) * t, b + (c - b) * t, c + (d - c) * t
    abc, bcd = ab + (bc - ab) * t, bc + (cd - bc) * t
    middle = abc + (bcd - abc) * t
    return (a, ab, abc, middle), (middle, bcd, cd, d)


def between(segment: Segment, t0: float, t1: float) -> Segment:
    """Return the stretch of a segment from t0 to t1."""
    if t0 <= 0 and t1 >= 1:
        return segment
    rest = split(segment, t0)[1] if t0 > 0 else segment
    if t1 >= 1:
        return rest
    return split(rest, (t1 - t0) / (1 - t0))[0]


def _gauss(segment: Segment, t0: float, t1: float) -> float:
    a, b, c, d = segment
    half, middle = (t1 - t0) / 2, (t1 + t0) / 2
    # The derivative as a quadratic in t, so that each abscissa costs two multiplications.
    v0 = 3 * (b - a)
    v1 = 6 * (c - 2 * b + a)
    v2 = 3 * (d - 3 * c + 3 * b - a)
    total = 0.0
    for x, weight in _GAUSS_12:
        lower, upper = middle - half * x, middle + half * x
        total += weight * (
            abs(v0 + lower * (v1 + lower * v2)) + abs(v0 + upper * (v1 + upper * v2))
        )
    return total * half


def _adaptive(segment: Segment, t0: float, t1: float, whole: float, depth: int) -> float:
    middle = (t0 + t1) / 2
    first, second = _gauss(segment, t0, middle), _gauss(segment, middle, t1)
    if depth <= 0 or abs(first + second - whole) <= LENGTH_MM * 0.1:
        return first + second
    return _adaptive(segment, t0, middle, first, depth - 1) + _adaptive(
        segment, middle, t1, second, depth - 1
    )


def arc_length(segment: Segment, t0: float = 0.0, t1: float = 1.0) -> float:
    """Return the length in millimetres of a segment from t0 to t1, good to 1e-9 mm."""
    if len(segment) == 2:
        return abs(segment[1] - segment[0]) * (t1 - t0)
    return _adaptive(segment, t0, t1, _gauss(segment, t0, t1), 40)


def parameter_at(segment: Segment, distance_mm: float, length_mm: float) -> float:
    """Return t where the arc length from the start is ``distance_mm``.

    Args:
        segment: the segment.
        distance_mm: 0 to the segment's length.
        length_mm: the segment's length, as :func:`arc_length` gave it.
    """
    if length_mm <= 0:
        return 0.0
    if len(segment) == 2:
        return distance_mm / length_mm
    low, high, t = 0.0, 1.0, distance_mm / length_mm
    for _ in range(60):
        miss = arc_length(segment, 0.0, t) - distance_mm
        if abs(miss) <= LENGTH_MM:
            break
        if miss > 0:
            high = t
        else:
            low = t
        speed = abs(velocity(segment, t))
        step = t - miss / speed if speed > 1e-12 else math.nan
        t = step if low < step < high else (low + high) / 2
    return t


def roots(coefficients: tuple[float, ...]) -> Iterator[float]:
    """Yield the zeros in 0…1 of a polynomial given by its Bernstein coefficients.

    Works by the rule of signs: a stretch whose coefficients change sign once has one zero,
    which bisection and secant close in on; one with more changes is halved.
    """
    yield from _roots(coefficients, 0.0, 1.0, 48)


def _roots(c: tuple[float, ...], t0: float, t1: float, depth: int) -> Iterator[float]:
    if c[0] == 0.0 and t0 == 0.0:
        yield 0.0
    changes = 0
    sign = 0
    for value in c:
        s = (value > 0) - (value < 0)
        if s and sign and s != sign:
            changes += 1
        sign = s or sign
    if c[-1] == 0.0:
        yield t1
    if changes == 0:
        return
    if depth <= 0:
        yield (t0 + t1) / 2
        return
    if changes == 1 and c[0] != 0.0 and c[-1] != 0.0:
        yield t0 + (t1 - t0) * _bracketed(c)
        return
    first, second = _halve(c)
    middle = (t0 + t1) / 2
    # A zero just at the cut would be told twice.
    yield from _roots(first, t0, middle, depth - 1)
    for root in _roots(second, middle, t1, depth - 1):
        if not (second[0] == 0.0 and root == middle):
            yield root


def _halve(c: tuple[float, ...]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    first, second, row = [], [], list(c)
    while row:
        first.append(row[0])
        second.append(row[-1])
        row = [(a + b) / 2 for a, b in itertools.pairwise(row)]
    return tuple(first), tuple(reversed(second))


def _bernstein(c: tuple[float, ...], t: float) -> float:
    row = list(c)
    while len(row) > 1:
        row = [a + (b - a) * t for a, b in itertools.pairwise(row)]
    return row[0]


def _bracketed(c: tuple[float, ...]) -> float:
    low, high, at_low, at_high = 0.0, 1.0, c[0], c[-1]
    for k in range(100):
        t = (low + high) / 2 if k % 3 == 2 else low - at_low * (high - low) / (at_high - at_low)
        value = _bernstein(c, t)
        if value == 0.0 or high - low < 1e-16:
            return t
        if (value > 0) == (at_low > 0):
            low, at_low = t, value
        else:
            high, at_high = t, value
    return (low + high) / 2
