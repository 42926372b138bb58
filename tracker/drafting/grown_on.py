"""A front with its button facing grown on, as far as another facing of it reaches: up to that one.

The grown-on facing is turned in over the front edge and covers the neckline there; a neck facing
begins where it ends and is sewn to it.
"""

from tracker.drafting.button_stand import FOLD_LINE
from tracker.drafting.facing import JOIN, TooWide
from tracker.drafting.style_split import Cut, refuse_crossings, split_piece
from tracker.geometry.crossing import nearest_crossing
from tracker.geometry.curve import Curve
from tracker.geometry.transform import Motion
from tracker.pattern.edge import Edge
from tracker.pattern.piece import Piece

#: The edge at which a facing grown on ends.
GROWN_EDGE = "facing edge"
_BEGUN = "facing "
_ON_MM = 60.0


def runs_on_to_facing(piece: Piece, edge: Edge) -> bool:
    """Tell whether an edge runs on over a stand into a facing that is grown on."""
    names = {e.name for e in piece.edges if e.side is edge.side}
    beside = {piece.before(edge).name, piece.after(edge).name}
    return {GROWN_EDGE, f"{_BEGUN}{edge.name}"} <= names and f"stand {edge.name}" in beside


def without_grown_on(piece: Piece, edge: Edge) -> Piece:
    """Return a front cut off where the facing that is grown on to it lies, turned in.

    Args:
        piece: the piece, a facing grown on to it.
        edge: the edge that is to be faced.

    Raises:
        TooWide: the line it is cut off at would not run from edge to edge.
        CannotPart: it would run into a dart.
    """
    fold = next(v for v in piece.levels if v.name == FOLD_LINE).strokes[0]
    turn_in = Motion.mirror(fold[0], fold[-1])
    line = piece.edge(GROWN_EDGE, edge.side).drawn[0].moved(turn_in).run_on(_ON_MM, _ON_MM)
    other = next(
        e
        for e in piece.edges
        if e.side is edge.side
        and e.name != edge.name
        and f"{_BEGUN}{e.name}" in {o.name for o in piece.edges}
    )
    ends = []
    for one in (edge, other):
        before = 0.0
        met = []
        for part in one.drawn:
            spot = nearest_crossing(part, line, part.point_at(part.length / 2))
            if spot is not None:
                met.append((before + spot.first_mm, spot.second_mm, spot.point))
            before += part.length
        if not met:
            raise TooWide(
                f"the facing grown on to the {piece.label} does not reach across its {one.name}, "
                "so no other can end at it"
            )
        ends.append(met[0])
    low, high = sorted((ends[0][1], ends[1][1]))
    cut_line = line.part(low, high)
    if abs(cut_line.start - ends[0][2]) > abs(cut_line.end - ends[0][2]):
        cut_line = cut_line.reversed
    cut_line = Curve.line(ends[0][2], ends[1][2]) if len(cut_line.runs) == 1 else cut_line
    refuse_crossings(piece, cut_line, "the end of the facing that is grown on")
    halves = split_piece(piece, Cut(JOIN, edge, ends[0][0], other, ends[1][0], cut_line, cut_line))
    return next(h.piece for h in halves if all(e.name != GROWN_EDGE for e in h.piece.edges))


__all__ = ["GROWN_EDGE", "runs_on_to_facing", "without_grown_on"]
