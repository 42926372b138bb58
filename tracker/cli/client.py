"""``tracker client``: new, list, card, export, bring in, erase."""

from pathlib import Path
from typing import Annotated, Any

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import read_day, today
from tracker.cli.options import AsJson, Cloth, MaybeClient, StoreFile, opened, store_path
from tracker.cli.plain import command, noun

app = noun("Clients: new, list, card, ease, export, import, erase.")

Code = Annotated[str, Argument(metavar="CLIENT", help="Her code: it stands for her on prints.")]


@command(app, "new")
def new(
    code: Code,
    name: Annotated[str, Argument(metavar="NAME", help="Her name; prints do not show it.")],
    note: Annotated[str, Option(help="Anything else.")] = "",
    consent: Annotated[
        list[str] | None,
        Option(metavar="WHAT", help="What she agrees to today: measurements, notes, photos."),
    ] = None,
    store: StoreFile = None,
) -> None:
    """Write down a new client.

    Her code is short, in small letters, and is what prints and addresses carry. Measurements
    are personal data: write down what she agrees to.

        tracker client new mara "Mara Lind" --consent measurements
    """
    from tracker.body.card import Consent
    from tracker.tasks.clients import new_client

    agreed = tuple(Consent(to=what, given_on=today()) for what in consent or ())
    client = new_client(opened(store), code, name, note, agreed)
    show.tell(f"{client.name} is {client.code}. Measure her with: tracker measure new {code} …")


@command(app, "list")
def list_(store: StoreFile = None, json: AsJson = False) -> None:
    """List the clients, and what waits of each.

    tracker client list
    tracker client list --json
    """
    from tracker.store.quick import client_rows

    rows = client_rows(store_path(store))
    if json:
        show.as_json([row._asdict() for row in rows])
        return
    if not rows:
        show.tell('No client yet. Make one with: tracker client new mara "Mara Lind"')
        return
    headings = ("client", "name", "patterns", "measured", "fitted", "notes waiting")
    show.say(show.table(headings, rows, "llrllr"))


@command(app, "card")
def card(
    client: MaybeClient = None,
    posture: Annotated[
        list[str] | None,
        Option(metavar="TEXT", help='Posture, degree, side: "low shoulder, marked, right".'),
    ] = None,
    likes: Annotated[list[str] | None, Option(help="Something she likes.")] = None,
    allergy: Annotated[list[str] | None, Option(help="What must not touch her skin.")] = None,
    consent: Annotated[
        list[str] | None, Option(metavar="WHAT", help="What she agrees to, from --on.")
    ] = None,
    withdraw: Annotated[
        list[str] | None, Option(metavar="WHAT", help="What she takes back, from --on.")
    ] = None,
    on: Annotated[str, Option(metavar="DATE", help="The day of a consent.")] = "today",
    name: Annotated[str | None, Option(help="Her name as it is now.")] = None,
    note: Annotated[str | None, Option(help="A new note.")] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Show a client's card, or put something on it.

    The card as it was before stays in the journal.

        tracker client card mara
        tracker client card mara --posture "low shoulder, marked, right"
    """
    from tracker.tasks.clients import card_of, change_card

    books = opened(store)
    change = _change(posture, likes, allergy, consent, withdraw, on, name, note)
    if change is not None:
        client = change_card(books, client, change).code
    found = card_of(books, client)
    if json:
        show.as_json(found)
        return
    _write_card(found)


def _change(
    posture: list[str] | None,
    likes: list[str] | None,
    allergy: list[str] | None,
    consent: list[str] | None,
    withdraw: list[str] | None,
    on: str,
    name: str | None,
    note: str | None,
) -> Any:
    """Return what is to be put on the card, or nothing when it is only to be shown."""
    from tracker.body.card import Consent
    from tracker.tasks.clients import CardChange, read_posture

    if not any((posture, likes, allergy, consent, withdraw)) and name is None and note is None:
        return None
    day = read_day(on)
    return CardChange(
        name=name,
        note=note,
        postures=tuple(read_posture(text) for text in posture or ()),
        likes=tuple(likes or ()),
        allergies=tuple(allergy or ()),
        consents=tuple(Consent(to=what, given_on=day) for what in consent or ()),
        withdrawn=tuple((what, day) for what in withdraw or ()),
    )


def _write_card(card: Any) -> None:
    rows = [
        ("posture", "; ".join(card.posture) or "nothing noted"),
        ("likes", "; ".join(card.likes)),
        ("allergies", "; ".join(card.allergies)),
        ("agreed to", "; ".join(card.consents) or "nothing yet"),
        ("measured", ", ".join(str(day) for day in card.sessions) or "never"),
        ("patterns", ", ".join(card.patterns) or "none"),
        ("garments", card.garments),
        ("fittings", card.fittings),
        ("notes waiting", card.waiting),
        ("note", card.note),
    ]
    show.say(show.table((card.code, card.name), [row for row in rows if row[1] != ""]))
    show.warn(card.cautions)


@command(app, "ease")
def ease(
    words: Annotated[
        list[str] | None,
        Argument(metavar="[CLIENT] [LINE=LENGTH …]", help="bust=6cm; bust=usual takes it back."),
    ] = None,
    garment: Annotated[
        str, Option(metavar="GARMENT", help="bodice, torso, sleeve, skirt or trousers.")
    ] = "bodice",
    cloth: Cloth = "woven",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Show the ease planned for a client, or write down how she likes it.

    What is written down holds for every block drafted for her from then on; a pattern's own plan
    is changed with --ease when it is drafted, or with the alteration “plan the ease”.

        tracker client ease mara
        tracker client ease mara --garment skirt hip=7cm
        tracker client ease mara waist=usual
    """
    from tracker.cli.typed import client_and_values, read_pairs
    from tracker.tasks.easing import change_ease, ease_of
    from tracker.tasks.preferences import manner
    from tracker.units import read_length

    books = opened(store)
    how = manner(books)
    client, texts = client_and_values(words or [], None, None)
    wanted, of = garment.strip().lower(), cloth.strip().lower()
    changes = [
        (line, None if said == "usual" else read_length(said, how.unit, allow_negative=True))
        for line, said in read_pairs(texts, "bust=6cm")
    ]
    if changes:
        client = change_ease(books, client, wanted, of, changes)
    client, plan = ease_of(books, client, wanted, of)
    if json:
        record = {"client": client, "garment": wanted, "cloth": of, **plan.to_record()}
        show.as_json(record)
        return
    lines = [(n.name, how.length(n.mm), _usual(n, how), n.source) for n in plan.lines]
    show.tell(f"Ease planned for {client}: {wanted} in {of} cloth.")
    show.say(show.table(("line", "ease", "usual", "where from"), lines, "lrr"))


def _usual(line: Any, how: Any) -> str:
    return f"{how.length(line.low)} to {how.length(line.high)}"


@command(app, "export")
def export(
    client: MaybeClient = None,
    out: Annotated[str | None, Option(metavar="FILE", help="Where to; else CLIENT.json.")] = None,
    store: StoreFile = None,
) -> None:
    """Write all that is known of a client to one file.

    It holds her measurements, patterns, fittings and notes; tracker client
    import reads it back.

        tracker client export mara --out mara.json
    """
    from tracker.tasks.clients import card_of, export_client

    books = opened(store)
    code = card_of(books, client).code
    target = Path(out or f"{code}.json")
    export_client(books, code, target)
    show.tell(f"All that is known of {code} is in {target}. It is personal data: keep it safe.")


@command(app, "import")
def import_(
    file: Annotated[str, Argument(metavar="FILE", help="A file written by export.")],
    store: StoreFile = None,
) -> None:
    """Bring an exported client into this store.

    tracker client import mara.json
    """
    from tracker.tasks.clients import import_client

    code = import_client(opened(store), Path(file))
    show.tell(f"{code} is in the store, with all that was in {file}.")


@command(app, "erase")
def erase(
    client: Code,
    yes: Annotated[bool, Option("--yes", help="Really erase her.")] = False,
    store: StoreFile = None,
) -> None:
    """Erase a client and all that is known of her, for good.

    Copies of the store may still hold her, and those it knows of are named; so may exported
    files and prints. Erase them too.

        tracker client erase mara --yes
    """
    from tracker.tasks.clients import erase_client
    from tracker.tasks.storekeeping import copies_of

    books = opened(store)
    erased = erase_client(books, client, yes)
    show.tell(f"{erased.code} and all that was known of her is erased.")
    copies = ", ".join(str(path) for path in copies_of(books))
    show.warn([f"these copies may still hold her: {copies}"] if copies else [])
