"""What is left of a step that is taken back by its own opposite, kind by kind.

A table of what each kind reaches, over random steps on irregular blocks: what half of them leave
at most, and what the worst does. It is there to be made smaller.
"""

import random
from statistics import median

import pytest
from alterations.random_steps import MAKERS, Maker
from alterations.ways_back import WAYS, way_back
from irregular import SORTS, block

from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step, fits
from tracker.alterations.kind import Kind, kind_named
from tracker.alterations.slashing import Centre
from tracker.errors import TrackerError
from tracker.history.replay import furthest_apart
from tracker.pattern.pattern import Pattern

#: The store's rounding, once and there and back, millimetres.
ONCE, TWICE = 1e-6, 3e-6
STEPS = 16

#: Kind: what half of them leave at most, and what any does, millimetres.
LEFT = {
    "take in a seam": (0.0, ONCE),
    "reshape an edge": (0.0, ONCE),
    "raise or lower an edge": (0.0, ONCE),
    "add a notch": (0.0, ONCE),
    "move a notch": (0.0, ONCE),
    "change the shoulder length": (0.0, ONCE),
    "change the width across": (0.0, ONCE),
    # How far the line goes is found to a thousandth of a millimetre.
    "change the neckline": (0.0, 0.003),
    "shift a seam": (0.0, 0.02),
    # What a cut replaced is kept, and given back.
    "slash and spread": (TWICE, TWICE),
    "fold out": (TWICE, TWICE),
    "slash across the pieces": (TWICE, 0.6),
    "lengthen or shorten": (TWICE, TWICE),
    # How the pieces were is kept, and given back.
    "move a corner": (0.0, ONCE),
    "taper or widen": (0.0, ONCE),
    "change the shoulder slope": (0.0, ONCE),
    "change a dart": (0.0, ONCE),
    "move a dart": (0.0, ONCE),
    "more or less bust volume": (0.0, ONCE),
}


def makers_of(word: str) -> list[Maker]:
    """What makes up steps of a kind, found by trying."""
    rng, start = random.Random(1), block("bodice by hand")
    found = []
    for maker in dict.fromkeys(MAKERS):
        for _ in range(12):
            try:
                if maker(rng, start).word == word:
                    found.append(maker)
                    break
            except TrackerError:
                continue
    return found


def straightens(step: Kind) -> bool:
    """A fold drawn straight returns cloth elsewhere, which its opposite does not undo."""
    return getattr(step, "centre", None) is Centre.STRAIGHTEN


def left_by(step: Kind, start: Pattern) -> float | None:
    """How far the outlines lie apart after a step and its opposite; nothing where there is none."""
    if not fits(step, start):
        return None
    there = apply_step(step, start, "there").pattern
    back = way_back(step, start, there)
    if back is None or not fits(back, there):
        return None
    again = apply_step(back, there, "back").pattern
    if {p.name for p in again.pieces} != {p.name for p in start.pieces}:
        return None
    apart = {p.name for p in again.pieces if p.key not in {q.key for q in start.pieces}}
    whole = split_sides(start, apart).pattern
    if [p.key for p in whole.pieces] != [p.key for p in again.pieces]:
        return None  # a fold that became a seam stays one
    return furthest_apart(whole, again)[0]


def test_the_table_has_every_kind_that_has_a_way_back() -> None:
    assert set(LEFT) == {kind.word for kind in WAYS}


@pytest.mark.parametrize("word", LEFT)
def test_what_a_step_and_its_opposite_leave(word: str) -> None:
    rng, makers, left = random.Random(word), makers_of(word), list[float]()
    for number in range(400):
        start = block(SORTS[number % len(SORTS)], number // len(SORTS) % 2)
        try:
            step = rng.choice(makers)(rng, start)
        except TrackerError:
            continue
        if type(step) is kind_named(word) and not straightens(step):
            found = left_by(step, start)
            left += [] if found is None else [found]
        if len(left) == STEPS:
            break
    assert len(left) == STEPS
    usual, most = LEFT[word]
    assert median(left) <= usual + 1e-9, left
    assert max(left) <= most + 1e-9, left
