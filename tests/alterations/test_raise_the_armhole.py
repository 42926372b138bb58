"""The armhole raised and lowered under the arm, with a side seam and without one."""

from functools import cache

import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import block as joined_block
from wardrobe import bodice, paper

from tracker.alterations import examples
from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.fit_the_cap import FitCap
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.raise_the_armhole import Height, RaiseArmhole
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge, side_lengths

BLOCK = bodice()
LOWER = RaiseArmhole(to=Height.LOWER, by_mm=15.0)


@cache
def block(name: str) -> Pattern:
    arm = AddSleeve.to_fit(examples.arm())
    join = JoinSidePanels(opening_in="centre back")
    match name:
        case "by hand":
            return BLOCK
        case "drafted":
            return drafted(1)
        case "sleeved":
            return examples.sleeved()
        case "panelled":
            return examples.panelled()
        case "joined":
            return apply_step(join, examples.panelled(), "join").pattern
        case "joined and sleeved":
            return apply_step(arm, block("joined"), "arm").pattern
    left = JoinSidePanels(opening_in="centre back", side=BodySide.LEFT)
    return apply_step(left, examples.panelled(), "join").pattern


NAMES = ("by hand", "drafted", "sleeved", "panelled", "joined", "joined and sleeved", "half joined")


def test_the_underarm_goes_down_the_side_seam_by_the_amount_on_both_pieces() -> None:
    new = done(LOWER, BLOCK).pattern
    for name in ("front", "back"):
        old, now = BLOCK.piece(name), new.piece(name)
        assert abs(now.corner("underarm point") - old.corner("underarm point")) == pytest.approx(
            15.0, abs=0.02
        )
        assert old.edge("side").nearest(now.corner("underarm point"))[1] < 0.01
        assert now.corner("shoulder point") == old.corner("shoulder point")
        assert now.edge("shoulder") == old.edge("shoulder")
        assert now.edge("side").length == pytest.approx(old.edge("side").length - 15.0, abs=0.02)
    front, back = side_lengths(new, new.seam("side"))
    assert front == pytest.approx(back, abs=0.05)


def test_above_the_lowest_notch_the_armhole_stays() -> None:
    old, new = BLOCK.piece("front"), done(LOWER, BLOCK).pattern.piece("front")
    for distance in range(0, 90, 10):
        point = old.edge("armhole").point_at(distance)
        assert new.edge("armhole").nearest(point)[1] < 1e-4


@pytest.mark.parametrize("name", NAMES)
def test_the_armhole_stays_smooth_under_the_arm_and_the_pattern_sound(name: str) -> None:
    start = block(name)
    new = done(LOWER, start).pattern
    before = {f.place for f in check(start).findings}
    wrong = [f.sentence for f in check(new).findings if f.place not in before]
    assert [w for w in wrong if "armhole seam" not in w] == []
    assert around(new, "armhole") > around(start, "armhole") + 20


def test_a_sleeves_cap_is_told_and_fits_again() -> None:
    for name in ("sleeved", "joined and sleeved"):
        lowered = done(LOWER, block(name))
        (told,) = [t for t in lowered.effect.leaves if "the cap no longer matches" in t]
        assert "less ease than planned" in told
        assert "wider at the upper arm" in told
        fitted = apply_step(FitCap(), lowered.pattern, "two").pattern
        assert check(fitted).clean


def test_the_underarm_notch_of_a_joined_panel_stays_at_the_underarm() -> None:
    for name in ("joined", "joined and sleeved"):
        old, new = (p.piece("side panel") for p in (block(name), done(LOWER, block(name)).pattern))
        was, now = (
            p.edge(n.edge).point_at(notch_on_edge(p.edge(n.edge), n))
            for p, n in ((old, old.notch("underarm notch")), (new, new.notch("underarm notch")))
        )
        assert abs(now - was) == pytest.approx(15.0, abs=0.05)
        assert abs((now - was).real) < 2.0


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
@pytest.mark.parametrize("name", ["by hand", "joined and sleeved", "half joined"])
def test_one_armhole_only(name: str, side: BodySide) -> None:
    start = block(name)
    new = done(RaiseArmhole(to=Height.RAISE, by_mm=10.0, side=side), start).pattern
    assert around(new, "armhole", side) < around(start, "armhole", side) - 4
    assert around(new, "armhole", side.opposite) == pytest.approx(
        around(start, "armhole", side.opposite), abs=1e-4
    )


def test_the_sentence() -> None:
    assert LOWER.sentence(BLOCK) == (
        "Armholes lowered 15 mm at the underarm, on the front and on the back, along the side "
        "seam, to nothing at the lowest notches"
    )
    right = RaiseArmhole(to=Height.RAISE, by_mm=8.0, side=BodySide.RIGHT)
    assert right.sentence(block("joined")) == (
        "Right armhole only: raised 8 mm at the underarm, to nothing at the lowest notches on both "
        "sides of it"
    )


def test_what_cannot_be_is_refused_and_the_limit_fits() -> None:
    deep = RaiseArmhole(to=Height.LOWER, by_mm=300.0)
    with pytest.raises(TrackerError, match="is the most that can be drawn here"):
        apply_step(deep, BLOCK, "one")
    most = most_that_fits(deep, BLOCK)
    assert most is not None
    assert most > 30
    apply_step(deep.scaled(most / 300.0), BLOCK, "one")
    with pytest.raises(TrackerError, match="by how much"):
        RaiseArmhole(to=Height.RAISE, by_mm=0.0)
    with pytest.raises(TrackerError, match="no armhole"):
        apply_step(LOWER, examples.skirt(), "one")


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(LOWER, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves == (NO_OUTLINE + LOWER.sentence(paper()),)


@settings(max_examples=A_THIRD // 2, deadline=None)
@given(
    by=st.floats(-18, 18).filter(lambda a: abs(a) > 0.5),
    name=st.sampled_from(NAMES),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amount_and_the_way_back_leads_back(by: float, name: str, side: BodySide) -> None:
    start = block(name)
    step = RaiseArmhole(to=Height.LOWER, by_mm=by, side=side)
    new = done(step, start).pattern
    grown = around(new, "armhole") - around(start, "armhole")
    assert grown * by > 0
    for piece in new.pieces:
        if "armhole" in {e.name for e in piece.edges} and "side" in {e.name for e in piece.edges}:
            edge = piece.edge("armhole")
            angle = corner_angle(piece, edge, edge.end == "underarm point")
            assert 60 < angle < 130
    back = apply_step(step.scaled(-1.0), new, "two").pattern
    if side is BodySide.BOTH and name != "half joined":
        assert_same(back, start, 0.03)


@pytest.mark.parametrize("to", [Height.LOWER, Height.RAISE])
@pytest.mark.parametrize("number", [0, 1, 2])
def test_the_underarm_mark_of_joined_panels_goes_with_the_armhole(number: int, to: Height) -> None:
    start = joined_block("joined bodice", number)
    lowered = apply_step(RaiseArmhole(to=to, by_mm=8.0), start, "one").pattern
    other = Height.RAISE if to == Height.LOWER else Height.LOWER
    back = apply_step(RaiseArmhole(to=other, by_mm=8.0), lowered, "two").pattern
    for piece in start.pieces:
        if "underarm point" in {m.name for m in piece.marks}:
            was, there, again = (
                p.piece(*piece.key).mark("underarm point").point for p in (start, lowered, back)
            )
            assert abs(there - was) == pytest.approx(8.0, abs=0.3)
            ring = lowered.piece(*piece.key).ring
            assert min(c.nearest_spot(there)[2] for c in ring) < 0.01
            assert abs(again - was) < 0.01
            break
    else:
        raise AssertionError("no underarm mark")
