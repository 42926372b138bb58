"""Put on the fold: a piece that was a pair is cut once, its centre on the fold of the cloth."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.drafting.button_stand import STRAIGHT_MM, bent_mm
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Renamed, Trace


@dataclass(frozen=True, kw_only=True)
class PutOnFold(Kind):
    """Cut a piece on the fold instead of with a seam.

    Attributes:
        piece: the piece.
        edge: the edge that lies on the fold, "centre back".
    """

    word: ClassVar[str] = "put on the fold"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Cut a piece once on the fold of the cloth instead of twice with a seam at its centre; "
        "the centre has to be straight."
    )

    piece: str
    edge: str = "centre back"

    @classmethod
    def example(cls) -> Example:
        """A back without a seam."""
        return Example(examples.bodice(), cls(piece="back"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back put on the fold at the centre back"."""
        pattern.piece(self.piece)
        return f"{self.piece.capitalize()} put on the fold at the {self.edge}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take the seam away."""
        del step_id  # nothing is moved
        piece = pattern.piece(self.piece)
        edge = piece.edge(self.edge)
        if piece.side is not BodySide.BOTH:
            raise PatternError(
                f"the {piece.label} is not the same on the right and on the left, so it cannot be "
                "cut on the fold"
            )
        if piece.fold:
            raise PatternError(f"the {piece.label} is on the fold already, at its {piece.fold}")
        if edge.parts and (len(edge.parts) > 1 or bent_mm(edge) > STRAIGHT_MM):
            raise PatternError(
                f"the {self.edge} of the {piece.label} is shaped, by up to {bent_mm(edge):.1f} mm, "
                "and a fold is straight; put the shape into a dart or another seam first"
            )
        # What was to meet its other half, or say how far it is sewn, is at a fold for nothing.
        lost = [n for n in piece.notches if n.edge == self.edge]
        new = pattern.with_pieces(
            replace(
                piece,
                notches=tuple(n for n in piece.notches if n not in lost),
                fold=self.edge,
                copies=2,
                cut="cut 1 on the fold",
            )
        )
        kept = tuple(
            s
            for s in pattern.seams
            if not (s.on_itself and any(r.piece == self.piece and r.edge == self.edge
                                        for r in s.first))
        )  # fmt: skip
        notes = tuple(f"the {s.name} seam is gone" for s in pattern.seams if s not in kept)
        new = replace(new, seams=kept)
        told = [f"{n.name} of the {self.piece} gone with the seam at the {self.edge}" for n in lost]
        gone = tuple(Renamed("notch", (self.piece, n.name), ("", "")) for n in lost)
        return Applied(
            new, effect_between(pattern, new, notches=told, notes=notes), Trace(renamed=gone)
        )
