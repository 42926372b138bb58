"""A piece drawn again after one of its edges was displaced."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.geometry.point import turn_between
from tracker.geometry.profile import Profile
from tracker.pattern.canonical import piece_digest, settled
from tracker.pattern.checks import ring_fault
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.redraw import DoesNotMeet, redraw

Alter = Callable[..., Piece]

EDGES = [
    ("front", "side"), ("front", "shoulder"), ("front", "armhole"), ("front", "neckline"),
    ("front", "waist"), ("back", "centre back"), ("back", "side"), ("back", "shoulder"),
    ("back", "armhole"), ("back", "neckline"), ("back", "waist"),
]  # fmt: skip

SHARES = (0.0, 0.2, 0.45, 0.7, 1.0)


@st.composite
def amounts(draw: st.DrawFn, most_mm: float = 8.0) -> list[tuple[float, float]]:
    """Amounts at two to five places, some of them nothing."""
    places = sorted(draw(st.sets(st.sampled_from(SHARES), min_size=2, max_size=5)))
    amount = st.one_of(st.just(0.0), st.floats(-most_mm, most_mm).map(lambda v: round(v, 2)))
    return [(s, draw(amount)) for s in places]


def furthest(one: Piece, other: Piece) -> float:
    """The furthest any kept point of two pieces of the same make stands apart."""
    worst = 0.0
    for a, b in zip(one.ring, other.ring, strict=True):
        assert len(a.runs) == len(b.runs)
        worst = max(worst, abs(a.start - b.start))
        for run_a, run_b in zip(a.runs, b.runs, strict=True):
            assert len(run_a) == len(run_b)
            worst = max(worst, *(abs(p - q) for p, q in zip(run_a, run_b, strict=True)))
    return worst


def off_base(old: Edge, new: Edge, at_mm: float) -> float:
    """How far the drawn line stands off the base line at a place, square to the base."""
    index, rest = old.locate(at_mm)
    base = old.parts[index]
    spot, heading = base.point_at(rest), base.heading_at(rest)
    line = new.parts[index]
    from tracker.geometry.crossing import with_line

    crossings = with_line(line.run_on(40, 40), spot, heading * 1j)
    return min((c.second_mm for c in crossings), key=abs)


@pytest.mark.parametrize(("piece", "edge"), EDGES)
@given(knots=amounts())
def test_a_displaced_edge_leaves_a_closed_outline_that_does_not_cross_itself(
    bodice: Pattern, altered: Alter, piece: str, edge: str, knots: list[tuple[float, float]]
) -> None:
    new = altered(bodice.piece(piece), edge, knots)
    assert ring_fault(new) is None
    for dart in new.darts:
        assert abs(dart.leg_lengths[0] - dart.leg_lengths[1]) <= 0.01


@pytest.mark.parametrize(("piece", "edge"), EDGES)
@given(knots=amounts())
def test_taking_in_and_letting_out_the_same_gives_the_piece_back(
    bodice: Pattern, altered: Alter, piece: str, edge: str, knots: list[tuple[float, float]]
) -> None:
    old = bodice.piece(piece)
    back = altered(altered(old, edge, knots), edge, [(s, -v) for s, v in knots], "s2")
    assert furthest(old, back) <= 1e-6
    for one, other in zip(old.levels, back.levels, strict=True):
        for a, b in zip(one.strokes, other.strokes, strict=True):
            assert max(abs(p - q) for p, q in zip(a, b, strict=True)) <= 2e-6


@pytest.mark.parametrize(("piece", "edge"), EDGES)
@given(knots=amounts())
def test_each_amount_is_met_square_to_the_seam_where_it_was_stated(
    bodice: Pattern, altered: Alter, piece: str, edge: str, knots: list[tuple[float, float]]
) -> None:
    old = bodice.piece(piece).edge(edge)
    new = altered(bodice.piece(piece), edge, knots).edge(edge)
    for share, amount in knots:
        if 0.0 < share < 1.0:
            assert off_base(old, new, share * old.length) == pytest.approx(amount, abs=0.05)
    for share, point, line in ((0.0, new.parts[0].start, old.parts[0]),
                               (1.0, new.parts[-1].end, old.parts[-1])):  # fmt: skip
        stated = dict(knots).get(share)
        if stated is not None:
            # The corner has slid until it is that far from the old line, run on.
            gap = line.run_on(60, 60).nearest(point)[1]
            assert gap == pytest.approx(abs(stated), abs=0.05)


@pytest.mark.parametrize(("piece", "edge"), EDGES)
@given(knots=amounts(4.0), share=st.sampled_from([0.25, 0.5, 0.7]))
def test_an_amount_in_two_steps_draws_the_line_of_one(
    bodice: Pattern, altered: Alter, piece: str, edge: str, knots: list[tuple[float, float]],
    share: float,
) -> None:  # fmt: skip
    old = bodice.piece(piece)
    first = [(s, round(v * share, 4)) for s, v in knots]
    rest = [(s, v - w) for (s, v), (_, w) in zip(knots, first, strict=True)]
    one = altered(old, edge, knots)
    two = altered(altered(old, edge, first), edge, rest, "s2")
    assert furthest(one, two) <= 3e-6


@pytest.mark.parametrize(("piece", "edge"), EDGES)
@given(knots=amounts())
def test_no_kink_arises_inside_an_altered_edge(
    bodice: Pattern, altered: Alter, piece: str, edge: str, knots: list[tuple[float, float]]
) -> None:
    new = altered(bodice.piece(piece), edge, knots)
    for changed in new.edges:
        for part in changed.parts:
            for k in range(len(part.runs) - 1):
                first, second = part.segments[k], part.segments[k + 1]
                from tracker.geometry.bezier import heading

                kink = math.degrees(abs(turn_between(heading(first, 1.0), heading(second, 0.0))))
                assert kink <= 1.0, (changed.name, k, kink)
