"""Draft a block from a client's measurements: the first version of a pattern."""

import datetime as dt
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from tracker.errors import TrackerError
from tracker.history.version import Address, Root, Version, first_version
from tracker.tasks.blocks import DraftWish, check_wish, makers
from tracker.tasks.bodies import body_of, of_several_days
from tracker.tasks.easing import planned_for, with_choices
from tracker.tasks.named import the_client, the_version

if TYPE_CHECKING:
    from tracker.body.body import Body
    from tracker.body.ease import EasePlan
    from tracker.drafting.bodice_measured import Row
    from tracker.store.books import Books
    from tracker.store.engine import Store


class PatternThere(TrackerError):
    """A new pattern was to have the name of one that exists."""


class NotAPatternName(TrackerError):
    """A pattern's name that could not be said in an address."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class Drafted:
    """A block as it was drafted and stored.

    Attributes:
        version: its first version.
        rows: wanted, got and chosen.
        estimated: names of measurements that were worked out, not taken.
    """

    version: Version
    rows: tuple["Row", ...]
    estimated: tuple[str, ...]


def draft_block(store: "Store", code: str | None, wish: DraftWish, today: dt.date) -> Drafted:
    """Draft a block and keep it as the first version of a pattern.

    Raises:
        NoSuchBlock: there is no such kind, or it is not asked for so.
        PatternThere: the client has a pattern of this name.
        TrackerError: a measurement is missing or the body cannot be met.
    """
    check_wish(wish)
    name = wish.kind if wish.pattern is None else wish.pattern
    with store.reading() as books:
        client = the_client(books, code).code
        check_new_pattern(books, client, name)
        body = body_of(books, client, wish.session, wish.with_passing)
        ease = with_choices(planned_for(books, client, wish.kind, wish.cloth), wish.ease)
    made = _drafted_or_told(store, body, ease, wish, Address(client, name, 1), today)
    with store.writing() as books:  # solving takes a while: nobody is kept from writing meanwhile
        books.add_version(made.version)
    return made


def _drafted_or_told(
    store: "Store",
    body: "Body",
    ease: "EasePlan",
    wish: DraftWish,
    address: Address,
    today: dt.date,
) -> Drafted:
    """Draft; where measurements of several days contradict each other, say of which days."""
    from tracker.drafting.conflict import BodyCannotBeMet

    try:
        return _drafted(body, ease, wish, address, today)
    except BodyCannotBeMet as fault:
        days = None
        if wish.session is None:
            with store.reading() as books:
                days = of_several_days(books, address.client, fault.keys, wish.with_passing)
        if days is None:
            raise
        sentence = f"{fault.sentence.rstrip('.')}; they are of different days: {days}"
        raise BodyCannotBeMet(sentence, fault.keys, fault.would_do) from fault


def _drafted(
    body: "Body", ease: "EasePlan", wish: DraftWish, address: Address, today: dt.date
) -> Drafted:
    maker = makers()[wish.kind]
    body = maker.estimated(body) if wish.estimate else body
    draft = maker.draft(body, ease, wish)
    names = tuple(v.name for v in body.estimates if v.key in draft.used)
    table = tuple(asdict(row) for row in draft.table)
    recipe = {**draft.to_record(), "session": wish.session}
    root = Root(maker.kind, maker.rule, recipe, table, names)
    version = first_version(address, root, draft.pattern, draft.sentence(), today)
    return Drafted(version, draft.table, names)


def check_new_pattern(books: "Books", client: str, name: str) -> None:
    """Refuse a name for a new pattern that is taken, or could not be said in an address.

    Raises:
        NotAPatternName: it holds a slash, an @, a space, or nothing.
        PatternThere: the client has a pattern of this name.
    """
    if not name or any(c in name for c in "/@ ") or not name.isprintable():
        raise NotAPatternName(
            f"“{name}” cannot be a pattern's name; use letters, digits and dashes, such as bodice "
            "or summer-dress"
        )
    if name in books.pattern_names(client):
        raise PatternThere(
            f"client {client} has a pattern called {name} already; give this one another name, "
            f"such as {name}-2"
        )


def draft_table(
    store: "Store", said: str | None
) -> tuple[Address, str, tuple["Row", ...], tuple[str, ...]]:
    """Return what the root of a pattern was drafted to, and what of it was estimated.

    Raises:
        TrackerError: no such version, or it was not drafted.
    """
    from tracker.drafting.bodice_measured import Row
    from tracker.tasks.versions import lineage

    with store.reading() as books:
        first = lineage(books, the_version(books, said))[0]
    if first.root is None or not first.root.table:
        raise TrackerError(f"{first.address} was not drafted here, so there is no table of it")
    rows = tuple(Row(**row) for row in first.root.table)
    return first.address, first.sentence, rows, first.estimated
