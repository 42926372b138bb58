"""Fold out: take a wedge out of a piece, from a mouth to a hinge."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Example
from tracker.alterations.kinds.slash_and_spread import Centre, SlashAndSpread


@dataclass(frozen=True, kw_only=True)
class FoldOut(SlashAndSpread):
    """Fold a wedge out of a piece: slash and spread the other way.

    The other parameters are those of slash and spread.

    Attributes:
        by_mm: how much is taken out at the mouth, the whole of it: the fold on the paper is
            half as deep.
    """

    word: ClassVar[str] = "fold out"
    help: ClassVar[str] = (
        "Fold a wedge out of a piece from one edge, to nothing at another: for a sway back from "
        "the centre back above the waist to the side seam, for a hollow chest from the centre "
        "front or the neckline to the armhole."
    )
    opens: ClassVar[bool] = False
    _done: ClassVar[str] = "folded out"
    _moved: ClassVar[str] = "by"
    _instead: ClassVar[str] = "to open the mouth, slash and spread"

    @classmethod
    def example(cls) -> Example:
        """A sway back."""
        return Example(
            examples.bodice(),
            cls(
                piece="back", mouth_edge="centre back", mouth_corner="centre back waist",
                mouth_mm=50.0, hinge_edge="side", hinge_corner="side waist", hinge_mm=40.0,
                by_mm=10.0,
            ),
        )  # fmt: skip


__all__ = ["Centre", "FoldOut"]
