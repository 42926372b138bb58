"""What is left of a dart where a panel line passes beside its pivot: eased, or a short dart.

The dart was turned into a slash from the line to the pivot, at the pivot's own height. The
panel that holds the pivot has the slash's mouth in its seam edge; sewn shut it is a short dart,
left open it is ease.
"""

import cmath
import math
from dataclasses import dataclass, replace
from enum import StrEnum

from tracker.drafting.style_finish import NO_BEND_RAD, SeamEnd, ends_again
from tracker.drafting.style_round import Bulge, bulge, rounded_corner
from tracker.drafting.style_split import CannotPart
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, unit
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.marks import Stroke
from tracker.pattern.piece import Piece

#: More than this in one seam shows as fullness; common practice, no source.
MOST_EASE_MM = 6.0
#: A line further from the bust point than this (1 1/2 in) is no panel line over the bust.
MOST_BESIDE_MM = 38.0
#: A line nearer to it goes through it.
LEAST_BESIDE_MM = 2.0
#: A short dart is sewn to this share of its length short of the bust point, at most so much.
#: Common practice, no source.
_STAND_BACK_SHARE, _STAND_BACK_MM = 0.4, 13.0
_ON_MM = 0.05


class Leftover(StrEnum):
    """What becomes of what is left beside the bust point."""

    EASE = "ease"
    DART = "dart"


@dataclass(frozen=True, slots=True)
class Left:
    """A dart's angle left at its pivot, beside a panel line.

    Attributes:
        name: the dart's name; a short dart keeps it.
        pivot: the pivot.
        beside_mm: how far beside it the line passes.
        angle_rad: the angle that is left.
        choice: ease or a short dart.
        on_centre: the centre panel holds the pivot.
    """

    name: str
    pivot: Point
    beside_mm: float
    angle_rad: float
    choice: Leftover
    on_centre: bool

    @property
    def mouth_mm(self) -> float:
        """How wide the angle stands open at the line."""
        return 2 * self.beside_mm * math.sin(self.angle_rad / 2)

    @property
    def eased_mm(self) -> float:
        """The ease planned in the seam."""
        return self.mouth_mm if self.choice == Leftover.EASE else 0.0

    def refuse_fullness(self) -> None:
        """Refuse more ease than disappears in sewing.

        Raises:
            CannotPart: there is more; the sentence says what would do.
        """
        if self.eased_mm <= MOST_EASE_MM:
            return
        most = MOST_EASE_MM / 2 / math.sin(self.angle_rad / 2)
        raise CannotPart(
            f"{self.beside_mm:.0f} mm beside the bust point {self.mouth_mm:.1f} mm are left of the "
            f"{self.name}, more than the {MOST_EASE_MM:.0f} mm that can be eased in: sew a short "
            f"dart there instead, or draw the line at most {math.floor(most)} mm beside it"
        )


def with_short_dart(piece: Piece, end: SeamEnd, left: Left) -> Piece:
    """Return the panel that holds the pivot, its slash made a dart that opens from the seam."""
    edge = end.edge(piece)
    line = edge.parts[0]
    at = line.nearest(left.pivot)[0]
    one, two = line.part(0.0, at - left.beside_mm), line.part(at + left.beside_mm, line.length)
    back = min(_STAND_BACK_MM, left.beside_mm * _STAND_BACK_SHARE)
    dart = Dart(
        left.name,
        edge.side,
        (Curve.line(one.end, left.pivot), Curve.line(left.pivot, two.start)),
        back,
        "down",
        edge.name,
    )
    fresh = replace(edge, parts=(one, two), mouths=(left.name,))
    return replace(piece.with_edge(fresh), darts=(*piece.darts, dart))


def rounded_beside(
    piece: Piece, end: SeamEnd, left: Left, reach_mm: float
) -> tuple[Piece, Bulge, Bulge]:
    """Round the seam edge of the panel that holds the pivot, as ``rounded_over`` does the other.

    A short dart is rounded with the dart folded and stays as it is; eased, the mouth is bridged
    by a line that keeps the width at the pivot's height.
    """
    dart = piece.dart(left.name, end.side)
    if left.choice == Leftover.DART:
        return _folded(piece, end, dart, reach_mm)
    return _bridged(piece, end, dart, left, reach_mm)


def _folded(piece: Piece, end: SeamEnd, dart: Dart, reach_mm: float) -> tuple[Piece, Bulge, Bulge]:
    edge = end.edge(piece)
    one, two = edge.parts
    angle = turn_between(dart.mouth_start - dart.pivot, dart.mouth_end - dart.pivot)
    shut, open_again = Motion.turn(dart.pivot, angle), Motion.turn(dart.pivot, -angle)
    line = one.moved(shut).ended_at(dart.mouth_end).joined(two)
    corner, at = dart.mouth_end, one.length
    none = Bulge(0.0, 0.0)
    if reach_mm <= 0 or abs(_bend(line, at)) < NO_BEND_RAD:
        return piece, none, none
    new = _within_reach(line, at, reach_mm)
    before, after = new.split(new.nearest(corner)[0])
    parts = before.moved(open_again).ended_at(dart.mouth_start), after.started_at(corner)
    fresh = piece.with_edge(replace(edge, parts=parts))
    for old, drawn in zip((one, two), parts, strict=True):
        fresh = ends_again(fresh, old, drawn)
    moved = [bulge(line, new, corner, towards_start) for towards_start in (True, False)]
    if edge.start != end.top:
        moved.reverse()
    return fresh, moved[0], moved[1]


def _bridged(
    piece: Piece, end: SeamEnd, dart: Dart, left: Left, reach_mm: float
) -> tuple[Piece, Bulge, Bulge]:
    edge = end.edge(piece)
    one, two = edge.parts
    middle = _bridged_at(dart, left)
    line = one.joined(Curve.line(one.end, middle, two.start)).joined(two)
    at = one.length + abs(middle - one.end)
    new = _within_reach(line, at, reach_mm) if reach_mm > 0 else line
    fresh = replace(edge, parts=(new,), mouths=())
    mouth = (dart.mouth_start, dart.mouth_end)
    out = replace(
        piece.with_edge(fresh),
        darts=tuple(d for d in piece.darts if d.key != dart.key),
        levels=tuple(
            replace(v, strokes=tuple(_to_the_bridge(s, mouth, middle) for s in v.strokes))
            for v in piece.levels
        ),
    )
    for old in (one, two):
        out = ends_again(out, old, new)
    moved = [bulge(line, new, middle, towards_start) for towards_start in (True, False)]
    if edge.start != end.top:
        moved.reverse()
    return out, moved[0], moved[1]


def corner_in_seam(piece: Piece, side: BodySide, left: Left) -> Point:
    """Return the point of the seam edge from which the panel with the short dart is walked."""
    dart = piece.dart(left.name, side)
    return _bridged_at(dart, left) if left.choice == Leftover.EASE else dart.mouth_end


def _bridged_at(dart: Dart, left: Left) -> Point:
    """Where the bridge over the mouth keeps the width: as far from the pivot as the line is."""
    half = turn_between(dart.mouth_start - dart.pivot, dart.mouth_end - dart.pivot) / 2
    return dart.pivot + unit(dart.mouth_start - dart.pivot) * cmath.exp(1j * half) * left.beside_mm


def _to_the_bridge(stroke: Stroke, mouth: tuple[Point, Point], middle: Point) -> Stroke:
    """Let the line that ran along the slash run to the bridge."""

    def to(spot: Point) -> Point:
        return middle if any(abs(spot - m) <= _ON_MM for m in mouth) else spot

    return (to(stroke[0]), *stroke[1:-1], to(stroke[-1]))


def _bend(line: Curve, at: float) -> float:
    before, after = line.split(at)
    return turn_between(before.end_heading, after.start_heading)


def _within_reach(line: Curve, at: float, reach_mm: float) -> Curve:
    return rounded_corner(line, at, min(reach_mm, 0.7 * at, 0.7 * (line.length - at)))
