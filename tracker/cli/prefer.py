"""``tracker prefer``: the maker's unit, words and habits."""

from typing import Annotated

from typer import Argument

from tracker.cli import show
from tracker.cli.options import AsJson, StoreFile, opened
from tracker.cli.plain import command, verb

app = verb()


@command(app, "prefer")
def prefer(
    name: Annotated[str | None, Argument(metavar="WHAT", help="Such as unit.")] = None,
    value: Annotated[str | None, Argument(metavar="VALUE", help="Such as inch.")] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Show what you prefer, or say so: your unit, your words, your usual allowance.

    tracker prefer
    tracker prefer unit inch
    tracker prefer "test garment" toile
    """
    from tracker.tasks.preferences import prefer as preferred
    from tracker.tasks.preferences import preferences

    books = opened(store)
    rows = preferences(books) if value is None else (preferred(books, name or "", value),)
    if json:
        show.as_json({p.name: said for p, said in rows})
        return
    cells = [(p.name, said, p.means, ", ".join(p.words)) for p, said in rows]
    show.say(show.table(("what", "value", "", "may be"), cells))
