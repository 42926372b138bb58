"""Opening an edge for a dart, trued so that it is smooth with the dart folded."""

import itertools
import math
from dataclasses import dataclass, replace

from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, dot, left_of, turned
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch
from tracker.pattern.walk import notch_on_edge

#: The edge is trued over at most this far on each side of a mouth, and less where the mouth would
#: be drawn further than that off the edge there was; never over less than the least.
TRUED_MM, OFF_MM, LEAST_MM = 60.0, 1.0, 15.0


@dataclass(frozen=True)
class Opened:
    """A piece with a dart opened, and what became of the edge it opens from."""

    piece: Piece
    fates: tuple[Fate, ...]


def cut_mouth(
    piece: Piece,
    edge: Edge,
    at_mm: float,
    width_mm: float,
    length_mm: float,
    lean_rad: float,
    dart: Dart,
) -> Opened:
    """Open a dart from one of a piece's edges.

    The mouth's chord is ``width_mm``; the pivot lies ``length_mm`` from its middle. Beside
    the mouth the edge is redrawn to meet each leg square, so that it runs smoothly over the
    folded dart. The drawn edge becomes its own base. An edge on the fold stays straight: opened
    out, the dart has two points and its widest place lies on the centre.

    Args:
        piece: the piece.
        edge: one of its edges.
        at_mm: the middle of the mouth, from the edge's start as sewn.
        width_mm: the mouth's width.
        length_mm: from the middle of the mouth to the pivot.
        lean_rad: the axis' lean to the left of square to the edge.
        dart: name, side, stand-back and the rest; its legs are replaced.

    Raises:
        PatternError: the mouth does not fit on its part of the edge.
    """
    index, middle = edge.locate(at_mm)
    part = edge.drawn[index]
    room = min(middle, part.length - middle)
    if room < width_mm / 2 + 5.0:
        raise PatternError(
            f"a mouth of {width_mm:.0f} mm does not fit {room:.0f} mm from the end of the "
            f"{edge.name} of the {piece.label}; it takes half its width and 5 mm on each side"
        )
    centre = part.point_at(middle)
    axis = turned(left_of(part.heading_at(middle)), 0j, lean_rad)
    pivot = centre + axis * length_mm
    half_angle = math.atan2(width_mm / 2, length_mm)
    # Leg directions, from the pivot out; going round the piece the first leg comes first.
    out_1 = turned(-axis, 0j, -half_angle)
    out_2 = turned(-axis, 0j, half_angle)
    if cross(out_1, out_2) < 0:
        out_1, out_2 = out_2, out_1
    before = _meeting(part, pivot, out_1, edge, dart)
    after = _meeting(part, pivot, out_2, edge, dart)
    if after <= before:
        raise PatternError(f"the {dart.name} leans so far that its legs cross on the {edge.name}")
    first, second = part.part(0.0, before), part.part(after, part.length)
    if piece.fold == edge.name:
        if lean_rad:
            raise PatternError(
                f"the {edge.name} of the {piece.label} is on the fold, and a dart from there goes "
                "square to it: it is the same on both halves"
            )
        return _with_mouth(piece, edge, index, (first, second), (before, after), pivot, dart)
    over = min(_trued_over(first.reversed, pivot, out_1), _trued_over(second, pivot, out_2))
    reach_1 = _trued_reach(first.reversed, pivot, out_1, over)
    reach_2 = _trued_reach(second, pivot, out_2, over)
    leg = (reach_1 + reach_2) / 2
    mouth_1, mouth_2 = pivot + out_1 * leg, pivot + out_2 * leg
    # Square to each leg, away from the mouth.
    first = _trued(first.reversed, mouth_1, -left_of(out_1), over).reversed
    second = _trued(second, mouth_2, left_of(out_2), over)
    return _with_mouth(piece, edge, index, (first, second), (before, after), pivot, dart)


def _with_mouth(
    piece: Piece,
    edge: Edge,
    index: int,
    halves: tuple[Curve, Curve],
    cut: tuple[float, float],
    pivot: Point,
    dart: Dart,
) -> Opened:
    """A piece with one part of an edge in two halves, and the dart between them."""
    (first, second), (before, after) = halves, cut
    mouth_1, mouth_2 = first.end, second.start
    parts = (*edge.parts[:index], first, second, *edge.parts[index + 1 :])
    mouths = (*edge.mouths[:index], dart.name, *edge.mouths[index:])
    new_edge = replace(edge, parts=parts, mouths=mouths, bases=(), displacements=())
    fresh = replace(dart, legs=(Curve.line(mouth_1, pivot), Curve.line(pivot, mouth_2)))
    start = sum(p.length for p in edge.parts[:index])
    notches = tuple(
        _notch_again(n, edge, new_edge, start + before, start + after)
        if (n.edge, n.side) == edge.key
        else n
        for n in piece.notches
    )
    done = replace(
        piece.with_edge(new_edge),
        darts=(*piece.darts, fresh),
        notches=notches,
        levels=broken_by(piece.levels, fresh),
    )
    # Trued beside the mouth, the edge is not quite where it was.
    done = replace(done, levels=tuple(level_again(v, piece, done, [edge.key]) for v in done.levels))
    new_start = start + first.length

    def fate(a: float, b: float, c: float | None = None, d: float | None = None) -> Fate:
        here = None
        if c is not None and d is not None:
            here = Stretch(piece.name, edge.name, edge.side, c, d)
        return Fate(Stretch(piece.name, edge.name, edge.side, a, b), here)

    return Opened(
        done,
        (
            fate(0.0, start + before, 0.0, new_start),
            fate(start + before, start + after),
            fate(start + after, edge.length, new_start, new_edge.length),
        ),
    )


def _meeting(part: Curve, pivot: Point, out: Point, edge: Edge, dart: Dart) -> float:
    meetings = [c for c in with_line(part, pivot, out) if c.second_mm > 0]
    if not meetings:
        raise PatternError(
            f"a leg of the {dart.name} does not reach the {edge.name}; make it narrower or "
            "move it along"
        )
    return min(meetings, key=lambda c: c.second_mm).first_mm


def _trued_over(away: Curve, pivot: Point, out: Point) -> float:
    """How far along an edge it is trued: an edge that bends much is flattened over a long way."""
    most = min(TRUED_MM, away.length * 0.45)
    least = min(LEAST_MM, most)

    def off(over: float) -> float:
        return abs(_trued_reach(away, pivot, out, over) - abs(away.start - pivot))

    if off(most) <= OFF_MM:
        return most
    if off(least) >= OFF_MM:
        return least
    for _ in range(30):
        middle = (least + most) / 2
        if off(middle) <= OFF_MM:
            least = middle
        else:
            most = middle
    return least


def _trued_reach(away: Curve, pivot: Point, out: Point, b: float) -> float:
    """How far out a leg must end for a fair line from the edge to meet it square.

    ``away`` runs from the mouth along the edge. The leg's end is where the line square to it
    and the edge's tangent, ``b`` along, have equal tangent lengths, as an arc has.
    """
    spot, heading = away.point_at(b), away.heading_at(b)
    square = -left_of(out) if dot(-left_of(out), heading) > 0 else left_of(out)
    low, high = abs(away.start - pivot) - 0.25 * b, abs(away.start - pivot) + 0.25 * b

    def unequal(reach: float) -> float:
        end = pivot + out * reach
        det = cross(square, heading)
        if abs(det) < 1e-9:
            # Square already: the tangent itself tells where the leg ends.
            return cross(end - spot, heading) * (1 if cross(out, heading) > 0 else -1)
        t = cross(spot - end, heading) / det
        u = cross(spot - end, square) / det
        return t + u

    a, c = unequal(low), unequal(high)
    if a * c > 0:
        return abs(away.start - pivot)
    for _ in range(80):
        middle = (low + high) / 2
        value = unequal(middle)
        if value == 0:
            break
        if value * a < 0:
            high = middle
        else:
            low, a = middle, value
    return (low + high) / 2


def _trued(away: Curve, mouth: Point, square: Point, b: float) -> Curve:
    """Return the edge from a mouth on, redrawn over ``b`` to leave it in direction ``square``."""
    rest = away.part(b, away.length)
    heading = rest.start_heading
    if dot(square, heading) < 0:
        square = -square
    reach = abs(rest.start - mouth) / 3
    blend = Curve.cubic(mouth, mouth + square * reach, rest.start - heading * reach, rest.start)
    return blend.joined(rest)


def _notch_again(notch: Notch, old: Edge, new: Edge, before: float, after: float) -> Notch:
    """Keep a notch on its cloth; one inside the mouth goes to the mouth's start."""
    at = notch_on_edge(old, notch)
    if at <= before:
        from_start = at
    elif at >= after:
        from_start = new.length - (old.length - at)
    else:
        from_start = before
    from_start = min(max(from_start, 0.0), new.length)
    distance = from_start if notch.corner == new.start else new.length - from_start
    return replace(notch, distance_mm=distance)


def broken_by(levels: tuple[Level, ...], dart: Dart) -> tuple[Level, ...]:
    """Break material lines where a dart crosses them, leaving out what lies inside it."""
    legs = dart.legs
    if dart.double_pointed:
        outline = legs[0].joined(legs[1].reversed)
    else:
        outline = legs[0].joined(legs[1]).joined(Curve.line(legs[1].end, legs[0].start))
    out = []
    for level in levels:
        strokes: list[Stroke] = []
        for stroke in level.strokes:
            strokes.extend(_outside(stroke, outline))
        out.append(replace(level, strokes=tuple(strokes)))
    return tuple(out)


def _outside(stroke: Stroke, outline: Curve) -> list[Stroke]:
    line = Curve.line(*stroke)
    cuts = [c.first_mm for c in of_curves(line, outline)]
    if not cuts:
        return [stroke]
    stops = [0.0, *cuts, line.length]
    kept: list[Stroke] = []
    corners = outline.flattened(0.1)
    for a, b in itertools.pairwise(stops):
        if b - a > 0.01 and not _within(line.point_at((a + b) / 2), corners):
            part = line.part(a, b)
            kept.append((part.start, *(run[-1] for run in part.runs)))
    return kept


def _within(spot: Point, corners: list[Point]) -> bool:
    inside = False
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (a.imag > spot.imag) != (b.imag > spot.imag):
            x = a.real + (b.real - a.real) * (spot.imag - a.imag) / (b.imag - a.imag)
            inside ^= spot.real < x
    return inside


__all__ = ["TRUED_MM", "broken_by", "cut_mouth"]
