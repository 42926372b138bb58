"""What is marked on a piece: notches, material lines, named points."""

from dataclasses import dataclass

from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide

Stroke = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch on an edge.

    Attributes:
        name: unique on its piece and body side, "front armhole notch".
        side: the wearer's side.
        edge: the edge it is on.
        corner: the corner of that edge its distance is kept from.
        distance_mm: along the edge as sewn, from the corner.
        count: 1 single, 2 double, 3 triple.
    """

    name: str
    side: BodySide
    edge: str
    corner: str
    distance_mm: float
    count: int = 1

    @property
    def key(self) -> tuple[str, BodySide]:
        """Name and body side."""
        return self.name, self.side


@dataclass(frozen=True, slots=True)
class Level:
    """A material line: bust line, waist line, across back.

    Carried and turned with the cloth it is drawn on, and broken where a dart crosses it.

    Attributes:
        name: "bust line" …
        side: the wearer's side.
        strokes: the line inside the piece, as polylines that end on the outline or where a
            dart or a cut broke it.
        edges: the edges that are the line, where it is part of the outline.
    """

    name: str
    side: BodySide
    strokes: tuple[Stroke, ...] = ()
    edges: tuple[str, ...] = ()

    @property
    def key(self) -> tuple[str, BodySide]:
        """Name and body side."""
        return self.name, self.side


@dataclass(frozen=True, slots=True)
class Mark:
    """A named point of the cloth: bust point, blade point, end of an opening."""

    name: str
    side: BodySide
    point: Point

    @property
    def key(self) -> tuple[str, BodySide]:
        """Name and body side."""
        return self.name, self.side
