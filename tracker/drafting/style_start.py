"""Where a style line starts, which pieces it parts, and the line down a dart's legs."""

import itertools
import math
from collections.abc import Iterable

from tracker.drafting.style_split import CannotPart, Cut, place_inside
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, dot
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import write_tenths

Corners = tuple[tuple[Point, float], ...]

#: A corner is rounded over at most this share of a leg that runs to it.
_OF_LEG = 0.45


def sides_to_part(
    pattern: Pattern, name: str, centre: str, side: BodySide
) -> tuple[tuple[str, BodySide], ...]:
    """Return the pieces to part in turn, each with the body side of the edges to cut.

    A piece opened out over both sides is parted on one side after the other; after the first
    its middle has the centre panel's name.
    """
    found = [p for p in pattern.pieces if p.name == name]
    if not found:
        pattern.piece(name)  # says which pieces there are
    out: list[tuple[str, BodySide]] = []
    for piece in found:
        if not piece.has_outline:
            raise CannotPart(
                f"the {piece.label} has no outline, and a style line is drawn on one; draw it on "
                "the paper piece, or trace the piece in first"
            )
        whole = piece.side is BodySide.CENTRE
        sides = [BodySide.RIGHT, BodySide.LEFT] if whole else [piece.side]
        out += [(name, s) for s in sides if side in (BodySide.BOTH, s)]
    if not out:
        raise CannotPart(
            f"the {name} is drawn for both sides at once; it can only be panelled on both, or "
            f"alter something on the {side} side first so that it is opened out"
        )
    return tuple((centre if i and found[0].side is BodySide.CENTRE else n, s)
                 for i, (n, s) in enumerate(out))  # fmt: skip


def start_of(
    piece: Piece,
    side: BodySide,
    start: str,
    allowed: dict[str, str],
    share: float,
    distance_mm: float | None,
) -> tuple[Edge, float]:
    """Return the edge a line starts from and how far along it, going round the piece.

    Args:
        piece: the piece.
        side: the wearer's side the edge lies on.
        start: the edge's name.
        allowed: the edges a line can start from, each with the corner its place is told from.
        share: the share of the edge's length from that corner, 0 to 1.
        distance_mm: the distance from it; it goes before the share.

    Raises:
        CannotPart: the edge is none a line can start from, or the place is too near its end.
    """
    if start not in allowed:
        raise CannotPart(
            f"the line can start from the {' or the '.join(allowed)}, not from the {start}"
        )
    edge = piece.edge(start, side)
    along = distance_mm if distance_mm is not None else share * edge.length
    at = along if edge.start == allowed[start] else edge.length - along
    place_inside(edge, at, f"the {piece.label}", allowed[start])
    return edge, at


def start_words(
    allowed: dict[str, str], start: str, share: float, distance_mm: float | None
) -> str:
    """Say where a line starts: "shoulder, half-way from the neck point"."""
    corner = allowed.get(start, "")
    if distance_mm is not None:
        return f"{start}, {write_tenths(distance_mm)} from the {corner}"
    part = "half-way" if share == 0.5 else f"{share:.0%} of the way"
    return f"{start}, {part} from the {corner}"


def dart_cut(
    name: str,
    top: Edge,
    top_mm: float,
    bottom: Edge,
    dart: Dart,
    upper: Curve,
    upper_behind: Curve | None = None,
    *,
    tail: Curve | None = None,
    bottom_mm: float = 0.0,
) -> Cut:
    """Return the line that runs down a dart's legs, each leg one piece's edge.

    Args:
        name: the seam's name.
        top: the edge it starts from.
        top_mm: how far along that edge.
        bottom: the edge it ends on: the dart's, or what its tail runs to.
        dart: the dart.
        upper: the line from its top to the dart's pivot.
        upper_behind: the same as the piece behind has it, where that is another line.
        tail: from a double-pointed dart's lower point to the bottom.
        bottom_mm: where the tail ends on the bottom.
    """
    ahead, behind = faces_of(dart, bottom, bottom_mm)
    if dart.mouth is not None:
        before = bottom.parts[: bottom.mouths.index(dart.name) + 1]
        bottom_mm = sum(p.length for p in before)
    elif tail is not None:
        ahead, behind = ahead.joined(tail), behind.joined(tail)
    return Cut(
        name=name,
        top=top,
        top_mm=top_mm,
        bottom=bottom,
        bottom_mm=bottom_mm,
        ahead=upper.joined(ahead),
        behind=(upper_behind or upper).joined(behind),
        dart=dart,
    )


def faces_of(dart: Dart, bottom: Edge, bottom_mm: float) -> tuple[Curve, Curve]:
    """Return a dart's legs from its pivot down, the leg nearer the bottom edge's start first."""
    one, two = dart.legs
    if dart.mouth is not None:
        return one.reversed, two
    along = bottom.heading_at(bottom_mm)
    here, there = (leg.point_at(leg.length / 2) for leg in (one, two))
    return (one, two) if dot(there - here, along) > 0 else (two, one)


def straight_below(piece: Piece, dart: Dart) -> tuple[Edge, float, Curve]:
    """Return where a double-pointed dart's line runs on to straight, and the line there.

    Returns:
        The edge below, how far along it, and the line from the dart's lower point.

    Raises:
        CannotPart: it would run to no lower edge.
    """
    return ray_below(piece, dart.legs[0].end, dart.axis, f"below the {dart.name} the line")


def further_corners(darts: Iterable[Dart | None], rounding_mm: float) -> Corners:
    """Return the corners of a line down darts' legs, but for a waist dart's upper pivot.

    Each with how far it is rounded: as far as the corner over the bust, and never so far that it
    meets the next.
    """
    out: list[tuple[Point, float]] = []
    for dart in darts:
        if dart is None or rounding_mm <= 0:
            continue
        if not dart.double_pointed:
            out.append((dart.pivot, min(rounding_mm, _OF_LEG * min(dart.leg_lengths))))
            continue
        for leg in dart.legs:
            spans = [min(a, b) for a, b in itertools.pairwise(leg.lengths)]
            joints = [run[-1] for run in leg.runs[:-1]]
            out += [(p, min(rounding_mm, _OF_LEG * s)) for p, s in zip(joints, spans, strict=True)]
        last = min(leg.lengths[-1] for leg in dart.legs)
        out.append((dart.legs[0].end, min(rounding_mm, _OF_LEG * last)))
    return tuple(out)


def ray_below(piece: Piece, point: Point, heading: Point, what: str) -> tuple[Edge, float, Curve]:
    """Return the edge a straight line from a point inside meets first, where, and the line.

    Raises:
        CannotPart: it meets none, or one too near its end.
    """
    met = [
        (c.second_mm, edge, before + c.first_mm)
        for edge in piece.edges
        for before, part in zip(_reaches(edge), edge.drawn, strict=True)
        for c in with_line(part, point, heading)
        if c.second_mm > SAME_MM
    ]
    if not met:
        raise CannotPart(f"{what} of the {piece.label} would end on no edge")
    _, edge, at = min(met, key=lambda m: m[0])
    place_inside(edge, at, f"the {piece.label}", edge.start)
    return edge, at, Curve.line(point, edge.point_at(at))


def waist_crossing(piece: Piece, side: BodySide, dart: Dart) -> float | None:
    """Return how far down a double-pointed dart's leg the waist line meets it, or nothing."""
    leg = dart.legs[0]
    for level in piece.levels:
        if level.name == "waist line" and level.side is side:
            for stroke in level.strokes:
                for spot in (stroke[0], stroke[-1]):
                    at, gap = leg.nearest(spot)
                    if gap < 0.05:
                        return at
    return None


def _reaches(edge: Edge) -> list[float]:
    return list(itertools.accumulate((p.length for p in edge.drawn[:-1]), initial=0.0))


def held_rounding(rounding_mm: float) -> float:
    """Refuse a rounding no one would cut.

    Raises:
        CannotPart: it is negative, or reaches further than 80 mm.
    """
    if not 0 <= rounding_mm <= 80 or not math.isfinite(rounding_mm):
        raise CannotPart(
            f"the corner over the bust cannot be rounded over {rounding_mm:.0f} mm; 50 mm above "
            "and below is usual, and 0 leaves it"
        )
    return rounding_mm
