"""Trousers drafted to a hem of the maker's choice: met, square, smooth at the knee."""

import itertools
import json
import math

import pytest
from published.bodies import bdims_bodies, chart_bodies

from tracker.body.estimate import estimate
from tracker.drafting.trousers import (
    TO_ESTIMATE,
    NotTrousers,
    TrouserChoices,
    TrouserDraft,
    draft_trousers,
    trousers_from_record,
)
from tracker.geometry.point import turn_between
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import corner_angle, girth

TEXTBOOK = next(
    estimate(one.body, TO_ESTIMATE) for one in chart_bodies() if one.name == "textbook size 12"
)


def to_hem(hem: float) -> TrouserDraft:
    return draft_trousers(TEXTBOOK, choices=TrouserChoices(hem_mm=hem))


@pytest.mark.parametrize("hem", [260.0, 360.0, 448.58, 520.0, 700.0])
def test_the_hem_is_met_and_everything_else_too(hem: float) -> None:
    draft = to_hem(hem)
    row = next(row for row in draft.wanted if row.name == "hem")
    assert row.wanted == hem
    assert draft.worst_miss < 0.001
    assert girth(draft.pattern, "hem") / 2 == pytest.approx(hem, abs=0.001)
    assert girth(draft.pattern, "knee line") / 2 == pytest.approx(448.58, abs=0.001)
    assert check(draft.pattern).clean


@pytest.mark.parametrize("hem", [300.0, 600.0])
def test_the_hem_is_square_to_the_leg_and_the_knee_has_no_kink(hem: float) -> None:
    for piece in to_hem(hem).pattern.pieces:
        for at_end in (False, True):
            assert corner_angle(piece, piece.edge("hem"), at_end) == pytest.approx(90, abs=0.01)
        for name in ("inside leg", "side"):
            line = piece.edge(name).drawn[0]
            ways = [line.heading_at(line.length * k / 300) for k in range(301)]
            turns = [math.degrees(turn_between(a, b)) for a, b in itertools.pairwise(ways)]
            assert max(map(abs, turns)) < 1.5, (piece.name, name)


def test_the_crease_is_in_the_middle_and_the_back_1_to_2_cm_wider() -> None:
    # Published (lesson notes on trouser blocks): the back leg 1 to 2 cm wider at knee and hem.
    draft = to_hem(380.0)
    widths = []
    for piece in draft.pattern.pieces:
        ends = piece.corner("inside hem").real, piece.corner("side hem").real
        assert piece.grain is not None
        assert piece.grain[0].real == pytest.approx(sum(ends) / 2, abs=1e-5)
        widths.append(piece.edge("hem").length)
    assert 10.0 <= widths[1] - widths[0] <= 20.001


def test_a_recipe_without_a_hem_is_as_it_was_and_with_one_drafts_it_again() -> None:
    assert "hem_mm" not in to_hem(0.0).to_record()["choices"]
    draft = to_hem(360.0)
    record = json.loads(json.dumps(draft.to_record()))
    assert pattern_digest(trousers_from_record(record).pattern) == pattern_digest(draft.pattern)
    assert "knee 448.6 mm and hem 360 mm" in draft.sentence()
    assert "knee and hem 448.6 mm" in to_hem(0.0).sentence()


@pytest.mark.parametrize(("hem", "told"), [(100.0, "no foot goes through"), (1500.0, "47 1/4 in")])
def test_a_hem_no_leg_can_have_is_refused_with_what_would_do(hem: float, told: str) -> None:
    with pytest.raises(NotTrousers, match=told):
        to_hem(hem)


def test_a_measured_ankle_says_how_narrow_it_may_be() -> None:
    # Trouser block, ankle: 1 in of ease (NIMI CITS Dress Making, practical volume, p. 180).
    body = TEXTBOOK.with_value("ankle-girth", 240.0)
    with pytest.raises(NotTrousers, match="her ankle and an inch"):
        draft_trousers(body, choices=TrouserChoices(hem_mm=250.0))
    assert draft_trousers(body, choices=TrouserChoices(hem_mm=266.0)).worst_miss < 0.001


def test_irregular_women_get_a_narrow_hem_and_a_wide_one() -> None:
    """bdims (Heinz, Peterson, Johnson and Kerk, 2003)."""
    for one in bdims_bodies()[::40]:
        for hem in (320.0, 640.0):
            draft = draft_trousers(
                estimate(one.body, TO_ESTIMATE), choices=TrouserChoices(hem_mm=hem)
            )
            assert draft.worst_miss < 0.001
            assert check(draft.pattern).clean
