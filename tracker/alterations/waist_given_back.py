"""What a waist gives or takes when its edge is reshaped, and the seam that can give it back."""

from collections.abc import Iterable

from tracker.alterations.told import ONE_SIDE, mm
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

_WAIST = "waist line"
#: Less than this round the waist is not worth a step.
_WORTH_MM = 1.0


def waist_told(
    before: Pattern, after: Pattern, piece: str, edge: str, side: BodySide
) -> Iterable[str]:
    """Say how a reshaped waist measures otherwise, and what would give it back.

    Raised or lowered in the middle of one piece, the waist is longer or shorter there. The New
    Dressmaker, 1921, chapter 5: the side edges are then let out until it measures as it did.

    Args:
        before: the pattern.
        after: the pattern with the edge reshaped.
        piece: the piece's name.
        edge: the edge's name.
        side: both, or the wearer's right or left only.
    """
    shown = after.piece(piece, side)
    if _WAIST not in lines_of(after) or not any(
        level.name == _WAIST and edge in level.edges for level in shown.levels
    ):
        return
    by = girth(after, _WAIST) - girth(before, _WAIST)
    seam = _seam_beside(after, shown, edge)
    if abs(by) < _WORTH_MM or seam is None:
        return
    name, corner = seam
    each = abs(by) if side in ONE_SIDE else abs(by) / 2
    smaller = by < 0
    low = "to nothing at the hip line" if "hip line" in lines_of(after) else "to nothing further on"
    yield (
        f"{_WAIST} {mm(round(abs(by), 1))} {'smaller' if smaller else 'larger'} all round: to have "
        f"it back {'let out' if smaller else 'take in'} the {name} seam {mm(round(each, 1))} at "
        f"the {corner}, all of it on the {piece}, {low}"
    )


def _seam_beside(pattern: Pattern, piece: Piece, edge: str) -> tuple[str, str] | None:
    """The seam that ends on an edge away from the centre, and the corner it ends at."""
    here = piece.edge(edge)
    for beside, corner in ((piece.before(here), here.start), (piece.after(here), here.end)):
        for seam in pattern.seams_on(piece, beside):
            if not seam.on_itself and not corner.startswith("centre"):
                return seam.name, corner
    return None
