"""Sequences of twenty random steps: each ends in a valid pattern or a sentence, never otherwise.

What was made is then taken back: every step withdrawn, some of them withdrawn, and (where each
has one) by the steps that take them back, in reverse order.
"""

import datetime as dt
import json
import os
import random

import pytest
from alterations.random_steps import MADE, MAKERS, NO_STEP, a_step
from alterations.ways_back import WAYS, way_back
from irregular import SORTS, block

from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind, kinds
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError
from tracker.history.onward import withdraw
from tracker.history.replay import furthest_apart
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import canonical, pattern_digest, pattern_from, pattern_record
from tracker.pattern.checks import ring_fault
from tracker.pattern.pattern import Pattern

DEEP = os.environ.get("TRACKER_TESTS") == "deep"
STEPS = 20
DAY = dt.date(2026, 1, 5)
#: What each taken-back step of a chain may leave, millimetres. Nearly all leave nothing; how far
#: a neckline's line has to go is found to a thousandth of a millimetre.
LEFT_MM = 2e-3


def reread(pattern: Pattern) -> Pattern:
    return pattern_from(json.loads(canonical(pattern_record(pattern))))


def assert_whole(before: Pattern, kind: Kind, done: Applied, step_id: str) -> None:
    """The rings are sound, the step read back does the same, every millimetre is told."""
    for piece in done.pattern.pieces:
        assert ring_fault(piece) is None
    again = type(kind).from_parameters(json.loads(canonical(kind.parameters())))
    replayed = apply_step(again, reread(before), step_id)
    assert pattern_digest(replayed.pattern) == pattern_digest(done.pattern)
    for piece in before.pieces:
        for edge in piece.edges:
            fates = done.trace.of(piece.name, edge.name, edge.side)
            reached = 0.0 if fates else edge.length
            for old in sorted((f.old for f in fates if f.old), key=lambda o: o.start_mm):
                assert old.start_mm <= reached + 2e-3
                reached = max(reached, old.end_mm)
            assert reached == pytest.approx(edge.length, abs=2e-3)


def sequence(seed: int, steps: int = STEPS) -> tuple[list[Version], list[str]]:
    """Return a block and a version for each step that could be done, and the refusals."""
    rng, sentences = random.Random(seed), list[str]()
    start = block(SORTS[seed % len(SORTS)], seed // len(SORTS))
    root = Root("drawn for a test", 1, {})
    line = [first_version(Address("mara", "block", 1), root, start, "a block", DAY)]
    for _ in range(steps):
        parent = line[-1]
        try:
            kind = a_step(rng, parent.pattern)
            number = parent.address.number + 1
            address = Address("mara", "block", number)
            made = next_version(parent, address, ((kind, ()),), "", DAY)
        except TrackerError as refused:
            sentences.append(refused.sentence)
            continue
        taken = made.taken[0]
        applied = Applied(made.pattern, taken.effect, taken.trace)
        assert_whole(parent.pattern, kind, applied, taken.step.step_id)
        line.append(made)
    return line, sentences


@pytest.mark.parametrize("seed", range(200 if DEEP else 8))
def test_twenty_random_steps_end_in_a_valid_pattern_or_a_sentence(seed: int) -> None:
    line, sentences = sequence(seed)
    assert len(line) > 3
    assert all(len(s) > 20 for s in sentences)
    assert not any("Error" in s or "None" in s for s in sentences)
    ids = [v.taken[0].step.step_id for v in line[1:]]
    # All of them withdrawn gives the block back, to the digest.
    undone = withdraw(line, ids)
    assert pattern_digest(undone.onward.pattern) == pattern_digest(line[0].pattern)
    # Some of them withdrawn: the rest is drawn soundly, or says why it cannot be.
    rest = withdraw(line, random.Random(seed).sample(ids, len(ids) // 3 + 1))
    assert all(ring_fault(piece) is None for piece in rest.onward.pattern.pieces)
    assert all(len(brought.told) > 20 for brought in rest.onward.left_out)


def test_every_kind_is_met_in_the_sequences() -> None:
    rng, pattern, met = random.Random(3), block("bodice by hand"), set[str]()
    for _ in range(3000):
        try:
            met.add(a_step(rng, pattern).word)
        except TrackerError:
            continue
    assert met == set(kinds()) - {NO_STEP}
    assert set(kinds()) >= MADE
    assert len(MAKERS) >= 30


#: The kinds whose way back is exact.
EXACTLY_BACK = (
    "take in a seam", "reshape an edge", "raise or lower an edge", "move a notch", "add a notch",
    "change the neckline",
)  # fmt: skip


def an_exact_step(rng: random.Random, pattern: Pattern) -> Kind:
    while True:
        try:
            step = a_step(rng, pattern)
        except TrackerError:
            continue
        if type(step) in WAYS and step.word in EXACTLY_BACK:
            return step


@pytest.mark.parametrize("seed", range(100 if DEEP else 8))
def test_steps_taken_back_in_reverse_order_give_the_block_back(seed: int) -> None:
    rng = random.Random(seed)
    start = pattern = block(SORTS[seed % len(SORTS)], seed // len(SORTS))
    done: list[tuple[Kind, Pattern, Pattern]] = []
    for k in range(30):
        step = an_exact_step(rng, pattern)
        try:
            after = apply_step(step, pattern, f"s{k}").pattern
        except TrackerError:
            continue
        if way_back(step, pattern, after) is None:
            continue
        done.append((step, pattern, after))
        pattern = after
        if len(done) == 8:
            break
    assert len(done) >= 3
    for k, (step, before, after) in enumerate(reversed(done)):
        back = way_back(step, before, after)
        assert back is not None
        pattern = apply_step(back, pattern, f"b{k}").pattern
    split = {p.name for p in pattern.pieces if p.side is not start.piece(p.name).side}
    whole = split_sides(start, split).pattern
    assert furthest_apart(whole, pattern)[0] <= LEFT_MM * len(done)


def test_a_piece_for_both_sides_sewn_to_split_ones_is_altered_once_a_side() -> None:
    """Found by the sequences: it was altered once for each, and for the other side too."""
    one = AddDart(
        piece="back", name="neck dart", edge="neckline", corner="neck point", distance_mm=40.0,
        width_mm=6.0, length_mm=60.0, side=BodySide.LEFT,
    )  # fmt: skip
    halved = apply_step(one, block("bodice by hand"), "one").pattern
    assert halved.piece("front").side is BodySide.BOTH
    longer = ShoulderLength(to=Length.LONGER, by_mm=5.0)
    done = apply_step(longer, halved, "two").pattern
    for piece, old in (("front", "front"), ("back", "back")):
        for side in (BodySide.RIGHT, BodySide.LEFT):
            was = halved.piece(old, side).edge("shoulder", side).length
            assert done.piece(piece, side).edge("shoulder", side).length == pytest.approx(was + 5)
    taken = TakeIn(
        seam="side", side=BodySide.LEFT,
        amounts=(AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=10.0),),
    )  # fmt: skip
    done = apply_step(taken, halved, "two").pattern
    front = done.piece("front")
    assert not front.edge("side", BodySide.RIGHT).displacements
    assert len(front.edge("side", BodySide.LEFT).displacements) == 1
