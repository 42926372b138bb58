"""``tracker alter take-in``, ``let-out``, ``move-notch``, ``add-dart``, ``make``: directly."""

from typing import Annotated, Any

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.alter import Because, For, app
from tracker.cli.clock import today
from tracker.cli.options import AsJson, MaybeVersion, PictureFile, Side, StoreFile, Try, opened
from tracker.cli.plain import command

Amounts = Annotated[
    list[str] | None,
    Argument(metavar="[VERSION] AMOUNT …", help="“10mm at side waist” “nothing at underarm point”"),
]
SeamName = Annotated[str, Option(help="The seam.")]
Only = Annotated[str | None, Option(metavar="PIECE", help="All of it on this piece; else half.")]
PieceName = Annotated[str, Option(help="The piece.")]


@command(app, "take-in")
def take_in(
    seam: SeamName,
    amounts: Amounts = None,
    side: Side = "both",
    only: Only = None,
    because: Because = None,
    sentence: For = "",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Take in a seam: amounts come out of the garment at it, half from each piece.

    One amount alone holds all along; “nothing at …” ends it.

        tracker alter take-in mara/bodice --seam side \
          "10mm at side waist" "nothing at underarm point"
        tracker alter take-in --seam side --side right "8mm all along" --try
    """
    _seam(1, seam, amounts, side, only, because, sentence, dry, store, json)


@command(app, "let-out")
def let_out(
    seam: SeamName,
    amounts: Amounts = None,
    side: Side = "both",
    only: Only = None,
    because: Because = None,
    sentence: For = "",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Let out a seam: amounts go into the garment at it, half to each piece.

    tracker alter let-out mara/bodice --seam "centre back" \
      "6mm at 8cm from centre back neck" "nothing at centre back waist"
    """
    _seam(-1, seam, amounts, side, only, because, sentence, dry, store, json)


def _seam(
    sign: int, seam: str, words: list[str] | None, side: str, only: str | None,
    because: list[str] | None, sentence: str, dry: bool, store: str | None, json: bool,
) -> None:  # fmt: skip
    from tracker.cli.typed import read_amount, read_side, version_and_amounts
    from tracker.tasks.preferences import manner
    from tracker.tasks.said import take_in as taken_in

    books = opened(store)
    how = manner(books)
    version, texts = version_and_amounts(words or [])
    spoken = [read_amount(text, how) for text in texts]
    amounts = tuple((sign * s.amount_mm + 0.0, s.corner, s.distance_mm) for s in spoken)
    maker = taken_in(seam, read_side(side), amounts, only)
    _make(books, how, version, [maker], because, sentence, dry, json)


def _make(
    books: Any, how: Any, version: str | None, makers: list[Any], because: list[str] | None,
    sentence: str, dry: bool, json: bool,
) -> None:  # fmt: skip
    from tracker.cli.effects import write_altered
    from tracker.tasks.altering import alter

    made = alter(books, version, makers, today(), because or (), sentence, dry)
    write_altered(made, how, json)


@command(app, "move-notch")
def move_notch(
    piece: PieceName,
    notch: Annotated[str, Option(help="The notch.")],
    by: Annotated[str, Option(metavar="LENGTH", help="Away from its corner; with - towards it.")],
    version: MaybeVersion = None,
    side: Side = "both",
    alone: Annotated[bool, Option("--alone", help="Its partner stays where it is.")] = False,
    because: Because = None,
    sentence: For = "",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Move a notch along its seam; the notch it meets goes along.

    tracker alter move-notch mara/bodice --piece front \
      --notch "side notch" --by 5mm
    """
    from tracker.alterations.kinds.move_a_notch import MoveNotch
    from tracker.cli.typed import read_side
    from tracker.tasks.preferences import manner
    from tracker.tasks.said import as_it_is
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    by_mm = read_length(by, how.unit, allow_negative=True)
    kind = MoveNotch(piece=piece, notch=notch, by_mm=by_mm, side=read_side(side), partner=not alone)
    _make(books, how, version, [as_it_is(kind)], because, sentence, dry, json)


@command(app, "add-dart")
def add_dart(
    piece: PieceName,
    edge: Annotated[str, Option(help="The edge it opens from.")],
    at: Annotated[str, Option(metavar="PLACE", help="Its middle: “9cm from side waist”.")],
    width: Annotated[str, Option(metavar="LENGTH", help="How much it takes in.")],
    length: Annotated[str, Option(metavar="LENGTH", help="How long it is drawn.")],
    version: MaybeVersion = None,
    name: Annotated[str | None, Option("--name", help="What to call it.")] = None,
    inward: Annotated[
        str, Option(metavar="LENGTH", help="Double-pointed: its widest place, in from the edge.")
    ] = "0",
    towards_edge: Annotated[
        str, Option(metavar="LENGTH", help="Double-pointed: from there to its other point.")
    ] = "0",
    stand_back: Annotated[str, Option(metavar="LENGTH", help="Sewn so far short of it.")] = "0",
    pressed: Annotated[str, Option(help="The side its fold is pressed to.")] = "to the centre",
    side: Side = "both",
    because: Because = None,
    sentence: For = "",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Add a dart from an edge, or a double-pointed one inside a piece.

    tracker alter add-dart mara/bodice --piece back --edge neckline \
      --at "3cm from neck point" --width 1cm --length 8cm
    """
    from tracker.alterations.kinds.add_a_dart import AddDart
    from tracker.cli.typed import read_side, read_spot
    from tracker.tasks.preferences import manner
    from tracker.tasks.said import as_it_is
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    corner, distance_mm, _ = read_spot(at, how)
    lengths = (width, length, inward, towards_edge, stand_back)
    wide, long, inside, other, back = (read_length(text, how.unit) for text in lengths)
    kind = AddDart(
        piece=piece, name=name or f"{edge} dart", edge=edge, corner=corner,
        distance_mm=distance_mm, width_mm=wide, length_mm=long, inward_mm=inside,
        toward_edge_mm=other, stand_back_mm=back, pressed=pressed, side=read_side(side),
    )  # fmt: skip
    _make(books, how, version, [as_it_is(kind)], because, sentence, dry, json)


@command(app, "make")
def make(
    kind: Annotated[str, Argument(metavar="KIND", help="Its word; see tracker alter kinds.")],
    values: Annotated[list[str] | None, Argument(metavar="NAME=VALUE … [+ KIND …]")] = None,
    version: Annotated[
        str | None, Option("--from", metavar="VERSION", help="Start from it; else the newest.")
    ] = None,
    side: Annotated[
        str | None, Option(help="The wearer's: right, left, both; where the kind knows sides.")
    ] = None,
    because: Because = None,
    sentence: For = "",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    r"""Make any kind of alteration by its word and its parameters.

    tracker alter make "move a notch" piece=front "notch=side notch" by=5mm
    tracker alter make "take in a seam" seam=side \
      "amounts=4mm at side waist" "amounts=nothing at underarm point"

    An amount read on the body is counted as it was read: pinned, gap, chalk, tape or paper.

    tracker alter make "change the width across" "line=across back" \
      "by=pinned 4mm"

    Several in one version follow one another with a + between:

    tracker alter make "change the shoulder slope" to=sloping by=8mm \
      + "true a join" seam=shoulder "corner=shoulder point"
    """
    from tracker.cli.typed import hearing, parted_by_plus, read_pairs
    from tracker.tasks.preferences import manner
    from tracker.tasks.read_on_body import counted
    from tracker.tasks.said import as_it_is
    from tracker.tasks.typed_kind import read_kind

    books = opened(store)
    how = manner(books)
    of_side = [f"side={side}"] if side else []
    steps = []
    for word, *typed in parted_by_plus([kind, *(values or [])]):
        pairs = read_pairs([*typed, *of_side], "by=5mm")
        plain, echoes = counted(word, pairs, hearing(how).length)
        steps.append(read_kind(word, plain, hearing(how)))
        if not json:
            show.points(echoes, "Understood as ")
    _make(books, how, version, [as_it_is(step) for step in steps], because, sentence, dry, json)
