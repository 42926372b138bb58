"""``tracker note``: what is seen at a fitting, tied to a seam or a piece."""

from typing import Annotated, Any

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.options import AsJson, ClientOption, MaybeClient, StoreFile, opened
from tracker.cli.plain import command, noun

app = noun(
    "What is seen at a fitting, tied to a seam or a piece. A note is called by fitting and note: "
    "2.3 is the third note of the second fitting."
)

NoteName = Annotated[str, Argument(metavar="NOTE", help="Fitting and note, as in 2.3.")]
Amounts = list[str] | None


def _reading(flag: str, says: str) -> Any:
    return Option(f"--{flag}", metavar="LENGTH at PLACE", help=says)


@command(app, "new", "add")
def new(
    client: MaybeClient = None,
    seam: Annotated[str | None, Option(help="The seam it is at; or")] = None,
    piece: Annotated[str | None, Option(help="the piece, and perhaps")] = None,
    edge: Annotated[str | None, Option(help="its edge; alone, all round (a hem).")] = None,
    side: Annotated[str, Option(metavar="SIDE", help="The wearer's: right, left, both.")] = "both",
    sign: Annotated[str, Option(help="What is seen: too tight, gaping, drag lines …")] = "other",
    strength: Annotated[str, Option(help="slight, clear or strong.")] = "clear",
    direction: Annotated[str, Option(help="Where drag lines or folds point.")] = "",
    pinned: Annotated[
        Amounts, _reading("pinned", "Depth of a pinned fold: twice comes out.")
    ] = None,
    gap: Annotated[Amounts, _reading("gap", "A ripped seam stands open: goes in, once.")] = None,
    chalk: Annotated[Amounts, _reading("chalk", "Chalk line beside a seam, one layer.")] = None,
    tape: Annotated[
        Amounts, _reading("tape", "The whole line too large, or with -, small.")
    ] = None,
    paper: Annotated[Amounts, _reading("paper", "Marked on one piece's paper edge.")] = None,
    floor: Annotated[
        Amounts, _reading("floor", "Height of a hem there; “60cm all round” is wanted.")
    ] = None,
    words: Annotated[str, Option(help="Your words.")] = "",
    said: Annotated[str, Option(help="Her own words.")] = "",
    cause: Annotated[str, Option(help="body, style, cloth or taste.")] = "body",
    done: Annotated[
        bool, Option("--done", help="It was sewn so on the garment itself already.")
    ] = False,
    fitting: Annotated[int | None, Option(help="The fitting's number; else the last.")] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Write a note down. Amounts are read in one of five ways; say which.

    A place is a corner or what tells it apart (side waist, waist), so far from one, a line of the
    body (bust line) or so far above or below it, a dart, or all round.

    tracker note new mara --seam side --sign "too loose" \
      --pinned "5mm at side waist" --pinned "nothing at underarm point"
    tracker note new mara --seam "centre back" --gap "12mm at centre back waist"
    tracker note new mara --piece front --edge neckline --sign gaping \
      --pinned "6mm at 4cm from neck point"
    tracker note new mara --piece back --sign "folds across" \
      --pinned "5mm at 4cm from centre back waist" \
      --pinned "nothing at 4cm from side waist"
    tracker note new mara --piece front --sign tight --tape "-4cm at bust line"
    tracker note new mara --edge hem --sign "off level" \
      --floor "60cm all round" --floor "61cm at side hem on front"
    """
    from tracker.cli.spoken_note import note_from
    from tracker.tasks.notes import add_note
    from tracker.tasks.preferences import manner

    books = opened(store)
    typed = {"pinned fold": pinned, "gap": gap, "chalk line": chalk, "tape difference": tape,
             "on paper": paper, "from the floor": floor}  # fmt: skip
    note = note_from(
        typed, manner(books), seam=seam, piece=piece, edge=edge, side=side, sign=sign,
        strength=strength, direction=direction, words=words, said=said, cause=cause,
    )  # fmt: skip
    row = add_note(books, client, fitting, note.done_on_garment() if done else note)
    _write([row], manner(books), json)


@command(app, "list")
def list_(
    client: MaybeClient = None,
    fitting: Annotated[int | None, Option(help="Only of this fitting.")] = None,
    waiting: Annotated[bool, Option("--waiting", help="Only what wants dealing with.")] = False,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """List a client's notes and what became of each.

    tracker note list mara --waiting
    """
    from tracker.tasks.notes import notes_of
    from tracker.tasks.preferences import manner

    books = opened(store)
    code, rows = notes_of(books, client, fitting, waiting)
    if rows or json:
        _write(rows, manner(books), json)
    else:
        show.tell(f"{code} has no note {'that waits' if waiting else 'yet'}.")


@command(app, "find")
def find(
    words: Annotated[list[str], Argument(metavar="WORD …", help="Words; gap* finds gaping too.")],
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Find notes of all clients by their words.

    tracker note find shoulder low
    """
    from tracker.tasks.notes import find_notes
    from tracker.tasks.preferences import manner

    books = opened(store)
    rows = find_notes(books, " ".join(words))
    if rows or json:
        _write(rows, manner(books), json)
    else:
        show.tell(f"No note says “{' '.join(words)}”.")


@command(app, "change")
def change(
    note: NoteName,
    client: ClientOption = None,
    sign: Annotated[str | None, Option(help="What is seen.")] = None,
    strength: Annotated[str | None, Option(help="slight, clear or strong.")] = None,
    direction: Annotated[str | None, Option(help="Where drag lines or folds point.")] = None,
    words: Annotated[str | None, Option(help="Your words.")] = None,
    said: Annotated[str | None, Option(help="Her own words.")] = None,
    cause: Annotated[str | None, Option(help="body, style, cloth or taste.")] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Change a note; as it was before, it stays in the journal.

    tracker note change 1.2 --words "only when she sits" --cause taste
    """
    from tracker.cli.spoken_note import changed
    from tracker.tasks.notes import change_note
    from tracker.tasks.preferences import manner

    books = opened(store)
    change_of = changed(sign, strength, direction, words, said, cause)
    row = change_note(books, client, note, change_of)
    _write([row], manner(books), json)


def _write(rows: Any, how: Any, as_json: bool) -> None:
    if as_json:
        show.as_json(rows)
        return
    several = len({r.client for r in rows}) > 1
    cells = [
        (f"{r.client} {r.name}" if several else r.name, r.where, _seen(r), _words(r), _state(r))
        for r in rows
    ]
    show.say(show.table(("note", "where", "seen", "words", "state"), cells))


def _seen(row: Any) -> str:
    direction = f" {row.direction}" if row.direction else ""
    readings = f": {'; '.join(row.readings)}" if row.readings else ""
    return f"{row.sign}{direction}, {row.strength}{readings}"


def _words(row: Any) -> str:
    said = [row.fitter_words, f"she says: “{row.client_words}”" if row.client_words else ""]
    return "; ".join(words for words in said if words)


def _state(row: Any) -> str:
    return f"{row.state} ({row.dealt_with_in})" if row.dealt_with_in else row.state
