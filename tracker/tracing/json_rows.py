"""JSON into rows: one object with units, and a list of objects for each table."""

import json
import re
from typing import Any

from tracker.errors import nearest_names
from tracker.tracing.faults import Faults
from tracker.tracing.layout import TABLES
from tracker.tracing.rows import Rows, add_row

_BLANK = re.compile(r"[ \t\r\n]*")
_BETWEEN = re.compile(r"[ \t\r\n,]*")


def rows_of_json(text: str, faults: Faults) -> Rows:
    """Read the tables of a JSON object, each row with the line its object begins on."""
    out = Rows()
    try:
        # The whole first: where it is no JSON the reader's own words say where.
        whole = json.loads(text, parse_constant=_no_number)
    except (ValueError, RecursionError) as fault:
        line = fault.lineno if isinstance(fault, json.JSONDecodeError) else 0
        why = fault.msg if isinstance(fault, json.JSONDecodeError) else str(fault)
        faults.tell(line, f"this is not JSON ({why[:80]})")
        return out
    if not isinstance(whole, dict):
        faults.tell(1, "this is JSON without tables; it is one object with “units” and “points”")
        return out
    tables: list[tuple[str, int]] = []
    for name, value, at in _members(text):
        line = _line(text, at)
        key = name.strip().lower().replace("_", " ")
        if key in ("unit", "units"):
            out.measure_in(str(value), line, faults)
        elif key in TABLES and isinstance(value, list):
            tables.append((key, at))
        elif key in TABLES:
            faults.tell(line, f"“{name}” is a list of objects, one for each row")
        elif key not in ("format", "note", "about"):
            faults.tell(
                line,
                f"there is no table “{name}”; there are {', '.join(TABLES)}."
                f"{nearest_names(key, list(TABLES), 1)}",
            )
    for key, at in tables:
        for value, place in _items(text, at):
            _row(key, value, _line(text, place), out, faults)
    return out


def _row(table: str, value: Any, line: int, out: Rows, faults: Faults) -> None:
    if not isinstance(value, dict):
        faults.tell(line, f"a row of {table} is an object with named cells")
        return
    cells = {}
    for name, cell in value.items():
        key = " ".join(name.lower().replace("_", " ").split())
        column = TABLES[table].column(key)
        if column is None:
            known = [c.name for c in TABLES[table].columns]
            faults.tell(
                line, f"{table} have no “{name}”; they have {', '.join(known)}."
                f"{nearest_names(key, known, 1)}",
            )  # fmt: skip
        elif isinstance(cell, bool | dict | list):
            faults.tell(line, f"{key} is a number or words, not {json.dumps(cell)[:30]}")
        elif isinstance(cell, float):
            cells[key] = f"{cell:.9f}".rstrip("0").rstrip(".")
        elif cell is not None and str(cell).strip():
            cells[key] = " ".join(str(cell).split())
    add_row(TABLES[table], cells, line, out, faults)


def _members(text: str) -> list[tuple[str, Any, int]]:
    """The members of the outermost object with where each value begins."""
    read = json.JSONDecoder().raw_decode
    out: list[tuple[str, Any, int]] = []
    at = text.index("{") + 1
    while True:
        at = _past(_BETWEEN, text, at)
        if text[at] == "}":
            return out
        name, at = read(text, at)
        at = _past(_BLANK, text, _past(_BLANK, text, at) + 1)  # the colon
        value, end = read(text, at)
        out.append((name, value, at))
        at = end


def _items(text: str, at: int) -> list[tuple[Any, int]]:
    """The items of a list with where each begins."""
    read = json.JSONDecoder().raw_decode
    out: list[tuple[Any, int]] = []
    at += 1
    while True:
        at = _past(_BETWEEN, text, at)
        if text[at] == "]":
            return out
        value, end = read(text, at)
        out.append((value, at))
        at = end


def _past(what: re.Pattern[str], text: str, at: int) -> int:
    found = what.match(text, at)
    return found.end() if found else at


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _no_number(word: str) -> Any:
    raise ValueError(f"{word} is not a number")
