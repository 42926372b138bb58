"""What is told of right and left: once where both are alike, else each with its side."""

import pytest
from fitted import fitted

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.change_a_dart import ChangeDart
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.cut_the_neckline import CutNeckline
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.alterations.round_the_waist import darts_told
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.by_side import told_by_side
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Run

RIGHT = BodySide.RIGHT


def done(pattern: Pattern, *steps: Kind) -> Applied:
    for number, step in enumerate(steps):
        last = apply_step(step, pattern, f"step {number}")
        pattern = last.pattern
    return last


def uneven() -> TakeIn:
    return TakeIn(
        seam="side", side=RIGHT,
        amounts=(AmountAt(corner="side waist", distance_mm=0.0, amount_mm=12.0),
                 AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=8.0)),
    )  # fmt: skip


def test_sides_are_named_only_where_what_is_told_differs() -> None:
    told = [("right", "alike"), ("right", "one"), ("left", "alike"), ("left", "other")]
    assert told_by_side(told) == ("alike", "right: one", "left: other")
    assert told_by_side([("right", "alone")]) == ("alone",)
    assert told_by_side([("both", "alike"), ("", "and more")]) == ("alike", "and more")


def test_a_dart_turned_on_a_front_with_two_halves_is_told_by_its_side() -> None:
    deeper = ChangeDart(piece="front", dart="bust dart", deeper_mm=5.0, side=RIGHT)
    turn = TurnDart(piece="front", dart="bust dart", edge="shoulder", corner="neck point",
                    distance_mm=50.0)  # fmt: skip
    closed, *opened = done(fitted("bodice"), deeper, turn).effect.notes
    assert closed == "bust dart: closed"
    assert [note.partition(":")[0] for note in opened] == [
        "right shoulder dart", "left shoulder dart"
    ]  # fmt: skip
    [_, one] = done(fitted("bodice"), turn).effect.notes
    assert one.startswith("shoulder dart:")


def test_panels_of_two_sides_that_differ_are_told_by_their_sides() -> None:
    slope = ShoulderSlope(to=Slope.SLOPING, by_mm=6.0, side=RIGHT)
    notes = done(fitted("bodice"), slope, PanelFront()).effect.notes
    assert len(set(notes)) == len(notes)
    seams = [n.partition(" front princess")[0] for n in notes if "princess seam: centre" in n]
    assert seams == ["right:", "left:"]


def test_a_gap_that_differs_on_the_two_sides_is_summed_round_the_body() -> None:
    steps = (uneven(), PanelFront(), PanelBack(), JoinSidePanels())
    notes = done(fitted("bodice"), *steps).effect.notes
    at_waist = [n for n in notes if "at the waist line the gap is" in n]
    assert [n.partition(": at")[0] for n in at_waist[:2]] == ["left", "right"]
    one, other, whole = (float(n.partition("gap is ")[2].split()[0]) for n in at_waist)
    assert abs(one - other) > 1
    assert abs(one + other - whole) < 0.11
    assert "round the body" in at_waist[2]
    assert not any("round the body" in n or "a side" in n for n in at_waist[:2])


def test_a_neckline_with_a_button_stand_says_what_to_withdraw() -> None:
    stand = AddButtonStand(piece="front", edge="centre front", width_mm=20.0)
    with pytest.raises(TrackerError, match="withdraw the stand, cut the neckline, and draw the"):
        done(fitted("bodice"), stand, CutNeckline(front_mm=20.0))


def test_a_dart_behind_is_told_from_the_centre_back() -> None:
    block, skirt = fitted("bodice"), fitted("skirt")

    def runs(pattern: Pattern) -> tuple[Run, ...]:
        front, back = pattern.piece("front"), pattern.piece("back")
        return (
            Run("front", "waist", front.side, front.edge("waist").start == "side waist"),
            Run("back", "waist", back.side, back.edge("waist").start != "side waist"),
        )

    told = darts_told(block, runs(block), skirt, runs(skirt), "skirt")
    behind = [t for t in told if "of the back meets" in t]
    assert behind
    assert all("the centre back than" in t for t in behind)
    assert all("the centre front than" in t for t in told if t not in behind)
