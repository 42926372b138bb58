"""Raise or lower the cap of a sleeve."""

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.cap import Cap, CapMove
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.set_in import SetIn
from tracker.alterations.sleeve_moved import Moved, sleeve_moved, to_nothing
from tracker.alterations.sleeves import cap_told, each_moved, undrawn, who
from tracker.alterations.told import applied, mm, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern


class Height(StrEnum):
    """Which way the top of the cap goes."""

    RAISE = "raise"
    LOWER = "lower"


class Kept(StrEnum):
    """What of the sleeve stays."""

    WIDTH = "width"
    LENGTH = "cap length"


@dataclass(frozen=True, kw_only=True)
class RaiseCap(Kind):
    """Raise or lower the top of a set-in sleeve's cap.

    Attributes:
        to: raise or lower.
        by_mm: by how much, at the top.
        keep: the width of the upper arm (the cap gets longer or shorter, and the ease it then has
            is told against what was planned), or the cap's length (the upper arm gets narrower
            as the cap rises).
        nothing_mm: where the width follows, how far down the underarm seam it is to nothing; the
            elbow line when none is given, half-way without one.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "raise or lower the cap"
    help: ClassVar[str] = (
        "Raise or lower the top of a sleeve's cap, and keep the upper arm as wide as it is (the "
        "cap's ease changes and is told) or the cap as long as it is (the width follows)."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Height
    by_mm: float
    keep: Kept = Kept.WIDTH
    nothing_mm: float | None = None
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how far the top of the cap is raised or lowered")
        if self.nothing_mm is not None and self.keep == Kept.WIDTH:
            raise PatternError(
                "with the width kept the underarm seam does not move, so there is no place for it "
                "to be to nothing; leave that out"
            )

    @classmethod
    def example(cls) -> Example:
        """A cap that drags up from the top of the arm."""
        return Example(examples.sleeved(), cls(to=Height.RAISE, by_mm=10.0))

    @property
    def _higher(self) -> float:
        return self.by_mm if self.to == Height.RAISE else -self.by_mm

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Sleeves: cap raised 10 mm at its top, to nothing at the underarm; …"."""
        undrawn(pattern, self.side)
        up = self._higher > 0
        begin = who(self.side)
        begin = begin if begin.endswith(":") else f"{begin}:"
        if self.keep == Kept.WIDTH:
            kept = (
                f"the upper arm as wide as it was, so the cap {'longer' if up else 'shorter'} and "
                f"its ease {'more' if up else 'less'}"
            )
        else:
            kept = f"the cap as long as it was, so the upper arm {'narrower' if up else 'fuller'}"
        way = "raised" if up else "lowered"
        return (
            f"{begin} cap {way} {mm(abs(self.by_mm))} at its top, to nothing at the underarm; "
            f"{kept}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw the cap again, and the underarm seams where the width follows."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        if undrawn(pattern, self.side):
            return on_paper(pattern, self.sentence(pattern))
        new, trace = each_moved(pattern, self.side, self._moved)
        notes, leaves = cap_told(pattern, new, self.side)
        told = (
            "the lowest cap notches stay as far from the underarm as they were; those between "
            "them are shared out along what the cap has there now",
        )
        return applied(pattern, new, trace, notches=told, notes=notes, leaves=leaves)

    def _moved(self, pattern: Pattern, sleeve: SetIn) -> Moved:
        move = CapMove(0.0, self._higher)
        if self.keep == Kept.LENGTH:
            move = Cap(sleeve.cap.drawn[0]).keeping_length(higher_mm=self._higher)
        return sleeve_moved(pattern, sleeve, move, to_nothing(sleeve, self.nothing_mm))


__all__ = ["Height", "Kept", "RaiseCap"]
