"""Arc length against two libraries that compute it independently, to 1e-6 mm."""

import math
import warnings
from itertools import pairwise

import pytest
from curves_for_tests import CUSPS, GENTLE, RANDOM, cubics
from hypothesis import given
from hypothesis import strategies as st

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve

EVERY = [*GENTLE, *RANDOM, *CUSPS]


def by_quadrature(segment: Segment, t0: float = 0.0, t1: float = 1.0) -> float:
    """SciPy's adaptive quadrature (QUADPACK) of the speed, told where the curve nearly rests."""
    from scipy.integrate import quad

    def speed(t: float) -> float:
        return abs(bezier.velocity(segment, t))

    slowest = min((k / 2000 for k in range(2001)), key=speed)
    cuts = sorted({t0, t1, *(t for t in (slowest - 1e-3, slowest, slowest + 1e-3) if t0 < t < t1)})
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # at a cusp it warns that the last digits are doubtful
        return sum(
            quad(speed, a, b, epsabs=1e-11, epsrel=1e-13, limit=400)[0] for a, b in pairwise(cuts)
        )


@pytest.mark.parametrize("segment", EVERY)
def test_a_cubic_is_as_long_as_quadrature_says(segment: Segment) -> None:
    assert bezier.arc_length(segment) == pytest.approx(by_quadrature(segment), abs=1e-6)


@pytest.mark.parametrize("segment", EVERY)
def test_a_cubic_is_as_long_as_another_library_says(segment: Segment) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from svgpathtools import CubicBezier

        # In 64 stretches, since near a cusp the library's own whole is 1.3e-6 mm short.
        theirs = CubicBezier(*segment)
        told = sum(theirs.length(k / 64, (k + 1) / 64, error=1e-11) for k in range(64))
    assert bezier.arc_length(segment) == pytest.approx(told, abs=1e-6)


@pytest.mark.parametrize("segment", GENTLE)
def test_a_gentle_cubic_is_as_long_as_its_chords_come_to(segment: Segment) -> None:
    # The same library's other way, halving into chords, which knows nothing of quadrature.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from svgpathtools import CubicBezier
        from svgpathtools.path import segment_length

        told = segment_length(CubicBezier(*segment), 0, 1, segment[0], segment[3], 1e-6, 13, 0)
    assert bezier.arc_length(segment) == pytest.approx(told, abs=1e-6)


def test_lengths_known_by_hand_are_met() -> None:
    assert bezier.arc_length((0j, 30 + 40j)) == 50.0
    assert bezier.arc_length((0j, 10 + 0j, 20 + 0j, 30 + 0j)) == pytest.approx(30.0, abs=1e-9)
    # Out, back past the start and home on one line: x = 300·t·(1 − t)·(1 − 2t): four peaks.
    there_and_back = (0j, 100 + 0j, -100 + 0j, 0j)
    t = 1 / 2 - math.sqrt(3) / 6
    peak = 300 * t * (1 - t) * (1 - 2 * t)
    assert bezier.arc_length(there_and_back) == pytest.approx(4 * peak, abs=1e-6)


def test_a_quarter_circle_drawn_as_one_cubic_is_a_quarter_long() -> None:
    # The usual handle of 4/3·(√2 − 1) keeps within 0.03 % of the radius (known from Bézier arcs).
    k = 4 / 3 * (math.sqrt(2) - 1)
    quarter = (1000 + 0j, complex(1000, 1000 * k), complex(1000 * k, 1000), 1000j)
    assert bezier.arc_length(quarter) == pytest.approx(1000 * math.pi / 2, rel=3e-4)


@given(segment=cubics, cut=st.floats(0.02, 0.98))
def test_the_parts_of_a_cubic_add_to_the_whole(segment: Segment, cut: float) -> None:
    whole = bezier.arc_length(segment)
    assert bezier.arc_length(segment, 0, cut) + bezier.arc_length(segment, cut, 1) == pytest.approx(
        whole, abs=1e-8
    )
    one, other = bezier.split(segment, cut)
    assert bezier.arc_length(one) + bezier.arc_length(other) == pytest.approx(whole, abs=1e-8)


@given(segment=cubics, t0=st.floats(0, 1), t1=st.floats(0, 1))
def test_a_ruler_measures_both_ways(segment: Segment, t0: float, t1: float) -> None:
    measure = bezier.ruler(segment)
    assert measure(t0, t1) == pytest.approx(-measure(t1, t0), abs=1e-9)
    assert measure(t0, t1) == pytest.approx(bezier.arc_length(segment, t0, t1), abs=1e-9)


@given(segment=cubics, share=st.floats(0, 1))
def test_a_point_at_a_distance_lies_at_that_distance(segment: Segment, share: float) -> None:
    curve = Curve.of([segment])
    at = share * curve.length
    t = bezier.parameter_at(segment, at, curve.length)
    assert bezier.arc_length(segment, 0.0, t) == pytest.approx(at, abs=1e-6)
    assert abs(curve.point_at(at) - bezier.point_on(segment, t)) < 2e-5


@pytest.mark.parametrize("segment", [*GENTLE, *RANDOM[:8]])
def test_a_point_at_a_distance_is_where_a_fine_walk_comes_to(segment: Segment) -> None:
    curve = Curve.of([segment])
    steps = 20000
    walked, before = 0.0, segment[0]
    goal = 0.37 * curve.length
    for k in range(1, steps + 1):
        after = bezier.point_on(segment, k / steps)
        walked += abs(after - before)
        before = after
        if walked >= goal:
            break
    assert abs(curve.point_at(goal) - before) < curve.length / steps * 3
