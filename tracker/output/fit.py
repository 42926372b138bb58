"""Whether a print will be right: cutting lines, labels and the sheet."""

from tracker.geometry.area import polygon
from tracker.output.allowance import MOST_MM, cutting_line
from tracker.output.drawing import Look
from tracker.output.label import label_of
from tracker.output.order import PrintOrder
from tracker.pattern.checked import Book, Checked
from tracker.pattern.finding import Finding
from tracker.pattern.piece import Piece

#: The cutting line stands off the sewing line by the allowance, to this.
ALLOWANCE_MM = 0.2
#: Letters of this size can be read at arm's length, millimetres; common practice.
READ_MM = 3.0


def fit_to_print(order: PrintOrder) -> Checked:
    """See that each piece's cutting line can be drawn and its label stands clear of its lines.

    Args:
        order: what would be printed.
    """
    book = Book()
    look = Look(allowances=order.added, levels=order.test_garment)
    for piece in order.pattern.pieces:
        if piece.has_outline:
            _allowance(piece, order, book)
            _label(piece, order, look, book)
    return book.closed


def _allowance(piece: Piece, order: PrintOrder, book: Book) -> None:
    """Measure the cutting line against the allowance at the middle of every edge."""
    import shapely

    ring = cutting_line(piece, order.added)
    cut = shapely.LinearRing([(p.real, p.imag) for p in ring])
    place = f"the {piece.label}"
    sewn = polygon(piece.plain_ring)
    if not cut.is_simple or not shapely.Polygon(cut).buffer(0.05).contains(sewn):
        book.findings.append(
            Finding("cutting line", place, f"the cutting line of {place} crosses itself or its "
                    "sewing line", 1, 0, "", "give the edges there a smaller allowance")
        )  # fmt: skip
        return
    worst = 0.0
    for edge in piece.edges:
        allowance = order.added.of(piece, edge)
        part = max(edge.drawn, key=lambda p: p.length)
        at = part.point_at(part.length / 2)
        # Square out of the edge: a neatened edge near by has its own line nearer.
        end = at - 1j * part.heading_at(part.length / 2) * (allowance + MOST_MM)
        met = cut.intersection(shapely.LineString([(p.real, p.imag) for p in (at, end)]))
        off = shapely.Point(at.real, at.imag).distance(cut if met.is_empty else met) - allowance
        # A wider strip beside it may swallow a short edge's own.
        if off < 0 and abs(off) > abs(worst):
            worst = off
    book.tell(
        "cutting line", place, worst, ALLOWANCE_MM, "mm",
        f"the cutting line of {place} is {abs(worst):.1f} mm short of its allowance",
        "draw it by hand there, or give the edge an allowance of its own",
    )  # fmt: skip


def _label(piece: Piece, order: PrintOrder, look: Look, book: Book) -> None:
    placed = label_of(piece, order, look)
    smallest = min(w.size_mm for w in placed.block.lines)
    place = f"the {piece.label}"
    if placed.scale > 0:
        book.figures.append((f"label: {place}", f"letters from {smallest:.1f} mm"))
        return
    book.findings.append(
        Finding(
            "label", place, f"the label of {place} covers its lines: nowhere is there room for "
            "it, its letters as small as they go",
            smallest, 0, "mm", "read it on screen, and write the piece's name on it by hand",
        )
    )  # fmt: skip


__all__ = ["fit_to_print"]
