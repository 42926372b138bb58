"""The quick list of clients says what the books say."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from stores.studio import GAPING

from tracker.store.engine import Store
from tracker.store.opening import NotAStore, StoreMissing, StoreTooNew
from tracker.store.quick import ClientRow, client_rows


def test_the_list_says_what_there_is_of_each_client(path: Path) -> None:
    assert client_rows(path) == [
        ClientRow("ilse", "Ilse Brandt-Osei", 1, None, None, 0),
        ClientRow("mara", "Mara Vogelsang", 2, "2025-03-01", "2025-03-02", 1),
    ]


def test_the_list_agrees_with_the_books(store: Store) -> None:
    with store.writing() as books:
        back = replace(GAPING, observation_id="n", number=3)
        books.add_note("mara", back.altered_in("mara/bodice@3"))
        books.change_note(
            "mara", back.altered_in("mara/bodice@3").looked_at("fitting-2", settled=False)
        )
    with store.reading() as books:
        for row in client_rows(store.path):
            assert row.name == books.client(row.code).name
            assert row.patterns == len(books.pattern_names(row.code))
            assert row.waiting == sum(note.waiting for note in books.notes(row.code))
            assert row.measured_on == max(
                (s.on.isoformat() for s in books.sessions(row.code)), default=None
            )
            assert row.fitted_on == max(
                (f.on.isoformat() for f in books.fittings(row.code)), default=None
            )
    assert client_rows(store.path)[1].waiting == 2


def test_the_list_is_of_stores_only(path: Path, tmp_path: Path) -> None:
    with pytest.raises(StoreMissing):
        client_rows(tmp_path / "none.db")
    with closing(sqlite3.connect(tmp_path / "other.db")) as other:
        other.execute("CREATE TABLE client (code, name)")
    with pytest.raises(NotAStore):
        client_rows(tmp_path / "other.db")
    with closing(sqlite3.connect(path)) as other:
        other.execute("UPDATE alembic_version SET version_num = '0999'")
        other.commit()
    with pytest.raises(StoreTooNew):
        client_rows(path)
