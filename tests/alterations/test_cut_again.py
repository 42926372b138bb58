"""A cut taken back: what was there before it is there again, as long as nothing there changed."""

import json
from dataclasses import fields, replace

import pytest
from altering import assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import block
from wardrobe import bodice

from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step, fits
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.slash_across import SlashAcross
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import canonical, pattern_from, pattern_record
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern

#: The store's rounding, there and back.
SAME_MM = 5e-6

BACK_WIDER = SlashAndSpread(
    piece="back", mouth_edge="armhole", mouth_corner="shoulder point", mouth_mm=90.0,
    hinge_edge="centre back", hinge_corner="centre back neck", hinge_mm=130.0, by_mm=9.0,
)  # fmt: skip
CHEST_HOLLOW = FoldOut(
    piece="front", mouth_edge="armhole", mouth_corner="shoulder point", mouth_mm=70.0,
    hinge_edge="neckline", hinge_corner="centre front neck", hinge_mm=40.0, by_mm=6.0,
)  # fmt: skip
LONGER = Lengthen(line="waist line", above_mm=60.0, by_mm=15.0)
SHORTER = Lengthen(line="waist line", above_mm=60.0, by_mm=-12.0)
ACROSS = SlashAcross(pieces=("front", "back"), line="waist line", above_mm=55.0,
                     first_mm=8.0, last_mm=8.0)  # fmt: skip


def back(step: Kind) -> Kind:
    """The same cut, opened where it was closed and closed where it was opened."""
    if isinstance(step, SlashAndSpread):
        other = SlashAndSpread if isinstance(step, FoldOut) else FoldOut
        return other(**{f.name: getattr(step, f.name) for f in fields(step)})
    if isinstance(step, SlashAcross):
        return replace(step, first_mm=-step.first_mm, last_mm=-step.last_mm)
    assert isinstance(step, Lengthen)
    return replace(step, by_mm=-step.by_mm)


def assert_given_back(one: Pattern, other: Pattern, within_mm: float = SAME_MM) -> None:
    assert_same(one, other, within_mm)
    for line in lines_of(one):
        assert girth(other, line) == pytest.approx(girth(one, line), abs=0.01)
    for a, b in zip(one.pieces, other.pieces, strict=True):
        for was, now in zip(a.darts, b.darts, strict=True):
            assert abs(was.pivot - now.pivot) <= within_mm
            assert was.leg_lengths == pytest.approx(now.leg_lengths, abs=2 * within_mm)


@pytest.mark.parametrize("step", [
    BACK_WIDER, CHEST_HOLLOW, LONGER, SHORTER, ACROSS,
    replace(BACK_WIDER, side=BodySide.LEFT),
    # Measured from the corner on the part that moves.
    replace(BACK_WIDER, mouth_corner="underarm point", hinge_corner="centre back waist"),
    # Across the waist darts, whose legs and mouths are drawn again.
    replace(LONGER, above_mm=80.0),
])  # fmt: skip
def test_a_cut_taken_back_gives_back_what_was_there(step: Kind) -> None:
    start = bodice()
    there = done(step, start, "there").pattern
    assert sum(len(p.cuts) for p in there.pieces) in (1, 2)
    again = done(back(step), there, "back").pattern
    assert not any(p.cuts for p in again.pieces)
    split = {p.name for p in again.pieces if p.side is not start.piece(p.name, None).side}
    assert_given_back(split_sides(start, split).pattern, again)


def test_cuts_are_taken_back_in_reverse_order_with_other_steps_between() -> None:
    start = bodice()
    side_in = TakeIn(
        seam="side", amounts=(AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=6.0),)
    )
    side_out = replace(side_in, amounts=(replace(side_in.amounts[0], amount_mm=-6.0),))
    pattern = start
    for number, step in enumerate((BACK_WIDER, LONGER, side_in, CHEST_HOLLOW)):
        pattern = apply_step(step, pattern, str(number)).pattern
    for number, step in enumerate((back(CHEST_HOLLOW), side_out, back(LONGER), back(BACK_WIDER))):
        pattern = apply_step(step, pattern, f"back {number}").pattern
    assert_given_back(start, pattern, 4 * SAME_MM)


def test_a_cut_is_taken_back_on_each_half_once_they_are_told_apart() -> None:
    start = bodice()
    there = apply_step(BACK_WIDER, start, "there").pattern
    apart = split_sides(there, {"back"}).pattern
    again = done(back(BACK_WIDER), apart, "back").pattern
    assert_given_back(split_sides(start, {"back"}).pattern, again)


@pytest.mark.parametrize("other", [
    replace(back(BACK_WIDER), by_mm=6.0),  # by less than it was opened
    replace(back(BACK_WIDER), mouth_mm=65.0),  # a hand's breadth away from it
    replace(BACK_WIDER, by_mm=9.0),  # opened again
])  # fmt: skip
def test_another_cut_is_no_way_back(other: Kind) -> None:
    there = done(BACK_WIDER, bodice(), "there").pattern
    after = done(other, there, "other").pattern
    assert len(after.piece("back").cuts) == 2


def test_where_the_edge_was_changed_since_it_is_drawn_from_what_lies_there() -> None:
    there = apply_step(BACK_WIDER, bodice(), "there").pattern
    shaped = ReshapeEdge(
        piece="back", edge="armhole",
        amounts=(AmountAt(corner="shoulder point", distance_mm=95.0, amount_mm=3.0),),
    )  # fmt: skip
    after = done(back(BACK_WIDER), apply_step(shaped, there, "shaped").pattern, "back").pattern
    # The hollow stays: it is not what was there before the cut.
    assert after.piece("back").edge("armhole").nearest(
        bodice().piece("back").edge("armhole").point_at(95.0)
    )[1] > 1.0  # fmt: skip


def test_what_a_cut_replaced_is_kept_in_the_record_and_only_there_where_there_was_one() -> None:
    start = bodice()
    assert all("cuts" not in p for p in pattern_record(start)["pieces"])
    there = apply_step(LONGER, start, "there").pattern
    read = pattern_from(json.loads(canonical(pattern_record(there))))
    assert read == there
    assert_given_back(start, apply_step(back(LONGER), read, "back").pattern)


def test_a_piece_keeps_its_last_eight_cuts() -> None:
    pattern = bodice()
    for number in range(10):
        step = replace(LONGER, by_mm=2.0, above_mm=40.0 + 6.0 * number)
        pattern = apply_step(step, pattern, str(number)).pattern
    assert [len(p.cuts) for p in pattern.pieces] == [8, 8]


@settings(max_examples=40)
@given(
    sort=st.sampled_from(["bodice by hand", "bodice", "torso", "trousers", "skirt"]),
    number=st.integers(0, 2), data=st.data(),
)  # fmt: skip
def test_any_spread_folded_out_again_leaves_nothing(
    sort: str, number: int, data: st.DataObject
) -> None:
    start = block(sort, number)
    piece = data.draw(st.sampled_from([p for p in start.pieces if p.fold is None]))
    mouth = data.draw(st.sampled_from(piece.edges))
    hinge = data.draw(st.sampled_from([e for e in piece.edges if e is not mouth]))
    share = st.floats(0.1, 0.9)
    step = data.draw(st.sampled_from([SlashAndSpread, FoldOut]))(
        piece=piece.name, mouth_edge=mouth.name, mouth_corner=mouth.start,
        mouth_mm=data.draw(share) * mouth.length, hinge_edge=hinge.name,
        hinge_corner=hinge.start, hinge_mm=data.draw(share) * hinge.length,
        by_mm=data.draw(st.floats(1, 12)),
    )  # fmt: skip
    if not fits(step, start):
        return
    there = apply_step(step, start, "there").pattern
    if not fits(back(step), there):
        return  # by the same tape, its place is now too near a dart or an end
    assert_given_back(start, apply_step(back(step), there, "back").pattern)
