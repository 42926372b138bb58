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

from tracker.drafting.bodice_armholes import armholes, deg, one_way
from tracker.drafting.bodice_curves import Points, Reals
from tracker.drafting.bodice_preference import PRACTICE, Preference, PreferenceList
from tracker.drafting.bodice_shape import BELOW_BUST_LINE_MM, Half, Shapes
from tracker.drafting.bodice_wants import EASY_NECK_RULE, SHARE_GIVES_MM, Wants

AT_NECK_RADIUS_MM = 30.0
"""A back neckline bends about so gently where it comes up to the shoulder."""

BLOCK_BOOKS = "between two published drafts, from memory"
BUST_DART = "7 cm at bust 88 on a 24 cm leg, 0.6 cm more for 4 cm of bust; textbook increment"
BACK_DART = "1/2 to 3/4 in, common practice"
SLOPES = "Chinese trade figures: front 19-22, back 17-19 degrees; body 14-35 (1979 survey)"


def preferences(s: Shapes, w: Wants) -> list[Preference]:
    """Return every preference, evaluated on the trial shapes."""
    out = PreferenceList()
    _neck_and_shoulder(out, s, w)
    armholes(out, s, w)
    _widths(out, s, w)
    _waist(out, s, w)
    _bust_dart(out, s, w)
    return out.rows


def _slope(half: Half) -> Reals:
    return -deg(np.angle(half.shoulder_point - half.neck_point))


def _lean(down: Points) -> Reals:
    """By how many degrees a side leans towards the centre going down."""
    return -deg(np.angle(down * 1j))


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
        -deg(s.shoulder_corner),
        0.0,
        give=2.0,
        low=-10.0,
        high=10.0,
        unit="°",
    )
    if w.rule >= EASY_NECK_RULE:
        out.prefer(
            "neckline at the shoulder, back off square",
            deg(s.neck_corner),
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
        one_way(out, name, curve)
        out.prefer(f"{name} fullness", curve.fullness, 1.0, give=0.05, low=0.8, high=1.2, unit="")


def _widths(out: PreferenceList, s: Shapes, w: Wants) -> None:
    back, front = s.back, s.front
    out.prefer(
        "bust, half front less half back",
        front.bust_width - back.bust_width,
        w.bust_share_mm,
        give=w.bust_share_gives_mm,
        low=w.bust_share_mm - 60.0,
        high=w.bust_share_mm + 60.0,
        source=_shared_by(w.bust_share_gives_mm),
    )
    out.prefer(
        "waist, half front less half back",
        front.waist.length() - back.waist.length(),
        w.waist_share_mm,
        give=w.waist_share_gives_mm,
        low=w.waist_share_mm - 60.0,
        high=w.waist_share_mm + 60.0,
        source=_shared_by(w.waist_share_gives_mm),
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
        upper + deg(s.bust_angle),
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


def _shared_by(gives_mm: float) -> str:
    return PRACTICE if gives_mm == SHARE_GIVES_MM else "the body's own arcs"


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
            deg(half.waist.bow_start - half.waist.bow_end),
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
        deg(s.bust_angle),
        2.0 * deg(np.arcsin(intake_at_24_cm)),
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
