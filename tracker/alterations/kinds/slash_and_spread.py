"""Slash and spread: cut a piece from a mouth to a hinge, and open it there."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.fold_kept import opened_at_the_fold
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.opened_out import as_a_pair, centre_line, halves_of
from tracker.alterations.seams_apart import WORTH_MM
from tracker.alterations.shaping import spot
from tracker.alterations.slash import CutAt
from tracker.alterations.slashing import Centre, piece_cut
from tracker.alterations.told import ONE_SIDE, applied, edges_meant, mm, on_paper, parted, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Renamed, Trace
from tracker.pattern.walk import side_lengths


@dataclass(frozen=True, kw_only=True)
class SlashAndSpread(Kind):
    """Cut a piece from one place of its outline to another and open it at the first.

    The part with the fold or the grain line stays; the other turns about the hinge.

    Attributes:
        piece: the piece.
        mouth_edge: the edge the cut starts from, where it opens.
        mouth_corner: the corner of that edge its place is measured from.
        mouth_mm: how far from there, along the edge.
        hinge_edge: the edge the cut ends at; it keeps its length.
        hinge_corner: the corner its place is measured from.
        hinge_mm: how far from there.
        by_mm: how wide the mouth opens, square to the cut.
        centre: what to do where the piece's fold would be bent.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "slash and spread"
    #: Rule 3 gives back what an earlier cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Cut a piece from one edge to another and open it at the first like a hinge: for a round "
        "back from the centre back at the blades to the armhole."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)
    one_way: ClassVar[bool] = True

    piece: str
    mouth_edge: str
    mouth_corner: str
    mouth_mm: float
    hinge_edge: str
    hinge_corner: str
    hinge_mm: float
    by_mm: float
    centre: Centre = Centre.REFUSE
    side: BodySide = BodySide.BOTH

    #: Whether the mouth opens, and how that is said.
    opens: ClassVar[bool] = True
    _done: ClassVar[str] = "slashed"
    _moved: ClassVar[str] = "and spread"
    _instead: ClassVar[str] = "to close the mouth, fold out"

    def __post_init__(self) -> None:
        if self.by_mm <= 0:
            raise PatternError(f"by how much? More than nothing; {self._instead}")

    @classmethod
    def example(cls) -> Example:
        """A round back."""
        return Example(
            examples.bodice(),
            cls(
                piece="back", mouth_edge="centre back", mouth_corner="centre back neck",
                mouth_mm=110.0, hinge_edge="armhole", hinge_corner="shoulder point",
                hinge_mm=95.0, by_mm=14.0,
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back slashed from the centre back, 110 mm from the …, and spread 12 mm …"."""
        pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        who = self.piece if begin else self.piece.capitalize()
        mouth = _at(self.mouth_edge, self.mouth_corner, self.mouth_mm)
        hinge = _at(self.hinge_edge, self.hinge_corner, self.hinge_mm)
        told = (
            f"{begin}{who} {self._done} from the {mouth} to the {hinge} {self._moved} "
            f"{mm(self.by_mm)} at the {self.mouth_edge}, to nothing at the {self.hinge_edge}"
        )
        if not self.opens:
            told += f"; the fold on the paper is {mm(self.by_mm / 2)} deep there"
        if self.centre == Centre.SEAM:
            told += "; the centre is made a seam"
        if self.centre == Centre.STRAIGHTEN:
            told += "; the fold is drawn straight again"
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut the piece and turn the part that holds neither fold nor grain."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        known = pattern.piece(self.piece, self.side)
        opened = Trace()
        if self.side in ONE_SIDE:
            pattern, opened = self._for_one_side(pattern, known)
            known = pattern.piece(self.piece, self.side)
        for edge in (self.mouth_edge, self.hinge_edge):
            known.edge(edge)
        if not known.has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace, leaves = split.pattern, opened.then(split.trace), []
        places = edges_meant(pattern, self.piece, self.mouth_edge, self.side)
        for piece_key, side in [(p.key, e.side) for p, e in places]:
            piece = pattern.piece(*piece_key)
            cut, pattern, told = self._cut(pattern, piece, side)
            trace = trace.then(cut)
            leaves += told
        leaves += self._other_half(pattern)
        return applied(before, pattern, trace, leaves=leaves)

    def _other_half(self, pattern: Pattern) -> list[str]:
        """What a mouth at a centre seam leaves to be done, for one side only."""
        if self.side not in ONE_SIDE:
            return []
        edge = pattern.piece(self.piece, self.side).edge(self.mouth_edge, self.side)
        seams = pattern.seams_on(pattern.piece(self.piece, self.side), edge)
        apart = (side_lengths(pattern, s) for s in seams if s.side is BodySide.CENTRE)
        if not any(abs(one - two) >= WORTH_MM for one, two in apart):
            return []
        do = "spread" if self.opens else "fold out"
        return [
            f"the {self.mouth_edge} seam is uneven because only its {self.side} half was cut: {do} "
            f"the {self.side.opposite} half as much; or withdraw this and cut from another edge, "
            f"the armhole, to nothing at the {self.mouth_edge}, which leaves that seam alone"
        ]

    def _for_one_side(self, pattern: Pattern, piece: Piece) -> tuple[Pattern, Trace]:
        """A piece whose two halves have one centre, made a pair where the hinge is there.

        Raises:
            PatternError: the mouth is there, or the centre is to stay as it is.
        """
        if not piece.has_outline:
            return pattern, Trace()
        across = piece.side is BodySide.CENTRE and any(
            v.side is BodySide.CENTRE and v.name in (self.mouth_edge, self.hinge_edge)
            for v in piece.levels
        )
        centre = centre_line(piece).name if across else piece.fold
        if centre is None or centre not in (self.mouth_edge, self.hinge_edge):
            return pattern, Trace()
        if self.mouth_edge == centre or self.centre != Centre.SEAM:
            longer = "longer" if self.opens else "shorter"
            why = (
                f"one half of the {self.piece} would be {mm(self.by_mm)} {longer} at its {centre} "
                "than the other"
                if self.mouth_edge == centre
                else f"the {centre} of the {self.piece} is cut for both sides and would be bent"
            )
            raise PatternError(
                f"{why}; for one side only cut it from another edge, the armhole, to nothing at "
                f"the {centre}, and make that a seam (“{Centre.SEAM}”), or from one edge to "
                "another beside the centre; or alter both sides"
            )
        if across:
            return as_a_pair(pattern, piece, *halves_of(piece))
        pattern, _ = opened_at_the_fold(pattern, piece)
        return pattern, Trace((), (Renamed("seam", ("", ""), ("", centre)),))

    def _cut(
        self, pattern: Pattern, piece: Piece, side: BodySide
    ) -> tuple[Trace, Pattern, list[str]]:
        mouth, hinge = piece.edge(self.mouth_edge, side), piece.edge(self.hinge_edge, side)
        one = CutAt(mouth, spot(piece, mouth, self.mouth_corner, self.mouth_mm))
        other = CutAt(hinge, spot(piece, hinge, self.hinge_corner, self.hinge_mm))
        by = self.by_mm if self.opens else -self.by_mm
        return piece_cut(pattern, piece, one, other, by, 0.0, self.centre)


def _at(edge: str, corner: str, distance_mm: float) -> str:
    return f"{edge} {mm(distance_mm)} from the {corner}"


__all__ = ["Centre", "SlashAndSpread"]
