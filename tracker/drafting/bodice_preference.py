"""One preference for a free quantity: target, how much it gives, limits."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from tracker.drafting.bodice_curves import Reals

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Preference:
    """One free quantity of every trial shape, and what is preferred for it.

    Attributes:
        name: the trade's name.
        unit: "mm", "°" or "" for a factor.
        got: its value on each trial shape.
        target: the value preferred.
        give: how much it gives; a miss of one give costs as much as any other's.
        low: least value allowed.
        high: greatest value allowed.
        edge: how steeply nearing a limit counts, in the quantity's unit.
        from_low: how far above ``low`` it begins to count.
        source: where target and range come from.
        spoken: whether it is printed as chosen; the others only keep shapes sound.
    """

    name: str
    unit: str
    got: Reals
    target: Reals | float
    give: float
    low: Reals | float
    high: Reals | float
    edge: float
    from_low: float
    source: str
    spoken: bool

    def misses(self) -> tuple[Reals, Reals]:
        """Return what it adds to be minimised: the miss, and the nearness to a limit."""
        over = np.maximum(self.got - (self.high - 2.0 * self.edge), 0.0)
        under = np.minimum(self.got - (self.low + self.from_low), 0.0)
        return (self.got - self.target) / self.give, (over + under) / self.edge

    def broken(self) -> bool:
        """Tell whether the first trial shape's value lies outside the limits."""
        got, low, high = self._first()
        return not low - 1e-6 <= got <= high + 1e-6

    def excess(self) -> float:
        """Return how far that value lies beyond the nearer limit, in edges; negative within."""
        got, low, high = self._first()
        return max(low - got, got - high) / self.edge

    def _first(self) -> tuple[float, float, float]:
        got, low, high = (float(np.ravel(v)[0]) for v in (self.got, self.low, self.high))
        return got, low, high


@dataclass(slots=True)
class PreferenceList:
    """The preferences of a block, in the making."""

    rows: list[Preference] = field(default_factory=list)

    def prefer(
        self,
        name: str,
        got: Reals,
        target: Reals | float,
        *,
        give: float,
        low: Reals | float,
        high: Reals | float,
        unit: str = "mm",
        edge: float | None = None,
        from_low: float | None = None,
        source: str = PRACTICE,
        spoken: bool = True,
    ) -> None:
        """Add one; see ``Preference`` for what the arguments say."""
        if edge is None:
            edge = 0.02 * float(np.ravel(np.asarray(high - low))[0])
        if from_low is None:
            from_low = 2.0 * edge
        self.rows.append(
            Preference(name, unit, got, target, give, low, high, edge, from_low, source, spoken)
        )
