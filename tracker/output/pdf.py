"""A pen that draws at full scale on a page of a PDF."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tracker.geometry.point import Point
from tracker.output.lettering import fonts
from tracker.output.pen import Lettering, Style

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.pdfgen.pathobject import PDFPathObject

#: PDF counts in points, 72 to the inch.
POINT_PER_MM = 72 / 25.4
#: No page may be longer than this (14,400 points).
LONGEST_PAGE_MM = 5080.0


@dataclass(slots=True)
class PdfPen:
    """Draws with the PDF writer.

    Attributes:
        canvas: the page.
        scale: paper millimetres per drawn millimetre, across and up: 1 unless a printer's
            error is corrected.
    """

    canvas: "Canvas"
    scale: tuple[float, float] = (1.0, 1.0)
    _path: "PDFPathObject | None" = None
    _style: Style | None = field(default=None)

    def _at(self, p: Point) -> tuple[float, float]:
        across, up = self.scale
        return p.real * across * POINT_PER_MM, p.imag * up * POINT_PER_MM

    def move(self, to: Point, style: Style) -> None:  # noqa: D102 - see Pen
        self._path, self._style = self.canvas.beginPath(), style
        self._path.moveTo(*self._at(to))

    def line(self, to: Point) -> None:  # noqa: D102
        assert self._path is not None
        self._path.lineTo(*self._at(to))

    def curve(self, first: Point, second: Point, to: Point) -> None:  # noqa: D102
        assert self._path is not None
        self._path.curveTo(*self._at(first), *self._at(second), *self._at(to))

    def close(self) -> None:  # noqa: D102
        assert self._path is not None
        self._path.close()
        self.lift()

    def lift(self) -> None:  # noqa: D102
        assert self._path is not None
        assert self._style is not None
        style, canvas = self._style, self.canvas
        canvas.setStrokeColor(style.colour)
        canvas.setFillColor(style.colour)
        canvas.setLineWidth(style.weight_mm * POINT_PER_MM)
        canvas.setDash([d * POINT_PER_MM for d in style.dash_mm] if style.dash_mm else [])
        canvas.drawPath(self._path, stroke=0 if style.filled else 1, fill=1 if style.filled else 0)
        self._path = self._style = None

    def text(self, at: Point, words: str, lettering: Lettering) -> None:  # noqa: D102
        canvas = self.canvas
        canvas.saveState()
        canvas.setFillColor("#000000")
        canvas.translate(*self._at(at))
        if lettering.angle_deg:
            canvas.rotate(lettering.angle_deg)
        canvas.setFont(fonts()[lettering.bold], lettering.size_mm * POINT_PER_MM)
        draw = {
            "start": canvas.drawString,
            "middle": canvas.drawCentredString,
            "end": canvas.drawRightString,
        }[lettering.anchor]
        draw(0, 0, words)
        canvas.restoreState()
