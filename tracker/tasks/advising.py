"""What a note without an amount may come from, and what to do to find out."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.fitting.looking import stage_of
from tracker.fitting.propose import has_amount
from tracker.fitting.remedy import Cause
from tracker.fitting.scene import Scene
from tracker.fitting.suggest import Suggestion, grouped, in_order, likely
from tracker.tasks.altering import parent_of
from tracker.tasks.kind_written import command_line, command_words
from tracker.tasks.named import note_names, the_client, the_note, the_version
from tracker.tasks.notes import NoteRow, note_row

if TYPE_CHECKING:
    from tracker.fitting.observation import Observation
    from tracker.history.version import Address
    from tracker.pattern.pattern import Pattern
    from tracker.store.books import Books
    from tracker.store.engine import Store


@dataclass(frozen=True, slots=True)
class Likely:
    """A likely cause, as it is shown.

    Attributes:
        name: the cause.
        seen: what it is read from, in a fitter's words.
        tell: what to look at, pin or measure to tell it from the others.
        remedy: what would be done.
        asks: the amount that is wanted.
        usual_mm: from and to which amount is usual.
        usual_from: where that is said.
        source: the handbook, or that it is common practice.
        propose: what to type to see it.
        make: the same by its kind and parameters, with an amount to be filled in.
        by_hand: what to do where no kind of alteration does it here, and
        why_not: why none does.
    """

    name: str
    seen: str
    tell: str
    remedy: str
    asks: str
    usual_mm: tuple[float, float] | None
    usual_from: str
    source: str
    propose: str
    make: tuple[str, ...]
    by_hand: str
    why_not: str


@dataclass(frozen=True, slots=True)
class Advice:
    """A note with its likely causes.

    Attributes:
        note: the note.
        stage: when it is looked at.
        causes: its likely causes, likeliest first.
    """

    note: NoteRow
    stage: str
    causes: tuple[Likely, ...]


def advise(
    store: "Store", client: str | None, notes: Iterable[str], start: str | None = None
) -> tuple["Address", tuple[Advice, ...]]:
    """Return the likely causes of some notes, in the order of looking; nothing is stored.

    Args:
        store: the store.
        client: the client, or nothing for the only one.
        notes: notes as they are said (2.3).
        start: the version they are looked at on; without it the newest that was fitted.

    Raises:
        TrackerError: no such note or version.
    """
    with store.reading() as books:
        code = the_client(books, client).code
        found = tuple(the_note(books, code, name) for name in dict.fromkeys(notes))
        parent, _ = parent_of(books, found, start, code)
        names = note_names(books, code)
        return parent.address, tuple(
            Advice(
                note_row(code, note, names),
                stage_of(note, parent.pattern).words,
                tuple(
                    _shown(parent.pattern, note, s, names[note.observation_id], code)
                    for s in likely(parent.pattern, note, drawn=True)
                ),
            )
            for note in in_order(parent.pattern, found)
        )


def without_amount(store: "Store", client: str | None, notes: Iterable[str]) -> tuple[str, ...]:
    """Return those of some notes that say what is seen and not how much."""
    with store.reading() as books:
        code = the_client(books, client).code
        return tuple(n for n in dict.fromkeys(notes) if not has_amount(the_note(books, code, n)))


def _shown(
    pattern: "Pattern", note: "Observation", suggestion: Suggestion, name: str, code: str
) -> Likely:
    cause, remedy = suggestion.cause, suggestion.remedy
    return Likely(
        name=cause.name,
        seen=suggestion.row.seen,
        tell=cause.tell,
        remedy=remedy.words if remedy else "",
        asks=remedy.asks if remedy else "",
        usual_mm=cause.usual_mm,
        usual_from=cause.usual_from,
        source=cause.source,
        propose=_typed(name, code, cause) if remedy else "",
        make=_made(pattern, note, suggestion),
        by_hand="" if remedy else cause.by_hand,
        why_not=suggestion.why_not,
    )


def _typed(name: str, code: str, cause: Cause) -> str:
    by = f"{cause.trial_mm:.0f}mm"
    return f'tracker alter propose {name} --client {code} --as "{cause.name}" --by {by}'


def _made(pattern: "Pattern", note: "Observation", suggestion: Suggestion) -> tuple[str, ...]:
    if suggestion.remedy is None:
        return ()
    steps = suggestion.remedy.made(Scene(pattern, note), suggestion.cause.trial_mm)
    return tuple(command_line(command_words(kind)) for kind in steps)


# -- the order of looking -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StageRow:
    """A stage of looking, with the notes that wait in it."""

    stage: str
    notes: tuple[NoteRow, ...]


def waiting_in_order(store: "Store", client: str | None) -> tuple[str, tuple[StageRow, ...]]:
    """Return a client's code and her open notes, in the order of looking."""
    with store.reading() as books:
        code = the_client(books, client).code
        names = note_names(books, code)
        open_notes = [n for n in books.notes(code) if n.waiting]
        patterns = {
            n.observation_id: p for n in open_notes if (p := _worn(books, n)) is not None
        }  # fmt: skip
        stages = grouped(open_notes, patterns)
    return code, tuple(
        StageRow(stage.words, tuple(note_row(code, n, names) for n in some))
        for stage, some in stages
    )


def _worn(books: "Books", note: "Observation") -> "Pattern | None":
    garment = books.garment(books.fitting(note.fitting_id).garment_id)
    return the_version(books, garment.cut_from).pattern if garment.cut_from else None


# -- the table ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SignRow:
    """A row of the table of signs, as it is listed."""

    seen: str
    signs: tuple[str, ...]
    at: tuple[str, ...]
    causes: tuple[str, ...]
    source: str


def sign_rows(words: str = "") -> tuple[SignRow, ...]:
    """Return the table of signs; only rows in which some words stand, if given."""
    from tracker.fitting.signs import ROWS

    rows = tuple(SignRow(r.seen, tuple(map(str, r.signs)), r.at, r.causes, r.source) for r in ROWS)
    wanted = words.lower().split()
    return tuple(
        r for r in rows
        if all(w in " ".join((r.seen, *r.signs, *r.at, *r.causes)).lower() for w in wanted)
    )  # fmt: skip


# -- readings -----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """What one reading means for one kind of alteration.

    Attributes:
        kind: the kind's word.
        reading: how it was read.
        means: what it comes to, in words, with 10 mm as the example; why not, where it says
            nothing.
    """

    kind: str
    reading: str
    means: str


def reading_rows(kind: str = "") -> tuple[ReadingRow, ...]:
    """Return what each reading means for each kind, or for one.

    Raises:
        TrackerError: no reading is taken for that kind.
    """
    from tracker.fitting.counting import AMOUNTS, Spot, read_for
    from tracker.fitting.garment import FittingError
    from tracker.fitting.reading import ReadingKind

    rows = []
    for word in [kind] if kind else list(AMOUNTS):
        for reading in ReadingKind:
            if reading is ReadingKind.FROM_FLOOR:
                continue
            try:
                means = read_for(word, reading, 10.0, Spot.PAIR).echo
            except FittingError as fault:
                if word not in AMOUNTS:
                    raise
                means = fault.sentence
            rows.append(ReadingRow(word, str(reading), means))
    return tuple(rows)
