"""Style a version by steps that are known as they stand: a new pattern, or the next version."""

import datetime as dt
from collections.abc import Iterable
from typing import TYPE_CHECKING

from tracker.alterations.kind import Kind
from tracker.tasks.altering import Altered, Maker, alter
from tracker.tasks.named import the_version
from tracker.tasks.said import as_it_is

if TYPE_CHECKING:
    from tracker.store.engine import Store


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
