"""Lines through points: near every point, no busier than the points ask for."""

import cmath
import itertools
import math
import random

import numpy as np
import pytest
import shapely
from altering import A_THIRD
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import BSpline, splev, splprep

from tracker.geometry.bezier import curvature
from tracker.geometry.curve import Curve
from tracker.geometry.spline import _basis, _curve, _knots
from tracker.geometry.through import THROUGH_MM, off_its_neighbours, through


def spaced(line: Curve, step_mm: float, least: int = 6) -> list[complex]:
    count = max(least, round(line.length / step_mm))
    return [line.point_at(line.length * k / count) for k in range(count + 1)]


def apart(line: Curve, other: Curve) -> float:
    return max(line.nearest(other.point_at(other.length * k / 80))[1] for k in range(81))


def curved() -> list[Curve]:
    """Every bent line of two drafted blocks: necklines, armholes, waists."""
    return [
        part
        for number in (0, 5)
        for piece in drafted(number).pieces
        for edge in piece.edges
        for part in edge.parts
        if any(len(run) == 3 for run in part.runs)
    ]


def test_a_misread_point_bends_the_line_and_makes_no_loop() -> None:
    # An armhole read every 25 mm, its fifth point 4 mm out: the spline that met it ran back.
    read = [
        106.5 + 415j, 114.5 + 392j, 122 + 369j, 127.5 + 345.5j, 134 + 321.5j, 127.5 + 297.5j,
        118.5 + 275j, 102.5 + 256.5j, 81.5 + 245.5j, 57.5 + 243.5j,
    ]  # fmt: skip
    fit = through(read)
    assert fit.furthest_mm <= THROUGH_MM
    chords = sum(abs(b - a) for a, b in itertools.pairwise(read))
    assert fit.line.length < 1.02 * chords
    assert shapely.LineString([(p.real, p.imag) for p in fit.line.flattened(0.1)]).is_simple


@pytest.mark.parametrize(("step_mm", "between_mm"), [(20.0, 0.35), (25.0, 0.35), (30.0, 0.45)])
def test_points_read_exactly_give_the_line_back(step_mm: float, between_mm: float) -> None:
    for line in curved():
        fit = through(spaced(line, step_mm))
        assert fit.furthest_mm <= THROUGH_MM
        assert apart(line, fit.line) < between_mm
        assert fit.line.length == pytest.approx(line.length, abs=0.15)


@settings(max_examples=A_THIRD)
@given(seed=st.integers(0, 10_000), step_mm=st.floats(20.0, 30.0))
def test_readings_a_tenth_of_a_millimetre_out_give_it_back_to_three_tenths(
    seed: int, step_mm: float
) -> None:
    dice = random.Random(seed)
    line = dice.choice(curved())
    points = [
        p + 0.1 * dice.random() * cmath.exp(2j * math.pi * dice.random())
        for p in spaced(line, step_mm)
    ]
    fit = through(points)
    assert fit.furthest_mm <= THROUGH_MM
    assert fit.line.start == points[0]
    assert fit.line.end == points[-1]
    assert apart(line, fit.line) < 0.4
    assert fit.line.length == pytest.approx(line.length, abs=0.3)


def test_readings_a_quarter_of_a_millimetre_out_make_no_more_spans_than_they_can_bear() -> None:
    dice = random.Random(4)
    spans = []
    for line in curved():
        points = [
            p + complex(dice.uniform(-0.25, 0.25), dice.uniform(-0.25, 0.25))
            for p in spaced(line, 20.0)
        ]
        fit = through(points)
        assert fit.furthest_mm <= THROUGH_MM
        spans.append(len(fit.line.runs))
    assert sum(spans) / len(spans) < 3


def test_readings_along_a_straight_edge_give_a_straight_edge() -> None:
    dice = random.Random(7)
    for count in (3, 4, 6, 12):
        points = [complex(25.0 * k, 0.5 * 25 * k + dice.uniform(-0.08, 0.08)) for k in range(count)]
        fit = through(points)
        assert fit.line.runs == ((points[-1],),)


def test_an_arc_of_a_circle_comes_out_with_its_radius() -> None:
    # A circle's curvature is one over its radius everywhere.
    points = [cmath.rect(100.0, math.radians(9 * k)) for k in range(11)]
    fit = through(points)
    for k in range(21):
        assert abs(fit.line.point_at(fit.line.length * k / 20)) == pytest.approx(100, abs=0.02)
    bends = [curvature(s, t) for s in fit.line.segments for t in (0.0, 0.5, 1.0)]
    assert min(bends) > 0.0095
    assert max(bends) < 0.0105


def test_a_line_through_points_agrees_with_scipys_splines() -> None:
    # SciPy, scipy.interpolate.splprep: Dierckx, Curve and Surface Fitting with Splines, 1993.
    for line in curved():
        points = spaced(line, 8.0, 12)
        knots, _ = splprep([[p.real for p in points], [p.imag for p in points]], s=0)
        theirs = [complex(*xy) for xy in np.array(splev(np.linspace(0, 1, 60), knots)).T]
        fit = through(points)
        assert max(fit.line.nearest(p)[1] for p in theirs) < 0.1


@pytest.mark.parametrize("degree", [2, 3])
def test_basis_functions_are_those_of_scipy(degree: int) -> None:
    inner = [0.2, 0.25, 0.7]
    knots = np.array([0.0] * (degree + 1) + inner + [1.0] * (degree + 1))
    at = np.linspace(0.0, 1.0, 41)
    theirs = BSpline.design_matrix(at, knots, degree).toarray()
    assert _basis(knots, at, degree) == pytest.approx(theirs, abs=1e-12)


def test_a_spline_written_as_cubics_is_the_same_line() -> None:
    dice = random.Random(1)
    at = np.linspace(0.0, 1.0, 9)
    knots = _knots(at, 4)
    handles = np.array([complex(40 * k, dice.uniform(0, 60)) for k in range(len(knots) - 4)])
    line = _curve(handles, knots)
    theirs = BSpline(knots, np.array([handles.real, handles.imag]).T, 3)
    assert len(line.runs) == 4
    for x, y in theirs(np.linspace(0, 1, 30)):
        assert line.nearest(complex(x, y))[1] < 1e-9
    for one, other in itertools.pairwise(line.segments):
        assert curvature(one, 1.0) == pytest.approx(curvature(other, 0.0), abs=1e-9)


def test_three_points_are_met_by_a_bow() -> None:
    points = [0j, 40 + 12j, 100 + 0j]
    fit = through(points)
    assert fit.furthest_mm < 1e-6
    assert fit.line.length < 110


def test_a_point_that_was_mistyped_stands_out() -> None:
    points = [cmath.rect(150.0, math.radians(8 * k)) for k in range(9)]
    assert max(off_its_neighbours(points)) < 0.1
    points[4] += 20
    away = off_its_neighbours(points)
    assert away.index(max(away)) == 4
    assert away[4] > 15
