"""Edges of one or several pieces laid end to end as they are sewn, their darts closed."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam

EdgeOn = tuple[Piece, Edge]
#: An edge that bends from the one before it by less goes on with it.
RUNS_ON_RAD = math.radians(25)


class NotOneLine(TrackerError):
    """Edges that do not follow one another."""


@dataclass(frozen=True)
class Laid:
    """An edge as it lies when its darts are closed.

    Attributes:
        piece: the piece.
        edge: the edge.
        line: the edge as one line, dart mouths closed.
        first: how its beginning was moved from where the pattern has it.
        last: how its end was.
        mouths: where along it each dart was closed: (distance, dart name).
        motions: how each of its parts, between the mouths, was moved.
    """

    piece: Piece
    edge: Edge
    line: Curve
    first: Motion
    last: Motion
    mouths: tuple[tuple[float, str], ...] = ()
    motions: tuple[Motion, ...] = ()

    def moved(self, motion: Motion) -> "Laid":
        """Return it moved as a whole."""
        return replace(
            self,
            line=self.line.moved(motion),
            first=self.first.then(motion),
            last=self.last.then(motion),
            motions=tuple(m.then(motion) for m in self.motions),
        )


@dataclass(frozen=True)
class Row:
    """Edges laid end to end, with the edges that go on at either end.

    Attributes:
        before: the edge of the first piece that ends where the row begins.
        edges: the row, going round the pieces counter-clockwise.
        after: the edge of the last piece that starts where the row ends.
        seams: the name of the seam at each joint; "" where the edges are of one piece.
        further_before: the edges ``before`` goes on from without a corner, the nearest last.
        further_after: the edges ``after`` goes on into without a corner, the nearest first.
    """

    before: Laid
    edges: tuple[Laid, ...]
    after: Laid
    seams: tuple[str, ...]
    further_before: tuple[Laid, ...] = ()
    further_after: tuple[Laid, ...] = ()

    def moved(self, motion: Motion) -> "Row":
        """Return it moved as a whole."""
        return replace(
            self,
            before=self.before.moved(motion),
            edges=tuple(e.moved(motion) for e in self.edges),
            after=self.after.moved(motion),
            further_before=tuple(e.moved(motion) for e in self.further_before),
            further_after=tuple(e.moved(motion) for e in self.further_after),
        )

    @property
    def beside_start(self) -> tuple[Laid, ...]:
        """The edges that end where the row begins, going round the piece."""
        return (*self.further_before, self.before)

    @property
    def beside_end(self) -> tuple[Laid, ...]:
        """The edges that start where the row ends, going round the piece."""
        return (self.after, *self.further_after)


def closed_forward(piece: Piece, edge: Edge, motion: Motion = STAY) -> Laid:
    """Lay an edge from its start on, each dart closed in turn.

    Args:
        piece: the piece.
        edge: one of its edges.
        motion: how its start is moved.
    """
    first, line, mouths = motion, edge.drawn[0].moved(motion), []
    motions = [motion]
    for name, part in zip(edge.mouths, edge.parts[1:], strict=True):
        dart = piece.dart(name, edge.side)
        mouths.append((line.length, name))
        to_first = turn_between(dart.mouth_end - dart.pivot, dart.mouth_start - dart.pivot)
        motion = Motion.turn(dart.pivot, to_first).then(motion)
        motions.append(motion)
        line = line.joined(part.moved(motion).started_at(line.end))
    return Laid(piece, edge, line, first, motion, tuple(mouths), tuple(motions))


def inverse(motion: Motion) -> Motion:
    """Return what takes a turn and shift back."""
    factor = motion.factor.conjugate()
    return Motion(factor=factor, shift=-motion.shift * factor)


def closed_backward(piece: Piece, edge: Edge, motion: Motion = STAY) -> Laid:
    """Lay an edge so that its end is moved by a motion, each dart closed before it."""
    laid = closed_forward(piece, edge)
    return laid.moved(inverse(laid.last).then(motion))


def row_of(pattern: Pattern, edges: Sequence[EdgeOn], align_mm: float) -> Row:
    """Lay edges end to end.

    The order in which they are named does not matter: they follow one another round a piece,
    or through a seam. Edges that make a ring begin with the first named.

    Args:
        pattern: the pattern.
        edges: edges with their pieces.
        align_mm: how far from the row two pieces lie on their seam: a facing's width.

    Raises:
        NotOneLine: they do not follow one another.
    """
    ordered = _in_order(pattern, edges)
    piece, edge = ordered[0][0]
    laid = closed_forward(piece, edge)
    before = closed_backward(piece, piece.before(edge), laid.first)
    row = [laid]
    for (piece, edge), seam in ordered[1:]:
        last = row[-1]
        if seam is None:
            row.append(closed_forward(piece, edge, last.last))
            continue
        here = closed_forward(last.piece, last.piece.after(last.edge), last.last).line
        there = closed_backward(piece, piece.before(edge)).line
        reach = min(align_mm, here.length, there.length)
        way_here = here.point_at(reach) - here.start
        way_there = there.point_at(there.length - reach) - there.end
        turn = Motion.turn(there.end, turn_between(way_there, way_here))
        onto = turn.then(Motion.move(here.start - there.end))
        row.append(closed_forward(piece, edge, onto))
    last = row[-1]
    after = closed_forward(last.piece, last.piece.after(last.edge), last.last)
    seams = tuple(s.name if s else "" for _, s in ordered[1:])
    return Row(before, tuple(row), after, seams, _running_from(before), _running_into(after))


def _running_from(laid: Laid) -> tuple[Laid, ...]:
    out: list[Laid] = []
    while len(out) < len(laid.piece.edges) // 2:
        edge = laid.piece.before(laid.edge)
        before = closed_backward(laid.piece, edge, laid.first)
        if abs(turn_between(before.line.end_heading, laid.line.start_heading)) > RUNS_ON_RAD:
            break
        out.insert(0, before)
        laid = before
    return tuple(out)


def _running_into(laid: Laid) -> tuple[Laid, ...]:
    out: list[Laid] = []
    while len(out) < len(laid.piece.edges) // 2:
        edge = laid.piece.after(laid.edge)
        after = closed_forward(laid.piece, edge, laid.last)
        if abs(turn_between(laid.line.end_heading, after.line.start_heading)) > RUNS_ON_RAD:
            break
        out.append(after)
        laid = after
    return tuple(out)


def _in_order(pattern: Pattern, edges: Sequence[EdgeOn]) -> list[tuple[EdgeOn, Seam | None]]:
    keys = [_key(e) for e in edges]
    onward: dict[int, tuple[int, Seam | None]] = {}
    for i, (piece, edge) in enumerate(edges):
        for j, (other, follows) in enumerate(edges):
            if i == j:
                continue
            if piece.key == other.key and piece.after(edge).key == follows.key:
                onward[i] = j, None
            elif piece.key != other.key:
                seam = _joining(pattern, (piece, edge), (other, follows))
                if seam is not None:
                    onward[i] = j, seam
    reached = {j for j, _ in onward.values()}
    starts = [i for i in range(len(edges)) if i not in reached]
    if len(starts) > 1:
        apart = " and ".join(f"the {edges[i][1].name} of the {edges[i][0].label}" for i in starts)
        raise NotOneLine(
            f"{apart} do not follow one another, round a piece or through a seam; "
            "take one after the other"
        )
    at = starts[0] if starts else 0
    out: list[tuple[EdgeOn, Seam | None]] = [(edges[at], None)]
    done = {at}
    while at in onward and onward[at][0] not in done:
        at, seam = onward[at]
        done.add(at)
        out.append((edges[at], seam))
    if len(done) < len(keys):
        left = next(e for i, e in enumerate(edges) if i not in done)
        raise NotOneLine(
            f"the {left[1].name} of the {left[0].label} does not follow the others; take it alone"
        )
    return out


def _key(edge: EdgeOn) -> tuple[object, ...]:
    return (*edge[0].key, *edge[1].key)


def _joining(pattern: Pattern, one: EdgeOn, other: EdgeOn) -> Seam | None:
    """Return the seam that lays the end of one edge on the start of another."""
    (piece, edge), (second, follows) = one, other
    ends = {
        (piece.name, piece.after(edge).key, edge.end),
        (second.name, second.before(follows).key, follows.start),
    }
    for seam in pattern.seams:
        # What meets at the centre is the other half, opened there or not.
        if seam.on_itself or seam.side is BodySide.CENTRE:
            continue
        for at_end in (False, True):
            met = {_end(pattern, side, at_end) for side in (seam.first, seam.second)}
            if met == ends:
                return seam
    return None


def _end(
    pattern: Pattern, runs: tuple[Run, ...], at_end: bool
) -> tuple[str, tuple[str, object], str]:
    run = runs[-1] if at_end else runs[0]
    edge = pattern.edge_of(run)
    corner = edge.end if at_end != run.backward else edge.start
    return run.piece, edge.key, corner


def joints_mm(row: Row) -> tuple[float, ...]:
    """Return how far along the row each of its joints lies."""
    return tuple(itertools.accumulate(e.line.length for e in row.edges[:-1]))


__all__ = [
    "RUNS_ON_RAD", "EdgeOn", "Laid", "NotOneLine", "Row", "closed_backward", "closed_forward",
    "inverse", "joints_mm", "row_of",
]  # fmt: skip
