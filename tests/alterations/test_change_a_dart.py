"""Changing a dart: the intake asked for is met, the folded edge is smooth, the rest stays."""

import math

import pytest
from altering import A_THIRD, NO_OUTLINE, done
from drafted import drafted
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.change_a_dart import ChangeDart
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import folded_kink_deg
from tracker.pattern.measure import girth

BLOCK = bodice()


def change(**more: object) -> ChangeDart:
    return ChangeDart(**({"piece": "front", "dart": "waist dart"} | more))


@pytest.mark.parametrize("by", [-12.0, -4.0, 4.0, 12.0])
def test_a_deeper_dart_takes_as_much_more_out_of_the_edge(by: float) -> None:
    applied = done(change(deeper_mm=by), BLOCK)
    was, now = BLOCK.piece("front").dart("waist dart"), applied.pattern.piece("front").dart(
        "waist dart"
    )  # fmt: skip
    assert now.intake_mm == pytest.approx(was.intake_mm + by, abs=0.01)
    assert now.pivot == was.pivot
    (edge,) = applied.effect.edges
    assert edge.what == "front waist"
    assert edge.by == pytest.approx(-by, abs=0.3)
    assert girth(applied.pattern, "waist line") - girth(BLOCK, "waist line") == pytest.approx(
        2 * edge.by
    )


def test_the_point_moved_back_along_the_axis_shows_a_wider_angle() -> None:
    # Project's published checks, section 5 item 4: the mouth stays, the angle at the point grows:
    # w = 2 sqrt(L^2 + (w/2)^2) sin(theta / 2) with L the length along the axis [calc].
    was = BLOCK.piece("front").dart("waist dart")
    now = done(change(longer_mm=-25.0), BLOCK).pattern.piece("front").dart("waist dart")
    along = was.leg_lengths[0] * math.cos(was.angle_rad / 2) - 25.0
    assert now.angle_rad == pytest.approx(2 * math.atan2(was.intake_mm / 2, along), abs=1e-6)
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=1e-5)


def test_the_point_goes_towards_the_corner_named() -> None:
    was = BLOCK.piece("front").dart("waist dart").pivot
    for toward, sign in (("side waist", -1), ("centre front waist", 1)):
        now = apply_step(
            change(across_mm=8.0, longer_mm=-15.0, toward=toward), BLOCK, "one"
        ).pattern
        moved = now.piece("front").dart("waist dart").pivot - was
        assert abs(moved) == pytest.approx(17.0, abs=1e-5)
        assert moved.real * sign == pytest.approx(8.0, abs=0.1)


def test_where_it_is_sewn_to_changes_nothing_drawn() -> None:
    applied = done(change(stand_back_mm=12.7), BLOCK)
    front = applied.pattern.piece("front")
    assert front.edges == BLOCK.piece("front").edges
    assert front.dart("waist dart").stand_back_mm == 12.7


def test_a_dart_that_shared_the_pivot_stays_and_that_is_said() -> None:
    applied = done(change(longer_mm=-10.0), BLOCK)
    assert applied.pattern.piece("front").dart("bust dart") == BLOCK.piece("front").dart(
        "bust dart"
    )
    assert any("now have two" in n for n in applied.effect.notes)


def test_deeper_and_shallower_again_is_nearly_the_same() -> None:
    there = done(change(deeper_mm=8.0), BLOCK).pattern
    back = done(change(deeper_mm=-8.0), there).pattern.piece("front")
    old = BLOCK.piece("front")
    assert back.dart("waist dart").intake_mm == pytest.approx(
        old.dart("waist dart").intake_mm, abs=1e-4
    )
    assert back.edge("waist").length == pytest.approx(old.edge("waist").length, abs=0.05)


def test_a_double_pointed_dart_is_made_wider_and_longer_about_its_widest_place() -> None:
    added = done(
        AddDart(piece="back", name="shaping", edge="waist", corner="side waist",
                distance_mm=50.0, width_mm=10.0, length_mm=160.0, inward_mm=60.0,
                toward_edge_mm=40.0),
        BLOCK,
    ).pattern  # fmt: skip
    step = change(piece="back", dart="shaping", deeper_mm=4.0, longer_mm=10.0)
    new = done(step, added).pattern
    was, now = added.piece("back").dart("shaping"), new.piece("back").dart("shaping")
    assert now.intake_mm == pytest.approx(14.0, abs=0.01)
    assert abs(now.legs[0].end - now.pivot) == pytest.approx(210.0, abs=1e-4)
    assert abs(now.pivot - was.pivot) == pytest.approx(8.0, abs=1e-4)  # in proportion: 160 of 200
    assert new.piece("back").edges == added.piece("back").edges
    assert girth(new, "bust line") < girth(added, "bust line")
    back = done(change(piece="back", dart="shaping", deeper_mm=-4.0, longer_mm=-10.0), new).pattern
    assert girth(back, "bust line") == pytest.approx(girth(added, "bust line"), abs=1e-3)
    with pytest.raises(TrackerError, match="cannot be moved across"):
        apply_step(change(piece="back", dart="shaping", across_mm=4.0, toward="x"), added, "one")


def test_one_body_side_is_changed_and_the_other_stays() -> None:
    new = done(change(deeper_mm=6.0, side=BodySide.RIGHT), BLOCK).pattern.piece("front")
    assert new.dart("waist dart", BodySide.RIGHT).intake_mm == pytest.approx(
        new.dart("waist dart", BodySide.LEFT).intake_mm + 6.0, abs=0.01
    )


def test_the_sentence_says_what_changes_and_the_edge() -> None:
    assert change(deeper_mm=6.0).sentence(BLOCK) == (
        "Waist dart of the front 6 mm deeper at its mouth, to nothing at its point: the waist "
        "about 6 mm shorter on each half"
    )


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    assert apply_step(change(deeper_mm=6.0), paper(), "one").effect.leaves[0].startswith(NO_OUTLINE)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({}, "what is to change"),
        ({"across_mm": 5.0}, "the corner it moves towards"),
        ({"across_mm": 5.0, "toward": "neck point"}, "no corner called 'neck point'"),
        ({"deeper_mm": 6.0, "dart": "hip dart"}, "no dart called"),
        ({"deeper_mm": -40.0}, "remove it instead"),
        ({"longer_mm": -170.0}, "mm shorter at most"),
        ({"longer_mm": 400.0}, "outside the front"),
        ({"across_mm": 8.0, "toward": "side waist"}, "would run into the bust dart, which has"),
        ({"deeper_mm": 300.0}, "is the most that can be drawn here"),
        ({"stand_back_mm": -1.0}, "never past it"),
        ({"stand_back_mm": 190.0}, "nothing would be left"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(change(**more), BLOCK, "one")


WHICH = st.sampled_from(
    [("front", "bust dart"), ("front", "waist dart"), ("back", "waist dart"),
     ("back", "shoulder dart")]
)  # fmt: skip


@settings(max_examples=A_THIRD)
@given(
    block=st.integers(0, 2),
    which=WHICH,
    deeper=st.floats(-6, 12),
    longer=st.floats(-30, 10),
    across=st.floats(0.0, 12),
    at_end=st.booleans(),
)
def test_any_change_is_met_and_folds_smooth(
    block: int, which: tuple[str, str], deeper: float, longer: float, across: float, at_end: bool
) -> None:
    base = BLOCK if block == 2 else drafted(block)
    name, dart = which
    old = base.piece(name)
    if all(d.name != dart for d in old.darts):
        assume(False)
    was = old.dart(dart)
    edge = old.edge(str(was.mouth))
    assume(deeper or longer or across)
    toward = edge.end if at_end else edge.start
    step = change(
        piece=name, dart=dart, deeper_mm=deeper, longer_mm=longer, across_mm=across,
        toward=toward if across else "",
    )  # fmt: skip
    try:
        new = done(step, base).pattern.piece(name)
    except TrackerError:
        assume(False)
    now = new.dart(dart)
    assert now.intake_mm == pytest.approx(was.intake_mm + deeper, abs=0.02)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=0.01)
    assert abs(now.pivot - was.pivot) == pytest.approx(math.hypot(longer, across), abs=1e-4)
    assert abs(folded_kink_deg(new, dart)) < max(0.1, abs(folded_kink_deg(old, dart)) + 0.01)
    for e in old.edges:
        if e.name != edge.name:
            assert new.edge(e.name) == e
