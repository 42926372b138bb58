"""A client's ease: what is planned for her, garment by garment, and her own amounts in it."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from tracker.body.ease import EasePlan
from tracker.body.own_ease import OwnEase, changed, own_plan
from tracker.tasks.named import the_client

if TYPE_CHECKING:
    from tracker.store.books import Books
    from tracker.store.engine import Store

#: A line and how much in mm; none for the table's amount.
LineEase = tuple[str, float | None]


def planned_for(books: "Books", client: str, garment: str, cloth: str) -> EasePlan:
    """Return the ease planned for a client.

    Raises:
        TrackerError: there is no table for the garment or the cloth.
    """
    return own_plan(books.client(client).card.ease, garment, cloth)


def with_choices(plan: EasePlan, choices: Iterable[tuple[str, float]]) -> EasePlan:
    """Return a plan with amounts chosen for one pattern.

    Raises:
        TrackerError: there is no such line, or it is no ease.
    """
    for line, mm in choices:
        plan = plan.with_line(line, mm)
    return plan


def ease_of(store: "Store", code: str | None, garment: str, cloth: str) -> tuple[str, EasePlan]:
    """Return a client's code and the ease planned for her.

    Raises:
        TrackerError: no such client, garment or cloth.
    """
    with store.reading() as books:
        client = the_client(books, code).code
        return client, planned_for(books, client, garment, cloth)


def change_ease(
    store: "Store", code: str | None, garment: str, cloth: str, changes: Iterable[LineEase]
) -> str:
    """Put a client's own ease on her card, or the table's back; return her code.

    Patterns that are drafted already stay as they are. The card as it was stays in the journal.

    Raises:
        TrackerError: no such client, garment, cloth or line, or it is no ease.
    """
    with store.writing() as books:
        client = the_client(books, code)
        own = client.card.ease
        for line, mm in changes:
            wish = None
            if mm is not None:
                wish = OwnEase(garment=garment, cloth=cloth, line=line, mm=mm)
            own = changed(own, wish, (garment, cloth, line))
        books.change_client(replace(client, card=replace(client.card, ease=own)))
    return client.code
