"""The body behind a pattern: which session's figures, estimated or not, and its girths."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.body.body import Body
from tracker.body.session import newest_body
from tracker.body.vocabulary import measurement
from tracker.errors import TrackerError
from tracker.tasks.measuring import the_session

if TYPE_CHECKING:
    from tracker.body.session import MeasuringSession
    from tracker.store.books import Books

#: The body girth that belongs to a material line of a pattern.
GIRTH_AT: Mapping[str, str] = {
    "bust line": "bust-girth",
    "waist line": "waist-girth",
    "hip line": "hip-girth",
    "high hip line": "high-hip-girth",
    "underbust line": "underbust-girth",
}
#: The girth of one leg that belongs to a line round both.
LEG_GIRTH_AT: Mapping[str, str] = {"crotch line": "thigh-girth", "knee line": "knee-girth"}


class NobodyMeasured(TrackerError):
    """A block was asked for of a client who was not measured."""


def body_of(books: "Books", code: str, session: int | None, with_passing: bool) -> Body:
    """Return a client's body: of one session, or her newest usual values.

    Raises:
        NobodyMeasured: there are none.
    """
    if session is not None:
        return the_session(books, code, session)[1].body()
    some = books.sessions(code)
    body = newest_body(some, with_passing=with_passing)
    if len(body):
        return body
    if some:
        raise NobodyMeasured(
            f"client {code} was only measured passingly ({some[-1].reason}); measure her again, "
            "or say --with-passing"
        )
    raise NobodyMeasured(
        f"client {code} was not measured yet; record a session with: tracker measure new {code} "
        "bust=88.2"
    )


def of_several_days(
    books: "Books", code: str, keys: Iterable[str], with_passing: bool
) -> str | None:
    """Say of which days and sessions some of a client's newest values are, the newest first.

    Nothing where they are all of one session: then age explains nothing.
    """
    wanted = tuple(dict.fromkeys(keys))
    newest: dict[str, tuple[dt.date, int]] = {}
    for number, session in enumerate(books.sessions(code), start=1):
        if session.is_passing and not with_passing:
            continue
        for key in wanted:
            if session.body().has(key):
                newest[key] = max(newest.get(key, (session.on, number)), (session.on, number))
    days = sorted(set(newest.values()), reverse=True)
    if len(days) < 2:
        return None
    told = [
        f"{' and '.join(measurement(k).name for k in wanted if newest.get(k) == day)} of {day[0]} "
        f"(session {day[1]})"
        for day in days
    ]
    older = " and ".join(
        measurement(k).name for k in wanted if newest.get(k, days[0]) != days[0]
    )  # fmt: skip
    return (
        f"{', '.join(told)}: the older may no longer be hers, so measure {older} again, or draft "
        f"from one session with --session {days[-1][1]}"
    )


@dataclass(frozen=True, slots=True)
class GirthsMeasured:
    """A client's girths as they were measured last by some day.

    Attributes:
        at: mm by material line.
        on: the day of the newest session they come from.
        since: the day she was measured again, if she was.
    """

    at: Mapping[str, float]
    on: dt.date
    since: dt.date | None = None

    @property
    def minded(self) -> tuple[str, ...]:
        """What to mind of them: that she was measured again."""
        if self.since is None:
            return ()
        return (
            f"ease is told against her body as measured on {self.on}; she was measured again on "
            f"{self.since}",
        )


def girths_by(books: "Books", code: str, day: dt.date) -> GirthsMeasured | None:
    """Return her usual girths as measured last on or before a day, else the newest there are."""
    told = [s for s in books.sessions(code) if not s.is_passing and _girths([s])]
    if not told:
        return None
    then = [s for s in told if s.on <= day] or told
    on, newest = (max(s.on for s in some) for some in (then, told))
    return GirthsMeasured(_girths(then), on, newest if newest > on else None)


def girths_of(books: "Books", code: str) -> dict[str, float] | None:
    """Return her newest usual girths in millimetres by material line, or nothing."""
    return _girths(books.sessions(code)) or None


def _girths(sessions: Iterable["MeasuringSession"]) -> dict[str, float]:
    body = newest_body(sessions)
    round_both = {
        line: body.value(key, "right") + body.value(key, "left")
        for line, key in LEG_GIRTH_AT.items()
        if body.has(key, "right") and body.has(key, "left")
    }
    return {line: body.value(key) for line, key in GIRTH_AT.items() if body.has(key)} | round_both
