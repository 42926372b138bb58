"""Tables that fit 80 columns, and values as JSON."""

import datetime as dt
import json
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.cli.show import WIDTH, begun, plain, table

words = st.text(st.characters(codec="ascii", categories=("L", "N", "P", "Zs")), max_size=60)


@given(st.integers(1, 7).flatmap(
    lambda n: st.tuples(
        st.lists(words, min_size=n, max_size=n),
        st.lists(st.lists(words, min_size=n, max_size=n), min_size=1, max_size=5),
    )
))  # fmt: skip
def test_a_table_fits_eighty_columns_and_loses_no_letter(
    case: tuple[list[str], list[list[str]]],
) -> None:
    headings, rows = case
    lines = table(headings, rows).splitlines()
    assert all(len(line) <= WIDTH for line in lines)
    shown = sorted("".join("".join(lines).split()))
    cells = "".join("".join(cell.split()) for row in [headings, *rows] for cell in row)
    dashes = len(shown) - len(cells)
    assert dashes >= 0
    assert shown == sorted(cells + "-" * dashes)


def test_a_column_without_heading_or_cell_is_left_out() -> None:
    assert table(("a", "", "b"), [(1, "", 2)]).splitlines()[0] == "a  b"


def test_a_table_without_rows_is_nothing() -> None:
    assert table(("a",), []) == ""


def test_figures_stand_to_the_right() -> None:
    assert table(("n", "mm"), [("waist", 7)], "lr").splitlines()[2] == "waist   7"


@pytest.mark.parametrize(
    ("sentence", "shown"),
    [
        ("the calendar has no such day", "The calendar has no such day"),
        ("wages.pdf is a folder", "wages.pdf is a folder"),
        ("mara/bodice@2 is newer", "mara/bodice@2 is newer"),
        ("inside-leg points out", "Inside-leg points out"),
        ("“x” is no day", "“x” is no day"),
        ("", ""),
    ],
)
def test_a_sentence_begins_with_a_capital_and_a_name_does_not(sentence: str, shown: str) -> None:
    assert begun(sentence) == shown


def test_values_become_what_json_knows() -> None:
    @dataclass(frozen=True)
    class Row:
        on: dt.date
        mm: float | None
        names: tuple[str, ...]

    found = plain({"row": Row(dt.date(2026, 3, 1), None, ("a", "b")), 2: True})
    assert found == {"row": {"on": "2026-03-01", "mm": None, "names": ["a", "b"]}, "2": True}
    assert json.loads(json.dumps(found)) == found
