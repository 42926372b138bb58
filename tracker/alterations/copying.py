"""A piece copied into another layer, wider, narrower or shorter at edges of its own."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from tracker.alterations.shaping import at, shaped
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

EdgeKey = tuple[str, BodySide]
#: An edge that lost less at an end is as long as it was: its neighbour has a little ease.
_CUT_SHORTER_MM = 10.0


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
    made = replace(made, notches=tuple(_notches_kept(piece, made, set(moves))))
    # The copy begins a history of its own: what it was copied from is beneath it no more.
    return replace(made, edges=tuple(e.rebased() if e.parts else e for e in made.edges))


def _notches_kept(piece: Piece, copy: Piece, moved: Collection[object]) -> Iterator[Notch]:
    """The copy's notches opposite the piece's, on edges that were cut shorter at an end.

    A side that begins 60 mm lower, below a facing, has its notch 60 mm nearer to its new end; a
    notch on what was cut off is gone.
    """
    for notch in copy.notches:
        old, new = (p.edge(notch.edge, notch.side) for p in (piece, copy))
        if not old.parts or at(copy, new) in moved:
            yield notch
            continue
        from_start = notch.corner == new.start
        end = new.drawn[0].start if from_start else new.drawn[-1].end
        along = old.nearest(end)[0]
        cut_mm = along if from_start else old.length - along
        if cut_mm < _CUT_SHORTER_MM:
            yield notch
        elif cut_mm < notch.distance_mm:
            yield replace(notch, distance_mm=notch.distance_mm - cut_mm)


def edges_called(piece: Piece, name: str) -> tuple[Edge, ...]:
    """Return the edges of a name on a piece, on whichever body side.

    Raises:
        UnknownName: it has none.
    """
    piece.edge(name)  # says which there are
    return tuple(e for e in piece.edges if e.name == name)


__all__ = ["copied", "edges_called"]
