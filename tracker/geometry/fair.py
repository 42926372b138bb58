"""A fair join: two lines with a gap, an overlap or a bend between them drawn as one."""

from collections.abc import Callable

from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, dot, turn_between, unit

#: A join is faired over at most this far on each side.
FAIRED_MM = 70.0
#: Bends under this need no fairing, radians (a twentieth of a degree).
STRAIGHT_RAD = 0.0009


def faired(
    one: Curve, other: Curve, reach_mm: float = FAIRED_MM, *, keeps_length: bool = False
) -> Curve:
    """Return two lines joined into one that runs smoothly through the join.

    Where they meet end to end without a bend they are simply joined, and where both lie on
    one straight line the result is that line. Otherwise each is cut back by up to
    ``reach_mm`` and a cubic with both directions takes the place of what was cut; where the
    two meet in a bend, it can be given the length of what it replaces.
    """
    gap = other.start - one.end
    bend = abs(turn_between(one.end_heading, other.start_heading))
    if abs(gap) <= SAME_MM and bend <= STRAIGHT_RAD:
        return one.joined(other)
    if bend <= STRAIGHT_RAD and _straight(one) and _straight(other):
        across = unit(gap)
        if dot(across, one.end_heading) > 0 and abs(turn_between(across, one.end_heading)) < 1e-6:
            return Curve.line(one.start, other.end)
    # Longer than the gap, so that the cubic does not have to hurry.
    reach = max(reach_mm, abs(gap))
    back, on = min(reach, one.length * 0.6), min(reach, other.length * 0.6)
    head, tail = one.part(0.0, one.length - back), other.part(on, other.length)
    chord = abs(tail.start - head.end)

    def bridge(pull: float) -> Curve:
        return Curve.cubic(
            head.end,
            head.end + head.end_heading * (pull * chord),
            tail.start - tail.start_heading * (pull * chord),
            tail.start,
        )

    pull = 1 / 3
    if keeps_length:
        pull = _pull_for(bridge, back + on)
    return head.joined(bridge(pull)).joined(tail)


def _pull_for(bridge: Callable[[float], Curve], length_mm: float) -> float:
    """The handles with which the bridge has a length, as far as it stays fair."""
    low, high = 1 / 3, 0.6
    if bridge(high).length <= length_mm:
        return high
    for _ in range(30):
        middle = (low + high) / 2
        if bridge(middle).length < length_mm:
            low = middle
        else:
            high = middle
    return low


def _straight(curve: Curve) -> bool:
    return len(curve.runs) == 1 and len(curve.runs[0]) == 1
