"""Tracing a pattern in from the command line, and writing one out."""

import json
from pathlib import Path
from typing import Any

import pytest
from studio import everything

PAPER = """units,cm
edges
piece,edge,from,to,length
front,side,underarm point,side waist,20.5
front,waist,side waist,,18
front,centre front,,,
front,armhole,,underarm point,
back,side,side waist,underarm point,20.7
back,armhole,,,
back,centre back,,,
back,waist,,side waist,19
seams
seam,sewn,piece,edge
side,first,front,side
side,second,back,side
"""


@pytest.fixture
def example(studio: Path, tracker: Any) -> Path:
    said = tracker("block", "trace", "--example", "old bodice.csv")
    assert said.status == 0
    return Path("old bodice.csv")


def test_the_example_is_traced_altered_checked_printed_and_worked_out_again(
    example: Path, tracker: Any
) -> None:
    said = tracker("block", "trace", "mara", str(example))
    assert said.status == 0
    assert "mara/old-bodice@1: Traced in from old bodice.csv: front and back" in said.out
    assert "DIFFERS" not in said.out
    assert not said.err
    altered = tracker(
        "alter", "take-in", "mara/old-bodice", "--seam", "side", "1cm at side waist",
        "nothing at underarm point", "--for", "it is loose",
    )  # fmt: skip
    assert altered.status == 0, altered.err
    assert tracker("check", "mara/old-bodice@2").status in (0, 1)
    assert tracker("print", "mara/old-bodice@2", "--out", "p.pdf").status == 0
    assert Path("p.pdf").read_bytes().startswith(b"%PDF")
    assert tracker("version", "again", "mara/old-bodice").status == 0
    assert tracker("report", "compare", "mara/old-bodice@1", "@2").status == 0
    table = tracker("block", "table", "mara/old-bodice@2")
    assert table.status == 0
    assert "front: armhole" in table.out
    why = tracker("why", "mara/old-bodice@2", "--seam", "side")
    assert "traced in" in why.out.lower()


def test_the_recipe_is_the_file_as_it_was_read(example: Path, tracker: Any, studio: Path) -> None:
    from tracker.store.engine import Store

    tracker("block", "trace", "mara", str(example), "--as", "kept")
    with Store.open(studio).reading() as books:
        root = books.version("mara", "kept", 1).root
    assert root is not None
    assert root.kind == "traced in"
    assert root.recipe["content"] == example.read_text("utf-8")
    assert root.recipe["file"] == example.name


def test_trying_stores_nothing_and_needs_no_client(
    example: Path, tracker: Any, studio: Path
) -> None:
    before = everything(studio)
    said = tracker("block", "trace", str(example), "--try")
    assert said.status == 0
    assert said.out.startswith("Not stored: Traced in from")
    assert everything(studio) == before
    told = tracker("block", "trace", str(example), "--try", "--json").json
    assert told["address"] is None
    assert {e["edge"] for e in told["edges"]} >= {"armhole", "neckline"}


def test_a_paper_pattern_is_entered_altered_in_words_and_marked_up(
    studio: Path, tracker: Any
) -> None:
    Path("tissue.csv").write_text(PAPER)
    said = tracker("block", "trace", "mara", "tissue.csv")
    assert said.status == 0, said.err
    assert "front and back by names and lengths, without outlines" in said.out.replace("\n", " ")
    assert "DIFFERS" in said.out
    altered = tracker(
        "alter", "take-in", "mara/tissue", "--seam", "side", "1cm at side waist",
        "nothing at underarm point", "--for", "it is loose",
    )  # fmt: skip
    assert altered.status == 0, altered.err
    drawn = tracker("version", "export", "mara/tissue@2", "--as", "dxf")
    assert drawn.status == 2
    assert "write it as csv or json" in drawn.err
    assert tracker("version", "export", "mara/tissue@2", "--as", "csv").status == 0
    assert tracker("block", "trace", "mara-tissue-2.csv", "--try").status == 0
    assert tracker("report", "marking-up", "mara/tissue@2", "--out", "m.html").status == 0
    assert "side waist" in Path("m.html").read_text()


@pytest.mark.parametrize("form", ["csv", "json", "svg", "dxf"])
def test_a_version_is_written_out_and_traced_in_again(
    form: str, studio: Path, tracker: Any
) -> None:
    said = tracker("version", "export", "mara/bodice@1", "--as", form)
    assert said.status == 0, said.err
    assert "mara-bodice-1." + form in said.out
    again = tracker("block", "trace", "mara", f"mara-bodice-1.{form}", "--as", "again", "--json")
    assert again.status == 0, again.err
    told = json.loads(again.out)
    assert all(s["agrees"] for s in told["seams"])
    # The standard behind DXF keeps no seams.
    assert bool(told["seams"]) == (form != "dxf")
    twice = tracker("version", "export", "mara/bodice@1", "--as", form)
    assert twice.status == 1
    assert "exists already" in twice.err


@pytest.mark.parametrize(
    ("typed", "status", "says"),
    [
        (("block", "trace"), 2, "name the client and the file"),
        (("block", "trace", "mara", "a", "b"), 2, "name the client and the file"),
        (("block", "trace", "mara", "nowhere.csv"), 2, "no file nowhere.csv"),
        (("block", "trace", "mara", "."), 2, "is a folder"),
        (("block", "trace", "maro", "bad.csv"), 1, "Did you mean mara?"),
        (("block", "trace", "bad.csv"), 2, "bad.csv, line 3: x: “abc” is not a length"),
        (("block", "trace", "bad.csv", "--as", "bodice"), 1, "called bodice already"),
        (("block", "trace", "bad.csv", "--as", "a b"), 2, "cannot be a pattern's name"),
        (("block", "trace", "--example", "bad.csv"), 1, "exists already"),
        (("version", "export", "mara/bodice", "--as", "swg"), 2, "Did you mean svg?"),
        (("version", "export", "mara/bodice@7"), 1, "7"),
    ],
)
def test_what_is_typed_wrong_is_told_and_nothing_is_stored(
    typed: tuple[str, ...], status: int, says: str, studio: Path, tracker: Any
) -> None:
    Path("bad.csv").write_text("units,cm\npiece,edge,x,y\nfront,side,abc,2\n")
    before = everything(studio)
    said = tracker(*typed)
    assert said.status == status, said.err
    assert says.lower() in said.err.replace("\n", " ").lower()
    assert everything(studio) == before


def test_the_layout_is_told(tracker: Any) -> None:
    said = tracker("block", "trace", "--layout")
    assert said.status == 0
    for word in ("units,cm", "Points: the outline", "Seams: each side", "stand back", "(needed)"):
        assert word in said.out


def test_a_sheet_to_note_points_on_is_written(studio: Path, tracker: Any) -> None:
    said = tracker("report", "tracing-sheet", "--piece", "front")
    assert said.status == 0
    assert Path("tracing-sheet.html").read_text().startswith("<!doctype html>")
    said = tracker("report", "tracing-sheet", "--client", "maro")
    assert said.status == 1
    assert "Did you mean mara?" in said.err
