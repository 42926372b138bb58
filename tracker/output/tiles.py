"""The large sheet cut into A4 or Letter pages, to be joined at their frames.

Every page shows one cell of a grid over the sheet within a frame, and 10 mm of what lies
round it, so that pages overlap. Neighbours share a frame line, and on it the same two marks.
"""

from dataclasses import dataclass, replace

from tracker.geometry.point import Point
from tracker.output.label import Words, set_in
from tracker.output.order import A4, Paper, PrintOrder
from tracker.output.pdf import POINT_PER_MM, PdfPen
from tracker.output.pen import (
    FRAME,
    Lettering,
    Pen,
    Style,
    draw_points,
)  # fmt: skip
from tracker.output.sheet import Sheet, compose, grid_of, name_file
from tracker.output.title import (
    FOUR_INCHES_MM,
    SQUARE_MM,
    draw_key,
    draw_square,
    title_words,
    write_left,
)  # fmt: skip

#: What every page shows beyond its frame.
OVERLAP_MM = 10.0
JOIN = Style("join", 0.25)
MAP_PIECE = Style("map-piece", 0.35)
MAP_CELL = Style("map-cell", 0.15)
_FORM = "sheet"
_SMALL = Lettering(2.8)
#: White behind the numbers on the map.
PLATE = Style("plate", 0.0, colour="#ffffff", filled=True)
#: White round the first page.
_EDGE = 12.0


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a tiled print.

    Attributes:
        row: from the top, from 1.
        column: from the left, from 1.
        corner: the lower left corner of its frame on the sheet, in paper millimetres.
        blank: nothing is drawn there, so it is not printed.
    """

    row: int
    column: int
    corner: Point
    blank: bool

    @property
    def name(self) -> str:
        """What it is called on the paper: "row 2, sheet 3"."""
        return f"row {self.row}, sheet {self.column}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """How a sheet is cut into pages.

    Attributes:
        sheet: the sheet.
        paper: the paper.
        rows: how many down.
        columns: how many across.
        tiles: all of them, row by row.
    """

    sheet: Sheet
    paper: Paper
    rows: int
    columns: int
    tiles: tuple[Tile, ...]

    @property
    def printed(self) -> tuple[Tile, ...]:
        """Those with something on them, in the order of the pages."""
        return tuple(tile for tile in self.tiles if not tile.blank)

    @property
    def window_corner(self) -> Point:
        """The lower left corner on the page of what a page shows, millimetres."""
        wide, high = (c + 2 * OVERLAP_MM for c in self.paper.cell_mm)
        across = (self.paper.width_mm - wide) / 2
        # The foot has room for the page's name; the head is as narrow as the sides.
        return complex(across, self.paper.height_mm - high - across)

    def tile(self, row: int, column: int) -> Tile | None:
        """Return a tile by its place, if there is one."""
        if 1 <= row <= self.rows and 1 <= column <= self.columns:
            return self.tiles[(row - 1) * self.columns + column - 1]
        return None


def cut_into_tiles(sheet: Sheet, paper: Paper) -> Tiling:
    """Cut a sheet into pages; those on which nothing is drawn are marked blank."""
    import shapely

    across, up = sheet.order.scale
    wide, high = paper.cell_mm
    grid = grid_of(sheet.width_mm, sheet.height_mm, paper, sheet.order.scale)
    columns, rows, low = grid.columns, grid.rows, grid.low
    shapes = shapely.union_all(
        [
            shapely.Polygon([(p.real * across, p.imag * up) for p in piece.cutting]).buffer(1.0)
            for piece in sheet.placed
        ]
    )
    tiles = []
    for row in range(1, rows + 1):
        for column in range(1, columns + 1):
            corner = low + complex((column - 1) * wide, (rows - row) * high)
            cell = shapely.box(corner.real, corner.imag, corner.real + wide, corner.imag + high)
            tiles.append(Tile(row, column, corner, not shapes.intersects(cell)))
    return Tiling(sheet, paper, rows, columns, tuple(tiles))


def tiled(order: PrintOrder, paper: Paper = A4) -> bytes:
    """Return a version at full scale on A4 or Letter pages, the page map first.

    The same order gives the same bytes.
    """
    return tiles_pdf(cut_into_tiles(compose(order, paper), paper))


def tiles_pdf(tiling: Tiling) -> bytes:
    """Return a tiled sheet as a PDF."""
    from io import BytesIO

    from reportlab.pdfgen.canvas import Canvas

    sheet, paper = tiling.sheet, tiling.paper
    across, up = sheet.order.scale
    out = BytesIO()
    size = paper.width_mm * POINT_PER_MM, paper.height_mm * POINT_PER_MM
    canvas = Canvas(out, pagesize=size, invariant=1, pageCompression=1)
    name_file(canvas, sheet.order)
    # One drawing used on every page. Its box must be given: it would be the first page's.
    box = sheet.width_mm * across * POINT_PER_MM, sheet.height_mm * up * POINT_PER_MM
    canvas.beginForm(_FORM, 0, 0, *box)
    sheet.draw(PdfPen(canvas, (across, up)))
    canvas.endForm()

    _map_page(tiling, PdfPen(canvas))
    # The squares are printed as the pieces are, so they are drawn with the same correction.
    _squares(tiling, PdfPen(canvas, (across, up)))
    canvas.showPage()
    wide, high = (c + 2 * OVERLAP_MM for c in paper.cell_mm)
    for tile in tiling.printed:
        corner = tiling.window_corner
        shift = corner + OVERLAP_MM * (1 + 1j) - tile.corner
        canvas.saveState()
        window = canvas.beginPath()
        window.rect(*(v * POINT_PER_MM for v in (corner.real, corner.imag, wide, high)))
        canvas.clipPath(window, stroke=0, fill=0)
        canvas.translate(shift.real * POINT_PER_MM, shift.imag * POINT_PER_MM)
        canvas.doForm(_FORM)
        canvas.restoreState()
        _furniture(tiling, tile, PdfPen(canvas))
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _furniture(tiling: Tiling, tile: Tile, pen: Pen) -> None:
    """Draw a page's frame, its joining marks and what stands in its margins."""
    wide, high = tiling.paper.cell_mm
    low = tiling.window_corner + OVERLAP_MM * (1 + 1j)
    centre = low + complex(wide, high) / 2
    corners = (low, low + wide, low + complex(wide, high), low + 1j * high)
    draw_points(pen, corners, FRAME, closed=True)
    for down, right in ((0, -1), (0, 1), (-1, 0), (1, 0)):
        other = tiling.tile(tile.row + down, tile.column + right)
        if other is None or other.blank:
            continue
        out = complex(right, -down)
        border = centre + complex(right * wide, -down * high) / 2
        along = 1j * high / 4 if right else complex(wide / 4, 0)
        for mark in (border - along, border + along):
            _mark(mark, pen)
        # Words stand in the margin, beyond everything that is drawn, their feet to the right
        # or down.
        clear = OVERLAP_MM + (1.5 if right < 0 or down < 0 else 1.5 + _SMALL.size_mm)
        turned = replace(_SMALL, anchor="middle", angle_deg=90.0 if right else 0.0)
        pen.text(border + out * clear, f"joins {other.name}", turned)
    order = tiling.sheet.order
    foot = tiling.window_corner - 11j
    pen.text(foot, f"{order.client_code}  {order.address}", Lettering(3.2, bold=True))
    pen.text(complex(centre.real, foot.imag), tile.name, Lettering(5.0, "middle", bold=True))
    end = foot + wide + 2 * OVERLAP_MM
    pen.text(end, f"frame {wide:g} × {high:g} mm", Lettering(3.2, "end"))


def _mark(at: Point, pen: Pen) -> None:
    """Draw a joining mark on a frame line, half on each side of it."""
    reach = 5.0
    draw_points(pen, tuple(at + reach * d for d in (1, 1j, -1, -1j)), JOIN, closed=True)
    for way in (1, 1j):
        draw_points(pen, (at - reach * way, at + reach * way), JOIN)


def _squares(tiling: Tiling, pen: Pen) -> None:
    low = complex(_EDGE, _EDGE)
    draw_square(low, FOUR_INCHES_MM, "4 in", pen)
    draw_square(low + 1j * (FOUR_INCHES_MM + 6), SQUARE_MM, "100 mm", pen)


def _map_page(tiling: Tiling, pen: Pen) -> None:
    """Draw the first page: what it is, how to join the pages, and where each belongs."""
    paper, order = tiling.paper, tiling.sheet.order
    words = title_words(order)
    head = set_in(words[:2], paper.width_mm - 2 * _EDGE)
    y = write_left(head, complex(_EDGE, paper.height_mm - _EDGE), pen) - 5
    left = _EDGE + FOUR_INCHES_MM * order.scale[0] + 8
    room = paper.width_mm - _EDGE - left
    y = write_left(set_in(words[2:], room, 0.8), complex(left, y), pen) - 3
    y = draw_key(order, complex(left, y), pen) - 2
    how = Words(
        f"{len(tiling.printed)} sheets follow, in {tiling.rows} rows. Lay each at its place on "
        "the map. Cut along the frame on its right and lower sides and lay it over its "
        "neighbours, so that frames and marks meet.", 3.2,
    )  # fmt: skip
    y = write_left(set_in((how,), room), complex(left, y), pen) - 5
    _map(tiling, complex(left, y), room, y - _EDGE - 5, pen)


def _map(tiling: Tiling, top_left: Point, room: float, depth: float, pen: Pen) -> None:
    """Draw all cells small, with the cutting lines over them and each page's number."""
    wide, high = tiling.paper.cell_mm
    share = min(room / (wide * tiling.columns), depth / (high * tiling.rows))
    cell = complex(wide, high) * share
    origin = top_left - 1j * cell.imag * tiling.rows
    low = tiling.tiles[(tiling.rows - 1) * tiling.columns].corner
    across, up = tiling.sheet.order.scale
    for tile in tiling.tiles:
        at = origin + (tile.corner - low) * share
        corners = (at, at + cell.real, at + cell, at + 1j * cell.imag)
        draw_points(pen, corners, MAP_CELL, closed=True)
        if tile.blank:
            draw_points(pen, (at, at + cell), MAP_CELL)
            draw_points(pen, (at + cell.real, at + 1j * cell.imag), MAP_CELL)
    for piece in tiling.sheet.placed:
        on_map = tuple(
            origin + (complex(p.real * across, p.imag * up) - low) * share for p in piece.cutting
        )
        draw_points(pen, on_map, MAP_PIECE, closed=True)
    size = min(4.0, cell.imag / 4, cell.real / 4)
    for tile in tiling.printed:
        middle = origin + (tile.corner - low) * share + cell / 2
        plate = complex(1.2, 0.7) * size
        plate_ring = (middle - plate, middle - plate.conjugate(), middle + plate)
        draw_points(pen, (*plate_ring, middle + plate.conjugate()), PLATE, closed=True)
        number = f"{tile.row}·{tile.column}"
        pen.text(middle - 0.36j * size, number, Lettering(size, "middle", bold=True))
    pen.text(origin - 4.5j, "2·1 is row 2, sheet 1; crossed out: blank", _SMALL)
