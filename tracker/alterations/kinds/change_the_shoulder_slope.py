"""Change the shoulder's slope: squarer or more sloping, about the neck point."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.adjusted import NotMet, adjusted
from tracker.alterations.along_seams import seams_meant
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import EdgeAt, Shapes, at, end_turned, merged, shaped, straight
from tracker.alterations.shoulder import Half, halves, shoulder_parts
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Trace

#: Turns are found in hundredths.
_FINE = 100.0


class Slope(StrEnum):
    """Which way the shoulder goes."""

    SQUARE = "square"
    SLOPING = "sloping"


@dataclass(frozen=True, kw_only=True)
class ShoulderSlope(Kind):
    """Raise or drop the shoulder point about the neck point, on both pieces.

    Attributes:
        to: squarer (the shoulder point rises) or more sloping (it drops).
        by_mm: how far, square to the shoulder, on each piece.
        side: both, or the wearer's right or left only.
        underarm: the underarm rises or drops as much, so that the armhole keeps its size.
        seam: the shoulder seam's name.
    """

    word: ClassVar[str] = "change the shoulder slope"
    #: Rule 3 gives back what was there when its very opposite was done before.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Make the shoulder squarer or more sloping: the shoulder point rises or drops about the "
        "neck point on front and back, and the underarm with it, so that the armhole keeps its "
        "size."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Slope
    by_mm: float
    side: BodySide = BodySide.BOTH
    underarm: bool = True
    seam: str = "shoulder"

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how far the shoulder point rises or drops")

    @property
    def _up(self) -> float:
        return self.by_mm if self.to == Slope.SQUARE else -self.by_mm

    @classmethod
    def example(cls) -> Example:
        """Sloping shoulders."""
        return Example(examples.bodice(), cls(to=Slope.SLOPING, by_mm=9.0))

    def opposite(self, pattern: Pattern) -> Self | None:
        """As much the other way."""
        del pattern
        return replace(self, to=Slope.SLOPING if self.to == Slope.SQUARE else Slope.SQUARE)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Right and left shoulders 10 mm squarer at the shoulder point, to nothing …"."""
        seam = pattern.seam(self.seam, self.side)
        one, two = seam.first[-1].piece, seam.second[-1].piece
        only = self.side in ONE_SIDE
        who = f"{self.side.capitalize()} shoulder only:" if only else "Right and left shoulders"
        up = self._up > 0
        size = mm(abs(self.by_mm))
        told = (
            f"{who} {size} {'squarer' if up else 'more sloping'} at the shoulder point, to "
            f"nothing at the neck point: {size} {'on to' if up else 'off'} the {one} and {size} "
            f"{'on to' if up else 'off'} the {two}"
        )
        if self.underarm:
            return f"{told}; the underarm {'raised' if up else 'dropped'} {size} on both"
        return f"{told}; the underarm left where it is"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Swing both shoulders about the neck point, and carry the armholes along."""
        before = pattern
        seam, split = shoulder_parts(pattern, self.seam, self.side)
        if any(not pattern.edge_of(r).parts for r in (*seam.first, *seam.second)):
            return on_paper(before, self.sentence(before))
        pattern, trace = split.pattern, split.trace
        leaves: list[str] = []
        notes: list[str] = []
        for part in seams_meant(pattern, self.seam, self.side):
            for half in halves(pattern, part):
                pattern, moved = self._swung(pattern, part, half, step_id)
                trace = trace.beside(moved) if not trace.fates else trace.then(moved)
                if self.underarm and half.under is None:
                    leaves.append(
                        f"the armhole of the {half.tip.label} does not reach the underarm point: "
                        f"{'raise' if self._up > 0 else 'drop'} the underarm of the piece below it "
                        f"by {mm(abs(self.by_mm))} too"
                    )
                elif self.underarm and half.under is not None:
                    notes.append(
                        f"{half.under.name} of the {half.tip.label} {mm(abs(self.by_mm))} "
                        f"{'longer' if self._up > 0 else 'shorter'}"
                    )
        return applied(before, pattern, trace, leaves=leaves, notes=notes)

    def _swung(
        self, pattern: Pattern, seam: Seam, half: Half, step_id: str
    ) -> tuple[Pattern, Trace]:
        length = half.length
        if abs(self.by_mm) >= length / 2:
            raise PatternError(
                f"the shoulder point of the {half.tip.label} would go {mm(abs(self.by_mm))} on a "
                f"shoulder of {length:.0f} mm; half of that is the most"
            )
        # A length told apart to 0.1 mm, so that the way back is the same angle.
        angle = math.asin(self._up / round(length, 1))
        still = merged(self._shoulder(half, angle), self._neckline(half, angle))
        up = half.up_the_side() if self.underarm else None
        arm = at(half.tip, half.armhole)
        whole = half.armhole.base_length
        if up is not None:
            still = merged(still, {arm: (half.moved_by(up * self._up),)})
        under = half.under if up is not None else None
        start = not half.armhole_ends_there

        def measured(new: Pattern) -> list[float]:
            tip = new.piece(half.tip.name, half.tip.side)
            arm = tip.edge(*half.armhole.key)
            corner = math.radians(corner_angle(tip, arm, half.armhole_ends_there))
            found = [sum(new.edge_of(step.run).length for step in half.side), corner * _FINE]
            if under is not None:
                found += [arm.length, tip.edge(*under.key).length]
            return found

        wanted = measured(pattern)
        if under is not None:
            wanted[-1] += self._up

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            # At the shoulder point, about it, in the hollow, and at the underarm.
            mine = [
                half.from_tip([(0.0, amounts[0]), (whole * 0.35, 0.0)]),
                end_turned(half.armhole, start, amounts[1] / _FINE, blend_mm=90.0, hold_mm=10.0),
            ]
            if under is not None:
                hollow = [(whole * 0.3, 0.0), (whole * 0.6, amounts[2]), (whole * 0.9, 0.0)]
                mine.append(half.from_tip(hollow))
                mine.append(half.from_tip([(whole * 0.6, 0.0), (whole, amounts[3])]))
            return shaped(pattern, merged(still, {arm: tuple(mine)}), step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            return [a - b for a, b in zip(measured(drawn(amounts)[0]), wanted, strict=True)]

        turn = -math.tan(angle) * _FINE

        def misses_but_turn(amounts: Sequence[float]) -> list[float]:
            found = misses([amounts[0], turn, *amounts[1:]])
            return [found[0], *found[2:]]

        # Moving the armhole's line into the piece shortens shoulder and side, and lengthens
        # the hollow of the armhole itself; turning it in closes the corner.
        gains = [-1.0, -1.0, 0.4, -1.0][: len(wanted)]
        begin = [0.0, turn, 0.0, 0.0][: len(wanted)]
        failing = (
            f"the shoulder of the {half.tip.label} cannot be swung so far that shoulder and "
            "armhole keep their length; a smaller amount would"
        )
        try:
            amounts = adjusted(misses, begin, gains, failing)
        except NotMet:
            # Where the corner's direction jumps, lengths come first; the join is told, and trued
            # afterwards.
            first, *rest = adjusted(
                misses_but_turn, [0.0, *begin[2:]], [gains[0], *gains[2:]], failing
            )
            amounts = first, turn, *rest
        return drawn(amounts)

    @staticmethod
    def _shoulder(half: Half, angle: float) -> Shapes:
        """The shoulder's edges swung about the neck point: nothing there, rising evenly."""
        out: dict[EdgeAt, tuple[Profile, ...]] = {}
        reach = half.length + 100.0
        for step in half.side:
            edge = step.edge
            base = edge.base_length
            lean = _lean(edge) if step.run.backward else -_lean(edge)
            # Relative to the base line, which earlier steps may have swung already.
            slope = math.tan(lean + angle) - math.tan(lean)
            if step.run.backward:
                out[_key(step.run)] = (straight(base + step.from_mm, slope, reach),)
            else:
                out[_key(step.run)] = (straight(-step.from_mm, -slope, reach),)
        return out

    @staticmethod
    def _neckline(half: Half, angle: float) -> Shapes:
        """The neckline turned at the neck point as the shoulder was, so that it stays fair."""
        start = not half.neckline_ends_there
        turn = end_turned(half.neckline, start, math.tan(angle), blend_mm=45.0)
        return {at(half.neck, half.neckline): (turn,)}


def _key(run: Run) -> EdgeAt:
    return run.piece, run.side, run.edge, run.side


def _lean(edge: Edge) -> float:
    """How far the drawn edge is swung from its base line already, radians."""
    total = edge.total
    if not total.profiles:
        return 0.0
    whole = edge.base_length
    rise = total.at(whole)[0] - total.at(0.0)[0]
    return math.atan2(rise, whole)
