"""The shape of one trouser leg as a function of a few numbers, for many trial shapes at once.

Both pieces are built with their side to the right and the hip line at y = 0, where the centre
line, run on straight, would be at x = 0. Above it they are shaped as a skirt whose centre line
leans; about there the crotch curve begins, which runs to the inside-leg point, square to the
inside leg, so that the four corners that meet there lie flat.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Cubics, Points, Reals, shallow, sweep, unit
from tracker.drafting.skirt_shape import SkirtHalf, upper_half
from tracker.drafting.trousers_wants import BACK_WIDER_MM, EVEN_RULE, TrouserWants

_HALF = (
    ("centre_depth", 4.0),
    ("waist_x", 5.0),
    ("waist_y", 4.0),
    ("lean", 0.03),
    ("intake", 4.0),
    ("tilt", 0.02),
    ("fork", 5.0),
    ("crease", 4.0),
    ("fullness", 0.1),
)
#: The free numbers of a leg: name, how much of it counts as one small step (mm or radians).
VARIABLES: tuple[tuple[str, float], ...] = (
    ("front_hip", 5.0),
    ("front_waist", 5.0),
    ("back_drop", 3.0),
    ("leg", 5.0),
    *((f"{where}_{name}", step) for where in ("front", "back") for name, step in _HALF),
)
INDEX = {name: at for at, (name, _) in enumerate(VARIABLES)}
STEPS: Reals = np.array([step for _, step in VARIABLES])

LEAST_BENT_SHARE = {"front": 1.15, "back": 1.4}
"""The crotch bends over at least this share of the front's extension by the rule in height."""

HOLLOW, LESS_HOLLOW = 0.4, 0.3
"""The inside leg leaves its point this much more slanted than its chord to the knee is; the back
less, so that the crotch, square to it, starts flatter and turns up evenly."""


@dataclass(frozen=True, slots=True)
class LegHalf:
    """One piece of every trial shape.

    Attributes:
        top: from the waist to the hip line.
        width: half the finished hip of this piece.
        at_hip: where the centre crosses the hip line.
        straight_from: how far above the hip line the centre begins to bend, along it.
        tilt: how the centre line leans to the side going up, radians.
        fork: the inside-leg point.
        crotch: from the inside-leg point up to where the centre is straight.
        inside: from the knee up to the inside-leg point.
        side: from the hip line down to the knee.
        inside_knee: where the inside leg crosses the knee line.
        side_knee: where the side does.
        thigh: the width at the height of the inside-leg point.
        crease: x of the crease.
        below: from the knee down to the hem, along side and inside leg.
        hem: half the straight across from hem corner to hem corner.
        slant: how side and inside leg lean to the crease below the knee, radians.
    """

    top: SkirtHalf
    width: Reals
    at_hip: Points
    straight_from: float
    tilt: Reals
    fork: Points
    crotch: Cubics
    inside: Cubics
    side: Cubics
    inside_knee: Points
    side_knee: Points
    thigh: Reals
    crease: Reals
    below: Reals
    hem: Reals
    slant: Reals

    def crotch_length(self) -> Reals:
        """From the waist along the centre to the inside-leg point."""
        straight = np.abs(self.top.centre) - self.straight_from
        return np.asarray(self.crotch.length() + straight)


@dataclass(frozen=True, slots=True)
class LegShapes:
    """All trial shapes; the hem lies ``leg`` below the crotch line."""

    front: LegHalf
    back: LegHalf
    front_waist: Reals
    back_drop: Reals
    leg: Reals


def leg_shapes(x: Reals, w: TrouserWants, darts: tuple[int, int]) -> LegShapes:
    """Build the shapes for ``x``: one column of free numbers (in units of their steps) each."""
    value = x * STEPS[:, None]
    v = {name: value[at] for name, at in INDEX.items()}
    front_hip, none = v["front_hip"], np.zeros(x.shape[1])
    knee, hem = w.knee_mm / 4, (w.hem_mm or w.knee_mm) / 4
    narrower = BACK_WIDER_MM / 4
    return LegShapes(
        _half("front", v, w, front_hip, w.front_dart_mm, darts[0],
              (knee - narrower, hem - narrower), none),
        _half(
            "back", v, w, w.hip_half_mm - front_hip, w.back_dart_mm, darts[1],
            (knee + narrower, hem + narrower), v["back_drop"],
        ),
        v["front_waist"],
        v["back_drop"],
        v["leg"],
    )  # fmt: skip


def _half(
    where: str,
    v: dict[str, Reals],
    w: TrouserWants,
    width: Reals,
    dart_mm: float,
    count: int,
    quarters: tuple[float, float],
    drop: Reals,
) -> LegHalf:
    """Build one piece; ``quarters`` are half its widths at knee and hem."""
    knee, hem = quarters
    tilt, crease = v[f"{where}_tilt"], v[f"{where}_crease"]
    crotch_y = -w.hip_above_crotch_mm
    knee_y = crotch_y - w.knee_below_crotch_mm
    fork = -v[f"{where}_fork"] + 1j * (crotch_y - drop)
    inside_knee = crease - knee + 1j * knee_y
    side_knee = crease + knee + 1j * knee_y
    below, half_hem, slant = _below_knee(v["leg"] - w.knee_below_crotch_mm, knee, hem)
    down = np.full_like(fork, -1j)
    side_down = inside_down = down
    if w.hem_mm:
        side_down, inside_down = down * unit(-slant), down * unit(slant)
    chord = inside_knee - fork
    chord = chord / np.abs(chord)
    leaving = chord * unit(_hollow(where, w) * np.angle(chord / down))
    inside = sweep(inside_knee, -inside_down, fork, -leaving, np.ones_like(tilt))
    up = 1j * unit(-tilt)
    straight_from = _straight_from(where, w)
    crotch = sweep(fork, 1j * leaving, up * straight_from, up, v[f"{where}_fullness"])
    at_hip = np.zeros_like(fork)
    if straight_from:
        at_hip = crotch.at(crotch.crossing(at_hip, np.ones_like(fork))).real + 0j
    side_hip = width + at_hip.real
    top = upper_half(where, v, side_hip, dart_mm, count, tilt)
    side = shallow(side_hip + 0j, down, side_knee, side_down)
    at = side.crossing(1j * fork.imag + 0j, np.ones_like(fork))
    thigh = np.asarray(side.at(at).real - fork.real)
    return LegHalf(
        top, width, at_hip, straight_from, tilt, fork, crotch, inside, side, inside_knee, side_knee,
        thigh, crease, below, half_hem, slant,
    )  # fmt: skip


def _hollow(where: str, w: TrouserWants) -> float:
    flared = w.hem_mm > w.knee_mm  # then the inside leg turns enough at the knee
    return LESS_HOLLOW if where == "back" and w.rule >= EVEN_RULE and not flared else HOLLOW


def _straight_from(where: str, w: TrouserWants) -> float:
    """How far above the hip line the crotch begins to bend, mm.

    At the hip line, but where that lies close above the crotch: there a curve as wide as the
    crotch extension would have to bend too sharply.
    """
    if w.rule < EVEN_RULE:
        return 0.0
    return max(0.0, LEAST_BENT_SHARE[where] * w.fork_mm - w.hip_above_crotch_mm)


def _below_knee(height: Reals, knee: float, hem: float) -> tuple[Reals, Reals, Reals]:
    """Return the leg's length below the knee, half its straight hem and its slant.

    The hem is square to side and inside leg, an arc of which half is ``hem`` long.
    """
    slant = np.zeros_like(height)
    if knee == hem:
        return height, np.full_like(height, hem), slant
    half = np.full_like(height, hem)
    for _ in range(6):
        slant = np.arctan2(knee - half, height)
        half = hem * np.sinc(slant / np.pi)
    return np.hypot(height, knee - half), half, slant
