"""On a tiled print a piece's label stands within one sheet where there is room for it."""

from dataclasses import replace

import irregular
import pytest

from tracker.output.lettering import width_mm
from tracker.output.order import A4, LETTER, Paper, PrintOrder
from tracker.output.sheet import compose
from tracker.output.tiles import cut_into_tiles


@pytest.mark.parametrize("printed_square_mm", [(100.0, 100.0), (98.0, 101.0)])
@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda p: p.name)
@pytest.mark.parametrize("sort", ["bodice", "skirt", "trousers"])
def test_the_name_of_a_piece_is_not_cut_by_a_sheet_s_edge(
    sort: str, paper: Paper, printed_square_mm: tuple[float, float]
) -> None:
    order = PrintOrder(irregular.block(sort, 1), "A-017", "block@1", "for cloth", "5 March 2026")
    order = replace(order, printed_square_mm=printed_square_mm)
    sheet = compose(order, paper)
    names = {p.label.upper() for p in order.pattern.pieces}
    written = [given for what, given in sheet.strokes if what == "text" and given[1] in names]
    assert len(written) == len(names)
    for at, words, letters in written:
        half = width_mm(words, letters.size_mm, bold=letters.bold) / 2
        along, up = (half, 0.0) if letters.angle_deg == 0 else (0.0, half)
        ends = [
            complex((at.real + way * along) * order.scale[0], (at.imag + way * up) * order.scale[1])
            for way in (-1, 1)
        ]
        on = {
            next(
                (t.row, t.column)
                for t in cut_into_tiles(sheet, paper).tiles
                if 0 <= end.real - t.corner.real < paper.cell_mm[0]
                and 0 <= end.imag - t.corner.imag < paper.cell_mm[1]
            )
            for end in ends
        }
        assert len(on) == 1
