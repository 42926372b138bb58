"""How an amount runs along an edge: a monotone cubic through stated amounts."""

import bisect
import itertools
from collections import OrderedDict
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from tracker.errors import TrackerError
from tracker.geometry.point import DECIMALS

#: How far towards the next place an outermost one is drawn in at most, as a share.
_DRAWN_IN = 0.8


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
        i = bisect.bisect_left(k, s, key=_distance) - 1
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

    def is_zero_between(self, s0: float, s1: float) -> bool:
        """Tell whether nothing is moved on a stretch with no knot inside it."""
        k = self.knots
        middle = (s0 + s1) / 2
        i = bisect.bisect_left(k, middle, key=_distance)
        return k[max(i - 1, 0)][1] == 0.0 and k[min(i, len(k) - 1)][1] == 0.0

    def held(self, from_mm: float, to_mm: float) -> "Profile":
        """Return the profile with its outermost amounts reached at two places further in.

        An outermost place that lies beyond one of them is drawn in to it, though never nearer
        to the next place than a fifth of the way.
        """
        k = list(self.knots)
        if k[0][0] < from_mm:
            most = from_mm if len(k) == 1 else k[0][0] + _DRAWN_IN * (k[1][0] - k[0][0])
            k[0] = (min(from_mm, most), k[0][1])
        if k[-1][0] > to_mm:
            least = to_mm if len(k) == 1 else k[-1][0] - _DRAWN_IN * (k[-1][0] - k[-2][0])
            k[-1] = (max(to_mm, least), k[-1][1])
        return Profile(tuple(k))

    @cached_property
    def rounded(self) -> "Profile":
        """The profile as the store keeps it; its own once it is rounded."""
        kept = Profile(
            tuple((round(s, DECIMALS) + 0.0, round(v, DECIMALS) + 0.0) for s, v in self.knots)
        )
        kept.__dict__["rounded"] = kept
        return kept

    @cached_property
    def plain(self) -> list[list[float]]:
        """The knots as the store writes them."""
        return [[s, v] for s, v in self.rounded.knots]

    def times(self, factor: float) -> "Profile":
        """Return the profile with every amount multiplied."""
        return Profile(tuple((s, v * factor + 0.0) for s, v in self.knots))


def _distance(knot: tuple[float, float]) -> float:
    return knot[0]


@dataclass(frozen=True)
class Sum:
    """Several profiles added, in their order."""

    profiles: tuple[Profile, ...]

    @classmethod
    def of(cls, profiles: Iterable[Profile]) -> "Sum":
        """Add profiles."""
        return cls(tuple(profiles))

    @cached_property
    def merged(self) -> "Sum":
        """The same sum with profiles of the same shape added into one, none that is zero left.

        A monotone cubic grows as its amounts do, so the sum is the same line; and an amount
        done in two steps, or undone, is the same to the last digit as done at once, or never.
        """
        out = list(_merging(self.profiles))
        return Sum(tuple(p for p in out if any(v for _, v in p.knots)))

    def only(self, which: tuple[int, ...]) -> "Sum":
        """Return the sum of some of the profiles, by number."""
        return self if len(which) == len(self.profiles) else Sum.of(self.profiles[k] for k in which)

    def between_breaks(
        self, which: tuple[int, ...], a: float, b: float, least: float, most: float
    ) -> tuple[float, float]:
        """Return the stretch about a…b, inside least…most, on which some profiles have no knot."""
        low, high = least, most
        for k in which:
            for s, _ in self.profiles[k].knots:
                if low < s <= a + 1e-9:
                    low = s
                elif b - 1e-9 <= s < high:
                    high = s
        return low, high

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


#: Sums merged of late, by the identity of their profiles (kept alive beside them): an edge
#: gains one profile a step, and only that one is added then.
_MERGED: OrderedDict[tuple[int, ...], tuple[tuple[Profile, ...], tuple[Profile, ...]]] = (
    OrderedDict()
)
_MERGED_KEPT = 256


def _merging(profiles: tuple[Profile, ...]) -> tuple[Profile, ...]:
    """Add profiles of the same shape into one, in their order."""
    known = len(profiles)
    keys = tuple(map(id, profiles))
    while known and keys[:known] not in _MERGED and len(profiles) - known < 2:
        known -= 1
    found = _MERGED.get(keys[:known])
    out = list(found[1]) if found else []
    for profile in profiles[known if found else 0 :]:
        for index, other in enumerate(out):
            if _same_shape(other, profile):
                knots = zip(other.knots, profile.knots, strict=True)
                out[index] = Profile(tuple((s, _plain(v + w)) for (s, v), (_, w) in knots))
                break
        else:
            out.append(profile)
    _MERGED[keys] = profiles, tuple(out)
    while len(_MERGED) > _MERGED_KEPT:
        _MERGED.popitem(last=False)
    return tuple(out)


def _same_shape(one: Profile, other: Profile) -> bool:
    """Tell whether two profiles stand at the same places, the one a multiple of the other."""
    if len(one.knots) != len(other.knots):
        return False
    if any(a[0] != b[0] for a, b in zip(one.knots, other.knots, strict=True)):
        return False
    (v, w) = max(
        ((a[1], b[1]) for a, b in zip(one.knots, other.knots, strict=True)),
        key=lambda pair: max(abs(pair[0]), abs(pair[1])),
    )
    return all(
        abs(a[1] * w - b[1] * v) <= 1e-9 * (abs(v) + abs(w))
        for a, b in zip(one.knots, other.knots, strict=True)
    )


def _plain(amount: float) -> float:
    """Drop what adding leaves behind the ninth decimal of a millimetre."""
    return round(amount, 9) + 0.0
