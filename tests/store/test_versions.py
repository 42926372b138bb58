"""Versions: stored by piece, read back to the byte, damage told."""

import datetime as dt
import hashlib
import json
import re
import shutil
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from stores.studio import MARA, roots, rounds, take_in

from tracker.history.version import Address, Standing, first_version, next_version
from tracker.pattern.canonical import pattern_digest, piece_digest
from tracker.store.engine import Store
from tracker.store.opening import NotStored
from tracker.store.patterns import DamagedVersion, NumberNotNext
from tracker.store.shelf import UnknownPattern, UnknownVersion


def test_versions_come_back_equal_in_every_part(store: Store) -> None:
    one, two, three, summer = rounds()
    with store.reading() as books:
        kept = books.version("mara", "bodice", 1)
        assert replace(kept, standing=one.standing, standing_by="", standing_on=None) == one
        assert books.version("mara", "bodice", 2) == two
        assert books.version("mara", "bodice") == three
        assert books.version("mara", "summer bodice") == summer
        assert [v.digest for v in books.versions("mara", "bodice")] == [
            v.digest for v in (one, two, three)
        ]


def test_the_next_step_from_the_store_is_the_next_step_from_memory(store: Store) -> None:
    remembered = rounds()[2]
    with store.reading() as books:
        kept = books.version("mara", "bodice")
    steps = ((take_in("side", 3.0), ("note-1",)),)
    address, on = Address("mara", "bodice", 4), dt.date(2025, 4, 1)
    a = next_version(remembered, address, steps, "", on)
    b = next_version(kept, address, steps, "", on)
    assert a == b
    assert pattern_digest(a.pattern) == pattern_digest(b.pattern)
    with store.writing() as books:
        books.add_version(b)
    with store.reading() as books:
        assert books.version("mara", "bodice", 4) == a


def test_a_piece_that_did_not_change_is_stored_once(empty: Store) -> None:
    one = roots()
    copy = next_version(one, Address("mara", "bodice", 2), (), "a copy", dt.date(2025, 2, 2))

    with empty.writing() as books:
        books.add_client(MARA)
        books.add_version(one)
        books.add_version(copy)
    with empty.reading() as books:
        assert books.driver.execute("SELECT count(*) FROM piece").fetchone() == (2,)
        kept = books.versions("mara", "bodice")
    # … and read once: comparing two versions costs nothing where they are the same.
    assert kept[0].pattern.pieces[0] is kept[1].pattern.pieces[0]


def test_a_piece_lies_under_the_sha_256_of_its_text(store: Store) -> None:
    # FIPS 180-4, by the standard library; canonical JSON: sorted keys, no spaces.
    with store.reading() as books:
        rows = books.driver.execute("SELECT digest, drawn FROM piece").fetchall()
    assert len(rows) >= 8
    for digest, drawn in rows:
        assert hashlib.sha256(drawn.encode()).hexdigest() == digest
        again = json.dumps(
            json.loads(drawn), sort_keys=True, separators=(",", ":"), ensure_ascii=False
        )
        assert again == drawn


def test_a_listing_needs_no_geometry(store: Store) -> None:
    with store.writing() as books:
        books.driver.execute("UPDATE piece SET drawn = 'torn'")
    with store.reading() as books:
        lines = books.versions_listed("mara", "bodice")
        (summer,) = books.versions_listed("mara", "summer bodice")
    assert [(str(v.address), v.parent, v.steps) for v in lines] == [
        ("mara/bodice@1", None, 0),
        ("mara/bodice@2", "mara/bodice@1", 1),
        ("mara/bodice@3", "mara/bodice@2", 1),
    ]
    assert lines[0].standing == "fitted"
    assert summer.parent == "mara/bodice@2"


def test_numbers_follow_one_another(store: Store) -> None:
    with store.reading() as books:
        assert books.next_number("mara", "bodice") == 4
        assert books.next_number("mara", "skirt") == 1
        three = books.version("mara", "bodice")
    for number in (3, 5):
        skipped = next_version(
            three, Address("mara", "bodice", number), ((take_in("side", 3.0), ()),), "",
            dt.date(2025, 4, 1),
        )  # fmt: skip
        told = pytest.raises(NumberNotNext, match="the next version of mara/bodice is 4")
        with told, store.writing() as books:
            books.add_version(skipped)


def test_a_version_changed_after_it_was_made_is_not_stored(store: Store) -> None:
    four = next_version(
        rounds()[2], Address("mara", "bodice", 4), ((take_in("side", 3.0), ()),), "",
        dt.date(2025, 4, 1),
    )  # fmt: skip
    with pytest.raises(NotStored, match="changed after it was made"), store.writing() as books:
        books.add_version(replace(four, sentence="something else"))
    with pytest.raises(NotStored, match="another mara/bodice@1"), store.writing() as books:
        books.add_version(replace(four, parent="mara/bodice@1"))


def test_a_version_is_made_from_the_same_clients(store: Store) -> None:
    hers = next_version(
        rounds()[0], Address("ilse", "bodice", 1), ((take_in("side", 3.0), ()),), "",
        dt.date(2025, 4, 1),
    )  # fmt: skip
    told = pytest.raises(UnknownVersion, match="belongs to another client")
    with told, store.writing() as books:
        books.add_version(hers)
    with store.reading() as books:
        assert books.pattern_names("ilse") == ("coat",)


def test_a_pattern_brought_in_without_outlines_is_kept_too(store: Store) -> None:
    with store.reading() as books:
        coat = books.version("ilse", "coat")
        assert not coat.pattern.pieces[0].has_outline
        again = first_version(
            coat.address, coat.root, coat.pattern, coat.sentence, coat.made_on
        )  # fmt: skip
    assert again == coat


@pytest.mark.parametrize(
    ("pattern", "number", "error", "sentence"),
    [
        ("bodise", None, UnknownPattern, r"she has bodice, summer bodice\. Did you mean bodice"),
        ("bodice", 4, UnknownVersion, "mara/bodice has no version 4; it has 1, 2, 3"),
        ("bodice", 0, UnknownVersion, "no version 0"),
        ("bodice", 10**30, UnknownVersion, "no version 1000"),
    ],
)
def test_unknown_patterns_and_versions_are_answered_with_what_there_is(
    store: Store, pattern: str, number: int | None, error: type[Exception], sentence: str
) -> None:
    with store.reading() as books, pytest.raises(error, match=sentence):
        books.version("mara", pattern, number)


def test_a_standing_is_kept_and_the_one_before_is_in_the_journal(store: Store) -> None:
    address = Address("mara", "bodice", 3)
    with store.writing() as books:
        books.set_standing(address, Standing.APPROVED_FOR_CLOTH, "H.", dt.date(2025, 4, 2))
    with store.reading() as books:
        kept = books.version("mara", "bodice", 3)
        assert (kept.standing, kept.standing_by) == (Standing.APPROVED_FOR_CLOTH, "H.")
        assert kept.standing_on == dt.date(2025, 4, 2)
        entry = books.journal("mara")[-1]
    assert entry.what == "mara/bodice@3 is now approved for cloth"
    assert entry.before == {"standing": "drawn", "by": "", "on": None}


def test_what_was_printed_last_is_known(store: Store) -> None:
    with store.writing() as books:
        assert books.last_printed("mara", "summer bodice") is None
        assert books.last_printed("mara", "bodice") == (
            Address("mara", "bodice", 2),
            dt.date(2025, 2, 4),
        )
        books.mark_printed(Address("mara", "bodice", 1), dt.date(2025, 2, 4))
        printed = books.last_printed("mara", "bodice")
        assert printed is not None
        assert printed[0].number == 1  # the later of two on one day


# -- damage --------------------------------------------------------------------------------


def test_one_flipped_digit_in_a_piece_is_told_and_nothing_is_cut_from_it(store: Store) -> None:
    two = rounds()[1]

    digest = piece_digest(two.pattern.pieces[0])
    with store.writing() as books:
        (drawn,) = books.driver.execute(
            "SELECT drawn FROM piece WHERE digest = ?", (digest,)
        ).fetchone()
        at = drawn.index("1", drawn.index('"to"'))
        books.driver.execute(
            "UPDATE piece SET drawn = ? WHERE digest = ?",
            (drawn[:at] + "2" + drawn[at + 1 :], digest),
        )
    with store.reading() as books:
        with pytest.raises(DamagedVersion, match=r"mara/bodice@2 is damaged: its front is not as"):
            books.version("mara", "bodice", 2)
        kept = books.as_kept("mara", "bodice", 2)
        assert kept.version is not None  # to be looked at, not cut from
        assert books.version("mara", "bodice", 1).address.number == 1
        assert books.version("mara", "bodice", 3).address.number == 3
        checked = books.raw_check()
    assert any("mara/bodice@2" in told for told in checked.damage)
    assert not any("mara/bodice@3" in told for told in checked.damage)
    # What was made from it is as it was written, but that cannot be proved by its parent.
    assert any("mara/bodice@3" in told for told in checked.notes)


def test_a_sound_store_is_found_sound_and_progress_is_told(store: Store) -> None:
    heard: list[tuple[str, int, int]] = []
    with store.reading() as books:
        checked = books.raw_check(lambda *told: heard.append(told))
    assert checked.damage == ()
    assert checked.notes == ()
    assert (checked.clients, checked.versions) == (2, 5)
    assert heard[0] == ("mara/bodice@1", 1, 5)
    assert heard[-1][1:] == (5, 5)


def test_rows_that_are_gone_are_told(store: Store) -> None:
    with store.writing() as books:
        books.driver.execute("DELETE FROM printing")  # not damage: nothing refers to one
    with store.reading() as books:
        assert books.raw_check().sound

    for statement, sentence in (
        ("DELETE FROM step WHERE version_id = 3", "mara/bodice@3"),
        ("DELETE FROM version WHERE id = 2", "mara/bodice should have versions 1 to 2"),
        ("DELETE FROM piece", "a piece of it is gone"),
    ):
        with closing(sqlite3.connect(store.path)) as other:  # foreign keys off, as elsewhere
            other.execute(statement)
            other.commit()
        with store.reading() as books:
            assert any(sentence in told for told in books.raw_check().damage), statement


#: Every column of a stored version in which a digit can be flipped.
COLUMNS = {
    "version": (
        "pattern_id", "number", "parent_id", "parent_digest", "root", "format", "seams", "ease",
        "sentence", "made_on", "digest", "standing_on",
    ),
    "piece": ("digest", "format", "drawn"),
    "version_piece": ("version_id", "position", "piece_digest"),
    "step": (
        "version_id", "position", "step_id", "format", "rule", "parameters", "because",
        "sentence", "effect", "trace",
    ),
}  # fmt: skip


@pytest.mark.parametrize(
    ("table", "column"), [(t, c) for t, columns in COLUMNS.items() for c in columns]
)
def test_a_flipped_digit_is_found_wherever_it_is(
    furnished: Path, tmp_path: Path, table: str, column: str
) -> None:

    path = Path(shutil.copy(furnished, tmp_path / "flipped.db"))
    with closing(sqlite3.connect(path)) as other:
        found = other.execute(f"SELECT rowid, {column} FROM {table} ORDER BY rowid DESC").fetchall()
        # The last row in which the column has a digit at all, and its last digit.
        row, text = next((r, str(v)) for r, v in found if re.search(r"\d", str(v)))
        at = max(m.start() for m in re.finditer(r"\d", text))
        digit = "8" if text[at] == "9" else "9"
        other.execute(
            f"UPDATE {table} SET {column} = ? WHERE rowid = ?",
            (text[:at] + digit + text[at + 1 :], row),
        )
        other.commit()
    with Store.open(path).reading() as books:
        assert not books.raw_check().sound


@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_any_digit_of_any_outline_may_flip_and_is_found(
    furnished: Path, data: st.DataObject
) -> None:

    with tempfile.TemporaryDirectory() as folder:
        path = Path(shutil.copy(furnished, Path(folder) / "flipped.db"))
        with closing(sqlite3.connect(path)) as other:
            rows = other.execute("SELECT digest, drawn FROM piece ORDER BY digest").fetchall()
            digest, drawn = data.draw(st.sampled_from(rows), label="piece")
            places = [m.start() for m in re.finditer(r"\d", drawn)]
            at = data.draw(st.sampled_from(places), label="place")
            digit = data.draw(st.sampled_from([d for d in "0123456789" if d != drawn[at]]))
            other.execute(
                "UPDATE piece SET drawn = ? WHERE digest = ?",
                (drawn[:at] + digit + drawn[at + 1 :], digest),
            )
            other.commit()
        with Store.open(path).reading() as books:
            assert not books.raw_check().sound


def test_a_stored_notch_on_an_edge_that_is_not_there_is_told(empty: Store) -> None:
    one = roots()
    assert one.root is not None
    pattern, front = one.pattern, one.pattern.piece("front")
    stray = front.with_notch(replace(front.notch("side notch"), edge="centre back"))
    spoilt = replace(pattern, pieces=tuple(stray if p is front else p for p in pattern.pieces))
    with empty.writing() as books:
        books.add_client(MARA)
        books.add_version(first_version(one.address, one.root, spoilt, "", dt.date(2026, 1, 5)))
    with empty.reading() as books:
        checked = books.raw_check()
    assert checked.damage == ()
    where = "mara/bodice@1: the side notch of the front is on the centre back"
    assert checked.notes[0] == f"{where}, an edge that is not there"
