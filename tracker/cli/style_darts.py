"""``tracker style dart``: a dart taken elsewhere, gathered or eased."""

import re
from typing import TYPE_CHECKING, Annotated

from typer import Argument, Option

from tracker.cli.clock import today
from tracker.cli.options import (
    AsJson,
    MaybeVersion,
    NewPattern,
    PictureFile,
    Side,
    StoreFile,
    Try,
    opened,
)
from tracker.cli.plain import command
from tracker.cli.style import app
from tracker.cli.typed import TypedOtherwise, read_side, read_spot

if TYPE_CHECKING:
    from tracker.tasks.preferences import Manner
    from tracker.tasks.style_darts import DartPlace

_SHARE = re.compile(r"(?:(?P<share>\d+(?:\.\d+)?)\s*%\s+)?(?:to\s+)?(?P<place>.+)")


def read_dart_place(text: str, how: "Manner") -> "DartPlace":
    """Read where a dart is taken: ``40% 6cm from neck point on shoulder``, ``into waist dart``.

    Raises:
        TypedOtherwise: it names no edge and no dart.
    """
    from tracker.tasks.style_darts import DartPlace

    found = _SHARE.fullmatch(" ".join(text.split()))
    if found is None:
        raise TypedOtherwise("a dart's new place is “60mm from neck point on shoulder”")
    share = None if found["share"] is None else float(found["share"]) / 100
    place = found["place"]
    if place.startswith("into "):
        return DartPlace(share=share, into=place.removeprefix("into ").removeprefix("the "))
    corner, distance_mm, edge = read_spot(place, how)
    if edge is None:
        raise TypedOtherwise(
            f"“{text}” does not say on which edge; write it like “60mm from neck point on "
            "shoulder”, or “into waist dart”"
        )
    return DartPlace(share=share, edge=edge, corner=corner, distance_mm=distance_mm)


@command(app, "dart")
def dart(
    piece: Annotated[str, Argument(help="The piece: front.")],
    dart: Annotated[str, Argument(help="The dart: “bust dart”.")],
    version: MaybeVersion = None,
    to: Annotated[
        list[str] | None,
        Option(
            metavar="PLACE",
            help="“6cm from neck point on shoulder”, a share of it before: "
            "“40% …”; or “into waist dart”. May be said several times.",
        ),
    ] = None,
    sewn: Annotated[
        str, Option(metavar="dart|gathers|ease", help="How it is sewn there.")
    ] = "dart",
    spread: Annotated[
        str, Option(metavar="LENGTH", help="How far gathers spread to either side of the mouth.")
    ] = "30 mm",
    name: NewPattern = None,
    side: Side = "both",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Take a dart to another place, wholly or in shares; sew it, gather it or ease it there.

    The angle that is lost is the angle that is gained, about the same point.

        tracker style dart front "bust dart" --to "6cm from neck point on shoulder"
        tracker style dart front "bust dart" --to "50% into waist dart" --try
        tracker style dart front "waist dart" --sewn gathers --spread 4cm
    """
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_darts import DartWish, style_a_dart
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    wish = DartWish(
        piece=piece,
        dart=dart,
        to=tuple(read_dart_place(text, how) for text in to or []),
        sewn=sewn.strip().lower(),
        spread_mm=read_length(spread, how.unit),
        side=read_side(side),
    )
    made = style_a_dart(books, version, wish, today(), name, dry)
    write_altered(made, how, json)
