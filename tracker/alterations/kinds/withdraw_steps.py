"""Withdraw steps: written down where they were left out, so that undoing is history too."""

from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import Effect
from tracker.alterations.kind import Applied, Example, Kind
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


@dataclass(frozen=True, kw_only=True)
class WithdrawSteps(Kind):
    """Say which steps were withdrawn; the version it opens was made without them.

    Attributes:
        steps: the opaque ids of the steps.
        sentences: what they had done, in words.
        from_version: the version, by address, that had them.
    """

    word: ClassVar[str] = "withdraw steps"
    family: ClassVar[str] = "record"
    help: ClassVar[str] = (
        "Leave out steps of earlier versions and work out the rest again: what tracker carry "
        "withdraw writes down."
    )

    steps: tuple[str, ...]
    sentences: tuple[str, ...]
    from_version: str

    def __post_init__(self) -> None:
        if not self.steps:
            raise PatternError("which steps are withdrawn? Name one at least")

    @classmethod
    def example(cls) -> Example:
        """A step that is taken back."""
        return Example(
            examples.bodice(),
            cls(
                steps=("a1b2",), sentences=("Bust dart of the front moved 15 mm down",),
                from_version="mara/bodice@3",
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Withdrawn from mara/bodice@3: side seams in 10 mm …"."""
        del pattern
        return f"Withdrawn from {self.from_version}: {'; '.join(self.sentences)}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Change nothing: the parent already stands before the steps withdrawn."""
        del step_id
        return Applied(pattern, Effect(), Trace())
