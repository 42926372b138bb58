"""Parting a piece and turning a dart shut: areas, angles and lengths are conserved."""

import math
from dataclasses import replace

import pytest
import wardrobe
from hypothesis import given
from hypothesis import strategies as st

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.drafting.style_finish import SeamEnd, trimmed_at_foot
from tracker.drafting.style_line import even_line
from tracker.drafting.style_region import Region
from tracker.drafting.style_split import CannotPart, Cut, refuse_crossings, split_piece
from tracker.drafting.style_start import dart_cut
from tracker.drafting.style_turn import turn_dart_shut
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.canonical import settled
from tracker.pattern.checks import ring_fault
from tracker.pattern.marks import Level
from tracker.pattern.measure import level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge


def parted(share: float, whole: Piece | None = None) -> tuple[Piece, Piece, Piece]:
    """The front, its side half and its centre half, parted from the shoulder."""
    front = whole or wardrobe.bodice().piece("front")
    shoulder, waist, dart = front.edge("shoulder"), front.edge("waist"), front.dart("waist dart")
    at = share * shoulder.length
    upper = even_line(shoulder.point_at(at), dart.pivot, dart.axis)
    cut = dart_cut("front princess", shoulder, at, waist, dart, upper)
    side, centre = split_piece(front, cut)
    return front, side.piece, centre.piece


@given(st.floats(0.1, 0.9))
def test_parted_areas_add_up_and_uncut_edges_are_the_very_same(share: float) -> None:
    front, side, centre = parted(share)
    # Rigid-motion invariants: area of each part unchanged (published checks, geometry, 6).
    assert side.area_mm2 + centre.area_mm2 == pytest.approx(front.area_mm2, abs=1e-5)
    assert ring_fault(side) is None
    assert ring_fault(centre) is None
    assert centre.edge("neckline") is front.edge("neckline")
    assert side.edge("armhole") is front.edge("armhole")
    assert side.edge("shoulder").length + centre.edge("shoulder").length == pytest.approx(
        front.edge("shoulder").length, abs=1e-9
    )


@given(st.floats(0.1, 0.9))
def test_the_angle_lost_at_the_dart_is_gained_in_the_seam(share: float) -> None:
    front, side, centre = parted(share)
    bust = front.mark("bust point").point
    lost = side.dart("bust dart").angle_rad
    turned = settled(
        Pattern((turn_dart_shut(side, "bust dart", "front princess", "waist").piece, centre))
    ).pieces[0]
    top = "front princess shoulder"
    gained = abs(turn_between(centre.corner(top) - bust, turned.corner(top) - bust))
    assert gained == pytest.approx(lost, abs=1e-7)
    # Edge width at a radius is 2 r sin(θ/2), the same θ at every radius (published checks, 1).
    radius = abs(centre.corner(top) - bust)
    width = abs(centre.corner(top) - turned.corner(top))
    assert width == pytest.approx(2 * radius * math.sin(lost / 2), abs=1e-5)


def test_the_part_below_the_dart_stays_and_the_armhole_part_turns_as_it_is() -> None:
    _, side, _ = parted(0.5)
    result = turn_dart_shut(side, "bust dart", "front princess", "waist")
    new = result.piece
    assert new.edge("waist") is side.edge("waist")
    assert new.corner("side waist") == side.corner("side waist")
    assert set(result.edges) == {"shoulder", "armhole", "side"}
    for name in ("shoulder", "armhole", "side", "front princess", "waist"):
        assert new.edge(name).length == pytest.approx(side.edge(name).length, abs=1e-5)
    assert new.area_mm2 == pytest.approx(side.area_mm2, abs=1e-5)
    assert level_length(new, new.level("bust line")) == pytest.approx(
        level_length(side, side.level("bust line")), abs=1e-9
    )
    assert not new.darts
    assert len(new.edge("side").parts) == 1


def test_two_points_of_the_part_that_turned_keep_their_distance() -> None:
    _, side, _ = parted(0.5)
    new = turn_dart_shut(side, "bust dart", "front princess", "waist").piece
    for a, b in (
        ("shoulder point", "underarm point"),
        ("front princess shoulder", "underarm point"),
    ):
        assert abs(new.corner(a) - new.corner(b)) == pytest.approx(
            abs(side.corner(a) - side.corner(b)), abs=1e-9
        )


def test_kept_by_the_other_part_the_waist_part_turns_instead() -> None:
    _, side, _ = parted(0.5)
    one = turn_dart_shut(side, "bust dart", "front princess", "waist")
    other = turn_dart_shut(side, "bust dart", "front princess", "armhole")
    assert other.angle_rad == pytest.approx(-one.angle_rad)
    assert other.piece.edge("armhole") is side.edge("armhole")
    assert other.piece.area_mm2 == pytest.approx(one.piece.area_mm2, abs=1e-5)


def test_a_dart_whose_pivot_is_not_on_the_line_is_refused_with_how_far_it_is_off() -> None:
    front = wardrobe.front()
    with pytest.raises(CannotPart, match=r"ends \d+\.\d mm beside the armhole line"):
        turn_dart_shut(front, "bust dart", "armhole", "waist")


def test_a_line_over_a_dart_or_out_of_the_piece_is_refused() -> None:
    front = wardrobe.front()
    start = front.edge("armhole").point_at(100)
    with pytest.raises(CannotPart, match="cross the bust dart"):
        refuse_crossings(front, Curve.line(start, front.edge("waist").point_at(20)), "the line")
    outside = Curve.line(front.corner("shoulder point") + 5, front.corner("underarm point") - 30)
    with pytest.raises(CannotPart, match="cross the armhole"):
        refuse_crossings(front, outside, "the line")


def test_a_line_through_no_dart_parts_a_piece_too() -> None:
    back = wardrobe.bodice().piece("back")
    armhole, waist = back.edge("armhole"), back.edge("waist")
    line = Curve.line(armhole.point_at(80.0), waist.point_at(waist.length - 40.0))
    cut = Cut("back princess", armhole, 80.0, waist, waist.length - 40.0, line, line)
    one, other = split_piece(back, cut)
    assert one.piece.area_mm2 + other.piece.area_mm2 == pytest.approx(back.area_mm2, abs=1e-5)
    assert [d.name for d in one.piece.darts] == ["waist dart"]
    assert not other.piece.darts
    lengths = [level_length(h.piece, h.piece.level("bust line")) for h in (one, other)]
    assert sum(lengths) == pytest.approx(level_length(back, back.level("bust line")), abs=1e-6)


def test_a_cut_that_does_not_run_from_edge_to_edge_is_refused() -> None:
    front = wardrobe.bodice().piece("front")
    shoulder, waist, dart = front.edge("shoulder"), front.edge("waist"), front.dart("waist dart")
    upper = even_line(shoulder.point_at(60.0), dart.pivot, dart.axis)
    cut = dart_cut("front princess", shoulder, 60.0, waist, dart, upper)
    with pytest.raises(CannotPart, match="has to run from edge to edge"):
        split_piece(front, replace(cut, ahead=cut.behind, behind=cut.ahead))


def test_notches_stay_where_they_are_on_the_cloth() -> None:
    front = wardrobe.bodice().piece("front")
    armhole, waist, dart = front.edge("armhole"), front.edge("waist"), front.dart("waist dart")
    for at in (60.0, 90.0, 120.0):  # the armhole notch is at 95
        upper = even_line(armhole.point_at(at), dart.pivot, dart.axis)
        halves = split_piece(front, dart_cut("front princess", armhole, at, waist, dart, upper))
        found = {
            n.name: h.piece.edge(n.edge).point_at(notch_on_edge(h.piece.edge(n.edge), n))
            for h in halves
            for n in h.piece.notches
        }
        for notch in front.notches:
            edge = front.edge(notch.edge)
            assert found[notch.name] == pytest.approx(
                edge.point_at(notch_on_edge(edge, notch)), abs=1e-6
            )


def test_a_line_of_the_part_that_stays_stays_and_one_over_the_dart_is_broken_at_its_mouth() -> None:
    front = wardrobe.bodice().piece("front")
    low = Level("low line", front.side, ((complex(0, 60), complex(-190, 60)),))
    dart = front.dart("bust dart")
    # From the lower part over the mouth into the armhole part.
    over = Level("odd line", front.side, ((complex(-150, 60), complex(-200, 190)),))
    side = parted(0.5, replace(front, levels=(low, over)))[1]
    new = turn_dart_shut(side, "bust dart", "front princess", "waist").piece
    assert new.level("low line") == side.level("low line")
    assert all(p.imag == pytest.approx(60.0) for s in new.level("low line").strokes for p in s)
    stroke = over.strokes[0]
    line = Curve.line(*stroke)
    mouth = [of_curves(line, leg)[0].point for leg in dart.legs]
    gap = abs(mouth[0] - mouth[1])
    kept = level_length(new, new.level("odd line"))
    assert gap > 5
    assert kept == pytest.approx(abs(stroke[1] - stroke[0]) - gap, abs=1e-6)


def test_another_dart_of_the_part_that_stays_stays() -> None:
    pattern = apply_step(
        AddDart(piece="front", name="second waist dart", edge="waist", corner="side waist",
                distance_mm=35.0, width_mm=10.0, length_mm=70.0),
        wardrobe.bodice(), "one",
    ).pattern  # fmt: skip
    front = pattern.piece("front")
    side = parted(0.5, front)[1]
    new = turn_dart_shut(side, "bust dart", "front princess", "waist").piece
    assert new.dart("second waist dart") == front.dart("second waist dart")
    assert ring_fault(new) is None


def test_what_is_taken_off_at_the_foot_makes_the_panel_smaller_and_never_larger() -> None:
    _, side, centre = parted(0.5)
    for panel in (side, centre):
        end = SeamEnd("front princess", panel.edge("waist").side, "front princess shoulder",
                      "front princess waist", "waist")  # fmt: skip
        new = trimmed_at_foot(panel, end, 5.0)
        assert ring_fault(new) is None
        assert end.edge(new).length == pytest.approx(end.edge(panel).length - 5.0, abs=1e-6)
        old = Region(panel.plain_ring)
        for part in new.edge("waist").parts:
            points = [part.point_at(part.length * k / 30) for k in range(31)]
            assert all(old.off(p) < 0.05 for p in points)
        # A triangle of 5 mm over the blend, rounded: between a third and two thirds of the box.
        assert 0.3 * 5 * 60 < panel.area_mm2 - new.area_mm2 < 0.7 * 5 * 60
