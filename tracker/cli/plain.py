"""Commands whose help is plain: what they do, an example as it is typed, the options."""

from collections.abc import Callable
from textwrap import dedent
from typing import Any, TypeVar

import typer
from typer.core import TyperCommand, TyperGroup

F = TypeVar("F", bound=Callable[..., Any])

#: What Typer calls a sort of value, and what a person does.
_WORDS = {"<str>": "TEXT", "<list[str]>": "TEXT", "<int>": "NUMBER", "<list[int]>": "NUMBER"}


class Command(TyperCommand):
    """A command; a paragraph that begins with ``tracker`` is an example, shown as it stands."""

    def collect_usage_pieces(self, ctx: Any) -> list[str]:
        """Return what is typed after its name; what must be said stands without brackets."""
        pieces = super().collect_usage_pieces(ctx)
        return [p.removesuffix("...") if "…" in p else p for p in map(_bare, pieces)]

    def format_help_text(self, ctx: Any, formatter: Any) -> None:
        """Write what it does, with its examples."""
        _paragraphs(self.help or "", formatter)

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Write its options, naming what each takes as a person would."""
        write_options(self, ctx, formatter)


class Noun(TyperGroup):
    """The commands of one noun."""

    def format_help_text(self, ctx: Any, formatter: Any) -> None:
        """Write what they are for."""
        _paragraphs(self.help or "", formatter)

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Write the commands; a noun has no options of its own."""
        self.format_commands(ctx, formatter)


def noun(says: str) -> typer.Typer:
    """Return a noun to hang commands on."""
    app = typer.Typer(
        cls=Noun, rich_markup_mode=None, add_completion=False, no_args_is_help=True, help=says
    )
    app.callback()(_nothing)
    return app


def _nothing() -> None:
    """Keep a noun with one command a noun."""


def verb() -> typer.Typer:
    """Return a place for one command that needs no noun."""
    return typer.Typer(rich_markup_mode=None, add_completion=False)


def command(app: typer.Typer, name: str, *also: str) -> Callable[[F], F]:
    """Hang a function on a noun as a command, under other words too."""

    def hung(function: F) -> F:
        app.command(name, cls=Command)(function)
        for word in also:
            app.command(word, cls=Command, hidden=True)(function)
        return function

    return hung


def _paragraphs(text: str, formatter: Any) -> None:
    for paragraph in text.split("\n\n"):
        formatter.write_paragraph()
        lines = paragraph.rstrip().split("\n")
        with formatter.indentation():
            if lines[0].strip().startswith("tracker "):
                for line in dedent("\n".join(lines)).split("\n"):
                    formatter.write(f"{' ' * (formatter.current_indent + 2)}{line}\n")
            else:
                formatter.write_text(" ".join(line.strip() for line in lines))


def write_options(command: TyperCommand | TyperGroup, ctx: Any, formatter: Any) -> None:
    """Write what a command takes, in a person's words."""
    words: dict[bool, list[tuple[str, str]]] = {True: [], False: []}
    for parameter in command.get_params(ctx):
        record = parameter.get_help_record(ctx)
        if record:
            is_argument = parameter.param_type_name == "argument"
            name = parameter.metavar or "" if is_argument else _worded(record[0], parameter.metavar)
            words[is_argument].append((name, record[1]))
    for is_argument, title in ((True, "What to say"), (False, "Options")):
        if words[is_argument]:
            with formatter.section(title):
                formatter.write_dl(words[is_argument])


def _bare(piece: str) -> str:
    return piece.replace("{", "").replace("}", "")


def _worded(text: str, metavar: str | None) -> str:
    for theirs, ours in _WORDS.items():
        text = text.replace(theirs, metavar or ours)
    return text
