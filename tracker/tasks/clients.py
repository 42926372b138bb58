"""Clients: new, list, card, export, bring in, erase."""

import datetime as dt
import json
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.body.card import Card, Consent, Degree, Posture
from tracker.body.client import Client
from tracker.errors import TrackerError
from tracker.tasks.named import the_client
from tracker.tasks.papers import write_new

if TYPE_CHECKING:
    from tracker.store.engine import Store


class NotErased(TrackerError):
    """A client was to be erased without saying so for certain."""

    exit_code = 2


class NotAClientFile(TrackerError):
    """A file that does not hold an exported client."""


@dataclass(frozen=True, slots=True)
class ClientCard:
    """All that is known of a client at a glance.

    Attributes:
        code: what prints carry.
        name: her name.
        note: anything else.
        posture: in words.
        likes: in her words.
        allergies: what must not touch her skin.
        cautions: what follows for pins and tape.
        consents: what she agreed to and when, in words.
        sessions: dates of her measuring sessions, oldest first.
        patterns: her patterns, each at its newest version.
        garments: how many garments.
        fittings: how many fittings.
        waiting: how many notes still want dealing with.
    """

    code: str
    name: str
    note: str
    posture: tuple[str, ...]
    likes: tuple[str, ...]
    allergies: tuple[str, ...]
    cautions: tuple[str, ...]
    consents: tuple[str, ...]
    sessions: tuple[dt.date, ...]
    patterns: tuple[str, ...]
    garments: int
    fittings: int
    waiting: int


def new_client(
    store: "Store", code: str, name: str, note: str = "", consent: tuple[Consent, ...] = ()
) -> Client:
    """Write down a new client.

    Raises:
        TrackerError: the code is taken or cannot be a code.
    """
    client = Client(code=code, name=name, card=Card(consents=consent), note=note)
    with store.writing() as books:
        books.add_client(client)
    return client


def card_of(store: "Store", code: str | None) -> ClientCard:
    """Return a client's card with what the store knows of her."""
    with store.reading() as books:
        client = the_client(books, code)
        card = client.card
        newest = tuple(
            str(books.version(client.code, n).address) for n in books.pattern_names(client.code)
        )
        return ClientCard(
            code=client.code,
            name=client.name,
            note=client.note,
            posture=tuple(p.words for p in card.posture),
            likes=card.likes,
            allergies=card.allergies,
            cautions=card.cautions(),
            consents=tuple(_consent_words(c) for c in card.consents),
            sessions=tuple(s.on for s in books.sessions(client.code)),
            patterns=newest,
            garments=len(books.garments(client.code)),
            fittings=len(books.fittings(client.code)),
            waiting=sum(n.waiting for n in books.notes(client.code)),
        )


def _consent_words(consent: Consent) -> str:
    gone = f", taken back {consent.withdrawn_on}" if consent.withdrawn_on else ""
    return f"{consent.to}, given {consent.given_on}{gone}"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardChange:
    """What to put on a card; what is not named stays.

    Attributes:
        name: her name as it is now.
        note: a new note.
        postures: (sort, degree, side) seen.
        likes: to add.
        allergies: to add.
        consents: (to what, given on) to add.
        withdrawn: (from what, on) consents taken back.
    """

    name: str | None = None
    note: str | None = None
    postures: tuple[Posture, ...] = ()
    likes: tuple[str, ...] = ()
    allergies: tuple[str, ...] = ()
    consents: tuple[Consent, ...] = ()
    withdrawn: tuple[tuple[str, dt.date], ...] = ()


def change_card(store: "Store", code: str | None, change: CardChange) -> Client:
    """Put things on a client's card; the card as it was stays in the journal.

    Raises:
        TrackerError: something cannot stand on a card.
    """
    with store.writing() as books:
        client = the_client(books, code)
        changed = replace(
            client,
            name=change.name if change.name is not None else client.name,
            note=change.note if change.note is not None else client.note,
            card=_card(client.card, change),
        )
        books.change_client(changed)
    return changed


def _card(card: Card, change: CardChange) -> Card:
    for posture in change.postures:
        card = card.with_posture(posture)
    consents = (*card.consents, *change.consents)
    for what, on in change.withdrawn:
        consents = _withdrawn(consents, what, on)
    return replace(
        card,
        likes=tuple(dict.fromkeys((*card.likes, *change.likes))),
        allergies=tuple(dict.fromkeys((*card.allergies, *change.allergies))),
        consents=consents,
    )


def _withdrawn(consents: tuple[Consent, ...], what: str, on: dt.date) -> tuple[Consent, ...]:
    wanted = what.strip().lower()
    if not any(c.to.lower() == wanted and c.holds_on(on) for c in consents):
        raise TrackerError(f"she has not agreed to “{what}”, so there is nothing to take back")
    return tuple(
        replace(c, withdrawn_on=on) if c.to.lower() == wanted and c.holds_on(on) else c
        for c in consents
    )


def read_posture(text: str) -> Posture:
    """Read a posture as it is said: ``low shoulder, marked, right``; degree and side in any order.

    Raises:
        TrackerError: the card knows no such posture, degree or side.
    """
    sort, *rest = [part.strip().lower() for part in text.split(",")]
    degree = Degree.SLIGHT
    side: Any = "both"  # the posture itself refuses a word that is no side
    for word in rest:
        if word in tuple(Degree):
            degree = Degree(word)
        else:
            side = word
    return Posture(sort=sort, degree=degree, side=side)


def export_client(store: "Store", code: str | None, target: Path) -> Client:
    """Write all that is known of a client to one JSON file.

    Raises:
        TrackerError: the file exists already.
    """
    from tracker.store.transfer import export_client as exported

    with store.reading() as books:
        client = the_client(books, code)
        record = exported(books, client.code)
    text = json.dumps(record, indent=1, ensure_ascii=False, sort_keys=True)
    write_new(target, text)
    return client


def import_client(store: "Store", source: Path) -> str:
    """Bring an exported client into this store; return her code.

    Raises:
        NotAClientFile: the file holds no exported client.
        TrackerError: her code is taken here.
    """
    from tracker.store.transfer import import_client as imported

    try:
        record: Any = json.loads(source.read_text(encoding="utf-8"))
    except (ValueError, UnicodeDecodeError) as fault:
        raise NotAClientFile(
            f"{source} does not hold an exported client: it is not JSON"
        ) from fault
    if not isinstance(record, dict):
        raise NotAClientFile(f"{source} does not hold an exported client")
    with store.writing() as books:
        imported(books, record)
    return str(record.get("client", {}).get("code", ""))


def erase_client(store: "Store", code: str, sure: bool) -> Client:
    """Erase a client and all that is known of her, for good.

    Raises:
        NotErased: it was not said for certain.
    """
    from tracker.store.transfer import erase_client as erased

    with store.reading() as books:
        client = books.client(code)
    if not sure:
        raise NotErased(
            f"erasing {code} takes her measurements, patterns, fittings and notes out of the store "
            f"for good; export her first if in doubt, then say so with: tracker client erase "
            f"{code} --yes"
        )
    with store.writing() as books:
        erased(books, code)
    return client
