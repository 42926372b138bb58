"""Pens: a drawing is made once, and every output is a pen that it is made with.

Coordinates are millimetres, x to the right and y up, at full scale. The kind of line
carries the meaning (solid, dashed, dotted, thick, thin); colour only helps, so that every
drawing reads in black and white.
"""

import cmath
import itertools
import math
from dataclasses import dataclass, field
from typing import Literal, Protocol

from tracker.geometry import bezier
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion

Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Style:
    """How a line looks.

    Attributes:
        name: what the line is: "cutting", "sewing" … (also its class in an SVG).
        weight_mm: thickness.
        dash_mm: lengths of strokes and gaps in turn; solid when empty.
        colour: "#rrggbb"; never the only thing that tells two lines apart.
        filled: the closed line is filled with its colour and not stroked.
    """

    name: str
    weight_mm: float
    dash_mm: tuple[float, ...] = ()
    colour: str = "#000000"
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Lettering:
    """How words are written.

    Attributes:
        size_mm: height of the type body.
        anchor: which end of the words stands at the point given.
        angle_deg: the direction the words run in; 0 to the right, 90 upwards.
        bold: heavier letters.
    """

    size_mm: float = 3.5
    anchor: Anchor = "start"
    angle_deg: float = 0.0
    bold: bool = False


CUTTING = Style("cutting", 0.55)
SEWING = Style("sewing", 0.3, (5.0, 2.0))
FOLD = Style("fold", 0.5, (14.0, 2.5, 2.5, 2.5))
DART_FOLD = Style("dart-fold", 0.25, (0.6, 1.8))
GRAIN = Style("grain", 0.35)
NOTCH = Style("notch", 0.5)
LEVEL = Style("level", 0.25, (10.0, 2.0, 1.0, 2.0))
MARK = Style("mark", 0.3)
FRAME = Style("frame", 0.2)
SOLID = Style("solid", 0.2, filled=True)


class Pen(Protocol):
    """What a drawing is made with."""

    def move(self, to: Point, style: Style) -> None:
        """Put the pen down at a point, to draw in a style."""

    def line(self, to: Point) -> None:
        """Draw a straight line."""

    def curve(self, first: Point, second: Point, to: Point) -> None:
        """Draw a cubic with two handles."""

    def close(self) -> None:
        """Draw straight back to where the line began and lift the pen."""

    def lift(self) -> None:
        """End an open line."""

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Write words on their base line."""


Stroke = tuple[str, tuple[object, ...]]


@dataclass(slots=True)
class RecordingPen:
    """Writes down what was drawn, to be looked at or drawn again with another pen."""

    strokes: list[Stroke] = field(default_factory=list)

    def move(self, to: Point, style: Style) -> None:  # noqa: D102 - see Pen
        self.strokes.append(("move", (to, style)))

    def line(self, to: Point) -> None:  # noqa: D102
        self.strokes.append(("line", (to,)))

    def curve(self, first: Point, second: Point, to: Point) -> None:  # noqa: D102
        self.strokes.append(("curve", (first, second, to)))

    def close(self) -> None:  # noqa: D102
        self.strokes.append(("close", ()))

    def lift(self) -> None:  # noqa: D102
        self.strokes.append(("lift", ()))

    def text(self, at: Point, words: str, lettering: Lettering) -> None:  # noqa: D102
        self.strokes.append(("text", (at, words, lettering)))

    def replay(self, pen: Pen) -> None:
        """Draw the same again with another pen."""
        for name, arguments in self.strokes:
            getattr(pen, name)(*arguments)

    @property
    def words(self) -> tuple[str, ...]:
        """Everything written, in order."""
        return tuple(str(a[1]) for name, a in self.strokes if name == "text")

    def lines(self, style: str) -> tuple[tuple[Point, ...], ...]:
        """Return the corner points of each line drawn in a style, by the style's name."""
        out: list[list[Point]] = []
        wanted = False
        for name, a in self.strokes:
            if name == "move":
                wanted = isinstance(a[1], Style) and a[1].name == style
                if wanted:
                    out.append([_point(a[0])])
            elif wanted and name in ("line", "curve"):
                out[-1].append(_point(a[-1]))
            elif wanted and name == "close":
                out[-1].append(out[-1][0])
        return tuple(tuple(line) for line in out)


def _point(value: object) -> Point:
    assert isinstance(value, complex)
    return value


@dataclass(slots=True)
class BoundsPen:
    """Finds the box that holds a drawing; curves exactly, words by a usual letter width."""

    low: Point = complex(math.inf, math.inf)
    high: Point = complex(-math.inf, -math.inf)
    _at: Point = 0j

    def _hold(self, *points: Point) -> None:
        self.low = complex(
            min(self.low.real, *(p.real for p in points)),
            min(self.low.imag, *(p.imag for p in points)),
        )
        self.high = complex(
            max(self.high.real, *(p.real for p in points)),
            max(self.high.imag, *(p.imag for p in points)),
        )

    def move(self, to: Point, style: Style) -> None:  # noqa: D102
        self._at = to
        self._hold(to, to)

    def line(self, to: Point) -> None:  # noqa: D102
        self._at = to
        self._hold(to, to)

    def curve(self, first: Point, second: Point, to: Point) -> None:  # noqa: D102
        segment = (self._at, first, second, to)
        for pick in ("real", "imag"):
            slopes = [getattr(b - a, pick) for a, b in itertools.pairwise(segment)]
            for t in bezier.roots(tuple(slopes)):
                point = bezier.point_on(segment, t)
                self._hold(point, point)
        self._at = to
        self._hold(to, to)

    def close(self) -> None:  # noqa: D102
        return

    def lift(self) -> None:  # noqa: D102
        return

    def text(self, at: Point, words: str, lettering: Lettering) -> None:  # noqa: D102
        run = 0.62 * lettering.size_mm * len(words)
        back = {"start": 0.0, "middle": run / 2, "end": run}[lettering.anchor]
        along = cmath.rect(1.0, math.radians(lettering.angle_deg))
        start, up = at - back * along, along * 1j * lettering.size_mm
        self._hold(*(start + c for c in (0, run * along, up, run * along + up)))

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y."""
        return self.low.real, self.low.imag, self.high.real, self.high.imag


@dataclass(slots=True)
class MovedPen:
    """Draws with another pen, everything moved first; words keep reading left to right."""

    pen: Pen
    motion: Motion

    def move(self, to: Point, style: Style) -> None:  # noqa: D102
        self.pen.move(self.motion.of(to), style)

    def line(self, to: Point) -> None:  # noqa: D102
        self.pen.line(self.motion.of(to))

    def curve(self, first: Point, second: Point, to: Point) -> None:  # noqa: D102
        of = self.motion.of
        self.pen.curve(of(first), of(second), of(to))

    def close(self) -> None:  # noqa: D102
        self.pen.close()

    def lift(self) -> None:  # noqa: D102
        self.pen.lift()

    def text(self, at: Point, words: str, lettering: Lettering) -> None:  # noqa: D102
        turn = math.degrees(cmath.phase(self.motion.factor))
        angle = lettering.angle_deg + (0.0 if self.motion.mirrored else turn)
        self.pen.text(
            self.motion.of(at),
            words,
            Lettering(lettering.size_mm, lettering.anchor, angle, lettering.bold),
        )


def draw_chain(pen: Pen, chain: Curve, style: Style) -> None:
    """Draw a chain as one open line."""
    pen.move(chain.start, style)
    _follow(pen, chain)
    pen.lift()


def draw_ring(pen: Pen, ring: tuple[Curve, ...], style: Style) -> None:
    """Draw chains that follow each other as one closed line."""
    pen.move(ring[0].start, style)
    for chain in ring:
        _follow(pen, chain)
    pen.close()


def draw_points(pen: Pen, points: tuple[Point, ...], style: Style, *, closed: bool = False) -> None:
    """Draw straight lines from point to point."""
    pen.move(points[0], style)
    for point in points[1:]:
        pen.line(point)
    if closed:
        pen.close()
    else:
        pen.lift()


def draw_circle(pen: Pen, centre: Point, radius_mm: float, style: Style) -> None:
    """Draw a circle as four cubics; they stand off it by 0.03 % of the radius at most."""
    pull = 4 / 3 * (math.sqrt(2) - 1) * radius_mm
    spokes = [radius_mm * d for d in (1 + 0j, 1j, -1 + 0j, -1j)]
    pen.move(centre + spokes[0], style)
    for a, b in zip(spokes, spokes[1:] + spokes[:1], strict=True):
        pen.curve(
            centre + a + a / radius_mm * 1j * pull, centre + b - b / radius_mm * 1j * pull,
            centre + b,
        )  # fmt: skip
    pen.close()


def _follow(pen: Pen, chain: Curve) -> None:
    for run in chain.runs:
        if len(run) == 1:
            pen.line(run[0])
        else:
            pen.curve(run[0], run[1], run[2])
