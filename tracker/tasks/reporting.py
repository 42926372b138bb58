"""The comparison report: two versions and all that lies between them, as plain values."""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.alterations.effect import Effect
from tracker.history.compare import Comparison as Differences
from tracker.history.compare import SeamCompared, compare
from tracker.history.step import Taken
from tracker.history.version import Address, Version
from tracker.output.comparison import (
    Change,
    CheckRow,
    Comparison,
    Furthest,
    GirthRow,
    PatternView,
    SeamRow,
    SeamSides,
    comparison_html,
)
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import Checked, check
from tracker.tasks.bodies import girths_of
from tracker.tasks.named import note_names
from tracker.tasks.notes import NoteRow, note_row
from tracker.tasks.papers import day_words, write_paper
from tracker.tasks.preferences import manner
from tracker.tasks.spots import spot_of
from tracker.tasks.versions import lineage, two_versions
from tracker.units import in_both, write_both

if TYPE_CHECKING:
    from tracker.store.books import Books
    from tracker.store.engine import Store

#: A change of a seam's side under this is not worth a sentence.
WORTH_SAYING_MM = 0.5


@dataclass(frozen=True, slots=True)
class Reported:
    """A report as it was written.

    Attributes:
        path: the file.
        before: the older version.
        after: the newer version.
        changes: the numbered changes' sentences.
    """

    path: Path
    before: Address
    after: Address
    changes: tuple[str, ...]


def report_comparison(
    store: "Store", before: str | None, after: str | None, out: Path | None, today: dt.date
) -> Reported:
    """Write the comparison of two versions as one HTML file.

    Args:
        store: the store.
        before: the older version; see ``compare_versions`` for what may be left out.
        after: the newer one.
        out: the file; without it CLIENT-PATTERN-1-2.html here.
        today: the date on the page.

    Raises:
        TrackerError: no such version, or the file cannot be written.
    """
    unit = manner(store).unit
    with store.reading() as books:
        old, new = two_versions(books, before, after)
        girths = girths_of(books, new.address.client) or {}
        line = lineage(books, new)
        steps = _between(old, line)
        reasons = _reasons(books, new.address.client)
    changes = _changes(steps, new, reasons)
    found = compare(old.pattern, new.pattern)
    checks = check(old.pattern, girths or None), check(new.pattern, girths or None)
    about = Comparison(
        title=f"{old.address} and {new.address}",
        client_code=new.address.client,
        old=_view(old),
        new=_view(new),
        changes=changes,
        girths=_girths(found, girths, dict(new.pattern.ease)),
        seams=tuple(_seam(s) for s in found.seams),
        checks=_checks(*checks),
        furthest=tuple(
            Furthest(p.label, p.furthest_mm, p.furthest_at)
            for p in found.pieces
            if p.area_before is not None and p.area_after is not None
        ),
        laid_on=_laid_on(found),
        not_checked=checks[1].not_checked,
        cautions=_cautions(line),
        day=day_words(today),
        unit=unit,
    )
    path = out or Path(_name(old.address, new.address))
    write_paper(path, comparison_html(about).encode())
    return Reported(path, old.address, new.address, tuple(c.sentence for c in changes))


def _name(old: Address, new: Address) -> str:
    first = f"{old.pattern}-{old.number}"
    second = f"{new.number}" if old.pattern == new.pattern else f"{new.pattern}-{new.number}"
    return f"{new.client}-{first}-{second}.html"


def _view(version: Version) -> PatternView:
    standing = str(version.standing)
    if version.standing_by:
        standing += f" by {version.standing_by}"
    return PatternView(
        str(version.address), version.pattern, day_words(version.made_on), standing,
        version.sentence,
    )  # fmt: skip


def _between(old: Version, line: tuple[Version, ...]) -> tuple[tuple[Version, Taken], ...]:
    """The steps after the old version; all of the new one's own where they are not kin."""
    digests = [v.digest for v in line]
    start = digests.index(old.digest) + 1 if old.digest in digests else len(line) - 1
    return tuple((v, t) for v in line[start:] for t in v.taken)


def _reasons(books: "Books", client: str) -> dict[str, NoteRow]:
    names = note_names(books, client)
    return {n.observation_id: note_row(client, n, names) for n in books.notes(client)}


def _changes(
    steps: tuple[tuple[Version, Taken], ...], new: Version, reasons: dict[str, NoteRow]
) -> tuple[Change, ...]:
    taken = [t for _, t in steps]
    changes = []
    for k, (version, step) in enumerate(steps):
        spot = spot_of(step, taken[k + 1 :], new.pattern)
        piece, side, point = spot or (new.pattern.pieces[0].name, BodySide.BOTH, None)
        why = "; ".join(_reason(reasons[b]) for b in step.step.because if b in reasons)
        changes.append(
            Change(
                number=k + 1,
                piece=piece,
                at=point,
                sentence=(
                    f"{in_both(step.sentence)} ({version.address}, {day_words(version.made_on)})"
                ),
                reason=why,
                effects=effect_sentences(step.effect),
                side=side,
            )
        )
    return tuple(changes)


def _reason(note: NoteRow) -> str:
    words = f": “{note.fitter_words}”" if note.fitter_words else ""
    hers = f"; she said “{note.client_words}”" if note.client_words else ""
    return f"note {note.name}, {note.where}, {note.sign}{words}{hers}"


def effect_sentences(effect: Effect) -> tuple[str, ...]:
    """Say what a step did to girths, seams and notches, and what it leaves to be done."""
    told = [effect.sentence(write_both)]
    for seam in effect.seams:
        moved = max(abs(a - b) for a, b in zip(seam.before, seam.after, strict=True))
        if moved >= WORTH_SAYING_MM:
            ease = seam.after[1] - seam.after[0]
            whose = f"{seam.side} " if seam.side in ("right", "left") else ""
            told.append(
                f"{whose}{seam.name} seam {write_both(seam.before[0])} before, "
                f"{write_both(seam.after[0])} now, ease {write_both(ease)}"
            )
    told.extend(effect.notches)
    told.extend(effect.leaves)
    told.extend(effect.notes)
    return tuple(in_both(sentence) for sentence in told if sentence)


def _girths(
    found: Differences, body: dict[str, float], plan: dict[str, float]
) -> tuple[GirthRow, ...]:
    rows = [
        GirthRow(c.what, c.before, c.after, body.get(c.what), plan.get(c.what))
        for c in found.girths
    ]
    return (*rows, *(GirthRow(c.what, c.before, c.after) for c in found.rounds))


def _seam(seam: SeamCompared) -> SeamRow:
    whose = f"{seam.side} " if seam.side in ("right", "left") else ""
    return SeamRow(
        f"{whose}{seam.name}",
        _sides(seam, seam.before, seam.planned_before_mm),
        _sides(seam, seam.after, seam.planned_after_mm),
    )


def _sides(
    seam: SeamCompared, lengths: tuple[float, float] | None, planned_mm: float
) -> SeamSides | None:
    if lengths is None:
        return None
    if seam.first_piece == seam.second_piece and lengths[0] == lengths[1]:
        return SeamSides(seam.first_piece, lengths[0])
    return SeamSides(seam.first_piece, lengths[0], seam.second_piece, lengths[1], planned_mm)


def _checks(old: Checked, new: Checked) -> tuple[CheckRow, ...]:
    was, now = _figures(old), _figures(new)
    remedies = {f"{f.code}: {f.place}": f.remedy for f in new.findings}
    nothing = ("—", None)
    return tuple(
        CheckRow(
            place, was.get(place, nothing)[0], now.get(place, nothing)[0],
            was.get(place, nothing)[1], now.get(place, nothing)[1], remedies.get(place, ""),
        )
        for place in dict.fromkeys((*now, *was))
    )  # fmt: skip


def _figures(checked: Checked) -> dict[str, tuple[str, bool | None]]:
    found: dict[str, tuple[str, bool | None]] = {
        f"{f.code}: {f.place}": (f"{f.figure:.1f} {f.unit}".strip(), False)
        for f in checked.findings
    }
    return found | {place: (figure, True) for place, figure in checked.figures}


def _laid_on(found: Differences) -> str:
    edges = list(dict.fromkeys(f"{p.laid_at} of the {p.label}" for p in found.pieces if p.laid_at))
    return f"laid on the {' and the '.join(edges)}" if edges else ""


def _cautions(line: tuple[Version, ...]) -> tuple[str, ...]:
    estimated = line[0].estimated
    if not estimated:
        return ()
    return (f"Estimated, not measured: {', '.join(estimated)}.",)
