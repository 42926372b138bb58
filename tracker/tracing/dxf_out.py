"""A pattern as DXF on the layers of the sewn products standard.

ASTM D6673 (ANSI/AAMA 292), Sewn Products Pattern Data Interchange: a piece is a block; 1 holds
its boundary, 2 the corners, 3 the points of curves, 4 notches, 6 the fold, 7 the grain, 8 lines
inside, 13 drill holes, 15 words. The labels of its texts are from memory. What the standard has
no place for (names of edges and corners, darts) stands in words on layer 15; seams it keeps none.
"""

import io
from collections.abc import Sequence
from typing import Any

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge
from tracker.tracing.writing import stops_of

BOUNDARY, CORNERS, CURVES, NOTCHES, FOLD, GRAIN, INSIDE, HOLES, WORDS = (
    "1", "2", "3", "4", "6", "7", "8", "13", "15",
)  # fmt: skip
TEXT_MM = 3.0
#: Words of ours begin so on layer 15.
SORTS = ("piece", "corner", "edge", "dart", "notch", "line", "mark")


def dxf_of(pattern: Pattern, title: str) -> str:
    """Return the file's text.

    Args:
        pattern: the pattern; pieces without outline are left out.
        title: the name of the style.
    """
    from ezdxf import units
    from ezdxf.filemanagement import new

    doc = new("R2000")
    doc.units = units.MM
    for name in (BOUNDARY, CORNERS, CURVES, NOTCHES, FOLD, GRAIN, INSIDE, HOLES, WORDS):
        doc.layers.add(name)
    space = doc.modelspace()
    for k, words in enumerate((f"Style Name: {title}", "Units: METRIC")):
        _say(space, BOUNDARY, words, complex(0, -30 - 6 * k))
    at = 0.0
    for piece in (p for p in pattern.pieces if p.has_outline):
        block = doc.blocks.new(piece.label)
        _Block(block, piece).draw()
        space.add_blockref(piece.label, (at - piece.box[0], 0), dxfattribs={"layer": BOUNDARY})
        at += piece.box[2] - piece.box[0] + 30
    out = io.StringIO()
    doc.write(out)
    return out.getvalue()


def half_way(points: Sequence[Point]) -> Point:
    """Where words about a line inside a piece stand."""
    line = Curve.line(*points)
    return line.point_at(line.length / 2)


def _say(into: Any, layer: str, words: str, at: Point) -> None:
    attributes = {"layer": layer, "height": TEXT_MM, "insert": (at.real, at.imag)}
    into.add_text(words, dxfattribs=attributes)


class _Block:
    """Draws one piece into its block."""

    def __init__(self, block: Any, piece: Piece) -> None:
        self.block, self.piece = block, piece

    def say(self, sort: str, name: str, at: Point, **told: object) -> None:
        """Write words of ours beside what they are about."""
        words = [name, *(f"{k.replace('_', ' ')} {v}" for k, v in told.items() if v)]
        _say(self.block, WORDS, f"{sort}: {'; '.join(words)}", at)

    def side(self, of: BodySide) -> str:
        return "" if of is self.piece.side else str(of)

    def point(self, layer: str, at: Point) -> None:
        self.block.add_point((at.real, at.imag), dxfattribs={"layer": layer})

    def line(self, layer: str, points: list[Point], *, closed: bool = False) -> None:
        spots = [(p.real, p.imag) for p in points]
        self.block.add_polyline2d(spots, close=closed, dxfattribs={"layer": layer})

    def through(self, lines: list[Curve]) -> list[Point]:
        """Points on lines that follow each other, marked as corners or as points of curves."""
        out: list[Point] = []
        for line in lines:
            for point, corner in stops_of(line)[:-1]:
                out.append(point)
                self.point(CORNERS if corner else CURVES, point)
        return out

    def draw(self) -> None:
        piece = self.piece
        self.line(BOUNDARY, self.through(list(piece.ring)), closed=True)
        x, y = piece.box[0], piece.box[1] - 10
        texts = (
            f"Piece Name: {piece.label}", f"Quantity: {1 if piece.fold else piece.copies}",
            f"Material: {piece.layer}", f"Annotation: {piece.cut}; without allowances",
        )  # fmt: skip
        for k, words in enumerate(texts):
            _say(self.block, BOUNDARY, words, complex(x, y - 6 * k))
        self.say(
            "piece", piece.name, complex(x, y - 30), body_side=str(piece.side), layer=piece.layer,
            copies=piece.copies, cut=piece.cut, taken_from=piece.taken_from,
        )  # fmt: skip
        for edge in piece.edges:
            self.say("corner", edge.start, edge.drawn[0].start)
            first = edge.drawn[0]
            self.say(
                "edge", edge.name, first.point_at(first.length / 2), body_side=self.side(edge.side)
            )
        for dart in piece.darts:
            self.dart(dart)
        if piece.fold:
            fold = piece.edge(piece.fold)
            self.line(FOLD, [fold.drawn[0].start, fold.drawn[-1].end])
        if piece.grain:
            self.line(GRAIN, list(piece.grain))
        self.marks()

    def dart(self, dart: Dart) -> None:
        told = {"stand_back": f"{dart.stand_back_mm:.3f} mm", "pressed": dart.pressed}
        side = self.side(dart.side)
        self.say("dart", dart.name, dart.pivot, edge=dart.mouth, **told, body_side=side)
        if dart.double_pointed:
            both = [dart.legs[0], dart.legs[1].reversed]
            self.line(INSIDE, self.through(both), closed=True)

    def marks(self) -> None:
        for notch in self.piece.notches:
            edge = self.piece.edge(notch.edge, notch.side)
            spot = edge.point_at(notch_on_edge(edge, notch))
            self.point(NOTCHES, spot)
            self.say(
                "notch", notch.name, spot, edge=notch.edge, kept_from=notch.corner,
                count=notch.count, body_side=self.side(notch.side),
            )  # fmt: skip
        for level in self.piece.levels:
            for stroke in level.strokes:
                self.line(INSIDE, list(stroke))
                self.say("line", level.name, half_way(stroke), body_side=self.side(level.side))
            for name in level.edges:
                first = self.piece.edge(name, level.side).drawn[0]
                at = first.point_at(first.length / 2)
                self.say("line", level.name, at, edge=name, body_side=self.side(level.side))
        for mark in self.piece.marks:
            self.point(HOLES, mark.point)
            self.say("mark", mark.name, mark.point, body_side=self.side(mark.side))
