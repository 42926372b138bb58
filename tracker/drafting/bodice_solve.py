"""Solving a bodice: the free numbers that meet what is wanted and disagree least otherwise.

What is wanted is met exactly; among all shapes that meet it, the one with the least sum of
squared misses of the preferences is taken. Damped Gauss-Newton steps under the linearised wants
(a Lagrange system), with derivatives by central differences over all trial shapes at once. No
randomness, no time limit: the same body gives the same block.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.bodice_preference import Preference
from tracker.drafting.bodice_preferences import preferences
from tracker.drafting.bodice_shape import INDEX, STEPS, VARIABLES, Shapes, shapes_of
from tracker.drafting.bodice_wants import EASY_NECK_RULE, Wants

MOST_STEPS, HARDLY = 60, 1e-6
"""Solving ends after so many steps, or when three in a row gain no more than this share."""
ROUGH_STEPS, ROUGHLY = 25, 1e-3
"""The same when only whether there is a shape is asked."""
WANTED_TO = 1e-6
"""Wants are met to this, in mm (angles in hundredths of a radian)."""

_SHIFT = 1e-5
_LONGEST_STEP = 6.0
_STILL = 1e-5
_LAST_STEPS = 6


@dataclass(frozen=True, slots=True)
class Solution:
    """Where the solving ended.

    Attributes:
        shapes: the one shape, as arrays of length 1.
        wants: what it was solved for; where a figure was set free, what it came to.
        miss: the largest miss of a wanted figure.
        cost: what was minimised.
        steps: how many steps it took.
        numbers: the free numbers, in units of their steps.
    """

    shapes: Shapes
    wants: Wants
    miss: float
    cost: float
    steps: int
    numbers: Reals

    def preferences(self) -> list[Preference]:
        """Return the preferences, evaluated."""
        return preferences(self.shapes, self.wants)

    def broken(self) -> tuple[Preference, ...]:
        """Return the limits that are broken."""
        return tuple(p for p in self.preferences() if p.broken())

    def excess(self) -> float:
        """Return how far the worst limit is overstepped, in edges; negative where all are kept."""
        if self.miss > WANTED_TO:
            return float("inf")
        return max(p.excess() for p in self.preferences())

    @property
    def is_met(self) -> bool:
        """Tell whether everything wanted is met and every limit kept."""
        return self.miss <= WANTED_TO and not self.broken()


def solve(
    wants: Wants, free: Sequence[tuple[str, float]] = (), near: Solution | None = None
) -> Solution:
    """Return the best shape for what is wanted.

    Args:
        wants: the finished figures.
        free: figures of ``wants`` that may give way, each with how much it gives; for finding
            out which figures contradict each other.
        near: a solution to start from, for a rough answer to whether there is one; otherwise
            each preference taken by itself.
    """
    problem = _Problem(wants, free)
    start = problem.start() if near is None else near.numbers
    start = np.concatenate([start, np.zeros(len(free))])
    most, hardly = (ROUGH_STEPS, ROUGHLY) if near else (MOST_STEPS, HARDLY)
    x, c, cost, steps = minimise(problem.evaluate, start, most, hardly)
    one = x[:, None]
    settled = problem.wants_at(one)
    for name, _ in free:
        settled = settled.with_(**{name: float(np.ravel(getattr(settled, name))[0])})
    miss = float(np.abs(c).max()) if np.all(np.isfinite(c)) else float("inf")
    shapes = shapes_of(one[: len(VARIABLES)], settled)
    return Solution(shapes, settled, miss, cost, steps, x[: len(VARIABLES)])


def pulls(failed: Solution, free: Sequence[tuple[str, float]]) -> list[float]:
    """Return how hard each figure pulls on a solution: cost per ``give``, to first order.

    The figures that pull hardest are those whose giving way would ease the shape most.
    """
    problem = _Problem(failed.wants, free)
    x = np.concatenate([failed.numbers, np.zeros(len(free))])
    r, _, by_r, by_c = _derivatives(problem.evaluate, x)
    n = len(failed.numbers)
    cost = by_r.T @ r
    by_want = np.linalg.lstsq(by_c[:, :n].T, -cost[:n], rcond=None)[0]
    return [abs(float(pull)) for pull in cost[n:] + by_c[:, n:].T @ by_want]


@dataclass(frozen=True, slots=True)
class _Problem:
    wants: Wants
    free: Sequence[tuple[str, float]]

    def wants_at(self, x: Reals) -> Wants:
        """Return the wants with the freed figures moved by the extra rows of ``x``."""
        if not self.free:
            return self.wants
        extra = x[len(VARIABLES) :]
        moved = {
            name: getattr(self.wants, name) + give * extra[at]
            for at, (name, give) in enumerate(self.free)
        }
        return self.wants.with_(**moved)

    def evaluate(self, x: Reals) -> tuple[Reals, Reals]:
        """Return the misses of the preferences and of the wants for each column of ``x``."""
        wants = self.wants_at(x)
        shapes = shapes_of(x[: len(VARIABLES)], wants)
        rows = [row for p in preferences(shapes, wants) for row in p.misses()]
        rows.extend(x[len(VARIABLES) :])
        return np.array(rows), np.array(wanted(x, shapes, wants))

    def start(self) -> Reals:
        """Return a first shape: the preferences taken one by one."""
        w = self.wants
        neck = 2.0 * w.neck_half_mm
        taken = max(w.bust_half_mm - w.waist_half_mm, 0.0)
        leg = max(w.front_over_bust_mm - w.neck_to_bust_mm, 60.0)
        slope = w.slope_guess_rad
        blade = 0.12 if w.shoulder_dart else 0.0
        v = dict.fromkeys(INDEX, 0.0) | {
            "back_neck_width": 0.192 * neck,
            "back_neck_rise": 0.058 * neck,
            "front_neck_width": 0.182 * neck,
            "bust_height": leg - 4.0,
            "front_centre": w.front_centre_guess_mm,
            "front_slope": slope + 0.035,
            "back_slope": slope - 0.035 - blade / 2.0,
            "blade_angle": blade,
            "back_line_turn": 0.035,
            "front_line_turn": 0.087,
            "back_side_turn": 0.08,
            "back_waist_angle": max(0.05, 0.27 * taken / 190.0),
            "neck_corner": 0.2 if w.rule >= EASY_NECK_RULE else 0.0,
            "front_side_turn": -0.02,
            "bust_angle": 0.26,
            "front_waist_angle": max(0.05, 0.38 * taken / 165.0),
            "front_waist": (w.waist_half_mm + w.waist_share_mm) / 2.0,
            "back_underarm_width": (w.bust_half_mm - w.bust_share_mm) / 2.0 + 3.0,
            "front_underarm_width": (w.bust_half_mm + w.bust_share_mm) / 2.0,
        }
        v |= {name: 1.0 for name in INDEX if name.endswith(("fullness", "reach"))}
        aside = w.bust_apart_half_mm - v["front_neck_width"]
        rise = float(np.sqrt(max(w.neck_to_bust_mm**2 - aside**2, 1e4)))
        v["front_neck_height"] = v["bust_height"] + rise
        v["front_underarm_height"] = v["front_neck_height"] - (
            w.armhole_depth_mm + v["back_neck_rise"] - 5.0
        )
        for half, length, turn in (
            (
                "back",
                w.waist_half_mm - v["front_waist"],
                v["back_side_turn"] + v["back_waist_angle"],
            ),
            (
                "front",
                v["front_waist"],
                v["front_side_turn"] + v["bust_angle"] + v["front_waist_angle"],
            ),
        ):
            v[f"{half}_waist_x"] = length / turn * float(np.sin(turn))
            v[f"{half}_waist_y"] = -length / turn * float(1.0 - np.cos(turn))
        return np.array([v[name] for name, _ in VARIABLES]) / STEPS


def wanted(x: Reals, s: Shapes, w: Wants) -> list[Reals]:
    """Return the misses of every figure that is met by solving, mm (angles × 100)."""
    back, front = s.back, s.front
    front_waist = x[INDEX["front_waist"]] * STEPS[INDEX["front_waist"]]
    to_bust = np.abs(front.neck_point - front.pivot)
    rows = [
        back.neckline.length() + front.neckline.length() - w.neck_half_mm,
        back.bust_width + front.bust_width - w.bust_half_mm,
        front.waist.length() - front_waist,
        back.waist.length() - (w.waist_half_mm - front_waist),
        to_bust - w.neck_to_bust_mm,
        to_bust + front.waist_leg - w.front_over_bust_mm,
        front.side_length - back.side_length,
        s.side_gap.real,
        s.side_gap.imag,
    ]
    if not w.shoulder_dart:
        rows.append(100.0 * s.blade_angle)
    if w.rule < EASY_NECK_RULE:
        rows.extend(100.0 * v for v in (s.neck_corner, back.line_share, front.line_share))
    if w.slope_rad is not None:
        front_slope = -np.angle(front.shoulder_point - front.neck_point)
        rows.append(100.0 * ((front_slope + s.back_slope_drawn) / 2.0 - w.slope_rad))
    if w.slant_back_mm is not None:
        rows.append(np.abs(back.shoulder_point) - w.slant_back_mm)
    if w.slant_front_mm is not None:
        rows.append(np.abs(front.shoulder_point) - w.slant_front_mm)
    if w.front_centre_mm is not None:
        rows.append(front.centre_neck.imag - w.front_centre_mm)
    if w.neck_to_waist_back_mm is not None:
        t = back.waist.crossing(back.neck_point, np.full_like(back.neck_point, -1j))
        rows.append((back.neck_point - back.waist.at(t)).imag - w.neck_to_waist_back_mm)
    return [np.asarray(row) for row in rows]


Evaluate = Callable[[Reals], tuple[Reals, Reals]]


def minimise(
    evaluate: Evaluate, x: Reals, most: int, hardly: float
) -> tuple[Reals, Reals, float, int]:
    """Return where the preferences miss least with the wants met: numbers, misses, cost, steps.

    Args:
        evaluate: gives the misses of the preferences and of the wants for columns of numbers.
        x: where to start, in units of small steps.
        most: how many steps at most.
        hardly: ends when three steps in a row gain no more than this share.
    """
    damping, weight = 1e-3, 50.0
    steps = idle = 0
    here = _derivatives(evaluate, x)
    for steps in range(1, most + 1):  # noqa: B007 - the count is returned
        r, c, by_r, by_c = here
        found = None
        for _ in range(14):
            step, pull = _step(by_r, by_c, r, c, damping)
            # An exact penalty: heavier than any pull of a want on the preferences.
            weight = max(weight, 1.2 * float(np.abs(pull).max()))
            longest = float(np.abs(step).max())
            x_new = x + step * min(1.0, _LONGEST_STEP / max(longest, 1e-12))
            # With its neighbours, for the next step, a shape costs hardly more than alone.
            there = _derivatives(evaluate, x_new)
            if _merit(there[0], there[1], weight) < _merit(r, c, weight) + 1e-10:
                found = x_new, there
                break
            damping = max(6.0 * damping, 1e-4)
        if found is None:
            break
        moved = float(np.abs(found[0] - x).max())
        gained = _merit(r, c, weight) - _merit(found[1][0], found[1][1], weight)
        x, here = found
        r, c = here[:2]
        damping = max(damping / 4.0, 1e-7)
        idle = idle + 1 if gained < hardly * (1.0 + 0.5 * float(r @ r)) else 0
        if (moved < _STILL or idle >= 3) and float(np.abs(c).max()) < WANTED_TO:
            break
    r, c = here[:2]
    for _ in range(_LAST_STEPS):
        if float(np.abs(c).max()) < WANTED_TO:
            break
        # The nearest shape that meets the wants, preferences aside.
        by_c = _derivatives(evaluate, x)[3]
        x = x - np.linalg.lstsq(by_c, c, rcond=None)[0]
        r, c = (part[:, 0] for part in evaluate(x[:, None]))
    return x, c, 0.5 * float(r @ r), steps


def pull_of(here: Evaluate, there: Evaluate, x: Reals) -> float:
    """Return how much more the best shape would cost if the problem were another, to first order.

    Args:
        here: the problem that was solved.
        there: the other one, which differs a little.
        x: where the solving of ``here`` ended.
    """
    r, c, by_r, by_c = _derivatives(here, x)
    r_there, c_there = (part[:, 0] for part in there(x[:, None]))
    by_want = np.linalg.lstsq(by_c.T, -(by_r.T @ r), rcond=None)[0]
    return float(r @ (r_there - r) + by_want @ (c_there - c))


def _derivatives(evaluate: Evaluate, x: Reals) -> tuple[Reals, Reals, Reals, Reals]:
    """Return misses and wants at ``x`` and their derivatives, by central differences."""
    n = len(x)
    shifts = _SHIFT * np.hstack([np.zeros((n, 1)), np.eye(n), -np.eye(n)])
    r, c = evaluate(x[:, None] + shifts)
    by_r, by_c = ((m[:, 1 : n + 1] - m[:, n + 1 :]) / (2.0 * _SHIFT) for m in (r, c))
    return r[:, 0], c[:, 0], by_r, by_c


def _merit(r: Reals, c: Reals, weight: float) -> float:
    merit = 0.5 * float(r @ r) + weight * float(np.abs(c).sum())
    return merit if np.isfinite(merit) else float("inf")


def _step(by_r: Reals, by_c: Reals, r: Reals, c: Reals, damping: float) -> tuple[Reals, Reals]:
    """Return the step and the pull of each want, from the linearised problem."""
    n, m = by_r.shape[1], by_c.shape[0]
    system = np.zeros((n + m, n + m))
    system[:n, :n] = by_r.T @ by_r + damping * np.eye(n)
    system[:n, n:] = by_c.T
    system[n:, :n] = by_c
    right = np.concatenate([-by_r.T @ r, -c])
    try:
        found = np.linalg.solve(system, right)
    except np.linalg.LinAlgError:
        found = np.linalg.lstsq(system, right, rcond=None)[0]
    return found[:n], found[n:]
