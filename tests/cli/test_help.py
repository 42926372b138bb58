"""Help that teaches: every command says what it does and shows how it is typed."""

import ast
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.main import get_command

from tracker.cli.app import ALSO, NOUNS, app

MOST_STATEMENTS = 15
CLI = Path(__file__).parents[2] / "tracker" / "cli"


def _commands() -> dict[tuple[str, ...], Any]:
    """Every command by the words that call it."""
    top = get_command(app)
    found: dict[tuple[str, ...], Any] = {}
    for noun in NOUNS:
        command = top.get_command(None, noun)
        verbs = getattr(command, "commands", None)
        if verbs is None:
            found[(noun,)] = command
        else:
            found |= {(noun, verb): c for verb, c in verbs.items() if not c.hidden}
    return found


COMMANDS = _commands()


def _examples(command: Any) -> list[str]:
    """The examples of a command's help; a line further in goes on with the one before."""
    lines: list[str] = []
    for paragraph in (command.help or "").split("\n\n"):
        if paragraph.strip().startswith("tracker "):
            for line in paragraph.strip().split("\n"):
                if line.strip().startswith("tracker "):
                    lines.append(line.strip())
                else:
                    lines[-1] = f"{lines[-1].removesuffix(chr(92))} {line.strip()}"
    return lines


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_command_shows_an_example_that_can_be_typed(words: tuple[str, ...]) -> None:
    examples = _examples(COMMANDS[words])
    assert examples
    for example in examples:
        typed = shlex.split(example.split(" > ")[0])
        assert typed[: len(words) + 1] == ["tracker", *words]
        # Reads the arguments as the command line would, without running anything.
        COMMANDS[words].make_context(words[-1], typed[len(words) + 1 :])


@pytest.mark.parametrize(
    "words", [(), *dict.fromkeys([*((n,) for n in NOUNS), *COMMANDS])], ids=" ".join
)
def test_help_fits_eighty_columns(words: tuple[str, ...], tracker: Any) -> None:
    said = tracker(*words, "--help")
    assert said.status == 0
    assert said.out.startswith("Usage: tracker")
    assert max(len(line) for line in said.out.splitlines()) <= 80
    assert "<str>" not in said.out


def test_the_nouns_are_listed_without_reading_their_files(tracker: Any) -> None:
    said = tracker("--help")
    for noun, line in NOUNS.items():
        assert noun in said.out
        assert line.split()[-1] in said.out


@pytest.mark.parametrize("word", ALSO)
def test_a_makers_own_word_calls_the_same_command(word: str, tracker: Any) -> None:
    assert tracker(word, "--help").status == 0


def test_alone_and_with_a_noun_alone_help_is_shown(tracker: Any) -> None:
    for words in ((), ("client",)):
        said = tracker(*words)
        assert said.status == 0
        assert "Commands:" in said.out


HEAVY = (
    "sqlmodel", "sqlalchemy", "shapely", "numpy", "scipy", "matplotlib", "alembic", "jinja2",
    "reportlab", "pydantic", "sqlite_utils", "rich", "tracker.pattern.pattern", "tracker.store",
)  # fmt: skip
QUICK = ("sqlmodel", "sqlalchemy", "shapely", "numpy", "matplotlib", "alembic", "sqlite_utils")


def _loaded(arguments: list[str], forbidden: tuple[str, ...], folder: Path) -> str:
    program = (
        "import sys; from tracker.cli.run import main; status = main(sys.argv[1:]); "
        f"print('LOADED', [m for m in {forbidden!r} if m in sys.modules], status)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        capture_output=True, text=True, check=True, cwd=folder,
        env={"PYTHONPATH": str(CLI.parents[1]), "PATH": ""},
    )  # fmt: skip
    return done.stdout.splitlines()[-1]


def test_help_loads_nothing_heavier_than_typer(tmp_path: Path) -> None:
    assert _loaded(["--help"], HEAVY, tmp_path) == "LOADED [] 0"


@pytest.mark.parametrize("noun", ["client", "alter", "print"])
def test_a_nouns_help_loads_no_database_and_no_drawing(noun: str, tmp_path: Path) -> None:
    # Typer itself reads pydantic as soon as it looks for a noun.
    heavy = tuple(m for m in HEAVY if m != "pydantic")
    assert _loaded([noun, "--help"], heavy, tmp_path) == "LOADED [] 0"


def test_listing_clients_loads_no_database_library(studio: Path) -> None:
    assert _loaded(["client", "list"], QUICK, studio.parent) == "LOADED [] 0"


def _bodies() -> list[tuple[str, ast.FunctionDef]]:
    return [
        (f"{path.stem}.{node.name}", node)
        for path in sorted(CLI.glob("*.py"))
        for node in ast.parse(path.read_text()).body
        if isinstance(node, ast.FunctionDef)
        and any("command(" in ast.unparse(d) for d in node.decorator_list)
    ]


BODIES = dict(_bodies())


@pytest.mark.parametrize("name", BODIES)
def test_a_command_reads_calls_and_shows_and_no_more(name: str) -> None:
    statements = [
        node
        for node in ast.walk(BODIES[name])
        if isinstance(node, ast.stmt) and not isinstance(node, ast.Import | ast.ImportFrom)
    ]
    # Less the function itself and its docstring.
    assert len(statements) - 2 <= MOST_STATEMENTS, name
