"""Linings and interfacings: a piece once more, with ease of its own, cut off where it is faced."""

import pytest
from alterations.test_trace_a_facing import of
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import chart_bodies
from wardrobe import bodice, paper

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.copy_a_lining import CopyLining, EdgeEase
from tracker.alterations.kinds.cut_an_interfacing import CutInterfacing
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import out_of_date
from tracker.drafting.bodice import draft_bodice
from tracker.drafting.bodice_wants import BodiceChoices
from tracker.drafting.facing_piece import clear_mm
from tracker.errors import TrackerError
from tracker.geometry.area import polygon
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def made(kind: Kind, pattern: Pattern) -> Piece:
    return done(kind, pattern).pattern.pieces[-1]


def faced(pattern: Pattern, width_mm: float = 60.0) -> Pattern:
    for piece in ("front", "back"):
        kind = TraceFacing(
            name=f"{piece} facing", edges=of(f"neckline of {piece}"), width_mm=width_mm
        )
        pattern = done(kind, pattern, piece).pattern
    return pattern


def test_a_plain_lining_is_the_piece_once_more_in_another_layer() -> None:
    block = bodice()
    lining = made(CopyLining(name="front lining", piece="front"), block)
    front = block.piece("front")
    assert lining.layer == "lining"
    assert (lining.edges, lining.darts, lining.notches) == (front.edges, front.darts, front.notches)
    assert (lining.fold, lining.copies, lining.cut) == (front.fold, front.copies, front.cut)


def test_a_lining_has_its_ease_square_to_the_edges_named() -> None:
    ease = (EdgeEase(edge="side", by_mm=4.0), EdgeEase(edge="waist", by_mm=-15.0))
    block = bodice()
    lining = made(CopyLining(name="lining", piece="back", ease=ease), block)
    for name, by in (("side", 4.0), ("waist", 15.0)):
        old, new = block.piece("back").edge(name), lining.edge(name)
        for share in (0.3, 0.5, 0.7):
            gap = old.nearest(new.point_at(new.length * share))[1]
            assert gap == pytest.approx(by, abs=0.05)
    inside = polygon(block.piece("back").plain_ring)
    assert polygon(lining.plain_ring).difference(inside).area > 4.0 * 150


def test_a_pleat_lies_beyond_the_centre_back_and_is_notched_at_both_ends() -> None:
    block = bodice()
    lining = made(CopyLining(name="lining", piece="back", pleat_mm=25.0), block)
    assert lining.corner("centre back neck").real == pytest.approx(-25.0)
    neck = lining.edge("neckline").length - block.piece("back").edge("neckline").length
    assert neck == pytest.approx(25.0, abs=0.2)
    assert {n.name: n.distance_mm for n in lining.notches if "pleat" in n.name} == {
        "neckline pleat": pytest.approx(25.0), "waist pleat": pytest.approx(25.0),
    }  # fmt: skip


def test_a_lining_cut_off_at_its_facing_is_what_the_facing_leaves() -> None:
    block = faced(bodice())
    kind = CopyLining(name="front lining", piece="front", without=("front facing",))
    after = done(kind, block).pattern
    lining, facing = after.piece("front lining"), after.piece("front facing")
    assert lining.edge("neckline").length == pytest.approx(
        facing.edge("inner edge").length, abs=0.01
    )
    # Facing and lining together are the front: areas by Shapely.
    front = polygon(after.piece("front").plain_ring)
    both = polygon(lining.plain_ring).union(polygon(facing.plain_ring))
    assert both.symmetric_difference(front).area < 2.0


def test_a_waist_lining_keeps_its_dart_where_the_facing_has_it_closed() -> None:
    facing = TraceFacing(name="waist facing", edges=of("waist of front"), width_mm=50.0)
    block = done(facing, bodice()).pattern
    kind = CopyLining(name="front lining", piece="front", without=("waist facing",))
    after = done(kind, block, "two").pattern
    lining, facing_piece = after.piece("front lining"), after.piece("waist facing")
    assert lining.dart("waist dart").mouth == "waist"
    # Sewn, both are as long: the lining's dart is sewn where the facing's is closed.
    assert lining.edge("waist").length == pytest.approx(
        facing_piece.edge("inner edge").length, abs=0.6
    )


@pytest.mark.parametrize("number", [0, 3, 5])
def test_a_dart_that_opens_within_the_facing_opens_from_the_cut_edge_of_the_lining(
    number: int,
) -> None:
    # Closed in the facing, open in the lining: sewn, both edges are as long, and together they
    # are the back (areas by Shapely).
    body = chart_bodies()[number].body
    block = faced(draft_bodice(body, choices=BodiceChoices(back_shoulder="dart")).pattern, 63.5)
    whole = block.piece("back").dart("shoulder dart")
    kind = CopyLining(name="lining", piece="back", without=("back facing",))
    after = done(kind, block).pattern
    lining, facing = after.piece("lining"), after.piece("back facing")
    dart = lining.dart("shoulder dart")
    assert dart.mouth == "neckline"
    assert dart.pivot == whole.pivot
    assert dart.angle_rad == pytest.approx(whole.angle_rad, abs=1e-5)
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=0.01)
    inner = facing.edge("inner edge").length
    assert lining.edge("neckline").length == pytest.approx(inner, abs=0.01)
    areas = [polygon(p.plain_ring).area for p in (after.piece("back"), facing, lining)]
    assert areas[0] == pytest.approx(areas[1] + areas[2], rel=1e-4)
    eased = CopyLining(
        name="eased", piece="back", without=("back facing",), pleat_mm=20.0,
        ease=(EdgeEase(edge="side", by_mm=3.0),),
    )  # fmt: skip
    wide = done(eased, block, "eased").pattern.piece("eased")
    assert wide.dart("shoulder dart").mouth == "neckline"
    assert wide.corner("centre back neck").real == pytest.approx(-20.0, abs=0.01)


@pytest.mark.parametrize("number", [-1, 0, 2])
def test_a_front_that_buttons_is_lined_up_to_the_facing_of_its_edge_and_neckline(
    number: int,
) -> None:
    block = bodice() if number < 0 else drafted(number)
    block = done(AddButtonStand(width_mm=20.0), block, "stand").pattern
    edges = of("front edge of front", "stand neckline of front", "neckline of front")
    block = done(
        TraceFacing(name="front facing", edges=edges, width_mm=60.0), block, "face"
    ).pattern
    kind = CopyLining(name="lining", piece="front", without=("front facing",))
    after = done(kind, block).pattern
    lining, facing = after.piece("lining"), after.piece("front facing")
    inner = facing.edge("inner edge").length
    assert lining.edge("facing seam").length == pytest.approx(inner, abs=0.01)
    areas = [polygon(p.plain_ring).area for p in (after.piece("front"), facing, lining)]
    assert areas[0] == pytest.approx(areas[1] + areas[2], rel=1e-4)
    assert before_cutting(after).clean
    for piece in (facing, lining):
        assert piece.grain is not None
        assert clear_mm(piece, piece.grain) > 8.0
        assert abs((piece.grain[1] - piece.grain[0]).real) < 1e-6
    assert lining.notch("front armhole notch") == after.piece("front").notch("front armhole notch")


def test_linings_and_interfacings_count_in_no_girth() -> None:
    block = bodice()
    after = done(CopyLining(name="lining", piece="back", pleat_mm=25.0), block).pattern
    after = done(CutInterfacing(name="interfacing", piece="front"), after, "two").pattern
    assert lines_of(after) == lines_of(block)
    for line in lines_of(block):
        assert girth(after, line) == girth(block, line)


def test_a_lining_lengthened_with_its_shell_is_not_out_of_date() -> None:
    block = done(CopyLining(name="back lining", piece="back"), bodice()).pattern
    longer = Lengthen(line="waist line", above_mm=60.0, by_mm=15.0)
    after = done(longer, block, "longer").pattern
    shell, lining = (after.piece(name).edge("side").length for name in ("back", "back lining"))
    assert shell > 219.0
    assert lining == pytest.approx(shell, abs=1e-6)
    assert out_of_date(after) == ()


def test_a_lining_follows_its_shell_when_it_is_copied_again() -> None:
    amounts = (AmountAt(corner="side waist", distance_mm=0.0, amount_mm=8.0),
               AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0))  # fmt: skip
    taken_in = TakeIn(seam="side", amounts=amounts)
    ease = (EdgeEase(edge="side", by_mm=3.0),)
    lining = CopyLining(name="back lining", piece="back", ease=ease, pleat_mm=20.0)
    late = done(taken_in, done(lining, bodice()).pattern, "in").pattern
    assert [o.piece for o in out_of_date(late)] == ["back lining"]
    again = done(TraceAgain(), late, "again").pattern
    fresh = done(lining, done(taken_in, bodice(), "in").pattern).pattern
    assert_same(Pattern((again.piece("back lining"),)), Pattern((fresh.piece("back lining"),)))


def test_right_and_left_pieces_get_a_right_and_a_left_lining() -> None:
    amounts = (AmountAt(corner="side waist", distance_mm=0.0, amount_mm=8.0),)
    uneven = apply_step(TakeIn(seam="side", amounts=amounts, side=BodySide.RIGHT), bodice(), "x")
    after = done(CopyLining(name="back lining", piece="back"), uneven.pattern).pattern
    sides = [p.side for p in after.pieces if p.name == "back lining"]
    assert sorted(sides) == [BodySide.LEFT, BodySide.RIGHT]


def test_an_interfacing_is_smaller_all_round_but_on_the_fold() -> None:
    block = faced(bodice())
    kind = CutInterfacing(name="interfacing", piece="front facing", smaller_mm=3.0)
    after = done(kind, block).pattern
    cut, facing = after.piece("interfacing"), after.piece("front facing")
    assert cut.layer == "interfacing"
    assert cut.fold == "centre front"
    assert abs(cut.corner("centre front neck").real) < 1e-6
    outer = facing.edge("neckline")
    gaps = [outer.nearest(cut.edge("neckline").point_at(k * 10.0))[1] for k in range(1, 10)]
    assert gaps == pytest.approx([3.0] * 9, abs=0.05)


@pytest.mark.parametrize(
    ("given", "part"),
    [
        ({"name": "l", "piece": "bak"}, "Did you mean back"),
        ({"name": "l", "piece": "back", "pleat_mm": -3.0}, "nothing deep, or more"),
        ({"name": "l", "piece": "back", "ease": [{"edge": "sid", "by_mm": 3.0}]}, "no edge called"),
        ({"name": "l", "piece": "back", "without": ["front"]}, "no facing that was traced"),
        ({"name": "l", "piece": "front", "pleat_mm": 5.0}, "no edge called 'centre back'"),
    ],
)
def test_what_cannot_be_copied_is_told(given: dict[str, object], part: str) -> None:
    with pytest.raises(TrackerError, match=part):
        apply_step(CopyLining.from_parameters(given), bodice(), "x")


def test_on_paper_it_is_a_sentence_to_mark() -> None:
    for kind in (CopyLining(name="l", piece="back"), CutInterfacing(name="i", piece="back")):
        assert apply_step(kind, paper(), "x").effect.leaves[0].startswith(NO_OUTLINE)


@settings(max_examples=A_THIRD)
@given(
    number=st.integers(-1, 6), side_mm=st.floats(0, 12), hem_mm=st.floats(-30, 10),
    pleat_mm=st.floats(0, 40), smaller_mm=st.floats(0, 6),
)  # fmt: skip
def test_any_lining_is_drawn_whole_and_leaves_the_shell_alone(
    number: int, side_mm: float, hem_mm: float, pleat_mm: float, smaller_mm: float
) -> None:
    block = bodice() if number < 0 else drafted(number)
    ease = (EdgeEase(edge="side", by_mm=side_mm), EdgeEase(edge="waist", by_mm=hem_mm))
    after = done(CopyLining(name="l", piece="back", ease=ease, pleat_mm=pleat_mm), block).pattern
    assert after.pieces[:-1] == block.pieces
    after = done(CutInterfacing(name="i", piece="l", smaller_mm=smaller_mm), after, "i").pattern
    lining, cut = polygon(after.piece("l").plain_ring), polygon(after.piece("i").plain_ring)
    assert cut.difference(lining).area < 3.0
