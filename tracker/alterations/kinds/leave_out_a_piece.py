"""Leave out a piece: a facing, lining, band or collar that is not wanted any more."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace


@dataclass(frozen=True, kw_only=True)
class LeaveOut(Kind):
    """Leave a taken piece out of the pattern.

    Attributes:
        piece: its name.
    """

    word: ClassVar[str] = "leave out a piece"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Leave a facing, lining, interfacing, band or collar out of the pattern; what it was taken "
        "from stays as it is."
    )

    piece: str

    @classmethod
    def example(cls) -> Example:
        """A facing that is not wanted any more."""
        return Example(examples.faced(), cls(piece="front facing"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front facing left out"."""
        return f"{pattern.piece(self.piece).name.capitalize()} left out"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take it out, with the seams it was sewn in."""
        del step_id  # nothing is moved
        gone = [p for p in pattern.pieces if p.name == pattern.piece(self.piece).name]
        if any(p.layer == "shell" and p.traced is None for p in gone):
            raise PatternError(
                f"the {self.piece} is a piece of the shell, without which the garment would have a "
                "hole; only what was taken from other pieces can be left out"
            )
        names = {p.name for p in gone}
        needing = [
            p.label
            for p in pattern.pieces
            if p.name not in names and p.traced and {s.piece for s in p.traced.seen} & names
        ]
        if needing:
            raise PatternError(
                f"the {' and the '.join(needing)} was taken from the {self.piece}: leave that out "
                "first"
            )
        seams = tuple(
            s for s in pattern.seams if not any(r.piece in names for r in (*s.first, *s.second))
        )
        left = tuple(p for p in pattern.pieces if p.name not in names)
        new = replace(pattern, pieces=left, seams=seams)
        fates = tuple(Fate(Stretch.whole(p, e), None) for p in gone for e in p.edges if e.parts)
        renamed = tuple(Renamed("piece", (p.name, str(p.side)), ("", "")) for p in gone)
        notes = tuple(f"the {s.name} seam is gone" for s in pattern.seams if s not in seams)
        effect = effect_between(pattern, new, notes=notes)
        return Applied(new, effect, Trace(fates, renamed))
