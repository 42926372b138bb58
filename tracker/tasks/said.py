"""Alterations as they are said: turned into a kind of step for the pattern at hand."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

from tracker.alterations.kind import Kind, kind_named, kinds
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError, nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.walk import walked

if TYPE_CHECKING:
    from tracker.pattern.pattern import Pattern
    from tracker.pattern.seam import Seam
    from tracker.tasks.altering import Maker


class NotSaid(TrackerError):
    """An alteration that was not said so that it can be made."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class KindRow:
    """A kind of alteration in a list.

    Attributes:
        word: what it is called.
        help: what it does.
        family: draft, style or alteration.
        parameters: their names.
    """

    word: str
    help: str
    family: str
    parameters: tuple[str, ...]


def take_in(
    seam: str,
    side: BodySide,
    amounts: tuple[tuple[float, str, float], ...],
    only: str | None = None,
) -> "Maker":
    """Return what takes in (or, with negative amounts, lets out) a seam.

    Args:
        seam: its name.
        side: both, or the wearer's right or left only.
        amounts: (amount in mm, corner, distance in mm from it); without a corner all along.
        only: the piece it all comes from; without it half from each.
    """
    if not amounts:
        raise NotSaid("how much, and where? Say it like “10mm at side waist”")

    def made(pattern: "Pattern") -> Kind:
        line = pattern.seam(seam, side)
        start = walked(pattern, line.first)[0].first_corner
        return TakeIn(
            seam=line.name,
            side=side,
            share=_share(line, only),
            amounts=tuple(
                AmountAt(corner=corner or start, distance_mm=distance, amount_mm=mm)
                for mm, corner, distance in amounts
            ),
        )

    return made


def _share(seam: "Seam", only: str | None) -> float:
    if only is None:
        return 0.5
    if any(run.piece == only for run in seam.first):
        return 1.0
    if any(run.piece == only for run in seam.second):
        return 0.0
    pieces = list(dict.fromkeys(run.piece for run in (*seam.first, *seam.second)))
    raise NotSaid(
        f"the {seam.name} seam joins {' and '.join(pieces)}, and no {only}."
        f"{nearest_names(only, pieces)}"
    )


def as_it_is(kind: Kind) -> "Maker":
    """Return what makes this very step, whatever the pattern."""
    return lambda _: kind


def kind_rows() -> tuple[KindRow, ...]:
    """Return every kind of alteration."""
    return tuple(
        KindRow(word, kind.help, kind.family, tuple(_fields(kind)))
        for word, kind in kinds().items()
    )


def _fields(kind: type[Kind]) -> list[str]:
    return [field.name for field in fields(kind)]


@dataclass(frozen=True, slots=True)
class Hearing:
    """How typed lengths and amounts are read, in the maker's unit.

    Attributes:
        length: a length, in mm.
        amount: an amount at a place: mm, corner, distance in mm from it.
    """

    length: Callable[[str], float]
    amount: Callable[[str], tuple[float, str, float]]


def read_kind(word: str, given: Mapping[str, str], hearing: Hearing) -> Kind:
    """Return a kind from typed parameters.

    Args:
        word: what the kind is called.
        given: parameter name, with or without ``_mm``, to what was typed; amounts at places
            with ``;`` between.
        hearing: how lengths and amounts are read.

    Raises:
        TrackerError: no such kind, no such parameter, or a value it cannot have.
    """
    kind = kind_named(word)
    known = _fields(kind)
    read: dict[str, Any] = {}
    for name, text in given.items():
        plain = name.strip().lower().replace(" ", "_").replace("-", "_")
        field = next((f for f in known if plain in (f, f.removesuffix("_mm"))), None)
        if field is None:
            raise NotSaid(
                f"{word} has no “{name}”; it has {', '.join(known)}.{nearest_names(name, known)}"
            )
        read[field] = _value(field, text, hearing)
    return kind.from_parameters(read)


def _value(field: str, text: str, hearing: Hearing) -> Any:
    if field.endswith("_mm"):
        return hearing.length(text)
    if field == "amounts":
        heard = [hearing.amount(part) for part in text.split(";")]
        return [{"amount_mm": mm, "corner": c, "distance_mm": d} for mm, c, d in heard]
    if field.endswith("_deg") or field in ("share", "degrees"):
        try:
            return float(text.removesuffix("°"))
        except ValueError as fault:
            raise NotSaid(f"{field}: “{text}” is not a number") from fault
    return {"yes": True, "no": False}.get(text.lower(), text)
