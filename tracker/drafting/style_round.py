"""Rounding a corner of a line, and bending a line's end, without moving the corner."""

from dataclasses import dataclass

from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, cross, unit


def with_end_heading(line: Curve, reach_mm: float, heading: Point) -> Curve:
    """Return a line bent over its last stretch so that it arrives in a direction.

    Args:
        line: the line.
        reach_mm: how long a stretch may bend; what lies before is the same line.
        heading: the direction of arrival.
    """
    keep, rest = line.split(line.length - min(reach_mm, line.length))
    handle = rest.length / 3
    bent = Curve.cubic(
        rest.start,
        rest.start + rest.start_heading * handle,
        rest.end - unit(heading) * handle,
        rest.end,
    )
    return bent if keep.length <= SAME_MM else keep.joined(bent)


def with_start_heading(line: Curve, reach_mm: float, heading: Point) -> Curve:
    """Return a line bent over its first stretch so that it leaves in a direction."""
    return with_end_heading(line.reversed, reach_mm, -heading).reversed


def rounded_corner(line: Curve, at_mm: float, reach_mm: float) -> Curve:
    """Return a line whose corner is rounded within a reach to either side.

    The rounded line goes through the corner itself, half-way between its two directions, so
    that a width measured there is kept.

    Args:
        line: the line with a corner.
        at_mm: how far along the corner is.
        reach_mm: how far to either side the line may change.
    """
    before, after = line.split(at_mm)
    heading = unit(before.end_heading + after.start_heading)
    return with_end_heading(before, reach_mm, heading).joined(
        with_start_heading(after, reach_mm, heading)
    )


@dataclass(frozen=True, slots=True)
class Bulge:
    """How far a line was moved, where it was moved most.

    Attributes:
        mm: the amount; positive adds cloth to the piece.
        at_mm: how far from the corner, along the line.
    """

    mm: float
    at_mm: float


def bulge(old: Curve, new: Curve, corner: Point, towards_start: bool) -> Bulge:
    """Return the greatest move between two lines to one side of a corner both go through.

    The lines run as a piece's outline does, the piece to their left.
    """
    at = new.nearest(corner)[0]
    from_mm, to_mm = (0.0, at) if towards_start else (at, new.length)
    most = Bulge(0.0, 0.0)
    for k in range(1, 81):
        here = from_mm + (to_mm - from_mm) * k / 81
        if abs(here - at) > 80:
            continue
        point = new.point_at(here)
        along, gap = old.nearest(point)
        if gap > abs(most.mm):
            outside = cross(old.heading_at(along), point - old.point_at(along)) < 0
            most = Bulge(gap if outside else -gap, abs(here - at))
    return most
