"""A pen that writes SVG, one millimetre to the unit."""

import html
from dataclasses import dataclass, field

from tracker.geometry.point import Point
from tracker.output.pen import Lettering, Style


@dataclass(slots=True)
class SvgPen:
    """Writes SVG elements; y is turned to run down the page.

    Attributes:
        marks: the elements written so far.
        steady: lines keep their thickness and dashes on the screen however large the drawing
            is shown (their ``weight_mm`` is then taken as screen pixels × 0.3).
    """

    marks: list[str] = field(default_factory=list)
    steady: bool = False
    _path: list[str] = field(default_factory=list)
    _style: Style | None = None

    def move(self, to: Point, style: Style) -> None:  # noqa: D102 - see Pen
        self._path, self._style = [f"M{_xy(to)}"], style

    def line(self, to: Point) -> None:  # noqa: D102
        self._path.append(f"L{_xy(to)}")

    def curve(self, first: Point, second: Point, to: Point) -> None:  # noqa: D102
        self._path.append(f"C{_xy(first)} {_xy(second)} {_xy(to)}")

    def close(self) -> None:  # noqa: D102
        self._path.append("Z")
        self.lift()

    def lift(self) -> None:  # noqa: D102
        assert self._style is not None
        self.marks.append(
            f'<path class="{html.escape(self._style.name)}" d="{"".join(self._path)}" '
            f"{self._look(self._style)}/>"
        )
        self._path, self._style = [], None

    def _look(self, style: Style) -> str:
        if style.filled:
            return f'fill="{style.colour}"'
        per_mm = 1 / 0.3 if self.steady else 1.0
        out = f'fill="none" stroke="{style.colour}" stroke-width="{style.weight_mm * per_mm:g}"'
        if style.dash_mm:
            out += f' stroke-dasharray="{" ".join(f"{d * per_mm:g}" for d in style.dash_mm)}"'
        if self.steady:
            out += ' vector-effect="non-scaling-stroke"'
        return out

    def text(self, at: Point, words: str, lettering: Lettering) -> None:  # noqa: D102
        x, y = number(at.real), number(-at.imag)
        turn = (
            f' transform="rotate({-lettering.angle_deg:g} {x} {y})"' if lettering.angle_deg else ""
        )
        weight = ' font-weight="bold"' if lettering.bold else ""
        self.marks.append(
            f'<text x="{x}" y="{y}" font-size="{lettering.size_mm:g}" '
            f'text-anchor="{lettering.anchor}"{weight}{turn}>{html.escape(words)}</text>'
        )

    @property
    def body(self) -> str:
        """Everything written so far."""
        return "\n".join(self.marks)


def svg_page(body: str, box: tuple[float, float, float, float], title: str, words: str) -> str:
    """Return a whole SVG drawing at full scale.

    Args:
        body: the elements.
        box: least x, least y, greatest x, greatest y in millimetres, y up.
        title: what it is.
        words: what it shows, for those who cannot see it.
    """
    low_x, low_y, high_x, high_y = box
    wide, high = number(high_x - low_x), number(high_y - low_y)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
        f'viewBox="{number(low_x)} {number(-high_y)} {wide} {high}" role="img" '
        f'font-family="DejaVu Sans, Verdana, sans-serif">\n'
        f"<title>{html.escape(title)}</title>\n<desc>{html.escape(words)}</desc>\n{body}\n</svg>\n"
    )


def number(value: float) -> str:
    """Write a coordinate to a thousandth of a millimetre, as short as it goes."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def _xy(p: Point) -> str:
    return f"{number(p.real)} {number(-p.imag)}"
