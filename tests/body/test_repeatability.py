"""Is the change real?"""

from datetime import date

import pytest

from tracker.body.measurement import TWO_SESSIONS
from tracker.body.repeatability import compare, least_real_change
from tracker.body.session import MeasuringSession, Reading

SIGNIFICANT = 1.96 * 2**0.5


def girths(year: int, bust: float, waist: float, hip: float, **more: object) -> MeasuringSession:
    return MeasuringSession(
        on=date(year, 5, 2),
        by="Ida",
        wearing="bra, slip",
        readings=(
            Reading(key="bust-girth", values=(bust,)),
            Reading(key="waist-girth", values=(waist,)),
            Reading(key="hip-girth", values=(hip,)),
        ),
        **more,
    )


def test_the_multiplier_is_one_point_nine_six_times_root_two() -> None:
    assert pytest.approx(SIGNIFICANT, abs=0.005) == TWO_SESSIONS


@pytest.mark.parametrize(
    ("key", "mm"),
    [
        # ANSUR II measurer's handbook, allowable observer error, mm.
        ("bust-girth", 14),
        ("waist-girth", 12),
        ("hip-girth", 12),
        ("neck-base-girth", 8),
        ("back-neck-to-waist", 5),
        ("shoulder-length", 3),
        ("wrist-girth", 3),
        ("thigh-girth", 6),
    ],
)
def test_two_single_readings_tell_a_change_above_the_allowed_observer_error(
    key: str, mm: float
) -> None:
    assert least_real_change(key) == pytest.approx(mm)


def test_repeats_tell_smaller_changes() -> None:
    assert least_real_change("bust-girth", 4, 4) == pytest.approx(7)
    assert least_real_change("bust-girth", 1, 4) == pytest.approx(14 * (0.625**0.5))


def test_a_small_change_says_measure_twice_more_and_names_the_multiplier() -> None:
    (bust, waist, hip) = compare(girths(2024, 900, 700, 960), girths(2025, 908, 700, 955)).changes
    assert not bust.is_real
    assert "measure twice more" in bust.sentence
    assert "2.77 × the technical error of 5.1 mm" in bust.sentence
    assert "8 mm (5/16 in) larger" in bust.sentence
    assert waist.sentence.startswith("waist girth is as it was")
    assert "smaller" in hip.sentence


def test_a_large_change_is_real_and_asks_for_a_redraft() -> None:
    found = compare(girths(2024, 900, 700, 960), girths(2025, 930, 705, 962))
    assert [change.key for change in found.real] == ["bust-girth"]
    assert "real change" in found.real[0].sentence
    assert found.asks_for_redraft()
    assert found.sentence == "real changes: bust girth"


@pytest.mark.parametrize(
    ("bust", "waist", "hip", "together"),
    [
        (911, 710, 970, True),  # each within its limit, all the same way
        (889, 690, 950, True),  # and the other way
        (911, 690, 970, False),  # not the same way
        (904, 703, 963, False),  # too little even together
        (911, 700, 970, False),  # one has not moved
    ],
)
def test_small_changes_the_same_way_are_judged_together(
    bust: float, waist: float, hip: float, together: bool
) -> None:
    found = compare(girths(2024, 900, 700, 960), girths(2025, bust, waist, hip))
    assert found.real == ()
    assert found.together is together
    assert found.asks_for_redraft() is together
    assert ("together" in found.sentence) is together


def test_a_passing_session_never_redrafts_unless_told() -> None:
    later = girths(2025, 960, 980, 1000, kind="passing", reason="pregnancy")
    found = compare(girths(2024, 900, 700, 960), later)
    assert found.is_real
    assert not found.asks_for_redraft()
    assert found.asks_for_redraft(told=True)
    assert "unless you say so" in found.sentence


def test_what_differed_in_measuring_is_said() -> None:
    first = MeasuringSession(on=date(2024, 1, 1), by="Ida", wearing="bra", heel_mm=0)
    later = MeasuringSession(on=date(2025, 1, 1), by="Noor", wearing="shirt", heel_mm=50)
    found = compare(first, later)
    assert len(found.conditions) == 3
    assert found.sentence == "the two sessions have no measurement in common"


def test_estimates_are_not_compared() -> None:
    first = MeasuringSession(
        on=date(2024, 1, 1), by="Ida", readings=(Reading(key="bust-girth", values=(900.0,)),)
    )
    guessed = MeasuringSession(
        on=date(2025, 1, 1),
        by="Ida",
        readings=(Reading(key="bust-girth", values=(990.0,), estimated=True),),
    )
    assert compare(first, guessed).changes == ()
