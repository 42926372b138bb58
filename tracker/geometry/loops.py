"""Loops cut out of a line, such as a displaced one makes where its base bends more tightly."""

from tracker.geometry.crossing import nearest_spot
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point

#: Segments that follow one another share a point; it is no crossing within this, millimetres.
_JOINT_MM = 1e-3


def without_loops(line: Curve, longest_mm: float) -> Curve:
    """Return a line without the loops it makes in crossing itself.

    Args:
        line: a line.
        longest_mm: what is longer between its two passes, millimetres, is no loop and stays.

    Returns:
        The line itself where it does not cross itself so; cut at the crossing, it may have a
        corner there.
    """
    while True:
        loop = _first_loop(line, longest_mm)
        if loop is None:
            return line
        from_mm, to_mm, at = loop
        head = line.part(0.0, from_mm).ended_at(at)
        line = head.joined(line.part(to_mm, line.length).started_at(at))


def _first_loop(line: Curve, longest_mm: float) -> tuple[float, float, Point] | None:
    parts = [Curve.of([segment]) for segment in line.segments]
    for i, one in enumerate(parts):
        # The widest loop first: those within it go with it.
        for j in range(len(parts) - 1, i, -1):
            if line.reaches[j] - line.reaches[i + 1] > longest_mm:
                continue
            spot = nearest_spot(one, parts[j], one.start)
            if spot is None or (j == i + 1 and abs(spot.point - one.end) < _JOINT_MM):
                continue
            begin = line.distance_of(i, spot.first[1])
            end = line.distance_of(j, spot.second[1])
            if end - begin <= longest_mm:
                return begin, end, spot.point
    return None


__all__ = ["without_loops"]
