"""Where lines cross: a chain and a straight line, two chains."""

from dataclasses import dataclass

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, unit


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


def with_line(curve: Curve, through: Point, heading: Point) -> list[Crossing]:
    """Return the crossings of a chain with an endless straight line, in order along the chain.

    ``second_mm`` is the distance from ``through`` along ``heading``, negative behind it.
    """
    direction = unit(heading)
    found: list[Crossing] = []
    for index, segment in enumerate(curve.segments):
        for t in bezier.roots(tuple(cross(direction, p - through) for p in segment)):
            point = bezier.point_on(segment, t)
            first = curve.distance_of(index, t)
            if not any(abs(first - c.first_mm) < 1e-7 for c in found):
                second = (point - through).real * direction.real + (
                    point - through
                ).imag * direction.imag
                found.append(Crossing(point, first, second))
    return sorted(found, key=lambda c: c.first_mm)


def of_curves(one: Curve, other: Curve) -> list[Crossing]:
    """Return the crossings of two chains, in order along the first."""
    found: list[Crossing] = []
    for i, a in enumerate(one.segments):
        box_a = _box(a)
        for j, b in enumerate(other.segments):
            if not _apart(box_a, _box(b)):
                for t, u in _pairs(a, b):
                    point = bezier.point_on(a, t)
                    if not any(abs(point - c.point) < 1e-6 for c in found):
                        found.append(
                            Crossing(point, one.distance_of(i, t), other.distance_of(j, u))
                        )
    return sorted(found, key=lambda c: c.first_mm)


def nearest_crossing(one: Curve, other: Curve, to: Point) -> Crossing | None:
    """Return the crossing nearest to a point, or nothing where the chains do not meet."""
    return min(of_curves(one, other), key=lambda c: abs(c.point - to), default=None)


_Box = tuple[float, float, float, float]


def _box(segment: Segment) -> _Box:
    xs, ys = [p.real for p in segment], [p.imag for p in segment]
    return min(xs), min(ys), max(xs), max(ys)


def _apart(a: _Box, b: _Box) -> bool:
    # A hair of room, so that lines meeting end to end are still found.
    hair = 1e-7
    return a[2] < b[0] - hair or b[2] < a[0] - hair or a[3] < b[1] - hair or b[3] < a[1] - hair


def _pairs(a: Segment, b: Segment) -> list[tuple[float, float]]:
    if len(a) == 2:
        return [
            (min(1.0, max(0.0, s)), u)
            for u in bezier.roots(tuple(cross(a[1] - a[0], p - a[0]) for p in b))
            if -1e-9 <= (s := _share(a, bezier.point_on(b, u))) <= 1 + 1e-9
        ]
    if len(b) == 2:
        return [(t, u) for u, t in _pairs(b, a)]
    found: list[tuple[float, float]] = []
    _halving(a, b, 0.0, 1.0, 0.0, 1.0, found, 0)
    polished = [_newton(a, b, t, u) for t, u in found]
    return [
        (t, u) for t, u in polished if abs(bezier.point_on(a, t) - bezier.point_on(b, u)) < 1e-7
    ]


def _share(line: Segment, point: Point) -> float:
    d = line[1] - line[0]
    size = abs(d) ** 2
    return ((point - line[0]) * d.conjugate()).real / size if size else 0.0


def _halving(
    a: Segment, b: Segment, t0: float, t1: float, u0: float, u1: float,
    found: list[tuple[float, float]], depth: int,
) -> None:  # fmt: skip
    if _apart(_box(a), _box(b)) or len(found) > 40:
        return
    if depth >= 14:
        found.append(((t0 + t1) / 2, (u0 + u1) / 2))
        return
    a1, a2 = bezier.split(a, 0.5)
    b1, b2 = bezier.split(b, 0.5)
    tm, um = (t0 + t1) / 2, (u0 + u1) / 2
    for part_a, ta, tb in ((a1, t0, tm), (a2, tm, t1)):
        for part_b, ua, ub in ((b1, u0, um), (b2, um, u1)):
            _halving(part_a, part_b, ta, tb, ua, ub, found, depth + 1)


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
