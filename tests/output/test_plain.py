"""Plain text that fits 80 columns."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.output.plain import facts, listed, paragraph, table

letters = st.characters(categories=("L", "N", "Zs"), max_codepoint=0x17F)
cells = st.text(alphabet=letters, max_size=60)


def grid(columns: int):
    row = st.lists(cells, min_size=columns, max_size=columns)
    return st.tuples(row, st.lists(row, max_size=5))


@given(st.integers(1, 6).flatmap(grid))
def test_no_table_is_wider_than_the_terminal_and_no_letter_is_lost(head_and_rows):
    head, rows = head_and_rows
    shown = table(head, rows)
    assert all(len(line) <= 80 for line in shown.splitlines())
    entered = Counter("".join("".join(cell.split()) for row in [head, *rows] for cell in row))
    written = Counter("".join(shown.split()))
    del written["-"]
    del entered["-"]
    assert written == entered


def test_a_table_looks_as_it_should():
    shown = table(
        ["line", "before", "after"],
        [["bust line", "971", "969"], ["waist line", "728", "676"]],
        right=(1, 2),
    )
    assert shown == (
        "line        before  after\n"
        "----------  ------  -----\n"
        "bust line      971    969\n"
        "waist line     728    676"
    )


def test_long_cells_go_on_below_and_short_ones_keep_their_width():
    shown = table(["seam", "what"], [["side", "in " * 60], ["shoulder", "as it was"]])
    lines = shown.splitlines()
    assert lines[0].startswith("seam      what")
    assert max(map(len, lines)) <= 80
    assert lines[-1] == "shoulder  as it was"


def test_facts_stand_in_two_columns():
    shown = facts([("Client", "A-017"), ("Posture", "round back, slight; " * 8)])
    lines = shown.splitlines()
    assert lines[0] == "Client   A-017"
    assert all(line.startswith(" " * 9) for line in lines[2:])
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("numbered", [False, True])
def test_lists_hang_under_their_numbers(numbered):
    shown = listed(["one " * 40, "two"], numbered=numbered)
    lead = " 1. " if numbered else "- "
    lines = shown.splitlines()
    assert lines[0].startswith(lead.rstrip())
    assert lines[1].startswith(" " * (4 if numbered else 2))
    assert max(map(len, lines)) <= 80


def test_paragraphs_keep_their_indent():
    assert all(line.startswith("    ") for line in paragraph("so " * 60, indent=4).splitlines())
