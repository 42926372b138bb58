"""The comparison page in a real browser: keys, silence, one printed sheet, structure."""

import io

import pytest
from output.showcase import a_comparison
from pypdf import PdfReader

from tracker.output.comparison import comparison_html
from tracker.units import Unit


def seen(page) -> dict[str, bool]:
    return {name: page.locator(f".drawing g.{name}").is_visible() for name in ("old", "new")}


def test_the_two_versions_are_flipped_with_the_keyboard_alone(show):
    page = show(comparison_html(a_comparison()))
    assert seen(page) == {"old": True, "new": True}
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "show-both"
    for expected in (
        {"old": True, "new": False},
        {"old": False, "new": True},
        {"old": True, "new": True},
    ):
        page.keyboard.press("ArrowRight")
        assert seen(page) == expected


def test_the_one_in_focus_can_be_seen_and_a_number_leads_to_its_sentence(show):
    page = show(comparison_html(a_comparison()))
    page.keyboard.press("Tab")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.getAttribute('href')") == "#change-1"
    page.keyboard.press("Enter")
    assert page.evaluate("document.querySelector(':target').id") == "change-1"


@pytest.mark.parametrize(
    ("unit", "size_mm"),
    [(Unit.CM, (210.0, 297.0)), (Unit.INCH, (215.9, 279.4))],  # ISO 216 A4; 8 1/2 by 11 in
)
def test_it_prints_on_one_sheet(show, unit, size_mm):
    page = show(comparison_html(a_comparison(unit)))
    page.locator("#show-old").check()
    pdf = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    assert len(pdf.pages) == 1
    box = pdf.pages[0].mediabox
    size = float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4
    assert size == pytest.approx(size_mm, abs=0.5)
    text = " ".join(pdf.pages[0].extract_text().split())
    assert "Centre back seam in 12 mm (1/2 in) at the waist" in text
    assert "3.1°" in text
    # Nothing runs off the paper's side: the longest words of every table are all there.
    assert "planned" in text


def test_paper_shows_both_versions_whatever_the_screen_shows(show):
    page = show(comparison_html(a_comparison()))
    page.locator("#show-new").check()
    assert seen(page) == {"old": False, "new": True}
    page.emulate_media(media="print")
    assert seen(page) == {"old": True, "new": True}
    assert not page.locator("fieldset").is_visible()


def test_why_a_seam_is_there_is_opened_with_the_keyboard_and_left_off_the_paper(show):
    page = show(comparison_html(a_comparison()))
    reason = page.get_by_text("side of the front 5 mm in at the side waist")
    assert not reason.is_visible()
    page.get_by_text("side seam 1 change").focus()
    page.keyboard.press("Enter")
    assert reason.is_visible()
    page.emulate_media(media="print")
    assert not reason.is_visible()


def test_roles_and_names_reach_a_screen_reader(show):
    page = show(comparison_html(a_comparison()))
    tree = page.locator("body").aria_snapshot()
    for wanted in (
        'heading "Taken in at the waist, neckline lowered" [level=1]',
        'group "Show"',
        'radio "both" [checked]',
        'radio "bodice@2 only"',
        'link "change 1: Right and left side seams',
        'columnheader "change"',
        'rowheader "waist line"',
        'region "Girths and ease"',
    ):
        assert wanted in tree, wanted


def test_nothing_is_cut_off_on_a_narrow_screen(show):
    page = show(comparison_html(a_comparison()))
    page.set_viewport_size({"width": 360, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_words_stand_out_from_their_ground(show, least_contrast):
    # WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
    page = show(comparison_html(a_comparison()))
    worst = least_contrast(page)
    assert worst >= 4.5


def test_every_number_is_readable_on_the_printed_sheet(show):
    page = show(comparison_html(a_comparison()))
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 718, "height": 1047})  # A4 less its margins, 96 to the inch
    boxes = page.evaluate(
        "[...document.querySelectorAll('.number .ring')].map(e => e.getBoundingClientRect().width)"
    )
    assert min(boxes) > 5 / 25.4 * 96  # 5 mm across at least


@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
def test_no_table_runs_out_of_its_column_on_paper(show, unit):
    page = show(comparison_html(a_comparison(unit)))
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 718, "height": 1047})
    over = page.evaluate(
        "[...document.querySelectorAll('.wide')].map(e => e.scrollWidth - e.clientWidth)"
    )
    assert max(over) <= 0
