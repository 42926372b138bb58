"""Plan the ease anew: what a fitting liked becomes what the checks hold the pattern to."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import Effect
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import mm
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


@dataclass(frozen=True, kw_only=True)
class PlanEase(Kind):
    """Change the ease planned at a line; no edge moves.

    Attributes:
        line: the line, "waist line".
        ease_mm: the ease of the whole girth from now on; negative where cloth stretches.
    """

    word: ClassVar[str] = "plan the ease"
    family: ClassVar[str] = "plan"
    help: ClassVar[str] = (
        "Change the ease planned at a line, when a fitting liked more or less of it than the "
        "block was drafted with; the pattern stays as it is."
    )

    line: str
    ease_mm: float

    @classmethod
    def example(cls) -> Example:
        """A waist liked looser than planned."""
        return Example(examples.bodice(), cls(line="waist line", ease_mm=35.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Ease at the waist line planned at 24 mm, where it was 40 mm"."""
        was = dict(pattern.ease).get(self.line)
        before = "" if was is None else f", where it was {mm(was)}"
        return f"Ease at the {self.line} planned at {mm(self.ease_mm)}{before}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Write the new figure into the plan."""
        del step_id
        drawn = any(p.has_outline for p in pattern.pieces)
        if drawn and self.line not in lines_of(pattern):
            pattern.pieces[0].level(self.line)  # tells which lines there are
        plan = dict(pattern.ease)
        if plan.get(self.line) == self.ease_mm:
            raise PatternError(f"{mm(self.ease_mm)} is what is planned at the {self.line} already")
        plan[self.line] = self.ease_mm
        return Applied(replace(pattern, ease=tuple(sorted(plan.items()))), Effect(), Trace())
