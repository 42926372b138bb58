"""Drawing a dart's mouth again: wider, narrower, elsewhere, or to another pivot."""

import cmath
import math
from dataclasses import replace

from tracker.alterations.mouth import broken_by
from tracker.alterations.turning import Swung, chained, notch_kept
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, dot, turn_between
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.marks import Level, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch, Trace

#: The edge is trued over at most this far on each side of a mouth.
TRUED_MM = 60.0
#: Each side of a mouth keeps at least this much of its edge.
LEFT_MM = 5.0
#: The end of a line this near a dart's leg was broken by it.
_ON_LEG_MM = 0.05


def mouth_drawn(
    piece: Piece,
    dart: Dart,
    pivot: Point,
    mouth: tuple[Point, Point],
    *,
    notches_follow: bool,
    legs: tuple[Curve, ...] | None = None,
) -> Swung:
    """Return a piece with a dart's legs drawn from another mouth to another pivot.

    The edge is drawn again beside the mouth so that it runs smoothly over the folded dart; the
    drawn edge becomes its own base.

    Args:
        piece: the piece.
        dart: the dart, with its new stand-back.
        pivot: the new pivot.
        mouth: where the mouth begins and ends now, equally far from the pivot.
        notches_follow: whether notches beyond the mouth keep their distance from the edge's end
            (the mouth took cloth or gave it); otherwise distances as sewn stay.
        legs: both legs from the pivot to the mouth, where they are not straight.

    Raises:
        PatternError: too little would be left of the edge beside the mouth.
    """
    edge = piece.edge(str(dart.mouth), dart.side)
    k = edge.mouths.index(dart.name)
    one, two = edge.parts[k], edge.parts[k + 1]
    start, end = mouth
    along_1, along_2 = one.nearest(start)[0], two.nearest(end)[0]
    if along_1 < LEFT_MM or two.length - along_2 < LEFT_MM:
        raise PatternError(
            f"the mouth of the {dart.name} would come within {LEFT_MM:.0f} mm of the end of the "
            f"{edge.name} of the {piece.label}, or of another dart"
        )
    # Folded, the second leg lies on the first: the edge has to leave both at one angle.
    down = legs or (Curve.line(pivot, start), Curve.line(pivot, end))
    out_1, out_2 = down[0].end_heading, down[1].end_heading
    lean = (
        turn_between(out_1, one.heading_at(along_1)) + turn_between(out_2, two.heading_at(along_2))
    ) / 2
    first, kept_1 = _arriving(one, along_1, start, out_1 * cmath.exp(1j * lean))
    back, kept_2 = _arriving(two.reversed, two.length - along_2, end, -out_2 * cmath.exp(1j * lean))
    second = back.reversed
    parts = (*edge.parts[:k], first, second, *edge.parts[k + 2 :])
    new_edge = replace(edge, parts=parts, bases=(), displacements=())
    fresh = replace(dart, legs=(down[0].reversed, down[1]))
    before = sum(p.length for p in edge.parts[:k])
    low, high = before + along_1, before + one.length + along_2
    new = piece.with_edge(new_edge).with_dart(fresh)
    if notches_follow:
        new = replace(
            new,
            notches=tuple(notch_kept(n, edge, new_edge, low, high) for n in piece.notches),
        )
    levels = (mended(v, piece.dart(*dart.key)) for v in piece.levels)
    again = tuple(level_again(v, piece, new, [edge.key]) for v in levels)
    broken = broken_by(again, fresh)
    new = replace(
        new,
        levels=tuple(replace(v, strokes=chained(list(v.strokes))) for v in broken),
    )

    def fate(a: float, b: float, c: float | None, d: float, still: bool = False) -> list[Fate]:
        if b - a <= SHORTEST_MM:
            return []
        there = None
        if c is not None:
            there = Stretch(piece.name, edge.name, edge.side, c, d)
        return [Fate(Stretch(piece.name, edge.name, edge.side, a, b), there, still=still)]

    far, new_far, mid = edge.length, new_edge.length, before + first.length
    tail = far - before - one.length - two.length + kept_2
    fates = (
        *fate(0.0, before + kept_1, 0.0, before + kept_1, True),
        *fate(before + kept_1, low, before + kept_1, mid),
        *fate(low, high, None, 0.0),
        *fate(high, far - tail, mid, new_far - tail),
        *fate(far - tail, far, new_far - tail, new_far, True),
    )
    return Swung(new, Trace(fates))


def _arriving(line: Curve, along_mm: float, end: Point, heading: Point) -> tuple[Curve, float]:
    """A line drawn again over its last stretch to arrive at a point in a direction."""
    keep = along_mm - min(TRUED_MM, along_mm * 0.45)
    head = line.part(0.0, keep)
    reach = abs(end - head.end) / 3
    blend = Curve.cubic(head.end, head.end + head.end_heading * reach, end - heading * reach, end)
    return head.joined(blend), keep


def bowed(leg: Curve, axis: Point, deep_mm: float, by_mm: float) -> Curve:
    """Return a dart's leg bowed to one side, its direction at the pivot kept.

    Args:
        leg: the leg from the pivot down.
        axis: the unit direction in which its depth is told.
        deep_mm: how deep it is bowed most; from there to its end to nothing.
        by_mm: how far, to the left of the axis.
    """
    if not by_mm:
        return leg
    whole = dot(leg.end - leg.start, axis)
    out = []
    for segment in leg.segments:
        start, end = segment[0], segment[-1]
        spots = segment if len(segment) == 4 else tuple(
            start + (end - start) * k / 3 for k in range(4)
        )  # fmt: skip
        a, d = (dot(p - leg.start, axis) for p in (start, end))
        if (a + d) / 2 <= deep_mm:
            # The square of the depth, as a cubic: level at the pivot.
            by = [a * a, (a * a + 2 * a * d) / 3, (d * d + 2 * a * d) / 3, d * d]
            by = [b / deep_mm**2 for b in by]
        else:
            by = [(whole - a - (d - a) * k / 3) / (whole - deep_mm) for k in range(4)]
        out.append(tuple(p + axis * 1j * (by_mm * b) for p, b in zip(spots, by, strict=True)))
    return Curve.of(out)


def _faded(line: Curve, by: Point, axis: Point) -> Curve:
    """A line whose start is moved, its other end not, what lies between in proportion."""
    tall = dot(line.end - line.start, axis)

    def of(spot: Point) -> Point:
        return spot + by * (dot(line.end - spot, axis) / tall)

    return Curve(of(line.start), tuple(tuple(of(p) for p in run) for run in line.runs))


def meeting_mm(line: Curve, pivot: Point, out: Point, near_mm: float) -> float:
    """Return how far from a pivot a leg in a direction meets a line, nearest to a length."""
    hits = [c.second_mm for c in with_line(line, pivot, out) if c.second_mm > 0]
    return min(hits, key=lambda s: abs(s - near_mm), default=near_mm)


def mouth_for(edge: Edge, dart: Dart, pivot: Point, intake_mm: float) -> tuple[Point, Point]:
    """Return the mouth of an intake, about the middle of the old one, for legs to a pivot."""
    k = edge.mouths.index(dart.name)
    spare = abs(intake_mm - dart.intake_mm) + 30.0
    one = edge.parts[k].run_on(after_mm=spare)
    two = edge.parts[k + 1].run_on(before_mm=spare)
    middle = (dart.mouth_start + dart.mouth_end) / 2
    leg = abs(middle - pivot)
    axis = (middle - pivot) / leg
    for _ in range(6):
        half = intake_mm / 2 / leg
        if half >= 0.9:
            raise PatternError(f"the {dart.name} would be too wide for its length")
        turn = cmath.exp(1j * math.asin(half))
        out_1, out_2 = axis / turn, axis * turn
        leg = (meeting_mm(one, pivot, out_1, leg) + meeting_mm(two, pivot, out_2, leg)) / 2
    turn = cmath.exp(1j * math.asin(intake_mm / 2 / leg))
    return pivot + axis / turn * leg, pivot + axis * turn * leg


def mended(level: Level, dart: Dart) -> Level:
    """Return a material line with the break at a dart's legs bridged straight."""
    strokes: list[Stroke] = list(level.strokes)

    def on(leg: Curve, spot: Point) -> bool:
        return leg.nearest(spot)[1] <= _ON_LEG_MM

    for i, stroke in enumerate(strokes):
        for a in (stroke, stroke[::-1]):
            if not on(dart.legs[0], a[-1]):
                continue
            for j, other in enumerate(strokes):
                if i == j:
                    continue
                for b in (other, other[::-1]):
                    if on(dart.legs[1], b[0]):
                        rest = [s for n, s in enumerate(strokes) if n not in (i, j)]
                        bridge = (*a, *(b[1:] if abs(a[-1] - b[0]) < _ON_LEG_MM else b))
                        return replace(level, strokes=(*rest, bridge))
    return level


def inner_drawn(piece: Piece, dart: Dart, wider: float, longer: float) -> Piece:
    """Return a piece with a double-pointed dart drawn wider and longer about its widest place.

    Args:
        piece: the piece.
        dart: the dart, with its new stand-back.
        wider: the factor of its width.
        longer: the factor of its length.
    """
    top, axis = dart.pivot, dart.axis
    leg = dart.legs[0]
    spots = [leg.point_at(leg.length * k / 40) for k in range(41)]
    spots += [run[-1] for run in leg.runs]
    widest = max(spots, key=lambda p: abs(cross(axis, p - top)))
    middle = top + axis * dot(axis, widest - top)

    def of(spot: Point) -> Point:
        rest = spot - middle
        along, beside = dot(axis, rest), cross(axis, rest)
        return middle + axis * (along * longer) + axis * 1j * (beside * wider)

    legs = tuple(
        Curve(of(one.start), tuple(tuple(of(p) for p in run) for run in one.runs))
        for one in dart.legs
    )
    fresh = replace(dart, legs=(legs[0], legs[1]))
    levels = broken_by(tuple(mended(v, piece.dart(*dart.key)) for v in piece.levels), fresh)
    return replace(piece.with_dart(fresh), levels=levels)


__all__ = ["LEFT_MM", "bowed", "inner_drawn", "meeting_mm", "mended", "mouth_drawn", "mouth_for"]
