"""Sleeves as they are typed: sewn in, altered, fitted again, and taken off."""

from pathlib import Path
from typing import Any

import pytest


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture
def sleeved(studio: Path, tracker: Any) -> Path:
    made = tracker("style", "sleeve", "mara/bodice", "--as", "sleeved", "--estimate")
    assert made.status == 0, made.err
    return studio


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["change the upper arm", "to=fuller", "by=2cm"], "10 mm to the front and 10 mm to the"),
        (["raise or lower the cap", "to=lower", "by=6mm", "keep=cap length"], "lowered 6 mm"),
        (["raise or lower the cap", "to=raise", "by=6mm"], "more ease than planned"),
        (["turn the sleeve", "to=forward", "by=8mm", "side=left"], "turned 8 mm forward"),
    ],
)
def test_sleeves_are_altered_by_their_words(
    sleeved: Path, tracker: Any, typed: list[str], told: str
) -> None:
    made = tracker("alter", "make", *typed, "--from", "mara/sleeved")
    assert made.status == 0, made.err
    assert told in plain(made.out)
    assert "Stored as mara/sleeved@2" in made.out


def test_a_side_seam_taken_in_says_what_the_cap_needs_and_the_cap_is_fitted(
    sleeved: Path, tracker: Any
) -> None:
    taken = tracker(
        "alter", "take-in", "mara/sleeved", "--seam", "side", "8mm at underarm point",
        "nothing at side waist",
    )  # fmt: skip
    assert taken.status == 0, taken.err
    assert "the cap no longer matches" in plain(taken.out)
    assert "fit the cap to the armhole" in plain(taken.out)
    fitted = tracker("alter", "make", "fit the cap to the armhole", "--from", "mara/sleeved")
    assert fitted.status == 0, fitted.err
    assert "no longer matches" not in plain(fitted.out)
    checked = tracker("check", "mara/sleeved")
    assert "armhole seam:" not in checked.out
    again = tracker("alter", "make", "fit the cap to the armhole", "--from", "mara/sleeved")
    assert again.status == 1
    assert "there is nothing to fit" in again.err


def test_a_sleeved_block_is_made_sleeveless_beside_it(sleeved: Path, tracker: Any) -> None:
    tried = tracker("style", "sleeveless", "mara/sleeved", "--try")
    assert tried.status == 0, tried.err
    assert "shell" not in tracker("version", "list").out
    made = tracker("style", "sleeveless", "mara/sleeved", "--as", "shell", "--shoulder", "2cm")
    assert made.status == 0, made.err
    assert "20 mm shorter at the shoulder point" in plain(made.out)
    assert "Stored as mara/shell@1, made from mara/sleeved@1." in plain(made.out)
    # She was measured again since; the seams themselves have nothing to look at.
    found = tracker("check", "mara/shell", "--json").json["findings"]
    assert {f["code"] for f in found} <= {"ease"}


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["style", "sleeveless", "mara/bodice", "--raise", "abc"], "“abc” is not a length"),
        (["style", "sleeveless", "mara/bodice", "--shoulder", "30cm"], "can be drawn here"),
        (
            ["alter", "make", "turn the sleeve", "to=forward", "by=8mm", "--from", "mara/bodice"],
            "add a sleeve first",
        ),
        (
            [
                "alter",
                "make",
                "change the upper arm",
                "to=wider",
                "by=8mm",
                "--from",
                "mara/bodice",
            ],
            "fuller or narrower",
        ),
    ],
)
def test_what_cannot_be_is_one_sentence(
    studio: Path, tracker: Any, typed: list[str], told: str
) -> None:
    refused = tracker(*typed)
    assert refused.status in (1, 2)
    assert told in plain(refused.err)
