"""Bands and collars are as long as what they are sewn to, and notched where its seams come."""

import pytest
from alterations.test_trace_a_facing import of
from altering import A_THIRD, NO_OUTLINE, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck
from tracker.alterations.kinds.cut_a_band import CutBand
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.put_on_the_fold import PutOnFold
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import out_of_date
from tracker.alterations.tracing import EdgeOf
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

WAIST = of("waist of front", "waist of back")


def cut(kind: Kind, pattern: Pattern) -> Piece:
    return done(kind, pattern).pattern.pieces[-1]


def spots(piece: Piece) -> dict[str, float]:
    return {n.name: n.distance_mm for n in piece.notches}


@pytest.mark.parametrize("overlap", [0.0, 30.0])
def test_a_waistband_is_as_long_as_the_waist_all_round_and_its_overlap(overlap: float) -> None:
    block = bodice()
    band = cut(CutBand(name="band", edges=WAIST, width_mm=30.0, overlap_mm=overlap), block)
    assert band.edge("band seam").length == pytest.approx(around(block, "waist") + overlap)
    assert (band.side, band.copies, band.cut) == (BodySide.CENTRE, 1, "cut 1")
    # folded along its middle it is as wide as told
    assert band.edge("far end").length == pytest.approx(60.0)
    assert band.level("fold line").strokes[0][0].imag == pytest.approx(30.0)


def test_a_waistband_is_notched_at_the_seams_and_centres_of_what_it_goes_on() -> None:
    # Seen from outside and opening behind: her right half comes first.
    block = bodice()
    back, front = (block.piece(p).edge("waist").length for p in ("back", "front"))
    band = cut(CutBand(name="band", edges=WAIST, overlap_mm=30.0), block)
    assert spots(band) == {
        "centre back": pytest.approx(30.0),
        "right side": pytest.approx(30.0 + back),
        "centre front": pytest.approx(30.0 + back + front),
        "left side": pytest.approx(30.0 + back + 2 * front),
    }
    left = cut(CutBand(name="b", edges=WAIST, overlap_mm=30.0, overlap_on=BodySide.LEFT), block)
    assert spots(left)["right side"] == pytest.approx(back)
    assert spots(left)["centre back"] == pytest.approx(2 * (back + front))


@pytest.mark.parametrize(
    ("opens_at", "order"),
    [
        ("", ("centre back", "right side", "centre front")),  # on her left, by common practice
        ("left side", ("centre back", "right side", "centre front")),
        ("right side", ("centre front", "left side", "centre back")),
    ],
)
@pytest.mark.parametrize("overlap", [0.0, 30.0])
def test_with_folds_at_both_centres_a_band_opens_at_a_side(
    opens_at: str, order: tuple[str, ...], overlap: float
) -> None:
    block = done(PutOnFold(piece="back"), bodice()).pattern
    kind = CutBand(name="band", edges=WAIST, overlap_mm=overlap, opens_at=opens_at)
    applied = done(kind, block)
    band = applied.pattern.piece("band")
    assert check(applied.pattern).clean
    assert band.edge("band seam").length == pytest.approx(around(block, "waist") + overlap)
    marked = [name for name, at in sorted(spots(band).items(), key=lambda s: s[1])]
    assert [m for m in marked if m in order] == list(order)
    back, front = (block.piece(p).edge("waist").length for p in ("back", "front"))
    # The overlap goes on at the back's end.
    begun = overlap if opens_at != "right side" else 0.0
    first = back if opens_at != "right side" else front
    assert spots(band)[order[0]] == pytest.approx(begun + first)
    told = "; ".join(applied.effect.notes)
    assert ("leave the side seam open there" in told) == (opens_at == "")


def test_a_side_may_be_chosen_where_the_back_is_open() -> None:
    band = cut(CutBand(name="band", edges=WAIST, opens_at="left side"), bodice())
    back = bodice().piece("back").edge("waist").length
    assert spots(band)["centre back"] == pytest.approx(back)


def test_where_right_and_left_differ_a_band_counts_both() -> None:
    amounts = (AmountAt(corner="side waist", distance_mm=0.0, amount_mm=8.0),
               AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0))  # fmt: skip
    uneven = apply_step(TakeIn(seam="side", amounts=amounts, side=BodySide.RIGHT), bodice(), "x")
    band = cut(CutBand(name="band", edges=WAIST), uneven.pattern)
    whole = around(uneven.pattern, "waist")
    assert whole < around(bodice(), "waist") - 7
    assert band.edge("band seam").length == pytest.approx(whole)
    assert check(uneven.pattern).clean


def test_a_cuff_is_a_pair_as_long_as_the_sleeves_edge() -> None:
    kind = CutBand(name="cuff", edges=of("hem of sleeve"), overlap_mm=20.0, doubled=False)
    cuff = cut(kind, sleeved())
    assert cuff.edge("band seam").length == pytest.approx(240.0)
    assert (cuff.side, cuff.copies, cuff.cut) == (BodySide.BOTH, 2, "cut 2, a pair")
    assert cuff.edge("far end").length == pytest.approx(30.0)


def test_a_band_whose_waist_was_taken_in_is_out_of_date_and_follows() -> None:
    block = done(CutBand(name="band", edges=WAIST), bodice()).pattern
    amounts = (AmountAt(corner="side waist", distance_mm=0.0, amount_mm=8.0),
               AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0))  # fmt: skip
    tighter = done(TakeIn(seam="side", amounts=amounts), block).pattern
    assert [o.piece for o in out_of_date(tighter)] == ["band"]
    again = done(TraceAgain(), tighter, "again").pattern
    assert again.piece("band").edge("band seam").length == pytest.approx(around(again, "waist"))


def test_a_collar_is_sewn_to_the_neckline_and_passes_the_walk() -> None:
    block = bodice()
    collared = done(CutStandCollar(name="collar", height_mm=35.0), block).pattern
    collar = collared.piece("collar")
    assert collar.edge("neck edge").length * 2 == pytest.approx(around(block, "neckline"))
    assert (collar.fold, collar.copies, collar.cut) == ("centre front", 2, "cut 2 on the fold")
    assert collared.seam("neck").matches[0].second == "shoulder notch"
    checked = check(collared)
    assert checked.clean
    assert ("seam sides: neck seam", "0.0 mm") in checked.figures


def test_a_collar_folded_behind_goes_on_beyond_the_centre_front() -> None:
    kind = CutStandCollar(name="collar", beyond_mm=18.0, fold_at="centre back")
    collar = cut(kind, bodice())
    assert collar.edge("top").length == pytest.approx(collar.edge("neck edge").length + 18.0)
    assert collar.edge("over the stand").length == pytest.approx(18.0)
    back = bodice().piece("back").edge("neckline").length
    assert spots(collar)["shoulder notch"] == pytest.approx(back)


def test_a_looser_neckline_carries_its_collar_along() -> None:
    # All of a change of a collar is made at the centre back (The New Dressmaker, 1921).
    kind = CutStandCollar(name="collar", fold_at="centre back")
    block = done(kind, bodice()).pattern
    looser = done(ChangeNeckline(to=Neck.LOOSER, by_mm=12.0), block, "looser").pattern
    collar = looser.piece("collar").edge("neck edge").length
    assert 2 * collar == pytest.approx(around(looser, "neckline"), abs=0.01)
    # Its length is right, its shoulder notch is not: that is told, and traced again it is.
    assert [f.code for f in check(looser).findings] == ["notches"]
    assert [o.piece for o in out_of_date(looser)] == ["collar"]
    again = done(TraceAgain(), looser, "again").pattern
    assert check(again).clean
    assert out_of_date(again) == ()


def test_bands_and_collars_count_in_no_girth_and_no_round() -> None:
    block = bodice()
    after = done(CutBand(name="band", edges=WAIST), block).pattern
    after = done(CutStandCollar(name="collar"), after, "two").pattern
    assert lines_of(after) == lines_of(block)
    for line in lines_of(block):
        assert girth(after, line) == girth(block, line)
    for edge in ("neckline", "waist", "armhole"):
        assert around(after, edge) == around(block, edge)


@pytest.mark.parametrize(
    ("kind", "part"),
    [
        (lambda: CutBand(name="b", edges=()), "which edges"),
        (lambda: CutBand(name="", edges=WAIST), "Give it a name"),
        (lambda: CutBand(name="b", edges=WAIST, width_mm=0), "wider than nothing"),
        (lambda: CutBand(name="b", edges=WAIST, opens_at="side"), "not at the side"),
        (lambda: CutBand(name="b", edges=WAIST, overlap_on=BodySide.BOTH), "right or left end"),
        (lambda: CutBand(name="b", edges=of("waste of front")), "no edge called 'waste'"),
        (lambda: CutStandCollar(name="c", edges=of("neckline of front")), "not at a centre"),
        (lambda: CutStandCollar(name="c", height_mm=-1), "stands higher"),
        (lambda: CutStandCollar(name="c", fold_at="side"), "collar ends at the centre"),
    ],
)
def test_what_cannot_be_cut_is_told_in_a_sentence(kind: object, part: str) -> None:
    with pytest.raises(TrackerError, match=part):
        apply_step(kind(), bodice(), "x")


def test_on_paper_they_are_sentences_to_mark() -> None:
    for kind in (CutBand(name="b", edges=WAIST), CutStandCollar(name="c")):
        applied = apply_step(kind, paper(), "x")
        assert applied.pattern == paper()
        assert applied.effect.leaves[0].startswith(NO_OUTLINE)


@settings(max_examples=A_THIRD)
@given(
    number=st.integers(-1, 6), width_mm=st.floats(10, 80), overlap_mm=st.floats(0, 60),
    height_mm=st.floats(10, 80),
)  # fmt: skip
def test_on_any_block_they_are_as_long_as_what_they_are_sewn_to(
    number: int, width_mm: float, overlap_mm: float, height_mm: float
) -> None:
    block = bodice() if number < 0 else drafted(number)
    kind = CutBand(name="band", edges=WAIST, width_mm=width_mm, overlap_mm=overlap_mm)
    after = done(kind, block).pattern
    band = after.piece("band").edge("band seam").length
    assert band == pytest.approx(around(block, "waist") + overlap_mm, abs=1e-4)
    after = done(CutStandCollar(name="collar", height_mm=height_mm), after, "two").pattern
    collar = after.piece("collar").edge("neck edge").length
    assert 2 * collar == pytest.approx(around(block, "neckline"), abs=1e-4)


@pytest.mark.parametrize("opens_at", ["", "centre front", "centre back"])
def test_a_waistband_for_trousers_goes_round_from_either_centre(opens_at: str) -> None:
    block = examples.trousers()
    edges = (EdgeOf(piece="front", edge="waist"), EdgeOf(piece="back", edge="waist"))
    kind = CutBand(name="waistband", edges=edges, opens_at=opens_at, overlap_mm=30.0)
    band = done(kind, block).pattern.piece("waistband")
    half = sum(block.piece(name).edge("waist").length for name in ("front", "back"))
    assert band.box[2] - band.box[0] == pytest.approx(2 * half + 30.0, abs=0.05)
    far = "centre back" if opens_at == "centre front" else "centre front"
    assert {far, "right side", "left side"} <= {n.name for n in band.notches}
