"""Make a sleeved bodice sleeveless: the sleeves off, the armhole closer."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.sleeve_removed import sleeve_pieces, without_sleeves
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.alterations.underarm import (
    each_way,
    raised,
    seam_end,
    side_seam,
    trued,
    underarm_notches_kept,
)
from tracker.drafting.sleeve_armhole import BACK_EDGE, UNDERARM
from tracker.drafting.sleeve_armhole import EDGE as ARMHOLE
from tracker.drafting.sleeve_underarm import joined_at_the_underarm
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace

#: How much closer a sleeveless armhole is cut than a sleeved one's; common practice, no source.
RAISED_MM = 12.0
SIDE_IN_MM = 12.0
SHOULDER_MM = 15.0
#: Ease changed by less is left as it was planned.
_PLANNED_MM = 0.5
#: The armhole follows a shorter shoulder over this much, half-way down it on most bodices.
_FOLLOWS_MM = 110.0


@dataclass(frozen=True, kw_only=True)
class MakeSleeveless(Kind):
    """Take the sleeves off and bring the armhole closer, as a sleeveless garment has it.

    Without a sleeve the ease that its movement needed would gape, the underarm would show what
    is worn beneath, and the shoulder's end has nothing to hold it out.

    Attributes:
        raised_mm: how far the underarm is raised, along the side seam.
        side_in_mm: how much the side seam is taken in at the underarm, half from each piece, to
            nothing at its other end.
        shoulder_mm: how much shorter the shoulder is, at the shoulder point.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "make it sleeveless"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Take the sleeves off a bodice, and cut its armhole closer: the underarm raised, the side "
        "taken in there and the shoulder shortened by amounts you may choose."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("raised_mm", "side_in_mm", "shoulder_mm")
    one_way: ClassVar[bool] = True

    raised_mm: float = RAISED_MM
    side_in_mm: float = SIDE_IN_MM
    shoulder_mm: float = SHOULDER_MM
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if min(self.raised_mm, self.side_in_mm, self.shoulder_mm) < 0:
            raise PatternError(
                "a sleeveless armhole is cut closer, so its amounts are nothing or more; to lower "
                "the underarm or widen the side, alter it afterwards"
            )

    @classmethod
    def example(cls) -> Example:
        """A sleeved bodice made a shell."""
        return Example(examples.sleeved(), cls())

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Made sleeveless: the sleeve taken off; underarm raised 12 mm, …"."""
        names = sleeve_pieces(pattern, self.side)
        begin = "Made sleeveless"
        if self.side in ONE_SIDE:
            begin += f" on the {self.side} side only"
        told = [f"the {' and the '.join(names)} taken off" if names else "it has no sleeve"]
        closer = []
        if self.raised_mm:
            closer.append(f"underarm raised {mm(self.raised_mm)}")
        if self.side_in_mm and side_seam(pattern, self.side) is not None:
            closer.append(
                f"side seam in {mm(self.side_in_mm)} at the underarm, half from each piece, to "
                "nothing at its other end"
            )
        if self.shoulder_mm:
            closer.append(f"shoulder {mm(self.shoulder_mm)} shorter at the shoulder point")
        if not closer:
            closer.append("the armhole left as it is")
        return f"{begin}: {'; '.join([*told, ', '.join(closer)])}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take the sleeves off, then alter the armhole step by step."""
        before = pattern
        holes = [
            (p, e) for p in pattern.pieces if p.layer == "shell" for e in p.edges
            if e.name == ARMHOLE and (self.side not in ONE_SIDE or e.side in
                                      (self.side, BodySide.BOTH))
        ]  # fmt: skip
        if not holes:
            raise PatternError("this pattern has no armhole, so there is no sleeve to take off")
        if any(not e.parts for _, e in holes):
            return on_paper(before, self.sentence(before))
        trace = Trace()
        names = sleeve_pieces(pattern, self.side)
        if self.side in ONE_SIDE:
            # An armhole cut for two sleeves is made whole on the one side and stays on the other.
            cut = {p.name for p in pattern.pieces if any(e.name == BACK_EDGE for e in p.edges)}
            split = split_sides(pattern, {*names, *cut})
            pattern, trace = split.pattern, split.trace
        removed = without_sleeves(pattern, self.side)
        pattern, trace = settled(removed.pattern), trace.then(removed.trace)
        whole = joined_at_the_underarm(pattern, self.side)
        pattern, trace = settled(whole.pattern), trace.then(whole.trace)
        notes: list[str] = []
        leaves: list[str] = []
        seamless = False
        for side in each_way(pattern, self.side):
            seamless |= side_seam(pattern, side) is None
            for step in self._closer(pattern, side):
                pattern, trace = _done(step, pattern, trace, step_id, notes)
            for step in trued(before, pattern, side):
                pattern, trace = _done(step, pattern, trace, step_id, notes)
        pattern, planned = _planned_anew(removed.pattern, pattern)
        notes += planned
        if self.side_in_mm and seamless:
            leaves.append(
                f"there is no side seam to take in: take {mm(self.side_in_mm / 2)} in at the "
                f"underarm at each of the two panel seams that end on the armhole"
            )
        leaves.append("the armhole is finished with a facing or a binding: trace it from the edge")
        gone = f"taken off: {', '.join(f'the {label}' for label in removed.labels)}"
        made = applied(
            before, pattern, trace, notes=[*([gone] if removed.labels else []), *notes],
            leaves=leaves,
        )  # fmt: skip
        told = tuple(left for left in made.effect.leaves if "a sleeve for it" not in left)
        return replace(made, effect=replace(made.effect, leaves=told))

    def _closer(self, pattern: Pattern, side: BodySide) -> Iterable[Kind]:
        """The steps that bring the armhole closer."""
        seam = side_seam(pattern, side)
        if seam is not None and self.side_in_mm:
            ends = [seam_end(pattern, seam.first, last)[0] for last in (False, True)]
            other = ends[1] if ends[0] == UNDERARM else ends[0]
            yield TakeIn(
                seam=seam.name, side=side,
                amounts=(
                    AmountAt(corner=UNDERARM, distance_mm=0.0, amount_mm=self.side_in_mm),
                    AmountAt(corner=other, distance_mm=0.0, amount_mm=0.0),
                ),
            )  # fmt: skip
        if self.raised_mm:
            yield from raised(pattern, side, self.raised_mm)
        if self.shoulder_mm:
            yield ShoulderLength(
                to=Length.SHORTER, by_mm=self.shoulder_mm, side=side, blend_mm=_FOLLOWS_MM
            )


def _done(
    step: Kind, pattern: Pattern, trace: Trace, step_id: str, notes: list[str]
) -> tuple[Pattern, Trace]:
    done = step.apply(pattern, step_id)
    pattern = settled(underarm_notches_kept(pattern, done.pattern))
    notes.append(step.sentence(pattern))
    return pattern, trace.then(done.trace)


def _planned_anew(before: Pattern, after: Pattern) -> tuple[Pattern, list[str]]:
    """Plan as much less ease at each line as was taken there: it was meant to be closer."""
    plan, told = [], []
    known = set(lines_of(after))
    for line, planned in after.ease:
        by = girth(after, line) - girth(before, line) if line in known else 0.0
        if abs(by) < _PLANNED_MM:
            plan.append((line, planned))
            continue
        plan.append((line, round(planned + by, 1)))
        told.append(f"the ease planned at the {line} is {mm(plan[-1][1])} now, not {mm(planned)}")
    return replace(after, ease=tuple(plan)), told


__all__ = ["RAISED_MM", "SHOULDER_MM", "SIDE_IN_MM", "MakeSleeveless"]
