"""What must always hold, each a property over irregular blocks of every sort.

The nine invariants of the design, in its order; ``TRACKER_TESTS=deep`` tries ten times as many
examples. The kinds' own tests hold each kind to more; the sequences chain them.

1. ``test_1_…``: a closed ring that does not cross itself, and names that refer to something.
2. ``test_2_…``: dart legs equal; turning keeps the angle at the pivot and every edge's length.
3. ``test_3_…``: what a step does not reach is byte-equal.
4. ``test_4_…``: a stated amount is met square to the seam, and the girth told is the measured one.
5. ``test_5_…``: shifting a seam changes no girth, and tells the sides' difference.
6. ``test_6_…``: taken in and let out by the same, the pattern is the same.
7. ``test_7_…``: replay gives the stored curves, and any later edit shows.
8. ``test_8_…``: the trace accounts for every millimetre of every old edge.
9. ``test_9_…``: nothing a person entered is dropped when steps are withdrawn; that a corrected
   measurement and a changed note are not either is held in ``tests/tasks``, in a real store.
"""

import datetime as dt
import os
import random
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest
from alterations.random_steps import a_step
from altering import assert_accounted
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import SORTS, block

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.errors import TrackerError
from tracker.geometry.crossing import with_line
from tracker.history.onward import withdraw
from tracker.history.replay import check_again, furthest_apart
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import ring_fault
from tracker.pattern.edge import Edge
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Seam
from tracker.pattern.walk import side_lengths

EXAMPLES = 3000 if os.environ.get("TRACKER_TESTS") == "deep" else 300
#: Taken in and let out again a line may stand off by so much, millimetres.
BACK_MM = 1e-6
often = settings(max_examples=EXAMPLES)
DAY = dt.date(2026, 1, 5)

blocks = st.builds(block, st.sampled_from(SORTS), st.integers(0, 3))
seeds = st.integers(0, 2**32)
amounts = st.floats(-9.0, 9.0).filter(lambda v: abs(v) > 0.05)
sides = st.sampled_from([BodySide.BOTH, BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT])


@cache
def begun(sort: str, number: int) -> tuple[Pattern, ...]:
    """A block, and what three random steps after one another make of it: drafts are smoother."""
    rng, found = random.Random(f"{sort} {number}"), [block(sort, number)]
    while len(found) < 4:
        try:
            found.append(apply_step(a_step(rng, found[-1]), found[-1], f"s{len(found)}").pattern)
        except TrackerError:
            continue
    return tuple(found)


altered_blocks = st.builds(
    lambda sort, number, steps: begun(sort, number)[steps],
    st.sampled_from(SORTS), st.integers(0, 2), st.integers(0, 3),
)  # fmt: skip


def tried(pattern: Pattern, seed: int) -> tuple[Kind, Applied] | None:
    """Do a random step, or nothing where it refuses."""
    rng = random.Random(seed)
    try:
        step = a_step(rng, pattern)
        return step, apply_step(step, pattern, "one")
    except TrackerError:
        return None


def done(step: Callable[[], Kind], pattern: Pattern) -> Applied | None:
    try:
        return apply_step(step(), pattern, "one")
    except TrackerError:
        return None


def assert_named(pattern: Pattern) -> None:
    """Every name refers to something real."""
    for piece in pattern.pieces:
        edges = {e.key: e for e in piece.edges}
        assert len(edges) == len(piece.edges)
        for one, other in zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True):
            assert one.end == other.start
        for dart in piece.darts:
            assert dart.mouth is None or dart.name in edges[dart.mouth, dart.side].mouths
        opened = [(name, e.side) for e in piece.edges for name in e.mouths]
        assert sorted(opened) == sorted(d.key for d in piece.darts if d.mouth)
        for notch in piece.notches:
            edge = edges[notch.edge, notch.side]
            assert notch.corner in (edge.start, edge.end)
            assert -1e-6 <= notch.distance_mm <= edge.length + 1e-6
        for level in piece.levels:
            assert all((name, level.side) in edges for name in level.edges)
        assert piece.fold is None or any(e.name == piece.fold for e in piece.edges)
    for seam in pattern.seams:
        for run in (*seam.first, *seam.second):
            assert pattern.edge_of(run).parts


@often
@given(pattern=altered_blocks, seed=seeds)
def test_1_the_ring_is_closed_and_sound_and_every_name_refers(pattern: Pattern, seed: int) -> None:
    made = tried(pattern, seed)
    if made:
        for piece in made[1].pattern.pieces:
            assert ring_fault(piece) is None
            assert piece.area_mm2 > 0
        assert_named(made[1].pattern)


@often
@given(pattern=altered_blocks, seed=seeds, share=st.sampled_from([1.0, 0.5, 0.3]))
def test_2_dart_legs_are_equal_and_turning_keeps_angle_and_lengths(
    pattern: Pattern, seed: int, share: float
) -> None:
    rng = random.Random(seed)
    darted = [p for p in pattern.pieces if any(d.mouth for d in p.darts)]
    if not darted:
        return
    piece = rng.choice(darted)
    dart = rng.choice([d for d in piece.darts if d.mouth])
    edge = rng.choice([e for e in piece.edges if e.side in (dart.side, BodySide.BOTH)])
    side = dart.side if dart.side is not piece.side else BodySide.BOTH
    made = done(
        lambda: TurnDart(
            piece=piece.name, dart=dart.name, edge=edge.name, corner=edge.start, share=share,
            distance_mm=rng.uniform(0.15, 0.85) * edge.length, name="the new dart", side=side,
        ),
        pattern,
    )  # fmt: skip
    if made is None:
        return
    for new in made.pattern.pieces:
        for each in new.darts:
            assert each.legs[0].length == pytest.approx(each.legs[1].length, abs=0.01)
    if made.pattern.piece(*piece.key).side is not piece.side:
        return
    new = made.pattern.piece(*piece.key)
    angles = [
        sum(d.angle_rad for d in p.darts if d.mouth and abs(d.pivot - dart.pivot) < 1e-3)
        for p in (piece, new)
    ]
    legs = [d.leg_lengths[0] for d in new.darts if abs(d.pivot - dart.pivot) < 1e-3]
    assert angles[1] == pytest.approx(angles[0], abs=max(1e-7, 2 * 6e-6 / min(legs)))
    for old in piece.edges:
        assert new.edge(*old.key).length == pytest.approx(old.length, abs=1e-5)


@often
@given(pattern=altered_blocks, seed=seeds, amount=amounts)
def test_3_what_a_step_does_not_reach_is_byte_equal(
    pattern: Pattern, seed: int, amount: float
) -> None:
    rng = random.Random(seed)
    piece = rng.choice(pattern.pieces)
    edge = rng.choice([e for e in piece.edges if e.length > 60])
    first = rng.uniform(0.2, 0.6) * edge.length
    last = rng.uniform(0.7, 0.95) * edge.length
    at = [(0.0, 0.0), (first, amount), (last, 0.0)]
    made = done(
        lambda: ReshapeEdge(
            piece=piece.name, edge=edge.name,
            amounts=tuple(AmountAt(corner=edge.start, distance_mm=s, amount_mm=v) for s, v in at),
        ),
        pattern,
    )  # fmt: skip
    if made is None:
        return
    for old in pattern.pieces:
        new = made.pattern.piece(*old.key)
        if old.label not in made.effect.pieces:
            assert new == old
        for was in old.edges:
            fates = made.trace.of(old.name, was.name, was.side)
            if not fates:
                assert new.edge(*was.key).parts == was.parts
    moved = made.pattern.piece(*piece.key).edge(*edge.key)
    # From the last place on, to the edge's end, nothing has moved; whole segments not by a byte.
    part, whole = edge.parts[-1], moved.parts[-1]
    from_mm = last - sum(p.length for p in edge.parts[:-1]) + 2.0
    reaches = zip(part.reaches, part.segments, strict=True)
    still = [s for reach, s in reaches if reach > max(from_mm, 0.0)]
    assert set(still) <= set(whole.segments)
    for share in (0.0, 0.4, 0.9):
        at_mm = max(from_mm, 0.0) + share * (part.length - max(from_mm, 0.0))
        assert whole.nearest(part.point_at(at_mm))[1] <= 1e-6


def test_3_what_is_left_of_a_line_cut_off_is_the_line_it_was_cut_from() -> None:
    """Found in 3,000 examples: it once lay 0.000003 mm beside it, a hair not taken up."""
    held = test_3_what_a_step_does_not_reach_is_byte_equal.hypothesis.inner_test
    held(pattern=begun("bodice by hand", 0)[3], seed=606, amount=1.0)


def off_base(edge: Edge, at_mm: float) -> float:
    """How far an edge is drawn from its base line, square to it, at a place of the base."""
    for base, part in zip(edge.base_lines, edge.parts, strict=True):
        if at_mm <= base.length or base is edge.base_lines[-1]:
            point, heading = base.point_at(at_mm), base.heading_at(at_mm)
            found = with_line(part.run_on(2.0, 2.0), point, 1j * heading)
            return min((c.second_mm for c in found), key=abs, default=float("nan"))
        at_mm -= base.length
    raise AssertionError


def plain_seams(pattern: Pattern) -> list[Seam]:
    """The seams of one edge to one edge, both on pieces that are not split."""
    return [
        s
        for s in pattern.seams
        if len(s.first) == len(s.second) == 1
        and s.side is BodySide.BOTH
        and all(not pattern.edge_of(r).mouths for r in (*s.first, *s.second))
    ]


@often
@given(pattern=blocks, seed=seeds, amount=amounts, share=st.floats(0.25, 0.75))
def test_4_an_amount_is_met_square_to_the_seam_and_the_girth_told_is_measured(
    pattern: Pattern, seed: int, amount: float, share: float
) -> None:
    seams = [s for s in plain_seams(pattern) if not s.on_itself]
    if not seams:
        return
    seam = random.Random(seed).choice(seams)
    edge = pattern.edge_of(seam.first[0])
    at_mm = share * edge.length
    made = done(
        lambda: TakeIn(
            seam=seam.name,
            amounts=tuple(
                AmountAt(corner=edge.start, distance_mm=s, amount_mm=v)
                for s, v in ((0.0, 0.0), (at_mm, amount))
            ),
        ),
        pattern,
    )
    if made is None:
        return
    new = made.pattern.edge_of(seam.first[0])
    # Into the piece is to the left of its edge.
    assert off_base(new, edge.base_distance(at_mm)) == pytest.approx(amount / 2, abs=0.05)
    told = {c.what: c for c in made.effect.girths}
    for line in lines_of(pattern):
        was, now = girth(pattern, line), girth(made.pattern, line)
        if line in told:
            assert (told[line].before, told[line].after) == pytest.approx((was, now), abs=1e-5)
        else:
            assert now == pytest.approx(was, abs=0.05)


@often
@given(pattern=blocks, seed=seeds, amount=amounts, share=st.floats(0.2, 0.8))
def test_5_shifting_a_seam_changes_no_girth_and_tells_the_difference(
    pattern: Pattern, seed: int, amount: float, share: float
) -> None:
    seams = [s for s in plain_seams(pattern) if s.first[0].piece != s.second[0].piece]
    if not seams:
        return
    seam = random.Random(seed).choice(seams)
    edge = pattern.edge_of(seam.first[0])
    made = done(
        lambda: ShiftSeam(
            seam=seam.name, towards=seam.first[0].piece,
            amounts=(
                AmountAt(corner=edge.start, distance_mm=0.0, amount_mm=0.0),
                AmountAt(corner=edge.start, distance_mm=share * edge.length, amount_mm=amount),
            ),
        ),
        pattern,
    )  # fmt: skip
    if made is None:
        return
    for line in lines_of(pattern):
        # At the inside-leg point, where the crotch line ends too, the crotch edges keep their
        # length and lean to the line: it may change by a seventh of what the seam is shifted.
        most = 0.05 + abs(amount) / 7 if line == "crotch line" else 0.05
        assert girth(made.pattern, line) == pytest.approx(girth(pattern, line), abs=most)
    one, two = side_lengths(made.pattern, made.pattern.seam(seam.name))
    note = next(n for n in made.effect.notes if n.startswith(f"{seam.name} seam:"))
    told = note.partition("their difference is ")[2].partition(" mm")[0]
    assert float(told) == pytest.approx(two - one, abs=0.051)


@often
@given(
    pattern=altered_blocks, seed=seeds, amount=amounts, side=sides,
    ends=st.sampled_from([(1.0, 0.0), (0.0, 1.0), (1.0, 1.0), (0.4, 1.0)]),
)  # fmt: skip
def test_6_taken_in_and_let_out_by_the_same_it_is_the_same(
    pattern: Pattern, seed: int, amount: float, side: BodySide, ends: tuple[float, float]
) -> None:
    seam = random.Random(seed).choice(pattern.seams)
    one, last = seam.first[0], seam.first[-1]
    a, b = pattern.edge_of(one), pattern.edge_of(last)
    corners = (a.end if one.backward else a.start, b.start if last.backward else b.end)

    def step(way: float) -> TakeIn:
        return TakeIn(
            seam=seam.name, side=side,
            amounts=tuple(
                AmountAt(corner=c, distance_mm=0.0, amount_mm=way * share * amount)
                for c, share in zip(corners, ends, strict=True)
            ),
        )  # fmt: skip

    there = done(lambda: step(1.0), pattern)
    if there is None:
        return
    back = apply_step(step(-1.0), there.pattern, "two").pattern
    if [p.key for p in back.pieces] != [p.key for p in pattern.pieces]:
        # Told apart by body side on the way: told apart first, it is the same too.
        pattern = apply_step(step(1.0), back, "apart").pattern
        pattern, back = back, apply_step(step(-1.0), pattern, "three").pattern
    for old, new in zip(pattern.pieces, back.pieces, strict=True):
        for was, now in zip(old.edges, new.edges, strict=True):
            if was.parts == now.parts:
                continue
            ends_of = [(p.start, p.end) for p in was.parts], [(p.start, p.end) for p in now.parts]
            for p, q in zip(*ends_of, strict=True):
                assert max(abs(p[0] - q[0]), abs(p[1] - q[1])) <= BACK_MM
            # Every handle rounded by as much, the length may be off by a little more.
            assert now.length == pytest.approx(was.length, abs=3 * BACK_MM)
            for k in range(1, 6):
                assert was.nearest(now.point_at(k / 6 * now.length))[1] <= BACK_MM


def line_of(pattern: Pattern, *kinds: Kind) -> list[Version]:
    root = Root("drawn for a test", 1, {})
    line = [first_version(Address("mara", "block", 1), root, pattern, "a block", DAY)]
    for kind in kinds:
        line.append(onward(line[-1], kind))
    return line


def onward(parent: Version, kind: Kind) -> Version:
    number = parent.address.number + 1
    steps = ((kind, (f"note {number}",)),)
    return next_version(parent, Address("mara", "block", number), steps, "", DAY)


@often
@given(pattern=altered_blocks, seed=seeds, data=st.data())
def test_7_replay_gives_the_stored_curves_and_any_edit_shows(
    pattern: Pattern, seed: int, data: st.DataObject
) -> None:
    try:
        first, second = line_of(pattern, a_step(random.Random(seed), pattern))
    except TrackerError:
        return
    again = check_again(second, first)
    assert again.sound, again.damage
    assert again.furthest_mm == 0.0
    # Someone moves one corner by a hundredth of a millimetre in the stored version.
    pieces = list(second.pattern.pieces)
    i = data.draw(st.integers(0, len(pieces) - 1))
    edges = list(pieces[i].edges)
    k = data.draw(st.integers(0, len(edges) - 1))
    part = edges[k].parts[0]
    bent = replace(part, start=part.start + 0.01)
    edges[k] = replace(edges[k], parts=(bent, *edges[k].parts[1:]))
    pieces[i] = replace(pieces[i], edges=tuple(edges))
    forged = replace(second, pattern=replace(second.pattern, pieces=tuple(pieces)))
    assert not check_again(forged, first).sound
    assert not check_again(replace(second, sentence=second.sentence + "!"), first).sound


@often
@given(pattern=altered_blocks, seed=seeds)
def test_8_the_trace_accounts_for_every_millimetre(pattern: Pattern, seed: int) -> None:
    made = tried(pattern, seed)
    if made:
        assert_accounted(pattern, made[1])


@often
@given(pattern=blocks, seed=seeds, which=st.integers(0, 2))
def test_9_nothing_entered_is_dropped_when_a_step_is_withdrawn(
    pattern: Pattern, seed: int, which: int
) -> None:
    rng, kinds = random.Random(seed), list[Kind]()
    line = line_of(pattern)
    for _ in range(12):
        try:
            step = a_step(rng, line[-1].pattern)
            line.append(onward(line[-1], step))
        except TrackerError:
            continue
        kinds.append(step)
        if len(kinds) == 3:
            break
    if len(kinds) < 3:
        return
    taken = [v.taken[0] for v in line[1:]]
    gone = taken[which]
    undone = withdraw(line, [gone.step.step_id])
    # What was withdrawn stays on record, and its version too; the rest keeps its observations.
    assert undone.record.steps == (gone.step.step_id,)
    assert undone.record.sentences == (gone.sentence,)
    assert [b.because for b in undone.onward.steps] == [
        t.step.because for t in taken[which:] if t is not gone
    ]
    kept = [b.kind for b in undone.onward.steps]
    assert kept == [k for k in kinds[which:] if k is not kinds[which]]
    assert all(b.told for b in undone.onward.left_out)
    assert furthest_apart(undone.parent.pattern, line[which].pattern)[0] == 0.0
