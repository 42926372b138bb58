"""Alterations of edges one after the other: a valid pattern or a refusal, all accounted for."""

import random

import pytest
from altering import assert_accounted
from drafted import drafted
from sleeved import sleeved
from wardrobe import bodice

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.taper_or_widen import SeamFrom, Taper, TaperOrWiden
from tracker.alterations.kinds.true_a_join import TrueJoin
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import ring_fault


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def some_step(chance: random.Random, number: int) -> Kind:
    """Return a random alteration of an edge."""
    side = chance.choice([BodySide.BOTH] * 3 + [BodySide.RIGHT, BodySide.LEFT])
    a, b = (chance.choice([-1, 1]) * chance.uniform(1, 12) for _ in range(2))
    size, piece = abs(a), chance.choice(["front", "back"])
    join = chance.choice([("side", "underarm point"), ("side", "side waist"),
                          ("shoulder", "shoulder point"), ("shoulder", "neck point")])  # fmt: skip
    return chance.choice([
        ShiftSeam(seam="side", towards="front", side=side,
                  amounts=(at("underarm point", a, chance.uniform(20, 150)), at("side waist", b))),
        ShiftSeam(seam="shoulder", towards="back", side=side,
                  amounts=(at("neck point", 0), at("shoulder point", a))),
        ReshapeEdge(piece=piece, edge="armhole", side=side,
                    amounts=(at("shoulder point", 0), at("shoulder point", a, 70.0),
                             at("underarm point", 0))),
        TrueJoin(seam=join[0], corner=join[1], side=side),
        MoveCorner(piece=piece, corner="shoulder point", edge="shoulder", along_mm=a, across_mm=b,
                   side=side),
        ShoulderSlope(to=chance.choice(list(Slope)), by_mm=size, side=side),
        ShoulderLength(to=chance.choice(list(Length)), by_mm=size, side=side),
        WidthAcross(line=f"across {piece}", to=chance.choice(list(Width)), by_mm=size, side=side),
        ChangeNeckline(to=chance.choice(list(Neck)), by_mm=size, side=side),
        TaperOrWiden(to=chance.choice(list(Taper)), by_mm=2 * size, edge="waist", side=side,
                     seams=(SeamFrom(seam="side", corner="underarm point",
                                     distance_mm=chance.uniform(10, 120)),)),
        RaiseEdge(to=chance.choice(list(Height)), by_mm=size, edge="waist", side=side),
        AddNotch(piece="front", edge="side", corner="underarm point", name=f"notch {number}",
                 distance_mm=chance.uniform(5, 150), side=side),
        TakeIn(seam="side", side=side, amounts=(at("underarm point", 0), at("side waist", a))),
    ])  # fmt: skip


@pytest.mark.parametrize("seed", [1, 3, 8])
def test_a_sequence_ends_in_valid_patterns_or_refusals_and_replays_alike(seed: int) -> None:
    chance = random.Random(seed)
    start = chance.choice([bodice(), sleeved(), drafted(0), drafted(1)])
    pattern, made, refused = start, [], []
    for number in range(14):
        step = some_step(chance, number)
        try:
            applied = apply_step(step, pattern, f"step {number}")
        except TrackerError as refusal:
            refused.append(str(refusal))
            continue
        assert_accounted(pattern, applied)
        assert step.sentence(pattern)
        pattern = applied.pattern
        made.append((number, step))
        assert all(ring_fault(p) is None for p in pattern.pieces)
    assert len(made) >= 7
    assert not any("is open" in told for told in refused)
    again = start
    for number, step in made:
        again = apply_step(step, again, f"step {number}").pattern
    assert pattern_digest(again) == pattern_digest(pattern)
