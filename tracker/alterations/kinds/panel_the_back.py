"""Panel the back: a line from the armhole to the waist, down the waist dart where there is one."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.style import styled_step
from tracker.alterations.told import on_paper
from tracker.drafting.style_back import STARTS, BackLine, panel_back, shoulder_dart
from tracker.drafting.style_start import start_words
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern


@dataclass(frozen=True, kw_only=True)
class PanelBack(Kind):
    """Part the back into a centre back and a side back panel.

    Attributes:
        piece: the piece.
        start: the edge the line starts from, "armhole" or "shoulder"; from the shoulder it
            runs down the shoulder dart's legs where there is one.
        share: how far along it, from the shoulder point or the neck point, 0 to 1.
        distance_mm: the same as a distance; it goes before the share.
        foot: "waist dart", "waist" (half-way between the side waist and the dart), or ""
            for the dart where there is one.
        bow_mm: how far the line bows.
        rounding_mm: how far above and below the dart's pivot the corner is rounded.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "panel the back"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Draw a line from the armhole or the shoulder to the waist and part the back on it: "
        "through the waist dart, each leg one panel's edge, or half-way between the dart and the "
        "side seam. From the shoulder it runs down the shoulder dart's legs; else that dart, or "
        "the shoulder's ease, stays."
    )

    piece: str = "back"
    start: str = "armhole"
    share: float = 0.5
    distance_mm: float | None = None
    foot: str = ""
    bow_mm: float = 10.0
    rounding_mm: float = 50.0
    side: BodySide = BodySide.BOTH

    @property
    def line(self) -> BackLine:
        """Where the line runs."""
        return BackLine(
            piece=self.piece,
            start=self.start,
            share=self.share,
            distance_mm=self.distance_mm,
            foot=self.foot,
            bow_mm=self.bow_mm,
            rounding_mm=self.rounding_mm,
        )

    @classmethod
    def example(cls) -> Example:
        """A back in two panels."""
        return Example(examples.bodice(), cls())

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back panelled from the armhole, half-way from the shoulder point, …"."""
        where = start_words(STARTS, self.start, self.share, self.distance_mm)
        who = "" if self.side is BodySide.BOTH else f" on the wearer's {self.side} side only"
        piece = pattern.piece(self.piece, self.side)
        darts = [d for d in piece.darts if d.mouth in ("waist", None)]
        foot = (
            "through the waist dart's point and down its legs"
            if darts and self.foot != "waist"
            else "to the waist, half-way to the side waist"
        )
        if any(e.name in ("hip", "hem") for e in piece.edges):
            foot += ", and straight on below"
        sides = {d.side for d in piece.darts} or {self.side}
        upper = [d for s in sides if (d := shoulder_dart(piece, s, self.line))]
        if upper:
            where = "shoulder, down the shoulder dart's legs"
        return f"{self.piece.capitalize()} panelled{who} from the {where}, {foot}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Part it, round, walk, true and mark."""
        del step_id  # a cut through an edge makes the drawn line the new base
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(pattern, self.sentence(pattern))
        split = split_sides(pattern, {self.piece} if self.side is not BodySide.BOTH else ())
        styled = panel_back(split.pattern, self.line, self.side)
        return styled_step(pattern, styled, self.piece, split.trace.then(styled.trace))
