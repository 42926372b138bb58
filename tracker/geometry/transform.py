"""Moving, turning and mirroring without stretching."""

import cmath
from dataclasses import dataclass

from tracker.geometry.point import Point


@dataclass(frozen=True, slots=True)
class Motion:
    """A rigid move of the plane: mirror first where asked, then turn, then shift.

    Example:
        >>> Motion.turn(1 + 0j, 3.141592653589793).of(2 + 0j).real
        0.0
    """

    factor: complex = 1 + 0j
    shift: Point = 0j
    mirrored: bool = False

    @classmethod
    def turn(cls, pivot: Point, angle_rad: float) -> "Motion":
        """Turn about a pivot; left (counter-clockwise) is positive."""
        factor = cmath.exp(1j * angle_rad)
        return cls(factor=factor, shift=pivot - pivot * factor)

    @classmethod
    def move(cls, by: Point) -> "Motion":
        """Shift without turning."""
        return cls(shift=by)

    @classmethod
    def mirror(cls, start: Point, end: Point) -> "Motion":
        """Mirror about the line through two points."""
        direction = (end - start) / abs(end - start)
        factor = direction * direction
        return cls(factor=factor, shift=start - factor * start.conjugate(), mirrored=True)

    def of(self, point: Point) -> Point:
        """Return where a point goes."""
        return self.factor * (point.conjugate() if self.mirrored else point) + self.shift

    def then(self, after: "Motion") -> "Motion":
        """Return this motion followed by another."""
        factor = self.factor.conjugate() if after.mirrored else self.factor
        return Motion(
            factor=after.factor * factor,
            shift=after.of(self.shift),
            mirrored=self.mirrored != after.mirrored,
        )


STAY = Motion()
