import math

import pytest
from altering import done
from cut_across import drafted
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.close_a_gap_into_a_dart import CloseGap
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = bodice()


def round_back(by: float = 12.0, **more: object) -> SlashAndSpread:
    values: dict[str, object] = {
        "piece": "back", "mouth_edge": "centre back", "mouth_corner": "centre back neck",
        "mouth_mm": 110.0, "hinge_edge": "armhole", "hinge_corner": "shoulder point",
        "hinge_mm": 90.0, "by_mm": by,
    }  # fmt: skip
    return SlashAndSpread.from_parameters(values | more)


def sway_back(by: float = 10.0, **more: object) -> FoldOut:
    values: dict[str, object] = {
        "piece": "back", "mouth_edge": "centre back", "mouth_corner": "centre back waist",
        "mouth_mm": 45.0, "hinge_edge": "side", "hinge_corner": "side waist", "hinge_mm": 30.0,
        "by_mm": by,
    }  # fmt: skip
    return FoldOut.from_parameters(values | more)


def hollow_chest(by: float = 8.0, **more: object) -> FoldOut:
    values: dict[str, object] = {
        "piece": "front", "mouth_edge": "centre front", "mouth_corner": "centre front neck",
        "mouth_mm": 60.0, "hinge_edge": "armhole", "hinge_corner": "shoulder point",
        "hinge_mm": 80.0, "by_mm": by,
    }  # fmt: skip
    return FoldOut.from_parameters(values | more)


@pytest.mark.parametrize("block", [BLOCK, drafted(0)], ids=["drawn", "drafted"])
@pytest.mark.parametrize("by", [4.0, 12.0, 20.0])
def test_a_round_back_gets_length_at_the_centre_and_none_at_the_armhole(
    block: Pattern, by: float
) -> None:
    # The Dressmaker, part 8 (1910s): cut across the shoulders, let it spread; the seam it ends
    # short of keeps its length, the front is untouched.
    new = done(round_back(by), block).pattern
    old = block.piece("back")
    back = new.piece("back")
    assert back.edge("armhole").length == pytest.approx(old.edge("armhole").length, abs=0.05)
    cut = old.edge("armhole").point_at(old.edge("armhole").length - 90) - old.edge(
        "centre back"
    ).point_at(110)
    grown = back.edge("centre back").length - old.edge("centre back").length
    assert grown == pytest.approx(by * cut.real / abs(cut), abs=0.06)
    for edge in ("shoulder", "neckline", "side", "waist"):
        assert back.edge(edge).length == pytest.approx(old.edge(edge).length, abs=1e-5)
    assert new.piece("front") is block.piece("front")
    for line in ("bust line", "waist line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=1e-4)
    # The neck has turned with the upper part: 2 asin(s / 2L) (published checks, section 5 item 5).
    shoulder, was = back.edge("shoulder").parts[0], old.edge("shoulder").parts[0]
    turned = abs(shoulder.start_heading - was.start_heading)
    assert turned == pytest.approx(2 * math.sin(math.asin(by / 2 / abs(cut))), abs=1e-5)


@pytest.mark.parametrize("block", [BLOCK, drafted(0)], ids=["drawn", "drafted"])
@pytest.mark.parametrize("by", [6.0, 12.0, 20.0])
def test_a_sway_back_loses_length_at_the_centre_and_none_at_the_side(
    block: Pattern, by: float
) -> None:
    # Range 6 to 25 mm: common practice. The side seam is a hinge; the upper part holds the grain.
    new = done(sway_back(by), block).pattern
    old, back = block.piece("back"), new.piece("back")
    assert back.edge("side").length == pytest.approx(old.edge("side").length, abs=0.05)
    lost = old.edge("centre back").length - back.edge("centre back").length
    assert lost == pytest.approx(by, abs=0.3)
    for edge in ("shoulder", "neckline", "armhole"):
        assert back.edge(edge) == old.edge(edge)
    assert back.edge("waist").length == pytest.approx(old.edge("waist").length, abs=0.5)
    one, other = side_lengths(new, new.seam("side"))
    assert one == pytest.approx(other, abs=0.1)
    dart = back.dart("waist dart")
    assert dart.pivot == old.dart("waist dart").pivot
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=1e-5)


def test_the_area_taken_out_is_that_of_the_wedge() -> None:
    # Published checks, section 5 item 6: L^2 / 2 sin(phi), before the edges are faired.
    old = drafted(0).piece("back")
    for kind, by in ((round_back(10.0), 10.0), (sway_back(10.0), -10.0)):
        new = apply_step(kind, drafted(0), "one").pattern.piece("back")
        length = 2 * abs(new.area_mm2 - old.area_mm2) / abs(by)
        assert (new.area_mm2 > old.area_mm2) == (by > 0)
        assert 140 < length < 215


def test_spreading_what_was_folded_out_gives_the_lengths_back() -> None:
    there = apply_step(round_back(10.0), BLOCK, "one").pattern
    back = apply_step(
        FoldOut.from_parameters(round_back(10.0).parameters() | {"mouth_mm": 110.0}), there, "two"
    ).pattern
    for edge in BLOCK.piece("back").edges:
        assert back.piece("back").edge(edge.name).length == pytest.approx(edge.length, abs=0.15)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_side_only_leaves_the_other_alone(side: BodySide) -> None:
    new = done(round_back(12.0, side=side), BLOCK).pattern
    other = new.piece("back", side.opposite)
    for edge in BLOCK.piece("back").edges:
        assert other.edge(edge.name).length == pytest.approx(edge.length, abs=1e-5)
    grown = new.piece("back", side).edge("centre back").length
    assert grown > other.edge("centre back").length + 10
    # The centre back seam now differs right and left, and that is said.
    told = apply_step(round_back(12.0, side=side), BLOCK, "one").effect.leaves
    assert any("centre back seam" in t for t in told)


def test_one_side_of_a_piece_across_the_centre_is_cut_between_its_own_edges() -> None:
    step = hollow_chest(
        5.0, mouth_edge="neckline", mouth_corner="neck point", mouth_mm=50.0, side="left"
    )
    new = done(step, BLOCK).pattern
    front = new.piece("front")
    assert front.edge("neckline", BodySide.RIGHT).length == pytest.approx(
        BLOCK.piece("front").edge("neckline").length, abs=1e-5
    )
    assert front.edge("neckline", BodySide.LEFT).length < (
        BLOCK.piece("front").edge("neckline").length - 4
    )


@pytest.mark.parametrize("by", [6.0, 15.0, 25.0])
@pytest.mark.parametrize("side", [BodySide.BOTH, BodySide.LEFT])
def test_a_hollow_back_is_folded_out_of_a_torso_over_its_dart(by: float, side: BodySide) -> None:
    # Sway back (project's published checks, 1.3): the centre back is shorter by the amount, the
    # side seam keeps its length.
    step = FoldOut(
        piece="back", mouth_edge="centre back", mouth_corner="centre back neck", mouth_mm=370.0,
        hinge_edge="side", hinge_corner="underarm point", hinge_mm=165.0, by_mm=by, side=side,
    )  # fmt: skip
    block = examples.torso()
    new = done(step, block).pattern
    old, back = block.piece("back"), new.piece("back", side)
    shorter = old.edge("centre back").length - back.edge("centre back").length
    assert shorter == pytest.approx(by, abs=0.3)
    assert back.edge("side").length == pytest.approx(old.edge("side").length, abs=0.05)
    was, now = old.dart("waist dart"), back.dart("waist dart")
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=1e-5)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=1e-5)
    assert girth(new, "waist line") == pytest.approx(girth(block, "waist line"), abs=0.5)
    assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=0.01)


def test_a_bent_fold_is_refused_and_both_ways_out_are_named() -> None:
    with pytest.raises(TrackerError, match="lies on the fold and would be bent") as told:
        apply_step(hollow_chest(), BLOCK, "one")
    assert "shape a seam" in str(told.value)
    assert "straighten the fold" in str(told.value)


def test_the_fold_can_become_a_centre_seam() -> None:
    applied = done(hollow_chest(centre="shape a seam"), BLOCK)
    front = applied.pattern.piece("front")
    assert front.fold is None
    assert front.cut == "cut 2, a pair"
    seam = applied.pattern.seam("centre front")
    assert seam.side is BodySide.CENTRE
    assert seam.on_itself
    lost = BLOCK.piece("front").edge("centre front").length - front.edge("centre front").length
    assert lost == pytest.approx(8.0, abs=0.3)
    assert front.edge("armhole").length == pytest.approx(
        BLOCK.piece("front").edge("armhole").length, abs=0.05
    )
    assert girth(applied.pattern, "bust line") == pytest.approx(girth(BLOCK, "bust line"), abs=1e-4)


@pytest.mark.parametrize("block", [BLOCK, drafted(0)], ids=["drawn", "drafted"])
@pytest.mark.parametrize("spread", [False, True])
def test_the_fold_can_be_drawn_straight_and_what_that_returns_is_told(
    block: Pattern, spread: bool
) -> None:
    step: Kind = hollow_chest(8.0, centre="straighten the fold")
    if spread:
        step = SlashAndSpread.from_parameters(step.parameters())
    applied = done(step, block)
    front = applied.pattern.piece("front")
    fold = front.edge("centre front")
    assert front.fold == "centre front"
    assert len(fold.parts[0].runs) == 1
    assert fold.parts[0].start.real == pytest.approx(0.0, abs=1e-5)
    assert fold.parts[0].end.real == pytest.approx(0.0, abs=1e-5)
    returned = [t for t in applied.effect.leaves if "fold drawn straight" in t]
    assert len(returned) == 1
    assert ("adds" if spread else "takes") in returned[0]
    # About the length above the cut times the sine of the turn: 60 mm × 8/180.
    by = float(returned[0].split(" mm")[0].split()[-1])
    assert by == pytest.approx(60 * 8 / 180, abs=1.2)
    assert not [f for f in check(applied.pattern).findings if f.code == "fold"]


def test_a_line_that_runs_along_what_is_folded_out_keeps_its_length() -> None:
    step = hollow_chest(20.0, mouth_mm=60.0, hinge_mm=80.0, centre="straighten the fold")
    block = drafted(0)
    new = done(step, block).pattern
    assert girth(new, "across front") == pytest.approx(girth(block, "across front"), abs=8.0)


def test_what_becomes_of_the_centre_may_be_given_as_plain_text() -> None:
    values = hollow_chest(centre="straighten the fold").parameters()
    new = apply_step(FoldOut(**values), BLOCK, "one").pattern
    assert new.piece("front").fold == "centre front"
    assert new.piece("front").corner("centre front neck").real == pytest.approx(0.0, abs=1e-5)


def test_the_sentence_states_both_ends() -> None:
    assert round_back().sentence(BLOCK) == (
        "Back slashed from the centre back 110 mm from the centre back neck to the armhole 90 mm "
        "from the shoulder point and spread 12 mm at the centre back, to nothing at the armhole"
    )
    assert sway_back(side="left").sentence(BLOCK) == (
        "Left side only: back folded out from the centre back 45 mm from the centre back waist to "
        "the side 30 mm from the side waist by 10 mm at the centre back, to nothing at the side; "
        "the fold on the paper is 5 mm deep there"
    )


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"by_mm": -3.0}, "to close the mouth, fold out"),
        ({"by_mm": 0.0}, "by how much"),
        ({"piece": "bak"}, "Did you mean back"),
        ({"mouth_edge": "center back"}, "no edge called 'center back'"),
        ({"mouth_corner": "neck point"}, "has no corner called 'neck point'"),
        ({"mouth_mm": 900.0}, "off the end"),
        ({"mouth_mm": 1.0}, "too near its end"),
        ({"hinge_edge": "centre back", "hinge_corner": "centre back waist"}, "both its ends"),
        ({"by_mm": 400.0}, "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(round_back(**{"by": 12.0} | more) if "by_mm" not in more else
                   round_back(float(str(more["by_mm"]))), BLOCK, "one")  # fmt: skip


def test_the_limit_fits() -> None:
    most = most_that_fits(sway_back(200.0), BLOCK)
    assert most is not None
    assert 20 < most < 200
    apply_step(sway_back(most), BLOCK, "one")


def test_without_outlines_it_is_marked_on_the_paper() -> None:
    applied = apply_step(sway_back(), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith("mark it on the paper: Back folded out from")


def test_the_neckline_can_be_folded_out_to_the_armhole() -> None:
    step = hollow_chest(5.0, mouth_edge="neckline", mouth_corner="neck point", mouth_mm=50.0)
    new = done(step, BLOCK).pattern
    assert around(BLOCK, "neckline") - around(new, "neckline") == pytest.approx(10.0, abs=1.0)
    assert around(new, "armhole") == pytest.approx(around(BLOCK, "armhole"), abs=0.1)


@given(
    number=st.sampled_from([-1, 0, 7]),
    piece=st.sampled_from(["front", "back"]),
    ends=st.tuples(st.integers(0, 5), st.integers(0, 5)),
    shares=st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95)),
    by=st.floats(0.5, 25),
    centre=st.sampled_from(["refuse", "shape a seam", "straighten the fold"]),
    side=st.sampled_from(["both", "right", "left"]),
    out=st.booleans(),
)
def test_any_place_gives_a_valid_pattern_or_a_sentence(
    number: int, piece: str, ends: tuple[int, int], shares: tuple[float, float], by: float,
    centre: str, side: str, out: bool,
) -> None:  # fmt: skip
    block = BLOCK if number < 0 else drafted(number)
    one, other = (block.piece(piece).edges[i] for i in ends)
    values = {
        "piece": piece, "mouth_edge": one.name, "mouth_corner": one.start,
        "mouth_mm": one.length * shares[0], "hinge_edge": other.name,
        "hinge_corner": other.start, "hinge_mm": other.length * shares[1], "by_mm": by,
        "centre": centre, "side": side,
    }  # fmt: skip
    step = (FoldOut if out else SlashAndSpread).from_parameters(values)
    try:
        applied = done(step, block)
    except TrackerError:
        return
    if side == "both":
        hinge = applied.pattern.piece(piece).edge(other.name)
        if centre != "straighten the fold":
            assert hinge.length == pytest.approx(other.length, abs=0.3)


def from_the_armhole(piece: str, edge: str, by: float, kind: type, **more: object) -> Kind:
    """Cut from the armhole to nothing at a centre, for one side only."""
    return kind.from_parameters(
        {"piece": piece, "mouth_edge": "armhole", "mouth_corner": "shoulder point",
         "mouth_mm": 100.0, "hinge_edge": edge, "hinge_corner": f"{edge} neck",
         "hinge_mm": 100.0, "by_mm": by, "side": "right"} | more
    )  # fmt: skip


def test_one_side_of_a_fold_is_not_cut_from_there_and_what_does_it_is_named() -> None:
    with pytest.raises(TrackerError, match="one half of the front would be 8 mm shorter") as told:
        apply_step(hollow_chest(side="right"), BLOCK, "one")
    assert "from another edge, the armhole, to nothing at the centre front" in told.value.sentence
    hinged = from_the_armhole("front", "centre front", 8.0, FoldOut)
    with pytest.raises(TrackerError, match="cut for both sides and would be bent; for one side"):
        apply_step(hinged, BLOCK, "one")


@pytest.mark.parametrize("whole", [False, True], ids=["on the fold", "opened out"])
def test_one_side_is_cut_from_the_armhole_to_nothing_at_the_centre(whole: bool) -> None:
    block = split_sides(BLOCK, ["front"]).pattern if whole else BLOCK
    step = from_the_armhole("front", "centre front", 8.0, FoldOut, centre="shape a seam")
    applied = done(step, block)
    right, left = (applied.pattern.piece("front", s) for s in (BodySide.RIGHT, BodySide.LEFT))
    old = BLOCK.piece("front")
    assert old.edge("armhole").length - right.edge("armhole").length == pytest.approx(8.0, abs=0.3)
    for edge in old.edges:
        assert left.edge(edge.name).length == pytest.approx(edge.length, abs=1e-5)
    # The centre seam's halves are as long as one another.
    one, two = side_lengths(applied.pattern, applied.pattern.seam("centre front"))
    assert one == pytest.approx(two, abs=0.1)
    assert not [t for t in applied.effect.leaves if "centre front" in t]
    assert not [f for f in check(applied.pattern).findings if f.code == "seam sides"]


def test_one_blade_is_given_room_with_both_halves_of_the_centre_seam_as_they_were() -> None:
    block = examples.bodice()
    step = from_the_armhole("back", "centre back", 14.0, SlashAndSpread, mouth_mm=110.0,
                            hinge_mm=125.0)  # fmt: skip
    opened = done(step, block)
    close = CloseGap(
        piece="back", edge="armhole", corner="shoulder point", distance_mm=117.0, by_mm=14.0,
        dart="shoulder dart", side=BodySide.RIGHT,
    )  # fmt: skip
    new = done(close, opened.pattern).pattern
    old, back = block.piece("back"), new.piece("back", BodySide.RIGHT)
    for edge in old.edges:
        near = 1.5 if edge.name == "armhole" else 0.1
        assert back.edge(edge.name).length == pytest.approx(edge.length, abs=near), edge.name
    assert back.dart("shoulder dart").intake_mm > old.dart("shoulder dart").intake_mm + 8
    assert not [f for f in check(new).findings if f.code == "seam sides"]


def test_unequal_halves_of_a_centre_seam_are_told_apart() -> None:
    step = round_back(side="right")
    applied = apply_step(step, BLOCK, "one")
    told, offer = applied.effect.leaves
    assert "right back" in told
    assert "left back" in told
    assert "spread the left half as much; or withdraw this and cut from another edge" in offer
    # And what is offered makes them alike.
    alike = apply_step(round_back(side="left"), applied.pattern, "two")
    assert not alike.effect.leaves
    one, two = side_lengths(alike.pattern, alike.pattern.seam("centre back"))
    assert one == pytest.approx(two, abs=1e-5)
