"""Panel the front: a princess line over the bust, each leg of the waist dart a panel's edge."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.style import styled_step
from tracker.drafting.style_front import STARTS, FrontLine, panel_front
from tracker.drafting.style_start import start_words
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern


@dataclass(frozen=True, kw_only=True)
class PanelFront(Kind):
    """Part the front into a centre front and a side front panel.

    Attributes:
        piece: the piece.
        start: the edge the line starts from, "shoulder" or "armhole".
        share: how far along it, from the neck point or the shoulder point, 0 to 1.
        distance_mm: the same as a distance; it goes before the share.
        bow_mm: how far a line from the armhole bows; if not told about 10 mm.
        rounding_mm: how far above and below the bust point the corner is rounded.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "panel the front"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Draw a princess line from the shoulder or the armhole over the bust point and part the "
        "front on it: each leg of the waist dart becomes one panel's edge, the bust dart is "
        "turned shut, and the seam is walked and notched."
    )

    piece: str = "front"
    start: str = "shoulder"
    share: float = 0.5
    distance_mm: float | None = None
    bow_mm: float | None = None
    rounding_mm: float = 50.0
    side: BodySide = BodySide.BOTH

    @property
    def line(self) -> FrontLine:
        """Where the line runs."""
        return FrontLine(
            piece=self.piece,
            start=self.start,
            share=self.share,
            distance_mm=self.distance_mm,
            bow_mm=self.bow_mm,
            rounding_mm=self.rounding_mm,
        )

    @classmethod
    def example(cls) -> Example:
        """A front in two panels."""
        return Example(examples.bodice(), cls())

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front panelled from the shoulder, half-way from the neck point, …"."""
        del pattern
        where = start_words(STARTS, self.start, self.share, self.distance_mm)
        who = "" if self.side is BodySide.BOTH else f" on the wearer's {self.side} side only"
        rounded = (
            f", rounded {self.rounding_mm:.0f} mm above and below it" if self.rounding_mm else ""
        )
        return (
            f"{self.piece.capitalize()} panelled{who} from the {where}, over the bust point"
            f"{rounded}, and down the waist dart's legs; the bust dart turned shut"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Part it, close the dart, round, walk, true and mark."""
        del step_id  # a cut through an edge makes the drawn line the new base
        split = split_sides(pattern, {self.piece} if self.side is not BodySide.BOTH else ())
        styled = panel_front(split.pattern, self.line, self.side)
        return styled_step(pattern, styled, self.piece, split.trace.then(styled.trace))
