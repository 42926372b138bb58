"""Pieces sewn to one another, told apart by body side together."""

from collections.abc import Iterable

from tracker.alterations.bodyside import Split, split_sides
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern

_SIDES = (BodySide.RIGHT, BodySide.LEFT)


def split_together(pattern: Pattern, names: Iterable[str], side: BodySide) -> Split:
    """Split pieces sewn to one another where one body side is meant, or some are split already.

    A piece that stands for both sides and is sewn to right and left ones would be altered once
    for each of them, and for the other side where only one is meant.
    """
    wanted = set(names)
    sides = {p.side for p in pattern.pieces if p.name in wanted}
    apart = side in _SIDES or (BodySide.BOTH in sides and len(sides) > 1)
    return split_sides(pattern, wanted if apart else ())
