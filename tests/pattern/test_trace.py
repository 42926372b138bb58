"""What became of the material: every millimetre of every edge a step touched."""

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from steps_for_tests import EDGES, amounts

from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch, Trace, edge_fates, trace_from, trace_record

Alter = Callable[..., Piece]
BOTH = BodySide.BOTH


def trace_of(old: Piece, new: Piece) -> Trace:
    fates = [
        fate
        for a, b in zip(old.edges, new.edges, strict=True)
        if a != b
        for fate in edge_fates(old.name, a, b)
    ]
    return Trace(tuple(fates))


def tiles(stretches: list[Stretch], length: float) -> bool:
    """Tell whether stretches, in order, cover a length with neither gap nor overlap."""
    ends = [(s.start_mm, s.end_mm) for s in stretches]
    return (
        abs(ends[0][0]) < 1e-6
        and abs(ends[-1][1] - length) < 1e-6
        and all(abs(a[1] - b[0]) < 1e-6 for a, b in pairwise(ends))
        and all(b > a for a, b in ends)
    )


@settings(max_examples=120)
@given(which=st.sampled_from(EDGES), knots=amounts())
def test_every_millimetre_of_every_old_and_new_edge_is_accounted_for(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]]
) -> None:
    old = bodice.piece(which[0])
    new = altered(old, which[1], knots)
    trace = trace_of(old, new)
    for a, b in zip(old.edges, new.edges, strict=True):
        if a == b:
            assert trace.of(old.name, *a.key) == ()
            continue
        assert tiles([f.old for f in trace.of(old.name, *a.key) if f.old], a.length)
        assert tiles([f.new for f in trace.into(new.name, *b.key) if f.new], b.length)


@settings(max_examples=120)
@given(which=st.sampled_from(EDGES), knots=amounts(), share=st.floats(0.0, 1.0))
def test_going_back_undoes_going_forward(
    bodice: Pattern,
    altered: Alter,
    which: tuple[str, str],
    knots: list[tuple[float, float]],
    share: float,
) -> None:
    old = bodice.piece(which[0])
    trace = trace_of(old, altered(old, which[1], knots))
    for edge in old.edges:
        at = share * edge.length
        now = trace.forward(old.name, *edge.key, at)
        if now is None:
            cut = [f for f in trace.of(old.name, *edge.key) if f.word == "cut away"]
            assert any(f.old and f.old.start_mm - 1e-3 <= at <= f.old.end_mm + 1e-3 for f in cut)
        else:
            back = trace.back(now.piece, now.edge, now.side, now.start_mm)
            assert back is not None
            assert back.start_mm == pytest.approx(at, abs=1e-3)


@settings(max_examples=60)
@given(which=st.sampled_from(EDGES), knots=amounts())
def test_a_neighbour_that_was_only_trimmed_keeps_its_material_where_it_was(
    bodice: Pattern, altered: Alter, which: tuple[str, str], knots: list[tuple[float, float]]
) -> None:
    old = bodice.piece(which[0])
    new = altered(old, which[1], knots)
    trace = trace_of(old, new)
    for a, b in zip(old.edges, new.edges, strict=True):
        if a.name == which[1] or a == b:
            continue
        for share in (0.3, 0.5, 0.7):
            now = trace.forward(old.name, *a.key, share * a.length)
            if now is not None:
                spot = b.point_at(now.start_mm)
                assert abs(spot - a.point_at(share * a.length)) < 0.02


def test_a_trimmed_and_a_run_on_neighbour_say_so(bodice: Pattern, altered: Alter) -> None:
    old = bodice.piece("front")
    into = trace_of(old, altered(old, "side", [(0.0, 0.0), (1.0, 10.0)]))
    words = [f.word for f in into.of("front", "waist", BOTH)]
    assert words == ["cut away", "carried"]
    (gone, _) = into.of("front", "waist", BOTH)
    assert gone.old is not None
    assert gone.old.length_mm == pytest.approx(10.0, abs=0.1)
    assert into.forward("front", "waist", BOTH, 3.0) is None
    out = trace_of(old, altered(old, "side", [(0.0, -8.0), (1.0, 0.0)]))
    assert [f.word for f in out.into("front", "armhole", BOTH)] == ["carried", "new"]
    new_length = old.edge("armhole").length + 8.0
    assert out.back("front", "armhole", BOTH, new_length - 4.0) is None


def test_a_withdrawn_step_carries_the_whole_edge_back(bodice: Pattern, altered: Alter) -> None:
    old = bodice.piece("front")
    moved = altered(old, "side", [(0.0, 0.0), (1.0, 10.0)])
    (fate,) = edge_fates("front", moved.edge("side"), old.edge("side"))
    assert fate.old is not None
    assert fate.new is not None
    assert fate.old.length_mm == pytest.approx(moved.edge("side").length)
    assert fate.new.length_mm == pytest.approx(old.edge("side").length)


def test_an_edge_no_step_touched_is_where_it_was() -> None:
    spot = Trace().forward("front", "side", BOTH, 77.0)
    assert spot == Stretch("front", "side", BOTH, 77.0, 77.0)
    assert Trace().back("front", "side", BOTH, 77.0) == spot


def test_a_turned_stretch_runs_the_other_way() -> None:
    a, b = Stretch("front", "side", BOTH, 0, 100), Stretch("back", "seam", BOTH, 50, 150)
    trace = Trace((Fate(a, b, turned=True),))
    there = trace.forward("front", "side", BOTH, 30.0)
    assert there == Stretch("back", "seam", BOTH, 120.0, 120.0)
    back = trace.back("back", "seam", BOTH, 120.0)
    assert back is not None
    assert (back.piece, back.edge, back.start_mm) == ("front", "side", pytest.approx(30.0))


def test_two_steps_one_after_the_other_are_followed_through_both(
    bodice: Pattern, altered: Alter
) -> None:
    old = bodice.piece("front")
    one = altered(old, "side", [(0.0, 0.0), (1.0, 10.0)])
    two = altered(one, "waist", [(0.0, 6.0), (1.0, 0.0)], "s2")
    first, second = trace_of(old, one), trace_of(one, two)
    both = first.then(second)
    for a, b in zip(old.edges, two.edges, strict=True):
        if both.of("front", *a.key):
            assert tiles([f.old for f in both.of("front", *a.key) if f.old], a.length)
            assert tiles([f.new for f in both.into("front", *b.key) if f.new], b.length)
    for at in (40.0, 90.0, 150.0):
        step = first.forward("front", "waist", BOTH, at)
        assert step is not None
        then = second.forward(step.piece, step.edge, step.side, step.start_mm)
        assert then is not None
        direct = both.forward("front", "waist", BOTH, at)
        assert direct is not None
        assert direct.start_mm == pytest.approx(then.start_mm, abs=1e-6)


def test_a_trace_reads_back_as_it_was_written(bodice: Pattern, altered: Alter) -> None:
    old = bodice.piece("front")
    trace = trace_of(old, altered(old, "side", [(0.0, -8.0), (1.0, 10.0)]))
    back = trace_from(trace_record(trace))
    assert trace_record(back) == trace_record(trace)
    assert [f.word for f in back.fates] == [f.word for f in trace.fates]


def test_an_edge_is_whole_in_its_own_stretch(bodice: Pattern) -> None:
    front = bodice.piece("front")
    edge: Edge = front.edge("side")
    assert Stretch.whole(front, edge).length_mm == edge.length
