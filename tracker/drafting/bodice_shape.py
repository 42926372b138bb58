"""The shape of a half bodice as a function of a few numbers, for many trial shapes at once.

Both pieces are built with their centre at x = 0 and their side to the right, so that front and
back share every rule; the front is turned over to its own side when the pattern is made. The
waist is built with its dart folded, as it is sewn: one arc from the centre, cut at the dart and
swung open, so that folding the dart gives the smooth line back. The front's side seam is built
with the bust dart folded in the same way.

Every quantity is a numpy array with one entry per trial shape, so that a whole set of
neighbouring shapes (what a derivative needs) costs hardly more than one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tracker.drafting.bodice_curves import Cubics, Points, Reals, cross, shallow, sweep, unit
from tracker.drafting.bodice_wants import Wants

#: The free numbers of a block: name, how much of it counts as one small step (mm or radians).
VARIABLES: tuple[tuple[str, float], ...] = (
    ("back_neck_width", 3.0),
    ("back_neck_rise", 3.0),
    ("front_neck_width", 3.0),
    ("front_neck_height", 5.0),
    ("front_centre", 5.0),
    ("bust_height", 5.0),
    ("front_slope", 0.03),
    ("back_slope", 0.03),
    ("blade_angle", 0.02),
    ("shoulder_corner", 0.03),
    ("back_line_turn", 0.05),
    ("front_line_turn", 0.05),
    ("back_upper_fullness", 0.1),
    ("back_lower_fullness", 0.1),
    ("front_upper_fullness", 0.1),
    ("front_lower_fullness", 0.1),
    ("back_lower_reach", 0.1),
    ("front_lower_reach", 0.1),
    ("back_neck_fullness", 0.1),
    ("front_neck_fullness", 0.1),
    ("back_underarm_width", 5.0),
    ("front_underarm_width", 5.0),
    ("front_underarm_height", 5.0),
    ("back_side_turn", 0.03),
    ("back_waist_angle", 0.04),
    ("back_waist_x", 5.0),
    ("back_waist_y", 4.0),
    ("front_side_turn", 0.03),
    ("bust_angle", 0.04),
    ("front_waist_angle", 0.04),
    ("front_waist_x", 5.0),
    ("front_waist_y", 4.0),
    ("front_waist", 5.0),
    ("neck_corner", 0.03),
    ("back_line_share", 0.01),
    ("front_line_share", 0.01),
)
INDEX = {name: at for at, (name, _) in enumerate(VARIABLES)}
STEPS: Reals = np.array([step for _, step in VARIABLES])

#: Where the back waist dart's point and the blade point lie, as a share of half the across back.
PIVOT_SHARE = 0.54
#: How far below the back neck point the blade point lies, as a share of the armhole depth.
BLADE_SHARE = 0.45
#: Where the back shoulder dart opens, as a share of the sewn shoulder from the neck point.
BLADE_DART_SHARE = 0.46
#: How far the front's bust dart opens below the bust line at the side, and the least distance
#: of the bust line below the underarm point along the side (mm).
BELOW_BUST_LINE_MM = 18.0
LEAST_BELOW_UNDERARM_MM = 12.0


@dataclass(frozen=True, slots=True)
class Half:
    """One piece of every trial shape, side to the right, darts open unless said."""

    centre_neck: Points
    neck_point: Points
    neckline: Cubics
    shoulder_point: Points
    line_point: Points
    upper_armhole: Cubics
    lower_armhole: Cubics
    lower_reach: Reals
    line_share: Reals
    underarm: Points
    bust_side: Points
    bust_width: Reals
    side_down: Points
    side_length: Reals
    side_waist: Points
    pivot: Points
    waist_angle: Reals
    waist: Cubics
    waist_cut: Reals
    waist_leg: Reals

    def armhole_length(self) -> Reals:
        """The armhole's length."""
        return self.upper_armhole.length() + self.lower_armhole.length()


@dataclass(frozen=True, slots=True)
class Shapes:
    """All trial shapes: the two halves and what only one of them has."""

    back: Half
    front: Half
    blade: Points
    blade_angle: Reals
    blade_inner: Points
    blade_outer: Points
    blade_intake: Reals
    back_slope_drawn: Reals
    shoulder_corner: Reals
    neck_corner: Reals
    bust_angle: Reals
    side_gap: Points
    side_upper: Reals
    bust_intake: Reals


def shapes_of(x: Reals, wants: Wants) -> Shapes:
    """Build the shapes for ``x``: one column of free numbers (in units of their steps) each."""
    value = x * STEPS[:, None]
    v = {name: value[at] for name, at in INDEX.items()}
    zero = np.zeros(x.shape[1])
    one = np.ones(x.shape[1])

    # Back, down to the underarm.
    centre = 1j * wants.back_length_mm + zero
    neck = v["back_neck_width"] + 1j * (wants.back_length_mm + v["back_neck_rise"])
    slope = v["back_slope"]
    along = unit(-slope)
    underarm_y = wants.back_length_mm - wants.armhole_depth_mm
    blade_y = wants.back_length_mm - BLADE_SHARE * wants.armhole_depth_mm
    blade = wants.across_back_half_mm * PIVOT_SHARE + 1j * blade_y + zero
    sewn = wants.shoulder_mm + wants.back_shoulder_ease_mm
    inner = neck + along * (wants.shoulder_mm * BLADE_DART_SHARE)
    opened = unit(-v["blade_angle"])
    corner = unit(-v["shoulder_corner"])
    outer = blade + (inner - blade) * opened
    shoulder = blade + (neck + along * sewn - blade) * opened
    underarm = v["back_underarm_width"] + 1j * underarm_y
    line = _line_point(wants.across_back_half_mm, shoulder, underarm, v["back_line_share"])
    down = -1j * unit(-v["back_side_turn"])
    flatter = unit(-v["neck_corner"])
    back_neckline = sweep(centre, one + 0j, neck, along * 1j * flatter, v["back_neck_fullness"])
    upper, lower = _armhole(
        shoulder,
        along * opened * corner * -1j,
        line,
        v["back_line_turn"],
        underarm,
        down,
        v["back_upper_fullness"],
        v["back_lower_fullness"],
        v["back_lower_reach"],
    )

    # Front, down to the underarm.
    f_centre = 1j * v["front_centre"]
    f_neck = v["front_neck_width"] + 1j * v["front_neck_height"]
    f_along = unit(-v["front_slope"])
    f_shoulder = f_neck + f_along * wants.shoulder_mm
    f_underarm = v["front_underarm_width"] + 1j * v["front_underarm_height"]
    f_line = _line_point(wants.across_front_half_mm, f_shoulder, f_underarm, v["front_line_share"])
    f_down = -1j * unit(-v["front_side_turn"])
    f_neckline = sweep(
        f_centre, one + 0j, f_neck, f_along * 1j * flatter.conj(), v["front_neck_fullness"]
    )
    f_upper, f_lower = _armhole(
        f_shoulder,
        f_along * corner.conj() * -1j,
        f_line,
        v["front_line_turn"],
        f_underarm,
        f_down,
        v["front_upper_fullness"],
        v["front_lower_fullness"],
        v["front_lower_reach"],
    )
    bust = wants.bust_apart_half_mm + 1j * v["bust_height"]

    # The bust line, level through the bust point, at the same place of the side seam on both.
    fall = (f_underarm.imag - bust.imag) / np.cos(v["front_side_turn"])
    least = LEAST_BELOW_UNDERARM_MM
    fall = least + 0.5 * ((fall - least) + np.sqrt((fall - least) ** 2 + 4.0))
    f_bust_side = f_underarm + f_down * fall
    b_bust_side = underarm + down * fall

    # The waists, darts folded.
    pivot = blade.real + 1j * (b_bust_side.imag)
    back_end = v["back_waist_x"] + 1j * v["back_waist_y"]
    back_turn = v["back_side_turn"] + v["back_waist_angle"]
    waist = shallow(zero + 0j, one + 0j, back_end, unit(-back_turn))
    b_leg = -1j * unit(-v["back_waist_angle"] / 2.0)
    b_cut = waist.crossing(pivot, b_leg)
    side_waist = pivot + (back_end - pivot) * unit(v["back_waist_angle"])

    front_end = v["front_waist_x"] + 1j * v["front_waist_y"]
    front_turn = v["front_side_turn"] + v["bust_angle"] + v["front_waist_angle"]
    f_waist = shallow(zero + 0j, one + 0j, front_end, unit(-front_turn))
    f_leg = -1j * unit(-v["front_waist_angle"] / 2.0)
    f_cut = f_waist.crossing(bust, f_leg)
    f_side_waist = bust + (front_end - bust) * unit(v["front_waist_angle"])
    f_closed = bust + (f_side_waist - bust) * unit(v["bust_angle"])

    side_length = ((side_waist - underarm) / down).real
    upper_leg = f_bust_side + f_down * BELOW_BUST_LINE_MM - bust
    return Shapes(
        back=Half(
            centre,
            neck,
            back_neckline,
            shoulder,
            line,
            upper,
            lower,
            v["back_lower_reach"],
            v["back_line_share"],
            underarm,
            b_bust_side,
            b_bust_side.real,
            down,
            side_length,
            side_waist,
            pivot,
            v["back_waist_angle"],
            waist,
            b_cut,
            ((waist.at(b_cut) - pivot) / b_leg).real,
        ),
        front=Half(
            f_centre,
            f_neck,
            f_neckline,
            f_shoulder,
            f_line,
            f_upper,
            f_lower,
            v["front_lower_reach"],
            v["front_line_share"],
            f_underarm,
            f_bust_side,
            bust.real + np.abs(f_bust_side - bust),
            f_down,
            ((f_closed - f_underarm) / f_down).real,
            f_side_waist,
            bust,
            v["front_waist_angle"],
            f_waist,
            f_cut,
            ((f_waist.at(f_cut) - bust) / f_leg).real,
        ),
        blade=blade,
        blade_angle=v["blade_angle"],
        blade_inner=inner,
        blade_outer=outer,
        blade_intake=2.0 * np.abs(inner - blade) * np.sin(v["blade_angle"] / 2.0),
        back_slope_drawn=-np.angle(shoulder - neck),
        shoulder_corner=v["shoulder_corner"],
        neck_corner=v["neck_corner"],
        bust_angle=v["bust_angle"],
        side_gap=cross(side_waist - underarm, down) + 1j * cross(f_closed - f_underarm, f_down),
        side_upper=fall,
        bust_intake=2.0 * np.abs(upper_leg) * np.sin(v["bust_angle"] / 2.0),
    )


def _line_point(half_mm: float, shoulder: Points, underarm: Points, lower: Reals) -> Points:
    """Where the across line meets the armhole: half-way down it, or lower by a share of it."""
    return half_mm + 1j * ((0.5 - lower) * shoulder.imag + (0.5 + lower) * underarm.imag)


def _armhole(
    shoulder: Points,
    leaving: Points,
    line: Points,
    line_turn: Reals,
    underarm: Points,
    down: Points,
    upper: Reals,
    lower: Reals,
    reach: Reals,
) -> tuple[Cubics, Cubics]:
    """From the shoulder point square to the shoulder, over the across line, to the underarm."""
    through = -1j * unit(-line_turn)
    return (
        sweep(shoulder, leaving, line, through, upper),
        sweep(line, through, underarm, down * 1j, lower, reach),
    )
