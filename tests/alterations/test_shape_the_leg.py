import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from trousered import BLOCKS, NAMES, bends, drafted, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.shape_the_leg import ShapeLeg
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = drafted()
RUNS = [(-20, -70), (0, -60), (-20, 0), (20, 100), (-30, 40), (15, -25)]


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize(("knee", "hem"), RUNS)
def test_each_leg_is_as_wide_as_told_at_knee_and_hem(
    block: Pattern, knee: float, hem: float
) -> None:
    new = done(ShapeLeg(knee_mm=knee, hem_mm=hem), block).pattern
    assert girth(new, "knee line") - girth(block, "knee line") == pytest.approx(2 * knee, abs=0.05)
    assert around(new, "hem") - around(block, "hem") == pytest.approx(2 * hem, abs=0.05)
    for line in ("waist line", "hip line", "crotch line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=1e-3)


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize(("knee", "hem"), RUNS)
def test_inside_leg_and_side_move_alike_and_the_crease_stays_in_the_middle(
    block: Pattern, knee: float, hem: float
) -> None:
    new = done(ShapeLeg(knee_mm=knee, hem_mm=hem), block).pattern
    for piece in block.pieces:
        now = new.piece(piece.name)
        for was, ends in (
            ([piece.corner("inside hem"), piece.corner("side hem")],
             [now.corner("inside hem"), now.corner("side hem")]),
            (piece.level("knee line").strokes[0], now.level("knee line").strokes[0]),
        ):  # fmt: skip
            assert sum(p.real for p in ends) == pytest.approx(sum(p.real for p in was), abs=0.1)
        assert now.edge("crotch") == piece.edge("crotch")
        assert now.edge("waist") == piece.edge("waist")
    for name in ("inside leg", "side"):
        one, other = side_lengths(new, new.seam(name))
        a, b = side_lengths(block, block.seam(name))
        assert other - one == pytest.approx(b - a, abs=1.3)


@pytest.mark.parametrize(("knee", "hem"), RUNS)
def test_below_the_knee_the_leg_is_straight_and_there_is_no_kink(knee: float, hem: float) -> None:
    new = done(ShapeLeg(knee_mm=knee, hem_mm=hem), BLOCK).pattern
    assert check(new).clean
    for piece in new.pieces:
        for name in ("inside leg", "side"):
            assert max(map(abs, bends(piece, name))) < 2.5
            line = piece.edge(name)
            low = [60.0 * k for k in range(1, 5)]
            ends = (s if line.start.endswith("hem") else line.length - s for s in low)
            ways = [line.heading_at(s) for s in ends]
            assert max(abs(turn_between(ways[0], w)) for w in ways) < 3e-3


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
def test_what_is_taken_can_be_given_back(block: Pattern) -> None:
    step = ShapeLeg(knee_mm=-15, hem_mm=-60)
    there = apply_step(step, block, "one").pattern
    assert_same(apply_step(step.scaled(-1.0), there, "two").pattern, block, 0.05)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_leg_only(side: BodySide) -> None:
    new = done(ShapeLeg(hem_mm=-40, side=side), BLOCK).pattern
    hems = [sum(new.piece(n, s).edge("hem").length for n in ("front", "back"))
            for s in (side, side.opposite)]  # fmt: skip
    was = sum(p.edge("hem").length for p in BLOCK.pieces)
    assert hems == [pytest.approx(was - 40, abs=0.05), pytest.approx(was, abs=1e-4)]
    both = done(ShapeLeg(hem_mm=-10), new).pattern
    assert around(both, "hem") == pytest.approx(2 * was - 60, abs=0.1)


def test_the_sentence_tells_both_rounds() -> None:
    assert ShapeLeg(knee_mm=-20, hem_mm=-70).sentence(BLOCK) == (
        "Each leg 20 mm narrower at the knee line (449 to 429 mm round) and 70 mm narrower at the "
        "hem (449 to 379 mm round): a quarter at each edge of inside leg and side, to nothing at "
        "the crotch line, the crease in the middle"
    )


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(ShapeLeg(hem_mm=-40), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Each leg 40 mm narrower at the hem")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({}, "by how much"),
        ({"hem_mm": -900}, "mm is the most that can be drawn here"),
        ({"knee_mm": -900}, "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(values: dict[str, object], told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(ShapeLeg.from_parameters(values), BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = ShapeLeg(hem_mm=-900)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert most > 150
    apply_step(step.scaled(most / 900), BLOCK, "one")


@settings(max_examples=A_THIRD)
@given(
    which=st.sampled_from(range(3)),
    knee=st.floats(-60, 80),
    hem=st.floats(-150, 200),
    side=st.sampled_from([BodySide.BOTH, BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amounts_are_met_or_refused_in_a_sentence(
    which: int, knee: float, hem: float, side: BodySide
) -> None:
    if max(abs(knee), abs(hem)) < 0.05:
        return
    block = BLOCKS[which]
    try:
        new = done(ShapeLeg(knee_mm=knee, hem_mm=hem, side=side), block).pattern
    except TrackerError:
        return
    was = sum(p.edge("hem").length for p in block.pieces)
    now = sum(new.piece(n, side).edge("hem").length for n in ("front", "back"))
    assert now - was == pytest.approx(hem, abs=0.05)
