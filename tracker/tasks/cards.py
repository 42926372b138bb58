"""Sheets to write on: the card for the next fitting, and the measuring sheet."""

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.fitting.garment import Garment
from tracker.fitting.observation import State
from tracker.output.cards import FittingCard, OpenNote, fitting_card_html, measuring_sheet_html
from tracker.tasks.measuring import sheet_for
from tracker.tasks.named import the_client, the_garment
from tracker.tasks.notes import NoteRow
from tracker.tasks.papers import day_words, write_paper
from tracker.tasks.preferences import Manner, manner
from tracker.tasks.seen_again import seen_again
from tracker.units import write_both

if TYPE_CHECKING:
    from tracker.store.books import Books
    from tracker.store.engine import Store


def write_fitting_card(
    store: "Store", code: str | None, garment: int | None, out: Path | None
) -> tuple[str, int, Path]:
    """Write the card for a garment's next fitting; return client, number of notes and file.

    Args:
        store: the store.
        code: the client, or nothing for the only one.
        garment: the garment's number; none for the last one made.
        out: the file; none for CLIENT-fitting-3.html here, numbered as that fitting will be.

    Raises:
        TrackerError: no such client or garment, or the file cannot be written.
    """
    how = manner(store)
    with store.reading() as books:
        client = the_client(books, code)
        worn = the_garment(books, client.code, garment)
        number = books.garments(client.code).index(worn) + 1
        fitting = len(books.fittings(client.code)) + 1
        again = tuple(_again(*bearing) for bearing in seen_again(books, client.code, worn))
        dressed = _dressed(books, client.code)
    card = FittingCard(
        client_code=client.code,
        garment=_garment_words(worn, number, how),
        address=worn.cut_from or "",
        facts=(
            *(("Measured in", dressed),) * bool(dressed),
            ("Date", ""),
            ("Fitted by", ""),
            ("Worn beneath", ""),
            ("Heels", ""),
            ("Worn", "right side out / inside out"),
        ),
        cautions=client.card.cautions(),
        again=again,
        unit=how.unit,
    )
    path = out or Path(f"{client.code}-fitting-{fitting}.html")
    return client.code, len(again), write_paper(path, fitting_card_html(card).encode())


def _garment_words(garment: Garment, number: int, how: Manner) -> str:
    cloth = f" in {garment.cloth}" if garment.cloth else ""
    return f"{how.worded(str(garment.kind))}{cloth}, garment {number}"


def _dressed(books: "Books", code: str) -> str:
    """What she wore when she was measured last: she is best fitted in the same."""
    sessions = books.sessions(code)
    if not sessions:
        return ""
    last = sessions[-1]
    heels = f"heels {write_both(last.heel_mm)}" if last.heel_mm else "no heels"
    return f"{last.wearing or 'not said'}, {heels} ({day_words(last.on)})"


def _again(row: NoteRow, answered: bool) -> OpenNote:
    direction = f" {row.direction}" if row.direction else ""
    words = [f"{row.sign}{direction}, {row.strength}", *row.readings]
    words += [f"“{said}”" for said in (row.fitter_words, row.client_words) if said]
    where, told = f"{row.name} {row.where}", "; ".join(words)
    if row.state == State.ALTERED and answered:
        return OpenNote(where, f"{told}. Altered in {row.dealt_with_in}.")
    if row.state == State.ON_GARMENT and answered:
        return OpenNote(where, f"{told}. Done on the garment.")
    state = {
        State.ALTERED: f"Altered in {row.dealt_with_in}, which this garment is not cut from",
        State.ON_GARMENT: "Done on another garment",
        State.CAME_BACK: "Came back, not altered since",
    }.get(State(row.state), "Not altered yet")
    return OpenNote(where, f"{told}. {state}.", "still shows / gone")


def write_measuring_sheet(
    store: "Store",
    code: str | None,
    purposes: tuple[str, ...],
    blank: bool,
    with_last: bool,
    out: Path | None,
    today: dt.date,
) -> tuple[str, Path]:
    """Write a measuring sheet to print; return the client's code ("" when blank) and the file.

    Args:
        store: the store.
        code: the client, or nothing for the only one.
        purposes: the blocks it is for.
        blank: for nobody yet.
        with_last: print what was there last time beside each box.
        out: the file; none for CLIENT-measuring-2026-03-02.html here.
        today: the date in the file's name.

    Raises:
        TrackerError: no such client or purpose, or the file cannot be written.
    """
    client, sheet = sheet_for(store, code, purposes, blank)
    page = measuring_sheet_html(sheet, client, manner(store).unit, with_last=with_last)
    named = f"{client}-measuring-{today}" if client else "measuring-sheet"
    return client, write_paper(out or Path(f"{named}.html"), page.encode())


def write_tracing_sheet(
    store: "Store", code: str | None, pieces: tuple[str, ...], out: Path | None
) -> Path:
    """Write the sheet to note points on while a paper pattern is measured; return the file.

    Args:
        store: the store, for the maker's unit.
        code: the client it is for; none for nobody yet.
        pieces: the pieces to trace, a sheet for each.
        out: the file; none for tracing-sheet.html here.

    Raises:
        TrackerError: no such client, or the file cannot be written.
    """
    from tracker.output.tracing_sheet import tracing_sheet_html

    client = ""
    if code:
        with store.reading() as books:
            client = the_client(books, code).code
    page = tracing_sheet_html(pieces, client, manner(store).unit)
    named = f"{client}-tracing-sheet" if client else "tracing-sheet"
    return write_paper(out or Path(f"{named}.html"), page.encode())
