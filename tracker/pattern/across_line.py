"""Which seams run across a material line: those it could be made larger or smaller at."""

from collections.abc import Iterator

from tracker.geometry.point import Point
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run

#: A line that ends this near a seam reaches it, millimetres.
_AT_MM = 1.0


def seams_across(pattern: Pattern, line: str) -> tuple[str, ...]:
    """Return the names of the seams that run across a material line.

    The side seams alone, where it has them; else every seam but those at a centre; else those.
    """
    names = dict.fromkeys(
        seam.name
        for seam in pattern.seams
        if any(_reaches(pattern, run, line) for run in seam.first)
        and any(_reaches(pattern, run, line) for run in seam.second)
    )
    sides = [name for name in names if name == "side"]
    off_centre = [name for name in names if "centre" not in name]
    return tuple(sides or off_centre or names)


def _reaches(pattern: Pattern, run: Run, line: str) -> bool:
    piece = pattern.piece(run.piece, run.side)
    edge = piece.edge(run.edge, run.side)
    if piece.layer != "shell" or not edge.parts:
        return False
    return any(
        edge.nearest(end)[1] <= _AT_MM
        for level in piece.levels
        if level.name == line and edge.name not in level.edges
        for end in _ends(piece, level)
    )


def _ends(piece: Piece, level: Level) -> Iterator[Point]:
    for stroke in level.strokes:
        yield stroke[0]
        yield stroke[-1]
    for edge in piece.edges:
        if edge.name in level.edges and edge.parts:
            yield edge.drawn[0].start
            yield edge.drawn[-1].end


__all__ = ["seams_across"]
