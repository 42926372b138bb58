"""A version's steps in words and amounts, piece by piece: to mark on paper or on the garment."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Kind, kind_named
from tracker.errors import TrackerError
from tracker.history.compare import compare
from tracker.history.step import Taken
from tracker.history.version import Address, Version
from tracker.output.cards import MarkingUpSheet, MarkUp, marking_up_html
from tracker.output.compared import seam_rows
from tracker.pattern.bodyside import BodySide
from tracker.tasks.named import the_version
from tracker.tasks.papers import day_words, write_paper
from tracker.tasks.preferences import manner
from tracker.tasks.reporting import estimated_cautions, reason_words, reasons_of
from tracker.tasks.versions import lineage
from tracker.units import in_both, write_both

if TYPE_CHECKING:
    from tracker.pattern.pattern import Pattern
    from tracker.pattern.seam import Seam
    from tracker.store.engine import Store

#: Piece, where, what, and how much in mm, where it is a length.
_Mark = tuple[str, str, str, float | None]

#: Changes under this are not worth marking.
WORTH_MARKING_MM = 0.05


class NothingToMark(TrackerError):
    """A marking-up sheet of a version that has no steps."""


def write_marking_up(
    store: "Store", said: str | None, out: Path | None
) -> tuple[Address, int, Path]:
    """Write what to mark on the parent's pieces to have a version; also of a pattern on paper.

    Args:
        store: the store.
        said: the version.
        out: the file; none for CLIENT-PATTERN-3-marking.html here.

    Returns:
        The version, how many marks there are, and the file.

    Raises:
        NothingToMark: it was drafted or brought in, not made by steps.
        TrackerError: no such version, or the file cannot be written.
    """
    unit = manner(store).unit
    with store.reading() as books:
        version = the_version(books, said)
        line = lineage(books, version)
        reasons = reasons_of(books, version.address.client)
    a = version.address
    if not version.taken or len(line) < 2:
        raise NothingToMark(
            f"{a} was not made from another version by steps, so there is nothing to mark; print "
            f"it with: tracker print {a}"
        )
    parent = line[-2]
    marks: list[MarkUp] = []
    for taken in version.taken:
        why = "; ".join(reason_words(reasons[b]) for b in taken.step.because if b in reasons)
        for piece, where, what, mm in _marks(taken, parent.pattern, version.pattern):
            marks.append(MarkUp(len(marks) + 1, piece, where, what, mm, why))
            why = ""  # said once, with the first mark of its step
    about = MarkingUpSheet(
        client_code=a.client,
        address=str(a),
        onto=str(parent.address),
        day=day_words(version.made_on),
        standing=str(version.standing),
        marks=tuple(marks),
        after=tuple(_after(parent, version)),
        cautions=estimated_cautions(line),
        unit=unit,
    )
    path = out or Path(f"{a.client}-{a.pattern}-{a.number}-marking.html")
    return a, len(marks), write_paper(path, marking_up_html(about).encode())


def _marks(taken: Taken, old: "Pattern", new: "Pattern") -> Iterator[_Mark]:
    """Say a step piece by piece: amounts at a seam's places on each of its pieces, or in words."""
    kind = _kind_of(taken)
    amounts = getattr(kind, "amounts", ())
    share = getattr(kind, "share", None)
    seam = _seam(taken, old) or _seam(taken, new)
    if share is None or seam is None or not all(isinstance(a, AmountAt) for a in amounts):
        yield _in_words(taken, kind)
        return
    for piece, part, on in (s for s in _sides(seam, share) if s[1]):
        for amount in amounts:
            mm = amount.amount_mm * part
            what = f"take in{on}" if mm > 0 else f"let out{on}" if mm < 0 else "to nothing"
            where = f"{seam.name} seam, {amount.words}"
            if amount.amount_mm == 0 or abs(mm) >= WORTH_MARKING_MM:
                yield _whose(piece, kind), in_both(where), what, mm or None


def _kind_of(taken: Taken) -> Kind | None:
    try:
        return kind_named(taken.step.kind).from_parameters(taken.step.parameters)
    except TrackerError:
        return None  # recorded by a newer program: its sentence still says it


def _seam(taken: Taken, pattern: "Pattern") -> "Seam | None":
    parameters: Any = taken.step.parameters
    try:
        return pattern.seam(parameters["seam"], BodySide(parameters.get("side", "both")))
    except (TrackerError, KeyError, ValueError):
        return None


def _sides(seam: "Seam", share: float) -> tuple[tuple[str, float, str], ...]:
    """Each piece with its part of an amount, and how it is to be understood."""
    if seam.side is BodySide.CENTRE:
        return ((seam.first[0].piece, 0.5, ", each half"),)
    return (seam.first[0].piece, share, ""), (seam.second[0].piece, 1 - share, "")


def _whose(piece: str, kind: Kind | None) -> str:
    side = getattr(kind, "side", BodySide.BOTH)
    return f"{side} {piece}" if side in (BodySide.RIGHT, BodySide.LEFT) else piece


def _in_words(taken: Taken, kind: Kind | None) -> _Mark:
    parameters: Any = taken.step.parameters
    piece = parameters.get("piece")
    label = _whose(str(piece), kind) if piece else ", ".join(taken.effect.pieces) or "all"
    named = [parameters.get(word) for word in ("edge", "notch", "corner", "dart", "level", "seam")]
    where = ", ".join(str(word) for word in named if word)
    amount = (kind.amount_mm or None) if kind else None
    return label, where, in_both(taken.sentence), amount


def _after(old: Version, new: Version) -> Iterator[str]:
    """What must be true when all is marked, and what is left to do elsewhere."""
    found = compare(old.pattern, new.pattern)
    for row in seam_rows(found):
        if row.new is not None and row.old != row.new:
            second = f", {row.new.second} {write_both(row.new.second_mm)}" * bool(row.new.second)
            yield f"{row.seam} seam: {row.new.first} {write_both(row.new.first_mm)}{second}"
    for girth in (*found.girths, *found.rounds):
        if girth.after is not None and abs(girth.by) >= WORTH_MARKING_MM:
            # Across back and front are widths: nothing goes round there.
            way = "as sewn" if girth.what.startswith("across ") else "all round, as sewn"
            yield f"{girth.what}: {write_both(girth.after)} {way}"
    for taken in new.taken:
        yield from (in_both(sentence) for sentence in taken.effect.leaves)
