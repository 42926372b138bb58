"""Set which layer of the garment a piece belongs to."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


class Layer(StrEnum):
    """The layers of a garment."""

    SHELL = "shell"
    FACING = "facing"
    LINING = "lining"
    INTERFACING = "interfacing"


@dataclass(frozen=True, kw_only=True)
class SetLayer(Kind):
    """Put a piece into a layer.

    Attributes:
        piece: the piece's name.
        layer: shell, facing, lining or interfacing.
        taken_from: the piece it follows (a facing its front), if any.
    """

    word: ClassVar[str] = "set the layer"
    help: ClassVar[str] = (
        "Say whether a piece is shell, facing, lining or interfacing, and which piece it is taken "
        "from; girths are measured on the shell only."
    )

    piece: str
    layer: Layer
    taken_from: str | None = None

    def __post_init__(self) -> None:
        if self.taken_from == self.piece:
            raise PatternError(f"the {self.piece} cannot be taken from itself")

    @classmethod
    def example(cls) -> Example:
        """A lining copied from the back."""
        return Example(
            examples.lined(), cls(piece="back lining", layer=Layer.LINING, taken_from="back")
        )

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front facing set to facing, taken from the front"."""
        pattern.piece(self.piece)
        told = f"{self.piece.capitalize()} set to {self.layer}"
        if self.taken_from:
            pattern.piece(self.taken_from)
            told += f", taken from the {self.taken_from}"
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Write it on the piece."""
        del step_id  # nothing is moved
        pattern.piece(self.piece)
        if self.taken_from:
            pattern.piece(self.taken_from)
        new, notes = pattern, []
        for piece in pattern.pieces:
            if piece.name == self.piece:
                taken = self.taken_from or piece.taken_from
                new = new.with_pieces(replace(piece, layer=str(self.layer), taken_from=taken))
                notes.append(f"{piece.label}: {self.layer} (was: {piece.layer})")
        if not any(p.layer == "shell" for p in new.pieces):
            raise PatternError(f"without the {self.piece} no piece of the shell would be left")
        return Applied(new, effect_between(pattern, new, notes=notes), Trace())
