"""The sheet to note points on while a paper pattern is measured on a grid."""

from tracker.output.pen import Lettering, Style, draw_circle, draw_points, draw_ring
from tracker.output.report import page
from tracker.output.svg import SvgPen, number
from tracker.pattern.piece import Piece
from tracker.resources import shipped
from tracker.tracing.faults import Faults
from tracker.tracing.making import made
from tracker.tracing.reading import tracing_of
from tracker.tracing.rows import rows_of_csv
from tracker.tracing.tracing import TracedPiece
from tracker.units import Unit

#: How a piece is read, in the order it is done.
HOW = (
    "Press the pattern flat, draw in its sewing lines where it has allowances, and lay one piece "
    "on the grid: right side up, neck up, its grain upright. Weigh it down; it must not shift.",
    "Name the edges (side, armhole, neckline …) and give the corners their numbers first.",
    "Go round along the sewing line. At each point note how far it lies to the right (x) and how "
    "far up (y). Begin anywhere; stay with one unit.",
    "A straight edge needs its corners only. On a bend read a point every 2 to 3 cm (1 in), and "
    "every 1 cm (3/8 in) where it turns sharply, five between two corners at least. Read to half "
    "a millimetre (1/32 in).",
    "Write corner where the line breaks, curve where it runs smoothly through. A corner that two "
    "edges share is written once, with the edge that begins there.",
    "At a dart write both ends of its mouth, with the dart's name, and where its two lines meet "
    "in the table of darts. Fold it first and see that both lines are of one length.",
    "Take a few edges with the tape as well, standing on its edge: it is the best check of all.",
)

_LINE, _GRID = Style("outline", 1.2), Style("grid", 0.4, colour="#b9b09c")
_DOT = Style("dot", 0.2, filled=True)


def tracing_sheet_html(pieces: tuple[str, ...], client_code: str, unit: Unit) -> str:
    """Return the sheet as a page to print, one for each piece named.

    Args:
        pieces: what is traced; none for one sheet without a name.
        client_code: the code that stands for the client, or "".
        unit: the maker's unit.
    """
    return page(
        "tracing-sheet.html",
        pieces=pieces or ("",),
        client_code=client_code,
        how=HOW,
        figure=_figure(),
        unit="cm" if unit is Unit.CM else "inch",
        letter=unit is Unit.INCH,
    )


def _figure() -> str:
    """The front of the example with its points numbered, as the sheet would have them."""
    faults = Faults()
    text = (shipped("templates") / "tracing-example.csv").read_text("utf-8")
    tracing = tracing_of(rows_of_csv(text, faults), faults)
    piece, traced = made(tracing, faults).pattern.pieces[0], tracing.pieces[0]
    pen = SvgPen()
    left, low, right, high = piece.box
    for k in range(int(left // 50), int(right // 50) + 2):
        draw_points(pen, (complex(k * 50, low - 15), complex(k * 50, high + 15)), _GRID)
    for k in range(int(low // 50), int(high // 50) + 2):
        draw_points(pen, (complex(left - 15, k * 50), complex(right + 15, k * 50)), _GRID)
    draw_ring(pen, piece.ring, _LINE)
    _numbers(pen, piece, traced)
    box = number(left - 20), number(-high - 20), number(right - left + 40), number(high - low + 40)
    return (
        f'<svg viewBox="{" ".join(box)}" role="img" aria-labelledby="shown">'
        f'<title id="shown">A front on the grid, its points numbered edge by edge</title>'
        f"{pen.body}</svg>"
    )


def _numbers(pen: SvgPen, piece: Piece, traced: TracedPiece) -> None:
    middle = complex((piece.box[0] + piece.box[2]) / 2, (piece.box[1] + piece.box[3]) / 2)
    for edge in traced.edges:
        for stop in edge.stops:
            draw_circle(pen, stop.point, 3.6 if stop.kind != "curve" else 2.2, _DOT)
            inward = middle - stop.point
            at = stop.point + inward / abs(inward) * 13
            size = 10.0 if stop.kind != "curve" else 8.0
            bold = stop.kind != "curve"
            pen.text(at - 3j, stop.said, Lettering(size, "middle", bold=bold))
        spot = piece.edge(edge.name).point_at(piece.edge(edge.name).length * 0.3)
        inward = middle - spot
        pen.text(spot + inward / abs(inward) * 56, edge.name, Lettering(11.0, "middle"))
