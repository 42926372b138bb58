"""Solving a skirt: the numbers that meet what is wanted and disagree least otherwise."""

from __future__ import annotations

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.lower_solve import Garment, Solution
from tracker.drafting.skirt_preferences import dart_counts, side_target, skirt_preferences
from tracker.drafting.skirt_shape import INDEX, STEPS, VARIABLES, SkirtShapes, skirt_shapes
from tracker.drafting.skirt_wants import SkirtWants

STOUT_MM = 40.0
"""A figure is stout whose half hip is less than this over its half waist."""


def _wanted(s: SkirtShapes, w: SkirtWants) -> list[Reals]:
    rows: list[Reals] = []
    for half, waist in ((s.front, s.front_waist), (s.back, w.waist_half_mm - s.front_waist)):
        rows.append(half.waist.length() - waist)
        rows.append(half.side.length() - w.hip_depth_mm)
        if not half.darts:
            rows.append(half.intake)
    return rows


def _start(w: SkirtWants, counts: tuple[int, int]) -> Reals:
    """Return a first shape: the preferences taken one by one."""
    side = side_target(w)
    v = dict.fromkeys(INDEX, 0.0)
    v["front_hip"] = (w.hip_half_mm + w.hip_share_mm) / 2
    v["front_waist"] = (w.waist_half_mm + w.waist_share_mm) / 2
    for where, width, waist, count, dart, depth in (
        ("front", v["front_hip"], v["front_waist"], counts[0], w.front_dart_mm,
         w.centre_depth_mm[0]),
        ("back", w.hip_half_mm - v["front_hip"], w.waist_half_mm - v["front_waist"], counts[1],
         w.back_dart_mm, w.centre_depth_mm[1]),
    ):  # fmt: skip
        intake = max(width - waist - side, 8.0) if count else 0.0
        lean = 1.3 * (width - waist - intake) / w.hip_depth_mm
        turn = intake / dart + lean
        v[f"{where}_centre_depth"] = depth
        v[f"{where}_lean"] = lean
        v[f"{where}_intake"] = intake
        v[f"{where}_waist_x"] = waist * (1.0 - turn * turn / 6.0)
        v[f"{where}_waist_y"] = waist * turn / 2.0
    return np.array([v[name] for name, _ in VARIABLES]) / STEPS


SKIRT: Garment[SkirtShapes, SkirtWants] = Garment(
    dart_counts, skirt_shapes, skirt_preferences, _wanted, _start
)


def solve_skirt(wants: SkirtWants, rough: bool = False) -> Solution[SkirtShapes, SkirtWants]:
    """Return the best skirt for what is wanted.

    Args:
        wants: the finished figures.
        rough: only whether there is a shape is asked.
    """
    found = SKIRT.solve(wants, rough)
    if found.is_met or wants.hip_half_mm - wants.waist_half_mm > STOUT_MM:
        return found
    stout = SKIRT.solve(wants.with_(stout=True), rough)
    return stout if stout.is_met else found
