"""Why is this line here: every step that moved a place, by how much, and no other."""

import datetime as dt
import os
import random
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from alterations.random_steps import a_step
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, fits
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.alterations.still import STILL_MM
from tracker.errors import TrackerError
from tracker.geometry.point import Point
from tracker.history.shift import Shift
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.history.why import Lineage, Reason, edges_named, edges_of_seam, spots_at, why, why_at
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.place import Place
from tracker.pattern.trace import Stretch, Trace

DAY = dt.date(2026, 1, 5)
#: Random histories are made once and asked about many places.
SEEDS = range(2000) if os.environ.get("TRACKER_TESTS") == "deep" else range(9)
BOTH, RIGHT, LEFT = BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT


def root(pattern: Pattern) -> Version:
    at = Address("mara", "bodice", 1)
    return first_version(at, Root("drawn by hand", 1, {}), pattern, "her block", DAY)


def line_of(pattern: Pattern, *versions: tuple[Kind, ...]) -> tuple[Version, ...]:
    line = [root(pattern)]
    for kinds in versions:
        at = Address("mara", "bodice", len(line) + 1)
        steps = tuple((kind, (f"note {len(line) + 1}",)) for kind in kinds)
        line.append(next_version(line[-1], at, steps, "", DAY))
    return tuple(line)


def side_in(amount: float, side: BodySide = BOTH) -> TakeIn:
    return TakeIn(
        seam="side", side=side,
        amounts=(AmountAt(corner="underarm point", distance_mm=0, amount_mm=0),
                 AmountAt(corner="side waist", distance_mm=0, amount_mm=amount)),
    )  # fmt: skip


def at(seam: str, corner: str, distance: float, side: BodySide = BOTH) -> Place:
    return Place(seam=seam, side=side, corner=corner, distance_mm=distance)


def told(line: tuple[Version, ...], place: Place) -> tuple[Reason, ...]:
    return why_at(line, spots_at(line[-1].pattern, place))


def test_each_step_is_told_with_its_amount_at_the_place_on_both_pieces() -> None:
    line = line_of(bodice(), (side_in(10),), (side_in(-4),))
    newest, first, drawn = told(line, at("side", "side waist", 0.0))
    assert [round(s.in_mm, 1) for s in newest.shifts] == [-2.0, -2.0]
    assert [round(s.in_mm, 1) for s in first.shifts] == [5.0, 5.0]
    assert first.shifts[1].words == "side of the front 5 mm in at the side waist"
    assert newest.shifts[0].words == "side of the back 2 mm out at the side waist"
    assert newest.because == ("note 3",)
    assert (drawn.kind, drawn.version) == ("drawn by hand", "mara/bodice@1")


def test_a_place_the_step_left_alone_does_not_owe_it_anything() -> None:
    held = TakeIn(
        seam="side",
        amounts=tuple(
            AmountAt(corner="underarm point", distance_mm=d, amount_mm=a)
            for d, a in ((0, 0.0), (80, 0.0), (205, 10.0))
        ),
    )
    line = line_of(bodice(), (held,))
    assert [r.kind for r in told(line, at("side", "underarm point", 40.0))] == ["drawn by hand"]
    assert len(told(line, at("side", "underarm point", 150.0))) == 2
    assert len(why(line, edges_of_seam(line[-1].pattern.seam("side")))) == 2


def test_a_whole_seam_tells_where_it_moved_most() -> None:
    line = line_of(bodice(), (side_in(10),))
    reason = why(line, edges_of_seam(line[-1].pattern.seam("side")))[0]
    assert [(s.where, round(s.in_mm, 1)) for s in reason.shifts] == [("at the side waist", 5.0)] * 2


def test_one_body_side_is_followed_to_the_half_it_was_drawn_on() -> None:
    line = line_of(bodice(), (side_in(10),), (side_in(6, RIGHT),), (side_in(-2, LEFT),))
    right = told(line, at("side", "side waist", 0.0, RIGHT))
    left = told(line, at("side", "side waist", 0.0, LEFT))
    assert [r.version[-1] for r in right] == ["3", "2", "1"]
    assert [r.version[-1] for r in left] == ["4", "2", "1"]
    assert [round(s.in_mm, 1) for s in left[0].shifts] == [-1.0, -1.0]
    assert [s.edge for s in right[0].shifts] == [
        "side of the right back",
        "side of the right front",
    ]
    assert [round(s.in_mm, 1) for s in right[0].shifts] == [3.0, 3.0]


def test_a_panels_line_is_followed_to_the_piece_it_was_cut_from() -> None:
    waist = ReshapeEdge(
        piece="front", edge="waist",
        amounts=(AmountAt(corner="centre front waist", distance_mm=0, amount_mm=6.0),
                 AmountAt(corner="centre front waist", distance_mm=50, amount_mm=0.0)),
    )  # fmt: skip
    line = line_of(bodice(), (waist,), (PanelFront(),))
    pattern = line[-1].pattern

    def kinds(piece: str) -> list[str]:
        return [r.kind for r in why(line, edges_named(pattern, piece, "waist", BOTH))]

    # The waist was moved at the centre front only, so only the centre panel owes it anything.
    assert "reshape an edge" in kinds("centre front")
    assert "reshape an edge" not in kinds("side front")
    seam = why(line, edges_of_seam(pattern.seam("front princess")))
    assert seam[0].kind == "panel the front"


def test_a_line_a_step_drew_has_no_reason_before_it() -> None:
    line = line_of(bodice(), (side_in(10),), (PanelFront(),), (PanelBack(),))
    seam = line[-1].pattern.seam("front princess")
    above = Place(seam="front princess", corner=_first_corner(line[-1].pattern, seam.name),
                  distance_mm=60.0)  # fmt: skip
    reasons = told(line, above)
    assert [r.kind for r in reasons] == ["panel the front"]
    assert all(s.new for s in reasons[0].shifts)


def _first_corner(pattern: Pattern, seam: str) -> str:
    run = pattern.seam(seam).first[0]
    edge = pattern.edge_of(run)
    return edge.end if run.backward else edge.start


def test_a_turned_dart_carries_the_cloth_it_turned_and_nothing_else() -> None:
    turn = TurnDart(piece="front", dart="bust dart", edge="shoulder", corner="neck point",
                    distance_mm=60.0)  # fmt: skip
    line = line_of(bodice(), (turn,))
    swung = told(line, Place(piece="front", edge="armhole", corner="shoulder point",
                             distance_mm=50.0))  # fmt: skip
    assert [r.kind for r in swung] == ["turn a dart", "drawn by hand"]
    old = line[0].pattern.piece("front")
    new = line[1].pattern.piece("front")
    went = abs(new.edge("armhole").point_at(50.0) - old.edge("armhole").point_at(50.0))
    assert swung[0].shifts[0].carried_mm == pytest.approx(went, abs=0.01)
    still = told(line, Place(piece="front", edge="waist", corner="centre front waist",
                             distance_mm=20.0))  # fmt: skip
    assert [r.kind for r in still] == ["drawn by hand"]


def test_what_is_lengthened_is_carried_by_as_much() -> None:
    line = line_of(bodice(), (Lengthen(line="waist line", above_mm=60, by_mm=12),))
    low = told(line, at("centre back", "centre back waist", 10.0))[0]
    assert low.shifts[0].carried_mm == pytest.approx(12.0, abs=0.01)
    assert "carried 12 mm" in low.shifts[0].words
    high = told(line, Place(piece="front", edge="side", corner="underarm point", distance_mm=30.0))
    assert [r.kind for r in high] == ["drawn by hand"]


def test_a_notch_or_a_dart_elsewhere_moves_no_line() -> None:
    dart = AddDart(piece="back", name="neck dart", edge="neckline", corner="centre back neck",
                   distance_mm=35, width_mm=8, length_mm=70)  # fmt: skip
    line = line_of(bodice(), (MoveNotch(piece="front", notch="side notch", by_mm=5), dart))
    assert [r.kind for r in why(line, edges_of_seam(line[-1].pattern.seam("side")))] == [
        "drawn by hand"
    ]
    neck = why(line, edges_named(line[-1].pattern, "back", "neckline", BOTH))
    assert [r.kind for r in neck] == ["add a dart", "drawn by hand"]


def test_a_corner_owes_its_place_on_the_edge_to_the_seam_that_cut_it_there() -> None:
    line = line_of(bodice(), (side_in(10),))
    waist = Place(piece="back", edge="waist", corner="side waist", distance_mm=0.0)
    reason = told(line, waist)[0]
    assert reason.kind == "take in a seam"
    assert reason.shifts[0].words == "waist of the back cut back 5 mm at the side waist"
    away = Place(piece="back", edge="waist", corner="side waist", distance_mm=5.0)
    assert [r.kind for r in told(line, away)] == ["drawn by hand"]


def words(reasons: tuple[Reason, ...]) -> list[tuple[str, list[str]]]:
    """Each reason's version and what it moved, without the drawing itself."""
    return [(r.version[-1], [s.words for s in r.shifts]) for r in reasons if r.step_id]


def test_an_end_cut_back_twice_owes_its_place_to_both_steps() -> None:
    line = line_of(bodice(), (side_in(6),), (side_in(4),))
    for piece in ("front", "back"):  # one ends at the side waist, the other begins there
        whole = why(line, edges_named(line[-1].pattern, piece, "waist", BOTH))
        assert words(whole) == [
            ("3", [f"waist of the {piece} cut back 2 mm at the side waist"]),
            ("2", [f"waist of the {piece} cut back 3 mm at the side waist"]),
        ]
        corner = told(line, Place(piece=piece, edge="waist", corner="side waist", distance_mm=0))
        assert words(corner) == words(whole)
        assert corner[-1].kind == "drawn by hand"


def test_an_end_cut_back_for_both_and_then_for_one_side_owes_it_to_each() -> None:
    line = line_of(bodice(), (side_in(6),), (side_in(4),), (side_in(6, RIGHT),))
    place = Place(piece="front", edge="waist", corner="side waist", distance_mm=0, side=RIGHT)
    both = [
        ("3", ["waist of the front cut back 2 mm at the side waist"]),
        ("2", ["waist of the front cut back 3 mm at the side waist"]),
    ]
    right = ("4", ["waist of the right front cut back 3 mm at the side waist"])
    assert words(told(line, place)) == [right, *both]
    assert words(told(line, replace(place, side=LEFT))) == both


def test_an_end_that_was_run_on_is_told_with_as_much_and_what_was_before_it() -> None:
    line = line_of(bodice(), (side_in(6),), (side_in(-10),))
    place = Place(piece="back", edge="waist", corner="side waist", distance_mm=0.0)
    assert words(told(line, place)) == [
        ("3", ["waist of the back run on 5 mm at the side waist"]),
        ("2", ["waist of the back cut back 3 mm at the side waist"]),
    ]


def test_the_end_that_was_cut_back_is_the_one_that_is_named() -> None:
    slope = ShoulderSlope(to=Slope.SLOPING, by_mm=6.0, side=RIGHT)
    line = line_of(bodice(), (slope,))
    [(_, moved)] = words(why(line, edges_of_seam(line[-1].pattern.seam("side", RIGHT))))
    assert moved == [
        f"side of the right {piece} cut back 6 mm at the underarm point"
        for piece in ("back", "front")
    ]


def test_what_a_dart_takes_out_of_an_edge_is_told_where_it_is() -> None:
    dart = AddDart(piece="back", name="neck dart", edge="neckline", corner="centre back neck",
                   distance_mm=35, width_mm=8, length_mm=70)  # fmt: skip
    line = line_of(bodice(), (dart,))
    [(_, [moved])] = words(why(line, edges_named(line[-1].pattern, "back", "neckline", BOTH)))
    assert moved.startswith("neckline of the back")
    assert moved.endswith("from the centre back neck")


def test_a_paper_pattern_tells_what_was_marked_on_its_seam() -> None:
    line = line_of(paper(), (side_in(10),), (side_in(-2),))
    reasons = why(line, edges_of_seam(line[-1].pattern.seam("side")))
    assert [r.version[-1] for r in reasons] == ["3", "2", "1"]
    other = why(line, edges_of_seam(line[-1].pattern.seam("shoulder")))
    assert [r.version[-1] for r in other] == ["1"]


# -- through random sequences -------------------------------------------------------------


def found(pattern: Pattern, key: tuple[str, str, BodySide]) -> Edge | None:
    piece, name, side = key
    for p in pattern.pieces:
        if p.name == piece:
            for e in p.edges:
                if e.key == (name, side):
                    return e
    return None


def step_back(trace: Trace, spot: Stretch) -> tuple[Stretch | None, bool]:
    """The old spot, and whether it was mirrored: found anew, without what is tested."""
    was = trace.back(*spot.key, spot.start_mm)
    mirrored = was is not None and was.side is BOTH and spot.side is LEFT
    return was, mirrored


def place_of(pattern: Pattern, spot: Stretch, mirrored: bool) -> Point | None:
    edge = found(pattern, spot.key)
    if edge is None:
        return None
    point = edge.point_at(spot.start_mm)
    # Both the fold of a front and the centre of a pair lie on x = 0 here.
    return complex(-point.real, point.imag) if mirrored else point


def off_line(pattern: Pattern, spot: Stretch, mirrored: bool, point: Point) -> float:
    """How far a point lies from an old line, by another library (Shapely)."""
    import shapely

    edge = found(pattern, spot.key)
    assert edge is not None
    lines = [
        [(-p.real if mirrored else p.real, p.imag) for p in part.flattened(0.001)]
        for part in edge.drawn
    ]
    return float(shapely.MultiLineString(lines).distance(shapely.Point(point.real, point.imag)))


@cache
def made(seed: int, most: int = 5) -> tuple[Version, ...]:
    """Versions of one step each, made up at random, on a block drawn by hand or drafted."""
    rng = random.Random(seed)
    block = drafted(seed % 4) if seed % 3 else bodice()
    pattern, kinds = block, list[Kind]()
    for _ in range(3 * most):
        if len(kinds) == most:
            break
        try:
            kind = a_step(rng, pattern)
        except TrackerError:
            continue
        if not fits(kind, pattern):  # without the limits a refusal would look for
            continue
        pattern = apply_step(kind, pattern, "try").pattern
        kinds.append(kind)
    return line_of(block, *((k,) for k in kinds))


@settings(max_examples=80)
@given(seed=st.sampled_from(SEEDS), which=st.integers(0, 10**6), share=st.floats(0.02, 0.98))
def test_every_step_that_moved_a_place_is_told_with_what_it_moved_and_no_other(
    seed: int, which: int, share: float
) -> None:
    line = made(seed)
    edges = [(p.name, e) for p in line[-1].pattern.pieces for e in p.edges if e.parts]
    piece, edge = edges[which % len(edges)]
    spot = Stretch(piece, edge.name, edge.side, share * edge.length, share * edge.length)
    reasons = {r.step_id: r for r in why_at(line, [spot])}
    told_of_edge = {r.step_id for r in why(line, [(piece, edge.name, edge.side)])}
    assert set(reasons) <= told_of_edge
    for parent, child in reversed(list(pairwise(line))):
        [taken] = child.taken
        reason = reasons.get(taken.step.step_id)
        was, mirrored = step_back(taken.trace, spot)
        if was is None:
            assert reason is not None
            assert reason.shifts[0].new
            assert "" not in reasons  # nothing before it, not even the block
            break
        here, there = place_of(child.pattern, spot, False), place_of(parent.pattern, was, mirrored)
        assert here is not None
        assert there is not None
        gap = off_line(parent.pattern, was, mirrored, here)
        if reason is None:
            assert gap < 2 * STILL_MM
        elif not reason.shifts[0].new:
            shift = reason.shifts[0]
            assert abs(shift.in_mm) <= gap + 0.02
            assert shift.carried_mm <= max(abs(here - there), gap) + 0.02
            if gap > 1 and abs(shift.in_mm) > 0.9 * gap:
                assert abs(shift.in_mm) == pytest.approx(gap, abs=0.05)
        spot = was
    else:
        assert reasons[""].kind == "drawn by hand"


@pytest.mark.parametrize("seed", SEEDS[:4])
def test_steps_of_one_version_are_told_as_they_are_in_versions_of_their_own(seed: int) -> None:
    apart = made(seed)
    kinds = tuple(v.taken[0].step.as_kind() for v in apart[1:])
    together = line_of(apart[0].pattern, kinds)
    one, other = Lineage.of(together), Lineage.of(apart)
    for seam in together[-1].pattern.seams:
        keys = edges_of_seam(seam)
        assert [(r.kind, r.shifts) for r in one.why(keys)] == [
            (r.kind, r.shifts) for r in other.why(keys)
        ]


def test_a_line_moved_by_a_hair_is_told_as_less_than_the_least_that_is_written() -> None:
    # Let out by 0.1 mm, a fortieth of a millimetre each of two pieces goes half-way.
    line = line_of(bodice(), (side_in(-0.1),))
    half = line[-1].pattern.piece("front").edge("side").length / 2
    reasons = told(line, at("side", "side waist", half))
    assert [s.said for s in reasons[0].shifts] == [
        "side of the back less than 0.1 mm out", "side of the front less than 0.1 mm out"
    ]  # fmt: skip
    assert Shift("side of the front", "", in_mm=-0.06).said == "side of the front 0.1 mm out"
    # Less than a hundredth is nothing.
    assert len(told(line_of(bodice(), (side_in(-0.03),)), at("side", "side waist", half))) == 1
