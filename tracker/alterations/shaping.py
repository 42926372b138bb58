"""Edges moved by several profiles at once: what reshaping and truing are made of."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from tracker.alterations.along_seams import AmountAt
from tracker.errors import nearest_names
from tracker.geometry.crossing import with_line
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.marks import Stroke
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.redraw import redraw
from tracker.pattern.trace import Fate, Trace, edge_fates
from tracker.pattern.walk import OffTheEnd

#: Piece name and side, edge name and side.
EdgeAt = tuple[str, BodySide, str, BodySide]
Shapes = Mapping[EdgeAt, tuple[Profile, ...]]

#: An edge trued at a corner is back on its own line this far from it; common practice.
BLEND_MM = 60.0


def at(piece: Piece, edge: Edge) -> EdgeAt:
    """Return the key an edge is shaped under."""
    return piece.name, piece.side, edge.name, edge.side


def shaped(pattern: Pattern, shapes: Shapes, step_id: str) -> tuple[Pattern, Trace]:
    """Displace edges by the sum of profiles along their base lines and redraw their pieces.

    Args:
        pattern: the pattern.
        shapes: the profiles of each edge; positive amounts go into the piece.
        step_id: the id the displacements carry.

    Raises:
        DoesNotMeet: lines no longer meet.
    """
    by_piece: dict[tuple[str, BodySide], dict[tuple[str, BodySide], tuple[Profile, ...]]] = {}
    for (name, piece_side, edge_name, side), profiles in shapes.items():
        moving = tuple(p for p in profiles if any(v for _, v in p.knots))
        if moving:
            # One piece may be meant by its own side or by the side of a seam on it.
            edges = by_piece.setdefault(pattern.piece(name, piece_side).key, {})
            edges[edge_name, side] = (*edges.get((edge_name, side), ()), *moving)
    fates: list[Fate] = []
    for (name, piece_side), edges in by_piece.items():
        old = new = pattern.piece(name, piece_side)
        for (edge_name, side), profiles in edges.items():
            edge = old.edge(edge_name, side)
            fresh = tuple(Displacement(step_id, p) for p in profiles)
            new = new.with_edge(replace(edge, displacements=(*edge.displacements, *fresh)))
        new = redraw(new, set(edges))
        pattern = pattern.with_pieces(new)
        for a, b in zip(old.edges, new.edges, strict=True):
            if a != b:
                fates.extend(edge_fates(old.name, a, b))
    return pattern, Trace(tuple(fates))


def merged(*several: Shapes) -> dict[EdgeAt, tuple[Profile, ...]]:
    """Put the profiles of several shapes together, edge by edge."""
    out: dict[EdgeAt, tuple[Profile, ...]] = {}
    for shapes in several:
        for key, profiles in shapes.items():
            out[key] = (*out.get(key, ()), *profiles)
    return out


def spot(piece: Piece, edge: Edge, corner: str, distance_mm: float) -> float:
    """Return how far from an edge's own start a place of it lies, as sewn.

    Raises:
        UnknownName: the corner is no end of the edge.
        OffTheEnd: the distance is longer than the edge.
    """
    ends = [edge.start, edge.end]
    if corner not in ends:
        raise UnknownName(
            f"the {edge.name} of the {piece.label} has no corner called {corner!r}; it runs from "
            f"the {ends[0]} to the {ends[1]}.{nearest_names(corner, ends)}"
        )
    if not 0 <= distance_mm <= edge.length + 0.05:
        raise OffTheEnd(
            f"{distance_mm:.0f} mm from the {corner} is off the end of the {edge.name} of the "
            f"{piece.label}, which is {edge.length:.0f} mm long; give a distance from 0 to "
            f"{edge.length:.0f} mm"
        )
    distance_mm = min(distance_mm, edge.length)
    return distance_mm if corner == edge.start else edge.length - distance_mm


def amounts_on(piece: Piece, edge: Edge, amounts: Iterable[AmountAt]) -> Profile:
    """Return the profile of amounts at places of one edge."""
    knots = (
        (edge.base_distance(spot(piece, edge, a.corner, a.distance_mm)), a.amount_mm)
        for a in amounts
    )
    return Profile(tuple(sorted(knots)))


def straight(zero_mm: float, slope: float, reach_mm: float) -> Profile:
    """Return amounts that rise evenly: none at ``zero_mm``, straight within ``reach_mm`` of it."""
    return Profile(
        tuple((zero_mm + k * reach_mm, slope * k * reach_mm) for k in (-2.0, -1.0, 1.0, 2.0))
    )


def end_turned(
    edge: Edge,
    at_start: bool,
    slope: float,
    *,
    inside_mm: float = 0.0,
    hold_mm: float = 6.0,
    blend_mm: float = BLEND_MM,
) -> Profile:
    """Return amounts that turn an edge about one of its corners and leave the rest of it.

    Args:
        edge: the edge.
        at_start: about its start, otherwise its end.
        slope: the tangent of the turn; positive turns it into the piece.
        inside_mm: how far inside the base line's end the corner now lies; negative is beyond.
        hold_mm: how far from the corner the turn is full.
        blend_mm: how far from the corner the edge is back on its old line.
    """
    whole = edge.base_length
    blend = max(min(blend_mm, (whole - inside_mm) * 0.45), 4.0)
    hold = min(hold_mm + abs(inside_mm), blend / 2)
    knots = [(u, slope * u) for u in (-2 * hold, -hold, hold, 1.5 * hold)] + [(blend, 0.0)]
    from_start = [(inside_mm + u, v) for u, v in knots]
    if at_start:
        return Profile(tuple(from_start))
    return Profile(tuple(sorted((whole - s, v) for s, v in from_start)))


def level_on_base(edge: Edge, strokes: Iterable[Stroke]) -> float | None:
    """Return where along an edge's base line a material line that ends on the edge crosses it.

    However far the edge was moved, that place is the same; nothing where no line ends on it.
    """
    for stroke in strokes:
        for line in (stroke, stroke[::-1]):
            if edge.nearest(line[-1])[1] > 0.05:
                continue
            at = 0.0
            best: tuple[float, float] | None = None
            for base in edge.base_lines:
                for c in with_line(base.run_on(1.0, 1.0), line[-1], line[-1] - line[-2]):
                    here = at + min(max(c.first_mm - 1.0, 0.0), base.length)
                    if best is None or abs(c.second_mm) < best[1]:
                        best = here, abs(c.second_mm)
                at += base.length
            if best:
                known = [s for d in edge.displacements for s, _ in d.profile.knots]
                near = [s for s in known if abs(s - best[0]) < 0.01]
                return near[0] if near else best[0]
    return None
