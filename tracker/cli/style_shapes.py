"""``tracker style flare``, ``neckline``, ``lengthen``, ``skirt``: edges elsewhere, a dress."""

from typing import Annotated

from typer import Argument, Option

from tracker.cli.clock import today
from tracker.cli.options import (
    AsJson,
    MaybeVersion,
    NewPattern,
    PictureFile,
    StoreFile,
    Try,
    opened,
)
from tracker.cli.plain import command
from tracker.cli.style import app
from tracker.cli.style_lines import names_in, one_of
from tracker.cli.typed import TypedOtherwise


@command(app, "flare")
def flare(
    version: MaybeVersion = None,
    by: Annotated[str, Option(metavar="LENGTH", help="So much wider round the whole hem.")] = "0",
    peg: Annotated[
        str | None, Option(metavar="LENGTH", help="So much narrower round the whole hem.")
    ] = None,
    slashes: Annotated[
        int, Option(metavar="NUMBER", help="At how many places of each half piece.")
    ] = 3,
    close: Annotated[
        list[str] | None, Option(metavar="DART", help="A dart that is closed into the flare.")
    ] = None,
    pieces: Annotated[
        str, Option(metavar="PIECES", help="“back, front”; else every piece with the hem.")
    ] = "",
    hem: Annotated[str, Option(metavar="EDGE", help="The lower edge.")] = "hem",
    from_line: Annotated[
        str,
        Option(
            "--from",
            metavar="LINE",
            help="At the seams instead, from this line down: “waist line”, “hip line”.",
        ),
    ] = "",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Flare a hem, or peg it: slash from it at even places to the edge above, which is kept.

    What darts give that are closed counts. A dress without a waist seam has no such edge: it is
    flared at its seams, from the hip line down or from the line named.

        tracker style flare mara/skirt --by 40cm --as flared
        tracker style flare mara/skirt --close "waist dart" --as a-line --try
        tracker style flare mara/skirt --peg 8cm --as pegged
        tracker style flare mara/dress --by 60cm --from "waist line" --as swinging
    """
    from tracker.alterations.kinds.flare_or_peg import Flare, FlareOrPeg
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import style_by
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    wider = read_length(by, how.unit)
    if peg is not None and wider:
        raise TypedOtherwise("a hem is made wider or narrower, not both; leave one of them out")
    kind = FlareOrPeg(
        to=Flare.FLARE if peg is None else Flare.PEG,
        by_mm=wider if peg is None else read_length(peg, how.unit),
        slashes=slashes,
        close=tuple(close or []),
        edge=hem,
        pieces=names_in(pieces),
        from_line=from_line,
    )
    write_altered(style_by(books, version, [kind], today(), name, dry), how, json)


@command(app, "neckline")
def neckline(
    version: MaybeVersion = None,
    front: Annotated[
        str, Option(metavar="LENGTH", help="So much lower at the centre front; negative: higher.")
    ] = "0",
    back: Annotated[str, Option(metavar="LENGTH", help="So much lower at the centre back.")] = "0",
    shoulder: Annotated[
        str, Option(metavar="LENGTH", help="So much wider along each shoulder.")
    ] = "0",
    shape: Annotated[
        str, Option(metavar="round|pointed|square", help="The front's shape.")
    ] = "round",
    back_shape: Annotated[
        str, Option(metavar="round|pointed|square", help="The back's shape.")
    ] = "round",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Cut the neckline lower, higher, wider or narrower: round, pointed or square.

    The shoulders still match. A facing taken from it is told out of date, to be traced again.

        tracker style neckline mara/bodice --front 6cm --shoulder 3cm --as scoop
        tracker style neckline mara/bodice --front 12cm --shape pointed --try
    """
    from tracker.alterations.kinds.cut_the_neckline import CutNeckline, NeckShape
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import style_by
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    kind = CutNeckline(
        front_mm=read_length(front, how.unit, allow_negative=True),
        back_mm=read_length(back, how.unit, allow_negative=True),
        shoulder_mm=read_length(shoulder, how.unit, allow_negative=True),
        front_shape=one_of(shape, NeckShape, "a neckline"),
        back_shape=one_of(back_shape, NeckShape, "a neckline"),
    )
    write_altered(style_by(books, version, [kind], today(), name, dry), how, json)


@command(app, "lengthen")
def lengthen_(
    version: MaybeVersion = None,
    by: Annotated[
        str, Option(metavar="LENGTH", help="How far below the old lower edge the hem lies.")
    ] = "",
    hem: Annotated[
        str | None, Option(metavar="LENGTH", help="The hem all round; else the seams go plumb.")
    ] = None,
    edge: Annotated[
        str, Option(metavar="EDGE", help="The old lower edge; else hip, waist or hem.")
    ] = "",
    dart: Annotated[
        str, Option(metavar="LENGTH", help="How far below it darts that opened there end.")
    ] = "110 mm",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Run a block on below to a new hem: a torso to a dress, a bodice to a tunic.

    The old edge stays as a line with a notch; darts that opened from it end below it.

        tracker style lengthen mara/torso --by 40cm --hem 125cm --as dress
        tracker style lengthen mara/bodice --by 30cm --hem 110cm --as tunic --try
    """
    from tracker.alterations.kinds.run_on_below import RunOnBelow
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import maybe_length
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import lengthen
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    kind = RunOnBelow(
        by_mm=read_length(by, how.unit) if by else 0.0,
        hem_mm=maybe_length(hem, how),
        edge=edge,
        dart_mm=read_length(dart, how.unit),
    )
    write_altered(lengthen(books, version, kind, today(), name, dry), how, json)


@command(app, "skirt")
def skirt(
    skirt: Annotated[
        str, Argument(metavar="CLIENT/PATTERN@VERSION", help="The skirt: mara/skirt@2.")
    ],
    version: MaybeVersion = None,
    ease_in: Annotated[
        bool, Option("--ease", help="Ease the skirt in, 6 mm a half at most; else it is fitted.")
    ] = False,
    name: Annotated[
        str | None, Option("--as", metavar="NAME", help="A new pattern; else the next version.")
    ] = "dress",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Sew a skirt to a bodice at the waist: a dress with a waist seam.

    The skirt is fitted at its side seams so that they meet the bodice's.

        tracker style skirt mara/skirt mara/bodice --as dress --try
    """
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import join_a_skirt

    books = opened(store)
    made = join_a_skirt(books, version, skirt, ease_in, today(), name, dry)
    write_altered(made, manner(books), json)
