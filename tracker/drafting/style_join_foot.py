"""Truing a panel seam's foot after it was taken in or let out: its two sides, the waist."""

import math
from dataclasses import replace

from tracker.drafting.style_finish import (
    NO_BEND_RAD,
    NO_DIFFERENCE_MM,
    SeamEnd,
    trimmed_at_foot,
    trued_at_foot,
)
from tracker.pattern.edge import Edge
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Fate, Stretch, Trace, edge_fates


def true_foot(pattern: Pattern, seam: Seam, bottom: str) -> tuple[Pattern, Trace]:
    """Take what one side is too long off its foot, and smooth the bottom edge across the seam.

    The second side stays longer than the first by the ease that was planned.

    Args:
        pattern: the pattern.
        seam: a seam of one run on either side that ends at the bottom edge.
        bottom: the bottom edge's name: "waist".
    """
    runs = seam.first[-1], seam.second[-1]
    old = [pattern.piece(r.piece, r.side) for r in runs]
    ends = [_end(p, r, bottom) for p, r in zip(old, runs, strict=True)]
    new = list(old)
    one, other = (e.edge(p).length for p, e in zip(old, ends, strict=True))
    over = one + seam.planned_ease_mm - other
    if abs(over) > NO_DIFFERENCE_MM:
        k = 0 if over > 0 else 1
        fresh = trimmed_at_foot(_rebased(old[k], ends[k].edge(old[k])), ends[k], abs(over))
        new[k] = fresh
    off = math.radians(
        sum(_angle(p, e) for p, e in zip(new, ends, strict=True)) - 180.0,
    )
    if abs(off) >= NO_BEND_RAD:
        new = [trued_at_foot(p, e, off / 2)[0] for p, e in zip(new, ends, strict=True)]
    fates = [
        fate
        for was, now, end in zip(old, new, ends, strict=True)
        if now is not was
        for fate in _fates(was, now, end)
    ]
    return pattern.with_pieces(*new), Trace(tuple(fates))


def _end(piece: Piece, run: Run, bottom: str) -> SeamEnd:
    edge = piece.edge(run.edge, run.side)
    at_start = piece.before(edge).name == bottom
    top, foot = (edge.end, edge.start) if at_start else (edge.start, edge.end)
    return SeamEnd(edge.name, edge.side, top, foot, bottom)


def _rebased(piece: Piece, edge: Edge) -> Piece:
    """What is cut off has its drawn line for a base."""
    return piece.with_edge(edge.rebased())


def _angle(piece: Piece, end: SeamEnd) -> float:
    edge = end.edge(piece)
    return corner_angle(piece, edge, edge.end == end.foot)


def _fates(old: Piece, new: Piece, end: SeamEnd) -> list[Fate]:
    out: list[Fate] = []
    was, now = end.edge(old), end.edge(new)
    if was is not now:
        # The same line, shorter: told apart by where it ends, not by how it came to be there.
        out += edge_fates(old.name, replace(was, displacements=()), replace(now, displacements=()))
    was, now = old.edge(end.waist, end.side), new.edge(end.waist, end.side)
    if was is not now:
        out.append(Fate(Stretch.whole(old, was), Stretch.whole(new, now)))
    return out
