"""The very opposite of a step, nothing it touched changed since, gives back what was there."""

import json
from dataclasses import replace

import pytest
from altering import assert_same, done
from wardrobe import bodice

from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.bust_volume import BustVolume
from tracker.alterations.kinds.change_a_dart import ChangeDart
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.move_a_dart import MoveDart
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import canonical, pattern_digest, pattern_from, pattern_record
from tracker.pattern.earlier import KEPT_EARLIER

FULLER = BustVolume(by_mm=24.0)
DEEPER = ChangeDart(piece="front", dart="waist dart", deeper_mm=5.0, longer_mm=-8.0)
LOWER = MoveDart(piece="front", dart="bust dart", by_mm=12.0, toward="side waist")
ALONG = MoveCorner(
    piece="back", corner="neck point", edge="neckline", along_mm=-6.0, across_mm=-5.0
)
SLOPING = ShoulderSlope(to=Slope.SLOPING, by_mm=7.0)
STEPS = (FULLER, DEEPER, LOWER, ALONG, SLOPING)


def opposite(step: Kind) -> Kind:
    found = step.opposite(bodice())
    assert found is not None
    return found


@pytest.mark.parametrize("step", STEPS, ids=lambda s: s.word)
def test_the_opposite_of_a_step_gives_back_what_was_there(step: Kind) -> None:
    start = bodice()
    there = done(step, start, "there")
    back = done(opposite(step), there.pattern, "back")
    assert pattern_digest(back.pattern) == pattern_digest(start)
    # Its effect is that of any step: what it changed, as measured.
    assert {c.what for c in back.effect.edges} == {c.what for c in there.effect.edges}
    assert opposite(opposite(step)) == step


@pytest.mark.parametrize("step", STEPS[1:], ids=lambda s: s.word)
def test_on_one_side_only_too_once_the_pieces_are_told_apart(step: Kind) -> None:
    start, left = bodice(), replace(step, side=BodySide.LEFT)
    there = done(left, start, "there").pattern
    again = done(opposite(left), there, "back").pattern
    apart = {p.name for p in again.pieces if p.side is not BodySide.BOTH}
    assert apart
    assert_same(again, split_sides(start, apart).pattern, 1e-6)


def test_other_steps_between_are_no_matter_once_they_are_taken_back() -> None:
    start = bodice()
    side_in = TakeIn(
        seam="side", amounts=(AmountAt(corner="side waist", distance_mm=0.0, amount_mm=6.0),)
    )
    side_out = replace(side_in, amounts=(replace(side_in.amounts[0], amount_mm=-6.0),))
    pattern = start
    for k, step in enumerate((DEEPER, ALONG, side_in, side_out, opposite(ALONG), opposite(DEEPER))):
        pattern = apply_step(step, pattern, str(k)).pattern
    assert_same(pattern, start, 1e-6)


def test_where_something_changed_since_it_is_drawn_from_what_lies_there() -> None:
    hollowed = ReshapeEdge(
        piece="front", edge="waist",
        amounts=(AmountAt(corner="centre front waist", distance_mm=0.0, amount_mm=6.0),),
    )  # fmt: skip
    there = apply_step(DEEPER, bodice(), "there").pattern
    after = done(opposite(DEEPER), apply_step(hollowed, there, "shaped").pattern, "back").pattern
    # The waist stays hollowed: it is not what was there before.
    was = bodice().piece("front").edge("waist")
    assert after.piece("front").edge("waist").nearest(was.point_at(0.0))[1] > 5.0


def test_by_another_amount_it_is_a_step_of_its_own() -> None:
    there = apply_step(DEEPER, bodice(), "there").pattern
    after = done(replace(opposite(DEEPER), deeper_mm=-4.0), there, "back").pattern
    dart = after.piece("front").dart("waist dart")
    assert dart.intake_mm == pytest.approx(
        bodice().piece("front").dart("waist dart").intake_mm + 1.0, abs=0.05
    )


def test_how_a_piece_was_is_kept_in_the_record_and_only_for_its_last_steps() -> None:
    start = bodice()
    assert all("earlier" not in p for p in pattern_record(start)["pieces"])
    pattern = start
    for k in range(6):
        pattern = apply_step(
            replace(DEEPER, deeper_mm=1.0, longer_mm=-2.0 * k), pattern, str(k)
        ).pattern
    assert len(pattern.piece("front").earlier) == KEPT_EARLIER
    assert not pattern.piece("back").earlier
    read = pattern_from(json.loads(canonical(pattern_record(pattern))))
    assert read == pattern
    one = replace(DEEPER, deeper_mm=-1.0, longer_mm=10.0)
    assert pattern_digest(apply_step(one, read, "back").pattern) == pattern_digest(
        apply_step(one, pattern, "back").pattern
    )
