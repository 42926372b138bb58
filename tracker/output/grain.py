"""Where a piece's grain line is drawn: in its direction, clear of darts, and long."""

from typing import TYPE_CHECKING

from tracker.geometry.area import polygon
from tracker.geometry.point import Point, along, cross, dot, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.marks import Stroke
from tracker.pattern.piece import Piece

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

#: An arrow keeps this far from outline, darts, marks and centre lines, millimetres.
CLEAR_MM = 6.0
#: And this far from a fold, where arrows and words stand.
_FOLD_MM = 20.0
#: The one the pattern has is drawn if it is clear and this share of the longest there is room for.
_LONG_ENOUGH = 0.55
#: Of what there is room for so much is left at either end.
_END = 0.08
#: Of places with about as much room as the longest the one nearest to the pattern's is taken.
_NEAR_LONGEST = 0.85
_STEP_MM = 4.0


def grain_drawn(piece: Piece) -> tuple[Point, Point] | None:
    """Return the ends of the grain line as it is drawn, or nothing where a piece has none.

    Its direction is the pattern's. It lies where the pattern has it, unless that is over a dart,
    on a mark or a centre line, or much shorter than the piece has room for: then as near to that
    as a long one lies clear.
    """
    if piece.grain is None or not piece.has_outline:
        return piece.grain
    import shapely

    low, high = piece.grain
    way = unit(high - low)
    free = _free(piece)
    if free.is_empty:
        return piece.grain
    left, bottom, right, top = free.bounds
    corners = [complex(x, y) for x in (left, right) for y in (bottom, top)]
    offs = [cross(way, p) for p in corners]
    ends = [dot(p, way) for p in corners]
    here = cross(way, low)
    count = int((max(offs) - min(offs)) / _STEP_MM)
    places = [here, *(min(offs) + _STEP_MM * (k + 0.5) for k in range(count))]
    found: list[tuple[float, float, tuple[Point, Point]]] = []
    for off in places:
        start = 1j * way * off
        one, two = start + way * (min(ends) - 1), start + way * (max(ends) + 1)
        line = shapely.LineString([(one.real, one.imag), (two.real, two.imag)])
        for part in shapely.get_parts(line.intersection(free)):
            if part.length > 1.0:
                a, b = (complex(x, y) for x, y in (part.coords[0], part.coords[-1]))
                a, b = (a, b) if dot(b - a, way) > 0 else (b, a)
                found.append((part.length, abs(off - here), (a, b)))
    if not found:
        return piece.grain
    longest = max(length for length, _, _ in found)
    mine = shapely.LineString([(low.real, low.imag), (high.real, high.imag)])
    if mine.length >= _LONG_ENOUGH * longest and free.covers(mine):
        return piece.grain
    enough = [one for one in found if one[0] >= _NEAR_LONGEST * longest]
    _, _, (a, b) = min(enough, key=lambda one: one[1])
    return along(a, b, _END), along(a, b, 1 - _END)


def _free(piece: Piece) -> "BaseGeometry":
    """Where an arrow may lie."""
    import shapely

    def line(points: Stroke) -> "BaseGeometry":
        return shapely.LineString([(p.real, p.imag) for p in points])

    taken = []
    for dart in piece.darts:
        one, two = (leg.flattened(0.5) for leg in dart.legs)
        taken.append(shapely.MultiPoint([(p.real, p.imag) for p in (*one, *two)]).convex_hull)
    taken += [shapely.Point(m.point.real, m.point.imag) for m in piece.marks]
    taken += [line(s) for v in piece.levels if v.side is BodySide.CENTRE for s in v.strokes]
    free: BaseGeometry = polygon(piece.plain_ring, 0.5).buffer(-CLEAR_MM)
    if taken:
        free = free.difference(shapely.union_all(taken).buffer(CLEAR_MM))
    if piece.fold:
        fold = piece.edge(piece.fold)
        strip = line((fold.drawn[0].start, fold.drawn[-1].end)).buffer(_FOLD_MM)
        free = free.difference(strip)
    return free


__all__ = ["grain_drawn"]
