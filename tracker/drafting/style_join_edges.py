"""The joined panel's own lines: the armhole bottom, the waist, the dart on the join."""

import cmath
import math
from dataclasses import dataclass

from tracker.drafting.style_join_turn import Laid
from tracker.drafting.style_round import with_end_heading, with_start_heading
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, unit
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge

#: The armhole is trued over this much of it to either side of the underarm.
ARMHOLE_MM = 45.0
#: The waist is trued over this much of it to either side of the join.
WAIST_MM = 60.0
#: The name of the dart on the join.
DART = "side dart"
#: A length is met to this.
CLOSE_MM = 1e-4
#: The handles, as shares of the chord, between which the waist is drawn across a gap.
_HANDLES = 0.12, 0.6
#: Shorter and shorter reaches for it, millimetres.
WAIST_REACHES_MM = (60.0, 45.0, 30.0, 20.0, 12.0, 6.0)


@dataclass(frozen=True)
class Drawn:
    """An edge drawn from both panels' edges of one name.

    Attributes:
        edge: the new edge.
        split_mm: how far along it, as sewn, the join lies.
        moved_mm: the furthest it was moved by truing.
        bend_rad: the bend there was at the join; positive is a peak.
        kept_mm: how much of the first and of the second old edge was not drawn again.
    """

    edge: Edge
    split_mm: float
    moved_mm: float
    bend_rad: float
    kept_mm: tuple[float, float]


def armhole_of(one: Laid, other: Laid) -> Drawn:
    """Join the two armholes in one smooth line through the underarm."""
    first, second = one.armhole, other.armhole
    a, b = first.drawn[-1], second.drawn[0]
    heading = unit(a.end_heading + b.start_heading)
    bend = cmath.phase(b.start_heading / a.end_heading)
    reach = min(ARMHOLE_MM, 0.4 * a.length, 0.4 * b.length)
    bent_a = with_end_heading(a, reach, heading)
    bent_b = with_start_heading(b, reach, heading)
    bent_b = bent_b.started_at(bent_a.end)
    edge = Edge(
        "armhole", first.side, first.start, second.end,
        (*first.drawn[:-1], bent_a.joined(bent_b), *second.drawn[1:]),
        (*first.mouths, *second.mouths),
    )  # fmt: skip
    moved = max(_off(a, bent_a), _off(b, bent_b))
    split = sum(p.length for p in first.drawn[:-1]) + bent_a.length
    kept = first.length - reach, second.length - reach
    return Drawn(edge, split, moved, bend, kept)


def bottom_of(one: Laid, other: Laid, dart_mm: float, point: Point) -> tuple[Drawn, Dart | None]:
    """Join the two bottom edges (the waist), with a plumb dart between them or none.

    Its length as sewn is that of both, with the gap between them and without the dart; folded,
    the dart closes to a smooth line.

    Args:
        one: the panel at the right of the join.
        other: the panel at its left.
        dart_mm: the dart's width there.
        point: the dart's point.
    """
    first, second = other.bottom, one.bottom
    a, b = first.drawn[-1], second.drawn[0]
    wanted = a.length + b.length + (b.start - a.end).real - dart_mm
    bend = cmath.phase(b.start_heading / a.end_heading)
    mouths: tuple[str, ...] = ()
    if dart_mm <= 0:
        line, split, kept = _bridged(a, b, wanted)
        parts, dart = (*first.drawn[:-1], line, *second.drawn[1:]), None
        moved = max(_off(a.part(0.0, min(a.length, split)), line), _off(b, line))
    else:
        left, right, legs, turn = _darted(a, b, dart_mm, wanted, point)
        parts = (*first.drawn[:-1], left, right, *second.drawn[1:])
        mouths, split = (DART,), left.length
        dart = Dart(DART, first.side, legs, 0.0, "to the front", first.name)
        kept = max(0.0, left.length - WAIST_MM), max(0.0, right.length - WAIST_MM)
        moved, bend = abs(legs[0].start - a.end), bend + 2 * turn
    edge = Edge(
        first.name, first.side, first.start, second.end, parts,
        (*first.mouths, *mouths, *second.mouths),
    )  # fmt: skip
    before = sum(p.length for p in first.drawn[:-1])
    kept_mm = before + min(kept[0], a.length), second.length - b.length + min(kept[1], b.length)
    return Drawn(edge, before + split, moved, bend, kept_mm), dart


def _darted(
    a: Curve, b: Curve, dart_mm: float, wanted: float, point: Point
) -> tuple[Curve, Curve, tuple[Curve, Curve], float]:
    """The waist to either side of a dart, its legs, and half its angle."""
    y = (a.end.imag + b.start.imag) / 2
    half = dart_mm / 2
    for _ in range(30):
        turn = math.atan2(half, point.imag - y)
        fold, unfold = cmath.rect(1.0, turn), cmath.rect(1.0, -turn)
        heading = unit(a.end_heading * fold + b.start_heading * unfold)
        mouth = complex(point.real - half, y), complex(point.real + half, y)
        left = _ending(a, mouth[0], heading * unfold)
        right = _ending(b.reversed, mouth[1], -heading * fold).reversed
        off = left.length + right.length - wanted
        if abs(off) < CLOSE_MM:
            break
        half += off / 2
    return left, right, (Curve.line(mouth[0], point), Curve.line(point, mouth[1])), turn


def _ending(line: Curve, end: Point, heading: Point) -> Curve:
    """A line run on or cut back to a point, arriving there in a direction."""
    at = line.nearest(end)[0]
    keep = line.part(0.0, max(at - WAIST_MM, 0.35 * line.length))
    reach = abs(end - keep.end) / 3
    bent = Curve.cubic(
        keep.end, keep.end + keep.end_heading * reach, end - heading * reach, end
    )  # fmt: skip
    return keep.joined(bent)


def _bridged(a: Curve, b: Curve, wanted: float) -> tuple[Curve, float, tuple[float, float]]:
    """One line across the gap or overlap, of a length; and how far along the join lies.

    Rounding the bend makes the line a little shorter; the reach is as long as the handles can
    make that good.
    """
    for over in WAIST_REACHES_MM:
        whole, kept = _bridge_over(a, b, wanted, over)
        if abs(whole.length - wanted) < CLOSE_MM:
            break
    return whole, whole.nearest((a.end + b.start) / 2)[0], kept


def _bridge_over(
    a: Curve, b: Curve, wanted: float, over_mm: float
) -> tuple[Curve, tuple[float, float]]:
    gap = abs(b.start - a.end) if (b.start - a.end).real < 0 else 0.0
    back, on = (min(over_mm + gap, 0.65 * c.length) for c in (a, b))
    head, tail = a.part(0.0, a.length - back), b.part(on, b.length)
    chord = abs(tail.start - head.end)

    def line(pull: float) -> Curve:
        reach = pull * chord
        bridge = Curve.cubic(
            head.end, head.end + head.end_heading * reach,
            tail.start - tail.start_heading * reach, tail.start,
        )  # fmt: skip
        return head.joined(bridge).joined(tail)

    low, high = _HANDLES
    for _ in range(40):
        middle = (low + high) / 2
        if line(middle).length < wanted:
            low = middle
        else:
            high = middle
    return line((low + high) / 2), (head.length, tail.length)


def _off(old: Curve, new: Curve) -> float:
    """How far a new line stands off an old one, at most."""
    return max(new.nearest(old.point_at(old.length * k / 60))[1] for k in range(61))


def double_pointed(side: Edge, point: Point, y: float, low: Point, dart_mm: float) -> Dart:
    """Return a plumb dart on the join with two points, widest at the waist.

    Args:
        side: an edge of the join, for the wearer's side.
        point: its upper point.
        y: where the waist is.
        low: its lower point.
        dart_mm: its width at the waist.
    """
    half = dart_mm / 2
    legs = [Curve.line(point, complex(point.real + s * half, y), low) for s in (-1, 1)]
    return Dart(DART, side.side, (legs[0], legs[1]), 0.0, "to the front")
