"""``tracker style part``: pieces parted on a line, a yoke, a band, a style seam."""

from typing import TYPE_CHECKING, Annotated, Any

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
    from tracker.alterations.kinds.part_on_a_line import LineEnd
    from tracker.tasks.preferences import Manner


Leave = Annotated[
    list[str] | None,
    Option(
        metavar="DART",
        help="A dart the line runs across that stays: sewn shut on the part with its mouth, the "
        "rest a dart from the new seam.",
    ),
]


def read_line_end(text: str, how: "Manner") -> "LineEnd":
    """Read where a line meets an edge: ``9cm from shoulder point on armhole``.

    Raises:
        TypedOtherwise: it names no edge.
    """
    from tracker.alterations.kinds.part_on_a_line import LineEnd

    corner, distance_mm, edge = read_spot(text, how)
    if edge is None:
        raise TypedOtherwise(
            f"“{text}” does not say on which edge; write it like “9cm from shoulder point on "
            "armhole”"
        )
    return LineEnd(corner=corner, distance_mm=distance_mm, edge=edge)


def names_in(text: str) -> tuple[str, ...]:
    """Read names with commas, or "and", between."""
    return tuple(n.strip() for n in text.replace(" and ", ",").split(",") if n.strip())


def one_of(text: str, sort: Any, what: str) -> Any:
    """Read a word that is one of a few.

    Raises:
        TypedOtherwise: it is none of them.
    """
    word = text.strip().lower()
    if word not in tuple(sort):
        raise TypedOtherwise(f"{what} is {' or '.join(sort)}, not “{text}”")
    return sort(word)


@command(app, "part")
def part(
    pieces: Annotated[str, Argument(help="The pieces in order along the line: “back, front”.")],
    version: MaybeVersion = None,
    at: Annotated[
        list[str] | None,
        Option(
            metavar="PLACE",
            help="Where the line meets an edge, one more than there are "
            "pieces: “9cm from shoulder point on armhole”.",
        ),
    ] = None,
    shape: Annotated[
        str, Option(metavar="straight|curved", help="Curved: square to the edges it meets.")
    ] = "straight",
    bow: Annotated[
        str, Option(metavar="LENGTH", help="How far a straight line dips; negative arches.")
    ] = "0",
    close: Annotated[
        list[str] | None, Option(metavar="DART", help="A dart that is closed into the line.")
    ] = None,
    leave: Leave = None,
    through: Annotated[
        str, Option(metavar="DART", help="The line runs through its point and closes it.")
    ] = "",
    down: Annotated[
        str, Option(metavar="DART", help="The line runs to its point and down its legs.")
    ] = "",
    named: Annotated[
        str, Option(metavar="NAME", help="What the new part is called after its piece.")
    ] = "yoke",
    lower: Annotated[bool, Option("--lower", help="The lower part is the new one.")] = False,
    name: NewPattern = None,
    side: Side = "both",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Part pieces on a line from edge to edge: a yoke, a band, a style seam.

    Darts named are closed into the line; one with two points that it runs over becomes two.

        tracker style part back --at "9cm from shoulder point on armhole" \
            --at "10cm from centre back neck on centre back" --close "shoulder dart"
        tracker style part front --at "9cm from shoulder point on armhole" \
            --down "bust dart" --named "upper side" --try
    """
    from tracker.alterations.kinds.part_on_a_line import LineShape, NewPart, PartOnLine
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import style_by
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    kind = PartOnLine(
        pieces=names_in(pieces),
        ends=tuple(read_line_end(text, how) for text in at or []),
        shape=one_of(shape, LineShape, "a line's shape"),
        bow_mm=read_length(bow, how.unit, allow_negative=True),
        close=tuple(close or []),
        leave=tuple(leave or []),
        through=through,
        down=down,
        named=named,
        part=NewPart.LOWER if lower else NewPart.UPPER,
        side=read_side(side),
    )
    made = style_by(books, version, [kind], today(), name, dry)
    write_altered(made, how, json)


@command(app, "across")
def across(
    line: Annotated[str, Argument(help="The line heights are from: “waist line”.")],
    version: MaybeVersion = None,
    above: Annotated[
        str, Option(metavar="LENGTH", help="So far above the line; negative, or --below, below.")
    ] = "0",
    below: Annotated[str | None, Option(metavar="LENGTH", help="So far below the line.")] = None,
    named: Annotated[
        str, Option(metavar="NAME", help="What the new parts are called after their pieces.")
    ] = "skirt",
    upper: Annotated[bool, Option("--upper", help="The upper parts are the new ones.")] = False,
    pieces: Annotated[
        str, Option(metavar="PIECES", help="“back, front”; else every piece that has the line.")
    ] = "",
    close: Annotated[
        list[str] | None, Option(metavar="DART", help="A dart that is closed into the line.")
    ] = None,
    leave: Leave = None,
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Part every piece across at a height: a waist dropped or raised, a yoke all round, a band.

    The parts match where they are sewn together. A dart with two points becomes two.

        tracker style across "waist line" mara/torso --below 6cm --as dropped
        tracker style across "waist line" mara/skirt --below 10cm --named yoke \
            --upper --close "waist dart" --as yoked
    """
    from tracker.alterations.kinds.part_at_a_height import PartAtHeight
    from tracker.alterations.kinds.part_on_a_line import NewPart
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import style_by
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    high = read_length(above, how.unit, allow_negative=True)
    kind = PartAtHeight(
        line=line,
        above_mm=high if below is None else -read_length(below, how.unit),
        named=named,
        part=NewPart.UPPER if upper else NewPart.LOWER,
        pieces=names_in(pieces),
        close=tuple(close or []),
        leave=tuple(leave or []),
    )
    write_altered(style_by(books, version, [kind], today(), name, dry), how, json)
