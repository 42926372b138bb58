"""Drawing a piece again from its base lines and what was done to them.

The drawn line of an edge is its base displaced, run on straight or trimmed to meet its
neighbours and the legs of its darts. Everything follows from the base lines and the
displacements, so that letting out what was taken in gives the same piece.
"""

from collections.abc import Collection
from dataclasses import replace

from tracker.geometry.crossing import nearest_crossing, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.point import SAME_MM, Point, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Stroke
from tracker.pattern.piece import Piece

EdgeKey = tuple[str, BodySide]

#: A line is run on at most this far to meet its neighbour.
RUN_ON_MM = 250.0
#: An end of a material line this near an edge ends on it.
ON_EDGE_MM = 0.05


class DoesNotMeet(PatternError):
    """Lines moved so far that they no longer meet, or cross what lies between."""


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
        self.lines: dict[EdgeKey, tuple[Curve, ...]] = {}
        n = len(piece.edges)
        touched = {
            i
            for i in range(n)
            if piece.edges[i].key in moved
            or piece.edges[i - 1].key in moved
            or piece.edges[(i + 1) % n].key in moved
        }
        self.touched = [piece.edges[i] for i in sorted(touched)]

    def line(self, edge: Edge) -> tuple[Curve, ...]:
        """The edge's full lines, part by part: base displaced, not trimmed."""
        if edge.key not in self.lines:
            out, at = [], 0.0
            for base in edge.base_lines:
                out.append(displaced(base, edge.total, at) if edge.displacements else base)
                at += base.length
            self.lines[edge.key] = tuple(out)
        return self.lines[edge.key]

    def corner(self, before: Edge, after: Edge) -> Point:
        """Where two neighbouring edges meet."""
        one, other = self.line(before)[-1], self.line(after)[0]
        if abs(one.end - other.start) <= SAME_MM and not self._slides(before, after):
            return other.start
        old = before.parts[-1].end
        meeting = nearest_crossing(
            one.run_on(after_mm=RUN_ON_MM), other.run_on(before_mm=RUN_ON_MM), old
        )
        if meeting is None:
            raise DoesNotMeet(
                f"the {before.name} and the {after.name} of the {self.piece.label} no longer "
                f"meet at the {before.end}; a smaller amount there would"
            )
        return meeting.point

    @staticmethod
    def _slides(before: Edge, after: Edge) -> bool:
        return (
            before.total.at(before.base_length)[0] != 0.0 or after.total.at(0.0)[0] != 0.0
        ) and bool(before.displacements or after.displacements)

    def done(self) -> Piece:
        piece, fresh, darts = self.piece, {}, dict[tuple[str, BodySide], Dart]()
        for edge in self.touched:
            starts: list[Point] = [self.corner(piece.before(edge), edge)]
            ends: list[Point] = []
            lines = self.line(edge)
            for index, name in enumerate(edge.mouths):
                dart = piece.dart(name, edge.side)
                if edge.key in self.moved:
                    dart = self._mouth(edge, dart, lines[index], lines[index + 1])
                    darts[dart.key] = dart
                ends.append(dart.mouth_start)
                starts.append(dart.mouth_end)
            ends.append(self.corner(edge, piece.after(edge)))
            parts = tuple(
                self._trimmed(edge, line, start, end)
                for line, start, end in zip(lines, starts, ends, strict=True)
            )
            parts = tuple(_kept(new, old) for new, old in zip(parts, edge.parts, strict=True))
            bases = edge.base_lines
            fresh[edge.key] = replace(edge, parts=parts, bases=() if parts == bases else bases)
        drawn = replace(
            piece,
            edges=tuple(fresh.get(e.key, e) for e in piece.edges),
            darts=tuple(darts.get(d.key, d) for d in piece.darts),
        )
        return replace(
            drawn, levels=tuple(_level_again(v, piece, drawn, set(fresh)) for v in piece.levels)
        )

    def _mouth(self, edge: Edge, dart: Dart, line: Curve, after: Curve) -> Dart:
        """Put a dart's mouth on the moved edge, the legs equally long."""
        first, second = dart.legs[0].reversed, dart.legs[1]  # both from the pivot out
        out_1 = self._leg_length(edge, dart, first, line.run_on(after_mm=RUN_ON_MM))
        out_2 = self._leg_length(edge, dart, second, after.run_on(before_mm=RUN_ON_MM))
        length = (out_1 + out_2) / 2
        legs = tuple(_leg_of_length(leg, length) for leg in (first, second))
        return replace(dart, legs=(legs[0].reversed, legs[1]))

    def _leg_length(self, edge: Edge, dart: Dart, leg: Curve, line: Curve) -> float:
        meeting = nearest_crossing(leg.run_on(after_mm=RUN_ON_MM), line, leg.end)
        if meeting is None or meeting.first_mm < dart.stand_back_mm:
            raise DoesNotMeet(
                f"the {edge.name} of the {self.piece.label} would be moved past the "
                f"{dart.name}; a smaller amount there would fit"
            )
        return meeting.first_mm

    def _trimmed(self, edge: Edge, line: Curve, start: Point, end: Point) -> Curve:
        before = _outside(line.reversed, start)
        after = _outside(line, end)
        whole = line.run_on(before, after)
        from_mm = 0.0 if before or abs(start - whole.start) <= SAME_MM else whole.nearest(start)[0]
        to_mm = whole.length
        if not after and abs(end - whole.end) > SAME_MM:
            to_mm = whole.nearest(end)[0]
        if to_mm - from_mm < 1.0:
            raise DoesNotMeet(
                f"nothing would be left of the {edge.name} of the {self.piece.label} between "
                f"the {edge.start} and the {edge.end}; a smaller amount would fit"
            )
        part = whole.part(from_mm, to_mm) if (from_mm, to_mm) != (0.0, whole.length) else whole
        if part.start != start:
            part = part.started_at(start)
        return part if part.end == end else part.ended_at(end)


def _outside(line: Curve, end: Point) -> float:
    """How far a line must be run on straight past its end to reach a point there."""
    ahead = end - line.end
    heading = line.end_heading
    reach = ahead.real * heading.real + ahead.imag * heading.imag
    if reach <= SAME_MM:
        return 0.0
    off = abs(ahead - heading * reach)
    # On the run-on, or (equal to a hair) where a dart's equal legs put the point.
    return reach if off < max(0.05, 0.02 * reach) and line.nearest(end)[1] > SAME_MM else 0.0


def _leg_of_length(leg: Curve, length_mm: float) -> Curve:
    if abs(leg.length - length_mm) <= SAME_MM / 10:
        return leg
    if length_mm < leg.length:
        return leg.part(0.0, length_mm)
    if len(leg.runs) == 1 and len(leg.runs[0]) == 1:
        return Curve.line(leg.start, leg.start + leg.end_heading * length_mm)
    return leg.run_on(after_mm=length_mm - leg.length)


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


def _same(a: tuple[Point, ...], b: tuple[Point, ...]) -> bool:
    return len(a) == len(b) and all(abs(p - q) <= 3e-6 for p, q in zip(a, b, strict=True))


def _level_again(level: Level, old: Piece, new: Piece, fresh: Collection[EdgeKey]) -> Level:
    changed = [e for e in old.edges if e.key in fresh and new.edge(*e.key).parts != e.parts]
    if not changed or not level.strokes:
        return level
    strokes = []
    for stroke in level.strokes:
        stroke = _end_again(stroke, changed, new)
        strokes.append(_end_again(stroke[::-1], changed, new)[::-1])
    return replace(level, strokes=tuple(strokes))


def _end_again(stroke: Stroke, changed: list[Edge], new: Piece) -> Stroke:
    """Run a stroke's last end on, or cut it back, to the new line of the edge it ended on."""
    end = stroke[-1]
    on = [e for e in changed if e.nearest(end)[1] < ON_EDGE_MM]
    if not on:
        return stroke
    heading = unit(stroke[-1] - stroke[-2])
    meetings = [
        c
        for edge in on
        for part in new.edge(*edge.key).parts
        for c in with_line(part.run_on(0.5, 0.5), end, heading)
        if c.second_mm > -abs(stroke[-1] - stroke[-2])
    ]
    if not meetings:
        return stroke
    return (*stroke[:-1], min(meetings, key=lambda c: abs(c.second_mm)).point)
