import math

import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done, measures
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.errors import TrackerError
from tracker.geometry.point import dot, left_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around

BLOCK = bodice()
SQUARE = ShoulderSlope(to=Slope.SQUARE, by_mm=10.0)
SLOPING = ShoulderSlope(to=Slope.SLOPING, by_mm=12.0)


@pytest.mark.parametrize("step", [SQUARE, SLOPING])
def test_neck_point_shoulder_and_armhole_stay_and_the_shoulder_point_goes(
    step: ShoulderSlope,
) -> None:
    """Square and sloping shoulders: the neck end stays, the armhole is raised or lowered to keep
    its size, the shoulder is as long (USDA fitting booklet; New Dressmaker, 1921)."""
    up = 10.0 if step is SQUARE else -12.0
    new = done(step, BLOCK).pattern
    for name in ("front", "back"):
        old, now = BLOCK.piece(name), new.piece(name)
        assert now.corner("neck point") == old.corner("neck point")
        for edge in ("shoulder", "armhole"):
            assert now.edge(edge).length == pytest.approx(old.edge(edge).length, abs=0.05)
        line = old.edge("shoulder")
        square = left_of(line.heading_at(line.length / 2))
        risen = dot(old.corner("shoulder point") - now.corner("shoulder point"), square)
        assert risen == pytest.approx(up, abs=0.05)
        assert now.edge("side").length - old.edge("side").length == pytest.approx(up, abs=0.05)


def test_the_shoulder_turns_by_the_angle_plain_trigonometry_gives() -> None:
    new = done(SQUARE, BLOCK).pattern.piece("front").edge("shoulder")
    old = BLOCK.piece("front").edge("shoulder")
    turned = math.asin(abs((new.heading_at(60) / old.heading_at(60)).imag))
    assert turned == pytest.approx(math.asin(10.0 / old.length), abs=2e-5)
    # The line stays straight.
    drawn = new.drawn[0]
    chord = (drawn.end - drawn.start) / abs(drawn.end - drawn.start)
    assert abs(((drawn.point_at(drawn.length / 2) - drawn.start) / chord).imag) < 1e-3


def test_the_underarm_is_left_where_it_is_when_told() -> None:
    step = ShoulderSlope(to=Slope.SQUARE, by_mm=10.0, underarm=False)
    applied = done(step, BLOCK)
    for name in ("front", "back"):
        assert (
            applied.pattern.piece(name).edge("side").parts == BLOCK.piece(name).edge("side").parts
        )
    assert around(applied.pattern, "armhole") > around(BLOCK, "armhole") + 15
    assert any("armhole" in told and "longer" in told for told in applied.effect.leaves)


def test_the_sentence_and_the_side_seams_change_are_told() -> None:
    assert SQUARE.sentence(BLOCK) == (
        "Right and left shoulders 10 mm squarer at the shoulder point, to nothing at the neck "
        "point: 10 mm on to the front and 10 mm on to the back; the underarm raised 10 mm on both"
    )
    assert "side of the front 10 mm longer" in done(SQUARE, BLOCK).effect.notes


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_low_shoulder(side: BodySide) -> None:
    new = done(ShoulderSlope(to=Slope.SLOPING, by_mm=8.0, side=side), BLOCK).pattern
    front = new.piece("front")
    assert front.edge("side", side).length == pytest.approx(197.0, abs=0.05)
    assert front.edge("side", side.opposite).length == pytest.approx(205.0, abs=1e-5)


@pytest.mark.parametrize("number", [0, 1, 2])
def test_a_drafted_block_with_a_shoulder_dart_or_without_passes_its_checks(number: int) -> None:
    for step in (SQUARE, SLOPING):
        assert check(done(step, drafted(number)).pattern).findings == ()


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (ShoulderSlope(to=Slope.SQUARE, by_mm=90.0), "half of that is the most"),
        (ShoulderSlope(to=Slope.SQUARE, by_mm=9.0, seam="side"), "a shoulder runs from the neck"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: ShoulderSlope, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_an_amount_of_nothing_and_an_unknown_way_are_refused() -> None:
    with pytest.raises(TrackerError):
        ShoulderSlope(to=Slope.SQUARE, by_mm=0.0)
    with pytest.raises(TrackerError, match="to:"):
        ShoulderSlope.from_parameters({"to": "round", "by_mm": 3.0})


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(SQUARE, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Right and left shoulders 10 mm")


@settings(max_examples=A_THIRD)
@given(
    by=st.floats(-15, 15).filter(lambda a: abs(a) > 0.5),
    number=st.sampled_from([0, 1, 2, 3]),
    underarm=st.booleans(),
)
def test_lengths_stay_and_the_way_back_leads_back(by: float, number: int, underarm: bool) -> None:
    block = BLOCK if number == 0 else drafted(number - 1)
    step = ShoulderSlope(to=Slope.SQUARE, by_mm=by, underarm=underarm)
    applied = done(step, block)
    new = applied.pattern
    for name in ("front", "back"):
        old, now = block.piece(name), new.piece(name)
        assert now.edge("shoulder").length == pytest.approx(old.edge("shoulder").length, abs=0.05)
    assert measures(new)["bust line"] == pytest.approx(measures(block)["bust line"], abs=0.05)
    if underarm:
        assert measures(new)["armhole"] == pytest.approx(measures(block)["armhole"], abs=0.05)
    for join in applied.effect.joins:
        assert abs(join.by) < 1.0
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 0.03)
