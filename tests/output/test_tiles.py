"""Tiled prints: every page looked at as a picture and measured from its own coordinates."""

import functools
import io
from dataclasses import replace

import numpy as np
import pytest
from pypdf import PdfReader

from tracker.output import sheet, tiles
from tracker.output.order import A4, LETTER
from tracker.output.pen import FRAME
from tracker.output.sheet import sheet_pdf
from tracker.output.tiles import JOIN, OVERLAP_MM, cut_into_tiles, tiles_pdf

DPI = 100
MM = 25.4 / 72
# The same orders come up in many tests; each is laid out once.
tiled = functools.cache(tiles.tiled)
compose = functools.cache(sheet.compose)


def pictures(pdf: bytes) -> list[np.ndarray]:
    """Every page as grey values, 0 black to 255 white, the top row first."""
    import pypdfium2

    paper = pypdfium2.PdfDocument(pdf)
    pages = [p.render(scale=DPI / 72, grayscale=True).to_numpy().squeeze().copy() for p in paper]
    paper.close()
    return pages


@pytest.mark.parametrize(
    ("paper", "size_mm"),
    [(A4, (210.0, 297.0)), (LETTER, (215.9, 279.4))],  # ISO 216; 8 1/2 by 11 in
)
def test_every_page_is_as_large_as_the_paper(order, paper, size_mm):
    pdf = tiled(order, paper)
    for page in PdfReader(io.BytesIO(pdf)).pages:
        size = float(page.mediabox.width) * MM, float(page.mediabox.height) * MM
        assert size == pytest.approx(size_mm, abs=0.01)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_every_page_shows_its_window_of_the_large_sheet(order, paper):
    order = replace(order, test_garment=True)
    laid = compose(order, paper)
    (whole,) = pictures(sheet_pdf(laid))
    tiling = cut_into_tiles(laid, paper)
    pages = pictures(tiles_pdf(tiling))
    assert len(pages) == len(tiling.printed) + 1
    ink_seen = 0
    for tile, page in zip(tiling.printed, pages[1:], strict=True):
        picture = on_page(whole, tiling, tile, page.shape)
        # Half a pixel of rounding: ink due must be found within one pixel, and ink found
        # inside the window, apart from frame and marks, must be due within one.
        ink_due = inside(picture < 128, tiling, page.shape)
        missing = ink_due & ~spread(page < 200)
        assert missing.sum() <= 0.002 * ink_due.sum() + 2, tile.name
        furniture = spread(drawn_by_us(tiling, tile, page.shape), 4)
        extra = inside(page < 128, tiling, page.shape) & ~spread(picture < 200) & ~furniture
        assert extra.sum() <= 0.002 * ink_due.sum() + 2, tile.name
        ink_seen += ink_due.sum()
    assert ink_seen > 0.9 * (whole < 128).sum()


def px(mm: float) -> float:
    return mm / 25.4 * DPI


def on_page(whole, tiling, tile, shape):
    """The large sheet's picture moved to where this page shows it, white elsewhere."""
    shift = tiling.window_corner + OVERLAP_MM * (1 + 1j) - tile.corner
    left = round(px(shift.real))
    top = shape[0] - round(px(shift.imag)) - whole.shape[0]
    out = np.full(shape, 255, dtype=np.uint8)
    y0, x0 = max(top, 0), max(left, 0)
    y1, x1 = min(top + whole.shape[0], shape[0]), min(left + whole.shape[1], shape[1])
    out[y0:y1, x0:x1] = whole[y0 - top : y1 - top, x0 - left : x1 - left]
    return out


def inside(mask, tiling, shape):
    """Only what lies in the window, two pixels in from its border."""
    low = tiling.window_corner
    wide, high = (c + 2 * OVERLAP_MM for c in tiling.paper.cell_mm)
    out = np.zeros_like(mask)
    y1, y0 = shape[0] - px(low.imag), shape[0] - px(low.imag + high)
    x0, x1 = px(low.real), px(low.real + wide)
    window = slice(int(y0) + 3, int(y1) - 3), slice(int(x0) + 3, int(x1) - 3)
    out[window] = mask[window]
    return out


def drawn_by_us(tiling, tile, shape):
    """Where the frame and the joining marks are."""
    mask = np.zeros(shape, dtype=bool)
    low = tiling.window_corner + OVERLAP_MM * (1 + 1j)
    wide, high = tiling.paper.cell_mm
    for x in (low.real, low.real + wide):
        mask[:, round(px(x))] = True
        for share in (0.25, 0.75):
            y = shape[0] - round(px(low.imag + high * share))
            mask[y - 20 : y + 21, round(px(x)) - 20 : round(px(x)) + 21] = True
    for y in (low.imag, low.imag + high):
        row = shape[0] - round(px(y))
        mask[row, :] = True
        for share in (0.25, 0.75):
            x = round(px(low.real + wide * share))
            mask[row - 20 : row + 21, x - 20 : x + 21] = True
    return mask


def spread(mask, by: int = 1):
    out = mask.copy()
    for dy in range(-by, by + 1):
        for dx in range(-by, by + 1):
            out |= np.roll(mask, (dy, dx), axis=(0, 1))
    return out


def test_frames_measure_what_the_foot_says_on_every_page(order, read_paths):
    for paper in (A4, LETTER):
        pdf = tiled(order, paper)
        for number in range(1, len(PdfReader(io.BytesIO(pdf)).pages)):
            frames = [
                p.chain
                for p in read_paths(pdf, number)
                if p.weight_mm == FRAME.weight_mm
                and len(p.chain.runs) == 4
                and p.chain.length > 500
            ]
            (frame,) = frames
            assert frame.lengths == pytest.approx(
                [paper.cell_mm[0], paper.cell_mm[1]] * 2, abs=0.01
            )
        words = PdfReader(io.BytesIO(pdf)).pages[1].extract_text()
        assert f"frame {paper.cell_mm[0]:g} × {paper.cell_mm[1]:g} mm" in words


def test_neighbours_share_their_marks(order, read_paths):
    tiling = cut_into_tiles(compose(order, A4), A4)
    pdf = tiles_pdf(tiling)
    to_sheet = {}
    for number, tile in enumerate(tiling.printed, start=1):
        shift = tiling.window_corner + OVERLAP_MM * (1 + 1j) - tile.corner
        marks = [
            sum((p.chain.start, *(r[-1] for r in p.chain.runs[:3]))) / 4 - shift
            for p in read_paths(pdf, number, forms=False)
            if p.weight_mm == JOIN.weight_mm and len(p.chain.runs) == 4
        ]
        to_sheet[tile.row, tile.column] = marks
    shared = 0
    for (row, column), marks in to_sheet.items():
        for other in ((row, column + 1), (row + 1, column)):
            if other in to_sheet:
                common = [m for m in marks for n in to_sheet[other] if abs(m - n) < 0.01]
                assert len(common) == 2, (row, column, other)
                shared += 1
    assert shared >= len(to_sheet) - 1


def test_the_first_page_has_the_map_and_the_test_squares(order, read_paths):
    pdf = tiled(order, A4)
    paths = read_paths(pdf, 0)
    for side in (100.0, 101.6):
        squares = [
            p.chain.lengths
            for p in paths
            if len(p.chain.runs) == 4 and p.chain.lengths == pytest.approx([side] * 4, abs=0.05)
        ]
        assert len(squares) == 1
    tiling = cut_into_tiles(compose(order, A4), A4)
    text = PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
    for tile in tiling.printed:
        assert f"{tile.row}·{tile.column}" in text
    assert f"{len(tiling.printed)} sheets follow" in " ".join(text.split())


def test_pages_say_which_they_are_and_which_they_join(order):
    tiling = cut_into_tiles(compose(order, A4), A4)
    pages = PdfReader(io.BytesIO(tiles_pdf(tiling))).pages
    for tile, page in zip(tiling.printed, pages[1:], strict=True):
        text = page.extract_text()
        assert tile.name in text
        right = tiling.tile(tile.row, tile.column + 1)
        if right and not right.blank:
            assert f"joins {right.name}" in text


def test_a_correction_makes_pieces_and_squares_larger_but_not_the_paper(order, read_paths):
    order = replace(order, printed_square_mm=(97.0, 97.0))
    pdf = tiled(order, A4)
    (square,) = [
        p.chain.lengths
        for p in read_paths(pdf, 0)
        if len(p.chain.runs) == 4 and p.chain.lengths == pytest.approx([100 / 0.97] * 4, abs=0.05)
    ]
    assert [s * 0.97 for s in square] == pytest.approx([100.0] * 4, abs=0.01)
    assert float(PdfReader(io.BytesIO(pdf)).pages[0].mediabox.width) * MM == pytest.approx(210)


def test_the_same_order_gives_the_same_tiles(order):
    assert tiles.tiled(order, LETTER) == tiles.tiled(order, LETTER)
