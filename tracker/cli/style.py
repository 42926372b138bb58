"""``tracker style``: panels for a settled block, and sleeves."""

from typing import Annotated

from typer import Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.options import (
    AsJson,
    Cloth,
    MaybeVersion,
    NewPattern,
    PictureFile,
    Side,
    StoreFile,
    Try,
    opened,
)
from tracker.cli.plain import command, noun

app = noun("Develop a style from a settled block, step by step; every step is recorded.")


@command(app, "panels")
def panels(
    version: MaybeVersion = None,
    name: Annotated[
        str, Option("--as", metavar="NAME", help="The new pattern's name; the block stays.")
    ] = "panelled",
    front: Annotated[bool, Option("--front/--no-front", help="Panel the front.")] = True,
    back: Annotated[bool, Option("--back/--no-back", help="Panel the back.")] = True,
    front_from: Annotated[
        str, Option(metavar="EDGE", help="The front line starts at the shoulder or the armhole.")
    ] = "shoulder",
    front_at: Annotated[
        str | None, Option(metavar="LENGTH", help="So far along it; else half-way.")
    ] = None,
    back_from: Annotated[
        str, Option(metavar="EDGE", help="The back line starts at the armhole or the shoulder.")
    ] = "armhole",
    back_at: Annotated[
        str | None,
        Option(metavar="LENGTH", help="So far along it; else half-way, or the shoulder dart."),
    ] = None,
    back_foot: Annotated[
        str, Option(metavar="PLACE", help="“waist dart” or “waist”; else the dart if there is one.")
    ] = "",
    rounding: Annotated[
        str, Option(metavar="LENGTH", help="Round the corner so far above and below.")
    ] = "50 mm",
    beside: Annotated[
        str,
        Option(
            metavar="LENGTH",
            help="The front line passes so far beside the bust point, 38 mm at most; negative: "
            "towards the centre.",
        ),
    ] = "0",
    leftover: Annotated[
        str,
        Option(
            metavar="ease|dart",
            help="What is left of the bust dart beside the line: eased "
            "(6 mm at most), or a short dart.",
        ),
    ] = "ease",
    side: Side = "both",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Panel a block: a front line over the bust point or beside it, and a back line.

    The side bust dart is turned shut about the bust point; the seams are walked and notched.

        tracker style panels mara/bodice --as princess
        tracker style panels mara/bodice@3 --front-from armhole --no-back --try
        tracker style panels mara/torso --beside 20mm --leftover dart
        tracker style panels mara/torso --no-front --back-from shoulder
    """
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import maybe_length, read_side
    from tracker.tasks.preferences import manner
    from tracker.tasks.styling import PanelWish, leftover_said, panel
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    wish = PanelWish(
        front=front,
        back=back,
        front_from=front_from,
        front_at_mm=maybe_length(front_at, how),
        back_from=back_from,
        back_at_mm=maybe_length(back_at, how),
        back_foot=back_foot,
        rounding_mm=read_length(rounding, how.unit),
        beside_mm=read_length(beside, how.unit, allow_negative=True),
        leftover=leftover_said(leftover),
        side=read_side(side),
    )
    made, mind = panel(books, version, wish, today(), name, dry)
    show.warn(mind)
    write_altered(made, how, json)


@command(app, "sleeve")
def sleeve(
    version: MaybeVersion = None,
    name: NewPattern = None,
    cloth: Cloth = "woven",
    ease: Annotated[
        list[str] | None,
        Option(
            metavar="LINE=LENGTH", help="upper-arm, elbow, wrist, sleeve-cap, arm-length: wrist=3cm"
        ),
    ] = None,
    elbow_dart: Annotated[
        str, Option(metavar="LENGTH", help="Width of an elbow dart; else a straight sleeve.")
    ] = "0",
    estimate: Annotated[
        bool, Option("--estimate", help="Work out what of the arm was not measured, and say so.")
    ] = False,
    session: Annotated[
        int | None, Option(help="Of this session only; else her newest usual values.")
    ] = None,
    side: Side = "both",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Draft set-in sleeves to the armholes there are, and sew them in.

    The cap is as long as the armhole and its ease, which lies above the notches only.

        tracker style sleeve mara/bodice --try
        tracker style sleeve mara/bodice --as sleeved --ease sleeve-cap=15mm
    """
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import read_pairs, read_side
    from tracker.tasks.preferences import manner
    from tracker.tasks.styling import SleeveWish, sew_in_sleeves
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    lines = read_pairs(ease or [], "wrist=3cm")
    wish = SleeveWish(
        cloth=cloth.strip().lower(),
        ease=tuple((k, read_length(v, how.unit, allow_negative=True)) for k, v in lines),
        elbow_dart_mm=read_length(elbow_dart, how.unit),
        estimate=estimate,
        session=session,
        side=read_side(side),
    )
    made, mind = sew_in_sleeves(books, version, wish, today(), name, dry)
    show.warn(mind)
    write_altered(made, how, json)


@command(app, "join")
def join(
    version: MaybeVersion = None,
    name: Annotated[
        str, Option("--as", metavar="NAME", help="The new pattern's name; the panels stay.")
    ] = "joined",
    dart: Annotated[
        list[str] | None,
        Option(metavar="LINE=SHARE", help="What of a line's gap the dart takes: waist line=60%"),
    ] = None,
    seams: Annotated[
        list[str] | None,
        Option(metavar="LINE=SHARE", help="What of it the two panel seams take or give."),
    ] = None,
    dart_point: Annotated[
        str, Option(metavar="LENGTH", help="How far below the underarm the dart's point lies.")
    ] = "40 mm",
    opening: Annotated[
        str, Option(metavar="SEAM", help="The seam that carries the opening now.")
    ] = "",
    side: Side = "both",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Join the side panels into one piece without a side seam.

    They meet at the underarm, grain beside grain. The gap at each line stays as width, or goes
    into a plumb waist dart or the panel seams; what you do not say goes into the dart at the
    waist and stays as width elsewhere.

        tracker style join mara/panelled --opening "centre back" --try
        tracker style join --dart "waist line=60%" --seams "waist line=40%"
    """
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import read_shares, read_side
    from tracker.tasks.preferences import manner
    from tracker.tasks.styling import join_panels
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    made = join_panels(
        books, version, read_shares(dart or []), read_shares(seams or []),
        read_length(dart_point, how.unit), opening, read_side(side), today(), name, dry,
    )  # fmt: skip
    write_altered(made, how, json)


@command(app, "sleeveless")
def sleeveless(
    version: MaybeVersion = None,
    name: Annotated[
        str, Option("--as", metavar="NAME", help="The new pattern's name; the block stays.")
    ] = "sleeveless",
    raised: Annotated[
        str, Option("--raise", metavar="LENGTH", help="How far the underarm is raised.")
    ] = "12 mm",
    side_in: Annotated[
        str,
        Option(metavar="LENGTH", help="How much the side seam is taken in at the underarm."),
    ] = "12 mm",
    shoulder: Annotated[
        str, Option(metavar="LENGTH", help="How much shorter the shoulder is.")
    ] = "15 mm",
    side: Side = "both",
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Make a sleeved block sleeveless: take the sleeves off and cut the armhole closer.

    Without a sleeve the underarm sits higher, the side closer there, and the shoulder ends
    sooner. The amounts are the usual ones; give your own, or 0 for none.

        tracker style sleeveless mara/bodice --try
        tracker style sleeveless mara/bodice --as shell --shoulder 2cm
    """
    from tracker.cli.effects import write_altered
    from tracker.cli.typed import read_side
    from tracker.tasks.preferences import manner
    from tracker.tasks.styling import make_sleeveless
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    made = make_sleeveless(
        books, version, read_length(raised, how.unit), read_length(side_in, how.unit),
        read_length(shoulder, how.unit), read_side(side), today(), name, dry,
    )  # fmt: skip
    write_altered(made, how, json)


# Their commands hang on the same noun.
from tracker.cli import style_darts, style_lines, style_shapes, style_taken  # noqa: E402, F401
