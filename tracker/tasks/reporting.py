"""The comparison report: two versions and all that lies between them, as plain values."""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.effect import ROUNDS, Effect
from tracker.history.compare import compare
from tracker.history.step import Taken
from tracker.history.version import Address, Version
from tracker.output.compared import check_rows, furthest_rows, girth_rows, laid_on, seam_rows
from tracker.output.comparison import (
    Change,
    Comparison,
    PatternView,
    WhyReason,
    WhyRow,
    comparison_html,
)  # fmt: skip
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.tasks.bodies import girths_by
from tracker.tasks.named import note_names
from tracker.tasks.notes import NoteRow, note_row
from tracker.tasks.papers import day_words, write_paper
from tracker.tasks.preferences import manner
from tracker.tasks.reasons import Because, why_each_seam
from tracker.tasks.spots import spot_of
from tracker.tasks.versions import all_estimated, lineage, two_versions
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
        body = girths_by(books, new.address.client, new.made_on)
        line = lineage(books, new)
        steps = _between(old, line)
        reasons = reasons_of(books, new.address.client)
        why = why_rows(why_each_seam(books, line))
    changes = _changes(steps, old, new, reasons)
    found = compare(old.pattern, new.pattern)
    girths = body.at if body else None
    checks = before_cutting(old.pattern, girths), before_cutting(new.pattern, girths)
    about = Comparison(
        title=f"{old.address} and {new.address}",
        client_code=new.address.client,
        old=_view(old),
        new=_view(new, len(changes)),
        changes=changes,
        girths=girth_rows(found, girths, dict(new.pattern.ease)),
        seams=seam_rows(found),
        checks=check_rows(*checks, unit),
        furthest=furthest_rows(found),
        laid_on=laid_on(found),
        measured=day_words(body.on) if body else "",
        not_checked=checks[1].not_checked,
        why=why,
        cautions=(*estimated_cautions(line), *(body.minded if body else ())),
        day=day_words(today),
        unit=unit,
    )
    path = out or Path(_name(old.address, new.address))
    write_paper(path, comparison_html(about).encode())
    return Reported(path, old.address, new.address, tuple(c.sentence for c in changes))


def why_rows(told: tuple[tuple[str, tuple[Because, ...]], ...]) -> tuple[WhyRow, ...]:
    """Return of every line why it is where it is, as a page shows it."""
    return tuple(
        WhyRow(
            line,
            tuple(
                WhyReason(
                    b.reason.version,
                    day_words(b.reason.made_on),
                    in_both(b.reason.sentence),
                    tuple(in_both(s.words) for s in b.reason.shifts if b.reason.step_id),
                    tuple(f"{reason_words(note)}: {note.state}" for note in b.notes),
                )
                for b in becauses
            ),
        )
        for line, becauses in told
    )


def _name(old: Address, new: Address) -> str:
    first = f"{old.pattern}-{old.number}"
    second = f"{new.number}" if old.pattern == new.pattern else f"{new.pattern}-{new.number}"
    return f"{new.client}-{first}-{second}.html"


def _view(version: Version, changes: int = 1) -> PatternView:
    standing = str(version.standing)
    if version.standing_by:
        standing += f" by {version.standing_by}"
    sentence = version.sentence
    if changes > 1:
        # Its own sentence tells the last of them, or what that was for.
        sentence = f"{changes} changes, numbered below. The newest: {sentence}"
    return PatternView(
        str(version.address), version.pattern, day_words(version.made_on), standing, sentence
    )


def _between(old: Version, line: tuple[Version, ...]) -> tuple[tuple[Version, Taken], ...]:
    """The steps after the old version; all of the new one's own where they are not kin."""
    digests = [v.digest for v in line]
    start = digests.index(old.digest) + 1 if old.digest in digests else len(line) - 1
    return tuple((v, t) for v in line[start:] for t in v.taken)


def reasons_of(books: "Books", client: str) -> dict[str, NoteRow]:
    """Return a client's notes by their opaque id."""
    names = note_names(books, client)
    return {n.observation_id: note_row(client, n, names) for n in books.notes(client)}


def _changes(
    steps: tuple[tuple[Version, Taken], ...],
    old: Version,
    new: Version,
    reasons: dict[str, NoteRow],
) -> tuple[Change, ...]:
    taken = [t for _, t in steps]
    changes = []
    for k, (version, step) in enumerate(steps):
        spot = spot_of(step, taken[k + 1 :], new.pattern, old.pattern)
        piece, side, point = spot or (new.pattern.pieces[0].name, BodySide.BOTH, None)
        why = "; ".join(reason_words(reasons[b]) for b in step.step.because if b in reasons)
        changes.append(
            Change(
                number=k + 1,
                piece=piece,
                at=point,
                sentence=(
                    f"{in_both(step.sentence)} ({version.address}, {day_words(version.made_on)})"
                ),
                reason=why,
                effects=effect_sentences(step.effect, new.pattern),
                side=side,
            )
        )
    return tuple(changes)


def reason_words(note: NoteRow) -> str:
    """Say a note as the reason of a change."""
    words = f": “{note.fitter_words}”" if note.fitter_words else ""
    hers = f"; she said “{note.client_words}”" if note.client_words else ""
    return f"note {note.name}, {note.where}, {note.sign}{words}{hers}"


def effect_sentences(effect: Effect, pattern: Pattern) -> tuple[str, ...]:
    """Say what a step did to girths, seams and notches, and what it leaves to be done.

    Args:
        effect: what it did.
        pattern: a pattern of the same garment: what it has no line for is not spoken of.
    """
    edges = {e.name for p in pattern.pieces for e in p.edges}
    told = [effect.sentence(write_both, tuple(n for n in ROUNDS if n in edges))]
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


def estimated_cautions(line: tuple[Version, ...]) -> tuple[str, ...]:
    """Say what of the body behind a version was estimated, not measured."""
    estimated = all_estimated(line)
    if not estimated:
        return ()
    return (f"Estimated, not measured: {', '.join(estimated)}.",)
