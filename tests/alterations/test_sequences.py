"""Sequences of twenty random steps: each ends in a valid pattern or a sentence, never otherwise."""

import json
import os
import random
from functools import cache

import pytest
from alterations.random_steps import a_step
from published.bodies import bdims_bodies
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.body.estimate import estimate
from tracker.drafting.bodice import draft_bodice
from tracker.errors import TrackerError
from tracker.pattern.canonical import canonical, pattern_digest, pattern_from, pattern_record
from tracker.pattern.checks import ring_fault
from tracker.pattern.pattern import Pattern

DEEP = os.environ.get("TRACKER_TESTS") == "deep"
STEPS = 20


@cache
def block(seed: int) -> Pattern:
    """The hand-drawn bodice, or one drafted for one of the 260 women (Heinz and others, 2003)."""
    if seed % 2:
        return bodice()
    return draft_bodice(estimate(bdims_bodies(1)[seed % 260].body)).pattern


def reread(pattern: Pattern) -> Pattern:
    return pattern_from(json.loads(canonical(pattern_record(pattern))))


def assert_whole(before: Pattern, kind: Kind, done: Applied, step_id: str) -> None:
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


@pytest.mark.parametrize("seed", range(200 if DEEP else 6))
def test_twenty_random_steps_end_in_a_valid_pattern_or_a_sentence(seed: int) -> None:
    rng = random.Random(seed)
    pattern, done, sentences = block(seed), 0, list[str]()
    for k in range(STEPS):
        try:
            kind = a_step(rng, pattern)
            assert kind.sentence(pattern)
            applied = apply_step(kind, pattern, f"s{k}")
        except TrackerError as refused:
            sentences.append(refused.sentence)
            continue
        assert_whole(pattern, kind, applied, f"s{k}")
        pattern, done = applied.pattern, done + 1
    assert done >= 3
    assert all(len(s) > 20 for s in sentences)
