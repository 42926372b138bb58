"""From what was said to what was meant: clients, patterns, versions, fittings, notes.

Whatever there is only one of need not be said.
"""

import datetime as dt
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from secrets import token_hex
from typing import TYPE_CHECKING, TypeVar

from tracker.errors import TrackerError, nearest_names
from tracker.history.version import Address, Version

if TYPE_CHECKING:
    from tracker.body.client import Client
    from tracker.fitting.garment import Fitting, Garment
    from tracker.fitting.observation import Observation
    from tracker.store.books import Books

T = TypeVar("T")

NewId = Callable[[], str]

_NOTE = re.compile(r"(?:(?P<fitting>\d+)\.)?(?P<note>\d+)")


class SayWhich(TrackerError):
    """Something was left out that cannot be guessed."""

    exit_code = 2


class NotThere(TrackerError):
    """A fitting, garment, note or session number that is not in the store."""


class YetToCome(TrackerError):
    """A date that lies after today, of something that has happened."""

    exit_code = 2


def fresh_id() -> str:
    """Return an opaque id that nobody can read anything from."""
    return token_hex(8)


def not_to_come(day: dt.date, today: dt.date, what: str) -> None:
    """Refuse a date after today.

    Raises:
        YetToCome: it is.
    """
    if day > today:
        raise YetToCome(f"{day} is yet to come; {what} is dated today, {today}, or before")


def the_client(books: "Books", code: str | None) -> "Client":
    """Return the client said, or the only one.

    Raises:
        SayWhich: there are several and none was said, or there is none at all.
        TrackerError: none has the code; the nearest are named.
    """
    if code:
        return books.client(code)
    known = books.clients()
    if len(known) == 1:
        return known[0]
    if not known:
        raise SayWhich('there is no client yet; make one with: tracker client new mara "Mara Lind"')
    raise SayWhich(
        f"which client? There are {_list([c.code for c in known])}; name one, or say it with "
        f"--client {known[0].code}"
    )


def the_pattern(books: "Books", said: str | None) -> tuple[str, str, int | None]:
    """Return client code, pattern name and version number of what was said.

    ``mara/bodice@2``, ``mara/bodice``, ``mara``, ``bodice``, ``bodice@2``, ``@2`` and nothing
    are all understood as long as they mean one thing. Without a number it is the newest.

    Raises:
        SayWhich: it could mean several.
        TrackerError: there is no such client, pattern or version.
    """
    said = (said or "").strip()
    if "/" in said:
        return Address.parse(said)
    head, at, tail = said.partition("@")
    if at and not tail.isdigit():
        raise SayWhich(f"“{said}” names no version; write the number after the @, as in {head}@2")
    number = int(tail) if at else None
    codes = {c.code for c in books.clients()}
    if not head and len(codes) > 1:
        some = sorted(codes)
        raise SayWhich(
            f"which client? There are {_list(some)}; name the pattern or the version, "
            f"as in {some[0]}/bodice (after --from where notes or amounts are typed first)"
        )
    if head in codes or not head:
        client = the_client(books, head or None).code
        return client, _only_pattern(books, client), number
    client = _owner(books, head, codes)
    return client, head, number


def _only_pattern(books: "Books", client: str) -> str:
    names = books.pattern_names(client)
    if len(names) == 1:
        return names[0]
    if not names:
        raise SayWhich(
            f"client {client} has no pattern yet; draft one with: tracker block draft {client}"
        )
    raise SayWhich(f"which pattern? {client} has {_list([f'{client}/{n}' for n in names])}")


def _owner(books: "Books", pattern: str, codes: set[str]) -> str:
    """Return the only client who has a pattern of this name."""
    owners = [code for code in sorted(codes) if pattern in books.pattern_names(code)]
    if len(owners) == 1:
        return owners[0]
    if owners:
        raise SayWhich(f"whose {pattern}? There are {_list([f'{o}/{pattern}' for o in owners])}")
    if len(codes) == 1:
        return next(iter(codes))
    patterns = {name for code in codes for name in books.pattern_names(code)}
    hint = nearest_names(pattern, sorted(codes | patterns))
    raise SayWhich(f"there is no client and no pattern called “{pattern}”.{hint}")


def the_version(books: "Books", said: str | None) -> Version:
    """Return the version said; without a number the newest.

    Raises:
        TrackerError: see ``the_pattern``.
    """
    return books.version(*the_pattern(books, said))


def the_garment(books: "Books", client: str, number: int | None) -> "Garment":
    """Return a client's garment by its number, or the last one made.

    Raises:
        NotThere: there is none of that number.
    """
    garments = books.garments(client)
    return _numbered(garments, number, f"client {client} has no garment", "tracker garment new")


def the_fitting(books: "Books", client: str, number: int | None) -> "Fitting":
    """Return a client's fitting by its number, or the last one.

    Raises:
        NotThere: there is none of that number.
    """
    fittings = books.fittings(client)
    return _numbered(fittings, number, f"client {client} has no fitting", "tracker fitting new")


def _numbered(some: tuple[T, ...], number: int | None, none: str, make: str) -> T:
    if not some:
        raise NotThere(f"{none} yet; record one with: {make}")
    if number is None:
        return some[-1]
    if not 1 <= number <= len(some):
        raise NotThere(f"{none} {number}; they are numbered 1 to {len(some)}")
    return some[number - 1]


def the_note(books: "Books", client: str, said: str) -> "Observation":
    """Return a note by ``fitting.note`` (``2.3``), or by its number in the last fitting.

    Raises:
        NotThere: no such note.
    """
    found = _NOTE.fullmatch(said.strip())
    if not found:
        raise SayWhich(
            f"“{said}” is not a note; write fitting and note, as in 2.3, or the note's number in "
            "the last fitting"
        )
    fitting = the_fitting(books, client, int(found["fitting"]) if found["fitting"] else None)
    notes = books.notes(client, fitting.fitting_id)
    for note in notes:
        if note.number == int(found["note"]):
            return note
    there = f"has notes {_list([str(n.number) for n in notes])}" if notes else "has no notes"
    raise NotThere(f"there is no note {said}; the fitting of {fitting.on} {there}")


def check_notes_said(said: Iterable[str]) -> None:
    """Refuse what is no note where only notes are said, such as a client before them.

    Raises:
        SayWhich: one of them is none.
    """
    words = list(said)
    for word in words:
        if not _NOTE.fullmatch(word.strip()):
            notes = " ".join(w for w in words if _NOTE.fullmatch(w.strip())) or "2.3"
            raise SayWhich(
                f"“{word}” is not a note; write fitting and note, as in 2.3. A client is named "
                f"with --client, as in: {notes} --client {word}"
            )


def in_full(sentence: str, note: "Observation", name: str) -> str:
    """Return what was said of a note by its number alone, said with its fitting too."""
    return re.sub(rf"\bnote {note.number}\b(?!\.\d)", f"note {name}", sentence)


@contextmanager
def saying_in_full(note: "Observation", name: str) -> Iterator[None]:
    """Say a refusal that names a note by its number alone with its fitting too."""
    try:
        yield
    except TrackerError as fault:
        told = in_full(fault.sentence, note, name)
        if told == fault.sentence:
            raise
        raise type(fault)(told) from fault


def note_names(books: "Books", client: str) -> dict[str, str]:
    """Return how people say each note of a client (``2.3``) by its opaque id."""
    place = {f.fitting_id: k for k, f in enumerate(books.fittings(client), start=1)}
    return {
        n.observation_id: f"{place.get(n.fitting_id, '?')}.{n.number}" for n in books.notes(client)
    }


def _list(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
