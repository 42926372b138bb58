import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from trousered import BLOCKS, NAMES, POINT, bends, corners, drafted, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.move_the_inside_leg_point import MoveInsideLegPoint
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = drafted()
POINTS = [(8.0, 15.0, 0.0), (-8.0, 8.0, 0.0), (0.0, 0.0, 10.0), (0.0, -10.0, -6.0), (12.0, 0.0, 5)]


def assert_moved(new: Pattern, old: Pattern, step: MoveInsideLegPoint) -> None:
    for name, out in (("front", step.front_mm), ("back", step.back_mm)):
        was, now = old.piece(name), new.piece(name, step.side)
        assert abs(abs(now.corner(POINT).real) - abs(was.corner(POINT).real)) == pytest.approx(
            abs(out), abs=0.02
        )
        lower = was.edge("inside leg").length - now.edge("inside leg").length
        assert lower == pytest.approx(step.lower_mm, abs=0.02)


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize(("front", "back", "lower"), POINTS)
def test_the_points_go_as_told_and_inside_legs_stay_equal(
    block: Pattern, front: float, back: float, lower: float
) -> None:
    step = MoveInsideLegPoint(front_mm=front, back_mm=back, lower_mm=lower)
    new = done(step, block).pattern
    assert_moved(new, block, step)
    one, other = side_lengths(new, new.seam("inside leg"))
    a, b = side_lengths(block, block.seam("inside leg"))
    assert one - other == pytest.approx(a - b, abs=0.01)
    assert corners(new) == pytest.approx(corners(block), abs=0.01)
    for line in ("waist line", "hip line", "knee line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.2)


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
def test_the_curves_stay_hollow_and_without_a_kink(block: Pattern) -> None:
    new = done(MoveInsideLegPoint(front_mm=10, back_mm=15, lower_mm=6), block).pattern
    for piece in new.pieces:
        for name in ("crotch", "inside leg"):
            assert max(map(abs, bends(piece, name))) < 3.0, (piece.name, name)


def test_what_one_piece_loses_the_other_gains_and_the_thigh_stays() -> None:
    new = done(MoveInsideLegPoint(front_mm=-8, back_mm=8), BLOCK).pattern
    assert girth(new, "crotch line") == pytest.approx(girth(BLOCK, "crotch line"), abs=1.0)
    assert check(new).clean


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
def test_there_and_back(block: Pattern) -> None:
    step = MoveInsideLegPoint(front_mm=8, back_mm=-6)
    there = apply_step(step, block, "one").pattern
    assert_same(apply_step(step.scaled(-1.0), there, "two").pattern, block, 0.3)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only(side: BodySide) -> None:
    new = done(MoveInsideLegPoint(back_mm=10, side=side), BLOCK).pattern
    was = BLOCK.piece("back")
    other = new.piece("back", side.opposite)
    assert other.edge("crotch").length == pytest.approx(was.edge("crotch").length, abs=1e-5)
    assert new.piece("back", side).edge("crotch").length > was.edge("crotch").length + 5


def test_the_sentence_states_both_ends() -> None:
    assert MoveInsideLegPoint(front_mm=8, back_mm=-5, nothing_mm=200).sentence(BLOCK) == (
        "Inside-leg point 8 mm out in front and 5 mm in behind; inside legs keep their length, "
        "back on their old lines 200 mm below it"
    )
    assert "10 mm lower; inside legs stay equal" in MoveInsideLegPoint(lower_mm=10).sentence(BLOCK)


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(MoveInsideLegPoint(front_mm=5), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Inside-leg point 5 mm out in front")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({}, "by how much"),
        ({"front_mm": 5, "nothing_mm": 10}, "give 60 mm at least"),
        ({"front_mm": 5, "nothing_mm": -10}, "not negative"),
        ({"front_mm": -600}, "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(values: dict[str, object], told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(MoveInsideLegPoint.from_parameters(values), BLOCK, "one")


@settings(max_examples=A_THIRD)
@given(
    which=st.sampled_from(range(3)),
    front=st.floats(-25, 30),
    back=st.floats(-30, 40),
    lower=st.floats(-12, 15),
    side=st.sampled_from([BodySide.BOTH, BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amount_is_met_or_refused_in_a_sentence(
    which: int, front: float, back: float, lower: float, side: BodySide
) -> None:
    if not (front or back or lower):
        return
    step = MoveInsideLegPoint(front_mm=front, back_mm=back, lower_mm=lower, side=side)
    try:
        new = done(step, BLOCKS[which]).pattern
    except TrackerError:
        return
    assert_moved(new, BLOCKS[which], step)
