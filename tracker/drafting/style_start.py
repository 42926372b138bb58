"""Where a style line starts, which pieces it parts, and the line down a dart's legs."""

import math

from tracker.drafting.style_split import CannotPart, Cut, place_inside
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


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
        return f"{start}, {distance_mm:.0f} mm from the {corner}"
    part = "half-way" if share == 0.5 else f"{share:.0%} of the way"
    return f"{start}, {part} from the {corner}"


def dart_cut(name: str, top: Edge, top_mm: float, bottom: Edge, dart: Dart, upper: Curve) -> Cut:
    """Return the line that runs down a dart's legs, each leg one piece's edge."""
    return Cut(
        name=name,
        top=top,
        top_mm=top_mm,
        bottom=bottom,
        bottom_mm=sum(p.length for p in bottom.parts[: bottom.mouths.index(dart.name) + 1]),
        ahead=upper.joined(dart.legs[0].reversed),
        behind=upper.joined(dart.legs[1]),
        dart=dart,
    )


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
