"""Notes: what is seen at a fitting, tied to a seam or a piece, until it is settled."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.fitting.garment import FittingError
from tracker.fitting.observation import Observation
from tracker.fitting.placing import named_corners
from tracker.fitting.propose import check_readings
from tracker.fitting.reading import Reading
from tracker.tasks.named import (
    note_names,
    saying_in_full,
    the_client,
    the_fitting,
    the_note,
    the_version,
)  # fmt: skip
from tracker.units import write_both

if TYPE_CHECKING:
    from tracker.fitting.garment import Fitting
    from tracker.pattern.pattern import Pattern
    from tracker.store.books import Books
    from tracker.store.engine import Store


@dataclass(frozen=True, slots=True)
class NoteRow:
    """A note in a list.

    Attributes:
        client: her code.
        name: how it is said: fitting and note, 2.3.
        where: the place in words.
        sign: what is seen.
        strength: how strongly.
        direction: of drag lines or folds.
        readings: amounts as they were read, in words; lengths in millimetres.
        fitter_words: the fitter's words.
        client_words: the client's own words.
        cause: body, style, cloth or taste.
        state: open, altered, done on the garment, settled or came back.
        dealt_with_in: the version it was altered in.
    """

    client: str
    name: str
    where: str
    sign: str
    strength: str
    direction: str
    readings: tuple[str, ...]
    fitter_words: str
    client_words: str
    cause: str
    state: str
    dealt_with_in: str | None


def add_note(store: "Store", client: str | None, fitting: int | None, note: Observation) -> NoteRow:
    """Write a note down at a fitting, once its readings are seen to lie on the pattern.

    Raises:
        TrackerError: no such fitting, seam, piece or corner; a reading off the end of its seam.
    """
    with store.writing() as books:
        code = the_client(books, client).code
        at = the_fitting(books, code, fitting)
        pattern = _pattern_worn(books, at)
        if pattern is not None:
            check_readings(pattern, note)
            note = named_corners(pattern, note)
        number = books.next_note_number(at.fitting_id)
        note = replace(note, fitting_id=at.fitting_id, number=number)
        books.add_note(code, note)
        return note_row(code, note, note_names(books, code))


def change_note(
    store: "Store",
    client: str | None,
    said: str,
    change: Callable[[Observation], Observation],
) -> NoteRow:
    """Change a note; the note as it was stays in the journal.

    Raises:
        TrackerError: no such note, or a reading that does not lie on the pattern.
    """
    with store.writing() as books:
        code = the_client(books, client).code
        note = change(the_note(books, code, said))
        pattern = _pattern_worn(books, books.fitting(note.fitting_id))
        if pattern is not None:
            check_readings(pattern, note)
        books.change_note(code, note)
        return note_row(code, note, note_names(books, code))


def done_on_garment(store: "Store", client: str | None, said: Iterable[str]) -> tuple[NoteRow, ...]:
    """Say that what some notes ask for was sewn on the garment itself; the pattern stays.

    Raises:
        TrackerError: no such note, it is dealt with already, or the garment has not the
            allowance; none of them is changed.
    """
    rows = []
    with store.writing() as books:
        code = the_client(books, client).code
        names = note_names(books, code)
        for one in said:
            note = the_note(books, code, one)
            with saying_in_full(note, names[note.observation_id]):
                _room_for(books, note)
                done = note.done_on_garment()
            books.change_note(code, done)
            rows.append(note_row(code, done, names))
    return tuple(rows)


def _room_for(books: "Books", note: Observation) -> None:
    """Refuse what was let out further than the garment's allowance holds."""
    from tracker.fitting.against import check_outlet
    from tracker.fitting.propose import answers, has_amount

    fitting = books.fitting(note.fitting_id)
    pattern = _pattern_worn(books, fitting)
    if pattern is None or not has_amount(note):
        return
    for one in answers(pattern, note):
        check_outlet(one.kind, books.garment(fitting.garment_id), pattern, one.pattern)
        pattern = one.pattern


def only_on_garments(books: "Books", code: str, pattern: str = "") -> tuple[str, ...]:
    """Return the notes, as they are said, that a garment has and its pattern does not.

    Args:
        books: the books.
        code: the client.
        pattern: only of garments cut from this pattern, "mara/bodice".
    """
    names = note_names(books, code)
    found = []
    for note in books.notes(code):
        if note.only_on_garment:
            cut_from = books.garment(books.fitting(note.fitting_id).garment_id).cut_from or ""
            if not pattern or cut_from.partition("@")[0] == pattern:
                found.append(names[note.observation_id])
    return tuple(found)


def look_at_notes(
    store: "Store", client: str | None, said: Iterable[str], fitting: int | None, settled: bool
) -> tuple[NoteRow, ...]:
    """Say at a later fitting whether altered notes are settled or came back.

    Raises:
        TrackerError: no such note or fitting, a note was not altered, or the fitting is the
            one the note was made at; none of them is changed.
    """
    rows = []
    with store.writing() as books:
        code = the_client(books, client).code
        at, names = the_fitting(books, code, fitting), note_names(books, code)
        for one in said:
            note = the_note(books, code, one)
            name = names[note.observation_id]
            _later(books, note, at, name)
            with saying_in_full(note, name):
                note = note.looked_at(at.fitting_id, settled=settled)
            books.change_note(code, note)
            rows.append(note_row(code, note, names))
    return tuple(rows)


def _later(books: "Books", note: Observation, at: "Fitting", said: str) -> None:
    if at.fitting_id == note.fitting_id:
        raise FittingError(
            f"note {said} was made at this fitting; it is settled, or comes back, at a later one: "
            "record that first with tracker fitting new"
        )
    if at.on < books.fitting(note.fitting_id).on:
        raise FittingError(f"note {said} was made after the fitting of {at.on}")


def notes_of(
    store: "Store", client: str | None, fitting: int | None = None, waiting: bool = False
) -> tuple[str, tuple[NoteRow, ...]]:
    """Return a client's code and her notes; only those of a fitting, or still waiting, if asked."""
    with store.reading() as books:
        code = the_client(books, client).code
        at = the_fitting(books, code, fitting).fitting_id if fitting is not None else None
        names = note_names(books, code)
        notes = [n for n in books.notes(code, at) if n.waiting or not waiting]
    return code, tuple(note_row(code, n, names) for n in notes)


def find_notes(store: "Store", words: str) -> tuple[NoteRow, ...]:
    """Return the notes of all clients in which some words stand."""
    with store.reading() as books:
        found = books.find_notes(words)
        names = {code: note_names(books, code) for code in {c for c, _ in found}}
    return tuple(note_row(code, note, names[code]) for code, note in found)


def note_rows(books: "Books", code: str) -> tuple[NoteRow, ...]:
    """Return all notes of a client."""
    names = note_names(books, code)
    return tuple(note_row(code, n, names) for n in books.notes(code))


def note_row(code: str, note: Observation, names: dict[str, str]) -> NoteRow:
    """Return a note as it is listed."""
    return NoteRow(
        client=code,
        name=names.get(note.observation_id, "?"),
        where=note.where,
        sign=str(note.sign),
        strength=str(note.strength),
        direction=note.direction,
        readings=tuple(reading_words(r) for r in note.readings),
        fitter_words=note.fitter_words,
        client_words=note.client_words,
        cause=str(note.cause),
        state=str(note.state),
        dealt_with_in=note.dealt_with_in,
    )


def reading_words(reading: Reading) -> str:
    """Say a reading: ``pinned fold 5 mm (3/16 in) at the side waist``."""
    at = f"at the {reading.corner}"
    if reading.distance_mm:
        from_there = "from"
        if reading.corner.endswith(("line", "across back", "across front")):
            from_there = "above" if reading.distance_mm > 0 else "below"
        at = f"at {write_both(abs(reading.distance_mm))} {from_there} the {reading.corner}"
    if not reading.corner:
        return f"{reading.kind} {write_both(reading.value_mm)} all round"
    on = f", on the {reading.edge or reading.piece}" if reading.edge or reading.piece else ""
    amount = write_both(reading.value_mm) if reading.value_mm else "nothing"
    return f"{reading.kind} {amount} {at}{on}"


def _pattern_worn(books: "Books", fitting: "Fitting") -> "Pattern | None":
    garment = books.garment(fitting.garment_id)
    return the_version(books, garment.cut_from).pattern if garment.cut_from else None
