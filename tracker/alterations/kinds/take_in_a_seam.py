"""Take in or let out a seam."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt, seam_moved, seams_meant
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.set_in import armhole_seams
from tracker.alterations.sleeve_seam import notches_kept
from tracker.alterations.together import split_together
from tracker.alterations.told import applied
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.place import Place
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import seam_distance, walked

#: An amount this near a seam's end is at it, mm.
_AT_THE_END_MM = 1.0


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
    #: Rule 3 finds a place again that an earlier step named, on both sides and over every edge.
    rule: ClassVar[int] = 3
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
        if seam.side is BodySide.CENTRE:
            who = f"{self.seam.capitalize()} seam"
        elif self.side is BodySide.BOTH:
            who = f"Right and left {self.seam} seams"
        else:
            who = f"{self.side.capitalize()} {self.seam} seam only:"
        way = "in" if inward else "out"
        ways = dict.fromkeys([way, "in", "out"])
        parts = [
            f"{one} {', '.join(f'{_mm(abs(a.amount_mm))} {a.words}' for a in some)}"
            for one in ways
            if (some := [a for a in self.amounts if a.amount_mm * (1 if one == "in" else -1) > 0])
        ]
        nothing = [a.words.removeprefix("at ") for a in self.amounts if not a.amount_mm]
        told = f"{who} {' and '.join(parts)}"
        if len(self.amounts) == 1:
            told += " and the same all along"
        told += self._beyond(pattern, seam)
        if nothing:
            told += f", to nothing at {' and '.join(nothing)}"
        return f"{told}: {self._shared(seam, mixed=len(parts) > 1)}"

    def _shared(self, seam: Seam, *, mixed: bool) -> str:
        """How much of it each side of the seam gives: "5 mm from the front and 5 mm from …"."""
        most, verb = abs(self.amount_mm), "from" if self.amount_mm > 0 else "to"
        one, two = (f"the {side[0].piece}" for side in (seam.first, seam.second))
        if one == two:
            one, two = (
                f"the {side[0].edge} of the {side[0].piece}" for side in (seam.first, seam.second)
            )
        if seam.side is BodySide.CENTRE:
            return "half of it on each half" if mixed else f"{_mm(most / 2)} {verb} each half"
        if mixed and self.share in (0.0, 1.0):
            return f"all of it on {one if self.share else two}"
        if mixed:
            return f"{self.share:.0%} of it on {one}, {1 - self.share:.0%} on {two}"
        first, second = _mm(most * self.share), _mm(most * (1 - self.share))
        return f"{first} {verb} {one} and {second} {verb} {two}"

    def _beyond(self, pattern: Pattern, seam: Seam) -> str:
        """Say where the outermost amounts hold on to the seam's end, where they are not at it."""
        if len(self.amounts) == 1 or any(
            not pattern.edge_of(run).parts for run in (*seam.first, *seam.second)
        ):
            return ""
        steps = walked(pattern, seam.first)
        whole, told = steps[-1].to_mm, []
        placed = sorted(
            (seam_distance(pattern, Place(seam=self.seam, side=self.side, corner=a.corner,
                                          distance_mm=a.distance_mm)), a.amount_mm)
            for a in self.amounts
        )  # fmt: skip
        if placed[0][1] and placed[0][0] > _AT_THE_END_MM:
            told.append(steps[0].first_corner)
        if placed[-1][1] and placed[-1][0] < whole - _AT_THE_END_MM:
            told.append(steps[-1].last_corner)
        return f", and as much on to the {' and to the '.join(told)}" if told else ""

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both sides' edges square to themselves and draw their pieces again."""
        before, trace, notches = pattern, Trace(), dict[str, None]()
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
            old = pattern
            pattern, moved = seam_moved(pattern, part, self.amounts, first, second, step_id)
            trace = trace.then(moved)
            for armhole in armhole_seams(old):
                pattern, kept = notches_kept(old, pattern, armhole)
                notches |= dict.fromkeys(kept)
        return applied(before, pattern, trace, notches=notches)

    def _factors(self, seam: Seam) -> tuple[float, float]:
        """What of an amount comes off each side; a centre seam exists once."""
        if seam.side is BodySide.CENTRE:
            return 0.5, 0.5
        return self.share, 1 - self.share


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0") + " mm"


__all__ = ["AmountAt", "TakeIn"]
