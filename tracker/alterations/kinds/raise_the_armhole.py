"""Raise or lower the armhole under the arm."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import shaped
from tracker.alterations.together import split_together
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.alterations.underarm import (
    each_way,
    raised,
    raised_through,
    refuse_without,
    side_seam,
    trued,
    underarm_notches_kept,
)
from tracker.drafting.sleeve_armhole import EDGES as ARMHOLES
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


class Height(StrEnum):
    """Which way the underarm goes."""

    RAISE = "raise"
    LOWER = "lower"


@dataclass(frozen=True, kw_only=True)
class RaiseArmhole(Kind):
    """Raise or lower the underarm on front and back alike.

    Attributes:
        to: raise or lower.
        by_mm: by how much, along the side seam; where there is none, square to the armhole.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "raise or lower the armhole"
    help: ClassVar[str] = (
        "Raise or lower an armhole under the arm, on front and back alike: the shoulder and the "
        "armhole above its lowest notches stay, and what the sleeve's cap needs is told."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Height
    by_mm: float
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how far the underarm is raised or lowered")

    @classmethod
    def example(cls) -> Example:
        """An armhole that cuts in under the arm."""
        return Example(examples.sleeved(), cls(to=Height.LOWER, by_mm=10.0))

    @property
    def _up(self) -> float:
        return self.by_mm if self.to == Height.RAISE else -self.by_mm

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Armholes lowered 10 mm at the underarm, on the front and on the back, …"."""
        refuse_without(pattern, self.side)
        only = self.side in ONE_SIDE
        who = f"{self.side.capitalize()} armhole only:" if only else "Armholes"
        way = "raised" if self._up > 0 else "lowered"
        seam = side_seam(pattern, self.side)
        if seam is None:
            where = "to nothing at the lowest notches on both sides of it"
        else:
            last = -1 if pattern.edge_of(seam.first[-1]).end == "underarm point" else 0
            one, two = seam.first[last].piece, seam.second[last].piece
            where = (
                f"on the {one} and on the {two}, along the {seam.name} seam, to nothing at the "
                "lowest notches"
            )
        return f"{who} {way} {mm(abs(self.by_mm))} at the underarm, {where}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the underarm on every piece that has it."""
        before, trace = pattern, Trace()
        refuse_without(pattern, self.side)
        holes = [e for p in pattern.pieces for e in p.edges if e.name in ARMHOLES]
        if any(not e.parts for e in holes):
            return on_paper(before, self.sentence(before))
        notes: list[str] = []
        for side in each_way(pattern, self.side):
            for new, moved in self._moved(pattern, side, step_id):
                new = underarm_notches_kept(pattern, new)
                pattern, trace = settled(new), trace.then(moved)
            for step in trued(before, pattern, side):
                done = step.apply(pattern, step_id)
                pattern, trace = settled(done.pattern), trace.then(done.trace)
                notes.append(step.sentence(pattern))
        if pattern is before:
            raise PatternError(
                "this armhole has neither a side seam under the arm nor an underarm notch, so it "
                "cannot be said where its underarm is; add an underarm notch first"
            )
        return applied(before, pattern, trace, notes=notes)

    def _moved(
        self, pattern: Pattern, side: BodySide, step_id: str
    ) -> Iterator[tuple[Pattern, Trace]]:
        """The pattern after each step in turn, and what became of it by that step."""
        cut = raised_through(pattern, side, self._up)
        if cut:
            names = {name for shapes in cut.values() for name, *_ in shapes}
            split = split_together(pattern, names, side)
            yield split.pattern, split.trace
            for shapes in raised_through(split.pattern, side, self._up).values():
                new, moved = shaped(split.pattern, shapes, step_id)
                split = replace(split, pattern=new)
                yield new, moved
        for step in raised(pattern, side, self._up) if not cut else ():
            done = step.apply(pattern, step_id)
            pattern = settled(done.pattern)
            yield pattern, done.trace


__all__ = ["Height", "RaiseArmhole"]
