"""May this file be opened? Asked with plain ``sqlite3``, so that the answer costs nothing.

Nothing here imports SQLModel or Alembic: an ordinary command compares one word in the file with
a constant.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

from tracker.errors import TrackerError

#: In the header of every store of ours: the letters "DrTr".
APPLICATION_ID = int.from_bytes(b"DrTr")

#: Every migration there has been, oldest first; ``migrations/versions`` has a file for each.
REVISIONS = ("0001",)
NEWEST = REVISIONS[-1]

#: How long to wait for another program that is writing.
WAIT_S = 5.0


class StoreError(TrackerError):
    """A store that cannot be used as it is."""


class StoreMissing(StoreError):
    """There is no such file."""


class StoreExists(StoreError):
    """There is a file already where a new store should go."""


class NotAStore(StoreError):
    """The file is something else."""


class StoreTooNew(StoreError):
    """The store was written by a newer program."""


class StoreTooOld(StoreError):
    """The store was written by an older program and wants updating first."""


class StoreBusy(StoreError):
    """Another program is writing and did not finish in time."""


class StoreReadOnly(StoreError):
    """The file or its folder may not be written to."""


class StoreFull(StoreError):
    """The disk is full."""


class StoreDamaged(StoreError):
    """The file itself is damaged."""


class NotStored(StoreError):
    """What was to be stored does not go together with what is there."""


def connect(path: Path, wait_s: float = WAIT_S) -> sqlite3.Connection:
    """Open an existing file; never makes one. Transactions are left to the caller."""
    uri = f"file:{quote(str(path.absolute()))}?mode=rw"
    return sqlite3.connect(uri, uri=True, timeout=wait_s, isolation_level=None)


def told(path: Path, fault: BaseException | None) -> StoreError:
    """Turn what SQLite said into a sentence for people."""
    name = getattr(fault, "sqlite_errorname", "") or ""
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return StoreBusy(
            f"the store {path} is being written by another program; nothing was changed; "
            "let it finish or close it, then try again"
        )
    if name.startswith(("SQLITE_READONLY", "SQLITE_PERM", "SQLITE_CANTOPEN", "SQLITE_AUTH")):
        return StoreReadOnly(
            f"the store {path} cannot be written; see that the file and its folder belong to you "
            "and are not write-protected"
        )
    if name.startswith(("SQLITE_FULL", "SQLITE_IOERR")):
        return StoreFull(
            f"the disk would not take what was to be written to {path} ({fault}); nothing was "
            "changed; make room and try again"
        )
    if name.startswith(("SQLITE_CORRUPT", "SQLITE_NOTADB")):
        return StoreDamaged(
            f"the store {path} is damaged ({fault}); copy the file aside and go on from a backup"
        )
    if name.startswith("SQLITE_CONSTRAINT"):
        return NotStored(f"this does not go together with what is in the store: {fault}")
    return StoreError(f"the store {path} cannot be used: {fault}")


@contextmanager
def telling(path: Path) -> Iterator[None]:
    """Turn every database error inside into a sentence."""
    try:
        yield
    except sqlite3.Error as fault:
        raise told(path, fault) from fault
    except UnicodeEncodeError as fault:
        raise NotStored(
            "there is a letter in this that cannot be stored; it was typed or pasted in another "
            f"encoding: {fault.object[: fault.start]!r} stands before it"
        ) from fault


def revision_of(path: Path, wait_s: float = WAIT_S) -> str:
    """Return which migration a store stands at.

    Raises:
        StoreMissing: no such file.
        NotAStore: it is something else.
        StoreBusy: another program has it locked.
    """
    if not path.exists():
        raise StoreMissing(
            f"there is no store at {path}; make one with `tracker store new`, or say where "
            "yours is with --store"
        )
    if not path.is_file():
        raise NotAStore(f"{path} is a folder, not a store; name the file in it")
    with path.open("rb") as file:
        magic = file.read(16)
    if magic != b"SQLite format 3\x00":
        raise NotAStore(f"{path} is not a store of this program; it was left as it is")
    with telling(path):
        connection = connect(path, wait_s)
        try:
            return revision_in(connection, path)
        finally:
            connection.close()


def revision_in(connection: sqlite3.Connection, path: Path) -> str:
    """Return which migration an open store stands at.

    Raises:
        NotAStore: it is some other program's database.
    """
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    if application != APPLICATION_ID:
        raise NotAStore(f"{path} is another program's database; it was left as it is")
    try:
        found = connection.execute("SELECT version_num FROM alembic_version").fetchall()
    except sqlite3.OperationalError as fault:
        if "no such table" not in str(fault):
            raise
        found = []
    if len(found) != 1:
        raise NotAStore(f"{path} does not say how it is laid out, so it is not opened")
    return str(found[0][0])


def check_revision(revision: str, path: Path) -> None:
    """Refuse a store that is laid out otherwise than this program expects.

    Raises:
        StoreTooNew: by a newer program.
        StoreTooOld: by an older one; it can be updated.
    """
    if revision == NEWEST:
        return
    if revision in REVISIONS:
        raise StoreTooOld(
            f"the store {path} was written by an older version of this program; run "
            f"`tracker store update` (a copy is kept beside it) and try again"
        )
    raise StoreTooNew(
        f"the store {path} was written by a newer version of this program (it is at {revision}, "
        f"this one knows {NEWEST}); install the newer one; nothing was changed"
    )


def check_openable(path: Path, wait_s: float = WAIT_S) -> None:
    """Refuse, in one sentence, a file that this program should not touch."""
    check_revision(revision_of(path, wait_s), path)


def backup_name(path: Path, revision: str) -> Path:
    """Return the name of the copy made before a migration: ``studio.before-0002.db``."""
    wanted = path.with_name(f"{path.stem}.before-{revision}{path.suffix}")
    count = 2
    while wanted.exists():
        wanted = path.with_name(f"{path.stem}.before-{revision}-{count}{path.suffix}")
        count += 1
    return wanted


def backups_beside(path: Path) -> tuple[Path, ...]:
    """Return the copies that updates of this store left beside it."""
    return tuple(sorted(path.parent.glob(f"{path.stem}.before-*{path.suffix}")))


def copy(path: Path, target: Path) -> None:
    """Copy a store as it stands at one moment, and look the copy over.

    SQLite's own copy is taken: the bare file lacks what still lies in the log beside it.

    Raises:
        StoreDamaged: the copy is not sound, so the store is not either; no copy is left.
        StoreReadOnly: no file can be made there.
    """
    with telling(target):
        source, made = connect(path), sqlite3.connect(target)
        try:
            source.backup(made)
            found = [row[0] for row in made.execute("PRAGMA integrity_check")]
        finally:
            source.close()
            made.close()
    if found != ["ok"]:
        target.unlink()
        raise StoreDamaged(
            f"the store {path} is damaged ({found[0]}), so it was not copied; check the whole "
            "store, and go on from an earlier backup"
        )
