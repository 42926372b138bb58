"""Traced pieces follow: out of date is worked out, said, and put right by tracing again."""

from dataclasses import replace

import pytest
from alterations.test_trace_a_facing import of
from altering import assert_same, done
from wardrobe import bodice

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import DoesNotFit
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.cut_an_interfacing import CutInterfacing
from tracker.alterations.kinds.leave_it_as_it_is import LeaveAsItIs
from tracker.alterations.kinds.leave_out_a_piece import LeaveOut
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import findings_of, out_of_date
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.pattern import Pattern


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def lowered(side: BodySide = BodySide.BOTH) -> ReshapeEdge:
    """The front neckline 10 mm lower at the centre."""
    amounts = (at("centre front neck", 10.0), at("neck point", 0.0))
    return ReshapeEdge(piece="front", edge="neckline", amounts=amounts, side=side)


def faced() -> Pattern:
    block = bodice()
    for piece in ("front", "back"):
        kind = TraceFacing(name=f"{piece} facing", edges=of(f"neckline of {piece}"), width_mm=60.0)
        block = done(kind, block, piece).pattern
    return block


def late(pattern: Pattern) -> list[str]:
    return [o.piece for o in out_of_date(pattern)]


def test_a_facing_is_up_to_date_when_it_is_traced_and_what_lies_elsewhere_leaves_it_so() -> None:
    block = faced()
    assert late(block) == []
    side = TakeIn(seam="side", amounts=(at("side waist", 8.0), at("underarm point", 0.0)))
    applied = done(side, block)
    assert late(applied.pattern) == []
    assert not any("out of date" in said for said in applied.effect.leaves)


def test_a_facing_whose_neckline_was_lowered_is_out_of_date_and_the_repair_is_offered() -> None:
    applied = done(lowered(), faced())
    assert late(applied.pattern) == ["front facing"]
    (said,) = (s for s in applied.effect.leaves if "out of date" in s)
    assert said.startswith("the front facing was taken from the front and is out of date")
    longer = applied.pattern.piece("front").edge("neckline").length
    longer -= bodice().piece("front").edge("neckline").length
    assert f"since then the neckline of the front is {longer:.1f} mm longer" in said
    assert 'tracker style again --piece "front facing"' in said
    (finding,) = findings_of(applied.pattern)
    assert (finding.code, finding.place, finding.unit) == ("out of date", "the front facing", "mm")
    assert finding.figure == pytest.approx(10.0, abs=0.1)


def test_traced_again_it_is_what_it_would_have_been() -> None:
    first = done(lowered(), faced()).pattern
    again = done(TraceAgain(piece="front facing"), first, "again")
    assert late(again.pattern) == []
    kind = TraceFacing(name="front facing", edges=of("neckline of front"), width_mm=60.0)
    fresh = done(kind, done(lowered(), bodice()).pattern).pattern.piece("front facing")
    assert again.pattern.piece("front facing").edges == fresh.edges
    assert [p.name for p in again.pattern.pieces] == [p.name for p in first.pieces]
    assert again.effect.pieces == ("front facing",)


def test_without_a_name_every_piece_that_is_out_of_date_is_traced_again() -> None:
    shoulder = TakeIn(seam="shoulder", amounts=(at("neck point", 5.0), at("shoulder point", 0.0)))
    block = done(shoulder, faced()).pattern
    assert late(block) == ["front facing", "back facing"]
    again = done(TraceAgain(), block, "again").pattern
    assert late(again) == []
    with pytest.raises(DoesNotFit, match="no piece of this pattern is out of date"):
        apply_step(TraceAgain(), again, "x")


def test_taken_back_the_change_leaves_the_facing_up_to_date() -> None:
    block = faced()
    undone = ReshapeEdge(
        piece="front", edge="neckline",
        amounts=(at("centre front neck", -10.0), at("neck point", 0.0)),
    )  # fmt: skip
    back = done(undone, done(lowered(), block).pattern, "two").pattern
    assert late(back) == []
    assert_same(back, block)


def test_left_as_it_is_it_is_no_longer_out_of_date_until_the_next_change() -> None:
    block = done(lowered(), faced()).pattern
    kept = done(LeaveAsItIs(piece="front facing"), block, "keep").pattern
    assert late(kept) == []
    assert kept.piece("front facing").edges == block.piece("front facing").edges
    assert late(done(lowered(), kept, "more").pattern) == ["front facing"]
    with pytest.raises(DoesNotFit, match="is not out of date"):
        apply_step(LeaveAsItIs(piece="front facing"), kept, "x")


def test_a_facing_of_both_sides_is_out_of_date_when_one_side_changes_and_follows_as_one() -> None:
    # In front the piece is opened out: the neckline is faced right across the centre.
    off_the_centre = replace(
        lowered(BodySide.RIGHT),
        amounts=(AmountAt(corner="neck point", distance_mm=40.0, amount_mm=5.0),),
    )
    block = done(off_the_centre, faced()).pattern
    assert late(block) == ["front facing"]
    again = done(TraceAgain(piece="front facing"), block, "again").pattern
    (facing,) = (p for p in again.pieces if p.name == "front facing")
    assert facing.side is BodySide.CENTRE
    assert late(again) == []


def test_a_facing_follows_its_piece_into_panels() -> None:
    block = done(PanelFront(start="armhole"), faced()).pattern
    assert late(block) == []  # its neckline went to the centre front panel as it was
    lower = replace(lowered(), piece="centre front")
    applied = done(lower, block)
    assert late(applied.pattern) == ["front facing"]
    again = done(TraceAgain(), applied.pattern, "again").pattern
    facing = again.piece("front facing")
    assert {s.piece for s in facing.traced.seen} == {"centre front"}
    neck = again.piece("centre front").edge("neckline").length
    assert facing.edge("neckline").length == pytest.approx(neck, abs=1e-6)


def test_what_was_not_traced_cannot_be_traced_again() -> None:
    for kind in (TraceAgain(piece="front"), LeaveAsItIs(piece="front")):
        with pytest.raises(TrackerError, match="not traced"):
            apply_step(kind, faced(), "x")
    with pytest.raises(TrackerError, match="no piece called 'fcing'"):
        apply_step(TraceAgain(piece="fcing"), faced(), "x")


def test_tracing_what_is_not_out_of_date_changes_nothing() -> None:
    block = faced()
    again = done(TraceAgain(piece="front facing"), block, "again")
    assert pattern_digest(again.pattern) == pattern_digest(block)


def test_a_taken_piece_is_left_out_with_its_seam_and_nothing_else() -> None:
    block = done(CutStandCollar(name="collar"), faced(), "collar").pattern
    applied = done(LeaveOut(piece="collar"), block, "out")
    assert applied.pattern.pieces == block.pieces[:-1]
    assert [s.name for s in applied.pattern.seams] == ["side", "shoulder", "centre back"]
    assert "the neck seam is gone" in applied.effect.notes


@pytest.mark.parametrize(
    ("piece", "part"),
    [
        ("front", "a piece of the shell"),
        ("front facing", "interfacing was taken from the front facing"),
        ("facing", "no piece called 'facing'"),
    ],
)
def test_what_others_need_is_not_left_out(piece: str, part: str) -> None:
    block = done(CutInterfacing(name="interfacing", piece="front facing"), faced(), "i").pattern
    with pytest.raises(TrackerError, match=part):
        apply_step(LeaveOut(piece=piece), block, "x")
