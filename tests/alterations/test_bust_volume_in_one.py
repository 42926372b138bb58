"""More or less room over the bust of a torso, and of a front opened out across its centre."""

import pytest
from altering import done, measures
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.bust_volume import BustVolume
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.reshape_an_edge import AmountAt, ReshapeEdge
from tracker.alterations.opened_out import halves_of, whole_again
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

TORSO, BODICE = examples.torso(), examples.bodice()


def opened(pattern: Pattern) -> Pattern:
    """The same, its front in one piece across the centre."""
    return split_sides(pattern, ["front"]).pattern


def uneven(pattern: Pattern) -> Pattern:
    """A front opened out by an alteration of its right armhole only."""
    at = (
        ("shoulder point", 0.0, 0.0),
        ("shoulder point", 120.0, 2.0),
        ("underarm point", 0.0, 0.0),
    )
    amounts = tuple(AmountAt(corner=c, distance_mm=d, amount_mm=a) for c, d, a in at)
    step = ReshapeEdge(piece="front", edge="armhole", amounts=amounts, side=BodySide.RIGHT)
    return apply_step(step, pattern, "uneven").pattern


def volume(by: float, **more: object) -> BustVolume:
    return BustVolume.from_parameters({"by_mm": by} | more)


@pytest.mark.parametrize("by", [-20.0, 10.0, 30.0, 60.0])
def test_a_torso_grows_at_the_bust_line_alone(by: float) -> None:
    new = done(volume(by), TORSO).pattern
    was, now = measures(TORSO), measures(new)
    assert now.pop("bust line") - was.pop("bust line") == pytest.approx(by, abs=0.05)
    for name, before in was.items():
        # Drawn fair over the hinge the armhole bows by a hair just where this line ends on it.
        within = 0.8 if name == "across front" else 0.1
        assert now[name] == pytest.approx(before, abs=within), name
    old, front = TORSO.piece("front"), new.piece("front")
    for edge in ("shoulder", "neckline", "side", "hip"):
        assert front.edge(edge).length == pytest.approx(old.edge(edge).length, abs=0.01), edge
    assert new.piece("back") is TORSO.piece("back")
    assert check(new).clean


@pytest.mark.parametrize("by", [-20.0, 40.0])
def test_a_torsos_waist_dart_takes_the_amount_and_keeps_its_two_points(by: float) -> None:
    new = apply_step(volume(by), TORSO, "one").pattern.piece("front")
    old = TORSO.piece("front")
    dart, was = new.dart("waist dart"), old.dart("waist dart")
    assert dart.double_pointed
    assert dart.intake_mm - was.intake_mm == pytest.approx(by / 2, abs=0.6)
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=1e-4)
    assert abs(dart.pivot - new.dart("bust dart").pivot) < 2e-5
    assert abs(dart.pivot - new.mark("bust point").point) < 2e-5
    # Its lower half is as long as it was, the whole of it as much lower as the centre is longer.
    longer = new.edge("centre front").length - old.edge("centre front").length
    low, low_was = dart.legs[0].end, was.legs[0].end
    assert (low - low_was).imag == pytest.approx(-longer, abs=0.01)


def test_what_a_torso_gains_below_is_told_and_taken_back_at_the_side() -> None:
    applied = apply_step(volume(30.0), TORSO, "one")
    assert any(
        "at the side hip, to nothing at the waist line" in n
        and n.endswith("hip and side are as long as they were")
        for n in applied.effect.notes
    )
    assert not applied.effect.leaves
    assert "below the waist the side seam of the front is in by as much" in volume(30.0).sentence(
        TORSO
    )


@pytest.mark.parametrize(("block", "by"), [(BODICE, 30.0), (BODICE, -16.0), (TORSO, 24.0)])
def test_an_opened_out_front_is_altered_as_one_on_the_fold(block: Pattern, by: float) -> None:
    folded = done(volume(by), block).pattern
    whole = done(volume(by), opened(block)).pattern
    front = whole.piece("front")
    assert front.side is BodySide.CENTRE
    for side in (BodySide.RIGHT, BodySide.LEFT):
        for edge in folded.piece("front").edges:
            if edge.name != "centre front":
                assert front.edge(edge.name, side).length == pytest.approx(edge.length, abs=2e-3)
    line = front.level("centre front", BodySide.CENTRE).strokes[0]
    centre = folded.piece("front").edge("centre front")
    assert abs(line[-1] - line[0]) == pytest.approx(centre.length, abs=1e-4)
    assert girth(whole, "bust line") == pytest.approx(girth(folded, "bust line"), abs=0.01)
    assert check(whole).clean


def test_halves_that_differ_get_one_centre_from_a_hinge_moved_along_the_armhole() -> None:
    block = uneven(BODICE)
    new = done(volume(30.0), block).pattern
    assert new.piece("front").side is BodySide.CENTRE
    assert girth(new, "bust line") - girth(block, "bust line") == pytest.approx(30.0, abs=0.05)
    for side in (BodySide.RIGHT, BodySide.LEFT):
        old = block.piece("front").edge("armhole", side).length
        assert new.piece("front").edge("armhole", side).length == pytest.approx(old, abs=0.05)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
@pytest.mark.parametrize("block", [opened(BODICE), uneven(BODICE), opened(TORSO)])
def test_one_side_of_an_opened_out_front_asks_for_a_seam_and_leaves_the_other_half(
    block: Pattern, side: BodySide
) -> None:
    with pytest.raises(TrackerError, match="“shape a seam” to make it a seam, or alter both"):
        apply_step(volume(12.0, side=side), block, "one")
    applied = done(volume(12.0, side=side, centre="shape a seam"), block)
    new, other = applied.pattern, applied.pattern.piece("front", side.opposite)
    assert other.side is side.opposite
    for edge in block.piece("front").edges:
        if edge.side is side.opposite:
            assert other.edge(*edge.key).length == pytest.approx(edge.length, abs=1e-5)
    assert girth(new, "bust line", side) - girth(block, "bust line", side) == pytest.approx(
        12.0, abs=0.05
    )
    assert new.seam("centre front").side is BodySide.CENTRE


@pytest.mark.parametrize("block", [BODICE, opened(BODICE), opened(TORSO)])
def test_the_half_that_is_longer_at_the_centre_is_told_and_what_is_offered_mends_it(
    block: Pattern,
) -> None:
    applied = apply_step(volume(12.0, side="right", centre="shape a seam"), block, "one")
    (told,) = (t for t in applied.effect.leaves if "than the other half" in t)
    front = applied.pattern.piece("front", BodySide.RIGHT)
    edge = front.edge("centre front", BodySide.RIGHT)
    one, two = side_lengths(applied.pattern, applied.pattern.seam("centre front"))
    corner = edge.start if edge.end.endswith("neck") else edge.end
    assert f"{abs(one - two):.1f}".removesuffix(".0") + " mm longer at the centre front" in told
    assert f"move its {corner}" in told
    step = MoveCorner(
        piece="front", corner=corner, edge="centre front", along_mm=-abs(one - two),
        side=BodySide.RIGHT,
    )  # fmt: skip
    mended = apply_step(step, applied.pattern, "two")
    assert not any("centre front" in t for t in mended.effect.leaves)
    assert not [f for f in check(mended.pattern).findings if f.place == "centre front seam"]


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
@pytest.mark.parametrize("by", [24.0, -14.0])
@pytest.mark.parametrize("block", [BODICE, TORSO, opened(BODICE), uneven(BODICE), opened(TORSO)])
def test_one_half_can_be_altered_with_the_centre_left_as_it_is_and_no_seam(
    block: Pattern, by: float, side: BodySide
) -> None:
    # Common practice: the lower edge of the fuller half runs up to the centre again.
    step = volume(by, side=side, centre="straighten the fold")
    applied = done(step, block)
    new, front = applied.pattern, applied.pattern.piece("front")
    assert front.side is BodySide.CENTRE
    assert not applied.effect.leaves
    grown = girth(new, "bust line", side) - girth(block, "bust line", side)
    assert grown == pytest.approx(by, abs=0.05)
    whole = split_sides(block, ["front"]).pattern.piece("front")
    (was,), (now,) = (p.level("centre front", BodySide.CENTRE).strokes for p in (whole, front))
    assert all(abs(a - b) < 1e-4 for a, b in zip(was, now, strict=True))
    for edge in whole.edges:
        if edge.side is side.opposite:
            assert front.edge(*edge.key).parts == edge.parts
        elif edge.name in ("shoulder", "neckline", "armhole", "side", "hip"):
            assert front.edge(*edge.key).length == pytest.approx(edge.length, abs=0.05), edge.name
    known = {f.sentence for f in check(block).findings}
    assert not [f.sentence for f in check(new).findings if f.sentence not in known]
    assert "to nothing at the centre" in step.sentence(block)


def test_halves_taken_apart_go_together_again_as_they_were() -> None:
    for block in (opened(BODICE), opened(TORSO), uneven(BODICE)):
        front = block.piece("front")
        again = whole_again(front, *halves_of(front))
        assert again is not None
        assert again.edges == front.edges
        assert again.darts == front.darts
        assert again.notches == front.notches
        assert set(again.levels) == set(front.levels)


def test_the_limit_of_a_torso_fits_and_more_does_not() -> None:
    most = most_that_fits(volume(-300.0), TORSO)
    assert most is not None
    assert 20 < most < 100
    apply_step(volume(-most), TORSO, "one")
    with pytest.raises(TrackerError, match="would vanish"):
        apply_step(volume(-most - 0.6), TORSO, "one")


@settings(max_examples=30)
@given(
    by=st.floats(-30, 70).filter(lambda a: abs(a) > 0.2),
    hinge=st.floats(60, 150),
    side=st.sampled_from(["both", "right", "left"]),
    whole=st.booleans(),
)
def test_any_volume_of_a_torso_gives_a_valid_pattern_or_a_sentence(
    by: float, hinge: float, side: str, whole: bool
) -> None:
    block = opened(TORSO) if whole else TORSO
    step = volume(by, hinge_mm=hinge, side=side, centre="shape a seam")
    try:
        new = done(step, block).pattern
    except TrackerError:
        return
    if side == "both":
        assert girth(new, "bust line") - girth(block, "bust line") == pytest.approx(by, abs=0.1)
        assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=0.05)
