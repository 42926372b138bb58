"""The mouth of a dart: what must be cut there so that the folded dart is caught in the seam.

A dart is folded on its middle and pressed to one side. Its cloth then lies along the edge on
that side; unfolded, the edge there is seen mirrored about the leg it is folded over, up to
the middle, and mirrored again about the middle.
"""

import itertools

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross
from tracker.geometry.transform import Motion
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.piece import Piece

_FLAT_MM = 0.01
#: The peak of a mouth stands at most this many mouth widths out.
_MOST_WIDTHS = 1.5


def pressed_to_start(dart: Dart) -> bool:
    """Tell whether a dart is pressed to the side of its mouth's start, going round the piece.

    "down" and "up" compare heights; "to the centre" and "to the side" compare distances from
    the middle of the body, where x is 0. A dart pressed any other way is taken as pressed to
    the centre.
    """
    start, end = dart.mouth_start, dart.mouth_end
    way = dart.pressed.lower()
    if "down" in way:
        return start.imag < end.imag
    if "up" in way:
        return start.imag > end.imag
    nearer = abs(start.real) < abs(end.real)
    return not nearer if "side" in way or "out" in way else nearer


def mouth_shape(piece: Piece, dart: Dart) -> list[Point]:
    """Return the edge across a dart's mouth, from its start over the peak to its end.

    Raises:
        PatternError: the dart has no mouth.
    """
    if dart.mouth is None:
        raise PatternError(f"the {dart.name} of the {piece.label} has two points and no mouth")
    if dart.gathered:
        return gathered_line(piece, dart).flattened(_FLAT_MM)
    edge = piece.edge(dart.mouth, dart.side)
    index = edge.mouths.index(dart.name)
    middle = (dart.mouth_start + dart.mouth_end) / 2
    fold = Motion.mirror(middle, middle + dart.axis)
    if pressed_to_start(dart):
        leg = Motion.mirror(dart.mouth_start, dart.mouth_start + dart.legs[0].start_heading)
        line = edge.drawn[index].reversed
    else:
        leg = Motion.mirror(dart.mouth_end, dart.mouth_end + dart.legs[1].end_heading)
        line = edge.drawn[index + 1]
    near = line.part(0.0, min(line.length, 3 * dart.intake_mm))
    half = _up_to([leg.of(p) for p in near.flattened(_FLAT_MM)], middle, dart.axis)
    peak_out = abs(half[-1] - middle) if half else 0.0
    if not half or peak_out > _MOST_WIDTHS * dart.intake_mm:
        return [dart.mouth_start, dart.mouth_end]
    other = [fold.of(p) for p in half[-2::-1]]
    whole = [*half, *other]
    if not pressed_to_start(dart):
        whole.reverse()
    return [dart.mouth_start, *whole[1:-1], dart.mouth_end]


def gathered_line(piece: Piece, dart: Dart) -> Curve:
    """Return the line an edge is cut on across a mouth that is gathered: smooth on both sides."""
    edge = piece.edge(dart.mouth or "", dart.side)
    index = edge.mouths.index(dart.name)
    a, b = edge.drawn[index], edge.drawn[index + 1]
    reach = abs(b.start - a.end) / 3
    return Curve.cubic(
        a.end, a.end + a.end_heading * reach, b.start - b.start_heading * reach, b.start
    )


def _up_to(points: list[Point], through: Point, axis: Point) -> list[Point]:
    """Return the points up to where they first meet a line, running on straight if they must."""
    side = cross(axis, points[0] - through)
    out = [points[0]]
    for a, b in itertools.pairwise(points):
        here = cross(axis, b - through)
        if here * side <= 0:
            before = cross(axis, a - through)
            out.append(a + (b - a) * (before / (before - here)))
            return out
        out.append(b)
    a, b = points[-2:]
    before, here = cross(axis, a - through), cross(axis, b - through)
    if abs(here) >= abs(before):
        return []
    out.append(b + (b - a) * (here / (before - here)))
    return out
