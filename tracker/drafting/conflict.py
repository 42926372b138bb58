"""Why a body cannot be met: the measurements that contradict each other, and what would do.

First the body's own sums (``tracker.body.plausible``); then, where a body is plausible and still
has no block, each wanted figure is set free in turn: the measurements whose giving way lets the
block be drawn are the ones in conflict, and how far each has to give is what would do.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tracker.body.body import Body
from tracker.body.ease import EasePlan
from tracker.body.plausible import contradictions, measure_again
from tracker.body.vocabulary import BY_KEY, name_with_side
from tracker.drafting.bodice_solve import Solution, solve
from tracker.drafting.bodice_wants import (
    NECK_TO_WAIST_BACK,
    SLANT_BACK,
    SLANT_FRONT,
    SLOPE,
    BodiceChoices,
    Wants,
)
from tracker.errors import TrackerError
from tracker.pattern.finding import Finding
from tracker.units import write_angle, write_both

HIPS = ("hip-girth", "hip-arc-front", "hip-arc-back")


class BodyCannotBeMet(TrackerError):
    """No bodice block meets the measurements of this body.

    Attributes:
        keys: the measurements in conflict, the likeliest first.
    """

    def __init__(self, sentence: str, keys: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.keys = keys


@dataclass(frozen=True, slots=True)
class Figure:
    """Which measurement a wanted figure is, and how many of its mm are one of the body's."""

    name: str
    key: str
    share: float = 1.0


FIGURES = (
    Figure("bust_half_mm", "bust-girth", 0.5),
    Figure("waist_half_mm", "waist-girth", 0.5),
    Figure("neck_half_mm", "neck-base-girth", 0.5),
    Figure("shoulder_mm", "shoulder-length"),
    Figure("slope_rad", SLOPE, math.radians(1.0)),
    Figure("slant_back_mm", SLANT_BACK),
    Figure("slant_front_mm", SLANT_FRONT),
    Figure("armhole_depth_mm", "armhole-depth"),
    Figure("across_back_half_mm", "across-back", 0.5),
    Figure("across_front_half_mm", "across-front", 0.5),
    Figure("back_length_mm", "back-neck-to-waist"),
    Figure("neck_to_waist_back_mm", NECK_TO_WAIST_BACK),
    Figure("neck_to_bust_mm", "neck-point-to-bust-point"),
    Figure("front_over_bust_mm", "neck-point-over-bust-to-waist"),
    Figure("front_centre_mm", "centre-front-length"),
    Figure("bust_apart_half_mm", "bust-point-to-bust-point", 0.5),
)

GIVE_READINGS = 3.0
"""A freed measurement gives by this many times what two careful readings may differ by."""


@dataclass(frozen=True, slots=True)
class WayOut:
    """One measurement that would let the block be drawn if it were another.

    Attributes:
        figure: which measurement.
        change: by how much it would have to be more, in the body's unit.
        readings: how far that is off, in what two careful readings may differ by.
    """

    figure: Figure
    change: float
    readings: float


def refuse_contradictions(body: Body) -> None:
    """Refuse a body whose measurements of the trunk contradict each other.

    Raises:
        BodyCannotBeMet: the sentence names them and says what to measure again.
    """
    found = [
        finding
        for finding in contradictions(body)
        if any(_is_of_the_trunk(name) for name in finding.place.split("; "))
    ]
    if not found:
        return
    keys = tuple(dict.fromkeys(_key_of(n) for f in found for n in f.place.split("; ")))
    raise BodyCannotBeMet(
        f"no bodice can be drafted from measurements that contradict each other: {_said(found)}",
        keys,
    )


def _said(found: list[Finding]) -> str:
    """Say up to three contradictions, those with the measurement named most often first."""
    first = measure_again(found)[0]
    times = sum(first in finding.place.split("; ") for finding in found)
    found = sorted(found, key=lambda finding: first not in finding.place.split("; "))
    said = "; ".join(finding.sentence for finding in found[:3])
    if len(found) > 3:
        said += f"; and {len(found) - 3} more"
    if times > 1:
        return f"{said}; measure {first} again first, which is in {times} of them"
    return f"{said}; {found[0].remedy}"


def refusal(body: Body, ease: EasePlan, choices: BodiceChoices, failed: Solution) -> TrackerError:
    """Return the refusal of a body that was tried in vain, naming what is in conflict.

    Args:
        body: the body.
        ease: the ease plan it was tried with.
        choices: the choices it was tried with.
        failed: what the trial came to.
    """
    del ease  # already in the wanted figures
    ways = ways_out(failed.wants)
    if len(ways) < 2:
        ways = (*ways, *(w for w in _shared_out(failed.wants) if w.figure.key not in _keys(ways)))
    if not ways:
        limits = ", ".join(p.name for p in failed.broken()[:3]) or "the lengths"
        return BodyCannotBeMet(
            f"no bodice block meets all of these measurements; {limits} would have to be beyond "
            f"what is ever cut, so measure again, beginning with the girths and the back length",
            (),
        )
    named = ways[:2]
    does = "does" if len(named) == 1 else "do"
    what = " and ".join(_shown(body, choices, way) for way in named)
    rest = "the others" if len(named) == 1 else "each other and the rest"
    would = ", or ".join(
        f"{BY_KEY[way.figure.key].name} of about "
        f"{_amount(way.figure.key, _value(body, choices, way.figure.key) + way.change)}"
        for way in named
    )
    return BodyCannotBeMet(
        f"{what} {does} not go with {rest} of this body: no bodice block meets them all. It would "
        f"be met with {would}; measure {'it' if len(named) == 1 else 'both'} again",
        tuple(way.figure.key for way in named),
    )


def ways_out(wants: Wants) -> tuple[WayOut, ...]:
    """Return each single measurement whose change would let the block be drawn, nearest first."""
    found = []
    for figure in FIGURES:
        if getattr(wants, figure.name) is None:
            continue
        freed = solve(wants, [(figure.name, _give(figure))])
        if freed.is_met:
            found.append(_way(figure, wants, freed))
    return tuple(sorted(found, key=lambda way: way.readings))


def _shared_out(wants: Wants) -> tuple[WayOut, ...]:
    """Set every measurement free at once; those that moved most, if that helps at all."""
    figures = [figure for figure in FIGURES if getattr(wants, figure.name) is not None]
    freed = solve(wants, [(figure.name, _give(figure)) for figure in figures])
    if not freed.is_met:
        return ()
    ways = [_way(figure, wants, freed) for figure in figures]
    return tuple(sorted(ways, key=lambda way: -way.readings))


def _way(figure: Figure, wants: Wants, freed: Solution) -> WayOut:
    change = (getattr(freed.wants, figure.name) - getattr(wants, figure.name)) / figure.share
    return WayOut(figure, change, abs(change) / BY_KEY[figure.key].allowed)


def _give(figure: Figure) -> float:
    return GIVE_READINGS * BY_KEY[figure.key].allowed * figure.share


def _keys(ways: tuple[WayOut, ...]) -> set[str]:
    return {way.figure.key for way in ways}


def _shown(body: Body, choices: BodiceChoices, way: WayOut) -> str:
    entry = BY_KEY[way.figure.key]
    side = choices.body_side if entry.sided else "both"
    guessed = ", estimated," if body.is_estimated(entry.key, side) else ""
    shown = _amount(entry.key, _value(body, choices, entry.key))
    return f"{name_with_side(entry, side)} {shown}{guessed}"


def _value(body: Body, choices: BodiceChoices, key: str) -> float:
    return body.value(key, choices.body_side if BY_KEY[key].sided else "both")


def _amount(key: str, value: float) -> str:
    return write_angle(value) if BY_KEY[key].unit == "deg" else write_both(value)


def _key_of(name: str) -> str:
    bare = name.removeprefix("right ").removeprefix("left ")
    return next(entry.key for entry in BY_KEY.values() if entry.name in (name, bare))


def _is_of_the_trunk(name: str) -> bool:
    key = _key_of(name)
    return key in HIPS or "bodice" in BY_KEY[key].purposes
