"""Amounts found so that measures come out as stated: a few unknowns, the piece redrawn to try."""

from collections.abc import Callable, Sequence

from tracker.pattern.errors import PatternError

#: Measures are met to this, millimetres,
MET_MM = 1e-5
#: or, where a fitted line jumps between two ways of drawing it, to this.
NEAR_MM = 0.01
#: Amounts found are kept to this many decimals of a millimetre, so that a change and its
#: undoing find the same ones.
DECIMALS = 2
_TRIES = 10
#: A miss of more than this that several tries do not lessen will not come down any more.
_HOPELESS_MM, _PATIENCE = 1.0, 4
#: How far an amount is moved to see how a measure answers.
_TRIED_MM = 0.25


class NotMet(PatternError):
    """No amounts give the measures asked for."""


def adjusted(
    misses: Callable[[Sequence[float]], Sequence[float]],
    start: Sequence[float],
    gains: Sequence[float],
    failing: str,
    step_mm: float = 20.0,
    decimals: int = DECIMALS,
) -> tuple[float, ...]:
    """Return the amounts at which every miss is nothing.

    Broyden's method (Mathematics of Computation 19, 1965) from a diagonal guess.

    Args:
        misses: by how much each measure is missed, for given amounts.
        start: the first amounts tried.
        gains: about how much each measure grows with its own amount.
        failing: the sentence when none is found.
        step_mm: the longest step taken at once.
        decimals: how finely the amounts are kept.

    Raises:
        NotMet: they cannot be met.
    """
    n = len(start)
    if n == 0:
        return ()
    guess = [[1 / gains[i] if i == j else 0.0 for j in range(n)] for i in range(n)]
    best = _solved(misses, list(start), guess, step_mm, _TRIES)
    if best[0] >= NEAR_MM:
        # The guess was poor here: see how each measure really answers, and try again.
        measured = _answers(misses, best[1])
        if measured is not None:
            best = min(best, _solved(misses, best[1], measured, step_mm / 2, _TRIES))
    if best[0] < NEAR_MM:
        return tuple(round(v, decimals) + 0.0 for v in best[1])
    raise NotMet(failing)


_Misses = Callable[[Sequence[float]], Sequence[float]]


def _solved(
    misses: _Misses, x: list[float], inverse: list[list[float]], step_mm: float, tries: int
) -> tuple[float, list[float]]:
    """Return the least miss found and the amounts that give it."""
    n = len(x)
    f = list(misses(x))
    best = max(map(abs, f)), x
    bests = [best[0]]
    for _ in range(tries):
        stuck = len(bests) > _PATIENCE and best[0] > 0.9 * bests[-1 - _PATIENCE]
        if best[0] < MET_MM or (stuck and best[0] > _HOPELESS_MM):
            break
        step = [-sum(inverse[i][j] * f[j] for j in range(n)) for i in range(n)]
        size = max(map(abs, step))
        if size > step_mm:
            step = [s * step_mm / size for s in step]
        x = [a + s for a, s in zip(x, step, strict=True)]
        fresh = list(misses(x))
        change = [b - a for a, b in zip(f, fresh, strict=True)]
        moved = [sum(inverse[i][j] * change[j] for j in range(n)) for i in range(n)]
        scale = sum(s * m for s, m in zip(step, moved, strict=True))
        if abs(scale) > 1e-14:
            row = [sum(step[i] * inverse[i][j] for i in range(n)) for j in range(n)]
            for i in range(n):
                for j in range(n):
                    inverse[i][j] += (step[i] - moved[i]) * row[j] / scale
        f = fresh
        if max(map(abs, f)) < best[0]:
            best = max(map(abs, f)), x
        bests.append(best[0])
    return best


def _answers(misses: _Misses, x: list[float]) -> list[list[float]] | None:
    """Return the inverse of how the measures answer to the amounts; nothing where they do not."""
    import numpy as np

    f = list(misses(x))
    columns = []
    for i in range(len(x)):
        there = [v + _TRIED_MM if j == i else v for j, v in enumerate(x)]
        columns.append([(b - a) / _TRIED_MM for a, b in zip(f, misses(there), strict=True)])
    try:
        inverse = np.linalg.inv(np.array(columns).T)
    except np.linalg.LinAlgError:
        return None
    return [[float(v) for v in row] for row in inverse]
