"""Material lines that follow the outline they end on."""

import itertools
import math
from collections.abc import Collection
from dataclasses import replace

from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Stroke
from tracker.pattern.piece import Piece

#: An end of a material line this near an edge ends on it.
ON_EDGE_MM = 0.05


def level_again(
    level: Level, old: Piece, new: Piece, fresh: Collection[tuple[str, BodySide]]
) -> Level:
    """Return a material line with its ends on the outline again, after some edges changed."""
    if not level.strokes:
        return level
    changed = [e for e in old.edges if e.key in fresh and new.edge(*e.key).parts != e.parts]
    if not changed:
        return level
    strokes = []
    for stroke in level.strokes:
        stroke = _end_again(stroke, changed, new)
        strokes.append(_end_again(stroke[::-1], changed, new)[::-1])
    return replace(level, strokes=tuple(strokes))


def _ends_on(edge: Edge, end: Point) -> bool:
    for part in edge.parts:
        left, low, right, high = part.box
        if (
            left - ON_EDGE_MM <= end.real <= right + ON_EDGE_MM
            and low - ON_EDGE_MM <= end.imag <= high + ON_EDGE_MM
            and part.nearest_spot(end)[2] < ON_EDGE_MM
        ):
            return True
    return False


def _end_again(stroke: Stroke, changed: list[Edge], new: Piece) -> Stroke:
    """Run a stroke's last end on, or cut it back, to the new line of the edge it ended on."""
    end = stroke[-1]
    on = [e for e in changed if _ends_on(e, end)]
    if not on:
        return stroke
    corner = _corner_at(on, end, new)
    if corner is not None:
        # A line drawn through a corner goes on ending there, however it leans for that: it comes
        # back with the corner.
        while len(stroke) > 2 and dot(corner - stroke[-2], stroke[-1] - stroke[-2]) <= 0.0:
            stroke = stroke[:-1]
        return (*stroke[:-1], corner)
    cut_back = _cut_back(stroke, on, new)
    heading = unit(stroke[-1] - stroke[-2])
    back = abs(stroke[-1] - stroke[-2])
    meetings = [
        c for part in _about(on, new) for c in with_line(part, end, heading) if c.second_mm > -back
    ]
    nearest = min((abs(c.second_mm) for c in meetings), default=math.inf)
    if cut_back is not None and _length(stroke) - _length(cut_back) < nearest:
        return cut_back
    if not meetings:
        return stroke
    return (*stroke[:-1], min(meetings, key=lambda c: abs(c.second_mm)).point)


def _about(on: list[Edge], new: Piece) -> tuple[Curve, ...]:
    """The new lines of some edges and of those beside them, which a corner may have gone past."""
    edges = {}
    for old in on:
        edge = new.edge(*old.key)
        for one in (new.before(edge), edge, new.after(edge)):
            edges[one.key] = one
    return tuple(part for edge in edges.values() for part in edge.parts)


def _cut_back(stroke: Stroke, on: list[Edge], new: Piece) -> Stroke | None:
    """Cut a line of many short strokes back to where it meets the edge before its last one.

    A waist line that is curved is drawn by strokes of about a millimetre; the seam taken in by
    more than that crosses one further in.
    """
    parts = [part for edge in on for part in new.edge(*edge.key).parts]
    for last in range(len(stroke) - 2, 0, -1):
        start, end = stroke[last - 1], stroke[last]
        span = abs(end - start)
        if span <= 0.0:
            continue
        met = [
            c
            for part in parts
            for c in with_line(part.run_on(0.5, 0.5), end, unit(end - start))
            if -span < c.second_mm <= 0.0
        ]
        if met:
            return (*stroke[:last], max(met, key=lambda c: c.second_mm).point)
    return None


def _length(stroke: Stroke) -> float:
    return sum(abs(b - a) for a, b in itertools.pairwise(stroke))


def _corner_at(edges: list[Edge], end: Point, new: Piece) -> Point | None:
    """Where the corner at which a line ended is now; nothing where it ended between corners."""
    for edge in edges:
        fresh = new.edge(*edge.key)
        if abs(edge.parts[0].start - end) < ON_EDGE_MM:
            return fresh.parts[0].start
        if abs(edge.parts[-1].end - end) < ON_EDGE_MM:
            return fresh.parts[-1].end
    return None
