"""Leave a traced piece as it is: she has looked, and it is right for its parents as they are."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.pattern.errors import PatternError
from tracker.pattern.following import changed_since, seen_again
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


@dataclass(frozen=True, kw_only=True)
class LeaveAsItIs(Kind):
    """Say that a traced piece stays as it is.

    Attributes:
        piece: its name.
    """

    word: ClassVar[str] = "leave a traced piece as it is"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Say that a facing, lining, band or collar is right as it is although the pieces it was "
        "taken from have changed; it is no longer out of date, and prints."
    )

    piece: str

    @classmethod
    def example(cls) -> Example:
        """A facing whose neckline was lowered since."""
        return Example(examples.faced(), cls(piece="front facing"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front facing left as it is, although the neckline of the front is …"."""
        since = changed_since(pattern, pattern.piece(self.piece))
        told = f", although {'; '.join(since)}" if since else ""
        return f"{self.piece.capitalize()} left as it is{told}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take its parents as seen."""
        del step_id  # nothing is moved
        if pattern.piece(self.piece).traced is None:
            raise PatternError(f"the {self.piece} was not traced from another piece by a step")
        mine = [p for p in pattern.pieces if p.name == self.piece]
        if not any(changed_since(pattern, p) for p in mine):
            raise PatternError(f"the {self.piece} is not out of date: nothing it was taken from "
                               "has changed")  # fmt: skip
        new = pattern.with_pieces(*(seen_again(pattern, p) for p in mine))
        return Applied(new, effect_between(pattern, new), Trace())
