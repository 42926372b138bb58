"""Style a version by steps that are known as they stand: a new pattern, or the next version."""

import datetime as dt
import math
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.body.estimate import CannotEstimate, estimate
from tracker.body.session import newest_body
from tracker.errors import TrackerError
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.tasks.altering import Altered, Maker, alter
from tracker.tasks.easing import planned_for
from tracker.tasks.named import the_version
from tracker.tasks.said import as_it_is
from tracker.units import write_both, write_tenths

if TYPE_CHECKING:
    from tracker.alterations.kinds.run_on_below import RunOnBelow
    from tracker.store.engine import Store


class TwoClients(TrackerError):
    """Two patterns that are to be joined and belong to different clients."""


def style_by(
    store: "Store",
    said: str | None,
    kinds: Iterable[Kind],
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> Altered:
    """Take style steps from a version.

    Args:
        store: the store.
        said: the version to start from.
        kinds: the steps, in order.
        today: the date of the new version.
        into: the new pattern's name; none makes the next version of the same pattern.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: one cannot be drawn; the sentence says why.
    """
    makers: list[Maker] = [as_it_is(kind) for kind in kinds]
    with store.reading() as books:
        start = str(the_version(books, said).address)
    return alter(store, start, makers, today, dry=dry, into=into)


def join_a_skirt(
    store: "Store",
    said: str | None,
    skirt: str,
    ease_in: bool,
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> Altered:
    """Sew a version of a skirt to the waist of a version of a bodice.

    Args:
        store: the store.
        said: the bodice's version.
        skirt: the skirt's version.
        ease_in: ease the skirt in where it is longer; else fit it at its side seams.
        today: the date of the new version.
        into: the new pattern's name; none makes the next version of the same pattern.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: they are two clients', or cannot be joined; the sentence says why.
    """
    from tracker.alterations.kinds.join_a_skirt import Fit, JoinSkirt

    with store.reading() as books:
        bodice, other = the_version(books, said), the_version(books, skirt)
    if bodice.address.client != other.address.client:
        raise TwoClients(
            f"{bodice.address} and {other.address} are two clients'; a skirt is joined to a bodice "
            "of the same one"
        )
    kind = JoinSkirt.of_pattern(
        other.pattern, str(other.address), Fit.EASE if ease_in else Fit.SKIRT
    )
    return style_by(store, str(bodice.address), [kind], today, into, dry)


def lengthen(
    store: "Store",
    said: str | None,
    kind: "RunOnBelow",
    today: dt.date,
    into: str | None,
    dry: bool = False,
) -> Altered:
    """Run a version on below, held against the client's hips where it runs past them.

    Args:
        store: the store.
        said: the version to start from.
        kind: the step, without her hips.
        today: the date of the new version.
        into: the new pattern's name; none makes the next version of the same pattern.
        dry: only foretell; nothing is stored.

    Raises:
        TrackerError: it cannot be drawn; the sentence says why.
    """
    with store.reading() as books:
        version = the_version(books, said)
        client = version.address.client
        body = newest_body(books.sessions(client))
        ease = planned_for(books, client, "torso", "woven").mm("hip")
    with suppress(CannotEstimate):  # then there are no hips to hold it against
        body = estimate(body, ("hip-depth",))
    if body.has("hip-girth") and body.has("hip-depth"):
        kind = replace(
            kind,
            hip_below_mm=body.value("hip-depth"),
            hip_girth_mm=body.value("hip-girth"),
            hip_ease_mm=ease,
        )
    made = style_by(store, str(version.address), [kind], today, into, dry)
    mind = over_the_hips(version.pattern, kind)
    return replace(made, warnings=(*made.warnings, mind)) if mind else made


def over_the_hips(pattern: Pattern, kind: "RunOnBelow") -> str:
    """Say whether what is run on goes over the hips, and else which hem would; or nothing."""
    drawn = _at_the_hips(pattern, kind)
    if drawn is None or drawn[0] >= kind.hip_girth_mm + kind.hip_ease_mm - 1.0:
        return ""
    finished, hem = drawn
    left = finished - kind.hip_girth_mm
    told = (
        f"{write_tenths(kind.hip_below_mm)} below the waist it is {write_both(finished)} round "
        f"and her hips are {write_both(kind.hip_girth_mm)}: "
    )
    told += (
        "it does not go over them"
        if left <= 0
        else f"that leaves {write_tenths(left)} of ease where {write_tenths(kind.hip_ease_mm)} is "
        "planned"
    )
    hem_mm = _hem_that_does(pattern, kind, finished, hem)
    if hem_mm is None:
        return f"{told}; let the side seams out over the hips, or run it on from a torso block"
    return (
        f"{told}; a hem of {write_both(hem_mm)} all round would do (--hem {hem_mm / 10:.0f}cm), "
        "or let the side seams out over the hips"
    )


def _at_the_hips(pattern: Pattern, kind: "RunOnBelow") -> tuple[float, float] | None:
    """How much the hip line and the hem are round, where the step gives it a hip line."""
    new = apply_step(kind, pattern, "try").pattern
    if "hip line" in lines_of(pattern) or "hip line" not in lines_of(new):
        return None
    return girth(new, "hip line"), around(new, kind.named)


def _hem_that_does(
    pattern: Pattern, kind: "RunOnBelow", finished: float, hem: float
) -> float | None:
    """The least hem, in whole cm, with which the hips have their ease; none if none does."""
    wanted = kind.hip_girth_mm + kind.hip_ease_mm
    share = kind.hip_below_mm / kind.by_mm
    for _ in range(4):
        hem = math.ceil((hem + (wanted - finished) / share) / 10) * 10.0
        try:
            drawn = _at_the_hips(pattern, replace(kind, hem_mm=hem))
        except TrackerError:
            return None
        if drawn is None:
            return None
        finished = drawn[0]
        if finished >= wanted - 1.0:
            return hem
    return None
