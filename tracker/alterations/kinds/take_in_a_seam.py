"""Take in or let out a seam."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt, left_to_do, seam_moved, seams_meant
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.together import split_together
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace


@dataclass(frozen=True, kw_only=True)
class TakeIn(Kind):
    """Take in or let out a seam by amounts at places.

    Attributes:
        seam: the seam's name.
        side: both, or the wearer's right or left only; a centre seam exists once.
        amounts: at least one; joined smoothly, flat at a nothing; one alone holds all along.
        share: the part of the amount that comes off the seam's first side.
    """

    word: ClassVar[str] = "take in a seam"
    help: ClassVar[str] = (
        "Take in (or, with a negative amount, let out) a seam at one or more places; "
        "the edge is moved square to itself and its neighbours run on to meet it."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("amounts",)

    seam: str
    amounts: tuple[AmountAt, ...]
    side: BodySide = BodySide.BOTH
    share: float = 0.5

    def __post_init__(self) -> None:
        if not self.amounts:
            raise PatternError("how much, and where? Give one amount at a place at least")
        if not any(a.amount_mm for a in self.amounts):
            raise PatternError("every amount is nothing, so there is nothing to alter")
        if not 0 <= self.share <= 1:
            raise PatternError("the share of the first side lies between 0 and 1")

    @classmethod
    def example(cls) -> Example:
        """Side seams that stand off the waist."""
        return Example(
            examples.bodice(),
            cls(
                seam="side",
                amounts=(
                    AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
                    AmountAt(corner="side waist", distance_mm=0.0, amount_mm=10.0),
                ),
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Right and left side seams in 10 mm at the side waist, to nothing at …"."""
        seam = pattern.seam(self.seam, self.side)
        inward = self.amount_mm > 0
        centre = seam.side is BodySide.CENTRE
        if centre:
            who = f"{self.seam.capitalize()} seam"
        elif self.side is BodySide.BOTH:
            who = f"Right and left {self.seam} seams"
        else:
            who = f"{self.side.capitalize()} {self.seam} seam only:"
        some = [f"{_mm(abs(a.amount_mm))} {a.words}" for a in self.amounts if a.amount_mm]
        nothing = [a.words.removeprefix("at ") for a in self.amounts if not a.amount_mm]
        told = f"{who} {'in' if inward else 'out'} {', '.join(some)}"
        if len(self.amounts) == 1:
            told += " and the same all along"
        if nothing:
            told += f", to nothing at {' and '.join(nothing)}"
        most = abs(self.amount_mm)
        if centre:
            return f"{told}: {_mm(most / 2)} from each half"
        one, two = seam.first[0].piece, seam.second[0].piece
        verb = "from" if inward else "to"
        return (
            f"{told}: {_mm(most * self.share)} {verb} the {one} and "
            f"{_mm(most * (1 - self.share))} {verb} the {two}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both sides' edges square to themselves and draw their pieces again."""
        before, trace = pattern, Trace()
        seam = pattern.seam(self.seam, self.side)
        if seam.side is not BodySide.CENTRE:
            names = {r.piece for r in (*seam.first, *seam.second)}
            split = split_together(pattern, names, self.side)
            pattern, trace = split.pattern, split.trace
        for part in seams_meant(pattern, self.seam, self.side):
            if any(not pattern.edge_of(r).parts for r in (*part.first, *part.second)):
                return Applied(before, effect_between(before, before, leaves=(
                    f"mark it on the paper: {self.sentence(before)}",)), Trace())  # fmt: skip
            first, second = self._factors(part)
            pattern, moved = seam_moved(pattern, part, self.amounts, first, second, step_id)
            trace = trace.then(moved)
        leaves = left_to_do(before, pattern)
        return Applied(pattern, effect_between(before, pattern, leaves=leaves), trace)

    def _factors(self, seam: Seam) -> tuple[float, float]:
        """What of an amount comes off each side; a centre seam exists once."""
        if seam.side is BodySide.CENTRE:
            return 0.5, 0.5
        return self.share, 1 - self.share


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0") + " mm"


__all__ = ["AmountAt", "TakeIn"]
