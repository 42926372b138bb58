"""One file, one transaction at a time: nothing half stored, nobody kept waiting for ever."""

import sqlite3
import struct
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from stores.studio import ILSE, MARA

from tracker.body.client import Client
from tracker.errors import TrackerError
from tracker.store import opening
from tracker.store.engine import Store
from tracker.store.opening import (
    NotAStore,
    StoreBusy,
    StoreDamaged,
    StoreError,
    StoreExists,
    StoreMissing,
    StoreReadOnly,
    StoreTooNew,
    StoreTooOld,
)


def change(path: Path, *statements: str) -> None:
    with closing(sqlite3.connect(path)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def test_a_new_store_is_empty_and_can_be_opened(empty: Store) -> None:
    with Store.open(empty.path).reading() as books:
        assert books.clients() == ()
        assert books.raw_check().sound


def test_the_header_says_whose_the_file_is_and_that_it_keeps_a_log(empty: Store) -> None:
    # "Database File Format", the SQLite documentation, section 1.3: offsets 18 and 19 are 2 for
    # a write-ahead log, 68 to 71 the application id, most significant byte first.
    header = empty.path.read_bytes()[:100]
    assert header[18:20] == b"\x02\x02"
    assert header[68:72] == b"DrTr"
    assert struct.unpack(">I", header[68:72])[0] == opening.APPLICATION_ID


def test_at_rest_a_store_is_one_file(store: Store) -> None:
    with store.writing() as books:
        books.add_client(Client(code="new", name="New"))
    assert [p.name for p in store.path.parent.iterdir()] == ["studio.db"]


def test_what_is_told_inside_is_on_the_disk_when_the_block_is_left(store: Store) -> None:
    with store.writing() as books:
        books.add_client(Client(code="new", name="New"))
    # Another program sees it, through no connection of ours.
    told = subprocess.run(
        [sys.executable, "-c", "import sqlite3, sys; print(sqlite3.connect(sys.argv[1]).execute("
         "'SELECT name FROM client WHERE code = ?', ('new',)).fetchone()[0])", store.path],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert told.stdout == "New\n"


def test_every_connection_minds_references_and_waits_for_the_disk(store: Store) -> None:
    for opened in (store.reading, store.writing):
        with opened() as books:
            assert books.driver.execute("PRAGMA foreign_keys").fetchone() == (1,)
            assert books.driver.execute("PRAGMA synchronous").fetchone() == (2,)  # FULL
            assert books.driver.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_a_fault_inside_leaves_nothing_behind(store: Store) -> None:
    before = dump(store.path)

    def interrupted() -> None:
        with store.writing() as books:
            books.add_client(Client(code="new", name="New"))
            books.change_client(Client(code="mara", name="Another"))
            books.set_preference("unit", "inch")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    assert dump(store.path) == before


def test_a_refusal_inside_leaves_nothing_behind(store: Store) -> None:
    before = dump(store.path)

    def refused() -> None:
        with store.writing() as books:
            books.add_client(Client(code="new", name="New"))
            books.add_client(ILSE)

    with pytest.raises(TrackerError):
        refused()
    assert dump(store.path) == before


def test_reading_cannot_change_anything(store: Store) -> None:
    before = dump(store.path)
    with pytest.raises(StoreError), store.reading() as books:
        books.add_client(Client(code="new", name="New"))
    assert dump(store.path) == before


def test_a_reader_keeps_the_view_it_began_with(store: Store) -> None:
    with store.reading() as books:
        with store.writing() as others:
            others.add_client(Client(code="new", name="New"))
        assert len(books.clients()) == 2
    with store.reading() as books:
        assert len(books.clients()) == 3


def test_a_second_writer_waits_for_the_first(store: Store) -> None:
    begun, done = threading.Event(), []

    def second() -> None:
        begun.set()
        with store.writing() as books:
            books.add_client(Client(code="second", name="Second"))
        done.append("second")

    with store.writing() as books:
        other = threading.Thread(target=second)
        other.start()
        begun.wait()
        time.sleep(0.2)
        books.add_client(Client(code="first", name="First"))
        done.append("first")
    other.join()
    assert done == ["first", "second"]
    with store.reading() as books:
        assert {"first", "second"} <= {c.code for c in books.clients()}


def test_a_writer_that_waits_in_vain_is_told_so(path: Path) -> None:
    impatient = Store.open(path, wait_s=0.05)
    with Store.open(path).writing():
        told = pytest.raises(StoreBusy, match=r"being written by another program.*try again")
        with told, impatient.writing():
            pytest.fail("two writers at once")
        with impatient.reading() as books:  # a reader is not kept waiting
            assert books.client("mara") == MARA


def test_a_file_that_is_locked_whole_is_told_of(path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreBusy):
            Store.open(path, wait_s=0.05)


def no_file(path: Path) -> None:
    path.unlink()


def a_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def text(path: Path) -> None:
    path.write_text("bust 88, waist 69\n")


def nothing_in_it(path: Path) -> None:
    path.write_bytes(b"")


def another_database(path: Path) -> None:
    path.unlink()
    change(path, "CREATE TABLE client (id)")


def no_layout_told(path: Path) -> None:
    change(path, "DELETE FROM alembic_version")


def no_layout_table(path: Path) -> None:
    change(path, "DROP TABLE alembic_version")


def from_the_future(path: Path) -> None:
    change(path, "UPDATE alembic_version SET version_num = '9999'")


REFUSED: list[tuple[Callable[[Path], None], type[StoreError], str]] = [
    (no_file, StoreMissing, "there is no store at"),
    (a_folder, NotAStore, "is a folder"),
    (text, NotAStore, "is not a store of this program; it was left as it is"),
    (nothing_in_it, NotAStore, "is not a store"),
    (another_database, NotAStore, "another program's database"),
    (no_layout_told, NotAStore, "does not say how it is laid out"),
    (no_layout_table, NotAStore, "does not say how it is laid out"),
    (from_the_future, StoreTooNew, "by a newer version.*install the newer one"),
]


@pytest.mark.parametrize(("make", "error", "sentence"), REFUSED)
def test_what_is_no_store_of_ours_is_refused_and_left_alone(
    path: Path, make: Callable[[Path], None], error: type[StoreError], sentence: str
) -> None:
    make(path)
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(error, match=sentence) as refused:
        Store.open(path)
    assert "\n" not in refused.value.sentence
    assert (path.read_bytes() if path.is_file() else None) == before


def test_an_older_store_is_offered_an_update(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening, "REVISIONS", ("0001", "0002"))
    monkeypatch.setattr(opening, "NEWEST", "0002")
    with pytest.raises(StoreTooOld, match="tracker store update"):
        Store.open(path)


def test_a_store_updated_by_a_newer_program_meanwhile_is_not_written(store: Store) -> None:
    change(store.path, "UPDATE alembic_version SET version_num = '9999'")
    for opened in (store.reading, store.writing):
        with pytest.raises(StoreTooNew), opened():
            pytest.fail("it was opened all the same")


def test_a_file_damaged_in_the_middle_gets_a_sentence(path: Path) -> None:
    content = bytearray(path.read_bytes())
    for page in range(1, len(content) // 4096):
        content[page * 4096 : page * 4096 + 200] = b"\xff" * 200
    path.write_bytes(content)
    with pytest.raises((StoreDamaged, NotAStore)), Store.open(path).reading() as books:
        books.clients()


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.7, 0.9])
def test_a_page_written_over_is_found_by_the_check(path: Path, share: float) -> None:
    content = bytearray(path.read_bytes())
    start = int(len(content) * share) // 4096 * 4096
    content[start : start + 4096] = bytes(range(256)) * 16
    path.write_bytes(content)
    try:
        with Store.open(path).reading() as books:
            checked = books.raw_check()
    except StoreDamaged:
        return
    assert not checked.sound
    assert not any("\n" in told for told in checked.damage)


def test_a_store_is_never_made_over_a_file(path: Path) -> None:
    before = path.read_bytes()
    with pytest.raises(StoreExists, match="left as it was"):
        Store.create(path)
    assert path.read_bytes() == before


def test_a_store_needs_a_folder_to_lie_in(tmp_path: Path) -> None:
    with pytest.raises(StoreReadOnly, match="is not there"):
        Store.create(tmp_path / "no" / "studio.db")


def test_a_store_that_could_not_be_made_leaves_no_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tracker.store.engine.SEARCH_DDL", ("CREATE NONSENSE",))
    with pytest.raises(StoreError):
        Store.create(tmp_path / "studio.db")
    assert list(tmp_path.iterdir()) == []


def test_odd_file_names_are_no_trouble(tmp_path: Path) -> None:
    for name in ("Schneiderei Übermut?.db", "100%20#1.db", "a b;c'd.sqlite"):
        store = Store.create(tmp_path / name)
        with store.writing() as books:
            books.add_client(MARA)
        assert (tmp_path / name).is_file()
        with Store.open(tmp_path / name).reading() as books:
            assert books.client("mara") == MARA


def test_a_backup_holds_what_is_still_in_the_log(store: Store, tmp_path: Path) -> None:
    target = tmp_path / "copy.db"
    with store.reading():  # keeps the log from being folded in
        with store.writing() as books:
            books.add_client(Client(code="new", name="New"))
        store.back_up(target)
    with Store.open(target).reading() as books:
        assert books.client("new").name == "New"
        assert books.raw_check().sound
    with pytest.raises(StoreExists):
        store.back_up(target)


def test_a_write_protected_store_is_told_of(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def protected(path: Path, wait_s: float = 0.0) -> sqlite3.Connection:
        # As SQLite opens a file that may not be written; root may write any, so it is told to.
        uri = f"{path.absolute().as_uri()}?mode=ro"
        return sqlite3.connect(uri, uri=True, timeout=wait_s, isolation_level=None)

    monkeypatch.setattr(opening, "connect", protected)
    with pytest.raises(StoreReadOnly, match="cannot be written"), Store.open(path).writing() as b:
        b.add_client(Client(code="new", name="New"))
