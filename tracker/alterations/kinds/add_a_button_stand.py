"""Add a button stand: width beyond the centre line, which stays a line on the piece."""

from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.in_halves import in_halves
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import ONE_SIDE, mm, on_paper, parted, whose
from tracker.drafting.button_stand import NoStand, stand_added
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace

#: 3/4 in: half a button of 1 1/2 in, or a button of 3/4 in with its own room; common practice.
USUAL_MM = 19.0


@dataclass(frozen=True, kw_only=True)
class AddButtonStand(Kind):
    """Add a button stand at a centre.

    Attributes:
        piece: the piece.
        edge: its centre edge; it becomes a line on the piece, to which girths are counted.
        width_mm: how far the stand reaches beyond the centre.
        facing_mm: how far a facing grown on to it reaches in from the front edge; 0 for none.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "add a button stand"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Open a front (or a back) at its centre and add a button stand beyond it, with its facing "
        "grown on if you like; the centre stays a line, and girths are counted to it."
    )

    piece: str = "front"
    edge: str = "centre front"
    width_mm: float = USUAL_MM
    facing_mm: float = 0.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.width_mm <= 0:
            raise PatternError("how wide is the stand? Give how far it reaches beyond the centre")
        if self.facing_mm and self.facing_mm <= self.width_mm:
            raise PatternError(
                f"a facing of {mm(self.facing_mm)} would not reach past the stand, which is "
                f"{mm(self.width_mm)} wide; make it wider, or leave it out"
            )

    @property
    def amount_mm(self) -> float:
        """How wide."""
        return self.width_mm

    def scaled(self, factor: float) -> Self | None:
        """Return the same, narrower or wider, its facing with it."""
        if factor <= 0:
            return None
        return replace(self, width_mm=self.width_mm * factor, facing_mm=self.facing_mm * factor)

    @classmethod
    def example(cls) -> Example:
        """A bodice that buttons in front, its facing grown on."""
        return Example(examples.bodice(), cls(width_mm=20.0, facing_mm=60.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Button stand 19 mm wide beyond the centre front of the front"."""
        pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        told = (
            f"{begin}{'button' if begin else 'Button'} stand {mm(self.width_mm)} wide beyond the "
            f"{self.edge} of the {self.piece}"
        )
        if self.facing_mm:
            told += f", its facing grown on and {mm(self.facing_mm)} wide from the edge"
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Open the centre and add the stand."""
        del step_id  # nothing that was there is moved
        before = pattern
        piece = pattern.piece(self.piece, self.side)
        if not piece.has_outline:
            return on_paper(before, self.sentence(before))
        if self.side in ONE_SIDE and piece.fold:
            raise NoStand(
                f"the {self.piece} is on the fold, so its {self.side} side has no centre edge of "
                "its own; put a seam at the centre first (seam at the centre)"
            )
        if piece.side is BodySide.CENTRE and self.side in ONE_SIDE:
            raise NoStand(
                f"the {self.piece} is cut in one across the centre, so its {self.side} side has no "
                "centre edge of its own; put a seam at the centre first (seam at the centre)"
            )
        # Opened out it is cut as a pair: a stand opens it at the centre.
        split = in_halves(pattern, (self.piece,))[0]
        if not split.trace.fates:
            split = parted(pattern, {self.piece}, self.side)
        new, fates, renamed = split.pattern, list[Fate](), list[Renamed]()
        for one in split.pattern.pieces:
            if one.name != self.piece or self.side not in (BodySide.BOTH, one.side):
                continue
            stand = stand_added(one, self.edge, self.width_mm, self.facing_mm)
            new = new.with_pieces(stand.piece)
            fates.append(Fate(Stretch.whole(one, stand.centre), None))
            fates += [
                Fate(None, Stretch.whole(stand.piece, stand.piece.edge(name)))
                for name in stand.fresh
            ]
            renamed.append(Renamed("level", ("", ""), (self.piece, self.edge)))
        kept = tuple(
            s
            for s in new.seams
            if not any(r.piece == self.piece and r.edge == self.edge for r in (*s.first, *s.second))
        )
        opened = tuple(f"the {s.name} seam is an opening now" for s in new.seams if s not in kept)
        new = settled(replace(new, seams=kept))
        notes = (
            f"the {self.edge} stays a line on the {self.piece}; girths, neckline and waist are "
            "counted to it",
            *opened,
        )
        trace = split.trace.then(Trace(tuple(fates), tuple(renamed)))
        return Applied(new, effect_between(before, new, notes=notes), trace)
