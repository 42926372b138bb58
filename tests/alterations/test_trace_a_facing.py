"""Facings: the edges they are traced from, as wide as told, darts closed, grain kept."""

import json
import math
import re
from dataclasses import replace

import pytest
from altering import A_THIRD, NO_OUTLINE, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import DoesNotFit, kinds
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.drafting.laid_flat import NotOneLine
from tracker.errors import TrackerError
from tracker.geometry.area import polygon
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import (
    canonical,
    pattern_digest,
    pattern_from,
    pattern_record,
)
from tracker.pattern.checks import HIDDEN_DEG, JOIN_DEG, check
from tracker.pattern.measure import around, corner_angle, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

BOTH = BodySide.BOTH


def of(*edges: str) -> tuple[EdgeOf, ...]:
    """Edges named as they are typed: "neckline of front"."""
    return tuple(EdgeOf(edge=e, piece=p) for e, _, p in (name.partition(" of ") for name in edges))


def faced(pattern: Pattern, *edges: str, width_mm: float = 60.0) -> Piece:
    kind = TraceFacing(name="facing", edges=of(*edges), width_mm=width_mm)
    return done(kind, pattern).pattern.piece("facing")


@pytest.mark.parametrize(
    "edges",
    [
        ("neckline of front",),
        ("neckline of back",),
        ("armhole of front",),
        ("waist of front",),  # with the waist dart closed in it
        ("centre back of back",),
        ("neckline of front", "neckline of back"),  # laid together at the shoulder
        ("armhole of back", "armhole of front"),  # at the side, or the shoulder
        ("waist of back", "waist of front"),
        ("centre back of back", "neckline of back"),  # round a corner of one piece
    ],
)
def test_a_facing_has_the_edges_it_is_traced_from_and_is_as_wide_as_told(
    edges: tuple[str, ...],
) -> None:
    block = bodice()
    facing = faced(block, *edges, width_mm=50.0)
    traced = sum(block.piece(e.piece).edge(e.edge).length for e in of(*edges))
    names = list(dict.fromkeys(e.edge for e in of(*edges)))
    assert sum(facing.edge(n).length for n in names) == pytest.approx(traced, abs=1e-3)
    inner = facing.edge("inner edge")
    gaps = []
    for k in range(1, 40):
        at = inner.point_at(inner.length * k / 40)
        gaps.append(min(facing.edge(n).nearest(at)[1] for n in names))
    # Square to the edge, but where a corner or the run-on end is nearer by the slant.
    assert min(gaps) == pytest.approx(50.0, abs=0.05)
    assert sum(abs(g - 50.0) < 0.1 for g in gaps) >= 30


def test_a_facing_on_the_fold_is_on_the_fold_and_a_pair_where_its_piece_is_one() -> None:
    front, back = faced(bodice(), "neckline of front"), faced(bodice(), "neckline of back")
    assert (front.fold, front.cut, front.copies) == ("centre front", "cut 1 on the fold", 2)
    assert (back.fold, back.cut, back.copies) == (None, "cut 2, a pair", 2)
    for at_end in (False, True):
        assert corner_angle(front, front.edge("centre front"), at_end) == pytest.approx(90, abs=0.1)


def test_a_facing_lies_on_its_piece_where_no_dart_is_closed() -> None:
    block = bodice()
    whole = polygon(block.piece("front").plain_ring)
    part = polygon(faced(block, "neckline of front").plain_ring)
    # Areas by Shapely, a general-purpose library.
    assert part.difference(whole).area < 1.0
    assert whole.intersection(part).area == pytest.approx(part.area, abs=1.0)


def test_a_dart_is_closed_in_a_facing_and_its_angle_turns_what_lies_beyond() -> None:
    block = bodice()
    front = block.piece("front")
    facing = faced(block, "waist of front")
    dart = front.dart("waist dart")
    assert not facing.darts
    # The fold end stays; the side end has turned by the dart's angle.
    was = front.edge("waist").parts[0].start_heading
    now = facing.edge("waist").parts[0].start_heading
    assert abs(turn_between(was, now)) == pytest.approx(dart.angle_rad, abs=1e-6)
    assert facing.edge("waist").parts[0].end == front.edge("waist").parts[-1].end


def test_the_grain_of_a_facing_is_its_pieces() -> None:
    for edges in (("neckline of front",), ("waist of front",), ("armhole of front",)):
        grain = faced(bodice(), *edges).grain
        assert grain is not None
        assert abs((grain[1] - grain[0]).real) < 1e-6  # the front's grain is upright


def test_a_facing_cut_in_one_is_notched_where_the_seam_is() -> None:
    block = bodice()
    facing = faced(block, "neckline of back", "neckline of front")
    notch = facing.notch("shoulder notch")
    assert notch.distance_mm == pytest.approx(block.piece("front").edge("neckline").length)
    armhole = faced(block, "armhole of front")
    assert armhole.notch("front armhole notch").distance_mm == pytest.approx(95.0)


def test_facings_count_in_no_girth_and_no_round() -> None:
    block = bodice()
    kind = TraceFacing(name="facing", edges=of("waist of front", "waist of back"))
    after = done(kind, block).pattern
    assert lines_of(after) == lines_of(block)
    for line in lines_of(block):
        assert girth(after, line) == girth(block, line)
    assert around(after, "neckline") == around(block, "neckline")


def test_a_facing_is_read_back_as_it_was_written_and_without_one_nothing_is_written() -> None:
    block = bodice()
    assert "traced" not in canonical(pattern_record(block))
    after = done(TraceFacing(name="facing", edges=of("neckline of front")), block).pattern
    again = pattern_from(json.loads(canonical(pattern_record(after))))
    assert again == after
    assert pattern_digest(again) == pattern_digest(after)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_a_facing_for_one_side_only_is_cut_once(side: BodySide) -> None:
    kind = TraceFacing(name="facing", edges=of("armhole of front"), side=side)
    (facing,) = (p for p in done(kind, bodice()).pattern.pieces if p.name == "facing")
    assert (facing.side, facing.copies, facing.cut) == (side, 1, "cut 1")
    x = facing.corner("shoulder point").real
    assert x < 0 if side is BodySide.RIGHT else x > 0


def test_facings_of_edges_that_differ_right_and_left_are_two() -> None:
    slash = SlashAndSpread(
        piece="front", mouth_edge="side", mouth_corner="underarm point", mouth_mm=30.0,
        hinge_edge="armhole", hinge_corner="underarm point", hinge_mm=30.0, by_mm=4.0,
        side=BodySide.RIGHT,
    )  # fmt: skip
    uneven = apply_step(slash, bodice(), "uneven").pattern
    kind = TraceFacing(name="facing", edges=of("armhole of front"))
    pieces = [p for p in done(kind, uneven).pattern.pieces if p.name == "facing"]
    assert {p.side for p in pieces} == {BodySide.RIGHT, BodySide.LEFT}
    neck = TraceFacing(name="facing", edges=of("neckline of front"))
    (one,) = (p for p in done(neck, uneven).pattern.pieces if p.name == "facing")
    assert (one.side, one.copies) == (BodySide.CENTRE, 1)
    assert {e.side for e in one.edges if e.name == "neckline"} == {BodySide.RIGHT, BodySide.LEFT}


def test_a_panelled_front_is_faced_in_one_across_the_princess_seam() -> None:
    panelled = apply_step(PanelFront(), bodice(), "panels").pattern
    facing = faced(panelled, "waist of centre front", "waist of side front", width_mm=40.0)
    assert facing.fold == "centre front"
    whole = sum(panelled.piece(n).edge("waist").length for n in ("centre front", "side front"))
    assert facing.edge("waist").length == pytest.approx(whole, abs=1e-3)


def test_a_facing_wider_than_the_shoulder_says_the_most_that_can_be_drawn() -> None:
    kind = TraceFacing(name="facing", edges=of("neckline of front"), width_mm=140.0)
    with pytest.raises(DoesNotFit, match="past the shoulder of the front") as refused:
        apply_step(kind, bodice(), "x")
    assert "; 119 mm is the most that can be drawn here" in str(refused.value)


def test_a_facing_over_a_dart_that_is_not_sewn_shut_in_it_is_refused() -> None:
    dart = AddDart(
        piece="back", name="back dart", edge="waist", corner="centre back waist",
        distance_mm=45.0, width_mm=8.0, length_mm=40.0, inward_mm=90.0, toward_edge_mm=30.0,
    )  # fmt: skip
    darted = apply_step(dart, bodice(), "dart").pattern
    kind = TraceFacing(name="facing", edges=of("centre back of back"), width_mm=60.0)
    with pytest.raises(DoesNotFit, match="over the back dart of the back") as refused:
        apply_step(kind, darted, "x")
    assert re.search(r"4\d mm is the most that can be drawn here", str(refused.value))


@pytest.mark.parametrize(
    ("edges", "part"),
    [
        ("neckline of front; waist of front", "do not follow one another"),
        ("neckline", "does not say of which piece"),
        ("neckline of fornt", "Did you mean front"),
        ("neckli of front", "no edge called"),
        ("", "which edges"),
    ],
)
def test_edges_that_cannot_be_faced_are_told_in_a_sentence(edges: str, part: str) -> None:
    with pytest.raises((TrackerError, NotOneLine), match=part):
        apply_step(TraceFacing.from_parameters({"name": "f", "edges": edges}), bodice(), "x")


def test_a_name_that_is_taken_is_refused() -> None:
    with pytest.raises(TrackerError, match="called front already"):
        apply_step(TraceFacing(name="front", edges=of("neckline of front")), bodice(), "x")


def test_on_paper_it_is_a_sentence_to_mark() -> None:
    applied = apply_step(TraceFacing(name="f", edges=of("neckline of front")), paper(), "x")
    assert applied.pattern == paper()
    assert applied.effect.leaves[0].startswith(NO_OUTLINE)


def test_it_is_found_among_the_kinds() -> None:
    assert kinds()["trace a facing"] is TraceFacing


_EDGES = st.sampled_from(
    [
        ("neckline of front",), ("neckline of back",), ("armhole of front",),
        ("armhole of back",), ("waist of front",), ("waist of back",),
        ("neckline of front", "neckline of back"), ("waist of front", "waist of back"),
        ("armhole of front", "armhole of back"), ("centre back of back",),
    ]
)  # fmt: skip


@settings(max_examples=A_THIRD)
@given(edges=_EDGES, width_mm=st.floats(10, 90), block=st.integers(-1, 6))
def test_any_facing_keeps_the_sewn_length_and_what_is_not_faced_or_says_why(
    edges: tuple[str, ...], width_mm: float, block: int
) -> None:
    pattern = bodice() if block < 0 else drafted(block)
    kind = TraceFacing(name="facing", edges=of(*edges), width_mm=width_mm)
    try:
        after = done(kind, pattern).pattern
    except TrackerError:
        assert width_mm > 40.0  # a narrow one can always be drawn
        return
    facing = after.piece("facing")
    assert after.pieces[:-1] == pattern.pieces
    for name in dict.fromkeys(e.edge for e in of(*edges)):
        whole = sum(pattern.piece(e.piece).edge(name).length for e in of(*edges) if e.edge == name)
        assert facing.edge(name).length == pytest.approx(whole, abs=1e-3)
    inner = facing.edge("inner edge").parts[0]
    assert math.isfinite(inner.length)
    assert inner.length > 3.0
    assert replace(facing, traced=None).area_mm2 > 0


def test_the_hidden_inner_edge_of_a_facing_may_bend_a_little_at_a_shaped_centre() -> None:
    neck_in = TakeIn(
        seam="centre back",
        amounts=(
            AmountAt(corner="centre back neck", distance_mm=0.0, amount_mm=6.0),
            AmountAt(corner="centre back neck", distance_mm=120.0, amount_mm=0.0),
        ),
    )
    shaped = done(neck_in, bodice()).pattern
    facing = TraceFacing(name="back facing", edges=of("neckline of back"), width_mm=50.0)
    faced = done(facing, shaped).pattern
    piece = faced.piece("back facing")
    inner = piece.edge("inner edge")
    bends = [2 * (corner_angle(piece, inner, at_end) - 90.0) for at_end in (False, True)]
    assert any(JOIN_DEG < abs(bend) < HIDDEN_DEG for bend in bends)
    assert not [f for f in check(faced).findings if f.place.endswith("inner centre back")]
