"""Drawing a piece again from its base lines and what was done to them.

The drawn line of an edge is its base displaced, run on straight or trimmed to meet its
neighbours and the legs of its darts. Everything follows from the base lines and the
displacements and nothing from the lines drawn before, so that letting out what was taken in
gives the same piece, and an amount in two steps the same as in one.
"""

from collections.abc import Collection
from dataclasses import replace

from tracker.geometry.bezier import Segment
from tracker.geometry.crossing import nearest_spot
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.legs import RUN_ON_MM, leg_of_length, leg_to, lengthened
from tracker.pattern.levels import level_again
from tracker.pattern.marks_again import mark_again
from tracker.pattern.meeting import DoesNotMeet, EdgeKey, Meeting
from tracker.pattern.piece import Piece
from tracker.pattern.trimming import End, trimmed

#: What moved by less than the store's rounding may make of it has not moved, millimetres.
KEPT_MM = 3e-6


def redraw(piece: Piece, moved: Collection[EdgeKey]) -> Piece:
    """Return the piece drawn again after the displacements of some edges changed.

    Args:
        piece: the piece with the new displacements, its drawn parts still the old ones.
        moved: the keys of the edges whose displacements changed.

    Raises:
        DoesNotMeet: an edge can no longer be brought to meet its neighbour or a dart leg.
    """
    return _Redrawing(piece, set(moved)).done()


class _Redrawing:
    def __init__(self, piece: Piece, moved: set[EdgeKey]) -> None:
        self.piece = piece
        self.moved = moved
        n = len(piece.edges)
        self.touched = [
            i for i in range(n) if any(piece.edges[k % n].key in moved for k in (i - 1, i, i + 1))
        ]
        self.meeting = Meeting(piece)

    def done(self) -> Piece:
        piece = self.piece
        self.meeting.meet(self.touched)
        while more := self.left_apart():
            self.touched = sorted({*self.touched, *more})
            self.meeting.forget()
            self.meeting.meet(self.touched)
        fresh: dict[EdgeKey, Edge] = {}
        darts: dict[EdgeKey, Dart] = {}
        for i in self.touched:
            edge = piece.edges[i]
            parts = self.parts(i, darts)
            bases = edge.base_lines
            if parts == bases:
                fresh[edge.key] = replace(edge, parts=bases, bases=())
            else:
                parts = tuple(_kept(new, old) for new, old in zip(parts, edge.parts, strict=True))
                fresh[edge.key] = replace(edge, parts=parts, bases=bases)
        drawn = replace(
            piece,
            edges=tuple(fresh.get(e.key, e) for e in piece.edges),
            darts=tuple(darts.get(d.key, d) for d in piece.darts),
        )
        levels = tuple(level_again(v, piece, drawn, fresh) for v in piece.levels)
        marks = tuple(mark_again(m, piece, drawn, fresh) for m in piece.marks)
        return replace(drawn, levels=levels, marks=marks)

    def left_apart(self) -> list[int]:
        """The edges not to be drawn whose corner is no longer where they end.

        What is held at one end of an edge can move its other end by a hair.
        """
        edges, n = self.piece.edges, len(self.piece.edges)
        apart = []
        for k in self.touched:
            before, after = (k - 1) % n, (k + 1) % n
            if before not in self.touched:
                end = edges[before].parts[-1].end
                if abs(self.meeting.corners[k].before.point - end) > SAME_MM:
                    apart.append(before)
            if after not in self.touched:
                start = edges[after].parts[0].start
                if abs(self.meeting.corners[after].after.point - start) > SAME_MM:
                    apart.append(after)
        return apart

    # -- parts -----------------------------------------------------------------------------

    def parts(self, i: int, darts: dict[EdgeKey, Dart]) -> tuple[Curve, ...]:
        """Draw an edge's parts, and put the darts that open from it on them."""
        edge, lines = self.piece.edges[i], self.meeting.line(self.piece.edges[i])
        starts, ends, at = [self.meeting.corners[i].after], [], 0.0
        for k, name in enumerate(edge.mouths):
            dart = self.piece.dart(name, edge.side)
            at += edge.base_lines[k].length
            first, second = End(lines[k].end), End(lines[k + 1].start)
            if dart.mouth_start != first.point or dart.mouth_end != second.point:
                dart, first, second = self.mouth(edge, dart, lines[k], lines[k + 1], at)
                darts[dart.key] = dart
            ends.append(first)
            starts.append(second)
        ends.append(self.meeting.corners[(i + 1) % len(self.piece.edges)].before)
        out = []
        for line, start, end in zip(lines, starts, ends, strict=True):
            if start.cut is None is end.cut and not start.on and not end.on:
                unmoved = start.point == line.start and end.point == line.end
                part = line if unmoved else trimmed(line, start, end)
            else:
                part = trimmed(line, start, end)
            if part is None:
                raise DoesNotMeet(
                    f"nothing would be left of the {edge.name} of the {self.piece.label} between "
                    f"the {edge.start} and the {edge.end}; a smaller amount would fit"
                )
            out.append(part)
        return tuple(out)

    def mouth(
        self, edge: Edge, dart: Dart, line: Curve, after: Curve, at_mm: float
    ) -> tuple[Dart, End, End]:
        """Put a dart's mouth on the moved edge, the legs equally long."""
        first, second = dart.legs[0].reversed, dart.legs[1]  # both from the pivot out
        if self.meeting.total(edge).at(at_mm)[0] == 0.0:
            one, two = leg_to(first, line.end), leg_to(second, after.start)
            return _with_legs(dart, one, two), End(line.end), End(after.start)
        out_1, end_1 = self.leg(edge, dart, first, line)
        out_2, end_2 = self.leg(edge, dart, second, after.reversed)
        mean = (out_1.length + out_2.length) / 2
        one, two = leg_of_length(out_1, mean), leg_of_length(out_2, mean)
        if max(abs(one.end - dart.mouth_start), abs(two.end - dart.mouth_end)) <= KEPT_MM:
            one, two = first, second
        moved_1, moved_2 = _end_at(end_1, one.end, line), _end_at(end_2, two.end, after.reversed)
        if moved_2.cut:
            index, t = moved_2.cut
            moved_2 = replace(moved_2, cut=(len(after.runs) - 1 - index, 1.0 - t))
        return _with_legs(dart, one, two), moved_1, moved_2

    def leg(self, edge: Edge, dart: Dart, leg: Curve, line: Curve) -> tuple[Curve, End]:
        """A leg, from the pivot out, as far as the line; and how the line ends there."""
        longer = lengthened(leg)
        spot = nearest_spot(longer, line.run_on(after_mm=RUN_ON_MM), line.end)
        if spot is not None:
            cut = spot.first
            reached = trimmed(longer, End(longer.start), End(spot.point, cut))
            if reached is not None and reached.length > dart.stand_back_mm:
                if spot.second[0] == len(line.runs):
                    return reached, End.run_on(line.end, line.end_heading, spot.point)
                return reached, End(spot.point, spot.second)
        raise DoesNotMeet(
            f"the {edge.name} of the {self.piece.label} would be moved past the "
            f"{dart.name}; a smaller amount there would fit"
        )


def _with_legs(dart: Dart, one: Curve, two: Curve) -> Dart:
    return replace(dart, legs=(one.reversed, two))


def _end_at(end: End, point: Point, line: Curve) -> End:
    """The same end, put at a point a hair along the leg from where the line met it."""
    if end.point == point:
        return end
    if end.cut is None:
        return End.run_on(line.end, line.end_heading, point)
    return replace(end, point=point)


def _kept(new: Curve, old: Curve) -> Curve:
    """Use the old segments again where they are the same line to the store's rounding."""
    a, b = list(new.segments), old.segments
    for i in range(min(len(a), len(b))):
        if not _same(a[i], b[i]):
            break
        a[i] = b[i]
    for i in range(1, min(len(a), len(b)) + 1):
        if not _same(a[-i], b[-i]):
            break
        a[-i] = b[-i]
    return Curve.of(a)


def _same(a: Segment, b: Segment) -> bool:
    return len(a) == len(b) and all(abs(p - q) <= KEPT_MM for p, q in zip(a, b, strict=True))
