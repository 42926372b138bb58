"""Set an edge's own seam allowance."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import ONE_SIDE, mm, parted, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern

#: Wider than this nobody cuts, millimetres.
MOST_MM = 150.0


@dataclass(frozen=True, kw_only=True)
class SetAllowance(Kind):
    """Keep a seam allowance of its own for an edge.

    Attributes:
        piece: the piece's name.
        edge: the edge's name.
        width_mm: how wide; nothing for an edge that is bound or faced without.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "set the allowance"
    help: ClassVar[str] = (
        "Keep a seam allowance of its own for an edge, such as a centre back to be let out: prints "
        "for cloth add it, unless another is asked for there. The sewing line stays."
    )

    piece: str
    edge: str
    width_mm: float
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not 0 <= self.width_mm <= MOST_MM:
            raise PatternError(f"an allowance is from nothing to {mm(MOST_MM)} wide")

    @classmethod
    def example(cls) -> Example:
        """A centre back with cloth to be let out."""
        return Example(examples.bodice(), cls(piece="back", edge="centre back", width_mm=25.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Allowance of the back at the centre back: 25 mm"."""
        pattern.piece(self.piece, self.side).edge(self.edge)
        begin = whose(self.side)
        name = "allowance" if begin else "Allowance"
        return f"{begin}{name} of the {self.piece} at the {self.edge}: {mm(self.width_mm)}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Write it on the piece."""
        del step_id  # nothing is moved
        before = pattern
        if pattern.piece(self.piece, self.side).fold == self.edge:
            raise PatternError(
                f"the {self.edge} of the {self.piece} lies on the fold and has no allowance; put a "
                "seam there first (seam at the centre)"
            )
        pattern.piece(self.piece, self.side).edge(self.edge)
        split = parted(pattern, {self.piece}, self.side)
        pattern = split.pattern
        notes = []
        for piece in pattern.pieces:
            if piece.name != self.piece:
                continue
            if self.side in ONE_SIDE and piece.side is BodySide.CENTRE:
                raise PatternError(
                    f"the {self.piece} lies across the centre: its {self.edge} has one allowance, "
                    "right and left"
                )
            if self.side not in ONE_SIDE or piece.side is self.side:
                kept = tuple(a for a in piece.allowances if a[0] != self.edge)
                own = (*kept, (self.edge, self.width_mm))
                pattern = pattern.with_pieces(replace(piece, allowances=tuple(sorted(own))))
                notes.append(f"{piece.label}: {self.edge} {mm(self.width_mm)} outside the seam")
        return Applied(pattern, effect_between(before, pattern, notes=notes), split.trace)
