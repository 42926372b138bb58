"""An inside-leg point moved: its crotch and its inside leg drawn anew to meet there again."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from tracker.alterations.adjusted import adjusted
from tracker.alterations.crotch import CROTCH_LINE, Fork
from tracker.geometry.bezier import Segment, arc_length
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, dot, turn_between, turned, unit
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import ON_EDGE_MM, level_again
from tracker.pattern.marks import Level, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch, Trace
from tracker.pattern.walk import notch_on_edge

#: The crotch is drawn anew over this much at its point, or so many times the amount where that
#: is more: near the point it runs the way it is moved, but it is not to be crowded there, nor
#: to dip when the point is lowered.
_LEAST_CROTCH_MM, _CROWD, _DIPS = 60.0, 3.0, 9.0
#: A line drawn anew leaves and meets its chord at no more than this.
_MOST_RAD = math.radians(80.0)
#: Handles longer or shorter than a fair curve's, found from the old line.
_LEAST_PULL, _MOST_PULL = 0.5, 1.8

#: By how much two measures are missed, with the new lengths of crotch and inside leg and the
#: way the point has gone.
Misses = Callable[[float, float, Point], tuple[float, float]]
Fates = tuple[Fate, ...]


def point_moved(
    pattern: Pattern, fork: Fork, leg_mm: float, about: tuple[float, float], misses: Misses
) -> tuple[Pattern, Trace]:
    """Move an inside-leg point until two measures are met; its corner keeps its angle.

    Args:
        pattern: the pattern.
        fork: the point.
        leg_mm: from the point along the inside leg, where that is back on its old line.
        about: about how far the point goes out along the crotch, and down along the inside leg.
        misses: by how much the two measures are missed: first the one that answers to the way
            out, then the one that answers to the way down.

    Raises:
        PatternError: they cannot be met.
    """
    # Over the same stretch of cloth there and back again.
    room = max(_CROWD * abs(about[0]), _DIPS * abs(about[1]))
    reach = max(_LEAST_CROTCH_MM, room) + max(-about[0], 0.0)
    crotch = _Line(fork.crotch, fork.at_start, reach)
    inside = _Line(fork.inside, not fork.at_start, leg_mm)
    out, down = crotch.end_heading, -inside.end_heading
    where = f"the {fork.corner} of the {fork.piece.label}"

    def lines(amounts: Sequence[float]) -> tuple[Segment, Segment]:
        shift = out * amounts[0] + down * amounts[1]
        # The corner turns with the inside leg, so that this keeps its shape.
        turn = turn_between(fork.point - inside.far.end, fork.point + shift - inside.far.end)
        return crotch.redrawn(shift, turn), inside.redrawn(shift, turn)

    def missed(amounts: Sequence[float]) -> Sequence[float]:
        one, two = lines(amounts)
        return misses(
            fork.crotch.length - crotch.reach + arc_length(one),
            fork.inside.length - inside.reach + arc_length(two),
            one[-1] - fork.point,
        )

    amounts = adjusted(
        missed, about, (1.0, -1.0), f"{where} cannot be moved so far; a smaller amount would, or "
        "one that runs out further down the leg", decimals=7,
    )  # fmt: skip
    one, two = lines(amounts)
    if not (crotch.is_fair(one) and inside.is_fair(two)):
        raise PatternError(
            f"{where} would be moved so far that the crotch doubles back on itself; a smaller "
            "amount would fit"
        )
    return _put(pattern, fork, (crotch, one), (inside, two))


def stretched(fork: Fork, piece: Piece, shift: Point, curve_mm: float) -> tuple[Piece, Fates]:
    """Draw a crotch's curve anew after the piece was cut across below or within it.

    What is above the curve is where its cloth is now; it may have been tipped.

    Args:
        fork: the point before the cut.
        piece: the piece after it.
        shift: how far the point was moved by it.
        curve_mm: from the point along the old crotch, where its curve began.
    """
    line = _Line(fork.crotch, fork.at_start, curve_mm)
    old, new = line.run, _Line(piece.edge(*fork.crotch.key), fork.at_start, curve_mm).run
    turn = turn_between(old.start_heading, new.start_heading)
    tipped = Motion.move(-old.start).then(Motion.turn(0j, turn)).then(Motion.move(new.start))
    edge = line.with_line(line.redrawn(shift, 0.0, tipped), tipped)
    out = piece.with_edge(edge)
    levels = tuple(level_again(v, piece, out, [edge.key]) for v in piece.levels)
    still = abs(turn) < 1e-12 and abs(new.start - old.start) < SAME_MM
    return replace(out, levels=levels), line.fates(fork.piece, edge, still=still)


@dataclass(frozen=True)
class _Line:
    """An edge at an inside-leg point, of which the stretch next to it is drawn anew.

    Attributes:
        edge: the edge.
        at_start: whether the point is the edge's start.
        most: how much of it is drawn anew, where there is as much.
    """

    edge: Edge
    at_start: bool
    most: float

    @cached_property
    def run(self) -> Curve:
        """The part of the edge at the point, run to the point."""
        return self.edge.drawn[0].reversed if self.at_start else self.edge.drawn[-1]

    @property
    def reach(self) -> float:
        """How much is drawn anew, from the point."""
        return min(self.most, self.run.length * 0.9)

    @cached_property
    def far(self) -> Curve:
        """What stays, run towards the point."""
        return self.run.part(0.0, self.run.length - self.reach)

    @property
    def end_heading(self) -> Point:
        """The direction at the point, out of the edge."""
        return self.run.end_heading

    def redrawn(self, shift: Point, turn: float, tipped: Motion = STAY) -> Segment:
        """Return the stretch drawn anew to a moved end, whose direction has turned."""
        heading = turned(self.end_heading, 0j, turn)
        return self._cubic(self.far.moved(tipped), self.run.end + shift, heading, self._pull)

    @cached_property
    def _pull(self) -> float:
        """Handles, as a multiple of a fair curve's, with which the old stretch has its length."""
        far, end, heading = self.far, self.run.end, self.end_heading
        low, high = _LEAST_PULL, _MOST_PULL

        def length(pull: float) -> float:
            return arc_length(self._cubic(far, end, heading, pull))

        if not length(low) < self.reach < length(high):
            return 1.0
        for _ in range(40):
            middle = (low + high) / 2
            low, high = (middle, high) if length(middle) < self.reach else (low, middle)
        return low

    @staticmethod
    def _cubic(far: Curve, end: Point, heading: Point, pull: float) -> Segment:
        """A fair cubic from what stays to an end, by Hobby's rule for the handles.

        Discrete & Computational Geometry 1, 1986.
        """
        start, leaving = far.end, far.end_heading
        chord = end - start
        theta, phi = turn_between(chord, leaving), turn_between(heading, chord)
        one, two = _hobby(theta, phi), _hobby(phi, theta)
        size = abs(chord) * pull
        return start, start + leaving * one * size, end - heading * two * size, end

    def is_fair(self, line: Segment) -> bool:
        """Tell whether the new stretch runs on from what stays without doubling back."""
        chord = line[-1] - line[0]
        handles = (line[1] - line[0], line[3] - line[2])
        return all(abs(turn_between(chord, h)) < _MOST_RAD for h in handles)

    def with_line(self, line: Segment, tipped: Motion = STAY) -> Edge:
        """Return the edge with the new stretch; what it was is history now."""
        run = self.far.moved(tipped).joined(Curve.of([line]))
        parts = self.edge.parts
        parts = (run.reversed, *parts[1:]) if self.at_start else (*parts[:-1], run)
        return replace(self.edge, parts=parts, bases=(), displacements=())

    def fates(self, piece: Piece, new: Edge, *, still: bool = True) -> Fates:
        """What became of the edge: the stretch that is as it was, and the one drawn anew."""
        old, kept = self.edge, self.edge.length - self.reach

        def stretch(edge: Edge, a: float, b: float) -> Stretch:
            if self.at_start:
                a, b = edge.length - b, edge.length - a
            return Stretch(piece.name, edge.name, edge.side, a, b)

        moved = Fate(stretch(old, kept, old.length), stretch(new, kept, new.length))
        if kept <= SHORTEST_MM:
            return (moved,)
        return (Fate(stretch(old, 0.0, kept), stretch(new, 0.0, kept), still=still), moved)


def without(trace: Trace, piece: Piece, edge: Edge) -> tuple[Fate, ...]:
    """Return the fates of a trace that are not of one edge of one piece."""
    key = (piece.name, edge.name, edge.side)
    return tuple(
        f
        for f in trace.fates
        if key not in (f.old.key if f.old else (), f.new.key if f.new else ())
    )


def _hobby(theta: float, phi: float) -> float:
    """The length of a handle, as a share of the chord, for angles to it at this and that end."""
    sin_t, cos_t, sin_p, cos_p = math.sin(theta), math.cos(theta), math.sin(phi), math.cos(phi)
    above = 2 + math.sqrt(2) * (sin_t - sin_p / 16) * (sin_p - sin_t / 16) * (cos_t - cos_p)
    root = math.sqrt(5)
    return above / (3 * (1 + (root - 1) / 2 * cos_t + (3 - root) / 2 * cos_p))


def _put(pattern: Pattern, fork: Fork, *drawn: tuple[_Line, Segment]) -> tuple[Pattern, Trace]:
    """Put the new lines into the pattern; material lines and notches follow."""
    old = new = fork.piece
    fates: list[Fate] = []
    for line, segment in drawn:
        edge = line.with_line(segment)
        new = new.with_edge(edge)
        fates += line.fates(old, edge)
    trace = Trace(tuple(fates))
    fresh = [line.edge.key for line, _ in drawn]
    new = replace(new, notches=tuple(_notch(n, old, new, trace) for n in old.notches))
    levels = (level_again(v, old, new, fresh) for v in old.levels)
    new = replace(new, levels=tuple(_through_point(v, old, new, fork) for v in levels))
    return pattern.with_pieces(new), trace


def _notch(notch: Notch, old: Piece, new: Piece, trace: Trace) -> Notch:
    """Return a notch where its cloth is now."""
    edge = old.edge(notch.edge, notch.side)
    there = trace.forward(old.name, edge.name, edge.side, notch_on_edge(edge, notch))
    if there is None or not trace.of(old.name, edge.name, edge.side):
        return notch
    now = new.edge(*edge.key)
    on = there.start_mm if notch.corner == now.start else now.length - there.start_mm
    return notch if abs(on - notch.distance_mm) < SHORTEST_MM else replace(notch, distance_mm=on)


def _through_point(level: Level, old: Piece, new: Piece, fork: Fork) -> Level:
    """Return the crotch line through the point again, as it ran before; other lines as they are."""
    if level.name != CROTCH_LINE or len(level.strokes) != 1:
        return level
    was = old.level(*level.key).strokes[0]
    if abs(was[-1] - fork.point) < ON_EDGE_MM:
        was = was[::-1]
    if len(was) != 2 or abs(was[0] - fork.point) >= ON_EDGE_MM:
        return level
    point, way = fork.of_piece(new).point, unit(was[1] - was[0])
    met = [
        c.point
        for edge in new.edges
        if edge.key not in (fork.crotch.key, fork.inside.key)
        for part in edge.parts
        for c in with_line(part, point, way)
        if c.second_mm > 1.0
    ]
    if not met:
        return level
    return replace(level, strokes=((point, min(met, key=lambda p: dot(p - point, way))),))
