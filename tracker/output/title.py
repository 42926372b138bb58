"""The title of a print: test squares, what it is, what its lines mean."""

from dataclasses import replace

from tracker.geometry.point import Point
from tracker.output.allowance import is_hem
from tracker.output.drawing import draw_fold_arrow, draw_grain, draw_mark
from tracker.output.label import Block, Words, estimated_words, set_in, shown_length
from tracker.output.lettering import wrapped
from tracker.output.order import CAUTION, PrintOrder
from tracker.output.pen import (
    CUTTING,
    DART_FOLD,
    FOLD,
    FRAME,
    GRAIN,
    LEVEL,
    MARK,
    NOTCH,
    SEWING,
    Lettering,
    Pen,
    Style,
    draw_points,
)  # fmt: skip
from tracker.units import MM_PER_INCH

SQUARE_MM = 100.0
FOUR_INCHES_MM = 4 * MM_PER_INCH
TEST_SQUARE = Style("test-square", 0.3)
WIDTH_MM = 216.0
_GAP = 12.0
_LINE = 6.5


def draw_square(at: Point, side_mm: float, words: str, pen: Pen) -> None:
    """Draw a test square from its lower left corner; its sides are measured line to line."""
    corners = (at, at + side_mm, at + side_mm * (1 + 1j), at + side_mm * 1j)
    draw_points(pen, corners, TEST_SQUARE, closed=True)
    middle = at + complex(side_mm / 2, side_mm / 2)
    pen.text(middle + 4j, words, Lettering(6.0, "middle", bold=True))
    lines = wrapped(
        "Measure all four sides before cutting cloth. Print at 100 %, never “fit to page”.",
        3.4, side_mm - 16,
    )  # fmt: skip
    for k, line in enumerate(lines):
        pen.text(middle - 1j * (6 + 4.8 * k), line, Lettering(3.4, "middle"))


def title_words(order: PrintOrder) -> tuple[Words, ...]:
    """Return what the title says, line by line."""
    lines = [
        Words(f"{order.client_code}  {order.address}", 9.0, bold=True),
        Words(f"{order.standing} · {order.day}", 5.0),
    ]
    if order.test_garment:
        lines.append(Words("Test garment: wider seams, bust, waist and hip lines drawn.", 4.2))
    seam, hem = order.added.seam_mm, order.added.hem_mm
    pieces = [p for p in order.pattern.pieces if p.has_outline]
    told = [f"Seam allowance {shown_length(seam, order.unit)}"]
    if any(is_hem(e) for p in pieces for e in p.edges):
        told.append(f"hems {shown_length(hem, order.unit)}")
    if any(p.fold for p in pieces):
        told.append("none on a fold")
    lines.append(Words(f"{', '.join(told)}.", 4.2))
    lines.extend(
        Words(
            f"{own.piece + ' ' if own.piece else ''}{own.edge}: "
            f"{shown_length(own.mm, order.unit)}.", 4.2,
        )
        for own in order.added.own
    )  # fmt: skip
    if order.printed_square_mm != (100.0, 100.0):
        across, up = order.printed_square_mm
        lines.append(
            Words(f"Corrected for a printer that made {across:g} × {up:g} mm of 100 mm.", 4.2)
        )
    missing = [p.label for p in order.pattern.pieces if not p.has_outline]
    if missing:
        lines.append(Words(f"Not drawn, so not printed: {', '.join(missing)}.", 4.2))
    if order.kept_back:
        kept = ", ".join(order.kept_back)
        lines.append(Words(f"Out of date, so not printed: {kept}.", 4.2, bold=True))
    if order.all_estimated:
        lines.append(Words(f"{estimated_words(order.all_estimated, 99)}.".capitalize(), 3.8))
    lines.append(Words(CAUTION, 4.2, bold=True))
    return tuple(lines)


#: The key's words have room for so many letters beside the map of a tiled print.
_MOST_LETTERS = 32
#: What the lines and signs mean.
_LINES = (
    (CUTTING, "cutting line"),
    (SEWING, "sewing line, dart legs"),
    (FOLD, "fold of the cloth"),
    (DART_FOLD, "dart folded here"),
    (NOTCH, "notch, square to the sewing line"),
    (LEVEL, "bust, waist and hip lines"),
)


def key_of(order: PrintOrder) -> tuple[tuple[Style, str], ...]:
    """Return the kinds of line and sign this print has, each by its pen and its name."""
    pieces = [p for p in order.pattern.pieces if p.has_outline]
    there = {
        FOLD: any(p.fold for p in pieces),
        DART_FOLD: any(not d.gathered for p in pieces for d in p.darts),
        NOTCH: any(p.notches for p in pieces),
        LEVEL: order.test_garment,
    }
    named = dict.fromkeys(m.name for p in pieces for m in p.marks)
    lines = [(style, words) for style, words in _LINES if there.get(style, True)]
    if any(p.grain for p in pieces):
        lines.append((GRAIN, "grain of the cloth"))
    if there[FOLD]:
        lines.append((_TO_FOLD, "this edge lies on the fold"))
    if named:
        names = ", ".join(named)
        lines.append((MARK, names if len(names) <= _MOST_LETTERS else "named points"))
    return tuple(lines)


#: The pen of the arrows that point to a fold, told from the grain line's by its name.
_TO_FOLD = replace(GRAIN, name="fold-arrow")


def draw_key(order: PrintOrder, top_left: Point, pen: Pen) -> float:
    """Draw a sample of each kind of line with its name; return how far down they came."""
    for k, (style, words) in enumerate(key_of(order)):
        at = top_left - 1j * (k + 0.5) * _LINE
        if style is MARK:
            draw_mark(at + 20, pen)
        elif style is GRAIN:
            draw_grain((at + 0j, at + 26), pen, words=False)
        elif style is _TO_FOLD:
            draw_fold_arrow(at + 26, -1 + 0j, pen)
        else:
            reach = 6.0 if style is NOTCH else 26.0
            draw_points(pen, (at + (26 - reach), at + 26), style)
        pen.text(at + complex(30, -1.2), words, Lettering(3.4))
    return top_left.imag - len(key_of(order)) * _LINE


def _block(order: PrintOrder) -> Block:
    return set_in(title_words(order), WIDTH_MM - 8)


def title_size(order: PrintOrder) -> tuple[float, float]:
    """Return width and height of the title."""
    words = _block(order).height_mm
    return WIDTH_MM, FOUR_INCHES_MM + _GAP + words + 6 + len(key_of(order)) * _LINE + 6


def draw_title(order: PrintOrder, pen: Pen) -> None:
    """Draw the title from its lower left corner: words above, squares and key below."""
    width, height = title_size(order)
    draw_points(pen, (0j, width + 0j, complex(width, height), 1j * height), FRAME, closed=True)
    down = write_left(_block(order), complex(4, height - 3), pen)
    draw_key(order, complex(4, down - 3), pen)
    draw_square(complex(2.0, 3.0), SQUARE_MM, "100 mm", pen)
    draw_square(complex(width - 2.0 - FOUR_INCHES_MM, 3.0), FOUR_INCHES_MM, "4 in", pen)


def write_left(block: Block, top_left: Point, pen: Pen) -> float:
    """Write lines from the top down and return how far down they came."""
    y = top_left.imag
    for words in block.lines:
        y -= words.size_mm * 1.35
        pen.text(
            complex(top_left.real, y + 0.3 * words.size_mm), words.text,
            Lettering(words.size_mm, bold=words.bold),
        )  # fmt: skip
    return y
