"""Alterations: propose without changing anything, accept, or make one directly."""

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.kind import Kind
from tracker.errors import TrackerError
from tracker.fitting.against import (
    against_each_other,
    against_the_sign,
    check_outlet,
    only_for_the_next,
)
from tracker.fitting.bought import usual_pattern
from tracker.fitting.observation import State
from tracker.fitting.propose import Answer, Proposal, answers, proposal
from tracker.fitting.suggest import in_order, likely
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.tasks.bodies import girths_of
from tracker.tasks.drafting import check_new_pattern
from tracker.tasks.ease_told import as_fitted, lines_changed, lines_fitted
from tracker.tasks.named import (
    in_full,
    note_names,
    saying_in_full,
    the_client,
    the_note,
    the_version,
)  # fmt: skip
from tracker.tasks.versions import lineage

if TYPE_CHECKING:
    from tracker.fitting.garment import Garment
    from tracker.fitting.observation import Cause, Observation
    from tracker.pattern.finding import Finding
    from tracker.pattern.pattern import Pattern
    from tracker.store.books import Books
    from tracker.store.engine import Store

#: Makes an alteration for the pattern as it stands by then.
Maker = Callable[["Pattern"], Kind]

#: A corner and a distance in mm from it.
Spot = tuple[str, float]


class NothingToAlter(TrackerError):
    """An alteration without anything to do."""

    exit_code = 2


@dataclass(frozen=True)
class Altered:
    """What an alteration did, or would do.

    Attributes:
        parent: the version it starts from; number 0 of a garment that has no pattern, named so.
        version: the version it made; none of a proposal, for which nothing was stored.
        proposals: each step with how its readings were understood, its sentence and its effect.
        notes: the notes behind it, as they are said, in the order they are taken.
        findings: what a check of the new pattern finds.
        warnings: what to mind.
        otherwise: other likely causes of a single note's sign, likeliest first.
    """

    parent: Address
    version: Version | None
    proposals: tuple[Proposal, ...]
    notes: tuple[str, ...]
    findings: tuple["Finding", ...]
    warnings: tuple[str, ...]
    otherwise: tuple[str, ...] = ()


def propose_notes(
    store: "Store",
    client: str | None,
    notes: Iterable[str],
    start: str | None = None,
    to_nothing_at: tuple[Spot, ...] = (),
    answer: Answer | None = None,
    shared_with: tuple[str, ...] = (),
) -> Altered:
    """Foretell the alterations some notes ask for; nothing is stored.

    Args:
        store: the store.
        client: the client, or nothing for the only one.
        notes: notes as they are said (2.3).
        start: the version to start from; without it the newest of the pattern that was fitted.
        to_nothing_at: places at which each change ends, for notes read at one place.
        answer: the cause of a single note, and how much.
        shared_with: other seams that a single note's tape difference is shared out over.

    Raises:
        TrackerError: no such note, no reading to work from, or it cannot be drawn.
    """
    with store.reading() as books:
        return _for_notes(
            books, client, notes, start, to_nothing_at, answer, shared_with, only_said=True
        )[0]


def accept_notes(
    store: "Store",
    client: str | None,
    notes: Iterable[str],
    today: dt.date,
    start: str | None = None,
    to_nothing_at: tuple[Spot, ...] = (),
    sentence: str = "",
    answer: Answer | None = None,
    cause: "Cause | None" = None,
    into: str | None = None,
    shared_with: tuple[str, ...] = (),
) -> Altered:
    """Make the next version from what some notes ask for; the notes then say so.

    With ``cause`` the notes are marked as the body's, the style's, the cloth's or taste; with
    ``into`` a pattern of that name begins with it and the one it starts from stays as it is.

    Raises:
        TrackerError: see ``propose_notes``; nothing is stored.
    """
    with store.writing() as books:
        foretold, parent, dealt = _for_notes(
            books, client, notes, start, to_nothing_at, answer, shared_with
        )
        steps = tuple(
            (p.kind, (n.observation_id,)) for p, n in zip(foretold.proposals, dealt, strict=True)
        )
        marked = tuple(replace(n, cause=cause) if cause else n for n in dict.fromkeys(dealt))
        return _made(books, foretold, parent, steps, marked, sentence, today, into)


def _for_notes(
    books: "Books",
    client: str | None,
    said: Iterable[str],
    start: str | None,
    to_nothing_at: tuple[Spot, ...],
    answer: Answer | None = None,
    shared_with: tuple[str, ...] = (),
    *,
    only_said: bool = False,
) -> tuple[Altered, Version, tuple["Observation", ...]]:
    """Foretell notes in the order of looking; each proposal comes with the note behind it.

    With ``only_said`` a garment without a pattern is answered in words.
    """
    code = the_client(books, client).code
    names = tuple(dict.fromkeys(said))
    notes = tuple(the_note(books, code, name) for name in names)
    if not notes:
        raise NothingToAlter("which note? Name one as fitting and note, as in 2.3")
    if (answer is not None or shared_with) and len(notes) > 1:
        raise NothingToAlter("one cause at a time: name a single note with --as or --with")
    parent, warnings = parent_of(books, notes, start, code if only_said else None)
    girths = girths_of(books, code)
    full = note_names(books, code)
    called = {n.observation_id: name for n, name in zip(notes, names, strict=True)}
    twice = tuple(_made_already(books, parent, notes, called))
    if twice and not only_said:
        raise NothingToAlter(
            f"{'; '.join(twice)}. If it shows again, say so at a fitting (tracker fitting back "
            "NOTE); to make it otherwise, name an earlier version with --from"
        )
    pattern, proposals, dealt = parent.pattern, list[Proposal](), list["Observation"]()
    cut_already: list[str] = []
    for note in in_order(pattern, notes):
        garment = books.garment(books.fitting(note.fitting_id).garment_id)
        with saying_in_full(note, full[note.observation_id]):
            made = answers(pattern, note, girths, to_nothing_at, answer, shared_with)
        for one in made:
            check_outlet(one.kind, garment, pattern, one.pattern)
            cut_already += filter(None, [only_for_the_next(one.kind, garment)])
            proposals.append(_on_the_garment(one) if parent.address.number == 0 else one)
            dealt.append(note)
            pattern = one.pattern
    otherwise = tuple(
        in_full(told, note, full[note.observation_id])
        for note, p in zip(dealt, proposals, strict=True)
        if (told := against_the_sign(note, p.kind))
    )
    apart = tuple(
        f"notes {called[dealt[j].observation_id]} and {called[dealt[k].observation_id]} {told}: "
        "both are done, one after the other; look again which is so"
        for k in range(len(proposals)) for j in range(k)
        if dealt[j] is not dealt[k]
        and (told := against_each_other(proposals[j].kind, proposals[k].kind))
    )  # fmt: skip
    warnings = (*warnings, *twice, *otherwise, *apart, *dict.fromkeys(cut_already))
    fitted = lines_fitted(lineage(books, parent)) if parent.address.number else frozenset()
    fitted |= lines_changed(p.effect for p in proposals)
    findings = as_fitted(before_cutting(pattern, girths).findings, fitted, pattern)
    order = tuple(called[n.observation_id] for n in dict.fromkeys(dealt))
    told = proposals[0].echo if proposals else ""
    other = tuple(
        s.cause.name for s in likely(parent.pattern, notes[0])
        if len(notes) == 1 and s.remedy is not None and not told.startswith(s.cause.name)
    )  # fmt: skip
    foretold = Altered(parent.address, None, tuple(proposals), order, findings, warnings, other)
    return foretold, parent, tuple(dealt)


def _made_already(
    books: "Books",
    parent: Version,
    notes: tuple["Observation", ...],
    called: Mapping[str, str],
) -> Iterator[str]:
    """Say which notes a version has been altered for already, unless they came back."""
    done = {n.observation_id: n.dealt_with_in for n in notes if n.state is State.ALTERED}
    if not any(done.values()):
        return
    line = {str(v.address) for v in lineage(books, parent)}
    for note_id, version in done.items():
        if version in line:
            here = str(parent.address)
            by = version if version == here else f"{version}, which {here} is made from"
            yield f"note {called[note_id]} was dealt with in {by}: it would be made twice"


def _on_the_garment(proposal: Proposal) -> Proposal:
    """Say of a garment without a pattern that it is marked itself."""
    leaves = tuple(
        told.replace("mark it on the paper", "mark it on the garment", 1)
        for told in proposal.effect.leaves
    )
    return replace(proposal, effect=replace(proposal.effect, leaves=leaves))


def parent_of(
    books: "Books",
    notes: tuple["Observation", ...],
    start: str | None,
    only_said_of: str | None = None,
) -> tuple[Version, tuple[str, ...]]:
    """Return the version to start from: the newest of the pattern that was fitted.

    With ``only_said_of`` a client a garment of hers without a pattern has one of its usual pieces
    and seams by name, numbered 0, so that amounts can be said; it is never stored.

    Raises:
        NothingToAlter: the garment has no pattern, or the notes are about several.
    """
    garments = [books.garment(books.fitting(n.fitting_id).garment_id) for n in notes]
    cut_from = {g.cut_from for g in garments}
    if start:
        version = the_version(books, start)
    else:
        patterns = {c.partition("@")[0] for c in cut_from if c}
        if not patterns and only_said_of:
            return _by_usual_names(books, only_said_of, notes, garments[0]), ()
        if not patterns:
            raise NothingToAlter(
                "the garment has no pattern in this store, so no version can be made: alter the "
                "garment itself and say so with tracker fitting done NOTE; or keep its pattern, "
                "by the names and lengths of its edges if need be, with tracker block trace, and "
                "name it with --from"
            )
        if len(patterns) > 1:
            raise NothingToAlter(
                f"these notes are about {' and '.join(sorted(patterns))}: take them one by one"
            )
        version = the_version(books, patterns.pop())
    was = sorted(c for c in cut_from if c and c != str(version.address))
    warnings = tuple(
        f"the garment was cut from {c}, and the alteration is made to {version.address}, which "
        "has what was altered since"
        for c in was
    )
    return version, warnings


def _by_usual_names(
    books: "Books", code: str, notes: tuple["Observation", ...], garment: "Garment"
) -> Version:
    number = [g.garment_id for g in books.garments(code)].index(garment.garment_id) + 1
    return first_version(
        Address(code, f"garment {number}", 0), Root("by its usual names", 1, {}),
        usual_pattern(notes), "a garment without a pattern", garment.made_on,
    )  # fmt: skip


def alter(
    store: "Store",
    pattern: str | None,
    makers: Iterable[Maker],
    today: dt.date,
    because: Iterable[str] = (),
    sentence: str = "",
    dry: bool = False,
    into: str | None = None,
) -> Altered:
    """Alter a version by named alterations, in order: the next version.

    Args:
        store: the store.
        pattern: the version to start from.
        makers: each makes an alteration for the pattern as it stands by then.
        today: the date of the new version.
        because: notes that asked for it, as they are said; they become altered in it.
        sentence: what the version is for; without it the first step's sentence.
        dry: only foretell; nothing is stored.
        into: begin a pattern of this name with it; the one it starts from stays as it is.

    Raises:
        TrackerError: it cannot be done; the sentence says what would.
    """
    with store.reading() if dry else store.writing() as books:
        parent = the_version(books, pattern)
        code = parent.address.client
        names = tuple(because)
        notes = tuple(the_note(books, code, name) for name in names)
        foretold = _foretold(books, parent, makers, names)
        if dry:
            return foretold
        ids = tuple(n.observation_id for n in notes)
        steps = tuple((p.kind, ids) for p in foretold.proposals)
        return _made(books, foretold, parent, steps, notes, sentence, today, into)


def _foretold(
    books: "Books", parent: Version, makers: Iterable[Maker], notes: tuple[str, ...]
) -> Altered:
    girths = girths_of(books, parent.address.client)
    pattern, proposals = parent.pattern, list[Proposal]()
    for make in makers:
        one = proposal(pattern, make(pattern), "", girths)
        proposals.append(one)
        pattern = one.pattern
    fitted = lines_fitted(lineage(books, parent))
    if notes:
        fitted |= lines_changed(p.effect for p in proposals)
    findings = as_fitted(before_cutting(pattern, girths).findings, fitted, pattern)
    newest = books.version(parent.address.client, parent.address.pattern).address
    warnings = (
        (f"{newest} is newer; this starts from {parent.address}, so what {newest} changed is "
         "not in it",)
        if newest != parent.address
        else ()
    )  # fmt: skip
    return Altered(parent.address, None, tuple(proposals), notes, findings, warnings)


def _made(
    books: "Books",
    foretold: Altered,
    parent: Version,
    steps: tuple[tuple[Kind, tuple[str, ...]], ...],
    notes: tuple["Observation", ...],
    sentence: str,
    today: dt.date,
    into: str | None = None,
) -> Altered:
    """Store the next version and say in the notes that it deals with them."""
    client, pattern = parent.address.client, into or parent.address.pattern
    if into:
        check_new_pattern(books, client, into)
    address = Address(client, pattern, books.next_number(client, pattern))
    version = next_version(parent, address, steps, sentence, today, girths_of(books, client))
    books.add_version(version)
    names = note_names(books, client)
    for note in notes:
        with saying_in_full(note, names[note.observation_id]):
            books.change_note(client, note.altered_in(str(address)))
    return Altered(
        parent.address, version, foretold.proposals, foretold.notes, foretold.findings,
        foretold.warnings,
    )  # fmt: skip
