"""``tracker print``: a version at full scale."""

from pathlib import Path
from typing import Annotated

from typer import Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.options import AsJson, MaybeVersion, StoreFile, opened
from tracker.cli.plain import command, verb

app = verb()


@command(app, "print")
def print_(
    version: MaybeVersion = None,
    paper: Annotated[str, Option(help="a4, letter, or sheet for one large sheet.")] = "",
    out: Annotated[str | None, Option(metavar="FILE", help="Where it goes; else here.")] = None,
    cloth: Annotated[
        bool | None,
        Option("--for-cloth/--for-test", help="Else by standing: cloth once it is approved."),
    ] = None,
    allowance: Annotated[
        str | None,
        Option(
            metavar="LENGTH",
            help="On every seam; else 2.5 cm (1 in) to be fitted, and your usual one for cloth.",
        ),
    ] = None,
    own: Annotated[
        list[str] | None, Option(metavar="EDGE=LENGTH", help="An edge with its own: waist=4cm.")
    ] = None,
    square: Annotated[
        str | None,
        Option(metavar="LENGTH[;LENGTH]", help="What the last print's 100 mm square measured."),
    ] = None,
    roll: Annotated[
        str | None, Option(metavar="LENGTH", help="Width of the paper roll, for one large sheet.")
    ] = None,
    late: Annotated[
        bool, Option("--out-of-date", help="Print pieces that are out of date too.")
    ] = False,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Print a version at full scale to a PDF. Check the test square before cutting cloth.

    Pieces taken from others are kept back while they are out of date. A facing's inner edge has no
    allowance unless a lining is sewn to it; to turn it under: --own "inner edge=6mm".

    tracker print mara/bodice@3
    tracker print mara/princess --paper sheet --for-cloth --own waist=4cm
    """
    from tracker.cli.progress import working
    from tracker.cli.typed import maybe_length, read_pairs, read_square
    from tracker.tasks.preferences import manner
    from tracker.tasks.printing import PrintWish, print_version
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    wish = PrintWish(
        paper=paper,
        out=Path(out) if out else None,
        for_cloth=cloth,
        allowance_mm=maybe_length(allowance, how),
        own=tuple((e, read_length(v, how.unit)) for e, v in read_pairs(own or [], "waist=4cm")),
        square_mm=read_square(square, how),
        roll_mm=maybe_length(roll, how),
        out_of_date=late,
    )
    with working("laying it out"):
        made = print_version(books, version, wish, today())
    if json:
        show.as_json(made)
        return
    use = "for cloth" if made.for_cloth else f"for a {how.test_garment}"
    seam = how.length(made.allowance_mm)
    show.tell(f"{made.path}: {made.address} {use} on {made.paper}, seam allowance {seam}.")
    show.warn(made.warnings)
    show.tell("Print it at 100 %, and check the test square before cutting.")
