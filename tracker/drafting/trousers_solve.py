"""Solving trousers: the numbers that meet what is wanted and disagree least otherwise."""

from __future__ import annotations

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.lower_solve import Garment
from tracker.drafting.trousers_preferences import (
    BACK_RAISED_MM,
    FRONT_LOWER_MM,
    FRONT_TILT_DEG,
    back_tilt,
    centre_takes_mm,
    dart_counts,
    side_target,
    trouser_preferences,
)
from tracker.drafting.trousers_shape import INDEX, STEPS, VARIABLES, LegShapes, leg_shapes
from tracker.drafting.trousers_wants import TrouserWants


def _wanted(s: LegShapes, w: TrouserWants) -> list[Reals]:
    rows: list[Reals] = []
    for half, waist, crotch, met in (
        (s.front, s.front_waist, w.crotch_mm[0], w.crotch_met[0]),
        (s.back, w.waist_half_mm - s.front_waist, w.crotch_mm[1], w.crotch_met[1]),
    ):
        rows.append(half.top.waist.length() - waist)
        rows.append(half.top.side.length() - w.hip_depth_mm)
        rows.append(half.inside.length() + half.below - w.inside_leg_mm)
        if not half.top.darts:
            rows.append(half.top.intake)
        if met:
            rows.append(half.crotch_length() - crotch)
    rows.append(s.front.side.length() - s.back.side.length())
    if w.hem_mm:
        rows[-1] = rows[-1] + s.front.below - s.back.below
    if w.crotch_whole_mm:
        rows.append(s.front.crotch_length() + s.back.crotch_length() - w.crotch_whole_mm)
    if w.thigh_met:
        rows.append(s.front.thigh + s.back.thigh - w.thigh_mm)
    return rows


def _start(w: TrouserWants, counts: tuple[int, int]) -> Reals:
    """Return a first shape: the preferences taken one by one."""
    side, fork = side_target(w), w.fork_mm
    centre = centre_takes_mm(w)
    v = dict.fromkeys(INDEX, 0.0)
    v["front_hip"] = (w.hip_half_mm + w.hip_share_mm) / 2
    v["front_waist"] = (w.waist_half_mm + w.waist_share_mm) / 2
    v["back_drop"] = 6.0
    v["leg"] = w.inside_leg_mm - 6.0
    for where, width, waist, count, dart, depth, tilt, taken, reach in (
        ("front", v["front_hip"], v["front_waist"], counts[0], w.front_dart_mm,
         w.hip_depth_mm - FRONT_LOWER_MM, FRONT_TILT_DEG, centre[0], fork),
        ("back", w.hip_half_mm - v["front_hip"], w.waist_half_mm - v["front_waist"], counts[1],
         w.back_dart_mm, w.hip_depth_mm + BACK_RAISED_MM, back_tilt(w), centre[1],
         1.5 * fork + 5.0),
    ):  # fmt: skip
        intake = max(width - waist - taken - side, 8.0) if count else 0.0
        lean = 1.3 * (width - waist - taken - intake) / w.hip_depth_mm
        turn = intake / dart + lean
        slope = float(np.radians(tilt))
        v[f"{where}_centre_depth"] = depth
        v[f"{where}_lean"] = lean
        v[f"{where}_intake"] = intake
        v[f"{where}_waist_x"] = waist * (1.0 - turn * turn / 6.0)
        v[f"{where}_waist_y"] = waist * (turn - slope) / 2.0
        v[f"{where}_tilt"] = slope
        v[f"{where}_fork"] = reach
        v[f"{where}_crease"] = (width - reach) / 2.0
        v[f"{where}_fullness"] = 1.0
    return np.array([v[name] for name, _ in VARIABLES]) / STEPS


TROUSERS: Garment[LegShapes, TrouserWants] = Garment(
    dart_counts, leg_shapes, trouser_preferences, _wanted, _start
)
solve_trousers = TROUSERS.solve
