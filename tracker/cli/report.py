"""``tracker report``: pages to open in a browser or print."""

from pathlib import Path
from typing import Annotated

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.options import MaybeClient, StoreFile, opened
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
