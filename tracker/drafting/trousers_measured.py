"""Measuring finished trousers the way the body was measured, for wanted against got."""

from __future__ import annotations

from collections.abc import Iterator

from tracker.drafting.account import met_row
from tracker.drafting.bodice_measured import Row
from tracker.drafting.skirt_measured import down_the_side, folded, side_joins
from tracker.drafting.trousers_wants import TrouserWants
from tracker.pattern.measure import corner_angle, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def trouser_rows(pattern: Pattern, wants: TrouserWants) -> Iterator[Row]:
    """Measure every wanted figure on the pattern itself.

    Waist and hip are whole, thigh and knee of one leg, lengths of one side.
    """
    front, back = pattern.piece("front"), pattern.piece("back")
    yield met_row("waist", 2 * wants.waist_half_mm, girth(pattern, "waist line"), "with ease")
    yield met_row("hip", 2 * wants.hip_half_mm, girth(pattern, "hip line"), "with ease")
    yield met_row("knee", wants.knee_mm, girth(pattern, "knee line") / 2, "one leg, with ease")
    if wants.hem_mm:
        hem = front.edge("hem").length + back.edge("hem").length
        yield met_row("hem", wants.hem_mm, hem, "one leg, as asked for")
    for piece in (front, back):
        yield met_row(
            f"hip depth down the side, {piece.name}", wants.hip_depth_mm, down_the_side(piece)
        )
    below = wants.hip_above_crotch_mm
    got = front.level("hip line").strokes[0][0].imag - front.level("crotch line").strokes[0][0].imag
    yield met_row(
        "crotch depth", wants.hip_depth_mm + below, down_the_side(front) + got, "with ease"
    )
    crotch = [piece.edge("crotch").length for piece in (front, back)]
    if wants.crotch_whole_mm:
        yield met_row(
            "crotch length, front and back", wants.crotch_whole_mm, sum(crotch), "with ease"
        )
    for piece, length, got, met in zip(
        (front, back), wants.crotch_mm, crotch, wants.crotch_met, strict=True
    ):
        if met:
            yield met_row(f"crotch length, {piece.name}", length, got, "with ease")
    if wants.thigh_met:
        thigh = girth(pattern, "crotch line") / 2
        yield met_row("thigh", wants.thigh_mm, thigh, "one leg, with ease")
    for piece in (front, back):
        yield met_row(
            f"inside leg, {piece.name}", wants.inside_leg_mm, piece.edge("inside leg").length,
            "to the hem, crotch ease taken off",
        )  # fmt: skip
    yield met_row(
        "side seam, front", back.edge("side").length, front.edge("side").length, "equal to the back"
    )
    yield from side_joins(pattern, (("waist", "side waist"), ("hem", "side hem")))
    for piece in (front, back):
        centre = piece.edge("crotch")
        for at_end in (False, True):
            corner = centre.end if at_end else centre.start
            angle = corner_angle(piece, centre, at_end)
            yield met_row(f"square at the {piece.name} {corner}", 90.0, angle, "", "°")
        yield met_row(f"square at the {piece.name} inside hem", 90.0, _at_the_hem(piece), "", "°")
        yield from folded(piece)


def _at_the_hem(piece: Piece) -> float:
    inside = piece.edge("inside leg")
    return corner_angle(piece, inside, inside.end == "inside hem")
