"""What a body leaves free in a bodice's armholes, and the written preferences that fix it."""

from __future__ import annotations

import numpy as np

from tracker.drafting.bodice_curves import Cubics, Reals
from tracker.drafting.bodice_preference import PreferenceList
from tracker.drafting.bodice_shape import Shapes
from tracker.drafting.bodice_wants import EASY_NECK_RULE, Wants

AT_LINE_RADIUS_MM = 110.0
"""An armhole bends about so gently where the across line meets it, and tighter further down."""

AT_UNDERARM_RADIUS_MM = 60.0
"""An armhole bends about so gently where it runs into the side seam."""


def deg(angle: Reals) -> Reals:
    """Return an angle in degrees."""
    return np.asarray(np.degrees(angle))


def one_way(
    out: PreferenceList,
    name: str,
    curve: Cubics,
    least: float = 2.0,
    from_deg: float = 2.8,
) -> None:
    """Keep a curve bending one way: its bows at both ends positive.

    A bow a little under nothing, where ``least`` allows it, is a counter-curve of less than a
    millimetre, which scissors do not follow.
    """
    for end, bow in (("start", curve.bow_start), ("end", curve.bow_end)):
        out.prefer(
            f"{name}, bow at its {end}",
            deg(bow),
            20.0,
            give=60.0,
            low=least,
            high=86.0,
            unit="°",
            edge=0.5,
            from_low=from_deg - least,
            spoken=False,
        )


def armholes(out: PreferenceList, s: Shapes, w: Wants) -> None:
    """Prefer how long, how wide and how evenly bent the armholes are."""
    back, front = s.back, s.front
    bust, half = w.bust_girth_mm, w.bust_half_mm
    b_length, f_length = back.armhole_length(), front.armhole_length()
    out.prefer(
        "armhole length",
        b_length + f_length,
        0.38 * bust + 95.0,
        give=12.0,
        low=0.34 * bust,
        high=0.66 * bust,
    )
    out.prefer("back armhole less front", b_length - f_length, 10.0, give=5.0, low=-25.0, high=50.0)
    out.prefer(
        "armhole width behind the across back",
        back.underarm.real - w.across_back_half_mm,
        0.12 * half,
        give=12.0,
        low=20.0,
        high=170.0,
    )
    out.prefer(
        "armhole width before the across front",
        front.underarm.real - w.across_front_half_mm,
        0.14 * half,
        give=12.0,
        low=22.0,
        high=200.0,
    )
    for name, one, turn in (("back", back, 4.0), ("front", front, 7.0)):
        upper, lower = one.upper_armhole, one.lower_armhole
        if w.rule >= EASY_NECK_RULE:
            out.prefer(
                f"across {name} lower than half-way down the armhole, share of it",
                one.line_share,
                0.0,
                give=0.01,
                low=-0.05,
                high=0.08,
                unit="",
                spoken=False,
            )
        one_way(out, f"{name} armhole above the across line", upper, -6.0)
        one_way(out, f"{name} armhole below the across line", lower)
        for part, curve in (("upper", upper), ("lower", lower)):
            out.prefer(
                f"{name} armhole fullness, {part}",
                curve.fullness,
                1.0,
                give=0.06,
                low=0.75,
                high=1.3,
                unit="",
            )
        out.prefer(
            f"{name} armhole still narrowing at the across line",
            -deg(np.angle(lower.p1 - lower.p0)) - 90.0,
            turn,
            give=8.0,
            low=-30.0,
            high=30.0,
            unit="°",
        )
        out.prefer(
            f"{name} armhole, evenness above the across line",
            deg(upper.bow_end - 1.6 * upper.bow_start),
            0.0,
            give=2.5,
            low=-60.0,
            high=60.0,
            unit="°",
            spoken=False,
        )
        out.prefer(
            f"{name} armhole, lateness of its bend below the across line",
            one.lower_reach,
            1.1,
            give=0.12,
            low=0.75,
            high=1.75,
            unit="",
            spoken=False,
        )
        if w.rule >= EASY_NECK_RULE:
            out.prefer(
                f"{name} armhole, gentleness at the underarm",
                np.log(np.maximum(lower.bend_end(), 1e-5) * AT_UNDERARM_RADIUS_MM),
                0.0,
                give=0.6,
                low=-9.0,
                high=9.0,
                unit="",
                spoken=False,
            )
        bend = np.maximum(lower.bend_start(), 1e-5)
        out.prefer(
            f"{name} armhole, gentleness at the across line",
            np.log(bend * AT_LINE_RADIUS_MM),
            0.0,
            give=0.3,
            low=-9.0,
            high=9.0,
            unit="",
            spoken=False,
        )
        ends = np.maximum(upper.bend_end(), 1e-5) / np.maximum(lower.bend_start(), 1e-5)
        out.prefer(
            f"{name} armhole, bend kept through the across line",
            np.log(ends),
            0.0,
            give=0.15,
            low=-9.0,
            high=9.0,
            unit="",
            spoken=False,
        )
