"""Path data of the SVG standard read as chains of lines and cubics.

Scalable Vector Graphics (SVG) 2, W3C, chapter 9 (paths) and appendix B.2 (arcs). Coordinates
stay as they are written, y down the page.
"""

import cmath
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from tracker.errors import TrackerError
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point

_TOKEN = re.compile(
    r"[\s,]*(?:(?P<word>[A-Za-z])|(?P<number>[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?))"
)
_FLAG = re.compile(r"[\s,]*([01])")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
#: Arcs are drawn as cubics of at most so many degrees each: within 1e-6 of the radius.
_ARC_DEG = 30.0


class NotAPath(TrackerError):
    """Path data that the standard does not allow; its sentence says where it breaks off."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """One stroke of a path: where the pen goes without being lifted.

    Attributes:
        line: its chain; a stroke without length has none and is left out.
        closed: it was closed back to its start.
    """

    line: Curve
    closed: bool


def strokes_of(data: str) -> tuple[Stroke, ...]:
    """Read path data.

    Raises:
        NotAPath: it is not path data.
    """
    out: list[Stroke] = []
    segments: list[Segment] = []
    at = start = 0j
    smooth: tuple[str, Point] = ("", 0j)  # the kind and last handle of the segment before

    def lift(closed: bool) -> None:
        if segments:
            out.append(Stroke(Curve.of(segments), closed))
        segments.clear()

    for word, numbers in _commands(data):
        upper = word.upper()
        base = at if word.islower() else 0j
        points = _points(upper, numbers, base, at)
        if upper == "M":
            lift(closed=False)
            at = start = points[0]
        elif upper == "Z":
            if abs(at - start) > 1e-9:
                segments.append((at, start))
            lift(closed=True)
            at = start
        elif upper == "A":
            segments.extend(_arc(at, numbers, points[0]))
            at = points[0]
        else:
            segment, smooth = _segment(upper, at, points, smooth)
            if any(abs(p - at) > 1e-12 for p in segment):
                segments.append(segment)
            at = segment[-1]
        if upper not in "CSQT":
            smooth = ("", at)
    lift(closed=False)
    return tuple(out)


def _points(upper: str, numbers: list[float], base: Point, at: Point) -> list[Point]:
    if upper == "H":
        return [complex(base.real + numbers[0], at.imag)]
    if upper == "V":
        return [complex(at.real, base.imag + numbers[0])]
    if upper == "A":
        numbers = numbers[5:]
    return [complex(*numbers[k : k + 2]) + base for k in range(0, len(numbers), 2)]


def _segment(
    upper: str, at: Point, points: list[Point], smooth: tuple[str, Point]
) -> tuple[Segment, tuple[str, Point]]:
    """One line or cubic, and what a smooth segment after it would go on from."""
    if upper in "LHV":
        return (at, points[0]), ("", at)
    mirrored = 2 * at - smooth[1]
    if upper in "CS":
        first = points[0] if upper == "C" else mirrored if smooth[0] == "C" else at
        second, end = points[-2], points[-1]
        return (at, first, second, end), ("C", second)
    handle = points[0] if upper == "Q" else mirrored if smooth[0] == "Q" else at
    end = points[-1]
    return (at, at + (handle - at) * 2 / 3, end + (handle - end) * 2 / 3, end), ("Q", handle)


def _commands(data: str) -> Iterator[tuple[str, list[float]]]:
    """Each command with the numbers it takes; further numbers repeat it."""
    at, word, first = 0, "", True
    while data[at:].strip(" \t\r\n,"):
        found = _TOKEN.match(data, at)
        if found is None:
            raise NotAPath(f"path data breaks off at “{data[at : at + 12].strip()}”")
        if found["word"]:
            word, at = found["word"], found.end()
            if word.upper() not in _TAKES:
                raise NotAPath(f"“{word}” is no command of path data")
        elif not word or word in "Zz":
            raise NotAPath(f"path data has a number without a command at “{data[at : at + 12]}”")
        if first and word not in "Mm":
            raise NotAPath("path data begins with M")
        numbers, at = _numbers(data, at, word)
        yield word, numbers
        first = False
        word = {"M": "L", "m": "l"}.get(word, word)


def _numbers(data: str, at: int, word: str) -> tuple[list[float], int]:
    out: list[float] = []
    for k in range(_TAKES[word.upper()]):
        is_flag = word in "Aa" and k in (3, 4)
        found = (_FLAG if is_flag else _TOKEN).match(data, at)
        text = found[1] if found and is_flag else found["number"] if found else None
        if found is None or not text or not math.isfinite(float(text)):
            raise NotAPath(f"{word} lacks a number at “{data[at : at + 12].strip()}”")
        out.append(float(text))
        at = found.end()
    return out, at


def _arc(start: Point, numbers: list[float], end: Point) -> Iterator[Segment]:
    """An elliptical arc as cubics (SVG 2, B.2.4 and B.2.5)."""
    rx, ry, large, sweep = abs(numbers[0]), abs(numbers[1]), numbers[3] > 0, numbers[4] > 0
    if abs(end - start) < 1e-12:
        return
    if rx < 1e-9 or ry < 1e-9:
        yield start, end
        return
    turn = cmath.exp(1j * math.radians(numbers[2]))
    half = (start - end) / 2 / turn
    x, y = half.real, half.imag
    over = (x / rx) ** 2 + (y / ry) ** 2
    if over > 1:
        rx, ry = rx * math.sqrt(over), ry * math.sqrt(over)
    rest = max(0.0, (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2)
    size = math.sqrt(rest / ((rx * y) ** 2 + (ry * x) ** 2))
    size = -size if large == sweep else size
    middle = complex(size * rx * y / ry, -size * ry * x / rx)
    one = math.atan2((y - middle.imag) / ry, (x - middle.real) / rx)
    two = math.atan2((-y - middle.imag) / ry, (-x - middle.real) / rx)
    swept = (two - one) % (2 * math.pi)
    if not sweep:
        swept -= 2 * math.pi
    count = max(1, math.ceil(abs(swept) / math.radians(_ARC_DEG) - 1e-9))
    centre = middle * turn + (start + end) / 2

    def on(angle: float) -> Point:
        return centre + turn * complex(rx * math.cos(angle), ry * math.sin(angle))

    def speed(angle: float) -> Point:
        return turn * complex(-rx * math.sin(angle), ry * math.cos(angle))

    reach = 4 / 3 * math.tan(swept / count / 4)
    for k in range(count):
        a, b = one + swept * k / count, one + swept * (k + 1) / count
        p = start if k == 0 else on(a)
        q = end if k == count - 1 else on(b)
        yield p, p + speed(a) * reach, q - speed(b) * reach, q
