"""What a cut across a piece makes of the darts inside it."""

from dataclasses import replace

from tracker.alterations.cut_cloth import CutCloth, Part
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot, unit
from tracker.geometry.transform import Motion
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError


def dart_moved(dart: Dart, motion: Motion) -> Dart:
    """Return a dart carried along whole."""
    return replace(dart, legs=(dart.legs[0].moved(motion), dart.legs[1].moved(motion)))


def inner_dart(cloth: CutCloth, angle_rad: float, label: str, dart: Dart) -> Dart:
    """Return a double-pointed dart moved, or made longer or shorter by a cut across it.

    Args:
        cloth: the piece in its parts.
        angle_rad: how far the one part turned against the other.
        label: the piece's.
        dart: the dart.

    Raises:
        PatternError: the cut goes through it where it cannot be drawn again.
    """
    corners = [p for leg in dart.legs for p in (leg.start, *(r[-1] for r in leg.runs))]
    parts = {cloth.part(p) for p in corners}
    if parts == {Part.STAYS}:
        return dart
    if parts == {Part.MOVES}:
        return dart_moved(dart, cloth.motion)
    straight = all(len(run) == 1 for leg in dart.legs for run in leg.runs)
    if not straight or Part.GOES in parts:
        raise PatternError(_through(label, dart))
    if abs(angle_rad) > 1e-9:
        return _turned(cloth, label, dart)

    def redrawn(leg: Curve) -> Curve:
        points = (leg.start, *(r[-1] for r in leg.runs))
        return Curve.line(*(cloth.moved(p) for p in points))

    return replace(dart, legs=(redrawn(dart.legs[0]), redrawn(dart.legs[1])))


def _turned(cloth: CutCloth, label: str, dart: Dart) -> Dart:
    """One whose widest place goes one way and a point of it the other: drawn again.

    It stays as wide where it is widest. A point on the other side of the cut is put as far off as
    the cut leaves it, square to that, so that the legs are equal.
    """
    one, other = dart.legs
    widest = [leg.runs[0][-1] for leg in dart.legs]
    kept = {cloth.part(p) for p in widest}
    if any(len(leg.runs) != 2 for leg in dart.legs) or len(kept) != 1:
        raise PatternError(_through(label, dart))
    a, b = (cloth.moved(p) for p in widest)
    middle, square = (a + b) / 2, unit(b - a)

    def aligned(point: Point) -> Point:
        moved = cloth.moved(point)
        return moved - square * dot(moved - middle, square)

    upper, lower = aligned(one.start), aligned(other.end)
    along = one.start - one.end
    if dot(upper - middle, along) <= 0 or dot(lower - middle, along) >= 0:
        raise PatternError(_through(label, dart))
    return replace(dart, legs=(Curve.line(upper, a, lower), Curve.line(upper, b, lower)))


def _through(label: str, dart: Dart) -> str:
    return f"the cut would go through the {dart.name} of the {label}; lay it above or below"


__all__ = ["dart_moved", "inner_dart"]
