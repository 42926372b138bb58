"""What is owed to the body proposes itself to the block; the rest stays with the garment."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.errors import TrackerError
from tracker.fitting.observation import Cause, State
from tracker.history.onward import bring_across
from tracker.tasks.carrying import Carried, all_or_told, made_onward, with_figures
from tracker.tasks.named import note_names, the_client, the_note, the_version
from tracker.tasks.versions import lineage

if TYPE_CHECKING:
    from tracker.fitting.observation import Observation
    from tracker.history.step import Taken
    from tracker.history.version import Version
    from tracker.store.books import Books
    from tracker.store.engine import Store
    from tracker.tasks.altering import Altered


class NotForTheBlock(TrackerError):
    """A note with nothing to bring to a block."""


@dataclass(frozen=True, slots=True)
class Marked:
    """What accepted notes are owed to, and what that means.

    Attributes:
        block: the block behind the version; none where the pattern is one itself.
        proposed: notes owed to the body, which propose themselves to the block.
        kept: notes owed to something else, with what.
    """

    block: str | None
    proposed: tuple[str, ...]
    kept: tuple[tuple[str, str], ...]


def marked(store: "Store", made: "Altered") -> Marked:
    """Return what the notes behind a version just made are owed to."""
    assert made.version is not None
    code = made.version.address.client
    with store.reading() as books:
        block = block_of(books, made.version)
        notes = [(name, the_note(books, code, name)) for name in made.notes]
    return Marked(
        f"{code}/{block}" if block else None,
        tuple(name for name, note in notes if note.cause is Cause.BODY),
        tuple((name, str(note.cause)) for name, note in notes if note.cause is not Cause.BODY),
    )


def block_of(books: "Books", version: "Version") -> str | None:
    """Return the name of the pattern a style was developed from; none for one that is a block."""
    root = lineage(books, version)[0].address.pattern
    return root if root != version.address.pattern else None


def bring_to_block(
    store: "Store",
    client: str | None,
    said: Iterable[str],
    today: dt.date,
    sentence: str = "",
    dry: bool = False,
    leave_out: bool = False,
) -> tuple[Carried, tuple[str, ...]]:
    """Put what notes changed in a style onto the newest version of its block.

    Args:
        store: the store.
        client: the client, or nothing for the only one.
        said: notes; without any, all that are owed to the body, did not come back, and are not in
            the block yet.
        today: the date of the new version.
        sentence: what it is for.
        dry: only try; nothing is stored.
        leave_out: go on without steps that cannot be done there.

    Returns:
        What came of it, and the notes it was done for.

    Raises:
        NotForTheBlock: a note changed nothing in a style, or is in the block already.
        CannotAll: a step cannot be done on the block.
    """
    with store.reading() if dry else store.writing() as books:
        code = the_client(books, client).code
        names = note_names(books, code)
        asked = tuple(dict.fromkeys(said))
        notes = [the_note(books, code, n) for n in asked] or [
            n for n in books.notes(code)
            if n.cause is Cause.BODY and n.state is not State.CAME_BACK
            and n.dealt_with_in and _for_block(books, n)
        ]  # fmt: skip
        if not notes:
            raise NotForTheBlock(
                f"nothing {code}'s styles changed is owed to the body and waits for the block"
            )
        blocks, taken = set(), list["Taken"]()
        for note in notes:
            name = names[note.observation_id]
            if note.dealt_with_in is None:
                raise NotForTheBlock(f"note {name} changed no pattern yet: accept it first")
            block = block_of(books, the_version(books, note.dealt_with_in))
            if block is None:
                raise NotForTheBlock(f"note {name} was altered in the block itself")
            steps = _for_block(books, note)
            if not steps:
                raise NotForTheBlock(f"note {name} is in the block {code}/{block} already")
            blocks.add(block)
            taken += [t for t in steps if t not in taken]
        if len(blocks) > 1:
            raise NotForTheBlock(
                f"these notes belong to {' and '.join(sorted(blocks))}: take them one by one"
            )
        base = books.version(code, blocks.pop())
        from tracker.tasks.bodies import girths_of

        found = bring_across(taken, base.pattern, girths_of(books, code))
        done = tuple(names[n.observation_id] for n in notes)
        foretold = Carried(base.address, None, found.steps, was=base, pattern=found.pattern)
        foretold = with_figures(books, foretold)
        if dry:
            return foretold, done
        all_or_told(found, leave_out)
        if not found.done:
            return foretold, done
        told = sentence or f"From fittings of its styles: note {', '.join(done)}"
        made = made_onward(books, base, base.address, found.done, told, today)
        return replace(foretold, version=made), done


def _for_block(books: "Books", note: "Observation") -> list["Taken"]:
    """The steps a note is behind in its style that its block does not have."""
    assert note.dealt_with_in is not None
    version = the_version(books, note.dealt_with_in)
    block = block_of(books, version)
    if block is None:
        return []
    base = books.version(version.address.client, block)
    there = {b for v in lineage(books, base) for t in v.taken for b in t.step.because}
    if note.observation_id in there:
        return []
    return [t for t in version.taken if note.observation_id in t.step.because]
