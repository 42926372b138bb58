"""Bodies that cannot be drafted: the sentence names what is missing or in conflict, truly."""

import random
from dataclasses import replace

import pytest
from published.bodies import ContradictoryBody, chart_bodies, contradictory_bodies

from tracker.body.body import Body
from tracker.body.ease import DEFAULT_BODICE_EASE
from tracker.body.estimate import estimate
from tracker.body.vocabulary import BY_KEY
from tracker.drafting.bodice import (
    BodyCannotBeMet,
    MeasurementsMissing,
    draft_bodice,
    missing_from,
)
from tracker.drafting.bodice_solve import solve
from tracker.drafting.bodice_wants import NEEDED, BodiceChoices, wants_of
from tracker.drafting.conflict import refusal


def misses_12() -> Body:
    body = next(one.body for one in chart_bodies() if one.name == "misses 12 straight")
    return Body(tuple(replace(value, estimated=False) for value in body))


@pytest.mark.parametrize("one", contradictory_bodies(), ids=lambda one: one.name)
def test_a_contradictory_body_is_refused_naming_the_right_pair(one: ContradictoryBody) -> None:
    with pytest.raises(BodyCannotBeMet) as refused:
        draft_bodice(one.body)
    assert set(one.keys) <= set(refused.value.keys)
    assert any(BY_KEY[key].name in refused.value.sentence for key in one.keys)
    assert "again" in refused.value.sentence


def test_a_long_list_of_contradictions_names_first_what_is_in_most_of_them() -> None:
    one = next(c for c in contradictory_bodies() if c.name == "front length 10 cm short")
    with pytest.raises(BodyCannotBeMet) as refused:
        draft_bodice(one.body)
    assert "measure neck point over bust to waist again first" in refused.value.sentence
    assert refused.value.sentence.count(";") <= 4


STRAINED = {
    "square shoulders, long, on a narrow chest": {
        "shoulder-slope": -10,
        "shoulder-length": 18,
        "across-front": -35,
        "across-back": -30,
    },
    "no rise between the back neck and the neck points": {"neck-point-to-waist-back": -26},
    "a back neck too deep": {"neck-point-to-waist-back": 34},
}


@pytest.mark.parametrize("amounts", STRAINED.values(), ids=STRAINED.keys())
def test_a_refusal_is_true_and_what_it_says_would_do_does(amounts: dict[str, float]) -> None:
    body = misses_12()
    draft_bodice(body)
    for key, amount in amounts.items():
        body = body.with_value(key, body.value(key) + amount)
    with pytest.raises(BodyCannotBeMet) as refused:
        draft_bodice(body)
    assert set(amounts) & set(refused.value.keys), refused.value.sentence
    assert refused.value.would_do, refused.value.sentence
    for key, value in refused.value.would_do:
        assert BY_KEY[key].name in refused.value.sentence
        draft_bodice(body.with_value(key, value))


def test_missing_measurements_are_named_and_how_to_come_by_them() -> None:
    body = misses_12().without("armhole-depth", "across-back")
    assert missing_from(body) == ("armhole-depth", "across-back")
    with pytest.raises(MeasurementsMissing, match="armhole depth, across back") as refused:
        draft_bodice(body)
    assert "estimated" in refused.value.sentence
    draft_bodice(estimate(body))


def test_a_slope_is_not_missed_where_both_slants_were_measured() -> None:
    keys = ("shoulder-point-to-centre-waist-back", "shoulder-point-to-centre-waist-front")
    body = estimate(misses_12(), keys).without("shoulder-slope")
    assert missing_from(body) == ()
    assert missing_from(body.without(keys[0])) == ("shoulder-slope",)
    draft_bodice(body)


@pytest.mark.parametrize("seed", range(6))
def test_any_numbers_at_all_give_a_block_or_a_sentence(seed: int) -> None:
    """Figures from anywhere in their plausible ranges, without regard to each other."""
    dice = random.Random(seed)
    values = {
        key: dice.uniform(BY_KEY[key].low, BY_KEY[key].high) for key in (*NEEDED, "shoulder-slope")
    }
    body = Body.of(values)
    wants = wants_of(body, DEFAULT_BODICE_EASE, BodiceChoices())
    tried = solve(wants)
    if not tried.is_met:
        refused = refusal(body, BodiceChoices(), tried)
        assert len(refused.keys) >= 2
        assert all(BY_KEY[key].name in refused.sentence for key in refused.keys)
        assert "again" in refused.sentence
