"""Measuring a finished bodice block the way its body was measured, for wanted against got."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from tracker.drafting.bodice_wants import Wants
from tracker.geometry.crossing import with_line
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.pattern.checks import folded_kink_deg
from tracker.pattern.measure import around, corner_angle, girth, level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

RowKind = Literal["wanted", "chosen", "note"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of a draft's table.

    Attributes:
        kind: "wanted" for a figure that has to be met, "chosen" for a free one and what was
            preferred for it, "note" for something to know.
        name: the trade's name of the quantity.
        wanted: the finished figure asked for, or preferred; mm or degrees; none for a note.
        got: the figure of the pattern.
        unit: "mm", "°" or "" for a factor.
        low: least allowed, for a chosen figure.
        high: most allowed, for a chosen figure.
        note: how the figure comes about, or where the preference comes from.
    """

    kind: RowKind
    name: str
    wanted: float | None = None
    got: float | None = None
    unit: str = "mm"
    low: float | None = None
    high: float | None = None
    note: str = ""

    @property
    def miss(self) -> float:
        """Got less wanted; nothing for a note."""
        return 0.0 if self.wanted is None or self.got is None else self.got - self.wanted


def wanted_rows(pattern: Pattern, wants: Wants) -> Iterator[Row]:
    """Measure every wanted figure on the pattern itself.

    Whole-body figures (girths, widths across) are whole; lengths are of one side. What follows
    from the drawing (equal seams, smooth joins) is listed with what it has to come to.
    """
    front, back = pattern.piece("front"), pattern.piece("back")
    neck_f, neck_b = front.corner("neck point"), back.corner("neck point")
    tip_f, tip_b = front.corner("shoulder point"), back.corner("shoulder point")
    nape, underarm = back.corner("centre back neck"), back.corner("underarm point")
    bust = front.mark("bust point").point
    to_bust = abs(neck_f - bust)
    leg = front.dart("waist dart").leg_lengths[0]

    yield _met("bust", 2 * wants.bust_half_mm, girth(pattern, "bust line"), "with ease")
    yield _met("waist", 2 * wants.waist_half_mm, girth(pattern, "waist line"), "with ease")
    yield _met("neckline", 2 * wants.neck_half_mm, around(pattern, "neckline"), "with ease")
    yield _met("front shoulder", wants.shoulder_mm, front.edge("shoulder").length)
    eased = f"{wants.back_shoulder_ease_mm:.0f} mm eased in" if wants.back_shoulder_ease_mm else ""
    yield _met(
        "back shoulder",
        wants.shoulder_mm + wants.back_shoulder_ease_mm,
        back.edge("shoulder").length,
        eased or "dart folded",
    )
    if wants.slope_rad is not None:
        mean = (_slope(neck_f, tip_f) + _slope(neck_b, tip_b)) / 2
        yield _met(
            "shoulder slope", math.degrees(wants.slope_rad), mean, "front and back mean", "°"
        )
    if wants.slant_back_mm is not None:
        yield _met("shoulder point to centre waist, back", wants.slant_back_mm, abs(tip_b))
    if wants.slant_front_mm is not None:
        yield _met("shoulder point to centre waist, front", wants.slant_front_mm, abs(tip_f))
    yield _met("armhole depth", wants.armhole_depth_mm, nape.imag - underarm.imag, "with ease")
    across_back = back.level("across back")
    width = across_back.strokes[-1][-1].real - across_back.strokes[0][0].real
    if len(across_back.strokes) == 1:
        width = level_length(back, across_back)
    yield _met("across back", 2 * wants.across_back_half_mm, 2 * width, "with ease")
    across_front = level_length(front, front.level("across front"))
    yield _met("across front", 2 * wants.across_front_half_mm, 2 * across_front, "with ease")
    length = back.edge("centre back").length
    yield _met("back neck point to waist", wants.back_length_mm, length, "with ease")
    if wants.neck_to_waist_back_mm is not None:
        below = _below(back, neck_b)
        yield _met(
            "neck point to waist, back",
            wants.neck_to_waist_back_mm,
            abs(neck_b - below),
            "with ease",
        )
    yield _met("neck point to bust point", wants.neck_to_bust_mm, to_bust)
    yield _met(
        "neck point over bust to waist", wants.front_over_bust_mm, to_bust + leg, "with ease"
    )
    if wants.front_centre_mm is not None:
        centre = front.edge("centre front").length
        yield _met("centre front length", wants.front_centre_mm, centre, "with ease")
    yield _met("bust point to bust point", 2 * wants.bust_apart_half_mm, 2 * abs(bust.real))
    yield _met(
        "side seam, front",
        back.edge("side").length,
        front.edge("side").length,
        "equal to the back's, bust dart folded",
    )
    yield from _joins(pattern)


def _below(back: Piece, neck_point: Point) -> Point:
    """Where a plumb line from the neck point meets the waist, its dart folded as it is sewn."""
    dart = back.dart("waist dart")
    centre, side = back.edge("waist").drawn
    folded = Motion.turn(dart.pivot, -dart.angle_rad)
    return next(
        hit.point
        for part in (centre, side.moved(folded))
        for hit in with_line(part, neck_point, -1j)
    )


def _joins(pattern: Pattern) -> Iterator[Row]:
    front, back = pattern.piece("front"), pattern.piece("back")
    for name, corner, edge in (
        ("neckline through the shoulder seam", "neck point", "shoulder"),
        ("armhole through the shoulder seam", "shoulder point", "shoulder"),
        ("armhole through the side seam", "underarm point", "side"),
        ("waist through the side seam", "side waist", "side"),
    ):
        total = 0.0
        for piece in (front, back):
            one = piece.edge(edge)
            total += corner_angle(piece, one, one.end == corner)
        yield _met(name, 180.0, total, "a smooth line", "°")
    for piece, fold in ((front, "centre front"), (back, "centre back")):
        one = piece.edge(fold)
        for at_end in (False, True):
            corner = one.end if at_end else one.start
            yield _met(f"square at the {corner}", 90.0, corner_angle(piece, one, at_end), "", "°")
        for dart in piece.darts:
            yield _met(
                f"{dart.mouth} over the folded {piece.name} {dart.name}",
                180.0,
                180.0 + folded_kink_deg(piece, dart.name),
                "a smooth line",
                "°",
            )


def _met(name: str, wanted: float, got: float, note: str = "", unit: str = "mm") -> Row:
    return Row(kind="wanted", name=name, wanted=wanted, got=got, unit=unit, note=note)


def _slope(neck_point: Point, shoulder_point: Point) -> float:
    away = shoulder_point - neck_point
    return -math.degrees(cmath.phase(complex(abs(away.real), away.imag)))
