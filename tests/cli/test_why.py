"""tracker why: a seam, an edge or a place, with what moved it and by how much."""

from typing import Any

import pytest

SIDES = ("alter", "take-in", "--seam", "side")


@pytest.fixture
def altered(tracker: Any, studio: object) -> Any:
    tracker("note", "new", "--seam", "side", "--sign", "too loose", "--pinned",
            "4mm at side waist", "--pinned", "nothing at underarm point",
            "--words", "stands off")  # fmt: skip
    assert tracker("alter", "accept", "1.1").status == 0
    assert (
        tracker(*SIDES, "--side", "right", "2mm at side waist", "nothing at underarm point").status
        == 0
    )
    return tracker


def test_a_place_is_told_with_the_amount_there(altered: Any) -> None:
    said = altered("why", "--seam", "side", "--at", "side waist", "--side", "left").out
    assert "The left side seam at the side waist, in mara/bodice@3, is where it is" in said
    assert "there: side of the back 4 mm in; side of the front 4 mm in" in said
    assert "note 1.1, side seam, too loose: altered. “stands off”" in said
    assert "mara/bodice@3," not in said.partition("because:")[2]


def test_both_sides_are_told_where_they_differ(altered: Any) -> None:
    told = altered("why", "--seam", "side", "--at", "side waist", "--json").json
    shifts = told["reasons"][0]["reason"]["shifts"]
    assert [(s["edge"], round(s["in_mm"], 1)) for s in shifts] == [
        ("side of the right back", 1.0), ("side of the right front", 1.0)
    ]  # fmt: skip
    assert told["reasons"][-1]["reason"]["version"] == "mara/bodice@1"


def test_a_whole_line_tells_where_it_moved_most(altered: Any) -> None:
    said = altered("why", "--piece", "front", "--edge", "side", "--side", "right").out
    assert "most: side of the right front 1 mm in at the side waist" in said


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--seam", "side", "--at", "side wast"], "Did you mean side waist?"),
        (["--seam", "side", "--at", "90cm from side waist"], "off the end"),
        (["--piece", "front", "--edge", "side", "--at", "neck point"], "no corner called"),
        (["--at", "side waist"], "Why is what there?"),
    ],
)
def test_a_place_that_is_not_there_is_told_so(words: list[str], told: str, altered: Any) -> None:
    said = altered("why", *words)
    assert said.status != 0
    assert told in said.err
