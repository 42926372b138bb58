"""What the table of signs shows as seen can be noted in its own words."""

from pathlib import Path
from typing import Any

import pytest

from tracker.fitting.observation import Sign
from tracker.fitting.signs import ROWS, row_seen


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.seen)
def test_a_row_is_known_by_what_is_seen(row: Any) -> None:
    assert row_seen(f" {row.seen.capitalize()}.").signs[0] is row.signs[0]


def test_a_note_in_the_tables_words_is_answered_by_that_row(studio: Path, tracker: Any) -> None:
    del studio
    noted = tracker("note", "new", "--piece", "front", "--sign", "the waist line rises in front")
    assert noted.status == 0
    asked = tracker("alter", "propose", "1.1")
    assert "1. Full bust" in asked.out
    assert str(Sign.OFF_LEVEL) in tracker("note", "list").out


def test_what_is_no_sign_says_where_to_find_its_words(studio: Path, tracker: Any) -> None:
    del studio
    said = tracker("note", "new", "--piece", "front", "--sign", "wonky")
    assert said.status == 1
    assert "tracker fitting signs" in said.err
