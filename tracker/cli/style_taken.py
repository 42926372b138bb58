"""``tracker style facing`` and the like: pieces taken from others, stands, folds."""

from typing import TYPE_CHECKING, Annotated, Any

from typer import Option

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

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tracker.alterations.kind import Kind

Edges = Annotated[
    list[str] | None,
    Option("--edge", metavar="EDGE", help="Of every piece that has it, or “neckline of front”."),
]
Pieces = Annotated[list[str] | None, Option("--piece", metavar="PIECE", help="The piece.")]
Called = Annotated[str, Option("--name", metavar="NAME", help="What the new piece is called.")]

FoldAt = Annotated[str, Option(metavar="EDGE", help="The centre it is folded at.")]


def _styled(
    books: Any, version: str | None, kinds: "Iterable[Kind]", name: str | None, dry: bool,
    json: bool,
) -> None:  # fmt: skip
    """Take the steps and show what they made."""
    from tracker.cli.effects import write_altered
    from tracker.tasks.preferences import manner
    from tracker.tasks.style_steps import style_by

    made = style_by(books, version, kinds, today(), name, dry)
    write_altered(made, manner(books), json)


def _mm(books: Any, text: str) -> float:
    from tracker.tasks.preferences import manner
    from tracker.units import read_length

    return read_length(text, manner(books).unit)


@command(app, "facing")
def facing(
    version: MaybeVersion = None,
    edge: Edges = None,
    width: Annotated[str, Option(metavar="LENGTH", help="How wide it is.")] = "6 cm",
    called: Called = "",
    in_one: Annotated[
        bool, Option("--in-one", help="One facing for edges that are sewn end to end.")
    ] = False,
    side: Side = "both",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Trace facings from edges: darts closed, the piece's grain kept.

    Each piece gets its own, or all are laid together at their seams and faced in one. A facing
    follows its piece: when the edge changes it is out of date until it is traced again.

        tracker style facing mara/bodice --edge neckline --width 6cm
        tracker style facing --edge armhole --in-one --width 5cm --try
    """
    from tracker.cli.typed import read_side
    from tracker.tasks.taking import FacingWish, pattern_of

    books = opened(store)
    wish = FacingWish(
        edges=tuple(edge or ()), width_mm=_mm(books, width), name=called, in_one=in_one,
        side=read_side(side),
    )  # fmt: skip
    _styled(books, version, wish.kinds(pattern_of(books, version)), name, dry, json)


@command(app, "lining")
def lining(
    version: MaybeVersion = None,
    piece: Pieces = None,
    ease: Annotated[
        list[str] | None,
        Option(metavar="EDGE=LENGTH", help="So much larger there: side=3mm, hem=-2cm."),
    ] = None,
    pleat: Annotated[
        str, Option(metavar="LENGTH", help="Depth of a pleat at the centre, on the half.")
    ] = "0",
    pleat_at: Annotated[str, Option(metavar="EDGE", help="Where the pleat lies.")] = "centre back",
    whole: Annotated[bool, Option("--whole", help="Not cut off at the facings.")] = False,
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Copy pieces as their lining, with ease of its own, cut off at their facings.

    Without --piece every piece of the shell is lined, bands and collars apart.

        tracker style lining mara/bodice --ease side=3mm --pleat 2cm
        tracker style lining --piece back --whole --try
    """
    from tracker.cli.typed import read_pairs
    from tracker.tasks.preferences import manner
    from tracker.tasks.taking import LiningWish, pattern_of
    from tracker.units import read_length

    books = opened(store)
    unit = manner(books).unit
    eased = tuple(
        (e, read_length(v, unit, allow_negative=True))
        for e, v in read_pairs(ease or [], "side=3mm")
    )
    wish = LiningWish(
        pieces=tuple(piece or ()), ease=eased, pleat_mm=_mm(books, pleat), pleat_at=pleat_at,
        whole=whole,
    )  # fmt: skip
    _styled(books, version, wish.kinds(pattern_of(books, version)), name, dry, json)


@command(app, "interfacing")
def interfacing(
    version: MaybeVersion = None,
    piece: Pieces = None,
    smaller: Annotated[
        str, Option(metavar="LENGTH", help="So much smaller all round, clear of the seams.")
    ] = "0",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Copy pieces as their interfacing; without --piece every facing, band and collar.

    tracker style interfacing mara/bodice --piece "front facing" --smaller 3mm
    """
    from tracker.tasks.taking import interfacings, pattern_of

    books = opened(store)
    pattern = pattern_of(books, version)
    kinds = interfacings(pattern, tuple(piece or ()), _mm(books, smaller))
    _styled(books, version, kinds, name, dry, json)


@command(app, "band")
def band(
    version: MaybeVersion = None,
    edge: Edges = None,
    width: Annotated[str, Option(metavar="LENGTH", help="How wide it is when sewn.")] = "3 cm",
    single: Annotated[bool, Option("--single", help="Not cut double and folded.")] = False,
    overlap: Annotated[
        str, Option(metavar="LENGTH", help="How far it goes on beyond the opening.")
    ] = "0",
    overlap_on: Annotated[str, Option(metavar="SIDE", help="On the right or left end.")] = "right",
    opens_at: Annotated[
        str, Option(metavar="PLACE", help="A centre, “left side” or “right side”.")
    ] = "",
    called: Called = "band",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Cut a straight band to the sewn length of edges: a waistband, a cuff, a hem band.

    tracker style band mara/skirt --edge waist --overlap 3cm --name waistband
    """
    from tracker.alterations.kinds.cut_a_band import CutBand
    from tracker.cli.typed import read_side
    from tracker.tasks.taking import edges_said, pattern_of

    books = opened(store)
    kind = CutBand(
        name=called, edges=edges_said(pattern_of(books, version), edge or ()),
        width_mm=_mm(books, width), doubled=not single, overlap_mm=_mm(books, overlap),
        overlap_on=read_side(overlap_on), opens_at=opens_at,
    )  # fmt: skip
    _styled(books, version, [kind], name, dry, json)


@command(app, "collar")
def collar(
    version: MaybeVersion = None,
    height: Annotated[str, Option(metavar="LENGTH", help="How high it stands.")] = "3.5 cm",
    beyond: Annotated[
        str, Option(metavar="LENGTH", help="How far it goes on over a button stand.")
    ] = "0",
    shorter: Annotated[
        str, Option(metavar="LENGTH", help="Shaped: its top so much shorter, all round.")
    ] = "0",
    fold_at: FoldAt = "",
    called: Called = "collar",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Cut a stand collar, straight or shaped, to the neckline and sew it on.

    tracker style collar mara/bodice --height 3cm --beyond 2cm --try
    tracker style collar mara/bodice --shorter 16mm --fold-at "centre back"
    """
    from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar

    books = opened(store)
    kind = CutStandCollar(
        name=called, height_mm=_mm(books, height), beyond_mm=_mm(books, beyond), fold_at=fold_at,
        shorter_mm=_mm(books, shorter),
    )  # fmt: skip
    _styled(books, version, [kind], name, dry, json)


@command(app, "flat-collar")
def flat_collar(
    version: MaybeVersion = None,
    width: Annotated[str, Option(metavar="LENGTH", help="How wide it is.")] = "6.5 cm",
    overlap: Annotated[
        str,
        Option(
            metavar="LENGTH",
            help="Front over back at the shoulder point: 0 lies flat, more rolls and stands.",
        ),
    ] = "13 mm",
    end: Annotated[str, Option(metavar="round|point", help="How it ends.")] = "round",
    point: Annotated[
        str, Option(metavar="LENGTH", help="A pointed end so much longer than it is wide.")
    ] = "0",
    fold_at: FoldAt = "",
    called: Called = "collar",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Trace a flat collar from front and back laid together at the shoulder, and sew it on.

    tracker style flat-collar mara/bodice --width 7cm --overlap 2cm
    tracker style flat-collar mara/bodice --end point --point 25mm --try
    """
    from tracker.alterations.kinds.cut_a_flat_collar import CollarEnd, CutFlatCollar
    from tracker.cli.typed import TypedOtherwise

    if end not in tuple(CollarEnd):
        raise TypedOtherwise(f"a flat collar ends {' or '.join(CollarEnd)}, not “{end}”")
    books = opened(store)
    kind = CutFlatCollar(
        name=called, width_mm=_mm(books, width), overlap_mm=_mm(books, overlap),
        end=CollarEnd(end), point_mm=_mm(books, point), fold_at=fold_at,
    )  # fmt: skip
    _styled(books, version, [kind], name, dry, json)


@command(app, "button-stand")
def button_stand(
    version: MaybeVersion = None,
    piece: Annotated[str, Option(help="The piece.")] = "front",
    edge: Annotated[str, Option(help="Its centre edge.")] = "centre front",
    width: Annotated[
        str, Option(metavar="LENGTH", help="How far it reaches beyond the centre.")
    ] = "19 mm",
    facing_width: Annotated[
        str, Option("--facing", metavar="LENGTH", help="A facing grown on, so wide.")
    ] = "0",
    side: Side = "both",
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Add a button stand beyond a centre, which stays a line; girths are counted to it.

    tracker style button-stand mara/bodice --width 2cm --facing 6cm
    """
    from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
    from tracker.cli.typed import read_side

    books = opened(store)
    kind = AddButtonStand(
        piece=piece, edge=edge, width_mm=_mm(books, width), facing_mm=_mm(books, facing_width),
        side=read_side(side),
    )  # fmt: skip
    _styled(books, version, [kind], name, dry, json)


@command(app, "fold")
def fold(
    version: MaybeVersion = None,
    piece: Annotated[str, Option(help="The piece.")] = "back",
    edge: Annotated[str, Option(help="The edge that lies on the fold.")] = "centre back",
    off: Annotated[bool, Option("--off", help="Off the fold: a seam at its centre.")] = False,
    opening: Annotated[
        bool, Option("--opening", help="Off the fold: an opening all along its centre.")
    ] = False,
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Put a piece on the fold, or take it off the fold with a seam or an opening there.

    tracker style fold mara/bodice --piece back
    tracker style fold --piece front --off
    """
    from tracker.alterations.kinds.put_on_the_fold import PutOnFold
    from tracker.alterations.kinds.seam_at_the_centre import CentreSeam

    on = PutOnFold(piece=piece, edge=edge)
    kind = CentreSeam(piece=piece, sewn=not opening) if off or opening else on
    _styled(opened(store), version, [kind], name, dry, json)


@command(app, "again")
def again(
    version: MaybeVersion = None,
    piece: Annotated[
        str, Option(metavar="PIECE", help="This piece; else all that are out of date.")
    ] = "",
    keep: Annotated[bool, Option("--keep", help="Leave it as it is; it is right so.")] = False,
    name: NewPattern = None,
    dry: Try = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Trace pieces again that are out of date, from what they were taken from.

    tracker style again mara/bodice
    tracker style again --piece "front facing" --keep
    """
    from tracker.alterations.kinds.leave_it_as_it_is import LeaveAsItIs
    from tracker.alterations.kinds.trace_it_again import TraceAgain

    kind = LeaveAsItIs(piece=piece) if keep else TraceAgain(piece=piece)
    _styled(opened(store), version, [kind], name, dry, json)
