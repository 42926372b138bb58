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
    """

    edge: str
    where: str
    in_mm: float = 0.0
    carried_mm: float = 0.0
    new: bool = False
    ends: bool = False

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
        return f"{self.edge} ends elsewhere" if self.ends else f"{self.edge} moved"


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

    def trimmed(self, fate: Fate, line: Stretch) -> bool:
        """Tell whether an end of a part of a line is where a step cut it back or ran it on."""
        old, new = fate.old, fate.new
        if old is None or new is None:
            return False
        gone = [f.old for f in self.trace.of(*old.key) if f.old and f.new is None]
        fresh = [f.new for f in self.trace.into(*new.key) if f.new and f.old is None]
        cut = {side != fate.turned for one in gone for side in _beside(one, old)}
        cut |= {side for one in fresh for side in _beside(one, new)}
        starts = line.start_mm <= new.start_mm + _NEAR_MM
        ends = line.end_mm >= new.end_mm - _NEAR_MM
        return (False in cut and starts) or (True in cut and ends)

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
