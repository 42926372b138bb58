"""Measuring a finished torso block the way its body was measured, for wanted against got."""

from __future__ import annotations

from collections.abc import Iterator

from tracker.drafting.account import met_row
from tracker.drafting.bodice import Draft
from tracker.drafting.bodice_measured import Row
from tracker.drafting.skirt_measured import folded, side_joins, squares
from tracker.drafting.torso_wants import TorsoWants
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge

MEASURED_HERE = (
    "bust",
    "waist",
    "neckline",
    "back neck point to waist",
    "centre front length",
    "side seam, front",
)
"""Rows of the bodice that are measured again on the torso."""

AT_THE_WAIST_SEAM = ("waist through the side seam", "square at the centre", "waist over the folded")
"""What a bodice's waist edge has to be; a torso has none."""


def torso_rows(pattern: Pattern, bodice: Draft, wants: TorsoWants) -> Iterator[Row]:
    """Measure the wanted figures; those of lines the torso takes over unchanged stay as they are.

    Girths are whole, lengths are of one side.
    """
    front, back = pattern.piece("front"), pattern.piece("back")
    wanted = {row.name: row.wanted or 0.0 for row in bodice.wanted}
    yield met_row("bust", wanted["bust"], girth(pattern, "bust line"), "with ease")
    yield met_row("waist", wanted["waist"], girth(pattern, "waist line"), "with ease")
    yield met_row("hip", 2 * wants.hip_half_mm, girth(pattern, "hip line"), "with ease")
    yield met_row("neckline", wanted["neckline"], around(pattern, "neckline"), "with ease")
    for name, piece, corner in (
        ("back neck point to waist", back, "centre back neck"),
        ("centre front length", front, "centre front neck"),
    ):
        if name in wanted:
            waist = piece.level("waist line").strokes[0][0]
            yield met_row(name, wanted[name], abs(piece.corner(corner) - waist))
    for piece in (front, back):
        below = _below_the_waist(piece)
        yield met_row(f"hip depth down the side, {piece.name}", wants.hip_depth_mm, below)
    yield met_row(
        "side seam, front",
        back.edge("side").length,
        front.edge("side").length,
        "equal to the back's, bust dart folded",
    )
    for row in bodice.wanted:
        if row.name not in MEASURED_HERE and not row.name.startswith(AT_THE_WAIST_SEAM):
            yield row
    yield from side_joins(pattern, (("hip line", "side hip"),))
    for piece in (front, back):
        yield from squares(piece, f"centre {piece.name}")
        yield from folded(piece)


def _below_the_waist(piece: Piece) -> float:
    """From the waist notch down to the hip line."""
    side = piece.edge("side")
    along = notch_on_edge(side, piece.notch("waist notch"))
    return side.length - along if side.end == "side hip" else along
