"""Measuring a pattern as sewn: girths at material lines, edges all round, corner angles."""

import itertools
import math

from tracker.errors import nearest_names
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def level_length(piece: Piece, level: Level) -> float:
    """Return the length of a material line on one piece as sewn, millimetres."""
    strokes = sum(abs(b - a) for s in level.strokes for a, b in itertools.pairwise(s))
    return strokes + sum(piece.edge(name, level.side).length for name in level.edges)


def lines_of(pattern: Pattern) -> tuple[str, ...]:
    """Return the names of the lines a girth is taken at, in the order the pieces have them.

    A line on the centre (the fold of an opened-out piece) is none of them.
    """
    seen = {
        level.name: None
        for p in pattern.pieces
        if p.layer == "shell"
        for level in p.levels
        if level.side is not BodySide.CENTRE
    }
    return tuple(seen)


def girth(pattern: Pattern, line: str, side: BodySide | None = None) -> float:
    """Return the finished girth at a material line in millimetres.

    Shell only, each piece as many times as it is in the garment, to the centre line only.

    Args:
        pattern: the pattern.
        line: "bust line", "waist line" …
        side: only the wearer's right or left half, if given.
    """
    total, found = 0.0, False
    for piece in pattern.pieces:
        if piece.layer != "shell":
            continue
        for level in piece.levels:
            if level.name == line:
                found = True
                total += level_length(piece, level) * _times(piece, level.side, side)
    if not found:
        known = list(lines_of(pattern))
        raise UnknownName(
            f"this pattern has no line called {line!r}; it has {', '.join(known)}."
            f"{nearest_names(line, known)}"
        )
    return total


def around(pattern: Pattern, edge_name: str, side: BodySide | None = None) -> float:
    """Return the length of all shell edges of a name as sewn.

    The whole neckline, both armholes; or the wearer's right or left half of it. An edge that was
    cut in two keeps its name in front and is called the back one behind: both count.
    """
    return sum(
        edge.length * _times(piece, edge.side, side)
        for piece in pattern.pieces
        if piece.layer == "shell"
        for edge in piece.edges
        if edge.name in (edge_name, f"back {edge_name}")
    )


def _times(piece: Piece, of: BodySide, wanted: BodySide | None) -> float:
    if wanted is None or wanted in (BodySide.BOTH, BodySide.CENTRE):
        return piece.copies
    if of is BodySide.BOTH:
        return piece.copies / 2
    return piece.copies if of is wanted else 0


def corner_angle(piece: Piece, edge: Edge, at_end: bool) -> float:
    """Return the angle inside the piece at one end of an edge, degrees."""
    if at_end:
        before, after = edge, piece.after(edge)
    else:
        before, after = piece.before(edge), edge
    turn = turn_between(before.drawn[-1].end_heading, after.drawn[0].start_heading)
    return 180.0 - math.degrees(turn)


def over_the_centre(piece: Piece, edge: Edge, at_end: bool) -> bool:
    """Tell whether what goes on at an end of an edge is its own other half, of an opened piece.

    The corner there counts twice what it does of a half piece: 180° where that was square.
    """
    onward = piece.after(edge) if at_end else piece.before(edge)
    return onward.name == edge.name and onward.side is not edge.side


def area(pattern: Pattern) -> float:
    """Return the area of the shell's drawn pieces times their copies, mm²."""
    return sum(p.area_mm2 * p.copies for p in pattern.pieces if p.layer == "shell")
