"""Change the crotch length: front and back apart, at the inside-leg point or at the centre."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.across import cut_from
from tracker.alterations.adjusted import adjusted
from tracker.alterations.crotch import (
    HIP_LINE,
    INSIDE_LEG,
    Fork,
    forks,
    forks_of,
    leg_mm,
    leg_words,
    line_on,
)
from tracker.alterations.crotch_moved import point_moved, stretched, without
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import spot
from tracker.alterations.slash import FROM_END_MM, CutAt
from tracker.alterations.slashing import Centre, piece_cut
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace

#: Unless told, the centre is slashed so far below the hip line; common practice, no source.
BELOW_HIP_MM = 20.0
#: But not so near the inside-leg point.
FROM_POINT_MM = 45.0


class CrotchAt(StrEnum):
    """Where the crotch is made longer or shorter."""

    POINT = "inside-leg point"
    CENTRE = "centre"


@dataclass(frozen=True, kw_only=True)
class CrotchLength(Kind):
    """Make the crotch seam longer or shorter; inside legs keep their lengths.

    Attributes:
        front_mm: how much longer in front; negative is shorter.
        back_mm: the same behind.
        at: at the inside-leg point, which moves along the crotch; or at the centre, which is
            slashed and spread, or folded out, to nothing at the side.
        nothing_mm: at the inside-leg point: how far below it the inside leg is back on its old
            line; 0 is a little above the knee.
        below_waist_mm: at the centre: how far below the waist it is cut, along it; 0 is just below
            the hip line.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "change the crotch length"
    #: Rule 3 gives back what an earlier cut replaced when the same cut is taken back.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Make the crotch longer or (with a negative amount) shorter, front and back apart: at the "
        "inside-leg point for more or less room between the legs, or at the centre for a full or "
        "a flat seat, a full or a flat tummy. Inside legs stay equal."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("front_mm", "back_mm")

    front_mm: float = 0.0
    back_mm: float = 0.0
    at: CrotchAt = CrotchAt.POINT
    nothing_mm: float = 0.0
    below_waist_mm: float = 0.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.front_mm and not self.back_mm:
            raise PatternError(
                "by how much? Give an amount in front, behind, or both (front=10mm back=-5mm)"
            )
        if min(self.nothing_mm, self.below_waist_mm) < 0:
            raise PatternError("a distance along the inside leg or the centre is not negative")
        if self.at == CrotchAt.CENTRE and self.nothing_mm:
            raise PatternError(
                "slashed at the centre the inside leg does not move; say where at the centre "
                "instead (below_waist), or leave it to the hip line"
            )
        if self.at == CrotchAt.POINT and self.below_waist_mm:
            raise PatternError(
                "at the inside-leg point nothing is cut; say at=centre, or how far down the inside "
                "leg it runs to nothing (nothing=250mm)"
            )

    @classmethod
    def example(cls) -> Example:
        """A full seat: the back crotch longer at the centre."""
        return Example(examples.trousers(), cls(back_mm=20.0, at=CrotchAt.CENTRE))

    @property
    def _amounts(self) -> tuple[tuple[str, float], ...]:
        both = (("front", self.front_mm), ("back", self.back_mm))
        return tuple((where, by) for where, by in both if by)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Crotch 10 mm longer in front and 20 mm longer behind, at the …"."""
        begin = whose(self.side)
        told = " and ".join(
            f"{mm(abs(by))} {'longer' if by > 0 else 'shorter'} "
            f"{'in front' if where == 'front' else 'behind'}"
            for where, by in self._amounts
        )
        found = [f for where, _ in self._amounts for f in forks_of(pattern, self.side, where)]
        if self.at == CrotchAt.CENTRE:
            at = "just below the hip line"
            if self.below_waist_mm:
                at = f"{mm(self.below_waist_mm)} below the waist"
            how = f"at the centre, {at}, to nothing at the side; the legs below stay as they are"
        else:
            how = (
                f"at the {found[0].corner}; the inside leg keeps its length, back on its old line "
                f"{leg_words(found, self.nothing_mm)}"
            )
        return f"{begin}{'crotch' if begin else 'Crotch'} {told}, {how}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the inside-leg points, or slash the centres."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        meant = [
            (f, by) for where, by in self._amounts for f in forks_of(pattern, self.side, where)
        ]
        if not all(f.piece.has_outline for f, _ in meant):
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {f.piece.name for f in forks(pattern, BodySide.BOTH)}, self.side)
        pattern, trace = split.pattern, split.trace
        for where, by in self._amounts:
            for fork in forks_of(split.pattern, self.side, where):
                if self.at == CrotchAt.CENTRE:
                    moved, pattern = self._slashed(pattern, fork, by)
                else:
                    pattern, moved = self._moved(pattern, fork, by)
                trace = trace.then(moved)
        return applied(before, pattern, trace, notes=self._notes())

    def _moved(self, pattern: Pattern, fork: Fork, by: float) -> tuple[Pattern, Trace]:
        def misses(crotch: float, inside: float, shift: Point) -> tuple[float, float]:
            del shift
            return crotch - fork.crotch.length - by, inside - fork.inside.length

        return point_moved(pattern, fork, leg_mm(fork, self.nothing_mm), (by, 0.0), misses)

    def _slashed(self, pattern: Pattern, fork: Fork, by: float) -> tuple[Trace, Pattern]:
        piece, crotch = fork.piece, fork.crotch
        on = _from_waist(fork, self.below_waist_mm or _usual_cut_mm(fork, by))
        one = CutAt(crotch, on)
        other = cut_from(piece, one, HIP_LINE)
        if other.edge.name in (INSIDE_LEG, crotch.name):
            raise PatternError(
                f"a cut across the {piece.label} from there ends on its {other.edge.name}, not on "
                "the side; slash the centre nearer to the waist"
            )

        curve = _curve_mm(fork, on)

        def cut(opened: Sequence[float]) -> tuple[Trace, Pattern]:
            trace, new, _ = piece_cut(pattern, piece, one, other, opened[0], 0.0, Centre.REFUSE)
            if curve is None:
                return trace, new
            # The crotch is drawn anew from the hip line to its point, so that the hip stays.
            tipped, fates = stretched(fork, new.piece(*piece.key), 0j, curve)
            told = (*without(trace, piece, crotch), *fates)
            return replace(trace, fates=told), new.with_pieces(tipped)

        def misses(opened: Sequence[float]) -> list[float]:
            # Drawn smooth again, the crotch is not quite so much longer as the cut is open.
            new = cut(opened)[1].piece(*piece.key).edge(*crotch.key)
            return [new.length - crotch.length - by]

        opened = adjusted(
            misses, [by], [1.0], f"the crotch of the {piece.label} cannot be changed so much at "
            "the centre; a smaller amount would fit", decimals=4,
        )  # fmt: skip
        return cut(opened)

    def _notes(self) -> Iterable[str]:
        if self.at == CrotchAt.CENTRE:
            yield "the part above the cut tips about the side seam; the leg hangs as it did"


def _usual_cut_mm(fork: Fork, by: float) -> float:
    """Where the centre is slashed unless told, from the waist: under the hip line.

    Cloth that is taken out lies under it too, so that the hip line stays whole.
    """
    hip = line_on(fork.piece, fork.crotch, HIP_LINE)
    if hip is None:
        raise PatternError(
            f"the {fork.piece.label} has no {HIP_LINE} that meets its {fork.crotch.name}; say how "
            "far below the waist the centre is slashed (below_waist=200mm)"
        )
    length = fork.crotch.length
    down = (length - hip if fork.at_start else hip) + BELOW_HIP_MM + max(-by, 0.0)
    return min(down, length - FROM_POINT_MM)


def _curve_mm(fork: Fork, cut_mm: float) -> float | None:
    """How much of the crotch is its curve, where it is cut within that: up to the hip line."""
    hip = line_on(fork.piece, fork.crotch, HIP_LINE)
    if hip is None:
        return None
    length = fork.crotch.length
    curve, cut = (hip, cut_mm) if fork.at_start else (length - hip, length - cut_mm)
    return curve if cut < curve else None


def _from_waist(fork: Fork, down_mm: float) -> float:
    on = spot(fork.piece, fork.crotch, fork.centre, down_mm)
    return min(max(on, FROM_END_MM), fork.crotch.length - FROM_END_MM)


__all__ = ["CrotchAt", "CrotchLength"]
