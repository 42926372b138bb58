"""The vocabulary of body measurements, in tape order, and finding one by a typed name."""

from dataclasses import replace

from tracker.body.measurement import BodySide, Measurement, Purpose
from tracker.body.measurements_arm import ARM
from tracker.body.measurements_girth import GIRTHS
from tracker.body.measurements_lower import HIPS, LENGTHS
from tracker.body.measurements_torso import BACK_AND_SHOULDER, FRONT_AND_SIDE
from tracker.errors import TrackerError, nearest_names

VOCABULARY: tuple[Measurement, ...] = tuple(
    replace(entry, order=order)
    for order, entry in enumerate(
        (*GIRTHS, *BACK_AND_SHOULDER, *FRONT_AND_SIDE, *ARM, *HIPS, *LENGTHS), start=1
    )
)
"""Every measurement, in the order in which the tape goes round."""

BY_KEY: dict[str, Measurement] = {entry.key: entry for entry in VOCABULARY}


class UnknownMeasurement(TrackerError):
    """No measurement has the name that was typed."""

    exit_code = 2


class WhichMeasurement(UnknownMeasurement):
    """A name that could be several measurements."""


#: Said alone, these mean the girth; nobody says “waist” for the waist to the knee.
_GIRTHS_ALONE = ("bust", "waist", "hip")


class WrongSide(TrackerError):
    """A body side was given that the measurement does not have."""

    exit_code = 2


def measurement(name: str) -> Measurement:
    """Return the measurement with this key, trade name or other name in the trade.

    Case, hyphens and commas do not matter, and "girth" may be left out where nothing else is
    called so.

    Raises:
        WhichMeasurement: several could be meant; the sentence names them.
        UnknownMeasurement: none has it; the sentence suggests the nearest names.
    """
    if name in BY_KEY:
        return BY_KEY[name]
    wanted = _loosely(name)
    for entry in VOCABULARY:
        if wanted in (_loosely(entry.key), _loosely(entry.name)):
            return entry
    for entry in VOCABULARY:
        if any(wanted == _loosely(word) for word in entry.words):
            return entry
    could = _could_be(wanted)
    girth = next((e for e in could if _loosely(e.name) == f"{wanted} girth"), None)
    if girth and (wanted in _GIRTHS_ALONE or len(could) == 1):
        return girth
    if len(could) > 1:
        *others, last = (entry.name for entry in could)
        raise WhichMeasurement(
            f"which {wanted}? It could be {'; '.join(others)}; or {last}. Type the one you mean"
        )
    known = {
        _loosely(text): entry
        for entry in VOCABULARY
        for text in (*entry.words, entry.name, entry.name.removesuffix(" girth"))
    }
    hint = nearest_names(wanted, list(known))
    hint = hint or " The measuring sheet lists them all."
    raise UnknownMeasurement(f"there is no measurement called “{name}”.{hint}")


def _could_be(wanted: str) -> tuple[Measurement, ...]:
    """The measurements whose name goes on from a word; not those from a point of that name."""
    return tuple(
        entry
        for entry in VOCABULARY
        if _loosely(entry.name).startswith(f"{wanted} ")
        and not _loosely(entry.name).startswith(f"{wanted} point ")
    )


def for_purpose(purpose: Purpose) -> tuple[Measurement, ...]:
    """Return the measurements for a block, in tape order."""
    return tuple(entry for entry in VOCABULARY if purpose in entry.purposes)


def checked_side(entry: Measurement, side: BodySide) -> BodySide:
    """Return the side if the measurement may have it.

    Raises:
        WrongSide: a left or right was given of a measurement that is one for the whole body,
            or the side is none at all.
    """
    if side not in ("both", "right", "left"):
        raise WrongSide(f"“{side}” is not a side of the body; use right, left or both")
    if side != "both" and not entry.sided:
        raise WrongSide(f"{entry.name} is one measurement of the whole body; leave out “{side}”")
    return side


def name_with_side(entry: Measurement, side: BodySide) -> str:
    """Return the trade name with its side: ``right shoulder length``, ``bust girth``."""
    return entry.name if side == "both" else f"{side} {entry.name}"


def _loosely(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").replace(",", " ").replace("_", " ").split())
