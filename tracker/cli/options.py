"""What many commands take, and opening the store they name."""

import os
from contextvars import ContextVar
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from tracker.store.engine import Store

#: ``--store`` typed before the command.
SAID_BEFORE: ContextVar[str | None] = ContextVar("SAID_BEFORE", default=None)

#: Where the command that was typed is to draw what it does.
PICTURE: ContextVar[Path | None] = ContextVar("PICTURE", default=None)

STORE_VARIABLE = "TRACKER_STORE"
USUAL_STORE = "studio.db"

StoreFile = Annotated[
    str | None,
    typer.Option(
        "--store", metavar="FILE", help=f"The store's file; else {STORE_VARIABLE} or {USUAL_STORE}."
    ),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print it as JSON, lengths in millimetres.")]
OnDay = Annotated[
    str, typer.Option("--on", metavar="DATE", help="The day, such as 2026-03-02 or yesterday.")
]
MaybeClient = Annotated[
    str | None, typer.Argument(metavar="CLIENT", help="Her code; not needed if there is only one.")
]
MaybeVersion = Annotated[
    str | None,
    typer.Argument(
        metavar="CLIENT/PATTERN@VERSION", help="Whatever there is only one of may be left out."
    ),
]
Cloth = Annotated[
    str,
    typer.Option(metavar="CLOTH", help="woven or stretch: the ease table that is started from."),
]
Side = Annotated[str, typer.Option(metavar="SIDE", help="The wearer's: right, left, both.")]
Try = Annotated[bool, typer.Option("--try", help="Only show the effect; nothing is stored.")]
NewPattern = Annotated[
    str | None, typer.Option("--as", metavar="NAME", help="A new pattern; else the next version.")
]
ClientOption = Annotated[
    str | None,
    typer.Option("--client", metavar="CLIENT", help="Her code; not needed if there is only one."),
]


def _drawn_into(text: str | None) -> str | None:
    """Keep where a picture goes for when there is one; refuse a bad place before anything is done.

    It is kept beside the command, because every one that alters draws alike.
    """
    PICTURE.set(None)
    if text is not None:
        from tracker.tasks.picturing import check_picture

        PICTURE.set(check_picture(Path(text)))
    return text


PictureFile = Annotated[
    str | None,
    typer.Option(
        "--picture", metavar="FILE", callback=_drawn_into,
        help="Draw before and after into it: x.svg or x.html.",
    ),
]  # fmt: skip


def only_notes(words: list[str] | None) -> list[str] | None:
    """Let only notes be said where only notes are, before the store is opened.

    Raises:
        TrackerError: one of them is none, such as a client's code; where it belongs is said.
    """
    if words:
        from tracker.tasks.named import check_notes_said

        check_notes_said(words)
    return words


def store_path(given: str | None) -> Path:
    """Return the store's file: as given, as said before the command, or the usual one."""
    said = given or SAID_BEFORE.get()
    return Path(said or os.environ.get(STORE_VARIABLE) or USUAL_STORE)


def opened(given: str | None) -> "Store":
    """Open the store.

    Raises:
        TrackerError: it is not there, not a store, or in use.
    """
    from tracker.cli import show
    from tracker.store.engine import Store
    from tracker.store.quick import prefers_inches

    path = store_path(given)
    store = Store.open(path)
    show.INCHES.set(prefers_inches(path))
    return store
