"""One piece cut, with what becomes of its centre and of its grain."""

from dataclasses import replace
from enum import StrEnum

from tracker.alterations.fold_kept import Straightened, opened_at_the_fold, straightened
from tracker.alterations.slash import CutAt, slashed
from tracker.alterations.told import mm
from tracker.geometry.point import Point, cross, unit
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Renamed, Trace


class Centre(StrEnum):
    """What becomes of a centre on the fold that would be bent."""

    REFUSE = "refuse"
    SEAM = "shape a seam"
    STRAIGHTEN = "straighten the fold"


def piece_cut(
    pattern: Pattern,
    piece: Piece,
    one: CutAt,
    other: CutAt,
    at_one_mm: float,
    at_other_mm: float,
    centre: Centre,
) -> tuple[Trace, Pattern, list[str]]:
    """Cut a piece of a pattern and open or close it; what holds the fold or the grain stays.

    Args:
        pattern: the pattern.
        piece: the piece of it.
        one: one end of the cut.
        other: the other end.
        at_one_mm: how far it opens there; negative closes.
        at_other_mm: the same at the other end.
        centre: what to do where the piece's fold would be bent.

    Returns:
        The trace, the pattern, and what the straightened fold returns where, in words.

    Raises:
        PatternError: it cannot be cut so.
    """
    whole, fold = piece, piece.fold
    bends = _bends(piece, one, other, at_one_mm, at_other_mm)
    if bends and centre == Centre.REFUSE:
        raise PatternError(
            f"the {fold} of the {piece.label} lies on the fold and would be bent; say "
            f"“{Centre.SEAM}” to make it a centre seam, or “{Centre.STRAIGHTEN}” to draw it "
            "straight and be told what that returns where"
        )
    renamed: tuple[Renamed, ...] = ()
    if bends and centre == Centre.SEAM:
        pattern, piece = opened_at_the_fold(pattern, piece)
        renamed = (Renamed("seam", ("", ""), ("", str(fold))),)
    elif bends:
        piece = replace(piece, fold=None)
    stays = _stays(whole, one, other)
    done = slashed(piece, one, other, at_one_mm, at_other_mm, stays)
    trace, new = Trace(done.fates, renamed), done.piece
    told: list[str] = []
    if bends and centre == Centre.STRAIGHTEN:
        straight = straightened(whole, new)
        new, trace = straight.piece, trace.then(Trace(straight.fates))
        told = [_returned(straight, piece.label)]
    return trace, pattern.with_pieces(new), told


def _bends(piece: Piece, one: CutAt, other: CutAt, a: float, b: float) -> bool:
    """Tell whether the fold is cut and would not stay straight."""
    if piece.fold not in (one.edge.name, other.edge.name):
        return False
    fold = piece.edge(str(piece.fold))
    along = unit(other.point - one.point)
    square = abs(abs(cross(along, fold.parts[0].start_heading)) - 1.0) < 1e-9
    return a != b or not square


def _returned(done: Straightened, label: str) -> str:
    more, longer = done.by_mm > 0, done.grown_mm > 0
    return (
        f"the fold drawn straight {'adds' if more else 'takes'} {mm(abs(done.by_mm))} "
        f"{'to' if more else 'from'} each half of the {label} at the {done.corner}, to nothing at "
        f"the cut: the {done.edge} is {mm(abs(2 * done.grown_mm))} "
        f"{'longer' if longer else 'shorter'} all round; {'take in' if longer else 'let out'} as "
        "much at a seam or dart that ends on it"
    )


def _stays(piece: Piece, one: CutAt, other: CutAt) -> Point:
    """A point of the part that stays: the fold's middle, else the grain line's, else the larger."""
    if piece.fold is not None and piece.fold not in (one.edge.name, other.edge.name):
        fold = piece.edge(piece.fold)
        return fold.point_at(fold.length / 2)
    if piece.grain is not None:
        return (piece.grain[0] + piece.grain[1]) / 2
    left, low, right, high = piece.box
    return complex((left + right) / 2, (low + high) / 2)


__all__ = ["Centre", "piece_cut"]
