"""Reshape an edge of one piece."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import amounts_on, at, shaped
from tracker.alterations.told import (
    ONE_SIDE,
    applied,
    centre_corners,
    edges_meant,
    kept_at_the_centre,
    mm,
    on_paper,
    parted,
    whose,
)
from tracker.alterations.waist_given_back import waist_told
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern


@dataclass(frozen=True, kw_only=True)
class ReshapeEdge(Kind):
    """Move one edge of one piece square to itself by amounts at places.

    Attributes:
        piece: the piece's name.
        edge: the edge's name: a free edge, or one side of a seam.
        amounts: at least one, at places of the edge; positive goes into the piece. They are
            joined smoothly, flat at a nothing; one alone holds all along.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "reshape an edge"
    help: ClassVar[str] = (
        "Move one edge of one piece in (or, with a negative amount, out) at one or more places; "
        "what it is sewn to is left as it is, and the difference is told."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("amounts",)

    piece: str
    edge: str
    amounts: tuple[AmountAt, ...]
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not any(a.amount_mm for a in self.amounts):
            raise PatternError("how much, and where? Give an amount that is not nothing")

    @classmethod
    def example(cls) -> Example:
        """An armhole cut in where the arm moves forward."""
        return Example(
            examples.bodice(),
            cls(
                piece="front", edge="armhole",
                amounts=(
                    AmountAt(corner="shoulder point", distance_mm=0.0, amount_mm=0.0),
                    AmountAt(corner="shoulder point", distance_mm=120.0, amount_mm=7.0),
                    AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
                ),
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Armhole of the front in 5 mm at 60 mm from the shoulder point, to nothing …"."""
        piece = pattern.piece(self.piece, self.side)
        edge = piece.edge(self.edge, None)
        some = [
            f"{'in' if a.amount_mm > 0 else 'out'} {mm(abs(a.amount_mm))} {a.words}"
            for a in self.amounts
            if a.amount_mm
        ]
        nothing = [a.words.removeprefix("at ") for a in self.amounts if not a.amount_mm]
        told = f"{whose(self.side)}{self.edge} of the {self.piece} {', '.join(some)}"
        if self.side in ONE_SIDE:
            here = {a.corner for a in self.amounts if not a.distance_mm}
            nothing += [f"the {c}" for c in centre_corners(piece, edge) if c not in here]
        if len(self.amounts) == 1:
            told += " and the same all along"
        if nothing:
            told += f", to nothing at {' and '.join(nothing)}"
        return told[0].upper() + told[1:]

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the edge and draw its piece again."""
        before = pattern
        if not edges_meant(pattern, self.piece, self.edge, BodySide.BOTH)[0][1].parts:
            return on_paper(before, self.sentence(before))
        if pattern.piece(self.piece, self.side).fold == self.edge:
            raise PatternError(
                f"the {self.edge} of the {self.piece} lies on the fold, which stays straight; "
                "make it a seam to shape it"
            )
        split = parted(pattern, {self.piece}, self.side)
        shapes = {
            at(piece, edge): (
                kept_at_the_centre(piece, edge, amounts_on(piece, edge, self.amounts), self.side),
            )
            for piece, edge in edges_meant(split.pattern, self.piece, self.edge, self.side)
        }
        after, moved = shaped(split.pattern, shapes, step_id)
        waist = waist_told(before, after, self.piece, self.edge, self.side)
        return applied(before, after, split.trace.then(moved), leaves=waist)


__all__ = ["AmountAt", "ReshapeEdge"]
