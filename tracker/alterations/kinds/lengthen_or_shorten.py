"""Lengthen or shorten every piece by the same, at a height above or below a line."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.across import Across, cut_across, height, names_listed
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.partners import notches_met
from tracker.alterations.slash import CutAt, slashed
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted, whose
from tracker.drafting.centre import is_centre
from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.measure import level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Trace

#: Widths at material lines stay to this, or it is told, millimetres.
WIDTH_MM = 0.05
#: Nearer to the line itself nothing is cut: the line has to stay where it is shaped.
FROM_LINE_MM = 10.0


@dataclass(frozen=True, kw_only=True)
class Lengthen(Kind):
    """Lengthen or shorten pieces along a cut square to the grain.

    Attributes:
        line: the material line the height is from, "waist line".
        above_mm: how far above it the pieces are cut; negative is below.
        by_mm: how much longer; negative is shorter.
        pieces: which pieces; none named means every piece that has the line, facings and
            linings too.
        side: both, or the wearer's right or left only: then the amount is had at that side
            and runs to nothing at the centre seam, or across a piece that has none at its
            far side.
    """

    word: ClassVar[str] = "lengthen or shorten"
    #: Rule 3 keeps the widths at material lines, which rule 2 drew the edges smooth across, and
    #: gives back what an earlier cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Make every piece longer (or, with a negative amount, shorter) by the same, at a height "
        "above or below the bust, waist or hip line; widths stay as they are."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    line: str
    above_mm: float
    by_mm: float
    pieces: tuple[str, ...] = ()
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.by_mm:
            raise PatternError("by how much? Nothing would be altered")
        if abs(self.above_mm) < FROM_LINE_MM:
            raise PatternError(
                f"never on the {self.line} itself, which is shaped to fit there: cut at least "
                f"{FROM_LINE_MM:.0f} mm above or below it; 63.5 mm above the waist is usual for "
                "the lower length of a bodice"
            )

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; pieces may be one text: "back, front"."""
        return super().from_parameters(names_listed(parameters))

    @classmethod
    def example(cls) -> Example:
        """A waist that sits too high."""
        return Example(examples.bodice(), cls(line="waist line", above_mm=60.0, by_mm=15.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front and back 20 mm longer, 63.5 mm above the waist line: …"."""
        names = self._names(pattern)
        listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
        longer = self.by_mm > 0
        told = (
            f"{whose(self.side)}{listed} {mm(abs(self.by_mm))} {'longer' if longer else 'shorter'} "
            f"at {height(self.above_mm, self.line)}"
        )
        if self.side in ONE_SIDE:
            told += f": {mm(abs(self.by_mm))} at the {self.side} side, to nothing at the other end"
        else:
            told += ": the same right across" + (" every piece" if len(names) > 1 else "")
        if not longer:
            told += f"; a fold {mm(abs(self.by_mm) / 2)} deep takes out twice its depth"
        return told[0].upper() + told[1:]

    def _names(self, pattern: Pattern) -> list[str]:
        if self.pieces:
            return list(dict.fromkeys(pattern.piece(n, None).name for n in self.pieces))
        drawn = any(p.has_outline for p in pattern.pieces)
        having = [
            p.name
            for p in pattern.pieces
            if any(v.name == self.line for v in p.levels) or not drawn
        ]
        if not having:
            known = sorted({v.name for p in pattern.pieces for v in p.levels})
            raise UnknownName(
                f"no piece has a line called {self.line!r}; there are {', '.join(known)}."
                f"{nearest_names(self.line, known)}"
            )
        return list(dict.fromkeys(having))

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut each piece across and open it, or close it."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        names = self._names(pattern)
        concerned = [p for p in pattern.pieces if p.name in names]
        if not any(p.has_outline for p in concerned):
            return on_paper(before, self.sentence(before))
        split = parted(pattern, names, self.side)
        pattern = split.pattern
        fates: list[Fate] = []
        for piece in self._meant(pattern, names):
            at = cut_across(piece, self.line, self.above_mm)
            left, right = self._amounts(pattern, piece, at)
            done = slashed(piece, at.left, at.right, left, right, at.beside(True), widths_stay=True)
            pattern = pattern.with_pieces(done.piece)
            fates.extend(done.fates)
        pattern, moved = notches_met(split.pattern, pattern)
        trace = split.trace.then(Trace(tuple(fates)))
        told = _widths_changed(split.pattern, pattern)
        return applied(before, pattern, trace, notches=moved, notes=told)

    def _meant(self, pattern: Pattern, names: list[str]) -> Iterable[Piece]:
        for piece in pattern.pieces:
            if piece.name in names and (
                self.side not in ONE_SIDE or piece.side in (self.side, BodySide.CENTRE)
            ):
                yield piece

    def _amounts(self, pattern: Pattern, piece: Piece, at: Across) -> tuple[float, float]:
        """How much at the left and at the right end of the cut."""
        if self.side not in ONE_SIDE:
            return self.by_mm, self.by_mm

        def has(end: CutAt) -> bool:
            if piece.side is BodySide.CENTRE:
                return end.edge.side is self.side
            return not is_centre(pattern, piece, end.edge)

        left, right = has(at.left), has(at.right)
        if left == right:
            raise PatternError(
                f"the {piece.label} has no end of the cut at the centre, so it is not clear where "
                "the amount runs to nothing; slash across the pieces in order, with an amount at "
                "each end"
            )
        return (self.by_mm, 0.0) if left else (0.0, self.by_mm)


def _widths_changed(before: Pattern, after: Pattern) -> Iterable[str]:
    """Say where a piece could not keep its width at a material line: one that leans, mostly."""
    for old in before.pieces:
        new = after.piece(*old.key)
        for one, other in zip(old.levels, new.levels, strict=True):
            by = level_length(new, other) - level_length(old, one) if new is not old else 0.0
            if abs(by) > WIDTH_MM:
                yield (
                    f"the {one.name} of the {old.label} {mm(abs(by))} "
                    f"{'longer' if by > 0 else 'shorter'}: the cut runs across it or right beside "
                    "it; cut further away to keep the width there"
                )


__all__ = ["Lengthen"]
