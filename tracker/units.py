"""Lengths in and out: what a person typed becomes millimetres, and millimetres become words.

Inside, every length is a float in millimetres. One inch is 25.4 mm exactly (international
yard and pound agreement, 1959); a foot is twelve of them.
"""

import math
import re
from enum import StrEnum

from tracker.errors import TrackerError

MM_PER_CM = 10.0
MM_PER_INCH = 25.4
MM_PER_FOOT = 12 * MM_PER_INCH

LONGEST_MM = 100_000.0
"""No length in a sewing room is longer than this (100 m, more than a roll of cloth)."""

SIXTEENTHS = 16
"""Inches are written to 1/16, the finest mark on a dressmaker's inch tape."""


class Unit(StrEnum):
    """The unit a maker prefers: a bare number is read in it and lengths are shown in it."""

    CM = "cm"
    INCH = "inch"


class NotALength(TrackerError):
    """What was typed cannot be read as a length (or an angle); the sentence says why."""

    exit_code = 2


_FRACTIONS = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8",
    "⅞": "7/8",
}  # fmt: skip

_MARKS = {
    "⁄": "/", "∕": "/", "−": "-", "–": "-", "″": '"', "”": '"', "“": '"', "′": "'", "’": "'",
    "‘": "'", "\u00a0": " ", "\u202f": " ", "\u2009": " ",
}  # fmt: skip

_MM_PER_NAME = {
    "mm": 1.0,
    "millimetre": 1.0,
    "millimeter": 1.0,
    "cm": MM_PER_CM,
    "centimetre": MM_PER_CM,
    "centimeter": MM_PER_CM,
    "m": 1000.0,
    "metre": 1000.0,
    "meter": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inche": MM_PER_INCH,  # "inches" without its s
    '"': MM_PER_INCH,
    "''": MM_PER_INCH,
    "'": MM_PER_FOOT,
    "ft": MM_PER_FOOT,
    "foot": MM_PER_FOOT,
    "feet": MM_PER_FOOT,
}

_NUMBER = r"(?:\d+[ -]+\d+/\d+|\d+/\d+|\d+[.,]\d*|[.,]\d+|\d+)"
_UNIT = r"(?:''|\"|'|[a-z]+\.?)"
_LENGTH = re.compile(rf"(?P<sign>[+-]?)\s*(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT})?")
_FEET_AND_INCHES = re.compile(
    rf"(?P<sign>[+-]?)\s*(?P<feet>\d+)\s*(?:'|ft\.?|foot|feet)\s*"
    rf"(?P<number>{_NUMBER})\s*(?:''|\"|in\.?|inch|inches)?"
)
_ANGLE = re.compile(rf"(?P<sign>[+-]?)\s*(?P<number>{_NUMBER})\s*(?:°|deg|degs|degree|degrees)?")

_WHAT_WOULD_WORK = 'write it like 12.5 cm, 125 mm, 5/8 in, 1 1/4" or 4\' 2 1/2"'


def read_length(text: str, preferred: Unit = Unit.CM, *, allow_negative: bool = False) -> float:
    """Read a length a person typed; return millimetres.

    Args:
        text: ``12.5cm``, ``125 mm``, ``5/8in``, ``1 1/4"``, ``4'``, ``4' 2 1/2"``, ``2½``; a
            comma may stand for the decimal point. A bare number is in the preferred unit; of
            fractions only halves where that is centimetres, since eighths are inches.
        preferred: the maker's unit.
        allow_negative: whether a length below nothing makes sense where it was asked for.

    Raises:
        NotALength: what was typed is no length; the sentence says what is wrong with it.

    >>> read_length("5/8in")
    15.875
    >>> read_length("88", Unit.CM)
    880.0
    """
    plain = _plain(text)
    if not plain:
        raise NotALength(f"no length was given; {_WHAT_WOULD_WORK}")
    if found := _FEET_AND_INCHES.fullmatch(plain):
        inches = _number(found["number"], text)
        mm = int(found["feet"][:9]) * MM_PER_FOOT + inches * MM_PER_INCH
        if inches >= 12:
            raise NotALength(
                f"“{_shown(text)}” has {inches:g} inches after the feet; twelve make another foot"
            )
    elif found := _LENGTH.fullmatch(plain):
        _, slash, part = found["number"].partition("/")
        if preferred is Unit.CM and slash and part != "2" and not found["unit"]:
            raise NotALength(
                f"“{_shown(text)}” has no unit, and such a fraction is usually of an inch: write "
                f"it like {_shown(text)}in, or in centimetres with a point"
            )
        mm = _number(found["number"], text) * _mm_per(found["unit"], preferred, text)
    else:
        raise NotALength(f"“{_shown(text)}” is not a length; {_WHAT_WOULD_WORK}")
    if mm > LONGEST_MM:
        raise NotALength(
            f"“{_shown(text)}” is longer than anything in a sewing room; give at most 100 m"
        )
    return _signed(mm, found["sign"], text, allow_negative)


def read_angle(text: str) -> float:
    """Read an angle a person typed (``22``, ``22.5°``, ``22 deg``); return degrees, 0 to 180.

    Raises:
        NotALength: what was typed is no such angle.
    """
    found = _ANGLE.fullmatch(_plain(text))
    if not found:
        raise NotALength(f"“{_shown(text)}” is not an angle; write it like 22 or 22.5°")
    angle_deg = _number(found["number"], text)
    if found["sign"] == "-" or angle_deg > 180:
        raise NotALength(f"“{_shown(text)}” is not an angle between 0 and 180 degrees")
    return angle_deg


def write_length(mm: float, unit: Unit) -> str:
    """Write a length for people: ``12.5 cm``, or inches to the nearest 1/16, ``4 15/16 in``."""
    return write_cm(mm) if unit is Unit.CM else write_inches(mm)


def write_cm(mm: float) -> str:
    """Write a length in centimetres, to one place: ``12.5 cm``."""
    tenths = _nearest(mm)
    whole, tenth = divmod(abs(tenths), 10)
    return f"{_minus(tenths)}{whole}.{tenth} cm"


def write_mm(mm: float) -> str:
    """Write a length in whole millimetres: ``10 mm``."""
    return f"{_nearest(mm)} mm"


def write_tenths(mm: float) -> str:
    """Write a length in millimetres to a tenth where it is not whole: ``5 mm``, ``2.5 mm``.

    For sentences that are kept: their inches, added or put in later, come from what is written.
    """
    return f"{round(mm, 1) + 0.0:.1f}".removesuffix(".0") + " mm"


def write_inches(mm: float) -> str:
    """Write a length in inches with a fraction in lowest terms, to 1/16: ``4 15/16 in``."""
    sixteenths = _nearest(mm * SIXTEENTHS / MM_PER_INCH)
    whole, part = divmod(abs(sixteenths), SIXTEENTHS)
    if not part:
        return f"{_minus(sixteenths)}{whole} in"
    shared = math.gcd(part, SIXTEENTHS)
    fraction = f"{part // shared}/{SIXTEENTHS // shared}"
    return f"{_minus(sixteenths)}{f'{whole} ' if whole else ''}{fraction} in"


def write_both(mm: float) -> str:
    """Write a length in both units, for a table or a sentence: ``10 mm (3/8 in)``.

    A half millimetre is kept as it was read, so that twice a fold of 7.5 mm is 15 mm:
    ``7.5 mm (5/16 in)``. Nothing is nothing in both: ``0 mm``.
    """
    halves = round(mm * 2)
    exact = halves % 2 == 1 and abs(mm * 2 - halves) < 1e-6
    metric = f"{mm:.1f} mm" if exact else write_mm(mm)
    return metric if metric == "0 mm" else f"{metric} ({_told_in_inches(mm)})"


def _told_in_inches(mm: float) -> str:
    """Inches of what is more than nothing, if only a little."""
    written = write_inches(mm)
    return f"under 1/{SIXTEENTHS} in" if written == "0 in" and mm else written


#: A length or a range told in metric, unless its inches stand behind it; "mm2" is an area.
_FIGURE = r"[-+]?\d+(?:\.\d+)?"
_TOLD = re.compile(
    rf"(?<![\w.])(?:(?P<least>{_FIGURE})(?P<to> to | or )"
    rf"|(?<=between )(?P<low>{_FIGURE}) and )?"
    rf"(?P<most>{_FIGURE}) (?P<unit>mm|cm)\b(?! \()"
)


def _as_inches(told: re.Match[str]) -> str:
    size = MM_PER_CM if told["unit"] == "cm" else 1.0
    least = told["least"] or told["low"]
    if least is None:
        return _told_in_inches(float(told["most"]) * size)
    most = write_inches(float(told["most"]) * size)
    return write_inches(float(least) * size).removesuffix(" in") + (told["to"] or " and ") + most


def in_both(sentence: str) -> str:
    """Add the inches to each length a sentence tells in millimetres or centimetres.

    Example:
        >>> in_both("in 8 mm at the side waist")
        'in 8 mm (5/16 in) at the side waist'
    """

    def both(told: re.Match[str]) -> str:
        inches = _as_inches(told)
        return told[0] if inches == "0 in" else f"{told[0]} ({inches})"

    return _TOLD.sub(both, sentence)


def in_inches(sentence: str) -> str:
    """Tell in inches each length a sentence tells in millimetres or centimetres, and areas.

    Example:
        >>> in_inches("waist line 20 mm smaller")
        'waist line 13/16 in smaller'
    """
    return _AREA.sub(_as_square_inches, _TOLD.sub(_as_inches, sentence))


_AREA = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) cm²")


def _as_square_inches(told: re.Match[str]) -> str:
    size = float(told[1]) * MM_PER_CM**2 / MM_PER_INCH**2
    return f"{size:.0f} sq in" if size >= 10 else f"{size:.1f} sq in"


def write_change(old_mm: float, new_mm: float, unit: Unit) -> str:
    """Write by how much a length changed, so that it does not belie the two as they are written.

    Both are rounded: where they read alike and the change does not, or the other way about, it is
    ``under 1/16 in`` (or ``under 1 mm``).
    """
    old, new = write_length(old_mm, unit), write_length(new_mm, unit)
    by = write_length(new_mm - old_mm, unit)
    nothing = by == write_length(0.0, unit)
    if (old == new) != nothing:
        return "under 1 mm" if unit is Unit.CM else f"under 1/{SIXTEENTHS} in"
    return by if nothing or by.startswith("-") else f"+{by}"


def write_angle(angle_deg: float) -> str:
    """Write an angle in degrees, to half a degree at most: ``22°``, ``22.5°``."""
    halves = _nearest(angle_deg * 2)
    return f"{halves / 2:g}°"


def _plain(text: str) -> str:
    """Return the text in plain characters: vulgar fractions and typographer's marks spelt out."""
    for mark, plain in _FRACTIONS.items():
        text = text.replace(mark, f" {plain} ")
    for mark, plain in _MARKS.items():
        text = text.replace(mark, plain)
    text = re.sub(r"\s+", " ", text).strip().lower()
    return re.sub(r"\s*/\s*", "/", text)


def _number(written: str, text: str) -> float:
    """Return the value of a written number; ``text`` is all that was typed, for the sentence."""
    if "/" in written:
        *whole, fraction = re.split(r"[ -]+", written)
        above, below = fraction.split("/")
        if int(below[:9]) == 0:
            raise NotALength(f"“{_shown(text)}” divides by nothing; {_WHAT_WOULD_WORK}")
        return (float(whole[0]) if whole else 0.0) + float(above) / float(below)
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", written):
        raise NotALength(
            f"“{_shown(text)}” can be read two ways; write {written.replace(',', '.')} or "
            f"{written.replace(',', '')} instead of {written}"
        )
    return float(written.replace(",", "."))


def _mm_per(unit: str | None, preferred: Unit, text: str) -> float:
    if unit is None:
        return MM_PER_CM if preferred is Unit.CM else MM_PER_INCH
    name = unit.rstrip(".")
    per = _MM_PER_NAME.get(name, _MM_PER_NAME.get(name.removesuffix("s")))
    if per is None:
        raise NotALength(
            f"“{unit}” in “{_shown(text)}” is not a unit of length; use cm, mm, in or ft"
        )
    return per


def _signed(mm: float, sign: str, text: str, allow_negative: bool) -> float:
    if sign != "-" or mm == 0:
        return mm
    if not allow_negative:
        raise NotALength(
            f"“{_shown(text)}” is less than nothing; give it without the minus sign here"
        )
    return -mm


def _shown(text: str) -> str:
    """Return what was typed, cut short enough for one sentence."""
    clean = " ".join(text.split())
    return clean if len(clean) <= 40 else f"{clean[:37]}…"


def _nearest(value: float) -> int:
    """Round half away from zero, as people do; 1e-9 forgives the last digits of a float."""
    return int(math.copysign(math.floor(abs(value) + 0.5 + 1e-9), value))


def _minus(count: int) -> str:
    return "-" if count < 0 else ""
