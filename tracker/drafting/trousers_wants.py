"""What trousers must meet: the body's figures with their ease, of one leg."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.body.body import Body
from tracker.body.ease import EasePlan
from tracker.body.measurement import BodySide
from tracker.body.vocabulary import measurement
from tracker.drafting.bodice_wants import figure_of
from tracker.drafting.skirt_wants import (
    HIP_SHARE_MM,
    WAIST_SHARE_MM,
    refuse_missing,
    share_of,
)
from tracker.errors import TrackerError
from tracker.units import write_both

#: What trousers cannot be drafted without.
NEEDED = (
    "waist-girth",
    "hip-girth",
    "hip-depth",
    "crotch-depth",
    "crotch-length-front",
    "crotch-length-back",
    "thigh-girth",
    "knee-girth",
    "inside-leg",
    "knee-height",
)
CROTCH, WHOLE_CROTCH = ("crotch-length-front", "crotch-length-back"), "crotch-length"
#: What is worth estimating for trousers, when estimates are asked for.
TO_ESTIMATE = (
    *NEEDED,
    "waist-arc-front",
    "waist-arc-back",
    "hip-arc-front",
    "hip-arc-back",
)
BACK_WIDER_MM = 20.0
"""The back leg is so much wider than the front at knee and hem; published: 1 to 2 cm."""


EVEN_RULE = 3
"""From this rule on the crotch bends evenly and the back's darts take more than the front's."""
MET_RULE = 4
"""From this rule on a measured thigh, and a crotch length measured only whole, are met too, and
estimated crotch lengths are come near."""

ANKLE_EASE_MM = 25.4
"""Trouser block, ankle: 1 in (NIMI CITS Dress Making, practical volume, p. 180)."""
LEAST_HEM_MM, MOST_HEM_MM = 220.0, 1200.0
"""Common practice, no source."""


class NotTrousers(TrackerError):
    """A length was asked for that no trousers can have."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class TrouserChoices:
    """What the maker decides about trousers.

    Args:
        above_floor_mm: how far above the floor the hem ends.
        body_side: "both" drafts for the mean of left and right; "right" or "left" for that
            side of the wearer.
        front_dart_mm: length of the front waist dart.
        back_dart_mm: length of the back waist dart; published ones are 120 to 140 mm.
        hem_mm: how wide each leg is round the hem; 0 for straight down from the knee.
    """

    above_floor_mm: float = 20.0
    body_side: BodySide = "both"
    front_dart_mm: float = 100.0
    back_dart_mm: float = 130.0
    hem_mm: float = 0.0

    def to_record(self) -> dict[str, str | float]:
        """Return plain values for storing."""
        record = {name: getattr(self, name) for name in self.__dataclass_fields__}
        if not self.hem_mm:
            del record["hem_mm"]
        return record


@dataclass(frozen=True, slots=True, kw_only=True)
class TrouserWants:
    """The finished figures of one leg, ease included, mm, and what preferences look at.

    ``crotch_met`` tells of front and back whether their crotch length is met; else it is aimed
    at. ``crotch_whole`` is the two together where only that was measured, else 0. ``hem`` is 0
    where the leg is straight from the knee down; ``rule`` is the revision of the arithmetic.
    """

    waist_half_mm: float
    hip_half_mm: float
    hip_girth_mm: float
    hip_depth_mm: float
    hip_above_crotch_mm: float
    crotch_mm: tuple[float, float]
    crotch_met: tuple[bool, bool]
    thigh_mm: float
    knee_mm: float
    inside_leg_mm: float
    knee_below_crotch_mm: float
    waist_share_mm: float
    waist_share_gives_mm: float
    hip_share_mm: float
    hip_share_gives_mm: float
    front_dart_mm: float
    back_dart_mm: float
    crotch_whole_mm: float = 0.0
    thigh_met: bool = False
    hem_mm: float = 0.0
    rule: int = MET_RULE

    @property
    def fork_mm(self) -> float:
        """The front's crotch extension by the rule of the classic block, from memory."""
        return self.hip_girth_mm / 16 + 5.0


def missing_from(body: Body) -> tuple[str, ...]:
    """Return the keys trousers need that this body does not have, in tape order."""
    keys = (key for key in NEEDED if not body.has(key))
    return tuple(sorted(keys, key=lambda key: measurement(key).order))


def trouser_wants(
    body: Body, ease: EasePlan, choices: TrouserChoices, rule: int = MET_RULE
) -> TrouserWants:
    """Return what the trousers must meet, by a revision of the arithmetic.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        NotTrousers: the hem would not be below the knee, or cannot be so wide.
    """
    refuse_missing(missing_from(body), "pair of trousers")
    side = choices.body_side

    def of(key: str) -> float:
        return figure_of(body, key, side)

    depth = of("crotch-depth") + ease.mm("crotch-depth")
    inside, knee = of("inside-leg"), of("knee-height")
    if not 0.0 <= choices.above_floor_mm <= knee - 60.0:
        raise NotTrousers(
            f"a hem {choices.above_floor_mm:g} mm above the floor is not below the knee, which is "
            f"{knee:.0f} mm up; give 0 to {knee - 60.0:.0f} mm and shorten it as a style afterwards"
        )
    crotch, met, whole = _crotch(body, of(CROTCH[0]), of(CROTCH[1]), rule)
    more = ease.mm("crotch-length") / 2
    waist_share, waist_gives = share_of(body, "waist", WAIST_SHARE_MM)
    hip_share, hip_gives = share_of(body, "hip", HIP_SHARE_MM)
    hip_depth = of("hip-depth")
    return TrouserWants(
        waist_half_mm=(body.value("waist-girth") + ease.mm("waist")) / 2,
        hip_half_mm=(body.value("hip-girth") + ease.mm("hip")) / 2,
        hip_girth_mm=body.value("hip-girth"),
        hip_depth_mm=hip_depth,
        hip_above_crotch_mm=depth - hip_depth,
        crotch_mm=(crotch[0] + more, crotch[1] + more),
        crotch_met=met,
        crotch_whole_mm=whole + 2 * more if whole else 0.0,
        thigh_mm=of("thigh-girth") + ease.mm("thigh"),
        thigh_met=rule >= MET_RULE and not body.is_estimated("thigh-girth"),
        knee_mm=of("knee-girth") + ease.mm("knee"),
        inside_leg_mm=inside - ease.mm("crotch-depth") - choices.above_floor_mm,
        knee_below_crotch_mm=inside - knee - ease.mm("crotch-depth"),
        waist_share_mm=waist_share,
        waist_share_gives_mm=waist_gives,
        hip_share_mm=hip_share,
        hip_share_gives_mm=hip_gives,
        front_dart_mm=min(choices.front_dart_mm, 0.6 * hip_depth),
        back_dart_mm=min(choices.back_dart_mm, 0.72 * hip_depth),
        hem_mm=_hem(body, choices),
        rule=rule,
    )


def _crotch(
    body: Body, front: float, back: float, rule: int
) -> tuple[tuple[float, float], tuple[bool, bool], float]:
    """Return the crotch lengths, which of them are met, and the whole one that is, or 0.

    Of a part that was not measured, the whole and the other part tell what it is.
    """
    measured = (not body.is_estimated(CROTCH[0]), not body.is_estimated(CROTCH[1]))
    if rule < MET_RULE:
        return (front, back), (all(measured), all(measured)), 0.0
    if all(measured) or not body.has(WHOLE_CROTCH) or body.is_estimated(WHOLE_CROTCH):
        return (front, back), measured, 0.0
    whole = body.value(WHOLE_CROTCH)
    if measured[0]:
        return (front, whole - front), (True, True), 0.0
    if measured[1]:
        return (whole - back, back), (True, True), 0.0
    ahead = whole * front / (front + back)
    return (ahead, whole - ahead), measured, whole


def _hem(body: Body, choices: TrouserChoices) -> float:
    """The hem asked for; 0 for straight.

    Raises:
        NotTrousers: no foot goes through it, or no leg is so wide.
    """
    hem = choices.hem_mm
    if not hem:
        return 0.0
    least, what = LEAST_HEM_MM, "no foot goes through less"
    if body.has("ankle-girth"):
        ankle = figure_of(body, "ankle-girth", choices.body_side) + ANKLE_EASE_MM
        if ankle > least:
            least, what = ankle, "her ankle and an inch of ease"
    if not least <= hem <= MOST_HEM_MM:
        raise NotTrousers(
            f"a hem of {write_both(hem)} round each leg cannot be drafted; give "
            f"{write_both(least)} ({what}) to {write_both(MOST_HEM_MM)}, or leave it out for a leg "
            "straight from the knee down"
        )
    return hem
