"""What a bodice block must meet: the body's figures with their ease, as half measures."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, Literal

from tracker.body.body import Body
from tracker.body.ease import EasePlan
from tracker.body.measurement import BodySide
from tracker.body.vocabulary import measurement
from tracker.errors import TrackerError

BackShoulder = Literal["dart", "ease"]

#: What a bodice cannot be drafted without.
NEEDED = (
    "bust-girth",
    "waist-girth",
    "neck-base-girth",
    "shoulder-length",
    "back-neck-to-waist",
    "armhole-depth",
    "across-back",
    "across-front",
    "centre-front-length",
    "neck-point-to-bust-point",
    "neck-point-over-bust-to-waist",
    "bust-point-to-bust-point",
)
SLOPE = "shoulder-slope"
SLANT_BACK = "shoulder-point-to-centre-waist-back"
SLANT_FRONT = "shoulder-point-to-centre-waist-front"
NECK_TO_WAIST_BACK = "neck-point-to-waist-back"


EASY_NECK_RULE = 2
"""From this rule on the back neckline comes up to the shoulder gently, and the front squarer."""
OWN_ARCS_RULE = 3
"""From this rule on bust and waist are shared front and back as the body's measured arcs are, be it
only one of the two and the girth."""
SHARE_GIVES_MM, ONE_ARC_GIVES_MM, OWN_SHARE_GIVES_MM = 8.0, 3.0, 1.5
"""How much the sharing gives: by common practice, by one measured arc and the girth, by both."""


class MeasurementsMissing(TrackerError):
    """A bodice is asked for of a body whose measurements do not suffice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BodiceChoices:
    """What the maker decides about a bodice block.

    Args:
        back_shoulder: "dart" for a back shoulder dart of 12 to 19 mm; "ease" for none, the back
            shoulder eased on to the front by what the ease plan says.
        body_side: "both" drafts for the mean of left and right; "right" or "left" for that
            side of the wearer.
        bust_stand_back_mm: how far short of the bust point the bust dart is sewn.
        waist_stand_back_mm: the same of the front waist dart.
        back_stand_back_mm: the same of the back waist dart from its own point.
        blade_stand_back_mm: how far short of the blade point the shoulder dart is sewn.
    """

    back_shoulder: BackShoulder = "dart"
    body_side: BodySide = "both"
    bust_stand_back_mm: float = 25.0
    waist_stand_back_mm: float = 20.0
    back_stand_back_mm: float = 0.0
    blade_stand_back_mm: float = 25.0

    def to_record(self) -> dict[str, str | float]:
        """Return plain values for storing."""
        return {name: getattr(self, name) for name in self.__dataclass_fields__}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wants:
    """The finished figures of half a bodice, ease included: mm, and radians for the slope.

    A figure that is None was not measured and is free. ``darts_take`` is the share of what waist
    darts usually take; ``rule`` is the revision of the arithmetic.
    """

    bust_half_mm: float
    waist_half_mm: float
    neck_half_mm: float
    shoulder_mm: float
    back_shoulder_ease_mm: float
    shoulder_dart: bool
    slope_rad: float | None
    slant_back_mm: float | None
    slant_front_mm: float | None
    armhole_depth_mm: float
    across_back_half_mm: float
    across_front_half_mm: float
    back_length_mm: float
    neck_to_waist_back_mm: float | None
    neck_to_bust_mm: float
    front_over_bust_mm: float
    front_centre_mm: float | None
    bust_apart_half_mm: float
    # What the preferences look at.
    bust_girth_mm: float
    fullness_mm: float
    bust_share_mm: float
    waist_share_mm: float
    side_length_mm: float | None
    front_centre_guess_mm: float
    slope_guess_rad: float
    bust_share_gives_mm: float = SHARE_GIVES_MM
    waist_share_gives_mm: float = SHARE_GIVES_MM
    darts_take: float = 1.0
    rule: int = OWN_ARCS_RULE

    def with_(self, **changed: Any) -> Wants:
        """Return these wants with some changed."""
        return replace(self, **changed)


def missing_from(body: Body) -> tuple[str, ...]:
    """Return the keys a bodice needs that this body does not have, in tape order.

    A shoulder slope may be left out where both shoulder points were measured to the waist.
    """
    keys = [key for key in NEEDED if not body.has(key)]
    if not body.has(SLOPE) and not (body.has(SLANT_BACK) and body.has(SLANT_FRONT)):
        keys.append(SLOPE)
    return tuple(sorted(keys, key=lambda key: measurement(key).order))


def figure_of(body: Body, key: str, side: BodySide) -> float:
    """Return the figure a symmetrical block is drafted for: of a side, or the mean of both."""
    if not measurement(key).sided:
        return body.value(key)
    if side == "both" and body.is_uneven(key):
        return (body.value(key, "right") + body.value(key, "left")) / 2
    return body.value(key, side)


def used_of(body: Body, side: BodySide) -> tuple[str, ...]:
    """Return the keys of what a bodice is drafted from: met, or looked at by a preference."""
    shoulders = (SLANT_BACK, SLANT_FRONT) if _is_by_slant(body, side) else (SLOPE,)
    arcs = (f"{line}-arc-{where}" for line in ("bust", "waist") for where in ("front", "back"))
    return (*NEEDED, *shoulders, "high-bust-girth", *arcs)


def _is_by_slant(body: Body, side: BodySide) -> bool:
    """Tell whether the slants to the waist decide the shoulders, and not their slope."""
    slants = (SLANT_BACK, SLANT_FRONT)
    return not body.has(SLOPE) or all(
        body.has(key) and not body.is_estimated(key, side) for key in slants
    )


def wants_of(
    body: Body, ease: EasePlan, choices: BodiceChoices, rule: int = OWN_ARCS_RULE
) -> Wants:
    """Return what the block must meet, by a revision of the arithmetic.

    Where the slants from the shoulder points to the waist were measured with a tape they
    decide the shoulders; where they are estimated or missing, the slope does. What was only
    estimated and can be left free is left free, so that an estimate never overrules a tape.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
    """
    missing = missing_from(body)
    if missing:
        names = ", ".join(measurement(key).name for key in missing)
        raise MeasurementsMissing(
            f"a bodice cannot be drafted without {names}: measure "
            f"{'it' if len(missing) == 1 else 'them'}, or ask for missing measurements to be "
            f"estimated from the others with --estimate"
        )
    side = choices.body_side

    def of(key: str) -> float:
        return figure_of(body, key, side)

    def measured(key: str) -> float | None:
        there = body.has(key) and not body.is_estimated(key, side)
        return of(key) if there else None

    back_ease, front_ease = ease.mm("back-length"), ease.mm("front-length")
    slants = measured(SLANT_BACK), measured(SLANT_FRONT)
    by_slant = _is_by_slant(body, side)
    if by_slant:
        slants = of(SLANT_BACK), of(SLANT_FRONT)
    neck_to_waist = measured(NECK_TO_WAIST_BACK)
    centre_front = measured("centre-front-length")
    bust, waist = body.value("bust-girth"), body.value("waist-girth")
    high = body.get("high-bust-girth")
    fullness = 35.0 if high is None else min(max(bust - high, -20.0), 200.0)
    bust_share, bust_gives = _share_of(body, "bust", 10.0 + 0.25 * fullness, rule)
    waist_share, waist_gives = _share_of(body, "waist", 10.0, rule)
    side_length = measured("side-length")
    dart = choices.back_shoulder == "dart"
    return Wants(
        bust_half_mm=(bust + ease.mm("bust")) / 2,
        waist_half_mm=(waist + ease.mm("waist")) / 2,
        neck_half_mm=(body.value("neck-base-girth") + ease.mm("neck-base")) / 2,
        shoulder_mm=of("shoulder-length"),
        back_shoulder_ease_mm=0.0 if dart else ease.mm("shoulder"),
        shoulder_dart=dart,
        slope_rad=None if by_slant else math.radians(of(SLOPE)),
        slant_back_mm=slants[0] + back_ease if by_slant and slants[0] else None,
        slant_front_mm=slants[1] + front_ease if by_slant and slants[1] else None,
        armhole_depth_mm=of("armhole-depth") + ease.mm("armhole-depth"),
        across_back_half_mm=(of("across-back") + ease.mm("across-back")) / 2,
        across_front_half_mm=(of("across-front") + ease.mm("across-front")) / 2,
        back_length_mm=of("back-neck-to-waist") + back_ease,
        neck_to_waist_back_mm=None if neck_to_waist is None else neck_to_waist + back_ease,
        neck_to_bust_mm=of("neck-point-to-bust-point"),
        front_over_bust_mm=of("neck-point-over-bust-to-waist") + front_ease,
        front_centre_mm=None if centre_front is None else centre_front + front_ease,
        bust_apart_half_mm=of("bust-point-to-bust-point") / 2,
        bust_girth_mm=bust,
        fullness_mm=fullness,
        bust_share_mm=bust_share,
        waist_share_mm=waist_share,
        bust_share_gives_mm=bust_gives,
        waist_share_gives_mm=waist_gives,
        side_length_mm=(
            None if side_length is None else side_length + back_ease - ease.mm("armhole-depth")
        ),
        front_centre_guess_mm=of("centre-front-length") + front_ease,
        slope_guess_rad=math.radians(of(SLOPE) if body.has(SLOPE) else 21.0),
        rule=rule,
    )


def _share_of(body: Body, line: str, guess_mm: float, rule: int) -> tuple[float, float]:
    """Return half front less half back of a line, and how much it gives."""
    keys = [f"{line}-arc-{where}" for where in ("front", "back")]
    front, back = (body.get(key) for key in keys)
    told = [key for key in keys if body.has(key) and not body.is_estimated(key)]
    if rule < OWN_ARCS_RULE or not told:
        return ((front - back) / 2 if front and back else guess_mm), SHARE_GIVES_MM
    whole = body.value(f"{line}-girth")
    if keys[0] not in told or front is None:  # the tape tells the one by the other
        front = whole - body.value(keys[1])
    if keys[1] not in told or back is None:
        back = whole - front
    gives = OWN_SHARE_GIVES_MM if len(told) == 2 else ONE_ARC_GIVES_MM
    return (front - back) / 2, gives
