"""Drawing a style line: from a place on the outline to a dart's pivot or to another edge."""

import math

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, left_of, turn_between, turned, unit

#: A line through a dart's pivot bends towards the dart's middle by at most this at its end.
MOST_BEND_RAD = math.radians(18)
#: A style line meets the armhole at this angle or more; common practice, no source.
MEETS_RAD = math.radians(60)
_CONE_RAD = math.pi / 2 - MEETS_RAD
#: Handles lie between these shares of the chord, so that a line neither hooks nor loops.
_SHORTEST_HANDLE, _LONGEST_HANDLE = 0.12, 0.6
_LEAST_BEND_RAD, _MOST_ARRIVAL_RAD = math.radians(3), math.radians(60)


def even_line(start: Point, end: Point, end_heading: Point) -> Curve:
    """Return a line of even curve that arrives in a direction, as near as 18° of bend allows.

    Args:
        start: where it begins.
        end: where it ends.
        end_heading: the direction wished for at its end.
    """
    chord = end - start
    bend = _held(turn_between(chord, end_heading), MOST_BEND_RAD)
    along = unit(chord)
    handle = abs(chord) / 3
    return Curve.cubic(
        start,
        start + turned(along, 0j, -bend) * handle,
        end - turned(along, 0j, bend) * handle,
        end,
    )


def between_points(start: Point, start_heading: Point, end: Point, end_heading: Point) -> Curve:
    """Return a line from one dart's pivot to another's, each end bent 18° from it at most.

    Args:
        start: where it begins.
        start_heading: the direction wished for there.
        end: where it ends.
        end_heading: the direction wished for there.
    """
    chord = end - start
    along, handle = unit(chord), abs(chord) / 3
    leave = _held(turn_between(chord, start_heading), MOST_BEND_RAD)
    arrive = _held(turn_between(chord, end_heading), MOST_BEND_RAD)
    return Curve.cubic(
        start,
        start + turned(along, 0j, leave) * handle,
        end - turned(along, 0j, arrive) * handle,
        end,
    )


def bowed_line(
    start: Point, end: Point, crossing: Point, end_heading: Point, bow_mm: float
) -> Curve:
    """Return a line that leaves an edge at 60° or more and bows by about a stated amount.

    Args:
        start: where it leaves the edge.
        end: where it ends.
        crossing: the direction of the edge it leaves, the piece to the left of it.
        end_heading: the direction wished for at its end; it is met as far as the bow allows.
        bow_mm: how far the middle stands off the straight line, towards the neck.
    """
    chord = end - start
    size, along = abs(chord), unit(chord)
    away = _away(crossing, along)
    leave, to_end = turn_between(chord, away), turn_between(chord, end_heading)
    if abs(leave) < _LEAST_BEND_RAD:
        # The chord itself meets the edge well: bow away from where the end swings to, unless
        # that would meet the edge too flat.
        leave = math.copysign(_LEAST_BEND_RAD, -to_end)
        if abs(turn_between(left_of(crossing), turned(along, 0j, leave))) > _CONE_RAD:
            leave = -leave
    side = math.copysign(1.0, leave)
    leave = abs(leave)
    # A line that would have to bend both ways arrives along the straight instead.
    arrive = min(max(-side * to_end, 0.0), _MOST_ARRIVAL_RAD)
    reach, late = 8 / 3 * bow_mm, size / 3
    room = reach - _SHORTEST_HANDLE * size * math.sin(leave)
    if late * math.sin(arrive) > room:
        arrive = math.asin(max(0.0, min(1.0, room / late)))
    early = (reach - late * math.sin(arrive)) / math.sin(leave)
    early = min(max(early, _SHORTEST_HANDLE * size), _LONGEST_HANDLE * size)
    return Curve.cubic(
        start,
        start + turned(along, 0j, side * leave) * early,
        end - turned(along, 0j, -side * arrive) * late,
        end,
    )


def _away(crossing: Point, along: Point) -> Point:
    """The direction into the piece nearest the chord that makes 60° or more with the edge."""
    square = left_of(unit(crossing))
    off = turn_between(square, along)
    return turned(square, 0j, _held(off, _CONE_RAD))


def _held(angle: float, most: float) -> float:
    return max(-most, min(most, angle))


def meeting_angle_deg(line: Curve, crossing: Point) -> float:
    """Return the angle between a line's start and the edge it leaves, 0° to 90°."""
    off = abs(math.degrees(turn_between(crossing, line.start_heading)))
    return min(off, 180.0 - off)


def bow_of(line: Curve) -> float:
    """Return how far a line stands off the straight between its ends at most, millimetres."""
    chord = unit(line.end - line.start)
    return max(
        abs(((line.point_at(line.length * k / 40) - line.start) * chord.conjugate()).imag)
        for k in range(41)
    )
