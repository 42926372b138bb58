"""Change the crotch depth: every piece longer or shorter between the hip line and the crotch."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.across import cut_across, up_of
from tracker.alterations.crotch import CROTCH_LINE, HIP_LINE, INSIDE_LEG, Fork, forks, line_on
from tracker.alterations.crotch_moved import stretched, without
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.lengthen_or_shorten import FROM_LINE_MM, Lengthen
from tracker.alterations.partners import notches_met
from tracker.alterations.slash import slashed
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Trace

#: Unless told, the pieces are cut so far below the hip line; common practice, no source.
BELOW_HIP_MM = 20.0


@dataclass(frozen=True, kw_only=True)
class CrotchDepth(Kind):
    """Make the rise longer or shorter: the crotch lies lower or higher below the waist.

    Attributes:
        by_mm: how much deeper; negative is less deep.
        below_hip_mm: how far below the hip line the pieces are cut; negative is above it.
        side: both, or the wearer's right or left only: then the amount is had at the side seam
            and runs to nothing at the centre, for one hip higher than the other.
    """

    word: ClassVar[str] = "change the crotch depth"
    #: Rule 3 gives back what an earlier cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Make trousers longer or (with a negative amount) shorter between waist and crotch, front "
        "and back alike, for a longer or shorter rise; widths stay as they are."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    by_mm: float
    below_hip_mm: float = BELOW_HIP_MM
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.by_mm:
            raise PatternError("by how much? Give how much deeper, or with a minus less deep")
        if abs(self.below_hip_mm) < FROM_LINE_MM:
            raise PatternError(
                f"never on the {HIP_LINE} itself: cut {FROM_LINE_MM:.0f} mm below it at least, or "
                "above it with a minus"
            )

    @classmethod
    def example(cls) -> Example:
        """A rise 15 mm longer."""
        return Example(examples.trousers(), cls(by_mm=15.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Crotch depth 15 mm more, 20 mm below the hip line: the same right across …"."""
        forks(pattern, BodySide.BOTH)
        more = self.by_mm > 0
        way = "below" if self.below_hip_mm >= 0 else "above"
        begin = whose(self.side)
        told = (
            f"{begin}{'crotch' if begin else 'Crotch'} depth {mm(abs(self.by_mm))} "
            f"{'more' if more else 'less'}, {mm(abs(self.below_hip_mm))} {way} the {HIP_LINE}: "
        )
        told += (
            f"{mm(abs(self.by_mm))} at the {self.side} side, to nothing at the centre"
            if begin
            else "the same right across front and back"
        )
        if not more:
            told += f"; a fold {mm(abs(self.by_mm) / 2)} deep takes out twice its depth"
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut every piece across, and open it or close it."""
        before = pattern
        drawn = [f for f in forks(pattern, BodySide.BOTH) if f.piece.has_outline]
        if not drawn:
            return on_paper(pattern, self.sentence(pattern))
        for fork in drawn:
            self._refuse_below_crotch(fork.piece)
        if self.side in ONE_SIDE:
            return self._tipped(before)
        cut = Lengthen(line=HIP_LINE, above_mm=-self.below_hip_mm, by_mm=self.by_mm)
        done = cut.apply(pattern, step_id)
        pattern, trace = done.pattern, done.trace
        for fork in drawn:
            # The crotch is drawn anew from the hip line to its point, so that the hip stays.
            shift = -self.by_mm * up_of(fork.piece)
            piece = pattern.piece(*fork.piece.key)
            piece, fates = stretched(fork, piece, shift, self._curve_mm(fork))
            pattern = pattern.with_pieces(piece)
            trace = replace(trace, fates=(*without(trace, piece, fork.crotch), *fates))
        return applied(before, pattern, trace, notches=done.effect.notches)

    def _curve_mm(self, fork: Fork) -> float:
        """How much of the crotch is its curve: from the point to the hip line, or to the cut."""
        line = line_on(fork.piece, fork.crotch, HIP_LINE)
        at = cut_across(fork.piece, HIP_LINE, -self.below_hip_mm)
        ends = [e.at_mm for e in (at.left, at.right) if e.edge.key == fork.crotch.key]
        places = [p for p in (line, *ends) if p is not None]
        length = fork.crotch.length
        return max(p if fork.at_start else length - p for p in places)

    def _tipped(self, before: Pattern) -> Applied:
        """One hip higher: the cut opens at the side, and what is above it tips about the centre."""
        found = forks(before, BodySide.BOTH)
        split = parted(before, {f.piece.name for f in found}, self.side)
        pattern, fates = split.pattern, list[Fate]()
        for fork in forks(split.pattern, self.side):
            piece = fork.piece
            at = cut_across(piece, HIP_LINE, -self.below_hip_mm)
            ends = (0.0, self.by_mm) if at.left.edge.key == fork.crotch.key else (self.by_mm, 0.0)
            done = slashed(piece, at.left, at.right, *ends, at.beside(False))
            pattern = pattern.with_pieces(done.piece)
            fates.extend(done.fates)
        pattern, moved = notches_met(split.pattern, pattern)
        return applied(before, pattern, split.trace.then(Trace(tuple(fates))), notches=moved)

    def _refuse_below_crotch(self, piece: Piece) -> None:
        at = cut_across(piece, HIP_LINE, -self.below_hip_mm)
        if INSIDE_LEG in (at.left.edge.name, at.right.edge.name):
            raise PatternError(
                f"{mm(self.below_hip_mm)} below the {HIP_LINE} the {piece.label} is cut below its "
                f"{CROTCH_LINE}, which would lengthen the leg; cut it nearer to the {HIP_LINE}"
            )


__all__ = ["CrotchDepth"]
