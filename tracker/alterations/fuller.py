"""More or less room over the bust: a front slashed through its bust point in three parts.

The front is cut from the waist dart through the bust point to a hinge on the armhole, and from
the bust dart to the bust point. The part beside the bust turns about the hinge until the bust
point has gone out by the amount, square to the centre; the part below it goes along without
turning; and the centre's lower part is let down so that the lower edge is level again. Both
darts are drawn to the one point from which all four legs are equal in pairs.

Where the waist dart has two points, as on a torso, the slash runs on from its lower point to the
lower edge, which becomes longer by as much as the bust point goes out.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.alterations.across import up_of
from tracker.alterations.cut_cloth import outline
from tracker.alterations.fuller_cloth import Cloth, Spot, length
from tracker.alterations.fuller_places import below_the_dart, centre_edge, on_the_centre
from tracker.alterations.mouth_trued import folded_kink_of, legs_equal, mouth_trued
from tracker.alterations.slash import CutAt
from tracker.drafting.style_section import section
from tracker.geometry.curve import Curve
from tracker.geometry.fair import faired
from tracker.geometry.point import Point, cross, dot, left_of, unit
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.marks import Level, Notch
from tracker.pattern.piece import Piece
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch
from tracker.pattern.walk import notch_on_edge

Key = tuple[str, BodySide]

#: Darts that end this near one another share their pivot.
_ONE_PIVOT_MM = 1.0
#: A dart narrower than this at its mouth is none.
LEAST_MOUTH_MM = 4.0
#: The bust line is given its amount in at most so many tries.
_TRIES = 12
#: How far down, as a share of the waist dart, the centre is cut to level the lower edge.
_LEVELLED_AT = 0.4


@dataclass(frozen=True)
class Fuller:
    """A front with more, or less, room over the bust.

    Attributes:
        piece: the piece.
        fates: what became of its edges.
        drop_mm: how much longer the centre is; negative is shorter.
        turn_rad: how far the part beside the bust turned.
        hinge_mm: how far along its edge the hinge is.
        centre: the edge at the centre.
    """

    piece: Piece
    fates: tuple[Fate, ...]
    drop_mm: float
    turn_rad: float
    hinge_mm: float
    centre: Key


def fuller(piece: Piece, bust: Dart, waist: Dart, hinge: CutAt, by_mm: float) -> Fuller:
    """Open a front through its bust point, or close it.

    Args:
        piece: the front; both darts run to one pivot.
        bust: the dart from its side.
        waist: the dart from its lower edge.
        hinge: a place of the armhole.
        by_mm: how much longer the line through the bust point is afterwards (without such a
            line, how far the bust point goes out); negative is shorter.

    Raises:
        PatternError: it cannot be drawn; the sentence says why.
    """
    wider = by_mm
    for _ in range(_TRIES):
        tried = _Fuller(piece, bust, waist, hinge, wider)
        missing = by_mm - tried.gained()
        if abs(missing) < 1e-5:
            break
        wider += missing
    return tried.done()


class _Fuller:
    def __init__(self, piece: Piece, bust: Dart, waist: Dart, hinge: CutAt, by_mm: float) -> None:
        if bust.mouth is None:
            raise PatternError(
                f"the {bust.name} of the {piece.label} does not open from an edge; one that runs "
                "from the side to the bust point is wanted"
            )
        if abs(bust.pivot - waist.pivot) > _ONE_PIVOT_MM:
            raise PatternError(
                f"the {bust.name} and the {waist.name} of the {piece.label} end "
                f"{abs(bust.pivot - waist.pivot):.0f} mm apart; draw both to the bust point first"
            )
        if bust.mouth == waist.mouth:
            raise PatternError(f"both darts open from the {bust.mouth}; one has to be at the side")
        self.piece, self.bust, self.waist, self.by = piece, bust, waist, by_mm
        self.point = bust.pivot
        self.hinge = Spot(hinge.edge, hinge.at_mm)
        self.up = up_of(piece)
        out = left_of(self.up)
        self.out = out if dot(bust.mouth_start - self.point, out) > 0 else -out
        self.turn, self.drop = self._turned()
        self.beside = Motion.turn(hinge.point, self.turn)
        self.below = Motion.move(self.out * by_mm - self.up * self.drop)
        self.lower = Motion.move(-self.up * self.drop)
        self.foot = (
            self._mouth(waist) if waist.mouth else below_the_dart(piece, waist, self.up, by_mm)
        )
        self.centre = centre_edge(piece, self.foot.edge, str(bust.mouth), self.hinge.edge)
        self.level_at = self._level_at()
        #: Edges cut through, each with what is taken out between its two halves.
        self.cuts = {self.centre.key: self._span(*(s.at_mm for s in self.level_at))}
        if waist.double_pointed:
            gone = max(-by_mm, 0.0) / 2
            self.cuts[self.foot.edge.key] = self._span(self.foot.at_mm - gone,
                                                       self.foot.at_mm + gone)  # fmt: skip
        self.order, self.motions = self._ordered(self.beside, self.below, self.lower)
        self.cloth = Cloth(
            self.point, self.up, self.out, self.beside, self.below, self.lower, self._rings(),
            self.hinge.edge.point_at(self.hinge.at_mm),
            None if waist.mouth else (waist.legs[0].end, self.foot.edge.point_at(self.foot.at_mm)),
            tuple(x.edge.point_at(x.at_mm) for x in self.level_at),
            (*bust.legs, *waist.legs), self.drop, by_mm,
        )  # fmt: skip

    @staticmethod
    def _span(one: float, other: float) -> tuple[float, float]:
        return min(one, other), max(one, other)

    def _turned(self) -> tuple[float, float]:
        """How far the part beside the bust turns, and how much it drops the bust point."""
        arm = self.point - self.hinge.edge.point_at(self.hinge.at_mm)
        across, along = dot(arm, self.out), dot(arm, self.up)
        reach = abs(arm)
        if along >= 0 or abs(across + self.by) >= reach:
            raise PatternError(
                f"the hinge on the {self.hinge.edge.name} lies too low for that; it has to lie "
                "above the bust point, and further from it than the amount"
            )
        down = -math.sqrt(reach**2 - (across + self.by) ** 2)
        moved = self.out * (across + self.by) + self.up * down
        return math.atan2(cross(arm, moved), dot(arm, moved)), along - down

    def _level_at(self) -> tuple[Spot, Spot]:
        """Where the centre is cut, above and below what is taken out."""
        leg = self.waist.legs[0]
        depth = leg.length if self.waist.mouth else abs(leg.runs[0][-1] - leg.start)
        through = self.point - self.up * (_LEVELLED_AT * depth)
        gone = max(-self.drop, 0.0)
        return (
            on_the_centre(self.piece, self.centre, through, self.out),
            on_the_centre(self.piece, self.centre, through - self.up * gone, self.out),
        )

    def _ordered(
        self, beside: Motion, below: Motion, lower: Motion
    ) -> tuple[tuple[Spot, ...], tuple[Motion, ...]]:
        """The four places going round from the hinge, and how what follows each moves."""
        places = {
            "hinge": self.hinge,
            "bust": self._mouth(self.bust),
            "waist": self.foot,
            "centre": self.level_at[0],
        }
        start = self._around(self.hinge)
        round_ = sorted(places, key=lambda k: (self._around(places[k]) - start) % 1e6)
        if round_ == ["hinge", "bust", "waist", "centre"]:
            motions = (beside, below, lower, STAY)
        elif round_ == ["hinge", "centre", "waist", "bust"]:
            motions = (STAY, lower, below, beside)
        else:
            raise PatternError(
                f"the {self.bust.name} and the {self.waist.name} of the {self.piece.label} do not "
                "lie between the hinge and the centre"
            )
        return tuple(places[k] for k in round_), motions

    def _mouth(self, dart: Dart) -> Spot:
        assert dart.mouth is not None
        edge = self.piece.edge(dart.mouth, dart.side)
        k = edge.mouths.index(dart.name)
        return Spot(edge, sum(p.length for p in edge.parts[: k + 1]))

    def _around(self, spot: Spot) -> float:
        """A spot's distance round the piece, mouths left out."""
        edges = self.piece.edges[: self.piece.edge_index(spot.edge)]
        return float(sum(e.length for e in edges)) + spot.at_mm

    def _motion_at(self, edge: Edge, at_mm: float) -> Motion:
        """How a place of the outline moves."""
        start = self._around(self.order[0])
        at = (self._around(Spot(edge, at_mm)) - start) % self._whole
        motion = self.motions[0]
        for spot, its in zip(self.order, self.motions, strict=True):
            if (self._around(spot) - start) % self._whole <= at:
                motion = its
        return motion

    @property
    def _whole(self) -> float:
        return float(sum(e.length for e in self.piece.edges))

    # -- drawing -------------------------------------------------------------------------

    def done(self) -> Fuller:
        piece = self.piece
        self.unfaired: dict[tuple[str, BodySide], Edge] = {}
        edges = tuple(self._edge(e) for e in piece.edges)
        pivot = self._pivot()
        darts = tuple(self._dart(d, pivot) for d in piece.darts)
        out = replace(
            piece,
            edges=edges,
            darts=darts,
            marks=tuple(
                replace(
                    m, point=pivot if abs(m.point - self.point) < 1.0 else self.cloth.of(m.point)
                )
                for m in piece.marks
            ),
            grain=None
            if piece.grain is None
            else (self.cloth.of(piece.grain[0]), self.cloth.of(piece.grain[1])),
        )
        rough = replace(out, edges=tuple(self.unfaired.get(e.key, e) for e in out.edges))
        # At the side below the dart, so that the bust line's end stays where it is.
        above = 0.0 if self.motions[-1] == STAY else 1.0
        for dart, share in ((self.bust, above), (self.waist, 0.5)):
            if dart.mouth is None:
                continue
            out = legs_equal(out, *dart.key)
            out = mouth_trued(out, *dart.key, folded_kink_of(piece, *dart.key), share)
        changed = [e.key for e in out.edges if e is not piece.edge(*e.key)]
        out = replace(
            out,
            levels=tuple(
                level_again(self._level(v, pivot), rough, out, changed) for v in piece.levels
            ),
            notches=tuple(self._notch(n, out) for n in piece.notches),
        )
        fates = [f for key in changed for f in self._fates(piece.edge(*key), out.edge(*key))]
        return Fuller(out, tuple(fates), self.drop, self.turn, self.hinge.at_mm,
                      self.centre.key)  # fmt: skip

    def _edge(self, edge: Edge) -> Edge:
        if edge.key == self.hinge.edge.key:
            return self._cut(edge, self.hinge.at_mm, self.hinge.at_mm)
        if edge.key in self.cuts:
            return self._cut(edge, *self.cuts[edge.key])
        parts, before, moved = [], 0.0, False
        for part in edge.parts:
            motion = self._motion_at(edge, before + part.length / 2)
            parts.append(part if motion == STAY else part.moved(motion))
            moved = moved or motion != STAY
            before += part.length
        if not moved:
            return edge
        return replace(edge, parts=tuple(parts), bases=(), displacements=())

    def _cut(self, edge: Edge, low: float, high: float) -> Edge:
        head = section(edge, 0.0, low, edge.start, edge.end)
        tail = section(edge, high, edge.length, edge.start, edge.end)
        if not head.parts or not tail.parts:
            raise PatternError(f"the {edge.name} of the {self.piece.label} is met too near its end")
        one, other = self._motion_at(edge, low / 2), self._motion_at(edge, (high + edge.length) / 2)
        first = [p.moved(one) for p in head.parts]
        last = [p.moved(other) for p in tail.parts]
        # Lines that end near the cut end on this, before it is drawn fair.
        self.unfaired[edge.key] = replace(edge, parts=(*first, *last))
        join = faired(first[-1], last[0]).line
        parts = (*first[:-1], join, *last[1:])
        mouths = (*head.mouths, *tail.mouths)
        return replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())

    def _mouth_moved(self, dart: Dart) -> tuple[Point, Point]:
        """Where the ends of its mouth go; of a double-pointed dart, its two widest places."""
        if dart.mouth is None:
            return self._half(dart.legs[0]).of(dart.legs[0].runs[0][-1]), self._half(
                dart.legs[1]
            ).of(dart.legs[1].runs[0][-1])
        spot = self._mouth(dart)
        one = self._motion_at(spot.edge, spot.at_mm - 0.5)
        other = self._motion_at(spot.edge, spot.at_mm + 0.5)
        return one.of(dart.mouth_start), other.of(dart.mouth_end)

    def _half(self, leg: Curve) -> Motion:
        """How the cloth beside one leg of a double-pointed waist dart moves."""
        one, other = (x.runs[0][-1] for x in self.waist.legs)
        mine = leg.runs[0][-1]
        return self.below if dot(mine - (one + other) / 2, self.out) > 0 else self.lower

    def _pivot(self) -> Point:
        """The one point equally far from the two ends of either mouth."""
        lines = []
        for dart in (self.bust, self.waist):
            a, b = self._mouth_moved(dart)
            was = dart.mouth_end - dart.mouth_start
            if dart.mouth is None:
                was = dart.legs[1].runs[0][-1] - dart.legs[0].runs[0][-1]
            if dot(b - a, was) <= 0 or abs(b - a) < LEAST_MOUTH_MM:
                raise PatternError(
                    f"the {dart.name} of the {self.piece.label} would vanish: it is "
                    f"{dart.intake_mm:.0f} mm wide"
                )
            lines.append(((a + b) / 2, b - a))
        (m, u), (n, v) = lines
        det = cross(u, v)
        # dot(x - m, u) = 0 and dot(x - n, v) = 0
        p, q = dot(m, u), dot(n, v)
        return complex((p * v.imag - q * u.imag) / det, (q * u.real - p * v.real) / det)

    def _dart(self, dart: Dart, pivot: Point) -> Dart:
        if dart.key == self.waist.key and dart.mouth is None:
            a, b = self._mouth_moved(dart)
            low = self.lower.of(dart.legs[0].end) + self.out * (self.by / 2)
            # As far from either leg, should the dart lean.
            square, middle = unit(b - a), (a + b) / 2
            low -= square * dot(low - middle, square)
            return replace(dart, legs=(Curve.line(pivot, a, low), Curve.line(pivot, b, low)))
        if dart.key in (self.bust.key, self.waist.key):
            a, b = self._mouth_moved(dart)
            return replace(dart, legs=(Curve.line(a, pivot), Curve.line(pivot, b)))
        if dart.mouth is None:
            motion = self.cloth.part((dart.legs[0].start + dart.legs[0].end) / 2)
        else:
            spot = self._mouth(dart)
            motion = self._motion_at(spot.edge, spot.at_mm)
        if motion is None or motion == STAY:
            return dart
        return replace(dart, legs=(dart.legs[0].moved(motion), dart.legs[1].moved(motion)))

    # -- what is marked on it ------------------------------------------------------------

    def _rings(self) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
        """The outlines of the part beside the bust and of the part below it."""

        def between(one: Spot, other: Spot) -> list[Curve]:
            out: list[Curve] = []
            edges = self.piece.edges
            i = self.piece.edge_index(one.edge)
            while True:
                edge = edges[i % len(edges)]
                a = one.at_mm if edge.key == one.edge.key else 0.0
                b = other.at_mm if edge.key == other.edge.key else edge.length
                out.extend(section(edge, a, b, "", "").parts)
                if edge.key == other.edge.key:
                    return out
                i += 1

        hinge, bust, waist = self.hinge, self._mouth(self.bust), self.foot
        forward = self.motions[-1] == STAY
        beside = between(hinge, bust) if forward else between(bust, hinge)
        below = between(bust, waist) if forward else between(waist, bust)
        inward: tuple[Point, ...] = (self.point,)
        if self.waist.double_pointed:
            low = self.waist.legs[0].end
            inward = (low, self.point) if forward else (self.point, low)
        return (*outline(beside), self.point), (*outline(below), *inward)

    def _level(self, level: Level, pivot: Point) -> Level:
        if not level.strokes:
            return level
        return replace(level, strokes=self.cloth.strokes(level.strokes, pivot, self.centre))

    def gained(self) -> float:
        """How much longer the line through the bust point is; without one, what was asked."""
        for level in self.piece.levels:
            for stroke in level.strokes:
                if self.cloth.through(stroke):
                    new = self.cloth.strokes((stroke,), self._pivot(), self.centre)
                    return sum(map(length, new)) - length(stroke)
        return self.by

    def _notch(self, notch: Notch, out: Piece) -> Notch:
        key = notch.edge, notch.side
        if key not in self.cuts:
            return notch
        old, new = self.piece.edge(*key), out.edge(*key)
        at = notch_on_edge(old, notch)
        low, high = self.cuts[key]
        on = at if at <= low else new.length - (old.length - at) if at >= high else low
        return replace(notch, distance_mm=on if notch.corner == new.start else new.length - on)

    # -- the trace -----------------------------------------------------------------------

    def _fates(self, old: Edge, new: Edge) -> Sequence[Fate]:
        def stretch(edge: Edge, a: float, b: float) -> Stretch:
            return Stretch(self.piece.name, edge.name, edge.side, a, b)

        if old.key not in self.cuts:
            return [Fate(stretch(old, 0.0, old.length), stretch(new, 0.0, new.length))]
        low, high = self.cuts[old.key]
        there = new.length - (old.length - high)
        first_stays = self._motion_at(old, low / 2) == STAY
        fates = [
            Fate(stretch(old, 0.0, low), stretch(new, 0.0, low), still=first_stays),
            Fate(
                stretch(old, high, old.length),
                stretch(new, there, new.length),
                still=not first_stays,
            ),
        ]
        if high - low > SHORTEST_MM:
            fates.append(Fate(stretch(old, low, high), None))
        if there - low > SHORTEST_MM:
            fates.append(Fate(None, stretch(new, low, there)))
        return fates


__all__ = ["LEAST_MOUTH_MM", "Fuller", "fuller"]
