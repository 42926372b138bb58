"""``tracker demo``: a studio of invented clients."""

from pathlib import Path
from typing import Annotated

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.plain import command, verb

app = verb()


@command(app, "demo")
def demo(
    folder: Annotated[str, Argument(metavar="FOLDER", help="Where it goes; made if need be.")],
    again: Annotated[
        bool, Option("--again", help="Replace what an earlier run left there.")
    ] = False,
) -> None:
    """Build a studio of invented clients: a store, reports and a print, and say what to look at.

    A second run replaces nothing unless told to.

        tracker demo demo
    """
    from tracker.tasks.demo import run

    run(Path(folder), again, show.tell)
