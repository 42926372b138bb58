"""Alterations as they are said: turned into a kind of step for the pattern at hand."""

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.walk import walked
from tracker.tasks.typed_kind import NotSaid, typed_name

if TYPE_CHECKING:
    from tracker.pattern.pattern import Pattern
    from tracker.pattern.seam import Seam
    from tracker.tasks.altering import Maker


@dataclass(frozen=True, slots=True)
class KindRow:
    """A kind of alteration in a list.

    Attributes:
        word: what it is called.
        help: what it does.
        family: draft, style or alteration.
        parameters: their names, as they are typed.
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
    return [typed_name(field.name) for field in fields(kind)]
