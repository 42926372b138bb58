"""Points and directions in the plane: complex numbers, x + 1j·y, in millimetres."""

import cmath
import math

Point = complex

#: Stored coordinates are rounded to this many decimals of a millimetre after every step.
DECIMALS = 6
#: Two points closer than this are the same point: five times the rounding of the store.
SAME_MM = 5e-6
#: A drawn chain may stand this far from the line it was fitted to.
FIT_MM = 0.02


def unit(vector: Point) -> Point:
    """Return the direction of a vector, or 0 for a vector of no length."""
    size = abs(vector)
    return vector / size if size else 0j


def dot(a: Point, b: Point) -> float:
    """Return the scalar product."""
    return a.real * b.real + a.imag * b.imag


def cross(a: Point, b: Point) -> float:
    """Return the vector product; positive where b lies to the left of a."""
    return a.real * b.imag - a.imag * b.real


def left_of(direction: Point) -> Point:
    """Return the direction a quarter turn to the left (counter-clockwise)."""
    return complex(-direction.imag, direction.real)


def turn_between(a: Point, b: Point) -> float:
    """Return the turn from direction a to direction b in radians, −π to π, left positive."""
    return math.atan2(cross(a, b), dot(a, b))


def along(start: Point, end: Point, share: float) -> Point:
    """Return the point that lies ``share`` of the way from start to end."""
    return start + (end - start) * share


def turned(point: Point, pivot: Point, angle_rad: float) -> Point:
    """Return a point turned about a pivot, left positive."""
    return pivot + (point - pivot) * cmath.exp(1j * angle_rad)


def rounded(point: Point) -> Point:
    """Return the point as the store keeps it; never −0.0."""
    return complex(round(point.real, DECIMALS) + 0.0, round(point.imag, DECIMALS) + 0.0)
