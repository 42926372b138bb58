"""Trace an existing pattern in from a file: the first version of a pattern nobody drafted here."""

import datetime as dt
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.errors import TrackerError, nearest_names
from tracker.history.version import Address, Root, Version, first_version
from tracker.tasks.drafting import check_new_pattern
from tracker.tasks.named import the_client
from tracker.tasks.papers import write_new

if TYPE_CHECKING:
    from tracker.store.engine import Store
    from tracker.tracing.making import Traced

#: What a version can be written as.
FORMATS = ("csv", "json", "svg", "dxf")

#: The word its root is stored under, and the revision of how lines are drawn through points.
KIND, RULE = "traced in", 1


class NotTraced(TrackerError):
    """A file that could not be traced in; the sentence names the file and every fault."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class TracedIn:
    """A pattern as it was traced in.

    Attributes:
        address: the version it became; none where it was only tried.
        file: the file's name.
        sentence: what it is.
        traced: the pattern, its edges and seams, and what to look at again.
    """

    address: Address | None
    file: str
    sentence: str
    traced: "Traced"


def client_and_file(words: list[str]) -> tuple[str | None, Path]:
    """Part a client's code from the file after it; the code may be left out.

    Raises:
        NotTraced: no file was named, or too much was.
    """
    if len(words) not in (1, 2):
        raise NotTraced(
            "name the client and the file, such as mara bodice.csv; an example to begin with is "
            "written by: tracker block trace --example bodice.csv"
        )
    return (words[0] if len(words) == 2 else None), Path(words[-1])


def trace_in(
    store: "Store | None", code: str | None, path: Path, name: str | None, today: dt.date
) -> TracedIn:
    """Trace a file in, and keep it as the first version of a pattern.

    Args:
        store: the store; none to try only.
        code: the client, or nothing for the only one.
        path: the file: CSV, JSON, SVG or DXF.
        name: what to call the pattern; none for the file's name.
        today: the version's date.

    Raises:
        NotTraced: the file cannot be read, or makes no pattern; every fault is told.
        PatternThere: the client has a pattern of this name.
    """
    from tracker.tracing.faults import NotATracing
    from tracker.tracing.reading_in import text_of, traced_in

    content = _content(path)
    address = None
    if store is not None:
        called = "-".join(path.stem.lower().split()) if name is None else name
        with store.reading() as books:
            client = the_client(books, code).code
            check_new_pattern(books, client, called)
        address = Address(client, called, 1)
    try:
        text = text_of(content)
        traced = traced_in(text)
    except NotATracing as fault:
        raise NotTraced(f"{path.name}, {fault.sentence}") from fault
    sentence = f"traced in from {path.name}: {traced.sentence}"
    if store is not None and address is not None:
        version = _version(address, path.name, text, traced, sentence, today)
        with store.writing() as books:
            books.add_version(version)
    return TracedIn(address, path.name, sentence, traced)


def _content(path: Path) -> bytes:
    if path.is_dir():
        raise NotTraced(f"{path} is a folder; name the file in it")
    if not path.exists():
        raise NotTraced(f"there is no file {path}; look at its name and folder")
    return path.read_bytes()


def _version(
    address: Address, file: str, text: str, traced: "Traced", sentence: str, today: dt.date
) -> Version:
    """The version; its recipe is the file as it was read, and is never drawn from again."""
    recipe: dict[str, Any] = {"file": file, "content": text, "notes": list(traced.notes)}
    return first_version(
        address, Root(KIND, RULE, recipe, _table(traced)), traced.pattern, sentence, today
    )


def _table(traced: "Traced") -> tuple[dict[str, Any], ...]:
    """Each edge as a row of what it was to be, by the tape, and what it is."""
    from tracker.drafting.bodice_measured import Row

    rows = [
        Row(
            kind="wanted",
            name=f"{e.piece}: {e.edge}",
            wanted=e.tape_mm,
            got=None if e.length_mm is None else round(e.length_mm, 3),
            note=f"{e.points} points, furthest {e.furthest_mm:.2f} mm" if e.points else "",
        )
        for e in traced.edges
    ]
    return tuple(asdict(row) for row in rows)


def write_example(path: Path) -> Path:
    """Write an example to fill in one's own numbers, which reads back as it is.

    Raises:
        SomethingElseThere: there is such a file already.
    """
    from tracker.resources import shipped

    return write_new(path, (shipped("templates") / "tracing-example.csv").read_text("utf-8"))


def export_version(
    store: "Store", said: str | None, word: str, out: Path | None
) -> tuple[Address, Path]:
    """Write a version as a table of points or a drawing, as it can be traced in again.

    Args:
        store: the store.
        said: the version.
        word: csv, json, svg or dxf; "" for what the file's name ends in, or else svg.
        out: the file; none for CLIENT-PATTERN-3.svg here.

    Raises:
        NotTraced: it is not written so.
        SomethingElseThere: there is such a file already.
        TrackerError: no such version.
    """
    from tracker.tasks.named import the_version

    ending = out.suffix.lower().removeprefix(".") if out else ""
    form = (word.strip().lower() or ending or "svg").removeprefix(".")
    if form not in FORMATS:
        raise NotTraced(
            f"a version is written as {', '.join(FORMATS)}, not as “{form}”."
            f"{nearest_names(form, list(FORMATS), 1)}"
        )
    with store.reading() as books:
        version = the_version(books, said)
    a = version.address
    text = _written(version, form)
    return a, write_new(out or Path(f"{a.client}-{a.pattern}-{a.number}.{form}"), text)


def _written(version: Version, form: str) -> str:
    from tracker.tracing.dxf_out import dxf_of
    from tracker.tracing.svg_out import svg_of
    from tracker.tracing.writing import csv_of, json_of, tables_of

    if form in ("svg", "dxf") and not any(p.has_outline for p in version.pattern.pieces):
        raise NotTraced(
            f"{version.address} has names and lengths and no outlines, so there is nothing to "
            "draw; write it as csv or json"
        )
    if form == "svg":
        return svg_of(version.pattern, f"{version.address}: {version.sentence}")
    if form == "dxf":
        return dxf_of(version.pattern, str(version.address))
    tables = tables_of(version.pattern)
    return csv_of(tables) if form == "csv" else json_of(tables)
