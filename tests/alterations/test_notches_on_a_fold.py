"""A notch where the cloth is folded: gone with the seam, or a mark once the piece is opened out."""

from dataclasses import replace

import pytest
from alterations.test_invariants import assert_named
from irregular import block

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.put_on_the_fold import PutOnFold
from tracker.alterations.kinds.seam_at_the_centre import CentreSeam
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge

ONE_SIDE = TakeIn(
    seam="side", side=BodySide.RIGHT,
    amounts=(AmountAt(corner="side waist", distance_mm=0.0, amount_mm=2.0),),
)  # fmt: skip


def test_put_on_the_fold_the_notch_of_the_seam_that_was_there_is_gone_and_told() -> None:
    done = apply_step(PutOnFold(piece="back"), block("skirt"), "one")
    assert not [n for n in done.pattern.piece("back").notches if n.edge == "centre back"]
    assert done.effect.notches == (
        "opening notch of the back gone with the seam at the centre back",
    )
    opened = apply_step(ONE_SIDE, done.pattern, "two").pattern
    assert_named(opened)


def notched() -> Pattern:
    notch = AddNotch(
        piece="front", edge="centre front", corner="centre front neck", distance_mm=60.0,
        name="button notch",
    )  # fmt: skip
    return apply_step(notch, block("bodice"), "one").pattern


def test_a_notch_on_the_fold_is_a_mark_once_the_piece_is_opened_out() -> None:
    pattern = notched()
    front = pattern.piece("front")
    notch, edge = front.notch("button notch"), front.edge("centre front")
    there = edge.point_at(notch_on_edge(edge, notch))
    done = apply_step(ONE_SIDE, pattern, "two")
    assert_named(done.pattern)
    opened = done.pattern.piece("front")
    assert opened.mark("button notch").side is BodySide.CENTRE
    assert abs(opened.mark("button notch").point - there) < 1e-6
    assert any("button notch of the front" in told for told in done.effect.notches)
    # Cut as a pair after all, it is a notch of both halves again, as far from the neck.
    paired = apply_step(CentreSeam(piece="front"), done.pattern, "three").pattern
    assert_named(paired)
    for side in (BodySide.RIGHT, BodySide.LEFT):
        again = paired.piece("front", side).notch("button notch")
        half = paired.piece("front", side).edge("centre front")
        assert abs(half.point_at(notch_on_edge(half, again)) - there) < 1e-6


def spoilt(what: str) -> Pattern:
    pattern = block("bodice")
    front = pattern.piece("front")
    if what == "notch":
        return pattern.with_pieces(
            front.with_notch(replace(front.notch("side notch"), edge="centre back"))
        )
    if what == "corner":
        return pattern.with_pieces(
            front.with_notch(replace(front.notch("side notch"), corner="neck point"))
        )
    if what == "too far":
        return pattern.with_pieces(
            front.with_notch(replace(front.notch("side notch"), distance_mm=9999.0))
        )
    if what == "dart":
        return pattern.with_pieces(front.with_dart(replace(front.darts[0], mouth="hem")))
    if what == "mouth":
        return pattern.with_pieces(replace(front, darts=front.darts[1:]))
    seam = pattern.seam("side")
    gone = replace(seam, first=(replace(seam.first[0], edge="panel"),))
    return pattern.with_seam(gone)


@pytest.mark.parametrize(
    ("what", "told"),
    [
        ("notch", "the side notch of the front is on the centre back, an edge that is not there"),
        ("corner", "the side notch of the front is measured from the neck point"),
        ("too far", "the side notch of the front is 9999.0 mm from the underarm point"),
        ("dart", "opens from the hem, an edge that is not there"),
        ("mouth", "a dart that is not there"),
        ("seam", "no edge called 'panel'"),
    ],
)
def test_checking_finds_what_refers_to_something_that_is_not_there(what: str, told: str) -> None:
    checked = check(spoilt(what))
    names = [f for f in checked.findings if f.code == "names"]
    assert any(told in f.sentence for f in names)
    assert all(f.remedy for f in names)
    # A stray notch is left out; the rest is checked all the same.
    stray = what in ("notch", "corner", "too far")
    assert any(label.startswith("seam sides") for label, _ in checked.figures) == stray


def test_a_sound_pattern_refers_to_nothing_that_is_not_there() -> None:
    for sort in ("bodice", "joined bodice", "sleeved bodice", "skirt", "trousers"):
        assert not [f for f in check(block(sort)).findings if f.code == "names"]
