"""Chains: splitting, nearest points, running on, area, flattening."""

import math

import pytest
from curves_for_tests import GENTLE, RANDOM, cubics, lines, points
from hypothesis import given
from hypothesis import strategies as st

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross
from tracker.geometry.transform import Motion

ARMHOLE = Curve.of([GENTLE[0]])
CHAIN = Curve.of(
    [
        (-50 + 10j, 0j),
        GENTLE[0],
        (100 - 130j, 110 - 200j, 150 - 220j, 200 - 200j),
        (200 - 200j, 260 - 180j),
    ]
)


@given(segment=cubics, cut=st.floats(0.01, 0.99), t=st.floats(0, 1))
def test_a_split_is_exact(segment: Segment, cut: float, t: float) -> None:
    one, other = bezier.split(segment, cut)
    assert one[0] == segment[0]
    assert other[-1] == segment[-1]
    assert one[-1] == other[0]
    assert abs(bezier.point_on(one, t) - bezier.point_on(segment, t * cut)) < 1e-9
    assert abs(bezier.point_on(other, t) - bezier.point_on(segment, cut + t * (1 - cut))) < 1e-9


@given(share=st.floats(0.001, 0.999))
def test_a_chain_cut_in_two_keeps_its_length_and_its_whole_segments(share: float) -> None:
    at = share * CHAIN.length
    one, other = CHAIN.split(at)
    assert one.length == pytest.approx(at, abs=2e-5)
    assert one.length + other.length == pytest.approx(CHAIN.length, abs=1e-6)
    assert one.end == other.start
    whole = set(CHAIN.segments)
    assert sum(s in whole for s in (*one.segments, *other.segments)) >= len(CHAIN.segments) - 1


def test_a_part_between_two_distances_on_one_segment_is_that_stretch() -> None:
    part = CHAIN.part(70.0, 120.0)
    assert len(part.runs) == 1
    assert part.length == pytest.approx(50.0, abs=1e-6)
    assert abs(part.start - CHAIN.point_at(70.0)) < 1e-9
    assert abs(part.end - CHAIN.point_at(120.0)) < 1e-9


def test_a_part_of_no_length_is_a_point() -> None:
    part = CHAIN.part(80.0, 80.0)
    assert part.length == 0.0
    assert abs(part.start - CHAIN.point_at(80.0)) < 1e-9


@pytest.mark.parametrize("beyond_mm", [-5.0, 1e6])
def test_distances_off_a_chain_are_held_at_its_ends(beyond_mm: float) -> None:
    assert CHAIN.point_at(beyond_mm) in (CHAIN.start, CHAIN.end)


def walk_of(curve: Curve, steps: int = 4000) -> list[Point]:
    return [bezier.point_on(s, k / steps) for s in curve.segments for k in range(steps + 1)]


@given(segment=cubics, point=points)
def test_the_nearest_point_of_a_cubic_is_as_near_as_any(segment: Segment, point: Point) -> None:
    along, gap = Curve.of([segment]).nearest(point)
    brute = min(abs(bezier.point_on(segment, k / 500) - point) for k in range(501))
    assert gap <= brute + 1e-9
    spot = Curve.of([segment]).point_at(along)
    # Near a cusp a hair of length is many digits of the parameter.
    assert abs(spot - point) == pytest.approx(gap, abs=3e-5)


@pytest.mark.parametrize("seed", range(12))
def test_the_nearest_point_of_a_chain_is_as_near_as_any(seed: int) -> None:
    from random import Random

    rng = Random(seed)
    every = walk_of(CHAIN)
    for _ in range(20):
        point = complex(rng.uniform(-100, 300), rng.uniform(-300, 100))
        along, gap = CHAIN.nearest(point)
        assert gap <= min(abs(p - point) for p in every) + 1e-9
        assert abs(CHAIN.point_at(along) - point) == pytest.approx(gap, abs=1e-5)


@given(segment=lines, share=st.floats(-0.5, 1.5), off=st.floats(-50, 50))
def test_the_nearest_point_of_a_line_is_the_foot_held_at_its_ends(
    segment: Segment, share: float, off: float
) -> None:
    a, b = segment
    square = 1j * (b - a) / abs(b - a)
    point = a + (b - a) * share + square * off
    along, gap = Curve.line(a, b).nearest(point)
    held = min(1.0, max(0.0, share))
    assert along == pytest.approx(held * abs(b - a), abs=1e-6)
    assert gap == pytest.approx(abs(point - (a + (b - a) * held)), abs=1e-6)


def test_a_point_of_the_chain_is_nearest_to_itself() -> None:
    for at in (0.0, 10.0, 60.0, 180.0, CHAIN.length):
        along, gap = CHAIN.nearest(CHAIN.point_at(at))
        assert gap < 1e-9
        assert along == pytest.approx(at, abs=1e-6)


@given(segment=cubics, before=st.floats(0.1, 80), after=st.floats(0.1, 80))
def test_a_line_run_on_goes_straight_ahead_at_both_ends(
    segment: Segment, before: float, after: float
) -> None:
    curve = Curve.of([segment])
    longer = curve.run_on(before, after)
    assert longer.length == pytest.approx(curve.length + before + after, abs=1e-6)
    assert longer.segments[1] == segment
    assert abs(cross(longer.start_heading, curve.start_heading)) < 1e-9
    assert abs(cross(longer.end_heading, curve.end_heading)) < 1e-9
    assert abs(longer.end - curve.end - curve.end_heading * after) < 1e-9


def test_nothing_run_on_is_the_same_line() -> None:
    assert CHAIN.run_on() == CHAIN


def test_an_end_put_elsewhere_keeps_the_direction_there() -> None:
    moved = ARMHOLE.ended_at(ARMHOLE.end + 0.3)
    assert moved.end == ARMHOLE.end + 0.3
    assert abs(moved.end_heading - ARMHOLE.end_heading) < 1e-12
    moved = ARMHOLE.started_at(ARMHOLE.start - 0.2j)
    assert moved.start == ARMHOLE.start - 0.2j
    assert abs(moved.start_heading - ARMHOLE.start_heading) < 1e-12


@pytest.mark.parametrize("segment", [*GENTLE, *RANDOM[:10]])
def test_a_reversed_line_is_the_same_line(segment: Segment) -> None:
    curve = Curve.of([segment, (segment[-1], segment[-1] + 30)])
    back = curve.reversed
    assert back.reversed == curve
    assert back.length == pytest.approx(curve.length, abs=1e-9)
    assert abs(back.point_at(10.0) - curve.point_at(curve.length - 10.0)) < 1e-6


@pytest.mark.parametrize("segment", [*GENTLE, *RANDOM])
def test_the_area_under_a_cubic_is_what_shapely_makes_of_many_chords(segment: Segment) -> None:
    import shapely

    n = 4000
    ring = [bezier.point_on(segment, k / n) for k in range(n + 1)] + [0j]
    # Shapely's signed area of a ring that crosses itself is the sum of what it sweeps, as ours.
    twice = 0.0
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        twice += cross(a, b)
    closed = Curve.of([(0j, segment[0]), segment, (segment[-1], 0j)])
    assert closed.swept == pytest.approx(twice, rel=1e-5, abs=0.5)
    shape = shapely.Polygon([(p.real, p.imag) for p in ring])
    if shape.is_valid and shape.area > 1:
        assert abs(closed.swept) / 2 == pytest.approx(shape.area, rel=1e-5)


def test_the_area_of_a_square_is_positive_where_it_runs_to_the_left() -> None:
    square = Curve.line(0j, 10 + 0j, 10 + 10j, 10j, 0j)
    assert square.swept / 2 == 100.0
    assert square.reversed.swept / 2 == -100.0


@given(segment=cubics, tolerance=st.sampled_from([0.5, 0.05, 0.005]))
def test_a_flattened_line_stands_off_no_more_than_its_tolerance(
    segment: Segment, tolerance: float
) -> None:
    from shapely import LineString
    from shapely import Point as Spot

    flat = LineString([(p.real, p.imag) for p in Curve.of([segment]).flattened(tolerance)])
    for k in range(101):
        p = bezier.point_on(segment, k / 100)
        assert flat.distance(Spot(p.real, p.imag)) <= tolerance + 1e-9


@given(segment=cubics, pivot=points, angle=st.floats(-math.pi, math.pi))
def test_turning_changes_neither_length_nor_area(
    segment: Segment, pivot: Point, angle: float
) -> None:
    closed = Curve.of([segment, (segment[-1], segment[0])])
    turned = closed.moved(Motion.turn(pivot, angle))
    assert turned.length == pytest.approx(closed.length, abs=1e-7)
    assert turned.swept == pytest.approx(closed.swept, abs=1e-4)
    mirrored = closed.moved(Motion.mirror(0j, 1 + 1j))
    assert mirrored.swept == pytest.approx(-closed.swept, abs=1e-4)


def test_two_motions_after_one_another_are_one() -> None:
    one, other = Motion.turn(3 + 4j, 0.7), Motion.mirror(1j, 5 + 2j)
    for point in (0j, 10 - 3j, 7 + 7j):
        assert abs(one.then(other).of(point) - other.of(one.of(point))) < 1e-12
        assert abs(other.then(one).of(point) - one.of(other.of(point))) < 1e-12
