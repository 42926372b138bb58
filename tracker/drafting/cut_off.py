"""What a facing leaves of a piece: cut off along the facing's inner line, darts open again."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.drafting.facing import TooWide, inner_line
from tracker.drafting.facing_piece import Stretch, stretches
from tracker.drafting.laid_flat import inverse, row_of
from tracker.drafting.style_region import Region, joined_strokes, strokes_by_region
from tracker.drafting.style_round import rounded_corner
from tracker.drafting.style_section import Section, notches_on, section
from tracker.geometry.crossing import nearest_crossing, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.transform import Motion
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: The edge along which a lining is sewn to a facing of several edges.
FACING_SEAM = "facing seam"
#: Over a dart that ends within the facing the line is smoothed so far to either side.
_SMOOTH_MM = 30.0


@dataclass(frozen=True, slots=True)
class _Closed:
    """A dart the facing has closed, and how the cloth before and after it was moved."""

    dart: Dart
    before: Motion
    after: Motion


def cut_off(piece: Piece, edges: Sequence[Edge], width_mm: float) -> Piece:
    """Return a piece without what lies within a width of some of its edges.

    One edge keeps its name where it now lies; several, which follow one another, become one
    called the facing seam. A dart that opened within the width, from these edges or from one
    beside them, opens from the new edge.

    Args:
        piece: the piece.
        edges: the edges.
        width_mm: how wide the facing is.

    Raises:
        TooWide: there is no room.
        NotOneLine: the edges do not follow one another, or go on in others without a corner.
    """
    row = row_of(Pattern((piece,)), [(piece, edge) for edge in edges], width_mm)
    try:
        inner, start_mm, end_mm = inner_line(row, width_mm)
    except TooWide as fault:
        raise TooWide(
            f"the lining of the {piece.label} cannot be cut off at a facing {width_mm:.0f} mm "
            "wide, which runs over the end of the edge beside it; trace the facing narrower, or "
            "copy the lining whole (--whole)"
        ) from fault
    starts = stretches(row.beside_start, 0.0, start_mm)
    ends = stretches(row.beside_end, end_mm, math.inf)
    # What of the edges beside the row lies within: whole ones, and the rest of those cut.
    within = (
        *stretches(row.beside_start, start_mm, math.inf),
        *stretches(row.edges, 0.0, math.inf),
        *stretches(row.beside_end, 0.0, end_mm),
    )
    parts, darts = _opened(piece, inner, within)
    closed = {one.dart.key for one in _mouths(within)}
    name = edges[0].name if len(edges) == 1 else FACING_SEAM
    side = row.edges[0].edge.side
    corners = row.edges[0].edge.start, row.edges[-1].edge.end
    fresh = Edge(name, side, "facing start", "facing end", tuple(parts),
                 tuple(d.name for d in darts))  # fmt: skip
    darts = [replace(d, mouth=name) for d in darts]
    first, last = starts[-1], ends[0]
    before, after = first.laid.edge, last.laid.edge
    kept = {
        before.key: (
            0.0, first.to_mm, section(before, 0.0, first.to_mm, before.start, fresh.start),
        ),
        after.key: (
            last.from_mm, after.length,
            section(after, last.from_mm, after.length, fresh.end, after.end),
        ),
    }  # fmt: skip
    gone = {some.laid.edge.key for some in within} - set(kept)
    opened = row.edges[0].edge.key
    ring = [
        fresh if e.key == opened else kept[e.key][2] if e.key in kept else e
        for e in piece.edges
        if e.key not in gone or e.key == opened
    ]
    notches = [n for n in piece.notches if (n.edge, n.side) not in gone | set(kept)]
    for key, (low, high, new) in kept.items():
        old = piece.edge(*key)
        notches += notches_on(piece.notches, old, Section(old, low, high), new)
    reopened = {d.key for d in darts}
    left = replace(
        piece,
        edges=_ends_met(ring, fresh),
        darts=(*(d for d in piece.darts if d.key not in reopened | closed), *darts),
        notches=tuple(notches),
        levels=tuple(
            replace(v, edges=tuple(e for e in v.edges if (e, v.side) not in gone))
            for v in piece.levels
        ),
    )
    left = _named_as_before(left, dict(zip((fresh.start, fresh.end), corners, strict=True)))
    region = Region(left.plain_ring)
    return replace(
        left,
        levels=tuple(v for v in (_level(v, parts, region) for v in left.levels) if v),
        marks=tuple(m for m in left.marks if region.off(m.point) < 0.05),
    )


def _mouths(within: Sequence[Stretch]) -> list[_Closed]:
    """The darts closed within, in order."""
    found: list[_Closed] = []
    for some in within:
        laid = some.laid
        for k, (at, name) in enumerate(laid.mouths):
            if some.from_mm < at < some.to_mm:
                dart = laid.piece.dart(name, laid.edge.side)
                found.append(_Closed(dart, laid.motions[k], laid.motions[k + 1]))
    return found


def _opened(
    piece: Piece, inner: Curve, within: Sequence[Stretch]
) -> tuple[list[Curve], list[Dart]]:
    """The inner line as it lies with the darts open, and the darts as they open from it.

    Beyond the point of a dart that ends within, the piece lies as it is: the line goes on over
    the dart's middle, a little longer than it is with the dart closed.
    """
    parts: list[Curve] = []
    darts: list[Dart] = []
    begun = within[0]
    passed = sum(at <= begun.from_mm for at, _ in begun.laid.mouths)
    at, motion = 0.0, begun.laid.motions[passed]
    ahead: Curve | None = None  # of the part that is being drawn, what lies before a dart's middle
    for one in _mouths(within):
        leg = one.dart.legs[0].moved(one.before)
        met = nearest_crossing(inner, leg, leg.end)
        back, on = inverse(one.before), inverse(one.after)
        if met is None or met.first_mm <= at:
            spots = [_beyond(inner, one.dart, m, at) for m in (one.before, one.after)]
            bit = inner.part(at, spots[0]).moved(inverse(motion))
            bit = bit if ahead is None else _over(ahead, bit)
            ahead, at, motion = bit, spots[1], one.after
            continue
        bit = inner.part(at, met.first_mm).moved(inverse(motion))
        legs = one.dart.legs
        one_at, two_at = back.of(met.point), on.of(met.point)
        fresh = (
            legs[0].part(legs[0].nearest(one_at)[0], legs[0].length).started_at(one_at),
            legs[1].part(0.0, legs[1].nearest(two_at)[0]).ended_at(two_at),
        )
        bit = bit if ahead is None else _over(ahead, bit)
        parts.append(bit.ended_at(one_at))
        darts.append(replace(one.dart, legs=fresh))
        ahead, at, motion = None, met.first_mm, one.after
    bit = inner.part(at, inner.length).moved(inverse(motion))
    parts.append(bit if ahead is None else _over(ahead, bit))
    if darts:
        for k, dart in enumerate(darts):
            parts[k + 1] = parts[k + 1].started_at(dart.mouth_end)
    return parts, darts


def _beyond(inner: Curve, dart: Dart, motion: Motion, after_mm: float) -> float:
    """How far along the inner line a dart's middle, run on beyond its point, meets it."""
    pivot = motion.of(dart.pivot)
    way = motion.of(dart.pivot - dart.axis) - pivot
    met = [
        c for c in with_line(inner, pivot, way) if c.second_mm > 0 and c.first_mm > after_mm
    ]  # fmt: skip
    if not met:
        raise TooWide(
            f"the {dart.name} ends within the facing, at its very end, so that the lining cannot "
            "be cut off there; trace the facing narrower, or copy the lining whole"
        )
    return min(met, key=lambda c: c.second_mm).first_mm


def _over(before: Curve, after: Curve) -> Curve:
    """Two lines made one over a dart's middle, smoothly."""
    middle = (before.end + after.start) / 2
    one, two = before.ended_at(middle), after.started_at(middle)
    reach = min(_SMOOTH_MM, 0.45 * one.length, 0.45 * two.length)
    return rounded_corner(one.joined(two), one.length, reach)


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


def _ends_met(edges: list[Edge], fresh: Edge) -> tuple[Edge, ...]:
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


__all__ = ["FACING_SEAM", "cut_off"]
