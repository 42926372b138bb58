"""Panel the front: a princess line over the bust, each leg of the waist dart a panel's edge."""

from dataclasses import dataclass
from typing import Any, ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.panel_beside import panel_front_beside
from tracker.alterations.style import styled_step
from tracker.alterations.told import mm, on_paper
from tracker.drafting.style_front import STARTS, FrontLine, panel_front
from tracker.drafting.style_leftover import Leftover
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
        beside_mm: how far beside the bust point the line passes, 38 mm at most; to the side,
            or to the centre when negative. The waist dart moves over to it.
        leftover: what becomes of what is left of the bust dart then: ease of at most 6 mm, or
            a short dart.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "panel the front"
    #: Rule 3 keeps the waist where the line passes beside the bust point.
    rule: ClassVar[int] = 3
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
    beside_mm: float = 0.0
    leftover: Leftover = Leftover.EASE
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

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values; through the bust point, as ever recorded."""
        plain = super().parameters()
        if not self.beside_mm:
            del plain["beside_mm"], plain["leftover"]
        return plain

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front panelled from the shoulder, half-way from the neck point, …"."""
        where = start_words(STARTS, self.start, self.share, self.distance_mm)
        who = "" if self.side is BodySide.BOTH else f" on the wearer's {self.side} side only"
        rounded = f", rounded {mm(self.rounding_mm)} above and below it" if self.rounding_mm else ""
        begin = f"{self.piece.capitalize()} panelled{who} from the {where}, "
        darts = pattern.piece(self.piece, self.side).darts
        inner = any(d.name == "waist dart" and d.double_pointed for d in darts)
        foot = f"down the waist dart's legs{' and straight on below it' if inner else ''}"
        if not self.beside_mm:
            return f"{begin}over the bust point{rounded}, and {foot}; the bust dart turned shut"
        toward = "the side" if self.beside_mm > 0 else "the centre"
        left = "eased in" if self.leftover == Leftover.EASE else "a short dart"
        return (
            f"{begin}{mm(abs(self.beside_mm))} beside the bust point towards {toward}"
            f"{rounded}, and {foot}, moved over to it; the bust dart turned into the line, what "
            f"is left of it {left}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Part it, close the dart, round, walk, true and mark."""
        del step_id  # a cut through an edge makes the drawn line the new base
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(pattern, self.sentence(pattern))
        split = split_sides(pattern, {self.piece} if self.side is not BodySide.BOTH else ())
        if self.beside_mm:
            styled = panel_front_beside(
                split.pattern, self.line, self.beside_mm, self.leftover, self.side
            )
        else:
            styled = panel_front(split.pattern, self.line, self.side)
        return styled_step(pattern, styled, self.piece, split.trace.then(styled.trace))
