"""A client whole: out of the store as plain values, into another store, or erased for good."""

import json
from typing import Any

from sqlmodel import col, delete, select

from tracker.body.session import MeasuringSession
from tracker.errors import TrackerError
from tracker.pattern.canonical import canonical, piece_digest, piece_record
from tracker.store.books import Books
from tracker.store.clients import CodeTaken
from tracker.store.opening import NotStored
from tracker.store.records import (
    Record,
    address_from,
    client_from,
    client_record,
    day,
    fitting_from,
    fitting_record,
    garment_from,
    garment_record,
    note_from,
    note_record,
    version_from,
    version_record,
)
from tracker.store.search import REBUILD
from tracker.store.tables import (
    ClientRow,
    FittingRow,
    GarmentRow,
    JournalRow,
    ObservationRow,
    PatternRow,
    PieceRow,
    PrintingRow,
    ReadingRow,
    SessionRow,
    StepRow,
    VersionPieceRow,
    VersionRow,
)

FORMAT = 1
WHAT = "a client of the dressmaker's tracker"


class NotAnExport(TrackerError):
    """A record that is not a whole client."""


def export_client(books: Books, code: str) -> dict[str, Any]:
    """Return everything that is known of a client as plain values.

    Raises:
        UnknownClient: no client has this code.
        DamagedRecord: something of hers is not as it was written.
    """
    owner = books._client_row(code)
    versions = [
        books.version(code, name, number)
        for name, number in books.work.exec(
            select(PatternRow.name, VersionRow.number)
            .join(VersionRow, col(VersionRow.pattern_id) == col(PatternRow.id))
            .where(PatternRow.client_id == owner.id)
            .order_by(col(VersionRow.id))
        ).all()
    ]
    pieces = {piece_digest(p): piece_record(p) for v in versions for p in v.pattern.pieces}
    # Through text and back: what is handed over is exactly what a file would hold.
    whole: dict[str, Any] = json.loads(
        canonical(
            {
                "what": WHAT,
                "format": FORMAT,
                "client": client_record(books.client(code)),
                "sessions": [
                    {"id": session_id, **session.to_record()}
                    for session_id, session in zip(
                        books.session_ids(code), books.sessions(code), strict=True
                    )
                ],
                "pieces": pieces,
                "versions": [
                    _by_digest(version_record(v), [piece_digest(p) for p in v.pattern.pieces])
                    for v in versions
                ],
                "printings": _printings(books, owner.id),
                "garments": [garment_record(one) for one in books.garments(code)],
                "fittings": [fitting_record(one) for one in books.fittings(code)],
                "notes": [note_record(one) for one in books.notes(code)],
                "journal": _journal(books, owner.id),
            }
        )
    )
    return whole


def _by_digest(version: Record, digests: list[str]) -> Record:
    """Name a version's pieces by digest: most versions share most of them."""
    return {**version, "pattern": {**version["pattern"], "pieces": digests}}


def _printings(books: Books, client_id: int) -> list[Record]:
    rows = books.work.exec(
        select(PrintingRow)
        .join(VersionRow, col(VersionRow.id) == col(PrintingRow.version_id))
        .join(PatternRow, col(PatternRow.id) == col(VersionRow.pattern_id))
        .where(PatternRow.client_id == client_id)
        .order_by(col(PrintingRow.id))
    ).all()
    return [{"version": books._address_of(r.version_id), "on": r.printed_on} for r in rows]


def _journal(books: Books, client_id: int) -> list[Record]:
    rows = books.work.exec(
        select(JournalRow).where(JournalRow.client_id == client_id).order_by(col(JournalRow.id))
    )
    return [
        {
            "written at": row.written_at,
            "subject": row.subject,
            "subject key": row.subject_key,
            "what": row.what,
            "before": None if row.before is None else json.loads(row.before),
            "after": None if row.after is None else json.loads(row.after),
        }
        for row in rows
    ]


def import_client(books: Books, record: dict[str, Any]) -> None:
    """Put an exported client into the store, with everything that is hers.

    Raises:
        NotAnExport: it is not one, or not whole; the caller's transaction is rolled back.
        CodeTaken, NotStored: she is here already, or another client has her code.
        StoreError: a version is not as it was written.
    """
    if record.get("what") != WHAT:
        raise NotAnExport("this is not an exported client; make one with `tracker client export`")
    if record.get("format") != FORMAT:
        raise NotAnExport(
            f"this client was exported in format {record.get('format')!r} and this program reads "
            f"format {FORMAT}; a newer program wrote it"
        )
    try:
        _put_in(books, record)
    except (KeyError, TypeError, ValueError, AttributeError) as fault:
        raise NotAnExport(
            f"this exported client is not whole ({type(fault).__name__}: {fault}); export her again"
        ) from fault


def _put_in(books: Books, record: dict[str, Any]) -> None:
    client = client_from(record["client"])
    try:
        books.add_client(client)
    except CodeTaken as fault:
        raise CodeTaken(
            f"the code {client.code!r} is taken in this store, so she cannot be brought in; "
            "change the other client's code or erase her first"
        ) from fault
    for one in record["sessions"]:
        books.add_session(client.code, one["id"], MeasuringSession.from_record(one))
    for one in record["versions"]:
        drawn = {
            **one["pattern"],
            "pieces": [record["pieces"][d] for d in one["pattern"]["pieces"]],
        }
        version = version_from({**one, "pattern": drawn})
        if version.address.client != client.code:
            raise NotStored(f"{version.address} is not {client.code}'s")
        books.add_version(version)
    for one in record["printings"]:
        books.mark_printed(address_from(one["version"]), day(one["on"]))
    for one in record["garments"]:
        books.add_garment(client.code, garment_from(one))
    for one in record["fittings"]:
        books.add_fitting(client.code, fitting_from(one))
    for one in record["notes"]:
        books.add_note(client.code, note_from(one))
    owner = books._client_row(client.code)
    for one in record["journal"]:
        books.work.add(
            JournalRow(
                written_at=one["written at"],
                client_id=owner.id,
                subject=one["subject"],
                subject_key=one["subject key"],
                what=one["what"],
                before=None if one["before"] is None else canonical(one["before"]),
                after=None if one["after"] is None else canonical(one["after"]),
            )
        )
    books.work.flush()


def erase_client(books: Books, code: str) -> None:
    """Erase a client and everything that is hers, the journal included.

    After the commit the file is written afresh, so that nothing of her lingers in its empty
    places. Copies that were made before (``opening.backups_beside``, exports, prints) are not
    reached: tell the maker of them.

    Raises:
        UnknownClient: no client has this code.
    """
    owner = books._client_row(code).id
    work = books.work
    garments = select(GarmentRow.id).where(GarmentRow.client_id == owner)
    fittings = select(FittingRow.id).where(col(FittingRow.garment_id).in_(garments))
    patterns = select(PatternRow.id).where(PatternRow.client_id == owner)
    versions = select(VersionRow.id).where(col(VersionRow.pattern_id).in_(patterns))
    sessions = select(SessionRow.id).where(SessionRow.client_id == owner)
    # What refers goes before what it refers to.
    work.exec(delete(ObservationRow).where(col(ObservationRow.fitting_id).in_(fittings)))
    work.exec(delete(FittingRow).where(col(FittingRow.garment_id).in_(garments)))
    work.exec(delete(GarmentRow).where(col(GarmentRow.client_id) == owner))
    work.exec(delete(PrintingRow).where(col(PrintingRow.version_id).in_(versions)))
    work.exec(delete(StepRow).where(col(StepRow.version_id).in_(versions)))
    work.exec(delete(VersionPieceRow).where(col(VersionPieceRow.version_id).in_(versions)))
    work.exec(delete(VersionRow).where(col(VersionRow.pattern_id).in_(patterns)))
    work.exec(delete(PatternRow).where(col(PatternRow.client_id) == owner))
    work.exec(delete(ReadingRow).where(col(ReadingRow.session_id).in_(sessions)))
    work.exec(delete(SessionRow).where(col(SessionRow.client_id) == owner))
    work.exec(delete(JournalRow).where(col(JournalRow.client_id) == owner))
    work.exec(delete(ClientRow).where(col(ClientRow.id) == owner))
    kept = select(VersionPieceRow.piece_digest)
    work.exec(delete(PieceRow).where(col(PieceRow.digest).not_in(kept)))
    books.driver.execute(REBUILD)
    work.expire_all()
    books._write_down("a client was erased, at her wish or the maker's", "client", "", None, None)
    work.flush()
    books.someone_was_erased = True
