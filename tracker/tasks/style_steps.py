"""Style a version by steps that are known as they stand: a new pattern, or the next version."""

import datetime as dt
from collections.abc import Iterable
from typing import TYPE_CHECKING

from tracker.alterations.kind import Kind
from tracker.errors import TrackerError
from tracker.tasks.altering import Altered, Maker, alter
from tracker.tasks.named import the_version
from tracker.tasks.said import as_it_is

if TYPE_CHECKING:
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
