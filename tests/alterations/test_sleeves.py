"""The upper arm, the cap and the pitch of a set-in sleeve."""

import cmath
import itertools
import math
from functools import cache

import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import paper

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.cap import Cap
from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.change_the_upper_arm import CapKept, Room, UpperArm
from tracker.alterations.kinds.raise_the_cap import Height, Kept, RaiseCap
from tracker.alterations.kinds.turn_the_sleeve import Pitch, TurnSleeve
from tracker.alterations.set_in import NoSleeve, set_in
from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.edge import Edge
from tracker.pattern.measure import corner_angle, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths, stations

SLEEVED = examples.sleeved()
FULLER = UpperArm(to=Room.FULLER, by_mm=24.0)
RAISED = RaiseCap(to=Height.RAISE, by_mm=10.0)
LOWERED = RaiseCap(to=Height.LOWER, by_mm=10.0, keep=Kept.LENGTH)
FORWARD = TurnSleeve(to=Pitch.FORWARD, by_mm=10.0)


@cache
def blocks() -> tuple[Pattern, ...]:
    """A drafted sleeve, one drawn by hand, one on an irregular body, one with an elbow dart."""
    arm = AddSleeve(
        upper_arm_mm=300, elbow_mm=262, wrist_mm=160, arm_length_mm=570, shoulder_to_elbow_mm=330
    )
    darted = AddSleeve(**{**arm.parameters(), "elbow_dart_mm": 15.0})
    return (
        SLEEVED,
        sleeved(),
        apply_step(arm, drafted(1), "sleeve").pattern,
        apply_step(darted, drafted(0), "sleeve").pattern,
    )


def sleeve(pattern: Pattern) -> Piece:
    return pattern.piece("sleeve", BodySide.RIGHT)


def cap(pattern: Pattern) -> Cap:
    return Cap(sleeve(pattern).edge("cap").drawn[0])


def width(pattern: Pattern) -> float:
    line = sleeve(pattern).edge("cap").drawn[0]
    return abs(line.start - line.end)


def kinks_deg(curve: Curve) -> list[float]:
    """The bends at the joints of a line."""
    pairs = itertools.pairwise(curve.segments)
    return [abs(math.degrees(cmath.phase((b[1] - b[0]) / (a[-1] - a[-2])))) for a, b in pairs]


def bends(curve: Curve) -> list[bool]:
    """Which way a line bends, run by run: hollow or round."""
    ways = [curve.heading_at(curve.length * k / 150) for k in range(151)]
    turns = [math.degrees(cmath.phase(b / a)) for a, b in itertools.pairwise(ways)]
    return [way for way, _ in itertools.groupby(t > 0 for t in turns if abs(t) > 0.03)]


def test_a_fuller_upper_arm_lowers_the_cap_and_keeps_its_length() -> None:
    new = done(FULLER, SLEEVED).pattern
    assert girth(new, "upper arm line", BodySide.RIGHT) == pytest.approx(
        girth(SLEEVED, "upper arm line", BodySide.RIGHT) + 24.0, abs=1e-4
    )
    for line in ("elbow line", "wrist line"):
        assert girth(new, line) == pytest.approx(girth(SLEEVED, line), abs=1e-4)
    assert cap(new).half_lengths == pytest.approx(cap(SLEEVED).half_lengths, abs=1e-5)
    assert cap(new).height_mm < cap(SLEEVED).height_mm - 8
    assert check(new).clean, [f.sentence for f in check(new).findings]


def test_what_lies_below_the_elbow_is_byte_equal() -> None:
    new = sleeve(done(FULLER, SLEEVED).pattern)
    old = sleeve(SLEEVED)
    assert new.edge("wrist") == old.edge("wrist")
    assert (
        new.edge("front underarm").parts[0].segments[0]
        == (old.edge("front underarm").parts[0].segments[0])
    )
    assert new.level("elbow line") == old.level("elbow line")


def test_half_the_amount_goes_to_the_front_and_half_to_the_back() -> None:
    new, old = sleeve(done(FULLER, SLEEVED).pattern), sleeve(SLEEVED)
    for corner, way in (("front underarm point", 1.0), ("back underarm point", -1.0)):
        assert new.corner(corner) - old.corner(corner) == pytest.approx(12.0 * way, abs=1e-5)


def test_the_seams_stay_equal_and_the_corners_square() -> None:
    for block in blocks():
        new = done(FULLER, block).pattern
        under = set_in(block)[0].under
        before, after = side_lengths(block, under), side_lengths(new, under)
        assert after[1] - after[0] == pytest.approx(before[1] - before[0], abs=0.15)
        one, two = sleeve(block), sleeve(new)
        for at_end in (False, True):
            assert corner_angle(two, two.edge("cap"), at_end) == pytest.approx(
                corner_angle(one, one.edge("cap"), at_end), abs=0.01
            )


def test_the_notches_stay_where_they_meet_the_armholes() -> None:
    for block in blocks():
        new = done(FULLER, block).pattern
        seam = set_in(block)[0].seam
        assert sleeve(new).notches == pytest.approx(sleeve(block).notches) or all(
            a.distance_mm == pytest.approx(b.distance_mm, abs=1e-5)
            for a, b in zip(sleeve(new).notches, sleeve(block).notches, strict=True)
        )
        flat = [x for pair in stations(block, seam) for x in pair]
        assert [x for pair in stations(new, seam) for x in pair] == pytest.approx(flat, abs=1e-5)


def test_the_lost_length_is_told_with_the_repair() -> None:
    effect = done(FULLER, SLEEVED).effect
    (left,) = effect.leaves
    drop = cap(SLEEVED).height_mm - cap(done(FULLER, SLEEVED).pattern).height_mm
    assert left.startswith(f"the sleeve is {drop:.1f} mm shorter from the shoulder point")
    assert f"lengthen it by {drop:.1f} mm, 60 mm above the elbow line" in left


def test_large_sleeves_have_cap_and_armhole_in_the_ease_band_at_five_centimetres_of_ease() -> None:
    # “Set-in sleeve solutions”, Threads 2021: the upper arm at least 2 in larger than the arm;
    # a wider sleeve lengthens the cap, so armhole or cap height change to keep the cap's ease.
    arm = examples.arm().upper_arm_mm
    missing = arm + 50.8 + 30.0 - width(SLEEVED)
    new = done(UpperArm(to=Room.FULLER, by_mm=missing), SLEEVED).pattern
    assert width(new) - arm == pytest.approx(80.8, abs=1e-4)
    armhole, on_cap = side_lengths(new, new.seam("armhole"))
    assert on_cap - armhole == pytest.approx(30.0, abs=1e-4)


def test_with_the_cap_height_kept_the_ease_is_told_and_an_offer_made() -> None:
    applied = done(UpperArm(to=Room.FULLER, by_mm=24.0, keep=CapKept.HEIGHT), SLEEVED)
    assert cap(applied.pattern).height_mm == pytest.approx(cap(SLEEVED).height_mm, abs=1e-4)
    grown = sum(cap(applied.pattern).half_lengths) - sum(cap(SLEEVED).half_lengths)
    (left,) = applied.effect.leaves
    assert f"{grown:.1f} mm more ease than planned" in left
    assert "24 mm narrower at the upper arm" in left


@pytest.mark.parametrize("by", [10.0, -10.0])
def test_a_raised_cap_keeps_the_upper_arm_and_changes_the_ease(by: float) -> None:
    applied = done(RaiseCap(to=Height.RAISE, by_mm=by), SLEEVED)
    new = applied.pattern
    assert cap(new).height_mm == pytest.approx(cap(SLEEVED).height_mm + by, abs=1e-4)
    assert width(new) == pytest.approx(width(SLEEVED), abs=1e-6)
    assert sleeve(new).edge("front underarm") == sleeve(SLEEVED).edge("front underarm")
    armhole, on_cap = side_lengths(new, new.seam("armhole"))
    off = on_cap - armhole - 30.0
    way = "more" if off > 0 else "less"
    (told,) = [x for x in applied.effect.leaves if "cap no longer matches" in x]
    assert f"{abs(off):.1f} mm {way} ease than planned" in told
    # Below the notches nothing changed.
    assert sleeve(new).notch("back cap notch") == sleeve(SLEEVED).notch("back cap notch")


def test_a_lowered_cap_with_its_length_kept_widens_the_upper_arm() -> None:
    new = done(LOWERED, SLEEVED).pattern
    assert cap(new).height_mm == pytest.approx(cap(SLEEVED).height_mm - 10.0, abs=1e-4)
    assert cap(new).half_lengths == pytest.approx(cap(SLEEVED).half_lengths, abs=1e-5)
    assert width(new) > width(SLEEVED) + 10
    assert check(new).clean


def test_a_turned_sleeve_keeps_its_drawing_and_all_cap_notches_go_along() -> None:
    applied = done(FORWARD, SLEEVED)
    new, old = sleeve(applied.pattern), sleeve(SLEEVED)
    assert new.edges == old.edges
    # Forward: the notches go towards the back, so that the top stands before the shoulder.
    for name, by in (("front cap notch", 10.0), ("shoulder notch", -10.0), ("back cap notch", -10)):
        assert new.notch(name).distance_mm - old.notch(name).distance_mm == pytest.approx(by)
    seam = applied.pattern.seam("armhole")
    assert seam.planned_ease_mm == pytest.approx(30.0)
    assert check(applied.pattern).clean, [f.sentence for f in check(applied.pattern).findings]
    (told,) = applied.effect.leaves
    assert told.startswith(
        "the underarm seam of the sleeve lies 10 mm behind the side seam when it is sewn in; "
        "leave it there, nothing is eased below the notches, or bring it back to the side seam: "
        "shift the underarm seam 10 mm towards the front underarm at the front underarm point, to "
        "nothing "
    )


def test_a_sleeve_turned_forward_and_back_again_is_the_same_sleeve() -> None:
    there = apply_step(FORWARD, SLEEVED, "one").pattern
    back = apply_step(TurnSleeve(to=Pitch.BACK, by_mm=10.0), there, "two")
    assert pattern_digest(back.pattern) == pattern_digest(SLEEVED)
    assert "meets the side seam again" in back.effect.leaves[0]
    twice = apply_step(FORWARD, there, "two")
    assert "20 mm behind the side seam" in twice.effect.leaves[0]
    assert check(twice.pattern).clean


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
@pytest.mark.parametrize("kind", [FULLER, RAISED, LOWERED, FORWARD])
def test_one_sleeve_only(kind: Kind, side: BodySide) -> None:
    step = type(kind).from_parameters(kind.parameters() | {"side": side})
    new = done(step, SLEEVED).pattern
    halves = split_sides(SLEEVED, {"sleeve"}).pattern
    other = new.piece("sleeve", side.opposite)
    was = halves.piece("sleeve", side.opposite)
    assert other.notches == was.notches
    assert abs(other.area_mm2 - was.area_mm2) < 1e-3
    changed = new.piece("sleeve", side)
    assert (changed.edges, changed.notches) != (
        halves.piece("sleeve", side).edges, halves.piece("sleeve", side).notches,
    )  # fmt: skip
    both = done(kind, SLEEVED).pattern.piece("sleeve")
    assert changed.area_mm2 == pytest.approx(both.area_mm2, abs=0.01)
    # Later a step for both sides alters both.
    again = apply_step(UpperArm(to=Room.FULLER, by_mm=6.0), new, "two").pattern
    for one in (side, side.opposite):
        grown = girth(again, "upper arm line", one) - girth(new, "upper arm line", one)
        assert grown == pytest.approx(6.0, abs=1e-4)


SENTENCES = {
    FULLER: "Sleeves 24 mm fuller each round the upper arm: 12 mm to the front and 12 mm to the "
    "back of the underarm, to nothing at the elbow line; the cap as long as it was, so lower",
    RAISED: "Sleeves: cap raised 10 mm at its top, to nothing at the underarm; the upper arm as "
    "wide as it was, so the cap longer and its ease more",
    FORWARD: "Sleeves turned 10 mm forward in the armhole: all cap notches, the shoulder's too, "
    "10 mm along the cap towards the back; cap and cap ease as they were",
    UpperArm(to=Room.NARROWER, by_mm=10.0, nothing_mm=120.0, side=BodySide.LEFT): "Left sleeve "
    "only: 10 mm narrower round the upper arm: 5 mm from the front and 5 mm from the back of the "
    "underarm, to nothing at 120 mm below the underarm point; the cap as long as it was, so higher",
}


@pytest.mark.parametrize("kind", SENTENCES)
def test_the_sentence(kind: Kind) -> None:
    assert kind.sentence(SLEEVED) == SENTENCES[kind]


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (UpperArm(to=Room.FULLER, by_mm=250.0), "is the most that can be drawn here"),
        (UpperArm(to=Room.NARROWER, by_mm=200.0), "is the most that can be drawn here"),
        (UpperArm(to=Room.FULLER, by_mm=9.0, nothing_mm=600.0), "off the underarm seam"),
        (UpperArm(to=Room.FULLER, by_mm=9.0, nothing_mm=10.0), "over 40 mm at least"),
        (RaiseCap(to=Height.LOWER, by_mm=130.0), "is the most that can be drawn here"),
        (RaiseCap(to=Height.RAISE, by_mm=200.0), "is the most that can be drawn here"),
        (TurnSleeve(to=Pitch.BACK, by_mm=80.0), "62.5 mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_with_the_most_that_can(step: Kind, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, SLEEVED, "one")


def test_the_limit_told_can_be_drawn() -> None:
    step = UpperArm(to=Room.FULLER, by_mm=250.0)
    most = most_that_fits(step, SLEEVED)
    assert most is not None
    assert most > 40
    apply_step(step.scaled(most / 250.0), SLEEVED, "one")


def test_a_change_is_not_drawn_over_an_elbow_dart() -> None:
    with pytest.raises(TrackerError, match="elbow dart of the right sleeve opens"):
        apply_step(UpperArm(to=Room.FULLER, by_mm=9.0, nothing_mm=300.0), blocks()[3], "one")


@pytest.mark.parametrize("kind", [FULLER, RAISED, FORWARD])
def test_a_bodice_without_a_sleeve_says_so(kind: Kind) -> None:
    with pytest.raises(NoSleeve, match="add a sleeve first"):
        apply_step(kind, drafted(), "one")


@pytest.mark.parametrize(
    ("kind", "bad"),
    [
        (UpperArm, {"to": "fuller", "by_mm": 0.0}),
        (UpperArm, {"to": "fuller", "by_mm": 5.0, "nothing_mm": -3.0}),
        (RaiseCap, {"to": "raise", "by_mm": 0.0}),
        (RaiseCap, {"to": "raise", "by_mm": 5.0, "nothing_mm": 120.0}),
        (TurnSleeve, {"to": "back", "by_mm": 0.0}),
    ],
)
def test_figures_that_cannot_be_are_refused(kind: type[Kind], bad: dict[str, object]) -> None:
    with pytest.raises(TrackerError):
        kind.from_parameters(bad)


def on_paper() -> Pattern:
    """A bought garment with sleeves: names, no outlines."""
    block = paper()
    edges = ("wrist", "front underarm", "cap", "back underarm")
    return Pattern(
        (*block.pieces, Piece("sleeve", BodySide.BOTH, tuple(
            Edge(name, BodySide.BOTH, f"{name} start", f"{name} end") for name in edges
        ))),
        block.seams, block.ease,
    )  # fmt: skip


@pytest.mark.parametrize("kind", [FULLER, RAISED, FORWARD])
def test_a_pattern_without_outlines_gets_its_words(kind: Kind) -> None:
    applied = apply_step(kind, on_paper(), "one")
    assert applied.pattern == on_paper()
    assert applied.effect.leaves == (NO_OUTLINE + kind.sentence(on_paper()),)


@settings(max_examples=A_THIRD, deadline=None)
@given(
    by=st.floats(-30, 40).filter(lambda a: abs(a) > 0.5),
    keep=st.sampled_from(list(CapKept)),
    nothing=st.none() | st.floats(60, 150),
    number=st.integers(0, 3),
)
def test_any_amount_round_the_upper_arm_is_met_smoothly_and_the_way_back_leads_back(
    by: float, keep: CapKept, nothing: float | None, number: int
) -> None:
    block = blocks()[number]
    if number == 3 and nothing:
        nothing = min(nothing, 90.0)
    step = UpperArm(to=Room.FULLER, by_mm=by, keep=keep, nothing_mm=nothing)
    applied = done(step, block)
    new = applied.pattern
    assert width(new) - width(block) == pytest.approx(by, abs=1e-4)
    line = sleeve(new).edge("cap").drawn[0]
    assert max(kinks_deg(line)) < max(0.05, *kinks_deg(sleeve(block).edge("cap").drawn[0])) + 0.05
    assert bends(line) == bends(sleeve(block).edge("cap").drawn[0])
    if keep == CapKept.LENGTH:
        assert cap(new).half_lengths == pytest.approx(cap(block).half_lengths, abs=1e-4)
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 1e-4)


@settings(max_examples=A_THIRD, deadline=None)
@given(
    by=st.floats(-20, 20).filter(lambda a: abs(a) > 0.5),
    keep=st.sampled_from(list(Kept)),
    number=st.integers(0, 3),
)
def test_any_cap_height_is_met_and_the_way_back_leads_back(
    by: float, keep: Kept, number: int
) -> None:
    block = blocks()[number]
    step = RaiseCap(to=Height.RAISE, by_mm=by, keep=keep)
    new = done(step, block).pattern
    assert cap(new).height_mm - cap(block).height_mm == pytest.approx(by, abs=1e-3)
    assert bends(sleeve(new).edge("cap").drawn[0]) == bends(sleeve(block).edge("cap").drawn[0])
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 1e-4)


@settings(max_examples=A_THIRD, deadline=None)
@given(
    by=st.floats(-40, 40).filter(lambda a: abs(a) > 0.05),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
    number=st.sampled_from([0, 2, 3]),
)
def test_any_turn_keeps_cap_and_ease(by: float, side: BodySide, number: int) -> None:
    block = blocks()[number]
    new = done(TurnSleeve(to=Pitch.FORWARD, by_mm=by, side=side), block).pattern
    found, was = check(new), check(block)
    assert len(found.findings) == len(was.findings)
    for seam in new.seams:
        if seam.name == "armhole":
            assert seam.planned_ease_mm == pytest.approx(block.seam("armhole").planned_ease_mm)
