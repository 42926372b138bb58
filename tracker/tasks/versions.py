"""Versions: list, show, standing, work out again, compare."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.drafting.sleeve_pattern import NAME as SLEEVE
from tracker.errors import TrackerError
from tracker.fitting.observation import read_word
from tracker.history.compare import Comparison, compare
from tracker.history.replay import Replayed, check_again
from tracker.history.version import Address, Standing, Version
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.walk import side_lengths
from tracker.tasks.bodies import girths_by
from tracker.tasks.named import not_to_come, note_names, the_pattern, the_version

if TYPE_CHECKING:
    from tracker.pattern.pattern import Pattern
    from tracker.pattern.seam import Seam
    from tracker.store.books import Books
    from tracker.store.engine import Store


#: How a sentence begins to name what was worked out from other measurements.
ESTIMATED = "estimated, not measured: "


class NoReason(TrackerError):
    """Why was asked of nothing in particular."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class VersionRow:
    """A version in a list.

    Attributes:
        address: client/pattern@number.
        made_on: its date.
        parent: the version it was made from, if any.
        standing: how far it has come.
        standing_by: who approved it.
        printed_on: when it was last printed, if it is the last one printed.
        sentence: what it is.
    """

    address: str
    made_on: str
    parent: str | None
    standing: str
    standing_by: str
    printed_on: dt.date | None
    sentence: str


@dataclass(frozen=True, slots=True)
class SeamRow:
    """A seam's two sides in mm."""

    name: str
    side: str
    first_piece: str
    first_mm: float
    second_piece: str
    second_mm: float
    planned_ease_mm: float


@dataclass(frozen=True, slots=True)
class PieceRow:
    """A piece: how it is cut, its darts with their intake in mm, its edges with their lengths."""

    label: str
    cut: str
    darts: tuple[tuple[str, float], ...]
    edges: tuple[tuple[str, float], ...]
    notches: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """A version with its figures.

    Attributes:
        row: as it is listed.
        estimated: names of the body measurements that were estimated, not taken.
        steps: what was done, in sentences.
        notes: the notes behind the steps, as they are said.
        girths: (line, finished mm, ease mm or nothing) of the whole garment.
        rounds: (neckline or armhole, mm) all round.
        seams: every seam.
        pieces: every piece.
        measured_on: the day of the measuring that ease is told against.
    """

    row: VersionRow
    estimated: tuple[str, ...]
    steps: tuple[str, ...]
    notes: tuple[str, ...]
    girths: tuple[tuple[str, float, float | None], ...]
    rounds: tuple[tuple[str, float], ...]
    seams: tuple[SeamRow, ...]
    pieces: tuple[PieceRow, ...]
    measured_on: dt.date | None


def versions_of(store: "Store", said: str | None) -> tuple[VersionRow, ...]:
    """Return the versions of a pattern, of all of a client's patterns, or of everybody's."""
    with store.reading() as books:
        return tuple(
            row
            for client, pattern, number in _patterns(books, said)
            for row in _rows(books, client, pattern)
            if number is None or row.address.endswith(f"@{number}")
        )


def _patterns(books: "Books", said: str | None) -> list[tuple[str, str, int | None]]:
    codes = [c.code for c in books.clients()]
    if said and said not in codes:
        return [the_pattern(books, said)]
    if said:
        codes = [said]
    return [(c, name, None) for c in codes for name in books.pattern_names(c)]


def _rows(books: "Books", client: str, pattern: str) -> list[VersionRow]:
    printed = books.last_printed(client, pattern)
    return [
        VersionRow(
            address=str(line.address),
            made_on=line.made_on,
            parent=line.parent,
            standing=line.standing,
            standing_by=line.standing_by,
            printed_on=printed[1] if printed and printed[0] == line.address else None,
            sentence=line.sentence,
        )
        for line in books.versions_listed(client, pattern)
    ]


def _row(books: "Books", address: Address) -> VersionRow:
    rows = _rows(books, address.client, address.pattern)
    return next(r for r in rows if r.address == str(address))


def show_version(store: "Store", said: str | None) -> Shown:
    """Return a version with its figures as sewn."""
    with store.reading() as books:
        version = the_version(books, said)
        code = version.address.client
        body = girths_by(books, code, version.made_on)
        names = note_names(books, code)
        row = _row(books, version.address)
        line = lineage(books, version)
    pattern, girths = version.pattern, body.at if body else {}
    because = dict.fromkeys(names.get(b, b) for t in version.taken for b in t.step.because)
    drawn = all(p.has_outline for p in pattern.pieces)
    return Shown(
        row=row,
        estimated=all_estimated(line),
        steps=tuple(t.sentence for t in version.taken),
        notes=tuple(because),
        girths=tuple(_girth(pattern, line, girths.get(line)) for line in lines_of(pattern)),
        rounds=tuple(
            (e, mm) for e in ("neckline", "armhole") if drawn and (mm := around(pattern, e)) > 0
        ),
        seams=tuple(found for s in pattern.seams if (found := _seam(pattern, s))),
        pieces=tuple(_pieces(pattern)),
        measured_on=body.on if body else None,
    )


def _girth(pattern: "Pattern", line: str, body: float | None) -> tuple[str, float, float | None]:
    finished = girth(pattern, line)
    return line, finished, None if body is None else finished - body


def _seam(pattern: "Pattern", seam: "Seam") -> SeamRow | None:
    edges = [pattern.edge_of(r) for r in (*seam.first, *seam.second)]
    if any(not e.parts and e.declared_mm is None for e in edges):
        return None
    first, second = side_lengths(pattern, seam)
    return SeamRow(
        seam.name, str(seam.side), seam.first[0].piece, first, seam.second[0].piece, second,
        seam.planned_ease_mm,
    )  # fmt: skip


def _pieces(pattern: "Pattern") -> list[PieceRow]:
    return [
        PieceRow(
            p.label,
            p.cut,
            tuple((d.name, d.intake_mm) for d in p.darts),
            tuple((e.name, e.length) for e in p.edges if e.parts or e.declared_mm is not None),
            tuple(n.name for n in p.notches),
        )
        for p in pattern.pieces
    ]


def set_standing(
    store: "Store", said: str | None, standing: str, by: str, on: dt.date, today: dt.date
) -> VersionRow:
    """Say how far a version has come; approving it for cloth needs a name.

    Raises:
        TrackerError: no such version or standing, or nobody approved it.
    """
    word = {"approved": "approved for cloth", "test": "for a test garment"}.get(
        standing.strip().lower(), standing
    )
    to = read_word(Standing, word, "standing")
    not_to_come(on, today, "a standing")
    if to is Standing.APPROVED_FOR_CLOTH and not by.strip():
        raise NoReason("who approves it for cloth? Say so with --by")
    with store.writing() as books:
        version = the_version(books, said)
        if on < version.made_on:
            raise TrackerError(f"{version.address} was made on {version.made_on}, after {on}")
        books.set_standing(version.address, to, by.strip(), on)
        return _row(books, version.address)


def work_out_again(
    store: "Store", said: str | None, step: Callable[[str], None] = lambda _: None
) -> tuple[Replayed, ...]:
    """Work a version, a pattern's versions or all versions out again and compare.

    Args:
        store: the store.
        said: a version, a pattern or a client; nothing for all.
        step: is told each version's address before it is looked at.
    """
    found: list[Replayed] = []
    with store.reading() as books:
        for client, pattern, number in _patterns(books, said):
            for line in books.versions_listed(client, pattern):
                if number is None or line.address.number == number:
                    step(str(line.address))
                    found.append(_again(books, line.address))
    if not found and said:
        with store.reading() as books:
            the_version(books, said)  # says what is not there
    return tuple(found)


def _again(books: "Books", address: Address) -> Replayed:
    kept = books.as_kept(address.client, address.pattern, address.number)
    if kept.version is None or kept.faults:
        return Replayed(str(address), tuple(f"{address}: {f}" for f in kept.faults), (), 0.0)
    parent = None
    if kept.version.parent:
        client, pattern, number = Address.parse(kept.version.parent)
        parent = books.as_kept(client, pattern, number).version
    return check_again(kept.version, parent)


def compare_versions(
    store: "Store", before: str | None, after: str | None
) -> tuple[Address, Address, Comparison]:
    """Compare two versions: those named; one and its parent; or the newest and its parent.

    Raises:
        TrackerError: no such version, or the only one named has no parent.
    """
    with store.reading() as books:
        old, new = two_versions(books, before, after)
    return old.address, new.address, compare(old.pattern, new.pattern)


def two_versions(books: "Books", before: str | None, after: str | None) -> tuple[Version, Version]:
    """Return two versions to hold against each other, older first as named.

    Raises:
        NoReason: only one was named and it has no parent.
        TrackerError: no such version.
    """
    if before and after:
        first = the_version(books, before)
        if after.startswith("@"):
            after = f"{first.address.client}/{first.address.pattern}{after}"
        return first, the_version(books, after)
    version = the_version(books, after or before)
    if not version.parent:
        raise NoReason(f"{version.address} has no parent to compare it with; name two versions")
    return the_version(books, version.parent), version


def lineage(books: "Books", version: Version) -> tuple[Version, ...]:
    """Return a version's ancestors and itself, the root first."""
    line = [version]
    while line[0].parent:
        line.insert(0, books.version(*Address.parse(line[0].parent)))
    return tuple(line)


def estimated_of(line: tuple[Version, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return (piece, names) of the estimated measurements only that piece was drafted from.

    Args:
        line: a version's ancestors and itself, the root first.
    """
    out: dict[str, tuple[str, ...]] = {}
    for version in line:
        for taken in version.taken:
            if taken.step.kind != AddSleeve.word:
                continue
            names = tuple(taken.step.parameters.get("estimated", ()))
            if not names:  # before a sleeve kept them, its version's sentence named them
                _, _, told = version.sentence.partition(f"; {ESTIMATED}")
                names = tuple(n.strip() for n in told.split(",") if n.strip())
            out[SLEEVE] = names
    there = {p.name for p in line[-1].pattern.pieces}
    return tuple((piece, names) for piece, names in out.items() if names and piece in there)


def all_estimated(line: tuple[Version, ...]) -> tuple[str, ...]:
    """Return the names of the measurements that were estimated for any piece of a version."""
    own = [name for _, names in estimated_of(line) for name in names]
    return tuple(dict.fromkeys((*line[0].estimated, *own)))


def newer_approved(books: "Books", address: Address) -> Address | None:
    """Return the newest version of a pattern approved for cloth, where it is newer than one."""
    approved = [
        line.address
        for line in books.versions_listed(address.client, address.pattern)
        if line.standing == Standing.APPROVED_FOR_CLOTH
    ]
    return approved[-1] if approved and approved[-1].number > address.number else None
