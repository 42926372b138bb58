"""The tree of commands: one noun, one file, and none of the files read before it is asked for.

Nothing heavier than Typer is imported here, so that ``--help`` answers at once.
"""

from importlib import import_module
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from tracker.cli.options import SAID_BEFORE
from tracker.cli.plain import write_options
from tracker.errors import nearest_names

NOUNS: dict[str, str] = {
    "client": "Clients: new, list, card, ease, export, import, erase.",
    "measure": "Measuring sheets and sessions; is a change real?",
    "block": "Draft a block from a client's measurements, or trace one in.",
    "style": "Develop a style from a settled block: panels, sleeves, yokes.",
    "garment": "Test garments and other garments that are tried on.",
    "fitting": "Fittings: what waits, signs and causes, what was settled.",
    "note": "What is seen at a fitting, tied to a seam or a piece.",
    "alter": "Propose, accept, or make an alteration: the next version.",
    "carry": "Withdraw steps, or bring corrections across to another base.",
    "version": "Versions of a pattern and how far each has come.",
    "check": "Check a version before cutting.",
    "compare": "What differs between two versions.",
    "why": "Why a seam, an edge or a place on it is where it is.",
    "report": "Write a report to open in a browser or print.",
    "print": "Print a version at full scale.",
    "prefer": "Your unit and your words.",
    "store": "Make, check, back up and update the store.",
    "demo": "Build a studio of invented clients to look at.",
}

#: Other words for the same nouns, by the maker's habit; not listed.
ALSO = {"sloper": "block", "toile": "garment", "muslin": "garment", "pattern": "version"}

EPILOG = """A pattern's version is written client/pattern@version, such as mara/bodice@3; where
there is only one client or one pattern you need not say it. Lengths may be typed as 12.5cm,
125 mm, 5/8in or 1 1/4"."""


class Nouns(TyperGroup):
    """The top of the tree, which reads a noun's file only when that noun is used."""

    def list_commands(self, ctx: Any) -> list[str]:
        """Return the nouns in the order of the work."""
        return list(NOUNS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """Read a noun's file and return its commands."""
        name = ALSO.get(cmd_name, cmd_name)
        if name not in NOUNS:
            return None
        noun: typer.Typer = import_module(f"tracker.cli.{_MODULES.get(name, name)}").app
        command = typer.main.get_command(noun)
        command.name = name
        return command

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Write its option, then the nouns."""
        write_options(self, ctx, formatter)
        self.format_commands(ctx, formatter)

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """Write the nouns with their lines, without reading their files."""
        with formatter.section("Commands"):
            formatter.write_dl(list(NOUNS.items()))

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Find the noun typed, or name the nearest."""
        name = args[0]
        if not name.startswith("-") and name not in NOUNS and name not in ALSO:
            ctx.fail(f"there is no command “{name}”.{nearest_names(name, list(NOUNS), 1)}")
        return super().resolve_command(ctx, args)


#: Nouns whose file cannot have their name.
_MODULES = {"print": "printing", "check": "checking", "compare": "comparing", "why": "reasons"}

app = typer.Typer(
    cls=Nouns,
    rich_markup_mode=None,
    add_completion=False,
    no_args_is_help=True,
    epilog=EPILOG,
    help="Keep the thread from a client's body to her block, its fittings and the next version.",
)


@app.callback()
def everything(
    ctx: typer.Context,
    store: Annotated[
        str | None,
        typer.Option(
            metavar="FILE", help="The store's file; without it TRACKER_STORE or studio.db."
        ),
    ] = None,
    day: Annotated[
        str | None,
        typer.Option(metavar="DAY", help="Write down what was done on an earlier day: 2025-09-22."),
    ] = None,
) -> None:
    """Keep the thread from a client's body to her block, its fittings and the next version."""
    SAID_BEFORE.set(store)
    if day:
        from tracker.cli.clock import as_if_on, read_past_day

        ctx.with_resource(as_if_on(read_past_day(day)))
