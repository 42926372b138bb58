"""Loops of a line that crosses itself are cut out, and nothing else is."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.loops import without_loops
from tracker.geometry.profile import Profile, Sum


def bend(radius_mm: float, turn_deg: float, straight_mm: float) -> Curve:
    """A straight line, a bend to the left, and a straight line."""
    turn = math.radians(turn_deg)
    handle = 4 / 3 * math.tan(turn / 4) * radius_mm
    end = radius_mm * complex(math.sin(turn), 1 - math.cos(turn))
    way = complex(math.cos(turn), math.sin(turn))
    return (
        Curve.line(-straight_mm + 0j, 0j)
        .joined(Curve.cubic(0j, handle + 0j, end - handle * way, end))
        .joined(Curve.line(end, end + straight_mm * way))
    )


@given(st.floats(1.0, 30.0), st.floats(2.0, 60.0), st.floats(35.0, 100.0))
def test_a_line_displaced_past_the_radius_of_its_bend_keeps_its_distance(
    radius_mm: float, turn_deg: float, by_mm: float
) -> None:
    base = bend(radius_mm, turn_deg, 200.0)
    line = without_loops(displaced(base, Sum.of([Profile(((0.0, by_mm),))])), 3 * by_mm)
    for k in range(101):
        off = base.nearest(line.point_at(line.length * k / 100))[1]
        assert off == pytest.approx(by_mm, abs=0.1)


@given(st.floats(40.0, 200.0), st.floats(2.0, 170.0))
def test_a_line_that_does_not_cross_itself_is_left_as_it_is(
    radius_mm: float, turn_deg: float
) -> None:
    line = bend(radius_mm, turn_deg, 100.0)
    assert without_loops(line, 80.0) is line


def test_a_loop_longer_than_told_stays() -> None:
    loop = Curve.line(0j, 100 + 0j).joined(Curve.line(100 + 0j, 100 + 50j))
    loop = loop.joined(Curve.line(100 + 50j, 50 - 50j))
    assert without_loops(loop, 100.0) is loop
    assert without_loops(loop, 200.0).length < loop.length
