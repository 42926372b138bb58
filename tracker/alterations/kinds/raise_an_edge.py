"""Raise or lower a waist or hem evenly."""

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.lower_edges import edges_called, into_the_piece
from tracker.alterations.shaping import at, shaped
from tracker.alterations.told import (
    ONE_SIDE,
    applied,
    centre_ends,
    mm,
    on_paper,
    one_sided,
    parted,
    whose,
)
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern


class Height(StrEnum):
    """Which way the edge goes."""

    RAISE = "raise"
    LOWER = "lower"


@dataclass(frozen=True, kw_only=True)
class RaiseEdge(Kind):
    """Raise or lower an edge by the same amount on every piece that has it.

    Attributes:
        to: raise or lower.
        by_mm: by how much, square to the edge; on one body side only it runs out to nothing at
            the centre.
        edge: the edge's name, "hem", "waist".
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "raise or lower an edge"
    help: ClassVar[str] = (
        "Raise or lower a waist or hem by the same amount all round, on every piece that has it."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Height
    by_mm: float
    edge: str = "hem"
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how far the edge is raised or lowered")

    @property
    def _up(self) -> float:
        return self.by_mm if self.to == Height.RAISE else -self.by_mm

    @classmethod
    def example(cls) -> Example:
        """A skirt a little shorter."""
        return Example(examples.skirt(), cls(to=Height.RAISE, by_mm=30.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Waist raised 10 mm all round, on the front and back"."""
        found = edges_called(pattern, self.edge, self.side)
        names = dict.fromkeys(p.name for p, _ in found)
        begin = whose(self.side)
        way = "raised" if self._up > 0 else "lowered"
        name = self.edge if begin else self.edge.capitalize()
        whole = " all round"
        if self.side in ONE_SIDE and any(any(centre_ends(pattern, p, e)) for p, e in found):
            whole = ", to nothing at the centre"
        return f"{begin}{name} {way} {mm(abs(self.by_mm))}{whole}, on the {' and '.join(names)}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the edge of every piece that has it."""
        before = pattern
        found = edges_called(pattern, self.edge, self.side)
        if any(not e.parts for _, e in found):
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {p.name for p, _ in found}, self.side)
        shapes = {
            at(p, e): (
                one_sided(split.pattern, p, e, self.side).times(self._up * into_the_piece(p, e)),
            )
            for p, e in edges_called(split.pattern, self.edge, self.side)
        }
        new, moved = shaped(split.pattern, shapes, step_id)
        return applied(before, new, split.trace.then(moved))
