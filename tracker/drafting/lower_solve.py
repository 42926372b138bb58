"""Solving what hangs from the waist, skirt or trousers: darts counted, then the least misses."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np

from tracker.drafting.bodice_curves import Reals
from tracker.drafting.bodice_preference import Preference
from tracker.drafting.bodice_solve import (
    HARDLY,
    MOST_STEPS,
    ROUGH_STEPS,
    ROUGHLY,
    WANTED_TO,
    Evaluate,
    minimise,
    pull_of,
)

Shapes = TypeVar("Shapes")
Wants = TypeVar("Wants")
Counts = tuple[int, int]

MOST_DARTS = 2
"""No half of a waist has more darts."""


@dataclass(frozen=True, slots=True)
class Garment(Generic[Shapes, Wants]):
    """What a garment that hangs from the waist is solved by.

    Attributes:
        dart_counts: how many darts front and back are to have.
        shapes: all trial shapes, for columns of free numbers.
        preferences: what is preferred, evaluated on them.
        wanted: by how much each wanted figure is missed.
        start: a first shape's free numbers.
    """

    dart_counts: Callable[[Wants], Counts]
    shapes: Callable[[Reals, Wants, Counts], Shapes]
    preferences: Callable[[Shapes, Wants], list[Preference]]
    wanted: Callable[[Shapes, Wants], list[Reals]]
    start: Callable[[Wants, Counts], Reals]

    def solve(self, wants: Wants, rough: bool = False) -> Solution[Shapes, Wants]:
        """Return the best shape for what is wanted.

        Args:
            wants: the finished figures.
            rough: only whether there is a shape is asked.
        """
        counts = self.dart_counts(wants)
        found = self._solved(wants, counts, rough)
        crowded = [p.name for p in found.preferences() if p.broken() and "waist dart" in p.name]
        if found.miss <= WANTED_TO and crowded:
            # A dart would take too much after all: there is one more of it.
            front, back = (
                min(count + any(where in name for name in crowded), MOST_DARTS)
                for count, where in zip(counts, ("front", "back"), strict=True)
            )
            found = found if (front, back) == counts else self._solved(wants, (front, back), rough)
        if found.is_met or crowded:
            return found
        # On a figure with little to take in one dart less may do.
        for less in ((0, 1), (1, 0), (1, 1)):
            front, back = (max(n - one, 0) for n, one in zip(counts, less, strict=True))
            if (front, back) != counts:
                fewer = self._solved(wants, (front, back), rough)
                if fewer.is_met:
                    return fewer
        return found

    def _solved(self, wants: Wants, counts: Counts, rough: bool) -> Solution[Shapes, Wants]:
        most, hardly = (ROUGH_STEPS, ROUGHLY) if rough else (MOST_STEPS, HARDLY)
        x, c, _, _ = minimise(
            self._evaluating(wants, counts), self.start(wants, counts), most, hardly
        )
        miss = float(np.abs(c).max()) if np.all(np.isfinite(c)) else float("inf")
        return Solution(self, self.shapes(x[:, None], wants, counts), wants, miss, x, counts)

    def _evaluating(self, wants: Wants, counts: Counts) -> Evaluate:
        def evaluate(x: Reals) -> tuple[Reals, Reals]:
            shapes = self.shapes(x, wants, counts)
            rows = [row for p in self.preferences(shapes, wants) for row in p.misses()]
            return np.array(rows), np.array(self.wanted(shapes, wants))

        return evaluate

    def pull(self, failed: Solution[Shapes, Wants], other: Wants) -> float:
        """Return how much more it would cost to meet other wants, to first order."""
        here, there = (self._evaluating(w, failed.counts) for w in (failed.wants, other))
        return pull_of(here, there, failed.numbers)


@dataclass(frozen=True, slots=True)
class Solution(Generic[Shapes, Wants]):
    """Where the solving ended.

    Attributes:
        garment: what was solved.
        shapes: the one shape, as arrays of length 1.
        wants: what it was solved for.
        miss: the largest miss of a wanted figure.
        numbers: the free numbers, in units of their steps.
        counts: how many darts front and back have.
    """

    garment: Garment[Shapes, Wants]
    shapes: Shapes
    wants: Wants
    miss: float
    numbers: Reals
    counts: Counts

    def preferences(self) -> list[Preference]:
        """Return the preferences, evaluated."""
        return self.garment.preferences(self.shapes, self.wants)

    @property
    def is_met(self) -> bool:
        """Tell whether everything wanted is met and every limit kept."""
        return self.miss <= WANTED_TO and not any(p.broken() for p in self.preferences())
