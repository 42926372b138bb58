"""The pages of the kinds of alteration, in a real browser and without a network."""

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from tracker.alterations.kind import kinds
from tracker.output.kind_page import kind_html, kinds_html
from tracker.output.picture import picture_html
from tracker.tasks.kind_pages import shown_kind

#: One of each sort of page: pieces turned, a piece alone, a style, a draft, nothing to type.
WORDS = ("slash and spread", "take in a seam", "panel the front", "add a sleeve", "withdraw steps")


@pytest.mark.parametrize("word", WORDS)
def test_a_page_reads_well_on_any_screen(show, least_contrast, word):
    page = show(kind_html(shown_kind(word)))
    page.set_viewport_size({"width": 360, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert least_contrast(page) >= 4.5  # WCAG 2.2, 1.4.3
    assert page.locator("h1").inner_text().lower() == word


def test_a_page_is_told_to_a_screen_reader_in_order(show):
    page = show(kind_html(shown_kind("take in a seam"), "index.html"))
    tree = page.locator("body").aria_snapshot()
    for wanted in (
        'link "All alterations"',
        'heading "Take in a seam" [level=1]',
        'heading "For example: Side seams that stand off the waist." [level=2]',
        'img "Side seams that stand off the waist. Before dashed, after solid, to scale."',
        'columnheader "typed like"',
        'rowheader "amounts"',
    ):
        assert wanted in tree, wanted


@pytest.mark.parametrize("word", WORDS)
def test_a_page_prints_on_a_sheet_or_two_with_all_that_is_typed(show, word):
    about = shown_kind(word)
    page = show(kind_html(about))
    pdf = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    assert len(pdf.pages) <= 2
    # ISO 216 A4
    assert float(pdf.pages[0].mediabox.width) / 72 * 25.4 == pytest.approx(210.0, abs=0.5)
    printed = "".join("".join(sheet.extract_text().split()) for sheet in pdf.pages)
    assert "".join(about.command.split()) in printed


def test_the_drawing_stands_within_the_screen(show):
    page = show(kind_html(shown_kind("slash and spread")))
    box = page.locator(".drawing svg").bounding_box()
    assert box["height"] <= 600
    words = page.locator(".scale text").bounding_box()
    assert words["x"] + words["width"] <= box["x"] + box["width"] + 1


def test_all_of_them_are_on_one_page_each_with_its_picture(show, least_contrast):
    words = [w for w in WORDS if w in kinds()]
    page = show(kinds_html([shown_kind(w) for w in words]))
    assert page.locator(".cards li").count() == len(words)
    for word in words:
        link = page.get_by_role("link", name=word)
        assert link.get_attribute("href") == f"{word.replace(' ', '-')}.html"
    pictures = page.locator(".cards svg")
    for k in range(pictures.count()):
        assert pictures.nth(k).get_attribute("aria-label").endswith(".")
        assert pictures.nth(k).bounding_box()["height"] > 100
    page.set_viewport_size({"width": 360, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert least_contrast(page) >= 4.5


def test_a_picture_of_a_trial_reads_well_on_any_screen(show, least_contrast):
    page = show(picture_html(replace(shown_kind("shift a seam").picture, mind=("Look again.",))))
    page.set_viewport_size({"width": 360, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert least_contrast(page) >= 4.5  # WCAG 2.2, 1.4.3
    assert 'region "To look at"' in page.locator("body").aria_snapshot()
