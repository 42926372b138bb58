"""Slash and spread, fold out, lengthen and shorten: one cut across a piece, opened or closed.

The piece is cut along a straight line between two places of its outline. The part that does
not hold the grain or the fold is moved as a rigid whole until the cut stands open (or its
edges overlap) by a stated amount at each end. The two edges that were cut are drawn again
smoothly; nothing else changes its length.
"""

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from tracker.drafting.style_section import section
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.fair import faired
from tracker.geometry.point import Point, cross, left_of, unit
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch
from tracker.pattern.walk import notch_on_edge

DartKey = tuple[str, BodySide]


@dataclass(frozen=True, slots=True)
class CutAt:
    """Where a cut meets the outline: an edge, and the distance from its start as sewn."""

    edge: Edge
    at_mm: float

    @property
    def point(self) -> Point:
        """The point itself."""
        return self.edge.point_at(self.at_mm)


@dataclass(frozen=True)
class Slashed:
    """A piece cut and opened or closed.

    Attributes:
        piece: the piece.
        fates: what became of the edges that were cut, and of those that moved.
        angle_rad: how far the moved part turned.
        gap_area_mm2: the cloth put in (or, negative, taken out).
    """

    piece: Piece
    fates: tuple[Fate, ...]
    angle_rad: float
    gap_area_mm2: float


def slashed(
    piece: Piece, one: CutAt, other: CutAt, at_one_mm: float, at_other_mm: float, stays: Point
) -> Slashed:
    """Cut a piece between two places and open it, or close it, by an amount at each.

    Args:
        piece: the piece; its outline must be drawn.
        one: one end of the cut.
        other: the other end, on another edge.
        at_one_mm: how far it is opened there; negative closes. 0 is a hinge.
        at_other_mm: the same at the other end, not of the other sign.
        stays: a point of the part that stays where it is.

    Raises:
        PatternError: it cannot be cut or opened so.
    """
    return _Slash(piece, one, other, at_one_mm, at_other_mm, stays).done()


class _Slash:
    def __init__(
        self, piece: Piece, one: CutAt, other: CutAt, a: float, b: float, stays: Point
    ) -> None:
        if one.edge.key == other.edge.key:
            raise PatternError(
                f"a cut goes from one edge to another; both its ends are on the {one.edge.name}"
            )
        if a * b < 0 or (a == 0 and b == 0):
            raise PatternError(
                "a cut is opened at both ends, closed at both ends, or is a hinge at one of them"
            )
        # Going round the piece from the first place to the second, the moved part is passed.
        p, q = one.point, other.point
        if cross(q - p, stays - p) > 0:
            one, other, a, b, p, q = other, one, b, a, q, p
        self.piece, self.one, self.other, self.a, self.b = piece, one, other, a, b
        self.p, self.q = p, q
        # Going p to q round the ring passes what lies to the right of the chord p→q … of the
        # part that stays; the moved part lies to its left.
        self.closing = a < 0 or b < 0
        self.toward = left_of(unit(q - p))
        length = abs(q - p)
        half = (abs(b) - abs(a)) / (2 * length)
        if abs(half) >= 1:
            raise PatternError("the cut is too short to be opened so far")
        turn = 2 * math.asin(half)
        opened = Motion.turn(p, turn).then(Motion.move(self.toward * abs(a)))
        self.open_line = opened.of(p), opened.of(q)
        self.motion = _inverse(opened) if self.closing else opened
        self.angle = -turn if self.closing else turn

    def done(self) -> Slashed:
        piece = self.piece
        order = self._passed()
        moved_names = {e.key for e in order}
        fresh: dict[object, Edge] = {}
        fates: list[Fate] = []
        moved_darts = {
            (name, edge.side) for edge in piece.edges if edge.key in moved_names
            for name in edge.mouths
        }  # fmt: skip
        cut: dict[object, tuple[float, float, float, float]] = {}
        for edge in piece.edges:
            if edge.key in (self.one.edge.key, self.other.edge.key):
                joined, seam, mouths = self._joined(edge)
                fresh[edge.key], cut[edge.key] = joined, seam
                moved_darts |= mouths
                fates.extend(self._cut_fates(edge, joined, seam))
            elif edge.key in moved_names:
                fresh[edge.key] = self._moved(edge)
                fates.append(self._carried(edge, fresh[edge.key]))
        darts_now = tuple(self._dart(d, d.key in moved_darts) for d in piece.darts)
        notches = tuple(self._notch(n, fresh, cut) for n in piece.notches)
        levels = tuple(self._level(v) for v in piece.levels)
        marks = tuple(
            replace(m, point=self.motion.of(m.point)) if self._moves(m.point) else m
            for m in piece.marks
        )
        out = replace(
            piece,
            edges=tuple(fresh.get(e.key, e) for e in piece.edges),
            darts=darts_now, notches=notches, levels=levels, marks=marks,
        )  # fmt: skip
        out = _legs_met(out)
        return Slashed(out, tuple(fates), self.angle, out.area_mm2 - piece.area_mm2)

    # -- what moves ----------------------------------------------------------------------

    def _moves(self, point: Point) -> bool:
        return cross(self.q - self.p, point - self.p) > 0

    def _passed(self) -> list[Edge]:
        """The edges wholly within the moved part: from the second place on to the first."""
        edges = self.piece.edges
        i = (self.piece.edge_index(self.other.edge) + 1) % len(edges)
        out = []
        while edges[i].key != self.one.edge.key:
            out.append(edges[i])
            i = (i + 1) % len(edges)
        return out

    def _removed(self, edge: Edge, at_mm: float) -> float:
        """Where, on a cut edge, the moved part begins: further on, when the cut is closed."""
        if not self.closing:
            return at_mm
        p, q = self.open_line
        before, best = 0.0, None
        for part in edge.drawn:
            for c in with_line(part, p, q - p):
                if best is None or abs(before + c.first_mm - at_mm) < abs(best - at_mm):
                    best = before + c.first_mm
            before += part.length
        if best is None:
            raise PatternError(
                f"more would be closed than there is between the cut and the end of the "
                f"{edge.name} of the {self.piece.label}"
            )
        return best

    def _joined(self, edge: Edge) -> tuple[Edge, tuple[float, float, float, float], set[DartKey]]:
        """A cut edge drawn again: what stays, the join, what moved."""
        at = self.one if edge.key == self.one.edge.key else self.other
        amount = self.a if at is self.one else self.b
        first_moves = at is self.one  # the moved part ends at the first place
        begins = self._removed(edge, at.at_mm)
        low, high = (begins, at.at_mm) if first_moves else (at.at_mm, begins)
        if low > high + 1e-9:
            raise PatternError(
                f"the {edge.name} of the {self.piece.label} runs back across the cut there"
            )
        head = section(edge, 0.0, low, edge.start, edge.end)
        tail = section(edge, high, edge.length, edge.start, edge.end)
        if not head.parts or not tail.parts:
            raise PatternError(
                f"the cut meets the {edge.name} of the {self.piece.label} at its very end; "
                "move it in a little"
            )
        _stay, gone = (tail, head) if first_moves else (head, tail)
        moved = tuple(p.moved(self.motion) for p in gone.parts)
        if first_moves:
            head_parts, tail_parts = moved, tail.parts
        else:
            head_parts, tail_parts = head.parts, moved
        bridge = faired(head_parts[-1], tail_parts[0], keeps_length=amount == 0.0)
        parts = (*head_parts[:-1], bridge, *tail_parts[1:])
        out = replace(
            edge, parts=parts, mouths=(*head.mouths, *tail.mouths), bases=(), displacements=()
        )
        here = float(sum(p.length for p in head_parts))
        darts = {(name, edge.side) for name in gone.mouths}
        there = out.length - sum(p.length for p in tail_parts)
        return out, (low, high, here, there), darts

    def _moved(self, edge: Edge) -> Edge:
        return replace(
            edge,
            parts=tuple(p.moved(self.motion) for p in edge.parts),
            bases=tuple(b.moved(self.motion) for b in edge.bases),
        )

    def _dart(self, dart: Dart, mouth_moves: bool) -> Dart:
        if dart.double_pointed:
            sides = {self._moves(p) for p in (dart.legs[0].start, dart.legs[0].end)}
            if len(sides) > 1:
                raise PatternError(
                    f"the cut would go through the {dart.name} of the {self.piece.label}; "
                    "lay it above or below"
                )
            return _dart_moved(dart, self.motion) if sides == {True} else dart
        if self._moves(dart.pivot) == mouth_moves:
            return _dart_moved(dart, self.motion) if mouth_moves else dart
        # The cut goes through it: it keeps its pivot and its mouth, the legs are drawn again.
        where = self.motion.of if mouth_moves else _itself
        pivot = dart.pivot if mouth_moves else self.motion.of(dart.pivot)
        return replace(
            dart,
            legs=(
                Curve.line(where(dart.mouth_start), pivot),
                Curve.line(pivot, where(dart.mouth_end)),
            ),
        )

    def _notch(
        self,
        notch: Notch,
        fresh: dict[object, Edge],
        cut: dict[object, tuple[float, float, float, float]],
    ) -> Notch:
        key = (notch.edge, notch.side)
        if key not in cut:
            return notch
        old, new = self.piece.edge(*key), fresh[key]
        at = notch_on_edge(old, notch)
        low, high, here, there = cut[key]
        if at <= low:
            on = at * here / low if low else 0.0
        elif at >= high:
            on = there + (at - high) * (new.length - there) / max(old.length - high, 1e-9)
        else:
            on = (here + there) / 2
        return replace(notch, distance_mm=on if notch.corner == new.start else new.length - on)

    def _level(self, level: Level) -> Level:
        strokes: list[Stroke] = []
        for stroke in level.strokes:
            strokes.extend(self._stroke(stroke))
        return replace(level, strokes=tuple(strokes))

    def _stroke(self, stroke: Stroke) -> list[Stroke]:
        staying = _clipped(stroke, lambda z: -cross(self.q - self.p, z - self.p))
        p, q = self.open_line if self.closing else (self.p, self.q)
        moving = [
            tuple(self.motion.of(z) for z in s)
            for s in _clipped(stroke, lambda z: cross(q - p, z - p))
        ]
        if not staying or not moving:
            return staying + moving
        if self.closing:
            return staying + moving
        # Opened: the line runs on across the cloth that was put in.
        if abs(staying[-1][-1] - moving[0][0]) <= abs(staying[0][0] - moving[-1][-1]):
            return [*staying[:-1], staying[-1] + moving[0], *moving[1:]]
        return [*moving[:-1], moving[-1] + staying[0], *staying[1:]]

    # -- the trace -----------------------------------------------------------------------

    def _stretch(self, edge: Edge, a: float, b: float) -> Stretch:
        return Stretch(self.piece.name, edge.name, edge.side, a, b)

    def _carried(self, old: Edge, new: Edge) -> Fate:
        return Fate(self._stretch(old, 0.0, old.length), self._stretch(new, 0.0, new.length))

    def _cut_fates(
        self, old: Edge, new: Edge, seam: tuple[float, float, float, float]
    ) -> list[Fate]:
        low, high, here, there = seam
        out = [Fate(self._stretch(old, 0.0, low), self._stretch(new, 0.0, here))]
        if high - low > 1e-6:
            out.append(Fate(self._stretch(old, low, high), None))
        if there - here > 1e-6:
            out.append(Fate(None, self._stretch(new, here, there)))
        else:
            there = here
        out.append(
            Fate(self._stretch(old, high, old.length), self._stretch(new, there, new.length))
        )
        return out


def _itself(point: Point) -> Point:
    return point


def _inverse(motion: Motion) -> Motion:
    factor = 1 / motion.factor
    return Motion(factor=factor, shift=-motion.shift * factor)


def _dart_moved(dart: Dart, motion: Motion) -> Dart:
    return replace(dart, legs=(dart.legs[0].moved(motion), dart.legs[1].moved(motion)))


def _clipped(stroke: Stroke, side: Callable[[Point], float]) -> list[Stroke]:
    """The parts of a polyline on which ``side`` is positive."""
    out: list[list[Point]] = []
    run: list[Point] = [stroke[0]] if side(stroke[0]) > 0 else []
    for a, b in itertools.pairwise(stroke):
        sa, sb = side(a), side(b)
        if (sa > 0) != (sb > 0):
            meeting = a + (b - a) * (sa / (sa - sb))
            run.append(meeting)
            if sa > 0:
                out.append(run)
                run = []
        if sb > 0:
            run.append(b)
    if run:
        out.append(run)
    return [tuple(r) for r in out if len(r) > 1 and abs(r[0] - r[-1]) > 1e-6]


def _legs_met(piece: Piece) -> Piece:
    """Make the legs of every dart equal and end on the edge's parts."""
    for dart in piece.darts:
        if dart.double_pointed or dart.mouth is None:
            continue
        edge = piece.edge(dart.mouth, dart.side)
        k = edge.mouths.index(dart.name)
        one, two = dart.leg_lengths
        if abs(one - two) > 1e-5:
            length = (one + two) / 2
            a = dart.pivot + unit(dart.mouth_start - dart.pivot) * length
            b = dart.pivot + unit(dart.mouth_end - dart.pivot) * length
            dart = replace(dart, legs=(Curve.line(a, dart.pivot), Curve.line(dart.pivot, b)))
            piece = piece.with_dart(dart)
        parts = list(edge.parts)
        if parts[k].end != dart.mouth_start:
            parts[k] = parts[k].ended_at(dart.mouth_start)
        if parts[k + 1].start != dart.mouth_end:
            parts[k + 1] = parts[k + 1].started_at(dart.mouth_end)
        if tuple(parts) != edge.parts:
            piece = piece.with_edge(replace(edge, parts=tuple(parts), bases=(), displacements=()))
    return piece
