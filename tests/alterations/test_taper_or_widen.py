import itertools
from dataclasses import replace
from functools import cache

import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import block
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations import examples
from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.taper_or_widen import Round, SeamFrom, Taper, TaperOrWiden
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check, folded_kink_deg
from tracker.pattern.measure import around, corner_angle, girth
from tracker.pattern.pattern import Pattern
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


@cache
def drafted_sleeve(dart: bool) -> Pattern:
    """A sleeve with a curved wrist; with an elbow dart its back seam is drawn in two parts."""
    arm = AddSleeve.to_fit(examples.arm())
    return apply_step(
        replace(arm, elbow_dart_mm=15.0 if dart else 0.0), examples.bodice(), "sleeve"
    ).pattern


def wrist(by: float, from_mm: float, side: BodySide = BodySide.BOTH) -> TaperOrWiden:
    start = SeamFrom(seam="underarm", corner="front underarm point", distance_mm=from_mm)
    return TaperOrWiden(
        to=Taper.WIDEN, by_mm=by, edge="wrist", round=Round.EACH, seams=(start,), side=side
    )


def through_the_seam(pattern: Pattern) -> float:
    """What the wrist's two corners add up to when the underarm is sewn."""
    piece = pattern.piece("sleeve", BodySide.RIGHT)
    wrist_edge = piece.edge("wrist")
    return corner_angle(piece, wrist_edge, True) + corner_angle(piece, wrist_edge, False)


@pytest.mark.parametrize("dart", [False, True], ids=["straight", "elbow dart"])
@pytest.mark.parametrize("side", [BodySide.BOTH, BodySide.RIGHT])
@pytest.mark.parametrize(
    ("by", "from_mm"),
    [
        (-30.0, 0.0),  # over the whole seam, through the dart
        (40.0, 100.0),  # begins above the dart
        (-20.0, 250.0),  # begins below it
        (25.0, 206.0),  # begins about where it opens
        (150.0, 30.0),  # a bell
    ],
)
def test_a_drafted_sleeve_is_tapered_or_widened_smoothly(
    dart: bool, side: BodySide, by: float, from_mm: float
) -> None:
    block = drafted_sleeve(dart)
    new = done(wrist(by, from_mm, side), block).pattern
    piece = new.piece("sleeve", BodySide.RIGHT)
    old = block.piece("sleeve")
    assert piece.edge("wrist").length - old.edge("wrist").length == pytest.approx(by, abs=0.01)
    first, second = side_lengths(new, new.seam("underarm", BodySide.RIGHT))
    assert first == pytest.approx(second, abs=0.1)
    assert through_the_seam(new) == pytest.approx(through_the_seam(block), abs=0.05)
    line = piece.edge("wrist")
    headings = [line.heading_at(line.length * k / 300) for k in range(301)]
    assert max(abs((b / a).imag) for a, b in itertools.pairwise(headings)) < 0.03
    wrong = {f.place for f in check(new).findings} - {f.place for f in check(block).findings}
    assert wrong == set()
    if dart:
        one, two = piece.dart("elbow dart").leg_lengths
        assert one == pytest.approx(two, abs=0.01)
    assert piece.edge("cap").length == pytest.approx(old.edge("cap").length, abs=1e-5)


def test_a_seam_of_several_edges_is_moved_along_all_of_them() -> None:
    """A side seam of panelled pieces and a hem of several: each run shares the amount."""
    block = examples.panelled()
    start = SeamFrom(seam="back princess", corner="back princess armhole", distance_mm=160.0)
    sides = SeamFrom(seam="side", corner="underarm point", distance_mm=60.0)
    step = TaperOrWiden(to=Taper.TAPER, by_mm=32.0, edge="waist", seams=(start, sides))
    new = done(step, block).pattern
    assert girth(new, "waist line") == pytest.approx(girth(block, "waist line") - 32.0, abs=0.05)
    for name in ("side", "back princess"):
        before = side_lengths(block, block.seam(name))
        after = side_lengths(new, new.seam(name))
        assert after[1] - after[0] == pytest.approx(before[1] - before[0], abs=0.3)
    assert {f.place for f in check(new).findings} <= {f.place for f in check(block).findings}


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


@pytest.mark.parametrize("number", range(4))
@pytest.mark.parametrize("by", [8.0, 20.0])
def test_a_dart_beside_the_seam_is_still_smooth_when_it_is_folded(by: float, number: int) -> None:
    # A mouth put a hair along its legs is no line of its own: so short, it would point anywhere.
    before = block("joined bodice", number)
    top = SeamFrom(seam="front princess", corner="front princess shoulder", distance_mm=40.0)
    step = TaperOrWiden(to=Taper.WIDEN, by_mm=by, edge="waist", round=Round.EACH, seams=(top,))
    new = done(step, before).pattern.piece("side panel")
    assert abs(folded_kink_deg(new, "side dart")) < 0.1
    for part in new.edge("waist").parts:
        assert min(abs(s[-1] - s[0]) for s in part.segments) > 0.01
