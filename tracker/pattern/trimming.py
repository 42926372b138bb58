"""A drawn line cut back or run on at its ends, so that it meets what lies there."""

from dataclasses import dataclass

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, cross, dot, unit

#: A line this short, millimetres, is none.
NOTHING_MM = 1.0
#: A line is not run on by less than this: kept to 1e-6 mm, so short a piece would point anywhere.
HAIR_MM = 0.01
#: Lines whose directions differ by less (as a slope) run on in one another.
_STRAIGHT_ON = 1e-9


@dataclass(frozen=True, slots=True)
class End:
    """How a line ends.

    Attributes:
        point: where.
        cut: segment number and parameter at which it is cut; none where it is not cut.
        on: what is run on from its own end to ``point``, outward; none where nothing is.
    """

    point: Point
    cut: tuple[int, float] | None = None
    on: Segment | None = None

    @classmethod
    def run_on(cls, from_: Point, heading: Point, to: Point) -> "End":
        """Run a line on from its end; what lies beside the straight is reached smoothly."""
        reach = dot(to - from_, heading)
        if reach <= HAIR_MM:
            return cls(to)
        if abs(cross(heading, to - from_)) < 1e-5:
            return cls(to, on=(from_, to))
        third = heading * (reach / 3)
        return cls(to, on=(from_, from_ + third, to - third, to))


def trimmed(line: Curve, start: End, end: End) -> Curve | None:
    """Return the line between its two new ends, or nothing where nothing is left."""
    segments = line.segments
    i0, t0 = start.cut or (0, 0.0)
    i1, t1 = end.cut or (len(segments) - 1, 1.0)
    if (i0, t0) >= (i1, t1):
        return None
    out = list(segments[i0 : i1 + 1])
    if i0 == i1:
        out[0] = bezier.between(out[0], t0, t1)
    else:
        out[0] = bezier.between(out[0], t0, 1.0)
        out[-1] = bezier.between(out[-1], 0.0, t1)
    if len(out) > 1 and abs(out[0][-1] - out[0][0]) <= SAME_MM and not start.on:
        out.pop(0)
    if len(out) > 1 and abs(out[-1][-1] - out[-1][0]) <= SAME_MM and not end.on:
        out.pop()
    out = _ended(out, end)
    out = [s[::-1] for s in reversed(out)]
    out = [s[::-1] for s in reversed(_ended(out, start))]
    if sum(abs(s[-1] - s[0]) for s in out) < NOTHING_MM:
        return None
    return Curve.of(out)


def _ended(segments: list[Segment], end: End) -> list[Segment]:
    last = segments[-1]
    if end.on is not None:
        if len(last) == 2 and len(end.on) == 2:
            one, other = unit(last[1] - last[0]), unit(end.on[1] - end.on[0])
            if abs(cross(one, other)) < max(_STRAIGHT_ON, SAME_MM / abs(end.on[1] - end.on[0])):
                return [*segments[:-1], (last[0], end.point)]
        return [*segments, end.on]
    shift = end.point - last[-1]
    if shift == 0:
        return segments
    if len(last) == 2:
        return [*segments[:-1], (last[0], end.point)]
    return [*segments[:-1], (last[0], last[1], last[2] + shift, end.point)]
