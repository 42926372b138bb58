"""A client's history on one page: body over time, versions, garments, fittings, notes."""

import datetime as dt
from dataclasses import dataclass

from tracker.output.chart import Reading, Series, series_chart, value_words
from tracker.output.comparison import WhyRow
from tracker.output.figures import MINUS
from tracker.output.report import page
from tracker.units import Unit, write_angle, write_length


@dataclass(frozen=True, slots=True)
class SessionRow:
    """A measuring session.

    Attributes:
        on: the day.
        by: who measured.
        worn: what was worn.
        heels: heel height in words.
        kind: "usual", or "passing: pregnancy".
        taken: how many measurements.
        remark: anything else.
    """

    on: dt.date
    by: str
    worn: str
    heels: str
    kind: str
    taken: int
    remark: str = ""


@dataclass(frozen=True, slots=True)
class VersionRow:
    """A version in the tree.

    Attributes:
        address: "bodice@3".
        parent: the address it was made from; none for a root.
        day: its date in words.
        standing: in words.
        sentence: what was done.
        now: it is the one to work from.
    """

    address: str
    parent: str | None
    day: str
    standing: str
    sentence: str
    now: bool = False


@dataclass(frozen=True, slots=True)
class NoteRow:
    """An observation at a fitting.

    Attributes:
        place: where, in words.
        seen: what was seen, and how strong.
        amounts: the readings, in words.
        fitter: the fitter's words.
        client: the client's own words.
        state: "open", "altered in bodice@3", "settled on …", "came back".
        settled: nothing is left to do.
        cause: body, style, cloth or taste.
    """

    place: str
    seen: str
    amounts: str = ""
    fitter: str = ""
    client: str = ""
    state: str = "open"
    settled: bool = False
    cause: str = ""


@dataclass(frozen=True, slots=True)
class FittingRow:
    """A fitting with its notes.

    Attributes:
        day: the date in words.
        facts: who fitted, what was worn beneath, heels, right side or inside out.
        notes: the observations.
        warning: what makes it hard to compare, such as other underwear.
    """

    day: str
    facts: str
    notes: tuple[NoteRow, ...] = ()
    warning: str = ""


@dataclass(frozen=True, slots=True)
class GarmentRow:
    """A garment with its fittings.

    Attributes:
        name: "second test garment".
        facts: what kind, cut from which version, in which cloth, when.
        fittings: its fittings in order.
    """

    name: str
    facts: str
    fittings: tuple[FittingRow, ...] = ()


@dataclass(frozen=True, slots=True)
class ClientHistory:
    """Everything the page shows.

    Attributes:
        client_code: the code that stands for the client.
        card: what stands on the card: a heading and its words.
        cautions: what must not be overlooked: allergies first.
        sessions: measuring sessions, oldest first.
        series: measurements over time.
        said: what the last two sessions tell, one sentence each.
        garments: garments and fittings, oldest first.
        versions: versions; the tree is made from their parents.
        why: of the newest version of each pattern its address, and of each of its seams why it
            is where it is.
        day: the date of the page.
        unit: the maker's unit.
        lang: the language of its words.
    """

    client_code: str
    card: tuple[tuple[str, str], ...] = ()
    cautions: tuple[str, ...] = ()
    sessions: tuple[SessionRow, ...] = ()
    series: tuple[Series, ...] = ()
    said: tuple[str, ...] = ()
    garments: tuple[GarmentRow, ...] = ()
    versions: tuple[VersionRow, ...] = ()
    why: tuple[tuple[str, tuple[WhyRow, ...]], ...] = ()
    day: str = ""
    unit: Unit = Unit.CM
    lang: str = "en"


@dataclass(frozen=True, slots=True)
class Branch:
    """A version with those made from it, for the tree on the page."""

    version: VersionRow
    onward: tuple["Branch", ...]


@dataclass(frozen=True, slots=True)
class _Chart:
    """A chart for a template; its SVG was escaped when it was made."""

    name: str
    svg: str

    def __html__(self) -> str:
        return self.svg


def tree(versions: tuple[VersionRow, ...]) -> tuple[Branch, ...]:
    """Return versions as branches from their roots; a version of an unknown parent is a root."""
    known = {v.address for v in versions}

    def onward(parent: str) -> tuple[Branch, ...]:
        return tuple(Branch(v, onward(v.address)) for v in versions if v.parent == parent)

    roots = [v for v in versions if v.parent not in known]
    return tuple(Branch(v, onward(v.address)) for v in roots)


def client_html(about: ClientHistory) -> str:
    """Return the page: open it from a folder or print it, no network needed."""
    drawn = [s for s in about.series if len(s.readings) > 1]
    days = sorted({r.on for s in about.series for r in s.readings})
    notes = [n for g in about.garments for f in g.fittings for n in f.notes]
    return page(
        "client.html",
        about=about,
        charts=[_Chart(s.name, series_chart(s, about.unit)) for s in drawn],
        days=[f"{day:%d %b %Y}" for day in days],
        rows=[_row(s, days, about.unit) for s in about.series],
        branches=tree(about.versions),
        open_notes=sum(not n.settled for n in notes),
        note_count=len(notes),
    )


def _row(series: Series, days: list[dt.date], unit: Unit) -> dict[str, object]:
    by_day = {r.on: r for r in series.readings}
    usual = [r for r in series.readings if not r.passing and not r.estimated]
    cells = [_cell(series, by_day[d], unit) if d in by_day else "" for d in days]
    changed, real = "", False
    if len(usual) > 1:
        by = usual[-1].value - usual[0].value
        shown = value_words(series, abs(by), unit)
        zero = value_words(series, 0.0, unit)
        changed = shown if shown == zero else ("+" if by > 0 else MINUS) + shown
        real = series.least_real is not None and abs(by) > series.least_real
    least = "" if series.least_real is None else value_words(series, series.least_real, unit)
    return {"name": series.name, "cells": cells, "change": changed, "real": real, "least": least}


def _cell(series: Series, reading: Reading, unit: Unit) -> str:
    shown = write_angle(reading.value) if series.degrees else write_length(reading.value, unit)
    if reading.estimated:
        return f"{shown}, estimated"
    return f"{shown}, passing" if reading.passing else shown
