"""How far a step moved a line, at a place of it: the line as it was against the line as it is."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tracker.alterations.bodyside import split_sides
from tracker.alterations.still import STILL_MM
from tracker.alterations.told import mm
from tracker.geometry.point import Point, dot, left_of
from tracker.history.step import Taken
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch, Trace

EdgeKey = tuple[str, str, BodySide]
#: An edge and which end of it: False its start, True its end.
EdgeEnd = tuple[EdgeKey, bool]
#: Stretches nearer than this are beside each other.
_NEAR_MM = 10 * SHORTEST_MM
#: A line is looked at so many times along a stretch.
_LOOKS = 16
_HALVES = (BodySide.RIGHT, BodySide.LEFT)


@dataclass(frozen=True, slots=True)
class Shift:
    """What a step did to a line at one place.

    Attributes:
        edge: the edge as it was called after the step: "side of the front".
        where: the place on it: "at the side waist", "at 40 mm from the underarm point".
        in_mm: how far the line went square to itself, into the piece; negative is outwards.
        carried_mm: how far the spot itself went, along with its cloth.
        new: the line was drawn there by this step.
        ends: it did not move, but an end of it was cut back or run on.
        ends_mm: by how much it was run on; negative is cut back.
        let_in_mm: it did not move, but so much was put into it; negative is taken out, as by a
            dart.
    """

    edge: str
    where: str
    in_mm: float = 0.0
    carried_mm: float = 0.0
    new: bool = False
    ends: bool = False
    ends_mm: float = 0.0
    let_in_mm: float = 0.0

    @property
    def still(self) -> bool:
        """Tell whether nothing moved there."""
        return not self.new and abs(self.in_mm) < STILL_MM and self.carried_mm < STILL_MM

    @property
    def words(self) -> str:
        """Say it: "side of the front 5 mm in at the side waist"."""
        return f"{self.said} {self.where}".rstrip()

    @property
    def said(self) -> str:
        """Say it without the place: "side of the front 5 mm in"."""
        if self.new:
            return f"{self.edge} drawn new"
        if abs(self.in_mm) >= STILL_MM:
            return f"{self.edge} {_mm(self.in_mm)} {'in' if self.in_mm > 0 else 'out'}"
        if self.carried_mm >= STILL_MM:
            return f"{self.edge} carried {_mm(self.carried_mm)} along"
        if self.ends:
            way = "run on" if self.ends_mm > 0 else "cut back"
            return f"{self.edge} {way} {_mm(self.ends_mm)}"
        if self.let_in_mm:
            way = "let in" if self.let_in_mm > 0 else "taken out"
            return f"{self.edge} {_mm(self.let_in_mm)} {way}"
        return f"{self.edge} moved"


@dataclass(frozen=True)
class Between:
    """A step with the pattern before and after it, held against each other.

    Attributes:
        trace: what became of the material.
        before: the pattern before, pieces split as they are after; none if it is not known.
        after: the pattern after.
    """

    trace: Trace
    before: Pattern | None
    after: Pattern | None

    @classmethod
    def of(cls, taken: Taken, before: Pattern | None, after: Pattern | None) -> "Between":
        """Return a step between two patterns; halves that were parted are held each alone."""
        halved = {
            f.old.piece
            for f in taken.trace.fates
            if f.old and f.new and f.old.side is BodySide.BOTH and f.new.side in _HALVES
        }
        if before is not None and halved:
            before = split_sides(before, halved).pattern
        return cls(taken.trace, before, after)

    def came_from(self, line: Stretch) -> tuple[tuple[Fate | None, Stretch], ...]:
        """Return the fates a stretch is made of, each with its part of the stretch.

        The fate is none where the step did not touch the edge.
        """
        fates = self.trace.into(*line.key)
        if not fates:
            return ((None, line),)
        if line.length_mm <= SHORTEST_MM:
            return (_at(fates, line),)
        found = []
        for fate in fates:
            assert fate.new is not None
            start = max(line.start_mm, fate.new.start_mm)
            end = min(line.end_mm, fate.new.end_mm)
            if end - start > SHORTEST_MM:
                found.append((fate, Stretch(*line.key, start, end)))
        return tuple(found)

    def shift(self, fate: Fate | None, line: Stretch) -> Shift:
        """Return the furthest a fate moved its part of a line."""
        edge = _edge(self.after, line.key)
        name = f"{line.edge} of the {_whose(line)}{line.piece}"
        if fate is None:
            return Shift(name, "")
        if edge is None or not edge.parts:
            return Shift(name, "", new=fate.old is None)
        if fate.old is None:
            spot = line.length_mm <= SHORTEST_MM
            return Shift(name, _where(edge, line.start_mm) if spot else "", new=True)
        was = self._edge_before(fate)
        if was is None:
            return Shift(name, "")
        looks = (_looked(was, edge, fate, s) for s in _spots(line))
        in_mm, carried, at = max(looks, key=lambda x: (round(abs(x[0]), 2), round(x[1], 2)))
        return Shift(name, _where(edge, at), round(in_mm, 3) + 0.0, round(carried, 3) + 0.0)

    def speaks_of(self, taken: Taken, line: Stretch) -> bool:
        """Tell whether a step says in words that it changes an edge that has no outline."""
        pattern = self.after or self.before
        edge = _edge(pattern, line.key)
        if pattern is None or edge is None or edge.parts or taken.trace.fates:
            return False
        said = taken.step.parameters
        sewn = {
            (r.piece, r.edge, r.side)
            for s in pattern.seams
            if s.name == said.get("seam")
            for r in (*s.first, *s.second)
        }
        return line.key in sewn or (said.get("piece"), said.get("edge")) == line.key[:2]

    def parted(self, fate: Fate, line: Stretch) -> Shift | None:
        """Return what a step took out of a line beside a part of it, or put in; else nothing."""
        old, new, edge = fate.old, fate.new, _edge(self.after, line.key)
        if old is None or new is None or edge is None:
            return None
        by_mm = dict[bool, float]()
        for one in (f.old for f in self.trace.of(*old.key) if f.old and f.new is None):
            for side in _beside(one, old):
                by_mm[side != fate.turned] = -one.length_mm
        for one in (f.new for f in self.trace.into(*new.key) if f.new and f.old is None):
            for side in _beside(one, new):
                by_mm[side] = by_mm.get(side, 0.0) + one.length_mm
        reached = {
            False: line.start_mm <= new.start_mm + _NEAR_MM,
            True: line.end_mm >= new.end_mm - _NEAR_MM,
        }
        found = [side for side in by_mm if reached[side]]
        if not found:
            return None
        side = max(found, key=lambda side: abs(by_mm[side]))
        name = f"{line.edge} of the {_whose(line)}{line.piece}"
        where = _where(edge, new.end_mm if side else new.start_mm)
        return Shift(name, where, let_in_mm=round(by_mm[side], 3) + 0.0)

    def end_before(self, end: EdgeEnd) -> tuple[float, EdgeEnd | None]:
        """Follow an end of an edge back through the step.

        Returns:
            How far the edge was run on there, millimetres (negative is cut back), and the end it
            was before; none where it was no end of an edge, or the edge is new.
        """
        key, at_end = end
        fates = self.trace.into(*key)
        if not fates:
            return 0.0, end
        by_mm = 0.0
        for fate in reversed(fates) if at_end else fates:
            old, new = fate.old, fate.new
            assert new is not None
            if old is None:
                by_mm += new.length_mm
                continue
            was_end = at_end != fate.turned
            reached = old.end_mm if was_end else old.start_mm
            gone = self._beyond(old.key, key, was_end, reached)
            # What went on beyond it into another piece was parted from it here.
            return (0.0, None) if gone is None else (by_mm - gone, (old.key, was_end))
        return 0.0, None

    def _beyond(self, old: EdgeKey, new: EdgeKey, at_end: bool, reached: float) -> float | None:
        """What was cut away of an old edge from a spot to its end; none where some is kept."""
        cut = 0.0
        fates = self.trace.of(*old)
        for fate in fates if at_end else reversed(fates):
            one = fate.old
            assert one is not None
            if fate.new and {fate.new.side, new[2]} == set(_HALVES):
                continue  # the other half's
            past = one.end_mm - reached if at_end else reached - one.start_mm
            if past <= _NEAR_MM:
                continue
            if fate.new:
                return None
            # Of two halves that were cut, the one is told that lies beside what is left.
            if abs(past - one.length_mm) <= _NEAR_MM:
                cut += one.length_mm
                reached = one.end_mm if at_end else one.start_mm
        return cut

    def ended(self, end: EdgeEnd, by_mm: float) -> Shift:
        """Return what a step did to an end of an edge."""
        (piece, name, side), at_end = end
        edge = _edge(self.after, end[0])
        where = f"at the {edge.end if at_end else edge.start}" if edge else ""
        whose = _whose(Stretch(piece, name, side, 0.0, 0.0))
        return Shift(
            f"{name} of the {whose}{piece}", where, ends=True, ends_mm=round(by_mm, 3) + 0.0
        )

    def _edge_before(self, fate: Fate) -> Edge | None:
        assert fate.old is not None
        assert fate.new is not None
        edge = _edge(self.before, fate.old.key)
        return edge or _edge(self.before, (fate.old.piece, fate.old.edge, fate.new.side))


def back(fate: Fate, line: Stretch) -> Stretch | None:
    """Return where a part of a line was before; nothing where it is new."""
    old, new = fate.old, fate.new
    if old is None or new is None:
        return None
    a, b = (min(max(_share(new, x), 0.0), 1.0) for x in (line.start_mm, line.end_mm))
    return old.between(1 - b, 1 - a) if fate.turned else old.between(a, b)


def ends_reached(lines: Iterable[Stretch], pattern: Pattern) -> tuple[EdgeEnd, ...]:
    """Return the ends of edges that some stretches or spots reach to."""
    found: list[EdgeEnd] = []
    for line in lines:
        edge = _edge(pattern, line.key)
        if edge is None or not edge.parts:
            continue
        if line.start_mm <= _NEAR_MM:
            found.append((line.key, False))
        if line.end_mm >= edge.length - _NEAR_MM:
            found.append((line.key, True))
    return tuple(found)


def merged(lines: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """Put stretches of one edge that touch together."""
    out: list[Stretch] = []
    for line in sorted(lines, key=lambda s: (s.key, s.start_mm, s.end_mm)):
        last = out[-1] if out else None
        if last and last.key == line.key and line.start_mm <= last.end_mm + SHORTEST_MM:
            out[-1] = Stretch(*last.key, last.start_mm, max(last.end_mm, line.end_mm))
        else:
            out.append(line)
    return tuple(out)


def _at(fates: tuple[Fate, ...], line: Stretch) -> tuple[Fate, Stretch]:
    """The fate a single spot came by; where two meet, one that was there before."""

    def off(fate: Fate) -> tuple[float, bool]:
        assert fate.new is not None
        gap = max(fate.new.start_mm - line.start_mm, line.start_mm - fate.new.end_mm, 0.0)
        return (0.0 if gap <= SHORTEST_MM else gap), fate.old is None

    return min(fates, key=off), line


def _looked(was: Edge, now: Edge, fate: Fate, at_mm: float) -> tuple[float, float, float]:
    """How far in, how far carried, and where, of one spot of the new line."""
    here = now.point_at(at_mm)
    mirrored = _mirrored(fate)
    foot, way, at_end = _foot(was, here)
    gap = here - foot
    inward = left_of(way) * (-1 if fate.turned != mirrored else 1)
    # Beyond an end of the old line only what is square to it counts.
    in_mm = dot(gap, inward) if at_end else math.copysign(abs(gap), dot(gap, inward))
    if fate.still or not _rigid(was, now, fate):
        # A line that was stretched carries no cloth along: its spots only shared out its length.
        return in_mm, abs(in_mm), at_mm
    old_at = _old_at(was, fate, at_mm)
    # A spot at a dart's mouth is on both sides of it.
    carried = min(abs(here - was.point_at(old_at + k * SHORTEST_MM)) for k in (-10, 0, 10))
    return in_mm, carried, at_mm


def _old_at(was: Edge, fate: Fate, at_mm: float) -> float:
    """Where on the old edge a spot of the new one was."""
    assert fate.old is not None
    assert fate.new is not None
    share = min(max(_share(fate.new, at_mm), 0.0), 1.0)
    old_at = fate.old.start_mm + (1 - share if fate.turned else share) * fate.old.length_mm
    return was.length - old_at if _mirrored(fate) else old_at


def _mirrored(fate: Fate) -> bool:
    """Whether the old line was looked up on a half that was mirrored: it runs the other way."""
    assert fate.old is not None
    assert fate.new is not None
    return fate.new.side is BodySide.LEFT and fate.old.side is BodySide.BOTH


def _rigid(was: Edge, now: Edge, fate: Fate) -> bool:
    """Whether a stretch is as long and as bent as it was: it was moved or turned as a whole."""
    assert fate.old is not None
    assert fate.new is not None
    if abs(fate.old.length_mm - fate.new.length_mm) > STILL_MM / 2:
        return False
    ends = [fate.new.start_mm + fate.new.length_mm * k / 2 for k in range(3)]
    a, b, c = (now.point_at(x) for x in ends)
    d, e, f = (was.point_at(_old_at(was, fate, x)) for x in ends)
    return all(
        abs(abs(p - q) - abs(r - s)) < STILL_MM
        for p, q, r, s in ((a, b, d, e), (b, c, e, f), (a, c, d, f))
    )


def _foot(edge: Edge, point: Point) -> tuple[Point, Point, bool]:
    """The nearest point of an edge, its heading, and whether it is an end or a dart's mouth."""
    found = [(part, *part.nearest(point)) for part in edge.drawn]
    part, along, _ = min(found, key=lambda x: x[2])
    at_end = along <= SHORTEST_MM or along >= part.length - SHORTEST_MM
    return part.point_at(along), part.heading_at(along), at_end


def _spots(line: Stretch) -> tuple[float, ...]:
    if line.length_mm <= SHORTEST_MM:
        return (line.start_mm,)
    return tuple(line.start_mm + line.length_mm * k / _LOOKS for k in range(_LOOKS + 1))


def _edge(pattern: Pattern | None, key: EdgeKey) -> Edge | None:
    piece, name, side = key
    for p in pattern.pieces if pattern else ():
        if p.name == piece:
            for e in p.edges:
                if e.key == (name, side):
                    return e
    return None


def _where(edge: Edge, at_mm: float) -> str:
    rest = edge.length - at_mm
    from_mm, corner = (at_mm, edge.start) if at_mm <= rest else (rest, edge.end)
    return f"at the {corner}" if from_mm < 0.5 else f"at {mm(round(from_mm))} from the {corner}"


def _whose(line: Stretch) -> str:
    return f"{line.side} " if line.side in _HALVES else ""


def _mm(value: float) -> str:
    return mm(abs(value)) if abs(value) >= 0.05 else "less than 0.1 mm"


def _share(whole: Stretch, at_mm: float) -> float:
    return (at_mm - whole.start_mm) / whole.length_mm if whole.length_mm else 0.0


def _beside(one: Stretch, other: Stretch) -> tuple[bool, ...]:
    """At which ends of a stretch another lies: False its start, True its end."""
    at_start = abs(one.end_mm - other.start_mm) <= _NEAR_MM
    at_end = abs(one.start_mm - other.end_mm) <= _NEAR_MM
    return (*((False,) if at_start else ()), *((True,) if at_end else ()))
