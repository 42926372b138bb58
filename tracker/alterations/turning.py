"""Turning about a dart's pivot: the outline between two mouths turns, one closes, one opens.

The cloth between the old mouth and the new one is a rigid part of a cone unrolled about the
pivot: what one mouth loses in angle the other gains, and no edge changes its length.
"""

import math
from dataclasses import dataclass, field, replace

from tracker.drafting.style_region import MEET_MM, Region, region_of, strokes_by_region
from tracker.geometry.area import signed_area
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.fair import faired
from tracker.geometry.point import SAME_MM, Point, cross, turn_between, turned
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch, Trace
from tracker.pattern.walk import notch_on_edge

Key = tuple[str, BodySide]

#: A mouth keeps this far from the ends of its edge and from other mouths.
FROM_END_MM = 3.0
#: Darts whose pivots lie this near each other have one pivot.
ONE_PIVOT_MM = 1e-4


@dataclass(frozen=True)
class Swung:
    """A piece after a motion, and what became of its edges."""

    piece: Piece
    trace: Trace = field(default_factory=Trace)


def opened_at(piece: Piece, edge: Edge, at_mm: float, pivot: Point, dart: Dart) -> Piece:
    """Return a piece cut from a place of an edge to a pivot: a dart with no width yet.

    Args:
        piece: the piece.
        edge: the edge the dart is to open from.
        at_mm: where, from the edge's start as sewn.
        pivot: the pivot.
        dart: name, side and the rest; its legs are replaced.

    Raises:
        PatternError: the place lies too near an end, or the pivot cannot be seen from it.
    """
    refuse_near_end(piece, edge, at_mm)
    index, rest = edge.locate(at_mm)
    before, after = edge.drawn[index].split(rest)
    spot = before.end
    line = Curve.line(spot, pivot)
    hidden = cross(before.end_heading, pivot - spot) <= 0 or any(
        0.01 < c.first_mm < line.length - 0.01
        for curve in piece.ring
        for c in of_curves(line, curve)
    )
    if hidden:
        raise PatternError(
            f"a straight cut from there on the {edge.name} to the pivot would leave the "
            f"{piece.label}; choose a place that sees the pivot straight across the cloth"
        )
    parts = (*edge.parts[:index], before, after.started_at(spot), *edge.parts[index + 1 :])
    mouths = (*edge.mouths[:index], dart.name, *edge.mouths[index:])
    fresh = replace(dart, legs=(line, line.reversed), mouth=edge.name)
    new = replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())
    return replace(piece.with_edge(new), darts=(*piece.darts, fresh))


def wedge_out(
    piece: Piece, edge: Edge, at_mm: float, by_mm: float, pivot: Point, name: str
) -> Swung:
    """Cut a wedge out of a piece: from an edge, where it is so wide, to nothing at a pivot.

    It stands as a dart of the given name, ready to be closed.

    Raises:
        PatternError: it does not fit on the edge, or the pivot cannot be seen from it.
    """
    index, _ = edge.locate(at_mm)
    part = edge.drawn[index]
    start = sum(p.length for p in edge.parts[:index])
    spot = edge.point_at(at_mm)
    half = by_mm / 2 / abs(spot - pivot)
    if half >= 0.5:
        raise PatternError("the gap is wider than its distance from the pivot")
    found = []
    for turn in (-math.asin(half), math.asin(half)):
        ray = turned(spot, pivot, turn) - pivot
        hits = [c.first_mm for c in with_line(part, pivot, ray) if c.second_mm > 0]
        hits = [h for h in hits if abs(start + h - at_mm) < 2 * by_mm]
        if not hits:
            raise PatternError(
                f"a wedge of {by_mm:.0f} mm does not fit on the {edge.name} of the {piece.label} "
                "there; lay it further from its end, or make it narrower"
            )
        found.append(min(hits, key=lambda h: abs(start + h - at_mm)))
    low, high = sorted(found)
    for at in (low, high):
        refuse_near_end(piece, edge, start + at)
    bare = Dart(name, edge.side, (Curve.line(0j, 0j), Curve.line(0j, 0j)), 0.0, "", edge.name)
    opened_at(piece, edge, at_mm, pivot, bare)  # only to hear whether the pivot is seen
    before, after = part.part(0.0, low), part.part(high, part.length)
    parts = (*edge.parts[:index], before, after, *edge.parts[index + 1 :])
    mouths = (*edge.mouths[:index], name, *edge.mouths[index:])
    new = replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())
    dart = replace(bare, legs=(Curve.line(before.end, pivot), Curve.line(pivot, after.start)))
    done = replace(piece.with_edge(new), darts=(*piece.darts, dart))
    low, high = start + low, start + high
    done = replace(
        done,
        notches=tuple(notch_kept(n, edge, new, low, high) for n in piece.notches),
    )

    def stretch(of: Edge, a: float, b: float) -> Stretch:
        return Stretch(piece.name, of.name, of.side, a, b)

    fates = (
        Fate(stretch(edge, 0.0, low), stretch(new, 0.0, low), still=True),
        Fate(stretch(edge, low, high), None),
        Fate(stretch(edge, high, edge.length), stretch(new, low, new.length), still=True),
    )
    return Swung(done, Trace(fates))


def swung(piece: Piece, closing: Key, opening: Key, angle_rad: float) -> Swung:
    """Close one dart by an angle and open another, of the same pivot, by the same.

    What holds the fold stays, or else what holds the grain line; the other part turns, and
    with it whatever is drawn on it.

    Args:
        piece: the piece.
        closing: the dart that loses angle.
        opening: the dart that gains it.
        angle_rad: by how much, positive.

    Raises:
        PatternError: both parts hold a piece of the fold.
    """
    return _Swing(piece, piece.dart(*closing), piece.dart(*opening), angle_rad).done()


class _Swing:
    def __init__(self, piece: Piece, closing: Dart, opening: Dart, angle: float) -> None:
        self.piece, self.closing, self.opening = piece, closing, opening
        self.pivot = closing.pivot
        self.flat = [(i, k) for i, e in enumerate(piece.edges) for k in range(len(e.drawn))]
        one, two = self._mouth(closing), self._mouth(opening)
        n = len(self.flat)
        # Going round from the closing mouth to the opening one.
        self.ahead = {self.flat[(one + 1 + s) % n] for s in range((two - one - 1) % n + 1)}
        self.regions = self._regions(one, two)
        if self._ahead_stays():
            self.motions = (STAY, Motion.turn(self.pivot, angle))
        else:
            self.motions = (Motion.turn(self.pivot, -angle), STAY)

    def done(self) -> Swung:
        piece, fates = self.piece, []
        edges = []
        for i, edge in enumerate(piece.edges):
            moves = [self._motion(i, k) for k in range(len(edge.parts))]
            if all(m is STAY for m in moves):
                edges.append(edge)
                continue
            fresh = replace(
                edge, parts=tuple(p.moved(m) for p, m in zip(edge.parts, moves, strict=True))
            )
            if len(set(moves)) == 1:
                fresh = replace(fresh, bases=tuple(b.moved(moves[0]) for b in edge.bases))
            else:
                fresh = fresh.rebased()
            edges.append(fresh)
            at = 0.0
            for part, move in zip(edge.parts, moves, strict=True):
                here = Stretch(piece.name, edge.name, edge.side, at, at + part.length)
                fates.append(Fate(here, here, still=move is STAY))
                at += part.length
        new = replace(
            piece,
            edges=tuple(edges),
            darts=tuple(self._dart(d) for d in piece.darts),
            levels=tuple(self._level(v) for v in piece.levels),
            marks=tuple(
                m
                if abs(m.point - self.pivot) <= MEET_MM
                else replace(m, point=self.motions[region_of(m.point, self.regions)].of(m.point))
                for m in piece.marks
            ),
        )
        return Swung(new, Trace(tuple(fates)))

    def _mouth(self, dart: Dart) -> int:
        """The place in the outline of the part before a dart's mouth."""
        edge = self.piece.edge(str(dart.mouth), dart.side)
        return self.flat.index((self.piece.edge_index(edge), edge.mouths.index(dart.name)))

    def _motion(self, i: int, k: int) -> Motion:
        return self.motions[0 if (i, k) in self.ahead else 1]

    def _regions(self, one: int, two: int) -> tuple[Region, Region]:
        def run(first: int, last: int, begins: Curve, ends: Curve) -> Region:
            n, out = len(self.flat), [begins]
            count = (last - first) % n + 1
            for step in range(count):
                i, k = self.flat[(first + step) % n]
                edge = self.piece.edges[i]
                out.append(edge.parts[k])
                if step < count - 1 and k < len(edge.mouths):
                    out.extend(self.piece.dart(edge.mouths[k], edge.side).legs)
            return Region((*out, ends))

        a, b = self.closing.legs, self.opening.legs
        return run(one + 1, two, a[1], b[0]), run(two + 1, one, b[1], a[0])

    def _ahead_stays(self) -> bool:
        piece = self.piece
        if piece.fold is not None:
            i = piece.edge_index(piece.edge(piece.fold))
            on = {(i, k) in self.ahead for k in range(len(piece.edges[i].parts))}
            if len(on) > 1:
                raise PatternError(
                    f"the {piece.fold} of the {piece.label} lies on the fold and stays straight; "
                    "a dart cannot be turned into it"
                )
            return on == {True}
        if piece.grain is not None:
            return region_of((piece.grain[0] + piece.grain[1]) / 2, self.regions) == 0
        one, two = (abs(signed_area(r.ring)) for r in self.regions)
        return one >= two

    def _dart(self, dart: Dart) -> Dart:
        one, two = dart.legs
        if dart.double_pointed:
            where = {
                region_of(leg.point_at(leg.length * s), self.regions)
                for leg in dart.legs
                for s in (0.02, 0.25, 0.5, 0.75, 0.98)
            }
            if len(where) > 1:
                raise PatternError(
                    f"the new mouth would be cut through the {dart.name} of the "
                    f"{self.piece.label}; choose another place"
                )
            move = self.motions[where.pop()]
            return dart if move is STAY else replace(dart, legs=(one.moved(move), two.moved(move)))
        n, before = len(self.flat), self._mouth(dart)
        moves = (self._motion(*self.flat[before]), self._motion(*self.flat[(before + 1) % n]))
        if moves == (STAY, STAY):
            return dart
        one, two = one.moved(moves[0]), two.moved(moves[1])
        if abs(dart.pivot - self.pivot) <= ONE_PIVOT_MM:
            one, two = one.ended_at(self.pivot), two.started_at(self.pivot)
        return replace(dart, legs=(one, two))

    def _level(self, level: Level) -> Level:
        if not level.strokes:
            return level
        cuts = (*self.closing.legs, *self.opening.legs)
        parted = strokes_by_region(level.strokes, cuts, self.regions)
        if all(m is STAY for m, some in zip(self.motions, parted, strict=True) if some):
            return level
        moved = [
            tuple(m.of(p) for p in s)
            for m, some in zip(self.motions, parted, strict=True)
            for s in some
        ]
        return replace(level, strokes=chained(moved))


def chained(strokes: list[Stroke]) -> tuple[Stroke, ...]:
    """Join strokes of a material line that meet end to end, in whatever order they come."""
    waiting, out = list(strokes), []
    while waiting:
        run = waiting.pop(0)
        k = 0
        while k < len(waiting):
            other = waiting[k]
            if abs(run[-1] - other[0]) <= MEET_MM:
                run = (*run, *other[1:])
            elif abs(other[-1] - run[0]) <= MEET_MM:
                run = (*other, *run[1:])
            else:
                k += 1
                continue
            waiting.pop(k)
            k = 0
        out.append(run)
    return tuple(out)


def closed_up(piece: Piece, key: Key) -> Swung:
    """Return a piece without a dart whose legs lie on each other, its edge one fair line."""
    dart = piece.dart(*key)
    edge = piece.edge(str(dart.mouth), dart.side)
    k = edge.mouths.index(dart.name)
    one, two = edge.parts[k], edge.parts[k + 1]
    if abs(one.end - two.start) <= MEET_MM:
        middle = (one.end + two.start) / 2
        if abs(one.end - two.start) > SAME_MM:
            one = one.ended_at(middle)
        two = two.started_at(one.end)
    join = faired(one, two)
    parts = (*edge.parts[:k], join.line, *edge.parts[k + 2 :])
    mouths = (*edge.mouths[:k], *edge.mouths[k + 1 :])
    new = replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())
    low = sum(p.length for p in edge.parts[: k + 1])
    done = replace(
        piece.with_edge(new),
        darts=tuple(d for d in piece.darts if d.key != dart.key),
        notches=tuple(notch_kept(n, edge, new, low, low) for n in piece.notches),
    )
    # Drawn fair, the edge is not quite where it was.
    done = replace(
        done, levels=tuple(level_again(v, piece, done, [edge.key]) for v in piece.levels)
    )
    here, rest = low - join.back_mm, edge.length - low - join.on_mm
    if join.back_mm + join.on_mm < SHORTEST_MM and abs(new.length - edge.length) < SHORTEST_MM:
        return Swung(done)

    def fate(a: float, b: float, c: float, d: float, still: bool) -> Fate:
        old = Stretch(piece.name, edge.name, edge.side, a, b)
        return Fate(old, Stretch(piece.name, edge.name, edge.side, c, d), still=still)

    fates = [
        fate(0.0, here, 0.0, here, True),
        fate(here, edge.length - rest, here, new.length - rest, False),
        fate(edge.length - rest, edge.length, new.length - rest, new.length, True),
    ]
    return Swung(done, Trace(tuple(f for f in fates if f.old and f.old.length_mm > SHORTEST_MM)))


def notch_kept(notch: Notch, old: Edge, new: Edge, low: float, high: float) -> Notch:
    """Keep a notch on its cloth where a stretch of its edge was taken out or put in."""
    if (notch.edge, notch.side) != old.key:
        return notch
    at = notch_on_edge(old, notch)
    at = min(at, low) if at < high or at <= low else new.length - (old.length - at)
    at = min(max(at, 0.0), new.length)
    return replace(notch, distance_mm=at if notch.corner == new.start else new.length - at)


def refuse_near_end(piece: Piece, edge: Edge, at_mm: float) -> None:
    """Refuse a place too near the end of an edge or one of its mouths.

    Raises:
        PatternError: it is; the sentence says how far it has to be.
    """
    ends, before = [0.0], 0.0
    for part in edge.drawn:
        before += part.length
        ends.append(before)
    if min(abs(at_mm - end) for end in ends) < FROM_END_MM:
        raise PatternError(
            f"a mouth there would lie too near the end of the {edge.name} of the {piece.label}, "
            f"or another dart; move it at least {FROM_END_MM:.0f} mm along"
        )


def angle_of(dart: Dart) -> float:
    """Return the angle a dart's mouth takes at its pivot, radians, in the turning sense."""
    return turn_between(dart.mouth_start - dart.pivot, dart.mouth_end - dart.pivot)


__all__ = [
    "FROM_END_MM", "ONE_PIVOT_MM", "Swung", "angle_of", "chained", "closed_up", "notch_kept",
    "opened_at", "refuse_near_end", "swung", "wedge_out",
]  # fmt: skip
