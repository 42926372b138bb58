"""What a facing leaves of a piece: cut off along the facing's inner line, darts open again."""

from dataclasses import dataclass, replace

from tracker.drafting.facing import TooWide, inner_line
from tracker.drafting.laid_flat import Row, inverse, row_of
from tracker.drafting.style_region import Region, joined_strokes, strokes_by_region
from tracker.drafting.style_section import Section, notches_on, section
from tracker.geometry.crossing import nearest_crossing
from tracker.geometry.curve import Curve
from tracker.geometry.transform import Motion
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, slots=True)
class _Closed:
    """A dart the facing has closed, and how the cloth before and after it was moved."""

    dart: Dart
    before: Motion
    after: Motion


def cut_off(piece: Piece, edge: Edge, width_mm: float) -> Piece:
    """Return a piece without what lies within a width of one of its edges.

    The new edge keeps the old one's name; a dart that opened within the width, from the edge or
    from one beside it, opens from the new edge.

    Args:
        piece: the piece.
        edge: the edge.
        width_mm: how wide the facing is.

    Raises:
        TooWide: there is no room, or a dart ends within the width.
    """
    row = row_of(Pattern((piece,)), [(piece, edge)], width_mm)
    if row.further_before or row.further_after:
        raise TooWide(f"the {edge.name} of the {piece.label} has edges beside it that run on")
    inner, start_mm, end_mm = inner_line(row, width_mm)
    first, closed = _closed(row, start_mm, end_mm)
    parts, darts = _opened(piece, inner, first, closed)
    darts = [replace(d, mouth=edge.name) for d in darts]
    fresh = Edge(edge.name, edge.side, f"{edge.name} start", f"{edge.name} end", tuple(parts),
                 tuple(d.name for d in darts))  # fmt: skip
    before, after = row.before.edge, row.after.edge
    kept = {
        before.key: (0.0, start_mm, section(before, 0.0, start_mm, before.start, fresh.start)),
        after.key: (
            end_mm, after.length, section(after, end_mm, after.length, fresh.end, after.end),
        ),
    }  # fmt: skip
    edges = tuple(
        fresh if e.key == edge.key else kept[e.key][2] if e.key in kept else e for e in piece.edges
    )
    edges = _ends_met(edges, fresh)
    gone = {c.dart.key for c in closed}
    notches = [n for n in piece.notches if (n.edge, n.side) not in {edge.key, *kept}]
    for key, (low, high, new) in kept.items():
        old = piece.edge(*key)
        notches += notches_on(piece.notches, old, Section(old, low, high), new)
    left = replace(
        piece,
        edges=edges,
        darts=(*(d for d in piece.darts if d.key not in gone), *darts),
        notches=tuple(notches),
    )
    left = _named_as_before(left, {fresh.start: edge.start, fresh.end: edge.end})
    region = Region(left.plain_ring)
    return replace(
        left,
        levels=tuple(v for v in (_level(v, parts, region) for v in left.levels) if v),
        marks=tuple(m for m in left.marks if region.off(m.point) < 0.05),
    )


def _closed(row: Row, start_mm: float, end_mm: float) -> tuple[Motion, list[_Closed]]:
    """How the cloth at the row's start was moved, and the darts closed from there on."""
    (laid,) = row.edges
    found: list[_Closed] = []
    spots = [at for at, _ in row.before.mouths]
    first = row.before.motions[sum(at < start_mm for at in spots)]
    for one, low, high in (
        (row.before, start_mm, row.before.line.length),
        (laid, 0.0, laid.line.length),
        (row.after, 0.0, end_mm),
    ):
        for k, (at, name) in enumerate(one.mouths):
            if low < at < high:
                dart = one.piece.dart(name, one.edge.side)
                found.append(_Closed(dart, one.motions[k], one.motions[k + 1]))
    return first, found


def _opened(
    piece: Piece, inner: Curve, first: Motion, closed: list[_Closed]
) -> tuple[list[Curve], list[Dart]]:
    """The inner line as it lies with the darts open, and the darts as they open from it."""
    parts: list[Curve] = []
    darts: list[Dart] = []
    at, motion = 0.0, first
    for one in closed:
        leg = one.dart.legs[0].moved(one.before)
        met = nearest_crossing(inner, leg, leg.end)
        if met is None or met.first_mm <= at:
            raise TooWide(
                f"the {one.dart.name} of the {piece.label} ends within the facing, so that the "
                "lining cannot be cut off there; trace the facing narrower, or copy the lining "
                "whole"
            )
        back, on = inverse(one.before), inverse(one.after)
        parts.append(inner.part(at, met.first_mm).moved(inverse(motion)))
        legs = one.dart.legs
        one_at, two_at = back.of(met.point), on.of(met.point)
        fresh = (
            legs[0].part(legs[0].nearest(one_at)[0], legs[0].length).started_at(one_at),
            legs[1].part(0.0, legs[1].nearest(two_at)[0]).ended_at(two_at),
        )
        parts[-1] = parts[-1].ended_at(one_at)
        darts.append(replace(one.dart, legs=fresh))
        at, motion = met.first_mm, one.after
    parts.append(inner.part(at, inner.length).moved(inverse(motion)))
    if darts:
        parts[-1] = parts[-1].started_at(darts[-1].mouth_end)
        for k, dart in enumerate(darts[:-1]):
            parts[k + 1] = parts[k + 1].started_at(dart.mouth_end)
    return parts, darts


def _named_as_before(piece: Piece, names: dict[str, str]) -> Piece:
    """Give the new corners the names of the old ones, now that notches are measured from them."""
    return replace(
        piece,
        edges=tuple(
            replace(e, start=names.get(e.start, e.start), end=names.get(e.end, e.end))
            for e in piece.edges
        ),
        notches=tuple(replace(n, corner=names.get(n.corner, n.corner)) for n in piece.notches),
    )


def _ends_met(edges: tuple[Edge, ...], fresh: Edge) -> tuple[Edge, ...]:
    """Let the edges beside the new one end at the very points where it begins and ends."""
    out = list(edges)
    at = next(i for i, e in enumerate(out) if e.key == fresh.key)
    before, after = out[at - 1], out[(at + 1) % len(out)]
    start, end = fresh.parts[0].start, fresh.parts[-1].end
    out[at - 1] = replace(before, parts=(*before.parts[:-1], before.parts[-1].ended_at(start)))
    out[(at + 1) % len(out)] = replace(
        after, parts=(after.parts[0].started_at(end), *after.parts[1:])
    )
    return tuple(out)


def _level(level: Level, cuts: list[Curve], region: Region) -> Level | None:
    strokes = joined_strokes(strokes_by_region(level.strokes, cuts, [region])[0])
    if not strokes and not level.edges:
        return None
    return replace(level, strokes=strokes)


__all__ = ["cut_off"]
