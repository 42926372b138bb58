"""A base line displaced square to itself by a profile, drawn as a fitted chain."""

import itertools
from collections.abc import Callable

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.fit import fitted
from tracker.geometry.point import SAME_MM, Point, cross, left_of, unit
from tracker.geometry.profile import Sum


def displaced(base: Curve, amounts: Sum, offset_mm: float = 0.0) -> Curve:
    """Return the base line moved to its left by the amounts, fitted to 0.02 mm.

    Stretches on which nothing moves are the base's own segments, byte for byte; a straight
    base stretch is displaced exactly.

    Args:
        base: the line from which distances and square directions are taken.
        amounts: how far to the left (millimetres) at each distance.
        offset_mm: the distance, in the amounts' terms, of the base's start.
    """
    out: list[Segment] = []
    s = offset_mm
    for segment, length in zip(base.segments, base.lengths, strict=True):
        out.extend(_segment(segment, length, s, amounts))
        s += length
    return Curve.of(_closed_up(out))


def _segment(segment: Segment, length: float, s0: float, amounts: Sum) -> list[Segment]:
    cuts = [b - s0 for b in amounts.breaks if SAME_MM < b - s0 < length - SAME_MM]
    stops = [0.0, *cuts, length]
    out: list[Segment] = []
    still: float | None = None  # where a stretch that does not move began
    for a, b in itertools.pairwise(stops):
        if amounts.is_zero_between(s0 + a, s0 + b):
            still = a if still is None else still
            continue
        if still is not None:
            out.append(_stretch(segment, length, still, a))
            still = None
        out.extend(_moved(_stretch(segment, length, a, b), s0 + a, b - a, amounts))
    if still is not None:
        out.append(_stretch(segment, length, still, length))
    return out


def _stretch(segment: Segment, length: float, a: float, b: float) -> Segment:
    t0 = bezier.parameter_at(segment, a, length) if a > 0 else 0.0
    t1 = bezier.parameter_at(segment, b, length) if b < length else 1.0
    return bezier.between(segment, t0, t1)


def _moved(segment: Segment, s0: float, length: float, amounts: Sum) -> list[Segment]:
    # Just inside the stretch, so that a knot is read from this side of it.
    (v0, m0), (v1, m1) = amounts.at(s0), amounts.at(s0 + length)
    if len(segment) == 2:
        a, b = segment
        square = left_of(unit(b - a))
        if v0 == v1 and m0 == m1 == 0.0:
            return [(a + square * v0, b + square * v1)]
        third = length / 3
        along = unit(b - a) * third
        return [
            (
                a + square * v0,
                a + along + square * (v0 + m0 * third),
                b - along + square * (v1 - m1 * third),
                b + square * v1,
            )
        ]
    return fitted(_line_of(segment, s0, length, amounts))


def _line_of(
    segment: Segment, s0: float, length: float, amounts: Sum
) -> Callable[[float], tuple[Point, Point]]:
    def at(t: float) -> tuple[Point, Point]:
        # Arc length is needed at each sample; the segment is short, so one rule does.
        s = s0 + min(length, bezier.arc_length(segment, 0.0, t)) if t > 0 else s0
        value, slope = amounts.at(s)
        v = bezier.velocity(segment, t)
        heading = bezier.heading(segment, t)
        square = left_of(heading)
        speed = abs(v)
        if speed < 1e-12:
            return bezier.point_on(segment, t) + square * value, heading
        bend = cross(v, bezier.acceleration(segment, t)) / speed**3
        return (
            bezier.point_on(segment, t) + square * value,
            heading * (1 - bend * value) + square * slope,
        )

    return at


def _closed_up(segments: list[Segment]) -> list[Segment]:
    """Let each segment start where the one before ended: a base joint may be a hair bent."""
    out = [segments[0]]
    for segment in segments[1:]:
        end = out[-1][-1]
        gap = segment[0] - end
        if gap == 0:
            out.append(segment)
        elif abs(gap) < 1e-3:
            moved = (end, *segment[1:])
            if len(segment) == 4:
                moved = (end, segment[1] - gap, *segment[2:])
            out.append(moved)
        else:
            out.extend([(end, segment[0]), segment])
    return out
