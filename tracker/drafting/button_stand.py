"""A button stand: cloth beyond the centre line, shaped as the other side it will lie on."""

from dataclasses import dataclass, replace

from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, unit
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level
from tracker.pattern.piece import Piece

#: A centre line that strays no further from the straight is straight, millimetres.
STRAIGHT_MM = 0.1
FRONT_EDGE = "front edge"
FOLD_LINE = "front fold line"


class NoStand(PatternError):
    """A button stand that cannot be added here."""


@dataclass(frozen=True, slots=True)
class Stand:
    """A piece with its stand.

    Attributes:
        piece: the piece, its old centre edge a line on it.
        centre: the edge that was the centre.
        fresh: the names of the edges that are new.
    """

    piece: Piece
    centre: Edge
    fresh: tuple[str, ...]


def bent_mm(edge: Edge) -> float:
    """Return how far an edge strays from the straight line between its ends, millimetres."""
    start, end = edge.drawn[0].start, edge.drawn[-1].end
    way = unit(end - start)
    return max(
        abs(cross(way, part.point_at(part.length * k / 20) - start))
        for part in edge.drawn
        for k in range(21)
    )


def stand_added(piece: Piece, edge_name: str, width_mm: float, facing_mm: float = 0.0) -> Stand:
    """Add a button stand to a centre edge, and perhaps its facing grown on.

    What crosses the centre (neckline, waist or hem) runs on over the stand as its own mirror
    image, so that the stand lies on the other side edge to edge; the facing is the mirror image
    of what it will face.

    Args:
        piece: the piece.
        edge_name: its centre edge.
        width_mm: how far the stand reaches beyond the centre.
        facing_mm: how far the facing reaches in from the front edge when it is turned; 0 for
            none.

    Raises:
        NoStand: the centre is not straight, or what crosses it is too short.
    """
    edge = piece.edge(edge_name)
    if len(edge.drawn) != 1 or bent_mm(edge) > STRAIGHT_MM:
        raise NoStand(
            f"the {edge_name} of the {piece.label} is shaped, by up to {bent_mm(edge):.1f} mm, and "
            "a button stand needs it straight; put the shape into a dart or another seam first"
        )
    below, above = piece.before(edge), piece.after(edge)
    start, end = edge.drawn[0].start, edge.drawn[0].end
    way = unit(end - start)
    out = way * -1j
    # From the front edge inwards, as far as there is line before a dart or a corner.
    inner_top, inner_foot = above.drawn[0], below.drawn[-1].reversed
    mirror = Motion.mirror(start, end)
    where = f"of the {piece.label}"
    top = _within(inner_top, start, -out, width_mm, f"{above.name} {where}").moved(mirror)
    foot = _within(inner_foot, start, -out, width_mm, f"{below.name} {where}").moved(mirror)
    front = start + out * width_mm
    names = f"stand {below.name}", f"stand {above.name}"
    corners = f"{FRONT_EDGE} {below.name}", f"{FRONT_EDGE} {above.name}"
    side = edge.side
    stand_foot = Edge(names[0], side, below.end, corners[0], (foot,))
    stand_top = Edge(names[1], side, corners[1], above.start, (top.reversed,))
    lines = [Level(edge_name, BodySide.CENTRE, ((start, end),))]
    if facing_mm <= 0:
        middle = [Edge(FRONT_EDGE, side, *corners, (Curve.line(foot.end, top.end),))]
    else:
        whole = (
            top.reversed.joined(inner_top.started_at(top.start)),
            foot.reversed.joined(inner_foot.started_at(foot.start)),
        )
        middle = _facing(below, above, whole, (front, way), facing_mm, where)
        lines.append(Level(FOLD_LINE, BodySide.CENTRE, ((foot.end, top.end),)))
    at = piece.edge_index(edge)
    edges = (*piece.edges[:at], stand_foot, *middle, stand_top, *piece.edges[at + 1 :])
    notches = tuple(
        replace(n, edge=FRONT_EDGE, corner=corners[0] if n.corner == edge.start else corners[1])
        if (n.edge, n.side) == edge.key
        else n
        for n in piece.notches
        if facing_mm <= 0 or (n.edge, n.side) != edge.key
    )
    whole_piece = replace(
        piece,
        edges=edges,
        notches=notches,
        levels=(*piece.levels, *lines),
        fold=None if piece.fold == edge_name else piece.fold,
        cut="cut 2, a pair" if piece.side is BodySide.BOTH else piece.cut,
    )
    fresh = (names[0], *(e.name for e in middle), names[1])
    return Stand(whole_piece, edge, fresh)


def _within(line: Curve, through: Point, inward: Point, reach_mm: float, what: str) -> Curve:
    """The stretch of a line from its start to where it is a distance from a centre line."""
    along = inward * 1j
    found = [c for c in with_line(line, through + inward * reach_mm, along) if c.first_mm > 0]
    if not found:
        room = max(
            abs(cross(along, line.point_at(line.length * k / 40) - through)) for k in range(41)
        )
        raise NoStand(
            f"the {what} reaches only {room:.0f} mm from the centre before it ends or a dart "
            f"opens, and {reach_mm:.0f} mm of it are to be laid over; make it narrower"
        )
    return line.part(0.0, found[0].first_mm).ended_at(found[0].point)


def _facing(
    below: Edge,
    above: Edge,
    whole: tuple[Curve, Curve],
    front: tuple[Point, Point],
    facing_mm: float,
    where: str,
) -> list[Edge]:
    """The edges of a facing grown on: its foot, its inner edge and its top."""
    at, way = front
    mirror = Motion.mirror(at, at + way)
    inward = way * 1j
    # Stand and piece from the front edge inwards, then turned over the front edge.
    top = _within(whole[0], at, inward, facing_mm, f"{above.name} {where}").moved(mirror)
    foot = _within(whole[1], at, inward, facing_mm, f"{below.name} {where}").moved(mirror)
    side = above.side
    corners = (
        f"{FRONT_EDGE} {below.name}", f"facing {below.name} end", f"facing {above.name} end",
        f"{FRONT_EDGE} {above.name}",
    )  # fmt: skip
    return [
        Edge(f"facing {below.name}", side, corners[0], corners[1], (foot,)),
        Edge("facing edge", side, corners[1], corners[2], (Curve.line(foot.end, top.end),)),
        Edge(f"facing {above.name}", side, corners[2], corners[3], (top.reversed,)),
    ]


__all__ = ["FOLD_LINE", "FRONT_EDGE", "NoStand", "Stand", "bent_mm", "stand_added"]
