"""Bring an older store up to the present layout, so that nothing can be lost on the way.

SQLite's own habits make this dangerous: rebuilding a table drops the old one, and with foreign
keys on that deletes the rows that refer to it; and the driver ends a transaction before it changes
a layout, so that a migration that fails half-way leaves half. Therefore: a copy first, made by
SQLite itself and looked over; one transaction of our own round everything; foreign keys off; and
before the commit, a search for orphans.
"""

import datetime as dt
from pathlib import Path
from typing import Any

from tracker.resources import shipped
from tracker.store import opening
from tracker.store.engine import engine_for, telling
from tracker.store.opening import StoreError


class NotUpdated(StoreError):
    """An update that failed; the store is as it was."""


def needs_update(path: Path) -> bool:
    """Tell whether a store was written by an older version of this program.

    Raises:
        StoreError: it is missing, not a store, or written by a newer version.
    """
    try:
        opening.check_openable(path)
    except opening.StoreTooOld:
        return True
    return False


def update(path: Path, now: dt.datetime) -> Path | None:
    """Bring a store up to the present layout.

    Args:
        path: the store.
        now: stamps the journal.

    Returns:
        The copy that was made first, or none where there was nothing to do.

    Raises:
        NotUpdated: it could not be; the store is as it was, to the last row.
        StoreError: it is missing, not a store, locked, or written by a newer version.
    """
    if not needs_update(path):
        return None
    engine = engine_for(path, opening.WAIT_S, begin="BEGIN IMMEDIATE", foreign_keys=False)
    with telling(path), engine.begin() as connection:
        driver: Any = connection.connection.driver_connection
        before = opening.revision_in(driver, path)
        if before == opening.NEWEST:
            return None
        # The lock is held by now, so that nothing is written between the copy and the update.
        copy = opening.backup_name(path, opening.NEWEST)
        opening.copy(path, copy)
        migrate(connection, before, copy)
        connection.exec_driver_sql(
            "INSERT INTO journal (written_at, subject, subject_key, what) "
            "VALUES (?, 'store', '', ?)",
            (
                now.isoformat(timespec="seconds"),
                f"the store was updated from {before} to {opening.NEWEST}; "
                f"the copy made first is {copy.name}",
            ),
        )
    return copy


def migrate(connection: Any, before: str, copy: Path | None = None) -> None:
    """Run the migrations inside an open transaction with foreign keys off.

    Raises:
        NotUpdated: one failed, or left rows that refer to nothing. The caller rolls back.
    """
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(shipped("migrations")).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    kept = f"; the copy made first is {copy}" if copy else ""
    try:
        command.upgrade(config, opening.NEWEST)
    except Exception as fault:  # whatever a migration runs into, the store stays as it was
        reason = getattr(fault, "orig", None) or fault
        raise NotUpdated(
            f"the update from {before} to {opening.NEWEST} failed and the store was left as it "
            f"was ({reason}){kept}"
        ) from fault
    orphans = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if orphans:
        table, _, parent, _ = orphans[0]
        raise NotUpdated(
            f"the update from {before} to {opening.NEWEST} would have left {len(orphans)} rows "
            f"that refer to nothing (of {table}, to {parent}), so the store was left as it was"
            f"{kept}"
        )
