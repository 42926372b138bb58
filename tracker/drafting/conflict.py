"""Why a body cannot be met: the measurements that contradict each other, and what would do.

First the body's own sums (``tracker.body.plausible``); then, where a body is plausible and still
has no block, each wanted figure is set free in turn: the measurements whose giving way lets the
block be drawn are the ones in conflict, and how far each has to give is what would do.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tracker.body.body import Body
from tracker.body.plausible import contradictions, measure_again
from tracker.body.vocabulary import BY_KEY, name_with_side
from tracker.drafting.bodice_solve import Solution, pulls, solve
from tracker.drafting.bodice_wants import (
    NECK_TO_WAIST_BACK,
    SLANT_BACK,
    SLANT_FRONT,
    SLOPE,
    BodiceChoices,
    figure_of,
)
from tracker.errors import TrackerError
from tracker.pattern.finding import Finding
from tracker.units import write_angle, write_both

HIPS = ("hip-girth", "hip-arc-front", "hip-arc-back")


class BodyCannotBeMet(TrackerError):
    """No bodice block meets the measurements of this body.

    Attributes:
        keys: the measurements in conflict, the likeliest first.
        would_do: key and value of each single measurement that would let it be drafted, where
            that is known.
    """

    def __init__(
        self, sentence: str, keys: tuple[str, ...], would_do: tuple[tuple[str, float], ...] = ()
    ) -> None:
        super().__init__(sentence)
        self.keys = keys
        self.would_do = would_do


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


LEAST_SHARE = 0.62
"""Less than this of the least an adult has is in another unit: an inch is 2.54 cm."""

LIKELY = 6
"""So many measurements, those that pull hardest, are set free in turn."""

NEAREST, NAMED = 3, 2
"""So many ways out are followed up for the least change that does, until so many are found."""

ROUNDS = 4
"""In so many rounds the least change is closed in on."""


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
    refuse_other_units(body, (v.key for v in body if _is_of_the_trunk(v.name)), "bodice")
    found = [
        finding
        for finding in contradictions(body)
        if all(_is_of_the_trunk(name) for name in finding.place.split("; "))
    ]
    if not found:
        return
    keys = tuple(dict.fromkeys(key_named(n) for f in found for n in f.place.split("; ")))
    raise BodyCannotBeMet(
        f"no bodice can be drafted from measurements that contradict each other: {_said(found)}",
        keys,
    )


def refuse_other_units(body: Body, keys: Iterable[str], what: str) -> None:
    """Refuse figures so far from any adult's that they must have been noted in another unit.

    Raises:
        BodyCannotBeMet: the sentence names up to three of them.
    """
    known = set(keys)
    odd = [
        value
        for value in body
        if value.key in known and not value.estimated and not _could_be(value.key, value.value)
    ]
    if not odd:
        return
    said = " and ".join(
        f"{v.name} {_amount(v.key, v.value)}, where an adult has "
        f"{_amount(v.key, BY_KEY[v.key].low)} to {_amount(v.key, BY_KEY[v.key].high)}"
        for v in odd[:2]
    )
    more = f", and {len(odd) - 2} more" if len(odd) > 2 else ""
    raise BodyCannotBeMet(
        f"no {what} can be drafted from {said}{more}; see whether they were noted in another "
        f"unit, such as inches for centimetres, and measure again",
        tuple(dict.fromkeys(v.key for v in odd)),
    )


def _could_be(key: str, value: float) -> bool:
    entry = BY_KEY[key]
    return entry.low * LEAST_SHARE <= value <= entry.high / LEAST_SHARE


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


def refusal(body: Body, choices: BodiceChoices, failed: Solution) -> BodyCannotBeMet:
    """Return the refusal of a body that was tried in vain, naming what is in conflict.

    Args:
        body: the body.
        choices: the choices it was tried with.
        failed: what the trial came to.
    """
    likely = _likely(failed)
    alone = _alone(body, choices, failed, _ways_out(failed, likely))
    if not alone:
        keys = tuple(figure.key for figure in likely[:3])
        *others, last = (_shown(body, choices, key) for key in keys)
        return BodyCannotBeMet(
            f"no bodice block meets all of these measurements, whichever one of them is changed; "
            f"{', '.join(others)} and {last} stand in the way most: measure them again first",
            keys,
        )
    named = [key for key, _ in alone]
    named += [figure.key for figure in likely if figure.key not in named][: 2 - len(named)]
    what = " and ".join(_shown(body, choices, key) for key in named)
    would = ", or ".join(f"{BY_KEY[key].name} {_amount(key, value)}" for key, value in alone)
    return BodyCannotBeMet(
        f"no bodice block meets {what} together with the rest of this body; it would be met with "
        f"{would}; measure both again",
        tuple(named),
        tuple(alone),
    )


def _likely(failed: Solution) -> list[Figure]:
    """Return the measurements that pull hardest on what the trial came to, hardest first."""
    figures = [figure for figure in FIGURES if getattr(failed.wants, figure.name) is not None]
    pull = pulls(failed, [(figure.name, _give(figure)) for figure in figures])
    order = sorted(range(len(figures)), key=lambda at: -pull[at])
    return [figures[at] for at in order[:LIKELY]]


def _ways_out(failed: Solution, likely: list[Figure]) -> list[tuple[WayOut, Solution]]:
    """Return each single measurement whose change would let the block be drawn, nearest first."""
    found = []
    for figure in likely:
        freed = solve(failed.wants, [(figure.name, _give(figure))], failed)
        if freed.is_met:
            change = getattr(freed.wants, figure.name) - getattr(failed.wants, figure.name)
            found.append((_way(figure, change / figure.share), freed))
    return sorted(found, key=lambda pair: pair[0].readings)


def _alone(
    body: Body, choices: BodiceChoices, failed: Solution, ways: list[tuple[WayOut, Solution]]
) -> list[tuple[str, float]]:
    """Return the measurements that would do if they alone were other, and what would do."""
    found = []
    for way, freed in ways[:NEAREST]:
        least = _least(way, failed, freed)
        value = _would_do(body, choices, failed, least)
        if value is not None:
            found.append((least.readings, least.figure.key, value))
        if len(found) == NAMED:
            break
    return [(key, value) for _, key, value in sorted(found)]


def _least(way: WayOut, failed: Solution, freed: Solution) -> WayOut:
    """Find about the least change that lets the block be drawn."""
    name, share = way.figure.name, way.figure.share
    before = getattr(failed.wants, name)
    low, high = 0.0, 1.0
    over, under = failed.excess(), freed.excess()
    for _ in range(ROUNDS):
        # By the straight line through how far either is beyond its limits and within them.
        at = min(max(over / (over - under), 0.25), 0.5) if math.isfinite(over) else 0.5
        middle = low + at * (high - low)
        tried = solve(failed.wants.with_(**{name: before + middle * way.change * share}), (), freed)
        if tried.is_met:
            high, under = middle, tried.excess()
        else:
            low, over = middle, tried.excess()
    return _way(way.figure, high * way.change)


def _way(figure: Figure, change: float) -> WayOut:
    return WayOut(figure, change, abs(change) / BY_KEY[figure.key].allowed)


def _give(figure: Figure) -> float:
    return GIVE_READINGS * BY_KEY[figure.key].allowed * figure.share


def _shown(body: Body, choices: BodiceChoices, key: str) -> str:
    entry = BY_KEY[key]
    side = choices.body_side if entry.sided else "both"
    guessed = " (estimated)" if body.is_estimated(key, side) else ""
    return f"{name_with_side(entry, side)} {_amount(key, _value(body, choices, key))}{guessed}"


def _would_do(body: Body, choices: BodiceChoices, failed: Solution, way: WayOut) -> float | None:
    """Round away from what was measured, to 1 mm or half a degree; None if it does not do."""
    figure, key = way.figure, way.figure.key
    before, step = _value(body, choices, key), 0.5 if BY_KEY[key].unit == "deg" else 1.0
    count = (before + way.change) / step
    value = (math.ceil(count) if way.change > 0 else math.floor(count)) * step
    if _amount(key, value) == _amount(key, before):  # it is to read as another
        value += math.copysign(step, way.change)
    finished = getattr(failed.wants, figure.name) + (value - before) * figure.share
    if contradictions(body.with_value(key, value)):
        return None
    return value if solve(failed.wants.with_(**{figure.name: finished})).is_met else None


def _value(body: Body, choices: BodiceChoices, key: str) -> float:
    return figure_of(body, key, choices.body_side)


def _amount(key: str, value: float) -> str:
    return write_angle(value) if BY_KEY[key].unit == "deg" else write_both(value)


def key_named(name: str) -> str:
    """Return the key of a measurement by its name, with or without the side of the body."""
    bare = name.removeprefix("right ").removeprefix("left ")
    return next(entry.key for entry in BY_KEY.values() if entry.name in (name, bare))


def _is_of_the_trunk(name: str) -> bool:
    key = key_named(name)
    return key in HIPS or "bodice" in BY_KEY[key].purposes
