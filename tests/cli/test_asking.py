"""Unusual values are asked about at a terminal, and only there."""

import csv
import sys
from pathlib import Path
from typing import Any

import pytest
import typer
from studio import everything

from tracker.store.engine import Store


@pytest.mark.parametrize(("answer", "sessions"), [(True, 2), (False, 1)])
def test_at_a_terminal_an_unusual_value_is_asked_about(
    answer: bool, sessions: int, studio: Path, tracker: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def confirm(question: str) -> bool:
        asked.append(question)
        return answer

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(typer, "confirm", confirm)
    said = tracker("measure", "new", "bust=188", "waist=70")
    assert said.status == (0 if answer else 1)
    assert len(asked) == 1
    assert asked[0].startswith("Bust girth 1880 mm (74 in) is outside what is usual")
    with Store.open(studio).reading() as books:
        assert len(books.sessions("mara")) == sessions


def test_measurements_go_out_as_a_table_and_come_back(
    studio: Path, tmp_path: Path, tracker: Any
) -> None:
    tracker("measure", "export", "--out", "mara.csv")
    rows = list(csv.DictReader((tmp_path / "mara.csv").read_text().splitlines()))
    assert [(r["measurement"], float(r["value"])) for r in rows][:2] == [
        ("bust-girth", 880.0), ("bust-girth", 884.0)
    ]  # fmt: skip
    assert tracker("measure", "export", "--json").json[0]["measurement"] == "bust-girth"
    tracker("client", "new", "odile", "Odile Varga")
    # The same session cannot be in the store twice.
    again = tracker("measure", "import", "mara.csv", "--client", "odile")
    assert again.status == 1
    (tmp_path / "odile.csv").write_text(
        "date;measurement;value\n2026-03-01;bust;91,5\n2026-03-02;waist;70\n"
    )
    said = tracker("measure", "import", "odile.csv", "--client", "odile")
    assert said.status == 0, said.err
    assert "91.5 cm" in said.out
    with Store.open(studio).reading() as books:
        assert [str(s.on) for s in books.sessions("odile")] == ["2026-03-01", "2026-03-02"]


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ("date,measurement,value\n2026-03-01,bust,88\n2026-03-02,bust,880\n", "outside what"),
        ("date,measurement,value\n2026-03-01,bust,88\n2026-04-02,bust,88\n", "yet to come"),
        ("date,measurement,value\n2026-03-01,bust,88\n2026-03-02,bost,88\n", "Row 2 of this table"),
        ("day,what\n1,2\n", "no column 'date'"),
        ("", "table"),
    ],
)
def test_a_table_with_a_fault_is_not_half_stored(
    table: str, sentence: str, studio: Path, tmp_path: Path, tracker: Any
) -> None:
    (tmp_path / "t.csv").write_text(table)
    before = everything(studio)
    said = tracker("measure", "import", "t.csv")
    assert said.status in (1, 2)
    assert sentence in said.err
    assert everything(studio) == before
