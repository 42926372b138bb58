"""What became of the material: the one mechanism by which notes, notches and "why" follow.

A trace speaks of each edge a step touched and of nothing else; an edge it does not name is
where it was.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import number
from tracker.pattern.edge import Edge
from tracker.pattern.piece import Piece

#: Stretches shorter than this are not told apart.
SHORTEST_MM = 1e-4


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of an edge, by distance from the edge's start as sewn, millimetres."""

    piece: str
    edge: str
    side: BodySide
    start_mm: float
    end_mm: float

    @classmethod
    def whole(cls, piece: Piece, edge: Edge) -> "Stretch":
        """Return the whole of an edge."""
        return cls(piece.name, edge.name, edge.side, 0.0, edge.length)

    @property
    def length_mm(self) -> float:
        """Its length."""
        return self.end_mm - self.start_mm

    @property
    def key(self) -> tuple[str, str, BodySide]:
        """Piece, edge and body side."""
        return self.piece, self.edge, self.side

    def between(self, start_share: float, end_share: float) -> "Stretch":
        """Return a part of it by shares of its length."""
        return replace(
            self,
            start_mm=self.start_mm + start_share * self.length_mm,
            end_mm=self.start_mm + end_share * self.length_mm,
        )


@dataclass(frozen=True, slots=True)
class Fate:
    """Where a stretch went.

    Attributes:
        old: the stretch before the step; none for line that is new.
        new: the stretch after it; none for line that was cut away. Distances between the
            two run proportionally.
        turned: they run against each other.
        still: the line itself did not move: it was only split off, renamed, or trimmed
            elsewhere.
    """

    old: Stretch | None
    new: Stretch | None
    turned: bool = False
    still: bool = False

    @property
    def word(self) -> str:
        """What happened, in a word."""
        if self.old is None:
            return "new"
        return "cut away" if self.new is None else "carried"


@dataclass(frozen=True, slots=True)
class Renamed:
    """A notch, mark, dart, level or seam that has another name or piece after the step.

    Attributes:
        thing: "notch", "mark", "dart", "level", "seam" or "piece".
        old: piece (or "" for a seam) and name before; name "" for one that is new.
        new: piece and name after; name "" for one that is gone.
    """

    thing: str
    old: tuple[str, str]
    new: tuple[str, str]


@dataclass(frozen=True)
class Trace:
    """Fates of edge stretches, and what was renamed."""

    fates: tuple[Fate, ...] = ()
    renamed: tuple[Renamed, ...] = ()

    def of(self, piece: str, edge: str, side: BodySide) -> tuple[Fate, ...]:
        """Return the fates of one old edge, in order along it; none where it was untouched."""
        found = [
            f
            for f in self.fates
            if f.old and (f.old.piece, f.old.edge, f.old.side) == (piece, edge, side)
        ]
        return tuple(sorted(found, key=lambda f: f.old.start_mm if f.old else 0.0))

    def into(self, piece: str, edge: str, side: BodySide) -> tuple[Fate, ...]:
        """Return the fates that made up one new edge, in order along it."""
        found = [
            f
            for f in self.fates
            if f.new and (f.new.piece, f.new.edge, f.new.side) == (piece, edge, side)
        ]
        return tuple(sorted(found, key=lambda f: f.new.start_mm if f.new else 0.0))

    def beside(self, other: "Trace") -> "Trace":
        """Put two traces side by side where they touch different edges of the same pattern."""
        return Trace(self.fates + other.fates, self.renamed + other.renamed)

    def then(self, after: "Trace") -> "Trace":
        """Follow this trace by that of what was done next to its result."""
        if not self.fates:
            return Trace(after.fates, self.renamed + after.renamed)
        fates: list[Fate] = []
        passed: set[tuple[str, str, BodySide]] = set()
        for fate in self.fates:
            middle = fate.new
            if middle is None:
                fates.append(fate)
                continue
            passed.add(middle.key)
            onward = after.of(*middle.key)
            fates.extend(_chained(fate, g) for g in onward if _overlap(middle, g.old)) if (
                onward
            ) else fates.append(fate)
        # Edges the first step left alone, and line the second step made.
        fates.extend(g for g in after.fates if g.old is None or g.old.key not in passed)
        return Trace(tuple(fates), self.renamed + after.renamed)

    def back(self, piece: str, edge: str, side: BodySide, at_mm: float) -> Stretch | None:
        """Return the old spot (a stretch of no length) a new spot came from.

        Nothing for a spot on new line; the same spot where the edge was not touched.
        """
        fates = self.into(piece, edge, side)
        if not fates:
            return Stretch(piece, edge, side, at_mm, at_mm)
        for fate in fates:
            new, old = fate.new, fate.old
            if new and new.start_mm - SHORTEST_MM <= at_mm <= new.end_mm + SHORTEST_MM and old:
                share = (at_mm - new.start_mm) / new.length_mm if new.length_mm else 0.0
                share = 1 - share if fate.turned else share
                there = old.start_mm + share * old.length_mm
                return Stretch(old.piece, old.edge, old.side, there, there)
        return None

    def forward(self, piece: str, edge: str, side: BodySide, at_mm: float) -> Stretch | None:
        """Return where an old spot is now; nothing where it was cut away."""
        fates = self.of(piece, edge, side)
        if not fates:
            return Stretch(piece, edge, side, at_mm, at_mm)
        for fate in fates:
            old, new = fate.old, fate.new
            if old and old.start_mm - SHORTEST_MM <= at_mm <= old.end_mm + SHORTEST_MM and new:
                share = (at_mm - old.start_mm) / old.length_mm if old.length_mm else 0.0
                share = 1 - share if fate.turned else share
                there = new.start_mm + share * new.length_mm
                return Stretch(new.piece, new.edge, new.side, there, there)
        return None


def _overlap(one: Stretch, other: Stretch | None) -> bool:
    return other is not None and (
        min(one.end_mm, other.end_mm) - max(one.start_mm, other.start_mm) > SHORTEST_MM
    )


def _chained(first: Fate, second: Fate) -> Fate:
    """Return the fate of the part of ``first`` that ``second`` speaks of."""
    middle, onward = first.new, second.old
    assert middle is not None
    assert onward is not None
    start = max(middle.start_mm, onward.start_mm)
    end = min(middle.end_mm, onward.end_mm)
    old = first.old
    if old is not None:
        a, b = ((x - middle.start_mm) / middle.length_mm for x in (start, end))
        old = old.between(1 - b, 1 - a) if first.turned else old.between(a, b)
    new = second.new
    if new is not None:
        a, b = ((x - onward.start_mm) / onward.length_mm for x in (start, end))
        new = new.between(1 - b, 1 - a) if second.turned else new.between(a, b)
    return Fate(old, new, first.turned != second.turned, first.still and second.still)


def edge_fates(piece: str, old: Edge, new: Edge) -> Iterable[Fate]:
    """Return what became of an edge whose ends may have been trimmed or run on.

    Trimmed means an old end lies off the new line's end, along the old line.
    """
    old_length, new_length = old.length, new.length
    a0, b0 = 0.0, old_length
    a1, b1 = 0.0, new_length
    if old.displacements == new.displacements:
        along, gap = old.nearest(new.parts[0].start)
        if gap < 0.02 and along > SHORTEST_MM:
            a0 = along
        elif gap >= SHORTEST_MM:
            run, off = new.nearest(old.parts[0].start)
            a1 = run if off < 0.02 else a1
        along, gap = old.nearest(new.parts[-1].end)
        if gap < 0.02 and along < old_length - SHORTEST_MM:
            b0 = along
        elif gap >= SHORTEST_MM:
            run, off = new.nearest(old.parts[-1].end)
            b1 = run if off < 0.02 else b1

    def stretch(edge: Edge, a: float, b: float) -> Stretch:
        return Stretch(piece, edge.name, edge.side, a, b)

    if a0 > SHORTEST_MM:
        yield Fate(stretch(old, 0.0, a0), None)
    if a1 > SHORTEST_MM:
        yield Fate(None, stretch(new, 0.0, a1))
    still = old.displacements == new.displacements and old.mouths == new.mouths
    yield Fate(stretch(old, a0, b0), stretch(new, a1, b1), still=still)
    if b1 < new_length - SHORTEST_MM:
        yield Fate(None, stretch(new, b1, new_length))
    if b0 < old_length - SHORTEST_MM:
        yield Fate(stretch(old, b0, old_length), None)


# -- in and out ---------------------------------------------------------------------------


def trace_record(trace: Trace) -> dict[str, Any]:
    """Return a trace as plain values."""

    def flat(s: Stretch | None) -> list[Any] | None:
        if s is None:
            return None
        return [s.piece, s.edge, str(s.side), number(s.start_mm), number(s.end_mm)]

    return {
        "fates": [
            [flat(f.old), flat(f.new), "turned " * f.turned + "still" * f.still]
            for f in trace.fates
        ],
        "renamed": [[r.thing, list(r.old), list(r.new)] for r in trace.renamed],
    }


def trace_from(record: dict[str, Any]) -> Trace:
    """Read a trace back."""

    def stretch(flat: list[Any] | None) -> Stretch | None:
        return None if flat is None else Stretch(flat[0], flat[1], BodySide(flat[2]), *flat[3:])

    return Trace(
        tuple(
            Fate(stretch(f[0]), stretch(f[1]), "turned" in f[2], "still" in f[2])
            for f in record["fates"]
        ),
        tuple(
            Renamed(thing, (old[0], old[1]), (new[0], new[1]))
            for thing, old, new in record["renamed"]
        ),
    )
