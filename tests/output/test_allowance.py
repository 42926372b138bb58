"""The cutting line: allowances measured with Shapely, a general-purpose geometry library."""

import cmath
import itertools
import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.copy_a_lining import CopyLining
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.geometry.curve import Curve
from tracker.geometry.transform import Motion
from tracker.output.allowance import (
    MITRE,
    Allowances,
    NotAnAllowance,
    Side,
    cutting_line,
    outline_with,
)  # fmt: skip
from tracker.output.mouth import mouth_shape, pressed_to_start
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.piece import Piece
from tracker.units import Unit

BOTH = BodySide.BOTH


def ring_of(points) -> shapely.LinearRing:
    return shapely.LinearRing([(p.real, p.imag) for p in points])


def area_of(points) -> float:
    return shapely.Polygon([(p.real, p.imag) for p in points]).area


def gap(ring, point) -> float:
    return ring.distance(shapely.Point(point.real, point.imag))


def sides_of(points, allowances) -> list[Side]:
    return [
        Side(a, b, mm)
        for (a, b), mm in zip(itertools.pairwise([*points, points[0]]), allowances, strict=True)
    ]


def box(wide, high, names=("hem", "right side", "top", "left side"), fold=None) -> Piece:
    corners = [0j, complex(wide, 0), complex(wide, high), complex(0, high)]
    return Piece(
        "panel",
        BOTH,
        tuple(
            Edge(n, BOTH, f"corner {i}", f"corner {(i + 1) % 4}",
                 (Curve.line(corners[i], corners[(i + 1) % 4]),))
            for i, n in enumerate(names)
        ),
        fold=fold,
    )  # fmt: skip


def test_a_rectangle_with_four_allowances_has_the_area_of_the_larger_rectangle():
    ring = outline_with(sides_of([0j, 200 + 0j, 200 + 300j, 300j], [40, 15, 6, 15]))
    assert area_of(ring) == pytest.approx((200 + 15 + 15) * (300 + 40 + 6), abs=1e-6)


@pytest.mark.parametrize("unit", Unit)
def test_allowances_are_those_published(unit):
    # Home-sewing patterns: 5/8 in, 1.5 to 1.6 cm (common practice, no source).
    assert 15.0 <= Allowances.by_preference(unit).seam_mm <= 16.0
    # Test cut: 1/2 to 1 in on shoulder, underarm and side (Fitting Dresses, U.S. Department of
    # Agriculture, 1946, part 2); underarm, shoulder and length seams 1 in (Construction of
    # Clothing, University of Wisconsin).
    test = Allowances.by_preference(unit, test_garment=True)
    assert 0.5 * 25.4 <= test.seam_mm <= 25.4
    assert test.hem_mm >= 25.0


@pytest.mark.parametrize(
    ("wanted", "mm"),
    [
        (Allowances.by_preference(Unit.CM), 15.0),
        (Allowances.by_preference(Unit.INCH), 15.875),  # 5/8 in of 25.4 mm
        (Allowances.by_preference(Unit.CM, test_garment=True), 25.0),
        (Allowances.by_preference(Unit.INCH, test_garment=True), 25.4),
    ],
)
def test_every_seam_of_a_bodice_has_the_allowance_asked_for(wanted, mm):
    for piece in bodice().pieces:
        ring = ring_of(cutting_line(piece, wanted))
        for edge in piece.edges:
            if edge.name == piece.fold:
                continue
            for k in range(1, 40):
                at = edge.length * k / 40
                point = edge.point_at(at)
                if piece.fold and abs(point.real) < 1.05 * mm:
                    continue  # the fold itself is nearer than the edge's own cutting line
                mouths = (m for d in piece.darts for m in (d.mouth_start, d.mouth_end))
                if any(abs(point - m) < 3 for m in mouths):
                    continue  # beside an inward corner the cutting line is a little farther off
                assert gap(ring, point) == pytest.approx(mm, abs=0.05), (piece.name, edge.name)


@pytest.mark.parametrize(
    ("degrees", "times"), [(60, 2.0), (90, 1.4142), (120, 1.1547), (150, 1.0353)]
)
def test_a_corner_reaches_as_far_out_as_two_allowances_crossing_do(degrees, times):
    # Plain trigonometry: where two lines at a distance a cross at a corner of an angle phi they
    # are a / sin(phi / 2) from it.
    half = math.radians(degrees) / 2
    spread = 400 * math.tan(half)
    points = [complex(400, -spread), complex(400, spread), 0j]
    ring = outline_with(sides_of(points, [10.0, 10.0, 10.0]))
    assert max(-p.real for p in ring) == pytest.approx(10.0 * times, abs=1e-3)


@pytest.mark.parametrize("degrees", [30, 45, 55])
def test_a_sharper_corner_is_blunted(degrees):
    spread = 400 * math.tan(math.radians(degrees) / 2)
    ring = outline_with(sides_of([complex(400, -spread), complex(400, spread), 0j], [10.0] * 3))
    sharp = 10.0 / math.sin(math.radians(degrees) / 2)
    out = max(-p.real for p in ring)
    assert 10.0 <= out <= MITRE * 10.0 + 1e-6 < sharp


def test_the_waist_may_have_its_own_allowance_on_one_piece_only():
    own = Allowances().with_own("waist", 25.0, "front")
    pattern = bodice()
    for piece, mm in ((pattern.piece("front"), 25.0), (pattern.piece("back"), 15.0)):
        ring = ring_of(cutting_line(piece, own))
        middle = piece.edge("waist").point_at(0.7 * piece.edge("waist").length)
        assert gap(ring, middle) == pytest.approx(mm, abs=0.05)


def test_nothing_is_added_on_a_fold_and_nothing_lies_beyond_it():
    front = bodice().piece("front")
    ring = cutting_line(front, Allowances())
    assert max(p.real for p in ring) == pytest.approx(0, abs=1e-6)
    high = max(p.imag for p in ring if abs(p.real) < 1e-6)
    low = min(p.imag for p in ring if abs(p.real) < 1e-6)
    # The neckline and the waist leave the fold square, so their allowance is measured along it.
    assert high == pytest.approx(345 + 15, abs=0.02)
    assert low == pytest.approx(-15, abs=0.02)


@pytest.mark.parametrize("mm", [-1.0, 151.0, math.nan])
def test_an_allowance_nobody_can_cut_is_refused_in_a_sentence(mm):
    with pytest.raises(NotAnAllowance, match="0 to 150 mm"):
        Allowances(seam_mm=mm)


@pytest.mark.parametrize(
    ("piece", "dart"), [("front", "bust dart"), ("front", "waist dart"), ("back", "waist dart")]
)
def test_a_folded_dart_is_cut_level_with_the_edge_it_is_pressed_to(piece, dart):
    # Fold the paper: the half of the mouth next to the leg is turned over that leg, the other
    # half is swung round the pivot; both must come to lie on the cutting line beside the dart.
    piece = bodice().piece(piece)
    dart = piece.dart(dart)
    ring = ring_of(cutting_line(piece, Allowances()))
    to_start = pressed_to_start(dart)
    ends = (dart.mouth_start - dart.pivot, dart.mouth_end - dart.pivot)
    leg, other = ends if to_start else ends[::-1]
    turn_over = Motion.mirror(dart.pivot, dart.pivot + leg)
    swing = Motion.turn(dart.pivot, cmath.phase(leg / other))
    seen = 0
    for share in [k / 200 for k in range(1, 200)]:
        ray = ends[0] * cmath.exp(1j * share * cmath.phase(ends[1] / ends[0]))
        near, far = dart.pivot + ray, dart.pivot + 3 * ray
        crossing = ring.intersection(
            shapely.LineString([(near.real, near.imag), (far.real, far.imag)])
        )
        if crossing.geom_type != "Point":
            continue
        point = complex(crossing.x, crossing.y)
        beside_leg = share < 0.5 if to_start else share > 0.5
        folded = turn_over.of(point) if beside_leg else swing.of(point)
        assert gap(ring, folded) < 0.03
        seen += 1
    assert seen > 150


def test_the_mouth_runs_from_leg_to_leg_and_peaks_on_the_line_it_is_folded_on():
    front = bodice().piece("front")
    for dart in front.darts:
        shape = mouth_shape(front, dart)
        assert (shape[0], shape[-1]) == (dart.mouth_start, dart.mouth_end)
        middle = (dart.mouth_start + dart.mouth_end) / 2
        off = min(abs(((p - middle) / dart.axis).imag) for p in shape)
        assert off < 1e-6


def test_a_hem_turned_up_lies_on_the_seams_beside_it():
    # A flared panel: sides lean 10° outwards to the hem.
    flare = math.tan(math.radians(10)) * 400
    corners = [complex(-flare, 0), complex(200 + flare, 0), 200 + 400j, 400j]
    names = ("hem", "right side", "top", "left side")
    edges = tuple(
        Edge(n, BOTH, f"{i}", f"{(i + 1) % 4}", (Curve.line(corners[i], corners[(i + 1) % 4]),))
        for i, n in enumerate(names)
    )
    cut = cutting_line(Piece("panel", BOTH, edges), Allowances(seam_mm=15, hem_mm=40))
    ring = ring_of(cut)
    below = [p for p in cut if p.imag < -1]
    assert min(p.imag for p in below) == pytest.approx(-40, abs=1e-6)
    for point in below:
        assert gap(ring, point.conjugate()) < 0.02 or point.imag < -39
    corner = min(below, key=lambda p: p.real)
    assert gap(ring, corner.conjugate()) < 0.02
    # The sides keep their 15 mm right down to the hem line.
    side = edges[1]
    for share in (0.02, 0.5, 0.9):
        assert gap(ring, side.point_at(side.length * share)) == pytest.approx(15, abs=0.02)


def test_a_straight_hem_on_the_fold_is_square_to_it():
    cut = cutting_line(box(200, 300, fold="left side"), Allowances(seam_mm=15, hem_mm=40))
    assert area_of(cut) == pytest.approx((200 + 15) * (300 + 15 + 40), abs=1e-3)
    assert min(p.real for p in cut) == pytest.approx(0, abs=1e-6)


spiky = st.lists(
    st.tuples(
        st.floats(80, 300), st.floats(0.2, 1.0), st.sampled_from([0.0, 6.0, 15.0, 25.0, 40.0])
    ),
    min_size=4,
    max_size=14,
)


def star(rays) -> tuple[list[complex], list[float]]:
    whole = sum(step for _, step, _ in rays)
    points, angle = [], 0.0
    for reach, step, _ in rays:
        points.append(cmath.rect(reach, angle))
        angle += step / whole * 2 * math.pi
    return points, [mm for _, _, mm in rays]


@given(spiky)
def test_no_edge_of_any_outline_gets_less_than_its_allowance(rays):
    points, allowances = star(rays)
    assume(ring_of(points).is_simple and ring_of(points).is_ccw)
    sides = sides_of(points, allowances)
    cut = outline_with(sides)
    whole = shapely.Polygon([(p.real, p.imag) for p in cut])
    body = shapely.Polygon([(p.real, p.imag) for p in points])
    assert whole.is_valid
    assert whole.buffer(1e-3).contains(body)
    # A blunted corner is one allowance wide to either side, MITRE of them out.
    assert whole.difference(body.buffer(math.hypot(MITRE, 1) * max(allowances) + 0.01)).area < 0.01
    for side in sides:
        # Square out from the middle of the edge the cloth reaches as far as it should.
        foot = (side.start + side.end) / 2
        tip = foot + side.out * side.allowance_mm
        line = shapely.LineString([(foot.real, foot.imag), (tip.real, tip.imag)])
        assert line.difference(whole.buffer(2e-3)).length < 2e-3


@given(spiky, st.sampled_from([6.0, 15.0, 25.0]))
def test_one_allowance_all_round_lies_between_a_bevelled_and_a_pointed_offset(rays, mm):
    points, _ = star(rays)
    assume(ring_of(points).is_simple and ring_of(points).is_ccw)
    body = shapely.Polygon([(p.real, p.imag) for p in points])
    cut = outline_with(sides_of(points, [mm] * len(points)))
    whole = shapely.Polygon([(p.real, p.imag) for p in cut])
    blunt = shapely.Polygon(body.buffer(mm, join_style="bevel").exterior)
    sharp = shapely.Polygon(body.buffer(mm, join_style="mitre", mitre_limit=1e4).exterior)
    assert blunt.difference(whole.buffer(5e-3)).area < 1e-2
    assert whole.difference(sharp.buffer(5e-3)).area < 1e-2


def test_a_facings_inner_edge_is_neatened_where_no_lining_is_sewn_to_it():
    faced = bodice()
    for step in (
        TraceFacing(name="front facing", edges=(EdgeOf(piece="front", edge="neckline"),)),
        TraceFacing(name="back facing", edges=(EdgeOf(piece="back", edge="neckline"),)),
        CopyLining(name="back lining", piece="back", without=("back facing",)),
    ):
        faced = apply_step(step, faced, "one").pattern
    added = Allowances().neatened(faced)
    bare, lined = faced.piece("front facing"), faced.piece("back facing")
    assert added.of(bare, bare.edge("inner edge")) == 0.0
    assert added.of(bare, bare.edge("neckline")) == 15.0
    assert added.of(lined, lined.edge("inner edge")) == 15.0
    # Her own goes before it: 6 mm to turn under.
    own = Allowances().with_own("inner edge", 6.0).neatened(faced)
    assert own.of(bare, bare.edge("inner edge")) == 6.0
    ring = ring_of(cutting_line(bare, added))
    edge = bare.edge("inner edge")
    assert gap(ring, edge.point_at(edge.length / 2)) == pytest.approx(0.0, abs=0.05)


def test_so_is_the_edge_of_a_facing_that_is_grown_on():
    opened = apply_step(AddButtonStand(facing_mm=60.0), bodice(), "one").pattern
    front = opened.piece("front")
    added = Allowances().neatened(opened)
    assert added.of(front, front.edge("facing edge")) == 0.0
    assert added.of(front, front.edge("side")) == 15.0
