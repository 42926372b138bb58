"""Which earlier notes a garment can be looked at for: those it was cut or altered to answer."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tracker.fitting.garment import Garment
from tracker.fitting.observation import Observation, State
from tracker.tasks.named import note_names, the_version
from tracker.tasks.notes import NoteRow, note_row
from tracker.tasks.versions import lineage

if TYPE_CHECKING:
    from tracker.store.books import Books


def seen_again(books: "Books", code: str, worn: Garment) -> Iterator[tuple[NoteRow, bool]]:
    """Yield the notes not settled that bear on a garment, and whether it has the answer to each.

    A note made at this garment bears on it, one made at a garment it was developed from, and one
    that a version was altered for from which it was cut.
    """
    names = note_names(books, code)
    line = {str(v.address) for v in lineage(books, the_version(books, worn.cut_from))} \
        if worn.cut_from else set[str]()  # fmt: skip
    for note in books.notes(code):
        if note.state is State.SETTLED:
            continue
        noted_at = books.garment(books.fitting(note.fitting_id).garment_id)
        own = noted_at.garment_id == worn.garment_id
        answered = _answered(note, line, own)
        if own or answered or noted_at.cut_from in line:
            yield note_row(code, note, names), answered


def _answered(note: Observation, line: set[str], own: bool) -> bool:
    if note.state is State.ALTERED:
        return note.dealt_with_in in line
    return note.state is State.ON_GARMENT and own
