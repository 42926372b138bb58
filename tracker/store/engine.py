"""A store: one SQLite file, opened for reading or for writing, one transaction at a time."""

import datetime as dt
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, cast

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.exc import DBAPIError
from sqlalchemy.pool import NullPool
from sqlmodel import Session

from tracker.store import opening
from tracker.store.books import Books
from tracker.store.opening import StoreBusy, StoreExists, StoreReadOnly
from tracker.store.search import SEARCH_DDL
from tracker.store.tables import METADATA


class Store:
    """One file with everything the studio knows.

    Readers see the store as it was when they began and are never kept waiting; a second writer
    waits for the first. A commit is on the disk when it returns (write-ahead log, full sync).
    """

    def __init__(self, path: Path, wait_s: float = opening.WAIT_S) -> None:
        self.path = path
        self._wait_s = wait_s
        self._reader = engine_for(path, wait_s, begin="BEGIN")
        self._writer = engine_for(path, wait_s, begin="BEGIN IMMEDIATE")

    @classmethod
    def create(cls, path: Path, wait_s: float = opening.WAIT_S) -> "Store":
        """Make a new, empty store.

        Raises:
            StoreExists: there is a file of that name; it is left alone.
            StoreReadOnly: the folder is not there or may not be written to.
        """
        check_place(path)
        # Built under another name: a store half made is never mistaken for one.
        making = path.with_name(f".{path.name}.making")
        try:
            making.unlink(missing_ok=True)
            with telling(path):
                making.touch()
                _lay_out(making)
            making.rename(path)
        except OSError as fault:
            raise StoreReadOnly(f"no store can be made at {path}: {fault.strerror}") from fault
        finally:
            making.unlink(missing_ok=True)
        return cls(path, wait_s)

    @classmethod
    def open(cls, path: Path, wait_s: float = opening.WAIT_S) -> "Store":
        """Open a store.

        Raises:
            StoreError: it is missing, not a store, of another version or locked; one sentence.
        """
        opening.check_openable(path, wait_s)
        return cls(path, wait_s)

    @contextmanager
    def reading(self) -> Iterator[Books]:
        """Look things up: one steady view of the store, in which nothing can be changed."""
        with telling(self.path), Session(self._reader, expire_on_commit=False) as session:
            books = Books(session)
            books.driver.execute("PRAGMA query_only = ON")
            self._check_again(books)  # and with this first look, the view is fixed
            yield books

    @contextmanager
    def writing(self, now: dt.datetime | None = None) -> Iterator[Books]:
        """Change things: all that is done inside is stored together, or none of it.

        Args:
            now: stamps the journal; without it the database's own clock does.

        Raises:
            StoreBusy: another program is writing and did not finish in time.
        """
        with telling(self.path):
            with Session(self._writer, expire_on_commit=False) as session, session.begin():
                books = Books(session, now)
                self._check_again(books)  # the lock is taken now, not at the first change
                yield books
            if books.someone_was_erased:
                self.scrub()

    def _check_again(self, books: Books) -> None:
        """See that no newer program has updated the store since it was opened."""
        opening.check_revision(opening.revision_in(books.driver, self.path), self.path)

    def scrub(self) -> None:
        """Write the file afresh, so that nothing erased is left in its empty places.

        Raises:
            StoreBusy: another program has the store open. What was erased stays erased, but its
                bytes may still lie in the file.
        """
        connection = opening.connect(self.path, self._wait_s)
        try:
            connection.execute("PRAGMA secure_delete = ON")
            connection.execute("VACUUM")
            busy, _, _ = connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        except sqlite3.OperationalError as fault:
            if not (fault.sqlite_errorname or "").startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
                raise
            busy = 1
        finally:
            connection.close()
        if busy:
            raise StoreBusy(
                f"it is erased, but another program has {self.path} open, so the file could not be "
                "cleaned of it yet; close the other program and run `tracker store clean`"
            )

    def back_up(self, target: Path) -> None:
        """Copy the store to a new file, as it stands at one moment, and look the copy over.

        Raises:
            StoreExists: there is a file of that name; it is left alone.
            StoreReadOnly: no file can be made there.
            StoreDamaged: the copy is not sound, so the store is not either.
        """
        check_place(target)
        opening.copy(self.path, target)


@contextmanager
def telling(path: Path) -> Iterator[None]:
    """Turn every database error inside into a sentence, however it was wrapped."""
    with opening.telling(path):
        try:
            yield
        except DBAPIError as fault:
            raise opening.told(path, fault.orig) from fault


def check_place(path: Path) -> None:
    """Refuse to make a file where there is one, or where there is no folder."""
    if path.exists():
        raise StoreExists(
            f"there is a file at {path} already; it was left as it was; choose another name"
        )
    if not path.parent.is_dir():
        raise StoreReadOnly(
            f"the folder {path.parent} is not there; make it first, or choose another"
        )


def engine_for(path: Path, wait_s: float, begin: str, *, foreign_keys: bool = True) -> Engine:
    """Return an engine on a store whose transactions open as told.

    The driver's own transactions are switched off: it would begin one too late for a writer
    (a deferred one that turns into a writer fails at once when it meets another) and would end
    one before a change of the layout. No connection is kept, so a pragma cannot leak.
    """

    def connected() -> DBAPIConnection:
        return cast("DBAPIConnection", opening.connect(path, wait_s))

    engine = create_engine("sqlite://", creator=connected, poolclass=NullPool)

    @event.listens_for(engine, "connect")
    def set_up(connection: Any, _: object) -> None:
        connection.isolation_level = None
        connection.execute(f"PRAGMA foreign_keys = {'ON' if foreign_keys else 'OFF'}")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA secure_delete = ON")

    @event.listens_for(engine, "begin")
    def begun(connection: Any) -> None:
        connection.exec_driver_sql(begin)

    return engine


def _lay_out(path: Path) -> None:
    """Make the tables of the newest layout; a test holds that migrating gives the same."""
    connection = opening.connect(path)
    try:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute(f"PRAGMA application_id = {opening.APPLICATION_ID}")
    finally:
        connection.close()
    engine = engine_for(path, opening.WAIT_S, begin="BEGIN IMMEDIATE")
    with engine.begin() as work:
        METADATA.create_all(work)
        for statement in SEARCH_DDL:
            work.exec_driver_sql(statement)
        work.exec_driver_sql(
            "CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL, "
            "CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
        )
        work.exec_driver_sql(f"INSERT INTO alembic_version VALUES ('{opening.NEWEST}')")
