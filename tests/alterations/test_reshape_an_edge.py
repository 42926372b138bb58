import pytest
from altering import NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.reshape_an_edge import AmountAt, ReshapeEdge
from tracker.errors import TrackerError
from tracker.geometry.crossing import with_line
from tracker.geometry.point import left_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.edge import Edge
from tracker.pattern.measure import girth
from tracker.pattern.piece import Piece

BLOCK = bodice()


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def armhole(amount: float, distance: float = 80.0, side: BodySide = BodySide.BOTH) -> ReshapeEdge:
    return ReshapeEdge(
        piece="front", edge="armhole", side=side,
        amounts=(at("shoulder point", 0.0), at("shoulder point", amount, distance),
                 at("underarm point", 0.0)),
    )  # fmt: skip


def gap(old: Piece, new: Piece, edge: str, at_mm: float) -> float:
    """How far the new line stands from the old one, straight across it."""
    line = old.edge(edge)
    square = left_of(line.heading_at(at_mm))
    meetings = [
        c for part in new.edge(edge).parts for c in with_line(part, line.point_at(at_mm), square)
    ]
    return min(abs(c.second_mm) for c in meetings)


def test_the_other_piece_and_all_other_edges_stay() -> None:
    new = done(armhole(5.0), BLOCK).pattern
    assert new.piece("back") == BLOCK.piece("back")
    for edge in BLOCK.piece("front").edges:
        if edge.name != "armhole":
            assert new.piece("front").edge(edge.name).parts == edge.parts


def test_the_sentence_says_how_far_and_to_nothing_where() -> None:
    assert armhole(5.0).sentence(BLOCK) == (
        "Armhole of the front in 5 mm at 80 mm from the shoulder point, to nothing at the "
        "shoulder point and the underarm point"
    )
    assert (
        armhole(-2.5, side=BodySide.LEFT)
        .sentence(BLOCK)
        .startswith("Left side only: armhole of the front out 2.5 mm")
    )


def test_one_side_of_a_seam_reshaped_says_that_the_seams_sides_differ() -> None:
    step = ReshapeEdge(piece="back", edge="waist", amounts=(at("side waist", -6.0),))
    effect = done(step, BLOCK).effect
    assert any(
        "the back is 6.0 mm longer against the front than before" in t for t in effect.leaves
    )


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_of_a_piece_on_the_fold(side: BodySide) -> None:
    new = done(armhole(5.0, side=side), BLOCK).pattern.piece("front")
    whole = BLOCK.piece("front").edge("armhole").length
    assert new.edge("armhole", side).length > whole + 1
    assert new.edge("armhole", side.opposite).length == pytest.approx(whole, abs=1e-5)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (ReshapeEdge(piece="front", edge="centre front", amounts=(at("centre front neck", 3.0),)),
         "lies on the fold, which stays straight"),
        (ReshapeEdge(piece="front", edge="hem", amounts=(at("side waist", 3.0),)),
         "no edge called"),
        (ReshapeEdge(piece="front", edge="waist", amounts=(at("neck point", 3.0),)),
         "has no corner called 'neck point'"),
        (ReshapeEdge(piece="front", edge="waist", amounts=(at("side waist", 3.0, 900.0),)),
         "off the end of the waist"),
        (armhole(300.0), "mm is the most that can be drawn here"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: ReshapeEdge, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = armhole(300.0)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    apply_step(step.scaled(most / 300.0), BLOCK, "one")


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(armhole(5.0), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Armhole of the front")


@given(
    amount=st.floats(-12, 12).filter(lambda a: abs(a) > 0.5),
    share=st.floats(0.3, 0.7),
    edge=st.sampled_from(["armhole", "waist", "neckline", "side"]),
    number=st.sampled_from([0, 1]),
)
def test_an_amount_is_met_at_its_place_and_the_way_back_leads_back(
    amount: float, share: float, edge: str, number: int
) -> None:
    block = drafted(0) if number else BLOCK
    old = block.piece("back").edge(edge)
    distance = old.length * share

    def reshaped(by: float, distance_mm: float) -> ReshapeEdge:
        peak = at(old.start, by, distance_mm)
        return ReshapeEdge(
            piece="back", edge=edge, amounts=(at(old.start, 0.0), peak, at(old.end, 0.0))
        )

    applied = done(reshaped(amount, distance), block)
    new = applied.pattern.piece("back")
    assert gap(block.piece("back"), new, edge, distance) == pytest.approx(abs(amount), abs=0.05)
    # The same spot of the line lies further on, or less far, once the line is longer.
    along, _ = new.edge(edge).nearest(_across(old, distance, amount))
    back = apply_step(reshaped(-amount, along), applied.pattern, "two").pattern
    assert_same(back, block)


def _across(edge: Edge, at_mm: float, amount: float) -> complex:
    return edge.point_at(at_mm) + left_of(edge.heading_at(at_mm)) * amount


@given(amount=st.floats(-15, 15).filter(lambda a: abs(a) > 0.5))
def test_a_girth_that_is_the_edge_is_the_one_measured(amount: float) -> None:
    step = ReshapeEdge(piece="front", edge="side", amounts=(at("side waist", amount),))
    applied = done(step, BLOCK)
    told = next(c for c in applied.effect.girths if c.what == "waist line")
    assert told.after == pytest.approx(girth(applied.pattern, "waist line"), abs=1e-5)
    assert told.by == pytest.approx(-2 * amount, abs=0.3)
