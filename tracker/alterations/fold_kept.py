"""A cut through an edge on the fold: the centre becomes a seam, or the fold is drawn straight."""

import math
from dataclasses import dataclass, replace

from tracker.drafting.style_round import with_start_heading
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, turned
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch

#: The edge that meets a straightened fold is squared to it over at most this far.
SQUARED_MM = 40.0
#: It is run on at most this far to meet it.
_RUN_ON_MM = 120.0


def opened_at_the_fold(pattern: Pattern, piece: Piece) -> tuple[Pattern, Piece]:
    """Make the edge on a piece's fold a centre seam, sewn to its own mirror image."""
    assert piece.fold is not None
    edge = piece.edge(piece.fold)
    fresh = replace(piece, fold=None, cut="cut 2, a pair")
    run = Run(piece.name, edge.name, edge.side)
    seam = Seam(edge.name, BodySide.CENTRE, (run,), (run,))
    seams = (*pattern.seams, seam)
    return replace(pattern.with_pieces(fresh), seams=seams), fresh


@dataclass(frozen=True)
class Straightened:
    """A piece whose fold was drawn straight again.

    Attributes:
        piece: the piece, the edge on its fold again.
        fates: what became of the fold and of the edge that meets it.
        corner: the corner that moved.
        by_mm: how much cloth that put on the half piece there; negative took off.
        edge: the name of the edge that meets the fold there.
        grown_mm: how much longer that edge is; negative is shorter.
    """

    piece: Piece
    fates: tuple[Fate, ...]
    corner: str
    by_mm: float
    edge: str
    grown_mm: float


def straightened(old: Piece, bent: Piece) -> Straightened:
    """Draw the fold straight on from its part that stayed, as far as its neighbour.

    Args:
        old: the piece before the cut, on the fold.
        bent: the piece after it, its fold bent.

    Raises:
        PatternError: the neighbour cannot be brought to meet it.
    """
    assert old.fold is not None
    was, fold = old.edge(old.fold), bent.edge(old.fold)
    start_stays = abs(was.drawn[0].start - fold.drawn[0].start) < 1e-6
    at = fold.drawn[0].start if start_stays else fold.drawn[-1].end
    heading = was.drawn[0].start_heading if start_stays else -was.drawn[-1].end_heading
    beside = bent.after(fold) if start_stays else bent.before(fold)
    inner = beside.parts[0] if start_stays else beside.parts[-1].reversed  # away from the fold
    longer = inner.run_on(before_mm=_RUN_ON_MM)
    met = with_line(longer, at, heading)
    if not met:
        raise PatternError(
            f"the {beside.name} of the {old.label} would no longer meet a straight {fold.name}"
        )
    best = min(met, key=lambda c: abs(c.first_mm - _RUN_ON_MM))
    by = _RUN_ON_MM - best.first_mm
    if inner.length + by < 3 * SQUARED_MM / 4:
        raise PatternError(f"too little would be left of the {beside.name} of the {old.label}")
    reached = _plain(longer.part(best.first_mm, longer.length), inner, by, best.point)
    # As square to the fold as it was before the cut.
    before = _corner_turn(old, was, start_stays)
    turn = before - turn_between(heading, reached.start_heading)
    if abs(turn) > math.radians(0.05):
        reach = min(SQUARED_MM, reached.length * 0.45)
        reached = with_start_heading(reached, reach, turned(reached.start_heading, 0j, turn))
    parts = (reached, *beside.parts[1:]) if start_stays else (*beside.parts[:-1], reached.reversed)
    line = Curve.line(at, best.point) if start_stays else Curve.line(best.point, at)
    new_beside = replace(beside, parts=parts, bases=(), displacements=())
    new_fold = replace(fold, parts=(line,), bases=(), displacements=())
    piece = replace(bent.with_edge(new_beside).with_edge(new_fold), fold=old.fold)
    corner = fold.end if start_stays else fold.start
    grown = new_beside.length - beside.length
    notches = tuple(
        replace(n, distance_mm=n.distance_mm + grown)
        if (n.edge, n.side, n.corner) == (beside.name, beside.side, corner)
        else n
        for n in piece.notches
    )
    levels = tuple(
        level_again(v, bent, piece, (new_beside.key, new_fold.key)) for v in piece.levels
    )
    fates = (
        Fate(Stretch.whole(bent, fold), Stretch.whole(piece, new_fold)),
        *_beside_fates(bent.name, beside, new_beside, start_stays, grown),
    )
    return Straightened(
        replace(piece, notches=notches, levels=levels), fates, corner, by, beside.name, grown
    )


def _plain(reached: Curve, inner: Curve, by: float, point: Point) -> Curve:
    """A straight line run on straight is one line."""
    if by > 0 and len(inner.runs) == 1 and len(inner.runs[0]) == 1:
        return Curve.line(point, inner.end)
    return reached


def _corner_turn(old: Piece, fold: Edge, at_end: bool) -> float:
    if at_end:
        return turn_between(fold.drawn[-1].end_heading, old.after(fold).drawn[0].start_heading)
    return turn_between(-fold.drawn[0].start_heading, -old.before(fold).drawn[-1].end_heading)


def _beside_fates(
    piece: str, old: Edge, new: Edge, at_start: bool, grown: float
) -> tuple[Fate, ...]:
    def stretch(edge: Edge, a: float, b: float) -> Stretch:
        # Told from the corner on the fold.
        if not at_start:
            a, b = edge.length - b, edge.length - a
        return Stretch(piece, edge.name, edge.side, a, b)

    if grown > SHORTEST_MM:
        return (
            Fate(None, stretch(new, 0.0, grown)),
            Fate(stretch(old, 0.0, old.length), stretch(new, grown, new.length)),
        )
    if grown < -SHORTEST_MM:
        return (
            Fate(stretch(old, 0.0, -grown), None),
            Fate(stretch(old, -grown, old.length), stretch(new, 0.0, new.length)),
        )
    return (Fate(stretch(old, 0.0, old.length), stretch(new, 0.0, new.length)),)


__all__ = ["Straightened", "opened_at_the_fold", "straightened"]
