"""The label of a piece: what stands on it, and where it can stand without covering a line."""

import cmath
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.geometry.area import polygon
from tracker.geometry.point import Point
from tracker.output.drawing import Look, ink
from tracker.output.lettering import width_mm, wrapped
from tracker.output.order import CAUTION, PrintOrder
from tracker.output.pen import Lettering, Pen
from tracker.pattern.bodyside import BodySide
from tracker.pattern.marks import Stroke
from tracker.pattern.piece import Piece
from tracker.units import Unit, write_inches, write_mm

if TYPE_CHECKING:
    from shapely import Point as ShapelyPoint
    from shapely.geometry.base import BaseGeometry

#: Between the lines of a label, as a share of the letters.
LEADING = 1.35
#: A label keeps this far from the sewing line, darts and marks.
CLEAR_MM = 4.0
#: How many estimated measurements a piece names before it points to the first sheet.
NAMED = 4


@dataclass(frozen=True, slots=True)
class Words:
    """A line of a label before it is broken: what it says, how large, how heavy."""

    text: str
    size_mm: float
    bold: bool = False


def cut_instruction(piece: Piece) -> str:
    """Return how often a piece is cut; left and right ones say so in capitals."""
    if piece.side in (BodySide.RIGHT, BodySide.LEFT):
        return f"WEARER'S {piece.side.upper()} · CUT 1, RIGHT SIDE UP"
    return piece.cut


def shown_length(mm: float, unit: Unit) -> str:
    """Write a length for people, whole millimetres or sixteenths of an inch; never broken."""
    return (write_mm(mm) if unit is Unit.CM else write_inches(mm)).replace(" ", "\u00a0")


def allowance_words(piece: Piece, order: PrintOrder) -> str:
    """Say which allowances the cutting line includes."""
    by_size: dict[float, list[str]] = {}
    for edge in piece.edges:
        if edge.name != piece.fold:
            names = by_size.setdefault(order.added.of(piece, edge), [])
            if edge.name not in names:
                names.append(edge.name)
    usual = max(by_size, key=lambda mm: len(by_size[mm]))
    said = [f"seams {shown_length(usual, order.unit)}"] + [
        f"{' and '.join(names)} {shown_length(mm, order.unit) if mm else 'none, neatened'}"
        for mm, names in by_size.items()
        if mm != usual
    ]
    return f"included: {', '.join(said)}" + ("; none on the fold" if piece.fold else "")


def label_words(piece: Piece, order: PrintOrder) -> Iterator[Words]:
    """Yield the lines of a piece's label."""
    yield Words(piece.label.upper(), 8.0, bold=True)
    if piece.layer != "shell" and piece.layer not in piece.name:
        yield Words(piece.layer, 5.0)
    yield Words(f"{order.client_code}  {order.address}", 5.0, bold=True)
    if order.test_garment:
        yield Words("TEST GARMENT", 4.2, bold=True)
    yield Words(order.standing, 4.0)
    yield Words(order.day, 4.0)
    yield Words(cut_instruction(piece), 5.0, bold=True)
    yield Words(allowance_words(piece, order), 3.4)
    estimated = order.estimated_for(piece)
    if estimated:
        yield Words(estimated_words(estimated), 3.4)
    yield Words(CAUTION, 3.0)


def short_label_words(piece: Piece, order: PrintOrder) -> Iterator[Words]:
    """Yield a label for a narrow piece: the same said in fewer lines; the rest is on sheet 1."""
    layer = "" if piece.layer == "shell" or piece.layer in piece.name else f" · {piece.layer}"
    test = "TEST GARMENT · " if order.test_garment else ""
    yield Words(f"{piece.label.upper()}{layer}", 7.0, bold=True)
    yield Words(f"{order.client_code}  {order.address} · {cut_instruction(piece)}", 4.6, bold=True)
    yield Words(f"{test}{order.standing} · {order.day}", 3.8)
    estimated = order.estimated_for(piece)
    if estimated:
        yield Words(f"{len(estimated)} estimated, not measured: see the first sheet", 3.4)


def estimated_words(names: tuple[str, ...], most: int = NAMED) -> str:
    """Say which measurements were estimated; the first few, and how many more."""
    listed = ", ".join(names[:most])
    more = len(names) - most
    rest = f" and {more} more, listed on the first sheet" if more > 0 else ""
    return f"estimated, not measured: {listed}{rest}"


@dataclass(frozen=True, slots=True)
class Block:
    """A label broken into lines.

    Attributes:
        lines: the lines with their sizes.
        width_mm: of the longest.
        height_mm: of all.
    """

    lines: tuple[Words, ...]
    width_mm: float
    height_mm: float


def set_in(
    words: Iterable[Words], room_mm: float, scale: float = 1.0, *, even: bool = False
) -> Block:
    """Break a label's words into lines that fit a width, the letters scaled.

    Args:
        words: the lines before they are broken.
        room_mm: the width.
        scale: of the letters.
        even: make the lines of each about equally long, without making more of them.
    """
    lines: list[Words] = []
    for w in words:
        size = w.size_mm * scale
        broken = wrapped(w.text, size, room_mm, bold=w.bold)
        while even and len(broken) > 1:
            longest = max(width_mm(line, size, bold=w.bold) for line in broken)
            closer = wrapped(w.text, size, longest * 0.97, bold=w.bold)
            if len(closer) > len(broken):
                break
            if max(width_mm(line, size, bold=w.bold) for line in closer) >= longest:
                break
            broken = closer
        lines.extend(Words(line, size, w.bold) for line in broken)
    wide = max(width_mm(w.text, w.size_mm, bold=w.bold) for w in lines)
    return Block(tuple(lines), wide, sum(w.size_mm * LEADING for w in lines))


def write_block(block: Block, middle: Point, pen: Pen, angle_deg: float = 0.0) -> None:
    """Write a label, its lines centred on a point."""
    along = complex(math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg)))
    down = block.height_mm / 2
    for words in block.lines:
        down -= words.size_mm * LEADING
        base = middle + along * 1j * (
            down + words.size_mm * (LEADING - 1) / 2 + 0.18 * words.size_mm
        )
        pen.text(base, words.text, Lettering(words.size_mm, "middle", angle_deg, words.bold))


@dataclass(frozen=True, slots=True)
class Placed:
    """A label with its place.

    Attributes:
        block: the label set in lines.
        middle: where its middle lies.
        angle_deg: the angle its lines run at.
        scale: of its letters; 0 where it covers something, because nothing smaller fits.
    """

    block: Block
    middle: Point
    angle_deg: float
    scale: float


#: Letters are made no smaller than this share of theirs to keep a label off a sheet's edge.
UNCUT_SCALE = 0.7


def label_of(piece: Piece, order: PrintOrder, look: Look, cuts: tuple[Stroke, ...] = ()) -> Placed:
    """Find where a piece's label stands in a print.

    Args:
        piece: the piece.
        order: the print.
        look: what else is drawn on the piece.
        cuts: where the print is cut into sheets; a label stands within one where it can.
    """
    words, short = tuple(label_words(piece, order)), tuple(short_label_words(piece, order))
    if cuts:
        uncut = label_in(piece, words, look, short, cuts)
        if uncut.scale >= UNCUT_SCALE:
            return uncut
    return label_in(piece, words, look, short)


def label_in(
    piece: Piece,
    words: tuple[Words, ...],
    look: Look,
    short: tuple[Words, ...] = (),
    cuts: tuple[Stroke, ...] = (),
) -> Placed:
    """Find where a label fits inside a piece, and how large its letters can be.

    Args:
        piece: the piece.
        words: what it says.
        look: what else is drawn on the piece.
        short: the same in fewer lines, for a piece on which the whole does not fit.
        cuts: lines besides that it may not lie over.
    """
    import shapely

    shape = polygon(piece.plain_ring, 0.2)
    free: BaseGeometry = shape.buffer(-CLEAR_MM)
    drawn = (*ink(piece, look), *cuts)
    lines = [shapely.LineString([(p.real, p.imag) for p in line]) for line in drawn]
    if lines:
        free = free.difference(shapely.union_all([line.buffer(CLEAR_MM) for line in lines]))
    if piece.fold:
        fold = piece.edge(piece.fold)
        a, b = fold.drawn[0].start, fold.drawn[-1].end
        strip = shapely.LineString([(a.real, a.imag), (b.real, b.imag)])
        free = free.difference(strip.buffer(15.0))
    heart = shapely.centroid(free if not free.is_empty else shape)
    # No box fits whose lesser side is more than the widest circle there is room for.
    widest = 0.0
    if not free.is_empty:
        radius = shapely.length(shapely.maximum_inscribed_circle([free]))[0]
        widest = 2 * float(radius) + 2.0
    for said, angles in ((words, _UPRIGHT), (short, _SLANTING))[: 2 if short else 1]:
        tried = sorted(_settings(said, angles), key=lambda one: one[0])
        for _, block, angle, scale, room in tried:
            if min(block.width_mm, block.height_mm) > widest:
                continue
            middle = _spot(free, heart, block, angle)
            if middle is not None:
                return Placed(set_in(said, room, scale, even=True), middle, angle, scale)
    inside = shapely.point_on_surface(shape)
    smallest = min((one[1] for one in tried), key=lambda b: b.width_mm * b.height_mm)
    return Placed(smallest, complex(inside.x, inside.y), 0.0, 0.0)


#: The angles a label is tried at, with what is lost by each; slanting ones for narrow pieces.
_UPRIGHT = ((0.0, 0.0), (90.0, 0.25))
_SLANTING = (*_UPRIGHT, *((a, 0.3) for a in (45.0, -45.0, 30.0, -30.0, 60.0, -60.0)))


def _settings(
    words: tuple[Words, ...], angles: tuple[tuple[float, float], ...]
) -> Iterator[tuple[float, Block, float, float, float]]:
    """Yield ways to set a label, each with what is lost by it: size, turning, breaking.

    Loss, the block, its angle, the scale of its letters and the width it was set in.
    """
    for scale in (1.0, 0.85, 0.7, 0.6):
        for room in (120.0, 90.0, 70.0, 52.0, 40.0):
            block = set_in(words, room, scale)
            broken = len(block.lines) - len(words)
            for angle, lost in angles:
                loss = 2 * (1 - scale) + 0.06 * broken + lost
                yield loss, block, angle, scale, room


def _spot(
    free: "BaseGeometry", heart: "ShapelyPoint", block: Block, angle_deg: float
) -> Point | None:
    """Return the middle nearest to a point at which a label's box lies in the free area."""
    import numpy as np
    import shapely
    from shapely import affinity

    if free.is_empty:
        return None
    turned = affinity.rotate(free, -angle_deg, origin=(0, 0)) if angle_deg else free
    centre = affinity.rotate(heart, -angle_deg, origin=(0, 0)) if angle_deg else heart
    wide, high = block.width_mm, block.height_mm
    low_x, low_y, high_x, high_y = turned.bounds
    xs = np.arange(low_x + wide / 2, high_x - wide / 2 + 1e-9, 4.0)
    ys = np.arange(low_y + high / 2, high_y - high / 2 + 1e-9, 4.0)
    if not len(xs) or not len(ys):
        return None
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    shapely.prepare(turned)
    boxes = shapely.box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
    fits = shapely.contains(turned, boxes)
    if not fits.any():
        return None
    away = np.where(fits, np.hypot(x - centre.x, y - centre.y), np.inf)
    best = int(np.argmin(away))
    spot = complex(float(x[best]), float(y[best]))
    return spot * cmath.exp(1j * math.radians(angle_deg))
