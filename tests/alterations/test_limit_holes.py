"""A limit that is told holds for every smaller amount too, narrow holes and all."""

import pytest
from wardrobe import bodice

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import LIMIT_MM, _Limits
from tracker.alterations.kinds.take_in_a_seam import TakeIn


@pytest.mark.parametrize(
    ("low", "high"),
    [
        (3.2, 3.8),  # between two of the shares looked at first, 1 mm apart and more
        (0.9, 1.5),
        (5.2, 5.8),
    ],
)
def test_a_limit_is_below_a_narrow_hole_in_what_can_be_drawn(low: float, high: float) -> None:
    step = TakeIn(seam="side", amounts=(AmountAt(corner="side waist", distance_mm=0.0,
                                                 amount_mm=8.0),))  # fmt: skip
    limits = _Limits(step, bodice())
    told = limits.most(lambda share: share * 8.0 < 6.9 and not low < share * 8.0 < high)
    assert told is not None
    assert low - LIMIT_MM - 0.1 <= told <= low
