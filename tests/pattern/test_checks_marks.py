"""Checks of grain, of darts' stand-back and of open centres: each can fail, with its figure."""

import cmath
import math
from dataclasses import replace

import pytest

from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.cut_the_neckline import CutNeckline, NeckShape
from tracker.alterations.kinds.part_on_a_line import LineEnd, PartOnLine
from tracker.alterations.kinds.seam_at_the_centre import CentreSeam
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import Checked, check
from tracker.pattern.checks_marks import SHORT_OF_MM
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def told(checked: Checked, code: str) -> list[str]:
    """Places found, and places passed with their figure."""
    found = [f"{f.place}: {f.figure:.1f} {f.unit} LOOK" for f in checked.findings if f.code == code]
    passed = [
        f"{w.partition(': ')[2]}: {v}" for w, v in checked.figures if w.startswith(f"{code}:")
    ]
    return found + passed


def grained(pattern: Pattern, piece: str, degrees: float) -> Pattern:
    """The pattern with a piece's grain line turned."""
    old = pattern.piece(piece)
    assert old.grain is not None
    low, high = old.grain
    turned = low + (high - low) * cmath.exp(1j * math.radians(degrees))
    return pattern.with_pieces(replace(old, grain=(low, turned)))


@pytest.mark.parametrize(
    ("piece", "degrees", "line"),
    [
        ("front", 0.0, "the front: 0.0 °"),
        ("front", 0.8, "the front: 0.8 °"),
        ("front", 3.0, "the front: 3.0 ° LOOK"),  # along its fold
        ("back", -2.0, "the back: -2.0 ° LOOK"),  # plumb
        ("back", 180.0, "the back: 0.0 °"),  # an arrow drawn the other way round is the same
    ],
)
def test_a_grain_line_lies_along_its_fold_or_hangs_plumb(
    bodice: Pattern, piece: str, degrees: float, line: str
) -> None:
    assert line in told(check(grained(bodice, piece, degrees)), "grain")


@pytest.mark.parametrize(
    ("degrees", "line"),
    [
        (45.0, "the back: 0.0 °"),
        (-45.6, "the back: 0.6 °"),  # cut as a pair the other one leans the other way
        (90.0, "the back: 0.0 °"),  # across, as bands are cut
        (38.0, "the back: -7.0 ° LOOK"),
        (70.0, "the back: -20.0 ° LOOK"),
    ],
)
def test_a_bias_or_cross_grain_is_held_to_the_true_one(
    bodice: Pattern, degrees: float, line: str
) -> None:
    checked = check(grained(bodice, "back", degrees))
    assert line in told(checked, "grain")
    for finding in checked.findings:
        assert "nor on the true bias (45°)" in finding.sentence


def test_a_piece_without_a_grain_line_is_said(bodice: Pattern) -> None:
    bare = bodice.with_pieces(replace(bodice.piece("back"), grain=None))
    assert "the grain of the back: no grain line is marked" in check(bare).not_checked


@pytest.mark.parametrize(("stand_back_mm", "clean"), [(25.0, True), (12.7, True), (5.0, False)])
def test_a_bust_dart_is_sewn_half_an_inch_short_of_the_bust_point(
    bodice: Pattern, stand_back_mm: float, clean: bool
) -> None:
    # 1/2 in short of the bust point after moving a dart: ICAR e-course.
    assert SHORT_OF_MM == 12.7
    front = bodice.piece("front")
    dart = replace(front.dart("bust dart"), stand_back_mm=stand_back_mm)
    checked = check(bodice.with_pieces(front.with_dart(dart)))
    assert checked.clean is clean
    lines = told(checked, "stand-back")
    if clean:
        assert f"bust dart of the front: {stand_back_mm:.1f} mm" in lines
    else:
        assert "bust dart of the front: 7.7 mm LOOK" in lines
        (finding,) = checked.findings
        assert "at least 13 mm short" in finding.remedy


def test_a_back_dart_may_be_sewn_nearer_its_point(bodice: Pattern) -> None:
    back = bodice.piece("back")
    dart = replace(back.dart("waist dart"), stand_back_mm=0.0)
    assert check(bodice.with_pieces(back.with_dart(dart))).clean


def opened(pattern: Pattern) -> Pattern:
    """The pattern with an open centre front: a pair, no fold and no seam there."""
    return pattern.with_pieces(replace(pattern.piece("front"), fold=None, cut="cut 2, a pair"))


def bent(piece: Piece, edge_name: str, degrees: float) -> Piece:
    edge = piece.edge(edge_name)
    line = edge.parts[0]
    a, b, c, d = line.segments[0]
    turned = a + (b - a) * cmath.exp(1j * math.radians(degrees))
    return piece.with_edge(replace(edge, parts=(Curve.cubic(a, turned, c, d),)))


@pytest.mark.parametrize(
    ("degrees", "line"),
    [
        (0.0, "the front at the centre front neck: 0.0 °"),
        (3.0, "the front at the centre front neck: -3.0 ° LOOK"),
    ],
)
def test_a_neckline_meets_an_open_centre_square(bodice: Pattern, degrees: float, line: str) -> None:
    block = opened(bodice)
    front = bent(block.piece("front"), "neckline", degrees)
    assert line in told(check(block.with_pieces(front)), "centre")


def test_what_crosses_a_centre_line_inside_a_piece_runs_straight_on(bodice: Pattern) -> None:
    # The front edge of an open front taken for a centre line: the neckline does not go on there.
    block = opened(bodice)
    front = block.piece("front")
    line = Level("centre front", BodySide.CENTRE, ((0j, complex(0, 345)),))
    checked = check(block.with_pieces(replace(front, levels=(*front.levels, line))))
    assert "the front at the centre front neck: -90.0 ° LOOK" in told(checked, "centre")


@pytest.mark.parametrize("opened_out", [False, True])
def test_a_neckline_that_comes_to_the_centre_in_a_point_is_meant_and_said(
    bodice: Pattern, opened_out: bool
) -> None:
    block = split_sides(bodice, ("front",)).pattern if opened_out else bodice
    new = apply_step(CutNeckline(front_mm=70.0, front_shape=NeckShape.POINTED), block, "v").pattern
    checked = check(new)
    assert [f.sentence for f in checked.findings] == []
    assert any("as for a point; see that it is meant" in why for why in checked.not_checked)


def test_a_line_that_slants_over_the_centre_of_an_opened_out_piece_is_smooth_over_it(
    bodice: Pattern,
) -> None:
    block = split_sides(bodice, ("front", "back")).pattern
    ends = (
        LineEnd(edge="armhole", corner="shoulder point", distance_mm=60.0),
        LineEnd(edge="centre front", corner="centre front neck", distance_mm=120.0),
    )
    new = apply_step(PartOnLine(pieces=("front",), ends=ends), block, "yoke").pattern
    assert not [f for f in check(new).findings if f.code == "joins"]


def test_a_point_at_a_centre_seam_is_meant_and_its_facing_follows_it(bodice: Pattern) -> None:
    steps = (
        CutNeckline(front_mm=70.0, back_mm=50.0, front_shape=NeckShape.POINTED,
                    back_shape=NeckShape.POINTED),
        TraceFacing(name="back facing", edges=(EdgeOf(piece="back", edge="neckline"),),
                    width_mm=50.0),
        CentreSeam(piece="front"),
    )  # fmt: skip
    block = bodice
    for step in steps:
        block = apply_step(step, block, "v").pattern
    checked = check(block)
    assert [f.sentence for f in checked.findings] == []
    said = [why for why in checked.not_checked if "as for a point" in why]
    for corner in ("centre back neck", "inner centre back", "centre front neck"):
        assert any(corner in why for why in said)


def test_a_point_of_which_the_two_halves_differ_is_told(bodice: Pattern) -> None:
    pointed = CutNeckline(back_mm=50.0, back_shape=NeckShape.POINTED)
    block = split_sides(apply_step(pointed, bodice, "v").pattern, ("back",)).pattern
    left = bent(block.piece("back", BodySide.LEFT), "neckline", 5.0)
    codes = [(f.code, f.place) for f in check(block.with_pieces(left)).findings]
    assert ("joins", "centre back seam at the centre back neck") in codes
