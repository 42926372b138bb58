"""A half body laid flat: how the lengths over shoulder, neck, bust and back hang together.

Centre back and centre front lie on x = 0 and the waist on y = 0, so that a length that can be
worked out from others is worked out in one way everywhere. It is a picture for filling gaps and
finding contradictions, not a draft: shoulder blades and darts are left out, which is good to
about a centimetre.
"""

import math
from dataclasses import dataclass

RISE_SHARE = 1 / 3
"""Back neck rise as a share of the back neck width (published proportional block)."""

FRONT_NARROWER_MM = 2.0
"""Front neck half-width below the back's (published proportional block: 0.2 cm)."""

FRONT_DEEPER_MM = 5.0
"""Front neck depth above its half-width (published proportional block: 0.5 cm)."""


@dataclass(frozen=True, slots=True)
class NeckShape:
    """Half a neck base laid flat, in mm."""

    back_width_mm: float
    back_rise_mm: float
    front_width_mm: float
    front_depth_mm: float

    @property
    def back_curve_mm(self) -> float:
        """Length of half the back neckline."""
        return _quarter_ellipse(self.back_width_mm, self.back_rise_mm)


def neck_shape(neck_base_girth_mm: float) -> NeckShape:
    """Return the neck whose front and back curves (quarter ellipses) make up half the girth."""
    low, high = 1.0, neck_base_girth_mm
    for _ in range(60):
        middle = (low + high) / 2
        neck = _neck(middle)
        front = _quarter_ellipse(neck.front_width_mm, neck.front_depth_mm)
        if neck.back_curve_mm + front < neck_base_girth_mm / 2:
            low = middle
        else:
            high = middle
    return _neck((low + high) / 2)


def shoulder_point(neck_point: complex, length_mm: float, slope_deg: float) -> complex:
    """Return where a shoulder ends that falls from the neck point by a slope."""
    slope = math.radians(slope_deg)
    return neck_point + length_mm * complex(math.cos(slope), -math.sin(slope))


def slope_to_reach(neck_point: complex, length_mm: float, from_waist_mm: float) -> float | None:
    """Return the slope (degrees) that puts the shoulder point so far from the centre waist.

    None when no slope does.
    """
    far = abs(neck_point)
    cosine = (from_waist_mm**2 - far**2 - length_mm**2) / (2 * length_mm * far)
    if not -1 <= cosine <= 1:
        return None
    return math.degrees(math.acos(cosine) - math.atan2(neck_point.imag, neck_point.real))


def front_neck_height(
    over_bust_mm: float, to_bust_mm: float, neck_width_mm: float, bust_half_apart_mm: float
) -> float | None:
    """Return how high the front neck point lies above the waist, from the way over the bust.

    None when the bust point is nearer the neck point than it is sideways of it.
    """
    aside = bust_half_apart_mm - neck_width_mm
    if to_bust_mm <= abs(aside):
        return None
    return over_bust_mm - to_bust_mm + math.sqrt(to_bust_mm**2 - aside**2)


def _neck(back_width_mm: float) -> NeckShape:
    front_width = max(back_width_mm - FRONT_NARROWER_MM, 0.5)
    return NeckShape(
        back_width_mm,
        back_width_mm * RISE_SHARE,
        front_width,
        front_width + FRONT_DEEPER_MM,
    )


def _quarter_ellipse(a: float, b: float) -> float:
    """Length of a quarter of an ellipse (Ramanujan's first approximation, better than 0.5 %)."""
    return math.pi * (3 * (a + b) - math.sqrt((3 * a + b) * (a + 3 * b))) / 4
