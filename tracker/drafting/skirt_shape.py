"""The shape of half a straight skirt as a function of a few numbers, for many trial shapes.

Both pieces are built with their centre at x = 0, the side to the right and the hip line at y = 0.
The waist is built with its darts folded, as it is sewn: one arc from the centre, square to it,
cut at the darts and swung open, so that folding them gives the smooth line back. It meets the
side seam squarely, so that the line runs smoothly across the seam.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Cubics, Points, Reals, shallow, sweep, unit
from tracker.drafting.skirt_wants import SkirtWants

_HALF = (
    ("centre_depth", 4.0),
    ("waist_x", 5.0),
    ("waist_y", 4.0),
    ("lean", 0.03),
    ("intake", 4.0),
)
#: The free numbers of a skirt: name, how much of it counts as one small step (mm or radians).
VARIABLES: tuple[tuple[str, float], ...] = (
    ("front_hip", 5.0),
    ("front_waist", 5.0),
    *((f"{where}_{name}", step) for where in ("front", "back") for name, step in _HALF),
)
INDEX = {name: at for at, (name, _) in enumerate(VARIABLES)}
STEPS: Reals = np.array([step for _, step in VARIABLES])

DART_PLACES = {
    "front": {0: (), 1: (0.56,), 2: (0.44, 0.72)},
    "back": {0: (), 1: (0.46,), 2: (1 / 3, 2 / 3)},
}
"""Where darts open, as shares of the folded waist from the centre.

Back darts at the thirds as on a close textbook block; front common practice, no source.
"""
SHORTER_MM = 15.0
"""A dart nearer the side is this much shorter: 140 and 125 mm on a close textbook block."""
TILT = 0.6
"""Darts follow the normal of the waist by this share; 0 would be plumb."""


@dataclass(frozen=True, slots=True)
class DartShape:
    """One open dart of every trial shape: mouth, point, angle."""

    cut: float
    length_mm: float
    inner: Points
    pivot: Points
    outer: Points
    angle: Reals


@dataclass(frozen=True, slots=True)
class SkirtHalf:
    """One piece of every trial shape.

    Attributes:
        width: half the finished hip of this piece.
        centre: the waist at the centre.
        waist: the waist, its darts folded.
        darts: from the centre to the side.
        factor: how what lies beyond the last dart was swung: z -> factor z + shift.
        shift: see ``factor``.
        side_waist: the waist at the side, darts open.
        side: the side seam from the hip line up to the waist.
        intake: what the darts take together.
    """

    width: Reals
    centre: Points
    waist: Cubics
    darts: tuple[DartShape, ...]
    factor: tuple[Points, ...]
    shift: tuple[Points, ...]
    side_waist: Points
    side: Cubics
    intake: Reals

    @property
    def suppression(self) -> Reals:
        """How much narrower the piece is at the side waist than at the hip."""
        return self.width - np.asarray(self.side_waist.real)


@dataclass(frozen=True, slots=True)
class SkirtShapes:
    """All trial shapes."""

    front: SkirtHalf
    back: SkirtHalf
    front_waist: Reals


def skirt_shapes(x: Reals, wants: SkirtWants, darts: tuple[int, int]) -> SkirtShapes:
    """Build the shapes for ``x``: one column of free numbers (in units of their steps) each.

    Args:
        x: the columns.
        wants: the finished figures.
        darts: how many darts the front has, and the back.
    """
    value = x * STEPS[:, None]
    v = {name: value[at] for name, at in INDEX.items()}
    front_hip = v["front_hip"]
    return SkirtShapes(
        upper_half("front", v, front_hip, wants.front_dart_mm, darts[0]),
        upper_half("back", v, wants.hip_half_mm - front_hip, wants.back_dart_mm, darts[1]),
        v["front_waist"],
    )


def upper_half(
    where: str,
    v: dict[str, Reals],
    width: Reals,
    dart_mm: float,
    count: int,
    tilt: Reals | float = 0.0,
) -> SkirtHalf:
    """Return one piece from the waist to the hip line.

    Args:
        where: "front" or "back".
        v: the free numbers, those of this piece begin with ``where``.
        width: half the finished hip of the piece.
        dart_mm: length of the dart nearest the centre.
        count: how many darts it has.
        tilt: by how much its centre line leans to the side going up, radians.
    """
    intake, lean = v[f"{where}_intake"], v[f"{where}_lean"]
    lengths = [dart_mm - SHORTER_MM * at for at in range(count)]
    each = intake / max(count, 1)
    angles = [2.0 * np.arcsin(np.clip(each / (2.0 * mm), -0.9, 0.9)) for mm in lengths]
    total = sum(angles, np.zeros_like(lean))
    level = unit(-np.asarray(tilt) + np.zeros_like(lean))
    centre = 1j * level * v[f"{where}_centre_depth"]
    end = centre + v[f"{where}_waist_x"] + 1j * v[f"{where}_waist_y"]
    waist = shallow(centre, level, end, unit(total + lean))

    factor, shift = [np.ones_like(lean) + 0j], [np.zeros_like(lean) + 0j]
    gone = np.zeros_like(lean)
    darts = []
    for cut, length, angle in zip(DART_PLACES[where][count], lengths, angles, strict=True):
        at = np.full_like(lean, cut)
        mouth = waist.at(at)
        along = np.angle(waist.velocity(at))
        # Plumb in the open piece, or tilted with the waist there.
        aside = TILT * (along - gone - angle / 2.0)
        leg = -1j * unit(aside + angle / 2.0 + gone)
        inner = factor[-1] * mouth + shift[-1]
        pivot = factor[-1] * (mouth + leg * length) + shift[-1]
        swing = unit(-angle)
        factor.append(swing * factor[-1])
        shift.append(pivot + swing * (shift[-1] - pivot))
        outer = factor[-1] * mouth + shift[-1]
        darts.append(DartShape(cut, length, inner, pivot, outer, np.asarray(angle)))
        gone = gone + angle
    side_waist = factor[-1] * end + shift[-1]
    up = np.full_like(side_waist, 1j)
    side = sweep(width + 0j, up, side_waist, up * unit(lean), np.ones_like(lean))
    return SkirtHalf(
        width, centre, waist, tuple(darts), tuple(factor), tuple(shift), side_waist, side, intake
    )
