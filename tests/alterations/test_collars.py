"""Shaped stand collars and flat collars: taken from the neckline, and following it."""

import math

import irregular
import pytest
from altering import A_THIRD, done
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import DoesNotFit
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck
from tracker.alterations.kinds.cut_a_flat_collar import CollarEnd, CutFlatCollar
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.cut_the_neckline import CutNeckline
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import out_of_date
from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import around, corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

NECK = "neck edge"


def collar_of(pattern: Pattern) -> Piece:
    return pattern.piece("collar")


def fresh(before: Pattern, after: Pattern) -> list[str]:
    known = {f.place for f in check(before).findings}
    return [f.sentence for f in check(after).findings if f.place not in known]


def turns(line: Curve) -> list[float]:
    """By how much a line turns in each 5 mm of it, degrees."""
    spots = range(0, int(line.length) - 5, 5)
    return [math.degrees(turn_between(line.heading_at(s), line.heading_at(s + 5.0))) for s in spots]


@settings(max_examples=A_THIRD)
@given(
    number=st.integers(0, 5), height_mm=st.floats(20, 60), shorter_mm=st.floats(2, 25),
    behind=st.booleans(),
)  # fmt: skip
def test_a_shaped_stand_is_as_long_as_the_neckline_below_and_shorter_above(
    number: int, height_mm: float, shorter_mm: float, behind: bool
) -> None:
    block = irregular.block("bodice", number)
    fold = "centre back" if behind else "centre front"
    step = CutStandCollar(
        name="collar", height_mm=height_mm, shorter_mm=shorter_mm, fold_at=fold
    )  # fmt: skip
    new = done(step, block).pattern
    collar = collar_of(new)
    assert fresh(block, new) == []
    assert 2 * collar.edge(NECK).length == pytest.approx(around(block, "neckline"), abs=1e-3)
    top = collar.edge("top")
    assert 2 * (collar.edge(NECK).length - top.length) == pytest.approx(shorter_mm, abs=1e-3)
    for k in range(11):
        on = collar.edge(NECK).point_at(collar.edge(NECK).length * k / 10)
        assert top.nearest(on)[1] == pytest.approx(height_mm, abs=1e-3)
    for edge, at_end in ((collar.edge(NECK), True), (top, True), (top, False)):
        assert corner_angle(collar, edge, at_end) == pytest.approx(90.0, abs=0.01)


def test_a_shaped_stand_rises_at_the_front_as_handbooks_have_it() -> None:
    """A stand 35 mm high whose top is 16 mm shorter rises by 12 to 20 mm; from memory."""
    for number in range(4):
        step = CutStandCollar(name="collar", shorter_mm=16.0, fold_at="centre back")
        collar = collar_of(done(step, irregular.block("bodice", number)).pattern)
        assert 10.0 < collar.edge(NECK).drawn[0].start.imag < 20.0
        # Straight behind, and bent evenly, upwards, from the shoulder on.
        bends = turns(collar.edge(NECK).parts[0])
        sign = 1 if sum(bends) > 0 else -1
        assert all(-1e-6 < sign * b < 1.5 for b in bends)
        assert bends[-1] == pytest.approx(0.0, abs=1e-6)


def test_a_straight_stand_is_recorded_and_drawn_as_it_always_was() -> None:
    step = CutStandCollar(name="collar")
    assert "shorter_mm" not in step.parameters()
    collar = collar_of(done(step, bodice()).pattern)
    assert [len(e.parts[0].runs) for e in collar.edges] == [1] * 4


@settings(max_examples=A_THIRD)
@given(
    number=st.integers(0, 5), width_mm=st.floats(40, 90), overlap_mm=st.floats(0, 50),
    end=st.sampled_from(CollarEnd),
)  # fmt: skip
def test_a_flat_collar_is_as_long_as_the_neckline_and_as_wide_as_told(
    number: int, width_mm: float, overlap_mm: float, end: CollarEnd
) -> None:
    block = irregular.block("bodice", number)
    step = CutFlatCollar(name="collar", width_mm=width_mm, overlap_mm=overlap_mm, end=end)
    new = done(step, block).pattern
    collar = collar_of(new)
    assert fresh(block, new) == []
    assert collar.fold == "centre back"
    assert 2 * collar.edge(NECK).length == pytest.approx(around(block, "neckline"), abs=1e-3)
    assert collar.edge("centre back").length == pytest.approx(width_mm, abs=0.3)
    back = block.piece("back").edge("neckline").length
    (notch,) = collar.notches
    assert notch.corner == "centre back neck"
    assert notch.distance_mm == pytest.approx(back, abs=1e-3)
    neck = collar.edge(NECK).parts[0]
    behind = neck if collar.edge(NECK).start == "centre back neck" else neck.reversed
    for k in range(2, 9):
        off = collar.edge("outer edge").nearest(behind.point_at(neck.length * k / 20))[1]
        assert off == pytest.approx(width_mm, abs=0.3)
    # Hollow all along, without a kink: it never turns the other way.
    bends = turns(neck)
    sign = 1 if sum(bends) > 0 else -1
    assert all(-0.6 < sign * b < 18 for b in bends)
    for edge, at_end in ((collar.edge("centre back"), True), (collar.edge("centre back"), False)):
        assert corner_angle(collar, edge, at_end) == pytest.approx(90.0, abs=1.5)


def test_overlapped_at_the_shoulder_the_outer_edge_is_shorter_by_the_turn_it_takes() -> None:
    """Plain geometry: turned by overlap over shoulder, what lies a width out loses so much."""
    block = bodice()
    long = block.piece("front").edge("shoulder").length
    outer = {}
    for overlap in (0.0, 13.0, 40.0):
        step = CutFlatCollar(name="collar", overlap_mm=overlap, end=CollarEnd.POINT)
        applied = done(step, block)
        outer[overlap] = collar_of(applied.pattern).edge("outer edge").length
        turn = 2 * math.asin(overlap / 2 / long)
        assert outer[0.0] - outer[overlap] == pytest.approx(65.0 * turn, abs=0.6)
    assert "draws it up at the neck" in "; ".join(applied.effect.notes)


def test_a_pointed_end_may_be_longer_than_the_collar_is_wide() -> None:
    step = CutFlatCollar(name="collar", end=CollarEnd.POINT, point_mm=25.0)
    collar = collar_of(done(step, bodice()).pattern)
    assert collar.edge("end").length == pytest.approx(65.0 + 25.0, abs=0.1)


@pytest.mark.parametrize(
    "collar",
    [
        CutStandCollar(name="collar", shorter_mm=14.0, fold_at="centre back"),
        CutFlatCollar(name="collar"),
    ],
    ids=lambda k: k.word,
)
@pytest.mark.parametrize(
    "change",
    [
        CutNeckline(front_mm=15.0, shoulder_mm=8.0),
        ChangeNeckline(to=Neck.LOOSER, by_mm=12.0),
        PanelFront(),
    ],
    ids=lambda k: k.word,
)
@pytest.mark.parametrize("number", range(2))
def test_a_collar_follows_its_neckline(number: int, change: object, collar: object) -> None:
    block = irregular.block("bodice", number)
    before = done(collar, block).pattern
    changed = done(change, before).pattern
    again = done(TraceAgain(piece="collar"), changed, "again").pattern
    assert out_of_date(again) == ()
    assert fresh(block, again) == []
    whole = around(again, "neckline")
    assert 2 * collar_of(again).edge(NECK).length == pytest.approx(whole, abs=1e-3)


@pytest.mark.parametrize("by_mm", [12.0, -8.0])
@pytest.mark.parametrize(
    "collar",
    [
        CutStandCollar(name="collar", shorter_mm=14.0, fold_at="centre back"),
        CutFlatCollar(name="collar"),
        CutFlatCollar(name="collar", end=CollarEnd.POINT, fold_at="centre front"),
    ],
    ids=("shaped stand", "flat", "pointed"),
)
def test_a_shaped_collar_is_traced_again_in_the_step_that_changes_its_neckline(
    collar: object, by_mm: float
) -> None:
    block = irregular.block("bodice", 1)
    before = done(collar, block).pattern
    way = Neck.LOOSER if by_mm > 0 else Neck.TIGHTER
    change = ChangeNeckline(to=way, by_mm=abs(by_mm))
    assert change.sentence(before).endswith("; the collar traced again")
    applied = done(change, before)
    assert out_of_date(applied.pattern) == ()
    assert applied.effect.leaves == ()
    told = f"collar traced again, {abs(by_mm):.0f} mm {'longer' if by_mm > 0 else 'shorter'}"
    assert any(note.startswith(told) for note in applied.effect.notes)
    assert fresh(block, applied.pattern) == []


def test_a_collar_she_keeps_as_it_is_is_let_out_behind_and_not_traced_again() -> None:
    before = done(CutFlatCollar(name="collar"), bodice()).pattern
    one_side = done(ChangeNeckline(to=Neck.LOOSER, by_mm=12.0, collar=False), before).pattern
    assert [o.piece for o in out_of_date(one_side)] == ["collar"]
    step = ChangeNeckline(to=Neck.LOOSER, by_mm=6.0)
    assert step.sentence(one_side).endswith("the collar made to match at its centre back")
    assert "at its centre back" in "; ".join(done(step, one_side).effect.notes)


def test_a_neckline_that_differs_right_and_left_is_refused_with_what_makes_it_alike() -> None:
    longer = ChangeNeckline(to=Neck.LOOSER, by_mm=5.0, side=BodySide.LEFT)
    off = done(longer, irregular.block("bodice", 1)).pattern
    with pytest.raises(DoesNotFit) as refused:
        done(CutFlatCollar(name="collar"), off)
    told = refused.value.sentence
    assert 'alter make "change the neckline" to=looser by=5.0mm side=right' in told
    alike = done(ChangeNeckline(to=Neck.LOOSER, by_mm=5.0, side=BodySide.RIGHT), off).pattern
    assert out_of_date(done(CutFlatCollar(name="collar"), alike).pattern) == ()


@pytest.mark.parametrize(
    ("make", "sentence"),
    [
        (lambda: CutStandCollar(name="c", shorter_mm=-1), "as long as its neck edge, or shorter"),
        (lambda: CutStandCollar(name="c", shorter_mm=90), "can be at most 5. mm shorter"),
        (lambda: CutFlatCollar(name="c", overlap_mm=-1), "by nothing up to 80 mm"),
        (lambda: CutFlatCollar(name="c", overlap_mm=90), "13 mm is usual"),
        (lambda: CutFlatCollar(name="c", width_mm=0), "how wide is the collar"),
        (lambda: CutFlatCollar(name="c", point_mm=10), "only a pointed end"),
        (lambda: CutFlatCollar(name="c", fold_at="side"), "collar ends at the centre"),
    ],
)
def test_what_cannot_be_cut_is_told_in_a_sentence(make: object, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(make(), bodice(), "x")
