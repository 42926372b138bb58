"""The shape of a set-in sleeve as a function of a few numbers, for many trial shapes at once.

The top of the cap lies at x = 0, the upper arm line at y = 0; the front is to the right. Each
half of the cap is one lower and one upper cubic: hollow from the underarm, then round over the
top, with no bend where they meet. Below the upper arm line front and back are mirror images about
the sleeve's own middle, so that they are sewn together without a remainder.

The cap leaves the underarm square to the underarm seam on both sides, and the wrist meets it
square too: sewn together, both lines run through it smoothly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Cubics, Points, Reals, cross
from tracker.drafting.sleeve_wants import SleeveWants

#: The free numbers of a sleeve: name, how much of it counts as one small step.
VARIABLES: tuple[tuple[str, float], ...] = (
    ("cap_height", 5.0),
    ("aside", 2.0),
    ("front_share", 0.03),
    ("front_turn_at", 0.03),
    ("front_steeper", 0.05),
    ("front_low", 0.05),
    ("front_high", 0.05),
    ("back_turn_at", 0.03),
    ("back_steeper", 0.05),
    ("back_low", 0.05),
    ("back_high", 0.05),
)
INDEX = {name: at for at, (name, _) in enumerate(VARIABLES)}
STEPS: Reals = np.array([step for _, step in VARIABLES])

_ROUNDS = 12
"""Rounds in which the wrist's tilt and height settle; each gains more than a digit."""


@dataclass(frozen=True, slots=True)
class CapHalf:
    """One half of the cap, its underarm point to the right.

    Attributes:
        width: from the top's plumb line to the underarm point.
        lower: from the underarm point to where the curve turns.
        upper: from there to the top.
        chord: underarm point to top, straight.
        steep_rad: the steepest climb of the curve.
        scoop: how far the hollow lies below the chord.
        bulge: how far the round lies above it.
    """

    width: Reals
    lower: Cubics
    upper: Cubics
    chord: Reals
    steep_rad: Reals
    scoop: Reals
    bulge: Reals

    def length(self) -> Reals:
        """Return the length of the half."""
        return self.lower.length() + self.upper.length()


@dataclass(frozen=True, slots=True)
class Below:
    """What lies below the upper arm line; x from the sleeve's middle, of the front half.

    Attributes:
        elbow_y: height of the elbow line.
        wrist: the front wrist corner.
        slant_top: how much the underarm seam closes in per mm downward, at the underarm.
        slant_elbow: the same at the elbow.
        slant_wrist: the same at the wrist.
        wrist_handle: handle of the wrist's cubic.
    """

    elbow_y: Reals
    wrist: Points
    slant_top: Reals
    slant_elbow: Reals
    slant_wrist: Reals
    wrist_handle: Reals


@dataclass(frozen=True, slots=True)
class SleeveShapes:
    """Trial sleeves.

    Attributes:
        cap_height: from the upper arm line to the top.
        middle: x of the sleeve's middle, of which front and back are mirror images below.
        front_share: the share of the cap ease that lies in front.
        front: the front half of the cap.
        back: the back half, turned over.
        below: the rest.
    """

    cap_height: Reals
    middle: Reals
    front_share: Reals
    front: CapHalf
    back: CapHalf
    below: Below


def sleeve_shapes(x: Reals, w: SleeveWants) -> SleeveShapes:
    """Return the trial sleeves of some columns of numbers, in units of their steps."""
    v = {name: x[at] * STEPS[at] for name, at in INDEX.items()}
    height, aside = v["cap_height"], v["aside"]
    below = _below(w, height, aside)
    leaves = np.arctan(below.slant_top)
    halves = {
        half: _half(
            w.upper_arm_mm / 2.0 + (aside if half == "back" else -aside),
            height,
            leaves,
            v[f"{half}_turn_at"],
            v[f"{half}_steeper"],
            v[f"{half}_low"],
            v[f"{half}_high"],
        )
        for half in ("front", "back")
    }
    return SleeveShapes(height, -aside, v["front_share"], halves["front"], halves["back"], below)


def _rising(angle: Reals) -> Points:
    """The direction towards the top, ``angle`` above the level."""
    return np.asarray(-np.cos(angle) + 1j * np.sin(angle))


def _half(
    width: Reals,
    height: Reals,
    leaves: Reals,
    turn_at: Reals,
    steeper: Reals,
    low: Reals,
    high: Reals,
) -> CapHalf:
    under, top = width + 0j, 1j * height
    chord: Points = np.asarray(top - under)
    turn = under + turn_at * chord
    # The least excess keeps trials drawable; the limits of the preferences lie well above it.
    excess = 0.5 * (steeper + np.sqrt(steeper**2 + 0.02**2))
    steep = np.arctan2(height, width) + excess
    out, up = _rising(leaves), _rising(steep)
    whole = np.maximum(cross(up, out), 0.02)
    first = cross(up, turn - under) / whole
    second = cross(turn - under, out) / whole
    crown = (height - turn.imag) / np.sin(steep)
    zero = np.zeros_like(width)
    # A handle on both tangents' meeting point gives a curve without bend where the halves turn.
    lower = Cubics(
        under, under + out * first, turn - up * second * low, turn, zero, zero, zero
    )  # fmt: skip
    upper = Cubics(
        turn, turn + up * crown * high, turn + up * crown, top, zero, zero, zero
    )  # fmt: skip
    way: Points = np.asarray(chord / np.abs(chord))
    scoop = _most(*(cross(way, p - under) for p in (lower.p1, lower.p2)))
    bulge = _most(*(cross(way, p - under) for p in (upper.p2, upper.p1)))
    return CapHalf(width, lower, upper, np.abs(chord), steep, scoop, -bulge)


def _most(first: Reals, second: Reals) -> Reals:
    """The greatest distance of a cubic from the line through its ends, from its handles'."""
    b = 4.0 * first - 2.0 * second
    root = np.sqrt(np.maximum(b**2 - 12.0 * first * (first - second), 0.0))
    t = 2.0 * first / np.where(first < 0, np.minimum(b - root, -1e-9), np.maximum(b + root, 1e-9))
    return np.asarray(3.0 * t * (1.0 - t) * (first * (1.0 - t) + second * t))


def _below(w: SleeveWants, height: Reals, aside: Reals) -> Below:
    """The underarm seam through its three widths, and the wrist square to it.

    The seam is a natural spline in the height: no bend at either end, the least between.
    """
    elbow_y = height - w.elbow_down_mm
    wrist_y = height - w.arm_length_mm
    half = np.full_like(height, w.wrist_mm / 2.0)
    handle = half
    top, elbow = w.upper_arm_mm / 2.0, w.elbow_mm / 2.0
    slants = (np.zeros_like(height),) * 3
    for _ in range(_ROUNDS):
        upper, lower = -elbow_y, elbow_y - wrist_y
        one, two = (top - elbow) / upper, (elbow - half) / lower
        bend = 3.0 * (two - one) / (upper + lower)
        slants = (
            one - bend * upper / 6.0,
            one + bend * upper / 3.0,
            two + bend * lower / 6.0,
        )
        half, handle, rise = _wrist(w.wrist_mm, np.arctan(slants[2]), aside)
        wrist_y = height - w.arm_length_mm - rise
    return Below(elbow_y, half + 1j * wrist_y, *slants, handle)


def _wrist(length: float, tilt: Reals, aside: Reals) -> tuple[Reals, Reals, Reals]:
    """Return half chord, handle, and how far the wrist rises above its corners under the top.

    The wrist is as long as wanted and leaves both corners rising by ``tilt``, like an arc.
    """
    quarter = np.where(np.abs(tilt) < 1e-6, 1e-6, tilt) / 2.0
    handle = (4.0 / 3.0) * np.tan(quarter) / np.sin(2.0 * quarter)  # of a half chord of 1
    handle = handle * np.ones_like(tilt)
    p1 = -1.0 + handle * np.exp(1j * tilt)
    one = np.ones_like(tilt)
    cubic = Cubics(-one + 0j, p1, -np.conj(p1), one + 0j, tilt, tilt, one)
    half = length / cubic.length()
    t = 0.5 + 0.5 * aside / half
    for _ in range(6):
        t = t - (cubic.at(t).real - aside / half) / cubic.velocity(t).real
    return half, handle * half, cubic.at(t).imag * half
