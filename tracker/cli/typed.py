"""What was typed, turned into what the tasks take."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tracker.cli.clock import read_day
from tracker.errors import TrackerError

if TYPE_CHECKING:
    from tracker.body.session import MeasuringSession
    from tracker.tasks.preferences import Manner
    from tracker.tasks.typed_kind import Hearing

_SPOT = re.compile(
    r"(?:(?P<distance>.+?)\s+from\s+)?(?:the\s+)?(?P<corner>.+?)(?:\s+on\s+(?:the\s+)?(?P<piece>.+))?"
)


class TypedOtherwise(TrackerError):
    """Something typed that cannot be read as what was asked for."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class Spoken:
    """An amount at a place, as it was said.

    Attributes:
        amount_mm: how much; 0 for “nothing”.
        corner: the corner it is measured from; "" for all along.
        distance_mm: from the corner.
        piece: the piece it is on, if one was named.
    """

    amount_mm: float
    corner: str
    distance_mm: float
    piece: str | None


def client_and_values(
    words: Sequence[str], client: str | None, source: str | None
) -> tuple[str | None, list[str]]:
    """Part a client's code from the values after it, and add the lines of a file."""
    values = list(words)
    if values and "=" not in values[0] and client is None:
        client = values.pop(0)
    if source:
        values.extend(_lines(Path(source)))
    return client, values


def _lines(path: Path) -> list[str]:
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as fault:
        raise TypedOtherwise(f"{path} is not a text file") from fault
    lines = [line.split("#")[0].strip() for line in text.splitlines()]
    return [line for line in lines if line]


def session_of(
    texts: Sequence[str],
    how: "Manner",
    *,
    on: dt.date,
    by: str,
    wearing: str,
    heel: str,
    reason: str,
    due: str | None,
    note: str,
    today: dt.date,
) -> "MeasuringSession":
    """Return a measuring session from typed values.

    Raises:
        TrackerError: an unknown name, no length, or a day that cannot be.
    """
    from tracker.body.session import MeasuringSession
    from tracker.tasks.named import not_to_come
    from tracker.tasks.values import read_values
    from tracker.units import read_length

    not_to_come(on, today, "a measuring session")
    return MeasuringSession(
        on=on,
        by=by or how.maker,
        wearing=wearing,
        heel_mm=read_length(heel, how.unit),
        kind="passing" if reason else "usual",
        reason=reason,
        reason_on=read_day(due) if due else None,
        readings=read_values(texts, how.unit),
        note=note,
    )


def read_amount(text: str, how: "Manner", *, allow_negative: bool = False) -> Spoken:
    """Read an amount at a place.

    ``10mm at side waist``, ``5mm at 4cm from underarm point``, ``nothing at underarm point``,
    ``6mm at side waist on front``, ``8mm all along``.

    Raises:
        TrackerError: it says no amount or no place.
    """
    from tracker.units import read_length

    plain = " ".join(text.split())
    amount, at, place = plain.partition(" at ")
    if not at and plain.endswith(" all along"):
        amount = plain.removesuffix(" all along")
        mm = read_length(amount, how.unit, allow_negative=allow_negative)
        return Spoken(mm, "", 0.0, None)
    if not at:
        raise TypedOtherwise(
            f"“{text}” does not say how much and where; write it like “10mm at side waist”, “5mm "
            "at 4cm from underarm point” or “nothing at underarm point”"
        )
    nothing = amount.lower() in ("nothing", "none", "0")
    mm = 0.0 if nothing else read_length(amount, how.unit, allow_negative=allow_negative)
    corner, distance_mm, piece = read_spot(place, how)
    return Spoken(mm, corner, distance_mm, piece)


def read_spot(text: str, how: "Manner") -> tuple[str, float, str | None]:
    """Read a place: a corner, perhaps a distance from it, perhaps a piece it is on.

    Raises:
        TrackerError: the distance is no length.
    """
    from tracker.units import read_length

    found = _SPOT.fullmatch(" ".join(text.split()))
    assert found is not None  # anything but nothing is at least a corner
    distance_mm = read_length(found["distance"], how.unit) if found["distance"] else 0.0
    return found["corner"], distance_mm, found["piece"]


def read_pairs(texts: Sequence[str], example: str) -> list[tuple[str, str]]:
    """Read ``name=value`` words.

    Raises:
        TypedOtherwise: there is no ``=`` in one.
    """
    pairs: list[tuple[str, str]] = []
    for text in texts:
        name, sign, value = text.partition("=")
        if not sign or not name.strip():
            raise TypedOtherwise(f"“{text}” has no name and value; write it like {example}")
        pairs.append((name.strip(), value.strip()))
    return pairs


def parted_by_plus(words: Sequence[str]) -> list[list[str]]:
    """Part words at every ``+`` that stands alone.

    Raises:
        TypedOtherwise: nothing stands before or after one.
    """
    parts: list[list[str]] = [[]]
    for word in words:
        if word == "+":
            parts.append([])
        else:
            parts[-1].append(word)
    if not all(parts):
        raise TypedOtherwise("before and after a + stands an alteration; see tracker alter kinds")
    return parts


def read_side(text: str) -> Any:
    """Read the wearer's side.

    Raises:
        TypedOtherwise: it is none.
    """
    from tracker.pattern.bodyside import BodySide

    word = text.strip().lower()
    if word not in (BodySide.RIGHT, BodySide.LEFT, BodySide.BOTH):
        raise TypedOtherwise(f"“{text}” is not a side of the wearer; say right, left or both")
    return BodySide(word)


def version_and_amounts(words: Sequence[str]) -> tuple[str | None, list[str]]:
    """Part a version's address from the amounts after it."""
    texts = list(words)
    if texts and " at " not in texts[0] and not texts[0].strip().endswith("all along"):
        return texts[0], texts[1:]
    return None, texts


def maybe_length(text: str | None, how: "Manner") -> float | None:
    """Read a length that may be left out; return millimetres.

    Raises:
        NotALength: it is none.
    """
    from tracker.units import read_length

    return None if text is None else read_length(text, how.unit)


def read_square(text: str | None, how: "Manner") -> tuple[float, float]:
    """Read what a test square measured, across and up; one length stands for both.

    Raises:
        TypedOtherwise: there are more than two lengths.
    """
    from tracker.units import read_length

    if text is None:
        return 100.0, 100.0
    sides = [read_length(part, how.unit) for part in text.split(";")]
    if len(sides) > 2:
        raise TypedOtherwise("a test square has two sides; give one length, or two with ; between")
    return sides[0], sides[-1]


def hearing(how: "Manner") -> "Hearing":
    """Return how typed lengths and places are read, in the maker's unit."""
    from tracker.tasks.typed_kind import Hearing
    from tracker.units import read_length

    return Hearing(
        lambda text: read_length(text, how.unit, allow_negative=True),
        lambda text: read_spot(text, how),
    )


def read_shares(texts: Sequence[str]) -> dict[str, float]:
    """Read shares of a line's gap: ``waist line=60%``.

    Raises:
        TrackerError: it is no share from 0 to 100 %.
    """
    shares = {}
    for line, text in read_pairs(texts, "waist line=60%"):
        number = text.strip().removesuffix("%").strip()
        if not number.isdigit() or int(number) > 100:
            raise TypedOtherwise(f"“{text}” is no share; write 0% to 100%, as in “waist line=60%”")
        shares[line] = int(number) / 100
    return shares


def read_answer(cause: str | None, by: str | None, how: "Manner") -> Any:
    """Read the cause decided on and its amount; nothing where none was.

    Raises:
        TrackerError: an amount without a cause, or no length.
    """
    from tracker.fitting.propose import Answer
    from tracker.units import read_length

    if cause is None:
        if by is not None:
            raise TypedOtherwise(
                "by how much of what? Say the cause too, as in --as “round back” --by 12mm"
            )
        return None
    return Answer(cause, None if by is None else read_length(by, how.unit))
