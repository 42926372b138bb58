"""What a piece taken from others (facing, lining, band, collar) was taken from."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.seam import Run


@dataclass(frozen=True, slots=True)
class Seen:
    """An edge of another piece as it was when this piece was taken from it.

    Attributes:
        piece: the other piece's name.
        edge: the edge's name.
        side: the wearer's side of the edge.
        length_mm: its length as sewn.
        points: places along it, evenly spread as sewn, its two ends among them, and the
            pivots of the darts that open from it.
    """

    piece: str
    edge: str
    side: BodySide
    length_mm: float
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Sewn:
    """An edge of the taken piece and what it is sewn to.

    Attributes:
        edge: the edge of the taken piece.
        side: its body side.
        to: the other pieces' edges, in the direction of the taken piece's edge.
        times: how often they are sewn along it: twice for a band that goes all round.
        longer_mm: how much longer it is meant to be than they are: an overlap, a pleat.
    """

    edge: str
    side: BodySide
    to: tuple[Run, ...]
    times: int = 1
    longer_mm: float = 0.0


@dataclass(frozen=True)
class Traced:
    """How a piece was taken from others, so that it can be drawn again.

    Attributes:
        word: the kind of step that drew it.
        parameters: that step's parameters as plain values.
        seen: the edges it was drawn from, as they were.
        sewn: its edges that are sewn to theirs, to be walked.
        beside: its edges that lie on a stretch of theirs: (its edge, theirs).
    """

    word: str
    parameters: Mapping[str, Any]
    seen: tuple[Seen, ...]
    sewn: tuple[Sewn, ...] = ()
    beside: tuple[tuple[str, Run], ...] = ()


__all__ = ["Seen", "Sewn", "Traced"]
