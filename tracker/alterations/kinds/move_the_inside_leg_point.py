"""Move the inside-leg point in or out, front and back apart, or lower or raise it."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.crotch import Fork, forks, leg_mm, leg_words
from tracker.alterations.crotch_moved import Misses, point_moved
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.geometry.point import Point, dot
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern


@dataclass(frozen=True, kw_only=True)
class MoveInsideLegPoint(Kind):
    """Move the inside-leg points square to the grain, and down or up.

    Attributes:
        front_mm: how far the front's goes out, square to the grain; negative is in. The thigh
            of each leg changes by as much.
        back_mm: the same of the back's.
        lower_mm: how far both inside legs begin lower, by their length; negative is higher.
        nothing_mm: how far below the point the inside leg is back on its old line; 0 is a
            little above the knee.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "move the inside-leg point"
    help: ClassVar[str] = (
        "Move the point where crotch and inside leg meet out or (with a negative amount) in, "
        "front and back apart, for more or less room at the thigh; or lower or raise it. Inside "
        "legs stay equal, and run out to nothing above the knee."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("front_mm", "back_mm", "lower_mm")

    front_mm: float = 0.0
    back_mm: float = 0.0
    lower_mm: float = 0.0
    nothing_mm: float = 0.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.front_mm and not self.back_mm and not self.lower_mm:
            raise PatternError(
                "by how much? Give an amount in front, behind, or how much lower (front=10mm "
                "back=-5mm lower=5mm)"
            )
        if self.nothing_mm < 0:
            raise PatternError("a distance down the inside leg is not negative")

    @classmethod
    def example(cls) -> Example:
        """More room at the inside of the thigh, most of it behind."""
        return Example(examples.trousers(), cls(front_mm=8.0, back_mm=15.0))

    def _out(self, fork: Fork) -> float:
        return self.front_mm if fork.where == "front" else self.back_mm

    def _meant(self, pattern: Pattern) -> tuple[Fork, ...]:
        found = tuple(
            f for f in forks(pattern, self.side) if self._out(f) or self.lower_mm
        )  # fmt: skip
        for where, by in (("front", self.front_mm), ("back", self.back_mm)):
            if by and all(f.where != where for f in found):
                raise PatternError(f"the pattern has no {where} with an inside leg")
        return found

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Inside-leg point 8 mm out in front and 15 mm out behind; …"."""
        found = self._meant(pattern)
        told = [
            f"{mm(abs(by))} {'out' if by > 0 else 'in'} {'in front' if w == 'front' else 'behind'}"
            for w, by in (("front", self.front_mm), ("back", self.back_mm))
            if by
        ]
        if self.lower_mm:
            told.append(f"{mm(abs(self.lower_mm))} {'lower' if self.lower_mm > 0 else 'higher'}")
        begin, corner = whose(self.side), found[0].corner
        how = "inside legs stay equal" if self.lower_mm else "inside legs keep their length"
        return (
            f"{begin}{corner if begin else corner.capitalize()} {' and '.join(told)}; {how}, back "
            f"on their old lines {leg_words(found, self.nothing_mm)}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the points, and draw crotch and inside leg to them again."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        if not all(f.piece.has_outline for f in self._meant(pattern)):
            return on_paper(before, self.sentence(before))
        names = {f.piece.name for f in forks(pattern, BodySide.BOTH)}
        split = parted(pattern, names, self.side)
        pattern, trace = split.pattern, split.trace
        for fork in self._meant(split.pattern):
            leg = leg_mm(fork, self.nothing_mm)
            about = self._out(fork), self.lower_mm
            pattern, moved = point_moved(pattern, fork, leg, about, self._misses(fork))
            trace = trace.then(moved)
        return applied(before, pattern, trace)

    def _misses(self, fork: Fork) -> Misses:
        out, way = self._out(fork), fork.outward()

        def misses(crotch: float, inside: float, shift: Point) -> tuple[float, float]:
            del crotch
            return dot(shift, way) - out, inside - fork.inside.length + self.lower_mm

        return misses


__all__ = ["MoveInsideLegPoint"]
