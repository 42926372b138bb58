"""A likely cause of what is seen, and its remedies: kinds of alteration waiting for an amount."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from tracker.alterations.kind import Kind, kind_named
from tracker.fitting.counting import Sort
from tracker.fitting.looking import Stage
from tracker.fitting.scene import Scene

#: Parameters of one step for a pattern and an amount in millimetres, always positive; nothing
#: where the step is not wanted on the pattern as it stands.
Parameters = Callable[[Scene, float], Mapping[str, Any] | None]

PRACTICE = "common practice, no source"
MEMORY = "from memory"


@dataclass(frozen=True)
class Step:
    """One step of a remedy.

    Attributes:
        word: the kind's word.
        parameters: its parameters.
    """

    word: str
    parameters: Parameters

    def made(self, scene: Scene, amount_mm: float) -> Kind | None:
        """Return the step for a pattern; nothing where it is not wanted.

        Raises:
            TrackerError: the pattern has no place for it.
        """
        given = self.parameters(scene, amount_mm)
        return None if given is None else kind_named(self.word).from_parameters(given)


@dataclass(frozen=True)
class Remedy:
    """A remedy: one step or several, with one amount.

    Attributes:
        steps: the steps, in order.
        asks: what the amount is, as it is asked for.
        larger: the garment becomes larger, longer or higher there by it; otherwise smaller; none
            where it neither gains nor loses.
        words: what is done, in a few words.
        sort: what the amount is of, where it is not the first kind's usual one.
    """

    words: str
    asks: str
    larger: bool | None
    steps: tuple[Step, ...]
    sort: Sort | None = None

    @property
    def kind(self) -> str:
        """The kind its amount is counted for."""
        return self.steps[0].word

    def made(self, scene: Scene, amount_mm: float) -> tuple[Kind, ...]:
        """Return the steps for a pattern and an amount.

        Raises:
            TrackerError: the pattern has no place for it.
        """
        made = (step.made(scene, amount_mm) for step in self.steps)
        return tuple(kind for kind in made if kind is not None)


@dataclass(frozen=True, kw_only=True)
class Cause:
    """A likely cause.

    Attributes:
        name: "round back".
        stage: when it is looked at.
        length: it asks for length, which comes before width.
        tell: what to look at, pin or measure to tell it from the others.
        remedies: the usual remedy first; the others where that one has no place.
        usual_mm: from and to which amount is usual, and
        usual_from: where that is said.
        source: the handbook, or that it is common practice.
        by_hand: what to do where no kind of alteration does it.
        of: only of these garments; of all when empty.
    """

    name: str
    stage: Stage
    tell: str
    source: str
    length: bool = False
    remedies: tuple[Remedy, ...] = ()
    usual_mm: tuple[float, float] | None = None
    usual_from: str = ""
    by_hand: str = ""
    of: tuple[str, ...] = ()

    @property
    def trial_mm(self) -> float:
        """An amount to try whether a remedy can be drawn: the middle of the usual ones."""
        return sum(self.usual_mm) / 2 if self.usual_mm else 8.0


def one(
    words: str,
    asks: str,
    larger: bool | None,
    word: str,
    parameters: Parameters,
    sort: Sort | None = None,
) -> Remedy:
    """Return a remedy of one step."""
    return Remedy(words, asks, larger, (Step(word, parameters),), sort)


def at(corner: str, amount_mm: float, distance_mm: float = 0.0) -> dict[str, Any]:
    """Return an amount at a place, as parameters have it."""
    return {"corner": corner, "distance_mm": distance_mm, "amount_mm": amount_mm}
