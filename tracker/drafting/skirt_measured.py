"""Measuring a finished skirt block the way its body was measured, for wanted against got."""

from __future__ import annotations

from collections.abc import Iterator

from tracker.drafting.account import met_row
from tracker.drafting.bodice_measured import Row
from tracker.drafting.skirt_wants import SkirtWants
from tracker.pattern.checks import folded_kink_deg
from tracker.pattern.measure import corner_angle, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def skirt_rows(pattern: Pattern, wants: SkirtWants) -> Iterator[Row]:
    """Measure every wanted figure on the pattern itself; girths whole, lengths of one side."""
    front, back = pattern.piece("front"), pattern.piece("back")
    yield met_row("waist", 2 * wants.waist_half_mm, girth(pattern, "waist line"), "with ease")
    yield met_row("hip", 2 * wants.hip_half_mm, girth(pattern, "hip line"), "with ease")
    for piece in (front, back):
        depth = down_the_side(piece)
        yield met_row(f"hip depth down the side, {piece.name}", wants.hip_depth_mm, depth)
    yield met_row("skirt length down the side", wants.length_mm, back.edge("side").length)
    yield met_row(
        "side seam, front", back.edge("side").length, front.edge("side").length, "equal to the back"
    )
    yield from side_joins(pattern, (("waist", "side waist"), ("hem", "side hem")))
    for piece in (front, back):
        yield from squares(piece, f"centre {piece.name}")
        yield from folded(piece)


def down_the_side(piece: Piece) -> float:
    """Return the length of the side seam from the waist to the hip line, mm."""
    side, hip = piece.edge("side"), piece.level("hip line").strokes[0]
    end = max(hip, key=lambda p: abs(p.real))
    along, _ = side.nearest(end)
    return side.length - along if side.end == "side waist" else along


def side_joins(pattern: Pattern, places: tuple[tuple[str, str], ...]) -> Iterator[Row]:
    """Say how the lines that cross the side seam run through it."""
    for name, corner in places:
        total = 0.0
        for piece in (pattern.piece("front"), pattern.piece("back")):
            side = piece.edge("side")
            total += corner_angle(piece, side, side.end == corner)
        yield met_row(f"{name} through the side seam", 180.0, total, "a smooth line", "°")


def squares(piece: Piece, centre: str) -> Iterator[Row]:
    """Say how square a centre line meets its neighbours."""
    edge = piece.edge(centre)
    for at_end in (False, True):
        corner = edge.end if at_end else edge.start
        yield met_row(f"square at the {corner}", 90.0, corner_angle(piece, edge, at_end), "", "°")


def folded(piece: Piece) -> Iterator[Row]:
    """Say how smooth each edge is over its folded darts."""
    for dart in piece.darts:
        if dart.mouth is not None:
            yield met_row(
                f"{dart.mouth} over the folded {piece.name} {dart.name}",
                180.0,
                180.0 + folded_kink_deg(piece, dart.name),
                "a smooth line",
                "°",
            )
