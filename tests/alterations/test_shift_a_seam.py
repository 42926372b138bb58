import pytest
from altering import NO_OUTLINE, assert_same, done, measures
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.shift_a_seam import AmountAt, ShiftSeam
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import around
from tracker.pattern.walk import side_lengths, stations

BLOCK = bodice()


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def forward_shoulder(amount: float, side: BodySide = BodySide.BOTH) -> ShiftSeam:
    return ShiftSeam(
        seam="shoulder", towards="front", side=side,
        amounts=(at("neck point", 0.0), at("shoulder point", amount)),
    )  # fmt: skip


def side_seam(amount: float, towards: str = "back", side: BodySide = BodySide.BOTH) -> ShiftSeam:
    return ShiftSeam(seam="side", towards=towards, side=side, amounts=(at("side waist", amount),))


def test_a_forward_shoulder_takes_from_the_front_and_gives_to_the_back() -> None:
    """Front loses and back gains at the shoulder point, nothing at the neck (from memory; the
    armhole stays as long: published alteration procedures, forward shoulder)."""
    new = done(forward_shoulder(10.0), BLOCK).pattern
    for name, by in (("front", -10.0), ("back", 10.0)):
        old, now = BLOCK.piece(name), new.piece(name)
        assert now.edge("armhole").length - old.edge("armhole").length == pytest.approx(
            by, abs=0.05
        )
        assert now.corner("neck point") == old.corner("neck point")
        assert now.edge("neckline") == old.edge("neckline")
    assert around(new, "armhole") == pytest.approx(around(BLOCK, "armhole"), abs=0.05)


def test_the_sentence_names_both_ends_and_what_each_piece_does() -> None:
    assert forward_shoulder(10.0).sentence(BLOCK) == (
        "Right and left shoulder seams 10 mm towards the front at the shoulder point, to nothing "
        "at the neck point: the front loses what the back gains"
    )


def test_the_change_of_the_two_sides_difference_is_told() -> None:
    effect = done(forward_shoulder(15.0), BLOCK).effect
    new = done(forward_shoulder(15.0), BLOCK).pattern
    first, second = side_lengths(new, new.seam("shoulder"))
    assert f"their difference is {second - first:.1f} mm and was 5.0 mm" in effect.notes[0]
    assert any(
        "a sleeve's cap notch goes 15.0 mm towards the front too" in t for t in effect.leaves
    )


def test_armhole_notches_stay_on_their_cloth() -> None:
    new = done(forward_shoulder(10.0), BLOCK).pattern
    for name, notch in (("front", "front armhole notch"), ("back", "back armhole notch")):
        was, now = BLOCK.piece(name), new.piece(name)
        far = [p.edge("armhole").length - p.notch(notch).distance_mm for p in (was, now)]
        assert far[0] == pytest.approx(far[1], abs=0.01)


@pytest.mark.parametrize("side", [BodySide.BOTH, BodySide.LEFT])
def test_the_sleeves_cap_notch_goes_along_and_all_notches_still_meet(side: BodySide) -> None:
    before = sleeved()
    applied = done(forward_shoulder(10.0, side), before)
    new = applied.pattern
    was, now = before.piece("sleeve"), new.piece("sleeve", side)
    moved = {n.name: n.distance_mm - was.notch(n.name).distance_mm for n in now.notches}
    # On the mirrored left sleeve distances are kept from the same corners.
    assert moved["cap notch"] == pytest.approx(-10.0, abs=0.05)
    assert moved["front cap notch"] == moved["back cap notch"] == 0.0
    old, fresh = stations(before, before.seam("armhole")), stations(new, new.seam("armhole", side))
    ease = [(b[1] - b[0]) - (a[1] - a[0]) for a, b in zip(old, fresh, strict=True)]
    assert ease == pytest.approx([0.0] * len(ease), abs=0.05)
    assert any("cap notch of the" in told for told in applied.effect.notches)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_leaves_the_other_alone(side: BodySide) -> None:
    new = done(side_seam(8.0, "front", side), BLOCK).pattern
    for name in ("front", "back"):
        piece = new.piece(name, side.opposite)
        assert piece.edge("side", side.opposite).length == pytest.approx(
            BLOCK.piece(name).edge("side").length, abs=1e-5
        )
    assert new.piece("front").edge("waist", side).length < BLOCK.piece("front").edge("waist").length


def test_towards_the_back_by_less_than_nothing_is_towards_the_front() -> None:
    one = done(side_seam(-9.0, "back"), BLOCK).pattern
    assert_same(one, done(side_seam(9.0, "front"), BLOCK).pattern, 0.05)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (side_seam(5.0, "sleeve"), "moves towards the front or the back"),
        (ShiftSeam(seam="centre back", towards="back", amounts=(at("centre back waist", 5.0),)),
         "its own mirror image"),
        (forward_shoulder(100.0), "would go past the front armhole notch"),
        (ShiftSeam(seam="sid", towards="back", amounts=(at("side waist", 5.0),)), "Did you mean"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: ShiftSeam, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_an_amount_of_nothing_is_refused() -> None:
    with pytest.raises(TrackerError, match="an amount that is not nothing"):
        forward_shoulder(0.0)


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(forward_shoulder(10.0), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Right and left shoulder seams")


amounts = st.floats(-20, 20).filter(lambda a: abs(a) > 0.5)
blocks = st.sampled_from([0, 1, 2, 3])


@given(amount=amounts, number=blocks, seam=st.sampled_from(["side", "shoulder"]))
def test_no_girth_and_no_round_changes_and_the_way_back_leads_back(
    amount: float, number: int, seam: str
) -> None:
    block = BLOCK if number == 0 else drafted(number - 1)
    step = side_seam(amount) if seam == "side" else forward_shoulder(amount)
    new = done(step, block).pattern
    assert measures(new) == pytest.approx(measures(block), abs=0.05)
    back = apply_step(step.scaled(-1.0), new, "two").pattern
    # Amounts made up for are found to 0.001 mm; a few are found one such step apart.
    assert_same(back, block, 0.0021)


@given(amount=amounts, distance=st.floats(40, 160), corner=amounts)
def test_amounts_anywhere_leave_every_girth(amount: float, distance: float, corner: float) -> None:
    step = ShiftSeam(
        seam="side", towards="front",
        amounts=(at("underarm point", corner), at("underarm point", amount, distance)),
    )  # fmt: skip
    new = done(step, BLOCK).pattern
    assert measures(new) == pytest.approx(measures(BLOCK), abs=0.05)
