"""Set how a piece is cut."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import ONE_SIDE, parted, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern


@dataclass(frozen=True, kw_only=True)
class SetCut(Kind):
    """Write a piece's cut instruction.

    Attributes:
        piece: the piece's name.
        cut: the instruction, "cut 2, a pair", "cut 1 on the fold".
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "set the cut instruction"
    help: ClassVar[str] = (
        "Write how a piece is cut: how many, as a pair, on the fold, right side up. How often it "
        "is in the garment does not change."
    )

    piece: str
    cut: str
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.cut.strip():
            raise PatternError("what is the cut instruction? For example: cut 2, a pair")

    @classmethod
    def example(cls) -> Example:
        """A front that is cut once."""
        return Example(
            examples.bodice(),
            cls(piece="front", cut="cut 1 on the fold, right side of the cloth up"),
        )

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Cut instruction of the back: cut 2, a pair"."""
        pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        name = "cut instruction" if begin else "Cut instruction"
        return f"{begin}{name} of the {self.piece}: {self.cut.strip()}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Write it on the piece."""
        del step_id  # nothing is moved
        before = pattern
        pattern.piece(self.piece, self.side)
        split = parted(pattern, {self.piece}, self.side)
        pattern = split.pattern
        notes = []
        for piece in pattern.pieces:
            one = piece.side in (self.side, BodySide.CENTRE)
            if piece.name == self.piece and (self.side not in ONE_SIDE or one):
                pattern = pattern.with_pieces(replace(piece, cut=self.cut.strip()))
                notes.append(f"{piece.label}: {self.cut.strip()} (was: {piece.cut})")
        return Applied(pattern, effect_between(before, pattern, notes=notes), split.trace)
