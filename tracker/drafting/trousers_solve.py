"""Solving trousers: the numbers that meet what is wanted and disagree least otherwise."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.bodice_preference import Preference
from tracker.drafting.bodice_solve import (
    HARDLY,
    MOST_STEPS,
    ROUGH_STEPS,
    ROUGHLY,
    WANTED_TO,
    minimise,
)
from tracker.drafting.trousers_preferences import (
    BACK_RAISED_MM,
    BACK_TILT_DEG,
    FRONT_LOWER_MM,
    FRONT_TILT_DEG,
    centre_takes_mm,
    dart_counts,
    side_target,
    trouser_preferences,
)
from tracker.drafting.trousers_shape import INDEX, STEPS, VARIABLES, LegShapes, leg_shapes
from tracker.drafting.trousers_wants import TrouserWants


@dataclass(frozen=True, slots=True)
class TrouserSolution:
    """Where the solving ended.

    Attributes:
        shapes: the one shape, as arrays of length 1.
        wants: what it was solved for.
        miss: the largest miss of a wanted figure.
    """

    shapes: LegShapes
    wants: TrouserWants
    miss: float

    def preferences(self) -> list[Preference]:
        """Return the preferences, evaluated."""
        return trouser_preferences(self.shapes, self.wants)

    @property
    def is_met(self) -> bool:
        """Tell whether everything wanted is met and every limit kept."""
        return self.miss <= WANTED_TO and not any(p.broken() for p in self.preferences())


def solve_trousers(wants: TrouserWants, rough: bool = False) -> TrouserSolution:
    """Return the best shape for what is wanted.

    Args:
        wants: the finished figures.
        rough: only whether there is a shape is asked.
    """
    most, hardly = (ROUGH_STEPS, ROUGHLY) if rough else (MOST_STEPS, HARDLY)
    counts = dart_counts(wants)
    found = _solved(wants, counts, most, hardly)
    crowded = [p.name for p in found.preferences() if p.broken() and "waist dart" in p.name]
    if found.miss <= WANTED_TO and crowded:
        # A dart would take too much after all: there is one more of it.
        more = (
            min(counts[0] + any("front" in name for name in crowded), 2),
            min(counts[1] + any("back" in name for name in crowded), 2),
        )
        found = found if more == counts else _solved(wants, more, most, hardly)
    return found


def _solved(
    wants: TrouserWants, counts: tuple[int, int], most: int, hardly: float
) -> TrouserSolution:
    def evaluate(x: Reals) -> tuple[Reals, Reals]:
        shapes = leg_shapes(x, wants, counts)
        rows = [row for p in trouser_preferences(shapes, wants) for row in p.misses()]
        return np.array(rows), np.array(_wanted(shapes, wants))

    x, c, _, _ = minimise(evaluate, _start(wants, counts), most, hardly)
    miss = float(np.abs(c).max()) if np.all(np.isfinite(c)) else float("inf")
    return TrouserSolution(leg_shapes(x[:, None], wants, counts), wants, miss)


def _wanted(s: LegShapes, w: TrouserWants) -> list[Reals]:
    rows: list[Reals] = []
    below_knee = s.leg - w.knee_below_crotch_mm
    for half, waist, crotch in (
        (s.front, s.front_waist, w.crotch_mm[0]),
        (s.back, w.waist_half_mm - s.front_waist, w.crotch_mm[1]),
    ):
        rows.append(half.top.waist.length() - waist)
        rows.append(half.top.side.length() - w.hip_depth_mm)
        rows.append(half.inside.length() + below_knee - w.inside_leg_mm)
        if not half.top.darts:
            rows.append(half.top.intake)
        if w.crotch_measured:
            rows.append(half.crotch_length() - crotch)
    rows.append(s.front.side.length() - s.back.side.length())
    return rows


def _start(w: TrouserWants, counts: tuple[int, int]) -> Reals:
    """Return a first shape: the preferences taken one by one."""
    side, fork = side_target(w), w.hip_girth_mm / 16 + 5.0
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
         w.back_dart_mm, w.hip_depth_mm + BACK_RAISED_MM, BACK_TILT_DEG, centre[1],
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
