"""Whether what a piece was taken from has changed since."""

from collections.abc import Iterable
from dataclasses import replace

from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.traced import Seen

#: An edge is where it was when every place of it is, to this many millimetres.
WHERE_IT_WAS_MM = 0.05
#: A change of length that is worth a word, millimetres.
WORTH_MM = 0.05
_SPOTS = 8


def seen(piece: Piece, edge: Edge) -> Seen:
    """Return an edge as it is now, to be known again later."""
    length = edge.length
    spots = tuple(edge.point_at(length * k / _SPOTS) for k in range(_SPOTS + 1))
    pivots = tuple(piece.dart(name, edge.side).pivot for name in edge.mouths)
    return Seen(piece.name, edge.name, edge.side, length, spots + pivots)


def seen_all(edges: Iterable[tuple[Piece, Edge]]) -> tuple[Seen, ...]:
    """Return edges as they are now, each once."""
    out = {(p.name, e.name, e.side): seen(p, e) for p, e in edges}
    return tuple(out.values())


def seen_again(pattern: Pattern, piece: Piece) -> Piece:
    """Return a traced piece as if it had been taken from its parents as they are now.

    Raises:
        UnknownName: a parent or its edge is gone.
    """
    if piece.traced is None:
        return piece
    fresh = []
    for was in piece.traced.seen:
        parent = pattern.piece(was.piece, was.side)
        fresh.append(seen(parent, parent.edge(was.edge, was.side)))
    return replace(piece, traced=replace(piece.traced, seen=tuple(fresh)))


def changed_since(pattern: Pattern, piece: Piece) -> tuple[str, ...]:
    """Say what of a traced piece's parents changed since it was drawn, an edge at a time.

    Nothing where all of it is as it was, and nothing for a piece that no step traced.
    """
    if piece.traced is None:
        return ()
    told: list[str] = []
    for was in piece.traced.seen:
        sentence = _since(pattern, was)
        if sentence and sentence not in told:
            told.append(sentence)
    return tuple(told)


def furthest_since(pattern: Pattern, piece: Piece) -> float:
    """Return the furthest an edge a traced piece was drawn from has moved since, millimetres."""
    worst = 0.0
    for was in piece.traced.seen if piece.traced else ():
        try:
            edge = pattern.piece(was.piece, was.side).edge(was.edge, was.side)
        except UnknownName:
            continue
        spots = (edge.length * k / _SPOTS for k in range(_SPOTS + 1))
        moved = (abs(edge.point_at(s) - p) for s, p in zip(spots, was.points, strict=False))
        worst = max(worst, *moved)
    return worst


def _since(pattern: Pattern, was: Seen) -> str:
    try:
        parent = pattern.piece(was.piece, was.side)
    except UnknownName:
        return f"the {was.piece} is no longer a piece of the pattern"
    who = f"{was.side} " if was.side in (BodySide.RIGHT, BodySide.LEFT) else ""
    line = f"the {who}{was.edge} of the {was.piece}"
    mine = [e for e in parent.edges if e.name == was.edge]
    if not mine:
        return f"{line} is gone"
    if was.side is BodySide.BOTH and mine[0].side is not BodySide.BOTH:
        # Right and left are pieces, or edges, of their own now.
        halves = [
            seen(p, e)
            for p in pattern.pieces
            if p.name == was.piece
            for e in p.edges
            if e.name == was.edge
        ]
        lengths = [h.length_mm for h in halves]
        if len(halves) == 2 and abs(lengths[0] - lengths[1]) > WORTH_MM:
            return f"{line} is not the same on the right and on the left any more"
        now = next((h for h in halves if h.side is BodySide.RIGHT), halves[0])
    else:
        now = seen(parent, parent.edge(was.edge, was.side))
    by = now.length_mm - was.length_mm
    if abs(by) > WORTH_MM:
        return f"{line} is {abs(by):.1f} mm {'longer' if by > 0 else 'shorter'}"
    if len(now.points) != len(was.points):
        return f"{line} has other darts"
    moved = max(abs(a - b) for a, b in zip(now.points, was.points, strict=True))
    if moved > WHERE_IT_WAS_MM:
        return f"{line} has moved by up to {moved:.1f} mm"
    return ""


__all__ = ["changed_since", "furthest_since", "seen", "seen_again", "seen_all"]
