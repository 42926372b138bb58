"""Rows of the tables to domain values and back."""

import hashlib
import json
from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass, field, replace

from sqlmodel import SQLModel

from tracker.body.client import Client
from tracker.body.session import MeasuringSession
from tracker.errors import TrackerError
from tracker.fitting.garment import Fitting, Garment
from tracker.fitting.observation import Observation
from tracker.history.step import FORMAT as STEP_FORMAT
from tracker.history.step import Taken
from tracker.history.version import Address, Root, Standing, Version, version_digest
from tracker.pattern.canonical import (
    canonical,
    pattern_from,
    pattern_record,
    piece_digest,
    piece_from,
    piece_record,
)
from tracker.pattern.pattern import FORMAT as PATTERN_FORMAT
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.store.records import (
    Record,
    client_from,
    client_record,
    day,
    day_or_none,
    fitting_from,
    fitting_record,
    garment_from,
    garment_record,
    iso,
    note_from,
    note_record,
)
from tracker.store.tables import (
    ClientRow,
    FittingRow,
    GarmentRow,
    ObservationRow,
    PieceRow,
    ReadingRow,
    SessionRow,
    StepRow,
    VersionRow,
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


# -- versions ------------------------------------------------------------------------------


def piece_row(piece: Piece) -> Record:
    """Return what a piece's row holds."""
    return {
        "digest": piece_digest(piece),
        "format": PATTERN_FORMAT,
        "drawn": canonical(piece_record(piece)),
    }


def version_fields(version: Version) -> Record:
    """Return what a version's row holds, but for what it refers to."""
    drawn = pattern_record(replace(version.pattern, pieces=()))
    return {
        "parent_digest": version.parent_digest,
        "root": None if version.root is None else canonical(version.root.record()),
        "format": drawn["format"],
        "seams": canonical(drawn["seams"]),
        "ease": canonical(drawn["ease"]),
        "sentence": version.sentence,
        "made_on": version.made_on.isoformat(),
        "digest": version.digest,
        "standing": str(version.standing),
        "standing_by": version.standing_by,
        "standing_on": iso(version.standing_on),
    }


def step_fields(taken: Taken) -> Record:
    """Return what a step's row holds, but for what it refers to."""
    r = taken.record()
    step = r["step"]
    return {
        "step_id": step["id"],
        "format": step["format"],
        "kind": step["kind"],
        "rule": step["rule"],
        "parameters": canonical(step["parameters"]),
        "because": canonical(step["because"]),
        "sentence": r["sentence"],
        "effect": canonical(r["effect"]),
        "trace": canonical(r["trace"]),
    }


def taken_of(row: StepRow) -> Taken:
    """Read a step.

    Raises:
        ValueError: it is of a format this program does not know.
    """
    if row.format != STEP_FORMAT:
        raise ValueError(f"step {row.position} is in format {row.format}")
    return Taken.from_record(
        {
            "step": {
                "format": row.format,
                "id": row.step_id,
                "kind": row.kind,
                "rule": row.rule,
                "parameters": json.loads(row.parameters),
                "because": json.loads(row.because),
            },
            "sentence": row.sentence,
            "effect": json.loads(row.effect),
            "trace": json.loads(row.trace),
        }
    )


@dataclass(slots=True)
class AsKept:
    """A version as the store has it, sound or not.

    Attributes:
        address: which one.
        version: what could be read; none where it could not be read at all.
        faults: what is not as it was written, in words without the address.
    """

    address: Address
    version: Version | None
    faults: list[str] = field(default_factory=list)


def read_piece(row: PieceRow, known: MutableMapping[str, Piece]) -> tuple[Piece | None, str | None]:
    """Read a piece, once for all versions that have it.

    Returns:
        The piece, if it can be read, and what is wrong with it, if anything is.
    """
    if row.digest in known:
        return known[row.digest], None
    found = hashlib.sha256(row.drawn.encode()).hexdigest()
    sound = found == row.digest and row.format == PATTERN_FORMAT
    try:
        piece = piece_from(json.loads(row.drawn))
    except (TrackerError, KeyError, TypeError, ValueError, AttributeError) as fault:
        return None, f"a piece of it cannot be read ({type(fault).__name__}: {fault})"
    if not sound:
        return piece, (
            f"its {piece.label} is not as it was written: the digest should begin "
            f"{row.digest[:8]} and comes to {found[:8]}"
        )
    # The text was just seen to have this digest, and it was settled when it was written.
    piece.__dict__["_digest"] = row.digest
    piece.__dict__["_settled"] = True
    known[row.digest] = piece
    return piece, None


def read_version(
    address: Address,
    row: VersionRow,
    parent: str | None,
    steps: list[StepRow],
    pieces: list[PieceRow],
    known: MutableMapping[str, Piece],
) -> AsKept:
    """Read a version and see that it is as it was written; never raises for damage."""
    kept = AsKept(address, None)
    read: list[Piece] = []
    for piece_row_ in pieces:
        piece, fault = read_piece(piece_row_, known)
        if fault:
            kept.faults.append(fault)
        if piece is None:
            return kept
        read.append(piece)
    try:
        kept.version = _version(address, row, parent, steps, tuple(read))
    except (TrackerError, KeyError, TypeError, ValueError, AttributeError) as fault:
        kept.faults.append(f"it cannot be read ({type(fault).__name__}: {fault})")
        return kept
    found = version_digest(kept.version)
    if found != row.digest and not kept.faults:
        kept.faults.append(
            f"it is not as it was written: its digest should begin {row.digest[:8]} and comes to "
            f"{found[:8]}"
        )
    return kept


def _version(
    address: Address,
    row: VersionRow,
    parent: str | None,
    steps: list[StepRow],
    pieces: tuple[Piece, ...],
) -> Version:
    rest: Mapping[str, object] = {
        "format": row.format,
        "pieces": [],
        "seams": json.loads(row.seams),
        "ease": json.loads(row.ease),
    }
    bare: Pattern = pattern_from(dict(rest))
    return Version(
        address=address,
        parent=parent,
        parent_digest=row.parent_digest,
        root=None if row.root is None else Root.from_record(json.loads(row.root)),
        taken=tuple(taken_of(step) for step in steps),
        pattern=replace(bare, pieces=pieces),
        sentence=row.sentence,
        made_on=day(row.made_on),
        digest=row.digest,
        standing=Standing(row.standing),
        standing_by=row.standing_by,
        standing_on=day_or_none(row.standing_on),
    )


def written_otherwise(version: Version, row: VersionRow, steps: list[StepRow]) -> list[str]:
    """Return what of a version's rows is not the text it would be written as.

    A digit can change without changing the number it belongs to, past the end of what a number
    holds; the digest, which is taken of the numbers, does not see it.
    """
    rows: list[tuple[str, SQLModel, Record]] = [("its record", row, version_fields(version))]
    for step, taken in zip(steps, version.taken, strict=True):
        rows.append((f"step {step.position + 1}", step, step_fields(taken)))
    return [
        f"{what} is not as it was written ({name.replace('_', ' ')})"
        for what, kept, fields in rows
        for name, value in fields.items()
        if getattr(kept, name) != value
    ]
