"""``tracker block``: draft a block or trace one in, and look at how it was made."""

from pathlib import Path
from typing import Annotated, Any

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.options import AsJson, Cloth, MaybeClient, MaybeVersion, StoreFile, opened
from tracker.cli.plain import command, noun

app = noun("Draft a block from a client's measurements, or trace a pattern in from paper.")


@command(app, "draft")
def draft(
    client: MaybeClient = None,
    kind: Annotated[
        str, Option(metavar="KIND", help="bodice, skirt, torso or trousers.")
    ] = "bodice",
    name: Annotated[
        str | None, Option("--as", metavar="NAME", help="What to call it; else after its kind.")
    ] = None,
    estimate: Annotated[
        bool, Option("--estimate", help="Work out what was not measured, and mark it for ever.")
    ] = False,
    session: Annotated[
        int | None, Option(help="Of this session only; else her newest usual values.")
    ] = None,
    with_passing: Annotated[
        bool, Option("--with-passing", help="Values of passing sessions count too.")
    ] = False,
    cloth: Cloth = "woven",
    ease: Annotated[
        list[str] | None,
        Option(metavar="LINE=LENGTH", help="Ease of this pattern: bust=6cm; see client ease."),
    ] = None,
    back_shoulder: Annotated[
        str, Option(metavar="dart|ease", help="A dart at the back shoulder, or ease.")
    ] = "dart",
    side: Annotated[
        str, Option(metavar="SIDE", help="Where right and left differ: right, left or both.")
    ] = "both",
    length: Annotated[
        str | None, Option(metavar="LENGTH", help="A skirt's, down the side; else to the knee.")
    ] = None,
    hem: Annotated[
        str | None,
        Option(metavar="LENGTH", help="Trousers', round each leg; else straight from the knee."),
    ] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Draft a block from a client's body: the first version of a pattern.

    Every wanted figure is met or the draft is refused, naming the measurements in conflict.
    What the body leaves free is chosen, and said.

        tracker block draft mara
        tracker block draft mara --as bodice-2026 --estimate --ease bust=6cm
        tracker block draft mara --kind skirt --length 60cm
        tracker block draft mara --kind trousers --hem 38cm
    """
    from tracker.cli.progress import working
    from tracker.cli.typed import maybe_length, read_pairs, read_side
    from tracker.tasks.blocks import DraftWish
    from tracker.tasks.drafting import draft_block
    from tracker.tasks.preferences import manner
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    lines = read_pairs(ease or [], "bust=6cm")
    wearers: Any = str(read_side(side))
    wish = DraftWish(
        kind=kind.strip().lower(),
        pattern=name,
        session=session,
        with_passing=with_passing,
        estimate=estimate,
        cloth=cloth.strip().lower(),
        ease=tuple((k, read_length(v, how.unit, allow_negative=True)) for k, v in lines),
        back_shoulder=back_shoulder,
        body_side=wearers,
        length_mm=maybe_length(length, how),
        hem_mm=maybe_length(hem, how),
    )
    with working("drafting"):
        made = draft_block(books, client, wish, today())
    _write(made.version.address, made.version.sentence, made.rows, made.estimated, how, json)


@command(app, "trace")
def trace(
    words: Annotated[
        list[str] | None,
        Argument(metavar="CLIENT FILE", help="Her code (not if there is only one), and the file."),
    ] = None,
    name: Annotated[
        str | None, Option("--as", metavar="NAME", help="What to call it; else as the file.")
    ] = None,
    try_: Annotated[
        bool, Option("--try", help="Say what it would become, and store nothing.")
    ] = False,
    layout: Annotated[bool, Option("--layout", help="Say how such a file is laid out.")] = False,
    example: Annotated[
        str | None, Option(metavar="FILE", help="Write an example to put your own numbers in.")
    ] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Trace an existing pattern in: points read off the paper, or a drawing with named lines.

    The file is CSV, JSON, SVG or DXF; lines are drawn through the points to 0.3 mm. Without points
    it keeps a paper pattern by its edges and their lengths. Every fault is told with its line.

        tracker block trace --example bodice.csv
        tracker block trace mara bodice.csv --try
        tracker block trace mara bodice.csv --as old-bodice
    """
    from tracker.cli.traced import write_layout, write_traced
    from tracker.tasks.preferences import manner
    from tracker.tasks.tracing import client_and_file, trace_in, write_example

    if layout or example:
        write_layout() if layout else show.tell(f"{write_example(Path(str(example)))}: an example.")
        return
    code, file = client_and_file(words or [])
    books = opened(store)
    made = trace_in(None if try_ else books, code, file, name, today())
    write_traced(made, manner(books), as_json=json)


@command(app, "table")
def table(version: MaybeVersion = None, store: StoreFile = None, json: AsJson = False) -> None:
    """Show what a block was drafted to: wanted, got and chosen.

    tracker block table mara/bodice
    """
    from tracker.tasks.drafting import draft_table
    from tracker.tasks.preferences import manner

    books = opened(store)
    address, sentence, rows, estimated = draft_table(books, version)
    _write(address, sentence, rows, estimated, manner(books), json)


def _write(
    address: Any, sentence: str, rows: Any, estimated: tuple[str, ...], how: Any, as_json: bool
) -> None:
    if as_json:
        show.as_json(
            {"address": address, "sentence": sentence, "estimated": estimated, "rows": rows}
        )
        return
    from tracker.drafting.questioned import MIND

    show.tell(f"{address}: {sentence}")
    for kind, title in (("wanted", "wanted, and got"), ("chosen", "chosen by preference")):
        cells = [_cells(r, how) for r in rows if r.kind == kind]
        show.say()
        heads = (title, "wanted" if kind == "wanted" else "liked", "got", "")
        show.say(show.table(heads, cells, "lrr"))
    notes = [r for r in rows if r.kind == "note"]
    show.say()
    show.points(r.note for r in notes if r.name != MIND)
    show.warn(r.note for r in notes if r.name == MIND)


def _cells(row: Any, how: Any) -> tuple[str, ...]:
    return row.name, _figure(row.wanted, row.unit), _figure(row.got, row.unit), row.note


def _figure(value: float | None, unit: str) -> str:
    return "" if value is None else f"{value:.1f} {unit}".strip()
