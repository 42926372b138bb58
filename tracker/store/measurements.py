"""Measurements as a table: CSV or JSON, for a spreadsheet and from one."""

import csv
import io
import json
from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any, Literal

from tracker.body.session import MeasuringSession, Reading
from tracker.body.vocabulary import checked_side, measurement
from tracker.errors import TrackerError, nearest_names
from tracker.store.books import Books
from tracker.units import Unit, read_angle, read_length

TableFormat = Literal["csv", "json"]

#: The columns, in order. A table brought in needs date, measurement and value; the rest may be
#: left out.
COLUMNS = (
    "date", "by", "wearing", "heel_mm", "kind", "reason", "reason_on", "note", "session",
    "measurement", "side", "value", "unit", "confirmed", "estimated",
)  # fmt: skip
_NEEDED = ("date", "measurement", "value")

_ROWS = """
SELECT s.held_on AS date, s.by_whom AS "by", s.wearing, s.heel_mm, s.kind, s.reason, s.reason_on,
  s.note, s.session_id AS session, r.measurement, r.side, one.value AS value, r.confirmed,
  r.estimated
FROM client c
JOIN measuring_session s ON s.client_id = c.id
JOIN reading r ON r.session_id = s.id
JOIN json_each(r.repeats) one
WHERE c.code = :code
ORDER BY s.held_on, s.id, r.position, one.key
"""


class NotATable(TrackerError):
    """A table of measurements that cannot be read."""

    exit_code = 2


class Semicolons(csv.excel):
    """What a spreadsheet writes where the comma is the decimal sign."""

    delimiter = ";"


def measurement_rows(books: Books, code: str) -> list[dict[str, Any]]:
    """Return each reading of a client as a row: one for every repeat, in mm or degrees.

    Raises:
        UnknownClient: no client has this code.
    """
    import sqlite_utils

    books.client(code)
    database = sqlite_utils.Database(books.driver, recursive_triggers=False)
    return [
        {name: _shown(name, row) for name in COLUMNS}
        for row in database.query(_ROWS, {"code": code})
    ]


def _shown(name: str, row: Mapping[str, Any]) -> Any:
    if name == "unit":
        return measurement(row["measurement"]).unit
    if name in ("confirmed", "estimated"):
        return bool(row[name])
    return row[name]


def write_measurements(books: Books, code: str, table_format: TableFormat) -> str:
    """Return a client's measurements as the text of a CSV or JSON file."""
    rows = measurement_rows(books, code)
    if table_format == "json":
        return json.dumps(rows, ensure_ascii=False, indent=1) + "\n"
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, lineterminator="\r\n")  # RFC 4180 ends lines so
    writer.writeheader()
    for row in rows:
        writer.writerow({k: _cell(v) for k, v in row.items()})
    return text.getvalue()


def _cell(value: Any) -> Any:
    if isinstance(value, bool):
        return "yes" if value else ""
    return value


def read_measurements(
    content: bytes, preferred: Unit = Unit.CM
) -> tuple[tuple[str, MeasuringSession], ...]:
    """Read sessions from the bytes of a CSV, tab-separated or JSON table.

    Rows of one session id, or of one date and measurer, make one session; several rows of one
    measurement are its repeats. A value without a unit, and without one in the ``unit`` column,
    is in the preferred one.

    Returns:
        Each session with its id, or "" where the table gives none; oldest first.

    Raises:
        NotATable: a row or a column cannot be read; the sentence says which.
    """
    rows = _rows_of(content)
    gathered: dict[tuple[str, str, str], list[tuple[int, dict[str, Any]]]] = {}
    for number, row in enumerate(rows, 1):
        key = (_text(row, "session"), _text(row, "date"), _text(row, "by"))
        gathered.setdefault(key, []).append((number, row))
    found = [(key[0], _session(some, preferred)) for key, some in gathered.items()]
    return tuple(sorted(found, key=lambda one: one[1].on))


def _rows_of(content: bytes) -> list[dict[str, Any]]:
    from sqlite_utils.utils import Format, RowError, rows_from_file

    start = content.lstrip(b"\xef\xbb\xbf \t\r\n")[:1]
    is_json = start in (b"[", b"{")
    heading = content.split(b"\n", 1)[0]
    dialect: type[csv.Dialect] = csv.excel
    if b"\t" in heading:
        dialect = csv.excel_tab
    elif heading.count(b";") > heading.count(b","):
        dialect = Semicolons
    try:
        read, _ = (
            rows_from_file(io.BytesIO(content), Format.JSON)
            if is_json
            else rows_from_file(io.BytesIO(content), Format.CSV, dialect=dialect)
        )
        rows: list[Any] = list(read)
    except RowError as fault:
        raise NotATable(f"a row of this table has more cells than the heading: {fault}") from fault
    except (ValueError, UnicodeDecodeError, csv.Error) as fault:
        raise NotATable(f"this table cannot be read as CSV or JSON: {fault}") from fault
    if not rows:
        raise NotATable(f"this table has no rows; give {', '.join(_NEEDED)} at least")
    for number, row in enumerate(rows, 1):
        if not isinstance(row, dict):
            raise NotATable(f"row {number} of this table is not a row with named columns")
    return [{str(k).strip().lower(): v for k, v in row.items()} for row in rows]


def _session(rows: Iterable[tuple[int, dict[str, Any]]], preferred: Unit) -> MeasuringSession:
    some = list(rows)
    number, head = some[0]
    _check_columns(head)
    repeats: dict[tuple[str, Any], list[float]] = {}
    confirmed: set[tuple[str, Any]] = set()
    estimated: set[tuple[str, Any]] = set()
    for number, row in some:
        try:
            entry = measurement(_text(row, "measurement"))
            said: Any = _text(row, "side", "both").lower()  # checked_side refuses what is none
            side: Any = checked_side(entry, said)
            value = _value(row, entry.unit == "deg", preferred)
        except TrackerError as fault:
            raise NotATable(f"row {number} of this table: {fault.sentence}") from fault
        key = (entry.key, side)
        repeats.setdefault(key, []).append(value)
        if _is_yes(row, "confirmed"):
            confirmed.add(key)
        if _is_yes(row, "estimated"):
            estimated.add(key)
    number, head = some[0]
    kind: Any = _text(head, "kind", "usual")  # the session refuses a word that is no kind
    try:
        return MeasuringSession(
            on=_day(head, "date"),
            by=_text(head, "by"),
            wearing=_text(head, "wearing"),
            heel_mm=float(_text(head, "heel_mm", "0")),
            kind=kind,
            reason=_text(head, "reason"),
            reason_on=_day(head, "reason_on") if _text(head, "reason_on") else None,
            note=_text(head, "note"),
            readings=tuple(
                Reading(
                    key=key, side=side, values=tuple(values),
                    confirmed=(key, side) in confirmed, estimated=(key, side) in estimated,
                )
                for (key, side), values in repeats.items()
            ),
        )  # fmt: skip
    except (TrackerError, ValueError) as fault:
        raise NotATable(f"row {number} of this table: {fault}") from fault


def _check_columns(row: Mapping[str, Any]) -> None:
    for name in _NEEDED:
        if name not in row:
            raise NotATable(
                f"this table has no column {name!r}; it needs {', '.join(_NEEDED)}."
                f"{nearest_names(name, list(row))}"
            )


def _value(row: Mapping[str, Any], is_angle: bool, preferred: Unit) -> float:
    text, unit = _text(row, "value"), _text(row, "unit")
    if is_angle:
        return read_angle(text)
    bare = text.replace(".", "").replace(",", "").isdigit()
    return read_length(f"{text} {unit}" if bare and unit else text, preferred)


def _text(row: Mapping[str, Any], name: str, otherwise: str = "") -> str:
    value = row.get(name)
    told = "" if value is None else str(value).strip()
    return told or otherwise


def _day(row: Mapping[str, Any], name: str) -> date:
    text = _text(row, name)
    try:
        return date.fromisoformat(text)
    except ValueError as fault:
        raise ValueError(f"{text!r} is not a date; write it like 2026-03-31") from fault


def _is_yes(row: Mapping[str, Any], name: str) -> bool:
    return _text(row, name).lower() in ("yes", "true", "1", "x")
