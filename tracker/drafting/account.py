"""The account every drafted block gives of itself: wanted and got, chosen, notes."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tracker.body.body import Body
from tracker.body.ease import EasePlan
from tracker.body.measurement import BodySide
from tracker.body.vocabulary import BY_KEY, name_with_side
from tracker.drafting.bodice_measured import Row
from tracker.drafting.bodice_preference import Preference
from tracker.pattern.pattern import Pattern
from tracker.units import write_tenths


@dataclass(frozen=True)
class Account(ABC):
    """A drafted block and its account; each kind of block says what was decided for it.

    Attributes:
        pattern: the block, rounded as it is stored.
        table: wanted figures with what was got, chosen ones with what was preferred, notes.
        body: the body it was drafted from.
        ease: the ease plan.
    """

    pattern: Pattern
    table: tuple[Row, ...]
    body: Body
    ease: EasePlan

    @property
    def wanted(self) -> tuple[Row, ...]:
        """The figures that had to be met."""
        return tuple(row for row in self.table if row.kind == "wanted")

    @property
    def chosen(self) -> tuple[Row, ...]:
        """The free figures, each with what was preferred for it."""
        return tuple(row for row in self.table if row.kind == "chosen")

    @property
    def notes(self) -> tuple[str, ...]:
        """What there is to know besides."""
        return tuple(row.note for row in self.table if row.kind == "note")

    @property
    def worst_miss(self) -> float:
        """The largest miss of a wanted figure, mm or degrees."""
        return max(abs(row.miss) for row in self.wanted)

    @property
    @abstractmethod
    def used(self) -> tuple[str, ...]:
        """The keys of the measurements it was drafted from."""

    @abstractmethod
    def sentence(self) -> str:
        """Say what was drafted, for people."""

    @abstractmethod
    def to_record(self) -> dict[str, Any]:
        """Return the recipe as plain values, to be stored beside the geometry."""

    def recipe(self, kind: str, form: int, rule: int, choices: Mapping[str, Any]) -> dict[str, Any]:
        """Return the recipe of a kind of draft, by the revision of its arithmetic."""
        return {
            "kind": kind,
            "format": form,
            "rule": rule,
            "body": self.body.to_record(),
            "ease": self.ease.to_record(),
            "choices": dict(choices),
        }


def chosen_row(p: Preference) -> Row:
    """Return the line of the table for a free figure."""
    got, target, low, high = (
        round(float(v if isinstance(v, (int, float)) else v.flat[0]), 3)
        for v in (p.got, p.target, p.low, p.high)
    )
    return Row(
        kind="chosen", name=p.name, wanted=target, got=got, unit=p.unit,
        low=low, high=high, note=p.source,
    )  # fmt: skip


def note_row(name: str, text: str) -> Row:
    """Return a line of the table that only says something."""
    return Row(kind="note", name=name, note=text)


def uneven_rows(body: Body, keys: Iterable[str], side: BodySide) -> Iterator[Row]:
    """Say of each measurement that differs right and left which was drafted."""
    for key in keys:
        if body.is_uneven(key):
            taken = (
                "their mean is drafted"
                if side == "both"
                else f"the {side} one is drafted for both sides"
            )
            yield note_row(
                BY_KEY[key].name,
                f"{BY_KEY[key].name} is {write_tenths(body.value(key, 'right'))} right and "
                f"{write_tenths(body.value(key, 'left'))} left; {taken}, and one side is altered "
                f"afterwards",
            )


def estimated_rows(body: Body, used: Collection[str]) -> Iterator[Row]:
    """Say which of the measurements used were estimated."""
    guessed = [name_with_side(BY_KEY[o.key], o.side) for o in body.estimates if o.key in used]
    if guessed:
        yield note_row("estimated", f"estimated, not measured: {', '.join(guessed)}")


def met_row(name: str, wanted: float, got: float, note: str = "", unit: str = "mm") -> Row:
    """Return the line of the table for a figure that had to be met."""
    return Row(kind="wanted", name=name, wanted=wanted, got=got, unit=unit, note=note)
