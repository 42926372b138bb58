"""Corners that are said to be square: drawn at a right angle, within what paper is read to.

Read to half a millimetre every 10 or 20 mm, a line's direction at its very end is some degrees
out; whoever drew the pattern drew it square there.
"""

import math
from dataclasses import replace

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, turned
from tracker.geometry.through import THROUGH_MM
from tracker.pattern.edge import Edge
from tracker.tracing.faults import Faults
from tracker.tracing.outline import Path
from tracker.tracing.tracing import TracedPiece

#: A corner read further than this from square was hardly meant to be.
MOST_DEG = 12.0
#: A line is bent over at most this much of it.
_OVER_MM = 40.0
#: A cubic that leaves a line at a small angle, and comes back to it, stands off it by this share
#: of angle times length at most.
_SHARE = 4 / 27
#: Corners this near to square are.
_SQUARE_DEG = 0.01


def squared(
    piece: TracedPiece,
    ring: tuple[Path, ...],
    edges: list[Edge],
    faults: Faults,
    notes: list[str],
) -> list[Edge]:
    """Return a piece's edges with the corners that were said to be square drawn so.

    The one edge is bent at its end so little that it stands no further from its points than any
    line drawn through them.
    """
    out = list(edges)
    for k, path in enumerate(ring):
        ends = ring[k - 1].parts[-1].stops[-1:] + path.parts[0].stops[:1]
        said = next((s for s in ends if s.square), None)
        if said is None:
            continue
        before, after = out[k - 1], out[k]
        one, other = before.parts[-1].end_heading, after.parts[0].start_heading
        angle = 180.0 - math.degrees(turn_between(one, other))
        wanted = 270.0 if angle > 180.0 else 90.0
        off = angle - wanted
        where = f"{piece.label}: the {path.start}"
        if abs(off) > MOST_DEG:
            faults.tell(
                said.line,
                f"the {path.start} of the {piece.label} is said to be square and was read at "
                f"{angle:.0f} degrees; look at the points beside it, or say corner",
            )
            continue
        if abs(off) < _SQUARE_DEG:
            continue
        bend_after = _gives_way(piece, after, before)
        if bend_after:
            heading = turned(other, 0j, math.radians(off))
            line = _bent(after.parts[0], heading, math.radians(abs(off)))
            out[k] = replace(after, parts=(line, *after.parts[1:]))
        else:
            heading = turned(one, 0j, -math.radians(off))
            line = _bent(before.parts[-1].reversed, -heading, math.radians(abs(off))).reversed
            out[k - 1] = replace(before, parts=(*before.parts[:-1], line))
        name = (after if bend_after else before).name
        notes.append(
            f"{where} was read at {angle:.1f}° and is drawn square; the {name} was bent for it"
        )
    return out


def _gives_way(piece: TracedPiece, after: Edge, before: Edge) -> bool:
    """Tell whether the later edge is the one that is bent: the curved one, no fold, no centre."""

    def stiff(edge: Edge, line: Curve) -> tuple[bool, bool, bool]:
        straight = len(line.runs) == 1 and len(line.runs[0]) == 1
        return edge.name == piece.fold, edge.name.startswith("centre "), straight

    return stiff(after, after.parts[0]) <= stiff(before, before.parts[-1])


def _bent(line: Curve, heading: Point, by_rad: float) -> Curve:
    """A line that starts in another direction, back on itself as soon as it may be."""
    over = min(_OVER_MM, 0.4 * line.length, THROUGH_MM * 0.9 / (_SHARE * by_rad))
    rest = line.part(over, line.length)
    reach = abs(rest.start - line.start) / 3
    blend = Curve.cubic(
        line.start, line.start + heading * reach, rest.start - rest.start_heading * reach,
        rest.start,
    )  # fmt: skip
    return blend.joined(rest)


__all__ = ["MOST_DEG", "squared"]
