"""A kind of step described: each parameter with its meaning, taken from the kind itself.

What a parameter means is written once, where the kind is: under ``Attributes`` in its docstring.
"""

import inspect
import re
from dataclasses import MISSING, Field, dataclass, fields
from typing import Any, get_type_hints

from tracker.alterations.kind import Kind

_NAMED = re.compile(r"^    (\w+): (.*)$")


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter of a kind.

    Attributes:
        field: its name in the record.
        means: what it is, in words.
        sort: the sort of its value.
        needed: it must be said.
        usual: its value where it is not said.
    """

    field: str
    means: str
    sort: Any
    needed: bool
    usual: Any


def parameters_of(kind: type[Kind]) -> tuple[Parameter, ...]:
    """Return a kind's parameters, those that must be said first, else in their order."""
    means, sorts = meanings(kind), get_type_hints(kind)
    found = [
        Parameter(f.name, means.get(f.name, ""), sorts[f.name], is_needed(f), f.default)
        for f in fields(kind)
    ]
    return tuple(sorted(found, key=lambda p: not p.needed))


def is_needed(field: Field[Any]) -> bool:
    """Tell whether a parameter has no value of its own."""
    return field.default is MISSING and field.default_factory is MISSING


def meanings(thing: type) -> dict[str, str]:
    """Return what each attribute of a class is said to be, its parents' where it is silent."""
    found: dict[str, str] = {}
    for one in reversed(thing.__mro__):
        if one.__doc__:
            found |= _attributes(inspect.cleandoc(one.__doc__))
    return found


def _attributes(docstring: str) -> dict[str, str]:
    told, name = dict[str, str](), ""
    _, _, listed = docstring.partition("\nAttributes:\n")
    for line in listed.split("\n"):
        begun = _NAMED.match(line)
        if begun:
            name = begun[1]
            told[name] = begun[2]
        elif line.startswith("        ") and name:
            told[name] += " " + line.strip()
        else:
            break
    return told


def caption(kind: type[Kind]) -> str:
    """Return what the kind's example shows, in a line."""
    return inspect.getdoc(kind.example) or ""
