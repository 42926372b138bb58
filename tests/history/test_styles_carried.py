"""Styles carried onto a redrafted block: each step applies there, and the version replays."""

import datetime as dt

import irregular
import pytest

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.copy_a_lining import CopyLining
from tracker.alterations.kinds.cut_a_band import CutBand
from tracker.alterations.kinds.cut_a_flat_collar import CutFlatCollar
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.flare_or_peg import FlareOrPeg
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.part_on_a_line import NewPart
from tracker.alterations.kinds.put_on_the_fold import PutOnFold
from tracker.alterations.kinds.remove_a_dart import RemoveDart
from tracker.alterations.kinds.run_on_below import RunOnBelow
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.tracing import EdgeOf
from tracker.drafting.style_leftover import Leftover
from tracker.history.onward import Outcome, bring_across
from tracker.history.replay import check_again
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern

DAY = dt.date(2026, 1, 5)


def neck(piece: str) -> EdgeOf:
    return EdgeOf(piece=piece, edge="neckline")


def low(sort: str) -> TakeIn:
    corner = "side hip" if sort == "torso" else "side waist"
    amounts = (
        AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
        AmountAt(corner=corner, distance_mm=0.0, amount_mm=4.0),
    )
    return TakeIn(seam="side", side=BodySide.LEFT, amounts=amounts)


#: Sort of block, and steps.
STYLES: dict[str, tuple[str, tuple[Kind, ...]]] = {
    "a princess line beside the bust point": (
        "torso",
        (PanelFront(beside_mm=20.0, leftover=Leftover.DART), PanelBack(start="shoulder")),
    ),
    "a midriff band across the waist darts": (
        "bodice",
        (
            PartAtHeight(
                line="waist line", above_mm=60.0, named="band", part=NewPart.LOWER,
                leave=("waist dart",),
            ),
        ),
    ),
    "a swinging dress": (
        "torso",
        (RunOnBelow(by_mm=420.0), FlareOrPeg(by_mm=400.0, from_line="waist line")),
    ),
    "a dress whose sides differ": (
        "torso",
        (low("torso"), RunOnBelow(by_mm=420.0), FlareOrPeg(by_mm=300.0)),
    ),
    "a band at one height, sides differing": (
        "bodice",
        (
            low("bodice"),
            PartAtHeight(
                line="waist line", above_mm=60.0, named="band", part=NewPart.LOWER,
                leave=("waist dart",),
            ),
        ),
    ),
    "a waist dart taken in at the side": (
        "bodice", (RemoveDart(piece="back", dart="waist dart", seam="side"),)
    ),
    "a buttoned front, faced and collared": (
        "bodice",
        (
            AddButtonStand(width_mm=20.0, facing_mm=65.0),
            TraceFacing(name="neck facing", edges=(neck("front"),), width_mm=50.0),
            CutStandCollar(
                name="collar", shorter_mm=14.0, beyond_mm=20.0, fold_at="centre back"
            ),
        ),
    ),
    "a flat collar": ("bodice", (CutFlatCollar(name="collar", overlap_mm=20.0),)),
    "a lining that is in panels since": (
        "bodice",
        (
            CopyLining(name="front lining", piece="front"),
            CopyLining(name="back lining", piece="back"),
            PanelFront(),
            PanelBack(),
            TraceAgain(),
        ),
    ),
    "a waistband that opens at the side": (
        "bodice",
        (
            PutOnFold(piece="back"),
            CutBand(
                name="band",
                edges=(EdgeOf(piece="front", edge="waist"), EdgeOf(piece="back", edge="waist")),
            ),
        ),
    ),
}  # fmt: skip


def made(block: Pattern, steps: tuple[Kind, ...]) -> tuple[Version, Version]:
    first = first_version(Address("mara", "style", 1), Root("by hand", 1, {}), block, "", DAY)
    taken = tuple((step, ()) for step in steps)
    return first, next_version(first, Address("mara", "style", 2), taken, "", DAY)


@pytest.mark.parametrize("onto", [1, 3])
@pytest.mark.parametrize("style", STYLES)
def test_a_style_is_carried_onto_another_block_of_its_sort(style: str, onto: int) -> None:
    sort, steps = STYLES[style]
    first, second = made(irregular.block(sort, 0), steps)
    assert check_again(second, first).sound
    fresh = irregular.block(sort, onto)
    brought = bring_across(second.taken, fresh)
    assert [b.told for b in brought.steps if b.outcome is Outcome.CANNOT] == []
    base = first_version(Address("mara", "new", 1), Root("by hand", 1, {}), fresh, "", DAY)
    there = next_version(base, Address("mara", "new", 2), brought.done, "", DAY)
    assert check_again(there, base).sound
    known = {f.place for f in check(fresh).findings}
    assert [f.sentence for f in check(there.pattern).findings if f.place not in known] == []
