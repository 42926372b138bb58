"""What a trace calls still lies where it lay, and what moved is told as moved."""

import os
import random
from dataclasses import replace

import pytest
from alterations.random_steps import a_step
from altering import done
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import SORTS, block
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.alterations.kinds.raise_the_armhole import Height as Depth
from tracker.alterations.kinds.raise_the_armhole import RaiseArmhole
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.alterations.still import STILL_MM, lying_still
from tracker.errors import TrackerError
from tracker.geometry.point import Point
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Fate, Stretch, Trace

DEEP = os.environ.get("TRACKER_TESTS") == "deep"
#: A stretch that lies still lies on the old line; where along it, is told by shares.
ALONG_MM = 0.1
LOOKS = 23


def edge_of(pattern: Pattern, stretch: Stretch) -> Edge:
    piece = next(p for p in pattern.pieces if p.name == stretch.piece
                 for e in p.edges if e.key == (stretch.edge, stretch.side))  # fmt: skip
    return piece.edge(stretch.edge, stretch.side)


def spots(edge: Edge, stretch: Stretch, turned: bool = False) -> list[Point]:
    """Spots of a stretch, none at its very ends: there it may end at a dart's mouth."""
    shares = [(k + 0.02) / (LOOKS + 0.04) for k in range(LOOKS + 1)]
    shares = [1 - s for s in shares] if turned else shares
    return [edge.point_at(stretch.start_mm + s * stretch.length_mm) for s in shares]


def laid(olds: list[Point], news: list[Point], mirrored: bool) -> Motion:
    """How a piece was laid, by the two ends of a stretch of it."""
    first = Motion(mirrored=True) if mirrored else STAY
    a, b = first.of(olds[0]), first.of(olds[-1])
    factor = (news[-1] - news[0]) / (b - a)
    factor /= abs(factor)
    return first.then(Motion(factor=factor, shift=news[0] - factor * a))


def assert_still(before: Pattern, applied: Applied) -> None:
    """Every stretch called still lies where it lay; a piece laid elsewhere, as a whole."""
    whole: dict[tuple[object, ...], Motion] = {}
    still = [f for f in applied.trace.fates if f.still and f.old and f.new]
    for fate in sorted(still, key=lambda f: -f.new.length_mm):
        was, now = edge_of(before, fate.old), edge_of(applied.pattern, fate.new)
        olds, news = spots(was, fate.old, fate.turned), spots(now, fate.new)
        mirrored = (fate.old.side, fate.new.side) == (BodySide.BOTH, BodySide.LEFT)
        motion = STAY
        if mirrored or fate.old.piece != fate.new.piece:
            way = (fate.old.piece, fate.old.side, fate.new.piece, fate.new.side)
            motion = whole.setdefault(way, laid(olds, news, mirrored))
        for p, q in zip(olds, news, strict=True):
            assert min(part.moved(motion).nearest(q)[1] for part in was.parts) <= 1.5 * STILL_MM
            assert abs(motion.of(p) - q) <= ALONG_MM, fate


@settings(max_examples=3000 if DEEP else 120)
@given(sort=st.sampled_from(SORTS), number=st.integers(0, 3), seed=st.integers(0, 2**32))
def test_what_a_random_step_calls_still_lies_where_it_lay(
    sort: str, number: int, seed: int
) -> None:
    rng, pattern = random.Random(seed), block(sort, number)
    for step_id in ("one", "two", "three", "four", "five"):
        try:
            applied = apply_step(a_step(rng, pattern), pattern, step_id)
        except TrackerError:
            continue
        assert_still(pattern, applied)
        pattern = applied.pattern


SIDE_IN = TakeIn(
    seam="side", amounts=(AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=14.0),)
)


@pytest.mark.parametrize("steps", [
    (SIDE_IN,),
    (replace(SIDE_IN, side=BodySide.LEFT),),
    (
        TurnDart(piece="front", dart="bust dart", edge="waist", corner="side waist",
                 distance_mm=60.0, share=0.5, name="new dart"),
    ),
    # The armhole is drawn afresh from its base, 0.07 mm off, its end elsewhere.
    (
        ShoulderSlope(to=Slope.SLOPING, by_mm=5.15),
        TakeIn(seam="shoulder", side=BodySide.LEFT, amounts=(
            AmountAt(corner="neck point", distance_mm=0.0, amount_mm=0.0),
            AmountAt(corner="shoulder point", distance_mm=0.0, amount_mm=-5.48),
        )),
    ),
    # The side was cut back by 10 mm at the lowered armhole, which was not told.
    (
        MoveCorner(piece="back", corner="underarm point", edge="armhole", along_mm=-5.2,
                   across_mm=1.4, side=BodySide.LEFT),
        RaiseArmhole(to=Depth.LOWER, by_mm=10.4, side=BodySide.LEFT),
    ),
    # Let out to the waist, the centre back is drawn to where the waist was raised.
    (
        TakeIn(seam="centre back", amounts=(
            AmountAt(corner="centre back neck", distance_mm=0.0, amount_mm=0.0),
            AmountAt(corner="centre back waist", distance_mm=0.0, amount_mm=-11.2),
        )),
        RaiseEdge(to=Height.RAISE, by_mm=10.8, edge="waist"),
    ),
])  # fmt: skip
def test_what_a_step_calls_still_lies_where_it_lay(steps: tuple[Kind, ...]) -> None:
    pattern = bodice()
    for number, step in enumerate(steps):
        applied = done(step, pattern, str(number))
        assert_still(pattern, applied)
        pattern = applied.pattern


def test_a_panel_laid_beside_another_is_still_as_a_whole() -> None:
    pattern = bodice()
    for step in (PanelFront(), PanelBack()):
        pattern = apply_step(step, pattern, step.word).pattern
    applied = apply_step(JoinSidePanels(), pattern, "join")
    assert_still(pattern, applied)
    seams = {f.old.edge for f in applied.trace.fates if f.still and f.old}
    assert {"front princess", "back princess"} <= seams


def moved_in_the_middle(by_mm: float) -> tuple[Pattern, Pattern, Stretch]:
    """The bodice, and the same with its side seam in by an amount half-way, for 80 mm about."""
    start = bodice()
    side = start.piece("front").edge("side")
    half = side.length / 2
    step = TakeIn(seam="side", amounts=tuple(
        AmountAt(corner=side.start, distance_mm=half + at, amount_mm=v)
        for at, v in ((-40.0, 0.0), (0.0, 2 * by_mm), (40.0, 0.0))
    ))  # fmt: skip
    return start, apply_step(step, start, "one").pattern, Stretch.whole(start.piece("front"), side)


@pytest.mark.parametrize(("by_mm", "parts"), [
    (3.0, ["still", "moved", "still"]),
    (0.03, ["still", "moved", "still"]),
    (0.004, ["still"]),  # less than anything is told apart by
])  # fmt: skip
def test_only_the_part_that_moved_is_told_as_moved(by_mm: float, parts: list[str]) -> None:
    start, after, whole = moved_in_the_middle(by_mm)
    length = after.piece("front").edge("side").length
    said = Trace((Fate(whole, replace(whole, end_mm=length), still=True),))
    fates = lying_still(start, after, said).fates
    assert ["still" if f.still else "moved" for f in fates] == parts
    if len(parts) == 3:
        first, middle, last = fates
        assert middle.old.start_mm > whole.length_mm / 2 - 45.0
        assert middle.old.end_mm < whole.length_mm / 2 + 45.0
        assert (first.old.end_mm, last.old.start_mm) == (middle.old.start_mm, middle.old.end_mm)
        assert first.old.end_mm == pytest.approx(first.new.end_mm, abs=0.01)
        assert last.old.end_mm == whole.end_mm


def test_a_line_cut_back_without_a_word_is_told_as_cut_away() -> None:
    start = bodice()
    after = apply_step(SIDE_IN, start, "one").pattern
    waist = Stretch.whole(start.piece("front"), start.piece("front").edge("waist"))
    length = after.piece("front").edge("waist").length
    said = Trace((Fate(waist, replace(waist, end_mm=length), still=True),))
    fates = lying_still(start, after, said).fates
    kept = [f for f in fates if f.new]
    gone = [f for f in fates if f.new is None]
    assert sum(f.old.length_mm for f in (*kept, *gone)) == pytest.approx(waist.length_mm, abs=1e-3)
    assert sum(f.old.length_mm for f in gone) == pytest.approx(waist.length_mm - length, abs=0.01)
    assert all(f.still for f in kept)
