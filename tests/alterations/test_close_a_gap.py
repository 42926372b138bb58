"""Closing a gap into a dart: the wedge's angle is what the dart gains."""

import itertools
import math

import pytest
from altering import NO_OUTLINE, done
from drafted import drafted
from hypothesis import assume, given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.close_a_gap_into_a_dart import CloseGap
from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import around

BLOCK = bodice()


def gap(by: float = 8.0, **more: object) -> CloseGap:
    plain: dict[str, object] = {
        "piece": "front", "edge": "neckline", "corner": "neck point", "distance_mm": 55.0,
        "by_mm": by, "dart": "waist dart",
    }  # fmt: skip
    return CloseGap(**(plain | more))


@pytest.mark.parametrize("by", [4.0, 8.0, 12.7])
@pytest.mark.parametrize("dart", ["waist dart", "bust dart"])
def test_the_dart_gains_the_angle_of_the_wedge(by: float, dart: str) -> None:
    # Project's published checks, section 5 item 5: opening s at distance L is 2 asin(s / 2L);
    # 1.3, gaping neckline: the dart angle at the bust point grows by the wedge's.
    front = BLOCK.piece("front")
    was = front.dart(dart)
    edge = front.edge("neckline")
    reach = abs(edge.point_at(edge.length - 55.0) - was.pivot)
    new = done(gap(by, dart=dart), BLOCK).pattern.piece("front")
    assert new.dart(dart).angle_rad - was.angle_rad == pytest.approx(
        2 * math.asin(by / 2 / reach), abs=1e-7
    )
    assert {d.name for d in new.darts} == {"bust dart", "waist dart"}


def test_only_the_edge_that_gaped_is_shorter() -> None:
    applied = done(gap(), BLOCK)
    (changed,) = applied.effect.edges
    assert changed.what == "front neckline"
    # The gap is measured square to the wedge, which meets the neckline aslant.
    assert -8.0 < changed.by < -4.0
    assert around(applied.pattern, "neckline") - around(BLOCK, "neckline") == pytest.approx(
        2 * changed.by
    )
    assert applied.effect.girths == ()
    assert applied.pattern.piece("back") is BLOCK.piece("back")
    assert any("degrees went from the neckline" in n for n in applied.effect.notes)


def test_the_fold_stays_straight_and_where_it_was() -> None:
    new = apply_step(gap(), BLOCK, "one").pattern.piece("front")
    assert new.edge("centre front").parts == BLOCK.piece("front").edge("centre front").parts


def test_one_side_only_leaves_the_other_half() -> None:
    new = done(gap(side=BodySide.RIGHT), BLOCK).pattern.piece("front")
    assert new.edge("neckline", BodySide.LEFT).length == pytest.approx(
        BLOCK.piece("front").edge("neckline").length, abs=1e-6
    )
    assert new.edge("neckline", BodySide.RIGHT).length < new.edge("neckline", BodySide.LEFT).length


def test_much_is_said_to_be_much() -> None:
    assert any("much for one gap" in n for n in apply_step(gap(22), BLOCK, "one").effect.notes)


def test_the_sentence_says_both_ends() -> None:
    assert gap().sentence(BLOCK) == (
        "Gap of 8 mm on each half at the neckline of the front, 55 mm from the neck point, closed "
        "to nothing at the pivot of the waist dart, which takes its angle"
    )


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    assert apply_step(gap(), paper(), "one").effect.leaves[0].startswith(NO_OUTLINE)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"by_mm": 0.0}, "More than nothing"),
        ({"dart": "neck dart"}, "no dart called"),
        ({"edge": "neck"}, "no edge called"),
        ({"corner": "side waist"}, "no corner called"),
        ({"distance_mm": 2.0}, "lay it further|too near"),
        ({"by_mm": 90.0}, "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(gap(**more), BLOCK, "one")


@given(
    block=st.integers(0, 2),
    by=st.floats(1.0, 15.0),
    along=st.floats(0.2, 0.8),
    edge=st.sampled_from([("neckline", "neck point"), ("armhole", "shoulder point")]),
    dart=st.sampled_from(["waist dart", "bust dart"]),
)
def test_any_gap_closes_smoothly_and_changes_nothing_else(
    block: int, by: float, along: float, edge: tuple[str, str], dart: str
) -> None:
    base = BLOCK if block == 2 else drafted(block)
    old = base.piece("front")
    name, corner = edge
    step = gap(by, edge=name, corner=corner, distance_mm=along * old.edge(name).length, dart=dart)
    try:
        new = done(step, base).pattern.piece("front")
    except TrackerError:
        assume(False)
    gained = new.dart(dart).angle_rad - old.dart(dart).angle_rad
    assert gained > 0
    for e in old.edges:
        if e.name != name:
            assert new.edge(e.name).length == pytest.approx(e.length, abs=1e-5)
    (part,) = new.edge(name).parts
    for a, b in itertools.pairwise(part.segments):
        turn = turn_between(Curve.of([a]).end_heading, Curve.of([b]).start_heading)
        assert abs(math.degrees(turn)) < 1.0
