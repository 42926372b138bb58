"""Cubic splines nearest to points: least squares, then square to the line."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Points = NDArray[np.complex128]

#: What a careful reading is off by, and what share of the line's length a handle may be off by
#: when it was found by chord lengths: the more it would have to move, the less the points say so.
_NOISE_MM = 0.05
_ASTRAY = 0.15
_ROUNDS = 20
#: The fit is found when a round takes off less than this share of what is left.
_ENOUGH = 1e-2
#: Steps by which the nearest place on the line is found again after it moved a little.
_FEET = 2


@dataclass(frozen=True, slots=True)
class Nearest:
    """A spline near points.

    Attributes:
        line: the spline, a cubic for each span.
        ways: how many ways it had to follow them: the trace of what turns readings into places
            on the line.
    """

    line: Curve
    ways: float


def nearest_spline(points: Sequence[Point], spans: int, stiffness: float = 1.0) -> Nearest:
    """Return the cubic spline of so many spans nearest to points, its ends on theirs.

    First by least squares with the points at their chord lengths, then by Gauss and Newton's
    rule on what each point is off square to the line: what it is off along the line only says
    that another parameter is meant.

    Args:
        points: three at least, in order.
        spans: fewer than there are points between the ends, or one.
        stiffness: how much it holds to what least squares found first.
    """
    import numpy as np

    steps = [abs(b - a) for a, b in itertools.pairwise(points)]
    at = np.array(list(itertools.accumulate(steps, initial=0.0)))
    size = float(at[-1])
    at /= size
    knots = _knots(at, spans)
    values = np.array(points, dtype=complex)
    first = _by_least_squares(at, values, knots)
    best = _State.of(first, knots, at[1:-1], values[1:-1])
    home = stiffness * _NOISE_MM / (_ASTRAY * size)
    least, damping = best.squares, 1e-3
    for _ in range(_ROUNDS):
        moved = best.handles.copy()
        moved[1:-1] += best.step((first - best.handles)[1:-1], home, damping)
        fresh = _State.of(moved, knots, best.at, values[1:-1])
        squares = fresh.squares + home * home * float((abs(moved - first) ** 2).sum())
        if squares >= least or not fresh.in_turn:
            damping *= 10.0
            if damping > 1.0:
                break
            continue
        done = least - squares <= _ENOUGH * least
        best, least, damping = fresh, squares, damping / 10.0
        if done or least < 1e-9:
            break
    return Nearest(_curve(best.handles, knots), best.ways(home))


@dataclass(frozen=True, slots=True)
class _State:
    """A spline with the places on it nearest to the points."""

    handles: "Points"
    knots: "Numbers"
    at: "Numbers"
    basis: "Numbers"
    square: "Numbers"
    along: "Points"

    @classmethod
    def of(cls, handles: "Points", knots: "Numbers", at: "Numbers", points: "Points") -> "_State":
        import numpy as np

        slopes = _slopes(handles, knots)
        for left in range(_FEET, -1, -1):
            basis = _basis(knots, at, 3)
            off = points - basis @ handles
            speed = _basis(knots[1:-1], at, 2) @ slopes
            if left == 0:
                break
            size = np.maximum(abs(speed) ** 2, 1e-12)
            at = np.clip(at + (off * speed.conjugate()).real / size, 1e-6, 1 - 1e-6)
        along = speed / np.maximum(abs(speed), 1e-9)
        return cls(handles, knots, at, basis, (along.conjugate() * off).imag, along)

    @property
    def squares(self) -> float:
        return float((self.square**2).sum())

    @property
    def in_turn(self) -> bool:
        return bool(((self.at[1:] - self.at[:-1]) > 0).all())

    @property
    def rows(self) -> "Numbers":
        """What each handle's x and y move each place by, square to the line.

        A handle moved by dx + i·dy moves it by dy·cos − dx·sin.
        """
        import numpy as np

        inner = self.basis[:, 1:-1]
        return np.hstack([-self.along.imag[:, None] * inner, self.along.real[:, None] * inner])

    def ways(self, home: float) -> float:
        """The trace of what turns readings into places, least squares and then the steps."""
        import numpy as np

        inner, rows = self.basis[:, 1:-1], self.rows
        first = inner @ np.linalg.pinv(inner)
        count = rows.shape[1]
        after = rows @ np.linalg.solve(rows.T @ rows + home * home * np.eye(count), rows.T)
        return float(np.trace(first) + np.trace(after) - np.trace(after @ first))

    def step(self, back: "Points", home: float, slow: float) -> Any:
        """How the inner handles should move.

        Args:
            back: the way to where they were found first, and
            home: how much that counts.
            slow: how much it counts that they do not move far at once.
        """
        import numpy as np

        rows = self.rows
        count = rows.shape[1]
        stiff = np.eye(count)
        wanted = [self.square, home * back.real, home * back.imag, np.zeros(count)]
        found = np.linalg.lstsq(
            np.vstack([rows, home * stiff, slow * stiff]), np.concatenate(wanted), rcond=None
        )[0]
        return found[: count // 2] + 1j * found[count // 2 :]


def _knots(at: "Numbers", spans: int) -> "Numbers":
    """Knots that leave each span about as many points (Piegl and Tiller, The NURBS Book, 9.4)."""
    import numpy as np

    share = np.arange(1, spans) * (len(at) - 1) / spans
    low = share.astype(int)
    inner = at[low] + (share - low) * (at[np.minimum(low + 1, len(at) - 1)] - at[low])
    return np.concatenate([np.zeros(4), inner, np.ones(4)])


def _basis(knots: "Numbers", at: "Numbers", degree: int) -> "Numbers":
    """The basis functions at each parameter (Piegl and Tiller, algorithm A2.2), a row each."""
    import numpy as np

    count = len(knots) - degree - 1
    span = np.clip(np.searchsorted(knots, at, side="right") - 1, degree, count - 1)
    rows = np.zeros((len(at), count))
    values = [np.ones_like(at)]
    for d in range(1, degree + 1):
        fresh = [np.zeros_like(at)]
        for r in range(d):
            right, left = knots[span + r + 1] - at, at - knots[span + 1 - d + r]
            share = values[r] / (right + left)
            fresh[r] = fresh[r] + right * share
            fresh.append(left * share)
        values = fresh
    for r, value in enumerate(values):
        rows[np.arange(len(at)), span - degree + r] = value
    return rows


def _slopes(handles: "Points", knots: "Numbers") -> "Points":
    """The handles of the derivative, a quadratic spline (de Boor's rule)."""
    import numpy as np

    count = len(handles)
    return 3 * np.diff(handles) / (knots[4 : count + 3] - knots[1:count])


def _by_least_squares(at: "Numbers", values: "Points", knots: "Numbers") -> "Points":
    """The handles nearest to the points, each at a parameter of its own."""
    import numpy as np

    basis = _basis(knots, at, 3)
    handles = np.empty(len(knots) - 4, dtype=complex)
    handles[0], handles[-1] = values[0], values[-1]
    rest = values - basis[:, 0] * values[0] - basis[:, -1] * values[-1]
    inner = basis[1:-1, 1:-1].astype(complex)
    handles[1:-1] = np.linalg.lstsq(inner, rest[1:-1], rcond=None)[0]
    return handles


def _curve(handles: "Points", knots: "Numbers") -> Curve:
    """Each span of a spline as its own cubic."""
    ends = knots[3:-3]
    spots = _basis(knots, ends, 3) @ handles
    speeds = _basis(knots[1:-1], ends, 2) @ _slopes(handles, knots)
    spots[0], spots[-1] = handles[0], handles[-1]
    segments: list[Segment] = []
    for i, (a, b) in enumerate(itertools.pairwise(ends.tolist())):
        third = (b - a) / 3
        p, q = complex(spots[i]), complex(spots[i + 1])
        segments.append((p, p + complex(speeds[i]) * third, q - complex(speeds[i + 1]) * third, q))
    return Curve.of(segments)
