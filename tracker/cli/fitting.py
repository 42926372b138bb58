"""``tracker fitting``: a trying-on; and whether earlier notes are settled or came back."""

from typing import Annotated, Any

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import read_day, today
from tracker.cli.options import (
    AsJson,
    ClientOption,
    MaybeClient,
    OnDay,
    StoreFile,
    only_notes,
    opened,
)
from tracker.cli.plain import command, noun

app = noun("Fittings, and whether the notes of earlier ones are settled or came back.")

Notes = Annotated[
    list[str],
    Argument(metavar="NOTE …", callback=only_notes, help="Notes as fitting and note: 1.2 1.3"),
]
FittingNumber = Annotated[
    int | None, Option("--fitting", help="At which fitting it was seen; else the last.")
]


@command(app, "new", "add")
def new(
    client: MaybeClient = None,
    garment: Annotated[int | None, Option(help="The garment's number; else the last one.")] = None,
    on: OnDay = "today",
    fitter: Annotated[str, Option(help="By whom.")] = "",
    over: Annotated[str, Option(help="What is worn underneath.")] = "",
    heel: Annotated[str, Option(metavar="LENGTH", help="Heel height.")] = "0",
    inside_out: Annotated[bool, Option("--inside-out", help="Worn inside out.")] = False,
    note: Annotated[str, Option(help="Anything else.")] = "",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Record a fitting. It says what to look at again, and if she was measured otherwise dressed.

    tracker fitting new mara --over "thin bra" --fitter Ida
    """
    from tracker.fitting.garment import Fitting
    from tracker.tasks.fitting import add_fitting
    from tracker.tasks.named import fresh_id
    from tracker.tasks.preferences import manner
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    fitting = Fitting(
        fitting_id=fresh_id(),
        garment_id="",
        on=read_day(on),
        fitter=fitter or how.maker,
        worn_beneath=over,
        heel_mm=read_length(heel, how.unit),
        inside_out=inside_out,
        note=note,
    )
    kept = add_fitting(books, client, garment, fitting, today())
    if json:
        show.as_json(kept)
        return
    show.tell(f"Fitting {kept.number} of {kept.client}, {kept.fitting.on}.")
    show.warn(kept.warnings)
    _to_look_at(kept.to_look_at)


def _to_look_at(rows: Any) -> None:
    if not rows:
        return
    show.say("Altered since, to look at now:")
    show.say(show.table(
        ("note", "where", "seen", "altered in"),
        [(r.name, r.where, r.sign, r.dealt_with_in or r.state) for r in rows],
    ))  # fmt: skip
    show.tell("Say what became of them: tracker fitting settle NOTE, or tracker fitting back NOTE.")


@command(app, "list")
def list_(client: MaybeClient = None, store: StoreFile = None, json: AsJson = False) -> None:
    """List a client's fittings and what became of their notes: does the work converge?

    tracker fitting list mara
    """
    from tracker.tasks.fitting import fittings_of

    code, rows = fittings_of(opened(store), client)
    if json:
        show.as_json(rows)
        return
    headings = ("no", "date", "of", "fitter", "over", "notes", "settled", "back", "waiting")
    cells = [
        (r.number, r.on, r.cut_from or f"garment {r.garment}", r.fitter, r.worn_beneath,
         r.notes, r.settled, r.came_back, r.waiting)
        for r in rows
    ]  # fmt: skip
    show.say(show.table(headings, cells, "rllllrrrr") or f"{code} has no fitting yet.")


@command(app, "order", "next")
def order(client: MaybeClient = None, store: StoreFile = None, json: AsJson = False) -> None:
    """List the notes that wait, in the order of looking: what is settled first.

    tracker fitting order mara
    """
    from tracker.cli.advice import write_order
    from tracker.tasks.advising import waiting_in_order

    write_order(*waiting_in_order(opened(store), client), json)


@command(app, "signs")
def signs(
    words: Annotated[
        list[str] | None, Argument(metavar="[WORD …]", help="Only rows with these words.")
    ] = None,
    json: AsJson = False,
) -> None:
    """Show what is seen at a fitting, where, and its likely causes, with the source of each.

    tracker fitting signs neckline
    """
    from tracker.cli.advice import write_signs
    from tracker.tasks.advising import sign_rows

    write_signs(sign_rows(" ".join(words or ())), json)


@command(app, "readings")
def readings(
    kind: Annotated[str, Argument(metavar="[KIND]", help="Only for this kind of alteration.")] = "",
    json: AsJson = False,
) -> None:
    """Show what each way of reading an amount means for each kind of alteration.

    tracker fitting readings "change the width across"
    """
    from tracker.tasks.advising import reading_rows

    rows = reading_rows(kind)
    if json:
        show.as_json(rows)
        return
    cells = [(r.kind, r.reading, r.means) for r in rows]
    show.say(show.table(("kind", "read as", "10 mm read, on both body sides"), cells))


@command(app, "settle")
def settle(
    notes: Notes,
    client: ClientOption = None,
    fitting: FittingNumber = None,
    store: StoreFile = None,
) -> None:
    """Say that altered notes are settled: at this fitting it is right.

    tracker fitting settle 1.1 1.2 --client mara
    """
    _looked_at(store, client, notes, fitting, settled=True)


@command(app, "done")
def done(
    notes: Notes,
    client: ClientOption = None,
    store: StoreFile = None,
) -> None:
    """Say that what notes ask for was sewn on the garment itself; the pattern stays as it is.

    It is taken back to the pattern with tracker alter accept, or stays with the garment.

        tracker fitting done 1.2 --client mara
    """
    from tracker.tasks.notes import done_on_garment

    for row in done_on_garment(opened(store), client, notes):
        show.tell(
            f"Note {row.name} ({row.where}, {row.sign}): {row.state}. To take it back to the "
            f"pattern: tracker alter accept {row.name} --client {row.client}"
        )


@command(app, "back")
def back(
    notes: Notes,
    client: ClientOption = None,
    fitting: FittingNumber = None,
    store: StoreFile = None,
) -> None:
    """Say that altered notes came back: at this fitting it shows again.

    tracker fitting back 1.3 --client mara
    """
    _looked_at(store, client, notes, fitting, settled=False)


def _looked_at(
    store: str | None, client: str | None, notes: list[str], fitting: int | None, settled: bool
) -> None:
    from tracker.tasks.notes import look_at_notes

    rows = look_at_notes(opened(store), client, notes, fitting, settled)
    for row in rows:
        show.tell(f"Note {row.name} ({row.where}, {row.sign}): {row.state}.")
