"""Panels on blocks that go on below the waist, and back lines from the shoulder."""

import itertools
from functools import cache

import pytest
from drafted import drafted
from published.bodies import bdims_bodies, chart_bodies, posture_bodies

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.body.estimate import estimate
from tracker.drafting.style_leftover import Leftover
from tracker.drafting.torso import TO_ESTIMATE, draft_torso
from tracker.geometry.point import turn_between
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BODIES = (chart_bodies()[3], posture_bodies()[1], bdims_bodies()[50])


@cache
def torso(number: int) -> Pattern:
    return draft_torso(estimate(BODIES[number].body, TO_ESTIMATE)).pattern


FRONTS = [
    PanelFront(), PanelFront(start="armhole"), PanelFront(beside_mm=15.0),
    PanelFront(start="armhole", beside_mm=-12.0, leftover=Leftover.DART),
]  # fmt: skip
BACKS = [
    PanelBack(), PanelBack(start="shoulder"), PanelBack(foot="waist"),
    PanelBack(start="shoulder", foot="waist"),
]  # fmt: skip


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("front", FRONTS, ids=str)
def test_a_torso_is_panelled_from_shoulder_or_armhole_down_to_the_hip(
    front: PanelFront, number: int
) -> None:
    block = torso(number)
    back = BACKS[(FRONTS.index(front) + number) % len(BACKS)]
    new = apply_step(back, apply_step(front, block, "one").pattern, "two").pattern
    assert [f.sentence for f in check(new).findings] == []
    for line in ("bust line", "waist line", "hip line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.05), line
    for edge in ("neckline", "armhole", "hip"):
        assert around(new, edge) == pytest.approx(around(block, edge), abs=0.05), edge
    for panel in ("centre front", "side front"):
        assert not [d for d in new.piece(panel).darts if d.name == "waist dart"]
        assert {"bust line", "waist line", "hip line"} <= {v.name for v in new.piece(panel).levels}
        assert "front princess notch at the waist line" in {
            n.name for n in new.piece(panel).notches
        }
    first, second = side_lengths(new, new.seam("front princess"))
    eased = new.seam("front princess").planned_ease_mm
    assert second - first == pytest.approx(eased, abs=0.02)


@pytest.mark.parametrize("back", BACKS, ids=str)
def test_a_back_line_ends_at_the_hip_and_says_so(back: PanelBack) -> None:
    assert "and straight on below" in back.sentence(torso(0))
    new = apply_step(back, torso(0), "one").pattern
    assert "back princess hip" in new.piece("side back").corners
    darts = [d.name for d in new.piece("centre back").darts]
    assert ("waist dart" in darts) == (back.foot == "waist")


def test_the_line_below_the_bust_is_smooth_at_the_waist_and_where_the_dart_ended() -> None:
    new = apply_step(PanelFront(), torso(0), "one").pattern
    for panel in ("centre front", "side front"):
        line = new.piece(panel).edge("front princess").parts[0]
        headings = [line.heading_at(k) for k in range(int(line.length))]
        bends = [abs(turn_between(a, b)) for a, b in itertools.pairwise(headings)]
        assert max(bends) < 0.035  # 2° in a millimetre would be a corner


def test_a_back_line_from_the_shoulder_runs_down_the_shoulder_darts_legs() -> None:
    block = drafted(0)
    back = block.piece("back")
    assert back.dart("shoulder dart")
    done = apply_step(PanelBack(start="shoulder"), block, "one")
    new = done.pattern
    assert not new.piece("centre back").darts
    assert not new.piece("side back").darts
    assert check(new).clean
    assert "down the shoulder dart's legs" in PanelBack(start="shoulder").sentence(block)
    whole = new.piece("centre back").edge("shoulder").length
    whole += new.piece("side back").edge("shoulder").length
    assert whole == pytest.approx(back.edge("shoulder").length, abs=1e-5)
    before = next(p.length for p in back.edge("shoulder").parts)
    # Going round the back the side's part of the shoulder comes first.
    assert new.piece("side back").edge("shoulder").length == pytest.approx(before, abs=1e-5)


def test_a_back_line_from_elsewhere_on_the_shoulder_leaves_the_dart() -> None:
    step = PanelBack(start="shoulder", distance_mm=95.0, foot="waist")
    new = apply_step(step, drafted(0), "one").pattern
    assert "shoulder dart" in {d.name for d in new.piece("centre back").darts}
    assert check(new).clean


def test_a_back_line_from_an_eased_shoulder_keeps_the_ease() -> None:
    block = drafted(1)
    new = apply_step(PanelBack(start="shoulder"), block, "one").pattern
    assert new.seam("shoulder").planned_ease_mm == block.seam("shoulder").planned_ease_mm
    assert check(new).clean
