"""Typed measurements, read: ``bust=88.2``, ``right shoulder length=12.4; 12.6``."""

import re
from collections.abc import Iterable

from tracker.body.measurement import BodySide, Measurement
from tracker.body.session import Reading
from tracker.body.vocabulary import checked_side, measurement
from tracker.errors import TrackerError
from tracker.units import Unit, read_angle, read_length, write_angle, write_length

_SIDE = re.compile(r"\s*(right|left)[\s-]+(.+)", re.IGNORECASE)
#: As the measuring sheet has it: "shoulder length, right".
_SIDE_AFTER = re.compile(r"(.+?)[\s,]+(right|left)\s*", re.IGNORECASE)


class NotATypedValue(TrackerError):
    """A typed measurement that cannot be read."""

    exit_code = 2


def write_value(value: float, of: str, unit: Unit) -> str:
    """Write a length in her unit, or an angle."""
    return write_angle(value) if of == "deg" else write_length(value, unit)


def read_values(texts: Iterable[str], unit: Unit) -> tuple[Reading, ...]:
    """Read typed measurements: ``bust=88.2``, ``"right shoulder length=12.4; 12.6"``.

    Repeats are separated by ``;``, or the name is typed again.

    Raises:
        NotATypedValue: there is no ``=`` in it.
        TrackerError: an unknown name, a side it does not have, or no length.
    """
    found: dict[tuple[str, BodySide], tuple[float, ...]] = {}
    for text in texts:
        name, sign, values = text.partition("=")
        if not sign:
            name, sign, values = text.partition(":")
        if not sign or not name.strip():
            raise NotATypedValue(
                f"“{text}” is not a measurement; write its name and its value, as in bust=88.2 or "
                '"right shoulder length=12.4"'
            )
        entry, side = read_name(name)
        read = tuple(read_value(entry, v, unit) for v in values.split(";"))
        key = (entry.key, side)
        found[key] = (*found.get(key, ()), *read)
    return tuple(Reading(key=k, side=s, values=v) for (k, s), v in found.items())


def read_name(text: str) -> tuple[Measurement, BodySide]:
    """Read a measurement's name with the wearer's side before or after it, if any.

    Raises:
        TrackerError: there is no such measurement, or it has no sides.
    """
    before, after = _SIDE.fullmatch(text.strip()), _SIDE_AFTER.fullmatch(text.strip())
    if before:
        word, name = before[1], before[2]
    elif after:
        name, word = after[1], after[2]
    else:
        return measurement(text.strip()), "both"
    entry = measurement(name)
    side: BodySide = "right" if word.lower() == "right" else "left"
    return entry, checked_side(entry, side)


def read_value(entry: Measurement, text: str, unit: Unit) -> float:
    """Read one value: millimetres, or degrees for a slope.

    Raises:
        NotALength: it is none; the sentence says which measurement it was for.
    """
    try:
        return read_angle(text) if entry.unit == "deg" else read_length(text, unit)
    except TrackerError as fault:
        raise type(fault)(f"{entry.name}: {fault.sentence}") from fault
