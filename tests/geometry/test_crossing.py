"""Crossings of chains with lines and with one another, against Shapely and by brute force."""

from collections.abc import Iterable
from itertools import pairwise

import pytest
from curves_for_tests import GENTLE, cubics, points
from hypothesis import assume, given
from hypothesis import strategies as st

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.crossing import nearest_crossing, of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, dot, unit
from tracker.geometry.zeros import roots

CHAIN = Curve.of([(-50 + 10j, 0j), GENTLE[0], (100 - 130j, 130 - 90j)])


def by_shapely(one: Curve, other: Curve) -> list[Point]:
    """Where fine polylines of the two cross."""
    from shapely import LineString, get_parts

    a, b = (LineString([(p.real, p.imag) for p in c.flattened(1e-4)]) for c in (one, other))
    return [complex(g.x, g.y) for g in get_parts(a.intersection(b)) if g.geom_type == "Point"]


def among(some: Iterable[Point], all_: Iterable[Point], within_mm: float) -> bool:
    every = list(all_)
    return all(any(abs(p - q) < within_mm for q in every) for p in some)


def sine(curve: Segment, t: float, heading: Point) -> float:
    v = bezier.velocity(curve, t)
    return abs(cross(unit(v), unit(heading)))


@given(segment=cubics, through=points, towards=points)
def test_a_cubic_crosses_a_line_where_its_offs_change_sign(
    segment: Segment, through: Point, towards: Point
) -> None:
    assume(abs(towards - through) > 1)
    heading = unit(towards - through)
    offs = [cross(heading, bezier.point_on(segment, k / 1000) - through) for k in range(1001)]
    changes = sum(a * b < 0 for a, b in pairwise(offs))
    found = with_line(Curve.of([segment]), through, heading)
    assert len(found) >= changes
    for c in found:
        assert abs(cross(heading, c.point - through)) < 1e-6
        assert c.second_mm == pytest.approx(dot(c.point - through, heading), abs=1e-9)
        assert c.first_mm >= 0.0
    assert [c.first_mm for c in found] == sorted(c.first_mm for c in found)


@pytest.mark.parametrize(
    ("through", "heading", "expected_mm"),
    [
        (-50 + 10j, 1j, [0.0]),                       # at the very start
        (130 - 90j, 1 + 1j, [CHAIN.length]),          # at the very end
        (0j, 1j, [abs(-50 + 10j)]),                   # at a joint: once, not twice
        (-200 + 0j, 1j, []),                          # beside it
    ],
)  # fmt: skip
def test_a_line_through_an_end_or_a_joint_meets_it_once(
    through: Point, heading: Point, expected_mm: list[float]
) -> None:
    found = with_line(CHAIN, through, heading)
    assert [c.first_mm for c in found if abs(c.point - through) < 1e-6] == pytest.approx(
        expected_mm, abs=1e-6
    )


def test_a_line_that_only_touches_a_bow_meets_it_once() -> None:
    bow = Curve.cubic(0j, 30 + 40j, 70 + 40j, 100 + 0j)  # its highest point is 30 up
    assert [c.point for c in with_line(bow, 30j, 1 + 0j)] == [pytest.approx(50 + 30j, abs=1e-3)]
    assert with_line(bow, 30.001j, 1 + 0j) == []
    assert len(with_line(bow, 29.999j, 1 + 0j)) == 2


def test_a_line_along_a_straight_stretch_does_not_cross_it() -> None:
    assert with_line(Curve.line(0j, 100 + 0j), 0j, 1 + 0j) == []


def test_three_crossings_of_an_s_are_found_in_order_along_it() -> None:
    s = Curve.cubic(0j, 100 + 90j, 0 - 90j, 100 + 0j)
    found = with_line(s, -5j * 0, 1 + 0j)
    assert [round(c.point.real, 6) for c in found] == [0.0, 50.0, 100.0]


@given(a=cubics, b=cubics)
def test_two_cubics_cross_where_shapely_sees_their_polylines_cross(a: Segment, b: Segment) -> None:
    one, other = Curve.of([a]), Curve.of([b])
    found = of_curves(one, other)
    told = by_shapely(one, other)

    def sharp(point: Point) -> bool:
        # Where they all but run along one another a polyline proves nothing, either way.
        t = one.nearest_spot(point)[1]
        return sine(a, t, bezier.velocity(b, other.nearest_spot(point)[1])) > 0.1

    assert among([c.point for c in found if sharp(c.point)], told, 3e-3)
    assert among([p for p in told if sharp(p)], [c.point for c in found], 3e-3)
    for c in found:
        assert abs(one.point_at(c.first_mm) - c.point) < 1e-4
        assert abs(other.point_at(c.second_mm) - c.point) < 1e-4


@given(segment=cubics, p=points, q=points)
def test_a_cubic_and_a_straight_line_cross_where_shapely_sees_it(
    segment: Segment, p: Point, q: Point
) -> None:
    assume(abs(p - q) > 1)
    one, other = Curve.of([segment]), Curve.line(p, q)
    found = of_curves(one, other)
    told = by_shapely(one, other)
    clear = [
        x for x in told if sine(segment, one.nearest_spot(x)[1], q - p) > 0.1
        and min(abs(x - y) for y in (p, q, segment[0], segment[-1])) > 0.01
    ]  # fmt: skip
    assert all(any(abs(c.point - x) < 3e-3 for c in found) for x in clear)
    swapped = of_curves(other, one)
    assert among([c.point for c in found], [c.point for c in swapped], 1e-6)
    assert among([c.point for c in swapped], [c.point for c in found], 1e-6)


def test_lines_that_meet_end_to_end_cross_there() -> None:
    one, other = Curve.line(0j, 50 + 0j), Curve.line(50 + 0j, 80 + 40j)
    (met,) = of_curves(one, other)
    assert (met.point, met.first_mm, met.second_mm) == (50 + 0j, 50.0, 0.0)


def test_lines_that_run_along_one_another_do_not_cross() -> None:
    assert of_curves(Curve.line(0j, 50 + 0j), Curve.line(10 + 0j, 80 + 0j)) == []


def test_cubics_that_lie_on_one_another_do_not_cross() -> None:
    armhole = Curve.of([GENTLE[0]])
    assert of_curves(armhole, armhole) == []
    first, rest = armhole.split(60.0)
    assert of_curves(armhole, first) == []
    (met,) = of_curves(first, rest)
    assert abs(met.point - rest.start) < 1e-9


def test_cubics_that_touch_in_passing_meet_once() -> None:
    up = Curve.cubic(0j, 30 + 40j, 70 + 40j, 100 + 0j)
    down = Curve.cubic(60j, 30 + 20j, 70 + 20j, 100 + 60j)  # lowest where the other is highest
    (met,) = of_curves(up, down)
    assert abs(met.point - (50 + 30j)) < 0.01


def test_the_nearest_of_several_crossings_is_the_nearest_to_the_point_asked() -> None:
    s, axis = Curve.cubic(-1 - 1j, 100 + 90j, 0 - 90j, 101 + 1j), Curve.line(-50 + 0j, 150 + 0j)
    assert len(of_curves(s, axis)) == 3
    near_right = nearest_crossing(s, axis, 95 + 10j)
    assert near_right is not None
    assert near_right.point.real > 90
    assert nearest_crossing(s, Curve.line(0 + 200j, 9 + 200j), 0j) is None


@given(zeros=st.lists(st.floats(0.02, 0.98), min_size=1, max_size=3, unique=True))
def test_the_zeros_of_a_polynomial_are_those_it_was_made_of(zeros: list[float]) -> None:
    assume(all(abs(a - b) > 0.01 for a in zeros for b in zeros if a is not b))
    # (t − z1)(t − z2)… in Bernstein form: blossom of the product, by hand for degree up to 3.
    from itertools import permutations
    from math import factorial

    n = len(zeros)
    coefficients = []
    for k in range(n + 1):
        corners = [1.0] * k + [0.0] * (n - k)
        blossom = 0.0
        for order in permutations(corners):
            product = 1.0
            for t, z in zip(order, zeros, strict=True):
                product *= t - z
            blossom += product
        coefficients.append(blossom / factorial(n))
    assert list(roots(tuple(coefficients))) == pytest.approx(sorted(zeros), abs=1e-10)


def test_zeros_at_the_ends_are_told_once_and_nothing_has_no_zeros() -> None:
    assert list(roots((0.0, 1.0))) == [0.0]
    assert list(roots((1.0, 0.0))) == [1.0]
    assert list(roots((0.0, 1.0, 0.0))) == [0.0, 1.0]
    assert list(roots((0.0, 0.0, 0.0, 0.0))) == []
    assert list(roots((1.0, 2.0, 0.5))) == []
