"""Curves for the geometry tests: gentle, random and near-cusp ones."""

import random

from hypothesis import strategies as st

from tracker.geometry.bezier import Segment

#: As an armhole, a neckline, a side seam over the hip, a hem.
GENTLE: tuple[Segment, ...] = (
    (0j, 40 - 5j, 95 - 60j, 100 - 130j),
    (0j, 35 + 2j, 65 + 30j, 68 + 75j),
    (0j, 4 - 70j, 30 - 130j, 32 - 200j),
    (0j, 100 + 1j, 200 + 6j, 300 + 22j),
)


def _random(seed: int) -> Segment:
    rng = random.Random(seed)
    return tuple(complex(rng.uniform(-200, 200), rng.uniform(-200, 200)) for _ in range(4))


RANDOM: tuple[Segment, ...] = tuple(_random(seed) for seed in range(40))

#: The handles cross: a cusp where they do so by 1 (exactly), near one beside it.
CUSPS: tuple[Segment, ...] = tuple(
    (0j, complex(100 * k, 100), complex(100 - 100 * k, 100), 100 + 0j)
    for k in (0.9, 0.99, 0.9999, 1.0, 1.0001, 1.01, 1.3)
)

coordinates = st.floats(-300, 300).map(lambda v: round(v, 3))
points = st.builds(complex, coordinates, coordinates)
cubics = st.tuples(points, points, points, points).filter(
    lambda s: abs(s[0] - s[3]) > 1 and abs(s[0] - s[1]) > 1 and abs(s[2] - s[3]) > 1
)
lines = st.tuples(points, points).filter(lambda s: abs(s[0] - s[1]) > 1)
