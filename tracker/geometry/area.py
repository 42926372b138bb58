"""Outlines as areas: the only module that imports Shapely."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point

if TYPE_CHECKING:
    from shapely import Polygon

#: Flattening for predicates and areas of difference; seam lines never come from here.
FLAT_MM = 0.05


def polygon(ring: Iterable[Curve], tolerance_mm: float = FLAT_MM) -> "Polygon":
    """Return a closed ring of chains as a Shapely polygon, flattened."""
    import numpy as np
    import shapely

    points: list[Point] = []
    for curve in ring:
        points.extend(curve.flattened(tolerance_mm)[:-1])
    # A complex number lies in memory as x and y: an array of pairs without a loop.
    return shapely.Polygon(np.array(points, dtype=complex).view(float).reshape(-1, 2))


def outside_mm(ring: Iterable[Curve], spots: Iterable[Point]) -> float:
    """Return how far the furthest of some points lies outside a closed ring; 0 inside it."""
    import shapely

    area = polygon(ring)
    return max((float(area.distance(shapely.Point(p.real, p.imag))) for p in spots), default=0.0)


def fault_of(ring: Iterable[Curve]) -> tuple[str, Point] | None:
    """Return why a ring is no outline and where, or nothing where it is one."""
    import re

    import shapely

    shape = polygon(ring)
    if shape.is_valid:
        return None
    reason = shapely.is_valid_reason(shape)
    numbers = re.findall(r"-?\d+(?:\.\d+)?(?:e-?\d+)?", reason)
    where = complex(float(numbers[0]), float(numbers[1])) if len(numbers) >= 2 else 0j
    return "it crosses itself", where


def signed_area(ring: Iterable[Curve]) -> float:
    """Return the exact area in mm² within a closed ring; positive where it runs to the left."""
    return sum(curve.swept for curve in ring) / 2
