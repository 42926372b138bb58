"""A fair join: two lines with a gap, an overlap or a bend between them drawn as one."""

from collections.abc import Callable
from dataclasses import dataclass

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


def faired(one: Curve, other: Curve, reach_mm: float = FAIRED_MM) -> Faired:
    """Join two lines into one that runs smoothly through the join.

    Where they meet end to end without a bend they are simply joined. Where both are straight
    and run side by side the result is one straight line from the start of the first to the end
    of the second, as long as that turns neither by more than a degree. Otherwise each is cut
    back by up to ``reach_mm`` and a cubic with both directions takes the place of what was
    cut; where the two meet in a bend it is given the length of what it replaces and of the
    gap, as near as is fair.

    Args:
        one: the first line.
        other: the second, which begins about where the first ends.
        reach_mm: how far to either side it may be redrawn.
    """
    gap = other.start - one.end
    bend = abs(turn_between(one.end_heading, other.start_heading))
    straight = bend <= STRAIGHT_RAD and _straight(one) and _straight(other)
    if straight:
        whole = Curve.line(one.start, other.end)
        turn = abs(turn_between(one.end_heading, whole.end_heading))
        if turn <= REDRAWN_RAD and dot(whole.end - whole.start, one.end_heading) > 0:
            exact = turn * whole.length <= SAME_MM
            return Faired(whole, 0.0 if exact else one.length, 0.0 if exact else other.length)
    if abs(gap) <= SAME_MM and bend <= STRAIGHT_RAD:
        return Faired(one.joined(other), 0.0, 0.0)
    # Longer than the gap, so that the cubic does not have to hurry.
    reach = max(reach_mm, abs(gap))
    if bend <= STRAIGHT_RAD:
        return _bridged(one, other, reach)(1 / 3)
    length = one.length + other.length + dot(gap, unit(one.end_heading + other.start_heading))
    tried: list[tuple[float, Faired]] = []
    for share in _SHORTER:
        bridge = _bridged(one, other, reach * share)
        join = bridge(_pull_for(bridge, length))
        tried.append((abs(join.line.length - length), join))
        if tried[-1][0] <= LENGTH_MM:
            break
    return min(tried, key=lambda t: t[0])[1]


def _bridged(one: Curve, other: Curve, reach: float) -> Callable[[float], Faired]:
    back, on = min(reach, one.length * 0.6), min(reach, other.length * 0.6)
    head, tail = one.part(0.0, one.length - back), other.part(on, other.length)
    chord = abs(tail.start - head.end)

    def with_handles(pull: float) -> Faired:
        bridge = Curve.cubic(
            head.end,
            head.end + head.end_heading * (pull * chord),
            tail.start - tail.start_heading * (pull * chord),
            tail.start,
        )
        return Faired(head.joined(bridge).joined(tail), back, on)

    return with_handles


def _pull_for(bridge: Callable[[float], Faired], length_mm: float) -> float:
    """The handles with which the whole has a length, as far as the bridge stays fair."""
    low, high = _HANDLES
    if bridge(high).line.length <= length_mm:
        return high
    if bridge(low).line.length >= length_mm:
        return low
    for _ in range(30):
        middle = (low + high) / 2
        if bridge(middle).line.length < length_mm:
            low = middle
        else:
            high = middle
    return low


def _straight(curve: Curve) -> bool:
    return len(curve.runs) == 1 and len(curve.runs[0]) == 1
