"""``tracker store``: the store itself."""

from pathlib import Path
from typing import Annotated

from typer import Argument, Exit

from tracker.cli import show
from tracker.cli.clock import now
from tracker.cli.options import AsJson, StoreFile, opened, store_path
from tracker.cli.plain import command, noun

app = noun("The store: one file with all you know. Make it, check it, back it up, update it.")


@command(app, "new", "create")
def new(store: StoreFile = None) -> None:
    """Make a new, empty store.

    tracker store new
    tracker store new --store atelier.db
    """
    from tracker.tasks.storekeeping import make_store

    path = make_store(store_path(store)).path
    show.tell(f"{path} is ready. Write down a client with: tracker client new CODE NAME")


@command(app, "check")
def check(store: StoreFile = None, json: AsJson = False) -> None:
    """Check the whole store: the file, every piece, every version worked out again.

    Exit status 1 if anything is damaged.

        tracker store check
    """
    from tracker.cli.progress import working
    from tracker.tasks.storekeeping import check_store

    books = opened(store)
    with working("checking the store") as step:
        found = check_store(books, step)
    if json:
        show.as_json({"store": books.path, "sound": found.sound, **show.plain(found)})
    else:
        clients, versions, pieces = (
            show.counted(number, thing)
            for number, thing in (
                (found.clients, "client"), (found.versions, "version"), (found.pieces, "piece"),
            )
        )  # fmt: skip
        show.tell(
            f"{books.path}: {clients}, {versions} worked out again, {pieces} looked at: "
            f"{'sound' if found.sound else 'DAMAGED'}."
        )
        show.points(found.notes)
    show.warn(found.damage)
    if not found.sound:
        raise Exit(1)


@command(app, "backup")
def backup(
    target: Annotated[str, Argument(metavar="FILE", help="Where the copy goes.")],
    store: StoreFile = None,
) -> None:
    """Copy the store to another file, as it stands at this moment.

    tracker store backup studio-march.db
    """
    from tracker.tasks.storekeeping import back_up

    copy = back_up(opened(store), Path(target))
    show.tell(f"{copy} is a copy of the store. It holds personal data: keep it safe.")


@command(app, "update")
def update(store: StoreFile = None) -> None:
    """Bring a store written by an older program up to date; a copy is made beside it first.

    tracker store update
    """
    from tracker.tasks.storekeeping import update_store

    path = store_path(store)
    copy = update_store(path, now())
    show.tell(f"{path} is up to date. The copy made before: {copy}." if copy
              else f"{path} is up to date already.")  # fmt: skip


@command(app, "clean")
def clean(store: StoreFile = None) -> None:
    """Write the file afresh, so that nothing erased is left in its empty places.

    tracker store clean
    """
    from tracker.tasks.storekeeping import clean_store

    books = opened(store)
    clean_store(books)
    show.tell(f"{books.path} is clean.")
