"""Measurements as a table, out and in."""

import csv
import datetime as dt
import io
import json

import pytest
from stores.studio import SPRING, WINTER

from tracker.store.engine import Store
from tracker.store.measurements import (
    NotATable,
    measurement_rows,
    read_measurements,
    write_measurements,
)
from tracker.store.shelf import UnknownClient
from tracker.units import Unit


def test_every_repeat_is_a_row(store: Store) -> None:
    with store.reading() as books:
        rows = measurement_rows(books, "mara")
    assert [(r["date"], r["measurement"], r["side"], r["value"], r["unit"]) for r in rows] == [
        ("2025-01-10", "bust-girth", "both", 881.0, "mm"),
        ("2025-01-10", "bust-girth", "both", 884.5, "mm"),
        ("2025-01-10", "bust-girth", "both", 882.5, "mm"),
        ("2025-01-10", "shoulder-length", "right", 121.0, "mm"),
        ("2025-01-10", "shoulder-length", "left", 124.0, "mm"),
        ("2025-01-10", "waist-girth", "both", 690.3, "mm"),
        ("2025-03-01", "waist-girth", "both", 742.0, "mm"),
    ]
    assert [r["estimated"] for r in rows] == [False] * 5 + [True, False]


@pytest.mark.parametrize("table_format", ["csv", "json"])
def test_a_table_written_is_read_back_the_same(store: Store, table_format: str) -> None:
    with store.reading() as books:
        text = write_measurements(books, "mara", table_format)
    assert read_measurements(text.encode()) == (("session-1", WINTER), ("session-2", SPRING))


def test_the_csv_is_what_rfc_4180_says(store: Store) -> None:
    # RFC 4180, section 2: lines end with CRLF (1); a heading of as many fields as the rows (3, 4);
    # fields with quotes or commas are quoted, a quote inside is doubled (6, 7).
    with store.reading() as books:
        text = write_measurements(books, "mara", "csv")
    lines = text.split("\r\n")
    assert lines[-1] == ""
    assert len(lines) == 1 + 7 + 1
    assert '"she said ""not so tight"", and laughed"' in lines[1]
    assert "\n" not in text.replace("\r\n", "")
    read = list(csv.DictReader(io.StringIO(text, newline="")))
    assert {len(row) for row in read} == {len(lines[0].split(","))}
    assert read[0]["note"] == WINTER.note


def test_a_client_without_measurements_has_an_empty_table(store: Store) -> None:
    with store.reading() as books:
        assert measurement_rows(books, "ilse") == []
        assert json.loads(write_measurements(books, "ilse", "json")) == []
        assert write_measurements(books, "ilse", "csv").startswith("date,by,")
        with pytest.raises(UnknownClient):
            measurement_rows(books, "ils")


#: Her own spreadsheet, as it may come: no more than date, measurement and value.
OWN = 'Date,Measurement,Value\n2024-05-01,bust girth,88\n2024-05-01,waist,"27 1/2 in"\n'


@pytest.mark.parametrize(
    ("content", "preferred", "bust_mm"),
    [
        (OWN.encode(), Unit.CM, 880.0),
        (OWN.encode(), Unit.INCH, 88 * 25.4),
        (b"\xef\xbb\xbf" + OWN.encode(), Unit.CM, 880.0),  # as spreadsheets mark their files
        (OWN.replace(",", ";").replace("88", "88,0").encode(), Unit.CM, 880.0),
        (OWN.replace(",", "\t").encode(), Unit.CM, 880.0),
        (
            json.dumps(
                [
                    {"date": "2024-05-01", "measurement": "bust girth", "value": 88},
                    {"date": "2024-05-01", "measurement": "waist", "value": 698.5, "unit": "mm"},
                ]
            ).encode(),
            Unit.CM,
            880.0,
        ),
    ],
    ids=["commas", "inches", "marked", "semicolons", "tabs", "json"],
)
def test_a_plain_table_of_her_own_is_read(content: bytes, preferred: Unit, bust_mm: float) -> None:
    ((session_id, session),) = read_measurements(content, preferred)
    assert session_id == ""
    assert session.on == dt.date(2024, 5, 1)
    assert session.value("bust-girth") == pytest.approx(bust_mm)
    assert session.value("waist-girth") == pytest.approx(698.5)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "has no rows"),
        (b"date,measurement,value\n", "has no rows"),
        (b"day,measurement,value\n2024-05-01,bust girth,88\n", "has no column 'date'"),
        (b"date,measurement,value\n2024-05-01,bust gurth,88\n", "row 1 .*Did you mean bust"),
        (
            b"date,measurement,value\n2024-05-01,bust,88\n2024-05-01,hip,x9\n",
            "row 2 .*not a length",
        ),
        (b"date,measurement,value\n1.5.2024,bust,88\n", "row 1 .*'1.5.2024' is not a date"),
        (b"date,measurement,side,value\n2024-05-01,bust,upper,88\n", "row 1 .*not a side"),
        (b"date,measurement,value\n2024-05-01,bust,-4\n", "row 1 "),
        (b"date,measurement,value\n2024-05-01,bust,88,9\n", "more cells than the heading"),
        (b"date,measurement,value,heel_mm\n2024-05-01,bust,88,high\n", "row 1 "),
        (b'[{"date": ', "cannot be read as CSV or JSON"),
        (b"[1, 2]", "row 1 of this table is not a row"),
        (b"\xff\xfe\x00", "cannot be read as CSV or JSON|has no rows|no column"),
    ],
)
def test_a_table_that_cannot_be_read_is_answered_with_the_row(
    content: bytes, sentence: str
) -> None:
    with pytest.raises(NotATable, match=sentence) as told:
        read_measurements(content)
    assert "\n" not in told.value.sentence
