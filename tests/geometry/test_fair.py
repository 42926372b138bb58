"""Two lines joined into one that runs smoothly."""

import cmath
import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.geometry.curve import Curve
from tracker.geometry.fair import LENGTH_MM, faired
from tracker.geometry.point import turn_between


def bends(line: Curve) -> list[float]:
    """The bends between segments, degrees."""
    return [
        abs(math.degrees(turn_between(Curve.of([a]).end_heading, Curve.of([b]).start_heading)))
        for a, b in itertools.pairwise(line.segments)
        if abs(a[-1] - a[0]) > 1e-9 and abs(b[-1] - b[0]) > 1e-9
    ]


def test_lines_that_meet_without_a_bend_are_simply_joined() -> None:
    arc = Curve.cubic(100 + 0j, 130 + 0j, 160 + 10j, 180 + 40j)
    join = faired(Curve.line(0j, 100 + 0j), arc)
    assert join.line.length == pytest.approx(100 + arc.length)
    assert (join.back_mm, join.on_mm) == (0.0, 0.0)


@pytest.mark.parametrize("gap", [15.0, -15.0])
def test_straight_lines_on_one_line_become_one_line(gap: float) -> None:
    join = faired(Curve.line(0j, 100 + 0j), Curve.line(100 + gap + 0j, 200 + 0j))
    assert join.line == Curve.line(0j, 200 + 0j)
    assert (join.back_mm, join.on_mm) == (0.0, 0.0)


def test_straight_lines_a_little_beside_one_another_become_one_line_and_others_do_not() -> None:
    # The published way of lengthening draws a side seam again straight between its old ends (The
    # Dressmaker, part 4); more than a degree would put a bend into what it runs on from.
    near = faired(Curve.line(0j, 100 + 0j), Curve.line(110 + 2j, 200 + 2j))
    assert near.line == Curve.line(0j, 200 + 2j)
    far = faired(Curve.line(0j, 100 + 0j), Curve.line(110 + 8j, 200 + 8j))
    assert len(far.line.runs) > 1
    assert max(bends(far.line)) < 1e-6


@given(
    bend=st.floats(-12, 12),
    along=st.floats(-12, 20),
    aside=st.floats(-3, 3),
    one=st.floats(30, 200),
    other=st.floats(30, 200),
    curved=st.floats(-0.2, 0.2),
)
def test_a_join_never_bends_and_keeps_both_far_ends(
    bend: float, along: float, aside: float, one: float, other: float, curved: float
) -> None:
    first = Curve.cubic(
        complex(-one, curved * one), complex(-one * 0.7, 0), complex(-one * 0.3, 0), 0j
    )
    heading = cmath.rect(1.0, math.radians(bend))
    start = complex(along, aside)
    second = Curve.cubic(
        start,
        start + heading * other * 0.3,
        start + heading * other * 0.7,
        start + heading * complex(other, curved * other),
    )
    join = faired(first, second)
    assert join.line.start == first.start
    assert join.line.end == second.end
    assert max(bends(join.line), default=0.0) < 0.06
    if along == aside == 0.0:
        assert join.line.length == pytest.approx(first.length + second.length, abs=0.06)


@given(bend=st.floats(0.1, 8), length=st.floats(40, 250))
def test_a_hinge_keeps_the_length_of_what_is_drawn_again(bend: float, length: float) -> None:
    heading = cmath.rect(1.0, math.radians(bend))
    join = faired(Curve.line(complex(-length, 0), 0j), Curve.line(0j, heading * length))
    assert join.line.length == pytest.approx(2 * length, abs=1.5 * LENGTH_MM)
