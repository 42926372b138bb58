"""What a straight skirt must meet: the body's figures with their ease, as half measures."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from tracker.body.body import Body
from tracker.body.ease import EasePlan
from tracker.body.measurement import BodySide
from tracker.body.vocabulary import measurement
from tracker.drafting.bodice_wants import MeasurementsMissing, figure_of
from tracker.errors import TrackerError
from tracker.units import write_both

#: What a skirt cannot be drafted without.
NEEDED = ("waist-girth", "hip-girth", "hip-depth")
#: Its length, where the maker gives none.
KNEE = "waist-to-knee"
#: What is worth estimating for a skirt, when estimates are asked for.
TO_ESTIMATE = (
    *NEEDED,
    KNEE,
    "waist-arc-front",
    "waist-arc-back",
    "hip-arc-front",
    "hip-arc-back",
)

#: From the waist to the floor: at the side, and by how much front and back differ from it.
TO_FLOOR = "outside-leg"
TO_FLOOR_AT = {"front": "waist-to-floor-front", "back": "waist-to-floor-back"}

CENTRE_BELOW_SIDE_MM = {"front": 12.0, "back": 14.0}
"""How much shorter the way from waist to hip line is at the centres than at the side.

Close textbook block: the side is raised by 12.5 mm and its curve is 16 mm longer than the centre.
"""

WAIST_SHARE_MM = 8.0
HIP_SHARE_MM = -10.0
"""Half front less half back where the arcs were not measured; common practice, no source."""

SHARE_GIVES_MM, GUESSED_SHARE_GIVES_MM = 1.0, 5.0
BALANCE_GIVES_MM, GUESSED_BALANCE_GIVES_MM = 3.0, 6.0


class NotASkirt(TrackerError):
    """A length or a dart was asked for that no skirt can have."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class SkirtChoices:
    """What the maker decides about a straight skirt.

    Args:
        length_mm: finished length down the side from the waist; none for down to the knee.
        body_side: "both" drafts for the mean of left and right; "right" or "left" for that
            side of the wearer.
        front_dart_mm: length of the front waist dart; 100 mm is the published one.
        back_dart_mm: length of the back waist dart nearest the centre; published ones are 120 to
            140 mm. The one nearer the side is 15 mm shorter.
    """

    length_mm: float | None = None
    body_side: BodySide = "both"
    front_dart_mm: float = 100.0
    back_dart_mm: float = 140.0

    def to_record(self) -> dict[str, str | float | None]:
        """Return plain values for storing."""
        return {name: getattr(self, name) for name in self.__dataclass_fields__}


@dataclass(frozen=True, slots=True, kw_only=True)
class SkirtWants:
    """The finished figures of half a skirt, ease included, mm, and what preferences look at.

    ``centre_depth`` and the two shares are aimed at, front first, with how much each gives.
    ``stout`` lets side seams without a dart beside them lean outwards a little.
    """

    waist_half_mm: float
    hip_half_mm: float
    hip_depth_mm: float
    length_mm: float
    waist_share_mm: float
    waist_share_gives_mm: float
    hip_share_mm: float
    hip_share_gives_mm: float
    centre_depth_mm: tuple[float, float]
    centre_depth_gives_mm: tuple[float, float]
    front_dart_mm: float
    back_dart_mm: float
    stout: bool = False

    def with_(self, **changed: Any) -> SkirtWants:
        """Return these wants with some changed."""
        return replace(self, **changed)


def missing_from(body: Body, choices: SkirtChoices | None = None) -> tuple[str, ...]:
    """Return the keys a skirt needs that this body does not have, in tape order."""
    needed = NEEDED if choices is not None and choices.length_mm is not None else (*NEEDED, KNEE)
    return tuple(
        sorted((k for k in needed if not body.has(k)), key=lambda key: measurement(key).order)
    )


def refuse_missing(missing: Iterable[str], what: str) -> None:
    """Refuse a body that lacks what is needed.

    Raises:
        MeasurementsMissing: there is something missing; the sentence says what.
    """
    keys = tuple(missing)
    if keys:
        names = ", ".join(measurement(key).name for key in keys)
        raise MeasurementsMissing(
            f"a {what} cannot be drafted without {names}: measure "
            f"{'it' if len(keys) == 1 else 'them'}, or ask for missing measurements to be "
            f"estimated from the others with --estimate"
        )


def wants_of(body: Body, ease: EasePlan, choices: SkirtChoices) -> SkirtWants:
    """Return what the skirt must meet.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        NotASkirt: the length ends above the hip line, or a dart has no length.
    """
    refuse_missing(missing_from(body, choices), "skirt")
    side = choices.body_side
    depth = figure_of(body, "hip-depth", side)
    length = figure_of(body, KNEE, side) if choices.length_mm is None else choices.length_mm
    if not math.isfinite(length):
        raise NotASkirt(f"{length:g} mm is no length of a skirt; give one such as 60cm")
    if not depth + 60.0 <= length <= 1500.0:
        raise NotASkirt(
            f"a skirt cannot be {write_both(length)} long on a body whose hip line lies "
            f"{write_both(depth)} down the side; give a length from {write_both(depth + 60.0)} to "
            f"{write_both(1500.0)} and shorten it as a style afterwards"
        )
    for where, mm in (("front", choices.front_dart_mm), ("back", choices.back_dart_mm)):
        if not 50.0 <= mm <= 180.0:
            raise NotASkirt(
                f"a {where} waist dart of {mm:g} mm cannot be drawn; give its length from 50 to "
                f"180 mm"
            )
    depths, gives = zip(*(_centre_depth(body, depth, side, at) for at in TO_FLOOR_AT), strict=True)
    waist_share, waist_gives = share_of(body, "waist", WAIST_SHARE_MM)
    hip_share, hip_gives = share_of(body, "hip", HIP_SHARE_MM)
    return SkirtWants(
        waist_half_mm=(body.value("waist-girth") + ease.mm("waist")) / 2,
        hip_half_mm=(body.value("hip-girth") + ease.mm("hip")) / 2,
        hip_depth_mm=depth,
        length_mm=length,
        waist_share_mm=waist_share,
        waist_share_gives_mm=waist_gives,
        hip_share_mm=hip_share,
        hip_share_gives_mm=hip_gives,
        centre_depth_mm=depths,
        centre_depth_gives_mm=gives,
        front_dart_mm=min(choices.front_dart_mm, 0.6 * depth),
        back_dart_mm=min(choices.back_dart_mm, 0.72 * depth),
    )


def share_of(body: Body, line: str, guess_mm: float) -> tuple[float, float]:
    """Return half front less half back of a line, from the body's arcs, and how much it gives."""
    front, back = (f"{line}-arc-{where}" for where in ("front", "back"))
    if not (body.has(front) and body.has(back)):
        return guess_mm, GUESSED_SHARE_GIVES_MM
    guessed = body.is_estimated(front) or body.is_estimated(back)
    share = (body.value(front) - body.value(back)) / 2
    return share, GUESSED_SHARE_GIVES_MM if guessed else SHARE_GIVES_MM


def _centre_depth(body: Body, depth: float, side: BodySide, where: str) -> tuple[float, float]:
    """How far the hip line lies below the waist at a centre: from the floor, where measured."""
    key = TO_FLOOR_AT[where]
    keys = (key, TO_FLOOR)
    if all(body.has(k) and not body.is_estimated(k, side) for k in keys):
        less = figure_of(body, TO_FLOOR, side) - body.value(key)
        return depth - less, BALANCE_GIVES_MM
    return depth - CENTRE_BELOW_SIDE_MM[where], GUESSED_BALANCE_GIVES_MM
