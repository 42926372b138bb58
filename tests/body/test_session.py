"""Measuring sessions: repeats, questions, passing sessions, storing."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.body.body import BodyRecordUnreadable, NotABodyValue, NotMeasured
from tracker.body.session import MeasuringSession, NotASession, Reading, newest_body
from tracker.body.vocabulary import VOCABULARY, WrongSide


def session(*readings: Reading, **given_of_it: object) -> MeasuringSession:
    return MeasuringSession(
        on=given_of_it.pop("on", date(2025, 3, 4)),
        by="Ida",
        readings=readings,
        **given_of_it,
    )


def test_a_value_is_the_mean_of_its_repeats() -> None:
    measured = session(Reading(key="bust", values=(880.0, 884.0, 885.0)))
    assert measured.value("bust-girth") == pytest.approx(883.0)
    assert measured.repeated("bust-girth", 887.0).value("bust-girth") == pytest.approx(884.0)
    assert measured.repeated("waist-girth", 700.0).value("waist-girth") == 700.0


def test_an_unusual_value_is_questioned_and_kept_when_confirmed() -> None:
    odd = session(Reading(key="waist-girth", values=(1750.0,)))
    (asked,) = odd.questions()
    assert asked.code == "out of range"
    assert "500 mm" in asked.sentence
    assert "1700 mm" in asked.sentence
    kept = odd.confirm("waist-girth")
    assert kept.questions() == ()
    assert kept.value("waist-girth") == 1750.0


def test_each_repeat_is_questioned_by_itself_and_not_their_mean() -> None:
    """91 cm and a mistyped 191 cm have a mean that an adult may have; 191 cm no adult has."""
    typed = session(Reading(key="bust-girth", values=(910.0, 1910.0)))
    odd, apart = typed.questions()
    assert odd.code == "out of range"
    assert "bust girth 1910 mm" in odd.sentence
    assert apart.code == "repeats far apart"
    assert [one.code for one in typed.confirm("bust-girth").questions()] == ["repeats far apart"]


def test_an_unusual_slope_is_questioned_in_degrees() -> None:
    (asked,) = session(Reading(key="shoulder-slope", side="left", values=(45.0,))).questions()
    assert asked.place == "left shoulder slope"
    assert "45°" in asked.sentence
    assert asked.unit == "°"


def test_repeats_further_apart_than_careful_ones_are_questioned() -> None:
    # ANSUR II measurer's handbook: shoulder length, allowable observer error 3 mm.
    near = session(Reading(key="shoulder-length", side="right", values=(125.0, 128.0)))
    far = session(Reading(key="shoulder-length", side="right", values=(125.0, 128.5)))
    assert near.questions() == ()
    assert [one.code for one in far.questions()] == ["repeats far apart"]


@pytest.mark.parametrize(
    ("given_of_it", "part"),
    [
        ({"kind": "passing"}, "needs its reason"),
        ({"kind": "sometimes"}, "usual or passing"),
        ({"reason": "brace"}, "call the session passing"),
        ({"heel_mm": -5.0}, "0 to 200 mm"),
        ({"heel_mm": 900.0}, "0 to 200 mm"),
    ],
)
def test_a_session_that_cannot_be_gets_a_sentence(
    given_of_it: dict[str, object], part: str
) -> None:
    with pytest.raises(NotASession, match=part):
        session(**given_of_it)


def test_one_measurement_is_not_given_twice() -> None:
    with pytest.raises(NotASession, match="given twice"):
        session(Reading(key="bust-girth", values=(880.0,)), Reading(key="bust", values=(884.0,)))


def test_a_reading_is_a_length_on_a_side_that_exists() -> None:
    with pytest.raises(NotABodyValue, match="no reading"):
        Reading(key="bust-girth", values=())
    with pytest.raises(NotABodyValue, match="cannot be -4"):
        Reading(key="bust-girth", values=(-4.0,))
    with pytest.raises(WrongSide):
        Reading(key="bust-girth", side="left", values=(880.0,))
    with pytest.raises(NotMeasured, match="cannot be confirmed"):
        session().confirm("bust-girth")


def test_the_newest_usual_value_of_each_measurement_counts() -> None:
    old = session(
        Reading(key="bust-girth", values=(880.0,)),
        Reading(key="waist-girth", values=(680.0,)),
        Reading(key="shoulder-slope", side="right", values=(26.0,)),
        on=date(2024, 1, 9),
    )
    new = session(
        Reading(key="bust-girth", values=(900.0,)),
        Reading(key="shoulder-slope", values=(22.0,)),
        on=date(2025, 1, 9),
    )
    passing = session(
        Reading(key="waist-girth", values=(1000.0,)),
        kind="passing",
        reason="pregnancy",
        reason_on=date(2025, 9, 1),
        on=date(2025, 6, 1),
    )
    body = newest_body([passing, new, old])
    assert body.value("bust-girth") == 900
    assert body.value("waist-girth") == 680
    assert body.value("shoulder-slope", "right") == 22
    assert newest_body([passing, new, old], with_passing=True).value("waist-girth") == 1000


def test_an_estimate_never_replaces_a_measurement() -> None:
    measured = session(Reading(key="across-back", values=(344.0,)), on=date(2024, 1, 9))
    guessed = session(
        Reading(key="across-back", values=(360.0,), estimated=True),
        Reading(key="across-front", values=(330.0,), estimated=True),
        on=date(2025, 1, 9),
    )
    body = newest_body([measured, guessed])
    assert body.value("across-back") == 344
    assert not body.is_estimated("across-back")
    assert body.is_estimated("across-front")


readings = st.builds(
    lambda entry, side, values, confirmed, estimated: Reading(
        key=entry.key,
        side=side if entry.sided else "both",
        values=tuple(values),
        confirmed=confirmed,
        estimated=estimated,
    ),
    st.sampled_from(VOCABULARY),
    st.sampled_from(["both", "right", "left"]),
    st.lists(st.floats(1, 2500), min_size=1, max_size=4),
    st.booleans(),
    st.booleans(),
)


@given(st.lists(readings, max_size=6, unique_by=lambda one: (one.key, one.side)), st.booleans())
def test_a_session_is_the_same_after_storing(found: list[Reading], passing: bool) -> None:
    measured = session(
        *found,
        heel_mm=35.0,
        wearing="bra, slip",
        kind="passing" if passing else "usual",
        reason="pregnancy" if passing else "",
        reason_on=date(2025, 9, 1) if passing else None,
        note="cold room",
    )
    assert MeasuringSession.from_record(measured.to_record()) == measured


def test_a_session_of_a_newer_program_is_not_guessed_at() -> None:
    with pytest.raises(BodyRecordUnreadable, match="format 2"):
        MeasuringSession.from_record({**session().to_record(), "format": 2})
