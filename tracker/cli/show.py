"""Values to terminal text and to JSON; tables that fit 80 columns."""

import json
import sys
import textwrap
from collections.abc import Iterable, Sequence
from contextvars import ContextVar
from dataclasses import fields, is_dataclass
from typing import Any

#: Whether lengths told in millimetres are shown in inches: set when the store is opened.
INCHES: ContextVar[bool] = ContextVar("INCHES", default=False)

WIDTH = 80
_GAP = 2
_LEAST = 8


def say(text: str = "") -> None:
    """Print lines as they stand, such as a table's."""
    print(text)


def tell(sentence: str, indent: str = "") -> None:
    """Print one sentence, folded at 80 columns."""
    print(_folded(sentence, indent, indent))


def points(sentences: Iterable[str], mark: str = "- ") -> None:
    """Print sentences as a list, folded at 80 columns."""
    for sentence in sentences:
        print(_folded(sentence, mark, " " * len(mark)))


def _folded(sentence: str, first: str, after: str) -> str:
    return textwrap.fill(
        _in_her_unit(sentence), WIDTH, initial_indent=first, subsequent_indent=after,
        break_on_hyphens=False, break_long_words=False,
    )  # fmt: skip


def _in_her_unit(text: str) -> str:
    if not INCHES.get() or " mm" not in text:
        return text
    from tracker.units import in_inches

    return in_inches(text)


def counted(number: int, thing: str) -> str:
    """Say how many there are: 1 change, 2 changes."""
    return f"{number} {thing}{'' if number == 1 else 's'}"


def begun(sentence: str) -> str:
    """Begin a sentence with a capital; a file's name or an address stays as it is."""
    first = sentence.partition(" ")[0].rstrip(",:;")
    return f"{sentence[:1].upper()}{sentence[1:]}" if first.replace("-", "").isalpha() else sentence


def warn(sentences: Iterable[str]) -> None:
    """Print what should be looked at to standard error, so that it is seen beside any output."""
    for sentence in sentences:
        print(_folded(sentence, "Mind: ", " " * 6), file=sys.stderr)


def as_json(value: Any) -> None:
    """Print a value as JSON: dataclasses as objects, lengths in millimetres."""
    print(json.dumps(plain(value), indent=2, ensure_ascii=False))


def plain(value: Any) -> Any:
    """Return a value as what JSON knows."""
    if is_dataclass(value):
        names = [f.name for f in fields(value) if not f.name.startswith("_")]
        return {name: plain(getattr(value, name)) for name in names}
    if isinstance(value, dict):
        return {str(k): plain(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [plain(v) for v in value]
    if isinstance(value, bool | int | float) or value is None:
        return value
    return str(value)


def table(headings: Sequence[str], rows: Iterable[Sequence[Any]], right: str = "") -> str:
    """Return rows set in columns that together fit 80; long cells are folded.

    Args:
        headings: one for each column.
        rows: the cells; ``None`` is an empty cell.
        right: the letter ``r`` for each column set to the right, anything else for the left.
    """
    cells = [[_cell(v) for v in row] for row in rows]
    if not cells:
        return ""
    used = [i for i, h in enumerate(headings) if h or any(row[i] for row in cells)]
    if not used:
        return ""
    headings = [headings[i] for i in used]
    cells = [[row[i] for i in used] for row in cells]
    right = "".join(right[i : i + 1] or "l" for i in used)
    widths = _widths(headings, cells)
    lines = [_row(list(headings), widths, right), "  ".join("-" * w for w in widths)]
    lines += [_row(row, widths, right) for row in cells]
    return "\n".join(lines)


def _cell(value: Any) -> str:
    return "" if value is None else _in_her_unit(" ".join(str(value).split()))


def _widths(headings: Sequence[str], cells: list[list[str]]) -> list[int]:
    """Give every column what it wants, then shorten the widest until all fit."""
    widths = [max(len(h), *(len(row[i]) for row in cells)) for i, h in enumerate(headings)]
    room = WIDTH - _GAP * (len(widths) - 1)
    while sum(widths) > room:
        widest = widths.index(max(widths))
        if widths[widest] <= _LEAST:
            break
        widths[widest] -= 1
    return widths


def _row(row: Sequence[str], widths: list[int], right: str) -> str:
    folded = [
        textwrap.wrap(c, w, break_on_hyphens=False) or [""]
        for c, w in zip(row, widths, strict=True)
    ]
    lines = []
    for k in range(max(len(f) for f in folded)):
        parts = []
        for i, cell in enumerate(folded):
            text = cell[k] if k < len(cell) else ""
            to_right = right[i : i + 1] == "r"
            parts.append(text.rjust(widths[i]) if to_right else text.ljust(widths[i]))
        lines.append("  ".join(parts).rstrip())
    return "\n".join(lines)
