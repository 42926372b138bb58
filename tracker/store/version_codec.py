"""Versions to rows and back: a piece once by its digest, and damage told, never hidden."""

import hashlib
import json
from collections.abc import MutableMapping
from dataclasses import dataclass, field, replace

from sqlmodel import SQLModel

from tracker.errors import TrackerError
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
from tracker.pattern.piece import Piece
from tracker.store.records import Record, day, day_or_none, iso
from tracker.store.tables import PieceRow, StepRow, VersionRow

#: What a damaged record may run into on its way back to a value.
UNREADABLE = (
    TrackerError,
    ArithmeticError,
    AssertionError,
    AttributeError,
    LookupError,
    TypeError,
    ValueError,
)


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
    try:
        found = hashlib.sha256(row.drawn.encode()).hexdigest()
        piece = piece_from(json.loads(row.drawn))
    except UNREADABLE as fault:
        return None, f"a piece of it cannot be read ({type(fault).__name__}: {fault})"
    if found != row.digest or row.format != PATTERN_FORMAT:
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
    for one in pieces:
        piece, fault = read_piece(one, known)
        if fault:
            kept.faults.append(fault)
        if piece is None:
            return kept
        read.append(piece)
    try:
        kept.version = _version(address, row, parent, steps, tuple(read))
        found = version_digest(kept.version)
    except UNREADABLE as fault:
        kept.faults.append(f"it cannot be read ({type(fault).__name__}: {fault})")
        return kept
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
    seams, ease = json.loads(row.seams), json.loads(row.ease)
    bare = pattern_from({"format": row.format, "pieces": [], "seams": seams, "ease": ease})
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
