"""Change the shoulder's length at the shoulder point."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.along_seams import seams_meant
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import at, shaped
from tracker.alterations.shoulder import Half, halves, shoulder_parts
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


class Length(StrEnum):
    """Which way the length goes."""

    LONGER = "longer"
    SHORTER = "shorter"


@dataclass(frozen=True, kw_only=True)
class ShoulderLength(Kind):
    """Make the shoulder longer or shorter, front and back alike.

    Attributes:
        to: longer or shorter.
        by_mm: by how much, on each piece, at the shoulder point along the shoulder.
        side: both, or the wearer's right or left only.
        blend_mm: how far down the armhole from the shoulder point it is back on its old line;
            half the armhole when none is given.
        seam: the shoulder seam's name.
    """

    word: ClassVar[str] = "change the shoulder length"
    help: ClassVar[str] = (
        "Make the shoulder longer or shorter at the shoulder point; the armhole is drawn again "
        "from there and its change is told."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Length
    by_mm: float
    side: BodySide = BodySide.BOTH
    blend_mm: float | None = None
    seam: str = "shoulder"

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how much longer or shorter the shoulder is to be")
        if self.blend_mm is not None and self.blend_mm < 20:
            raise PatternError("the armhole follows the shoulder point over 20 mm at least")

    @property
    def _longer(self) -> float:
        return self.by_mm if self.to == Length.LONGER else -self.by_mm

    @classmethod
    def example(cls) -> Example:
        """A shoulder that hangs over the arm."""
        return Example(examples.bodice(), cls(to=Length.SHORTER, by_mm=8.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Right and left shoulders 6 mm shorter at the shoulder point, on front and …"."""
        seam = pattern.seam(self.seam, self.side)
        one, two = seam.first[-1].piece, seam.second[-1].piece
        only = self.side in ONE_SIDE
        who = f"{self.side.capitalize()} shoulder only:" if only else "Right and left shoulders"
        way = "longer" if self._longer > 0 else "shorter"
        down = f"{mm(self.blend_mm)} down it" if self.blend_mm else "half-way down it"
        return (
            f"{who} {mm(abs(self.by_mm))} {way} at the shoulder point, on the {one} and on the "
            f"{two}; the armhole back on its old line {down}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both shoulder points along the shoulder, the armholes with them."""
        before = pattern
        seam, split = shoulder_parts(pattern, self.seam, self.side)
        if any(not pattern.edge_of(r).parts for r in (*seam.first, *seam.second)):
            return on_paper(before, self.sentence(before))
        pattern, trace = split.pattern, split.trace
        for part in seams_meant(pattern, self.seam, self.side):
            for half in halves(pattern, part):
                pattern, moved = self._moved(pattern, half, step_id)
                trace = trace.then(moved)
        return applied(before, pattern, trace)

    def _moved(self, pattern: Pattern, half: Half, step_id: str) -> tuple[Pattern, Trace]:
        wanted = half.length + self._longer
        if wanted < 20:
            raise PatternError(
                f"a shoulder of {half.length:.0f} mm on the {half.tip.label} cannot be made "
                f"{mm(abs(self.by_mm))} shorter"
            )
        whole = half.armhole.base_length
        blend = min(self.blend_mm or whole / 2, whole)

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            profile = half.from_tip([(0.0, amounts[0]), (blend, 0.0)])
            return shaped(pattern, {at(half.tip, half.armhole): (profile,)}, step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            new = drawn(amounts)[0]
            return [sum(new.edge_of(step.run).length for step in half.side) - wanted]

        amounts = adjusted(
            misses, [-self._longer], [-1.0],
            f"the shoulder point of the {half.tip.label} cannot be moved so far along the shoulder",
        )  # fmt: skip
        return drawn(amounts)
