"""What a torso block must meet besides its bodice: hip girth and hip depth."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from tracker.body.body import Body
from tracker.body.ease import EasePlan
from tracker.body.estimate import BODICE_NEEDS
from tracker.body.vocabulary import measurement
from tracker.drafting.bodice_wants import BodiceChoices, figure_of
from tracker.drafting.bodice_wants import missing_from as missing_from_bodice
from tracker.drafting.skirt_wants import HIP_SHARE_MM, refuse_missing, share_of
from tracker.errors import TrackerError

#: What a torso needs besides a bodice.
NEEDED_BELOW = ("hip-girth", "hip-depth")
#: What is worth estimating for a torso, when estimates are asked for.
TO_ESTIMATE = (*BODICE_NEEDS, "hip-depth", "hip-arc-front", "hip-arc-back")

SIDE_GIVES_MM = 6.0
"""How much the evenness of front and back side seam gives against the body's own hip arcs."""


class NotATorso(TrackerError):
    """A dart was asked for that no torso block can have."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class TorsoChoices:
    """What the maker decides about a torso block.

    Args:
        bodice: what is decided about the part above the waist.
        front_below_mm: how far below the waist the front waist dart is sewn; further where it
            takes in much.
        back_below_mm: the same of the back waist dart.
    """

    bodice: BodiceChoices = field(default_factory=BodiceChoices)
    front_below_mm: float = 100.0
    back_below_mm: float = 130.0

    def to_record(self) -> dict[str, Any]:
        """Return plain values for storing."""
        return {
            "bodice": self.bodice.to_record(),
            "front_below_mm": self.front_below_mm,
            "back_below_mm": self.back_below_mm,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class TorsoWants:
    """The finished figures below the waist, ease included, mm.

    ``hip_share_mm`` (half front less half back) is aimed at; the rest is met.
    """

    hip_half_mm: float
    hip_depth_mm: float
    hip_share_mm: float
    hip_share_gives_mm: float
    front_below_mm: float
    back_below_mm: float


def missing_from(body: Body) -> tuple[str, ...]:
    """Return the keys a torso block needs that this body does not have, in tape order."""
    below = (key for key in NEEDED_BELOW if not body.has(key))
    keys = {*missing_from_bodice(body), *below}
    return tuple(sorted(keys, key=lambda key: measurement(key).order))


def torso_wants(body: Body, ease: EasePlan, choices: TorsoChoices) -> TorsoWants:
    """Return what the torso must meet below the waist.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        NotATorso: a dart's length cannot be.
    """
    refuse_missing(missing_from(body), "torso block")
    depth = figure_of(body, "hip-depth", choices.bodice.body_side)
    for where, mm in (("front", choices.front_below_mm), ("back", choices.back_below_mm)):
        if not 40.0 <= mm <= 180.0:
            raise NotATorso(
                f"a {where} waist dart cannot end {mm:g} mm below the waist; give a length from "
                f"40 to 180 mm"
            )
    share, gives = share_of(body, "hip", HIP_SHARE_MM)
    return TorsoWants(
        hip_half_mm=(body.value("hip-girth") + ease.mm("hip")) / 2,
        hip_depth_mm=depth,
        hip_share_mm=share,
        hip_share_gives_mm=gives,
        front_below_mm=min(choices.front_below_mm, 0.6 * depth),
        back_below_mm=min(choices.back_below_mm, 0.72 * depth),
    )
