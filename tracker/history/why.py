"""Why is this line here? Each step that moved any of a line or a place, newest first."""

import datetime as dt
import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from tracker.alterations.engine import apply_step
from tracker.alterations.shaping import spot
from tracker.alterations.still import STILL_MM
from tracker.errors import TrackerError
from tracker.history.shift import (
    Between,
    EdgeEnd,
    EdgeKey,
    Shift,
    back,
    ends_reached,
    merged,
)
from tracker.history.step import Taken
from tracker.history.version import Version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Fate, Stretch
from tracker.pattern.walk import Walked, across, seam_distance, walked


@dataclass(frozen=True, slots=True)
class Reason:
    """One step that moved some of a line.

    Attributes:
        version: the version's address in words.
        made_on: its date.
        step_id: the step's opaque id.
        kind: the step's kind.
        sentence: what was done.
        moved: the edges, as they were called then, in words.
        because: ids of the observations behind it.
        shifts: how far each line moved, where it moved most, or at the place asked about.
    """

    version: str
    made_on: dt.date
    step_id: str
    kind: str
    sentence: str
    moved: tuple[str, ...]
    because: tuple[str, ...]
    shifts: tuple[Shift, ...] = ()


def edges_of_seam(seam: Seam) -> tuple[EdgeKey, ...]:
    """Return the edges of a seam's two sides."""
    return tuple(dict.fromkeys((r.piece, r.edge, r.side) for r in (*seam.first, *seam.second)))


def edges_named(pattern: Pattern, piece: str, edge: str, side: BodySide) -> tuple[EdgeKey, ...]:
    """Return the edges of a name on a piece and body side."""
    pattern.piece(piece, side).edge(edge)
    return tuple(
        (p.name, e.name, e.side)
        for p in pattern.pieces
        if p.name == piece
        for e in p.edges
        if e.name == edge and side.covers(e.side)
    )


def lines_meant(
    pattern: Pattern, seam: str | None, piece: str, edge: str, side: BodySide
) -> tuple[EdgeKey, ...]:
    """Return the edges of a seam, or of a name on a piece, on every body side that is meant.

    Raises:
        UnknownName: the pattern has none; the nearest are suggested.
    """
    if not seam:
        return edges_named(pattern, piece, edge, side)
    named = seams_meant(pattern, seam, side)
    return tuple(dict.fromkeys(k for s in named for k in edges_of_seam(s)))


def seams_meant(pattern: Pattern, seam: str, side: BodySide) -> tuple[Seam, ...]:
    """Return the seams of a name on every body side that is meant.

    Raises:
        UnknownName: there is none.
    """
    known = pattern.seam(seam, side)
    return tuple(s for s in pattern.seams if s.name == known.name and side.covers(s.side)) or (
        known,
    )


def spots_at(pattern: Pattern, place: Place) -> tuple[Stretch, ...]:
    """Return a place as spots of edges: on a seam, one on each of its two sides.

    A place of both body sides, where they differ, is a spot on each of them.

    Raises:
        TrackerError: there is no such seam, edge or corner, or the distance is off its end.
    """
    if place.seam is not None:
        return tuple(
            one
            for s in seams_meant(pattern, place.seam, place.side)
            for one in _on_seam(pattern, s, replace(place, side=s.side))
        )
    assert place.piece is not None
    assert place.edge is not None
    spots = []
    for name, edge_name, side in edges_named(pattern, place.piece, place.edge, place.side):
        piece = next(p for p in pattern.pieces if p.name == name and _has(p, edge_name, side))
        edge = piece.edge(edge_name, side)
        distance = place.distance_mm
        if distance is None:
            distance = (place.fraction or 0.0) * edge.length
        at = spot(piece, edge, place.corner, distance)
        spots.append(Stretch(name, edge_name, side, at, at))
    return tuple(spots)


def _has(piece: Piece, edge: str, side: BodySide) -> bool:
    return any(e.key == (edge, side) for e in piece.edges)


def _on_seam(pattern: Pattern, seam: Seam, place: Place) -> tuple[Stretch, ...]:
    at = seam_distance(pattern, place)
    sides = [(walked(pattern, seam.first), at)]
    if not seam.on_itself:
        sides.append((walked(pattern, seam.second), across(pattern, seam, at)))
    return tuple(_spot(steps, along) for steps, along in sides)


def _spot(side: tuple[Walked, ...], along: float) -> Stretch:
    step = next((s for s in side if along <= s.to_mm + 1e-9), side[-1])
    at = min(max(step.on_edge(along), 0.0), step.edge.length)
    return Stretch(step.run.piece, step.edge.name, step.edge.side, at, at)


@dataclass(frozen=True)
class Lineage:
    """A version with all it was made from, each step held between two patterns.

    Attributes:
        versions: from the root to the version asked about.
        steps: each step with its version, oldest first.
    """

    versions: tuple[Version, ...]
    steps: tuple[tuple[Version, Taken, Between], ...]

    @classmethod
    def of(cls, versions: Sequence[Version]) -> "Lineage":
        """Hold the steps of some versions, parents first, between their patterns.

        Raises:
            TrackerError: the versions are not parent and child.
        """
        for parent, child in itertools.pairwise(versions):
            if child.parent_digest != parent.digest:
                raise TrackerError(f"{child.address} was not made from {parent.address}")
        before = [None, *(v.pattern for v in versions[:-1])]
        steps = tuple(
            (version, taken, between)
            for version, start in zip(versions, before, strict=True)
            for taken, between in _steps(version, start)
        )
        return cls(tuple(versions), steps)

    def why(self, edges: Iterable[EdgeKey]) -> tuple[Reason, ...]:
        """Tell each step that moved any of some edges, newest first."""
        lengths = {
            (p.name, e.name, e.side): e.length if e.parts else 0.0
            for p in self.versions[-1].pattern.pieces
            for e in p.edges
        }
        return self.why_at(Stretch(*key, 0.0, lengths[key]) for key in edges)

    def why_at(self, lines: Iterable[Stretch]) -> tuple[Reason, ...]:
        """Tell each step that moved some stretches or spots, newest first.

        Each is followed back through the traces: to the panel it was cut from, the half it was
        drawn on, the edge it was before. Its history ends with the step that drew the line, or
        with the root. An end of an edge is followed as the corner it is: what it was cut back
        from by one step may have been cut back by another before.
        """
        wanted, reasons = merged(lines), list[Reason]()
        ends = ends_reached(wanted, self.versions[-1].pattern)
        for version, taken, between in reversed(self.steps):
            wanted, shifts = _stepped_back(between, taken, wanted)
            ends, ended = _ends_back(between, ends)
            shifts = _with_ends(shifts, ended)
            if shifts:
                reasons.append(_reason(version, taken, shifts))
        first = self.versions[0]
        left = {w.key for w in wanted} | {key for key, _ in ends}
        if first.root is not None and left:
            edges = tuple(sorted({f"{edge} of the {piece}" for piece, edge, _ in left}))
            reasons.append(
                Reason(
                    str(first.address), first.made_on, "", first.root.kind, first.sentence, edges,
                    (), tuple(Shift(e, "", new=True) for e in edges),
                )
            )  # fmt: skip
        return tuple(reasons)


def why(lineage: Sequence[Version], edges: Iterable[EdgeKey]) -> tuple[Reason, ...]:
    """Tell each step that moved any of some edges of the newest version, newest first.

    Args:
        lineage: the versions from the root to the one asked about, oldest first.
        edges: the edges as they are in the last of them.

    Raises:
        TrackerError: the versions are not parent and child.
    """
    return Lineage.of(lineage).why(edges)


def why_at(lineage: Sequence[Version], lines: Iterable[Stretch]) -> tuple[Reason, ...]:
    """Tell each step that moved some stretches, or spots (stretches of no length), newest first.

    Raises:
        TrackerError: the versions are not parent and child.
    """
    return Lineage.of(lineage).why_at(lines)


def _reason(version: Version, taken: Taken, shifts: tuple[Shift, ...]) -> Reason:
    return Reason(
        str(version.address), version.made_on, taken.step.step_id, taken.step.kind,
        taken.sentence, tuple(sorted({s.edge for s in shifts})), taken.step.because, shifts,
    )  # fmt: skip


def _steps(version: Version, parent: Pattern | None) -> list[tuple[Taken, Between]]:
    """A version's steps, each between the pattern it was done to and the one it gave.

    Between the first and the last, patterns are worked out again; where that cannot be done any
    more, the amounts of those steps are not known.
    """
    out: list[tuple[Taken, Between]] = []
    before = parent
    for k, taken in enumerate(version.taken):
        after: Pattern | None = version.pattern
        if k < len(version.taken) - 1:
            after = _after(taken, before)
        out.append((taken, Between.of(taken, before, after)))
        before = after
    return out


def _after(taken: Taken, before: Pattern | None) -> Pattern | None:
    if before is None:
        return None
    try:
        return apply_step(taken.step.as_kind(), before, taken.step.step_id).pattern
    except TrackerError:
        return None


def _stepped_back(
    between: Between, taken: Taken, wanted: tuple[Stretch, ...]
) -> tuple[tuple[Stretch, ...], tuple[Shift, ...]]:
    """The lines as they were before a step, and how far it moved each of them."""
    were: list[Stretch] = []
    most: dict[str, Shift] = {}
    for line in wanted:
        for fate, part in between.came_from(line):
            was = part if fate is None else back(fate, part)
            if was is not None:
                were.append(was)
            shift = _told(between, taken, fate, part)
            if shift and (shift.edge not in most or _more(shift, most[shift.edge])):
                most[shift.edge] = shift
    return merged(were), tuple(most[name] for name in sorted(most))


def _told(between: Between, taken: Taken, fate: Fate | None, part: Stretch) -> Shift | None:
    """How far a step moved a part of a line; nothing where it is no reason for it."""
    shift = between.shift(fate, part)
    if fate is None:
        return shift if between.speaks_of(taken, part) else None
    if not shift.still:
        return shift
    if between.before is None or between.after is None:
        return None if fate.still else shift  # that it moved is known, not how far
    return between.parted(fate, part)


def _ends_back(
    between: Between, ends: tuple[EdgeEnd, ...]
) -> tuple[tuple[EdgeEnd, ...], tuple[Shift, ...]]:
    """The ends of edges as they were before a step, and how far it moved each along its edge."""
    were: list[EdgeEnd] = []
    ended: list[Shift] = []
    for end in ends:
        by_mm, was = between.end_before(end)
        if was is not None:
            were.append(was)
            if abs(by_mm) >= STILL_MM:
                ended.append(between.ended(end, by_mm))
    return tuple(dict.fromkeys(were)), tuple(ended)


def _with_ends(shifts: tuple[Shift, ...], ended: tuple[Shift, ...]) -> tuple[Shift, ...]:
    """What moved of each edge: the line itself, or else its ends."""
    told_by_ends = {e.edge for e in ended}
    ran_on = {e.edge for e in ended if e.ends_mm > 0}
    # Of a line that was run on, only what it was run on by is new.
    lines = [
        s
        for s in shifts
        if s.edge not in told_by_ends or not (s.still or (s.new and s.edge in ran_on))
    ]
    moved = {s.edge for s in lines}
    return tuple(sorted((*lines, *(e for e in ended if e.edge not in moved)), key=lambda s: s.edge))


def _more(one: Shift, other: Shift) -> bool:
    return (one.new, abs(one.in_mm), one.carried_mm) > (
        other.new, abs(other.in_mm), other.carried_mm,
    )  # fmt: skip
