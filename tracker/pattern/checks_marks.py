"""Checks of what is marked: grain lines plumb, darts short of the point, centres square."""

import math

from tracker.geometry.point import Point, turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checked import Book
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.finding import Finding
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: A grain line hangs plumb, or lies along its fold, within this; common practice, no source.
GRAIN_DEG = 1.0
#: From here on a grain line is taken to be meant: a bias cut.
BIAS_DEG = 20.0
#: The true bias, and the cross grain.
_TURNED = (45.0, 90.0)
#: A bust dart is sewn at least this far short of the bust point: 1/2 in (ICAR e-course,
#: Basics of Garment Construction).
SHORT_OF_MM = 12.7
#: A dart's pivot this near a marked point is at it.
AT_POINT_MM = 1.0
#: A neckline, waist or hem crosses an open centre at 90° within this; common practice.
CENTRE_DEG = 1.0
#: An edge that comes to a centre further off square than this is meant to: in a point.
POINT_DEG = 15.0
#: A line inside a piece that ends where the outline turns by so much lies along its edge.
_CORNER_DEG = 80.0
_CENTRES = ("centre front", "centre back")


def look_grain(pattern: Pattern, book: Book) -> None:
    """See that each grain line lies along its fold, or as its parent's, or hangs plumb."""
    for piece in pattern.pieces:
        if not piece.has_outline:
            continue
        place = f"the {piece.label}"
        if piece.grain is None:
            book.not_checked.append(f"the grain of the {piece.label}: no grain line is marked")
            continue
        way, words = _should_lie(pattern, piece)
        off = _off_deg(piece.grain[1] - piece.grain[0], way)
        if abs(off) > BIAS_DEG:
            meant = min(_TURNED, key=lambda deg: abs(abs(off) - deg))
            book.tell(
                "grain", place, abs(off) - meant, GRAIN_DEG, "°",
                f"the grain line of the {piece.label} lies {abs(off):.1f}° off the {words}: "
                "neither along it nor across it (90°) nor on the true bias (45°)",
                f"set the grain line anew, turned by {meant:.0f} degrees, unless the cloth is "
                "meant to hang so",
            )  # fmt: skip
            continue
        book.tell(
            "grain", place, off, GRAIN_DEG, "°",
            f"the grain line of the {piece.label} lies {abs(off):.1f}° off the {words}",
            "set the grain line anew, unless the cloth is meant to hang so",
        )  # fmt: skip


def _should_lie(pattern: Pattern, piece: Piece) -> tuple[Point, str]:
    if piece.fold:
        fold = piece.edge(piece.fold)
        return fold.drawn[-1].end - fold.drawn[0].start, "fold"
    if piece.layer != "shell" and piece.taken_from:
        try:
            parent = pattern.piece(piece.taken_from, piece.side)
        except UnknownName:
            parent = piece
        if parent is not piece and parent.grain:
            return parent.grain[1] - parent.grain[0], f"grain of the {parent.label}"
    if piece.traced and piece.traced.sewn and piece.layer == "shell":
        sewn = piece.edge(piece.traced.sewn[0].edge)
        return sewn.drawn[-1].end - sewn.drawn[0].start, f"{sewn.name} it runs along"
    return 1j, "plumb line"


def _off_deg(grain: Point, way: Point) -> float:
    """The angle between two lines, whichever way they point: −90° to 90°."""
    off = math.degrees(turn_between(way, grain))
    return (off + 90.0) % 180.0 - 90.0


def look_stand_back(pattern: Pattern, book: Book) -> None:
    """See that darts that point at the bust are sewn short of it."""
    for piece in pattern.pieces:
        spots = [m for m in piece.marks if m.name == "bust point"]
        for dart in piece.darts:
            # One that is gathered is not sewn, and one from a panel seam is too short to fall back.
            if dart.gathered or min(dart.leg_lengths) < 3 * SHORT_OF_MM:
                continue
            if any(abs(dart.pivot - m.point) <= AT_POINT_MM for m in spots):
                _stand_back(piece, dart, book)


def _stand_back(piece: Piece, dart: Dart, book: Book) -> None:
    place = f"{dart.name} of the {piece.label}"
    if SHORT_OF_MM - dart.stand_back_mm <= 0.05:
        book.figures.append((f"stand-back: {place}", f"{dart.stand_back_mm:.1f} mm"))
        return
    book.findings.append(
        Finding(
            "stand-back", place,
            f"the {place} is sewn to {dart.stand_back_mm:.1f} mm from the bust point: it would "
            "come to a point on the bust",
            SHORT_OF_MM - dart.stand_back_mm, 0.05, "mm",
            f"sew it at least {SHORT_OF_MM:.0f} mm short of the bust point (change a dart)",
        )
    )  # fmt: skip


def look_centres(pattern: Pattern, book: Book) -> None:
    """See that what crosses a centre that is no fold and no seam is square to it."""
    for piece in pattern.pieces:
        if not piece.has_outline or piece.layer == "interfacing":
            continue
        for edge in piece.edges:
            if edge.name in _CENTRES and edge.name != piece.fold:
                seams = pattern.seams_on(piece, edge)
                if not seams and not _bent(edge):
                    _square(piece, edge, book)
        for level in piece.levels:
            if level.side is BodySide.CENTRE and level.name in _CENTRES:
                _crossed(piece, level.name, level.strokes[0], book)


def _bent(edge: Edge) -> bool:
    chord = edge.drawn[-1].end - edge.drawn[0].start
    return any(abs(turn_between(chord, p.start_heading)) > 0.02 for p in edge.drawn)


def _square(piece: Piece, edge: Edge, book: Book) -> None:
    for at_end in (False, True):
        corner = edge.end if at_end else edge.start
        off = corner_angle(piece, edge, at_end) - 90.0
        if abs(off) > POINT_DEG:
            book.not_checked.append(pointed(piece, corner, off))
            continue
        book.tell(
            "centre", f"the {piece.label} at the {corner}", off, CENTRE_DEG, "°",
            f"at the {corner} the {piece.label} meets its {edge.name} at {off + 90:.1f}°, not "
            "square: both sides laid together it would peak or dip",
            "square the edge to the centre over its last 10 mm",
        )  # fmt: skip


def pointed(piece: Piece, corner: str, off_deg: float) -> str:
    """Say that an edge comes to the centre in a point, as a V neckline does."""
    return (
        f"whether the {piece.label} is square at the {corner}: what meets the centre there lies "
        f"{abs(off_deg):.0f}° off square, as for a point; see that it is meant"
    )


def _crossed(piece: Piece, name: str, stroke: tuple[Point, ...], book: Book) -> None:
    """The edges that cross a centre line inside the piece run on smoothly there."""
    for end in (stroke[0], stroke[-1]):
        for edge in piece.edges:
            if abs(edge.drawn[-1].end - end) < AT_POINT_MM:
                off = corner_angle(piece, edge, at_end=True) - 180.0
                # In a point up, as a V neckline has it, or down, and no corner of the outline.
                if abs(off) > 2 * POINT_DEG and off > -_CORNER_DEG:
                    book.not_checked.append(pointed(piece, edge.end, off / 2))
                    continue
                book.tell(
                    "centre", f"the {piece.label} at the {edge.end}", off, 2 * CENTRE_DEG, "°",
                    f"at the {edge.end} the edge of the {piece.label} crosses the {name} at "
                    f"{off + 180:.1f}°: lapped, its two sides would not lie on each other",
                    "square the edge to the centre line over its last 10 mm, and draw the stand "
                    "again",
                )  # fmt: skip


__all__ = ["POINT_DEG", "look_centres", "look_grain", "look_stand_back", "pointed"]
