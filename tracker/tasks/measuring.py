"""Measuring: typed values become a session; odd ones are questioned before they are kept."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.body.measurement import Measurement, Purpose
from tracker.body.plausible import contradictions
from tracker.body.repeatability import Comparison, compare
from tracker.body.session import MeasuringSession, Reading, newest_body
from tracker.body.sheet import MeasuringSheet, measuring_sheet
from tracker.body.vocabulary import VOCABULARY, for_purpose, measurement
from tracker.errors import TrackerError, nearest_names
from tracker.tasks.named import NewId, SayWhich, fresh_id, not_to_come, the_client
from tracker.tasks.values import NotATypedValue, read_name, write_value
from tracker.units import Unit

if TYPE_CHECKING:
    from tracker.pattern.finding import Finding
    from tracker.store.books import Books
    from tracker.store.engine import Store


class Questioned(TrackerError):
    """Values that no adult is likely to have, and that nobody has confirmed; nothing is kept.

    Attributes:
        questions: each of them.
    """

    def __init__(self, questions: tuple["Finding", ...]) -> None:
        self.questions = questions
        names = list(dict.fromkeys(q.place for q in questions))
        keep = " ".join(f'--keep "{n}"' for n in names)
        super().__init__(
            f"nothing was stored yet: {'; '.join(q.sentence for q in questions)}. "
            f"Type {'it' if len(names) == 1 else 'them'} again, or if it is so add: {keep}"
        )


@dataclass(frozen=True, slots=True)
class SessionRow:
    """One measuring session in a list.

    Attributes:
        number: from 1, oldest first.
        on: the day.
        by: who measured.
        wearing: what was worn.
        heel_mm: heel height.
        kind: usual or passing.
        reason: of a passing one.
        measurements: how many.
        bust_mm: the bust, if measured.
        waist_mm: the waist, if measured.
        hip_mm: the hip, if measured.
    """

    number: int
    on: dt.date
    by: str
    wearing: str
    heel_mm: float
    kind: str
    reason: str
    measurements: int
    bust_mm: float | None
    waist_mm: float | None
    hip_mm: float | None


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One measurement of a session.

    Attributes:
        name: trade name with side.
        value: the mean of the repeats.
        unit: mm or deg.
        values: the repeats.
        confirmed: unusual, and confirmed.
        estimated: worked out, not measured.
    """

    name: str
    value: float
    unit: str
    values: tuple[float, ...]
    confirmed: bool
    estimated: bool

    def shown(self, unit: Unit) -> str:
        """Write the value in her unit."""
        return write_value(self.value, self.unit, unit)


@dataclass(frozen=True, slots=True)
class SessionKept:
    """A session as it was stored.

    Attributes:
        client: her code.
        session: what was stored.
        rows: its measurements as they were understood.
        contradictions: what cannot all be true; kept, and pointed at.
        questions: repeats far apart; kept, and pointed at.
    """

    client: str
    session: MeasuringSession
    rows: tuple[ReadingRow, ...]
    contradictions: tuple["Finding", ...]
    questions: tuple["Finding", ...]


def record_session(
    store: "Store",
    code: str | None,
    session: MeasuringSession,
    keep: Iterable[str] = (),
    new_id: NewId = fresh_id,
) -> SessionKept:
    """Store a measuring session.

    Args:
        store: the store.
        code: the client, or nothing for the only one.
        session: what was measured.
        keep: names of unusual values that were looked at again and are so; ``all`` for all.
        new_id: makes its opaque id.

    Raises:
        Questioned: unusual values that were not confirmed; nothing is stored.
        TrackerError: there is no such client, or nothing was measured.
    """
    if not session.readings:
        raise NotATypedValue("nothing was measured; give one value at least, as in bust=88.2")
    session = _confirmed(session, tuple(keep))
    odd = tuple(q for q in session.questions() if q.code == "out of range")
    if odd:
        raise Questioned(odd)
    with store.writing() as books:
        client = the_client(books, code)
        books.add_session(client.code, new_id(), session)
    return _kept(client.code, session)


def import_sessions(
    store: "Store",
    code: str | None,
    content: bytes,
    unit: Unit,
    today: dt.date,
    keep: Iterable[str] = (),
    new_id: NewId = fresh_id,
) -> tuple[SessionKept, ...]:
    """Store the measuring sessions of a table (CSV or JSON), all of them or none.

    Raises:
        Questioned: unusual values that were not confirmed; nothing is stored.
        TrackerError: it is no such table, or one of its sessions is in the store already.
    """
    from tracker.store.measurements import read_measurements

    kept = tuple(keep)
    found = [(i or new_id(), _odd_kept(s, kept)) for i, s in read_measurements(content, unit)]
    for _, session in found:
        not_to_come(session.on, today, "a measuring session")
    odd = tuple(q for _, s in found for q in s.questions() if q.code == "out of range")
    if odd:
        raise Questioned(odd)
    with store.writing() as books:
        client = the_client(books, code).code
        for name, session in found:
            books.add_session(client, name, session)
    return tuple(_kept(client, session) for _, session in found)


def _odd_kept(session: MeasuringSession, keep: tuple[str, ...]) -> MeasuringSession:
    """Confirm what is named, where it was measured: a table has several sessions."""
    measured = {(r.key, r.side) for r in session.readings}
    here = [n for n in keep if n == "all" or (read_name(n)[0].key, read_name(n)[1]) in measured]
    return _confirmed(session, tuple(here))


def export_sessions(store: "Store", code: str | None, as_json: bool) -> tuple[str, str]:
    """Return a client's code and her measurements as the text of a CSV or JSON file."""
    from tracker.store.measurements import write_measurements

    with store.reading() as books:
        client = the_client(books, code).code
        return client, write_measurements(books, client, "json" if as_json else "csv")


def _confirmed(session: MeasuringSession, keep: tuple[str, ...]) -> MeasuringSession:
    if "all" in keep:
        keep = tuple(q.place for q in session.questions() if q.code == "out of range")
    for name in keep:
        entry, side = read_name(name)
        session = session.confirm(entry.key, side)
    return session


def _kept(code: str, session: MeasuringSession) -> SessionKept:
    return SessionKept(
        client=code,
        session=session,
        rows=reading_rows(session),
        contradictions=contradictions(session.body()),
        questions=session.questions(),
    )


def reading_rows(session: MeasuringSession) -> tuple[ReadingRow, ...]:
    """Return a session's measurements in tape order."""
    ordered = sorted(session.readings, key=lambda r: (measurement(r.key).order, r.side))
    return tuple(
        ReadingRow(r.name, r.value, measurement(r.key).unit, r.values, r.confirmed, r.estimated)
        for r in ordered
    )


def sessions_of(store: "Store", code: str | None) -> tuple[str, tuple[SessionRow, ...]]:
    """Return a client's code and her sessions, oldest first."""
    with store.reading() as books:
        client = the_client(books, code)
        some = books.sessions(client.code)
    return client.code, tuple(_row(k, s) for k, s in enumerate(some, start=1))


def _row(number: int, s: MeasuringSession) -> SessionRow:
    def mean(key: str) -> float | None:
        reading = s.reading(key)
        return reading.value if reading else None

    return SessionRow(
        number, s.on, s.by, s.wearing, s.heel_mm, s.kind, s.reason, len(s.readings),
        mean("bust-girth"), mean("waist-girth"), mean("hip-girth"),
    )  # fmt: skip


def the_session(books: "Books", code: str, number: int | None) -> tuple[int, MeasuringSession]:
    """Return a client's session by its number, or the newest, with its number.

    Raises:
        SayWhich: there is none of that number.
    """
    some = books.sessions(code)
    if not some:
        raise SayWhich(
            f"client {code} was not measured yet; record a session with: tracker measure new"
        )
    if number is None:
        return len(some), some[-1]
    if not 1 <= number <= len(some):
        raise SayWhich(
            f"client {code} has no session {number}; her sessions are numbered 1 to {len(some)}, "
            "the newest last"
        )
    return number, some[number - 1]


def session_of(store: "Store", code: str | None, number: int | None) -> SessionKept:
    """Return one session with what is odd about it."""
    with store.reading() as books:
        client = the_client(books, code)
        _, session = the_session(books, client.code, number)
    return _kept(client.code, session)


def correct_session(
    store: "Store",
    code: str | None,
    number: int | None,
    readings: tuple[Reading, ...],
    keep: Iterable[str] = (),
) -> SessionKept:
    """Correct values of a session; what was there before stays in the journal.

    Raises:
        Questioned: unusual values that were not confirmed; nothing is stored.
        TrackerError: no such client or session.
    """
    if not readings:
        raise NotATypedValue("nothing to correct; give the value as it should be, as in bust=88.2")
    with store.writing() as books:
        client = the_client(books, code)
        place, session = the_session(books, client.code, number)
        for reading in readings:
            session = session.with_reading(reading)
        session = _confirmed(session, tuple(keep))
        odd = tuple(q for q in session.questions() if q.code == "out of range")
        if odd:
            raise Questioned(odd)
        books.correct_session(books.session_ids(client.code)[place - 1], session)
    return _kept(client.code, session)


def compare_sessions(
    store: "Store", code: str | None, before: int | None, after: int | None
) -> tuple[tuple[int, int], Comparison]:
    """Hold two sessions against each other: the last two, unless others are named.

    Raises:
        SayWhich: there are not two.
    """
    with store.reading() as books:
        client = the_client(books, code)
        count = len(books.sessions(client.code))
        if count < 2:
            raise SayWhich(
                f"client {client.code} was measured {count} times; a comparison needs two"
            )
        last, newer = the_session(books, client.code, after)
        first, older = the_session(books, client.code, before or max(last - 1, 1))
    return (first, last), compare(older, newer)


def sheet_for(
    store: "Store", code: str | None, purposes: tuple[str, ...], blank: bool
) -> tuple[str, MeasuringSheet]:
    """Return a measuring sheet in tape order, with last time's values unless it is to be blank.

    Raises:
        TrackerError: no such client, or no such purpose.
    """
    wanted = tuple(read_purpose(p) for p in purposes)
    if blank:
        return "", measuring_sheet(wanted)
    with store.reading() as books:
        client = the_client(books, code)
        body = newest_body(books.sessions(client.code))
    return client.code, measuring_sheet(wanted, last=body, card=client.card)


def measurements_for(purposes: tuple[str, ...]) -> tuple[Measurement, ...]:
    """Return the vocabulary, or what is needed for some blocks, in tape order."""
    if not purposes:
        return VOCABULARY
    keys = {m.key for p in purposes for m in for_purpose(read_purpose(p))}
    return tuple(m for m in VOCABULARY if m.key in keys)


def read_purpose(text: str) -> Purpose:
    """Read what a sheet is for.

    Raises:
        NotATypedValue: it is none of bodice, sleeve, skirt, trousers.
    """
    known: tuple[Purpose, ...] = ("bodice", "sleeve", "skirt", "trousers")
    for purpose in known:
        if text.strip().lower() == purpose:
            return purpose
    raise NotATypedValue(
        f"a sheet is for {', '.join(known[:-1])} or {known[-1]}, not “{text}”."
        f"{nearest_names(text, list(known))}"
    )
