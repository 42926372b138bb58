"""Slash across several pieces: one cut over their seams, opened or closed evenly along it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.across import cut_across, cut_from, height, names_listed
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.partners import met_at, notches_met
from tracker.alterations.slash import CutAt
from tracker.alterations.slashing import Centre, piece_cut
from tracker.alterations.together import split_together
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam


@dataclass(frozen=True, kw_only=True)
class SlashAcross(Kind):
    """Cut several pieces along one line over their seams, with an amount at each end of it.

    Attributes:
        pieces: the pieces in order along the line, each sewn to the next.
        line: the material line the height is from.
        above_mm: how far above it; negative is below.
        first_mm: how much is put in (taken out, when negative) where the line begins, at the
            far edge of the first piece.
        last_mm: the same where it ends, at the far edge of the last piece.
        centre: what to do where a piece's fold would be bent.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "slash across the pieces"
    #: Rule 3 gives back what an earlier cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Open (or, with negative amounts, close) one cut that runs over several pieces and their "
        "seams, with an amount at each end and evenly between; what matched still matches."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("first_mm", "last_mm")

    pieces: tuple[str, ...]
    line: str
    above_mm: float
    first_mm: float
    last_mm: float
    centre: Centre = Centre.REFUSE
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if len(self.pieces) < 2 or len(set(self.pieces)) < len(self.pieces):
            raise PatternError(
                "name two pieces or more, each once, in order along the cut; within one piece, "
                "slash and spread or fold out"
            )
        if self.first_mm * self.last_mm < 0:
            raise PatternError("the cut is opened all along or closed all along, not both")
        if not (self.first_mm or self.last_mm):
            raise PatternError("both amounts are nothing, so there is nothing to alter")

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; pieces may be one text: "back, front"."""
        return super().from_parameters(names_listed(parameters))

    @classmethod
    def example(cls) -> Example:
        """A bodice longer behind than in front."""
        return Example(
            examples.bodice(),
            cls(
                pieces=("back", "front"), line="waist line", above_mm=60.0, first_mm=12.0,
                last_mm=0.0, centre=Centre.STRAIGHTEN,
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back and side back slashed across at … and spread: 10 mm at the far …"."""
        names = [pattern.piece(n, None).name for n in self.pieces]
        listed = f"{', '.join(names[:-1])} and {names[-1]}"
        opened = self.amount_mm > 0

        def end(amount: float) -> str:
            return mm(abs(amount)) if amount else "to nothing"

        told = (
            f"{whose(self.side)}{listed} {'slashed' if opened else 'folded out'} across at "
            f"{height(self.above_mm, self.line)}: {end(self.first_mm)} at the far edge of the "
            f"{names[0]}, {end(self.last_mm)} at the far edge of the {names[-1]}, evenly between"
        )
        return told[0].upper() + told[1:]

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut each piece in turn, from where the one before left off."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        if not all(pattern.piece(n, None).has_outline for n in self.pieces):
            return on_paper(before, self.sentence(before))
        split = split_together(pattern, self.pieces, self.side)
        trace, pattern, leaves = split.trace, split.pattern, []
        for side in self._sides(pattern):
            chain = [pattern.piece(name, side) for name in self.pieces]
            cuts = self._cuts(pattern, chain, side)
            lengths = [abs(b.point - a.point) for a, b in cuts]
            whole, reached = sum(lengths), 0.0
            at = self.first_mm
            for k, (piece, (one, other)) in enumerate(zip(chain, cuts, strict=True)):
                reached += lengths[k]
                share = reached / whole
                then = self.first_mm + (self.last_mm - self.first_mm) * share
                then = self.last_mm if k == len(chain) - 1 else then
                cut, pattern, told = piece_cut(
                    pattern, pattern.piece(*piece.key), one, other, at, then, self.centre
                )
                trace = trace.then(cut)
                leaves += told
                at = then
        pattern, moved = notches_met(split.pattern, pattern)
        return applied(before, pattern, trace, notches=moved, leaves=leaves)

    def _sides(self, pattern: Pattern) -> tuple[BodySide, ...]:
        if self.side in ONE_SIDE:
            return (self.side,)
        found = {p.side for p in pattern.pieces if p.name in self.pieces}
        if BodySide.CENTRE in found:
            across = next(
                p.name
                for p in pattern.pieces
                if p.name in self.pieces and p.side is BodySide.CENTRE
            )
            raise PatternError(
                f"the {across} lies across the centre and would be cut twice; do the right and the "
                "left side one after the other"
            )
        return (BodySide.BOTH,) if found == {BodySide.BOTH} else ONE_SIDE

    def _cuts(
        self, pattern: Pattern, chain: list[Piece], side: BodySide
    ) -> list[tuple[CutAt, CutAt]]:
        """Where each piece is cut, from its end towards the first piece to the other."""
        cuts: list[tuple[CutAt, CutAt]] = []
        start: CutAt | None = None
        for k, piece in enumerate(chain):
            if start is None:
                cut = cut_across(piece, self.line, self.above_mm)
                ends = cut.left, cut.right
            else:
                ends = start, cut_from(piece, start, self.line)
            if k + 1 == len(chain):
                first, out = ends
            else:
                seam, out = _joined(pattern, piece, ends, chain[k + 1], side, self)
                first = ends[0] if out is ends[1] else ends[1]
                if start is not None and first is not start:
                    raise PatternError(_no_seam(piece, chain[k + 1], self))
            if first.edge.key == out.edge.key:
                raise PatternError(_no_seam(chain[max(k - 1, 0)], piece, self))
            cuts.append((first, out))
            if k + 1 < len(chain):
                start = met_at(pattern, seam, piece, out, chain[k + 1])
        return cuts


def _joined(
    pattern: Pattern,
    piece: Piece,
    ends: tuple[CutAt, CutAt],
    after: Piece,
    side: BodySide,
    step: SlashAcross,
) -> tuple[Seam, CutAt]:
    """The seam to the next piece that the cut meets, and where."""
    for end in ends:
        for seam in pattern.seams_on(piece, end.edge):
            runs = (*seam.first, *seam.second)
            if any((r.piece, r.side) == (after.name, end.edge.side) for r in runs) or any(
                r.piece == after.name and r.side is side for r in runs
            ):
                return seam, end
    raise PatternError(_no_seam(piece, after, step))


def _no_seam(piece: Piece, after: Piece, step: SlashAcross) -> str:
    return (
        f"at {height(step.above_mm, step.line)} no seam joins the {piece.label} to the "
        f"{after.label}; name the pieces in order along the cut"
    )


__all__ = ["Centre", "SlashAcross"]
