"""Material lines that a seam taken in ran across: how much of one was cut away with the cloth."""

import itertools
from collections.abc import Iterator

from tracker.pattern.bodyside import BodySide
from tracker.pattern.levels import ON_EDGE_MM
from tracker.pattern.marks import Level, Stroke
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import write_tenths

#: A line cut shorter by less than this at its end is not worth a word, millimetres.
WORTH_MM = 10.0


def lines_cut(before: Pattern, after: Pattern) -> Iterator[str]:
    """Tell of each line that ends on another edge than it did, and is shorter for that.

    Its girth is measured as far as the line goes, so it is less by what was cut away.
    """
    known = {p.key: p for p in before.pieces}
    for piece in after.pieces:
        old = known.get(piece.key)
        if old is None or old is piece or not piece.has_outline or not old.has_outline:
            continue
        was = {v.key: v for v in old.levels}
        for level in piece.levels:
            if level.key in was and len(was[level.key].strokes) == len(level.strokes):
                yield from _cut(old, piece, was[level.key], level)


def _cut(old: Piece, new: Piece, was: Level, now: Level) -> Iterator[str]:
    for one, other in zip(was.strokes, now.strokes, strict=True):
        gone = _length(one) - _length(other)
        if gone <= WORTH_MM:
            continue
        for at in (0, -1):
            there = _ends_on(new, other[at], now.side)
            if there and not there & _ends_on(old, one[at], was.side):
                yield (
                    f"the {now.name} of the {new.label} ends at its {sorted(there)[0]} now: "
                    f"{write_tenths(gone)} of it were cut away, and its girth is what is left"
                )


def _ends_on(piece: Piece, end: complex, side: BodySide) -> set[str]:
    return {
        e.name
        for e in piece.edges
        if side in (e.side, BodySide.CENTRE) and e.nearest(end)[1] < ON_EDGE_MM
    }


def _length(stroke: Stroke) -> float:
    return sum(abs(b - a) for a, b in itertools.pairwise(stroke))


__all__ = ["lines_cut"]
