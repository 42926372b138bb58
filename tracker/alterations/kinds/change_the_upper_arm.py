"""Make the upper arm of a sleeve fuller or narrower."""

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.cap import Cap, CapMove
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.set_in import SetIn
from tracker.alterations.sleeve_moved import Moved, sleeve_moved, to_nothing
from tracker.alterations.sleeves import cap_told, each_moved, undrawn, who
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.drafting.sleeve_pattern import ELBOW_LINE
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern


class Room(StrEnum):
    """Which way the upper arm goes."""

    FULLER = "fuller"
    NARROWER = "narrower"


class CapKept(StrEnum):
    """What of the cap stays."""

    LENGTH = "cap length"
    HEIGHT = "cap height"


@dataclass(frozen=True, kw_only=True)
class UpperArm(Kind):
    """Give a set-in sleeve more or less room round the upper arm.

    Attributes:
        to: fuller or narrower.
        by_mm: the whole amount round the upper arm; half of it at the front and half at the back
            of the underarm.
        keep: the cap's length (it drops as width is added, and still fits the armhole), or its
            height (it gets longer, and the ease it then has is told).
        nothing_mm: how far down the underarm seam both sides are back on their old lines; the
            elbow line when none is given, half-way without one.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "change the upper arm"
    help: ClassVar[str] = (
        "Make the upper arm of a sleeve fuller or narrower by a whole amount round it, to nothing "
        "at the elbow: the cap is drawn as long as it was, so it still fits the armhole and is "
        "lower on a fuller sleeve; the notches stay and the underarm seams stay equal."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Room
    by_mm: float
    keep: CapKept = CapKept.LENGTH
    nothing_mm: float | None = None
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how much fuller or narrower round the upper arm")
        if self.nothing_mm is not None and self.nothing_mm <= 0:
            raise PatternError(
                "how far below the underarm point is it to nothing? Give more than nothing, or "
                "leave it out for the elbow"
            )

    @classmethod
    def example(cls) -> Example:
        """A sleeve that pulls across the upper arm."""
        return Example(examples.sleeved(), cls(to=Room.FULLER, by_mm=24.0))

    @property
    def _wider(self) -> float:
        return self.by_mm if self.to == Room.FULLER else -self.by_mm

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Sleeves 24 mm fuller round the upper arm: 12 mm at the front and 12 mm …"."""
        undrawn(pattern, self.side)
        way = "fuller" if self._wider > 0 else "narrower"
        half = mm(abs(self.by_mm) / 2)
        verb = "to" if self._wider > 0 else "from"
        if self.nothing_mm is not None:
            place = f"{mm(self.nothing_mm)} below the underarm point"
        elif any(v.name == ELBOW_LINE for p in pattern.pieces for v in p.levels):
            place = "the elbow line"
        else:
            place = "half-way down the underarm seam"
        if self.keep == CapKept.LENGTH:
            cap = f"as long as it was, so {'lower' if self._wider > 0 else 'higher'}"
        else:
            cap = f"as high as it was, so {'longer' if self._wider > 0 else 'shorter'}"
        each = " each" if self.side not in ONE_SIDE else ""
        return (
            f"{who(self.side)} {mm(abs(self.by_mm))} {way}{each} round the upper arm: {half} "
            f"{verb} the front and {half} {verb} the back of the underarm, to nothing at {place}; "
            f"the cap {cap}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw cap and underarm seams again."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        if undrawn(pattern, self.side):
            return on_paper(pattern, self.sentence(pattern))
        new, trace = each_moved(pattern, self.side, self._moved)
        notes, leaves = cap_told(pattern, new, self.side)
        kept = ("the cap notches stay as far from the underarm as they were, and meet the "
                "armhole's",)  # fmt: skip
        return applied(pattern, new, trace, notches=kept, notes=notes, leaves=leaves)

    def _moved(self, pattern: Pattern, sleeve: SetIn) -> Moved:
        move = CapMove(self._wider)
        if self.keep == CapKept.LENGTH:
            move = Cap(sleeve.cap.drawn[0]).keeping_length(wider_mm=self._wider)
        return sleeve_moved(pattern, sleeve, move, to_nothing(sleeve, self.nothing_mm))


__all__ = ["CapKept", "Room", "UpperArm"]
