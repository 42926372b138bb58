"""Garments and fittings: what was sewn, and tried on."""

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.errors import TrackerError, nearest_names
from tracker.fitting.garment import Fitting, Garment, GarmentKind, dressed_otherwise
from tracker.fitting.observation import State, read_word
from tracker.history.version import Standing, Version
from tracker.tasks.named import not_to_come, note_names, the_client, the_garment, the_version
from tracker.tasks.notes import NoteRow, only_on_garments
from tracker.tasks.seen_again import seen_again
from tracker.tasks.versions import newer_approved

if TYPE_CHECKING:
    from tracker.store.books import Books
    from tracker.store.engine import Store


#: Other words for the same kinds of garment.
_KINDS = {
    "toile": GarmentKind.TEST_GARMENT,
    "muslin": GarmentKind.TEST_GARMENT,
    "test": GarmentKind.TEST_GARMENT,
    "basted": GarmentKind.BASTED,
}


@dataclass(frozen=True, slots=True)
class GarmentRow:
    """A garment in a list.

    Attributes:
        number: from 1, in the order they were recorded.
        kind: what sort.
        cut_from: the version it was cut from, or nothing.
        cloth: what it is made of.
        made_on: when it was cut.
        outlet_mm: what is left to let out of.
        fittings: how often it was tried on.
        note: anything else.
        changed: notes, as they are said, done on it and not in its pattern.
    """

    number: int
    kind: str
    cut_from: str | None
    cloth: str
    made_on: dt.date
    outlet_mm: float
    fittings: int
    note: str
    changed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FittingRow:
    """A fitting in a list.

    Attributes:
        number: from 1; notes are named by it (2.3).
        on: the day.
        garment: the garment's number.
        cut_from: the version it was cut from, or nothing.
        fitter: by whom.
        worn_beneath: what was worn underneath.
        heel_mm: heel height.
        notes: how many notes.
        settled: how many of them are settled.
        came_back: how many came back.
        waiting: how many still want dealing with.
    """

    number: int
    on: dt.date
    garment: int
    cut_from: str | None
    fitter: str
    worn_beneath: str
    heel_mm: float
    notes: int
    settled: int
    came_back: int
    waiting: int


@dataclass(frozen=True, slots=True)
class GarmentKept:
    """A garment as it was stored, with what to mind."""

    client: str
    number: int
    garment: Garment
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FittingKept:
    """A fitting as it was stored, with what to mind and the notes to look at again."""

    client: str
    number: int
    fitting: Fitting
    warnings: tuple[str, ...]
    to_look_at: tuple[NoteRow, ...]


def read_garment_kind(text: str) -> GarmentKind:
    """Read a kind of garment in the trade's or the maker's word.

    Raises:
        TrackerError: it is none.
    """
    word = text.strip().lower()
    if word in _KINDS:
        return _KINDS[word]
    near = nearest_names(word, list(_KINDS))
    if near and word not in tuple(GarmentKind):
        raise TrackerError(f"“{text}” is no kind of garment.{near}")
    return read_word(GarmentKind, word, "kind of garment")


def add_garment(
    store: "Store", garment: Garment, pattern: str | None, client: str | None, today: dt.date
) -> GarmentKept:
    """Record a garment; one cut from a version raises that version's standing.

    Args:
        store: the store.
        garment: the garment; ``cut_from`` is filled in here.
        pattern: the version it was cut from, or nothing for the only pattern's newest; a bought
            garment may have none.
        client: the client, for a garment without a pattern.
        today: the date.

    Raises:
        TrackerError: no such version, or the garment is dated before it or after today.
    """
    not_to_come(garment.made_on, today, "a garment that was cut")
    warnings: tuple[str, ...] = ()
    with store.writing() as books:
        if garment.kind is GarmentKind.BOUGHT and not pattern:
            code = the_client(books, client).code
        else:
            version = the_version(books, pattern or client)
            code = version.address.client
            if garment.made_on < version.made_on:
                raise TrackerError(
                    f"{version.address} was made on {version.made_on}, so nothing was cut from it "
                    f"on {garment.made_on}"
                )
            garment = replace(garment, cut_from=str(version.address))
            newer = newer_approved(books, version.address)
            if newer:
                warnings = (f"{newer} is approved for cloth and newer than {version.address}",)
            warnings += _not_in_it(books, version)
            _raise_standing(books, version, _standing_of(garment.kind), garment.made_on)
        books.add_garment(code, garment)
        number = len(books.garments(code))
    return GarmentKept(code, number, garment, warnings)


def _not_in_it(books: "Books", version: Version) -> tuple[str, ...]:
    """Warn of what was changed on an earlier garment and is not in the pattern."""
    address = version.address
    left = only_on_garments(books, address.client, f"{address.client}/{address.pattern}")
    if not left:
        return ()
    return (
        f"what note {', '.join(left)} asked for was done on the garment and is not in "
        f"{address}; take it back to the pattern first with: tracker alter accept {' '.join(left)}",
    )


def _standing_of(kind: GarmentKind) -> Standing:
    return Standing.FOR_A_TEST_GARMENT if kind is GarmentKind.TEST_GARMENT else Standing.DRAWN


def _raise_standing(books: "Books", version: Version, to: Standing, on: dt.date) -> None:
    """Give a version a higher standing; never a lower one."""
    order = list(Standing)
    if order.index(to) > order.index(version.standing):
        books.set_standing(version.address, to, "", on)


def garments_of(store: "Store", client: str | None) -> tuple[str, tuple[GarmentRow, ...]]:
    """Return a client's code and her garments."""
    with store.reading() as books:
        code = the_client(books, client).code
        fittings = books.fittings(code)
        some = books.garments(code)
        names = note_names(books, code)
        worn = {f.fitting_id: f.garment_id for f in fittings}
        changed: dict[str, list[str]] = {}
        for note in books.notes(code):
            if note.only_on_garment:
                changed.setdefault(worn[note.fitting_id], []).append(names[note.observation_id])
    return code, tuple(
        GarmentRow(
            k, str(g.kind), g.cut_from, g.cloth, g.made_on, g.outlet_mm,
            sum(f.garment_id == g.garment_id for f in fittings), g.note,
            tuple(changed.get(g.garment_id, ())),
        )
        for k, g in enumerate(some, start=1)
    )  # fmt: skip


def add_fitting(
    store: "Store", client: str | None, garment: int | None, fitting: Fitting, today: dt.date
) -> FittingKept:
    """Record a fitting of a garment, and say what of earlier notes to look at.

    Raises:
        TrackerError: no such client or garment, or a day that cannot be.
    """
    not_to_come(fitting.on, today, "a fitting")
    with store.writing() as books:
        code = the_client(books, client).code
        worn = the_garment(books, code, garment)
        if fitting.on < worn.made_on:
            raise TrackerError(
                f"the garment was cut on {worn.made_on}, so it was not fitted on {fitting.on}"
            )
        fitting = replace(fitting, garment_id=worn.garment_id)
        books.add_fitting(code, fitting)
        if worn.cut_from:
            _raise_standing(books, the_version(books, worn.cut_from), Standing.FITTED, fitting.on)
        number = len(books.fittings(code))
        warnings = _dressed(books, code, fitting)
        altered = tuple(row for row, answered in seen_again(books, code, worn) if answered)
    return FittingKept(code, number, fitting, warnings, altered)


def _dressed(books: "Books", code: str, fitting: Fitting) -> tuple[str, ...]:
    sessions = [s for s in books.sessions(code) if s.on <= fitting.on]
    if not sessions:
        return ("she was not measured before this fitting",)
    last = sessions[-1]
    return dressed_otherwise(fitting.worn_beneath, fitting.heel_mm, last.wearing, last.heel_mm)


def fittings_of(store: "Store", client: str | None) -> tuple[str, tuple[FittingRow, ...]]:
    """Return a client's code and her fittings."""
    with store.reading() as books:
        code = the_client(books, client).code
        garments = {g.garment_id: (k, g) for k, g in enumerate(books.garments(code), start=1)}
        some = books.fittings(code)
        notes = books.notes(code)
    rows = []
    for number, f in enumerate(some, start=1):
        place, garment = garments[f.garment_id]
        mine = [n for n in notes if n.fitting_id == f.fitting_id]
        rows.append(
            FittingRow(
                number, f.on, place, garment.cut_from, f.fitter, f.worn_beneath, f.heel_mm,
                len(mine), sum(n.state is State.SETTLED for n in mine),
                sum(n.state is State.CAME_BACK for n in mine), sum(n.waiting for n in mine),
            )
        )  # fmt: skip
    return code, tuple(rows)
