"""Button stands, folds and centre seams: the centre stays, and girths are counted to it."""

import math

import pytest
from alterations.test_trace_a_facing import of
from altering import A_THIRD, NO_OUTLINE, done, measures
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import DoesNotFit
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.put_on_the_fold import PutOnFold
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.seam_at_the_centre import CentreSeam
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.errors import TrackerError
from tracker.geometry.area import polygon
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import corner_angle
from tracker.pattern.piece import Piece


def stood(facing_mm: float = 0.0, width_mm: float = 20.0) -> Piece:
    kind = AddButtonStand(width_mm=width_mm, facing_mm=facing_mm)
    return done(kind, bodice()).pattern.piece("front")


def test_girths_neckline_and_waist_are_counted_to_the_centre_line_only() -> None:
    block = bodice()
    for kind in (AddButtonStand(), AddButtonStand(width_mm=20.0, facing_mm=60.0)):
        after = done(kind, block).pattern
        assert measures(after) == pytest.approx(measures(block), abs=1e-6)


def test_the_front_is_a_pair_and_its_centre_a_line_on_it() -> None:
    front = stood()
    assert (front.fold, front.cut, front.copies) == (None, "cut 2, a pair", 2)
    assert front.level("centre front").side is BodySide.CENTRE
    (stroke,) = front.level("centre front").strokes
    assert stroke == (0j, complex(0, 345))
    assert front.edge("front edge").drawn[0].start.real == pytest.approx(20.0)
    assert [e.name for e in front.edges] == [
        "stand waist", "front edge", "stand neckline", "neckline", "shoulder", "armhole", "side",
        "waist",
    ]  # fmt: skip


def test_lapped_the_stand_lies_on_the_other_side_edge_to_edge() -> None:
    # Turned over the centre line the stand is the front's own first 20 mm: areas by Shapely.
    front = stood()
    over = tuple(c.moved(Motion.mirror(0j, 1j)) for c in front.plain_ring)
    lapped = polygon(over).intersection(polygon(bodice().piece("front").plain_ring))
    stand = polygon(front.plain_ring).area - polygon(bodice().piece("front").plain_ring).area
    strip = polygon(over).area
    assert strip == pytest.approx(polygon(front.plain_ring).area)
    assert lapped.area == pytest.approx(stand, rel=2e-3)


def test_neckline_and_waist_run_on_straight_over_the_centre() -> None:
    for front in (stood(), stood(60.0)):
        for name, at_end in (("waist", True), ("neckline", False)):
            assert corner_angle(front, front.edge(name), at_end) == pytest.approx(180, abs=0.1)
    assert check(done(AddButtonStand(), bodice()).pattern).clean


def test_a_facing_grown_on_is_the_mirror_of_what_it_faces() -> None:
    front = stood(60.0)
    assert {"facing waist", "facing edge", "facing neckline"} <= {e.name for e in front.edges}
    assert front.edge("facing edge").drawn[0].start.real == pytest.approx(20.0 + 60.0)
    # Folded back on the front edge it lies within the front and its stand.
    fold = front.level("front fold line").strokes[0]
    over = polygon(tuple(c.moved(Motion.mirror(*fold)) for c in front.plain_ring))
    facing = over.intersection(polygon(front.plain_ring))
    assert facing.area == pytest.approx(2 * 60.0 * front.edge("facing edge").length, rel=0.06)
    assert check(done(AddButtonStand(width_mm=20.0, facing_mm=60.0), bodice()).pattern).clean


def test_a_front_edge_and_its_neckline_are_faced_in_one() -> None:
    block = done(AddButtonStand(width_mm=20.0), bodice()).pattern
    kind = TraceFacing(
        name="front facing", width_mm=60.0,
        edges=of("neckline of front", "stand neckline of front", "front edge of front"),
    )  # fmt: skip
    facing = done(kind, block, "face").pattern.piece("front facing")
    assert [e.name for e in facing.edges] == [
        "front edge", "stand neckline", "neckline", "shoulder", "inner edge", "waist",
        "stand waist",
    ]  # fmt: skip
    with pytest.raises(TrackerError, match="runs on into the stand neckline"):
        apply_step(TraceFacing(name="f", edges=of("neckline of front")), block, "x")


def test_a_collar_goes_on_over_the_stand_and_passes_the_walk() -> None:
    block = done(AddButtonStand(width_mm=20.0), bodice()).pattern
    collar = CutStandCollar(name="collar", beyond_mm=20.0, fold_at="centre back",
                            edges=of("neckline of front", "neckline of back"))  # fmt: skip
    after = done(collar, block, "collar").pattern
    assert before_cutting(after).clean


def test_a_centre_seam_becomes_an_opening_when_it_gets_a_stand() -> None:
    kind = AddButtonStand(piece="back", edge="centre back", width_mm=25.0)
    applied = done(kind, bodice())
    assert "the centre back seam is an opening now" in applied.effect.notes
    assert [s.name for s in applied.pattern.seams] == ["side", "shoulder"]
    assert check(applied.pattern).clean


def test_one_side_only_may_have_a_wider_stand() -> None:
    pair = done(CentreSeam(piece="front", sewn=False), bodice()).pattern
    kind = AddButtonStand(width_mm=30.0, side=BodySide.RIGHT)
    after = done(kind, pair, "stand").pattern
    assert after.piece("front", BodySide.RIGHT).box[2] == pytest.approx(30.0, abs=0.01)
    assert "centre front" in {e.name for e in after.piece("front", BodySide.LEFT).edges}
    with pytest.raises(TrackerError, match="on the fold, so its right side"):
        apply_step(kind, bodice(), "x")


def test_after_a_stand_the_side_seam_is_taken_in_as_before() -> None:
    amounts = (AmountAt(corner="side waist", distance_mm=0.0, amount_mm=8.0),)
    step = TakeIn(seam="side", amounts=amounts)
    one = measures(done(step, done(AddButtonStand(), bodice()).pattern, "in").pattern)
    assert one == pytest.approx(measures(done(step, bodice(), "in").pattern), abs=1e-4)


def test_on_the_fold_and_back_is_the_same_pattern() -> None:
    block = bodice()
    folded = done(PutOnFold(piece="back"), block).pattern
    back = folded.piece("back")
    assert (back.fold, back.cut, back.copies) == ("centre back", "cut 1 on the fold", 2)
    assert measures(folded) == measures(block)
    assert check(folded).clean
    again = done(CentreSeam(piece="back"), folded, "two").pattern
    assert {s.name for s in again.seams} == {s.name for s in block.seams}
    assert again.pieces == block.pieces
    opened = done(CentreSeam(piece="front"), block).pattern
    assert check(opened).clean
    back_again = done(PutOnFold(piece="front", edge="centre front"), opened, "two").pattern
    assert pattern_digest(back_again) == pattern_digest(block)


def test_a_shaped_centre_back_is_not_put_on_the_fold() -> None:
    amounts = (AmountAt(corner="centre back waist", distance_mm=0.0, amount_mm=6.0),
               AmountAt(corner="centre back neck", distance_mm=0.0, amount_mm=0.0))  # fmt: skip
    step = ReshapeEdge(piece="back", edge="centre back", amounts=amounts)
    shaped = done(step, bodice()).pattern
    with pytest.raises(DoesNotFit, match=r"shaped, by up to \d\.\d mm"):
        apply_step(PutOnFold(piece="back"), shaped, "x")
    with pytest.raises(DoesNotFit, match=r"shaped, by up to \d\.\d mm"):
        apply_step(AddButtonStand(piece="back", edge="centre back"), shaped, "x")


@pytest.mark.parametrize(
    ("given", "part"),
    [
        ({"width_mm": 0.0}, "how wide is the stand"),
        ({"width_mm": 20.0, "facing_mm": 15.0}, "would not reach past the stand"),
        ({"edge": "centre frnt"}, "no edge called"),
        ({"piece": "frnt"}, "Did you mean front"),
        ({"width_mm": 120.0}, "67.5 mm is the most that can be drawn here"),
    ],
)
def test_a_stand_that_cannot_be_added_is_told(given: dict[str, object], part: str) -> None:
    with pytest.raises(TrackerError, match=part):
        apply_step(AddButtonStand.from_parameters(given), bodice(), "x")


@pytest.mark.parametrize(
    ("kind", "part"),
    [
        (PutOnFold(piece="front"), "no edge called 'centre back'"),
        (PutOnFold(piece="front", edge="centre front"), "on the fold already"),
        (CentreSeam(piece="back"), "not on the fold"),
    ],
    ids=["no such edge", "on it already", "not on it"],
)
def test_a_fold_that_cannot_be_is_told(kind: PutOnFold | CentreSeam, part: str) -> None:
    with pytest.raises(TrackerError, match=part):
        apply_step(kind, bodice(), "x")


def test_on_paper_they_are_marked_or_simply_said() -> None:
    applied = apply_step(AddButtonStand(), paper(), "x")
    assert applied.effect.leaves[0].startswith(NO_OUTLINE)
    folded = apply_step(PutOnFold(piece="back"), paper(), "x").pattern
    assert folded.piece("back").cut == "cut 1 on the fold"


@settings(max_examples=A_THIRD)
@given(number=st.integers(-1, 6), width_mm=st.floats(5, 40), facing_mm=st.floats(0, 40))
def test_any_stand_leaves_every_girth_as_it_was(
    number: int, width_mm: float, facing_mm: float
) -> None:
    block = bodice() if number < 0 else drafted(number)
    facing = width_mm + facing_mm if facing_mm > 5 else 0.0
    try:
        after = done(AddButtonStand(width_mm=width_mm, facing_mm=facing), block).pattern
    except TrackerError:
        assert max(width_mm, facing - width_mm) > 30.0
        return
    assert measures(after) == pytest.approx(measures(block), abs=1e-6)
    assert math.isclose(after.piece("front").edge("neckline").length,
                        block.piece("front").edge("neckline").length)  # fmt: skip
