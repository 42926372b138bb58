"""More or less room over the bust."""

from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.fold_kept import opened_at_the_fold
from tracker.alterations.fuller import Fuller, fuller
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import spot
from tracker.alterations.slash import CutAt
from tracker.alterations.slashing import Centre
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted, whose
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Renamed, Trace
from tracker.pattern.walk import notch_on_edge


@dataclass(frozen=True, kw_only=True)
class BustVolume(Kind):
    """Give a front with a bust dart and a waist dart more, or less, room over the bust.

    Attributes:
        by_mm: the whole amount round the full bust: half of it on each half of the front, all
            of it on the one for one side only; negative is less.
        piece: the front.
        bust_dart: its dart from the side.
        waist_dart: its dart from the lower edge.
        armhole: the edge the hinge is on.
        hinge_mm: how far along the armhole from the shoulder point; nothing means at the front
            armhole notch, or two thirds of the way down.
        centre: for one side only of a front on the fold: "shape a seam" makes the centre front a
            seam, because its two halves are no longer equally long.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "more or less bust volume"
    help: ClassVar[str] = (
        "Give the front more room over the bust (or, with a negative amount, less): the whole "
        "amount round the full bust; the length that goes with it is worked out, and shoulder, "
        "neckline, armhole and the side seam with its dart closed stay as they are."
    )

    by_mm: float
    piece: str = "front"
    bust_dart: str = "bust dart"
    waist_dart: str = "waist dart"
    armhole: str = "armhole"
    hinge_mm: float | None = None
    centre: Centre = Centre.REFUSE
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.by_mm:
            raise PatternError("by how much round the full bust? Nothing would be altered")
        if self.centre == Centre.STRAIGHTEN:
            raise PatternError(f"the centre stays straight; say “{Centre.SEAM}” or leave it")

    @property
    def amount_mm(self) -> float:
        """The whole amount."""
        return self.by_mm

    @property
    def half_mm(self) -> float:
        """What one half of the front gains."""
        return self.by_mm if self.side in ONE_SIDE else self.by_mm / 2

    def scaled(self, factor: float) -> Self:
        """Return the same by another amount."""
        return replace(self, by_mm=self.by_mm * factor)

    @classmethod
    def example(cls) -> Example:
        """A fuller bust."""
        return Example(examples.bodice(), cls(by_mm=40.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "30 mm more round the full bust: 15 mm on each half of the front …"."""
        piece = pattern.piece(self.piece, self.side)
        more = self.by_mm > 0
        told = f"{mm(abs(self.by_mm))} {'more' if more else 'less'} round the full bust: "
        if self.side in ONE_SIDE:
            told = f"{whose(self.side)}{told}all of it on the {self.side} {self.piece}"
        else:
            told += f"{mm(abs(self.half_mm))} on each half of the {self.piece}"
        if not piece.has_outline:
            return told
        try:
            drop = self._drawn(piece, piece.dart(self.bust_dart, self.side).side).drop_mm
        except TrackerError:
            return told
        return (
            f"{told}, and {mm(abs(drop))} {'longer' if drop > 0 else 'shorter'} at the centre; "
            f"both darts {'grow' if more else 'shrink'}, nothing else does"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Open the front through its bust point, or close it."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        known = pattern.piece(self.piece, self.side)
        if not known.has_outline:
            return on_paper(before, self.sentence(before))
        for dart in (self.bust_dart, self.waist_dart):
            known.dart(dart, self.side)
        renamed: tuple[Renamed, ...] = ()
        if self.side in ONE_SIDE and known.fold:
            if self.centre != Centre.SEAM:
                raise PatternError(
                    f"one half of the {self.piece} would be longer at its {known.fold} than the "
                    f"other, and it lies on the fold; say “{Centre.SEAM}” to make it a seam, or "
                    "alter both sides"
                )
            renamed = (Renamed("seam", ("", ""), ("", known.fold)),)
            pattern, _ = opened_at_the_fold(pattern, known)
        if self.side in ONE_SIDE and known.side is BodySide.CENTRE:
            raise PatternError(
                f"the {self.piece} lies across the centre and has no seam there, so one half of "
                "it cannot be made longer than the other"
            )
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace = split.pattern, Trace((), renamed).then(split.trace)
        told: list[str] = []
        for key in [p.key for p in pattern.pieces if p.name == self.piece]:
            piece = pattern.piece(*key)
            if self.side in ONE_SIDE and piece.side is not self.side:
                continue
            for side in [d.side for d in piece.darts if d.name == self.bust_dart]:
                made = self._drawn(pattern.piece(*key), side)
                pattern = pattern.with_pieces(made.piece)
                trace = trace.then(Trace(made.fates))
                told.append(
                    f"{piece.label}: centre {mm(abs(made.drop_mm))} "
                    f"{'longer' if made.drop_mm > 0 else 'shorter'}, the lower edge level again"
                )
        return applied(before, pattern, trace, notes=dict.fromkeys(told))

    def _drawn(self, piece: Piece, side: BodySide) -> Fuller:
        if piece.side is BodySide.CENTRE:
            raise PatternError(
                f"the {piece.name} is cut in one across the centre; the volume of a half can be "
                "altered on a pair, or on a front on the fold"
            )
        edge = piece.edge(self.armhole, side)
        shoulder = edge.start if piece.after(edge).name == self._beside(piece, side) else edge.end
        if self.hinge_mm is not None:
            at = spot(piece, edge, shoulder, self.hinge_mm)
        else:
            on = [n for n in piece.notches if (n.edge, n.side) == edge.key]
            share = edge.length * 2 / 3
            at = (
                notch_on_edge(edge, on[0])
                if on
                else (share if shoulder == edge.start else edge.length - share)
            )
        if not 3.0 < at < edge.length - 3.0:
            raise PatternError(
                f"the hinge lies too near the end of the {edge.name}; choose a place between 3 and "
                f"{edge.length - 3:.0f} mm from the {shoulder}"
            )
        bust, waist = piece.dart(self.bust_dart, side), piece.dart(self.waist_dart, side)
        return fuller(piece, bust, waist, CutAt(edge, at), self.half_mm)

    def _beside(self, piece: Piece, side: BodySide) -> str:
        """The side edge, which the bust dart opens from."""
        return str(piece.dart(self.bust_dart, side).mouth)


__all__ = ["BustVolume"]
