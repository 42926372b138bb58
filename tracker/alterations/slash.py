"""Slash and spread, fold out, lengthen and shorten: one cut across a piece, opened or closed.

The piece is cut along a straight line between two places of its outline. The part that does
not hold the grain or the fold is moved as a rigid whole until the cut stands open (or its
edges overlap) by a stated amount at each end. The two edges that were cut are drawn again
smoothly; nothing else changes its length.
"""

import math
from dataclasses import dataclass, replace

from tracker.alterations.cut_again import taken_back
from tracker.alterations.cut_cloth import CutCloth, outline
from tracker.alterations.cut_kept import Drawn, carried, kept, remembered
from tracker.alterations.mouth_trued import folded_kink_of, legs_equal, mouth_trued
from tracker.alterations.slash_darts import dart_moved, inner_dart
from tracker.alterations.slash_told import Join, carried_whole, cut_fates
from tracker.drafting.style_section import section
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.fair import faired
from tracker.geometry.point import Point, cross, left_of, unit
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import ON_EDGE_MM, level_again
from tracker.pattern.marks import Notch
from tracker.pattern.piece import Piece
from tracker.pattern.trace import SHORTEST_MM, Fate
from tracker.pattern.walk import notch_on_edge

Key = tuple[str, BodySide]

#: Nearer to a cut a material line cannot keep its width: the edge is drawn smooth across it.
LEAST_MM = 1.0
#: A cut keeps this far from the ends of the edges it meets, so that they can be drawn again.
FROM_END_MM = 3.0


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
        angle_rad: how far the moved part turned, left positive.
        gap_area_mm2: the cloth put in (or, negative, taken out), after the edges were faired.
    """

    piece: Piece
    fates: tuple[Fate, ...]
    angle_rad: float
    gap_area_mm2: float


def slashed(
    piece: Piece,
    one: CutAt,
    other: CutAt,
    at_one_mm: float,
    at_other_mm: float,
    stays: Point,
    *,
    widths_stay: bool = False,
) -> Slashed:
    """Cut a piece between two places and open it, or close it, by an amount at each.

    Args:
        piece: the piece; its outline must be drawn.
        one: one end of the cut.
        other: the other end, on another edge.
        at_one_mm: how far it is opened there; negative closes. 0 is a hinge.
        at_other_mm: the same at the other end, not of the other sign.
        stays: a point of the part that stays where it is.
        widths_stay: the edges are not drawn again beyond the nearest material lines that end on
            them, so that the piece keeps its width there.

    Raises:
        PatternError: it cannot be cut or opened so.
    """
    return _Slash(piece, one, other, at_one_mm, at_other_mm, stays, widths_stay).done()


class _Slash:
    def __init__(
        self, piece: Piece, one: CutAt, other: CutAt, a: float, b: float, stays: Point,
        widths_stay: bool,
    ) -> None:  # fmt: skip
        self.widths_stay = widths_stay
        if one.edge.key == other.edge.key:
            raise PatternError(
                f"a cut goes from one edge to another; both its ends are on the {one.edge.name}"
            )
        if a * b < 0 or (a == 0 and b == 0):
            raise PatternError(
                "a cut is opened at both ends, closed at both ends, or is a hinge at one of them"
            )
        for at in (one, other):
            _refuse_near_end(piece, at)
        # Going round from the first place to the second, the part that stays is passed: it
        # lies to the right of the straight line from the one to the other.
        p, q = one.point, other.point
        if cross(q - p, stays - p) > 0:
            one, other, a, b, p, q = other, one, b, a, q, p
        self.again = taken_back(
            piece, ((one.edge, one.at_mm, a, True), (other.edge, other.at_mm, b, False))
        )
        if not self.again:
            # Where the spot that stays lies beside the cut, it may have changed sides.
            self.again = taken_back(
                piece, ((other.edge, other.at_mm, b, True), (one.edge, one.at_mm, a, False))
            )
            if self.again:
                one, other, a, b = other, one, b, a
        if self.again:
            one = CutAt(one.edge, self.again.place(one.edge))
            other = CutAt(other.edge, self.again.place(other.edge))
            p, q = one.point, other.point
        self.piece, self.one, self.other, self.a, self.b = piece, one, other, a, b
        self.p, self.q = p, q
        self.closing = a < 0 or b < 0
        self.toward = left_of(unit(q - p))
        length = abs(q - p)
        half = (abs(b) - abs(a)) / (2 * length)
        if abs(half) >= 0.5:
            raise PatternError("the cut is too short to be opened so far")
        turn = 2 * math.asin(half)
        # About the end that is opened less, so that a hinge stays where it is.
        about, least = (p, abs(a)) if abs(a) <= abs(b) else (q, abs(b))
        opened = Motion.turn(about, turn).then(Motion.move(self.toward * least))
        self.open_line = opened.of(p), opened.of(q)
        self.motion = _inverse(opened) if self.closing else opened
        if self.again:
            self.motion = self.again.motion
        self.angle = -turn if self.closing else turn
        self.order = self._passed()
        self.cloth, self.crossed = self._parted()
        self._refuse_fold()

    def done(self) -> Slashed:
        piece = self.piece
        moved = {e.key for e in self.order}
        rough: dict[Key, Edge] = {}
        fair: dict[Key, Edge] = {}
        joins: dict[Key, Join] = {}
        mouths = {(name, e.side) for e in piece.edges if e.key in moved for name in e.mouths}
        for edge in piece.edges:
            if edge.key in (self.one.edge.key, self.other.edge.key):
                rough[edge.key], fair[edge.key], joins[edge.key], its = self._joined(edge)
                mouths |= its
            elif edge.key in moved:
                rough[edge.key] = fair[edge.key] = self._moved(edge)
            if self.again:
                rough.setdefault(edge.key, edge)
                fair[edge.key] = self.again.beside(edge, fair.get(edge.key, edge))
        out = replace(
            piece,
            edges=tuple(fair.get(e.key, e) for e in piece.edges),
            darts=tuple(self._dart(d, d.key in mouths) for d in piece.darts),
            marks=tuple(replace(m, point=self.cloth.moved(m.point)) for m in piece.marks),
            grain=self._grain(),
        )
        for key in self.crossed:
            if self.again and self.again.dart(piece.dart(*key)):
                continue
            out = legs_equal(out, *key)
            out = mouth_trued(out, *key, folded_kink_of(piece, *key))
        unfaired = replace(out, edges=tuple(rough.get(e.key, e) for e in out.edges))
        levels = (
            replace(v, strokes=self.cloth.strokes(v.strokes)) if v.strokes else v
            for v in piece.levels
        )
        again = [e.key for e in out.edges if e is not piece.edge(*e.key)]
        out = replace(
            out,
            levels=tuple(level_again(v, unfaired, out, again) for v in levels),
            notches=tuple(self._notch(n, out, joins) for n in piece.notches),
        )
        if self.again:
            out = self.again.as_it_was(piece, out)
        out = self._remembering(out, joins)
        fates: list[Fate] = []
        for key in again:
            old, new = piece.edge(*key), out.edge(*key)
            fates += (
                cut_fates(piece, old, new, joins[key], self.crossed, key == self.other.edge.key)
                if key in joins
                else [carried_whole(piece, old, new)]
            )
        return Slashed(out, tuple(fates), self.angle, out.area_mm2 - piece.area_mm2)

    def _remembering(self, out: Piece, joins: dict[Key, Join]) -> Piece:
        """The piece with what this cut replaced, and what earlier ones did, moved as it was."""
        piece, moved = self.piece, [e.key for e in self.order]
        ends = [
            Drawn(
                at.edge, (joins[at.edge.key].low, joins[at.edge.key].high),
                (joins[at.edge.key].here, joins[at.edge.key].there), by, at is self.one,
            )
            for at, by in ((self.one, self.a), (self.other, self.b))
        ]  # fmt: skip
        gone = self.again.cut if self.again else None
        cuts = [carried(c, piece, moved, ends, self.motion) for c in piece.cuts if c is not gone]
        made = None
        if gone is None:
            made = remembered(piece, out, self.motion, moved, ends, self.crossed)
        return kept(out, (*cuts, made) if made else cuts)

    # -- what moves ----------------------------------------------------------------------

    def _passed(self) -> list[Edge]:
        """The edges wholly within the moved part: from the second place on to the first."""
        edges = self.piece.edges
        i = (self.piece.edge_index(self.other.edge) + 1) % len(edges)
        out = []
        while edges[i].key != self.one.edge.key:
            out.append(edges[i])
            i = (i + 1) % len(edges)
        return out

    def _parted(self) -> tuple[CutCloth, tuple[Key, ...]]:
        """The piece in its parts, and the darts the cut goes across."""
        a, b = self._removed(self.one), self._removed(self.other)

        def ring(one_mm: float, other_mm: float) -> tuple[Point, ...]:
            tail = section(self.other.edge, other_mm, self.other.edge.length, "", "").parts
            head = section(self.one.edge, 0.0, one_mm, "", "").parts
            between = [p for e in self.order for p in e.parts]
            return outline([*tail, *between, *head])

        cut = Curve.line(self.p, self.q)
        far = Curve.line(self.one.edge.point_at(a), self.other.edge.point_at(b))
        cloth = CutCloth(cut, far, ring(self.one.at_mm, self.other.at_mm), ring(a, b), self.motion)
        lines = (cut, far) if self.closing else (cut,)
        legs = {id(leg): d for d in self.piece.darts if not d.double_pointed for leg in d.legs}
        met: dict[Key, int] = {}
        for line in lines:
            for curve in self.piece.ring:
                inner = [
                    c for c in of_curves(line, curve)
                    if 0.01 < c.first_mm < line.length - 0.01
                ]  # fmt: skip
                if inner and id(curve) in legs:
                    key = legs[id(curve)].key
                    met[key] = met.get(key, 0) + len(inner)
                elif inner:
                    raise PatternError(
                        f"between its two ends the cut would leave the {self.piece.label}; "
                        "choose places that see each other straight across"
                    )
        for dart in self.piece.darts:
            near = min(line.nearest(dart.pivot)[1] for line in lines)
            if met.get(dart.key, 0) not in (0, 2 * len(lines)) or (
                near < 1.0 and not dart.double_pointed
            ):
                raise PatternError(
                    f"the cut would go through the point of the {dart.name} of the "
                    f"{self.piece.label}; lay it further from there"
                )
        return cloth, tuple(met)

    def _refuse_fold(self) -> None:
        fold = self.piece.fold
        if fold is None or self.again:
            return
        heading = self.piece.edge(fold).parts[0].start_heading
        bent = abs(self.angle) > 1e-9 or abs(cross(heading, self.toward)) > 1e-5
        if bent and fold in {e.name for e in (*self.order, self.one.edge, self.other.edge)}:
            raise PatternError(
                f"the {fold} of the {self.piece.label} lies on the fold and has to stay straight; "
                "it cannot be slashed at an angle unless it becomes a seam or is straightened"
            )

    def _removed(self, at: CutAt) -> float:
        """Where, on a cut edge, the moved part begins: further on, when the cut is closed."""
        if not self.closing:
            return at.at_mm
        if self.again:
            return self.again.removed(at.edge)
        p, q = self.open_line
        before, found = 0.0, []
        for part in at.edge.drawn:
            found += [before + c.first_mm for c in with_line(part, p, q - p)]
            before += part.length
        # What goes lies before the first place, and after the second.
        first = at is self.one
        found = [s for s in found if (s <= at.at_mm + 1e-6 if first else s >= at.at_mm - 1e-6)]
        if not found:
            raise PatternError(
                f"more would be closed than there is between the cut and the end of the "
                f"{at.edge.name} of the {self.piece.label}"
            )
        best = min(found, key=lambda s: abs(s - at.at_mm))
        if self.piece.fold != at.edge.name or abs(best - at.at_mm) > SHORTEST_MM:
            _refuse_near_end(self.piece, CutAt(at.edge, best))
        return best

    def _joined(self, edge: Edge) -> tuple[Edge, Edge, Join, set[Key]]:
        """A cut edge put together again, roughly and fair: what stays, the join, what moved."""
        at = self.one if edge.key == self.one.edge.key else self.other
        first_moves = at is self.one  # the moved part ends at the first place
        begins = self._removed(at)
        low, high = (begins, at.at_mm) if first_moves else (at.at_mm, begins)
        if self.again:
            its = {(name, edge.side) for name in self.again.mouths_moved(edge)}
            join = Join(low, high, *self.again.reach(edge))
            return self.again.lying(edge), self.again.edge(edge), join, its
        head = section(edge, 0.0, low, edge.start, edge.end)
        tail = section(edge, high, edge.length, edge.start, edge.end)
        gone = head if first_moves else tail
        moved = tuple(p.moved(self.motion) for p in gone.parts)
        first, last = (moved, tail.parts) if first_moves else (head.parts, moved)
        bridge = faired(first[-1], last[0], most_mm=self._lines_beside(edge, low, high))
        plain = first[-1].joined(Curve.line(first[-1].end, last[0].start))
        mouths = (*head.mouths, *tail.mouths)

        def with_bridge(line: Curve) -> Edge:
            parts = (*first[:-1], line, *last[1:])
            return replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())

        rough, fair = with_bridge(plain.joined(last[0])), with_bridge(bridge.line)
        here = float(sum(p.length for p in first))
        there = fair.length - float(sum(p.length for p in last))
        there = here if self.closing else max(there, here)
        darts = {(name, edge.side) for name in gone.mouths}
        join = Join(low, high, here, there, bridge.back_mm, bridge.on_mm)
        return rough, fair, join, darts

    def _lines_beside(self, edge: Edge, low: float, high: float) -> tuple[float, float]:
        """How far before and after the join the nearest material lines end on a cut edge."""
        back = on = math.inf
        ends = self.widths_stay and [
            edge.nearest(end)
            for level in self.piece.levels
            for stroke in level.strokes
            for end in (stroke[0], stroke[-1])
        ]
        for at, gap in ends or ():
            if gap < ON_EDGE_MM and low - at >= LEAST_MM:
                back = min(back, low - at)
            if gap < ON_EDGE_MM and at - high >= LEAST_MM:
                on = min(on, at - high)
        return back, on

    def _moved(self, edge: Edge) -> Edge:
        return replace(
            edge,
            parts=tuple(p.moved(self.motion) for p in edge.parts),
            bases=tuple(b.moved(self.motion) for b in edge.bases),
        )

    def _dart(self, dart: Dart, mouth_moves: bool) -> Dart:
        was = self.again.dart(dart) if self.again else None
        if was is not None:
            return was
        if dart.double_pointed:
            return inner_dart(self.cloth, self.angle, self.piece.label, dart)
        if dart.key not in self.crossed:
            return dart_moved(dart, self.motion) if mouth_moves else dart
        # The cut goes across it: it keeps its pivot and its mouth, the legs are drawn again.
        where = self.motion.of if mouth_moves else _itself
        pivot = dart.pivot if mouth_moves else self.motion.of(dart.pivot)
        return replace(
            dart,
            legs=(
                Curve.line(where(dart.mouth_start), pivot),
                Curve.line(pivot, where(dart.mouth_end)),
            ),
        )

    def _grain(self) -> tuple[Point, Point] | None:
        grain = self.piece.grain
        if grain is None or abs(self.angle) > 1e-9:
            return grain
        return self.cloth.moved(grain[0]), self.cloth.moved(grain[1])

    def _notch(self, notch: Notch, out: Piece, joins: dict[Key, Join]) -> Notch:
        key = (notch.edge, notch.side)
        if key not in joins:
            return notch
        old, new, join = self.piece.edge(*key), out.edge(*key), joins[key]
        at = notch_on_edge(old, notch)
        if at <= join.low:
            on = at
        elif at >= join.high:
            on = new.length - (old.length - at)
        else:
            on = (join.here + join.there) / 2
        return replace(notch, distance_mm=on if notch.corner == new.start else new.length - on)


def _refuse_near_end(piece: Piece, at: CutAt) -> None:
    if all(e.key != at.edge.key for e in piece.edges):
        raise PatternError(f"the {piece.label} has no {at.edge.name} on that side to cut from")
    ends, before = [0.0], 0.0
    for part in at.edge.drawn:
        before += part.length
        ends.append(before)
    if min(abs(at.at_mm - end) for end in ends) < FROM_END_MM:
        raise PatternError(
            f"the cut meets the {at.edge.name} of the {piece.label} too near its end or a dart; "
            f"move it at least {FROM_END_MM:.0f} mm along"
        )


def _itself(point: Point) -> Point:
    return point


def _inverse(motion: Motion) -> Motion:
    factor = 1 / motion.factor
    return Motion(factor=factor, shift=-motion.shift * factor)


__all__ = ["FROM_END_MM", "CutAt", "Slashed", "slashed"]
