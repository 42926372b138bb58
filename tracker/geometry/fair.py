"""A fair join: two lines with a gap, an overlap or a bend between them drawn as one."""

import math
from dataclasses import dataclass

from tracker.geometry.bezier import Segment, arc_length
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, dot, turn_between, unit

#: A join is faired over at most this far on each side.
FAIRED_MM = 70.0
#: Bends under this need no fairing, radians (a twentieth of a degree).
STRAIGHT_RAD = 0.0009
#: Two straight lines beside one another are redrawn as one where that turns neither by more,
#: radians (one degree).
REDRAWN_RAD = 0.01745
#: Where a join has to keep its length it is kept to this, millimetres.
LENGTH_MM = 0.02
#: Shorter and shorter reaches, as shares, tried until the length can be kept.
_SHORTER = (1.0, 0.6, 0.4, 0.25, 0.15, 0.08)
#: The shortest and longest handles, as shares of the chord, with which a bridge is fair.
_HANDLES = 0.2, 0.5


@dataclass(frozen=True, slots=True)
class Faired:
    """Two lines made one.

    Attributes:
        line: the whole line.
        back_mm: how much of the first line's end was drawn again.
        on_mm: how much of the second line's start.
    """

    line: Curve
    back_mm: float
    on_mm: float


def faired(
    one: Curve,
    other: Curve,
    reach_mm: float = FAIRED_MM,
    most_mm: tuple[float, float] = (math.inf, math.inf),
) -> Faired:
    """Join two lines into one that runs smoothly through the join.

    Where they meet end to end without a bend they are simply joined. Where both are straight
    and run side by side the result is one straight line from the start of the first to the end
    of the second, or between what is kept of them, as long as that turns neither by more than a
    degree. Otherwise each is cut
    back by up to ``reach_mm`` and a cubic with both directions takes the place of what was
    cut; where the two meet in a bend it is given the length of what it replaces and of the
    gap, as near as is fair.

    Args:
        one: the first line.
        other: the second, which begins about where the first ends.
        reach_mm: how far to either side it may be redrawn.
        most_mm: what must be kept of each lies so far from the join, where it does: there, and
            beyond, the line stays.
    """
    gap = other.start - one.end
    bend = abs(turn_between(one.end_heading, other.start_heading))
    straight = bend <= STRAIGHT_RAD and _straight(one) and _straight(other)
    if straight:
        redrawn = _redrawn(one, other, most_mm)
        if redrawn is not None:
            return redrawn
    if abs(gap) <= SAME_MM and bend <= STRAIGHT_RAD:
        return Faired(one.joined(other), 0.0, 0.0)
    # Longer than the gap, so that the cubic does not have to hurry.
    reach = max(reach_mm, abs(gap))
    if bend <= STRAIGHT_RAD:
        return _Bridge.over(one, other, reach, most_mm).with_handles(1 / 3)
    more = dot(gap, unit(one.end_heading + other.start_heading))
    tried: list[tuple[float, _Bridge, float]] = []
    for share in _SHORTER:
        bridge = _Bridge.over(one, other, reach * share, most_mm)
        length = bridge.back_mm + bridge.on_mm + more
        pull = bridge.pull_for(length)
        tried.append((abs(bridge.length(pull) - length), bridge, pull))
        if tried[-1][0] <= LENGTH_MM:
            break
    _, best, pull = min(tried, key=lambda t: t[0])
    return best.with_handles(pull)


def _redrawn(one: Curve, other: Curve, most_mm: tuple[float, float]) -> Faired | None:
    """Two straight lines side by side as one, if that turns neither by more than a degree."""
    back, on = min(one.length, most_mm[0]), min(other.length, most_mm[1])
    start = one.end - one.end_heading * back if back < one.length else one.start
    end = other.start + other.end_heading * on if on < other.length else other.end
    whole = Curve.line(start, end)
    turn = abs(turn_between(one.end_heading, whole.end_heading))
    if turn > REDRAWN_RAD or dot(end - start, one.end_heading) <= 0:
        return None
    if turn * whole.length <= SAME_MM:
        return Faired(Curve.line(one.start, other.end), 0.0, 0.0)
    if back < one.length:
        whole = Curve.line(one.start, start).joined(whole)
    if on < other.length:
        whole = whole.joined(Curve.line(end, other.end))
    return Faired(whole, back, on)


@dataclass(frozen=True, slots=True)
class _Bridge:
    """A cubic to come between two lines cut back."""

    head: Curve
    tail: Curve
    back_mm: float
    on_mm: float

    @classmethod
    def over(cls, one: Curve, other: Curve, reach: float, most: tuple[float, float]) -> "_Bridge":
        back, on = min(reach, one.length * 0.6, most[0]), min(reach, other.length * 0.6, most[1])
        head, tail = one.part(0.0, one.length - back), other.part(on, other.length)
        return cls(head, tail, back, on)

    def cubic(self, pull: float) -> Segment:
        """The cubic with handles of a share of its chord."""
        a, d = self.head.end, self.tail.start
        reach = pull * abs(d - a)
        return a, a + self.head.end_heading * reach, d - self.tail.start_heading * reach, d

    def length(self, pull: float) -> float:
        return arc_length(self.cubic(pull))

    def with_handles(self, pull: float) -> Faired:
        line = self.head.joined(Curve.of([self.cubic(pull)])).joined(self.tail)
        return Faired(line, self.back_mm, self.on_mm)

    def pull_for(self, length_mm: float) -> float:
        """The handles with which it has a length, as far as it stays fair."""
        low, high = _HANDLES
        if self.length(high) <= length_mm:
            return high
        if self.length(low) >= length_mm:
            return low
        for _ in range(24):
            middle = (low + high) / 2
            if self.length(middle) < length_mm:
                low = middle
            else:
                high = middle
        return low


def _straight(curve: Curve) -> bool:
    return len(curve.runs) == 1 and len(curve.runs[0]) == 1
