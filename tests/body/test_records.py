"""Stored bodies, sessions, cards and ease plans that are damaged get a sentence."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

import pytest

from tracker.body.body import Body, BodyRecordUnreadable
from tracker.body.card import Card, Consent
from tracker.body.ease import DEFAULT_BODICE_EASE, EasePlan
from tracker.body.session import MeasuringSession, Reading

Read = Callable[[Mapping[str, Any]], object]

RECORDS: dict[str, tuple[Read, dict[str, Any]]] = {
    "body": (Body.from_record, Body.of({"bust-girth": 880}).to_record()),
    "measuring session": (
        MeasuringSession.from_record,
        MeasuringSession(
            on=date(2025, 3, 4), by="Ida", readings=(Reading(key="bust", values=(880.0,)),)
        ).to_record(),
    ),
    "client's card": (
        Card.from_record,
        Card(consents=(Consent(to="notes", given_on=date(2025, 3, 4)),)).to_record(),
    ),
    "ease plan": (EasePlan.from_record, DEFAULT_BODICE_EASE.to_record()),
}


@pytest.mark.parametrize("what", RECORDS)
def test_a_newer_format_is_not_guessed_at(what: str) -> None:
    read, record = RECORDS[what]
    with pytest.raises(BodyRecordUnreadable, match=rf"this {what}.*format 2"):
        read({**record, "format": 2})


@pytest.mark.parametrize(
    ("what", "part"), [(what, part) for what in RECORDS for part in RECORDS[what][1]]
)
def test_a_missing_part_is_named(what: str, part: str) -> None:
    read, record = RECORDS[what]
    with pytest.raises(BodyRecordUnreadable, match=f"this {what}") as refused:
        read({name: value for name, value in record.items() if name != part})
    assert part in refused.value.sentence


@pytest.mark.parametrize("what", RECORDS)
def test_a_part_of_the_wrong_kind_is_no_traceback(what: str) -> None:
    read, record = RECORDS[what]
    (part,) = [name for name in record if name in ("values", "readings", "consents", "lines")]
    with pytest.raises(BodyRecordUnreadable, match="cannot be read"):
        read({**record, part: [3]})


def test_records_are_stored_as_they_always_were() -> None:
    # Written by format 1 and never to change.
    assert RECORDS["body"][1] == {
        "format": 1,
        "values": [{"key": "bust-girth", "side": "both", "value": 880.0, "estimated": False}],
    }
    assert RECORDS["measuring session"][1] == {
        "format": 1,
        "on": "2025-03-04",
        "by": "Ida",
        "wearing": "",
        "heel_mm": 0.0,
        "kind": "usual",
        "reason": "",
        "reason_on": None,
        "note": "",
        "readings": [
            {
                "key": "bust-girth",
                "side": "both",
                "values": [880.0],
                "confirmed": False,
                "estimated": False,
            }
        ],
    }
    assert RECORDS["client's card"][1] == {
        "format": 1,
        "posture": [],
        "likes": [],
        "allergies": [],
        "consents": [{"to": "notes", "given_on": "2025-03-04", "withdrawn_on": None}],
        "note": "",
    }
