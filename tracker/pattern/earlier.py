"""How a piece was before a step, so that the very opposite step gives it back."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tracker.geometry.point import Point
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Mark, Notch

#: A piece keeps so many of them.
KEPT_EARLIER = 4


@dataclass(frozen=True)
class Earlier:
    """What of a piece a step changed, as it was.

    Attributes:
        word: the kind of step.
        parameters: its parameters as plain values.
        left: the digest of what the step made of it: while that is so, nothing changed it since.
        edges: the edges it changed.
        darts: the darts it changed.
        notches: the piece's notches.
        levels: its material lines.
        marks: its named points.
        grain: its grain line.
    """

    word: str
    parameters: Mapping[str, Any]
    left: str
    edges: tuple[Edge, ...] = ()
    darts: tuple[Dart, ...] = ()
    notches: tuple[Notch, ...] = ()
    levels: tuple[Level, ...] = ()
    marks: tuple[Mark, ...] = ()
    grain: tuple[Point, Point] | None = None
