"""Darts on the way of a line a piece is parted on: cut in two, or what is left of them opened."""

from dataclasses import dataclass, replace

from tracker.alterations.crossed_darts import Crossed, left_over
from tracker.alterations.mouth_trued import folded_kink_of, legs_equal, mouth_trued
from tracker.drafting.style_split import CannotPart
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, cross
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.piece import Piece

Key = tuple[str, BodySide]

#: A new edge bends by no more than this over a dart folded.
_MOST_KINK_DEG = 2.0
_ON_MM = 0.05


@dataclass(frozen=True, slots=True)
class Inner:
    """A double-pointed dart a line crosses.

    Attributes:
        dart: the dart.
        first_mm: where along the line its first leg is met, and
        second_mm: the second.
        legs: the leg met first, and the other, both from the upper to the lower point.
        at_mm: where on both legs.
    """

    dart: Dart
    first_mm: float
    second_mm: float
    legs: tuple[Curve, Curve]
    at_mm: float


def inner_across(piece: Piece, side: BodySide, line: Curve) -> tuple[Inner, ...]:
    """Return the double-pointed darts of one body side a line runs across, in order along it.

    Raises:
        CannotPart: it would cut one too near its point.
    """
    found = []
    for dart in piece.darts:
        if not dart.double_pointed or dart.side is not side:
            continue
        spots = [
            min((c.first_mm, c.second_mm) for c in met)
            for leg in dart.legs
            if (met := of_curves(line, leg))
        ]
        if len(spots) != 2:
            continue
        order = (0, 1) if spots[0][0] < spots[1][0] else (1, 0)
        at = (spots[0][1] + spots[1][1]) / 2
        short = min(at, dart.legs[0].length - at)
        if short < 12.0:
            raise CannotPart(
                f"the line would cut the {dart.name} of the {piece.label} {short:.0f} mm "
                "from its point; lay it 12 mm from there, or clear of the dart"
            )
        legs = dart.legs[order[0]], dart.legs[order[1]]
        found.append(Inner(dart, spots[order[0]][0], spots[order[1]][0], legs, at))
    return tuple(sorted(found, key=lambda i: i.first_mm))


def darts_opened(
    half: Piece, seam: Key, on_the_way: tuple[Inner | Crossed, ...], *, ahead: bool
) -> Piece:
    """Return a part with the ways to the points of the darts it was cut over made darts.

    Args:
        half: the part.
        seam: its edge in the new seam.
        on_the_way: the darts the line runs across, in order along it.
        ahead: whether the part lies ahead of the line's start.

    Raises:
        CannotPart: folded, a dart would bend the new edge.
    """
    edge = half.edge(*seam)
    line = edge.parts[0].reversed if ahead else edge.parts[0]
    parts: list[Curve] = []
    darts: list[Dart] = []
    rest = line
    for met in on_the_way:
        if isinstance(met, Crossed):
            tip, leg = met.dart.pivot, met.at_mm
            if rest.nearest(tip)[1] > _ON_MM:
                continue  # this part has its mouth, and is sewn shut
        else:
            tip, leg = _tip(met, ahead), met.at_mm
            if abs(tip - met.legs[0].start) > SAME_MM:
                leg = met.legs[0].length - met.at_mm
        at = rest.nearest(tip)[0]
        parts.append(rest.part(0.0, at - leg))
        legs = rest.part(at - leg, at).ended_at(tip), rest.part(at, at + leg).started_at(tip)
        if isinstance(met, Crossed):
            darts.append(left_over(met, edge.name, legs))
        else:
            darts.append(replace(met.dart, legs=legs, mouth=edge.name))
        rest = rest.part(at + leg, rest.length)
    if not darts:
        return half
    parts.append(rest)
    mouths = [d.name for d in darts]
    if ahead:
        parts = [p.reversed for p in reversed(parts)]
        mouths.reverse()
        darts = [replace(d, legs=(d.legs[1].reversed, d.legs[0].reversed)) for d in darts]
    fresh = replace(edge, parts=tuple(parts), mouths=tuple(mouths))
    kept = tuple(d for d in half.darts if d.name not in mouths or d.side is not edge.side)
    piece = replace(half.with_edge(fresh), darts=(*kept, *darts))
    inner = {i.dart.key for i in on_the_way if isinstance(i, Inner)}
    for dart in darts:
        straight = all(len(leg.runs) == 1 and len(leg.runs[0]) == 1 for leg in dart.legs)
        piece = legs_equal(piece, *dart.key) if straight else piece
        if dart.key in inner:
            piece = mouth_trued(piece, *dart.key, 0.0)
        bend = abs(folded_kink_of(piece, *dart.key))
        if bend > _MOST_KINK_DEG:
            raise CannotPart(
                f"with the {dart.name} of the {piece.label} folded the new edge would bend by "
                f"{bend:.0f} degrees; lay the line further from the dart's points"
            )
    return piece


def _tip(inner: Inner, ahead: bool) -> Point:
    one, two = inner.legs
    spots = one.point_at(inner.at_mm), two.point_at(inner.at_mm)
    up = cross(spots[1] - spots[0], one.start - spots[0]) > 0
    return one.start if up != ahead else one.end


def way_round(inner: Inner, right: bool) -> Curve:
    """Return the way to that point of a double-pointed dart that lies on one side, and back."""
    one, two = inner.legs
    spots = one.point_at(inner.at_mm), two.point_at(inner.at_mm)
    up = cross(spots[1] - spots[0], one.start - spots[0]) > 0  # the upper point is left
    if up != right:
        there = one.part(0.0, inner.at_mm).reversed, two.part(0.0, inner.at_mm)
    else:
        there = (
            one.part(inner.at_mm, one.length),
            two.part(inner.at_mm, two.length).reversed,
        )
    return there[0].joined(there[1])


__all__ = ["Inner", "darts_opened", "inner_across", "way_round"]
