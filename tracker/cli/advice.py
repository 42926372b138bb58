"""Likely causes and the order of looking, in sentences."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from tracker.cli import show
from tracker.cli.effects import only_shown
from tracker.cli.options import PICTURE

if TYPE_CHECKING:
    from pathlib import Path

    from tracker.history.version import Address
    from tracker.store.engine import Store
    from tracker.tasks.advising import Advice, Likely, StageRow
    from tracker.tasks.altering import Altered
    from tracker.tasks.preferences import Manner


def causes_drawn(
    books: "Store", client: str | None, notes: Iterable[str], start: str | None
) -> "Path | None":
    """Draw each likely cause where a picture was asked for; return the file."""
    path = PICTURE.get()
    if path is None:
        return None
    from tracker.tasks.picturing import write_causes

    return write_causes(books, client, notes, start, path)


def write_advice(
    parent: "Address",
    advice: tuple["Advice", ...],
    how: "Manner",
    as_json: bool,
    picture: "Path | None" = None,
) -> None:
    """Write what notes without an amount may come from."""
    from tracker.fitting.looking import ORDER_SAID

    if as_json:
        record = {
            "parent": str(parent) if parent.number else None,
            "order": ORDER_SAID,
            "notes": show.plain(advice),
        }
        show.as_json(record | ({"picture": str(picture)} if picture else {}))
        return
    for one in advice:
        note = one.note
        show.tell(
            f"Note {note.name}, {note.where}, {note.sign}"
            f"{f' {note.direction}' if note.direction else ''} ({one.stage}): "
            + (
                "it may be, likeliest first:"
                if one.causes
                else "nothing in the table fits; name the alteration yourself (tracker alter "
                "kinds), or see what is known with: tracker fitting signs"
            )
        )
        for number, cause in enumerate(one.causes, start=1):
            _cause(number, cause, how)
    if any(one.causes for one in advice):
        show.tell(ORDER_SAID)
        if picture:
            show.tell(f"{picture}: each cause by the amount above, before dashed, after solid.")
        show.tell(only_shown(parent))


def _cause(number: int, cause: "Likely", how: "Manner") -> None:
    show.tell(f"{number}. {show.begun(cause.name)}. To tell: {cause.tell}.")
    if cause.remedy:
        usual = ""
        if cause.usual_mm:
            low, high = cause.usual_mm
            usual = f" (usually {how.length(low)} to {how.length(high)}, {cause.usual_from})"
        show.tell(f"{show.begun(cause.remedy)}; by: {cause.asks}{usual}.", "   ")
        show.say(f"     {cause.propose}")
    elif cause.by_hand:
        why = f" (no alteration does it here: {cause.why_not})" if cause.why_not else ""
        show.tell(f"By hand: {cause.by_hand}{why}.", "   ")
    else:
        show.tell(f"Cannot be drawn here: {cause.why_not}.", "   ")
    show.tell(f"Source: {cause.source}.", "   ")


def write_order(code: str, stages: tuple["StageRow", ...], as_json: bool) -> None:
    """Write a client's open notes in the order of looking."""
    from tracker.fitting.looking import ORDER_SAID

    if as_json:
        show.as_json({"client": code, "order": ORDER_SAID, "stages": show.plain(stages)})
        return
    if not stages:
        show.tell(f"{code} has no note that waits.")
        return
    rows = [
        (stage.stage if first else "", note.name, note.where, _seen(note))
        for stage in stages
        for first, note in zip((True, *(False,) * len(stage.notes)), stage.notes, strict=False)
    ]
    show.say(show.table(("look at", "note", "where", "seen"), rows))
    show.tell(ORDER_SAID)


def _seen(note: Any) -> str:
    direction = f" {note.direction}" if note.direction else ""
    readings = f": {'; '.join(note.readings)}" if note.readings else ""
    return f"{note.sign}{direction}, {note.strength}{readings}"


def write_signs(rows: Any, as_json: bool) -> None:
    """Write the table of signs."""
    if as_json:
        show.as_json(rows)
        return
    cells = [(r.seen, ", ".join(r.at), ", ".join(r.causes), r.source) for r in rows]
    show.say(show.table(("seen", "at", "likely, in order", "source"), cells))


def write_for_the_block(store: "Store", made: "Altered", as_json: bool) -> None:
    """Say which of what was accepted proposes itself to the block, and which stays."""
    from tracker.tasks.to_block import marked

    if as_json or made.version is None:
        return
    told = marked(store, made)
    address = made.version.address
    if told.block is None:
        for name, cause in told.kept:
            show.warn([
                f"note {name} is owed to {cause}, and {address.client}/{address.pattern} is a "
                "block: it goes into everything made from it; --into NAME begins a pattern of "
                "its own instead"
            ])  # fmt: skip
        return
    if told.proposed:
        names = " ".join(told.proposed)
        show.tell(
            f"Note {', '.join(told.proposed)} is owed to the body, so it proposes itself to the "
            f"block {told.block}: tracker alter to-block {names} --client {address.client} --try"
        )
    for name, cause in told.kept:
        show.tell(f"Note {name} is owed to {cause}: it stays with {address.pattern}.")
