"""``tracker version``: the versions of a pattern."""

from pathlib import Path
from typing import Annotated, Any

from typer import Argument, Exit, Option

from tracker.cli import show
from tracker.cli.clock import read_day, today
from tracker.cli.options import AsJson, MaybeVersion, OnDay, StoreFile, opened
from tracker.cli.plain import command, noun

app = noun("Versions: list them, show one, say how far it has come, work it out again.")


@command(app, "list")
def list_(
    pattern: Annotated[
        str | None, Argument(metavar="CLIENT/PATTERN", help="A client or a pattern; else all.")
    ] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """List versions, oldest first.

    tracker version list mara/bodice
    tracker version list
    """
    from tracker.tasks.versions import versions_of

    rows = versions_of(opened(store), pattern)
    if json:
        show.as_json(rows)
        return
    if not rows:
        show.tell("No pattern yet. Draft one with: tracker block draft CLIENT")
    for row in rows:
        start = f", from {_parent(row)}" if row.parent else ""
        show.tell(f"{row.address}  {row.made_on}, {_standing(row)}{start}")
        show.tell(show.begun(row.sentence), "    ")


def _parent(row: Any) -> str:
    """Return the parent, shortened to @number within one pattern."""
    if row.parent is None:
        return ""
    same = row.parent.partition("@")[0] == row.address.partition("@")[0]
    return f"@{row.parent.partition('@')[2]}" if same else row.parent


def _standing(row: Any) -> str:
    by = f" by {row.standing_by}" if row.standing_by else ""
    printed = f", printed {row.printed_on}" if row.printed_on else ""
    return f"{row.standing}{by}{printed}"


@command(app, "show")
def show_(version: MaybeVersion = None, store: StoreFile = None, json: AsJson = False) -> None:
    """Show a version: what was done, girths and ease, seams, pieces.

    tracker version show mara/bodice@2
    """
    from tracker.cli.figures import write_version
    from tracker.tasks.preferences import manner
    from tracker.tasks.versions import show_version

    books = opened(store)
    shown = show_version(books, version)
    if json:
        show.as_json(shown)
        return
    write_version(shown, manner(books))


@command(app, "standing")
def standing(
    word: Annotated[
        str, Argument(metavar="STANDING", help="drawn, “for a test garment”, fitted, approved.")
    ],
    version: MaybeVersion = None,
    by: Annotated[str, Option(help="Who approves it for cloth.")] = "",
    on: OnDay = "today",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Say how far a version has come; approving it for cloth needs a name.

    tracker version standing approved mara/bodice@3 --by Ida
    """
    from tracker.history.version import Standing
    from tracker.tasks.checking import before_approving
    from tracker.tasks.versions import set_standing

    books = opened(store)
    row = set_standing(books, version, word, by, read_day(on), today())
    approved = row.standing == Standing.APPROVED_FOR_CLOTH
    minds = before_approving(books, str(row.address)) if approved else ()
    if json:
        show.as_json(show.plain(row) | {"mind": minds})
        return
    show.warn(minds)
    show.tell(f"{row.address}: {_standing(row)}.")


@command(app, "export")
def export(
    version: MaybeVersion = None,
    form: Annotated[
        str, Option("--as", metavar="FORMAT", help="csv, json, svg or dxf; else as FILE, or svg.")
    ] = "",
    out: Annotated[str | None, Option(metavar="FILE", help="Where it goes; else here.")] = None,
    store: StoreFile = None,
) -> None:
    """Write a version's lines as points in a table or as a drawing, to be traced in again.

    On the sewing line, without allowances. Only the lines as they are now go out, not what
    was done to them. DXF follows the layers of ASTM D6673, which keeps no seams.

        tracker version export mara/bodice@3
        tracker version export mara/bodice@3 --out bodice.csv
    """
    from tracker.tasks.tracing import export_version

    address, path = export_version(opened(store), version, form, Path(out) if out else None)
    show.tell(f"{path}: {address}, on the sewing line, without allowances.")


@command(app, "again")
def again(
    version: Annotated[
        str | None,
        Argument(metavar="CLIENT/PATTERN@VERSION", help="A version, pattern or client; else all."),
    ] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Work versions out again from their parents and check that they are as they were written.

    Exit status 1 if anything is damaged.

        tracker version again mara/bodice
    """
    from tracker.cli.progress import working
    from tracker.tasks.versions import work_out_again

    books = opened(store)
    with working("working out again") as step:
        found = work_out_again(books, version, step)
    if json:
        show.as_json([{**show.plain(r), "sound": r.sound} for r in found])
    else:
        cells = [
            (r.address, "as written" if r.sound else "DAMAGED", f"{r.furthest_mm:.3f} mm")
            for r in found
        ]
        show.say(show.table(("version", "", "furthest line"), cells, "llr"))
        show.points(n for r in found for n in r.notes)
    show.warn(d for r in found for d in r.damage)
    if not all(r.sound for r in found):
        raise Exit(1)
