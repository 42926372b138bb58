"""What each kind of alteration leaves the same, held on irregular blocks by amounts at random.

A kind without a row is not let in.
"""

import os
import random
from functools import cache

import pytest
from alterations.left_the_same import BOTH, SAME
from alterations.random_steps import a_step
from irregular import SORTS, block

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.errors import TrackerError
from tracker.pattern.pattern import Pattern

DEEP = os.environ.get("TRACKER_TESTS") == "deep"
WANTED, TRIES = (60, 60_000) if DEEP else (6, 20_000)
SLEEVES = {w for w in SAME if "cap" in w or "sleeve" in w or "upper arm" in w}
LEGS = {w for w in SAME if "crotch" in w or "leg" in w}


@cache
def begun(sort: str, number: int) -> Pattern:
    """A block; half of the sleeved ones with a cap that no longer fits its armhole."""
    whole = block(sort, number)
    if sort == "sleeved bodice" and number % 2:
        shorter = ShoulderLength(to=Length.SHORTER, by_mm=9.0)
        return apply_step(shorter, whole, "begun").pattern
    return whole


@cache
def met() -> dict[str, list[tuple[Pattern, Pattern, Kind]]]:
    """Steps at random that could be done, some of each kind."""
    rng = random.Random("what stays the same")
    found: dict[str, list[tuple[Pattern, Pattern, Kind]]] = {word: [] for word in SAME}
    for _ in range(TRIES):
        lacking = {w for w, v in found.items() if len(v) < WANTED}
        if not lacking:
            break
        sorts = SORTS if lacking - SLEEVES - LEGS else ()
        sorts += ("sleeved bodice",) * bool(lacking & SLEEVES)
        sorts += ("trousers",) * bool(lacking & LEGS)
        before = begun(rng.choice(sorts), rng.randrange(4))
        try:
            step = a_step(rng, before)
            if getattr(step, "side", BOTH) != BOTH or step.word not in lacking:
                continue
            after = apply_step(step, before, "one").pattern
        except TrackerError:
            continue
        if [p.key for p in before.pieces] == [p.key for p in after.pieces]:
            found[step.word].append((before, after, step))
    return found


@pytest.mark.parametrize("word", SAME)
def test_what_an_alteration_leaves_the_same(word: str) -> None:
    assert len(met()[word]) >= 3, f"{word}: {len(met()[word])} of {TRIES} tries"
    for before, after, step in met()[word]:
        SAME[word](before, after, step)


def test_every_kind_of_alteration_has_its_row() -> None:
    assert {w for w, k in kinds().items() if k.family == "alteration"} == set(SAME)
