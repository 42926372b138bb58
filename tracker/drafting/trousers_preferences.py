"""What a body leaves free in trousers, and the written preferences that fix it.

As for bodice and skirt: the sum of the squares of the misses is minimised under the wanted
figures, each miss in units of how much it gives. Figures without another source are common
practice, no source.
"""

from __future__ import annotations

import numpy as np

from tracker.drafting.bodice_preference import Preference, PreferenceList
from tracker.drafting.skirt_preferences import (
    BACK_DART,
    FRONT_DART,
    LEAST_DART_MM,
    MOST_BACK_MM,
    MOST_FRONT_MM,
    even_bows,
)
from tracker.drafting.trousers_shape import LegShapes
from tracker.drafting.trousers_wants import EVEN_RULE, MET_RULE, TrouserWants

BLOCK = "classic tailored trouser block, from memory"
TAILOR = "tailor's angles of 1900: seat slope 15 degrees"
FRONT_TILT_DEG = 2.0
BACK_TILT_DEG, STEEPER_DEG = 7.5, 10.0
"""Between 5 degrees (2 cm in, 2 cm up on the classic block, from memory) and the tailor's 15; under
rules 1 and 2 the seat sloped more, and its dart took less."""
BACK_RAISED_MM = 12.0
FRONT_LOWER_MM = 12.0
STOUT_DEG = -6.0
"""So far a waist line or a side seam may bend the other way on a figure as wide at the waist as at
the hip."""
ESTIMATED_GIVES_MM = 3.0
"""So much an estimated crotch length gives: little, as nothing else gains much by its miss."""
ESTIMATED_LESS_MM = 40.0
"""A leg has at most so much less than an estimated thigh with its ease."""
FRONT_GIVES_MM, SEAT_GIVES_MM = 14.0, 10.0
"""So much less a dart takes in front, or more behind, by side seam and seat before it is added."""


def centre_takes_mm(w: TrouserWants) -> tuple[float, float]:
    """Return what the leaning centre lines take in at the waist, front and back."""
    front, back = (
        w.hip_depth_mm * float(np.sin(np.radians(deg))) for deg in (FRONT_TILT_DEG, back_tilt(w))
    )
    return front, back


def back_tilt(w: TrouserWants) -> float:
    """Return the slope of the seat that is aimed at, degrees."""
    return BACK_TILT_DEG if w.rule >= EVEN_RULE else STEEPER_DEG


def side_target(w: TrouserWants) -> float:
    """Return what each side of the side seam is to take in, mm."""
    taken = w.hip_half_mm - w.waist_half_mm - sum(centre_takes_mm(w))
    return float(np.clip(0.27 * taken, 2.0, 45.0))


def dart_counts(w: TrouserWants) -> tuple[int, int]:
    """Return how many darts front and back need, so that none takes more than is sensible.

    One in front does for most bodies, and where there is one there is one behind too: the side
    seam and the slope of the seat give way first.
    """
    taken = w.hip_half_mm - w.waist_half_mm
    front = (taken + w.hip_share_mm - w.waist_share_mm) / 2.0
    centre, side = centre_takes_mm(w), side_target(w)
    ahead, behind = front - centre[0] - side, taken - front - centre[1] - side
    if w.rule == 1:
        return _count(ahead, MOST_FRONT_MM + 6.0), _count(behind, MOST_BACK_MM - 1.0)
    counted = _count(ahead, MOST_FRONT_MM + FRONT_GIVES_MM)
    if behind > -SEAT_GIVES_MM:
        return counted, max(_count(behind, MOST_BACK_MM - 1.0), min(counted, 1))
    return counted, 0


def _count(mm: float, most: float) -> int:
    if mm < LEAST_DART_MM + 1.0:
        return 0
    return 1 if mm <= most else 2


def _dart_mm(where: str, count: int, even: bool) -> float:
    """What a dart is to take: one back dart as much as a published one of 3 cm."""
    return 28.0 if even and where == "back" and count == 1 else 20.0


def trouser_preferences(s: LegShapes, w: TrouserWants) -> list[Preference]:
    """Return every preference, evaluated on the trial shapes."""
    out = PreferenceList()
    front, back = s.front, s.back
    for name, got, share, gives in (
        ("hip", front.width - back.width, w.hip_share_mm, w.hip_share_gives_mm),
        ("waist", 2.0 * s.front_waist - w.waist_half_mm, w.waist_share_mm, w.waist_share_gives_mm),
    ):
        out.prefer(
            f"{name}, half front less half back", got, share, give=gives,
            low=share - 60.0, high=share + 60.0, source="the body's own arcs",
        )  # fmt: skip
    fork = w.fork_mm
    taken_in = side_target(w)
    even = w.rule >= EVEN_RULE
    for where, half, most, dart, tilt, tilt_gives, depth, rise, reach in (
        ("front", front, MOST_FRONT_MM, FRONT_DART, FRONT_TILT_DEG, 1.5,
         w.hip_depth_mm - FRONT_LOWER_MM, 16.0, fork),
        ("back", back, MOST_BACK_MM, BACK_DART, back_tilt(w), 2.0 if even else 3.0,
         w.hip_depth_mm + BACK_RAISED_MM, -10.0, 1.5 * fork + 5.0),
    ):  # fmt: skip
        count = len(half.top.darts)
        if count:
            out.prefer(
                f"{where} waist dart" if count == 1 else f"each {where} waist dart",
                half.top.intake / count, _dart_mm(where, count, even), give=5.0 if even else 8.0,
                low=LEAST_DART_MM, high=most, edge=0.25, source=dart,
            )  # fmt: skip
        out.prefer(
            f"{where} side seam taken in at the waist", half.top.suppression, taken_in, give=4.0,
            low=-30.0 if even else -10.0, high=64.0, source=BLOCK,
        )  # fmt: skip
        out.prefer(
            f"slope of the centre {where}", np.asarray(np.degrees(half.tilt)), tilt,
            give=tilt_gives, low=-3.0 if where == "front" else 2.0,
            high=8.0 if where == "front" else 22.0, unit="°",
            source=TAILOR if where == "back" else BLOCK,
        )  # fmt: skip
        out.prefer(
            f"hip line below the waist, centre {where}", np.asarray(np.abs(half.top.centre)), depth,
            give=7.0, low=w.hip_depth_mm - 70.0, high=w.hip_depth_mm + (85.0 if even else 70.0),
        )  # fmt: skip
        out.prefer(
            f"{where} waist, rise to the side",
            np.asarray(half.top.side_waist.imag - half.top.centre.imag), rise, give=16.0,
            low=-75.0, high=65.0,
        )  # fmt: skip
        out.prefer(
            f"{where} crotch extension", np.asarray(-half.fork.real), reach, give=7.0,
            low=0.5 * reach, high=2.2 * reach, source=BLOCK,
        )  # fmt: skip
        out.prefer(
            f"{where} crotch fullness", half.crotch.fullness, 1.0, give=0.06, low=0.75, high=1.3,
            unit="",
        )  # fmt: skip
        if even:
            bows = (np.maximum(np.sin(b), 0.02) for b in (half.crotch.bow_start,
                                                          half.crotch.bow_end))  # fmt: skip
            out.prefer(
                f"{where} crotch, evenness of its bend", np.log(np.divide(*bows)), 0.0, give=0.2,
                low=-5.0, high=5.0, unit="", edge=1.0, spoken=False,
            )  # fmt: skip
        for end, bow in (("fork", half.crotch.bow_start), ("hip line", half.crotch.bow_end)):
            out.prefer(
                f"{where} crotch, bow at the {end}", np.asarray(np.degrees(bow)), 40.0, give=60.0,
                low=3.0, high=86.0, unit="°", edge=0.5, spoken=False,
            )  # fmt: skip
        out.prefer(
            f"{where} crease off the middle at the crotch",
            half.crease - np.asarray(half.top.width + half.fork.real) / 2.0, 0.0, give=5.0,
            low=-45.0, high=45.0, source=BLOCK,
        )  # fmt: skip
        # Where there is no dart to take in, waist and side may bend the other way a little.
        waist_least, side_least = (STOUT_DEG, STOUT_DEG) if even and not count else (-1.0, -2.0)
        even_bows(
            out, f"{where} waist", half.top.waist.bow_start, half.top.waist.bow_end, 2.5,
            waist_least,
        )  # fmt: skip
        even_bows(
            out, f"{where} side seam", half.top.side.bow_start, half.top.side.bow_end, 3.0,
            side_least,
        )  # fmt: skip
    near = w.rule >= MET_RULE
    for where, half, length, met in (
        ("front", front, w.crotch_mm[0], w.crotch_met[0]),
        ("back", back, w.crotch_mm[1], w.crotch_met[1]),
    ):
        if not met:
            out.prefer(
                f"crotch length, {where}", half.crotch_length(), length,
                give=ESTIMATED_GIVES_MM if near else 10.0,
                low=length - 70.0, high=length + 70.0,
                source="its part of the whole, as estimated" if w.crotch_whole_mm
                else "as estimated",
            )  # fmt: skip
    out.prefer(
        "inside-leg point of the back lower than the front's", s.back_drop, 6.0, give=4.0,
        low=-10.0, high=30.0,
    )  # fmt: skip
    if w.thigh_met:
        return out.rows
    if near:
        out.prefer(
            "thigh", front.thigh + back.thigh, w.thigh_mm, give=12.0,
            low=w.thigh_mm - ESTIMATED_LESS_MM, high=w.thigh_mm + 260.0, edge=3.0,
            source="with its ease, as estimated",
        )  # fmt: skip
    else:
        out.prefer(
            "thigh", front.thigh + back.thigh, w.thigh_mm + 35.0, give=25.0, low=w.thigh_mm,
            high=w.thigh_mm + 260.0, edge=3.0, source="thigh with its ease is the least",
        )  # fmt: skip
    return out.rows
