"""Solving a skirt: the numbers that meet what is wanted and disagree least otherwise."""

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
from tracker.drafting.skirt_preferences import dart_counts, side_target, skirt_preferences
from tracker.drafting.skirt_shape import INDEX, STEPS, VARIABLES, SkirtShapes, skirt_shapes
from tracker.drafting.skirt_wants import SkirtWants


@dataclass(frozen=True, slots=True)
class SkirtSolution:
    """Where the solving ended.

    Attributes:
        shapes: the one shape, as arrays of length 1.
        wants: what it was solved for.
        miss: the largest miss of a wanted figure.
    """

    shapes: SkirtShapes
    wants: SkirtWants
    miss: float

    def preferences(self) -> list[Preference]:
        """Return the preferences, evaluated."""
        return skirt_preferences(self.shapes, self.wants)

    @property
    def is_met(self) -> bool:
        """Tell whether everything wanted is met and every limit kept."""
        return self.miss <= WANTED_TO and not any(p.broken() for p in self.preferences())


def solve_skirt(wants: SkirtWants, rough: bool = False) -> SkirtSolution:
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


def _solved(wants: SkirtWants, counts: tuple[int, int], most: int, hardly: float) -> SkirtSolution:
    def evaluate(x: Reals) -> tuple[Reals, Reals]:
        shapes = skirt_shapes(x, wants, counts)
        rows = [row for p in skirt_preferences(shapes, wants) for row in p.misses()]
        return np.array(rows), np.array(_wanted(shapes, wants))

    x, c, _, _ = minimise(evaluate, _start(wants, counts), most, hardly)
    miss = float(np.abs(c).max()) if np.all(np.isfinite(c)) else float("inf")
    return SkirtSolution(skirt_shapes(x[:, None], wants, counts), wants, miss)


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
