"""Garments, fittings and notes, and finding a note by its words."""

import datetime as dt
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace

import pytest
import sqlite_utils
from stores.studio import FIRST_FITTING, GAPING, LOOSE, SECOND_FITTING, TEST_GARMENT

from tracker.errors import TrackerError
from tracker.fitting.garment import Garment, GarmentKind
from tracker.fitting.observation import State
from tracker.store.books import Books
from tracker.store.engine import Store
from tracker.store.fittings import UnknownFitting, UnknownGarment, UnknownNote
from tracker.store.opening import NotStored
from tracker.store.shelf import DamagedRecord, UnknownPattern, UnknownVersion

SETTLED = LOOSE.altered_in("mara/bodice@2").looked_at("fitting-2", settled=True)


def test_garments_fittings_and_notes_come_back_as_they_were_told(store: Store) -> None:
    with store.reading() as books:
        assert books.garments("mara") == (TEST_GARMENT,)
        assert books.garment("garment-1") == TEST_GARMENT
        assert books.fittings("mara") == (FIRST_FITTING, SECOND_FITTING)
        assert books.fittings("mara", "garment-1") == (FIRST_FITTING, SECOND_FITTING)
        assert books.fitting("fitting-2") == SECOND_FITTING
        assert books.notes("mara") == (SETTLED, GAPING)
        assert books.notes("mara", "fitting-2") == ()
        assert books.note("note-1") == SETTLED
        assert books.next_note_number("fitting-1") == 3
        assert books.next_note_number("fitting-2") == 1
        assert books.garments("ilse") == books.fittings("ilse") == books.notes("ilse") == ()


def test_a_bought_garment_needs_no_pattern(store: Store) -> None:
    bought = Garment(
        garment_id="g2", kind=GarmentKind.BOUGHT, cut_from=None, cloth="wool",
        made_on=dt.date(2024, 11, 2),
    )  # fmt: skip
    with store.writing() as books:
        books.add_garment("ilse", bought)
    with store.reading() as books:
        assert books.garments("ilse") == (bought,)


def test_every_state_of_a_note_stays_in_the_journal(store: Store) -> None:
    with store.reading() as books:
        told = [e for e in books.journal("mara") if e.subject == "note"]
    assert [e.what for e in told] == [
        "note 1 of the fitting of 2025-02-01 is now altered",
        "note 1 of the fitting of 2025-02-01 is now settled",
    ]
    assert told[0].before is not None
    assert told[0].before["state"] == "open"
    assert told[0].before["client's words"] == "feels like a sack"


def test_changed_garments_and_fittings_leave_how_they_stood(store: Store) -> None:
    with store.writing() as books:
        books.change_garment(replace(TEST_GARMENT, cut_from="mara/bodice@2", outlet_mm=20.0))
        books.change_fitting(replace(FIRST_FITTING, fitter="Zoë"))
    with store.reading() as books:
        assert books.garment("garment-1").cut_from == "mara/bodice@2"
        assert books.fitting("fitting-1").fitter == "Zoë"
        one, two = books.journal("mara")[-2:]
    assert one.before is not None
    assert two.before is not None
    assert one.before["cut from"] == "mara/bodice@1"
    assert two.before["fitter"] == "H."


Act = Callable[[Books], object]

REFUSED: dict[str, tuple[Act, type[TrackerError], str]] = {
    "a garment told twice": (
        lambda b: b.add_garment("mara", TEST_GARMENT),
        NotStored,
        "in the store already",
    ),
    "cut from a pattern that is not there": (
        lambda b: b.add_garment("mara", replace(TEST_GARMENT, garment_id="g", cut_from="mara/x@1")),
        UnknownPattern,
        "no pattern called 'x'",
    ),
    "cut from another client's pattern": (
        lambda b: b.add_garment("ilse", replace(TEST_GARMENT, garment_id="g")),
        UnknownVersion,
        "belongs to another client",
    ),
    "a fitting of no garment": (
        lambda b: b.add_fitting("mara", replace(FIRST_FITTING, fitting_id="f", garment_id="none")),
        UnknownGarment,
        "no garment has the id 'none'",
    ),
    "a fitting of another client's garment": (
        lambda b: b.add_fitting("ilse", replace(FIRST_FITTING, fitting_id="f")),
        UnknownGarment,
        "it is another client's",
    ),
    "a note told twice": (
        lambda b: b.add_note("mara", replace(LOOSE, number=7)),
        NotStored,
        "already",
    ),
    "two notes of one number": (
        lambda b: b.add_note("mara", replace(LOOSE, observation_id="n")),
        NotStored,
        "the fitting of 2025-02-01 has a note 1 already",
    ),
    "a note at another client's fitting": (
        lambda b: b.add_note("ilse", replace(LOOSE, observation_id="n", number=9)),
        UnknownFitting,
        "it is another client's",
    ),
    "a change of no note": (
        lambda b: b.change_note("mara", replace(LOOSE, observation_id="n")),
        UnknownNote,
        "no note has the id 'n'",
    ),
    "a note moved to another fitting": (
        lambda b: b.change_note("mara", replace(LOOSE, fitting_id="fitting-2")),
        NotStored,
        "stays with the fitting",
    ),
    "dealt with in no version": (
        lambda b: b.change_note("mara", replace(GAPING, dealt_with_in="mara/bodice@9")),
        UnknownVersion,
        "has no version 9",
    ),
    "dealt with in another client's version": (
        lambda b: b.change_note("mara", replace(GAPING, dealt_with_in="ilse/coat@1")),
        UnknownVersion,
        "belongs to another client",
    ),
    "settled at no fitting": (
        lambda b: b.change_note("mara", replace(GAPING, settled_at="fitting-9")),
        UnknownFitting,
        "no fitting has the id",
    ),
    "a fitting moved to another garment": (
        lambda b: b.change_fitting(replace(FIRST_FITTING, garment_id="other")),
        NotStored,
        "stays with its garment",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_refers_to_nothing_is_refused(store: Store, case: str) -> None:
    act, error, sentence = REFUSED[case]
    with pytest.raises(error, match=sentence), store.writing() as books:
        act(books)
    with store.reading() as books:
        assert books.garments("mara") == (TEST_GARMENT,)
        assert books.fittings("mara") == (FIRST_FITTING, SECOND_FITTING)
        assert books.notes("mara") == (SETTLED, GAPING)


def test_what_a_note_refers_to_being_gone_is_told_not_tripped_over(store: Store) -> None:
    with closing(sqlite3.connect(store.path)) as other:  # foreign keys off, as other programs do
        other.execute("DELETE FROM garment")
        other.execute("DELETE FROM version WHERE number = 2")
        other.commit()
    with store.reading() as books:
        with pytest.raises(DamagedRecord, match="a garment that something refers to is gone"):
            books.fitting("fitting-1")
        with pytest.raises(DamagedRecord, match="a version that something refers to is gone"):
            books.note("note-1")
        checked = books.raw_check()
    assert not checked.sound
    assert checked.versions == 4  # it looked at everything all the same


# -- finding notes by their words ----------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("sack", ["note-1"]),
        ("SACK", ["note-1"]),
        ("decollete", ["note-1"]),  # accents do not matter
        ("décolleté sack", ["note-1"]),
        ("sack neck", []),  # all the words, in one note
        ("pin*", ["note-1"]),
        ("gaping", ["note-2"]),  # the sign
        ("neckline front", ["note-2"]),  # the place
        ("nothing-like-it", []),
        ("", []),
        ('  " * ', []),
        ("NOT OR AND (", []),  # no language of its own to stumble over
        ("sack'; DROP TABLE observation", []),
    ],
)
def test_notes_are_found_by_their_words(store: Store, words: str, found: list[str]) -> None:
    with store.reading() as books:
        assert [(c, n.observation_id) for c, n in books.find_notes(words)] == [
            ("mara", n) for n in found
        ]


def test_the_index_keeps_step_with_the_notes(store: Store) -> None:
    with store.writing() as books:
        books.change_note("mara", replace(GAPING, fitter_words="lies flat now"))
        assert books.find_notes("stands off") == ()
        ((_, note),) = books.find_notes("lies flat")
        assert note.state is State.OPEN
        books.add_note(
            "mara", replace(GAPING, observation_id="n", number=3, fitter_words="puckers")
        )
        assert [n.observation_id for _, n in books.find_notes("puckers")] == ["n"]
        books.driver.execute(
            "INSERT INTO observation_fts(observation_fts) VALUES('integrity-check')"
        )


def test_the_index_is_one_that_sqlite_utils_knows_as_its_own(store: Store) -> None:
    with store.reading() as books:
        table = sqlite_utils.Database(books.driver, recursive_triggers=False)["observation"]
        assert table.detect_fts() == "observation_fts"
        assert {t.name for t in table.triggers} == {
            "observation_ai",
            "observation_ad",
            "observation_au",
        }


def test_what_is_recorded_late_renumbers_nothing(store: Store) -> None:
    """Notes are named by the number of their fitting, and so are they on paper."""
    before = FIRST_FITTING.on - dt.timedelta(days=30)
    with store.writing() as books:
        garments, fittings = books.garments("mara"), books.fittings("mara")
        notes = books.notes("mara")
        books.add_garment("mara", replace(TEST_GARMENT, garment_id="older", made_on=before))
        books.add_fitting(
            "mara", replace(FIRST_FITTING, fitting_id="late", garment_id="older", on=before)
        )
        late = replace(LOOSE, observation_id="late-note", fitting_id="late", number=1)
        books.add_note("mara", late)
    with store.reading() as books:
        assert books.garments("mara")[: len(garments)] == garments
        assert books.fittings("mara")[: len(fittings)] == fittings
        assert books.notes("mara")[: len(notes)] == notes
