"""``tracker demo``: a studio of invented clients, made by typing what a person would type."""

import contextlib
import datetime as dt
import io
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import as_if_on
from tracker.cli.plain import command, verb
from tracker.errors import TrackerError

app = verb()

STORE = "studio.db"
TRANSCRIPT = "what-was-typed.txt"
#: What an earlier run wrote, one name a line: only these are ever replaced.
MADE = ".made-by-the-demo"


class DemoThere(TrackerError):
    """The folder holds something already."""


class StoryBroken(TrackerError):
    """A line of the story could not be done."""


@dataclass(frozen=True)
class Line:
    """A line of the story: the day it is, what is told, and what is typed."""

    day: dt.date
    told: str = ""
    typed: tuple[str, ...] = ()


@command(app, "demo")
def demo(
    folder: Annotated[str, Argument(metavar="FOLDER", help="Where it goes; made if need be.")],
    again: Annotated[
        bool, Option("--again", help="Replace what an earlier run left there.")
    ] = False,
) -> None:
    """Build a studio of invented clients: a store, reports and prints, and say what to look at.

    Every step is typed as you would type it; the commands and what they printed are kept in
    what-was-typed.txt. A second run replaces nothing unless told to.

        tracker demo demo-studio
    """
    out = Path(folder)
    _make_room(out, again)
    there = {p.name for p in out.iterdir()}
    try:
        _play(out)
    finally:
        made = sorted(p.name for p in out.iterdir() if p.name not in there)
        (out / MADE).write_text("\n".join([*made, MADE]) + "\n", encoding="utf-8")
    _look_at(out)


def story(folder: Path) -> Iterator[Line]:
    """Read the story, line by line."""
    from tracker.resources import shipped

    shelf = shipped("demo_db")
    day = dt.date(2024, 1, 1)
    for row in (shelf / "story.txt").read_text(encoding="utf-8").splitlines():
        if row.startswith("="):
            day = dt.date.fromisoformat(row[1:].strip())
        elif row.startswith(">"):
            yield Line(day, told=row[1:].strip())
        elif row.startswith("tracker "):
            words = shlex.split(row)[1:]
            yield Line(
                day,
                typed=tuple(
                    w.replace("{out}", str(folder)).replace("{story}", str(shelf)) for w in words
                ),
            )


def _make_room(out: Path, again: bool) -> None:
    out.mkdir(parents=True, exist_ok=True)
    there = [p.name for p in out.iterdir()]
    if there and not again:
        raise DemoThere(
            f"{out} is not empty, and nothing in it was touched; name another folder, or add "
            "--again to make the demo in it afresh"
        )
    note = out / MADE
    if again and note.is_file():
        for name in note.read_text(encoding="utf-8").split("\n"):
            if name and Path(name).name == name:
                (out / name).unlink(missing_ok=True)
    elif again and (out / STORE).exists():
        raise DemoThere(
            f"{out / STORE} was not made by the demo, so it is left alone; name another folder"
        )


def _play(out: Path) -> None:
    from tracker.cli.run import main

    store = ["--store", str(out / STORE)]
    with (out / TRANSCRIPT).open("w", encoding="utf-8") as kept:
        for line in story(out):
            if line.told:
                show.tell(f"{line.day:%d %B %Y}. {line.told}")
                kept.write(f"\n# {line.day:%d %B %Y}. {line.told}\n")
                continue
            printed = io.StringIO()
            with (
                as_if_on(line.day),
                contextlib.redirect_stdout(printed),
                contextlib.redirect_stderr(printed),
            ):
                status = main([*store, *line.typed])
            typed = " ".join(shlex.quote(w) if " " in w else w for w in line.typed)
            kept.write(f"\n$ tracker {typed}\n{printed.getvalue()}")
            # A check that finds something to look at ends with 1, which is no failure here.
            if status and line.typed[0] != "check":
                raise StoryBroken(
                    f"the demo stopped at `tracker {typed}`: {printed.getvalue().strip()}"
                )


def _look_at(out: Path) -> None:
    show.tell("")
    show.tell(f"The studio is in {out}. Look first at:")
    for name, what in (
        ("mara-panelled-1-and-3.html", "two versions over each other, each change explained"),
        ("mara-history.html", "two years of one client: body, garments, notes"),
        ("odile-low-shoulder.html", "one shoulder altered, the other left alone"),
        ("mara-panelled-3.pdf", "the panels at full scale on A4, with a page map"),
        (TRANSCRIPT, "every command of the story and what it printed"),
    ):
        show.tell(f"  {out / name}: {what}")
    show.tell(f"Then ask it yourself: tracker --store {out / STORE} client list")
