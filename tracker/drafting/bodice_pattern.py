"""From a solved bodice shape to its pattern: pieces, darts, levels, notches, seams."""

from __future__ import annotations

import numpy as np

from tracker.body.ease import EasePlan
from tracker.drafting.bodice_curves import Cubics
from tracker.drafting.bodice_shape import BELOW_BUST_LINE_MM, Half, Shapes
from tracker.drafting.bodice_wants import BodiceChoices
from tracker.geometry.bezier import between
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turned
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Mark, Notch, Stroke
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam

BOTH = BodySide.BOTH

ARMHOLE_NOTCH_UP_MM = 78.0
"""Armhole notches lie about 3 in up from the underarm point; common practice, no source."""


def bodice_pattern(s: Shapes, ease: EasePlan, choices: BodiceChoices) -> Pattern:
    """Return the block's pattern, on its sewing lines, rounded as it is stored.

    Args:
        s: the solved shape.
        ease: the ease plan, of which bust and waist are kept with the pattern.
        choices: stand-backs and how the back shoulder is shaped.
    """
    front, back = _front(s, choices), _back(s, choices)
    eased = choices.back_shoulder == "ease" and ease.mm("shoulder") != 0
    shoulder_ease = (
        (PlannedEase(ease.mm("shoulder"), "neck point", "shoulder point"),) if eased else ()
    )
    seams = (
        Seam(
            "side",
            BOTH,
            (Run("front", "side", BOTH),),
            (Run("back", "side", BOTH, backward=True),),
            (Match("front", "side notch", "back", "side notch"),),
        ),
        Seam(
            "shoulder",
            BOTH,
            (Run("front", "shoulder", BOTH),),
            (Run("back", "shoulder", BOTH, backward=True),),
            (),
            shoulder_ease,
        ),
        Seam(
            "centre back",
            BodySide.CENTRE,
            (Run("back", "centre back", BOTH),),
            (Run("back", "centre back", BOTH),),
        ),
    )
    planned = (("bust line", ease.mm("bust")), ("waist line", ease.mm("waist")))
    return settled(Pattern((front, back), seams, planned))


def _front(s: Shapes, choices: BodiceChoices) -> Piece:
    """Turn the front over to the wearer's right, which lies at negative x."""
    half = s.front
    bust = _over(_one(half.pivot))
    centre_neck, neck, shoulder, underarm, side_waist = (
        _over(_one(p))
        for p in (
            half.centre_neck, half.neck_point, half.shoulder_point, half.underarm, half.side_waist,
        )
    )  # fmt: skip
    angle = float(s.bust_angle[0])
    upper_leg = _over(_one(half.bust_side) + _one(half.side_down) * BELOW_BUST_LINE_MM)
    lower_leg = turned(upper_leg, bust, angle)
    centre_waist, side_waist_line = _waist(half)
    waist_side = _turn_over(side_waist_line).reversed
    waist_centre = _turn_over(centre_waist).reversed
    side_waist = waist_side.start
    edges = (
        Edge("centre front", BOTH, "centre front waist", "centre front neck",
             (Curve.line(0j, centre_neck),)),
        Edge("neckline", BOTH, "centre front neck", "neck point",
             (_turn_over(_chain(half.neckline)),)),
        Edge("shoulder", BOTH, "neck point", "shoulder point", (Curve.line(neck, shoulder),)),
        Edge("armhole", BOTH, "shoulder point", "underarm point",
             (_turn_over(_chain(half.upper_armhole, half.lower_armhole)),)),
        Edge("side", BOTH, "underarm point", "side waist",
             (Curve.line(underarm, upper_leg), Curve.line(lower_leg, side_waist)),
             ("bust dart",)),
        Edge("waist", BOTH, "side waist", "centre front waist", (waist_side, waist_centre),
             ("waist dart",)),
    )  # fmt: skip
    darts = (
        _dart("bust dart", upper_leg, bust, lower_leg, choices.bust_stand_back_mm, "down", "side"),
        _dart("waist dart", waist_side.end, bust, waist_centre.start,
              choices.waist_stand_back_mm, "to the centre", "waist"),
    )  # fmt: skip
    bust_side, line = _over(_one(half.bust_side)), _over(_one(half.line_point))
    armhole = edges[3].length
    return Piece(
        name="front",
        side=BOTH,
        edges=edges,
        darts=darts,
        notches=(
            Notch("front armhole notch", BOTH, "armhole", "shoulder point",
                  armhole - _notch_up(armhole)),
            Notch("side notch", BOTH, "side", "underarm point", _side_notch(s)),
        ),
        levels=(
            Level("across front", BOTH, ((complex(0, line.imag), line),)),
            Level("bust line", BOTH, ((complex(0, bust.imag), bust, bust_side),)),
            Level("waist line", BOTH, (), ("waist",)),
        ),
        marks=(Mark("bust point", BOTH, bust),),
        grain=_grain(bust, centre_neck.imag),
        fold="centre front",
        copies=2,
        cut="cut 1 on the fold",
    )  # fmt: skip


def _back(s: Shapes, choices: BodiceChoices) -> Piece:
    half = s.back
    pivot, blade = _one(half.pivot), _one(s.blade)
    centre_neck, neck, shoulder, underarm = (
        _one(p) for p in (half.centre_neck, half.neck_point, half.shoulder_point, half.underarm)
    )
    waist_centre, waist_side = _waist(half)
    inner, outer = _one(s.blade_inner), _one(s.blade_outer)
    darts = [
        _dart("waist dart", waist_centre.end, pivot, waist_side.start,
              choices.back_stand_back_mm, "to the centre", "waist"),
    ]  # fmt: skip
    if choices.back_shoulder == "dart":
        shoulder_edge = Edge(
            "shoulder", BOTH, "shoulder point", "neck point",
            (Curve.line(shoulder, outer), Curve.line(inner, neck)), ("shoulder dart",),
        )  # fmt: skip
        darts.append(
            _dart("shoulder dart", outer, blade, inner, choices.blade_stand_back_mm,
                  "to the centre", "shoulder")
        )  # fmt: skip
    else:
        shoulder_edge = Edge(
            "shoulder", BOTH, "shoulder point", "neck point", (Curve.line(shoulder, neck),)
        )
    armhole = _chain(half.upper_armhole, half.lower_armhole).reversed
    edges = (
        Edge("centre back", BOTH, "centre back neck", "centre back waist",
             (Curve.line(centre_neck, 0j),)),
        Edge("waist", BOTH, "centre back waist", "side waist", (waist_centre, waist_side),
             ("waist dart",)),
        Edge("side", BOTH, "side waist", "underarm point",
             (Curve.line(waist_side.end, underarm),)),
        Edge("armhole", BOTH, "underarm point", "shoulder point", (armhole,)),
        shoulder_edge,
        Edge("neckline", BOTH, "neck point", "centre back neck",
             (_chain(half.neckline).reversed,)),
    )  # fmt: skip
    bust_side, line = _one(half.bust_side), _one(half.line_point)
    return Piece(
        name="back",
        side=BOTH,
        edges=edges,
        darts=tuple(darts),
        notches=(
            Notch("back armhole notch", BOTH, "armhole", "shoulder point",
                  armhole.length - _notch_up(armhole.length), 2),
            Notch("side notch", BOTH, "side", "underarm point", _side_notch(s)),
        ),
        levels=(
            Level("across back", BOTH, _broken(complex(0, line.imag), line, darts)),
            Level("bust line", BOTH, ((complex(0, bust_side.imag), bust_side),)),
            Level("waist line", BOTH, (), ("waist",)),
        ),
        marks=(Mark("blade point", BOTH, blade),),
        grain=_grain(pivot, centre_neck.imag),
        copies=2,
        cut="cut 2, a pair",
    )  # fmt: skip


def _waist(half: Half) -> tuple[Curve, Curve]:
    """Cut the folded waist at the dart and swing its side part open: centre part, side part."""
    waist, cut, pivot = _segment(half.waist), float(half.waist_cut[0]), _one(half.pivot)
    centre = Curve.of([between(waist, 0.0, cut)])
    angle = float(half.waist_angle[0])
    outer = [turned(p, pivot, angle) for p in between(waist, cut, 1.0)]
    return centre, Curve.of([tuple(outer)])


def _dart(
    name: str, start: Point, pivot: Point, end: Point, stand_back: float, pressed: str, mouth: str
) -> Dart:
    legs = (Curve.line(start, pivot), Curve.line(pivot, end))
    return Dart(name, BOTH, legs, stand_back, pressed, mouth)


def _broken(start: Point, end: Point, darts: list[Dart]) -> tuple[Stroke, ...]:
    """A level stroke, broken where it runs into a dart that opens upward above it."""
    strokes = [(start, end)]
    for dart in darts:
        low = dart.pivot.imag
        tops = dart.mouth_start.imag, dart.mouth_end.imag
        if not low < start.imag < max(tops):
            continue
        hits = sorted(
            (hit[0].point for leg in dart.legs if (hit := with_line(leg, start, end - start))),
            key=lambda p: p.real,
        )
        if len(hits) == 2:
            strokes = [(start, hits[0]), (hits[1], end)]
    return tuple(strokes)


def _side_notch(s: Shapes) -> float:
    """Half-way between the folded bust dart and the waist."""
    dart = float(s.side_upper[0]) + BELOW_BUST_LINE_MM
    return round((dart + float(s.back.side_length[0])) / 2.0, 3)


def _notch_up(armhole_mm: float) -> float:
    return min(ARMHOLE_NOTCH_UP_MM, 0.4 * armhole_mm)


def _grain(dart_point: Point, neck_height_mm: float) -> tuple[Point, Point]:
    """Plumb, half-way from the centre to the waist dart, clear of the waist."""
    x = 0.4 * dart_point.real
    return complex(x, 40.0), complex(x, 0.65 * neck_height_mm)


def _one(points: np.ndarray) -> Point:
    return complex(points[0])


def _over(point: Point) -> Point:
    return complex(-point.real, point.imag)


def _segment(curve: Cubics) -> tuple[Point, Point, Point, Point]:
    return _one(curve.p0), _one(curve.p1), _one(curve.p2), _one(curve.p3)


def _chain(*curves: Cubics) -> Curve:
    return Curve.of([_segment(curve) for curve in curves])


def _turn_over(curve: Curve) -> Curve:
    return Curve(_over(curve.start), tuple(tuple(map(_over, run)) for run in curve.runs))
