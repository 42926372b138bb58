"""``tracker why``: why a seam or an edge is where it is."""

from typing import Annotated

from typer import Option

from tracker.cli import show
from tracker.cli.options import AsJson, MaybeVersion, StoreFile, opened
from tracker.cli.plain import command, verb

app = verb()


@command(app, "why")
def why(
    version: MaybeVersion = None,
    seam: Annotated[str | None, Option(help="A seam; or")] = None,
    piece: Annotated[str | None, Option(help="a piece, and")] = None,
    edge: Annotated[str | None, Option(help="its edge.")] = None,
    side: Annotated[str, Option(metavar="SIDE", help="The wearer's: right, left, both.")] = "both",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Tell why a seam or an edge is where it is: what moved it, and which note asked; newest first.

    tracker why mara/bodice --seam side
    tracker why mara/bodice@4 --piece front --edge waist
    """
    from tracker.cli.typed import read_side
    from tracker.tasks.versions import why_there

    address, what, told = why_there(opened(store), version, seam, piece, edge, read_side(side))
    if json:
        show.as_json({"address": address, "what": what, "reasons": told})
        return
    show.tell(f"The {what} of {address} is where it is because:")
    for because in told:
        reason = because.reason
        show.points([f"{reason.version}, {reason.made_on}: {show.begun(reason.sentence)}"])
        for note in because.notes:
            words = f" “{note.fitter_words}”" if note.fitter_words else ""
            show.tell(f"note {note.name}, {note.where}, {note.sign}: {note.state}.{words}", "    ")
