"""The sheet to note points on."""

import re

import pytest

from tracker.output.tracing_sheet import HOW, tracing_sheet_html
from tracker.tracing.layout import TABLES
from tracker.units import Unit


def plain(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page[page.index("<main>") :]).split())


def test_the_sheet_tells_how_and_has_the_tables_of_the_file() -> None:
    page = tracing_sheet_html((), "", Unit.CM)
    for line in HOW:
        assert line in page.replace("&#39;", "'")
    heads = set(re.findall(r'<th scope="col"[^>]*>([^<]+)</th>', page))
    known = {c.name for table in TABLES.values() for c in table.columns}
    ours = {"no.", "sewn (first or second)", "or edge", "grain", "ease"}
    assert heads - ours <= known
    assert {"edge", "x", "y", "kind", "name", "stand back", "starts at"} <= heads


def test_each_piece_has_its_sheet_and_the_how_stands_once() -> None:
    text = plain(tracing_sheet_html(("front", "back"), "A-017", Unit.INCH))
    assert text.count("Tracing sheet:") == 2
    assert text.count("Reading a piece off the paper") == 1
    assert "A-017" in text
    assert "Unit inch" in text


@pytest.mark.parametrize(("unit", "paper"), [(Unit.CM, "A4"), (Unit.INCH, "letter")])
def test_it_is_laid_out_for_the_makers_paper(unit: Unit, paper: str) -> None:
    assert f"size: {paper} portrait" in tracing_sheet_html((), "", unit)


def test_what_is_typed_as_a_piece_stays_words() -> None:
    page = tracing_sheet_html(("<script>",), "", Unit.CM)
    assert "<script>" not in page


def test_the_figure_numbers_the_points_of_the_example() -> None:
    page = tracing_sheet_html((), "", Unit.CM)
    figure = page[page.index("<svg") : page.index("</svg>")]
    for edge in ("centre front", "neckline", "armhole", "waist"):
        assert f">{edge}</text>" in figure
    # Each point a dot; the front of the example has 30 of them.
    assert figure.count('class="dot"') == 30
