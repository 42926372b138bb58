"""The one place where what goes wrong becomes a sentence and an exit status."""

from pathlib import Path
from typing import Any

import pytest

from tracker.cli import client
from tracker.errors import TrackerError


def _breaks_with(monkeypatch: pytest.MonkeyPatch, fault: BaseException) -> None:
    def broken(*_: object) -> None:
        raise fault

    monkeypatch.setattr(client, "opened", broken)


@pytest.mark.parametrize(
    ("fault", "status", "sentence"),
    [
        (TrackerError("it does not fit here"), 1, "It does not fit here.\n"),
        (KeyboardInterrupt(), 130, ""),
        (BrokenPipeError(), 1, ""),
        (PermissionError(13, "Permission denied", "x.html"), 1, "x.html: permission denied.\n"),
    ],
)
def test_a_fault_has_its_status_and_its_sentence(
    fault: BaseException, status: int, sentence: str, monkeypatch: pytest.MonkeyPatch, tracker: Any
) -> None:
    _breaks_with(monkeypatch, fault)
    monkeypatch.setattr("tracker.cli.run._hush", lambda: None)
    said = tracker("client", "card")
    assert (said.status, said.err) == (status, sentence)


def test_an_error_may_own_another_status(monkeypatch: pytest.MonkeyPatch, tracker: Any) -> None:
    class TypedWrong(TrackerError):
        exit_code = 2

    _breaks_with(monkeypatch, TypedWrong("no such word"))
    assert tracker("client", "card").status == 2


def test_a_fault_of_the_program_is_owned_up_to_without_a_traceback(
    monkeypatch: pytest.MonkeyPatch, tracker: Any
) -> None:
    _breaks_with(monkeypatch, ZeroDivisionError("by nothing"))
    said = tracker("client", "card")
    assert said.status == 1
    assert "a fault of the program" in said.err
    assert "by nothing" in said.err


def test_the_details_are_there_for_those_who_ask(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from tracker.cli.run import main

    _breaks_with(monkeypatch, ZeroDivisionError("by nothing"))
    monkeypatch.setenv("TRACKER_DEBUG", "1")
    assert main(["client", "card"]) == 1
    assert "Traceback" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (["cliant"], "There is no command “cliant”. Did you mean client?"),
        (["client", "lst"], "No such command 'lst'. Did you mean 'list'?"),
        (["client", "new"], "Missing argument 'CLIENT'."),
        (["client", "list", "--jsn"], "No such option: --jsn"),
        (["measure", "show", "--session", "two"], "Invalid value for '--session'"),
        (["alter", "take-in", "8mm all along"], "Missing option '--seam'."),
    ],
)
def test_what_is_typed_wrong_is_told_in_a_line_or_two(
    typed: list[str], sentence: str, tracker: Any
) -> None:
    said = tracker(*typed)
    assert said.status == 2
    assert said.err.startswith(sentence)
    assert len(said.err.splitlines()) == 2
    assert "--help" in said.err
    assert said.out == ""


def test_the_store_is_the_one_said_or_the_environments_or_the_usual(
    studio: Path, monkeypatch: pytest.MonkeyPatch, tracker: Any
) -> None:
    other = studio.with_name("other.db")
    studio.rename(other)
    assert tracker("client", "list").status == 1
    assert "mara" in tracker("client", "list", "--store", str(other)).out
    assert "mara" in tracker("--store", str(other), "client", "list").out
    monkeypatch.setenv("TRACKER_STORE", str(other))
    assert "mara" in tracker("client", "list").out
