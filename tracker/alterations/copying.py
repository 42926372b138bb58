"""A piece copied into another layer, wider, narrower or shorter at edges of its own."""

from collections.abc import Mapping
from dataclasses import replace

from tracker.alterations.shaping import at, shaped
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

EdgeKey = tuple[str, BodySide]


def copied(
    pattern: Pattern, piece: Piece, name: str, layer: str, outward_mm: Mapping[EdgeKey, float]
) -> Piece:
    """Return a copy of a piece in another layer.

    Args:
        pattern: the pattern.
        piece: the piece.
        name: what the copy is called.
        layer: its layer.
        outward_mm: by how much each edge named lies outside the piece's, square to it;
            negative inside it.

    Raises:
        DoesNotMeet: edges no longer meet.
    """
    copy = replace(
        piece,
        name=name,
        layer=layer,
        taken_from=piece.name,
        edges=tuple(e.rebased() if e.parts else e for e in piece.edges),
        traced=None,
    )
    moves = {
        at(copy, copy.edge(*key)): (Profile(((0.0, -mm),)),) for key, mm in outward_mm.items() if mm
    }
    alone = Pattern((copy,), (), pattern.ease)
    made = shaped(alone, moves, "copy")[0].pieces[0] if moves else copy
    # The copy begins a history of its own: what it was copied from is beneath it no more.
    return replace(made, edges=tuple(e.rebased() if e.parts else e for e in made.edges))


def edges_called(piece: Piece, name: str) -> tuple[Edge, ...]:
    """Return the edges of a name on a piece, on whichever body side.

    Raises:
        UnknownName: it has none.
    """
    piece.edge(name)  # says which there are
    return tuple(e for e in piece.edges if e.name == name)


__all__ = ["copied", "edges_called"]
