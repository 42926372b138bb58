"""Zeros of a polynomial on 0…1, given by its Bernstein coefficients."""

import itertools
import math
from collections.abc import Iterator

#: A zero is closed in on until its bracket is this narrow.
_NARROW = 1e-15
#: What halving leaves of a zero just at a cut, against the greatest coefficient.
_NOISE = 4e-15


def roots(coefficients: tuple[float, ...]) -> Iterator[float]:
    """Yield the zeros in 0…1 of a polynomial given by its Bernstein coefficients, rising.

    Works by the rule of signs: a stretch whose coefficients change sign once has one zero,
    which Newton's rule inside a bracket closes in on; one with more changes is halved. A
    polynomial that is 0 throughout has none to tell.
    """
    size = max(map(abs, coefficients))
    if size > 0.0:
        yield from _roots(coefficients, 0.0, 1.0, 48, size * _NOISE)


def _roots(c: tuple[float, ...], t0: float, t1: float, depth: int, noise: float) -> Iterator[float]:
    if abs(c[0]) < noise or abs(c[-1]) < noise:
        ends = [0.0 if abs(end) < noise else end for end in (c[0], c[-1])]
        c = (ends[0], *c[1:-1], ends[1])
    changes = sign = 0
    for value in c:
        s = (value > 0) - (value < 0)
        if s and sign and s != sign:
            changes += 1
        sign = s or sign
    alone = changes == 1 and c[0] != 0.0 and c[-1] != 0.0
    if changes and not alone and depth > 0:
        first, second = halves(c)
        middle = (t0 + t1) / 2
        yield from _roots(first, t0, middle, depth - 1, noise)
        yield from _roots(second, middle, t1, depth - 1, noise)
        return
    # Stretches share their ends: a zero just there is told by the one that ends in it.
    if c[0] == 0.0 and t0 == 0.0:
        yield 0.0
    if alone:
        yield t0 + (t1 - t0) * _bracketed(c)
    elif changes:
        yield (t0 + t1) / 2
    if c[-1] == 0.0:
        yield t1


def halves(c: tuple[float, ...]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the coefficients on the two halves of the stretch (de Casteljau)."""
    first, second, row = [], [], list(c)
    while row:
        first.append(row[0])
        second.append(row[-1])
        row = [(a + b) / 2 for a, b in itertools.pairwise(row)]
    return tuple(first), tuple(reversed(second))


def _bracketed(c: tuple[float, ...]) -> float:
    """Return the one zero between ends of unlike sign."""
    powers, row, n = [], list(c), len(c) - 1
    for k in range(n + 1):
        powers.append(row[0] * math.comb(n, k))
        row = [b - a for a, b in itertools.pairwise(row)]
    powers.reverse()
    low, high, rising = 0.0, 1.0, c[-1] > 0
    t = c[0] / (c[0] - c[-1])
    for _ in range(80):
        value = slope = 0.0
        for p in powers:
            slope = slope * t + value
            value = value * t + p
        if value == 0.0:
            return t
        if (value > 0) == rising:
            high = t
        else:
            low = t
        after = t - value / slope if slope else -1.0
        if not low < after < high:
            after = (low + high) / 2
        if abs(after - t) < _NARROW:
            return after
        t = after
    return t
