"""Where a front is cut to give it more room over the bust: below the waist dart, at the centre."""

from tracker.alterations.fuller_cloth import Spot
from tracker.geometry.crossing import with_line
from tracker.geometry.point import Point
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.piece import Piece

#: A cut keeps this far from the ends of the edges it meets.
_FROM_END_MM = 3.0


def below_the_dart(piece: Piece, waist: Dart, up: Point, by_mm: float) -> Spot:
    """Return where the slash that runs on from a double-pointed dart meets the lower edge.

    Args:
        piece: the front.
        waist: the dart.
        up: towards the neck.
        by_mm: how much is put in there; negative is taken out.

    Raises:
        PatternError: there is no such place.
    """
    if any(len(leg.runs) != 2 or any(len(r) > 1 for r in leg.runs) for leg in waist.legs):
        raise PatternError(
            f"the {waist.name} of the {piece.label} is not drawn with straight legs to its two "
            "points; take it out and add it again first"
        )
    met = []
    for edge in piece.edges:
        before = 0.0
        for part in edge.parts:
            for c in with_line(part, waist.legs[0].end, -up):
                if c.second_mm > 0:
                    met.append((c.second_mm, edge, before + c.first_mm))
            before += part.length
    if not met:
        raise PatternError(
            f"the {waist.name} of the {piece.label} has no edge below its lower point"
        )
    _, edge, at = min(met, key=lambda m: m[0])
    room = _FROM_END_MM + max(-by_mm, 0.0) / 2
    if not room < at < edge.length - room:
        raise PatternError(
            f"the {edge.name} of the {piece.label} is met too near its end by the slash that runs "
            f"on from the {waist.name}"
        )
    return Spot(edge, at)


def centre_edge(piece: Piece, low: Edge, side: str, armhole: Edge) -> Edge:
    """Return the edge at the centre: the lower edge's neighbour that is not the side.

    Raises:
        PatternError: the lower edge does not run from the side to the centre.
    """
    other = [e for e in (piece.before(low), piece.after(low)) if e.name != side]
    if len(other) != 1 or armhole.key in (low.key, other[0].key):
        raise PatternError(
            f"the {low.name} of the {piece.label} does not run from the side to the centre, so it "
            "is not clear where the lower edge is to be levelled"
        )
    return other[0]


def on_the_centre(piece: Piece, centre: Edge, height: Point, out: Point) -> Spot:
    """Return where the centre is cut square to it, at the height of a point.

    Raises:
        PatternError: it does not reach so far.
    """
    before, found = 0.0, []
    for part in centre.parts:
        found += [before + c.first_mm for c in with_line(part, height, out)]
        before += part.length
    if len(found) != 1 or not _FROM_END_MM < found[0] < centre.length - _FROM_END_MM:
        raise PatternError(
            f"the {centre.name} of the {piece.label} has no room to be lengthened or shortened "
            "below the bust point"
        )
    return Spot(centre, found[0])


__all__ = ["below_the_dart", "centre_edge", "on_the_centre"]
