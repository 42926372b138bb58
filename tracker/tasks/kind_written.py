"""A step written as it is typed: the other way round from ``typed_kind``.

Lengths are written in millimetres and centimetres, which every maker's unit reads alike.
"""

import shlex
from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from enum import StrEnum
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from tracker.alterations.described import Parameter, parameters_of
from tracker.alterations.kind import Kind
from tracker.tasks.typed_kind import typed_name

#: What stands for a word the pattern decides.
_ANY = "…"
#: Where a place of an example lies.
_SOMEWHERE = {
    "corner": "side waist", "distance_mm": 40.0, "piece": "front", "seam": "side",
    "edge": "neckline", "line": "waist line",
}  # fmt: skip


def written(kind: Kind) -> tuple[tuple[str, str], ...]:
    """Return each parameter that is not as usual, as it is typed; several come several times."""
    sorts = get_type_hints(type(kind))
    said: list[tuple[str, str]] = []
    for parameter in parameters_of(type(kind)):
        value = getattr(kind, parameter.field)
        if not parameter.needed and value == parameter.usual:
            continue
        name, sort = typed_name(parameter.field), sorts[parameter.field]
        entries = value if get_origin(sort) is tuple else (value,)
        said += [(name, value_words(parameter.field, entry)) for entry in entries]
    return tuple(said)


def command_words(kind: Kind) -> tuple[str, ...]:
    """Return the words that make a step: ``tracker alter make "take in a seam" seam=side …``."""
    pairs = (f"{name}={text}" for name, text in written(kind))
    return ("tracker", "alter", "make", kind.word, *pairs)


def command_line(words: Iterable[str], width: int = 78) -> str:
    """Write words as a line to type, gone on with on further lines where it is long."""
    lines = [""]
    for word in words:
        quoted = _quoted(word)
        if lines[-1].strip() and len(lines[-1]) + 1 + len(quoted) > width - 2:
            lines[-1] += " \\"
            lines.append(f"  {quoted}")
        else:
            lines[-1] = f"{lines[-1]} {quoted}" if lines[-1] else quoted
    return "\n".join(lines)


def value_words(field: str, value: Any) -> str:
    """Write a value as it is typed."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) or (isinstance(value, int) and field.endswith(("_mm", "_deg"))):
        return length_words(value) if field.endswith("_mm") else f"{value:.10g}"
    if is_dataclass(value):
        return _entry_words(value)
    return str(value)


def length_words(mm: float) -> str:
    """Write a length exactly: 8mm, 12.5mm, 12cm."""
    if abs(mm) >= 100 and mm % 10 == 0:
        return f"{mm / 10:.10g}cm"
    return f"{mm:.10g}mm"


def _entry_words(entry: Any) -> str:
    """Write one of several: "10mm at 4cm from side waist", "50% at neck point on front"."""
    values = {f.name: getattr(entry, f.name) for f in fields(entry)}
    on = next((values[w] for w in ("piece", "seam", "edge") if values.get(w)), None)
    amounts = [w for w in values if w not in ("corner", "distance_mm", "piece", "seam", "edge")]
    if "corner" not in values or len(amounts) > 1:
        return _named_words(values)
    distance = values.get("distance_mm", 0.0)
    place = f"{length_words(distance)} from {values['corner']}" if distance else values["corner"]
    place += f" on {on}" if on else ""
    if not amounts:
        return place
    amount = values[amounts[0]]
    if amounts[0].endswith("_mm"):
        return f"{length_words(amount) if amount else 'nothing'} at {place}"
    return f"{amount * 100:.10g}% at {place}"


def _named_words(values: dict[str, Any]) -> str:
    """Write "neckline of front", or "waist line: dart 0.6, seams 0.4"."""
    if set(values) == {"piece", "edge"}:
        return f"{values['edge']} of {values['piece']}"
    (_, first), *rest = values.items()
    said = [f"{typed_name(n)} {value_words(n, v)}" for n, v in rest if v]
    return f"{value_words('', first)}{': ' if said else ''}{', '.join(said)}"


def usual_words(parameter: Parameter) -> str:
    """Write what a parameter is when it is not said; nothing where that is nothing."""
    if parameter.needed or parameter.usual in (None, "", ()):
        return ""
    return value_words(parameter.field, parameter.usual)


def is_several(parameter: Parameter) -> bool:
    """Tell whether a parameter may be said several times."""
    return get_origin(parameter.sort) is tuple


def choices_of(parameter: Parameter) -> tuple[str, ...]:
    """Return the words a parameter may be, where it is one of a few."""
    sort = _plain_sort(parameter.sort)
    if sort is bool:
        return ("yes", "no")
    if isinstance(sort, type) and issubclass(sort, StrEnum):
        words = tuple(str(word) for word in sort)
        return tuple(w for w in words if w != "centre") if parameter.field == "side" else words
    return ()


def typed_like(parameter: Parameter, example: Kind | None = None) -> str:
    """Show how a parameter is typed: by=10mm, "amounts=5mm at 4cm from side waist"."""
    name, sort = typed_name(parameter.field), _plain_sort(parameter.sort)
    value = getattr(example, parameter.field, None)
    if value in (None, "", ()) or value == parameter.usual:
        value = _some(parameter, sort)
    words = [value_words(parameter.field, v) for v in value] if isinstance(value, tuple) else []
    said = max(words, key=lambda w: (not w.startswith("nothing"), len(w)), default="")
    return _quoted(f"{name}={said or value_words(parameter.field, value)}")


def _some(parameter: Parameter, sort: Any) -> Any:
    """A value such as a person might type, other than the usual one."""
    choices = [w for w in choices_of(parameter) if w != value_words("", parameter.usual)]
    if choices:
        return choices[0]
    if get_origin(sort) is tuple:
        entry = get_args(sort)[0]
        return (_some_entry(entry),) if is_dataclass(entry) else (_ANY,)
    if sort is float:
        usual = parameter.usual if isinstance(parameter.usual, int | float) else 0.0
        return float(f"{usual * 0.8:.2g}") or 10.0  # another than the usual one
    return 2 if sort is int else parameter.usual or _ANY


def _some_entry(entry: Any) -> Any:
    sorts = get_type_hints(entry)
    given = {
        name: _SOMEWHERE.get(name, 5.0 if name.endswith("_mm") else 0.5 if sort is float else _ANY)
        for name, sort in sorts.items()
    }
    return entry(**given)


def _plain_sort(sort: Any) -> Any:
    if get_origin(sort) is UnionType:
        return next(s for s in get_args(sort) if s is not NoneType)
    return sort


def _quoted(word: str) -> str:
    """Quote a word for the shell, in double quotes where they will do."""
    if shlex.quote(word) == word or (word.isascii() and word.replace("=", "").isalnum()):
        return word
    if any(c in word for c in '"$`\\!'):
        return shlex.quote(word)
    return f'"{word}"'
