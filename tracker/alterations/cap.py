"""A sleeve's cap drawn again: wider, higher, its top aside; its halves kept as long as told.

The line is carried in the cap's own frame: across from one underarm point to the other, up
square to that. Each half is stretched about the plumb line through the top, so that what was
smooth stays smooth, and bent by a cubic that is nothing at the top and at the underarm, so that
the cap leaves the underarm as it did. The same amounts back give the same line back.
"""

from dataclasses import dataclass
from functools import cached_property

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, unit
from tracker.pattern.errors import PatternError

#: A joint this near the highest point of a cap is its top, millimetres.
_AT_TOP_MM = 0.5
#: Steeper than this at the underarm (as a slope) a cap is not bent to leave it as it did.
_STEEP = 4.0
#: How far an amount is moved to see how the lengths answer, and to what they are met.
_TRIED_MM = 0.01
_MET_MM = 1e-9
_ROUNDS = 24
#: The lowest and the highest cap drawn, as shares of its length; common practice, no source.
LOWEST, HIGHEST = 0.10, 0.41


class NoSuchCap(PatternError):
    """A cap that cannot be drawn."""


@dataclass(frozen=True, slots=True)
class CapMove:
    """How a cap is changed, millimetres.

    Attributes:
        wider_mm: from underarm point to underarm point, half at each.
        higher_mm: of its top.
        aside_mm: of its top, towards the cap's start.
    """

    wider_mm: float = 0.0
    higher_mm: float = 0.0
    aside_mm: float = 0.0


@dataclass(frozen=True)
class Cap:
    """A cap's line.

    Attributes:
        line: drawn, round the piece counter-clockwise.
    """

    line: Curve

    @cached_property
    def across(self) -> Point:
        """The direction from the cap's end to its start."""
        return unit(self.line.start - self.line.end)

    @property
    def up(self) -> Point:
        """The direction towards the top."""
        return self.across * 1j

    @property
    def width_mm(self) -> float:
        """From underarm point to underarm point."""
        return abs(self.line.start - self.line.end)

    @cached_property
    def _halves(self) -> tuple[tuple[Segment, ...], tuple[Segment, ...]]:
        """The segments before and after the top, in the cap's frame."""
        end, across = self.line.end, self.across
        local = [tuple((p - end) / across for p in bezier.as_cubic(s)) for s in self.line.segments]
        k, t = max(
            ((k, t) for k, s in enumerate(local) for t in _level_at(s)),
            key=lambda spot: bezier.point_on(local[spot[0]], spot[1]).imag,
        )
        top = bezier.point_on(local[k], t)
        for joint, near in ((k, local[k][0]), (k + 1, local[k][3])):
            if 0 < joint < len(local) and abs(near - top) < _AT_TOP_MM:
                return tuple(local[:joint]), tuple(local[joint:])
        if not 0.0 < t < 1.0:
            raise NoSuchCap("the cap has no top between its two underarm points")
        one, other = bezier.split(local[k], t)
        return (*local[:k], one), (other, *local[k + 1 :])

    @property
    def top(self) -> Point:
        """The highest point, in the cap's frame."""
        return self._halves[0][-1][3]

    @property
    def height_mm(self) -> float:
        """From the line between the underarm points to the top."""
        return self.top.imag

    @cached_property
    def half_lengths(self) -> tuple[float, float]:
        """From its start to the top, and on to its end."""
        one, other = self._halves
        return _length(one), _length(other)

    def moved(self, move: CapMove) -> "Cap":
        """Return the cap drawn again.

        Raises:
            NoSuchCap: nothing would be left of its width or height.
        """
        one, other = self._moved(move)
        end = self.line.end - self.across * (move.wider_mm / 2)
        segments = (*one, *other)
        return Cap(Curve.of([tuple(end + p * self.across for p in s) for s in segments]))

    def lengths(self, move: CapMove) -> tuple[float, float]:
        """Return how long both halves of the moved cap would be."""
        one, other = self._moved(move)
        return _length(one), _length(other)

    def _moved(self, move: CapMove) -> tuple[list[Segment], list[Segment]]:
        """Both halves moved, in the frame of the moved cap: its end at nothing."""
        out = []
        old, half = self.top, move.wider_mm / 2
        top = old + complex(half + move.aside_mm, move.higher_mm)
        wide = self.width_mm + move.wider_mm
        if top.imag < 1.0 or not 1.0 < top.real < wide - 1.0:
            raise NoSuchCap("nothing would be left of the cap")
        for halfway, corner, new_corner, at_start in (
            (self._halves[0], self.width_mm, wide, True), (self._halves[1], 0.0, 0.0, False),
        ):  # fmt: skip
            edge = halfway[0] if at_start else halfway[-1]
            leaving = edge[1] - edge[0] if at_start else edge[3] - edge[2]
            out.append(_stretched(halfway, old, corner, top, new_corner, leaving))
        return out[0], out[1]

    def keeping_length(
        self, *, wider_mm: float | None = None, higher_mm: float | None = None
    ) -> CapMove:
        """Return the move that leaves both halves as long as they are.

        Args:
            wider_mm: the width added; the height follows.
            higher_mm: the height added, where no width is given; the width follows.

        Raises:
            NoSuchCap: there is none.
        """
        wanted = self.half_lengths

        def move(free: float, aside: float) -> CapMove:
            if wider_mm is not None:
                return CapMove(wider_mm, free, aside)
            assert higher_mm is not None
            return CapMove(free, higher_mm, aside)

        def misses(free: float, aside: float) -> tuple[float, float]:
            one, other = self.lengths(move(free, aside))
            return one - wanted[0], other - wanted[1]

        given = wider_mm if wider_mm is not None else higher_mm
        assert given is not None
        # About what a cap's lengths ask for; the two rounds after it are already near.
        slope = self.width_mm / self.height_mm / 4.0
        free, aside = (-given * slope if wider_mm is not None else -given / slope), 0.0
        for _ in range(_ROUNDS):
            f = misses(free, aside)
            if max(map(abs, f)) < _MET_MM:
                return move(free, aside)
            a = [(v - w) / _TRIED_MM for v, w in zip(misses(free + _TRIED_MM, aside), f,
                                                    strict=True)]  # fmt: skip
            b = [(v - w) / _TRIED_MM for v, w in zip(misses(free, aside + _TRIED_MM), f,
                                                    strict=True)]  # fmt: skip
            det = a[0] * b[1] - a[1] * b[0]
            if abs(det) < 1e-9:
                break
            step = (f[0] * b[1] - f[1] * b[0]) / det, (a[0] * f[1] - a[1] * f[0]) / det
            free, aside = free - _at_most(step[0]), aside - _at_most(step[1])
        if max(map(abs, misses(free, aside))) < 1e-6:
            return move(free, aside)
        raise NoSuchCap("no cap as long as this one has that width and height")

    def changing_length(self, by_mm: float, *, wider: bool = False) -> float | None:
        """Return how much higher (or wider) the cap must be to be so much longer.

        Nothing where no such cap can be drawn.
        """
        whole = sum(self.half_lengths)
        amount, best = (by_mm if wider else by_mm / 1.2), None
        try:
            for _ in range(_ROUNDS):
                f = self._grown(amount, wider) - whole - by_mm
                if abs(f) < 1e-3:
                    best = amount
                    break
                slope = (self._grown(amount + 0.1, wider) - whole - by_mm - f) / 0.1
                if slope < 0.05:
                    return None
                amount -= _at_most(f / slope)
        except NoSuchCap:
            return None
        if best is None:
            return None
        height = self.height_mm + (0.0 if wider else best)
        return best if LOWEST * whole <= height <= HIGHEST * whole else None

    def _grown(self, amount: float, wider: bool) -> float:
        return sum(self.lengths(CapMove(amount) if wider else CapMove(0.0, amount)))


def _level_at(segment: Segment) -> list[float]:
    """The parameters at which a segment may be highest: where it runs level, and its ends."""
    a, b, c, d = (p.imag for p in segment)
    one, two, three = b - a, c - b, d - c
    q2, q1 = one - 2 * two + three, 2 * (two - one)
    found = [0.0, 1.0]
    if abs(q2) < 1e-12:
        if abs(q1) > 1e-12:
            found.append(-one / q1)
    elif (root := q1 * q1 - 4 * q2 * one) >= 0:
        found += [(-q1 + sign * root**0.5) / (2 * q2) for sign in (-1.0, 1.0)]
    return [t for t in found if 0.0 <= t <= 1.0]


def _length(segments: tuple[Segment, ...] | list[Segment]) -> float:
    return sum(bezier.arc_length(s) for s in segments)


def _at_most(step: float) -> float:
    return min(max(step, -30.0), 30.0)


def _stretched(
    half: tuple[Segment, ...], top: Point, corner: float, new_top: Point, new_corner: float,
    leaving: Point,
) -> list[Segment]:  # fmt: skip
    """One half of a cap with its top and its corner elsewhere.

    Args:
        half: its segments.
        top: the old top.
        corner: x of the old underarm point, which lies at height 0.
        new_top: the new top.
        new_corner: x of the new underarm point.
        leaving: the old line's direction there.
    """
    wide, new_wide = corner - top.real, new_corner - new_top.real
    across, up = new_wide / wide, new_top.imag / top.imag
    slope = leaving.imag / leaving.real if abs(leaving.real) > 1e-9 else 2 * _STEEP
    # u²(u − 1) is nothing at both ends and level at the top; at the underarm it has slope 1.
    bend = wide * slope * (across - up) if abs(slope) < _STEEP else 0.0

    def point(p: Point) -> Point:
        u = (p.real - top.real) / wide
        return complex(new_top.real + u * new_wide, p.imag * up + bend * u * u * (u - 1.0))

    def handle(p: Point, way: Point) -> Point:
        u = (p.real - top.real) / wide
        rise = way.imag * up + bend * (3.0 * u * u - 2.0 * u) * way.real / wide
        return complex(way.real * across, rise)

    out: list[Segment] = []
    for a, b, c, d in half:
        one, two = point(a), point(d)
        out.append((one, one + handle(a, b - a), two - handle(d, d - c), two))
    return out


__all__ = ["HIGHEST", "LOWEST", "Cap", "CapMove", "NoSuchCap"]
