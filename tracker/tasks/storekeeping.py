"""The store itself: make, update, back up, check."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.errors import TrackerError

if TYPE_CHECKING:
    from tracker.store.check import StoreChecked
    from tracker.store.engine import Store


def make_store(path: Path) -> "Store":
    """Make a new, empty store.

    Raises:
        TrackerError: there is a file of that name, or the folder is not there.
    """
    from tracker.store.engine import Store

    return Store.create(path)


def update_store(path: Path, now: dt.datetime) -> Path | None:
    """Bring a store written by an older program up to date; return the copy made before.

    Raises:
        TrackerError: it is no store, too new, or in use; it is left as it was.
    """
    from tracker.store.migrate import needs_update, update

    return update(path, now) if needs_update(path) else None


def back_up(store: "Store", target: Path) -> Path:
    """Copy the store to another file, as it stands at one moment.

    Where the copy was put is written down, unless the store can only be read.

    Raises:
        TrackerError: there is a file of that name already.
    """
    import sqlite3
    from contextlib import closing, suppress

    if target.exists():
        raise TrackerError(f"{target} exists already; name another file")
    if not target.parent.is_dir():
        raise TrackerError(f"the folder {target.parent} is not there; make it first")
    with (
        closing(sqlite3.connect(f"{store.path.absolute().as_uri()}?mode=ro", uri=True)) as books,
        closing(sqlite3.connect(target)) as copy,
    ):
        books.backup(copy)
    with suppress(TrackerError), store.writing() as shelf:
        shelf.copy_made(target)
    return target


def copies_of(store: "Store") -> tuple[Path, ...]:
    """Return the copies of the store that are still where they were put, or beside it.

    A copy that was moved since, or was carried to another machine, cannot be known.
    """
    from tracker.store.opening import backups_beside

    with store.reading() as books:
        put = books.copies_made()
    found = (*backups_beside(store.path), *(path for path in put if path.is_file()))
    return tuple({path.absolute(): path for path in found}.values())


def check_store(store: "Store", step: Callable[[str], None] = lambda _: None) -> "StoreChecked":
    """Check the file, its references and pieces, and work every version out again.

    Args:
        store: the store.
        step: is told what is being looked at.
    """
    with store.reading() as books:
        return books.raw_check(lambda what, done, of: step(f"{what} {done} of {of}"))


def clean_store(store: "Store") -> None:
    """Write the file afresh, so that nothing erased is left in its empty places.

    Raises:
        TrackerError: another program has it open.
    """
    store.scrub()
