"""``tracker report``: pages to open in a browser or print."""

from pathlib import Path
from typing import Annotated

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.options import ClientOption, MaybeClient, MaybeVersion, StoreFile, opened
from tracker.cli.plain import command, noun

app = noun("Reports: one file each, to open in a browser, print, or hand over.")

Out = Annotated[str | None, Option("--out", metavar="FILE", help="Where it goes; else here.")]


@command(app, "compare")
def compare(
    before: Annotated[
        str | None, Argument(metavar="BEFORE", help="client/pattern@version.")
    ] = None,
    after: Annotated[
        str | None, Argument(metavar="AFTER", help="Alone: that version and its parent.")
    ] = None,
    out: Out = None,
    store: StoreFile = None,
) -> None:
    """Two versions over each other, each change numbered and explained.

    tracker report compare mara/bodice@1 @3
    tracker report compare mara/bodice --out for-the-table.html
    """
    from tracker.cli.progress import working
    from tracker.tasks.reporting import report_comparison

    books = opened(store)
    with working("writing the report"):
        made = report_comparison(books, before, after, Path(out) if out else None, today())
    show.tell(
        f"{made.path}: {made.before} and {made.after}, {show.counted(len(made.changes), 'change')}."
    )


@command(app, "history")
def history(client: MaybeClient = None, out: Out = None, store: StoreFile = None) -> None:
    """A client's history: body over time with charts, garments, fittings, notes, versions.

    tracker report history mara
    """
    from tracker.cli.progress import working
    from tracker.tasks.history_report import report_history

    books = opened(store)
    with working("writing the report"):
        code, path = report_history(books, client, Path(out) if out else None, today())
    show.tell(f"{path}: all there is of {code}. It is personal data: keep it safe.")


@command(app, "fitting-card")
def fitting_card(
    client: MaybeClient = None,
    garment: Annotated[
        int | None, Option(metavar="NUMBER", help="Which garment, from 1; else the last one made.")
    ] = None,
    out: Out = None,
    store: StoreFile = None,
) -> None:
    """A card for the next fitting: cautions, notes to look at again, room to write.

    tracker report fitting-card mara
    tracker report fitting-card mara --garment 2 --out card.html
    """
    from tracker.tasks.cards import write_fitting_card

    code, notes, path = write_fitting_card(
        opened(store), client, garment, Path(out) if out else None
    )
    show.tell(f"{path}: for the next fitting of {code}, {show.counted(notes, 'note')} on it.")


@command(app, "marking-up")
def marking_up(version: MaybeVersion = None, out: Out = None, store: StoreFile = None) -> None:
    """What to mark where, in words and amounts: on paper pieces, or on the garment.

    tracker report marking-up mara/bodice@2
    """
    from tracker.tasks.marking_up import write_marking_up

    address, marks, path = write_marking_up(opened(store), version, Path(out) if out else None)
    show.tell(f"{path}: {address}, {show.counted(marks, 'thing')} to mark.")


@command(app, "measuring-sheet")
def measuring_sheet(
    client: MaybeClient = None,
    purpose: Annotated[
        list[str] | None,
        Option("--for", metavar="BLOCK", help="bodice, sleeve, skirt or trousers."),
    ] = None,
    blank: Annotated[bool, Option("--blank", help="For nobody yet.")] = False,
    last: Annotated[
        bool, Option("--last", help="With last time's values; a tape is read truer without.")
    ] = False,
    out: Out = None,
    store: StoreFile = None,
) -> None:
    """A measuring sheet to print, in the order in which the tape goes round.

    tracker report measuring-sheet mara --last
    tracker report measuring-sheet --blank --for bodice --for sleeve
    """
    from tracker.tasks.cards import write_measuring_sheet

    purposes = tuple(purpose or ["bodice"])
    path = Path(out) if out else None
    code, path = write_measuring_sheet(opened(store), client, purposes, blank, last, path, today())
    show.tell(f"{path}: measuring sheet{f' for {code}' if code else ''}.")


@command(app, "tracing-sheet")
def tracing_sheet(
    piece: Annotated[
        list[str] | None, Option(metavar="NAME", help="A piece to trace; a sheet for each.")
    ] = None,
    client: ClientOption = None,
    out: Out = None,
    store: StoreFile = None,
) -> None:
    """A sheet to note points on while a paper pattern is measured on a grid.

    tracker report tracing-sheet
    tracker report tracing-sheet --client mara --piece front --piece back
    """
    from tracker.tasks.cards import write_tracing_sheet

    path = Path(out) if out else None
    made = write_tracing_sheet(opened(store), client, tuple(piece or ()), path)
    show.tell(f"{made}: tracing sheet. What it becomes: tracker block trace --layout")
