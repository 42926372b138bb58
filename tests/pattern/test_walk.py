"""Walking seams, placing spots on them, and measuring as sewn, with answers by hand."""

from dataclasses import replace

import pytest
import wardrobe

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import NoOutline, PatternError, UnknownName
from tracker.pattern.marks import Level, Notch
from tracker.pattern.measure import area, around, corner_angle, girth, level_length, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.seam import Match, Run, Seam
from tracker.pattern.walk import (
    OffTheEnd,
    across,
    edge_distance,
    notch_on_edge,
    seam_distance,
    side_lengths,
    stations,
)  # fmt: skip

BOTH = BodySide.BOTH


def box(name: str, width: float, height: float, **more: object) -> Piece:
    """A rectangle: hem, right, top, left, counter-clockwise from the lower left."""
    w, h = complex(width), complex(0, height)
    sides: tuple[tuple[str, str, str, Point, Point], ...] = (
        ("hem", "lower left", "lower right", 0j, w),
        ("right", "lower right", "upper right", w, w + h),
        ("top", "upper right", "upper left", w + h, h),
        ("left", "upper left", "lower left", h, 0j),
    )
    edges = tuple(Edge(n, BOTH, s, e, (Curve.line(a, b),)) for n, s, e, a, b in sides)
    return Piece(name, BOTH, edges, **more)


def sewn() -> Pattern:
    """Two rectangles of 200 and 206 mm sewn right to left, notched at 80 and 84."""
    one = box("one", 100, 200, notches=(Notch("notch", BOTH, "right", "lower right", 80.0),))
    two = box("two", 120, 206, notches=(Notch("notch", BOTH, "left", "lower left", 84.0),))
    seam = Seam(
        "side", BOTH, (Run("one", "right", BOTH),), (Run("two", "left", BOTH, backward=True),),
        (Match("one", "notch", "two", "notch"),),
    )  # fmt: skip
    return Pattern((one, two), (seam,))


def test_a_seam_is_as_long_as_its_edges_on_either_side() -> None:
    assert side_lengths(sewn(), sewn().seam("side")) == (200.0, 206.0)


def test_notches_meet_when_a_seam_is_walked() -> None:
    assert stations(sewn(), sewn().seam("side")) == ((0.0, 0.0), (80.0, 84.0), (200.0, 206.0))


@pytest.mark.parametrize(
    ("first_mm", "second_mm"),
    [(0.0, 0.0), (40.0, 42.0), (80.0, 84.0), (140.0, 84.0 + 122 / 2), (200.0, 206.0)],
)
def test_a_spot_reaches_the_other_side_through_the_notches_and_proportionally_between(
    first_mm: float, second_mm: float
) -> None:
    assert across(sewn(), sewn().seam("side"), first_mm) == pytest.approx(second_mm)


@pytest.mark.parametrize(
    ("place", "expected_mm"),
    [
        (Place(seam="side", corner="lower right", distance_mm=30.0), 30.0),
        (Place(seam="side", corner="upper right", distance_mm=30.0), 170.0),
        (Place(seam="side", corner="lower right", fraction=0.25), 50.0),
        (Place(seam="side", corner="upper right", fraction=0.25), 150.0),
        (Place(seam="side", corner="upper right", distance_mm=200.0), 0.0),
    ],
)
def test_a_place_on_a_seam_is_measured_from_its_named_corner(
    place: Place, expected_mm: float
) -> None:
    assert seam_distance(sewn(), place) == pytest.approx(expected_mm)


def test_a_place_on_an_edge_is_measured_from_its_named_corner() -> None:
    place = Place(piece="two", edge="left", corner="lower left", distance_mm=6.0)
    assert edge_distance(sewn(), place) == pytest.approx(200.0)


def test_a_place_beyond_the_end_is_refused_with_the_length_there_is() -> None:
    with pytest.raises(OffTheEnd, match=r"210 mm from the lower right .* 200 mm long"):
        seam_distance(sewn(), Place(seam="side", corner="lower right", distance_mm=210.0))


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(seam="side", corner="lower rihgt", distance_mm=1.0), "lower right"),
        (Place(seam="sid", corner="lower right", distance_mm=1.0), "no seam called 'sid'"),
    ],
)
def test_a_name_that_is_not_there_is_answered_with_those_that_are(place: Place, words: str) -> None:
    with pytest.raises(UnknownName, match=words):
        seam_distance(sewn(), place)


@pytest.mark.parametrize(
    "fields",
    [
        {"seam": "side", "piece": "one", "edge": "right", "distance_mm": 1.0},
        {"distance_mm": 1.0},
        {"seam": "side"},
        {"seam": "side", "distance_mm": 1.0, "fraction": 0.5},
        {"seam": "side", "fraction": 1.5},
        {"piece": "one", "distance_mm": 1.0},
    ],
)
def test_half_a_place_is_no_place(fields: dict[str, object]) -> None:
    with pytest.raises(PatternError):
        Place(corner="lower right", **fields)


def test_a_place_says_where_it_is() -> None:
    place = Place(seam="side", corner="underarm point", side=BodySide.LEFT, distance_mm=40.0)
    assert place.sentence == "left side seam, 40 mm from the underarm point"
    assert replace(place, distance_mm=0.0).sentence == "left side seam at the underarm point"


def test_a_notch_keeps_its_distance_from_its_own_corner() -> None:
    edge = sewn().piece("one").edge("right")
    assert notch_on_edge(edge, Notch("n", BOTH, "right", "upper right", 30.0)) == 170.0
    with pytest.raises(UnknownName, match="no end of the right edge"):
        notch_on_edge(edge, Notch("n", BOTH, "right", "somewhere", 30.0))


def darted() -> Piece:
    """A rectangle of 300 × 200 with a dart 60 deep and 20 wide in the middle of its hem."""
    piece = box("skirt", 300, 200, copies=4)
    hem = Edge(
        "hem", BOTH, "lower left", "lower right",
        (Curve.line(0j, 140 + 0j), Curve.line(160 + 0j, 300 + 0j)), ("dart",),
    )  # fmt: skip
    legs = Curve.line(140 + 0j, 150 + 60j), Curve.line(150 + 60j, 160 + 0j)
    dart = Dart("dart", BOTH, legs, 10.0, "to the centre", "hem")
    levels = (
        Level("hip line", BOTH, ((100j, 300 + 100j),)),
        Level("thigh line", BOTH, ((30j, 145 + 30j), (155 + 30j, 300 + 30j))),
        Level("hem line", BOTH, (), ("hem",)),
    )
    return replace(piece.with_edge(hem), darts=(dart,), levels=levels)


def test_lengths_and_girths_skip_dart_mouths_as_sewn() -> None:
    piece = darted()
    assert piece.edge("hem").length == 280.0
    assert piece.edge("hem").point_at(140.0) == 140 + 0j  # on the mouth: the mouth's start
    assert piece.edge("hem").point_at(150.0) == 170 + 0j
    assert level_length(piece, piece.level("thigh line")) == 290.0
    pattern = Pattern((piece,))
    assert girth(pattern, "hip line") == 1200.0
    assert girth(pattern, "hem line") == 1120.0
    assert girth(pattern, "hip line", BodySide.RIGHT) == 600.0
    assert around(pattern, "hem") == 1120.0
    assert lines_of(pattern) == ("hip line", "thigh line", "hem line")


def test_a_girth_is_of_the_shell_only() -> None:
    lining = replace(darted(), name="lining", layer="lining")
    assert girth(Pattern((darted(), lining)), "hip line") == 1200.0
    assert area(Pattern((darted(), lining))) == pytest.approx(4 * (60000 - 600))


def test_a_girth_at_a_line_that_is_not_there_names_those_that_are() -> None:
    with pytest.raises(UnknownName, match="hip line"):
        girth(Pattern((darted(),)), "hips line")


def test_area_leaves_dart_mouths_out() -> None:
    assert darted().area_mm2 == pytest.approx(300 * 200 - 20 * 60 / 2)


def test_corner_angles_are_those_inside_the_piece() -> None:
    piece = box("patch", 100, 50)
    for edge in piece.edges:
        assert corner_angle(piece, edge, at_end=True) == pytest.approx(90.0)
        assert corner_angle(piece, edge, at_end=False) == pytest.approx(90.0)


def test_a_dart_is_told_by_its_angle_and_its_stitching_stops_short() -> None:
    dart = darted().dart("dart")
    assert dart.pivot == 150 + 60j
    assert dart.intake_mm == 20.0
    assert dart.leg_lengths[0] == pytest.approx((60**2 + 10**2) ** 0.5)
    assert dart.sewn_points == (150 + 50j,)


def test_lengths_of_a_bought_garment_are_those_declared() -> None:
    paper = wardrobe.paper()
    assert side_lengths(paper, paper.seam("side")) == (205.0, 205.0)
    with pytest.raises(NoOutline, match="no outline"):
        paper.piece("front").edge("armhole").point_at(10.0)


# -- published geometry ------------------------------------------------------------------


@pytest.mark.parametrize(("radius", "width"), [(90.0, 26.25), (180.0, 52.5), (200.0, 58.333)])
def test_a_darts_width_goes_with_its_distance_from_the_pivot(radius: float, width: float) -> None:
    # NIMI, CITS Dress Making theory: turning a dart about its pivot keeps the angle, and the gap
    # at the edge is wider the farther the edge is. 70 mm at 240 mm; w = 2·r·sin(θ/2), computed.
    import cmath
    import math

    def dart(r: float, angle: float) -> Dart:
        a, b = cmath.rect(r, -angle / 2), cmath.rect(r, angle / 2)
        return Dart("d", BOTH, (Curve.line(a, 0j), Curve.line(0j, b)), 0.0, "down", "side")

    angle = 2 * math.asin(70.0 / 480.0)
    assert math.degrees(dart(240.0, angle).angle_rad) == pytest.approx(16.771, abs=5e-4)
    assert dart(240.0, angle).intake_mm == pytest.approx(70.0)
    assert dart(radius, angle).intake_mm == pytest.approx(width, abs=1e-3)
    # Halved by angle the widths add to more than the whole: 35.094 each at 240 mm, computed.
    assert dart(240.0, angle / 2).intake_mm == pytest.approx(35.094, abs=1e-3)


@pytest.mark.parametrize(
    ("back_mm", "angle_deg", "leg_mm"),
    [(12.7, 17.70, 227.4), (25.0, 18.71, 215.3), (38.0, 19.91, 202.5)],
)
def test_a_point_moved_back_widens_the_angle_it_is_sewn_at_but_not_the_pivots(
    back_mm: float, angle_deg: float, leg_mm: float
) -> None:
    # 70 mm at 240 mm, computed: angle and leg from a point that far back on the bisector. Hence
    # pivot and sewn point are kept apart.
    import math

    half = math.asin(70.0 / 480.0)
    a, b = complex(240 * math.cos(half), -35), complex(240 * math.cos(half), 35)
    dart = Dart("d", BOTH, (Curve.line(a, 0j), Curve.line(0j, b)), back_mm, "down", "side")
    (sewn_point,) = dart.sewn_points
    assert sewn_point == pytest.approx(back_mm)
    apparent = Dart(
        "d", BOTH, (Curve.line(a, sewn_point), Curve.line(sewn_point, b)), 0.0, "down", "side"
    )
    assert math.degrees(apparent.angle_rad) == pytest.approx(angle_deg, abs=0.01)
    assert apparent.leg_lengths[0] == pytest.approx(leg_mm, abs=0.1)
    assert math.degrees(dart.angle_rad) == pytest.approx(16.771, abs=5e-4)


@pytest.mark.parametrize(
    ("angle_deg", "perimeter", "height"),
    [
        (10, 610.9, 23.4),
        (15, 602.1, 28.6),
        (18.25, 596.5, 31.4),
        (20, 593.4, 32.9),
        (25, 584.7, 36.6),
    ],
)
def test_a_disc_with_a_dart_closes_to_the_cone_its_angle_says(
    angle_deg: float, perimeter: float, height: float
) -> None:
    # Cone of slant 100 mm: what is left of the circle is its rim, 2π·100·(1 − θ/360); its height
    # 100·cos(asin(1 − θ/360)), computed. A dart's angle is the curvature it sews in.
    import cmath
    import math

    from tracker.geometry.fit import fitted

    theta = math.radians(angle_deg)

    def rim(t: float) -> tuple[Point, Point]:
        turn = cmath.exp(1j * (theta / 2 + (2 * math.pi - theta) * t))
        return 100 * turn, 1j * turn

    arc = Curve.of(fitted(rim, 1e-4))
    legs = Curve.line(arc.end, 0j), Curve.line(0j, arc.start)
    dart = Dart("dart", BOTH, legs, 0.0, "down", "rim")
    first, second = arc.split(arc.length / 2)
    piece = Piece("disc", BOTH, (
        Edge("rim", BOTH, "near", "near", (second, first), ("dart",)),), (dart,))  # fmt: skip
    assert math.degrees(piece.dart("dart").angle_rad) == pytest.approx(angle_deg, abs=1e-3)
    rim_mm = piece.edge("rim").length
    assert rim_mm == pytest.approx(perimeter, abs=0.5)
    radius = rim_mm / (2 * math.pi)
    assert math.sqrt(100.0**2 - radius**2) == pytest.approx(height, abs=0.1)
