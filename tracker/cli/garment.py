"""``tracker garment``: what was sewn, or bought, to be tried on."""

from typing import Annotated

from typer import Option

from tracker.cli import show
from tracker.cli.clock import read_day, today
from tracker.cli.options import (
    AsJson,
    ClientOption,
    MaybeClient,
    MaybeVersion,
    OnDay,
    StoreFile,
    opened,
)
from tracker.cli.plain import command, noun

app = noun("Test garments, and other garments that are tried on.")


@command(app, "new", "add")
def new(
    version: MaybeVersion = None,
    kind: Annotated[
        str, Option(metavar="KIND", help="test garment (toile, muslin), basted, finished, bought.")
    ] = "test garment",
    cloth: Annotated[str, Option(help="What it is made of.")] = "",
    outlet: Annotated[
        str, Option(metavar="LENGTH", help="Allowance left to let out of.")
    ] = "15 mm",
    client: ClientOption = None,
    on: OnDay = "today",
    note: Annotated[str, Option(help="Anything else.")] = "",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Record a garment cut from a version; a bought one needs no pattern.

    tracker garment new mara/bodice@1 --cloth calico
    tracker garment new --client mara --kind bought --cloth "wool crepe"
    """
    from tracker.fitting.garment import Garment
    from tracker.tasks.fitting import add_garment, read_garment_kind
    from tracker.tasks.named import fresh_id
    from tracker.tasks.preferences import manner
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    garment = Garment(
        garment_id=fresh_id(),
        kind=read_garment_kind(kind),
        cut_from=None,
        cloth=cloth,
        made_on=read_day(on),
        outlet_mm=read_length(outlet, how.unit),
        note=note,
    )
    kept = add_garment(books, garment, version, client, today())
    if json:
        show.as_json(kept)
        return
    cut = f", cut from {kept.garment.cut_from}" if kept.garment.cut_from else ""
    kind = how.worded(str(kept.garment.kind))
    show.warn(kept.warnings)
    show.tell(f"Garment {kept.number} of {kept.client}: {kind}{cut}, {kept.garment.made_on}.")


@command(app, "list")
def list_(client: MaybeClient = None, store: StoreFile = None, json: AsJson = False) -> None:
    """List a client's garments.

    tracker garment list mara
    """
    from tracker.tasks.fitting import garments_of
    from tracker.tasks.preferences import manner

    books = opened(store)
    code, rows = garments_of(books, client)
    if json:
        show.as_json(rows)
        return
    how = manner(books)
    cells = [
        (
            r.number,
            r.made_on,
            how.worded(r.kind),
            r.cut_from,
            r.cloth,
            r.fittings,
            ", ".join(r.changed),
            r.note,
        )
        for r in rows
    ]
    headings = ("no", "cut on", "kind", "cut from", "cloth", "fittings",
                "done on it only", "")  # fmt: skip
    show.say(show.table(headings, cells, "rllllr") or f"{code} has no garment yet.")
