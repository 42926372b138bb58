"""A piece drawn again after one of its edges was displaced."""

import math
import random
from collections.abc import Callable
from dataclasses import replace

import pytest
import wardrobe
from hypothesis import example, given, settings
from hypothesis import strategies as st
from steps_for_tests import EDGES, amounts, edges

from tracker.geometry.bezier import heading
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.checks import folded_kink_deg, ring_fault
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.redraw import DoesNotMeet, redraw

Alter = Callable[..., Piece]


def furthest(one: Piece, other: Piece) -> float:
    """The furthest any kept point of two pieces of the same make stands apart."""
    worst = 0.0
    for a, b in zip(one.ring, other.ring, strict=True):
        assert len(a.runs) == len(b.runs)
        worst = max(worst, abs(a.start - b.start))
        for run_a, run_b in zip(a.runs, b.runs, strict=True):
            assert len(run_a) == len(run_b)
            worst = max(worst, *(abs(p - q) for p, q in zip(run_a, run_b, strict=True)))
    return worst


def off_base(old: Edge, new: Edge, at_mm: float) -> float:
    """How far the drawn line stands off the base line at a place, square to the base."""
    index, rest = old.locate(at_mm)
    base = old.parts[index]
    spot, heading = base.point_at(rest), base.heading_at(rest)
    line = new.parts[index]
    crossings = with_line(line.run_on(40, 40), spot, heading * 1j)
    return min((c.second_mm for c in crossings), key=abs)


@settings(max_examples=120)
@given(which=edges, knots=amounts())
def test_a_displaced_edge_leaves_a_closed_outline_that_does_not_cross_itself(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]]
) -> None:
    piece, edge = which
    new = altered(bodice.piece(piece), edge, knots)
    assert ring_fault(new) is None
    for dart in new.darts:
        assert abs(dart.leg_lengths[0] - dart.leg_lengths[1]) <= 0.01


@settings(max_examples=120)
@given(which=edges, knots=amounts())
def test_taking_in_and_letting_out_the_same_gives_the_piece_back(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]]
) -> None:
    piece, edge = which
    old = bodice.piece(piece)
    back = altered(altered(old, edge, knots), edge, [(s, -v) for s, v in knots], "s2")
    assert furthest(old, back) <= 1e-6
    for one, other in zip(old.levels, back.levels, strict=True):
        for a, b in zip(one.strokes, other.strokes, strict=True):
            assert max(abs(p - q) for p, q in zip(a, b, strict=True)) <= 2e-6


@settings(max_examples=120)
@given(which=edges, knots=amounts())
def test_each_amount_is_met_square_to_the_seam_where_it_was_stated(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]]
) -> None:
    piece, edge = which
    old = bodice.piece(piece).edge(edge)
    new = altered(bodice.piece(piece), edge, knots).edge(edge)
    for share, amount in knots:
        if 0.0 < share < 1.0:
            assert off_base(old, new, share * old.length) == pytest.approx(amount, abs=0.05)
    for share, point, line in ((0.0, new.parts[0].start, old.parts[0]),
                               (1.0, new.parts[-1].end, old.parts[-1])):  # fmt: skip
        stated = dict(knots).get(share)
        if stated is not None:
            # The corner has slid until it is that far from the old line, run on.
            gap = line.run_on(60, 60).nearest(point)[1]
            assert gap == pytest.approx(abs(stated), abs=0.05)


@settings(max_examples=120)
@given(which=edges, knots=amounts(4.0), share=st.sampled_from([0.25, 0.5, 0.7]))
def test_an_amount_in_two_steps_draws_the_line_of_one(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]],
    share: float,
) -> None:  # fmt: skip
    piece, edge = which
    old = bodice.piece(piece)
    first = [(s, round(v * share, 4)) for s, v in knots]
    rest = [(s, v - w) for (s, v), (_, w) in zip(knots, first, strict=True)]
    one = altered(old, edge, knots)
    two = altered(altered(old, edge, first), edge, rest, "s2")
    assert furthest(one, two) <= 3e-6


@settings(max_examples=120)
@given(which=edges, knots=amounts())
def test_no_kink_arises_inside_an_altered_edge(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]]
) -> None:
    piece, edge = which
    new = altered(bodice.piece(piece), edge, knots)
    for changed in new.edges:
        for part in changed.parts:
            for k in range(len(part.runs) - 1):
                first, second = part.segments[k], part.segments[k + 1]
                kink = math.degrees(abs(turn_between(heading(first, 1.0), heading(second, 0.0))))
                assert kink <= 1.0, (changed.name, k, kink)


def test_a_step_leaves_every_segment_outside_its_reach_byte_equal(
    bodice: Pattern, altered: Alter
) -> None:
    # In 10 mm at the side waist, to nothing at the underarm: only the side and the waist's end.
    old = bodice.piece("front")
    new = altered(old, "side", [(0.0, 0.0), (1.0, 10.0)])
    for name in ("centre front", "neckline", "shoulder", "armhole"):
        assert new.edge(name) == old.edge(name)
    assert new.edge("waist").parts[1] == old.edge("waist").parts[1]
    assert new.dart("waist dart") == old.dart("waist dart")
    # From nothing half-way down the first stretch stays as it was.
    half = altered(old, "side", [(0.5, 0.0), (1.0, 10.0)])
    assert half.edge("side").parts[0] == old.edge("side").parts[0]
    assert half.dart("bust dart") == old.dart("bust dart")
    assert half.level("bust line") == old.level("bust line")


def test_a_further_step_leaves_the_rest_of_an_altered_edge_byte_equal(
    bodice: Pattern, altered: Alter
) -> None:
    first = altered(bodice.piece("back"), "armhole", [(0.0, 0.0), (0.2, 4.0), (0.45, 0.0)])
    both = altered(first, "armhole", [(0.7, 0.0), (0.85, -3.0), (1.0, 0.0)], "s2")
    before, after = first.edge("armhole").parts[0], both.edge("armhole").parts[0]
    assert before.segments[:2] == after.segments[:2]
    middle = after.point_at(after.length * 0.55)
    assert before.nearest(middle)[1] < 1e-6


def test_letting_out_at_the_underarm_keeps_the_underarm_level(
    bodice: Pattern, altered: Alter
) -> None:
    # Design: the neighbour runs on straight, square to the seam at the underarm.
    old = bodice.piece("front")
    side = old.edge("side")
    new = altered(old, "side", [(0.0, -15.0)])
    slid = new.corner("underarm point") - old.corner("underarm point")
    outward = side.parts[0].start_heading * -1j
    assert abs(slid - 15.0 * outward) < 1e-6
    armhole = new.edge("armhole").parts[0]
    assert armhole.segments[0] == old.edge("armhole").parts[0].segments[0]


def test_an_armhole_that_is_not_square_to_the_side_is_brought_level_without_a_kink() -> None:
    front = wardrobe.front()
    armhole = front.edge("armhole")
    segment = armhole.parts[0].segments[0]
    tilted = (segment[0], segment[1], segment[3] - 60 * wardrobe._dir(196), segment[3])
    front = front.with_edge(replace(armhole, parts=(Curve.of([tilted]),)))
    side = front.edge("side")
    let_out = replace(side, displacements=(Displacement("s1", Profile(((0.0, -12.0),))),))
    new = redraw(front.with_edge(let_out), {side.key})
    outward = side.parts[0].start_heading * -1j
    assert abs(new.corner("underarm point") - side.parts[0].start - 12.0 * outward) < 1e-6
    one, two = new.edge("armhole").parts[0].segments
    assert abs(turn_between(heading(one, 1.0), heading(two, 0.0))) < 1e-9
    assert abs(turn_between(heading(two, 1.0), outward)) < 1e-9


@pytest.mark.parametrize(("piece", "edge", "out_mm"), [
    ("front", "side", -12.0), ("front", "shoulder", -10.0), ("back", "centre back", -8.0),
    ("back", "side", 6.0), ("front", "neckline", 5.0), ("back", "armhole", -6.0),
])  # fmt: skip
def test_an_edge_moved_all_along_stands_off_the_old_line_everywhere_the_same(
    bodice: Pattern, altered: Alter, piece: str, edge: str, out_mm: float
) -> None:
    old = bodice.piece(piece)
    new = altered(old, edge, [(0.0, out_mm)])
    for k in range(1, 20):
        at = k / 20 * old.edge(edge).length
        assert off_base(old.edge(edge), new.edge(edge), at) == pytest.approx(out_mm, abs=0.02)


def test_a_corner_of_two_moved_edges_stands_off_both_old_lines(
    bodice: Pattern, altered: Alter
) -> None:
    old = bodice.piece("front")
    new = altered(altered(old, "side", [(1.0, 14.0)]), "waist", [(0.0, 9.0), (0.7, 0.0)], "s2")
    corner = new.corner("side waist")
    assert old.edge("side").parts[-1].run_on(60, 60).nearest(corner)[1] == pytest.approx(
        14, abs=0.05
    )
    assert old.edge("waist").parts[0].run_on(60, 60).nearest(corner)[1] == pytest.approx(
        9, abs=0.05
    )


def test_material_lines_follow_the_outline_they_end_on(bodice: Pattern, altered: Alter) -> None:
    old = bodice.piece("front")
    for amount in (10.0, -10.0):
        new = altered(old, "side", [(0.0, amount)])
        (stroke,) = new.level("bust line").strokes
        (before,) = old.level("bust line").strokes
        assert stroke[:-1] == before[:-1]
        assert new.edge("side").nearest(stroke[-1])[1] < 1e-5
        assert stroke[-1].imag == pytest.approx(before[-1].imag, abs=1e-6)
        assert abs(stroke[-1] - before[-1]) == pytest.approx(10.0, abs=0.1)


def test_twenty_steps_all_withdrawn_leave_the_piece_as_it_was(bodice: Pattern) -> None:
    # Each step comes on top of what the last left, rounded as the store keeps it.
    rng = random.Random(7)
    for name in ("front", "back"):
        old = piece = bodice.piece(name)
        done: list[tuple[str, Displacement]] = []
        for step in range(20):
            edge = piece.edge(rng.choice([e for p, e in EDGES if p == name]))
            spots = sorted(rng.sample(range(11), rng.randint(1, 4)))
            knots = tuple((k / 10 * edge.base_length, rng.uniform(-3, 3)) for k in spots)
            moved = Displacement(f"s{step}", Profile(knots))
            done.append((edge.name, moved))
            piece = put(piece, edge.name, (*edge.displacements, moved))
            assert ring_fault(piece) is None
        rng.shuffle(done)
        for edge_name, moved in done:
            rest = tuple(d for d in piece.edge(edge_name).displacements if d.step != moved.step)
            piece = put(piece, edge_name, rest)
        assert furthest(old, piece) <= 1e-6
        assert all(not e.bases for e in piece.edges)
        for one, other in zip(old.levels, piece.levels, strict=True):
            for a, b in zip(one.strokes, other.strokes, strict=True):
                assert max(abs(p - q) for p, q in zip(a, b, strict=True)) <= 1e-5


def put(piece: Piece, edge_name: str, displacements: tuple[Displacement, ...]) -> Piece:
    edge = replace(piece.edge(edge_name), displacements=displacements)
    return settled(Pattern((redraw(piece.with_edge(edge), {edge.key}),))).pieces[0]


def test_darts_of_a_moved_edge_keep_their_pivots_and_equal_legs(
    bodice: Pattern, altered: Alter
) -> None:
    new = altered(bodice.piece("front"), "side", [(0.0, 0.0), (0.35, 9.0), (1.0, 4.0)])
    dart, before = new.dart("bust dart"), bodice.piece("front").dart("bust dart")
    assert dart.pivot == before.pivot
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=1e-5)
    assert dart.angle_rad == pytest.approx(before.angle_rad, abs=1e-7)
    assert dart.leg_lengths[0] < before.leg_lengths[0]
    side = new.edge("side")
    assert side.parts[0].end == dart.mouth_start
    assert side.parts[1].start == dart.mouth_end
    assert abs(folded_kink_deg(new, "bust dart")) < 1.0


def test_bent_dart_legs_taken_in_and_let_out_are_the_same_legs() -> None:
    front = wardrobe.front()
    dart = front.dart("bust dart")
    a, b = dart.mouth_start, dart.mouth_end
    bow = 0.3 * (dart.pivot - a)
    legs = (
        Curve.cubic(a, a + bow + 3j, dart.pivot - bow + 3j, dart.pivot),
        Curve.cubic(dart.pivot, dart.pivot - bow - 3j, b + 0.3 * (dart.pivot - b) - 3j, b),
    )
    piece = settled(Pattern((front.with_dart(replace(dart, legs=legs)),))).pieces[0]
    side = piece.edge("side")
    profile = Profile(((0.0, 8.0),))
    there = put(piece, "side", (Displacement("s1", profile),))
    back = put(there, "side", (Displacement("s1", profile), Displacement("s2", profile.times(-1))))
    assert there.dart("bust dart").leg_lengths[0] < legs[0].length - 5
    assert furthest(piece, back) <= 3e-6
    assert side.key == back.edge("side").key


@pytest.mark.parametrize(("piece", "edge", "knots", "words"), [
    ("front", "shoulder", [(0.0, 150.0)], "of the front"),
    ("front", "side", [(0.0, 160.0)], "underarm point"),
    ("front", "side", [(0.0, 0.0), (0.1, 0.0), (0.28, 135.0), (1.0, 0.0)], "bust dart"),
    ("back", "neckline", [(0.0, 200.0)], "of the back"),
])  # fmt: skip
def test_more_than_can_be_drawn_is_refused_in_a_sentence_naming_the_place(
    bodice: Pattern, altered: Alter, piece: str, edge: str, knots: list[tuple[float, float]],
    words: str,
) -> None:  # fmt: skip
    with pytest.raises(DoesNotMeet, match=words) as told:
        altered(bodice.piece(piece), edge, knots)
    assert "smaller amount" in str(told.value)


def slanted(bow_mm: float) -> Piece:
    """A piece whose side, perhaps bowed, meets its waist and hem far from square."""
    corners = 0j, 120 + 0j, 200 + 150j, 10 + 130j
    names = ("hem", "side", "waist", "centre front")
    ends = ("lower centre", "lower side", "side waist", "upper centre", "lower centre")
    edges = []
    for k, name in enumerate(names):
        a, b = corners[k], corners[(k + 1) % 4]
        line = Curve.line(a, b)
        if name == "side":
            square = 1j * (b - a) / abs(b - a) * bow_mm
            line = Curve.cubic(a, a + (b - a) / 3 + square, b - (b - a) / 3 + square, b)
        edges.append(Edge(name, BodySide.BOTH, ends[k], ends[k + 1], (line,)))
    return settled(Pattern((Piece("patch", BodySide.BOTH, tuple(edges)),))).pieces[0]


@pytest.mark.parametrize("bow_mm", [0.0, 25.0, -25.0])
@pytest.mark.parametrize("knots", [
    [(0.0, 0.0), (1.0, 18.0)], [(0.0, 15.0), (0.5, 0.0), (1.0, -12.0)], [(0.0, 16.0), (1.0, 0.0)],
    [(0.0, -9.0), (0.4, 3.0), (1.0, 20.0)],
])  # fmt: skip
def test_an_amount_stated_at_a_corner_is_had_there_however_slanted_the_neighbour(
    altered: Alter, bow_mm: float, knots: list[tuple[float, float]]
) -> None:
    old = slanted(bow_mm)
    new = altered(old, "side", knots)
    assert ring_fault(new) is None
    line = old.edge("side").parts[0].run_on(80, 80)
    for share, corner in ((0.0, "lower side"), (1.0, "side waist")):
        stated = dict(knots)[share]
        assert line.nearest(new.corner(corner))[1] == pytest.approx(abs(stated), abs=0.05)
    for share, amount in knots[1:-1]:
        at = share * old.edge("side").length
        assert off_base(old.edge("side"), new.edge("side"), at) == pytest.approx(amount, abs=0.05)
    # In two steps the same, and taken back nothing is left of it.
    half = [(s, v / 2) for s, v in knots]
    assert furthest(altered(altered(old, "side", half), "side", half, "s2"), new) <= 3e-6
    back = altered(new, "side", [(s, -v) for s, v in knots], "s2")
    assert furthest(back, old) <= 1e-6


#: A hair more of an amount, and what it may change any length by: the corner of a slanted
#: neighbour slides up to twice as far, and a line may be fitted afresh.
HAIR_MM, HAIR_MOVES_MM, REFITTED_MM = 0.01, 2.0, 0.006


@given(
    bow_mm=st.sampled_from([0.0, 25.0, -25.0]),
    first=st.floats(-14, 14), last=st.floats(-14, 14), middle=st.sampled_from([None, 0.5, 0.7]),
)  # fmt: skip
@example(bow_mm=-25.0, first=0.0, last=11.27, middle=None)  # a length once jumped by 0.06 mm here
@example(bow_mm=25.0, first=0.0, last=13.55, middle=0.7)
def test_a_hair_more_of_an_amount_moves_no_length_by_more_than_a_hair(
    altered: Alter, bow_mm: float, first: float, last: float, middle: float | None
) -> None:
    old = slanted(bow_mm)

    def drawn(more_mm: float) -> Piece:
        knots = [
            (0.0, first + (more_mm if first else 0.0)),
            (1.0, last + (more_mm if last else 0.0)),
        ]
        return altered(old, "side", sorted(knots + ([(middle, 0.0)] if middle else [])))

    one, other = drawn(0.0), drawn(HAIR_MM)
    most = HAIR_MM * HAIR_MOVES_MM + REFITTED_MM
    for a, b in zip(one.edges, other.edges, strict=True):
        assert b.length == pytest.approx(a.length, abs=most), a.name
    assert other.area_mm2 == pytest.approx(one.area_mm2, abs=500 * most)


@pytest.mark.parametrize("amount", [HAIR_MM, -HAIR_MM])
@pytest.mark.parametrize("knots", [
    # The corner has slid along the side, for the waist was moved, …
    [(0.0, -6.0), (1.0, 0.0)],
    # … and what is stated there adds to nothing.
    [(0.0, 0.0), (0.5, 8.0), (1.0, 0.0)],
])  # fmt: skip
def test_a_hair_at_a_corner_moves_by_a_hair_what_states_nothing_there(
    altered: Alter, knots: list[tuple[float, float]], amount: float
) -> None:
    slid = altered(altered(slanted(25.0), "side", knots), "waist", [(0.0, 12.0)], "s2")
    hair = altered(slid, "side", [(0.0, amount)], "s3")
    most = HAIR_MM * HAIR_MOVES_MM + REFITTED_MM
    for a, b in zip(slid.edges, hair.edges, strict=True):
        assert b.length == pytest.approx(a.length, abs=most), a.name
