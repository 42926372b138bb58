import itertools

import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.taper_or_widen import Round, SeamFrom, Taper, TaperOrWiden
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import around, girth
from tracker.pattern.walk import side_lengths

BLOCK = bodice()
SLEEVED = sleeved()


def waist(by: float, to: Taper = Taper.TAPER, side: BodySide = BodySide.BOTH) -> TaperOrWiden:
    start = SeamFrom(seam="side", corner="underarm point", distance_mm=40.0)
    return TaperOrWiden(to=to, by_mm=by, edge="waist", seams=(start,), side=side)


def sleeve(by: float, to: Taper = Taper.WIDEN, side: BodySide = BodySide.BOTH) -> TaperOrWiden:
    start = SeamFrom(seam="sleeve", corner="front underarm point", distance_mm=100.0)
    return TaperOrWiden(to=to, by_mm=by, round=Round.EACH, seams=(start,), side=side)


def test_the_amount_at_the_lower_edge_is_shared_by_both_sides_of_the_seams() -> None:
    """Two side seams are four edges: a quarter each (Central Washington Univ., ch. 17)."""
    new = done(waist(40.0), BLOCK).pattern
    assert girth(new, "waist line") == pytest.approx(girth(BLOCK, "waist line") - 40, abs=0.05)
    for name in ("front", "back"):
        lost = BLOCK.piece(name).edge("waist").length - new.piece(name).edge("waist").length
        assert lost == pytest.approx(10.0, abs=0.1)


def test_each_sleeve_is_widened_by_the_amount() -> None:
    new = done(sleeve(30.0), SLEEVED).pattern
    assert around(new, "hem") == pytest.approx(around(SLEEVED, "hem") + 60.0, abs=0.05)
    first, second = side_lengths(new, new.seam("sleeve"))
    assert first == pytest.approx(second, abs=0.05)


def test_above_the_place_nothing_moves_and_there_is_no_kink_below() -> None:
    old, new = BLOCK.piece("back"), done(waist(40.0), BLOCK).pattern.piece("back")
    line, now = old.edge("side"), new.edge("side")
    for k in range(0, 40, 5):
        assert now.nearest(line.point_at(line.length - k))[1] < 1e-5
    headings = [now.heading_at(now.length * k / 400) for k in range(401)]
    bends = [abs((b / a).imag) for a, b in itertools.pairwise(headings)]
    assert max(bends) < 0.0175
    assert new.edge("armhole").parts == old.edge("armhole").parts


def test_the_lower_edge_still_meets_smoothly_across_the_seam() -> None:
    for join in done(waist(40.0), BLOCK).effect.joins:
        assert abs(join.by) < 1.0


def test_the_sentence_states_the_whole_and_the_share() -> None:
    assert waist(40.0).sentence(BLOCK) == (
        "Waist 40 mm narrower round the whole garment, from 40 mm from the underarm point of the "
        "side seam: 10 mm from each side of each seam"
    )
    assert sleeve(30.0).sentence(SLEEVED).endswith("15 mm to each side of each seam")


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only(side: BodySide) -> None:
    new = done(sleeve(20.0, side=side), SLEEVED).pattern
    assert new.piece("sleeve", side).edge("hem").length == pytest.approx(240.0, abs=0.05)
    assert new.piece("sleeve", side.opposite).edge("hem").length == pytest.approx(220.0, abs=1e-5)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (TaperOrWiden(to=Taper.TAPER, by_mm=9.0, edge="waist",
                      seams=(SeamFrom(seam="side", corner="side waist"),)),
         "begin 20 mm from it at least"),
        (TaperOrWiden(to=Taper.TAPER, by_mm=9.0, edge="hem",
                      seams=(SeamFrom(seam="side", corner="underarm point"),)),
         "does not end on an edge called 'hem'"),
        (waist(2000.0), "mm is the most that can be drawn here"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: TaperOrWiden, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = waist(2000.0)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert most > 20
    apply_step(step.scaled(most / 2000.0), BLOCK, "one")


def test_figures_that_cannot_be_are_refused() -> None:
    with pytest.raises(TrackerError):
        waist(0.0)
    with pytest.raises(TrackerError, match="Name one at least"):
        TaperOrWiden(to=Taper.TAPER, by_mm=5.0, seams=())


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(waist(40.0), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Waist 40 mm narrower")


@settings(max_examples=A_THIRD)
@given(by=st.floats(-60, 60).filter(lambda a: abs(a) > 0.5), which=st.booleans())
def test_any_amount_is_met_and_the_way_back_leads_back(by: float, which: bool) -> None:
    step, block = (waist(by), BLOCK) if which else (sleeve(by), SLEEVED)
    new = done(step, block).pattern
    edge, times = ("waist", -1.0) if which else ("hem", 2.0)
    assert around(new, edge) == pytest.approx(around(block, edge) + times * by, abs=0.05)
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 0.02)
