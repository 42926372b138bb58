"""What a cutter looks for in a block: no hooked neck, no bulging or pointed armhole, sane darts."""

import cmath
import itertools
import math

import pytest
from published.bodies import NamedBody, bdims_bodies, chart_bodies, posture_bodies

from tracker.drafting.bodice import draft_bodice
from tracker.geometry.curve import Curve
from tracker.geometry.point import cross
from tracker.pattern.pattern import Pattern

BODIES = (*chart_bodies()[::3], *posture_bodies(), *bdims_bodies()[3::40])


@pytest.fixture(scope="module", params=BODIES, ids=lambda one: one.name)
def block(request: pytest.FixtureRequest) -> Pattern:
    one: NamedBody = request.param
    return draft_bodice(one.body).pattern


def turns_deg(curve: Curve, steps: int = 60) -> list[float]:
    """By how much a curve turns, step by step of equal length; left is positive."""
    ways = [curve.heading_at(curve.length * k / steps) for k in range(steps + 1)]
    return [math.degrees(cmath.phase(b / a)) for a, b in itertools.pairwise(ways)]


def test_necklines_are_hollow_all_along(block: Pattern) -> None:
    for name in ("front", "back"):
        # Going round with the cloth on the left, a hollow edge turns right.
        turns = turns_deg(block.piece(name).edge("neckline").drawn[0])
        assert max(turns) < 0.02, name


def test_a_neckline_bends_most_in_one_place_only(block: Pattern) -> None:
    for name in ("front", "back"):
        bends = [-turn for turn in turns_deg(block.piece(name).edge("neckline").drawn[0])]
        changes = [b - a for a, b in itertools.pairwise(bends)]
        signs = [change > 0 for change in changes if abs(change) > 0.02]
        assert sum(a != b for a, b in itertools.pairwise(signs)) <= 2, name


def test_an_armhole_is_one_hollow_sweep(block: Pattern) -> None:
    for name in ("front", "back"):
        armhole = block.piece(name).edge("armhole").drawn[0]
        turns = turns_deg(armhole)
        # A wide shoulder may leave a counter-curve that scissors do not follow.
        assert sum(turn for turn in turns if turn > 0) < 8.0, name
        assert sum(turns) < -50.0, name


def test_an_armhole_bulges_by_less_than_a_line_is_wide(block: Pattern) -> None:
    for name in ("front", "back"):
        piece = block.piece(name)
        armhole = piece.edge("armhole").drawn[0]
        tip, line = piece.corner("shoulder point"), armhole.segments[0][-1]
        outward = -1 if name == "front" else 1
        chord = line - tip if abs(armhole.start - tip) < 1e-6 else None
        if chord is None:
            armhole = armhole.reversed
            line = armhole.segments[0][-1]
            chord = line - tip
        unit = chord / abs(chord)
        upper = [armhole.point_at(armhole.lengths[0] * k / 30) for k in range(31)]
        off = [outward * cross(unit, point - tip) for point in upper]
        assert max(off) < 2.0, name


def test_an_armhole_is_nowhere_pointed(block: Pattern) -> None:
    for name in ("front", "back"):
        armhole = block.piece(name).edge("armhole").drawn[0]
        step = armhole.length / 60
        tightest = min(step / math.radians(-turn) for turn in turns_deg(armhole) if turn < -0.01)
        assert tightest > 22.0, name


def test_the_underarm_point_lies_furthest_out_and_below_the_shoulder(block: Pattern) -> None:
    for name in ("front", "back"):
        piece = block.piece(name)
        armhole = piece.edge("armhole").drawn[0]
        underarm, tip = piece.corner("underarm point"), piece.corner("shoulder point")
        assert underarm.imag < tip.imag - 100
        assert max(abs(p.real) for p in armhole.flattened(0.5)) <= abs(underarm.real) + 1e-6
        narrowest = min(armhole.flattened(0.5), key=lambda p: abs(p.real))
        assert underarm.imag < narrowest.imag < tip.imag


def test_every_dart_takes_something_in_and_points_into_its_piece(block: Pattern) -> None:
    for name in ("front", "back"):
        piece = block.piece(name)
        for dart in piece.darts:
            assert dart.intake_mm > 5.0, dart.name
            assert 2.0 < math.degrees(dart.angle_rad) < 40.0, dart.name
            low_x, low_y, high_x, high_y = piece.box
            assert low_x < dart.pivot.real < high_x
            assert low_y < dart.pivot.imag < high_y
    front = block.piece("front")
    assert front.dart("bust dart").pivot == front.mark("bust point").point
    assert front.dart("waist dart").pivot == front.mark("bust point").point


def test_the_waist_lies_about_level(block: Pattern) -> None:
    for name in ("front", "back"):
        for part in block.piece(name).edge("waist").drawn:
            assert all(abs(point.imag) < 42.0 for point in part.flattened(0.5)), name


def test_the_bust_line_meets_the_side_seam_at_the_same_place_on_both(block: Pattern) -> None:
    along = []
    for name in ("front", "back"):
        piece = block.piece(name)
        end = piece.level("bust line").strokes[-1][-1]
        along.append(abs(end - piece.corner("underarm point")))
        assert piece.edge("side").nearest(end)[1] < 1e-5
    assert along[0] == pytest.approx(along[1], abs=1e-5)


def test_no_level_runs_through_an_open_dart(block: Pattern) -> None:
    for name in ("front", "back"):
        piece = block.piece(name)
        for level in piece.levels:
            for stroke in level.strokes:
                for a, b in itertools.pairwise(stroke):
                    for dart in piece.darts:
                        mid = (dart.mouth_start + dart.mouth_end) / 2
                        start, way = dart.pivot + (mid - dart.pivot) * 1e-3, mid - dart.pivot
                        sides = cross(way, a - start), cross(way, b - start)
                        if sides[0] * sides[1] < 0:
                            share = cross(a - start, b - a) / cross(way, b - a)
                            assert not 0 < share < 1, (level.name, dart.name)
