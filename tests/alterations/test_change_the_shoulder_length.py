import pytest
from altering import NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import around, corner_angle

BLOCK = bodice()
SHORTER = ShoulderLength(to=Length.SHORTER, by_mm=6.0)


def test_both_shoulders_are_shorter_and_the_neck_and_underarm_stay() -> None:
    new = done(SHORTER, BLOCK).pattern
    for name in ("front", "back"):
        old, now = BLOCK.piece(name), new.piece(name)
        assert now.edge("shoulder").length == pytest.approx(
            old.edge("shoulder").length - 6.0, abs=0.02
        )
        for corner in ("neck point", "underarm point"):
            assert now.corner(corner) == old.corner(corner)
        # The new shoulder point lies on the old shoulder line.
        assert old.edge("shoulder").nearest(now.corner("shoulder point"))[1] < 0.01


def test_the_armholes_change_is_told() -> None:
    applied = done(SHORTER, BLOCK)
    (told,) = applied.effect.rounds
    assert told.what == "armhole"
    assert told.after == pytest.approx(around(applied.pattern, "armhole") / 2, abs=1e-4)
    assert any("armhole" in leaf and "longer" in leaf for leaf in applied.effect.leaves)


def test_the_sentence() -> None:
    assert SHORTER.sentence(BLOCK) == (
        "Right and left shoulders 6 mm shorter at the shoulder point, on the front and on the "
        "back; the armhole back on its old line half-way down it"
    )


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_shoulder_only(side: BodySide) -> None:
    step = ShoulderLength(to=Length.LONGER, by_mm=5.0, side=side)
    front = done(step, BLOCK).pattern.piece("front")
    assert front.edge("shoulder", side).length == pytest.approx(127.5, abs=0.02)
    assert front.edge("shoulder", side.opposite).length == pytest.approx(122.5, abs=1e-5)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (ShoulderLength(to=Length.SHORTER, by_mm=115.0), "cannot be made"),
        (ShoulderLength(to=Length.SHORTER, by_mm=5.0, seam="side"), "a shoulder runs from"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: ShoulderLength, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = ShoulderLength(to=Length.SHORTER, by_mm=115.0)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert most > 20
    apply_step(step.scaled(most / 115.0), BLOCK, "one")


@pytest.mark.parametrize("bad", [{"by_mm": 0.0}, {"by_mm": 4.0, "blend_mm": 5.0}])
def test_figures_that_cannot_be_are_refused(bad: dict[str, float]) -> None:
    with pytest.raises(TrackerError):
        ShoulderLength(to=Length.LONGER, **bad)


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(SHORTER, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Right and left shoulders 6 mm")


@given(by=st.floats(-20, 20).filter(lambda a: abs(a) > 0.5), number=st.sampled_from([0, 1, 2, 3]))
def test_any_amount_is_met_and_the_way_back_leads_back(by: float, number: int) -> None:
    block = BLOCK if number == 0 else drafted(number - 1)
    step = ShoulderLength(to=Length.LONGER, by_mm=by)
    new = done(step, block).pattern
    for name in ("front", "back"):
        old, now = block.piece(name), new.piece(name)
        grown = now.edge("shoulder").length - old.edge("shoulder").length
        assert grown == pytest.approx(by, abs=0.03)
        edge = old.edge("armhole")
        at_end = edge.end == "shoulder point"
        turned = corner_angle(now, now.edge("armhole"), at_end) - corner_angle(old, edge, at_end)
        assert abs(turned) < 6.0
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 0.015)
