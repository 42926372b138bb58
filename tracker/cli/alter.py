"""``tracker alter``: from notes, or directly, to the next version."""

from typing import Annotated

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.options import (
    AsJson,
    ClientOption,
    PictureFile,
    StoreFile,
    Try,
    only_notes,
    opened,
)
from tracker.cli.plain import command, noun

app = noun(
    "Alterations. propose shows what notes come to and stores nothing; accept makes the next "
    "version. take-in, let-out, move-notch, add-dart and make alter directly; with --try they "
    "only show."
)

Notes = Annotated[
    list[str],
    Argument(metavar="NOTE …", callback=only_notes, help="Notes as fitting and note: 2.3 2.4"),
]
NothingAt = Annotated[
    list[str] | None,
    Option(metavar="PLACE", help="Where the change ends: “underarm point”, “4cm from side waist”."),
]
From = Annotated[
    str | None, Option("--from", metavar="VERSION", help="Start from it; else from the newest.")
]
AsCause = Annotated[
    str | None,
    Option("--as", metavar="CAUSE", help="The cause decided on, of those propose lists."),
]
Shared = Annotated[
    list[str] | None,
    Option("--with", metavar="SEAM", help="Share a tape difference with this seam too."),
]
ByHowMuch = Annotated[
    str | None, Option("--by", metavar="LENGTH", help="How much; else as the note's was read.")
]
For = Annotated[str, Option("--for", metavar="TEXT", help="What the new version is for.")]
Because = Annotated[
    list[str] | None, Option(metavar="NOTE", help="A note that asks for it; it becomes altered.")
]


@command(app, "propose")
def propose(
    notes: Notes,
    client: ClientOption = None,
    nothing_at: NothingAt = None,
    cause: AsCause = None,
    by: ByHowMuch = None,
    shared: Shared = None,
    likely: Annotated[
        bool, Option("--likely", help="Only list likely causes, whatever was measured.")
    ] = False,
    start: From = None,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Show what notes come to and what it would change. Nothing is stored.

    A note without an amount is answered with its likely causes: what to pin or measure to tell
    them apart, and what to type for each.

        tracker alter propose 1.1 --client mara
        tracker alter propose 1.2 --nothing-at "underarm point"
        tracker alter propose 1.3 --as "round back" --by 12mm
    """
    from tracker.cli.advice import causes_drawn, write_advice
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import read_answer, read_spot
    from tracker.tasks.advising import advise, without_amount
    from tracker.tasks.altering import propose_notes
    from tracker.tasks.preferences import manner

    books = opened(store)
    how = manner(books)
    spots = tuple(read_spot(text, how)[:2] for text in nothing_at or ())
    answer = read_answer(cause, by, how)
    bare = tuple(notes) if likely else () if answer else without_amount(books, client, notes)
    if bare:
        notes = [n for n in notes if n not in bare]
        drawn = None if notes else causes_drawn(books, client, bare, start)
        write_advice(*advise(books, client, bare, start), how, json, drawn)
    if notes:
        write_altered(
            propose_notes(books, client, notes, start, spots, answer, tuple(shared or ())),
            how,
            json,
        )


@command(app, "accept")
def accept(
    notes: Notes,
    client: ClientOption = None,
    nothing_at: NothingAt = None,
    cause: AsCause = None,
    by: ByHowMuch = None,
    shared: Shared = None,
    owed_to: Annotated[
        str | None,
        Option("--cause", help="Mark the notes: body, style, cloth or taste; else as noted."),
    ] = None,
    into: Annotated[
        str | None,
        Option("--into", metavar="NAME", help="Begin a pattern of this name; this one stays."),
    ] = None,
    start: From = None,
    sentence: For = "",
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Make the next version from what notes come to; the notes then say so.

    What is the body's proposes itself to the block; the rest stays with this pattern.

        tracker alter accept 1.1 1.2 --client mara
        tracker alter accept 1.3 --as "round back" --by 12mm --cause body
    """
    from tracker.cli.advice import write_for_the_block
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import read_answer, read_spot
    from tracker.fitting.observation import Cause, read_word
    from tracker.tasks.altering import accept_notes
    from tracker.tasks.preferences import manner

    books = opened(store)
    how = manner(books)
    spots = tuple(read_spot(text, how)[:2] for text in nothing_at or ())
    mark = read_word(Cause, owed_to, "cause") if owed_to else None
    made = accept_notes(
        books, client, notes, today(), start, spots, sentence, read_answer(cause, by, how), mark,
        into, tuple(shared or ()),
    )  # fmt: skip
    write_altered(made, how, json)
    write_for_the_block(books, made, json)


@command(app, "kinds")
def kinds(
    kind: Annotated[
        str | None, Argument(metavar="KIND", help="One of them, explained with an example.")
    ] = None,
    page: Annotated[
        str | None, Option(metavar="FILE", help="Write its page, with the example drawn: x.html.")
    ] = None,
    pages: Annotated[
        str | None, Option(metavar="FOLDER", help="Write a page for every kind into a folder.")
    ] = None,
    json: AsJson = False,
) -> None:
    """List the kinds of alteration, or explain one: what it does and takes, with an example.

    tracker alter kinds
    tracker alter kinds "take in a seam" --page take-in.html
    tracker alter kinds --pages alterations
    """
    from tracker.cli.kinds import explain_kind, list_kinds, write_pages

    if page or pages:
        write_pages(kind, page, pages)
    elif kind:
        explain_kind(kind, json)
    else:
        list_kinds(json)


@command(app, "to-block")
def to_block(
    notes: Annotated[
        list[str] | None,
        Argument(
            metavar="[NOTE …]",
            callback=only_notes,
            help="Notes; else all that are owed to the body.",
        ),
    ] = None,
    client: ClientOption = None,
    leave_out: Annotated[
        bool, Option("--leave-out", help="Go on without what cannot be done there.")
    ] = False,
    sentence: For = "",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Bring what fittings of a style found out about the body back to its block.

    Each applies there, applies with a stated change, or cannot, with the reason.

        tracker alter to-block 3.1 --client mara --try
    """
    from tracker.cli.carry import write_carried
    from tracker.tasks.preferences import manner
    from tracker.tasks.to_block import bring_to_block

    books = opened(store)
    made, done = bring_to_block(books, client, notes or (), today(), sentence, dry, leave_out)
    if not json:
        show.tell(f"Note {', '.join(done)}, onto {made.parent}:")
    write_carried(made, manner(books), json)


# Their commands hang on the same noun.
from tracker.cli import alter_directly  # noqa: E402, F401
