"""Files that are handed over: written whole or not at all, and never over something else."""

import datetime as dt
from pathlib import Path

from tracker.errors import TrackerError

#: How a file of ours begins; another file of that name is left alone.
_BEGINNINGS = {".pdf": b"%PDF-", ".html": b"<!doctype html", ".svg": b"<svg"}


class SomethingElseThere(TrackerError):
    """A file is where a report or print should go, and it is none of ours."""


def write_paper(path: Path, content: bytes, option: str = "--out") -> Path:
    """Write a report or a print; an earlier one of that name is replaced.

    Raises:
        SomethingElseThere: there is another sort of file of that name.
        TrackerError: its folder is not there.
    """
    check_place(path, option)
    making = path.with_name(f".{path.name}.making")
    try:
        making.write_bytes(content)
        making.replace(path)
    finally:
        making.unlink(missing_ok=True)
    return path


def check_place(path: Path, option: str = "--out") -> Path:
    """Refuse a place where a report or print cannot go; return it.

    Args:
        path: the file.
        option: what names it, to be said where another is asked for.

    Raises:
        SomethingElseThere: there is another sort of file of that name.
        TrackerError: its folder is not there.
    """
    begins = _BEGINNINGS.get(path.suffix.lower())
    if path.is_dir():
        raise SomethingElseThere(f"{path} is a folder; name the file in it")
    if not path.parent.is_dir():
        raise TrackerError(f"the folder {path.parent} is not there; make it first")
    if path.exists():
        with path.open("rb") as file:
            start = file.read(32).lstrip().lower()
        if begins is None or not start.startswith(begins.lower()):
            raise SomethingElseThere(
                f"{path} is something else and was left as it is; name another file with {option}"
            )
    return path


def write_new(path: Path, text: str) -> Path:
    """Write a file that is not there yet.

    Raises:
        SomethingElseThere: it is there.
        TrackerError: its folder is not.
    """
    if path.exists():
        raise SomethingElseThere(f"{path} exists already; name another file, or move it away")
    if not path.parent.is_dir():
        raise TrackerError(f"the folder {path.parent} is not there; make it first")
    path.write_text(text, encoding="utf-8", newline="")
    return path


def day_words(day: dt.date) -> str:
    """Write a date for people: 2 March 2026."""
    return f"{day.day} {day:%B %Y}"
