"""The walk of pieces taken from others: each against its edges, and among themselves."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from alterations.test_trace_a_facing import of
from altering import done
from drafted import drafted
from wardrobe import bodice

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.copy_a_lining import CopyLining, EdgeEase
from tracker.alterations.kinds.cut_a_band import CutBand
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.cut_an_interfacing import CutInterfacing
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.set_the_layer import Layer, SetLayer
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.pattern.checked import Checked
from tracker.pattern.pattern import Pattern

SIDE = (EdgeEase(edge="side", by_mm=3.0),)
STEPS: tuple[Kind, ...] = (
    TraceFacing(name="front facing", edges=of("neckline of front"), width_mm=50.0),
    TraceFacing(name="back facing", edges=of("neckline of back"), width_mm=50.0),
    CopyLining(name="front lining", piece="front", without=("front facing",), ease=SIDE),
    CopyLining(name="back lining", piece="back", without=("back facing",), ease=SIDE, pleat_mm=20),
    CutInterfacing(name="facing interfacing", piece="front facing", smaller_mm=2.0),
    CutStandCollar(name="collar"),
    CutBand(name="band", edges=of("waist of front", "waist of back"), overlap_mm=30.0),
)


def dressed(block: Pattern) -> Pattern:
    for k, step in enumerate(STEPS):
        block = done(step, block, f"s{k}").pattern
    return block


def lines(checked: Checked, code: str) -> dict[str, str]:
    begun = f"{code}: "
    return {w.removeprefix(begun): v for w, v in checked.figures if w.startswith(begun)}


def test_a_faced_and_lined_bodice_passes_and_each_tick_has_its_figure() -> None:
    checked = before_cutting(dressed(bodice()))
    assert checked.clean
    assert set(lines(checked, "taken pieces")) == {
        "neckline of the front facing", "neckline of the back facing",
        "neckline of the front lining", "neckline of the back lining", "band seam of the band",
    }  # fmt: skip
    sides = lines(checked, "seam sides")
    assert {"lining side seam", "lining shoulder seam", "facing shoulder seam"} <= set(sides)
    assert "neck seam" in sides
    assert set(lines(checked, "up to date")) == {
        "the front facing", "the back facing", "the front lining", "the back lining",
        "the facing interfacing", "the collar", "the band",
    }  # fmt: skip
    assert set(lines(checked, "grain")) == {
        "the front", "the back", "the front facing", "the back facing", "the front lining",
        "the back lining", "the facing interfacing", "the collar", "the band",
    }  # fmt: skip


@pytest.mark.parametrize("number", [1, 2, 4])
def test_drafted_blocks_faced_and_lined_pass(number: int) -> None:
    assert before_cutting(dressed(drafted(number))).clean


def reshaped(piece: str, edge: str, corner: str, amount: float, other: str) -> Kind:
    amounts = (AmountAt(corner=corner, distance_mm=0.0, amount_mm=amount),
               AmountAt(corner=other, distance_mm=0.0, amount_mm=0.0))  # fmt: skip
    return ReshapeEdge(piece=piece, edge=edge, amounts=amounts)


def _facing_short(p: Pattern) -> Pattern:
    return done(
        reshaped("front facing", "shoulder", "neck point", 4.0, "inner shoulder"), p
    ).pattern


def _neck_lowered(p: Pattern) -> Pattern:
    return done(reshaped("front", "neckline", "centre front neck", 8.0, "neck point"), p).pattern


def _lining_side_off(p: Pattern) -> Pattern:
    step = reshaped("back lining", "waist", "side waist", 6.0, "centre back waist")
    return done(step, p).pattern


def _band_short(p: Pattern) -> Pattern:
    step = ReshapeEdge(
        piece="band", edge="far end",
        amounts=(AmountAt(corner="seam end", distance_mm=0.0, amount_mm=5.0),),
    )  # fmt: skip
    return done(step, p).pattern


@pytest.mark.parametrize(
    ("spoil", "code", "place", "figure"),
    [
        pytest.param(_facing_short, "taken pieces", "neckline of the front facing", None,
                     id="a facing that no longer is as long as its neckline"),
        pytest.param(_neck_lowered, "out of date", "the front facing", 8.0,
                     id="a facing out of date"),
        pytest.param(_neck_lowered, "out of date", "the facing interfacing", 0.0,
                     id="what is taken from a piece that is out of date is so too"),
        pytest.param(_neck_lowered, "seam sides", "neck seam", None,
                     id="a collar that no longer is as long as its neckline"),
        pytest.param(_lining_side_off, "seam sides", "lining side seam", None,
                     id="a lining's side that does not match"),
        pytest.param(_band_short, "taken pieces", "band seam of the band", -5.0,
                     id="a band that is too short"),
    ],
)  # fmt: skip
def test_each_can_fail_and_says_where_and_by_how_much(
    spoil: Callable[[Pattern], Pattern], code: str, place: str, figure: float | None
) -> None:
    block = dressed(bodice())
    checked = before_cutting(spoil(block))
    found = [f for f in checked.findings if (f.code, f.place) == (code, place)]
    assert len(found) == 1, [(f.code, f.place) for f in checked.findings]
    if figure is not None:
        assert found[0].figure == pytest.approx(figure, abs=0.2)
    assert found[0].remedy


def test_one_cause_is_told_once() -> None:
    block = _neck_lowered(dressed(bodice()))
    told = [f.place for f in before_cutting(block).findings if f.code == "taken pieces"]
    assert told == []


def test_what_no_step_took_is_said_not_to_have_been_checked() -> None:
    block = bodice()
    copy = replace(block.piece("back"), name="old lining")
    block = replace(block, pieces=(*block.pieces, copy))
    step = SetLayer(piece="old lining", layer=Layer.LINING, taken_from="back")
    checked = before_cutting(done(step, block).pattern)
    assert any("whether the old lining still follows the back" in w for w in checked.not_checked)


def test_where_the_parents_edge_is_gone_the_walk_says_so() -> None:
    block = done(STEPS[0], bodice()).pattern
    gone = replace(block, pieces=block.pieces[1:], seams=())
    checked = before_cutting(gone)
    assert any("the neckline of the front is gone" in why for why in checked.not_checked)
