"""The only place that asks what day it is."""

import datetime as dt
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from tracker.errors import TrackerError

#: The day the demo's story has come to, or an earlier one that is written down afterwards.
_STORY_DAY: ContextVar[dt.date | None] = ContextVar("_STORY_DAY", default=None)


class NotADay(TrackerError):
    """What was typed is no day of the calendar."""

    exit_code = 2


def today() -> dt.date:
    """Return today's date, or the day a story being told has come to."""
    return _STORY_DAY.get() or dt.date.today()


@contextmanager
def as_if_on(day: dt.date) -> Iterator[None]:
    """Let commands run as they would have on a day that is over."""
    before = _STORY_DAY.set(day)
    try:
        yield
    finally:
        _STORY_DAY.reset(before)


def now() -> dt.datetime:
    """Return the moment, in universal time."""
    return dt.datetime.now(dt.UTC)


def read_day(text: str) -> dt.date:
    """Read a day: ``2026-03-02``, ``today`` or ``yesterday``.

    Raises:
        NotADay: the calendar has no such day, or it is not written so.
    """
    word = text.strip().lower()
    if word in ("", "today"):
        return today()
    if word == "yesterday":
        return today() - dt.timedelta(days=1)
    parts = word.split("-")
    if len(parts) != 3 or not all(p.isascii() and p.isdigit() for p in parts) or len(parts[0]) != 4:
        raise NotADay(f"“{text}” is not a day; write year-month-day, as in 2026-03-02")
    year, month, day = (int(p) for p in parts)
    try:
        return dt.date(year, month, day)
    except ValueError as fault:
        raise NotADay(f"the calendar has no {text.strip()}; {_why(year, month)}") from fault


def read_past_day(text: str) -> dt.date:
    """Read a day that is not to come.

    Raises:
        NotADay: it is to come, or no day.
    """
    day = read_day(text)
    if day > today():
        raise NotADay(f"{day} is yet to come; only an earlier day can be written down afterwards")
    return day


def _why(year: int, month: int) -> str:
    if not 1 <= month <= 12:
        return f"there is no month {month}"
    if year < 1:
        return "years are counted from 1"
    after = dt.date(year + month // 12, month % 12 + 1, 1) if year < 9999 else dt.date(year, 1, 1)
    last = after - dt.timedelta(days=1)
    return f"{last:%B} {year} has {last.day} days"
