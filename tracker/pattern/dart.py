"""A dart: two equal legs to a pivot, a mouth, and a sewn point short of the pivot."""

from dataclasses import dataclass
from functools import cached_property

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, unit
from tracker.pattern.bodyside import BodySide

#: How a dart is pressed whose mouth is left open and drawn in by gathers.
GATHERED = "gathered"


@dataclass(frozen=True)
class Dart:
    """A dart from an edge, or a double-pointed one inside a piece.

    Angles are always taken at the pivot; the sewn point is derived, ``stand_back_mm`` short
    of it on the bisector.

    Attributes:
        name: "bust dart", "waist dart" …
        side: the wearer's side it lies on.
        legs: from an edge: mouth start to pivot, then pivot to mouth end, in ring order.
            Double-pointed: both from the upper point to the lower.
        stand_back_mm: how far short of the pivot (of both points, when double-pointed) it is
            sewn.
        pressed: the side the fold is pressed to: "to the centre", "down" …; "gathered" where
            the mouth is left open and drawn in by gathers. As sewn the mouth counts nothing
            then too.
        mouth: the edge it opens from; none for a double-pointed dart.
    """

    name: str
    side: BodySide
    legs: tuple[Curve, Curve]
    stand_back_mm: float
    pressed: str
    mouth: str | None = None

    @property
    def key(self) -> tuple[str, BodySide]:
        """Name and body side."""
        return self.name, self.side

    @property
    def double_pointed(self) -> bool:
        """Tell whether it has two points and no mouth."""
        return self.mouth is None

    @property
    def gathered(self) -> bool:
        """Tell whether its mouth is left open and gathered."""
        return self.pressed == GATHERED

    @property
    def pivot(self) -> Point:
        """The pivot; the upper point of a double-pointed dart."""
        return self.legs[0].start if self.double_pointed else self.legs[0].end

    @property
    def mouth_start(self) -> Point:
        """Where the edge breaks off, going round the piece."""
        return self.legs[0].start

    @property
    def mouth_end(self) -> Point:
        """Where the edge goes on."""
        return self.legs[1].end

    @cached_property
    def angle_rad(self) -> float:
        """The angle at the pivot, or of the upper point between the legs' chords."""
        first, second = self.legs
        if self.double_pointed:
            a, b = first.start_heading, second.start_heading
        else:
            a, b = first.start - self.pivot, second.end - self.pivot
        return abs(turn_between(a, b))

    @cached_property
    def intake_mm(self) -> float:
        """The width of the mouth, or the greatest width of a double-pointed dart."""
        if not self.double_pointed:
            return abs(self.mouth_end - self.mouth_start)
        one, two = self.legs
        joints = [sum(one.lengths[:k]) / one.length for k in range(1, len(one.lengths))]
        shares = [k / 40 for k in range(41)] + joints
        return max(abs(one.point_at(one.length * s) - two.point_at(two.length * s)) for s in shares)

    @cached_property
    def leg_lengths(self) -> tuple[float, float]:
        """The two legs' lengths, millimetres."""
        return self.legs[0].length, self.legs[1].length

    @property
    def axis(self) -> Point:
        """The unit direction from the pivot to the middle of the mouth."""
        if self.double_pointed:
            return unit(self.legs[0].end - self.legs[0].start)
        return unit((self.mouth_start + self.mouth_end) / 2 - self.pivot)

    @property
    def sewn_points(self) -> tuple[Point, ...]:
        """Where stitching ends: one point, or two of a double-pointed dart."""
        upper = self.pivot + self.axis * self.stand_back_mm
        if self.double_pointed:
            return upper, self.legs[0].end - self.axis * self.stand_back_mm
        return (upper,)
