"""``tracker why``: why a seam, an edge or a place is where it is."""

from typing import TYPE_CHECKING, Annotated

from typer import Option

from tracker.cli import show
from tracker.cli.options import AsJson, MaybeVersion, StoreFile, opened
from tracker.cli.plain import command, verb

if TYPE_CHECKING:
    from tracker.tasks.reasons import Because

app = verb()


@command(app, "why")
def why(
    version: MaybeVersion = None,
    seam: Annotated[str | None, Option(help="A seam; or")] = None,
    piece: Annotated[str | None, Option(help="a piece, and")] = None,
    edge: Annotated[str | None, Option(help="its edge.")] = None,
    at: Annotated[
        str | None,
        Option(metavar="PLACE", help="One place of it: “side waist”, “4cm from side waist”."),
    ] = None,
    side: Annotated[str, Option(metavar="SIDE", help="The wearer's: right, left, both.")] = "both",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Tell why a line is where it is: what moved it, by how much, which note asked; newest first.

    tracker why mara/bodice --seam side
    tracker why mara/bodice --seam side --at "4cm from side waist"
    tracker why mara/bodice@4 --piece front --edge waist
    """
    from tracker.cli.typed import read_side, read_spot
    from tracker.tasks.preferences import manner
    from tracker.tasks.reasons import Line, why_there

    books = opened(store)
    spot = read_spot(at, manner(books))[:2] if at else None
    line = Line(seam, piece, edge, read_side(side), spot)
    address, what, told = why_there(books, version, line)
    if json:
        show.as_json({"address": address, "what": what, "reasons": told})
        return
    of = f", in {address}," if spot else f" of {address}"
    show.tell(f"The {what}{of} is where it is because:")
    for because in told:
        _write(because, spot is not None)


def _write(because: "Because", at_a_place: bool) -> None:
    reason = because.reason
    show.points([f"{reason.version}, {reason.made_on}: {show.begun(reason.sentence)}"])
    if reason.step_id and reason.shifts:
        begin = "there" if at_a_place else "most"
        moved = "; ".join(s.said if at_a_place else s.words for s in reason.shifts)
        show.tell(f"{begin}: {moved}", "    ")
    for note in because.notes:
        words = f" “{note.fitter_words}”" if note.fitter_words else ""
        show.tell(f"note {note.name}, {note.where}, {note.sign}: {note.state}.{words}", "    ")
