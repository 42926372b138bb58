"""Rows of the tables to domain values and back."""

import json

from tracker.body.client import Client
from tracker.body.session import MeasuringSession
from tracker.fitting.garment import Fitting, Garment
from tracker.fitting.observation import Observation
from tracker.pattern.canonical import (
    canonical,
)
from tracker.store.records import (
    Record,
    client_from,
    client_record,
    fitting_from,
    fitting_record,
    garment_from,
    garment_record,
    note_from,
    note_record,
)
from tracker.store.tables import (
    ClientRow,
    FittingRow,
    GarmentRow,
    ObservationRow,
    ReadingRow,
    SessionRow,
)

# -- clients and measuring sessions --------------------------------------------------------


def client_fields(client: Client) -> Record:
    """Return what a client's row holds."""
    r = client_record(client)
    return {**r, "card": canonical(r["card"])}


def client_of(row: ClientRow) -> Client:
    """Read a client."""
    return client_from(
        {"code": row.code, "name": row.name, "card": json.loads(row.card), "note": row.note}
    )


def session_fields(session: MeasuringSession) -> Record:
    """Return what a session's row holds."""
    r = session.to_record()
    return {
        "held_on": r["on"],
        "by_whom": r["by"],
        "wearing": r["wearing"],
        "heel_mm": r["heel_mm"],
        "kind": r["kind"],
        "reason": r["reason"],
        "reason_on": r["reason_on"],
        "note": r["note"],
    }


def reading_rows(session: MeasuringSession, session_row_id: int) -> list[ReadingRow]:
    """Return the rows of a session's readings."""
    return [
        ReadingRow(
            session_id=session_row_id,
            position=position,
            measurement=r["key"],
            side=r["side"],
            repeats=canonical(r["values"]),
            confirmed=r["confirmed"],
            estimated=r["estimated"],
        )
        for position, r in enumerate(session.to_record()["readings"])
    ]


def session_of(row: SessionRow, readings: list[ReadingRow]) -> MeasuringSession:
    """Read a session."""
    return MeasuringSession.from_record(
        {
            "format": 1,
            "on": row.held_on,
            "by": row.by_whom,
            "wearing": row.wearing,
            "heel_mm": row.heel_mm,
            "kind": row.kind,
            "reason": row.reason,
            "reason_on": row.reason_on,
            "note": row.note,
            "readings": [
                {
                    "key": one.measurement,
                    "side": one.side,
                    "values": json.loads(one.repeats),
                    "confirmed": one.confirmed,
                    "estimated": one.estimated,
                }
                for one in readings
            ],
        }
    )


# -- garments, fittings, notes -------------------------------------------------------------


def garment_fields(garment: Garment) -> Record:
    """Return what a garment's row holds, but for what it refers to."""
    r = garment_record(garment)
    return {
        "garment_id": r["id"],
        "kind": r["kind"],
        "cloth": r["cloth"],
        "made_on": r["made on"],
        "outlet_mm": r["outlet mm"],
        "note": r["note"],
    }


def garment_of(row: GarmentRow, cut_from: str | None) -> Garment:
    """Read a garment."""
    return garment_from(
        {
            "id": row.garment_id,
            "kind": row.kind,
            "cut from": cut_from,
            "cloth": row.cloth,
            "made on": row.made_on,
            "outlet mm": row.outlet_mm,
            "note": row.note,
        }
    )


def fitting_fields(fitting: Fitting) -> Record:
    """Return what a fitting's row holds, but for what it refers to."""
    r = fitting_record(fitting)
    return {
        "fitting_id": r["id"],
        "held_on": r["on"],
        "fitter": r["fitter"],
        "worn_beneath": r["worn beneath"],
        "heel_mm": r["heel mm"],
        "inside_out": r["inside out"],
        "note": r["note"],
    }


def fitting_of(row: FittingRow, garment_id: str) -> Fitting:
    """Read a fitting."""
    return fitting_from(
        {
            "id": row.fitting_id,
            "garment": garment_id,
            "on": row.held_on,
            "fitter": row.fitter,
            "worn beneath": row.worn_beneath,
            "heel mm": row.heel_mm,
            "inside out": row.inside_out,
            "note": row.note,
        }
    )


#: Columns of a note that are called otherwise, or are text of a list, in its record.
_NOTE_WORDS = {
    "observation_id": "id",
    "fitter_words": "fitter's words",
    "client_words": "client's words",
}
_NOTE_SAME = (
    "number", "sign", "seam", "piece", "edge", "side", "strength", "direction", "cause", "state",
    "photo",
)  # fmt: skip


def note_fields(note: Observation) -> Record:
    """Return what a note's row holds, but for what it refers to."""
    r = note_record(note)
    return {
        **{name: r[name] for name in _NOTE_SAME},
        **{column: r[word] for column, word in _NOTE_WORDS.items()},
        "readings": canonical(r["readings"]),
    }


def note_of(
    row: ObservationRow, fitting_id: str, dealt_with_in: str | None, settled_at: str | None
) -> Observation:
    """Read a note."""
    return note_from(
        {
            **{name: getattr(row, name) for name in _NOTE_SAME},
            **{word: getattr(row, column) for column, word in _NOTE_WORDS.items()},
            "readings": json.loads(row.readings),
            "fitting": fitting_id,
            "dealt with in": dealt_with_in,
            "settled at": settled_at,
        }
    )
