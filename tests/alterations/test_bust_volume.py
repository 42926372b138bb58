import math

import pytest
from altering import A_THIRD, done
from cut_across import drafted, told
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.bust_volume import BustVolume
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check, folded_kink_deg
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths

BLOCK = bodice()
BLOCKS = pytest.mark.parametrize(
    "block", [BLOCK, drafted(0), drafted(7)], ids=["drawn", "12", "20"]
)


def volume(by: float, **more: object) -> BustVolume:
    return BustVolume.from_parameters({"by_mm": by} | more)


def deficit(piece: Piece) -> float:
    return sum(d.angle_rad for d in piece.darts)


@BLOCKS
@pytest.mark.parametrize("by", [-10.0, 10.0, 30.0, 50.0])
def test_the_girth_grows_by_the_whole_amount_and_only_the_darts_with_it(
    block: Pattern, by: float
) -> None:
    # Full bust on a darted block (project's published checks, 1.3 and section 5 item 12): the
    # girth at the bust grows by twice what a half front does, the back is untouched, armhole and
    # side seam (dart closed) keep their lengths, the darts grow.
    new = done(volume(by), block).pattern
    assert girth(new, "bust line") - girth(block, "bust line") == pytest.approx(by, abs=0.05)
    assert new.piece("back") is block.piece("back")
    old, front = block.piece("front"), new.piece("front")
    for edge in ("shoulder", "neckline"):
        assert front.edge(edge) == old.edge(edge)
    assert front.edge("armhole").length == pytest.approx(old.edge("armhole").length, abs=0.05)
    assert front.edge("side").length == pytest.approx(old.edge("side").length, abs=0.05)
    assert girth(new, "waist line") == pytest.approx(girth(block, "waist line"), abs=0.4)
    one, other = side_lengths(new, new.seam("side"))
    assert one == pytest.approx(other, abs=0.1)
    for dart in ("bust dart", "waist dart"):
        a, b = front.dart(dart).leg_lengths
        assert a == pytest.approx(b, abs=1e-5)
        assert abs(folded_kink_deg(front, dart)) < 0.2
        assert (front.dart(dart).intake_mm > old.dart(dart).intake_mm) == (by > 0)
    assert (deficit(front) > deficit(old)) == (by > 0)
    assert check(new).clean


@BLOCKS
def test_the_length_that_goes_with_it_is_that_of_plain_trigonometry(block: Pattern) -> None:
    # The bust point swings about the hinge: out by s, and down by what keeps it as far off.
    for by in (-12.0, 24.0):
        new = apply_step(volume(by, hinge_mm=100.0), block, "one")
        old = block.piece("front")
        hinge = old.edge("armhole").point_at(100.0)
        arm = old.mark("bust point").point - hinge
        front = new.pattern.piece("front")
        s = front.dart("waist dart").intake_mm - old.dart("waist dart").intake_mm
        assert s == pytest.approx(by / 2, abs=0.5)
        drop = arm.imag + math.sqrt(abs(arm) ** 2 - (arm.real - s) ** 2)
        grown = front.edge("centre front").length - old.edge("centre front").length
        assert grown == pytest.approx(drop, abs=0.02)
        assert f"centre {abs(drop):.1f}".removesuffix(".0") in new.effect.notes[0]
        assert f"{abs(drop):.1f}".removesuffix(".0") in volume(by, hinge_mm=100.0).sentence(block)
        # The part beside the bust turned by the angle of a chord: 2 asin(chord / 2r).
        turned = 2 * math.asin(math.hypot(s, drop) / 2 / abs(arm))
        was = old.edge("side").parts[0].start_heading
        now = front.edge("side").parts[0].start_heading
        assert abs(math.atan2((now / was).imag, (now / was).real)) == pytest.approx(
            turned, abs=1e-4
        )
        # The lower edge is level again: every corner of it dropped by the same.
        for corner in ("side waist", "centre front waist"):
            moved = front.corner(corner) - old.corner(corner)
            assert moved.imag == pytest.approx(-drop, abs=0.02)


@BLOCKS
def test_the_waist_dart_grows_by_what_a_half_front_does(block: Pattern) -> None:
    new = apply_step(volume(20.0), block, "one").pattern.piece("front")
    old = block.piece("front")
    grown = new.dart("waist dart").intake_mm - old.dart("waist dart").intake_mm
    assert grown == pytest.approx(10.0, abs=0.5)
    # Both darts still run to one point, and the bust point is there.
    assert abs(new.dart("waist dart").pivot - new.dart("bust dart").pivot) < 2e-5
    assert abs(new.mark("bust point").point - new.dart("bust dart").pivot) < 2e-5


def test_the_trace_accounts_for_every_millimetre() -> None:
    for by in (-12.0, 24.0):
        applied = done(volume(by), BLOCK)
        told(applied.trace, BLOCK.piece("front"), applied.pattern.piece("front"))


def test_less_takes_back_what_more_gave_to_the_lengths() -> None:
    there = apply_step(volume(16.0, hinge_mm=100.0), BLOCK, "one").pattern
    back = apply_step(volume(-16.0, hinge_mm=100.0), there, "two").pattern
    for edge in BLOCK.piece("front").edges:
        assert back.piece("front").edge(edge.name).length == pytest.approx(edge.length, abs=1.0)
    assert girth(back, "bust line") == pytest.approx(girth(BLOCK, "bust line"), abs=0.1)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_side_only_makes_the_centre_a_seam_and_leaves_the_other_alone(side: BodySide) -> None:
    with pytest.raises(TrackerError, match="“shape a seam” to make it a seam"):
        apply_step(volume(12.0, side=side), BLOCK, "one")
    new = done(volume(12.0, side=side, centre="shape a seam"), BLOCK).pattern
    other = new.piece("front", side.opposite)
    for edge in BLOCK.piece("front").edges:
        assert other.edge(edge.name).length == pytest.approx(edge.length, abs=1e-5)
    grown = girth(new, "bust line", side) - girth(BLOCK, "bust line", side)
    assert grown == pytest.approx(12.0, abs=0.05)
    assert new.seam("centre front").side is BodySide.CENTRE


def test_right_and_left_done_one_after_the_other_are_as_both_done_at_once() -> None:
    at_once = apply_step(volume(20.0), BLOCK, "one").pattern.piece("front")
    right = apply_step(volume(10.0, side="right", centre="shape a seam"), BLOCK, "one").pattern
    both = apply_step(volume(10.0, side="left"), right, "two").pattern
    for side in (BodySide.RIGHT, BodySide.LEFT):
        for edge in at_once.edges:
            assert both.piece("front", side).edge(edge.name).length == pytest.approx(
                edge.length, abs=1e-4
            )


def test_the_sentence_states_the_halves_and_the_length() -> None:
    assert (
        volume(30.0)
        .sentence(BLOCK)
        .startswith("30 mm more round the full bust: 15 mm on each half of the front, and ")
    )
    assert volume(-30.0).sentence(paper()) == (
        "30 mm less round the full bust: 15 mm on each half of the front"
    )


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (lambda: volume(0.0), "by how much round the full bust"),
        (lambda: volume(10.0, centre="straighten the fold"), "stays straight where both sides"),
        (lambda: volume(10.0, piece="frnt"), "Did you mean front"),
        (lambda: volume(10.0, bust_dart="dart"), "no dart called 'dart'"),
        (lambda: volume(10.0, piece="back"), "no dart called 'bust dart'"),
        (lambda: volume(10.0, hinge_mm=1.0), "too near the end of the armhole"),
        (lambda: volume(10.0, hinge_mm=900.0), "off the end"),
        (lambda: volume(-70.0), "would vanish.*is the most that can be drawn here"),
        (lambda: volume(900.0), "hinge on the armhole lies too low"),
        (lambda: volume(10.0, waist_dart="bust dart"), "both darts open from the side"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: object, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(step(), BLOCK, "one")


def test_the_limit_fits() -> None:
    most = most_that_fits(volume(-200.0), BLOCK)
    assert most is not None
    assert 4 < most < 60
    apply_step(volume(-most), BLOCK, "one")


def test_without_outlines_it_is_marked_on_the_paper() -> None:
    applied = apply_step(volume(20.0), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves == (
        "mark it on the paper: 20 mm more round the full bust: 10 mm on each half of the front",
    )


@settings(max_examples=A_THIRD)
@given(
    number=st.sampled_from([-1, 0, 7]),
    by=st.floats(-30, 70).filter(lambda a: abs(a) > 0.2),
    hinge=st.floats(60, 160),
    side=st.sampled_from(["both", "right", "left"]),
)
def test_any_volume_gives_a_valid_pattern_or_a_sentence(
    number: int, by: float, hinge: float, side: str
) -> None:
    block = BLOCK if number < 0 else drafted(number)
    step = volume(by, hinge_mm=hinge, side=side, centre="shape a seam")
    try:
        new = done(step, block).pattern
    except TrackerError:
        return
    if side == "both":
        assert girth(new, "bust line") - girth(block, "bust line") == pytest.approx(by, abs=0.1)
        assert around(new, "armhole") == pytest.approx(around(block, "armhole"), abs=0.2)
