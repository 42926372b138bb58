"""Random alterations of a pattern with pieces taken from it: whole or a sentence, never otherwise.

After each step the walk is made; what is out of date is traced again, or says why it cannot be.
"""

import json
import os
import random

import pytest
from alterations.random_steps import a_step
from alterations.test_sequences import assert_whole
from irregular import SORTS, block

from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.copy_a_lining import CopyLining, EdgeEase
from tracker.alterations.kinds.cut_a_band import CutBand
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.cut_an_interfacing import CutInterfacing
from tracker.alterations.kinds.put_on_the_fold import PutOnFold
from tracker.alterations.kinds.seam_at_the_centre import CentreSeam
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import out_of_date
from tracker.alterations.tracing import EdgeOf
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import canonical, pattern_digest, pattern_from, pattern_record
from tracker.pattern.pattern import Pattern

DEEP = os.environ.get("TRACKER_TESTS") == "deep"
STEPS = 12


def taking(rng: random.Random, pattern: Pattern) -> Kind:
    """Take something from the pattern as it stands."""
    shell = [p for p in pattern.pieces if p.layer == "shell" and p.traced is None]
    piece = rng.choice(shell)
    edge = rng.choice(piece.edges)
    name = f"piece {rng.randrange(10**6)}"
    these = tuple(
        EdgeOf(piece=p.name, edge=e.name)
        for p in shell for e in p.edges if e.name == edge.name
    )  # fmt: skip
    edges = these if rng.random() < 0.5 else (EdgeOf(piece=piece.name, edge=edge.name),)
    side = rng.choice([BodySide.BOTH, BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT])
    facings = [p.name for p in pattern.pieces if p.layer == "facing" and p.taken_from == piece.name]
    makers: list[Kind] = [
        TraceFacing(name=name, edges=edges, width_mm=rng.uniform(15, 80), side=side),
        CopyLining(
            name=name, piece=piece.name, ease=(EdgeEase(edge=edge.name, by_mm=rng.uniform(-8, 8)),),
            without=tuple(facings[:1]) if rng.random() < 0.5 else (),
        ),
        CutInterfacing(
            name=name, piece=rng.choice(pattern.pieces).name, smaller_mm=rng.uniform(0, 4)
        ),
        CutBand(
            name=name, edges=edges, width_mm=rng.uniform(10, 60), overlap_mm=rng.uniform(0, 40)
        ),
        CutStandCollar(name=name, height_mm=rng.uniform(10, 60)),
        AddButtonStand(width_mm=rng.uniform(8, 40), facing_mm=rng.choice([0.0, 60.0]), side=side),
        PutOnFold(piece=piece.name, edge=edge.name),
        CentreSeam(piece=piece.name, sewn=rng.random() < 0.5),
    ]  # fmt: skip
    return rng.choice([*makers, *makers[:4]])


@pytest.mark.parametrize("seed", range(150 if DEEP else 8))
def test_taken_pieces_stand_any_sequence_of_steps(seed: int) -> None:
    rng = random.Random(seed)
    pattern, told = block(SORTS[seed % len(SORTS)], seed // len(SORTS)), list[str]()
    for k in range(STEPS):
        maker = taking if rng.random() < 0.6 else a_step
        try:
            kind = maker(rng, pattern)
            assert kind.sentence(pattern)
            applied = apply_step(kind, pattern, f"s{k}")
        except TrackerError as refused:
            told.append(refused.sentence)
            continue
        assert_whole(pattern, kind, applied, f"s{k}")
        pattern = applied.pattern
        again = pattern_from(json.loads(canonical(pattern_record(pattern))))
        assert pattern_digest(again) == pattern_digest(pattern)
        before_cutting(pattern)
        pattern = followed(pattern, told, f"again {k}")
    assert all(len(s) > 20 for s in told)


def followed(pattern: Pattern, told: list[str], step_id: str) -> Pattern:
    """The pattern with what is out of date traced again, where it can be."""
    for late in out_of_date(pattern):
        kind = TraceAgain(piece=late.piece)
        try:
            applied = apply_step(kind, pattern, step_id)
        except TrackerError as refused:
            told.append(refused.sentence)
            continue
        assert_whole(pattern, kind, applied, step_id)
        pattern = applied.pattern
        parents_late = {o.piece for o in out_of_date(pattern)} & set(late.parents)
        if not parents_late:
            assert late.piece not in {o.piece for o in out_of_date(pattern)}
    return pattern
