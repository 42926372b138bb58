"""A cap that no longer matches its armhole: told by every kind, and made to fit again."""

import itertools
from functools import cache

import pytest
from altering import A_THIRD, NO_OUTLINE, done
from drafted import drafted
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.cap_match import cap_off
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.alterations.kinds.fit_the_cap import Answer, FitCap
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.set_in import set_in
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge, stations

SLEEVED = examples.sleeved()
ARM = AddSleeve(
    upper_arm_mm=300, elbow_mm=262, wrist_mm=160, arm_length_mm=570, shoulder_to_elbow_mm=330
)


@cache
def block(number: int) -> Pattern:
    return apply_step(ARM, drafted(number), "sleeve").pattern


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def taken_in(by: float, side: BodySide = BodySide.BOTH) -> TakeIn:
    return TakeIn(seam="side", side=side, amounts=(at("underarm point", by), at("side waist", 0.0)))


def mismatches(applied: Applied) -> list[str]:
    return [told for told in applied.effect.leaves if "the cap " in told]


TOUCHING: dict[str, Kind] = {
    "taken in at the underarm": taken_in(10.0),
    "let out at the underarm": taken_in(-12.0),
    "shorter shoulder": ShoulderLength(to=Length.SHORTER, by_mm=9.0),
    "wider across the back": WidthAcross(line="across back", to=Width.WIDER, by_mm=20.0),
    "squarer shoulder, underarm left": ShoulderSlope(
        to=Slope.SQUARE, by_mm=8.0, underarm=False
    ),
    "underarm point lowered on the front": MoveCorner(
        piece="front", corner="underarm point", edge="side", along_mm=-15.0
    ),
    "armhole hollowed": ReshapeEdge(
        piece="back", edge="armhole",
        amounts=(at("shoulder point", 0.0), at("shoulder point", 6.0, 110.0),
                 at("underarm point", 0.0)),
    ),
    "longer above the bust line": Lengthen(
        line="bust line", above_mm=60.0, by_mm=12.0, pieces=("front", "back")
    ),
    "sleeve taken in": TakeIn(
        seam="underarm", amounts=(at("front underarm point", 8.0), at("front wrist", 0.0))
    ),
    "armhole slashed": SlashAndSpread(
        piece="back", mouth_edge="armhole", mouth_corner="shoulder point", mouth_mm=80.0,
        hinge_edge="centre back", hinge_corner="centre back neck", hinge_mm=90.0, by_mm=6.0,
    ),
}  # fmt: skip


@pytest.mark.parametrize("kind", TOUCHING.values(), ids=TOUCHING.keys())
def test_whatever_touches_the_armhole_says_how_far_off_the_cap_is_and_offers_the_repair(
    kind: Kind,
) -> None:
    applied = apply_step(kind, SLEEVED, "one")
    (told,) = mismatches(applied)
    off = cap_off(applied.pattern, applied.pattern.seam("armhole"))
    assert f"armhole {off.armhole_mm:.1f} mm, cap {off.cap_mm:.1f} mm with 30.0 mm ease" in told
    if abs(off.off_mm) >= 0.5:
        more = "more" if off.off_mm > 0 else "less"
        assert f"{abs(off.off_mm):.1f} mm {more} ease than planned" in told
    assert "fit the cap to the armhole, which makes it" in told
    # Said once, against the ease planned, and not a second time as any seam.
    assert not any(t.startswith("armhole seam:") for t in applied.effect.leaves)
    assert not any("a sleeve for it needs" in t for t in applied.effect.leaves)


@pytest.mark.parametrize("kind", TOUCHING.values(), ids=TOUCHING.keys())
@pytest.mark.parametrize("by", list(Answer))
def test_the_repair_makes_it_match_between_all_the_notches(kind: Kind, by: Answer) -> None:
    off = apply_step(kind, SLEEVED, "one").pattern
    applied = done(FitCap(by=by), off, "two")
    assert mismatches(applied) == []
    seam = applied.pattern.seam("armhole")
    found = cap_off(applied.pattern, seam)
    assert found.worst_mm < 0.01
    gains = [
        (b1 - b0) - (a1 - a0)
        for (a0, b0), (a1, b1) in itertools.pairwise(stations(applied.pattern, seam))
    ]
    assert gains[0] == pytest.approx(0.0, abs=0.01)
    assert gains[-1] == pytest.approx(0.0, abs=0.01)
    wrong = [f for f in check(applied.pattern).findings if f.place.startswith("armhole")]
    assert wrong == []


def test_what_is_taken_in_below_the_notches_comes_out_of_the_sleeves_width() -> None:
    off = apply_step(taken_in(10.0), SLEEVED, "one")
    applied = apply_step(FitCap(), off.pattern, "two")
    lost = girth(SLEEVED, "upper arm line") - girth(applied.pattern, "upper arm line")
    (told,) = mismatches(off)
    assert f"{lost / 2:.1f} mm narrower at the upper arm" in told
    assert girth(applied.pattern, "elbow line") == pytest.approx(
        girth(SLEEVED, "elbow line"), abs=1e-4
    )


def test_an_armhole_off_on_one_side_only_is_told_of_that_side_and_parts_the_sleeves() -> None:
    off = apply_step(taken_in(10.0, BodySide.LEFT), SLEEVED, "one")
    (told,) = mismatches(off)
    assert told.startswith("left armhole: the cap no longer matches")
    applied = done(FitCap(), off.pattern, "two")
    right, left = (
        girth(applied.pattern, "upper arm line", side) for side in (BodySide.RIGHT, BodySide.LEFT)
    )
    assert right == pytest.approx(girth(SLEEVED, "upper arm line", BodySide.RIGHT), abs=1e-4)
    assert left < right - 5
    assert all("right" not in note for note in applied.effect.notes)


def test_what_was_off_before_is_not_said_again_and_a_further_change_says_still() -> None:
    off = apply_step(taken_in(10.0), SLEEVED, "one").pattern
    elsewhere = ReshapeEdge(
        piece="front", edge="neckline", amounts=(at("neck point", 0.0), at("centre front neck", 4))
    )
    assert mismatches(apply_step(elsewhere, off, "two")) == []
    (told,) = mismatches(apply_step(taken_in(4.0), off, "two"))
    assert "the cap still does not match" in told


def test_taking_in_and_letting_out_again_has_nothing_left_to_say() -> None:
    off = apply_step(taken_in(10.0), SLEEVED, "one").pattern
    assert mismatches(apply_step(taken_in(-10.0), off, "two")) == []


def test_a_shifted_shoulder_seam_takes_the_cap_notch_along_and_nothing_is_off() -> None:
    forward = ShiftSeam(
        seam="shoulder", towards="front", amounts=(at("neck point", 0), at("shoulder point", 8))
    )
    assert mismatches(apply_step(forward, SLEEVED, "one")) == []


def test_a_bodice_without_a_sleeve_is_told_what_a_sleeve_for_it_needs() -> None:
    applied = apply_step(taken_in(10.0), bodice(), "one")
    assert any("a sleeve for it needs" in told for told in applied.effect.leaves)


@pytest.mark.parametrize(
    ("start", "told"),
    [(SLEEVED, "there is nothing to fit"), (drafted(), "add a sleeve first")],
    ids=["a cap that fits", "no sleeve"],
)
def test_what_needs_no_fitting_is_refused(start: Pattern, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(FitCap(), start, "one")


def test_a_pattern_without_outlines_gets_its_words() -> None:
    bought = paper()
    sleeve = Piece("sleeve", BodySide.BOTH, ())
    worn = Pattern((*bought.pieces, sleeve), bought.seams, bought.ease)
    applied = apply_step(FitCap(), worn, "one")
    assert applied.effect.leaves == (NO_OUTLINE + FitCap().sentence(worn),)


def test_the_sentence() -> None:
    assert FitCap(by=Answer.HEIGHT, side=BodySide.RIGHT).sentence(SLEEVED) == (
        "Right sleeve only: cap drawn to the armhole and the planned ease again, by the height of "
        "the cap alone; every cap notch brought to its partner"
    )


@settings(max_examples=A_THIRD, deadline=None)
@given(
    side_by=st.floats(-24, 24).filter(lambda a: abs(a) > 1.0),
    shoulder_by=st.floats(-12, 12).filter(lambda a: abs(a) > 1.0),
    by=st.sampled_from(list(Answer)),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
    number=st.integers(0, 2),
)
def test_any_armhole_gets_a_cap_that_fits(
    side_by: float, shoulder_by: float, by: Answer, side: BodySide, number: int
) -> None:
    pattern = apply_step(taken_in(side_by, side), block(number), "one").pattern
    pattern = apply_step(
        ShoulderLength(to=Length.LONGER, by_mm=shoulder_by), pattern, "two"
    ).pattern
    assume(any(cap_off(pattern, s.seam).worst_mm > 0.1 for s in set_in(pattern)))
    new = done(FitCap(by=by), pattern, "three").pattern
    for sleeve in set_in(new):
        assert cap_off(new, sleeve.seam).worst_mm < 0.06


@pytest.mark.parametrize("order", [("side", "underarm"), ("underarm", "side")])
@pytest.mark.parametrize("by", [10.0, -8.0])
def test_a_side_seam_and_a_sleeve_taken_in_alike_still_match_between_all_notches(
    order: tuple[str, str], by: float
) -> None:
    # Common practice: what comes off the underarm of the garment comes off the sleeve's too.
    ends = {"side": ("underarm point", "side waist"),
            "underarm": ("front underarm point", "front wrist")}  # fmt: skip
    new = examples.sleeved()
    old = new.piece("sleeve")
    told = []
    for seam in order:
        top, low = ends[seam]
        amounts = (AmountAt(corner=top, distance_mm=0.0, amount_mm=by),
                   AmountAt(corner=low, distance_mm=0.0, amount_mm=0.0))  # fmt: skip
        applied = done(TakeIn(seam=seam, amounts=amounts), new, seam)
        new = applied.pattern
        told.append([t for t in applied.effect.leaves if "the cap no longer matches" in t])
    assert [len(t) for t in told] == [1, 0]
    assert "5.0 mm below" in told[0][0] or "4.0 mm below" in told[0][0]
    assert cap_off(new, new.seam("armhole")).worst_mm < 0.1
    assert not [f for f in check(new).findings if f.code in ("seam sides", "notches")]
    piece = new.piece("sleeve")
    for notch in piece.notches:
        spots = [p.edge("cap").point_at(notch_on_edge(p.edge("cap"), p.notch(notch.name)))
                 for p in (old, piece)]  # fmt: skip
        assert abs(spots[0] - spots[1]) < 0.01, notch.name


def test_a_cap_that_is_long_enough_is_offered_its_notches_only() -> None:
    step = MoveNotch(piece="sleeve", notch="front cap notch", by_mm=5.0, partner=False)
    applied = apply_step(step, examples.sleeved(), "one")
    (told,) = (t for t in applied.effect.leaves if "cap no longer matches" in t)
    assert "as much ease as planned, but not between the same notches" in told
    assert "by the height of the cap, which moves its notches only, by up to 5 mm" in told
    fitted = done(FitCap(by=Answer.HEIGHT), applied.pattern).pattern
    assert cap_off(fitted, fitted.seam("armhole")).worst_mm < 0.05
    assert fitted.piece("sleeve").edge("cap").length == pytest.approx(
        examples.sleeved().piece("sleeve").edge("cap").length, abs=1e-4
    )
