"""``tracker measure``: sheet, new, list, show, correct, compare, names."""

from pathlib import Path
from typing import Annotated, Any

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import read_day, today
from tracker.cli.options import AsJson, ClientOption, MaybeClient, OnDay, StoreFile, opened
from tracker.cli.plain import command, noun

app = noun(
    "Measuring sheets and sessions; is a change real? A bare number is read in your unit "
    "(tracker prefer unit)."
)

Values = Annotated[
    list[str] | None,
    Argument(metavar="[CLIENT] NAME=VALUE …", help='bust=88.2, "right shoulder length=12.4; 12.6"'),
]
Keep = Annotated[
    list[str] | None,
    Option(metavar="NAME", help="An unusual value that is so; “all” for all of them."),
]
For = Annotated[
    list[str] | None, Option("--for", metavar="BLOCK", help="bodice, sleeve, skirt or trousers.")
]
Session = Annotated[int | None, Option("--session", help="Which session, from 1; else the newest.")]


@command(app, "new", "add")
def new(
    values: Values = None,
    client: ClientOption = None,
    on: OnDay = "today",
    by: Annotated[str, Option(help="Who measured.")] = "",
    wearing: Annotated[str, Option(help="What she wears: underwear, shoes.")] = "",
    heel: Annotated[str, Option(metavar="LENGTH", help="Heel height.")] = "0",
    passing: Annotated[
        str, Option(metavar="REASON", help="Her body will change back: pregnancy, brace …")
    ] = "",
    due: Annotated[str | None, Option(metavar="DATE", help="A date that goes with it.")] = None,
    source: Annotated[
        str | None, Option("--from", metavar="FILE", help="A text file, one NAME=VALUE a line.")
    ] = None,
    keep: Keep = None,
    note: Annotated[str, Option(help="Anything else.")] = "",
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Write down a measuring session.

    Type a measurement twice, or with ; between, to keep repeats. A value no adult is likely to
    have is questioned: nothing is stored until you keep it or type it again.

        tracker measure new mara bust=88.2 bust=88.6 waist=70 --wearing "thin bra"
        tracker measure new mara "right shoulder length=12.4; 12.6" --by Ida
        tracker measure new mara --from sheet.txt
    """
    from tracker.cli.asking import asking
    from tracker.cli.typed import client_and_values, session_of
    from tracker.tasks.measuring import record_session
    from tracker.tasks.preferences import manner

    books = opened(store)
    how = manner(books)
    code, texts = client_and_values(values or [], client, source)
    session = session_of(
        texts, how, on=read_day(on), by=by, wearing=wearing, heel=heel, reason=passing, due=due,
        note=note, today=today(),
    )  # fmt: skip
    _write(asking(lambda kept: record_session(books, code, session, kept), keep), how, json)


@command(app, "correct")
def correct(
    values: Values = None,
    client: ClientOption = None,
    session: Session = None,
    keep: Keep = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Correct values of a session; what was there before stays in the journal.

    tracker measure correct mara waist=71 --session 2
    """
    from tracker.cli.asking import asking
    from tracker.cli.typed import client_and_values
    from tracker.tasks.measuring import correct_session
    from tracker.tasks.preferences import manner
    from tracker.tasks.values import read_values

    books = opened(store)
    how = manner(books)
    code, texts = client_and_values(values or [], client, None)
    readings = read_values(texts, how.unit)
    kept = asking(lambda kept: correct_session(books, code, session, readings, kept), keep)
    _write(kept, how, json)


@command(app, "show")
def show_(
    client: MaybeClient = None,
    session: Session = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Show one session: her newest, unless you say which.

    tracker measure show mara --session 1
    """
    from tracker.tasks.measuring import session_of
    from tracker.tasks.preferences import manner

    books = opened(store)
    _write(session_of(books, client, session), manner(books), json)


def _write(kept: Any, how: Any, as_json: bool) -> None:
    """Write a session as it was understood, and what is odd about it."""
    if as_json:
        show.as_json(kept)
        return
    s = kept.session
    kind = f", passing: {s.reason}" if s.is_passing else ""
    by = f" by {s.by}" if s.by else ""
    wearing = f", wearing {s.wearing}" if s.wearing else ""
    values = show.counted(len(kept.rows), "value")
    show.tell(f"{kept.client}, measured on {s.on}{by}{wearing}{kind}: {values}.")
    rows = [(r.name, r.shown(how.unit), _repeats(r, how), _marks(r)) for r in kept.rows]
    show.say(show.table(("measurement", "value", "readings", ""), rows, "lr"))
    show.warn(f"{q.sentence}; {q.remedy}" for q in kept.questions)
    show.warn(f"{c.sentence}; {c.remedy}" for c in kept.contradictions)


def _repeats(row: Any, how: Any) -> str:
    from tracker.tasks.values import write_value

    if len(row.values) == 1:
        return ""
    return "; ".join(write_value(v, row.unit, how.unit) for v in row.values)


def _marks(row: Any) -> str:
    marks = ("unusual, confirmed" if row.confirmed else "", "estimated" if row.estimated else "")
    return ", ".join(m for m in marks if m)


@command(app, "list")
def list_(client: MaybeClient = None, store: StoreFile = None, json: AsJson = False) -> None:
    """List a client's measuring sessions, oldest first.

    tracker measure list mara
    """
    from tracker.tasks.measuring import sessions_of
    from tracker.tasks.preferences import manner

    books = opened(store)
    code, rows = sessions_of(books, client)
    if json:
        show.as_json(rows)
        return
    how = manner(books)
    headings = ("no", "date", "by", "kind", "values", "bust", "waist", "hip", "wearing")
    cells = [
        (r.number, r.on, r.by, r.reason or r.kind, r.measurements,
         *(None if mm is None else how.length(mm) for mm in (r.bust_mm, r.waist_mm, r.hip_mm)),
         r.wearing)
        for r in rows
    ]  # fmt: skip
    show.say(show.table(headings, cells, "rlllrrrr") or f"{code} was not measured yet.")


@command(app, "compare")
def compare(
    client: MaybeClient = None,
    before: Annotated[int | None, Option(help="The earlier session's number.")] = None,
    after: Annotated[int | None, Option(help="The later session's number.")] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Is the change real? Hold two sessions against each other; the last two, unless you say.

    A change smaller than two careful readings of one body may differ by is no change yet.

        tracker measure compare mara
        tracker measure compare mara --before 1 --after 3
    """
    from tracker.tasks.measuring import compare_sessions
    from tracker.tasks.preferences import manner

    books = opened(store)
    (first, last), found = compare_sessions(books, client, before, after)
    if json:
        show.as_json(_comparison(first, last, found))
        return
    how = manner(books)
    show.tell(f"Session {first} and session {last}: {found.sentence}.")
    show.say(show.table(
        ("measurement", "before", "now", "change", "real from", ""),
        [_change(c, how) for c in found.changes], "lrrrr",
    ))  # fmt: skip
    show.warn(found.conditions)


def _comparison(first: int, last: int, found: Any) -> dict[str, Any]:
    changes = [{**show.plain(c), "real": c.is_real, "sentence": c.sentence} for c in found.changes]
    return {
        "before": first,
        "after": last,
        "real": found.is_real,
        "sentence": found.sentence,
        "together": found.together,
        "passing": found.passing,
        "conditions": list(found.conditions),
        "changes": changes,
    }


def _change(change: Any, how: Any) -> tuple[str, ...]:
    from tracker.body.vocabulary import measurement, name_with_side
    from tracker.tasks.values import write_value

    entry = measurement(change.key)
    figures = (change.before, change.after, change.difference, change.limit)
    before, after, by, limit = (write_value(v, entry.unit, how.unit) for v in figures)
    sign = "+" if change.difference > 0 else ""
    name = name_with_side(entry, change.side)
    return name, before, after, f"{sign}{by}", limit, "real" if change.is_real else "not yet"


@command(app, "import")
def import_(
    file: Annotated[str, Argument(metavar="FILE", help="A table: date, measurement, value …")],
    client: ClientOption = None,
    keep: Keep = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Bring in sessions from a table, CSV or JSON, as a spreadsheet writes it.

    It needs the columns date, measurement and value; all of it is stored, or nothing.

        tracker measure import mara.csv --client mara
    """
    from tracker.cli.asking import asking
    from tracker.tasks.measuring import import_sessions
    from tracker.tasks.preferences import manner

    books = opened(store)
    how = manner(books)
    content = Path(file).read_bytes()
    sessions = asking(
        lambda kept: import_sessions(books, client, content, how.unit, today(), kept), keep
    )
    if json:
        show.as_json(sessions)
        return
    for session in sessions:
        _write(session, how, json)


@command(app, "export")
def export(
    client: MaybeClient = None,
    out: Annotated[
        str | None, Option(metavar="FILE", help="A .csv or .json file; else it is printed.")
    ] = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Write a client's measurements as a table, one row for every reading.

    tracker measure export mara --out mara.csv
    """
    from tracker.tasks.measuring import export_sessions
    from tracker.tasks.papers import write_new

    as_json = json or (out or "").lower().endswith(".json")
    code, text = export_sessions(opened(store), client, as_json)
    if out is None:
        show.say(text.rstrip())
        return
    write_new(Path(out), text)
    show.tell(f"The measurements of {code} are in {out}. It is personal data: keep it safe.")


@command(app, "sheet")
def sheet(
    client: MaybeClient = None,
    purpose: For = None,
    blank: Annotated[bool, Option("--blank", help="For nobody yet, without last values.")] = False,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Print a measuring sheet in the order in which the tape goes round.

    tracker measure sheet mara
    tracker measure sheet --blank --for bodice --for sleeve > sheet.txt
    """
    from tracker.cli.papers import write_sheet
    from tracker.tasks.measuring import sheet_for
    from tracker.tasks.preferences import manner

    books = opened(store)
    code, found = sheet_for(books, client, tuple(purpose or ["bodice"]), blank)
    if json:
        show.as_json(found)
        return
    write_sheet(code, found, manner(books))


@command(app, "names")
def names(purpose: For = None, json: AsJson = False) -> None:
    """List the measurements by name, with the path of the tape.

    tracker measure names --for bodice
    """
    from tracker.tasks.measuring import measurements_for

    found = measurements_for(tuple(purpose or ()))
    if json:
        show.as_json(found)
        return
    show.say(show.table(("name", "from where, over what, to where"),
                        [(m.name, m.path) for m in found]))  # fmt: skip
