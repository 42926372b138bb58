import pytest
from irregular import block
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check

BLOCK = bodice()


def test_its_partner_goes_along() -> None:
    done = apply_step(MoveNotch(piece="front", notch="side notch", by_mm=12), BLOCK, "one").pattern
    assert done.piece("front").notch("side notch").distance_mm == 132.0
    assert done.piece("back").notch("side notch").distance_mm == 132.0
    assert check(done).clean


def test_told_otherwise_it_goes_alone_and_the_walk_finds_it() -> None:
    step = MoveNotch(piece="back", notch="side notch", by_mm=-12, partner=False)
    done = apply_step(step, BLOCK, "one").pattern
    assert done.piece("front").notch("side notch").distance_mm == 120.0
    assert [f.code for f in check(done).findings] == ["notches"]
    assert "its partner left where it is" in step.sentence(BLOCK)
    (told,) = apply_step(step, BLOCK, "one").effect.leaves
    assert told == (
        "the side notch of the back no longer meets the side notch of the front: 12 mm apart when "
        "the side seam is walked; move the other as much, or remove it"
    )


def test_a_corner_it_meets_stays_and_that_is_told() -> None:
    step = MoveNotch(piece="sleeve", notch="shoulder notch", by_mm=15)
    applied = apply_step(step, block("sleeved bodice", 1), "one")
    assert [f.code for f in check(applied.pattern).findings] == ["notches"]
    (told,) = applied.effect.leaves
    assert "no longer meets the shoulder point of the back: 15 mm apart" in told
    assert "a corner stays, so move the notch back, or remove it" in told


def test_on_one_body_side_only_that_side_moves() -> None:
    step = MoveNotch(piece="front", notch="side notch", by_mm=12, side=BodySide.LEFT)
    done = apply_step(step, BLOCK, "one").pattern
    front = done.piece("front")
    assert front.notch("side notch", BodySide.LEFT).distance_mm == 132.0
    assert front.notch("side notch", BodySide.RIGHT).distance_mm == 120.0
    assert done.piece("back", BodySide.LEFT).notch("side notch").distance_mm == 132.0
    assert done.piece("back", BodySide.RIGHT).notch("side notch").distance_mm == 120.0
    assert check(done).clean


def test_no_edge_and_no_girth_changes() -> None:
    effect = apply_step(MoveNotch(piece="front", notch="side notch", by_mm=12), BLOCK, "one").effect
    assert effect.edges == ()
    assert effect.girths == ()


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (MoveNotch(piece="front", notch="side notch", by_mm=200), "off the side"),
        (MoveNotch(piece="front", notch="side noch", by_mm=2), "Did you mean side notch"),
        (MoveNotch(piece="frount", notch="side notch", by_mm=2), "Did you mean front"),
        (MoveNotch(piece="front", notch="side notch", by_mm=0), "say how far"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: MoveNotch, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")
