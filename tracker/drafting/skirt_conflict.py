"""Why a body has no straight skirt: the measurements in conflict, and what would do."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from tracker.body.body import Body
from tracker.body.measurement import BodySide
from tracker.body.plausible import contradictions
from tracker.body.vocabulary import BY_KEY, name_with_side
from tracker.drafting.bodice_wants import figure_of
from tracker.drafting.conflict import BodyCannotBeMet, key_named, refuse_other_units
from tracker.units import write_both

NEARER, FURTHEST = 0.12, 0.35
"""A measurement is tried at these shares more and less."""
HALVINGS = 5
LIKELY, NAMED = 6, 2
"""So many measurements, those that pull hardest, are tried until so many would do."""

Met = Callable[[Body, bool], bool]
"""Tells whether a body can be drafted; roughly and sooner where the second is True."""
Pull = Callable[[Body], float]
"""Tells by how much a slightly other body would be nearer to being met (less) or further (more)."""


def refuse_contradictions_among(body: Body, keys: Iterable[str], what: str) -> None:
    """Refuse a body whose measurements among ``keys`` contradict each other.

    Raises:
        BodyCannotBeMet: the sentence names them and says what to measure again.
    """
    known = set(keys)
    refuse_other_units(body, known, what)
    for finding in contradictions(body):
        named = tuple(key_named(name) for name in finding.place.split("; "))
        if known.issuperset(named):
            raise BodyCannotBeMet(
                f"no {what} can be drafted from measurements that contradict each other: "
                f"{finding.sentence}; {finding.remedy}",
                named,
            )


def refusal_of(
    body: Body,
    keys: tuple[str, ...],
    side: BodySide,
    what: str,
    is_met: Met,
    against: tuple[str, ...] = (),
    pull: Pull | None = None,
) -> BodyCannotBeMet:
    """Return the refusal of a body that was tried in vain.

    Args:
        body: the body.
        keys: the measurements to try in turn.
        side: which side sided measurements are taken of.
        what: "skirt", "torso block".
        is_met: tells whether a changed body can be drafted.
        against: the measurements to name where trying finds fewer than two; ``keys`` by default.
        pull: tells which measurements to try first, and which way; all, both ways, without.
    """
    found = []
    for key, tries in _likely(body, keys, side, pull):
        value = figure_of(body, key, side)
        would = _would_do(body, key, value, is_met, tries)
        if would is not None:
            found.append((abs(would - value) / BY_KEY[key].allowed, key, would))
        if pull is not None and len(found) == NAMED:
            break
    found.sort()
    nearest = found[:NAMED]
    named = [key for _, key, _ in nearest]
    named += [key for key in against or keys if key not in named][: 2 - len(named)]
    said = " and ".join(_shown(body, key, side) for key in named)
    if not nearest:
        return BodyCannotBeMet(
            f"no {what} meets {said} together with the rest of this body, whichever one of them is "
            f"changed; measure them again",
            tuple(named),
        )
    ways = ", or ".join(f"{BY_KEY[key].name} {write_both(mm)}" for _, key, mm in nearest)
    return BodyCannotBeMet(
        f"no {what} meets {said} together with the rest of this body; it would be met with "
        f"{ways}; measure both again",
        tuple(named),
        tuple((key, mm) for _, key, mm in nearest),
    )


def _likely(
    body: Body, keys: tuple[str, ...], side: BodySide, pull: Pull | None
) -> list[tuple[str, tuple[float, ...]]]:
    """Return the measurements to try, those that pull hardest first, and the ways that ease it."""
    if pull is None:
        return [(key, (1.0, -1.0)) for key in keys]
    pulls = {}
    for key in keys:
        step = BY_KEY[key].allowed
        pulls[key] = pull(body.with_value(key, figure_of(body, key, side) + step))
    order = sorted(keys, key=lambda key: -abs(pulls[key]))
    return [(key, (1.0 if pulls[key] < 0 else -1.0,)) for key in order[:LIKELY]]


def _would_do(
    body: Body, key: str, value: float, is_met: Met, ways: tuple[float, ...]
) -> float | None:
    """Return the value nearest to what was measured, in whole mm, with which it can be met."""
    best = None
    for way in ways:
        for share in (NEARER, FURTHEST):
            high = value * (1 + way * share)
            if is_met(body.with_value(key, high), True):
                break
        else:
            continue
        low = value
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            met = is_met(body.with_value(key, middle), True)
            low, high = (low, middle) if met else (middle, high)
        whole = float(math.ceil(high) if way > 0 else math.floor(high))
        nearer = best is None or abs(whole - value) < abs(best - value)
        if nearer and is_met(body.with_value(key, whole), False):
            best = whole
    return best


def _shown(body: Body, key: str, side: BodySide) -> str:
    entry = BY_KEY[key]
    of = side if entry.sided else "both"
    guessed = " (estimated)" if body.is_estimated(key, of) else ""
    return f"{name_with_side(entry, of)} {write_both(figure_of(body, key, side))}{guessed}"
