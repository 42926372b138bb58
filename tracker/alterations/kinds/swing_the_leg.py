"""Swing the leg below the knee outwards or inwards, for knock knees or bow legs."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.across import Across, cut_across, height, up_of
from tracker.alterations.adjusted import adjusted
from tracker.alterations.crotch import INSIDE_LEG, KNEE_LINE, Fork, forks
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.partners import notches_met
from tracker.alterations.shaping import Shapes, at, merged, shaped
from tracker.alterations.slash import Slashed, slashed
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.geometry.point import Point, dot
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Trace

#: The leg is cut so far above the knee line unless told; common practice, no source.
ABOVE_KNEE_MM = 15.0


class Swing(StrEnum):
    """Which way the hem goes."""

    OUTWARDS = "outwards"
    INWARDS = "inwards"


@dataclass(frozen=True, kw_only=True)
class SwingLeg(Kind):
    """Cut the leg across at the knee and swing what is below it, the hem trued level again.

    Attributes:
        to: outwards for knock knees, inwards for bow legs.
        by_mm: how far the hem of each leg goes, front and back on the mean.
        line: the material line the cut's height is from.
        above_mm: how far above that line it is cut; negative is below.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "swing the leg"
    #: Rule 3 trues the hem, which rule 2 left turned with the leg, and gives back what an earlier
    #: cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Swing the legs of trousers outwards from the knee, for knock knees, or inwards, for bow "
        "legs: front and back are cut across and opened alike at the one seam, to nothing at the "
        "other, and both seams still match."
    )

    to: Swing
    by_mm: float
    line: str = KNEE_LINE
    above_mm: float = ABOVE_KNEE_MM
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm <= 0:
            raise PatternError(
                "by how much? More than nothing; say outwards or inwards for the way"
            )

    @property
    def amount_mm(self) -> float:
        """How far the hem goes."""
        return self.by_mm

    def scaled(self, factor: float) -> Self | None:
        """Return the same by another amount; backwards, outwards is inwards."""
        if factor == 0:
            return None
        to = self.to if factor > 0 else _OTHER[self.to]
        return replace(self, to=to, by_mm=self.by_mm * abs(factor))

    @classmethod
    def example(cls) -> Example:
        """Knock knees: each leg 25 mm outwards."""
        return Example(examples.trousers(), cls(to=Swing.OUTWARDS, by_mm=25.0))

    @property
    def _seam(self) -> str:
        return INSIDE_LEG if self.to == Swing.OUTWARDS else "side"

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Leg swung 25 mm outwards at the hem, from 15 mm above the knee line: …"."""
        found = forks(pattern, self.side)
        opened = ""
        if all(f.piece.has_outline for f in found):
            opened = f" {mm(self._opened(found))}"
        begin, other = whose(self.side), "side" if self._seam == INSIDE_LEG else INSIDE_LEG
        return (
            f"{begin}{'leg' if begin else 'Leg'} swung {mm(self.by_mm)} {self.to} at the hem, from "
            f"{height(self.above_mm, self.line)}: front and back opened{opened} at the "
            f"{self._seam}, to nothing at the {other}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut every leg across and open it at one seam."""
        before = pattern
        found = forks(pattern, self.side)
        if not all(f.piece.has_outline for f in found):
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {f.piece.name for f in found}, self.side)
        pattern, fates = split.pattern, list[Fate]()
        found = forks(pattern, self.side)
        opened = self._opened(found)
        gone = []
        for fork in found:
            done = self._cut(fork, opened)
            gone.append(f"{fork.where} {mm(_hem_moved(fork, done.piece))}")
            pattern = pattern.with_pieces(done.piece)
            fates.extend(done.fates)
        pattern, levelled = shaped(pattern, self._level(found, pattern), step_id)
        pattern, moved = notches_met(split.pattern, pattern)
        trace = split.trace.then(Trace(tuple(fates))).then(levelled)
        notes = (
            f"the hem goes {self.to}: {', '.join(dict.fromkeys(gone))}; the grain runs with the "
            "thigh, and the crease below the knee is pressed to the middle of the hem; the hem "
            "was trued level again, about its middle",
        )
        return applied(before, pattern, trace, notches=moved, notes=notes)

    @staticmethod
    def _level(found: Sequence[Fork], new: Pattern) -> Shapes:
        """What takes the hems, turned with the legs, back to hanging as they did."""
        shapes: Shapes = {}
        for fork in found:
            piece = new.piece(*fork.piece.key)
            edge, was = piece.edge("hem"), fork.piece.edge("hem")
            up = up_of(fork.piece)
            chords = [e.drawn[-1].end - e.drawn[0].start for e in (was, edge)]
            tilt = dot(chords[0], up) - dot(chords[1], up)
            # Into the piece is up: its end is raised by half, its start let down by half.
            ends = ((0.0, -tilt / 2), (edge.base_length, tilt / 2))
            shapes = merged(shapes, {at(piece, edge): (Profile(ends),)})
        return shapes

    def _across(self, fork: Fork) -> tuple[Across, bool]:
        """The cut, and whether its left end is the one that opens."""
        at = cut_across(fork.piece, self.line, self.above_mm)
        names = [at.left.edge.name, at.right.edge.name]
        if sorted(names) != sorted([INSIDE_LEG, "side"]):
            raise PatternError(
                f"{height(self.above_mm, self.line)} a cut across the {fork.piece.label} goes from "
                f"its {names[0]} to its {names[1]}; the leg is swung between {INSIDE_LEG} and side"
            )
        return at, names[0] == self._seam

    def _cut(self, fork: Fork, opened: float) -> Slashed:
        at, first = self._across(fork)
        ends = (opened, 0.0) if first else (0.0, opened)
        return slashed(fork.piece, at.left, at.right, *ends, at.beside(True))

    def _opened(self, found: Sequence[Fork]) -> float:
        """How far front and back are opened, so that their hems go so far on the mean."""

        def misses(opened: Sequence[float]) -> list[float]:
            gone = [_hem_moved(f, self._cut(f, opened[0]).piece) for f in found]
            return [sum(gone) / len(gone) - self.by_mm]

        shares = []
        for fork in found:
            at, _ = self._across(fork)
            below = dot(at.left.point - _hem(fork.piece), up_of(fork.piece))
            shares.append(at.length_mm / below)
        share = sum(shares) / len(shares)
        (opened,) = adjusted(
            misses, [self.by_mm * share], [1 / share],
            "the leg cannot be swung so far from there; a smaller amount would fit", decimals=4,
        )  # fmt: skip
        return opened


def _hem(piece: Piece) -> Point:
    """The middle of a piece's hem."""
    edge = piece.edge("hem")
    return edge.point_at(edge.length / 2)


def _hem_moved(fork: Fork, new: Piece) -> float:
    """How far a hem has gone square to the grain."""
    up = up_of(fork.piece)
    return abs(dot(_hem(new) - _hem(fork.piece), complex(up.imag, -up.real)))


_OTHER = {Swing.OUTWARDS: Swing.INWARDS, Swing.INWARDS: Swing.OUTWARDS}

__all__ = ["Swing", "SwingLeg"]
