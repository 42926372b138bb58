"""Numbers in circles beside a drawing, each with a line to its place, none over another."""

import cmath
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from tracker.geometry.point import Point, cross, dot, unit

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Inked: TypeAlias = NDArray[np.complex128]

#: In millimetres of the page.
RADIUS = 3.4
CLEAR = 1.3
_REACHES = (8.0, 10.0, 12.5, 15.5, 19.0, 24.0, 30.0, 38.0)
_TURNS = 24


@dataclass(frozen=True, slots=True)
class Leader:
    """A number's circle and the line to the place it is about.

    Attributes:
        number: what stands in it.
        foot: the place.
        centre: of the circle.
        radius: of the circle.
    """

    number: int
    foot: Point
    centre: Point
    radius: float

    @property
    def rim(self) -> Point:
        """Where the line meets the circle."""
        return self.centre + unit(self.foot - self.centre) * self.radius


def place_numbers(
    wanted: list[tuple[int, Point, Point]],
    lines: list[Point],
    words: list[tuple[Point, float, float]],
    page_mm: float,
) -> list[Leader]:
    """Choose where each number stands: near its place, clear of lines, words and each other.

    Args:
        wanted: number, its place, and a point inside the piece (numbers prefer the outside).
        lines: points along everything drawn.
        words: base middle, width and height of words on the drawing.
        page_mm: drawn millimetres to a millimetre of the page.
    """
    import numpy as np

    ink = np.array(lines, dtype=complex) if lines else np.zeros(0, dtype=complex)
    radius = RADIUS * page_mm
    out: list[Leader] = []
    for name, foot, inside in wanted:
        away = unit(foot - inside) or 1j
        best: tuple[float, Leader] | None = None
        for reach in _REACHES:
            for k in range(_TURNS):
                turn = 2 * math.pi * k / _TURNS
                way = away * cmath.exp(1j * turn)
                leader = Leader(name, foot, foot + way * reach * page_mm, radius)
                bent = abs(math.remainder(turn, 2 * math.pi))
                cost = reach + 4.0 * bent + _faults(leader, ink, words, out, page_mm)
                if best is None or cost < best[0]:
                    best = cost, leader
        assert best is not None
        out.append(best[1])
    return out


def _faults(
    leader: Leader,
    ink: "Inked",
    words: list[tuple[Point, float, float]],
    placed: list[Leader],
    page_mm: float,
) -> float:
    """How much a place is to be avoided: a lot for covering, a little for crossing lines."""
    cost = 0.0
    room = leader.radius + CLEAR * page_mm
    if len(ink):
        if abs(ink - leader.centre).min() < room:
            cost += 200.0
        # Lines near its own foot are the ones it points at.
        rim = leader.rim
        along = rim - leader.foot
        size = abs(along)
        if size > 0:
            t = ((ink - leader.foot) * (along / size).conjugate()).real
            off = abs(((ink - leader.foot) * (along / size).conjugate()).imag)
            crossed = (t > 2.5 * page_mm) & (t < size) & (off < 0.9 * page_mm)
            cost += 1.5 * float(crossed.sum())
    for at, wide, high in words:
        gap = complex(
            max(abs(leader.centre.real - at.real) - wide / 2, 0.0),
            max(abs(leader.centre.imag - at.imag - high / 2) - high / 2, 0.0),
        )
        if abs(gap) < room:
            cost += 200.0
    for other in placed:
        if abs(leader.centre - other.centre) < 2 * leader.radius + CLEAR * page_mm:
            cost += 500.0
        if _distance(other.centre, leader.foot, leader.rim) < other.radius + 0.6 * page_mm:
            cost += 300.0
        if _distance(leader.centre, other.foot, other.rim) < leader.radius + 0.6 * page_mm:
            cost += 300.0
        if _cross(leader, other):
            cost += 100.0
    return cost


def _distance(point: Point, a: Point, b: Point) -> float:
    """How far a point is from a stretch of line."""
    size = abs(b - a)
    if size == 0:
        return abs(point - a)
    t = min(max(dot(point - a, (b - a) / size), 0.0), size)
    return abs(point - a - (b - a) / size * t)


def _cross(one: Leader, other: Leader) -> bool:
    a, b, c, d = one.foot, one.rim, other.foot, other.rim
    first = cross(b - a, c - a) * cross(b - a, d - a)
    second = cross(d - c, a - c) * cross(d - c, b - c)
    return first < 0 and second < 0
