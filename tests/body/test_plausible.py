"""Unusual values are questioned; values that contradict each other are named together."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.body.body import Body, BodyValue
from tracker.body.estimate import BODICE_NEEDS, estimate
from tracker.body.plausible import contradictions, measure_again, questions
from tracker.body.sums import TRUNK_SUMS
from tracker.body.sums_limbs import LIMB_SUMS
from tracker.body.vocabulary import BY_KEY, VOCABULARY, measurement

EVERY_KEY = tuple(entry.key for entry in VOCABULARY)
WHOLE = estimate(
    Body.of({"bust-girth": 920, "waist-girth": 740, "hip-girth": 980, "height": 1650}), EVERY_KEY
)
ROWS = (*TRUNK_SUMS, *LIMB_SUMS)


def named_in(body: Body, key: str) -> bool:
    name = measurement(key).name
    found = contradictions(body)
    asked = questions(body)
    return any(name in one.place.split("; ") for one in (*found, *asked))


@given(
    st.floats(700, 1550),
    st.floats(0.7, 1.05),
    st.floats(0.92, 1.2),
    st.floats(1450, 1880),
)
def test_a_body_of_estimates_contradicts_nothing(
    bust: float, waist: float, hip: float, height: float
) -> None:
    body = estimate(
        Body.of(
            {
                "bust-girth": bust,
                "waist-girth": bust * waist,
                "hip-girth": bust * hip,
                "height": height,
            }
        ),
        EVERY_KEY,
    )
    assert [finding.sentence for finding in contradictions(body)] == []


@given(st.lists(st.floats(-1, 1), min_size=len(WHOLE), max_size=len(WHOLE)))
def test_what_a_careful_tape_may_be_out_by_is_no_contradiction(errors: list[float]) -> None:
    # Each reading out by up to its technical error, all at once.
    body = Body(
        tuple(
            BodyValue(one.key, one.side, one.value + error * BY_KEY[one.key].technical_error)
            for one, error in zip(WHOLE, errors, strict=True)
        )
    )
    assert [finding.sentence for finding in contradictions(body)] == []


@pytest.mark.parametrize("key", [k for k in BODICE_NEEDS if k not in ("hip-girth",)])
@pytest.mark.parametrize("way", [1, -1])
def test_a_gross_misreading_of_what_decides_a_bodice_is_pointed_at(key: str, way: int) -> None:
    amount = 16.0 if BY_KEY[key].unit == "deg" else max(100.0, 0.16 * WHOLE.value(key))
    assert named_in(WHOLE.with_value(key, WHOLE.value(key) + way * amount), key)


@pytest.mark.parametrize("key", [k for k in EVERY_KEY if BY_KEY[k].unit == "mm"])
def test_inches_taken_for_centimetres_do_not_pass(key: str) -> None:
    # A reading of 36 (inches) kept as 36 cm.
    assert named_in(WHOLE.with_value(key, WHOLE.value(key) / 2.54), key)


@pytest.mark.parametrize("entry", VOCABULARY, ids=lambda entry: entry.key)
def test_a_question_gives_the_range_and_how_to_measure(entry: object) -> None:
    key, low, high = entry.key, entry.low, entry.high
    for value, limit in ((low - 1, low), (high + 1, high)):
        (asked,) = questions(Body.of({key: value}))
        assert asked.figure == value
        assert asked.tolerance == limit
        assert entry.path in asked.remedy
    assert questions(Body.of({key: low})) == ()
    assert questions(Body.of({key: high})) == ()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.code)
def test_every_row_knows_its_measurements_and_names_at_least_two(row: object) -> None:
    keys = row.keys
    assert all(key in BY_KEY for key in keys)
    shown = row.says.format_map({key: f"<{key}>" for key in keys})
    assert sum(f"<{key}>" in shown for key in keys) >= 2
    assert row.again


def test_row_codes_are_each_used_once() -> None:
    assert len({row.code for row in ROWS}) == len(ROWS)


def test_a_contradiction_names_the_figures_in_both_units_and_what_to_measure_again() -> None:
    body = Body.of({"bust-girth": 900, "bust-arc-front": 420, "bust-arc-back": 420})
    (found,) = contradictions(body)
    assert found.sentence == (
        "bust arc, front 420 mm (16 9/16 in) and bust arc, back 420 mm (16 9/16 in) do not add "
        "up to bust girth 900 mm (35 7/16 in)"
    )
    assert found.figure == -60
    assert found.remedy.startswith("measure again: both arcs")


def test_only_the_side_that_contradicts_is_named() -> None:
    body = WHOLE.with_value("side-length", WHOLE.value("side-length") - 60, "left")
    names = {name for one in contradictions(body) for name in one.place.split("; ")}
    assert "left side length" in names
    assert "right side length" not in names


@pytest.mark.parametrize(
    ("reach_back", "contradicts"), [(-60, True), (-12, False), (12, False), (45, True)]
)
def test_a_shoulder_that_no_slope_allows_is_found_without_a_slope(
    reach_back: float, contradicts: bool
) -> None:
    key = "shoulder-point-to-centre-waist-back"
    body = WHOLE.without("shoulder-slope").with_value(key, WHOLE.value(key) + reach_back)
    codes = [finding.code for finding in contradictions(body)]
    assert ("shoulder-triangle-back" in codes) is contradicts


def test_the_value_in_most_contradictions_is_measured_again_first() -> None:
    body = WHOLE.with_value("back-neck-to-waist", WHOLE.value("back-neck-to-waist") + 90)
    assert measure_again(contradictions(body))[0] == "back neck point to waist"
    assert measure_again(()) == ()


def test_a_body_of_one_value_contradicts_nothing() -> None:
    assert contradictions(Body.of({"bust-girth": 900})) == ()
