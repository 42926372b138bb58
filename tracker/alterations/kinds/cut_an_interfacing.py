"""Cut an interfacing: a piece once more, as it is or a little smaller all round."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.copying import copied
from tracker.alterations.kind import Example
from tracker.alterations.told import mm
from tracker.alterations.tracing import Tracing, names_found
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, kw_only=True)
class CutInterfacing(Tracing):
    """Copy a piece as its interfacing.

    Attributes:
        piece: the piece: a front, a facing, a band, a collar.
        smaller_mm: how far inside the piece's sewing line it ends, all round but on a fold.
    """

    word: ClassVar[str] = "cut an interfacing"
    help: ClassVar[str] = (
        "Copy a piece, such as a facing, a band or a collar, as its interfacing: the same, or "
        "smaller all round so that it stays out of the seams."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("smaller_mm",)
    one_way: ClassVar[bool] = True

    piece: str
    smaller_mm: float = 0.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.smaller_mm < 0:
            raise PatternError("an interfacing is as large as its piece, or smaller")

    @classmethod
    def example(cls) -> Example:
        """An interfacing for a neck facing, 3 mm smaller."""
        kind = cls(name="facing interfacing", piece="front facing", smaller_mm=3.0)
        return Example(examples.faced(), kind)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Collar interfacing copied from the collar, 3 mm smaller all round"."""
        names_found(pattern, [self.piece])
        told = f"{self.name.strip().capitalize()} copied from the {self.piece}"
        return told + (f", {mm(self.smaller_mm)} smaller all round" if self.smaller_mm else "")

    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the piece it is copied from."""
        return tuple(names_found(pattern, [self.piece]))

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Copy it; a right and a left one where they differ."""
        pieces = []
        for piece in self.parents(pattern):
            inside = {e.key: -self.smaller_mm for e in piece.edges if e.name != piece.fold}
            copy = copied(pattern, piece, self.name.strip(), "interfacing", inside)
            if self.smaller_mm:
                copy = replace(copy, notches=())
            seen = seen_all((piece, e) for e in piece.edges)
            pieces.append(replace(copy, traced=self.traced(seen=seen)))
        return tuple(pieces), ()
