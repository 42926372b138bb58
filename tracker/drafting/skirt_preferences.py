"""What a body leaves free in a straight skirt, and the written preferences that fix it.

As for the bodice, the sum of the squares of the misses is minimised under the wanted figures,
each miss in units of how much it gives; from what gives least to what gives most:

1. shape: waist and side seam bend evenly and one way;
2. where the side seam lies: the body's own front and back arcs at hip and waist;
3. what the side seam takes in, the same in front and behind, and a share of the whole;
4. the balance: how far the hip line lies below the waist at the centres;
5. what each dart takes, and how far the waist rises to the side.

Figures without another source are common practice, no source.
"""

from __future__ import annotations

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.bodice_preference import Preference, PreferenceList
from tracker.drafting.skirt_shape import SkirtShapes
from tracker.drafting.skirt_wants import BALANCE_GIVES_MM, SkirtWants

BLOCK = "close textbook skirt block, partly from memory"
FRONT_DART = "published drafts: front dart 20 mm, 10 cm long"
BACK_DART = "published drafts: back darts 20 to 30 mm, 12 to 14 cm long"

MOST_FRONT_MM, MOST_BACK_MM = 22.0, 30.0
"""No dart takes more than this; then there is a second one."""
LEAST_DART_MM = 7.0
"""No dart takes less than this; then there is none."""

SIDE_SHARE = 0.285
"""Share of the whole intake (hip less waist) each side seam takes: 40 of 140 mm on the block."""
LEAST_SIDE_MM, MOST_SIDE_MM = -6.0, 64.0
STOUT_DEG = -4.0
"""So far a side seam may bend outwards on a figure as wide at the waist as at the hip."""


def side_target(wants: SkirtWants) -> float:
    """Return what each side of the side seam is to take in, mm."""
    return float(np.clip(SIDE_SHARE * (wants.hip_half_mm - wants.waist_half_mm), 2.0, 50.0))


def dart_counts(wants: SkirtWants) -> tuple[int, int]:
    """Return how many darts front and back need, so that none takes more than is sensible."""
    taken = wants.hip_half_mm - wants.waist_half_mm
    front = (taken + wants.hip_share_mm - wants.waist_share_mm) / 2.0
    side = side_target(wants)
    counts = []
    for mm, most in (
        (front - side, MOST_FRONT_MM + 3.0),
        (taken - front - side, MOST_BACK_MM - 3.0),
    ):
        if mm < LEAST_DART_MM + 1.0:
            counts.append(0)
        else:
            counts.append(1 if mm <= most else 2)
    return counts[0], counts[1]


def skirt_preferences(s: SkirtShapes, w: SkirtWants) -> list[Preference]:
    """Return every preference, evaluated on the trial shapes."""
    out = PreferenceList()
    front, back = s.front, s.back
    for name, got, target, gives in (
        ("hip", front.width - back.width, w.hip_share_mm, w.hip_share_gives_mm),
        ("waist", 2.0 * s.front_waist - w.waist_half_mm, w.waist_share_mm, w.waist_share_gives_mm),
    ):
        out.prefer(
            f"{name}, half front less half back",
            got,
            target,
            give=gives,
            low=target - 60.0,
            high=target + 60.0,
            source="the body's own arcs",
        )
    target = side_target(w)
    for where, half, most, source, depth, gives in (
        ("front", front, MOST_FRONT_MM, FRONT_DART, w.centre_depth_mm[0],
         w.centre_depth_gives_mm[0]),
        ("back", back, MOST_BACK_MM, BACK_DART, w.centre_depth_mm[1],
         w.centre_depth_gives_mm[1]),
    ):  # fmt: skip
        count = len(half.darts)
        if count:
            each = half.intake / count
            out.prefer(
                f"{where} waist dart" if count == 1 else f"each {where} waist dart",
                each,
                20.0,
                give=12.0,
                low=LEAST_DART_MM,
                high=most,
                edge=0.25,
                source=source,
            )
        out.prefer(
            f"{where} side seam taken in at the waist",
            half.suppression,
            target,
            give=4.0,
            low=2 * LEAST_SIDE_MM if w.stout else LEAST_SIDE_MM,
            high=MOST_SIDE_MM,
            source=BLOCK,
        )
        out.prefer(
            f"hip line below the waist, centre {where}",
            np.asarray(half.centre.imag),
            depth,
            give=gives,
            low=w.hip_depth_mm - 60.0,
            high=w.hip_depth_mm + 40.0,
            source="waist to floor as measured" if gives <= BALANCE_GIVES_MM else BLOCK,
        )
        out.prefer(
            f"{where} waist, rise to the side",
            np.asarray(half.side_waist.imag - half.centre.imag),
            16.0,
            give=16.0,
            low=-20.0,
            high=55.0,
            source=BLOCK,
        )
        even_bows(out, f"{where} waist", half.waist.bow_start, half.waist.bow_end, 2.5, -1.0)
        side_least = STOUT_DEG if w.stout else -0.5
        even_bows(
            out, f"{where} side seam", half.side.bow_start, half.side.bow_end, 3.0, side_least
        )
    out.prefer(
        "side seam taken in, front less back",
        front.suppression - back.suppression,
        0.0,
        give=3.0,
        low=-40.0,
        high=40.0,
    )
    return out.rows


def even_bows(
    out: PreferenceList, name: str, start: Reals, end: Reals, give: float, least: float
) -> None:
    """Let a line bend evenly, and the same way all along."""
    out.prefer(
        f"{name}, evenness of its sweep",
        np.asarray(np.degrees(start - end)),
        0.0,
        give=give,
        low=-30.0,
        high=30.0,
        unit="°",
        spoken=False,
    )
    for place, bow in (("start", start), ("end", end)):
        out.prefer(
            f"{name}, bow at its {place}",
            np.asarray(np.degrees(bow)),
            8.0,
            give=60.0,
            low=least,
            high=40.0,
            unit="°",
            edge=0.4,
            spoken=False,
        )
