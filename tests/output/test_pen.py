"""Pens: what one writes down another draws, moved or measured."""

import math
import re

import pytest
import svgpathtools
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice

from tracker.geometry.transform import Motion
from tracker.output.allowance import Allowances
from tracker.output.drawing import Look, draw_dart, draw_piece, notch_strokes, sewn_legs
from tracker.output.pen import (
    CUTTING,
    DART_FOLD,
    FOLD,
    GRAIN,
    LEVEL,
    MARK,
    NOTCH,
    SEWING,
    BoundsPen,
    Lettering,
    MovedPen,
    RecordingPen,
    draw_circle,
)  # fmt: skip
from tracker.output.svg import SvgPen
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart

points = st.builds(complex, st.floats(-500, 500), st.floats(-500, 500))


@given(points, points, points, points)
def test_the_box_of_a_curve_is_exact(a, b, c, d):
    # svgpathtools finds the box of a cubic on its own.
    pen = BoundsPen()
    pen.move(a, SEWING)
    pen.curve(b, c, d)
    pen.lift()
    x0, x1, y0, y1 = svgpathtools.CubicBezier(a, b, c, d).bbox()
    assert pen.box == pytest.approx((x0, y0, x1, y1), abs=1e-6)


def test_a_circle_is_round():
    pen = BoundsPen()
    draw_circle(pen, 10 + 20j, 5.0, MARK)
    assert pen.box == pytest.approx((5, 15, 15, 25), abs=0.002)


def test_a_recording_draws_the_same_again():
    one, other = RecordingPen(), RecordingPen()
    draw_piece(bodice().piece("front"), one, Look(Allowances(), levels=True))
    one.replay(other)
    assert other.strokes == one.strokes


def test_everything_a_cutter_looks_for_is_drawn_in_its_own_kind_of_line():
    pen = RecordingPen()
    front = bodice().piece("front")
    draw_piece(front, pen, Look(Allowances(), levels=True))
    assert len(pen.lines("cutting")) == 1
    assert len(pen.lines("sewing")) == 7 + 2 * 2  # parts of edges that are sewn, dart legs
    assert len(pen.lines("fold")) == 3  # the fold, and what runs on through the allowances
    assert len(pen.lines("notch")) == 2
    assert len(pen.lines("level")) == 1
    assert len(pen.lines("dart-fold")) == 2
    assert {"bust point", "grain", "bust line", "waist line"} <= set(pen.words)
    looks = [(s.weight_mm, s.dash_mm) for s in (CUTTING, SEWING, FOLD, DART_FOLD, GRAIN, LEVEL)]
    assert len(set(looks)) == len(looks)  # told apart without colour
    assert NOTCH.dash_mm == ()


def test_words_keep_reading_left_to_right_when_a_drawing_is_turned_or_mirrored():
    pen = RecordingPen()
    MovedPen(pen, Motion.turn(0j, math.pi / 2)).text(10 + 0j, "grain", Lettering(3.0))
    at, words, lettering = pen.strokes[0][1]
    assert at == pytest.approx(10j)
    assert (words, lettering.angle_deg) == ("grain", pytest.approx(90))
    MovedPen(pen, Motion.mirror(0j, 1j)).text(10 + 0j, "grain", Lettering(3.0))
    at, _, lettering = pen.strokes[1][1]
    assert (at, lettering.angle_deg) == (pytest.approx(-10 + 0j), 0.0)


def test_svg_runs_down_the_page_and_escapes_words():
    pen = SvgPen()
    pen.move(1 + 2j, SEWING)
    pen.line(3 + 4j)
    pen.close()
    pen.text(5 + 6j, "<½ & “x”>", Lettering(3.0, "middle", 90.0))
    assert 'd="M1 -2L3 -4Z"' in pen.body
    assert 'stroke-dasharray="5 2"' in pen.body
    assert "&lt;½ &amp; “x”&gt;" in pen.body
    assert "rotate(-90 5 -6)" in pen.body


def test_a_dart_is_stitched_to_its_point_and_its_mouth_stays():
    for piece in bodice().pieces:
        for dart in piece.darts:
            one, two = sewn_legs(dart)
            assert one.start == pytest.approx(dart.mouth_start)
            assert two.end == pytest.approx(dart.mouth_end)
            assert one.end == pytest.approx(dart.sewn_points[0], abs=1e-9)
            assert two.start == pytest.approx(dart.sewn_points[0], abs=1e-9)
            assert abs(one.end - dart.pivot) == pytest.approx(dart.stand_back_mm)
            assert one.length == pytest.approx(two.length)


def test_a_double_pointed_dart_keeps_its_width_and_stops_short_of_both_ends():
    from tracker.geometry.curve import Curve

    legs = (
        Curve.cubic(100j, -6 + 70j, -6 + 30j, 0j),
        Curve.cubic(100j, 6 + 70j, 6 + 30j, 0j),
    )
    dart = Dart("waist dart", BodySide.BOTH, legs, 10.0, "to the centre")
    one, two = sewn_legs(dart)
    assert (one.start, one.end) == (pytest.approx(90j), pytest.approx(10j))
    wide = max(
        abs(one.point_at(one.length * k / 100) - two.point_at(two.length * k / 100))
        for k in range(101)
    )
    assert wide == pytest.approx(9.0, abs=0.01)  # 3/4 of the handles' 12 mm, as before
    pen = RecordingPen()
    draw_dart(bodice().piece("back"), dart, pen)
    assert pen.lines("dart-fold") == ((90j, 10j),)


def test_notches_without_an_allowance_are_drawn_inward():
    front = bodice().piece("front")
    (stroke,) = notch_strokes(front, front.notch("side notch"), None)
    inward = stroke[1] - stroke[0]
    edge = front.edge("side")
    along, _ = edge.nearest(stroke[0])
    assert (inward / edge.heading_at(along)).real == pytest.approx(0, abs=1e-9)
    assert (inward / edge.heading_at(along)).imag > 0


def test_the_page_of_every_style_is_well_formed():
    pen = SvgPen(steady=True)
    draw_piece(bodice().piece("back"), pen, Look(Allowances(), levels=True))
    assert re.findall(r"<(\w+)", pen.body).count("path") > 15
    assert pen.body.count("/>") + pen.body.count("</text>") == len(pen.marks)
