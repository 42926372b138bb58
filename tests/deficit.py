"""How much cloth is missing round a point: the angle a cone is short of flat (Gauss and Bonnet).

Measured from the outlines alone, and so independently of what the pattern says of its darts:
what the pieces that meet at a point leave of a full turn, and how far the two sides of a seam
turn away from one another along it.
"""

import itertools
import math

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, unit
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam

#: Corners of an outline nearer to a place than this are at it.
_AT_MM = 2e-5


def missing_at(pattern: Pattern, mark: str) -> float:
    """Radians the pieces of the shell that have a mark fall short of a full turn round it."""
    spots = [
        (piece, one.point)
        for piece in pattern.pieces
        if piece.layer == "shell"
        for one in piece.marks
        if one.name == mark
    ]
    return missing_round(*spots)


def missing_round(*spots: tuple[Piece, Point]) -> float:
    """Radians pieces fall short of a full turn round the places where they are sewn together.

    A place inside a piece has all of its cloth; at a corner of the outline, where darts end or a
    seam bends, the piece has its angle there.
    """
    return 2 * math.pi - sum(2 * math.pi - _left_out(piece, at) for piece, at in spots)


def _left_out(piece: Piece, at: Point) -> float:
    """Radians round a point that are not of a piece: 0 well inside it."""
    lines = [Curve.of([s]) for curve in piece.ring for s in curve.segments]
    out = sum(
        math.pi + turn_between(one.end_heading, two.start_heading)
        for one, two in itertools.pairwise([*lines, lines[0]])
        if abs(one.end - at) < _AT_MM
    )
    for dart in piece.darts:
        if dart.double_pointed and abs(dart.pivot - at) < _AT_MM:
            first, second = dart.legs
            out += abs(turn_between(first.start_heading, second.start_heading))
    return out


def missing_along(pattern: Pattern, seam: Seam) -> float:
    """Radians by which a seam's two sides bend away from one another from end to end.

    Sewn together they take as much out of the cloth: it is what a loop encloses that crosses the
    seam at either end. A dart whose mouth is in a side is folded first, and counts at its point.
    """
    one, two = (_turned(pattern, runs) for runs in (seam.first, seam.second))
    # Going forward round a piece its cloth lies to the left; it bulges where the line turns there.
    return two - one if seam.first[0].backward else one - two


def _turned(pattern: Pattern, runs: tuple[Run, ...]) -> float:
    """Radians a seam's side turns to the left from its start to its end, darts folded."""
    whole = 0.0
    for run in runs:
        piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
        for part in edge.drawn:
            at = [part.heading_at(part.length * k / 80) for k in range(81)]
            whole += sum(turn_between(a, b) for a, b in itertools.pairwise(at))
        for k, name in enumerate(edge.mouths):
            dart = piece.dart(name, edge.side)
            before = edge.drawn[k].end_heading / unit(dart.mouth_start - dart.pivot)
            after = edge.drawn[k + 1].start_heading / unit(dart.mouth_end - dart.pivot)
            whole += turn_between(before, after)
    return -whole if runs[0].backward else whole
