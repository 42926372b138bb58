"""How an amount runs along an edge: a monotone cubic through stated amounts."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from tracker.errors import TrackerError


class ProfileError(TrackerError):
    """Amounts that do not make a profile."""


@dataclass(frozen=True)
class Profile:
    """Amounts at places along a line, joined smoothly and never beyond their neighbours.

    Joined by Fritsch and Carlson's monotone cubic (SIAM J. Numer. Anal. 17, 1980). It is flat
    at a zero, zero between two zeros, and beyond the outermost place the last amount holds.

    Attributes:
        knots: (distance along in mm, amount in mm), distances rising.
    """

    knots: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        if not self.knots:
            raise ProfileError("no amount was given; say how much at one place at least")
        for (s0, _), (s1, _) in zip(self.knots, self.knots[1:], strict=False):
            if s1 - s0 < 1e-6:
                raise ProfileError(
                    f"two amounts stand at the same place, {s0:.1f} mm along; give it one amount"
                )

    @cached_property
    def slopes(self) -> tuple[float, ...]:
        """The slope at each knot; 0 at the ends, at a zero and at a peak."""
        k = self.knots
        n = len(k)
        if n == 1:
            return (0.0,)
        steps = [b[0] - a[0] for a, b in itertools.pairwise(k)]
        secants = [(b[1] - a[1]) / h for a, b, h in zip(k, k[1:], steps, strict=False)]
        out = [0.0] * n
        for i in range(1, n - 1):
            before, after = secants[i - 1], secants[i]
            if before * after <= 0 or k[i][1] == 0.0:
                continue
            # Weighted harmonic mean: stays inside Fritsch and Carlson's monotone region.
            w1, w2 = 2 * steps[i] + steps[i - 1], steps[i] + 2 * steps[i - 1]
            out[i] = (w1 + w2) / (w1 / before + w2 / after)
        return tuple(out)

    def at(self, s: float) -> tuple[float, float]:
        """Return the amount and its slope at a distance along."""
        k = self.knots
        if s <= k[0][0]:
            return k[0][1], 0.0
        if s >= k[-1][0]:
            return k[-1][1], 0.0
        i = 0
        while s > k[i + 1][0]:
            i += 1
        (s0, v0), (s1, v1) = k[i], k[i + 1]
        h = s1 - s0
        m0, m1 = self.slopes[i] * h, self.slopes[i + 1] * h
        u = (s - s0) / h
        value = (
            v0 * (1 + 2 * u) * (1 - u) ** 2 + m0 * u * (1 - u) ** 2
            + v1 * u * u * (3 - 2 * u) + m1 * u * u * (u - 1)
        )  # fmt: skip
        slope = (
            6 * u * (u - 1) * (v0 - v1) + m0 * (1 - u) * (1 - 3 * u) + m1 * u * (3 * u - 2)
        ) / h
        return value, slope

    def times(self, factor: float) -> "Profile":
        """Return the profile with every amount multiplied."""
        return Profile(tuple((s, v * factor + 0.0) for s, v in self.knots))


@dataclass(frozen=True)
class Sum:
    """Several profiles added, in their order."""

    profiles: tuple[Profile, ...]

    @classmethod
    def of(cls, profiles: Iterable[Profile]) -> "Sum":
        """Add profiles."""
        return cls(tuple(profiles))

    @cached_property
    def breaks(self) -> tuple[float, ...]:
        """The distances at which the sum changes its cubic, rising."""
        return tuple(sorted({s for p in self.profiles for s, _ in p.knots}))

    def at(self, s: float) -> tuple[float, float]:
        """Return the amount and its slope; amounts under 1e-9 mm are none."""
        value = slope = 0.0
        for profile in self.profiles:
            v, m = profile.at(s)
            value += v
            slope += m
        return (0.0 if abs(value) < 1e-9 else value), (0.0 if abs(slope) < 1e-12 else slope)

    def is_zero_between(self, s0: float, s1: float) -> bool:
        """Tell whether nothing is moved between two neighbouring breaks."""
        # A cubic that is 0 at four places is 0.
        return all(self.at(s0 + (s1 - s0) * share)[0] == 0.0 for share in (0.0, 0.31, 0.67, 1.0))
