"""Cubics for many trial shapes at once: the curves a bodice is tried with while it is solved.

Every quantity is a numpy array with one entry per trial shape, so that a whole set of
neighbouring shapes, which is what a derivative needs, costs hardly more than one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

Reals = npt.NDArray[np.floating[Any]]
Points = npt.NDArray[np.complexfloating[Any, Any]]

LEAST_BOW_RAD = 0.087
"""Below this bow (5 degrees) a one-sweep curve is drawn as if it bowed a little more."""

COUNTER_RAD = 0.02
"""How softly a bow to the other side is told from one to the right side (1.1 degrees)."""

SETTLED = 1e-13
"""A crossing that moves by less, as a share of the curve, is found."""

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(20)
_T: Reals = ((_NODES + 1.0) / 2.0)[:, None]
_W: Reals = (_WEIGHTS / 2.0)[:, None]


def unit(angle: Reals | float) -> Points:
    """Return the direction ``angle`` radians anticlockwise of x."""
    return np.asarray(np.cos(angle) + 1j * np.sin(angle))


def cross(a: Points, b: Points) -> Reals:
    """Return the cross product: positive when ``b`` lies to the left of ``a``."""
    return np.asarray(a.real * b.imag - a.imag * b.real)


@dataclass(frozen=True, slots=True)
class Cubics:
    """One cubic per trial shape: its control points and how it bows.

    Attributes:
        p0: start points.
        p1: first handles.
        p2: last handles.
        p3: end points.
        bow_start: by how much the chord turns left of the first tangent, radians.
        bow_end: by how much the last tangent turns left of the chord, radians. Of one sign
            with ``bow_start``, the curve bends one way only.
        fullness: handle length as a factor of a circle's arc of the same turn.
    """

    p0: Points
    p1: Points
    p2: Points
    p3: Points
    bow_start: Reals
    bow_end: Reals
    fullness: Reals

    def length(self) -> Reals:
        """Return the lengths, good to 1e-7 mm for curves as gentle as a bodice's."""
        return np.asarray((np.abs(self.velocity(_T)) * _W).sum(axis=0))

    def at(self, t: Reals) -> Points:
        """Return the points at parameters ``t``."""
        s = 1.0 - t
        return np.asarray(
            s**3 * self.p0 + 3.0 * s * s * t * self.p1 + 3.0 * s * t * t * self.p2 + t**3 * self.p3
        )

    def velocity(self, t: Reals) -> Points:
        """Return the first derivative at parameters ``t``."""
        s = 1.0 - t
        return np.asarray(
            3.0
            * (
                s * s * (self.p1 - self.p0)
                + 2.0 * s * t * (self.p2 - self.p1)
                + t * t * (self.p3 - self.p2)
            )
        )

    def bend_start(self) -> Reals:
        """Return the curvature at the start, 1/mm, positive to the left."""
        leg = self.p1 - self.p0
        return _bend(leg, leg, self.p2 - self.p1)

    def bend_end(self) -> Reals:
        """Return the curvature at the end, 1/mm, positive to the left."""
        leg = self.p3 - self.p2
        return _bend(leg, self.p2 - self.p1, leg)

    def crossing(self, origin: Points, direction: Points) -> Reals:
        """Return the parameter where each curve crosses the line through ``origin``."""
        t = cross(origin - self.p0, direction) / cross(self.p3 - self.p0, direction)
        for _ in range(8):
            before = t
            t = np.clip(t, -0.5, 1.5)
            t = t - cross(self.at(t) - origin, direction) / cross(self.velocity(t), direction)
            if np.abs(t - before).max() < SETTLED:
                break
        return np.asarray(t)


def sweep(
    start: Points,
    leaving: Points,
    end: Points,
    arriving: Points,
    fullness: Reals,
    reach: Reals | float = 1.0,
) -> Cubics:
    """Return the cubic between two points with given tangents, bending one way.

    Its handles are the same share of both tangent legs, so that a curve that bows to the left at
    both ends has one sweep, like a piece of an ellipse, and no inflection.

    Args:
        start: start points.
        leaving: unit directions at the start.
        end: end points.
        arriving: unit directions at the end.
        fullness: 1 for handles as on a circle's arc of the same turn.
        reach: lengthens the first handle alone, so that the curve bends later.
    """
    chord = end - start
    first, last = np.angle(chord / leaving), np.angle(arriving / chord)
    bow_first, bow_last = _held(first), _held(last)
    turn = bow_first + bow_last
    quarter = turn / 4.0
    share = (4.0 / 3.0) * np.tan(quarter) / np.tan(2.0 * quarter)
    leg = share * fullness * np.abs(chord) / np.maximum(np.sin(turn), 0.05)
    return Cubics(
        start,
        start + leaving * leg * reach * np.sin(bow_last) * _shortened(first),
        end - arriving * leg * np.sin(bow_first) * _shortened(last),
        end,
        first,
        last,
        fullness,
    )


def shallow(start: Points, leaving: Points, end: Points, arriving: Points) -> Cubics:
    """Return the cubic with equal handles as on a circle's arc of the same turn, either way."""
    chord = end - start
    first, last = np.angle(chord / leaving), np.angle(arriving / chord)
    quarter = np.maximum(np.abs(first + last) / 4.0, 1e-4)
    handle = np.abs(chord) * (2.0 / 3.0) * np.tan(quarter) / np.sin(2.0 * quarter)
    return Cubics(
        start,
        start + leaving * handle,
        end - arriving * handle,
        end,
        first,
        last,
        np.ones_like(first),
    )


def _held(bow: Reals) -> Reals:
    """Keep a bow positive, smoothly, so that trials on the way to a shape stay drawable."""
    return np.asarray(0.5 * (bow + np.sqrt(bow**2 + LEAST_BOW_RAD**2)))


def _shortened(bow: Reals) -> Reals:
    """Shorten the handle at an end that bows the other way, so that it bulges little."""
    back = 0.5 * (np.sqrt(bow**2 + COUNTER_RAD**2) - bow)
    return np.asarray(1.0 / (1.0 + back / 0.05))


def _bend(leg: Points, first: Points, then: Points) -> Reals:
    """Return the curvature at the end of a cubic that ``leg`` touches."""
    reach = np.maximum(np.abs(leg), 1e-6)
    return np.asarray((2.0 / 3.0) * cross(first, then) / reach**3)
