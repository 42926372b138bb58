"""Dart legs made longer and shorter, each taken from the pivot out."""

from tracker.geometry import bezier
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, unit
from tracker.pattern.trimming import End, trimmed

#: A line is run on at most this far to meet another.
RUN_ON_MM = 250.0


def leg_to(leg: Curve, mouth: Point) -> Curve:
    """A leg, from the pivot out, that ends at a point on its own line."""
    if leg.end == mouth:
        return leg
    if len(leg.runs) == 1 and len(leg.runs[0]) == 1:
        return Curve.line(leg.start, mouth)
    longer = lengthened(leg)
    index, t, _ = longer.nearest_spot(mouth)
    return trimmed(longer, End(longer.start), End(mouth, (index, t))) or leg


def lengthened(leg: Curve) -> Curve:
    """A leg run on from its outer end: straight, or by the same cubic where it is bent."""
    last = leg.segments[-1]
    if len(last) == 2:
        reach = abs(last[1] - last[0])
        return leg.ended_at(last[0] + (last[1] - last[0]) * ((reach + RUN_ON_MM) / reach))
    # The same polynomial run on and cut again is itself; a run-on of another kind would not be.
    longer = bezier.split(last, 1.4)[0]
    return Curve(leg.start, (*leg.runs[:-1], longer[1:]))


def leg_of_length(leg: Curve, length_mm: float) -> Curve:
    """A leg cut off or run on to a length."""
    if abs(leg.length - length_mm) <= 1e-9:
        return leg
    last = leg.segments[-1]
    if len(leg.runs) == 1 and len(last) == 2:
        return Curve.line(leg.start, leg.start + unit(last[1] - last[0]) * length_mm)
    return lengthened(leg).part(0.0, length_mm)
