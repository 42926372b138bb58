"""A client whole: taken out, brought in elsewhere, erased so that no byte of her is left."""

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from stores.studio import MARA, take_in

from tracker.errors import TrackerError
from tracker.history.version import Address, next_version
from tracker.store.clients import CodeTaken
from tracker.store.engine import Store
from tracker.store.opening import NotStored, StoreBusy
from tracker.store.shelf import UnknownClient
from tracker.store.transfer import NotAnExport, erase_client, export_client, import_client


@pytest.fixture
def exported(store: Store) -> dict[str, Any]:
    with store.reading() as books:
        return export_client(books, "mara")


def test_a_client_brought_in_elsewhere_is_the_same_to_the_last_digest(
    store: Store, empty: Store, exported: dict[str, Any]
) -> None:
    # Through a file, as people will.
    record = json.loads(json.dumps(exported, indent=1, ensure_ascii=False, sort_keys=True))
    with empty.writing() as books:
        import_client(books, record)
    with store.reading() as here, empty.reading() as there:
        assert export_client(there, "mara") == exported
        assert there.client("mara") == here.client("mara") == MARA
        for name in here.pattern_names("mara"):
            assert there.versions("mara", name) == here.versions("mara", name)
        assert there.sessions("mara") == here.sessions("mara")
        assert there.notes("mara") == here.notes("mara")
        assert [n.observation_id for _, n in there.find_notes("sack")] == ["note-1"]
        assert there.last_printed("mara", "bodice") == here.last_printed("mara", "bodice")
        assert [e.what for e in there.journal("mara")] == [e.what for e in here.journal("mara")]
        assert there.raw_check().sound


def test_an_export_keeps_a_piece_once(exported: dict[str, Any]) -> None:
    listed = [d for v in exported["versions"] for d in v["pattern"]["pieces"]]
    assert len(listed) == 8
    assert set(exported["pieces"]) == set(listed)


def flipped(record: dict[str, Any]) -> None:
    piece = next(iter(record["pieces"].values()))
    piece["edges"][0]["parts"][0]["from"][0] += 1.0


def of_another(record: dict[str, Any]) -> None:
    record["versions"][0]["address"] = "ilse/bodice@1"


SPOILED: list[tuple[Callable[[dict[str, Any]], Any], type[TrackerError], str]] = [
    (lambda r: r.clear(), NotAnExport, "not an exported client"),
    (lambda r: r.update(format=2), NotAnExport, "format 2.*a newer program"),
    (lambda r: r.pop("notes"), NotAnExport, "is not whole"),
    (lambda r: r.update(sessions=7), NotAnExport, "is not whole"),
    (lambda r: r["pieces"].popitem(), NotAnExport, "is not whole"),
    (lambda r: r["versions"].pop(0), TrackerError, "mara"),
    (flipped, NotStored, "changed after it was made"),
    (of_another, TrackerError, "ilse"),
]


@pytest.mark.parametrize("number", range(len(SPOILED)))
def test_what_is_not_a_whole_client_is_refused_and_leaves_nothing(
    empty: Store, exported: dict[str, Any], number: int
) -> None:
    spoil, error, sentence = SPOILED[number]
    record = copy.deepcopy(exported)
    spoil(record)
    with pytest.raises(error, match=sentence), empty.writing() as books:
        import_client(books, record)
    with empty.reading() as books:
        assert books.clients() == ()
        assert books.driver.execute("SELECT count(*) FROM piece").fetchone() == (0,)


def test_a_client_is_not_brought_in_over_another(store: Store, exported: dict[str, Any]) -> None:
    with pytest.raises(CodeTaken, match="taken in this store"), store.writing() as books:
        import_client(books, exported)


def test_an_unknown_client_cannot_be_taken_out_or_erased(store: Store) -> None:
    with store.reading() as books, pytest.raises(UnknownClient, match="Did you mean mara"):
        export_client(books, "marah")
    with pytest.raises(UnknownClient), store.writing() as books:
        erase_client(books, "marah")


# -- erasing -------------------------------------------------------------------------------

#: Words of hers that stand somewhere in the furnished store.
HERS = ("mara", "Vogelsang", "latex", "second floor", "sack", "décolleté", "stands off", "calico",
        "note-1", "session-2", "pregnancy", "tissue", "abababab")  # fmt: skip


def bytes_of(folder: Path) -> bytes:
    return b"".join(p.read_bytes() for p in sorted(folder.iterdir()))


def test_the_furnished_store_has_her_words_to_lose(path: Path) -> None:
    for word in HERS:
        assert word.encode() in bytes_of(path.parent), word


def test_no_byte_of_an_erased_client_is_left(store: Store) -> None:
    with store.writing() as books:
        books.change_client(MARA.__class__(code="mara", name="Mara Lindqvist"))
    with store.writing() as books:
        erase_client(books, "mara")
    left = bytes_of(store.path.parent)
    for word in (*HERS, "Lindqvist"):
        assert word.encode() not in left, word
        assert word.lower().encode() not in left, word


def test_erasing_one_client_leaves_the_others_whole(store: Store, exported: dict[str, Any]) -> None:
    with store.reading() as books:
        before = export_client(books, "ilse")
    with store.writing() as books:
        erase_client(books, "mara")
    with store.reading() as books:
        assert [c.code for c in books.clients()] == ["ilse"]
        assert export_client(books, "ilse") == before
        assert books.find_notes("sack") == ()
        checked = books.raw_check()
        assert checked.sound
        assert (checked.versions, checked.pieces) == (1, 2)
        assert books.journal()[-1].what == "a client was erased, at her wish or the maker's"
    # … and she can come back.
    with store.writing() as books:
        import_client(books, exported)
    with store.reading() as books:
        assert export_client(books, "mara") == exported
        assert books.raw_check().sound


def test_a_piece_two_clients_share_stays_for_the_other(store: Store) -> None:
    with store.reading() as books:
        one = books.version("mara", "bodice", 1)
    from tracker.history.version import first_version

    assert one.root is not None
    hers = first_version(
        Address("ilse", "bodice", 1), one.root, one.pattern, one.sentence, one.made_on
    )
    child = next_version(
        hers, Address("ilse", "bodice", 2), ((take_in("side", 1.0), ()),), "", one.made_on
    )
    with store.writing() as books:
        books.add_version(hers)
        books.add_version(child)
    with store.writing() as books:
        erase_client(books, "mara")
    with store.reading() as books:
        assert books.versions("ilse", "bodice") == (hers, child)
        assert books.raw_check().sound


def test_an_erasing_that_is_broken_off_erases_nothing(
    store: Store, exported: dict[str, Any]
) -> None:
    def broken_off() -> None:
        with store.writing() as books:
            erase_client(books, "mara")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        broken_off()
    with store.reading() as books:
        assert export_client(books, "mara") == exported


def test_a_file_that_cannot_be_cleaned_now_is_told_of_and_cleaned_later(path: Path) -> None:
    store = Store.open(path, wait_s=0.05)
    with Store.open(path).reading() as reader:
        assert len(reader.clients()) == 2
        told = pytest.raises(StoreBusy, match=r"it is erased, but another program.*store clean")
        with told, store.writing() as books:
            erase_client(books, "mara")
    with store.reading() as books:
        assert [c.code for c in books.clients()] == ["ilse"]
    store.scrub()
    assert b"Vogelsang" not in bytes_of(path.parent)
