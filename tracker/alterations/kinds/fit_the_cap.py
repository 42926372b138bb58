"""Fit the cap of a sleeve to the armhole it is sewn into."""

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.cap_match import WORTH_MM, cap_off, fitting_move, met
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.set_in import SetIn, set_in
from tracker.alterations.sleeve_moved import sleeve_moved, to_nothing
from tracker.alterations.sleeves import cap_told, parted_sleeves, sleeves_meant, undrawn, who
from tracker.alterations.told import applied, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Fate, Trace

#: What a cap may be off and still fit, millimetres.
_FITS_MM = 0.05


class Answer(StrEnum):
    """What of the sleeve takes up the difference."""

    WHERE = "where it changed"
    HEIGHT = "cap height"
    WIDTH = "upper arm"


@dataclass(frozen=True, kw_only=True)
class FitCap(Kind):
    """Make a cap as long as its armhole and the ease planned ask, and bring the notches together.

    Attributes:
        by: what takes up the difference: the width what lies below the notches and the height
            what lies above them, the cap's height alone, or the upper arm's width alone.
        nothing_mm: where the width changes, how far below the underarm points the seams are back
            on their old lines; the elbow line when none is given, half-way without one.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "fit the cap to the armhole"
    help: ClassVar[str] = (
        "After the armhole was altered: draw the sleeve's cap to the armhole and the planned ease "
        "again, narrower or wider at the underarm, lower or higher at the top, and bring all its "
        "notches to their partners."
    )

    by: Answer = Answer.WHERE
    nothing_mm: float | None = None
    side: BodySide = BodySide.BOTH

    @classmethod
    def example(cls) -> Example:
        """A bodice taken in at the underarm, whose sleeves are now too large for it."""
        from tracker.alterations.engine import apply_step
        from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn

        amounts = (
            AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=12.0),
            AmountAt(corner="side waist", distance_mm=0.0, amount_mm=0.0),
        )
        taken_in = apply_step(TakeIn(seam="side", amounts=amounts), examples.sleeved(), "example")
        return Example(taken_in.pattern, cls())

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Sleeves: cap drawn to the armhole and the planned ease again, …"."""
        undrawn(pattern, self.side)
        begin = who(self.side)
        how = {
            Answer.WHERE: "by the width at the underarm for what lies below the notches, by the "
            "height of the cap for what lies above",
            Answer.HEIGHT: "by the height of the cap alone",
            Answer.WIDTH: "by the width at the underarm alone",
        }[self.by]
        begin = begin if begin.endswith(":") else f"{begin}:"
        return (
            f"{begin} cap drawn to the armhole and the planned ease again, {how}; every cap notch "
            "brought to its partner"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw the caps again."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        if undrawn(pattern, self.side):
            return on_paper(pattern, self.sentence(pattern))
        split = parted_sleeves(pattern, self.side)
        start, trace = split.pattern, split.trace
        apart = {s.piece.name for s in set_in(start, self.side) if _differ(start, s)}
        if apart:
            both = split_sides(start, apart)
            start, trace = both.pattern, trace.then(both.trace)
        new = start
        fates: list[Fate] = []
        for sleeve in sleeves_meant(start, self.side):
            off = cap_off(start, sleeve.seam)
            if off.worst_mm < _FITS_MM:
                continue
            move = fitting_move(sleeve, off, _SHARES[self.by])
            reach = to_nothing(sleeve, self.nothing_mm) if move.wider_mm else (0.0, 0.0)
            done = sleeve_moved(start, sleeve, move, reach)
            fates += done.fates
            new = met(new.with_pieces(done.piece), sleeve)
        if not fates:
            raise PatternError(
                f"the cap fits the armhole as it is, to {WORTH_MM:g} mm between all its notches, "
                "so there is nothing to fit"
            )
        notes, leaves = cap_told(start, new, self.side)
        told = ("every cap notch brought to its partner, the planned ease between the same ones",)
        return applied(
            pattern, new, trace.then(Trace(tuple(fates))), notches=told, notes=notes, leaves=leaves
        )


_SHARES = {Answer.WHERE: None, Answer.HEIGHT: 0.0, Answer.WIDTH: 1.0}


def _differ(pattern: Pattern, sleeve: SetIn) -> bool:
    """Tell whether a sleeve drawn once for both arms is off its two armholes differently."""
    if sleeve.piece.side is not BodySide.BOTH:
        return False
    others = [cap_off(pattern, s.seam) for s in set_in(pattern) if s.piece is sleeve.piece]
    return any(
        abs(a - b) > _FITS_MM
        for one in others
        for a, b in (
            (one.begins_mm, others[0].begins_mm), (one.between_mm, others[0].between_mm),
            (one.ends_mm, others[0].ends_mm),
        )
    )  # fmt: skip


__all__ = ["Answer", "FitCap"]
