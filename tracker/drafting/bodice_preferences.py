"""What a body leaves free in a bodice block, and the written preferences that fix it.

Each preference names a quantity, the value it should have, by how much it gives (the smaller,
the sooner others give way to it), and the range it may not leave. What is minimised under the
wanted figures is the sum of the squares of the misses, each in units of its give; so the order
of preference, from what gives least to what gives most, is:

1. shape: no line bends back on itself, corners and darts stay what a cutter would cut;
2. neck width, rise and the shoulder seam's place; back shoulder dart;
3. evenness of waist and curves, fullness as on a circle's arc;
4. sharing of bust and waist between front and back, and of the waist intake between the darts
   and the side seam; the bust dart against the waist dart;
5. depth of the front neck, armhole widths and armhole length.

Figures without another source are common practice, no source.
"""

from __future__ import annotations

import numpy as np

from tracker.drafting.bodice_curves import Cubics, Points, Reals
from tracker.drafting.bodice_preference import Preference, PreferenceList
from tracker.drafting.bodice_shape import BELOW_BUST_LINE_MM, Half, Shapes
from tracker.drafting.bodice_wants import EASY_NECK_RULE, Wants

AT_LINE_RADIUS_MM = 110.0
"""An armhole bends about so gently where the across line meets it, and tighter further down."""

AT_NECK_RADIUS_MM = 30.0
"""A back neckline bends about so gently where it comes up to the shoulder."""

AT_UNDERARM_RADIUS_MM = 60.0
"""An armhole bends about so gently where it runs into the side seam."""

BLOCK_BOOKS = "between two published drafts, from memory"
BUST_DART = "7 cm at bust 88 on a 24 cm leg, 0.6 cm more for 4 cm of bust; textbook increment"
BACK_DART = "1/2 to 3/4 in, common practice"
SLOPES = "Chinese trade figures: front 19-22, back 17-19 degrees; body 14-35 (1979 survey)"


def preferences(s: Shapes, w: Wants) -> list[Preference]:
    """Return every preference, evaluated on the trial shapes."""
    out = PreferenceList()
    _neck_and_shoulder(out, s, w)
    _armholes(out, s, w)
    _widths(out, s, w)
    _waist(out, s, w)
    _bust_dart(out, s, w)
    return out.rows


def _deg(angle: Reals) -> Reals:
    return np.asarray(np.degrees(angle))


def _slope(half: Half) -> Reals:
    return -_deg(np.angle(half.shoulder_point - half.neck_point))


def _lean(down: Points) -> Reals:
    """By how many degrees a side leans towards the centre going down."""
    return -_deg(np.angle(down * 1j))


def _neck_and_shoulder(out: PreferenceList, s: Shapes, w: Wants) -> None:
    back, front = s.back, s.front
    neck = 2.0 * w.neck_half_mm
    out.prefer(
        "back neck width",
        back.neck_point.real,
        0.192 * neck,
        give=2.5,
        low=0.14 * neck,
        high=0.24 * neck,
        source=BLOCK_BOOKS,
    )
    out.prefer(
        "back neck rise",
        back.neck_point.imag - w.back_length_mm,
        0.058 * neck,
        give=2.5,
        low=6.0,
        high=42.0,
        source=BLOCK_BOOKS,
    )
    out.prefer(
        "front neck width less back",
        front.neck_point.real - back.neck_point.real,
        -4.0,
        give=2.0,
        low=-16.0,
        high=6.0,
        source=BLOCK_BOOKS,
    )
    out.prefer(
        "front neck depth",
        (front.neck_point - front.centre_neck).imag,
        0.2 * neck,
        give=5.0,
        low=0.12 * neck,
        high=0.31 * neck,
        source=BLOCK_BOOKS,
    )
    if w.front_centre_mm is None:
        out.prefer(
            "centre front length",
            front.centre_neck.imag,
            w.front_centre_guess_mm,
            give=5.0,
            low=w.front_centre_guess_mm - 60.0,
            high=w.front_centre_guess_mm + 60.0,
            source="as estimated",
        )
    front_slope, back_slope = _slope(front), _slope(back)
    out.prefer(
        "front shoulder slope less back",
        front_slope - back_slope,
        4.0,
        give=1.5,
        low=-6.0,
        high=14.0,
        unit="°",
        source=SLOPES,
    )
    out.prefer(
        "front shoulder slope",
        front_slope,
        22.0,
        give=30.0,
        low=6.0,
        high=42.0,
        unit="°",
        source=SLOPES,
    )
    out.prefer(
        "back shoulder slope",
        back_slope,
        18.0,
        give=30.0,
        low=4.0,
        high=38.0,
        unit="°",
        source=SLOPES,
    )
    out.prefer(
        "armhole at the shoulder, back off square",
        -_deg(s.shoulder_corner),
        0.0,
        give=2.0,
        low=-10.0,
        high=10.0,
        unit="°",
    )
    if w.rule >= EASY_NECK_RULE:
        out.prefer(
            "neckline at the shoulder, back off square",
            _deg(s.neck_corner),
            16.0,
            give=4.0,
            low=-4.0,
            high=32.0,
            unit="°",
        )
        out.prefer(
            "back neckline, gentleness at the shoulder",
            np.log(np.maximum(back.neckline.bend_end(), 1e-5) * AT_NECK_RADIUS_MM),
            0.0,
            give=0.4,
            low=-9.0,
            high=9.0,
            unit="",
            spoken=False,
        )
    if w.shoulder_dart:
        out.prefer(
            "back shoulder dart",
            s.blade_intake,
            14.0,
            give=1.0,
            low=12.0,
            high=19.0,
            source=BACK_DART,
        )
    for name, curve in (("back neckline", back.neckline), ("front neckline", front.neckline)):
        _one_way(out, name, curve)
        out.prefer(f"{name} fullness", curve.fullness, 1.0, give=0.05, low=0.8, high=1.2, unit="")


def _one_way(
    out: PreferenceList,
    name: str,
    curve: Cubics,
    least: float = 2.0,
    edge: float = 0.5,
    from_deg: float = 2.8,
) -> None:
    """Keep a curve bending one way: its bows at both ends positive.

    A bow a little under nothing, where ``least`` allows it, is a counter-curve of less than a
    millimetre, which scissors do not follow.
    """
    for end, bow in (("start", curve.bow_start), ("end", curve.bow_end)):
        out.prefer(
            f"{name}, bow at its {end}",
            _deg(bow),
            20.0,
            give=60.0,
            low=least,
            high=86.0,
            unit="°",
            edge=0.5,
            from_low=from_deg - least,
            spoken=False,
        )


def _armholes(out: PreferenceList, s: Shapes, w: Wants) -> None:
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
        _one_way(out, f"{name} armhole above the across line", upper, -6.0, 2.3)
        _one_way(out, f"{name} armhole below the across line", lower)
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
            -_deg(np.angle(lower.p1 - lower.p0)) - 90.0,
            turn,
            give=8.0,
            low=-30.0,
            high=30.0,
            unit="°",
        )
        out.prefer(
            f"{name} armhole, evenness above the across line",
            _deg(upper.bow_end - 1.6 * upper.bow_start),
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


def _widths(out: PreferenceList, s: Shapes, w: Wants) -> None:
    back, front = s.back, s.front
    out.prefer(
        "bust, half front less half back",
        front.bust_width - back.bust_width,
        w.bust_share_mm,
        give=8.0,
        low=w.bust_share_mm - 60.0,
        high=w.bust_share_mm + 60.0,
    )
    out.prefer(
        "waist, half front less half back",
        front.waist.length() - back.waist.length(),
        w.waist_share_mm,
        give=8.0,
        low=w.waist_share_mm - 60.0,
        high=w.waist_share_mm + 60.0,
    )
    out.prefer(
        "lean of the back side seam",
        _lean(back.side_down),
        5.0,
        give=2.0,
        low=-14.0,
        high=14.0,
        unit="°",
    )
    upper = _lean(front.side_down)
    out.prefer(
        "lean of the front side seam, bust dart folded",
        upper,
        -1.0,
        give=2.5,
        low=-16.0,
        high=12.0,
        unit="°",
    )
    out.prefer(
        "lean of the front side seam below the bust dart",
        upper + _deg(s.bust_angle),
        10.0,
        give=4.0,
        low=-10.0,
        high=26.0,
        unit="°",
    )
    if w.side_length_mm is not None:
        out.prefer(
            "side seam",
            back.side_length,
            w.side_length_mm,
            give=8.0,
            low=w.side_length_mm - 60.0,
            high=w.side_length_mm + 60.0,
            source="side length as measured, eased like back and armhole",
        )


def _waist(out: PreferenceList, s: Shapes, w: Wants) -> None:
    back, front = s.back, s.front
    taken = w.bust_half_mm - w.waist_half_mm
    for name, half, share, least, most, give in (
        ("back waist dart", back, 0.27, 10.0, 60.0, 4.0),
        ("front waist dart", front, 0.38, 12.0, 75.0, 5.0),
    ):
        intake = 2.0 * half.waist_leg * np.sin(half.waist_angle / 2.0)
        target = np.maximum(least, share * taken) * w.darts_take
        if w.darts_take < 1.0:
            give *= w.darts_take
        out.prefer(name, intake, target, give=give, low=6.0, high=most)
    for name, half, level in (("back", back, -5.0), ("front", front, -8.0)):
        out.prefer(
            f"{name} side waist above the centre's",
            half.side_waist.imag,
            level,
            give=6.0,
            low=-40.0,
            high=25.0,
        )
        out.prefer(
            f"{name} waist, evenness of its sweep",
            _deg(half.waist.bow_start - half.waist.bow_end),
            0.0,
            give=1.2,
            low=-8.0,
            high=8.0,
            unit="°",
            spoken=False,
        )


def _bust_dart(out: PreferenceList, s: Shapes, w: Wants) -> None:
    intake_at_24_cm = np.clip((70.0 + 0.15 * (w.bust_girth_mm - 880.0)) / 480.0, 0.08, 0.18)
    out.prefer(
        "bust dart",
        _deg(s.bust_angle),
        2.0 * _deg(np.arcsin(intake_at_24_cm)),
        give=2.5,
        low=3.0,
        high=34.0,
        unit="°",
        source=BUST_DART,
    )
    out.prefer(
        "side seam below the bust dart",
        s.front.side_length - s.side_upper - BELOW_BUST_LINE_MM,
        90.0,
        give=60.0,
        low=20.0,
        high=400.0,
        spoken=False,
    )
