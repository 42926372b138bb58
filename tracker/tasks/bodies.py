"""The body behind a pattern: which session's figures, estimated or not, and its girths."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from tracker.body.body import Body
from tracker.body.session import newest_body
from tracker.errors import TrackerError
from tracker.tasks.measuring import the_session

if TYPE_CHECKING:
    from tracker.store.books import Books

#: The body girth that belongs to a material line of a pattern.
GIRTH_AT: Mapping[str, str] = {
    "bust line": "bust-girth",
    "waist line": "waist-girth",
    "hip line": "hip-girth",
    "high hip line": "high-hip-girth",
    "underbust line": "underbust-girth",
}


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


def girths_of(books: "Books", code: str) -> dict[str, float] | None:
    """Return her newest usual girths in millimetres by material line, or nothing."""
    body = newest_body(books.sessions(code))
    found = {line: body.value(key) for line, key in GIRTH_AT.items() if body.has(key)}
    return found or None
