"""A draft from measurements of several days: what contradicts each other is told with its day."""

import pytest
from cli.conftest import Tracker

FIRST = ("waist girth=72cm", "hip girth=98cm", "waist arc front=37cm", "waist arc back=35cm",
         "hip depth=20cm", "waist to knee=60cm", "height=168cm")  # fmt: skip


@pytest.fixture
def una(tracker: Tracker) -> Tracker:
    for words in (
        ("store", "new"),
        ("client", "new", "una", "Una", "--consent", "measurements"),
        ("measure", "new", "una", *FIRST, "--on", "2025-02-03"),
        ("measure", "new", "una", "waist girth=76cm", "--on", "2026-01-12"),
    ):
        done = tracker(*words)
        assert done.status == 0, done.err
    return tracker


@pytest.mark.parametrize("kind", ["skirt", "trousers"])
def test_arcs_older_than_the_girth_are_told_with_what_to_measure_again(
    una: Tracker, kind: str
) -> None:
    refused = una("block", "draft", "una", "--kind", kind, "--estimate")
    assert refused.status != 0
    said = " ".join(refused.err.split())
    assert "do not add up to waist girth 760 mm" in said
    assert "waist girth of 2026-01-12 (session 2)" in said
    assert "waist arc, front and waist arc, back of 2025-02-03 (session 1)" in said
    assert "measure waist arc, front and waist arc, back again" in said
    assert "--session 1" in said


def test_the_session_it_offers_will_do_and_so_will_new_arcs(una: Tracker) -> None:
    assert una("block", "draft", "una", "--kind", "skirt", "--session", "1").status == 0
    again = ("waist arc front=39cm", "waist arc back=37cm")
    assert una("measure", "new", "una", *again, "--on", "2026-01-19").status == 0
    assert una("block", "draft", "una", "--kind", "skirt", "--as", "second").status == 0


def test_what_was_measured_in_one_session_is_not_called_old(tracker: Tracker) -> None:
    tracker("store", "new")
    tracker("client", "new", "una", "Una", "--consent", "measurements")
    tracker("measure", "new", "una", *FIRST[1:], "waist girth=76cm")
    refused = tracker("block", "draft", "una", "--kind", "skirt")
    assert "do not add up" in refused.err
    assert "of different days" not in " ".join(refused.err.split())
