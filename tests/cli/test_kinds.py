"""Every kind is explained as it is typed, and what its page says can be typed runs."""

import shlex
from pathlib import Path
from typing import Any

import pytest

from tracker.alterations.kind import kinds
from tracker.history.version import Address, Root, first_version
from tracker.pattern.canonical import pattern_digest
from tracker.store.engine import Store
from tracker.tasks.clients import new_client
from tracker.tasks.kind_pages import KindHelp, explain

from studio import DRAWN  # isort: skip

WORDS = tuple(kinds())


@pytest.fixture(scope="module")
def explained() -> dict[str, KindHelp]:
    return {word: explain(word) for word in WORDS}


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory, explained: dict[str, KindHelp]) -> Path:
    """A store with every pattern the examples are shown on."""
    path = tmp_path_factory.mktemp("shelf") / "studio.db"
    store = Store.create(path)
    new_client(store, "nobody", "Nobody Atall")
    patterns = {
        pattern_digest(told.shown.before)[:8]: told.shown.before
        for told in explained.values()
        if told.shown
    }
    with store.writing() as books:
        for name, pattern in patterns.items():
            at = Address("nobody", f"p{name}", 1)
            books.add_version(first_version(at, Root("drawn", 1, {}), pattern, "drawn", DRAWN))
    return path


@pytest.mark.parametrize("word", WORDS)
def test_the_example_of_its_page_runs_and_says_what_the_page_says(
    word: str, tracker: Any, shelf: Path, explained: dict[str, KindHelp]
) -> None:
    shown = explained[word].shown
    if shown is None or not shown.command:
        pytest.skip("nobody types it")
    typed = shlex.split(shown.command.replace("\\\n", " "))[1:]
    version = f"nobody/p{pattern_digest(shown.before)[:8]}"
    said = tracker(*typed, "--from", version, "--try", "--json", "--store", str(shelf))
    assert said.status == 0, said.err
    [step] = said.json["steps"]
    assert step["sentence"] == shown.sentence
    assert step["parameters"] == shown.kind.parameters()


@pytest.mark.parametrize("word", WORDS)
def test_a_kind_is_explained_in_eighty_columns(word: str, tracker: Any) -> None:
    said = tracker("alter", "kinds", word)
    assert said.status == 0
    assert max(map(len, said.out.splitlines())) <= 80
    assert "_mm" not in said.out
    assert not Path("studio.db").exists()


def test_the_json_of_a_kind_tells_the_same(tracker: Any) -> None:
    told = tracker("alter", "kinds", "move a dart", "--json").json
    assert told["parameters"][0]["name"] == "piece"
    assert told["example"]["command"].startswith('tracker alter make "move a dart"')
    assert told["example"]["parameters"]["by_mm"] == 15.0


@pytest.mark.parametrize(
    ("seen", "kind"),
    [("sway back", "fold out"), ("round back", "slash and spread"), ("Dart", "turn a dart"),
     ("forward shoulder", "shift a seam"), ("hem", "level an edge")],
)  # fmt: skip
def test_a_kind_is_found_by_what_is_seen(seen: str, kind: str, tracker: Any) -> None:
    said = tracker("alter", "kinds", seen, "--json")
    assert kind in [row["word"] for row in said.json]


def test_words_said_together_are_looked_for_together_first(tracker: Any) -> None:
    assert [r["word"] for r in tracker("alter", "kinds", "round back", "--json").json] == [
        "slash and spread"
    ]
    assert tracker("alter", "kinds", "back round", "--json").json


def test_what_no_kind_speaks_of_is_told_so(tracker: Any) -> None:
    said = tracker("alter", "kinds", "move a drat")
    assert said.status != 0
    assert "move a dart" in said.err


def test_pages_are_written_and_nothing_else_is_written_over(tracker: Any) -> None:
    assert tracker("alter", "kinds", "move a dart", "--page", "dart.html").status == 0
    assert Path("dart.html").read_text().startswith("<!doctype html>")
    assert tracker("alter", "kinds", "move a dart", "--page", "dart.html").status == 0
    Path("mine.txt").write_text("do not lose me")
    said = tracker("alter", "kinds", "move a dart", "--page", "mine.txt")
    assert said.status != 0
    assert Path("mine.txt").read_text() == "do not lose me"
    said = tracker("alter", "kinds", "--pages", "mine.txt")
    assert "is a file" in said.err


def test_a_page_of_no_kind_or_pages_of_one_are_asked_again(tracker: Any) -> None:
    for words in (["--page", "x.html"], ["move a dart", "--pages", "x"]):
        said = tracker("alter", "kinds", *words)
        assert said.status == 2
        assert "--pages FOLDER" in said.err
    assert not list(Path().iterdir())
