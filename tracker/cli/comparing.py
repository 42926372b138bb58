"""``tracker compare``: what differs between two versions."""

from typing import Annotated

from typer import Argument

from tracker.cli import show
from tracker.cli.options import AsJson, StoreFile, opened
from tracker.cli.plain import command, verb

app = verb()


@command(app, "compare")
def compare(
    before: Annotated[
        str | None, Argument(metavar="BEFORE", help="client/pattern@version.")
    ] = None,
    after: Annotated[
        str | None, Argument(metavar="AFTER", help="Alone: that version and its parent.")
    ] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Compare two versions; with one named, it and its parent; with none, the newest and its.

    tracker compare mara/bodice@1 @3
    tracker compare mara/bodice
    """
    from tracker.cli.figures import write_comparison
    from tracker.tasks.preferences import manner
    from tracker.tasks.versions import compare_versions

    books = opened(store)
    old, new, found = compare_versions(books, before, after)
    if json:
        show.as_json({"before": old, "after": new, "same": found.same, **show.plain(found)})
        return
    write_comparison(str(old), str(new), found, manner(books))
