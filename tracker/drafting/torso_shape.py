"""The part of a torso block below the waist: where the hip lies and how the side seam gets there.

Everything above the waist is the bodice's own, line by line, but for the last stretch of the
side seam, which is bent to run smoothly through the waist. It turns by the same angle in front
and behind, so that both stay equally long. Below the waist the side seam goes on to the hip line,
hollow at the waist and plumb at the hip, exactly as long as the body's hip depth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tracker.drafting.torso_wants import SIDE_GIVES_MM, TorsoWants
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, turned

BENT_MM, BENT_SHARE = 60.0, 0.6
"""The side seam is bent over this much above the waist, at most this share of its last stretch."""

FULLNESS = 0.36
"""Handles of the hip curve as a share of its chord."""

LEAST_SIDE_MM, MOST_SIDE_MM = -15.0, 85.0
"""How much wider the hip may be than the open waist at one side seam."""


@dataclass(frozen=True, slots=True)
class SideSeam:
    """The side seam of one piece from its last straight stretch down, side to the right.

    Attributes:
        bend: from the straight stretch to the waist.
        hip: from the waist to the hip line.
        width_mm: half the finished hip of this piece.
        wider_mm: how much wider the hip is than the open waist.
    """

    bend: Curve
    hip: Curve
    width_mm: float
    wider_mm: float

    @property
    def hip_mm(self) -> float:
        """Where the hip line lies, y."""
        return self.hip.end.imag


def hip_widths(wants: TorsoWants, side_waists: tuple[Point, Point]) -> tuple[float, float]:
    """Return half the front hip and half the back hip.

    The body's own arcs are weighed against side seams that are shaped alike.

    Args:
        wants: the finished figures.
        side_waists: the side waist of front and back, darts open, side to the right.
    """
    even = side_waists[0].real - side_waists[1].real
    arcs, alike = wants.hip_share_gives_mm**-2, SIDE_GIVES_MM**-2
    share = (wants.hip_share_mm * arcs + even * alike) / (arcs + alike)
    front = (wants.hip_half_mm + share) / 2
    return front, wants.hip_half_mm - front


def side_seams(
    wants: TorsoWants, stretches: tuple[tuple[Point, Point], tuple[Point, Point]]
) -> tuple[SideSeam, SideSeam]:
    """Return the side seams of front and back.

    Args:
        wants: the finished figures.
        stretches: of front and back the last straight stretch of the side seam, from above down
            to the waist, side to the right.
    """
    widths = hip_widths(wants, (stretches[0][1], stretches[1][1]))
    reach = min(BENT_MM, *(BENT_SHARE * abs(end - start) for start, end in stretches))
    turns = []
    for (start, end), width in zip(stretches, widths, strict=True):
        across = min(abs(width - end.real), 0.8 * wants.hip_depth_mm)
        chord = complex(
            math.copysign(across, width - end.real), -math.sqrt(wants.hip_depth_mm**2 - across**2)
        )
        turns.append(turn_between(end - start, chord))
    turn = sum(turns) / 4  # half of what front and back turn on average
    front, back = (
        _seam(start, end, width, reach, turn, wants.hip_depth_mm)
        for (start, end), width in zip(stretches, widths, strict=True)
    )
    return front, back


def _seam(
    start: Point, waist: Point, width: float, reach: float, turn: float, depth: float
) -> SideSeam:
    along = (waist - start) / abs(waist - start)
    heading = turned(along, 0j, turn)
    top = waist - along * reach
    bend = Curve.cubic(top, top + along * reach / 3, waist - heading * reach / 3, waist)
    low, high = 0.5 * depth, depth
    for _ in range(60):
        middle = (low + high) / 2
        if _hip(waist, heading, width, middle).length < depth:
            low = middle
        else:
            high = middle
    hip = _hip(waist, heading, width, high)
    return SideSeam(bend, hip, width, width - waist.real)


def _hip(waist: Point, heading: Point, width: float, fall: float) -> Curve:
    end = complex(width, waist.imag - fall)
    handle = FULLNESS * abs(end - waist)
    return Curve.cubic(waist, waist + heading * handle, end + 1j * handle, end)
