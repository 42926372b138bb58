"""Solving a sleeve: its cap as long as the armhole and the ease ask, its shape as preferred.

The two halves of the cap are met exactly; among all caps that do, the one that misses the written
preferences least is taken. The same arm and armhole give the same sleeve.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.bodice_preference import Preference, PreferenceList
from tracker.drafting.bodice_solve import (
    HARDLY,
    MOST_STEPS,
    ROUGH_STEPS,
    ROUGHLY,
    WANTED_TO,
    minimise,
)
from tracker.drafting.sleeve_shape import INDEX, STEPS, VARIABLES, SleeveShapes, sleeve_shapes
from tracker.drafting.sleeve_wants import SleeveWants


@dataclass(frozen=True, slots=True)
class SleeveSolution:
    """Where the solving ended.

    Attributes:
        shapes: the one shape, as arrays of length 1.
        wants: what it was solved for.
        miss: the largest miss of a half cap's length, mm.
    """

    shapes: SleeveShapes
    wants: SleeveWants
    miss: float

    def preferences(self) -> list[Preference]:
        """Return the preferences, evaluated."""
        return sleeve_preferences(self.shapes, self.wants)

    def broken(self) -> tuple[Preference, ...]:
        """Return the limits that are broken."""
        return tuple(p for p in self.preferences() if p.broken())

    @property
    def is_met(self) -> bool:
        """Tell whether the cap fits and every limit is kept."""
        return self.miss <= WANTED_TO and not self.broken()


def solve_sleeve(wants: SleeveWants, *, roughly: bool = False) -> SleeveSolution:
    """Return the best sleeve for what is wanted.

    Args:
        wants: the finished figures.
        roughly: spend less, where only whether there is a sleeve is asked.
    """
    most, hardly = (ROUGH_STEPS, ROUGHLY) if roughly else (MOST_STEPS, HARDLY)

    def evaluate(x: Reals) -> tuple[Reals, Reals]:
        shapes = sleeve_shapes(x, wants)
        rows = [row for p in sleeve_preferences(shapes, wants) for row in p.misses()]
        return np.array(rows), np.array(_lengths(shapes, wants))

    with np.errstate(all="ignore"):
        x, c, _, _ = minimise(evaluate, _start(wants), most, hardly)
        miss = float(np.abs(c).max()) if np.all(np.isfinite(c)) else float("inf")
        return SleeveSolution(sleeve_shapes(x[:, None], wants), wants, miss)


def _start(w: SleeveWants) -> Reals:
    half = (w.armhole_mm + w.cap_ease_mm) / 2.0 / 1.05
    height = max(half**2 - (w.upper_arm_mm / 2.0) ** 2, (0.15 * w.armhole_mm) ** 2) ** 0.5
    v = {
        "cap_height": height,
        "aside": 3.0,
        "front_share": 0.45,
        "front_turn_at": 0.45,
        "back_turn_at": 0.38,
        "front_steeper": 0.28,
        "back_steeper": 0.24,
    } | {name: 0.6 for name in INDEX if name.endswith(("low", "high"))}
    return np.array([v[name] for name, _ in VARIABLES]) / STEPS


#: Hollow and round are as stated from a cap this high on (the sine of twice its slope), and less
#: as it is lower; an arc of a cosine's deviation from its chord goes by the same.
_FULL_AT = 0.93


def _lengths(s: SleeveShapes, w: SleeveWants) -> list[Reals]:
    """The misses of what is met by solving; the rest is so by construction."""
    front = w.front_armhole_mm + w.cap_ease_mm * s.front_share
    back = w.back_armhole_mm + w.cap_ease_mm * (1.0 - s.front_share)
    return [s.front.length() - front, s.back.length() - back]


def sleeve_preferences(s: SleeveShapes, w: SleeveWants) -> list[Preference]:
    """Return what is preferred of a sleeve where the wanted figures leave it free.

    Targets and limits are common practice, no source, unless said otherwise.
    """
    out = PreferenceList()
    armhole = w.armhole_mm
    out.prefer(
        "cap height", s.cap_height, 0.33 * armhole, give=0.04 * armhole,
        low=0.17 * armhole, high=0.43 * armhole,
        source="common practice, no source: about a third of the armhole",
    )  # fmt: skip
    out.prefer(
        "back of the cap wider than the front", s.back.width - s.front.width, 10.0, give=6.0,
        low=-30.0, high=40.0,
    )  # fmt: skip
    out.prefer(
        "share of the cap ease in front", s.front_share, 0.45, give=0.02, low=0.3, high=0.6,
        unit="",
        source="common practice, no source: a little more behind, where the arm moves",
    )  # fmt: skip
    for name, half, scoop, bulge, turn_at in (
        ("front", s.front, 0.060, 0.080, 0.45), ("back", s.back, 0.036, 0.085, 0.38),
    ):  # fmt: skip
        chord = half.chord
        # A low cap with as much hollow and round as a high one would be flat on top.
        low = np.minimum(1.0, 2.0 * half.width * s.cap_height / chord**2 / _FULL_AT)
        out.prefer(
            f"{name} cap hollowed below the straight line", half.scoop, scoop * chord * low,
            give=0.007 * armhole, low=0.006 * chord, high=0.13 * chord, edge=1.0,
        )  # fmt: skip
        out.prefer(
            f"{name} cap rounded above the straight line", half.bulge, bulge * chord * low,
            give=0.008 * armhole, low=0.02 * chord, high=0.17 * chord, edge=1.0,
        )  # fmt: skip
        turns = half.lower.p3.imag / s.cap_height
        out.prefer(
            f"{name} cap turns at", turns, turn_at, give=0.05, low=0.22, high=0.68, unit="",
            source="common practice, no source: share of the cap height; lower behind",
        )  # fmt: skip
        out.prefer(
            f"steepest climb of the {name} cap", np.degrees(half.steep_rad),
            np.degrees(half.steep_rad), give=1.0, low=10.0, high=82.0, unit="°", spoken=False,
        )  # fmt: skip
        for place, handle in (
            ("low", np.abs(half.lower.p2 - half.lower.p3) / np.abs(half.lower.p1 - half.lower.p3)),
            ("high", np.abs(half.upper.p1 - half.upper.p0) / np.abs(half.upper.p2 - half.upper.p0)),
        ):
            out.prefer(
                f"{name} {place} handle", handle, 0.6, give=0.15, low=0.2, high=0.95, unit="",
                spoken=False,
            )  # fmt: skip
        # A hook is a handle that runs past its neighbour, a flat one of no length.
        crown = half.upper.p2.real
        out.prefer(
            f"{name} crown", crown, crown, give=1.0, low=0.03 * w.upper_arm_mm,
            high=0.5 * w.upper_arm_mm, edge=2.0, spoken=False,
        )  # fmt: skip
    out.prefer(
        "front cap hollowed more than the back", s.front.scoop - s.back.scoop, 6.0, give=4.0,
        low=1.0, high=40.0, edge=0.5,
    )  # fmt: skip
    bends = [half.upper.bend_end() for half in (s.front, s.back)]
    out.prefer(
        "top of the cap alike in front and behind", 1000.0 * (bends[0] - bends[1]), 0.0, give=1.0,
        low=-30.0, high=30.0, unit="", spoken=False,
    )  # fmt: skip
    for name, slant in (
        ("underarm", s.below.slant_top), ("elbow", s.below.slant_elbow),
        ("wrist", s.below.slant_wrist),
    ):  # fmt: skip
        tilt = np.degrees(np.arctan(slant))
        out.prefer(
            f"slant of the underarm seam at the {name}", tilt, tilt, give=1.0, low=-15.0,
            high=w.most_slant_deg, unit="°", spoken=False,
        )  # fmt: skip
    return out.rows
