"""Does the work converge? Rounds of fitting counted."""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.fitting.observation import Observation, State


@dataclass(frozen=True, slots=True)
class Round:
    """One fitting's notes, counted by what became of them."""

    fitting_id: str
    notes: int
    settled: int
    came_back: int
    waiting: int


def rounds(notes: Iterable[Observation]) -> tuple[Round, ...]:
    """Count the notes of each fitting, in the order the fittings come."""
    by_fitting: dict[str, list[Observation]] = {}
    for note in notes:
        by_fitting.setdefault(note.fitting_id, []).append(note)
    return tuple(
        Round(
            fitting_id,
            len(some),
            sum(n.state is State.SETTLED for n in some),
            sum(n.state is State.CAME_BACK for n in some),
            sum(n.waiting for n in some),
        )
        for fitting_id, some in by_fitting.items()
    )
