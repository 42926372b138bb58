"""A kind of alteration read from typed words, each by the sort of its parameter."""

from collections.abc import Callable, Iterable
from dataclasses import MISSING, Field, dataclass, fields, is_dataclass
from enum import StrEnum
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from tracker.alterations.kind import Kind, kind_named
from tracker.errors import TrackerError, nearest_names

#: What an entry's place may say it is on.
_ON = ("piece", "seam", "edge")
#: What an edge of a piece is made of.
_EDGE = {"piece", "edge"}


class NotSaid(TrackerError):
    """An alteration that was not said so that it can be made."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class Hearing:
    """How typed lengths and places are read, in the maker's unit.

    Attributes:
        length: a length, in mm; it may be negative.
        place: a corner, the distance in mm from it, and what it is on, if said.
    """

    length: Callable[[str], float]
    place: Callable[[str], tuple[str, float, str | None]]


def typed_name(field: str) -> str:
    """Return a parameter's name as it is typed: ``mouth-edge`` for ``mouth_edge``."""
    return field.removesuffix("_mm").removesuffix("_deg").replace("_", "-")


def read_kind(word: str, given: Iterable[tuple[str, str]], hearing: Hearing) -> Kind:
    """Return a kind from typed parameters.

    Args:
        word: what the kind is called.
        given: each parameter's name and what was typed; one that holds several may come several
            times, or once with ``;`` between.
        hearing: how lengths and places are read.

    Raises:
        TrackerError: no such kind, no such parameter, one that is missing, or a value it cannot
            have.
    """
    kind = kind_named(word)
    known = {field.name: field for field in fields(kind)}
    typed: dict[str, list[str]] = {}
    for name, text in given:
        typed.setdefault(_field(kind, name, known), []).append(text)
    sorts = get_type_hints(kind)
    read = {name: _value(name, sorts[name], texts, hearing) for name, texts in typed.items()}
    missing = [n for n, f in known.items() if n not in read and _needed(f)]
    if missing:
        raise NotSaid(f"{word} also needs {', '.join(map(typed_name, missing))}")
    return kind.from_parameters(read)


def _field(kind: type[Kind], name: str, known: Iterable[str]) -> str:
    plain = "-".join(name.lower().replace("_", " ").replace("-", " ").split())
    names = {typed_name(field): field for field in known}
    found = names.get(typed_name(plain.replace("-", "_")))
    if found is None:
        raise NotSaid(
            f"{kind.word} has no “{name}”; it has {', '.join(names)}."
            f"{nearest_names(plain, list(names))}"
        )
    return found


def _needed(field: Field[Any]) -> bool:
    return field.default is MISSING and field.default_factory is MISSING


def _value(name: str, sort: Any, texts: list[str], hearing: Hearing) -> Any:
    sort = _without_none(sort)
    if get_origin(sort) is tuple:
        entry = get_args(sort)[0]
        parts = [part.strip() for text in texts for part in _parts(text, entry)]
        return [
            _entry(name, entry, part, hearing)
            if is_dataclass(entry)
            else _one(name, entry, part, hearing)
            for part in parts
            if part
        ]
    if len(texts) > 1:
        raise NotSaid(f"{typed_name(name)} is said more than once: {', '.join(texts)}")
    return _one(name, sort, texts[0], hearing)


def _without_none(sort: Any) -> Any:
    if get_origin(sort) is UnionType:
        return next(s for s in get_args(sort) if s is not NoneType)
    return sort


def _parts(text: str, entry: Any) -> list[str]:
    # A comma may stand in a length; between names it can only part them.
    return (text.replace(",", ";") if entry is str else text).split(";")


def _one(name: str, sort: Any, text: str, hearing: Hearing) -> Any:
    if sort is float:
        return hearing.length(text) if name.endswith("_mm") else _number(name, text)
    if sort is bool:
        return _choice(name, text, {"yes": True, "no": False})
    if sort is int:
        return _choice(name, text, {str(n): n for n in range(1, 10)})
    if isinstance(sort, type) and issubclass(sort, StrEnum):
        return _choice(name, text, {str(value): value for value in sort})
    return text


def _choice(name: str, text: str, among: dict[str, Any]) -> Any:
    plain = text.strip().lower()
    if plain not in among:
        *others, last = among
        raise NotSaid(
            f"{typed_name(name)} cannot be “{text}”; say {', '.join(others)} or {last}."
            f"{nearest_names(plain, list(among))}"
        )
    return among[plain]


def _number(name: str, text: str) -> float:
    """Read a share (``0.4`` or ``40%``) or degrees."""
    plain = text.strip().removesuffix("°")
    try:
        if plain.endswith("%"):
            return float(plain.removesuffix("%")) / 100
        return float(plain)
    except ValueError as fault:
        raise NotSaid(f"{typed_name(name)}: “{text}” is not a number") from fault


def _entry(name: str, sort: Any, text: str, hearing: Hearing) -> dict[str, Any]:
    """Read one of several: an amount at a place, or a place alone."""
    has = {field.name: field for field in fields(sort)}
    on = next((word for word in _ON if word in has), None)
    amounts = [word for word in has if word not in ("corner", "distance_mm", *_ON)]
    if "corner" not in has or len(amounts) > 1:
        return _of_a_piece(name, text) if set(has) == _EDGE else _by_name(name, sort, text, hearing)
    amount, at, place = " ".join(text.split()).partition(" at ") if amounts else ("", " at ", text)
    if not at:
        raise NotSaid(
            f"{typed_name(name)}: “{text}” names no place; write it like {_example(amounts, on)}"
        )
    corner, distance_mm, said_on = hearing.place(place)
    read: dict[str, Any] = {"corner": corner, "distance_mm": distance_mm}
    if amounts:
        nothing = amount.lower() in ("nothing", "none", "0")
        read[amounts[0]] = 0.0 if nothing else _one(amounts[0], float, amount, hearing)
    if on and (said_on or _needed(has[on])):
        if said_on is None:
            raise NotSaid(
                f"{typed_name(name)}: “{text}” names no {on}; write it like {_example(amounts, on)}"
            )
        read[on] = said_on
    return read


def _of_a_piece(name: str, text: str) -> dict[str, Any]:
    """Read an edge of a piece: "neckline of front"."""
    edge, of, piece = " ".join(text.split()).partition(" of ")
    if not of:
        raise NotSaid(
            f"{typed_name(name)}: “{text}” names no piece; write it like “neckline of front”"
        )
    return {"edge": edge.removeprefix("the "), "piece": piece.removeprefix("the ")}


def _by_name(name: str, sort: Any, text: str, hearing: Hearing) -> dict[str, Any]:
    """Read one thing and what is said of it: "waist line: dart 60%, seams 40%"."""
    (first, *rest), sorts = [f.name for f in fields(sort)], get_type_hints(sort)
    begun, _, said = text.partition(":")
    read: dict[str, Any] = {first: _one(first, sorts[first], begun.strip(), hearing)}
    for part in filter(None, map(str.strip, said.split(","))):
        word, _, value = part.partition(" ")
        field = next((f for f in rest if typed_name(f) == word.lower()), None)
        if field is None or not value:
            known = ", ".join(typed_name(f) for f in rest)
            raise NotSaid(
                f"{typed_name(name)}: “{part}” is not understood; after the colon say one of "
                f"{known}, each with its value"
            )
        read[field] = _one(field, sorts[field], value.strip(), hearing)
    return read


def _example(amounts: list[str], on: str | None) -> str:
    much = ("5mm at " if amounts[0].endswith("_mm") else "50% at ") if amounts else ""
    where = {"piece": " on front", "seam": " on side"}.get(on or "", "")
    return f"“{much}4cm from side waist{where}”"
