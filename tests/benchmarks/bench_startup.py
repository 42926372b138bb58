"""How long the command line takes to answer, as a ratio to the smallest programs that could.

Run it by hand: ``python tests/benchmarks/bench_startup.py [ROUNDS]``. It writes the smallest
Typer program and the smallest Typer + SQLModel program to a temporary folder, starts them and
ours turn by turn, and prints medians and ratios of the same run. Figures in milliseconds are
of this machine today; only the ratios mean anything.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

CLIENTS = 20

SMALLEST_TYPER = """
import typer
app = typer.Typer({settings})

@app.command()
def hello(name: str) -> None:
    print(f"hello {{name}}")

app()
"""

SMALLEST_WITH_SQLMODEL = """
import typer
from sqlmodel import Field, Session, SQLModel, create_engine, select

class Client(SQLModel, table=True):
    code: str = Field(primary_key=True)
    name: str

app = typer.Typer(rich_markup_mode=None)

@app.command(name="list")
def list_(store: str) -> None:
    with Session(create_engine(f"sqlite:///{store}")) as session:
        for client in session.exec(select(Client).order_by(Client.code)):
            print(client.code, client.name)

app()
"""


def main(rounds: int = 15) -> None:
    """Time the programs turn by turn and print the ratios."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        ours = [sys.executable, "-m", "tracker"]
        smallest = _program(
            folder / "smallest.py", SMALLEST_TYPER.format(settings="rich_markup_mode=None")
        )
        rich = _program(folder / "smallest_with_rich_help.py", SMALLEST_TYPER.format(settings=""))
        listing = _program(folder / "smallest_listing.py", SMALLEST_WITH_SQLMODEL)
        store, bare = _stores(folder, ours)
        times = _turn_by_turn(
            rounds,
            {
                "smallest Typer program --help, rich off": [*smallest, "--help"],
                "smallest Typer program --help": [*rich, "--help"],
                "tracker --help": [*ours, "--help"],
                "smallest Typer + SQLModel program, list": [*listing, str(bare)],
                "tracker client list": [*ours, "client", "list", "--store", str(store)],
            },
        )
    for what, ms in times.items():
        print(f"{what:<42} {ms:6.0f} ms")
    _ratio(times, "tracker --help", "smallest Typer program --help, rich off")
    _ratio(times, "tracker --help", "smallest Typer program --help")
    _ratio(times, "tracker client list", "smallest Typer + SQLModel program, list")


def _program(path: Path, text: str) -> list[str]:
    path.write_text(text)
    return [sys.executable, str(path)]


def _stores(folder: Path, ours: list[str]) -> tuple[Path, Path]:
    """Make a store with our program, and a bare one with the same clients."""
    import sqlite3

    store, bare = folder / "studio.db", folder / "bare.db"
    _run([*ours, "store", "new", "--store", str(store)])
    with sqlite3.connect(bare) as books:
        books.execute("create table client (code text primary key, name text)")
        for k in range(CLIENTS):
            code, name = f"client-{k:02}", f"Client number {k}"
            _run([*ours, "client", "new", code, name, "--store", str(store)])
            books.execute("insert into client values (?, ?)", (code, name))
    return store, bare


def _turn_by_turn(rounds: int, programs: dict[str, list[str]]) -> dict[str, float]:
    """Start every program once a round, so that a busy moment falls on all alike."""
    times: dict[str, list[float]] = {what: [] for what in programs}
    for turn in range(rounds + 1):
        for what, command in programs.items():
            taken = _run(command)
            if turn:  # the first round fills the disk cache
                times[what].append(taken)
    return {what: statistics.median(some) * 1000 for what, some in times.items()}


def _run(command: list[str]) -> float:
    began = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, env=_environment())
    return time.perf_counter() - began


def _environment() -> dict[str, str]:
    here = Path(__file__).resolve().parents[2]
    return {**os.environ, "PYTHONPATH": str(here)}


def _ratio(times: dict[str, float], ours: str, reference: str) -> None:
    print(f"{ours} ÷ {reference}: {times[ours] / times[reference]:.2f}")


if __name__ == "__main__":
    main(*(int(a) for a in sys.argv[1:]))
