"""One large sheet at full scale: the pieces laid out, labelled, with a test square."""

from dataclasses import dataclass

from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.output.allowance import cutting_line
from tracker.output.drawing import Look, draw_piece
from tracker.output.label import Placed as Label
from tracker.output.label import label_of, write_block
from tracker.output.layout import best_layout
from tracker.output.order import CannotPrint, Paper, PrintOrder
from tracker.output.pdf import LONGEST_PAGE_MM, POINT_PER_MM, PdfPen
from tracker.output.pen import BoundsPen, MovedPen, Pen, RecordingPen, Stroke
from tracker.output.svg import SvgPen, svg_page
from tracker.output.title import draw_title, title_size
from tracker.pattern.piece import Piece

#: White round everything.
MARGIN_MM = 15.0
#: A sheet is this wide at most unless a roll says otherwise.
WIDEST_MM = 1600.0


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece on the sheet.

    Attributes:
        piece: the piece.
        motion: from the pattern to the sheet.
        cutting: the cutting line on the sheet.
    """

    piece: Piece
    motion: Motion
    cutting: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing of all pieces at full scale, in millimetres from its lower left corner.

    Attributes:
        order: what was asked for.
        width_mm: across.
        height_mm: up.
        strokes: the drawing.
        placed: the pieces and where they lie.
    """

    order: PrintOrder
    width_mm: float
    height_mm: float
    strokes: tuple[Stroke, ...]
    placed: tuple[Placed, ...]

    def draw(self, pen: Pen) -> None:
        """Draw everything with a pen."""
        RecordingPen(list(self.strokes)).replay(pen)


def compose(order: PrintOrder, paper: Paper | None = None) -> Sheet:
    """Lay a pattern out on one sheet.

    Args:
        order: what to print.
        paper: the paper it will be cut into, when it will be: the title and the test square
            then stand on a page of their own.

    Raises:
        CannotPrint: the pattern has no drawn piece, or a piece is longer than a page can be.
    """
    pieces = [p for p in order.pattern.pieces if p.has_outline]
    if not pieces:
        raise CannotPrint(
            f"{order.address} has no drawn outline to print; print its marking-up sheet instead"
        )
    look = Look(allowances=order.added, levels=order.test_garment)
    drawn = [_drawn(piece, order, look) for piece in pieces]
    boxes = [box for _, box, _ in drawn]
    sizes = [(b[2] - b[0], b[3] - b[1]) for b in boxes]
    if paper is None:
        sizes.append(title_size(order))
    widest = (order.roll_mm or WIDEST_MM) - 2 * MARGIN_MM
    layout = best_layout(tuple(sizes), widest, paper.cell_mm if paper else None)
    width, height = layout.width_mm + 2 * MARGIN_MM, layout.height_mm + 2 * MARGIN_MM
    longest = max(width * order.scale[0], height * order.scale[1])
    if longest > LONGEST_PAGE_MM:
        raise CannotPrint(
            f"{order.address} needs a sheet {longest / 1000:.1f} m long; a page can be "
            f"{LONGEST_PAGE_MM / 1000:.2f} m at most; print it on A4 or Letter sheets instead"
        )
    pen = RecordingPen()
    placed = []
    corner = complex(MARGIN_MM, MARGIN_MM)
    cuts = () if paper is None else grid_of(width, height, paper, order.scale).cuts(order.scale)
    for (recording, box, label), piece, at in zip(drawn, pieces, layout.corners, strict=False):
        shift = corner + at - complex(box[0], box[1])
        motion = Motion.move(shift)
        recording.replay(MovedPen(pen, motion))
        there = tuple(tuple(p - shift for p in cut) for cut in cuts)
        if there and label.scale > 0:
            label = label_of(piece, order, look, there)
        write_block(label.block, label.middle, MovedPen(pen, motion), label.angle_deg)
        ring = tuple(motion.of(p) for p in cutting_line(piece, order.added))
        placed.append(Placed(piece, motion, ring))
    if paper is None:
        draw_title(order, MovedPen(pen, Motion.move(corner + layout.corners[-1])))
    return Sheet(order, width, height, tuple(pen.strokes), tuple(placed))


def _drawn(
    piece: Piece, order: PrintOrder, look: Look
) -> tuple[RecordingPen, tuple[float, float, float, float], Label]:
    """Draw a piece, and say what room it takes with its label, which is not drawn yet."""
    pen = RecordingPen()
    draw_piece(piece, pen, look)
    label = label_of(piece, order, look)
    bounds = BoundsPen()
    pen.replay(bounds)
    write_block(label.block, label.middle, bounds, label.angle_deg)
    return pen, bounds.box, label


@dataclass(frozen=True, slots=True)
class Grid:
    """How a sheet is cut into pages, the drawing in the middle of them.

    Attributes:
        columns: how many across.
        rows: how many up.
        low: the lower left corner of all, in paper millimetres.
        cell: width and height of one, in paper millimetres.
    """

    columns: int
    rows: int
    low: Point
    cell: tuple[float, float]

    def cuts(self, scale: tuple[float, float]) -> tuple[tuple[Point, Point], ...]:
        """Return the lines between its pages, in millimetres of the sheet."""
        (wide, high), (across, up) = self.cell, scale
        xs = [(self.low.real + k * wide) / across for k in range(self.columns + 1)]
        ys = [(self.low.imag + k * high) / up for k in range(self.rows + 1)]
        return (
            *((complex(x, ys[0]), complex(x, ys[-1])) for x in xs),
            *((complex(xs[0], y), complex(xs[-1], y)) for y in ys),
        )


def grid_of(width_mm: float, height_mm: float, paper: Paper, scale: tuple[float, float]) -> Grid:
    """Return how a sheet of a size is cut into pages of a paper.

    Args:
        width_mm: across, in millimetres of the sheet.
        height_mm: up.
        paper: the paper.
        scale: paper millimetres per millimetre of the sheet, across and up.
    """
    wide, high = paper.cell_mm
    width, height = width_mm * scale[0], height_mm * scale[1]
    columns, rows = -int(-width // wide), -int(-height // high)
    low = complex((width - columns * wide) / 2, (height - rows * high) / 2)
    return Grid(columns, rows, low, paper.cell_mm)


def large_sheet(order: PrintOrder) -> bytes:
    """Return a version on one page just large enough, as a PDF at full scale.

    The same order gives the same bytes.
    """
    return sheet_pdf(compose(order))


def sheet_pdf(sheet: Sheet) -> bytes:
    """Return a sheet as a PDF of one page."""
    from io import BytesIO

    from reportlab.pdfgen.canvas import Canvas

    across, up = sheet.order.scale
    size = sheet.width_mm * across * POINT_PER_MM, sheet.height_mm * up * POINT_PER_MM
    out = BytesIO()
    canvas = Canvas(out, pagesize=size, invariant=1, pageCompression=1)
    name_file(canvas, sheet.order)
    sheet.draw(PdfPen(canvas, (across, up)))
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def name_file(canvas: object, order: PrintOrder) -> None:
    """Write title and subject into a PDF; nobody's name."""
    from reportlab.pdfgen.canvas import Canvas

    assert isinstance(canvas, Canvas)
    canvas.setTitle(f"{order.client_code} {order.address}")
    canvas.setSubject(f"pattern at full scale, {order.standing}, {order.day}")
    canvas.setAuthor("")
    canvas.setCreator("")
    # A viewer that offers to fit the page should offer not to.
    canvas.setViewerPreference("PrintScaling", "None")


def large_svg(order: PrintOrder) -> str:
    """Return a version on one sheet as an SVG in millimetres."""
    sheet = compose(order)
    pen = SvgPen()
    sheet.draw(pen)
    pieces = ", ".join(p.piece.label for p in sheet.placed)
    return svg_page(
        pen.body,
        (0, 0, sheet.width_mm, sheet.height_mm),
        f"{order.client_code} {order.address}",
        f"Pattern pieces at full scale: {pieces}. {order.standing}, {order.day}.",
    )
