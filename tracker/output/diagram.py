"""Two versions of a pattern over each other: old dashed, new solid, the changes numbered."""

import html
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.alterations.bodyside import split_sides
from tracker.geometry.area import polygon
from tracker.geometry.point import Point, cross
from tracker.geometry.point import unit as unit_of
from tracker.geometry.transform import STAY, Motion
from tracker.output.drawing import notch_strokes, sewn_legs
from tracker.output.leaders import Leader, place_numbers
from tracker.output.mouth import gathered_line
from tracker.output.pen import (
    BoundsPen,
    Lettering,
    MovedPen,
    Pen,
    Style,
    draw_chain,
    draw_points,
    draw_ring,
)  # fmt: skip
from tracker.output.svg import SvgPen, number
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece, PieceKey

if TYPE_CHECKING:
    from shapely import LineString, Polygon

OLD = Style("outline", 0.42, (1.8, 1.2), "#5f5a50")
OLD_DART = Style("dart", 0.3, (0.9, 0.9), "#5f5a50")
NEW = Style("outline", 0.5, (), "#16140f")
NEW_DART = Style("dart", 0.32, (), "#16140f")
LEVEL = Style("level", 0.2, (2.4, 0.9, 0.6, 0.9), "#8a8375")
MOVED = Style("moved", 0.0, (), "#e9dfc6", filled=True)
#: What the drawing is laid out for: its size on a printed page.
SHOWN_MM = (190.0, 112.0)
#: A capital letter of a piece's name with the space after it, in heights of the letters.
_LETTER = 0.86
#: Beside the bar that gives the scale, and how high the letters are on the page.
_SCALE_WORDS = "100 mm (3 15/16 in) of the garment"
_SCALE_MM = 3.0
#: Slivers between the outlines smaller than this are not shaded, mm².
_SLIVER_MM2 = 2.0


@dataclass(frozen=True, slots=True)
class NumberedPlace:
    """A change to be numbered on the drawing.

    Attributes:
        number: what stands in the circle.
        piece: the piece of the new version it is on.
        at: where, as that piece lies in the pattern.
        words: what it says to those who cannot see it.
    """

    number: int
    piece: PieceKey
    at: Point
    words: str


@dataclass(frozen=True, slots=True)
class Diagram:
    """A drawing for a page: SVG elements and the box that holds them.

    Attributes:
        view_box: the SVG's viewBox, millimetres of the garment.
        marks: its elements; safe, everything in them was escaped.
        unit_mm: garment millimetres to one millimetre of the page.
        missing: numbers whose piece is not drawn.
    """

    view_box: str
    marks: str
    unit_mm: float
    missing: tuple[int, ...]

    def __html__(self) -> str:
        """The elements, for a template."""
        return self.marks


@dataclass(frozen=True, slots=True)
class _Pair:
    key: PieceKey
    old: Piece | None
    new: Piece | None
    box: tuple[float, float, float, float]

    @property
    def shown(self) -> Piece:
        piece = self.new or self.old
        assert piece is not None
        return piece


def draw_comparison(
    old: Pattern,
    new: Pattern,
    places: tuple[NumberedPlace, ...] = (),
    moved: Mapping[PieceKey, Motion] | None = None,
    *,
    linked: bool = True,
) -> Diagram:
    """Draw two versions over each other, piece by piece, at one scale.

    Args:
        old: the older version, drawn dashed.
        new: the newer one, drawn solid.
        places: the numbered changes.
        moved: how an old piece is moved to lie on its new one; not at all where missing.
        linked: each number leads to its sentence on the page; not for a drawing that stands alone.
    """
    moved = moved or {}
    old, new = _alike(old, new), _alike(new, old)
    pairs = _pairs(old, new, moved)
    if not pairs:
        return Diagram("0 0 190 20", _nothing(), 1.0, tuple(p.number for p in places))
    motions, wide, high = _side_by_side(pairs)
    unit = max(wide / SHOWN_MM[0], high / SHOWN_MM[1])
    layers = {name: SvgPen(steady=True) for name in ("moved", "old", "new", "names")}
    for pair, motion in zip(pairs, motions, strict=True):
        on_old = moved.get(pair.key, STAY).then(motion)
        if pair.old and pair.new:
            _shade(pair, moved.get(pair.key, STAY), MovedPen(layers["moved"], motion))
            if _turned(pair.old, pair.new):
                _grain(pair.old, MovedPen(layers["old"], on_old), OLD_DART)
                _grain(pair.new, MovedPen(layers["new"], motion), NEW_DART)
        if pair.old:
            _outline(pair.old, MovedPen(layers["old"], on_old), OLD, OLD_DART)
        if pair.new:
            _outline(pair.new, MovedPen(layers["new"], motion), NEW, NEW_DART)
            for level in pair.new.levels:
                for stroke in level.strokes:
                    draw_points(MovedPen(layers["new"], motion), stroke, LEVEL)
    at_of = {pair.key: motion for pair, motion in zip(pairs, motions, strict=True)}
    shown = [p for p in places if _key(p.piece, at_of) is not None]
    obstacles = _points(pairs, motions, moved)
    names = [_name(pair, motion, unit) for pair, motion in zip(pairs, motions, strict=True)]
    leaders = place_numbers(
        [(p.number, _on(p, at_of), _inside(p, pairs, at_of)) for p in shown],
        obstacles,
        [name.box for name in names],
        unit,
    )
    for name in names:
        name.write(layers["names"])
    box = _whole_box(wide, high, leaders, unit)
    words_of = {p.number: p.words for p in shown}
    marks = [
        *(f'<g class="{name}">\n{pen.body}\n</g>' for name, pen in layers.items()),
        *(_leader_marks(leader, words_of[leader.number], unit, linked) for leader in leaders),
        _scale_bar(complex(box[0] + 2 * unit, box[1] + 3 * unit), unit),
    ]
    view = " ".join(number(v) for v in (box[0], -box[3], box[2] - box[0], box[3] - box[1]))
    drawn = {p.number for p in shown}
    lost = tuple(dict.fromkeys(p.number for p in places if p.number not in drawn))
    return Diagram(view, "\n".join(marks), unit, lost)


def _alike(pattern: Pattern, model: Pattern) -> Pattern:
    """Split the pieces the other version has split, so that each half lies on its own."""
    split = {p.name for p in model.pieces if p.side is not BodySide.BOTH}
    whole = {p.name for p in pattern.pieces if p.side is BodySide.BOTH and p.has_outline}
    return split_sides(pattern, split & whole).pattern if split & whole else pattern


def _pairs(old: Pattern, new: Pattern, moved: Mapping[PieceKey, Motion]) -> list[_Pair]:
    olds = {p.key: p for p in old.pieces if p.has_outline}
    news = {p.key: p for p in new.pieces if p.has_outline}
    out = []
    for key in [*news, *(k for k in olds if k not in news)]:
        bounds = BoundsPen()
        if key in olds:
            draw_ring(MovedPen(bounds, moved.get(key, STAY)), olds[key].ring, OLD)
        if key in news:
            draw_ring(bounds, news[key].ring, NEW)
        out.append(_Pair(key, olds.get(key), news.get(key), bounds.box))
    return out


def _side_by_side(pairs: list[_Pair]) -> tuple[list[Motion], float, float]:
    """Lay the pieces out in the pattern's order, in as many rows as fill the page best."""
    sizes = [(p.box[2] - p.box[0], p.box[3] - p.box[1]) for p in pairs]
    gap = 0.16 * max(max(s) for s in sizes)
    best: tuple[float, list[Point], float, float] | None = None
    for rows in range(1, min(3, len(pairs)) + 1):
        per_row = -(-len(pairs) // rows)
        corners: list[Point] = []
        wide, y = 0.0, 0.0
        for first in range(0, len(pairs), per_row):
            row = sizes[first : first + per_row]
            tall, x = max(s[1] for s in row), 0.0
            for size in row:
                corners.append(complex(x, y - tall))
                x += size[0] + gap
            wide, y = max(wide, x - gap), y - tall - gap
        high = -y - gap
        unit = max(wide / SHOWN_MM[0], high / SHOWN_MM[1])
        if best is None or unit < best[0]:
            best = unit, [c + 1j * high for c in corners], wide, high
    assert best is not None
    motions = [
        Motion.move(corner - complex(pair.box[0], pair.box[1]))
        for pair, corner in zip(pairs, best[1], strict=True)
    ]
    return motions, best[2], best[3]


def _outline(piece: Piece, pen: Pen, style: Style, dart_style: Style) -> None:
    for edge in piece.edges:
        for part in edge.drawn:
            draw_chain(pen, part, style)
    for dart in piece.darts:
        if dart.gathered:
            draw_chain(pen, gathered_line(piece, dart), style)
            continue
        for leg in sewn_legs(dart):
            draw_chain(pen, leg, dart_style)
    for notch in piece.notches:
        for stroke in notch_strokes(piece, notch, None):
            draw_points(pen, stroke, style)
    for mark in piece.marks:
        for arm in (4 + 0j, 4j):
            draw_points(pen, (mark.point - arm, mark.point + arm), dart_style)


def _turned(old: Piece, new: Piece) -> bool:
    """Tell whether the grain lies another way than it did; a line only moved is not worth it."""
    if old.grain is None or new.grain is None:
        return old.grain is not new.grain
    was, now = (unit_of(g[1] - g[0]) for g in (old.grain, new.grain))
    return abs(cross(was, now)) > math.sin(math.radians(1))


def _grain(piece: Piece, pen: Pen, style: Style) -> None:
    """Draw a grain line as a line with two heads."""
    if piece.grain is None:
        return
    low, high = piece.grain
    draw_points(pen, (low, high), style)
    along = unit_of(high - low)
    for tip, way in ((low, along), (high, -along)):
        draw_points(pen, (tip + (12 + 5j) * way, tip, tip + (12 - 5j) * way), style)


def _shade(pair: _Pair, onto: Motion, pen: Pen) -> None:
    """Shade what lies between the two outlines."""
    import shapely

    assert pair.old is not None
    assert pair.new is not None
    one = polygon(tuple(c.moved(onto) for c in pair.old.plain_ring), 0.1).buffer(0)
    two = polygon(pair.new.plain_ring, 0.1).buffer(0)
    for part in shapely.get_parts(one.symmetric_difference(two)):
        if isinstance(part, shapely.Polygon) and part.area > _SLIVER_MM2:
            points = tuple(complex(x, y) for x, y in part.exterior.coords[:-1])
            draw_points(pen, points, MOVED, closed=True)


def _points(
    pairs: list[_Pair], motions: list[Motion], moved: Mapping[PieceKey, Motion]
) -> list[Point]:
    """Points along every line, a few millimetres apart, that numbers keep clear of."""
    out: list[Point] = []
    for pair, motion in zip(pairs, motions, strict=True):
        for piece, onto in (
            (pair.old, moved.get(pair.key, STAY).then(motion)),
            (pair.new, motion),
        ):
            if piece is None:
                continue
            lines = [part for edge in piece.edges for part in edge.drawn]
            lines += [leg for dart in piece.darts for leg in sewn_legs(dart)]
            for line in lines:
                steps = max(2, int(line.length / 4))
                out.extend(
                    onto.of(line.point_at(line.length * k / steps)) for k in range(steps + 1)
                )
    return out


@dataclass(frozen=True, slots=True)
class _Name:
    """A piece's name, a word to a line, and the middle it is written round."""

    words: tuple[str, ...]
    middle: Point
    size: float

    @property
    def box(self) -> tuple[Point, float, float]:
        high = 1.25 * self.size * len(self.words)
        return self.middle - 0.5j * high, _LETTER * self.size * max(map(len, self.words)), high

    def write(self, pen: Pen) -> None:
        top = self.middle + 0.625j * self.size * len(self.words)
        for k, word in enumerate(self.words):
            base = top - 1j * self.size * (1.25 * k + 1.0)
            pen.text(base, word, Lettering(round(self.size, 3), "middle"))


def _name(pair: _Pair, motion: Motion, unit: float) -> _Name:
    """Put a piece's name where it has most room, clear of darts and lines."""
    import shapely

    piece = pair.shown
    whole = polygon(piece.plain_ring, 0.5)
    lines = [tuple(leg.flattened(0.5)) for dart in piece.darts for leg in sewn_legs(dart)]
    lines.extend(stroke for level in piece.levels for stroke in level.strokes)
    inked = [shapely.LineString([(p.real, p.imag) for p in line]).buffer(4) for line in lines]
    free = whole.difference(shapely.union_all(inked))
    parts = [part for part in shapely.get_parts(free) if isinstance(part, shapely.Polygon)]
    largest = max(parts, key=_roomy)
    (x, y), (rim_x, rim_y) = shapely.get_coordinates(_circle(largest))
    words = tuple(piece.label.split())
    # The box of the words lies within the circle, corner to corner.
    across = 1.84 * abs(complex(rim_x - x, rim_y - y))
    size = min(4.0 * unit, across / math.hypot(_LETTER * max(map(len, words)), 1.25 * len(words)))
    return _Name(words, motion.of(complex(x, y)), max(size, 1.8 * unit))


def _circle(part: "Polygon") -> "LineString":
    """From the middle of the largest circle in an area to its rim."""
    import shapely

    return shapely.maximum_inscribed_circle(part, tolerance=2.0)


def _roomy(part: "Polygon") -> float:
    return float(_circle(part).length)


def _key(key: PieceKey, at_of: Mapping[PieceKey, Motion]) -> PieceKey | None:
    """The piece a change is on: by name and body side, or by name alone."""
    if key in at_of:
        return key
    return next((k for k in at_of if k[0] == key[0]), None)


def _on(place: NumberedPlace, at_of: Mapping[PieceKey, Motion]) -> Point:
    key = _key(place.piece, at_of)
    assert key is not None
    return at_of[key].of(place.at)


def _inside(place: NumberedPlace, pairs: list[_Pair], at_of: Mapping[PieceKey, Motion]) -> Point:
    """A point well inside the piece: numbers stand on the other side of the line."""
    key = _key(place.piece, at_of)
    assert key is not None
    pair = next(p for p in pairs if p.key == key)
    heart = polygon(pair.shown.plain_ring).centroid
    return at_of[key].of(complex(heart.x, heart.y))


def _whole_box(
    wide: float, high: float, leaders: list[Leader], unit: float
) -> tuple[float, float, float, float]:
    pad, bar = 2 * unit, 7 * unit
    xs = [0.0, wide, *(leader.centre.real for leader in leaders)]
    ys = [0.0, high, *(leader.centre.imag for leader in leaders)]
    reach = pad + (leaders[0].radius if leaders else 0.0)
    low = min(xs) - reach
    # One narrow piece is no wider than the bar and its words.
    words = low + 100 + (4 + 0.62 * _SCALE_MM * len(_SCALE_WORDS)) * unit
    return low, min(ys) - reach - bar, max(max(xs) + reach, words), max(ys) + reach


def _leader_marks(leader: Leader, words: str, unit: float, linked: bool) -> str:
    x, y = number(leader.centre.real), number(-leader.centre.imag)
    foot_x, foot_y = number(leader.foot.real), number(-leader.foot.imag)
    rim_x, rim_y = number(leader.rim.real), number(-leader.rim.imag)
    size = 4.2 if leader.number < 10 else 3.6
    element = "a" if linked else "g"
    leads = f'href="#change-{leader.number}"' if linked else 'role="img"'
    return (
        f'<{element} class="number" {leads} '
        f'aria-label="{html.escape(f"change {leader.number}: {words}")}">'
        f'<line x1="{foot_x}" y1="{foot_y}" x2="{rim_x}" y2="{rim_y}" '
        f'vector-effect="non-scaling-stroke"/>'
        f'<circle class="dot" cx="{foot_x}" cy="{foot_y}" r="{number(0.7 * unit)}"/>'
        f'<circle class="ring" cx="{x}" cy="{y}" r="{number(leader.radius)}" '
        f'vector-effect="non-scaling-stroke"/>'
        f'<text x="{x}" y="{number(-leader.centre.imag + 0.36 * size * unit)}" '
        f'font-size="{number(size * unit)}" text-anchor="middle">{leader.number}</text></{element}>'
    )


def _scale_bar(at: Point, unit: float) -> str:
    """A bar of 100 mm of the garment, with its middle marked."""
    pen = SvgPen(steady=True)
    bar = Style("scale", 0.3, (), "#16140f")
    draw_points(pen, (at + 1.2j * unit, at, at + 100, at + 100 + 1.2j * unit), bar)
    draw_points(pen, (at + 50, at + 50 + 0.8j * unit), bar)
    pen.text(at + 100 + 2 * unit, _SCALE_WORDS, Lettering(round(_SCALE_MM * unit, 3)))
    return f'<g class="scale">\n{pen.body}\n</g>'


def _nothing() -> str:
    return '<text x="95" y="12" font-size="5" text-anchor="middle">no outlines are drawn</text>'
