"""More or less room over the bust: a front slashed through its bust point in three parts.

The front is cut from the waist dart through the bust point to a hinge on the armhole, and from
the bust dart to the bust point. The part beside the bust turns about the hinge until the bust
point has gone out by the amount, square to the centre; the part below it goes along without
turning; and the centre's lower part is let down so that the lower edge is level again. Both
darts are drawn to the one point from which all four legs are equal in pairs.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.alterations.across import up_of
from tracker.alterations.cut_cloth import outline, within
from tracker.alterations.mouth_trued import folded_kink_of, legs_equal, mouth_trued
from tracker.alterations.slash import CutAt
from tracker.drafting.style_section import section
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.fair import faired
from tracker.geometry.point import Point, cross, dot, left_of, unit
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.marks import Level, Notch, Stroke
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
    """

    piece: Piece
    fates: tuple[Fate, ...]
    drop_mm: float
    turn_rad: float


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


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place of the ring where one part ends and the next begins."""

    edge: Edge
    at_mm: float


class _Fuller:
    def __init__(self, piece: Piece, bust: Dart, waist: Dart, hinge: CutAt, by_mm: float) -> None:
        if bust.mouth is None or waist.mouth is None:
            raise PatternError("both darts open from an edge; a double-pointed one does not do")
        if abs(bust.pivot - waist.pivot) > _ONE_PIVOT_MM:
            raise PatternError(
                f"the {bust.name} and the {waist.name} of the {piece.label} end "
                f"{abs(bust.pivot - waist.pivot):.0f} mm apart; draw both to the bust point first"
            )
        if bust.mouth == waist.mouth:
            raise PatternError(f"both darts open from the {bust.mouth}; one has to be at the side")
        self.piece, self.bust, self.waist, self.by = piece, bust, waist, by_mm
        self.point = bust.pivot
        self.hinge = _Spot(hinge.edge, hinge.at_mm)
        self.up = up_of(piece)
        out = left_of(self.up)
        self.out = out if dot(bust.mouth_start - self.point, out) > 0 else -out
        self.turn, self.drop = self._turned()
        beside = Motion.turn(hinge.point, self.turn)
        below = Motion.move(self.out * by_mm - self.up * self.drop)
        lower = Motion.move(-self.up * self.drop)
        self.centre = self._centre()
        self.level_at = self._level_at()
        self.order, self.motions = self._ordered(beside, below, lower)
        self.beside, self.below, self.lower = beside, below, lower
        self.rings = self._rings()

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

    def _centre(self) -> Edge:
        """The edge at the centre: the lower edge's other neighbour."""
        assert self.waist.mouth is not None
        low = self.piece.edge(self.waist.mouth, self.waist.side)
        ends = self.piece.before(low), self.piece.after(low)
        other = [e for e in ends if e.name != self.bust.mouth]
        if len(other) != 1 or self.hinge.edge.key in (low.key, other[0].key):
            raise PatternError(
                f"the {low.name} of the {self.piece.label} does not run from the side to the "
                "centre, so it is not clear where the lower edge is to be levelled"
            )
        return other[0]

    def _level_at(self) -> tuple[_Spot, _Spot]:
        """Where the centre is cut, above and below what is taken out."""
        through = self.point - self.up * (_LEVELLED_AT * self.waist.leg_lengths[0])
        spots = []
        for height in (through, through - self.up * max(-self.drop, 0.0)):
            before, found = 0.0, []
            for part in self.centre.parts:
                found += [before + c.first_mm for c in with_line(part, height, self.out)]
                before += part.length
            if len(found) != 1 or not 3.0 < found[0] < self.centre.length - 3.0:
                raise PatternError(
                    f"the {self.centre.name} of the {self.piece.label} has no room to be "
                    "lengthened or shortened below the bust point"
                )
            spots.append(_Spot(self.centre, found[0]))
        return spots[0], spots[1]

    def _ordered(
        self, beside: Motion, below: Motion, lower: Motion
    ) -> tuple[tuple[_Spot, ...], tuple[Motion, ...]]:
        """The four places going round from the hinge, and how what follows each moves."""
        places = {
            "hinge": self.hinge,
            "bust": self._mouth(self.bust),
            "waist": self._mouth(self.waist),
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

    def _mouth(self, dart: Dart) -> _Spot:
        assert dart.mouth is not None
        edge = self.piece.edge(dart.mouth, dart.side)
        k = edge.mouths.index(dart.name)
        return _Spot(edge, sum(p.length for p in edge.parts[: k + 1]))

    def _around(self, spot: _Spot) -> float:
        """A spot's distance round the piece, mouths left out."""
        edges = self.piece.edges[: self.piece.edge_index(spot.edge)]
        return float(sum(e.length for e in edges)) + spot.at_mm

    def _motion_at(self, edge: Edge, at_mm: float) -> Motion:
        """How a place of the outline moves."""
        start = self._around(self.order[0])
        at = (self._around(_Spot(edge, at_mm)) - start) % self._whole
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
        edges = tuple(self._edge(e) for e in piece.edges)
        pivot = self._pivot()
        darts = tuple(self._dart(d, pivot) for d in piece.darts)
        out = replace(
            piece,
            edges=edges,
            darts=darts,
            marks=tuple(
                replace(m, point=pivot if abs(m.point - self.point) < 1.0 else self._of(m.point))
                for m in piece.marks
            ),
            grain=None
            if piece.grain is None
            else (self._of(piece.grain[0]), self._of(piece.grain[1])),
        )
        rough = out
        # At the side below the dart, so that the bust line's end stays where it is.
        above = 0.0 if self.motions[-1] == STAY else 1.0
        for dart, share in ((self.bust, above), (self.waist, 0.5)):
            out = legs_equal(out, *dart.key)
            out = mouth_trued(out, *dart.key, folded_kink_of(piece, *dart.key), share)
        changed = [e.key for e in out.edges if e is not piece.edge(*e.key)]
        out = replace(
            out,
            levels=tuple(level_again(self._level(v), rough, out, changed) for v in piece.levels),
            notches=tuple(self._notch(n, out) for n in piece.notches),
        )
        fates = [f for key in changed for f in self._fates(piece.edge(*key), out.edge(*key))]
        return Fuller(out, tuple(fates), self.drop, self.turn)

    def _edge(self, edge: Edge) -> Edge:
        if edge.key == self.hinge.edge.key:
            return self._cut(edge, self.hinge.at_mm, self.hinge.at_mm)
        if edge.key == self.centre.key:
            low, high = sorted(s.at_mm for s in self.level_at)
            return self._cut(edge, low, high)
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
        join = faired(first[-1], last[0]).line
        parts = (*first[:-1], join, *last[1:])
        mouths = (*head.mouths, *tail.mouths)
        return replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())

    def _mouth_moved(self, dart: Dart) -> tuple[Point, Point]:
        spot = self._mouth(dart)
        one = self._motion_at(spot.edge, spot.at_mm - 0.5)
        other = self._motion_at(spot.edge, spot.at_mm + 0.5)
        return one.of(dart.mouth_start), other.of(dart.mouth_end)

    def _pivot(self) -> Point:
        """The one point equally far from the two ends of either mouth."""
        lines = []
        for dart in (self.bust, self.waist):
            a, b = self._mouth_moved(dart)
            if dot(b - a, dart.mouth_end - dart.mouth_start) <= 0 or abs(b - a) < LEAST_MOUTH_MM:
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
        if dart.key in (self.bust.key, self.waist.key):
            a, b = self._mouth_moved(dart)
            return replace(dart, legs=(Curve.line(a, pivot), Curve.line(pivot, b)))
        if dart.mouth is None:
            motion = self._part((dart.legs[0].start + dart.legs[0].end) / 2)
        else:
            spot = self._mouth(dart)
            motion = self._motion_at(spot.edge, spot.at_mm)
        if motion is None or motion == STAY:
            return dart
        return replace(dart, legs=(dart.legs[0].moved(motion), dart.legs[1].moved(motion)))

    # -- what is marked on it ------------------------------------------------------------

    def _rings(self) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
        """The outlines of the part beside the bust and of the part below it."""

        def between(one: _Spot, other: _Spot) -> list[Curve]:
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

        hinge, bust, waist = self.hinge, self._mouth(self.bust), self._mouth(self.waist)
        forward = self.motions[-1] == STAY
        beside = between(hinge, bust) if forward else between(bust, hinge)
        below = between(bust, waist) if forward else between(waist, bust)
        return (*outline(beside), self.point), (*outline(below), self.point)

    def _part(self, spot: Point) -> Motion | None:
        """How a spot inside moves; nothing where it is taken out."""
        if within(self.rings[0], spot):
            return self.beside
        if within(self.rings[1], spot):
            return self.below
        high, low = (s.edge.point_at(s.at_mm) for s in self.level_at)
        if dot(spot - low, self.up) < 0:
            return self.lower
        return STAY if dot(spot - high, self.up) >= 0 else None

    def _of(self, spot: Point) -> Point:
        motion = self._part(spot)
        if motion is None:
            high = self.level_at[0].edge.point_at(self.level_at[0].at_mm)
            return spot + self.up * dot(high - spot, self.up)
        return motion.of(spot)

    def _level(self, level: Level) -> Level:
        if not level.strokes:
            return level
        strokes: list[Stroke] = []
        for stroke in level.strokes:
            strokes.extend(self._stroke(stroke))
        return replace(level, strokes=tuple(strokes))

    def gained(self) -> float:
        """How much longer the line through the bust point is; without one, what was asked."""
        found = [s for v in self.piece.levels for s in v.strokes if self._at_point(s) is not None]
        if not found:
            return self.by
        return _length(self._through(found[0])) - _length(found[0])

    def _at_point(self, stroke: Stroke) -> int | None:
        """Which stretch of a line the bust point lies on."""
        for k, (a, b) in enumerate(itertools.pairwise(stroke)):
            if Curve.line(a, b).nearest(self.point)[1] < 1.0:
                return k
        return None

    def _through(self, stroke: Stroke) -> Stroke:
        """The line through the bust point: square from the centre to it, then with the side."""
        k = self._at_point(stroke)
        assert k is not None
        one, other = stroke[: k + 1], stroke[k + 1 :]
        far = self.centre.nearest(stroke[0])[1] > self.centre.nearest(stroke[-1])[1]
        outer = [z for z in (one[::-1] if far else other) if abs(z - self.point) > 1.0]
        pivot = self._pivot()
        start = stroke[-1] if far else stroke[0]
        centre = start + self.up * dot(pivot - start, self.up)
        moved, before = [], self.point
        for z in outer:
            # By the middle of the stretch: its ends may lie on the outline.
            motion = self._part((before + z) / 2) or STAY
            moved.append(motion.of(z))
            before = z
        line = (centre, pivot, *moved)
        return line[::-1] if far else line

    def _stroke(self, stroke: Stroke) -> list[Stroke]:
        if self._at_point(stroke) is not None:
            return [self._through(stroke)]
        out: list[list[Point]] = []
        last: Motion | None = None
        for a, b in self._bits(stroke):
            motion = self._part((a + b) / 2)
            if motion is None:
                pass
            elif motion == last:
                out[-1].append(motion.of(b))
            elif {last, motion} == {STAY, self.lower} and self.drop > 0:
                out[-1].extend((motion.of(a), motion.of(b)))
            elif {last, motion} == {STAY, self.beside}:
                # Broken at the slash; what is put in there is drawn on the staying side.
                gap = dot(self.beside.of(a) - a, self.out)
                if last == STAY:
                    out[-1] = _longer(out[-1], gap)
                    out.append([motion.of(a), motion.of(b)])
                else:
                    out.append(_longer([b, a], gap)[::-1])
            else:
                out.append([motion.of(a), motion.of(b)])
            last = motion
        return [tuple(line) for line in out if abs(line[0] - line[-1]) > 1e-6]

    def _bits(self, stroke: Stroke) -> list[tuple[Point, Point]]:
        slash = Curve.line(self.hinge.edge.point_at(self.hinge.at_mm), self.point)
        levels = [
            Curve.line(p - self.out * 1000, p + self.out * 1000)
            for p in (s.edge.point_at(s.at_mm) for s in self.level_at)
        ]
        bits = []
        for a, b in itertools.pairwise(stroke):
            size = abs(b - a)
            stops = {0.0, size}
            for line in (slash, *levels, *self.bust.legs, *self.waist.legs):
                stops |= {c.first_mm for c in of_curves(Curve.line(a, b), line)}
            for low, high in itertools.pairwise(sorted(stops)):
                if high - low > 1e-6:
                    bits.append((a + (b - a) * (low / size), a + (b - a) * (high / size)))
        return bits

    def _notch(self, notch: Notch, out: Piece) -> Notch:
        if (notch.edge, notch.side) != self.centre.key:
            return notch
        old, new = self.centre, out.edge(*self.centre.key)
        at = notch_on_edge(old, notch)
        low, high = sorted(s.at_mm for s in self.level_at)
        on = at if at <= low else new.length - (old.length - at) if at >= high else low
        return replace(notch, distance_mm=on if notch.corner == new.start else new.length - on)

    # -- the trace -----------------------------------------------------------------------

    def _fates(self, old: Edge, new: Edge) -> Sequence[Fate]:
        def stretch(edge: Edge, a: float, b: float) -> Stretch:
            return Stretch(self.piece.name, edge.name, edge.side, a, b)

        if old.key != self.centre.key:
            return [Fate(stretch(old, 0.0, old.length), stretch(new, 0.0, new.length))]
        low, high = sorted(s.at_mm for s in self.level_at)
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


def _length(stroke: Stroke) -> float:
    return sum(abs(b - a) for a, b in itertools.pairwise(stroke))


def _longer(line: list[Point], by: float) -> list[Point]:
    """A line with its last end run on, or cut back."""
    heading = unit(line[-1] - line[-2])
    room = abs(line[-1] - line[-2])
    return [*line[:-1], line[-1] + heading * max(by, -room)]


__all__ = ["LEAST_MOUTH_MM", "Fuller", "fuller"]
