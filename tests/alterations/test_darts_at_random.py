"""Darts turned about the bust at random, one after another: the cone's angle deficit stays.

What is taken out round the bust is measured from the outlines alone (``deficit``), so that a dart
that said it kept its angle and did not would be found out.
"""

import os

import pytest
from deficit import missing_at
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import block
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.gather_a_dart import GatherDart
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.errors import TrackerError
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern

EXAMPLES = 3000 if os.environ.get("TRACKER_TESTS") == "deep" else 300
BUST = "bust point"
bodices = st.one_of(
    st.builds(bodice), st.builds(drafted, st.integers(0, 2)),
    st.builds(block, st.just("bodice"), st.integers(0, 8)),
)  # fmt: skip
#: Which dart, what is done with it, where to, which share.
turns = st.tuples(
    st.integers(0, 9),
    st.sampled_from(["new", "new", "new", "into another", "gather"]),
    st.integers(0, 4),
    st.floats(0.1, 0.9),
    st.one_of(st.just(1.0), st.floats(0.1, 0.9)),
)


def turned(pattern: Pattern, number: int, turn: tuple[int, str, int, float, float]) -> Pattern:
    which, what, edge, along, share = turn
    front = pattern.piece("front")
    dart = front.darts[which % len(front.darts)]
    others = [d.name for d in front.darts if d.name != dart.name]
    line = [e for e in front.edges if e.name != front.fold][edge]
    if what == "gather":
        step = GatherDart(piece="front", dart=dart.name)
    elif what == "into another" and others:
        step = TurnDart(piece="front", dart=dart.name, into=others[which % len(others)],
                        share=share)  # fmt: skip
    else:
        step = TurnDart(
            piece="front", dart=dart.name, edge=line.name, corner=line.start,
            distance_mm=along * line.length, share=share, name=f"dart {number}",
        )  # fmt: skip
    try:
        return apply_step(step, pattern, f"step {number}").pattern
    except TrackerError:
        return pattern


@settings(max_examples=EXAMPLES)
@given(before=bodices, each=st.lists(turns, min_size=1, max_size=6))
def test_however_darts_are_turned_the_bust_takes_out_the_same_angle(
    before: Pattern, each: list[tuple[int, str, int, float, float]]
) -> None:
    after = before
    for number, turn in enumerate(each):
        after = turned(after, number, turn)
    legs = min(d.leg_lengths[0] for d in after.piece("front").darts)
    within = max(1e-7, 6e-6 / legs)
    assert missing_at(after, BUST) == pytest.approx(missing_at(before, BUST), abs=within)
    for edge in ("neckline", "shoulder", "armhole", "centre front"):
        assert around(after, edge) == pytest.approx(around(before, edge), abs=1e-4), edge
    for line in lines_of(before):
        assert girth(after, line) == pytest.approx(girth(before, line), abs=0.05 * len(each)), line
    assert after.piece("back").edges == before.piece("back").edges
