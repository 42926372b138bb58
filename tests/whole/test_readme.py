"""The README shows what the program prints; `TRACKER_README=write` writes it afresh."""

import contextlib
import datetime as dt
import io
import os
import re
import shlex
from pathlib import Path

import pytest

from tracker.cli.clock import as_if_on
from tracker.cli.run import main

README = Path(__file__).parents[2] / "README.md"
CONSOLE = re.compile(r"```console\n(.*?)```", re.DOTALL)
#: Tables longer than this are cut in the README.
MOST_LINES = 14


def printed(command: str) -> str:
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out):
        main(shlex.split(command.removeprefix("$ tracker ")))
    lines = [line.rstrip() for line in out.getvalue().strip("\n").splitlines()]
    if len(lines) > MOST_LINES:
        lines = [*lines[: MOST_LINES - 3], "…", *lines[-2:]]
    return "".join(f"{line}\n" for line in lines)


def played(block: re.Match[str]) -> str:
    commands = [line for line in block[1].splitlines() if line.startswith("$ ")]
    return "```console\n" + "".join(f"{c}\n{printed(c)}" for c in commands) + "```"


def test_what_the_readme_shows_is_what_the_program_prints(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("TRACKER_STORE", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    text = README.read_text(encoding="utf-8")
    with as_if_on(dt.date(2026, 3, 2)):
        fresh = CONSOLE.sub(played, text)
    if os.environ.get("TRACKER_README") == "write":
        README.write_text(fresh, encoding="utf-8")
    assert fresh == text


def test_the_first_two_fenced_blocks_are_the_demo_and_the_tests() -> None:
    blocks = re.findall(r"```\w*\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    demo, tests = blocks[0].strip(), blocks[1].strip()
    assert "\n" not in demo
    assert "\n" not in tests
    assert demo.endswith("tracker demo demo-studio")
    assert tests.endswith("-m pytest")
    assert demo.startswith("python3 -m venv")
    assert tests.startswith("python3 -m venv")


def test_every_picture_the_readme_shows_is_there_and_small() -> None:
    text = README.read_text(encoding="utf-8")
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", text)
    assert pictures
    for name in pictures:
        assert (README.parent / name).stat().st_size < 80_000
