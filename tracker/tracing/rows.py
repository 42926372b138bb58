"""Rows of a tracing's tables, each with the line it stands on; CSV into rows."""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from tracker.errors import TrackerError, nearest_names
from tracker.tracing.faults import Faults
from tracker.tracing.layout import TABLES, UNITS, Table
from tracker.units import read_length

_HEADING = re.compile(r"(?P<name>.*?)\s*(?:\((?P<shut>[a-z]+)\)|\b(?P<bare>mm|cm|in|inch|inches))?")


@dataclass(frozen=True, slots=True)
class Row:
    """One row.

    Attributes:
        table: the table's name.
        line: the line of the file.
        cells: what stands under each heading; empty cells are left out.
    """

    table: str
    line: int
    cells: dict[str, str]

    def text(self, name: str, otherwise: str = "") -> str:
        """Return a cell's words."""
        return self.cells.get(name, otherwise)


@dataclass(slots=True)
class Rows:
    """All rows of a file.

    Attributes:
        rows: in the order of the file.
        unit: "mm", "cm" or "in"; "" where none was named.
        unit_line: where it was named.
    """

    rows: list[Row] = field(default_factory=list)
    unit: str = ""
    unit_line: int = 0

    def of(self, table: str) -> list[Row]:
        """Return the rows of one table."""
        return [row for row in self.rows if row.table == table]

    def measure_in(self, words: str, line: int, faults: Faults) -> None:
        """Take down the unit; two that differ are a fault."""
        unit = UNITS.get(words.strip().lower().rstrip("."))
        if unit is None:
            faults.tell(line, f"“{words}” is not a unit to trace in; it is mm, cm or inch")
        elif self.unit and unit != self.unit:
            faults.tell(
                line,
                f"this is in {unit}, but line {self.unit_line} says {self.unit}; name one unit, "
                "and write another beside its number, such as 3 1/8 in",
            )
        else:
            self.unit, self.unit_line = unit, line

    def length(self, row: Row, name: str, faults: Faults) -> float | None:
        """Return a cell as millimetres; nothing where it is empty or no length, which is told."""
        text = row.text(name)
        if not text:
            return None
        bare = not re.search(r"[a-zA-Z\"'″′”’]", text)
        try:
            return read_length(f"{text} {self.unit or 'mm'}" if bare else text, allow_negative=True)
        except TrackerError as fault:
            faults.tell(row.line, f"{name}: {fault.sentence}")
            return None


def rows_of_csv(text: str, faults: Faults, first_line: int = 1) -> Rows:
    """Read the tables of a CSV, parted by commas, semicolons or tabs.

    Args:
        text: the file.
        faults: what cannot be read is told here.
        first_line: the line of the file the text begins on.
    """
    out = Rows()
    table: Table | None = None
    headings: list[str] | None = None
    for line, cells in _lines(text, first_line, faults):
        first = cells[0].lower()
        filled = [c for c in cells if c]
        if first in ("unit", "units") and len(filled) <= 2:
            out.measure_in(" ".join(filled[1:2]), line, faults)
        elif len(filled) == 1 and first in TABLES:
            table, headings = TABLES[first], None
        elif table is None or headings is None:
            table = table or _untitled(cells, line, faults)
            if table is None:
                return out
            headings = _headings(table, cells, line, out, faults)
        else:
            _row(table, headings, cells, line, out, faults)
    return out


def _untitled(cells: list[str], line: int, faults: Faults) -> Table | None:
    """The table of points, where a file begins with its headings."""
    named = {c.lower().partition("(")[0].split(" ")[0] for c in cells}
    if {"piece", "edge"} <= named:
        return TABLES["points"]
    shown = " ".join(c for c in cells if c)[:40]
    near = nearest_names(cells[0], list(TABLES), 1)
    faults.tell(
        line,
        f"“{shown}” is neither the name of a table nor the headings of points; begin with "
        f"units,cm and then points on a line of its own.{near}",
    )
    return None


def _lines(text: str, first_line: int, faults: Faults) -> Iterator[tuple[int, list[str]]]:
    delimiter = _delimiter(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    line = 0
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as fault:
            faults.tell(first_line + reader.line_num - 1, f"this is no row of a table ({fault})")
            return
        at, line = line, reader.line_num
        cells = [" ".join(c.split()) for c in cells]
        if any(cells) and not cells[0].startswith("#"):
            yield first_line + at, cells


def _delimiter(text: str) -> str:
    """What parts the cells: seen in the first line that has any of it, which holds no numbers."""
    for line in text.splitlines():
        if line.lstrip().startswith(("#", '"#')) or not line.strip():
            continue
        for mark in (";", "\t", ","):
            if mark in line:
                return mark
    return ","


def _headings(table: Table, cells: list[str], line: int, out: Rows, faults: Faults) -> list[str]:
    headings = []
    for cell in cells:
        name = cell.lower().replace("_", " ")
        found = _HEADING.fullmatch(name)
        column = table.column(name)
        if column is None and found and (unit := found["shut"] or found["bare"]):
            column = table.column(found["name"])
            if column is not None and column.is_length:
                out.measure_in(unit, line, faults)
        if column is None and name:
            known = [c.name for c in table.columns]
            faults.tell(
                line,
                f"the table of {table.name} has no column “{cell}”; it has {', '.join(known)}."
                f"{nearest_names(name, known, 1)}",
            )
        elif column is not None and column.name in headings:
            faults.tell(line, f"the column “{column.name}” is there twice; leave one out")
        headings.append(column.name if column else "")
    for column in table.columns:
        if column.needed and column.name not in headings:
            faults.tell(
                line, f"the table of {table.name} lacks its column “{column.name}”: {column.says}"
            )
    return headings


def _row(
    table: Table, headings: list[str], cells: list[str], line: int, out: Rows, faults: Faults
) -> None:
    over = [c for c in cells[len(headings) :] if c]
    if over:
        faults.tell(
            line,
            f"“{over[0]}” stands under no heading; put quotation marks round words with a comma",
        )
        return
    filled = {h: c for h, c in zip(headings, cells, strict=False) if h and c}
    add_row(table, filled, line, out, faults)


def add_row(table: Table, cells: dict[str, str], line: int, out: Rows, faults: Faults) -> None:
    """Take a row down, or tell what it lacks."""
    lacks = [c for c in table.columns if c.needed and c.name not in cells]
    for column in lacks:
        faults.tell(line, f"no {column.name} is given here: {column.says}")
    if not lacks:
        out.rows.append(Row(table.name, line, cells))
