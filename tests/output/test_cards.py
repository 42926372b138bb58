"""Sheets to write on."""

import re

import pytest

from tracker.body.body import Body
from tracker.body.sheet import measuring_sheet
from tracker.body.vocabulary import for_purpose
from tracker.fitting.reading import ReadingKind
from tracker.output.cards import (
    ORDER_OF_LOOKING,
    FittingCard,
    MarkingUpSheet,
    MarkUp,
    OpenNote,
    fitting_card_html,
    marking_up_html,
    measuring_sheet_html,
)  # fmt: skip
from tracker.units import Unit


def plain(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page[page.index("<main>") :]).split())


def test_a_fitting_card_has_room_for_everything_in_the_order_of_looking():
    note = OpenNote("side seam at the waist", "loose; taken in 10 mm in bodice@3")
    text = plain(
        fitting_card_html(
            FittingCard("A-017", "second test garment", "bodice@3", cautions=("Latex.",),
                        again=(note,))
        )
    )  # fmt: skip
    places = [text.index(f"{name} {words}") for name, words in ORDER_OF_LOOKING]
    assert places == sorted(places)
    assert "side seam at the waist: loose; taken in 10 mm in bodice@3" in text
    assert "Latex." in text
    for kind in ReadingKind:
        assert str(kind) in text


def test_a_marking_up_sheet_says_words_and_amounts_in_both_units():
    sheet = MarkingUpSheet(
        "B-002", "jacket@2", "3 March 2026", "for cloth",
        (MarkUp(1, "front", "side, at the side waist", "in", 5.0, "loose round the waist"),
         MarkUp(2, "back", "centre back", "open the seam and look")),
        ("waist 20 mm (13/16 in) smaller",),
    )  # fmt: skip
    text = plain(marking_up_html(sheet))
    assert "1 front side, at the side waist in loose round the waist 5 mm (3/16 in)" in text
    assert "2 back centre back open the seam and look" in text
    assert "waist 20 mm (13/16 in) smaller" in text


def test_the_measuring_sheet_asks_for_every_measurement_twice_in_tape_order():
    sheet = measuring_sheet(("bodice",))
    page = measuring_sheet_html(sheet, "A-017")
    names = re.findall(r"<strong>([^<]+)</strong>", page)
    assert names == [entry.name for entry in for_purpose("bodice")]
    boxes = sum(len(line.boxes) for line in sheet.lines)
    assert page.count('class="box"') == 2 * boxes
    for line in sheet.lines:
        assert line.measurement.path in page.replace("&#39;", "'")


@pytest.mark.parametrize(("unit", "shown"), [(Unit.CM, "88.0 cm"), (Unit.INCH, "34 5/8 in")])
def test_last_times_figures_are_only_shown_when_asked_for(unit, shown):
    sheet = measuring_sheet(("bodice",), last=Body.of({"bust-girth": 880.0}))
    assert shown not in measuring_sheet_html(sheet, "A-017", unit)
    assert f"was {shown}" in measuring_sheet_html(sheet, "A-017", unit, with_last=True)
