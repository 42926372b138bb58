"""Every listing, check and comparison as JSON, with the values the text has."""

import re
from pathlib import Path
from typing import Any

import pytest

LISTINGS = [
    "client list", "client card", "client ease mara --garment sleeve",
    "measure list", "measure show", "measure names",
    "measure sheet", "garment list", "fitting list", "note list", "note find loose", "alter kinds",
    "version list", "version show", "version again", "check", "compare mara/bodice@1 @2",
    "why --seam side", "prefer", "store check", "alter propose 1.1", "measure compare",
    "carry withdraw 2.1 --try",
]  # fmt: skip


@pytest.fixture
def worked_on(studio: Path, tracker: Any) -> None:
    """A note at the first fitting, dealt with; a second measuring session."""
    tracker(
        "note",
        "new",
        "--seam",
        "side",
        "--sign",
        "too loose",
        "--pinned",
        "2mm at side waist",
        "--pinned",
        "nothing at underarm point",
        "--words",
        "loose",
    )
    tracker("alter", "take-in", "--seam", "side", "--because", "1.1", "4mm at side waist",
            "nothing at underarm point")  # fmt: skip
    tracker("measure", "new", "bust=89", "waist=65", "hip=97")


@pytest.mark.parametrize("typed", LISTINGS)
@pytest.mark.usefixtures("worked_on")
def test_a_listing_is_json_when_asked(typed: str, tracker: Any) -> None:
    said = tracker(*typed.split(), "--json")
    assert said.json
    assert said.status == tracker(*typed.split()).status


@pytest.mark.parametrize("typed", LISTINGS)
@pytest.mark.usefixtures("worked_on")
def test_its_text_fits_eighty_columns(typed: str, tracker: Any) -> None:
    said = tracker(*typed.split())
    assert said.out
    assert max(len(line) for line in said.out.splitlines()) <= 80


@pytest.mark.usefixtures("worked_on")
def test_the_same_values_stand_in_both(tracker: Any) -> None:
    found = tracker("measure", "list", "--json").json
    text = tracker("measure", "list").out
    assert re.findall(r"\d+\.\d(?= cm)", text) == [
        f"{row[key] / 10:.1f}" for row in found for key in ("bust_mm", "waist_mm", "hip_mm")
    ]
    compared = tracker("compare", "mara/bodice@1", "@2", "--json").json
    waist = next(g for g in compared["girths"] if g["what"] == "waist line")
    line = next(r for r in tracker("compare", "mara/bodice@1", "@2").out.splitlines()
                if r.startswith("waist line"))  # fmt: skip
    assert re.findall(r"-?\d+\.\d", line) == [
        f"{mm / 10:.1f}" for mm in (waist["before"], waist["after"])
    ] + [f"{(waist['after'] - waist['before']) / 10:.1f}"]


@pytest.mark.usefixtures("worked_on")
def test_a_check_in_json_has_every_figure_of_the_text(tracker: Any) -> None:
    found = tracker("check", "--json").json
    text = " ".join(tracker("check").out.split())
    assert found["address"] == {"client": "mara", "pattern": "bodice", "number": 2}
    assert found["clean"] is (not found["findings"])
    for what, figure in found["figures"]:
        assert what.split(": ")[0] in text
        assert figure in text
    for finding in found["findings"]:
        assert finding["sentence"] in text
