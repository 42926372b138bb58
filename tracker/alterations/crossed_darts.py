"""Darts with a mouth that a line runs across and that stay.

The part with the mouth has its stretch of the dart sewn shut for good; on the other part the rest
is a dart that opens from the new seam. The line is drawn with the dart folded, so that both parts
have it smooth.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from tracker.drafting.style_finish import NO_BEND_RAD
from tracker.drafting.style_round import rounded_corner
from tracker.drafting.style_split import CannotPart
from tracker.drafting.style_turn import turn_dart_shut
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.piece import Piece

#: Either stretch of a dart that is cut across is at least this long.
LEAST_MM = 12.0
#: Drawn over the folded dart the line is rounded over at most this far to either side.
_ROUNDED_MM = 40.0
#: What is left is sewn to this share of its length short of its pivot, if not to less.
_STAND_BACK_SHARE = 0.4
_ON_MM = 0.05


@dataclass(frozen=True, slots=True)
class Crossed:
    """A dart with a mouth that a line runs across.

    Attributes:
        dart: the dart.
        first_mm: where along the line its first leg is met, and
        second_mm: the second.
        legs: both from the pivot to the mouth, the leg met first first.
        at_mm: how far from the pivot both are cut.
        closes_rad: what the second leg turns by about the pivot to lie on the first.
    """

    dart: Dart
    first_mm: float
    second_mm: float
    legs: tuple[Curve, Curve]
    at_mm: float
    closes_rad: float

    @property
    def spots(self) -> tuple[Point, Point]:
        """Where both legs are cut."""
        return self.legs[0].point_at(self.at_mm), self.legs[1].point_at(self.at_mm)

    @property
    def width_mm(self) -> float:
        """How wide it stands open at the line."""
        return abs(self.spots[1] - self.spots[0])

    @property
    def detour(self) -> Curve:
        """The way from the first spot to the pivot and back to the second."""
        one, two = (leg.part(0.0, self.at_mm) for leg in self.legs)
        return one.reversed.joined(two)


def refuse_both(close: Sequence[str], leave: Sequence[str]) -> None:
    """Refuse a dart that is to be closed into a line and to be left.

    Raises:
        PatternError: there is one.
    """
    if both := [n for n in leave if n in close]:
        raise PatternError(f"the {both[0]} is either closed into the line or left, not both")


def left_out(parameters: dict[str, Any]) -> dict[str, Any]:
    """Return a step's parameters without ``leave`` where no dart is left."""
    return {k: v for k, v in parameters.items() if k != "leave" or v}


def crossed_by(
    piece: Piece, side: BodySide, line: Curve, names: Sequence[str]
) -> tuple[Crossed, ...]:
    """Return the named darts of a piece with where a line runs across them, in order along it.

    Raises:
        CannotPart: the line does not run across one, or too near its point or its mouth.
    """
    found = []
    for name in names:
        dart = piece.dart(name, side)
        if dart.double_pointed:
            continue  # one with two points is cut in two, told or not
        legs = dart.legs[0].reversed, dart.legs[1]
        met = [min(((c.first_mm, c.second_mm) for c in of_curves(line, leg)), default=None)
               for leg in legs]  # fmt: skip
        if met[0] is None or met[1] is None:
            raise CannotPart(
                f"the line does not run across the {name} of the {piece.label}, so there is "
                "nothing to leave; name the darts it crosses, or none"
            )
        if met[1] < met[0]:
            legs, met = legs[::-1], met[::-1]
        (first, on_one), (second, on_other) = met[0], met[1]  # type: ignore[misc]
        at = (on_one + on_other) / 2
        long = min(leg.length for leg in legs)
        if at < LEAST_MM:
            raise CannotPart(
                f"the line crosses the {name} of the {piece.label} {at:.0f} mm from its point; "
                "close it into the line, there is too little of it to leave"
            )
        if long - at < LEAST_MM:
            raise CannotPart(
                f"the line crosses the {name} of the {piece.label} {long - at:.0f} mm from its "
                f"mouth; lay it at least {LEAST_MM:.0f} mm from the {dart.mouth}"
            )
        closes = turn_between(legs[1].point_at(at) - dart.pivot, legs[0].point_at(at) - dart.pivot)
        found.append(Crossed(dart, first, second, legs, at, closes))
    return tuple(sorted(found, key=lambda c: c.first_mm))


def met_folded(before: Curve, crossed: Crossed, after: Curve) -> tuple[Curve, Curve]:
    """Return the line before and after a dart so that it is smooth with the dart folded."""
    one, two = crossed.spots
    before, after = before.ended_at(one), after.started_at(two)
    shut = Motion.turn(crossed.dart.pivot, crossed.closes_rad)
    beyond = after.moved(shut).started_at(one)
    bend = turn_between(before.end_heading, beyond.start_heading)
    reach = min(_ROUNDED_MM, 0.45 * before.length, 0.45 * after.length)
    if abs(bend) < NO_BEND_RAD or reach < 1.0:
        return before, after
    whole = rounded_corner(before.joined(beyond), before.length, reach)
    before, beyond = whole.split(whole.nearest(one)[0])
    open_again = Motion.turn(crossed.dart.pivot, -crossed.closes_rad)
    return before.ended_at(one), beyond.moved(open_again).started_at(two)


def sewn_shut(half: Piece, crossed: Crossed, seam: str, keep: str) -> Piece:
    """Return the part with the mouth, its stretch of the dart closed."""
    dart = crossed.dart
    done = turn_dart_shut(half, dart.name, seam, keep)
    edge = done.piece.edge(seam, dart.side)
    (line,) = edge.parts
    # Closed, the way to the pivot and back lies on itself.
    at = line.nearest(dart.pivot)[0]
    one, two = line.part(0.0, at - crossed.at_mm), line.part(at + crossed.at_mm, line.length)
    joined = one.joined(two.started_at(one.end))
    # What was marked at its point is on the other part.
    marks = tuple(m for m in done.piece.marks if abs(m.point - dart.pivot) > _ON_MM)
    return replace(done.piece.with_edge(replace(edge, parts=(joined,))), marks=marks)


def left_over(crossed: Crossed, seam: str, legs: tuple[Curve, Curve]) -> Dart:
    """Return what is left of a dart on the part with its pivot, its mouth in the new seam."""
    back = min(crossed.dart.stand_back_mm, _STAND_BACK_SHARE * crossed.at_mm)
    return replace(crossed.dart, legs=legs, mouth=seam, stand_back_mm=back)


__all__ = [
    "Crossed", "crossed_by", "left_out", "left_over", "met_folded", "refuse_both", "sewn_shut",
]  # fmt: skip
