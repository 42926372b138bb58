"""Styles of a block whose sides differ: the front is opened out across the centre, and stays so."""

import math

import irregular
import pytest
from altering import assert_accounted

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.cut_a_flat_collar import CutFlatCollar
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.join_a_skirt import JoinSkirt
from tracker.alterations.kinds.make_it_sleeveless import MakeSleeveless
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.part_on_a_line import LineEnd, LineShape, NewPart, PartOnLine
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.run_on_below import RunOnBelow
from tracker.alterations.kinds.seam_at_the_centre import CentreSeam
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

SIDES = (BodySide.RIGHT, BodySide.LEFT)


def one_sided(sort: str, number: int, side: BodySide = BodySide.LEFT) -> Pattern:
    """A block taken in at one side seam."""
    block = irregular.block(sort, number)
    corner = next(c for c in block.piece("front").corners if c in ("side waist", "side hip"))
    low = AmountAt(corner=corner, distance_mm=0.0, amount_mm=4.0)
    return apply_step(TakeIn(seam="side", side=side, amounts=(low,)), block, "before").pattern


def at(edge: str, mm: float, corner: str) -> LineEnd:
    return LineEnd(edge=edge, corner=corner, distance_mm=mm)


TO_THE_NECK = PartOnLine(
    pieces=("front",),
    ends=(at("armhole", 80, "shoulder point"), at("neckline", 40, "neck point")),
)
MIDRIFF = PartOnLine(
    pieces=("front", "back"),
    ends=(
        at("centre front", 70, "centre front waist"),
        at("side", 60, "side waist"),
        at("centre back", 60, "centre back waist"),
    ),
    shape=LineShape.CURVED, part=NewPart.LOWER, named="midriff", leave=("waist dart",),
)  # fmt: skip
BAND = PartAtHeight(
    line="waist line", above_mm=60, named="band", part=NewPart.LOWER, leave=("waist dart",)
)
DROPPED = PartAtHeight(line="waist line", above_mm=-60, named="skirt", part=NewPart.LOWER)
DRESS = RunOnBelow(by_mm=400, hem_mm=1500)

#: Sort of block and step; the pieces that are one across the centre after it.
CASES: dict[str, tuple[str, Kind, set[str]]] = {
    "a yoke to the neckline": ("bodice", TO_THE_NECK, {"front"}),
    "a midriff over the side": ("bodice", MIDRIFF, {"front", "front midriff"}),
    "a band at a height": ("bodice", BAND, {"front", "front band"}),
    "a dropped waist": ("torso", DROPPED, {"front", "front skirt"}),
    "a dress": ("torso", DRESS, {"front"}),
}


def assert_good(before: Pattern, done: Applied) -> None:
    new = done.pattern
    known = {f.place for f in check(before).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    assert_accounted(before, done)
    for seam in new.seams:
        first, second = side_lengths(new, seam)
        assert second - first == pytest.approx(seam.planned_ease_mm, abs=0.7), seam.name
    for line in lines_of(before):
        assert girth(new, line) == pytest.approx(girth(before, line), abs=0.05), line


@pytest.mark.parametrize("number", range(4))
@pytest.mark.parametrize("case", CASES)
def test_a_front_cut_in_one_across_the_centre_stays_so_and_everything_fits(
    case: str, number: int
) -> None:
    sort, step, across = CASES[case]
    block = one_sided(sort, number)
    done = apply_step(step, block, "one")
    assert_good(block, done)
    whole = [p for p in done.pattern.pieces if p.side is BodySide.CENTRE]
    assert {p.name for p in whole} == across
    for piece in whole:
        (centre,) = [v for v in piece.levels if v.side is BodySide.CENTRE]
        assert centre.name == "centre front"
        assert piece.copies == 1
        # The outline runs smoothly over the centre at either end of it.
        for spot in (centre.strokes[0][0], centre.strokes[0][-1]):
            (before,) = [e for e in piece.edges if abs(e.drawn[-1].end - spot) < 1e-6]
            after = piece.after(before)
            bend = turn_between(before.drawn[-1].end_heading, after.drawn[0].start_heading)
            assert abs(math.degrees(bend)) < 2.0, (piece.name, before.name)
    assert not [s for s in done.pattern.seams if s.name == "centre front"]


def test_it_is_what_it_is_on_both_sides_where_the_sides_are_alike() -> None:
    """The side that was not touched is drawn as on the block before it was opened out."""
    block = irregular.block("bodice")
    plain = apply_step(BAND, block, "one").pattern
    new = apply_step(BAND, one_sided("bodice", 0), "one").pattern
    for name in ("front", "front band"):
        for edge in plain.piece(name).edges:
            if edge.name == "centre front":
                continue
            there = new.piece(name).edge(edge.name, BodySide.RIGHT)
            assert there.length == pytest.approx(edge.length, abs=1e-4), edge.name


@pytest.mark.parametrize("side", SIDES)
def test_on_one_side_only_a_line_clear_of_the_centre_parts_that_side(side: BodySide) -> None:
    block = irregular.block("bodice")
    step = PartOnLine(pieces=("front",), ends=TO_THE_NECK.ends, side=side)
    done = apply_step(step, block, "one")
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(done.pattern).findings if f.place not in known] == []
    assert [p.side for p in done.pattern.pieces if p.name == "front yoke"] == [side]
    assert [p.side for p in done.pattern.pieces if p.name == "front"] == [BodySide.CENTRE]
    again = apply_step(PartOnLine.from_parameters(step.parameters()), block, "one")
    assert pattern_digest(again.pattern) == pattern_digest(done.pattern)


def test_on_one_side_only_a_line_to_the_centre_of_a_whole_piece_is_refused() -> None:
    ends = (at("armhole", 60, "shoulder point"), at("centre front", 60, "centre front neck"))
    step = PartOnLine(pieces=("front",), ends=ends, side=BodySide.RIGHT)
    with pytest.raises(TrackerError, match="sew one first, or part both sides"):
        apply_step(step, irregular.block("bodice"), "one")


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("differs", ["bodice", "skirt", "both"])
def test_a_skirt_is_sewn_on_side_by_side(differs: str, number: int) -> None:
    upper, lower = irregular.block("bodice", number), irregular.block("skirt", number)
    if differs != "skirt":
        upper = one_sided("bodice", number)
    if differs != "bodice":
        lower = one_sided("skirt", number, BodySide.RIGHT)
    done = apply_step(JoinSkirt.of_pattern(lower, "mara/skirt@1"), upper, "one")
    new = done.pattern
    known = {f.place for f in check(upper).findings} | {
        f.place.replace("the ", "the skirt ") for f in check(lower).findings
    }
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    assert [s.side for s in new.seams if s.name == "waist"] == list(SIDES)
    for side in SIDES:
        first, second = side_lengths(new, new.seam("waist", side))
        assert first == pytest.approx(second, abs=0.1)
        assert girth(new, "waist line", side) == pytest.approx(
            girth(upper, "waist line", side), abs=1e-5
        )
        told = "; ".join(done.effect.notes)
        assert f"{side} side: waist: bodice {first:.1f}".removesuffix(".0") in told
    assert [p.side for p in new.pieces if p.name == "skirt front"] == [BodySide.CENTRE]


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("facing_mm", [0.0, 65.0])
def test_a_front_that_is_opened_out_is_cut_as_a_pair_for_its_button_stand(
    number: int, facing_mm: float
) -> None:
    block = one_sided("bodice", number)
    done = apply_step(AddButtonStand(width_mm=20.0, facing_mm=facing_mm), block, "one")
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(done.pattern).findings if f.place not in known] == []
    fronts = [p for p in done.pattern.pieces if p.name == "front"]
    assert [(p.side, p.cut) for p in fronts] == [(s, "cut 1") for s in SIDES]
    for side in SIDES:
        front = done.pattern.piece("front", side)
        assert [v.name for v in front.levels if v.side is BodySide.CENTRE][:1] == ["centre front"]
        for line in lines_of(block):
            assert girth(done.pattern, line, side) == pytest.approx(girth(block, line, side))
    with pytest.raises(TrackerError, match="put a seam at the centre first"):
        apply_step(AddButtonStand(side=BodySide.LEFT), block, "one")


@pytest.mark.parametrize("sewn", [True, False])
def test_a_front_that_is_opened_out_gets_a_seam_or_an_opening_at_its_centre(sewn: bool) -> None:
    block = one_sided("bodice", 0)
    step = CentreSeam(piece="front", sewn=sewn)
    assert step.sentence(block).endswith("at the centre front")
    done = apply_step(step, block, "one")
    assert [p.side for p in done.pattern.pieces if p.name == "front"] == list(SIDES)
    assert [s.side for s in done.pattern.seams if s.name == "centre front"] == (
        [BodySide.CENTRE] if sewn else []
    )
    turned = TurnDart(
        piece="front", dart="bust dart", edge="centre front", corner="centre front neck",
        distance_mm=120.0, share=0.5,
    )  # fmt: skip
    new = apply_step(turned, done.pattern, "two").pattern
    known = {f.place for f in check(done.pattern).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []


@pytest.mark.parametrize(
    "collar",
    [CutStandCollar(name="collar", fold_at="centre back"), CutFlatCollar(name="collar")],
    ids=lambda k: k.word,
)
@pytest.mark.parametrize("number", range(2))
def test_a_collar_is_cut_on_the_fold_where_the_neckline_is_alike_on_both_sides(
    number: int, collar: Kind
) -> None:
    block = one_sided("bodice", number)
    new = apply_step(collar, block, "one").pattern
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    assert [s.side for s in new.seams if s.name == "neck"] == list(SIDES)
    for side in SIDES:
        first, second = side_lengths(new, new.seam("neck", side))
        assert first == pytest.approx(second, abs=1e-3)
    uneven = apply_step(
        ReshapeEdge(
            piece="front", edge="neckline", side=BodySide.LEFT,
            amounts=(
                AmountAt(corner="centre front neck", distance_mm=0.0, amount_mm=0.0),
                AmountAt(corner="centre front neck", distance_mm=50.0, amount_mm=12.0),
                AmountAt(corner="neck point", distance_mm=0.0, amount_mm=0.0),
            ),
        ),
        block,
        "uneven",
    ).pattern  # fmt: skip
    with pytest.raises(TrackerError, match="longer on one side than on the other"):
        apply_step(collar, uneven, "one")


@pytest.mark.parametrize("sort", ["bodice", "torso"])
@pytest.mark.parametrize("number", range(3))
def test_a_block_whose_sides_differ_is_made_sleeveless_on_both(sort: str, number: int) -> None:
    block = one_sided(sort, number)
    new = apply_step(MakeSleeveless(), block, "one").pattern
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
