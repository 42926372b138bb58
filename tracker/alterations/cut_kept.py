"""What a cut replaced, kept on the piece, and moved with its cloth by later cuts."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.alterations.cut_again import Found, alike, moved_by, same
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.cut import KEPT_CUTS, Cut, Redrawn
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.piece import Piece

Key = tuple[str, BodySide]


@dataclass(frozen=True, slots=True)
class Drawn:
    """How one end of a cut was drawn: the edge before, and on both what was taken out or put in."""

    old: Edge
    taken: tuple[float, float]
    put: tuple[float, float]
    by_mm: float
    start_moved: bool


def remembered(
    old: Piece, new: Piece, motion: Motion, moved: Sequence[Key], ends: Sequence[Drawn],
    crossed: Sequence[Key],
) -> Cut | None:  # fmt: skip
    """Return what a cut replaced; nothing where it cannot be told.

    Args:
        old: the piece before.
        new: the piece after.
        motion: how the moved cloth went.
        moved: the edges wholly in it.
        ends: the two ends of the cut.
        crossed: the darts it went across.
    """
    lines: list[Redrawn] = []
    beside: list[Redrawn] = []
    by_edge = {end.old.key: end for end in ends}
    for edge in old.edges:
        now, end = new.edge(*edge.key), by_edge.get(edge.key)
        if now.parts is edge.parts:
            continue
        if now.mouths != edge.mouths or len(now.parts) != len(edge.parts):
            return None
        where = motion if edge.key in moved else STAY
        at_old = at_new = 0.0
        for was, line in zip(edge.parts, now.parts, strict=True):
            here = end is not None and at_old <= end.taken[0] <= at_old + was.length
            if end is not None and here and not any(r.key == edge.key for r in lines):
                pair = (motion, STAY) if end.start_moved else (STAY, motion)
                redrawn = _between(edge, was, line, *pair)
                if redrawn is None:
                    return None
                stretch, from_old, from_new = redrawn
                lines.append(
                    replace(
                        stretch, by_mm=end.by_mm, start_moved=end.start_moved,
                        taken=_since(end.taken, at_old + from_old),
                        put=_since(end.put, at_new + from_new),
                    )
                )  # fmt: skip
            else:
                if end is not None:
                    before = at_old < end.taken[0]
                    where = motion if before == end.start_moved else STAY
                redrawn = _between(edge, was, line, where, where)
                if redrawn is not None:
                    beside.append(redrawn[0])
            at_old, at_new = at_old + was.length, at_new + line.length
    if len(lines) != 2:
        return None
    left, low, right, high = old.box
    spots = complex(left, low), complex(right, high)
    inner = [d.key for d in old.darts if d.double_pointed and d.legs != new.dart(*d.key).legs]
    darts = tuple((old.dart(*key), new.dart(*key)) for key in (*crossed, *inner))
    went = motion.of(spots[0]), motion.of(spots[1])
    levels = tuple(
        (was, now)
        for was, now in zip(old.levels, new.levels, strict=True)
        if was.strokes and not alike(was, now)
    )
    based = tuple(e for e in old.edges if e.bases and not new.edge(*e.key).bases)
    return Cut(spots, went, (lines[0], lines[1]), tuple(beside), darts, levels, based)


def carried(
    cut: Cut, piece: Piece, moved: Sequence[Key], ends: Sequence[Drawn], motion: Motion
) -> Cut:
    """Return an earlier cut as it lies after a later one moved some of the piece.

    Args:
        cut: the earlier cut.
        piece: the piece before the later one.
        moved: the edges wholly in the cloth it moved.
        ends: the later one's two ends.
        motion: how it moved the cloth.
    """

    def moves(line: Redrawn) -> bool:
        end = next((e for e in ends if e.old.key == line.key), None)
        if end is None:
            return line.key in moved
        found = Found.on(line, piece.edge(*line.key)) if line.key in known else None
        if found is None:
            return False
        if end.start_moved:
            return found.from_mm + line.now.length <= end.taken[0]
        return found.from_mm >= end.taken[1]

    known = {e.key for e in piece.edges}
    goes = [moves(line) for line in cut.ends]
    one, other = (
        line.carried(motion) if go else line for line, go in zip(cut.ends, goes, strict=True)
    )
    beside = tuple(r.carried(motion) if moves(r) else r for r in cut.beside)
    darts = tuple(
        (_dart_moved(was, motion), _dart_moved(now, motion)) if all(goes) else (was, now)
        for was, now in cut.darts
    )
    spots, went = cut.spots, cut.went
    if all(goes):
        spots = motion.of(spots[0]), motion.of(spots[1])
        went = motion.of(went[0]), motion.of(went[1])
    levels = cut.levels
    if all(goes):
        levels = tuple(
            (_level_moved(was, motion), _level_moved(now, motion)) for was, now in cut.levels
        )
    edges = cut.edges
    if all(goes):
        edges = tuple(_edge_moved(e, motion) for e in cut.edges)
    return Cut(spots, went, (one, other), beside, darts, levels, edges)


def _edge_moved(edge: Edge, motion: Motion) -> Edge:
    return replace(
        edge,
        parts=tuple(p.moved(motion) for p in edge.parts),
        bases=tuple(b.moved(motion) for b in edge.bases),
    )


def _level_moved(level: Level, motion: Motion) -> Level:
    strokes = tuple(tuple(motion.of(p) for p in stroke) for stroke in level.strokes)
    return replace(level, strokes=strokes)


def _dart_moved(dart: Dart, motion: Motion) -> Dart:
    return replace(dart, legs=(dart.legs[0].moved(motion), dart.legs[1].moved(motion)))


def kept(piece: Piece, cuts: Sequence[Cut]) -> Piece:
    """Return a piece that remembers its last cuts."""
    return replace(piece, cuts=tuple(cuts)[-KEPT_CUTS:])


def _since(span: tuple[float, float], start: float) -> tuple[float, float]:
    return span[0] - start, span[1] - start


def _between(
    edge: Edge, was: Curve, now: Curve, first: Motion, last: Motion
) -> tuple[Redrawn, float, float] | None:
    """What of a line is not the old one moved, and where it begins; nothing where all of it is."""
    a, b = was.segments, now.segments
    most = min(len(a), len(b))
    head = _same_first(zip(a, b, strict=False), first)
    if head == len(a) == len(b):
        return None
    tail = _same_first(zip(reversed(a), reversed(b), strict=False), last)
    head = min(head, most - 1)
    tail = min(tail, most - 1 - head)
    stretch = Redrawn(
        edge.name, edge.side, Curve.of(a[head : len(a) - tail]), Curve.of(b[head : len(b) - tail])
    )
    return stretch, was.reaches[head], now.reaches[head]


def _same_first(pairs: "zip[tuple[Segment, Segment]]", motion: Motion) -> int:
    """How many of the first pairs are the same, the old ones moved."""
    return len(list(itertools.takewhile(lambda p: same(moved_by(p[0], motion), p[1]), pairs)))
