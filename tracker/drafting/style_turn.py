"""Turning a dart shut about its pivot, where the pivot lies on the piece's outline."""

from dataclasses import dataclass, replace

from tracker.drafting.style_region import Region, joined_strokes, region_of, strokes_by_region
from tracker.drafting.style_round import with_end_heading, with_start_heading
from tracker.drafting.style_split import CannotPart
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, turn_between, unit
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Stroke
from tracker.pattern.piece import Piece

#: A bend of more than this where a closed dart's mouth was is trued.
BEND_RAD = 0.0087  # half a degree
#: ... over this much of the edge to either side of it.
TRUED_OVER_MM = 30.0


@dataclass(frozen=True)
class Turned:
    """A piece with a dart turned shut.

    Attributes:
        piece: the piece.
        angle_rad: how far a part of it turned; left positive.
        edges: the names of the edges that turned, wholly or partly.
        bend_rad: the bend that was left where the mouth was, before it was trued.
        trued_mm: the furthest the trued edge stands off what was drawn.
    """

    piece: Piece
    angle_rad: float
    edges: tuple[str, ...]
    bend_rad: float
    trued_mm: float


def turn_dart_shut(piece: Piece, dart_name: str, opening: str, keep: str) -> Turned:
    """Turn a dart shut about its pivot; the cloth opens at an edge through the pivot.

    The outline is taken apart at the pivot. One part stays where it is, grain and all; the
    other turns about the pivot until the dart's legs lie on each other.

    Args:
        piece: the piece.
        dart_name: the dart to close.
        opening: the edge the pivot lies on.
        keep: an edge of the part that stays (the waist).

    Raises:
        CannotPart: the pivot is not on that edge, or the part to be turned holds the fold.
    """
    dart = piece.dart(dart_name)
    assert dart.mouth is not None
    mouth, open_edge = piece.edge(dart.mouth, dart.side), piece.edge(opening, dart.side)
    at_mm, gap = open_edge.nearest(dart.pivot)
    if gap > 2 * SAME_MM or len(open_edge.parts) != 1:
        raise CannotPart(
            f"the {dart.name} of the {piece.label} ends {gap:.1f} mm beside the {opening} line, "
            "so it cannot be turned shut into it; draw the line through the dart's pivot"
        )
    forward = _between(piece, open_edge, mouth)  # from the pivot on, round to the mouth
    backward = _between(piece, mouth, open_edge)
    ahead_turns = keep in backward or keep not in forward
    angle = turn_between(dart.mouth_start - dart.pivot, dart.mouth_end - dart.pivot)
    angle = angle if ahead_turns else -angle
    turn = Motion.turn(dart.pivot, angle)
    one, other = (turn, STAY) if ahead_turns else (STAY, turn)
    turning = forward if ahead_turns else backward
    if piece.fold in turning:
        raise CannotPart(
            f"turning the {dart.name} of the {piece.label} shut would turn its {piece.fold}, "
            "which lies on the fold"
        )
    line = open_edge.parts[0]
    before, after = line.split(at_mm)
    opened = before.moved(other).ended_at(dart.pivot).joined(after.moved(one))
    k = mouth.mouths.index(dart.name)
    closed, bend, trued = _closed(dart, mouth, k, one, other)
    edges = []
    for edge in piece.edges:
        if edge.key == open_edge.key:
            edges.append(replace(edge, parts=(opened,), bases=(), displacements=()))
        elif edge.key == mouth.key:
            edges.append(closed)
        else:
            edges.append(_moved(edge, one if edge.name in forward else other))
    rings = _rings(piece, open_edge, mouth, dart, (before, after), k)
    regions = (Region(rings[0]), Region(rings[1]))
    motions = (one, other)
    turned = replace(
        piece,
        edges=tuple(edges),
        darts=tuple(
            _dart_moved(d, mouth, k, forward, motions, regions)
            for d in piece.darts
            if d.key != dart.key
        ),
        levels=tuple(_level(v, dart, regions, motions) for v in piece.levels),
        marks=tuple(
            replace(m, point=motions[region_of(m.point, regions)].of(m.point))
            if abs(m.point - dart.pivot) > SAME_MM
            else m
            for m in piece.marks
        ),
    )
    return Turned(turned, angle, (*turning, mouth.name), bend, trued)


def _between(piece: Piece, first: Edge, last: Edge) -> tuple[str, ...]:
    """The names of the edges after one and before another, going round."""
    n, i, j = len(piece.edges), piece.edge_index(first), piece.edge_index(last)
    return tuple(piece.edges[k % n].name for k in range(i + 1, j if j > i else j + n))


def _moved(edge: Edge, motion: Motion) -> Edge:
    if motion == STAY:
        return edge
    return replace(
        edge,
        parts=tuple(p.moved(motion) for p in edge.parts),
        bases=tuple(b.moved(motion) for b in edge.bases),
    )


def _closed(
    dart: Dart, mouth: Edge, k: int, one: Motion, other: Motion
) -> tuple[Edge, float, float]:
    """The mouth's edge with its two parts made one, its bend there, and what truing it took."""
    first = [p.moved(one) for p in mouth.parts[: k + 1]]
    second = [p.moved(other) for p in mouth.parts[k + 1 :]]
    meeting = other.of(dart.mouth_end)
    a, b = first[-1].ended_at(meeting), second[0].started_at(meeting)
    plain = a.joined(b)
    bend = turn_between(a.end_heading, b.start_heading)
    trued = 0.0
    if abs(bend) > BEND_RAD:
        middle = unit(a.end_heading + b.start_heading)
        a = with_end_heading(a, min(TRUED_OVER_MM, a.length / 2), middle)
        b = with_start_heading(b, min(TRUED_OVER_MM, b.length / 2), middle)
        whole = a.joined(b)
        from_mm = a.length - TRUED_OVER_MM
        trued = max(
            plain.nearest(whole.point_at(from_mm + TRUED_OVER_MM * m / 20))[1] for m in range(41)
        )
    parts = (*first[:-1], a.joined(b), *second[1:])
    mouths = mouth.mouths[:k] + mouth.mouths[k + 1 :]
    return replace(mouth, parts=parts, mouths=mouths, bases=(), displacements=()), bend, trued


def _rings(
    piece: Piece, open_edge: Edge, mouth: Edge, dart: Dart, line: tuple[Curve, Curve], k: int
) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The two parts the outline falls into at the pivot: from it to the mouth, and the rest."""
    n, i, j = len(piece.edges), piece.edge_index(open_edge), piece.edge_index(mouth)

    def drawn(first: int, last: int) -> list[Curve]:
        out: list[Curve] = []
        for m in range(first, last):
            edge = piece.edges[m % n]
            for index, part in enumerate(edge.parts):
                out.append(part)
                if index < len(edge.mouths):
                    out.extend(piece.dart(edge.mouths[index], edge.side).legs)
        return out

    def some(parts: range) -> list[Curve]:
        out: list[Curve] = []
        for index in parts:
            out.append(mouth.parts[index])
            if index + 1 in parts:
                out.extend(piece.dart(mouth.mouths[index], mouth.side).legs)
        return out

    ahead = (
        line[1],
        *drawn(i + 1, j if j > i else j + n),
        *some(range(k + 1)),
        dart.legs[0],
    )
    behind = (
        dart.legs[1],
        *some(range(k + 1, len(mouth.parts))),
        *drawn(j + 1, i if i > j else i + n),
        line[0],
    )
    return ahead, behind


def _dart_moved(
    d: Dart,
    mouth: Edge,
    k: int,
    forward: tuple[str, ...],
    motions: tuple[Motion, Motion],
    regions: tuple[Region, Region],
) -> Dart:
    if d.double_pointed:
        where = region_of((d.legs[0].start + d.legs[0].end) / 2, regions)
    elif d.mouth == mouth.name:
        where = 0 if mouth.mouths.index(d.name) < k else 1
    else:
        where = 0 if d.mouth in forward else 1
    motion = motions[where]
    if motion == STAY:
        return d
    return replace(d, legs=(d.legs[0].moved(motion), d.legs[1].moved(motion)))


def _level(
    level: Level, dart: Dart, regions: tuple[Region, Region], motions: tuple[Motion, Motion]
) -> Level:
    if not level.strokes:
        return level
    parted = strokes_by_region(level.strokes, dart.legs, regions)
    strokes: list[Stroke] = []
    for motion, some in zip(motions, parted, strict=True):
        strokes.extend(tuple(motion.of(p) for p in s) for s in some)
    return replace(level, strokes=_chained(strokes))


def _chained(strokes: list[Stroke]) -> tuple[Stroke, ...]:
    """Join in either order: the parts of a line were gathered region by region."""
    return min((joined_strokes(strokes), joined_strokes(strokes[::-1])), key=len)
