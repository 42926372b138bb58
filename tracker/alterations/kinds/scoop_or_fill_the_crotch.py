"""Scoop out or fill the crotch curve, its ends as they are."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.crotch import HIP_LINE, Fork, forks, line_on
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import Shapes, at, shaped, spot
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted, whose
from tracker.geometry.point import cross, unit
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern

#: The curve is changed over this much at least.
LEAST_MM = 40.0


class Crotch(StrEnum):
    """Whether cloth goes or comes."""

    SCOOP = "scoop"
    FILL = "fill"


@dataclass(frozen=True, kw_only=True)
class ScoopCrotch(Kind):
    """Move the crotch curve of one piece in or out, to nothing at both ends.

    Attributes:
        piece: the piece.
        to: scoop (cloth goes) or fill (cloth comes).
        by_mm: how much, square to the curve, at its deepest place.
        begin_mm: how far from the inside-leg point it begins; 0 is at the point.
        end_mm: how far from the inside-leg point it ends; 0 is at the hip line.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "scoop or fill the crotch"
    help: ClassVar[str] = (
        "Scoop out the crotch curve of front or back where it cuts in, or fill it where it hangs "
        "away: so much at its deepest place, to nothing at the inside-leg point and the hip line."
    )

    piece: str
    to: Crotch
    by_mm: float
    begin_mm: float = 0.0
    end_mm: float = 0.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm <= 0:
            raise PatternError("by how much? More than nothing; scoop and fill are opposites")
        if min(self.begin_mm, self.end_mm) < 0:
            raise PatternError("a distance along the crotch is not negative")
        if self.end_mm and self.end_mm - self.begin_mm < LEAST_MM:
            raise PatternError(
                f"a curve is changed over {LEAST_MM:.0f} mm at least; let it end further from "
                "where it begins"
            )

    @property
    def amount_mm(self) -> float:
        """By how much."""
        return self.by_mm

    def scaled(self, factor: float) -> Self | None:
        """Return the same by another amount; backwards, scoop is fill."""
        if factor == 0:
            return None
        to = self.to if factor > 0 else _OTHER[self.to]
        return replace(self, to=to, by_mm=self.by_mm * abs(factor))

    @classmethod
    def example(cls) -> Example:
        """A back crotch that cuts in, scooped out."""
        return Example(examples.trousers(), cls(piece="back", to=Crotch.SCOOP, by_mm=8.0))

    def _meant(self, pattern: Pattern) -> tuple[Fork, ...]:
        known = pattern.piece(self.piece, self.side if self.side in ONE_SIDE else None)
        found = tuple(f for f in forks(pattern, self.side) if f.piece.name == known.name)
        if not found:
            raise PatternError(f"the {known.label} has no crotch to be changed")
        return found

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back crotch scooped out 8 mm at its deepest place, to nothing at …"."""
        fork, begin = self._meant(pattern)[0], whose(self.side)
        word = "scooped out" if self.to == Crotch.SCOOP else "filled"
        start = f"the {fork.corner}"
        if self.begin_mm:
            start = f"{mm(self.begin_mm)} from the {fork.corner}"
        end = f"{mm(self.end_mm)} from it" if self.end_mm else f"the {HIP_LINE}"
        where = ""
        if fork.piece.has_outline:
            where = f", {mm(round(self._deepest(fork)))} along it from the {fork.corner}"
        told = (
            f"{self.piece} crotch {word} {mm(self.by_mm)} at its deepest place{where}, to nothing "
            f"at {start} and at {end}; both ends stay"
        )
        return begin + told if begin else told[0].upper() + told[1:]

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the curve, and draw its piece again."""
        before = pattern
        if not all(f.piece.has_outline for f in self._meant(pattern)):
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        amount = self.by_mm if self.to == Crotch.SCOOP else -self.by_mm
        shapes: Shapes = {
            at(fork.piece, fork.crotch): (self._profile(fork, amount),)
            for fork in self._meant(split.pattern)
        }
        new, moved = shaped(split.pattern, shapes, step_id)
        return applied(before, new, split.trace.then(moved))

    def _ends(self, fork: Fork) -> tuple[float, float]:
        """Where it begins and ends, along the crotch's base from the inside-leg point."""
        edge = fork.crotch

        def base(distance_mm: float) -> float:
            on = edge.base_distance(spot(fork.piece, edge, fork.corner, distance_mm))
            return on if fork.at_start else edge.base_length - on

        start = base(self.begin_mm) if self.begin_mm else 0.0
        if self.end_mm:
            return start, base(self.end_mm)
        hip = line_on(fork.piece, edge, HIP_LINE)
        if hip is None:
            raise PatternError(
                f"the {fork.piece.label} has no {HIP_LINE} that meets its crotch; say how far from "
                f"the {fork.corner} the change ends (end=150mm)"
            )
        on = edge.base_distance(hip)
        end = on if fork.at_start else edge.base_length - on
        if end - start < LEAST_MM:
            raise PatternError(
                f"the {HIP_LINE} meets the crotch of the {fork.piece.label} {end - start:.0f} mm "
                f"from where the change begins; {LEAST_MM:.0f} mm is the least"
            )
        return start, end

    def _deepest(self, fork: Fork) -> float:
        """Where the curve stands off the straight between its ends most, from the point."""
        start, end = self._ends(fork)
        lines = fork.crotch.base_lines
        whole = lines[0]
        for line in lines[1:]:
            whole = whole.joined(line)
        run = whole if fork.at_start else whole.reversed
        a, b = run.point_at(start), run.point_at(end)
        chord = unit(b - a)
        least, most = start + 0.15 * (end - start), start + 0.85 * (end - start)
        places = [least + (most - least) * k / 60 for k in range(61)]
        return max(places, key=lambda s: (round(abs(cross(chord, run.point_at(s) - a)), 4), -s))

    def _profile(self, fork: Fork, amount: float) -> Profile:
        start, end = self._ends(fork)
        whole = fork.crotch.base_length
        knots = ((start, 0.0), (self._deepest(fork), amount), (end, 0.0))
        return Profile(tuple(sorted((s if fork.at_start else whole - s, v) for s, v in knots)))


_OTHER = {Crotch.SCOOP: Crotch.FILL, Crotch.FILL: Crotch.SCOOP}

__all__ = ["Crotch", "ScoopCrotch"]
