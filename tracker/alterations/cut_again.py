"""Taking a cut back: where an earlier one was opened or closed, what was there before is again.

Recognised are the same two edges, cut where the earlier cut was (by a tape from either corner)
and taken back by what it was opened or closed by, as long as nothing there was changed since.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.cut import Cut, Redrawn
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.piece import Piece

Key = tuple[str, BodySide]
#: The same line, after the store's rounding and that of what moved it there and back, millimetres.
SAME_MM = 2e-5
#: The same amount, and the same place: nearer than a tape tells.
_SAME_BY_MM, _SAME_PLACE_MM = 0.05, 1.0
#: Of what was opened or closed so much: along a slanted edge it is longer, and a height is from a
#: line that may have turned with the cloth.
_TIMES = 2.0


@dataclass(frozen=True, slots=True)
class Found:
    """A stretch that a cut had redrawn, as it lies on an edge now: part, segments, distance."""

    line: Redrawn
    part: int
    first: int
    last: int
    from_mm: float

    @classmethod
    def on(cls, line: Redrawn, edge: Edge) -> "Found | None":
        """Find a stretch on its edge; nothing where it was changed since."""
        wanted, before = line.now.segments, 0.0
        for k, part in enumerate(edge.parts):
            for i in range(len(part.segments) - len(wanted) + 1):
                pairs = zip(part.segments[i : i + len(wanted)], wanted, strict=True)
                if all(same(a, b) for a, b in pairs):
                    return cls(line, k, i, i + len(wanted), before + part.reaches[i])
            before += part.length
        return None

    def restored(self, edge: Edge, first: Motion, last: Motion) -> tuple[Curve, ...]:
        """The edge's parts with what was there before; what lies before and after it moved."""
        part = edge.parts[self.part]
        head = [moved_by(s, first) for s in part.segments[: self.first]]
        tail = [moved_by(s, last) for s in part.segments[self.last :]]
        return (
            *(p.moved(first) for p in edge.parts[: self.part]),
            Curve.of([*head, *self.line.was.segments, *tail]),
            *(p.moved(last) for p in edge.parts[self.part + 1 :]),
        )

    def joins(self, edge: Edge, first: Motion, last: Motion, mouths: Collection[str]) -> bool:
        """Tell whether what is before and after it comes to where the old stretch ends.

        Or, at one of some darts' mouths, will when the dart is what it was.
        """
        segments, was = edge.parts[self.part].segments, self.line.was
        at_start = edge.mouths[self.part - 1] if self.part and not self.first else ""
        ends = self.part < len(edge.mouths) and self.last == len(segments)
        at_end = edge.mouths[self.part] if ends else ""
        start = first.of(segments[self.first][0])
        end = last.of(segments[self.last - 1][-1])
        return (at_start in mouths or abs(start - was.start) < SAME_MM) and (
            at_end in mouths or abs(end - was.end) < SAME_MM
        )


@dataclass(frozen=True)
class CutAgain:
    """An earlier cut that is taken back.

    Attributes:
        cut: the earlier cut.
        motion: the motion that takes the moved cloth back.
    """

    cut: Cut
    motion: Motion
    ends: dict[Key, Found]

    def place(self, edge: Edge) -> float:
        """Where the cut is on an edge: at the end of what was put in that stays."""
        found = self.ends[edge.key]
        return found.from_mm + found.line.put[1 if found.line.start_moved else 0]

    def removed(self, edge: Edge) -> float:
        """Where, on an edge, the cloth begins that is moved back."""
        found = self.ends[edge.key]
        return found.from_mm + found.line.put[0 if found.line.start_moved else 1]

    def edge(self, edge: Edge) -> Edge:
        """A cut edge with what was there before."""
        found = self.ends[edge.key]
        motions = (self.motion, STAY) if found.line.start_moved else (STAY, self.motion)
        return replace(edge, parts=found.restored(edge, *motions), bases=(), displacements=())

    def lying(self, edge: Edge) -> Edge:
        """A cut edge as it lies, its old line both where it stays and where it is moved to."""
        found = self.ends[edge.key]
        moved = tuple(p.moved(self.motion) for p in edge.parts)
        parts = (*moved, *edge.parts) if found.line.start_moved else (*edge.parts, *moved)
        return replace(edge, parts=parts, bases=(), displacements=())

    def reach(self, edge: Edge) -> tuple[float, float, float, float]:
        """Where the old cloth begins and ends again, and how far it was redrawn on each side."""
        line = self.ends[edge.key].line
        start = self.ends[edge.key].from_mm
        return (
            start + line.taken[0], start + line.taken[1],
            line.put[0], line.now.length - line.put[1],
        )  # fmt: skip

    def mouths_moved(self, edge: Edge) -> tuple[str, ...]:
        """The darts that open from the moved part of a cut edge."""
        found = self.ends[edge.key]
        if found.line.start_moved:
            return edge.mouths[: found.part]
        return edge.mouths[found.part :]

    def beside(self, edge: Edge, now: Edge) -> Edge:
        """An edge, moved or not, with what was there before at the mouths of darts crossed."""
        for line in self.cut.beside:
            found = Found.on(line, edge) if line.key == edge.key else None
            if found is not None and len(now.parts) == len(edge.parts):
                part = now.parts[found.part].segments
                fresh = Curve.of([*part[: found.first], *line.was.segments, *part[found.last :]])
                parts = (*now.parts[: found.part], fresh, *now.parts[found.part + 1 :])
                now = replace(now, parts=parts, bases=(), displacements=())
        return now

    def dart(self, dart: Dart) -> Dart | None:
        """A dart the cut went across as it was before; nothing where it was changed since."""
        for was, now in self.cut.darts:
            if now.key == dart.key and all(map(_same_line, now.legs, dart.legs)):
                return replace(dart, legs=was.legs)
        return None

    def as_it_was(self, before: Piece, after: Piece) -> Piece:
        """The piece with its material lines and base lines as they were, where it is so again."""
        for old in self.cut.edges:
            drawn = after.edge(*old.key).parts
            if len(drawn) == len(old.parts) and all(map(_same_line, drawn, old.parts)):
                after = after.with_edge(old)
        fresh = []
        for lies, level in zip(before.levels, after.levels, strict=True):
            for was, now in self.cut.levels:
                if (now.name, now.side) == (lies.name, lies.side) and alike(now, lies):
                    level = replace(level, strokes=was.strokes)
            fresh.append(level)
        return replace(after, levels=tuple(fresh))


def _room(cut: Cut) -> float:
    """How far off a cut may be said to be: a tape from either corner finds either end of it."""
    spans = (span for r in cut.ends for span in (r.taken, r.put))
    most = max(high - low for low, high in spans)
    return _TIMES * max(most, *(abs(r.by_mm) for r in cut.ends)) + _SAME_PLACE_MM


def taken_back(piece: Piece, ends: Sequence[tuple[Edge, float, float, bool]]) -> CutAgain | None:
    """Return the earlier cut that a cut takes back; nothing where it is another one.

    Args:
        piece: the piece.
        ends: for each end its edge, the distance along it, how far it is opened there (negative
            closes), and whether the edge's start is on the part that moves.
    """
    for cut in reversed(piece.cuts):
        if {r.key for r in cut.ends} != {edge.key for edge, *_ in ends}:
            continue
        back, room, found = cut.back, _room(cut), dict[Key, Found]()
        again = CutAgain(cut, back, found)
        if not _as_left(again, piece):
            continue
        mouths = {was.name for was, _ in cut.darts}
        for edge, at_mm, by_mm, start_moves in ends:
            line = next(r for r in cut.ends if r.key == edge.key)
            lies = Found.on(line, edge)
            if lies is None or line.start_moved != start_moves:
                break
            low, high = (lies.from_mm + x for x in line.put)
            motions = (back, STAY) if start_moves else (STAY, back)
            if (
                abs(by_mm + line.by_mm) > _SAME_BY_MM
                or not low - room <= at_mm <= high + room
                or not lies.joins(edge, *motions, mouths)
            ):
                break
            found[edge.key] = lies
        else:
            return again
    return None


def _as_left(again: CutAgain, piece: Piece) -> bool:
    """Tell whether the darts a cut went across, and their mouths, are as it left them."""
    edges, darts = {e.key: e for e in piece.edges}, {d.key: d for d in piece.darts}
    return all(
        line.key in edges and Found.on(line, edges[line.key]) is not None
        for line in again.cut.beside
    ) and all(
        now.key in darts and again.dart(darts[now.key]) is not None for _, now in again.cut.darts
    )


def moved_by(segment: Segment, motion: Motion) -> Segment:
    """Return a segment moved."""
    return segment if motion is STAY else tuple(motion.of(p) for p in segment)


def alike(one: Level, other: Level) -> bool:
    """Tell whether two material lines are the same but for rounding."""
    if len(one.strokes) != len(other.strokes):
        return False
    return all(same(a, b) for a, b in zip(one.strokes, other.strokes, strict=True))


def _same_line(one: Curve, other: Curve) -> bool:
    if len(one.segments) != len(other.segments):
        return False
    return all(map(same, one.segments, other.segments))


def same(a: Sequence[Point], b: Sequence[Point]) -> bool:
    """Tell whether two runs of points are the same but for rounding."""
    return len(a) == len(b) and all(abs(p - q) <= SAME_MM for p, q in zip(a, b, strict=True))
