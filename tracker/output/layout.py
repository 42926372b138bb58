"""Laying pieces out on a sheet: on shelves, the tallest first, nothing over anything."""

from dataclasses import dataclass

from tracker.geometry.point import Point

#: Between two pieces.
GAP_MM = 12.0
#: A sheet twice as long as wide may save this share of the paper before it is preferred.
_LONG_PENALTY = 0.25


@dataclass(frozen=True, slots=True)
class Layout:
    """Where things lie on a sheet.

    Attributes:
        corners: the lower left corner of each, in the order given.
        width_mm: of the whole.
        height_mm: of the whole.
    """

    corners: tuple[Point, ...]
    width_mm: float
    height_mm: float


def shelves(sizes: tuple[tuple[float, float], ...], widest_mm: float) -> Layout:
    """Lay boxes out in rows no wider than a width (unless one box is); none is turned.

    Args:
        sizes: width and height of each box, millimetres.
        widest_mm: how wide the sheet may be.
    """
    order = sorted(range(len(sizes)), key=lambda i: (-sizes[i][1], i))
    rows: list[list[int]] = []
    room = -1.0
    for i in order:
        need = sizes[i][0] + GAP_MM
        if need - GAP_MM > room:
            rows.append([])
            room = max(widest_mm, sizes[i][0])
        rows[-1].append(i)
        room -= need
    corners = [0j] * len(sizes)
    width, top = 0.0, 0.0
    for row in rows:
        x = 0.0
        for i in row:
            corners[i] = complex(x, -top - sizes[i][1])
            x += sizes[i][0] + GAP_MM
        width = max(width, x - GAP_MM)
        top += max(sizes[i][1] for i in row) + GAP_MM
    height = top - GAP_MM
    return Layout(tuple(c + 1j * height for c in corners), width, height)


def best_layout(
    sizes: tuple[tuple[float, float], ...],
    widest_mm: float,
    cell_mm: tuple[float, float] | None = None,
) -> Layout:
    """Return the layout that takes the least paper.

    Args:
        sizes: width and height of each box, millimetres.
        widest_mm: how wide the sheet may be.
        cell_mm: the size of the sheets it will be cut into, if it will: fewest sheets first.
    """
    ends, total = [], 0.0
    for width, _ in sorted(sizes, key=lambda s: -s[1]):
        total += width + GAP_MM
        ends.append(min(total - GAP_MM, widest_mm))
    if cell_mm:
        most = int(min(total, widest_mm) // cell_mm[0]) + 1
        ends.extend(min(k * cell_mm[0], widest_mm) for k in range(1, most + 1))

    def cost(layout: Layout) -> tuple[float, float]:
        area = layout.width_mm * layout.height_mm
        if cell_mm is None:
            long, short = sorted((layout.width_mm, layout.height_mm), reverse=True)
            return area * (1 + _LONG_PENALTY * (long / short - 1)), area
        across = -(-layout.width_mm // cell_mm[0])
        return across * -(-layout.height_mm // cell_mm[1]), area

    return min((shelves(sizes, width) for width in sorted(set(ends))), key=cost)
