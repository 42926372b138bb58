"""Why a line is where it is: the steps that moved it, with the notes that asked for them."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.history.version import Address, Version
from tracker.history.why import Lineage, Reason, lines_meant, spots_at
from tracker.pattern.bodyside import BodySide
from tracker.pattern.place import Place
from tracker.tasks.named import note_names, the_version
from tracker.tasks.notes import NoteRow, note_row
from tracker.tasks.versions import NoReason, lineage

if TYPE_CHECKING:
    from tracker.store.books import Books
    from tracker.store.engine import Store


@dataclass(frozen=True, slots=True)
class Line:
    """What is asked about: a seam, an edge of a piece, or a place on one of them.

    Attributes:
        seam: a seam, or
        piece: a piece, and
        edge: its edge.
        side: the wearer's side.
        at: a corner and a distance in mm from it; none for the whole line.
    """

    seam: str | None = None
    piece: str | None = None
    edge: str | None = None
    side: BodySide = BodySide.BOTH
    at: tuple[str, float] | None = None

    @property
    def place(self) -> Place | None:
        """The place, where one is asked about."""
        if self.at is None:
            return None
        corner, distance_mm = self.at
        on = (None, None) if self.seam else (self.piece, self.edge)
        return Place(
            seam=self.seam or None, piece=on[0], edge=on[1], side=self.side, corner=corner,
            distance_mm=distance_mm,
        )  # fmt: skip

    @property
    def sentence(self) -> str:
        """What it is in words."""
        if self.place:
            return self.place.sentence
        return f"{self.seam} seam" if self.seam else f"{self.edge} of the {self.piece}"


@dataclass(frozen=True, slots=True)
class Because:
    """One reason with the notes behind it."""

    reason: Reason
    notes: tuple[NoteRow, ...]


def why_there(
    store: "Store", said: str | None, line: Line
) -> tuple[Address, str, tuple[Because, ...]]:
    """Tell why a seam, an edge or a place is where it is: newest reason first.

    Raises:
        NoReason: neither seam nor edge was named.
        TrackerError: the version has none of that name; the nearest are suggested.
    """
    if not line.seam and not (line.piece and line.edge):
        raise NoReason("why is what there? Name it with --seam, or with --piece and --edge")
    with store.reading() as books:
        version = the_version(books, said)
        told = Lineage.of(lineage(books, version))
        if line.place:
            reasons = told.why_at(spots_at(version.pattern, line.place))
        else:
            piece, edge = line.piece or "", line.edge or ""
            reasons = told.why(lines_meant(version.pattern, line.seam, piece, edge, line.side))
        return version.address, line.sentence, _with_notes(books, version, reasons)


def why_each_seam(
    books: "Books", line: tuple[Version, ...]
) -> tuple[tuple[str, tuple[Because, ...]], ...]:
    """Tell of every seam of a version why it is where it is.

    Args:
        books: the books.
        line: the version's ancestors and itself, the root first.
    """
    version, told = line[-1], Lineage.of(line)
    names = tuple(dict.fromkeys((s.name, s.side) for s in version.pattern.seams))
    out = []
    for name, side in names:
        who = f"{side} " if side in (BodySide.RIGHT, BodySide.LEFT) else ""
        edges = lines_meant(version.pattern, name, "", "", side)
        out.append((f"{who}{name} seam", _with_notes(books, version, told.why(edges))))
    return tuple(out)


def _with_notes(books: "Books", version: Version, reasons: Iterable[Reason]) -> tuple[Because, ...]:
    client = version.address.client
    known = {n.observation_id: n for n in books.notes(client)}
    names = note_names(books, client)
    return tuple(
        Because(r, tuple(note_row(client, known[b], names) for b in r.because if b in known))
        for r in reasons
    )
