"""Steps put onto another base: withdrawn, or brought across; nothing half done."""

import datetime as dt
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.effect import Effect, effect_between
from tracker.alterations.kind import Kind
from tracker.errors import TrackerError
from tracker.fitting.observation import State
from tracker.history.onward import Brought, Onward, bring_across, withdraw
from tracker.history.step import Taken
from tracker.history.version import Address, Version, next_version
from tracker.tasks.bodies import girths_of
from tracker.tasks.ease_told import as_fitted, lines_changed
from tracker.tasks.named import note_names, the_version
from tracker.tasks.versions import lineage

if TYPE_CHECKING:
    from tracker.pattern.finding import Finding
    from tracker.pattern.pattern import Pattern
    from tracker.store.books import Books
    from tracker.store.engine import Store

_STEP = re.compile(r"(?:(?P<pattern>[^@]+)@)?(?P<version>\d+)\.(?P<step>\d+)")


class NoSuchStep(TrackerError):
    """A step that is not among those that led to a version."""

    exit_code = 2


class CannotAll(TrackerError):
    """Some steps cannot be done on the other base, so nothing was done."""


@dataclass(frozen=True)
class Carried:
    """What putting steps onto another base did, or would do.

    Attributes:
        parent: the version they are put onto.
        version: the version it made; none where it was only tried.
        steps: each step and what became of it.
        waiting: notes that wait again, since what dealt with them was withdrawn.
        was: the version a picture holds it against: the one with the steps that are withdrawn,
            or the one others are put onto.
        pattern: what came of it.
        gone: the steps that are withdrawn.
        effect: what it changes altogether, held against ``was``; none where nothing is done.
        findings: what a check of the new pattern finds.
        standing: the newest versions of patterns developed from this one, each with the version
            it still stands on.
    """

    parent: Address
    version: Version | None
    steps: tuple[Brought, ...]
    waiting: tuple[str, ...] = ()
    was: Version | None = None
    pattern: "Pattern | None" = None
    gone: tuple[Taken, ...] = ()
    effect: Effect | None = None
    findings: tuple["Finding", ...] = ()
    standing: tuple[tuple[str, str], ...] = ()


def withdraw_steps(
    store: "Store",
    said: str | None,
    steps: Iterable[str],
    today: dt.date,
    sentence: str = "",
    dry: bool = False,
    leave_out: bool = False,
) -> Carried:
    """Leave out steps and work out the rest again: a new version, and no deletion.

    Args:
        store: the store.
        said: the version whose line of steps is meant.
        steps: as they are said: version and step, ``3.1``.
        today: the date of the new version.
        sentence: what it is for.
        dry: only try; nothing is stored.
        leave_out: go on without later steps that can no longer be done.

    Raises:
        NoSuchStep: no such step in that line.
        CannotAll: a later step can no longer be done.
    """
    with store.reading() if dry else store.writing() as books:
        version = the_version(books, said)
        line = lineage(books, version)
        gone = [step_named(line, name) for name in steps]
        if not gone:
            raise NoSuchStep("which step is withdrawn? Name it as version and step, as in 3.1")
        found = withdraw(line, [t.step.step_id for t in gone], _girths(books, version))
        all_or_told(found.onward, leave_out)
        foretold = Carried(
            found.parent.address, None, found.onward.steps, was=version,
            pattern=found.onward.pattern, gone=tuple(gone),
        )  # fmt: skip
        foretold = with_figures(books, foretold)
        if dry:
            return foretold
        made = made_onward(books, found.parent, version.address, found.steps, sentence, today)
        waiting = _wait_again(books, gone, made, lineage(books, made))
        return replace(foretold, version=made, waiting=waiting)


def bring_steps_across(
    store: "Store",
    source: str,
    onto: str,
    today: dt.date,
    sentence: str = "",
    dry: bool = False,
    leave_out: bool = False,
) -> Carried:
    """Put the steps of one line of versions onto another base of the same client.

    Args:
        store: the store.
        source: the version whose steps are meant, from its root on.
        onto: the version they are put onto: a block drafted afresh, a sister style.
        today: the date of the new version.
        sentence: what it is for; without it that it was brought across.
        dry: only try; nothing is stored.
        leave_out: go on without steps that cannot be done there.

    Raises:
        CannotAll: a step cannot be done there.
        TrackerError: no such version, or another client's.
    """
    with store.reading() if dry else store.writing() as books:
        old, base = the_version(books, source), the_version(books, onto)
        if old.address.client != base.address.client:
            raise CannotAll(
                f"{old.address} and {base.address} are two clients' patterns; one body's "
                "corrections are no use to another's"
            )
        taken = [t for v in lineage(books, old) for t in v.taken]
        found = bring_across(taken, base.pattern, _girths(books, base))
        all_or_told(found, leave_out)
        foretold = Carried(base.address, None, found.steps, was=base, pattern=found.pattern)
        foretold = with_figures(books, foretold)
        if dry or not found.done:
            return foretold
        told = sentence or f"Brought across from {old.address}"
        made = made_onward(books, base, base.address, found.done, told, today)
        return replace(foretold, version=made)


def step_named(line: Sequence[Version], said: str) -> Taken:
    """Return a step by version and place in it (``3.1``, or ``bodice@3.1`` of another pattern).

    Raises:
        NoSuchStep: that line has no such step; those it has are told.
    """
    found = _STEP.fullmatch(said.strip().partition("/")[2] or said.strip())
    pattern = found["pattern"] if found else None
    for version in reversed(line):
        named = pattern or line[-1].address.pattern
        at = version.address
        if found and (at.pattern, str(at.number)) == (named, found["version"]):
            place = int(found["step"])
            if 1 <= place <= len(version.taken):
                return version.taken[place - 1]
    known = [
        f"{v.address.pattern}@{v.address.number}.{k}"
        for v in line
        for k in range(1, len(v.taken) + 1)
    ]
    raise NoSuchStep(
        f"{line[-1].address} has no step “{said}”; "
        + (f"its steps are {', '.join(known)}" if known else "nothing was altered yet")
    )


def with_figures(books: "Books", made: Carried) -> Carried:
    """Add what putting steps onto another base changes, what a check finds, what stands on the old.

    What a single step leaves to be done is not told: a later one may have done it.
    """
    assert made.was is not None
    assert made.pattern is not None
    fitted = lines_changed(b.effect for b in made.steps if b.because)
    checked = before_cutting(made.pattern, _girths(books, made.was))
    return replace(
        made,
        effect=effect_between(made.was.pattern, made.pattern),
        findings=as_fitted(checked.findings, fitted, made.pattern),
        standing=tuple(_standing_on(books, made.was.address)),
    )


def _standing_on(books: "Books", address: Address) -> Iterator[tuple[str, str]]:
    """The newest version of each pattern developed from one, and which version it stands on."""
    for name in books.pattern_names(address.client):
        if name == address.pattern:
            continue
        newest = books.version(address.client, name)
        base = [v for v in lineage(books, newest) if v.address.pattern == address.pattern]
        if base:
            yield str(newest.address), str(base[-1].address)


def _girths(books: "Books", version: Version) -> dict[str, float] | None:
    return girths_of(books, version.address.client)


def all_or_told(onward: Onward, leave_out: bool) -> None:
    """Refuse where a step cannot be done there, unless it may be left out.

    Raises:
        CannotAll: the sentence says which and why.
    """
    if onward.left_out and not leave_out:
        told = "; ".join(f"{b.sentence}: {b.told}" for b in onward.left_out)
        raise CannotAll(f"nothing was done, because this cannot be done there: {told}")


def made_onward(
    books: "Books",
    parent: Version,
    address: Address,
    steps: tuple[tuple[Kind, tuple[str, ...]], ...],
    sentence: str,
    today: dt.date,
) -> Version:
    """Store the next version with steps put onto another base."""
    number = books.next_number(address.client, address.pattern)
    new = replace(address, number=number)
    version = next_version(parent, new, steps, sentence, today, _girths(books, parent))
    books.add_version(version)
    return version


def _wait_again(
    books: "Books", gone: list[Taken], made: Version, line: tuple[Version, ...]
) -> tuple[str, ...]:
    """Open the notes again that nothing in the new version's line deals with any more."""
    client = made.address.client
    still = {b for v in line for t in v.taken for b in t.step.because}
    dropped = {b for t in gone for b in t.step.because} - still
    names = note_names(books, client)
    again = [n for n in books.notes(client) if n.observation_id in dropped and not n.waiting]
    for note in again:
        books.change_note(client, replace(note, state=State.OPEN, dealt_with_in=None))
    return tuple(names[n.observation_id] for n in again)
