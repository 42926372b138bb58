"""How a piece draws itself: once, with whatever pen it is given."""

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from tracker.geometry.area import polygon
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot, unit
from tracker.output.allowance import Allowances, cutting_line
from tracker.output.grain import grain_drawn
from tracker.output.mouth import gathered_line, mouth_shape
from tracker.output.pen import (
    CUTTING,
    DART_FOLD,
    FOLD,
    GRAIN,
    LEVEL,
    MARK,
    NOTCH,
    SEWING,
    SOLID,
    Anchor,
    Lettering,
    Pen,
    Style,
    draw_chain,
    draw_circle,
    draw_points,
)  # fmt: skip
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Mark, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge

#: Strokes of a double or triple notch stand this far apart along the seam.
NOTCH_GAP_MM = 6.0
#: A notch on an edge without allowance is drawn inward this deep.
NOTCH_IN_MM = 5.0
SMALL = Lettering(2.8)


@dataclass(frozen=True, slots=True)
class Look:
    """What of a piece is drawn.

    Attributes:
        allowances: draw the cutting line with these; sewing line only when none.
        levels: draw the bust, waist and hip lines.
        words: write the names of marks, lines and the fold beside them.
        fold_words: what is written along a fold.
    """

    allowances: Allowances | None = None
    levels: bool = False
    words: bool = True
    fold_words: str = "place on the fold of the cloth"


def draw_piece(piece: Piece, pen: Pen, look: Look) -> None:
    """Draw a whole piece where it lies in the pattern."""
    if look.allowances is not None:
        draw_cutting_line(piece, pen, look.allowances)
    draw_sewing_line(piece, pen)
    for dart in piece.darts:
        draw_dart(piece, dart, pen)
    for notch in piece.notches:
        draw_notch(piece, notch, pen, look.allowances)
        if look.words and piece.traced and piece.layer == "shell":
            _name_notch(piece, notch, pen)
    grain = grain_drawn(piece)
    if grain:
        draw_grain(grain, pen, look.words, _strokes(piece, look))
    draw_levels(piece, pen, look)
    for mark in piece.marks:
        draw_mark(mark.point, pen)
        if look.words:
            _write_mark(piece, mark, pen, look)
    if piece.fold and look.words:
        write_on_fold(piece, pen, look)


def draw_cutting_line(piece: Piece, pen: Pen, allowances: Allowances) -> None:
    """Draw the line to cut on; a fold is not cut and has none."""
    ring = cutting_line(piece, allowances)
    if piece.fold is None:
        draw_points(pen, ring, CUTTING, closed=True)
        return
    fold = piece.edge(piece.fold)
    a = fold.drawn[0].start
    along = unit(fold.drawn[-1].end - a)
    on = [abs(((p - a) * along.conjugate()).imag) < 1e-4 for p in ring]
    # Start where the ring leaves the fold, so that one open line runs all round to it again.
    for i in range(len(ring)):
        if on[i] and not on[(i + 1) % len(ring)]:
            turned = ring[i:] + ring[:i]
            flags = on[i:] + on[:i]
            last = next(k for k in range(1, len(ring) + 1) if flags[k % len(ring)])
            end = turned[last % len(ring)]
            draw_points(pen, (*turned[:last], end), CUTTING)
            # The fold runs on through the allowances above and below it.
            draw_points(pen, (fold.drawn[-1].end, turned[0]), FOLD)
            draw_points(pen, (a, end), FOLD)
            return
    draw_points(pen, ring, CUTTING, closed=True)


def draw_sewing_line(piece: Piece, pen: Pen, style: Style = SEWING, fold: Style = FOLD) -> None:
    """Draw the sewing line part by part; dart mouths stay open."""
    for edge in piece.edges:
        for part in edge.drawn:
            draw_chain(pen, part, fold if edge.name == piece.fold else style)


def sewn_legs(dart: Dart) -> tuple[Curve, Curve]:
    """Return the legs as they are stitched: to the sewn point, short of the pivot."""
    if dart.stand_back_mm == 0:
        return dart.legs
    axis, back = dart.axis, dart.stand_back_mm
    if dart.double_pointed:
        reach = abs(dart.legs[0].end - dart.pivot)
        scale, shift = (reach - 2 * back) / reach, back
    else:
        reach = dot((dart.mouth_start + dart.mouth_end) / 2 - dart.pivot, axis)
        scale, shift = (reach - back) / reach, back

    def squeezed(point: Point) -> Point:
        # Along the dart only: its width at the mouth and its sides stay where they are.
        far = dot(point - dart.pivot, axis)
        return point + axis * (shift + far * scale - far)

    one, two = (
        Curve(squeezed(leg.start), tuple(tuple(squeezed(p) for p in run) for run in leg.runs))
        for leg in dart.legs
    )
    return one, two


def draw_dart(piece: Piece, dart: Dart, pen: Pen, style: Style = SEWING) -> None:
    """Draw a dart: stitched legs, the sewn point, and the line it is folded on.

    Of one whose mouth is gathered only the line that is gathered is drawn.
    """
    if dart.gathered:
        _draw_gathers(gathered_line(piece, dart), pen, style)
        return
    for leg in sewn_legs(dart):
        draw_chain(pen, leg, style)
    points = dart.sewn_points
    for point in points:
        draw_circle(pen, point, 0.9, SOLID)
    if dart.double_pointed:
        fold = (points[0], points[1])
    else:
        mouth = mouth_shape(piece, dart)
        middle = (dart.mouth_start + dart.mouth_end) / 2
        peak = max(mouth, key=lambda p: -abs((p - middle) - dart.axis * dot(p - middle, dart.axis)))
        fold = (points[0], peak if len(mouth) > 2 else middle)
    draw_points(pen, fold, DART_FOLD)


def _draw_gathers(line: Curve, pen: Pen, style: Style) -> None:
    """Draw the stretch of an edge that is gathered, and say so within the piece."""
    draw_chain(pen, line, style)
    middle, along = line.point_at(line.length / 2), line.heading_at(line.length / 2)
    upward = along if along.real >= 0 else -along
    angle = math.degrees(math.atan2(upward.imag, upward.real))
    # The piece lies to the left of its outline; letters stand on their base line.
    into = 4.0 if dot(along * 1j, upward * 1j) > 0 else 4.0 + SMALL.size_mm
    words = replace(SMALL, anchor="middle", angle_deg=angle)
    pen.text(middle + along * 1j * into, "gather between the notches", words)


def notch_strokes(
    piece: Piece, notch: Notch, allowances: Allowances | None
) -> Iterator[tuple[Point, Point]]:
    """Yield each stroke of a notch, from the sewing line, square to it, to the cutting line."""
    edge = piece.edge(notch.edge, notch.side)
    at = notch_on_edge(edge, notch)
    for k in range(notch.count):
        here = at + (k - (notch.count - 1) / 2) * NOTCH_GAP_MM
        here = min(max(here, 0.0), edge.length)
        foot, out = edge.point_at(here), edge.heading_at(here) * -1j
        reach = allowances.of(piece, edge) if allowances else 0.0
        yield foot, foot + out * reach if reach >= 1 else foot - out * NOTCH_IN_MM


def draw_notch(piece: Piece, notch: Notch, pen: Pen, allowances: Allowances | None) -> None:
    """Draw a notch square to the sewing line."""
    for stroke in notch_strokes(piece, notch, allowances):
        draw_points(pen, stroke, NOTCH)


def _name_notch(piece: Piece, notch: Notch, pen: Pen) -> None:
    """Write beside a notch of a band or collar what meets it there, inside the piece."""
    edge = piece.edge(notch.edge, notch.side)
    at = notch_on_edge(edge, notch)
    along = edge.heading_at(at)
    angle = math.degrees(math.atan2(along.imag, along.real))
    foot = edge.point_at(at) + along * 1j * 1.5
    pen.text(foot, notch.name, replace(SMALL, anchor="middle", angle_deg=angle))


def draw_grain(
    grain: tuple[Point, Point], pen: Pen, words: bool = True, crossed: Iterable[Stroke] = ()
) -> None:
    """Draw the grain line as an arrow with two heads, its word clear of lines that cross it."""
    low, high = grain
    draw_points(pen, (low, high), GRAIN)
    along = unit(high - low)
    for tip, way in ((low, along), (high, -along)):
        wing = 1.6j * way
        draw_points(pen, (tip, tip + 7 * way + wing, tip + 7 * way - wing), SOLID, closed=True)
    if words:
        angle = math.degrees(math.atan2(along.imag, along.real))
        share = _clearest((0.5, 0.35, 0.65), lambda s: low + (high - low) * s, crossed)
        at = low + (high - low) * share + along * 1.5j
        pen.text(at, "grain", replace(SMALL, anchor="middle", angle_deg=angle))


def drawn_levels(piece: Piece, look: Look) -> tuple[Level, ...]:
    """Return the material lines to be drawn: centre and fold lines always, others if asked for."""
    return tuple(v for v in piece.levels if look.levels or v.side is BodySide.CENTRE)


def _strokes(piece: Piece, look: Look) -> tuple[Stroke, ...]:
    return tuple(stroke for level in drawn_levels(piece, look) for stroke in level.strokes)


def _clearest(
    shares: tuple[float, ...], at: Callable[[float], Point], crossed: Iterable[Stroke]
) -> float:
    """Return the share at which a point lies furthest from lines; the first where none are."""
    lines = [Curve.line(*stroke) for stroke in crossed]
    return max(shares, key=lambda s: min((line.nearest(at(s))[1] for line in lines), default=0.0))


def draw_levels(piece: Piece, pen: Pen, look: Look) -> None:
    """Draw the material lines that lie inside the piece, each with its name."""
    words = look.words
    spots = [mark.point for mark in piece.marks]
    for level in drawn_levels(piece, look):
        for stroke in level.strokes:
            draw_points(pen, stroke, LEVEL)
        if words and level.strokes:
            longest = max(level.strokes, key=lambda s: abs(s[-1] - s[0]))
            a, b = sorted((longest[0], longest[-1]), key=lambda p: p.real)
            along = unit(b - a)
            room = 0.62 * SMALL.size_mm * len(level.name)
            # At the left end, or the right one where a marked point is in the way.
            start = a + along * 12
            if any(abs(start + along * room / 2 - p) < room / 2 + 28 for p in spots):
                start = b - along * (12 + room)
            slope = math.degrees(math.atan2(along.imag, along.real))
            pen.text(start + along * 1.2j, level.name, replace(SMALL, angle_deg=slope))
        if words:
            for name in level.edges:
                _write_inside(piece.edge(name, level.side), level.name, pen)


def _write_inside(edge: Edge, words: str, pen: Pen) -> None:
    """Write along the longest part of an edge, inside the piece."""
    part = max(edge.drawn, key=lambda p: p.length)
    here, along = part.point_at(part.length / 2), part.heading_at(part.length / 2)
    upright = along if along.real >= 0 else -along
    angle = math.degrees(math.atan2(upright.imag, upright.real))
    clear = 2.0 if upright == along else 2.0 + SMALL.size_mm
    pen.text(here + along * 1j * clear, words, replace(SMALL, anchor="middle", angle_deg=angle))


def draw_mark(at: Point, pen: Pen) -> None:
    """Draw a named point as a cross in a ring."""
    draw_circle(pen, at, 2.5, MARK)
    for arm in (4 + 0j, 4j):
        draw_points(pen, (at - arm, at + arm), MARK)


def _write_mark(piece: Piece, mark: Mark, pen: Pen, look: Look) -> None:
    """Write a mark's name beside it, inside the piece and clear of its lines if it can be."""
    at, anchor = mark_words_at(piece, mark, look)
    pen.text(at, mark.name, replace(SMALL, anchor=anchor))


def mark_words_at(piece: Piece, mark: Mark, look: Look) -> tuple[Point, Anchor]:
    """Return where a mark's name stands: of four corners round it the one that covers least."""
    import shapely

    shape = polygon(piece.plain_ring, 0.5)
    lines = [leg for dart in piece.darts for leg in sewn_legs(dart)]
    inked = [tuple(leg.flattened(0.5)) for leg in lines]
    grain = grain_drawn(piece)
    inked += [grain] if grain else []
    inked += _strokes(piece, look)
    drawn = shapely.union_all(
        [shapely.LineString([(p.real, p.imag) for p in line]) for line in inked]
    )
    wide, high = 0.62 * SMALL.size_mm * len(mark.name), SMALL.size_mm

    def covers(place: tuple[Point, Anchor]) -> float:
        at, anchor = place
        left = at.real - (wide if anchor == "end" else 0.0)
        box = shapely.box(left, at.imag - 0.5, left + wide, at.imag + high)
        return float(box.difference(shape).area + 3 * box.intersection(drawn).length)

    places: tuple[tuple[Point, Anchor], ...] = (
        (mark.point + complex(4.5, 1.5), "start"),
        (mark.point + complex(-4.5, 1.5), "end"),
        (mark.point + complex(4.5, -1.5 - high), "start"),
        (mark.point + complex(-4.5, -1.5 - high), "end"),
    )
    return min(places, key=covers)


def write_on_fold(piece: Piece, pen: Pen, look: Look) -> None:
    """Write along a fold what is done with it, with arrows that point to it."""
    assert piece.fold is not None
    edge = piece.edge(piece.fold)
    words = look.fold_words
    if 0.62 * SMALL.size_mm * len(words) > edge.length:
        words = "fold"
    crossed = _strokes(piece, look)
    share = _clearest((0.5, 0.35, 0.65), lambda s: edge.point_at(edge.length * s), crossed)
    middle, along = edge.point_at(edge.length * share), edge.heading_at(edge.length * share)
    into = along * 1j
    for share in (0.12, 0.88):
        draw_fold_arrow(edge.point_at(edge.length * share), into, pen)
    upward = along if along.imag >= 0 else -along
    angle = math.degrees(math.atan2(upward.imag, upward.real))
    # Letters stand on their base line, to the left of the direction they run in.
    base = middle + into * (3.0 if dot(into, upward * 1j) > 0 else 3.0 + SMALL.size_mm)
    pen.text(base, words, replace(SMALL, anchor="middle", angle_deg=angle))


def draw_fold_arrow(foot: Point, into: Point, pen: Pen) -> None:
    """Draw an arrow that points to a fold.

    Args:
        foot: where on the fold.
        into: the direction square to it, into the piece.
        pen: the pen.
    """
    draw_points(pen, (foot + into * 12, foot + into * 1.5), GRAIN)
    side = into * 1.4j
    head = (foot + into * 1, foot + into * 5 + side, foot + into * 5 - side)
    draw_points(pen, head, SOLID, closed=True)


def ink(piece: Piece, look: Look) -> Iterable[tuple[Point, ...]]:
    """Return the lines inside a piece that lettering must keep clear of."""
    for dart in piece.darts:
        one, two = sewn_legs(dart)
        yield tuple(one.flattened(0.5))
        yield tuple(two.flattened(0.5))
    grain = grain_drawn(piece)
    if grain:
        yield grain
    if piece.traced and piece.layer == "shell":
        for notch in piece.notches:
            edge = piece.edge(notch.edge, notch.side)
            spot = notch_on_edge(edge, notch)
            along = edge.heading_at(spot) * 0.31 * SMALL.size_mm * len(notch.name)
            lifted = edge.point_at(spot) + edge.heading_at(spot) * 3j
            yield (lifted - along, lifted + along)
    for mark in piece.marks:
        at, anchor = mark_words_at(piece, mark, look)
        run = 0.62 * SMALL.size_mm * len(mark.name) * (-1 if anchor == "end" else 1)
        yield (mark.point - 4, mark.point + 4)
        yield (at + 1j, at + run + 1j)
    yield from _strokes(piece, look)


def edge_middle(edge: Edge) -> Point:
    """Return the middle of an edge as sewn."""
    return edge.point_at(edge.length / 2)
