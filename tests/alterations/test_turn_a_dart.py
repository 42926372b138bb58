"""Turning a dart: angle lost is angle gained, and nothing but the two mouths changes."""

import itertools
import math

import pytest
from altering import NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import assume, given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import folded_kink_deg
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern

BLOCK = bodice()
SHOULDER = {"edge": "shoulder", "corner": "neck point", "distance_mm": 60.0}


def turn(**more: object) -> TurnDart:
    return TurnDart(**({"piece": "front", "dart": "bust dart"} | more))


def angles(pattern: Pattern, piece: str = "front") -> dict[str, float]:
    return {d.name: d.angle_rad for d in pattern.piece(piece).darts}


def bends(curve: Curve) -> float:
    """The sharpest bend within a line, degrees."""
    turns = [
        turn_between(Curve.of([a]).end_heading, Curve.of([b]).start_heading)
        for a, b in itertools.pairwise(curve.segments)
    ]
    return max((abs(math.degrees(t)) for t in turns), default=0.0)


def test_a_dart_turned_to_the_shoulder_is_a_shoulder_dart_of_the_same_angle() -> None:
    applied = done(turn(**SHOULDER), BLOCK)
    assert angles(applied.pattern) == {
        "waist dart": angles(BLOCK)["waist dart"],
        "shoulder dart": pytest.approx(angles(BLOCK)["bust dart"], abs=1e-7),
    }
    dart = applied.pattern.piece("front").dart("shoulder dart")
    assert (dart.mouth, dart.pressed, dart.stand_back_mm) == ("shoulder", "to the centre", 25.0)
    assert dart.pivot == BLOCK.piece("front").dart("bust dart").pivot
    assert applied.effect.edges == applied.effect.girths == applied.effect.joins == ()
    assert "bust dart: closed" in applied.effect.notes


def test_the_mouth_is_as_wide_as_its_distance_from_the_pivot_makes_it() -> None:
    # Project's published checks, section 5 item 1: w = 2 r sin(theta / 2), w2 = w1 r2 / r1.
    old = BLOCK.piece("front").dart("bust dart")
    for edge, corner, at in (
        ("shoulder", "neck point", 60.0),
        ("armhole", "shoulder point", 100.0),
        ("neckline", "neck point", 40.0),
    ):
        new = apply_step(turn(edge=edge, corner=corner, distance_mm=at), BLOCK, "one")
        dart = new.pattern.piece("front").dart(f"{edge} dart")
        ratio = dart.leg_lengths[0] / old.leg_lengths[0]
        assert dart.intake_mm == pytest.approx(old.intake_mm * ratio, abs=1e-4)
        assert dart.intake_mm == pytest.approx(
            2 * dart.leg_lengths[0] * math.sin(dart.angle_rad / 2), abs=1e-6
        )


@pytest.mark.parametrize("share", [0.25, 0.5, 0.8])
def test_a_share_is_a_share_of_the_angle_not_of_the_width(share: float) -> None:
    # Published checks, section 5 item 2: angles add exactly, widths do not.
    was = angles(BLOCK)["bust dart"]
    new = angles(done(turn(share=share, **SHOULDER), BLOCK).pattern)
    assert new["shoulder dart"] == pytest.approx(was * share, abs=1e-7)
    assert new["bust dart"] == pytest.approx(was * (1 - share), abs=1e-7)


def test_what_holds_the_fold_stays_and_the_part_of_the_armhole_turns() -> None:
    new = apply_step(turn(**SHOULDER), BLOCK, "one").pattern.piece("front")
    old = BLOCK.piece("front")
    for name in ("centre front", "neckline", "waist"):
        assert new.edge(name).parts == old.edge(name).parts
    assert new.corner("side waist") == old.corner("side waist")
    assert abs(new.corner("underarm point") - old.corner("underarm point")) > 10
    assert new.grain == old.grain


def test_a_turned_dart_into_another_of_the_same_pivot_widens_that() -> None:
    was = angles(BLOCK)
    new = done(turn(into="waist dart"), BLOCK).pattern
    assert angles(new) == {
        "waist dart": pytest.approx(was["bust dart"] + was["waist dart"], abs=1e-7)
    }
    assert girth(new, "waist line") == pytest.approx(girth(BLOCK, "waist line"), abs=1e-5)


@pytest.mark.parametrize("share", [0.3, 1.0])
def test_turned_away_and_back_it_is_the_same_pattern(share: float) -> None:
    there = done(turn(share=share, **SHOULDER), BLOCK).pattern
    home = (
        {"into": "bust dart"}
        if share < 1
        else {"edge": "side", "corner": "underarm point", "distance_mm": 60.0, "name": "bust dart"}
    )
    back = done(turn(dart="shoulder dart", **home), there).pattern
    assert_same(back, BLOCK, 1e-4)
    assert angles(back)["bust dart"] == pytest.approx(angles(BLOCK)["bust dart"], abs=1e-7)


def test_one_body_side_is_turned_and_the_other_stays() -> None:
    new = done(turn(side=BodySide.LEFT, **SHOULDER), BLOCK).pattern.piece("front")
    assert {d.key for d in new.darts} == {
        ("bust dart", BodySide.RIGHT), ("waist dart", BodySide.RIGHT),
        ("waist dart", BodySide.LEFT), ("shoulder dart", BodySide.LEFT),
    }  # fmt: skip
    old = BLOCK.piece("front").dart("bust dart")
    assert new.dart("bust dart", BodySide.RIGHT).legs == old.legs
    both = done(turn(**SHOULDER), done(turn(share=0.5, side=BodySide.LEFT, edge="armhole",
        corner="shoulder point", distance_mm=90.0), BLOCK).pattern).pattern  # fmt: skip
    assert [d.side for d in both.piece("front").darts if d.name == "shoulder dart"] == [
        BodySide.RIGHT, BodySide.LEFT,
    ]  # fmt: skip


def test_a_back_dart_turns_about_its_blade() -> None:
    block = drafted(0)
    step = TurnDart(piece="back", dart="shoulder dart", edge="armhole", corner="shoulder point",
                    distance_mm=100.0, share=0.5)  # fmt: skip
    new = done(step, block).pattern
    assert angles(new, "back")["armhole dart"] == pytest.approx(
        angles(block, "back")["shoulder dart"] / 2, abs=1e-7
    )


def test_the_sentence_says_both_mouths_and_the_degrees() -> None:
    assert turn(share=0.5, side=BodySide.RIGHT, **SHOULDER).sentence(BLOCK) == (
        "Right side only: bust dart of the front turned by 50% of its angle to the shoulder, "
        "60 mm from the neck point: 4.7 of its 9.5 degrees"
    )


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    applied = apply_step(turn(**SHOULDER), paper(), "one")
    assert applied.pattern == paper()
    assert applied.effect.leaves[0].startswith(NO_OUTLINE)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"share": 0.0, **SHOULDER}, "more than nothing"),
        ({}, "where to"),
        ({"into": "waist dart", **SHOULDER}, "the one or the other"),
        ({"into": "bust dart"}, "into itself"),
        ({"edge": "shoulder"}, "Name the corner"),
        ({"dart": "neck dart", **SHOULDER}, "no dart called 'neck dart'"),
        ({"into": "neck dart"}, "no dart called 'neck dart'"),
        ({**SHOULDER, "corner": "side waist"}, "no corner called"),
        ({**SHOULDER, "distance_mm": 400.0}, "off the end"),
        ({**SHOULDER, "distance_mm": 1.0}, "too near the end"),
        ({"edge": "side", "corner": "underarm point", "distance_mm": 61.0}, "another dart"),
        ({**SHOULDER, "name": "waist dart"}, "has a waist dart already"),
        ({**SHOULDER, "stand_back_mm": 400.0}, "nothing would be left"),
        ({**SHOULDER, "stand_back_mm": -5.0}, "never past it"),
        ({"edge": "centre front", "corner": "centre front neck", "distance_mm": 100.0}, "fold"),
        ({"piece": "back", "dart": "waist dart", "into": "shoulder dart"}, "no dart called"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(turn(**more), BLOCK, "one")


PLACES = st.sampled_from(
    [("shoulder", "neck point"), ("armhole", "shoulder point"), ("neckline", "neck point"),
     ("side", "underarm point"), ("waist", "side waist")]
)  # fmt: skip


@given(
    block=st.integers(0, 2),
    dart=st.sampled_from(["bust dart", "waist dart"]),
    place=PLACES,
    along=st.floats(0.05, 0.95),
    share=st.one_of(st.just(1.0), st.floats(0.05, 1.0)),
)
def test_any_turn_keeps_the_angle_every_length_and_every_girth(
    block: int, dart: str, place: tuple[str, str], along: float, share: float
) -> None:
    base = BLOCK if block == 2 else drafted(block)
    edge, corner = place
    at = along * base.piece("front").edge(edge).length
    step = turn(dart=dart, edge=edge, corner=corner, distance_mm=at, share=share, name="new dart")
    try:
        applied = done(step, base)
    except TrackerError:
        assume(False)
    old, new = base.piece("front"), applied.pattern.piece("front")
    assert sum(angles(applied.pattern).values()) == pytest.approx(
        sum(angles(base).values()), abs=2e-7
    )
    fresh = new.dart("new dart")
    assert fresh.angle_rad == pytest.approx(
        old.dart(dart).angle_rad * share, abs=1e-7 if min(fresh.leg_lengths) >= 60 else 1e-5
    )
    for e in old.edges:
        # Where a dart was closed wholly its edge is one fair line, as long to 0.02 mm.
        closed = e.name == old.dart(dart).mouth and share == 1
        assert new.edge(e.name).length == pytest.approx(e.length, abs=0.05 if closed else 1e-5)
        for was, now in ((n, new.notch(n.name)) for n in old.notches if n.edge == e.name):
            assert now.distance_mm == pytest.approx(was.distance_mm, abs=0.05)
    for line in lines_of(base):
        assert girth(applied.pattern, line) == pytest.approx(girth(base, line), abs=0.05)
    for d in new.darts:
        assert d.leg_lengths[0] == pytest.approx(d.leg_lengths[1], abs=0.01)
        was_bent = abs(folded_kink_deg(old, d.name)) if d.name != "new dart" else 0.0
        assert abs(folded_kink_deg(new, d.name)) < was_bent + 0.1
    for e in new.edges:
        assert max(bends(p) for p in e.parts) < 1.0
