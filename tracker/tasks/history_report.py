"""The client history report: body over time, garments, fittings, notes and versions."""

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.body.measurement import BodySide
from tracker.body.repeatability import compare, least_real_change
from tracker.body.session import MeasuringSession
from tracker.body.vocabulary import measurement, name_with_side
from tracker.fitting.garment import Fitting, Garment, dressed_otherwise
from tracker.fitting.observation import Observation, State
from tracker.output.chart import Reading, Series
from tracker.output.client import (
    ClientHistory,
    FittingRow,
    GarmentRow,
    NoteRow,
    SessionRow,
    VersionRow,
    client_html,
)
from tracker.output.comparison import WhyRow
from tracker.tasks.clients import card_of
from tracker.tasks.named import the_client, the_version
from tracker.tasks.notes import reading_words
from tracker.tasks.papers import day_words, write_paper
from tracker.tasks.preferences import Manner, manner
from tracker.tasks.reasons import why_each_seam
from tracker.tasks.reporting import why_rows
from tracker.tasks.versions import lineage
from tracker.units import write_both

if TYPE_CHECKING:
    from tracker.store.books import Books
    from tracker.store.engine import Store


def report_history(
    store: "Store", code: str | None, out: Path | None, today: dt.date
) -> tuple[str, Path]:
    """Write a client's history as one HTML file; return her code and the file.

    Raises:
        TrackerError: no such client, or the file cannot be written.
    """
    how = manner(store)
    with store.reading() as books:
        client = the_client(books, code)
        sessions = books.sessions(client.code)
        about = ClientHistory(
            client_code=client.code,
            card=_card(store, client.code),
            cautions=client.card.cautions(),
            sessions=tuple(_session(s) for s in sessions),
            series=_series(sessions),
            said=_said(sessions),
            garments=tuple(_garments(books, client.code, sessions, how)),
            versions=tuple(_versions(books, client.code)),
            why=tuple(_why(books, client.code)),
            day=day_words(today),
            unit=how.unit,
        )
    path = out or Path(f"{client.code}-history.html")
    return client.code, write_paper(path, client_html(about).encode())


def _card(store: "Store", code: str) -> tuple[tuple[str, str], ...]:
    card = card_of(store, code)
    rows = (
        ("Posture", "; ".join(card.posture)),
        ("Likes", "; ".join(card.likes)),
        ("Allergies", "; ".join(card.allergies)),
        ("Agreed to", "; ".join(card.consents)),
        ("Note", card.note),
    )
    return tuple((head, words) for head, words in rows if words)


def _session(s: MeasuringSession) -> SessionRow:
    kind = f"passing: {s.reason}" if s.is_passing else "usual"
    heels = write_both(s.heel_mm) if s.heel_mm else "none"
    return SessionRow(s.on, s.by, s.wearing, heels, kind, len(s.readings), s.note)


def _series(sessions: tuple[MeasuringSession, ...]) -> tuple[Series, ...]:
    found: dict[tuple[str, BodySide], list[Reading]] = {}
    for s in sessions:
        for r in s.readings:
            reading = Reading(s.on, r.value, s.is_passing, r.estimated)
            found.setdefault((r.key, r.side), []).append(reading)
    ordered = sorted(found, key=lambda k: (measurement(k[0]).order, k[1]))
    return tuple(
        Series(
            name_with_side(measurement(key), side), tuple(found[key, side]),
            least_real_change(key), measurement(key).unit == "deg",
        )
        for key, side in ordered
    )  # fmt: skip


def _said(sessions: tuple[MeasuringSession, ...]) -> tuple[str, ...]:
    if len(sessions) < 2:
        return ()
    found = compare(sessions[-2], sessions[-1])
    return (found.sentence, *(c.sentence for c in found.real), *found.conditions)


def _garments(
    books: "Books", code: str, sessions: tuple[MeasuringSession, ...], how: Manner
) -> list[GarmentRow]:
    notes = books.notes(code)
    days = {f.fitting_id: f.on for f in books.fittings(code)}
    rows = []
    for k, g in enumerate(books.garments(code), start=1):
        fittings = sorted(books.fittings(code, g.garment_id), key=lambda f: f.on)
        rows.append(
            GarmentRow(
                f"Garment {k}",
                _garment_facts(g, how),
                tuple(_fitting(f, notes, sessions, days) for f in fittings),
            )
        )
    return rows


def _garment_facts(g: Garment, how: Manner) -> str:
    cut = f", cut from {g.cut_from}" if g.cut_from else ""
    cloth = f" in {g.cloth}" if g.cloth else ""
    return f"{how.worded(str(g.kind))}{cut}{cloth}, {day_words(g.made_on)}"


def _fitting(
    f: Fitting,
    notes: tuple[Observation, ...],
    sessions: tuple[MeasuringSession, ...],
    days: dict[str, dt.date],
) -> FittingRow:
    facts = [f"by {f.fitter}" if f.fitter else "", f"over {f.worn_beneath}" * bool(f.worn_beneath)]
    facts += [f"heels {write_both(f.heel_mm)}" if f.heel_mm else "no heels"]
    facts += ["worn inside out" if f.inside_out else "right side out"]
    before = [s for s in sessions if s.on <= f.on]
    warnings = (
        dressed_otherwise(f.worn_beneath, f.heel_mm, before[-1].wearing, before[-1].heel_mm)
        if before
        else ()
    )
    return FittingRow(
        day_words(f.on),
        ", ".join(fact for fact in facts if fact),
        tuple(_note(n, days) for n in notes if n.fitting_id == f.fitting_id),
        "; ".join(warnings),
    )


def _note(n: Observation, days: dict[str, dt.date]) -> NoteRow:
    state = str(n.state)
    if n.state is State.ALTERED and n.dealt_with_in:
        state = f"altered in {n.dealt_with_in}"
    elif n.settled_at in days:
        state = f"{n.state} on {day_words(days[n.settled_at])}"
    direction = f" {n.direction}" if n.direction else ""
    return NoteRow(
        place=n.where,
        seen=f"{n.sign}{direction}, {n.strength}",
        amounts="; ".join(reading_words(r) for r in n.readings),
        fitter=n.fitter_words,
        client=n.client_words,
        state=state,
        settled=n.state is State.SETTLED,
        cause=str(n.cause),
    )


def _why(books: "Books", code: str) -> list[tuple[str, tuple[WhyRow, ...]]]:
    """Of each pattern's newest version, why each seam is where it is."""
    found = []
    for name in books.pattern_names(code):
        newest = the_version(books, f"{code}/{name}")
        told = why_rows(why_each_seam(books, lineage(books, newest)))
        found.append((str(newest.address), told))
    return [(address, told) for address, told in found if told]


def _versions(books: "Books", code: str) -> list[VersionRow]:
    rows = []
    for name in books.pattern_names(code):
        lines = books.versions_listed(code, name)
        for line in lines:
            rows.append(
                VersionRow(
                    str(line.address), line.parent, day_words(dt.date.fromisoformat(line.made_on)),
                    line.standing, line.sentence, line is lines[-1],
                )
            )  # fmt: skip
    return rows
