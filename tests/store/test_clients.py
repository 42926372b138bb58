"""Clients, their measuring sessions, preferences and the journal."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from stores.studio import ILSE, MARA, NOW, SPRING, WINTER

from tracker.body.card import Card
from tracker.body.client import Client
from tracker.body.session import MeasuringSession, Reading
from tracker.errors import TrackerError
from tracker.store.clients import CodeTaken, UnknownSession
from tracker.store.engine import Store
from tracker.store.opening import NotStored
from tracker.store.shelf import DamagedRecord, UnknownClient


def test_clients_come_back_as_they_were_told_by_code(store: Store) -> None:
    with store.reading() as books:
        assert books.client("mara") == MARA
        assert books.clients() == (ILSE, MARA)


#: Anything that can be typed: every character but halves of a pair, which are none.
WORDS = st.text(st.characters(exclude_categories=["Cs"]))


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(name=WORDS, note=WORDS, like=WORDS)
def test_whatever_is_written_of_a_client_comes_back(
    empty: Store, name: str, note: str, like: str
) -> None:
    client = Client(code="any", name=name, card=Card(likes=(like,)), note=note)
    with empty.writing() as books:
        if not books.clients():
            books.add_client(ILSE)
            books.add_client(replace(client, name="before"))
        books.change_client(client)
    with empty.reading() as books:
        assert books.client("any") == client
        assert books.journal("any")[-1].after["name"] == name


def test_a_letter_that_is_none_gets_a_sentence_and_leaves_nothing(store: Store) -> None:
    broken = b"Zo\xeb".decode("utf-8", "surrogateescape")  # typed in Latin-1
    told = pytest.raises(NotStored, match="another encoding: 'Zo' stands before")
    with told, store.writing() as books:
        books.add_client(Client(code="zoe", name=broken))
    with store.reading() as books:
        assert len(books.clients()) == 2


def test_a_code_is_given_once_and_another_is_offered(store: Store) -> None:
    with store.writing() as books:
        books.add_client(Client(code="mara-2", name="Mara the other"))
    with (
        pytest.raises(CodeTaken, match=r"belongs to Mara Vogelsang.*such as mara-3"),
        store.writing() as books,
    ):
        books.add_client(Client(code="mara", name="Mara Third"))


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("marra", "Did you mean mara?"),
        ("MARA", "Did you mean mara?"),
        ("isle", "Did you mean ilse?"),
        ("zzz", "no client has the code 'zzz'"),
    ],
)
def test_an_unknown_client_is_answered_with_the_nearest(
    store: Store, typed: str, sentence: str
) -> None:
    with store.reading() as books, pytest.raises(UnknownClient) as told:
        books.client(typed)
    assert sentence in told.value.sentence


def test_a_store_without_clients_says_so(empty: Store) -> None:
    with empty.reading() as books, pytest.raises(UnknownClient, match="has no clients yet"):
        books.client("mara")


def test_a_changed_card_leaves_the_old_one_in_the_journal(store: Store) -> None:
    wed = replace(MARA, name="Mara Lindqvist", note="")
    with store.writing(NOW) as books:
        books.change_client(wed)
    with store.reading() as books:
        assert books.client("mara") == wed
        entry = books.journal("mara")[-1]
    assert entry.when == "2025-03-09T17:30:00+00:00"
    assert (entry.client, entry.subject, entry.subject_key) == ("mara", "client", "mara")
    assert entry.before is not None
    assert entry.after is not None
    assert entry.before["name"] == "Mara Vogelsang"
    assert entry.before["note"] == "stairs: second floor, no bell"
    assert entry.after["name"] == "Mara Lindqvist"


def test_telling_the_same_again_is_not_a_change(store: Store) -> None:
    with store.writing() as books:
        before = books.journal()
        books.change_client(MARA)
        books.correct_session("session-1", WINTER)
        books.set_preference("unit", "cm")
        assert books.journal() == before


def test_without_a_clock_handed_in_the_journal_is_stamped_all_the_same(store: Store) -> None:
    with store.writing() as books:
        books.set_preference("unit", "inch")
        stamped = dt.datetime.fromisoformat(books.journal()[-1].when)
    assert stamped.tzinfo is not None


# -- measuring sessions --------------------------------------------------------------------


def test_sessions_come_back_to_the_last_bit_oldest_first(store: Store) -> None:
    with store.writing() as books:
        older = MeasuringSession(on=dt.date(2023, 5, 5), by="H.")
        books.add_session("mara", "session-0", older)
    with store.reading() as books:
        assert books.sessions("mara") == (older, WINTER, SPRING)
        assert books.session_ids("mara") == ("session-0", "session-1", "session-2")
        assert books.session("session-2") == SPRING
        assert books.sessions("ilse") == ()


def test_corrected_measurements_stay_in_the_journal(store: Store) -> None:
    right = WINTER.with_reading(Reading(key="bust-girth", values=(892.0,)))
    with store.writing(NOW) as books:
        books.correct_session("session-1", right)
    with store.reading() as books:
        assert books.session("session-1") == right
        entry = books.journal("mara")[-1]
    assert entry.before is not None
    assert MeasuringSession.from_record(entry.before) == WINTER
    assert entry.what == "the measurements of 2025-01-10 were corrected"


def test_a_session_is_told_once_and_of_a_known_client(store: Store) -> None:
    with pytest.raises(NotStored, match="in the store already"), store.writing() as books:
        books.add_session("ilse", "session-1", WINTER)
    with pytest.raises(UnknownClient), store.writing() as books:
        books.add_session("ilsse", "session-9", WINTER)
    with pytest.raises(UnknownSession), store.writing() as books:
        books.correct_session("session-9", WINTER)


def test_a_damaged_card_gets_a_sentence(store: Store) -> None:
    with store.writing() as books:
        books.driver.execute("UPDATE client SET card = '{\"format\": 1' WHERE code = 'mara'")
        books.driver.execute("UPDATE measuring_session SET held_on = '2025-13-10'")
    with store.reading() as books:
        with pytest.raises(DamagedRecord, match="the card of mara cannot be read"):
            books.client("mara")
        with pytest.raises(TrackerError):
            books.sessions("mara")
        assert len(books.raw_check().damage) == 2


# -- preferences ---------------------------------------------------------------------------


def test_preferences_are_kept_and_the_one_before_is_not_lost(store: Store) -> None:
    with store.writing() as books:
        assert books.preference("word for a test garment") is None
        books.set_preference("unit", "inch")
    with store.reading() as books:
        assert books.preference("unit") == "inch"
        assert books.preferences() == {"unit": "inch"}
        entry = books.journal()[-1]
    assert (entry.client, entry.before, entry.after) == (None, {"value": "cm"}, {"value": "inch"})
