"""Domain values as plain values: what the journal keeps and what an export holds.

The words used as keys are the stored format; fields of the domain may be renamed freely.
"""

import datetime as dt
from typing import Any

from tracker.body.client import Client
from tracker.fitting.garment import Fitting, Garment, GarmentKind
from tracker.fitting.observation import Cause, Observation, Sign, State, Strength
from tracker.fitting.reading import Reading
from tracker.history.step import Taken
from tracker.history.version import Address, Root, Standing, Version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_from, pattern_record

Record = dict[str, Any]


def day(text: str) -> dt.date:
    """Read a date as kept."""
    return dt.date.fromisoformat(text)


def day_or_none(text: str | None) -> dt.date | None:
    """Read a date that may not have been given."""
    return None if text is None else day(text)


def iso(date: dt.date | None) -> str | None:
    """Write a date that may not have been given."""
    return None if date is None else date.isoformat()


def address_from(text: str) -> Address:
    """Read a version's whole address.

    Raises:
        TrackerError: it is no address.
        ValueError: it has no number.
    """
    client, pattern, number = Address.parse(text)
    if number is None:
        raise ValueError(f"{text!r} does not say which version")
    return Address(client, pattern, number)


# -- clients -------------------------------------------------------------------------------


def client_record(client: Client) -> Record:
    """Return a client as plain values."""
    return {
        "code": client.code,
        "name": client.name,
        "card": client.card.to_record(),
        "note": client.note,
    }


def client_from(r: Record) -> Client:
    """Read a client back."""
    from tracker.body.card import Card

    return Client(code=r["code"], name=r["name"], card=Card.from_record(r["card"]), note=r["note"])


# -- fittings ------------------------------------------------------------------------------


def garment_record(garment: Garment) -> Record:
    """Return a garment as plain values."""
    return {
        "id": garment.garment_id,
        "kind": str(garment.kind),
        "cut from": garment.cut_from,
        "cloth": garment.cloth,
        "made on": garment.made_on.isoformat(),
        "outlet mm": garment.outlet_mm,
        "note": garment.note,
    }


def garment_from(r: Record) -> Garment:
    """Read a garment back."""
    return Garment(
        garment_id=r["id"],
        kind=GarmentKind(r["kind"]),
        cut_from=r["cut from"],
        cloth=r["cloth"],
        made_on=day(r["made on"]),
        outlet_mm=float(r["outlet mm"]),
        note=r["note"],
    )


def fitting_record(fitting: Fitting) -> Record:
    """Return a fitting as plain values."""
    return {
        "id": fitting.fitting_id,
        "garment": fitting.garment_id,
        "on": fitting.on.isoformat(),
        "fitter": fitting.fitter,
        "worn beneath": fitting.worn_beneath,
        "heel mm": fitting.heel_mm,
        "inside out": fitting.inside_out,
        "note": fitting.note,
    }


def fitting_from(r: Record) -> Fitting:
    """Read a fitting back."""
    return Fitting(
        fitting_id=r["id"],
        garment_id=r["garment"],
        on=day(r["on"]),
        fitter=r["fitter"],
        worn_beneath=r["worn beneath"],
        heel_mm=float(r["heel mm"]),
        inside_out=bool(r["inside out"]),
        note=r["note"],
    )


def note_record(note: Observation) -> Record:
    """Return a note of a fitting as plain values."""
    return {
        "id": note.observation_id,
        "fitting": note.fitting_id,
        "number": note.number,
        "sign": str(note.sign),
        "seam": note.seam,
        "piece": note.piece,
        "edge": note.edge,
        "side": str(note.side),
        "strength": str(note.strength),
        "direction": note.direction,
        "readings": [reading.record() for reading in note.readings],
        "fitter's words": note.fitter_words,
        "client's words": note.client_words,
        "cause": str(note.cause),
        "state": str(note.state),
        "dealt with in": note.dealt_with_in,
        "settled at": note.settled_at,
        "photo": note.photo,
    }


def note_from(r: Record) -> Observation:
    """Read a note back."""
    return Observation(
        observation_id=r["id"],
        fitting_id=r["fitting"],
        number=r["number"],
        sign=Sign(r["sign"]),
        seam=r["seam"],
        piece=r["piece"],
        edge=r["edge"],
        side=BodySide(r["side"]),
        strength=Strength(r["strength"]),
        direction=r["direction"],
        readings=tuple(Reading.from_record(one) for one in r["readings"]),
        fitter_words=r["fitter's words"],
        client_words=r["client's words"],
        cause=Cause(r["cause"]),
        state=State(r["state"]),
        dealt_with_in=r["dealt with in"],
        settled_at=r["settled at"],
        photo=r["photo"],
    )


# -- versions ------------------------------------------------------------------------------


def standing_record(version: Version) -> Record:
    """Return how far a version has come as plain values."""
    return {
        "standing": str(version.standing),
        "by": version.standing_by,
        "on": iso(version.standing_on),
    }


def version_record(version: Version) -> Record:
    """Return a version, its geometry included, as plain values."""
    return {
        "address": str(version.address),
        "parent": version.parent,
        "parent digest": version.parent_digest,
        "root": None if version.root is None else version.root.record(),
        "steps": [taken.record() for taken in version.taken],
        "pattern": pattern_record(version.pattern),
        "sentence": version.sentence,
        "made on": version.made_on.isoformat(),
        "digest": version.digest,
        **standing_record(version),
    }


def version_from(r: Record) -> Version:
    """Read a version back. Whether its digest agrees is for the caller to see."""
    return Version(
        address=address_from(r["address"]),
        parent=r["parent"],
        parent_digest=r["parent digest"],
        root=None if r["root"] is None else Root.from_record(r["root"]),
        taken=tuple(Taken.from_record(one) for one in r["steps"]),
        pattern=pattern_from(r["pattern"]),
        sentence=r["sentence"],
        made_on=day(r["made on"]),
        digest=r["digest"],
        standing=Standing(r["standing"]),
        standing_by=r["by"],
        standing_on=day_or_none(r["on"]),
    )
