"""Fonts: letters outside Latin-1 need a TrueType font, and one is shipped with the charts."""

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from tracker.errors import TrackerError

PLAIN, BOLD = "Tracker", "Tracker-Bold"


@cache
def fonts() -> tuple[str, str]:
    """Register the plain and the bold font with the PDF writer and return their names.

    Raises:
        TrackerError: the fonts are not installed.
    """
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    # Found without importing matplotlib, which would cost half a second.
    spec = find_spec("matplotlib")
    folder = (
        Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf" if spec and spec.origin else None
    )
    for name, file in ((PLAIN, "DejaVuSans.ttf"), (BOLD, "DejaVuSans-Bold.ttf")):
        if folder is None or not (folder / file).is_file():
            raise TrackerError(f"the font {file} is missing; install matplotlib again")
        pdfmetrics.registerFont(TTFont(name, str(folder / file)))
    return PLAIN, BOLD


def width_mm(words: str, size_mm: float, *, bold: bool = False) -> float:
    """Return how wide words run, millimetres."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return float(stringWidth(words, fonts()[bold], size_mm))


def wrapped(words: str, size_mm: float, room_mm: float, *, bold: bool = False) -> list[str]:
    """Break words into lines that fit a width, never at a no-break space.

    A single word may stick out.
    """
    lines: list[str] = []
    for word in filter(None, words.split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, size_mm, bold=bold) <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
