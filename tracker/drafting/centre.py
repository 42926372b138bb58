"""Which edges of a pattern lie at the centre of the garment."""

from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

CENTRES = ("centre front", "centre back")


def is_centre(pattern: Pattern, piece: Piece, edge: Edge) -> bool:
    """Tell whether an edge is the centre of the garment, or begins there beside it."""
    return centre_name(pattern, piece, edge) is not None


def centre_name(pattern: Pattern, piece: Piece, edge: Edge) -> str | None:
    """Return the name of the centre an edge is or runs over; nothing where it is elsewhere.

    A fold, a centre seam, or an edge named so; or the edge that runs on over a button stand.
    """
    if edge.name == piece.fold or edge.name in CENTRES:
        return edge.name
    if any(s.side is BodySide.CENTRE for s in pattern.seams_on(piece, edge)):
        return edge.name
    ends = (edge.drawn[0].start, edge.drawn[-1].end)
    for level in piece.levels:
        if level.side is BodySide.CENTRE and level.name in CENTRES and piece.fold is None:
            spots = (p for stroke in level.strokes for p in (stroke[0], stroke[-1]))
            if any(abs(spot - end) < 0.05 for spot in spots for end in ends) and (
                edge.name.startswith("stand ")
            ):
                return level.name
    return None


__all__ = ["CENTRES", "centre_name", "is_centre"]
