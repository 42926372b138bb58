"""Drawing a piece again from its base lines and what was done to them.

The drawn line of an edge is its base displaced, run on straight or trimmed to meet its
neighbours and the legs of its darts. Everything follows from the base lines and the
displacements and nothing from the lines drawn before, so that letting out what was taken in
gives the same piece, and an amount in two steps the same as in one.
"""

import math
from collections.abc import Collection
from dataclasses import dataclass, replace

from tracker.geometry.bezier import Segment
from tracker.geometry.crossing import nearest_spot
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.point import SAME_MM, Point, cross, dot, left_of, unit
from tracker.geometry.profile import Sum
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.legs import RUN_ON_MM, leg_of_length, leg_to, lengthened
from tracker.pattern.levels import level_again
from tracker.pattern.piece import Piece
from tracker.pattern.trimming import End, trimmed

EdgeKey = tuple[str, BodySide]

#: What moved by less than the store's rounding may make of it has not moved, millimetres.
KEPT_MM = 3e-6
#: The corner at which the neighbour is run on square to the seam.
UNDERARM = "underarm point"
#: Edges that bend by less at their corner (as a slope) are one line: neither slides along the
#: other, they move together.
STRAIGHT_ON = 0.02
#: An amount stated at a corner is met there to this, millimetres.
_AT_CORNER_MM = 0.005


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


_NOTHING = Sum(())


@dataclass(frozen=True, slots=True)
class _Corner:
    before: End
    after: End


class _Redrawing:
    def __init__(self, piece: Piece, moved: set[EdgeKey]) -> None:
        self.piece = piece
        self.moved = moved
        n = len(piece.edges)
        self.touched = [
            i for i in range(n) if any(piece.edges[k % n].key in moved for k in (i - 1, i, i + 1))
        ]
        self.totals: dict[EdgeKey, Sum] = {}
        self.meetings: dict[int, tuple[Edge, Edge, float, float]] = {}
        self.lines: dict[EdgeKey, tuple[Curve, ...]] = {}
        # Where, from either end, the amount stated at the corner is already reached.
        self.holds: dict[EdgeKey, tuple[float, float]] = {}
        self.corners: dict[int, _Corner] = {}

    def total(self, edge: Edge) -> Sum:
        """All displacements of an edge, as the store will keep them."""
        if not edge.displacements:
            return _NOTHING
        known = self.totals.get(edge.key)
        if known is None:
            known = self.totals[edge.key] = Sum.of(
                d.profile.rounded for d in edge.displacements
            ).merged
        return known

    def line(self, edge: Edge) -> tuple[Curve, ...]:
        """The edge's full lines, part by part: base displaced, not trimmed."""
        known = self.lines.get(edge.key)
        if known is None:
            total = self.total(edge)
            known = edge.base_lines
            if total.profiles:
                total = self.held(edge, total, *self.holds.get(edge.key, (-math.inf, math.inf)))
                out, at = [], 0.0
                for base in known:
                    out.append(displaced(base, total, at))
                    at += base.length
                known = tuple(out)
            self.lines[edge.key] = known
        return known

    @staticmethod
    def held(edge: Edge, total: Sum, low: float, high: float) -> Sum:
        """Draw amounts stated at an edge's ends further in; those stated beyond it stay."""
        if low == -high == -math.inf:
            return total
        most = edge.base_length + SAME_MM
        return Sum.of(
            p.held(
                low if p.knots[0][0] >= -SAME_MM else -math.inf,
                high if p.knots[-1][0] <= most else math.inf,
            )
            for p in total.profiles
        )

    def done(self) -> Piece:
        piece = self.piece
        self.meet_all()
        while more := self.left_apart():
            self.touched = sorted({*self.touched, *more})
            self.holds, self.lines, self.corners = {}, {}, {}
            self.meet_all()
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
        return replace(drawn, levels=levels)

    def meet_all(self) -> None:
        """Work out every corner of the edges to be drawn, and what must be held for them."""
        n = len(self.piece.edges)
        around = sorted({i for k in self.touched for i in (k, (k + 1) % n)})
        for _ in range(4):
            self.meet(around)
            held = [i for i in around if self.hold_corner(i)]
            if not held:
                break
        self.meet(around)

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
                if abs(self.corners[k].before.point - end) > SAME_MM:
                    apart.append(before)
            if after not in self.touched:
                start = edges[after].parts[0].start
                if abs(self.corners[after].after.point - start) > SAME_MM:
                    apart.append(after)
        return apart

    def meet(self, around: Collection[int]) -> None:
        """Work out the corners not yet known."""
        for i in around:
            if i not in self.corners:
                self.corners[i] = self.corner(i)

    # -- corners ---------------------------------------------------------------------------

    def at_corner(self, i: int) -> tuple[Edge, Edge, float, float]:
        """The edges that meet at the start of edge i, and how far each is moved there."""
        known = self.meetings.get(i)
        if known is None:
            before, after = self.piece.edges[i - 1], self.piece.edges[i]
            first, second = self.total(before), self.total(after)
            one = first.at(before.base_length)[0] if first.profiles else 0.0
            two = second.at(0.0)[0] if second.profiles else 0.0
            known = self.meetings[i] = before, after, one, two
        return known

    def expected(self, i: int) -> Point:
        """About where a corner will be, by the directions of its two base lines there."""
        before, after, one, two = self.at_corner(i)
        corner = before.base_lines[-1].end
        h1, h2 = before.base_lines[-1].end_heading, after.base_lines[0].start_heading
        det = cross(h1, h2)
        if abs(det) < 0.1:
            return corner + (left_of(h1) * one if abs(one) > abs(two) else left_of(h2) * two)
        return corner + (h2 * one - h1 * two) / det

    def hold(self, edge: Edge, amount: float, at: float, inside: float, at_end: bool) -> bool:
        """See to it that an amount stated at a corner is had where the corner will slide to."""
        room = edge.base_lines[-1 if at_end else 0].length
        if amount == 0.0 or not SAME_MM < inside < room:
            return False
        low, high = self.holds.get(edge.key, (-math.inf, math.inf))
        total = self.held(edge, self.total(edge), low, high)
        if abs(total.at(at)[0] - amount) <= _AT_CORNER_MM:
            return False
        fresh = (low, at) if at_end else (at, high)
        if fresh[0] >= fresh[1] - 1.0:
            return False
        self.holds[edge.key] = fresh
        self.lines.pop(edge.key, None)
        n = len(self.piece.edges)
        k = self.piece.edge_index(edge)
        self.corners.pop(k, None)
        self.corners.pop((k + 1) % n, None)
        return True

    def hold_corner(self, i: int) -> bool:
        """Hold where a corner has slid to a stretch that is moved by another amount."""
        if i not in self.corners:
            return True
        before, after, one, two = self.at_corner(i)
        point = self.corners[i].after.point
        again = False
        if one and self.corners[i].before.cut:
            base = before.base_lines[-1]
            along, gap = base.nearest(point)
            if abs(gap - abs(one)) > _AT_CORNER_MM:
                at = before.base_length - base.length + along
                again = self.hold(before, one, at, base.length - along, True)
        if two and self.corners.get(i) and self.corners[i].after.cut:
            along, gap = after.base_lines[0].nearest(point)
            if abs(gap - abs(two)) > _AT_CORNER_MM:
                again = self.hold(after, two, along, along, False) or again
        return again

    def corner(self, i: int) -> _Corner:
        """Where two neighbouring edges meet, and how each comes to end there."""
        before, after, one, two = self.at_corner(i)
        line, other = self.line(before)[-1], self.line(after)[0]
        gap = abs(line.end - other.start)
        if gap <= SAME_MM:
            return _Corner(End(other.start), End(other.start))
        if gap < 2 * STRAIGHT_ON * max(abs(one), 1.0) and (
            abs(cross(line.end_heading, other.start_heading)) < STRAIGHT_ON
        ):
            middle = (line.end + other.start) / 2
            return _Corner(End(middle), End(middle))
        if before.end == UNDERARM:
            level = self.level_underarm(line, other, one, two)
            if level is not None:
                return level
        spot = nearest_spot(
            line.run_on(after_mm=RUN_ON_MM), other.run_on(before_mm=RUN_ON_MM), self.expected(i)
        )
        if spot is None:
            raise DoesNotMeet(
                f"the {before.name} and the {after.name} of the {self.piece.label} no longer "
                f"meet at the {before.end}; a smaller amount there would"
            )
        point = spot.point
        first = End(point, spot.first)
        if spot.first[0] == len(line.runs):
            first = End.run_on(line.end, line.end_heading, point)
        second = End(point, (spot.second[0] - 1, spot.second[1]))
        if spot.second[0] == 0:
            second = End.run_on(other.start, -other.start_heading, point)
        return _Corner(first, second)

    @staticmethod
    def level_underarm(line: Curve, other: Curve, one: float, two: float) -> _Corner | None:
        """Let a seam out past the armhole's end: the armhole is run on square to the seam.

        Run on by its own direction it would rise or fall, and with it the underarm.
        """
        if one < 0.0 and two == 0.0:
            seam_end, along, hole_end, hole_out = (
                line.end, line.end_heading, other.start, -other.start_heading,
            )  # fmt: skip
        elif two < 0.0 and one == 0.0:
            seam_end, along, hole_end, hole_out = (
                other.start, -other.start_heading, line.end, line.end_heading,
            )  # fmt: skip
        else:
            return None
        corner = seam_end + along * dot(hole_end - seam_end, along)
        square = unit(corner - hole_end)
        if dot(square, hole_out) < math.cos(math.radians(45)):
            return None
        reach = abs(corner - hole_end)
        bend = abs(cross(square, hole_out))
        on: Segment = (hole_end, corner)
        if bend > math.sin(math.radians(0.9)):
            on = hole_end, hole_end + hole_out * (reach / 3), corner - square * (reach / 3), corner
        seam = End.run_on(seam_end, along, corner)
        if dot(corner - seam_end, along) < -SAME_MM:
            return None
        hole = End(corner, on=on)
        return _Corner(seam, hole) if one < 0.0 else _Corner(hole, seam)

    # -- parts -----------------------------------------------------------------------------

    def parts(self, i: int, darts: dict[EdgeKey, Dart]) -> tuple[Curve, ...]:
        """Draw an edge's parts, and put the darts that open from it on them."""
        edge, lines = self.piece.edges[i], self.line(self.piece.edges[i])
        starts, ends, at = [self.corners[i].after], [], 0.0
        for k, name in enumerate(edge.mouths):
            dart = self.piece.dart(name, edge.side)
            at += edge.base_lines[k].length
            first, second = End(lines[k].end), End(lines[k + 1].start)
            if dart.mouth_start != first.point or dart.mouth_end != second.point:
                dart, first, second = self.mouth(edge, dart, lines[k], lines[k + 1], at)
                darts[dart.key] = dart
            ends.append(first)
            starts.append(second)
        ends.append(self.corners[(i + 1) % len(self.piece.edges)].before)
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
        if self.total(edge).at(at_mm)[0] == 0.0:
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
