"""A tracing as it was read: what stands in the file, with its lines, before anything is drawn."""

from dataclasses import dataclass

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide


@dataclass(frozen=True, slots=True)
class Stop:
    """A point read off the paper.

    Attributes:
        point: where it is, millimetres, y up.
        kind: "corner", "curve", "mouth" (an end of a dart's mouth) or "" where it was not said.
        name: the corner's name, or the dart's.
        line: the line of the file.
        said: its number as it was written.
        square: the two edges meet at a right angle in this corner.
    """

    point: Point
    kind: str = ""
    name: str = ""
    line: int = 0
    said: str = ""
    square: bool = False


@dataclass(frozen=True, slots=True)
class TracedEdge:
    """An edge: its points, or the lines as they were drawn, or only a name and a length.

    Attributes:
        name: its name.
        side: the wearer's side.
        line: where the file first names it.
        stops: its points in order.
        drawn: instead of points, its lines, one for each part between dart mouths.
        start: the name of the corner it begins at, "" where none was given.
        end: the name of the corner it ends at.
        tape_mm: its length by the tape, none where it was not taken.
    """

    name: str
    side: BodySide
    line: int
    stops: tuple[Stop, ...] = ()
    drawn: tuple[Curve, ...] = ()
    start: str = ""
    end: str = ""
    tape_mm: float | None = None


@dataclass(frozen=True, slots=True)
class TracedDart:
    """A dart: where its lines meet, once or (double-pointed) twice.

    Attributes:
        name: its name.
        side: the wearer's side.
        line: the line of the file.
        points: where its two lines meet.
        stand_back_mm: how far short of that it is sewn.
        pressed: which way.
        legs: points on either leg between mouth and point.
        drawn: instead of points, its lines: from the mouth to the point and back to the mouth;
            double-pointed, both from the upper point to the lower.
    """

    name: str
    side: BodySide
    line: int
    points: tuple[Point, ...] = ()
    stand_back_mm: float = 0.0
    pressed: str = ""
    legs: tuple[tuple[Stop, ...], tuple[Stop, ...]] = ((), ())
    drawn: tuple[Curve, Curve] | None = None


@dataclass(frozen=True, slots=True)
class TracedNotch:
    """A notch, by its distance from a corner or by where it was seen."""

    name: str
    side: BodySide
    line: int
    edge: str
    corner: str = ""
    distance_mm: float | None = None
    spot: Point | None = None
    count: int = 1


@dataclass(frozen=True, slots=True)
class TracedLine:
    """A material line."""

    name: str
    side: BodySide
    line: int
    strokes: tuple[tuple[Point, ...], ...] = ()
    edges: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TracedMark:
    """A named point."""

    name: str
    side: BodySide
    line: int
    point: Point


@dataclass(frozen=True, slots=True)
class TracedPiece:
    """A piece as it was traced.

    Attributes:
        name: its name.
        side: both, right, left or centre.
        line: where the file first names it.
        half: "right" or "left": which half lies there; "" where it was not said.
        layer: shell, facing, lining or interfacing.
        copies: how often what is drawn is in the garment.
        fold: the edge on the fold, "" where none is.
        cut: the cut instruction.
        taken_from: the piece it follows, or "".
        edges: in the order of the file.
        darts: its darts.
        notches: its notches.
        lines: its material lines.
        marks: its named points.
        grain: the grain line, lower end first.
    """

    name: str
    side: BodySide
    line: int
    half: str = ""
    layer: str = "shell"
    copies: int = 2
    fold: str = ""
    cut: str = ""
    taken_from: str = ""
    edges: tuple[TracedEdge, ...] = ()
    darts: tuple[TracedDart, ...] = ()
    notches: tuple[TracedNotch, ...] = ()
    lines: tuple[TracedLine, ...] = ()
    marks: tuple[TracedMark, ...] = ()
    grain: tuple[Point, Point] | None = None

    @property
    def label(self) -> str:
        """The name a person reads."""
        told = self.side in (BodySide.RIGHT, BodySide.LEFT)
        return f"{self.side} {self.name}" if told else self.name


@dataclass(frozen=True, slots=True)
class TracedRun:
    """An edge of a seam's side, and the corner it is sewn from, if that was said."""

    piece: str
    edge: str
    side: BodySide | None
    starts_at: str
    line: int


@dataclass(frozen=True, slots=True)
class TracedSeam:
    """A seam as it was named.

    Attributes:
        name: its name.
        side: its body side; none where it follows from its edges.
        line: where the file first names it.
        first: the edges of its first side.
        second: of its second; none for a mirrored piece sewn to itself.
        matches: first piece, first, second piece, second, and the line.
        eases: amount in millimetres, from, to, and the line.
    """

    name: str
    side: BodySide | None
    line: int
    first: tuple[TracedRun, ...]
    second: tuple[TracedRun, ...] = ()
    matches: tuple[tuple[str, str, str, str, int], ...] = ()
    eases: tuple[tuple[float, str, str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Tracing:
    """All that stands in a file."""

    pieces: tuple[TracedPiece, ...]
    seams: tuple[TracedSeam, ...] = ()
    girths: tuple[tuple[str, float], ...] = ()
