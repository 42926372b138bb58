"""What was typed and what it means."""

import datetime as dt
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.cli.clock import NotADay, as_if_on, read_day
from tracker.cli.typed import (
    Spoken,
    TypedOtherwise,
    client_and_values,
    read_amount,
    read_square,
    version_and_amounts,
)
from tracker.tasks.preferences import Manner
from tracker.units import Unit

CM = Manner()
INCH = Manner(unit=Unit.INCH)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("10mm at side waist", Spoken(10.0, "side waist", 0.0, None)),
        ("1 at side waist", Spoken(10.0, "side waist", 0.0, None)),  # a bare number is in cm
        ("5 mm at the underarm point", Spoken(5.0, "underarm point", 0.0, None)),
        ("5mm at 4cm from underarm point", Spoken(5.0, "underarm point", 40.0, None)),
        ("nothing at underarm point", Spoken(0.0, "underarm point", 0.0, None)),
        ("0 at underarm point", Spoken(0.0, "underarm point", 0.0, None)),
        ("6mm at side waist on front", Spoken(6.0, "side waist", 0.0, "front")),
        ("6mm at 2cm from side waist on the side back",
         Spoken(6.0, "side waist", 20.0, "side back")),
        ("8mm all along", Spoken(8.0, "", 0.0, None)),
        ("-20mm at side waist", Spoken(-20.0, "side waist", 0.0, None)),
        ("  10mm   at  side  waist ", Spoken(10.0, "side waist", 0.0, None)),
    ],
)  # fmt: skip
def test_an_amount_at_a_place_is_read(said: str, meant: Spoken) -> None:
    assert read_amount(said, CM, allow_negative=True) == meant


def test_a_bare_number_is_in_the_makers_unit() -> None:
    assert read_amount("1/4 at side waist", INCH).amount_mm == pytest.approx(6.35)


@pytest.mark.parametrize("said", ["10mm", "at side waist 10mm", "10mm side waist", ""])
def test_an_amount_without_a_place_is_sent_back(said: str) -> None:
    with pytest.raises(TypedOtherwise, match="how much and where"):
        read_amount(said, CM)


@pytest.mark.parametrize(
    ("words", "client", "values"),
    [
        (["mara", "bust=88"], "mara", ["bust=88"]),
        (["bust=88"], None, ["bust=88"]),
        ([], None, []),
    ],
)
def test_a_client_may_stand_before_her_values(
    words: list[str], client: str | None, values: list[str]
) -> None:
    assert client_and_values(words, None, None) == (client, values)


@pytest.mark.parametrize(
    ("words", "version"),
    [
        (["mara/bodice", "5mm at side waist"], "mara/bodice"),
        (["5mm at side waist"], None),
        (["8mm all along"], None),
        ([], None),
    ],
)
def test_a_version_may_stand_before_its_amounts(words: list[str], version: str | None) -> None:
    assert version_and_amounts(words)[0] == version


def test_a_test_square_has_one_length_or_two() -> None:
    assert read_square(None, CM) == (100.0, 100.0)
    assert read_square("99.5mm", CM) == (99.5, 99.5)
    assert read_square("99.5mm; 101mm", CM) == (99.5, 101.0)
    with pytest.raises(TypedOtherwise, match="two sides"):
        read_square("1;2;3", CM)


@given(st.dates())
def test_every_day_of_the_calendar_is_read_back(day: dt.date) -> None:
    assert read_day(day.isoformat()) == day


@given(st.text(max_size=12))
def test_anything_else_gets_its_sentence(text: str) -> None:
    with suppress(NotADay):
        assert isinstance(read_day(text), dt.date)


def test_today_and_yesterday_are_days() -> None:
    with as_if_on(dt.date(2026, 3, 1)):
        assert read_day("today") == dt.date(2026, 3, 1)
        assert read_day(" Yesterday ") == dt.date(2026, 2, 28)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("2026-02-29", "February 2026 has 28 days"),
        ("2024-02-30", "February 2024 has 29 days"),
        ("2026-04-31", "April 2026 has 30 days"),
        ("2026-00-10", "there is no month 0"),
        ("2026-12-32", "December 2026 has 31 days"),
        ("0000-01-01", "years are counted from 1"),
        ("26-01-01", "write year-month-day"),
        ("tomorrow", "write year-month-day"),
    ],
)
def test_a_day_the_calendar_has_not_is_told_why(text: str, why: str) -> None:
    with pytest.raises(NotADay, match=why):
        read_day(text)
