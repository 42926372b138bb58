"""One segment of a chain: a straight line (2 points) or a cubic Bézier (4 points)."""

import cmath
import math
from collections.abc import Callable

from tracker.geometry.point import Point, cross
from tracker.geometry.zeros import roots as roots

Segment = tuple[Point, ...]

# Abscissae and weights of Gauss and Legendre's rules on −1…1 (positive half);
# Abramowitz and Stegun, Handbook of Mathematical Functions, 25.4.
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
    if t == 0.0:
        v = segment[1] - segment[0]
    elif t == 1.0:
        v = segment[-1] - segment[-2]
    else:
        v = velocity(segment, t)
    size = abs(v)
    if size > 1e-9:
        return v / size
    points = segment if t < 0.5 else segment[::-1]
    for other in points[1:]:
        d = other - points[0]
        if abs(d) > 1e-9:
            return d / abs(d) if t < 0.5 else -d / abs(d)
    return 0j


def curvature(segment: Segment, t: float) -> float:
    """Return the curvature at t in 1/mm, positive where it bends to the left; 0 at a cusp."""
    v = velocity(segment, t)
    speed = abs(v)
    return cross(v, acceleration(segment, t)) / speed**3 if speed > 1e-9 else 0.0


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


def _stretch(
    v0: Point, v1: Point, v2: Point, rests: tuple[Point, ...], t0: float, t1: float, depth: int
) -> float:
    """Integrate |v0 + v1·t + v2·t²|, whose zeros are ``rests``, from t0 to t1."""
    half, middle = (t1 - t0) / 2, (t1 + t0) / 2
    if abs(half) < 1e-15:
        return 2 * half * abs(v0 + middle * (v1 + middle * v2))
    # The speed is smooth within the ellipse about t0 and t1 that reaches to the nearest zero of
    # the velocity; a rule of order n errs by the sum of that ellipse's half axes to the −2n.
    axes = math.inf
    for rest in rests:
        z = (rest - middle) / half
        sum_of_axes = 2 * abs(z)  # nearly, and more than enough far out
        if sum_of_axes < 40.0:
            root = cmath.sqrt(z * z - 1)
            sum_of_axes = max(abs(z + root), abs(z - root))
        if sum_of_axes < axes:
            axes = sum_of_axes
    if axes > 16.0:  # the rule of order 5, its abscissae and weights written out
        lower, upper = 0.5384693101056831 * half, 0.9061798459386640 * half
        a, b, c, d = middle - upper, middle - lower, middle + lower, middle + upper
        return half * (
            0.5688888888888889 * abs(v0 + middle * (v1 + middle * v2))
            + 0.4786286704993665 * (abs(v0 + b * (v1 + b * v2)) + abs(v0 + c * (v1 + c * v2)))
            + 0.2369268850561891 * (abs(v0 + a * (v1 + a * v2)) + abs(v0 + d * (v1 + d * v2)))
        )
    if axes > 3.4 or depth <= 0 or _is_short(v0, v1, v2, t0, t1):
        total = 0.0
        for x, weight in _GAUSS_12:
            a, b = middle - half * x, middle + half * x
            total += weight * (abs(v0 + a * (v1 + a * v2)) + abs(v0 + b * (v1 + b * v2)))
        return total * half
    return _stretch(v0, v1, v2, rests, t0, middle, depth - 1) + _stretch(
        v0, v1, v2, rests, middle, t1, depth - 1
    )


def _is_short(v0: Point, v1: Point, v2: Point, t0: float, t1: float) -> bool:
    speeds = abs(v0 + t0 * (v1 + t0 * v2)) + abs(v0 + t1 * (v1 + t1 * v2))
    return abs(t1 - t0) * speeds < LENGTH_MM * 0.01


def _hodograph(segment: Segment) -> tuple[Point, Point, Point, tuple[Point, ...]]:
    """Return the velocity as a quadratic in t, and where in the complex plane it is 0."""
    a, b, c, d = segment
    v0, v1, v2 = 3 * (b - a), 6 * (c - 2 * b + a), 3 * (d - 3 * c + 3 * b - a)
    if abs(v2) > 1e-9 * (abs(v0) + abs(v1)):
        root = cmath.sqrt(v1 * v1 - 4 * v2 * v0)
        # The sum that does not cancel gives one zero, the product of both the other.
        greater = max(root - v1, -root - v1, key=abs) / 2
        return v0, v1, v2, ((greater / v2, v0 / greater) if greater else (0j,))
    return v0, v1, v2, ((-v0 / v1,) if v1 else ())


def arc_length(segment: Segment, t0: float = 0.0, t1: float = 1.0) -> float:
    """Return the length in millimetres of a segment from t0 to t1, good to 1e-9 mm."""
    if len(segment) == 2:
        return abs(segment[1] - segment[0]) * (t1 - t0)
    if t0 == t1:
        return 0.0
    return _stretch(*_hodograph(segment), t0, t1, 40)


def ruler(segment: Segment) -> Callable[[float, float], float]:
    """Return what measures a segment from one parameter to another, millimetres."""
    if len(segment) == 2:
        size = abs(segment[1] - segment[0])
        return lambda t0, t1: size * (t1 - t0)
    v0, v1, v2, rests = _hodograph(segment)
    return lambda t0, t1: _stretch(v0, v1, v2, rests, t0, t1, 40) if t0 != t1 else 0.0


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
    v0, v1, v2, rests = _hodograph(segment)
    low, high, t = 0.0, 1.0, distance_mm / length_mm
    reached = _stretch(v0, v1, v2, rests, 0.0, t, 40) if t > 0 else 0.0
    for _ in range(60):
        miss = reached - distance_mm
        if abs(miss) <= LENGTH_MM:
            break
        if miss > 0:
            high = t
        else:
            low = t
        speed = abs(v0 + t * (v1 + t * v2))
        step = t - miss / speed if speed > 1e-12 else math.nan
        after = step if low < step < high else (low + high) / 2
        if after == t:
            break
        # Only what lies between the last guess and this one is measured again.
        reached += _stretch(v0, v1, v2, rests, t, after, 40)
        t = after
    return t
