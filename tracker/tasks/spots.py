"""Where on a pattern a recorded step can be pointed at."""

from collections.abc import Sequence

from tracker.errors import TrackerError
from tracker.geometry.point import Point
from tracker.history.step import Taken
from tracker.output.compared import moved_most
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge

#: A piece's name, its side, and a point of it.
Spot = tuple[str, BodySide, Point]


def spot_of(
    taken: Taken, later: Sequence[Taken], pattern: Pattern, before: Pattern | None = None
) -> Spot | None:
    """Return where in a pattern a step shows most.

    Args:
        taken: the step.
        later: the steps after it, up to the pattern.
        pattern: the pattern to point at.
        before: what it is held against: a line both have is pointed at where it moved most.

    Returns:
        The spot; nothing where the step left no line of its own to point at.
    """
    return (
        # A dart that was moved may have had edges trued beside it: it is the dart that is meant.
        _named(taken, later, pattern)
        or _displaced(taken.step.step_id, pattern)
        or _traced(taken, later, pattern, before)
    )


def _displaced(step_id: str, pattern: Pattern) -> Spot | None:
    """The place at which a step moved an edge furthest."""
    best, spot = 0.0, None
    for piece in pattern.pieces:
        for edge in piece.edges:
            for displacement in edge.displacements:
                if displacement.step != step_id:
                    continue
                for along, amount in displacement.profile.knots:
                    if abs(amount) > best + 1e-6:
                        best = abs(amount)
                        spot = piece.name, piece.side, _on_drawn(edge, along)
    return spot


def _on_drawn(edge: Edge, along_base_mm: float) -> Point:
    """The drawn point nearest to a place of the base line."""
    *others, base = edge.base_lines
    rest = along_base_mm
    for one in others:
        if rest <= one.length:
            base = one
            break
        rest -= one.length
    point = base.point_at(min(max(rest, 0.0), base.length))
    return edge.point_at(edge.nearest(point)[0])


def _named(taken: Taken, later: Sequence[Taken], pattern: Pattern) -> Spot | None:
    """The notch or dart that a step speaks of by name, wherever it went since."""
    parameters = taken.step.parameters
    piece = str(parameters.get("piece", ""))
    side = str(parameters.get("side", ""))
    for thing, word in (("notch", "notch"), ("dart", "dart"), ("dart", "name")):
        if word not in parameters:
            continue
        for home in _followed(thing, (piece, str(parameters[word])), later):
            found = _notch_or_dart(thing, home, pattern, side)
            if found is not None:
                return found
    return None


def _followed(
    thing: str, start: tuple[str, str], later: Sequence[Taken]
) -> tuple[tuple[str, str], ...]:
    """Follow a named thing of a piece through the traces of later steps."""
    homes: tuple[tuple[str, str], ...] = (start,)
    for step in later:
        moved: list[tuple[str, str]] = []
        for home in homes:
            went = [r.new for r in step.trace.renamed if r.thing == thing and r.old == home]
            moved.extend(went or [home])
        homes = tuple(moved)
    return homes


def _notch_or_dart(
    thing: str, home: tuple[str, str], pattern: Pattern, side: str = ""
) -> Spot | None:
    """Where a notch or a dart is; of a right and a left one that of the body side changed."""
    found: list[tuple[bool, Spot]] = []
    for piece in (p for p in pattern.pieces if p.name == home[0]):
        if thing == "notch":
            for notch in (n for n in piece.notches if n.name == home[1]):
                edge = piece.edge(notch.edge, notch.side)
                at = edge.point_at(notch_on_edge(edge, notch))
                found.append((notch.side == side, (piece.name, piece.side, at)))
        for dart in (d for d in piece.darts if thing == "dart" and d.name == home[1]):
            at = dart.legs[0].start
            found.append((dart.side == side, (piece.name, piece.side, at)))
    return max(found, key=lambda one: one[0])[1] if found else None


def _traced(
    taken: Taken, later: Sequence[Taken], pattern: Pattern, before: Pattern | None
) -> Spot | None:
    """On the longest line the step made or moved, as far as it is still there."""
    fates = [f for f in taken.trace.fates if f.new and not (f.old and f.still)]
    made = [f for f in fates if f.old is None] or fates  # a new line says more than a moved one
    fresh = [f.new for f in made if f.new]
    keys = {s.key: s.length_mm for s in sorted(fresh, key=lambda s: s.length_mm)}
    for step in later:
        moved: dict[tuple[str, str, BodySide], float] = {}
        for key, length in keys.items():
            onward = step.trace.of(*key)
            moved |= {f.new.key: length for f in onward if f.new} if onward else {key: length}
        keys = moved
    for (name, edge_name, side), _ in sorted(keys.items(), key=lambda item: -item[1]):
        found = _on_edge(pattern, before, name, edge_name, side)
        if found is not None:
            return found
    return None


def _on_edge(
    pattern: Pattern, before: Pattern | None, name: str, edge: str, side: BodySide
) -> Spot | None:
    try:
        piece = pattern.piece(name, side)
        point = piece.edge(edge, side).point_at(piece.edge(edge, side).length / 2)
    except TrackerError:
        return None
    was = next((p for p in before.pieces if p.key == piece.key), None) if before else None
    if was is not None and any(e.key == piece.edge(edge, side).key for e in was.edges):
        point = moved_most(was, piece, edge, side)
    return piece.name, piece.side, point
