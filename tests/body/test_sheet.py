"""The measuring sheet."""

import pytest

from tracker.body.body import Body
from tracker.body.card import Card, Degree, Posture
from tracker.body.sheet import measuring_sheet
from tracker.body.vocabulary import UnknownMeasurement, for_purpose


def test_the_sheet_goes_in_tape_order_and_numbers_its_lines() -> None:
    sheet = measuring_sheet(["bodice", "sleeve"])
    orders = [line.measurement.order for line in sheet.lines]
    assert orders == sorted(orders)
    assert [line.number for line in sheet.lines] == list(range(1, len(sheet.lines) + 1))
    wanted = {*for_purpose("bodice"), *for_purpose("sleeve")}
    assert {line.measurement for line in sheet.lines} == wanted


def test_a_measurement_that_may_differ_has_a_box_for_each_side() -> None:
    body = Body.of({"bust-girth": 880, ("shoulder-slope", "right"): 26})
    sheet = measuring_sheet(only=["bust", "shoulder slope", "waist"], last=body)
    assert [(line.measurement.key, line.boxes, line.last) for line in sheet.lines] == [
        ("bust-girth", ("both",), (880,)),
        ("waist-girth", ("both",), (None,)),
        ("shoulder-slope", ("right", "left"), (26, 26)),
    ]


def test_the_usual_cautions_are_on_every_sheet_and_her_own_come_first() -> None:
    text = " ".join(measuring_sheet().cautions).lower()
    for word in ("pins", "latex", "metal", "agreed", "law", "stop"):
        assert word in text
    card = Card(allergies=("latex",), posture=(Posture(sort="round back", degree=Degree.SLIGHT),))
    sheet = measuring_sheet(card=card)
    assert sheet.cautions[0].startswith("Latex:")
    assert sheet.posture == ("slight round back",)
    assert sheet.before_you_start


def test_an_unknown_measurement_is_not_left_off_silently() -> None:
    with pytest.raises(UnknownMeasurement):
        measuring_sheet(only=["bustt girh xx"])
