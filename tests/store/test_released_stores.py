"""Every store a release has written opens in this one, with all that was in it."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from stores.studio import NOW

from tracker.store import opening
from tracker.store.engine import Store
from tracker.store.migrate import update

STORES = Path(__file__).parent.parent / "stores"

#: What each of them holds, counted when it was made. The files are never made again.
HELD = {
    "0001": {
        "client": 2, "measuring_session": 2, "reading": 5, "pattern": 3, "version": 5, "piece": 10,
        "version_piece": 10, "step": 3, "printing": 2, "garment": 1, "fitting": 2,
        "observation": 2, "preference": 1, "journal": 4,
    },
}  # fmt: skip

#: The digests of their versions: what was cut from them must still be what is printed.
DIGESTS = {
    "0001": {
        "mara/bodice@1": "eb2184b96f551e8b4b7cb0c0d535f009879f75b2729dbc47199b06f8e3b04325",
        "mara/bodice@2": "5dc044c41e961b162716fb13bc9aaf86c519a5b9c1e6f6f8dfc4941544165bda",
        "mara/bodice@3": "43a05d5ae558e841e0c26cdfb5aba3bc701576cd102a835f1728c665c2db2cd5",
        "mara/summer bodice@1": "a1bf20b25c74c4e8c6c35e1e89724681c5654b58d9cae2dbf0a0b93b7f23c16c",
        "ilse/coat@1": "0d7804bb5601d859c58faae4a59d894c3819ac6189a6a26755f2f8ecd3b77919",
    },
}


def test_every_layout_there_has_been_has_its_store() -> None:
    assert sorted(p.stem for p in STORES.glob("*.db")) == sorted(opening.REVISIONS) == sorted(HELD)


@pytest.mark.parametrize("revision", HELD)
def test_a_released_store_opens_with_all_that_was_in_it(revision: str, tmp_path: Path) -> None:
    path = Path(shutil.copy(STORES / f"{revision}.db", tmp_path / "studio.db"))
    copy = update(path, NOW)
    assert (copy is None) == (revision == opening.NEWEST)
    with closing(sqlite3.connect(path)) as other:
        counted = {
            table: other.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
            for table in HELD[revision]
        }
    updates = 0 if copy is None else 1
    assert counted == HELD[revision] | {"journal": HELD[revision]["journal"] + updates}
    with Store.open(path).reading() as books:
        checked = books.raw_check()
        assert checked.damage == ()
        digests = {
            str(version.address): version.digest
            for client in books.clients()
            for name in books.pattern_names(client.code)
            for version in books.versions(client.code, name)
        }
        assert digests == DIGESTS[revision]
        assert books.client("mara").name == "Mara Vogelsang"
        assert books.sessions("mara")[0].value("bust-girth") == pytest.approx(882.6667, abs=1e-4)
        assert [n.observation_id for _, n in books.find_notes("decollete")] == ["note-1"]
        assert books.preference("unit") == "cm"
