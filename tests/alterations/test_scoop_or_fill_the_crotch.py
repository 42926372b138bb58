import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from trousered import BLOCKS, NAMES, POINT, corners, drafted, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.scoop_or_fill_the_crotch import Crotch, ScoopCrotch
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern

BLOCK = drafted()


def scoop(by: float, piece: str = "back", **more: object) -> ScoopCrotch:
    given: dict[str, object] = {"piece": piece, "to": "scoop", "by_mm": by}
    return ScoopCrotch.from_parameters(given | more)


def deepest(new: Pattern, old: Pattern, piece: str) -> float:
    """The furthest the new curve stands off the old one."""
    was, now = old.piece(piece).edge("crotch"), new.piece(piece).edge("crotch")
    return max(was.nearest(now.point_at(now.length * k / 300))[1] for k in range(301))


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize("to", list(Crotch))
@pytest.mark.parametrize("piece", ["front", "back"])
def test_the_amount_is_had_at_the_deepest_place_and_both_ends_stay(
    block: Pattern, to: Crotch, piece: str
) -> None:
    new = done(ScoopCrotch(piece=piece, to=to, by_mm=7.0), block).pattern
    assert deepest(new, block, piece) == pytest.approx(7.0, abs=0.05)
    old, now = block.piece(piece), new.piece(piece)
    for corner in old.corners:
        assert abs(now.corner(corner) - old.corner(corner)) < 1e-6
    assert now.edge("inside leg") == old.edge("inside leg")
    grown = now.edge("crotch").length - old.edge("crotch").length
    assert grown > 1.0 if to == Crotch.SCOOP else grown < -1.0
    assert corners(new) == pytest.approx(corners(block), abs=0.01)
    assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=0.05)


def test_above_the_hip_line_the_centre_does_not_move() -> None:
    new = done(scoop(8), BLOCK).pattern
    old, now = BLOCK.piece("back").edge("crotch"), new.piece("back").edge("crotch")
    for k in range(10):
        assert now.nearest(old.point_at(20 * k))[1] < 1e-6


def test_the_stated_ends_are_kept() -> None:
    new = done(scoop(6, begin_mm=30, end_mm=130), BLOCK).pattern
    old, now = BLOCK.piece("back").edge("crotch"), new.piece("back").edge("crotch")
    whole = old.length
    for down in (0, 10, 25, 135, 200):
        assert now.nearest(old.point_at(whole - down))[1] < 1e-6, down
    assert now.nearest(old.point_at(whole - 80))[1] > 4


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
def test_filling_what_was_scooped_gives_the_pattern_back(block: Pattern) -> None:
    there = apply_step(scoop(9), block, "one").pattern
    assert_same(apply_step(scoop(9, to="fill"), there, "two").pattern, block, 1e-5)
    twice = apply_step(scoop(4), apply_step(scoop(5), block, "one").pattern, "two").pattern
    assert_same(twice, there, 0.02)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only_and_the_centre_seam_says_so(side: BodySide) -> None:
    applied = done(scoop(8, side=side), BLOCK)
    was = BLOCK.piece("back").edge("crotch").length
    assert applied.pattern.piece("back", side).edge("crotch").length > was + 3
    assert applied.pattern.piece("back", side.opposite).edge("crotch").length == pytest.approx(
        was, abs=1e-5
    )
    assert any("centre back seam" in told for told in applied.effect.leaves)


def test_the_sentence_says_where_it_is_deepest_and_where_nothing() -> None:
    told = scoop(8).sentence(BLOCK)
    assert told.startswith("Back crotch scooped out 8 mm at its deepest place, ")
    assert told.endswith("to nothing at the inside-leg point and at the hip line; both ends stay")
    assert POINT in told


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(scoop(8), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Back crotch scooped out 8 mm")


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (lambda: scoop(0), "More than nothing"),
        (lambda: scoop(5, "bakc"), "Did you mean back"),
        (lambda: scoop(5, begin_mm=90, end_mm=100), "40 mm at least"),
        (lambda: scoop(5, end_mm=900), "off the end of the crotch"),
        (lambda: scoop(5, begin_mm=150), "40 mm is the least"),
        (lambda: scoop(5, begin_mm=-1), "not negative"),
        (lambda: scoop(900), "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: object, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step(), BLOCK, "one")


def test_the_limit_told_fits() -> None:
    most = most_that_fits(scoop(900), BLOCK)
    assert most is not None
    assert most > 20
    apply_step(scoop(most), BLOCK, "one")


@settings(max_examples=A_THIRD)
@given(
    which=st.sampled_from(range(3)),
    by=st.floats(0.5, 25),
    to=st.sampled_from(list(Crotch)),
    piece=st.sampled_from(["front", "back"]),
    begin=st.floats(0, 40),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amount_is_had_or_refused_in_a_sentence(
    which: int, by: float, to: Crotch, piece: str, begin: float, side: BodySide
) -> None:
    block = BLOCKS[which]
    step = ScoopCrotch(piece=piece, to=to, by_mm=by, begin_mm=begin, side=side)
    try:
        new = done(step, block).pattern
    except TrackerError:
        return
    back = apply_step(step.scaled(-1.0), new, "two").pattern
    for old in block.pieces:
        assert back.piece(old.name, side).edge("crotch").length == pytest.approx(
            old.edge("crotch").length, abs=0.02
        )
