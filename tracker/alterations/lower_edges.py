"""Edges that run across a garment (a hem, a waist), raised, lowered and levelled."""

from collections.abc import Mapping

from tracker.alterations.shaping import EdgeAt, at
from tracker.alterations.told import ONE_SIDE
from tracker.errors import nearest_names
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def edges_called(pattern: Pattern, name: str, side: BodySide) -> list[tuple[Piece, Edge]]:
    """Return the shell's edges of a name, on a body side.

    Raises:
        UnknownName: the pattern has none.
    """
    found = [
        (p, e)
        for p in pattern.pieces
        if p.layer == "shell"
        for e in p.edges
        if e.name == name and (side not in ONE_SIDE or e.side in (side, BodySide.BOTH))
    ]
    if not found:
        known = list(dict.fromkeys(e.name for p in pattern.pieces for e in p.edges))
        raise UnknownName(
            f"no piece of this pattern has an edge called {name!r}; the edges are "
            f"{', '.join(known)}.{nearest_names(name, known)}"
        )
    return found


def into_the_piece(piece: Piece, edge: Edge) -> float:
    """Return 1 where raising an edge takes from its piece, -1 where it adds to it.

    Raises:
        PatternError: the edge runs up and down, so that raising it means nothing.
    """
    chord = edge.drawn[-1].end - edge.drawn[0].start
    if abs(chord.real) < abs(chord.imag):
        raise PatternError(
            f"the {edge.name} of the {piece.label} runs up and down; only an edge that runs "
            "across is raised or lowered"
        )
    # Going round a piece its lower edge runs to the right.
    return 1.0 if chord.real > 0 else -1.0


def meet_at_seams(pattern: Pattern, raised: Mapping[EdgeAt, Profile], edge_name: str) -> str | None:
    """Return the corner at which two pieces sewn together would be raised differently."""
    for seam in pattern.seams:
        for last in (False, True):
            ends: list[tuple[float, str]] = []
            for runs in (seam.first, seam.second):
                run = runs[-1] if last else runs[0]
                piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
                at_end = last != run.backward
                crossing = piece.after(edge) if at_end else piece.before(edge)
                profile = raised.get(at(piece, crossing))
                if crossing.name == edge_name and profile is not None:
                    s = 0.0 if at_end else crossing.base_length
                    ends.append((profile.at(s)[0], edge.end if at_end else edge.start))
            if len(ends) == 2 and abs(ends[0][0] - ends[1][0]) > 0.5:
                return ends[0][1]
    return None
