"""Seam at the centre: a piece that was on the fold is cut as a pair."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.in_halves import in_halves
from tracker.alterations.kind import Applied, Example, Kind
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Trace


@dataclass(frozen=True, kw_only=True)
class CentreSeam(Kind):
    """Cut a piece as a pair instead of on the fold.

    Attributes:
        piece: the piece.
        sewn: the two are sewn together at the centre; no for an opening all along it.
    """

    word: ClassVar[str] = "seam at the centre"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Cut a piece that was on the fold as a pair, with a seam at its centre (which can then be "
        "shaped) or an opening all along it."
    )

    piece: str
    sewn: bool = True

    @classmethod
    def example(cls) -> Example:
        """A front with a centre seam."""
        return Example(examples.bodice(), cls(piece="front"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front cut as a pair, with a seam at the centre front"."""
        piece = pattern.piece(self.piece)
        lines = [v.name for v in piece.levels if v.side is BodySide.CENTRE]
        fold = piece.fold or next(iter(lines), "centre")
        what = "a seam" if self.sewn else "an opening"
        return f"{self.piece.capitalize()} cut as a pair, with {what} at the {fold}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take it off the fold."""
        del step_id  # nothing is moved
        piece = pattern.piece(self.piece)
        if piece.side is BodySide.CENTRE and piece.has_outline:
            return self._opened_out(pattern)
        if piece.fold is None or piece.side is not BodySide.BOTH:
            raise PatternError(
                f"the {piece.label} is not on the fold: it is cut as “{piece.cut}” already"
            )
        fold = piece.edge(piece.fold)
        new = pattern.with_pieces(replace(piece, fold=None, cut="cut 2, a pair"))
        if self.sewn and piece.layer == "shell":
            run = (Run(piece.name, fold.name, fold.side),)
            if any(s.name == fold.name for s in pattern.seams):
                raise PatternError(f"this pattern has a seam called {fold.name} already")
            new = replace(new, seams=(*new.seams, Seam(fold.name, BodySide.CENTRE, run, run)))
        return Applied(new, effect_between(pattern, new), Trace())

    def _opened_out(self, pattern: Pattern) -> Applied:
        """Cut a piece that was opened out, its sides differing, as a right and a left one."""
        split, seams = in_halves(pattern, (self.piece,))
        new = split.pattern
        if not self.sewn or pattern.piece(self.piece).layer != "shell":
            new = replace(new, seams=tuple(s for s in new.seams if s.name not in seams))
        new = settled(new)
        return Applied(new, effect_between(pattern, new), split.trace)
