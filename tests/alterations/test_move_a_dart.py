"""Moving a whole dart: intake, angle and the edge as sewn stay; what shared its pivot follows."""

import pytest
from altering import A_THIRD, NO_OUTLINE, done
from drafted import drafted
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.move_a_dart import MoveDart
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import folded_kink_deg

BLOCK = bodice()


def down(by: float = 15.0, **more: object) -> MoveDart:
    plain: dict[str, object] = {
        "piece": "front", "dart": "bust dart", "by_mm": by, "toward": "side waist",
    }  # fmt: skip
    return MoveDart(**(plain | more))


def test_a_bust_dart_moved_down_keeps_its_intake_and_angle() -> None:
    # Project's published checks, 1.3, bust point high or low: moved parallel, width and angle stay.
    applied = done(down(), BLOCK)
    was, now = BLOCK.piece("front").dart("bust dart"), applied.pattern.piece("front").dart(
        "bust dart"
    )  # fmt: skip
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=1e-5)
    assert now.angle_rad == pytest.approx(was.angle_rad, abs=1e-7)
    assert abs(now.pivot - was.pivot) == pytest.approx(15.0, abs=0.1)
    assert now.pivot.imag == pytest.approx(was.pivot.imag - 15.0, abs=0.2)
    edge = applied.pattern.piece("front").edge("side")
    assert edge.parts[0].length == pytest.approx(75.0, abs=0.2)
    assert edge.length == pytest.approx(BLOCK.piece("front").edge("side").length, abs=0.1)
    assert applied.pattern.piece("front").notch("side notch").distance_mm == 120.0


def test_the_bust_point_and_the_dart_that_shares_it_go_along_and_are_named() -> None:
    applied = done(down(), BLOCK)
    front, old = applied.pattern.piece("front"), BLOCK.piece("front")
    pivot = front.dart("bust dart").pivot
    assert front.mark("bust point").point == pivot == front.dart("waist dart").pivot
    assert front.dart("waist dart").intake_mm == pytest.approx(
        old.dart("waist dart").intake_mm, abs=1e-4
    )
    assert any(n.startswith("the bust point went along: 15 mm") for n in applied.effect.notes)
    assert any("the waist dart has the same pivot" in n for n in applied.effect.notes)


def test_one_body_side_is_moved_and_the_other_stays() -> None:
    new = done(down(side=BodySide.LEFT), BLOCK).pattern.piece("front")
    assert new.dart("bust dart", BodySide.RIGHT).legs == (
        BLOCK.piece("front").dart("bust dart").legs
    )
    assert new.dart("bust dart", BodySide.LEFT).pivot.imag < 170


def test_the_sentence_says_how_far_and_which_way() -> None:
    assert down().sentence(BLOCK) == (
        "Bust dart of the front, mouth and point, 15 mm along its edge towards the side waist"
    )


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    assert apply_step(down(), paper(), "one").effect.leaves[0].startswith(NO_OUTLINE)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"by": 0.0}, "More than nothing"),
        ({"toward": "neck point"}, "no corner called 'neck point'"),
        ({"dart": "hip dart"}, "no dart called 'hip dart'"),
        ({"by": 150.0}, "there are 140 mm for the bust dart to move"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(down(**more), BLOCK, "one")


WHICH = st.sampled_from(
    [("front", "bust dart", "side waist"), ("front", "bust dart", "underarm point"),
     ("back", "waist dart", "side waist"), ("back", "waist dart", "centre back waist"),
     ("front", "waist dart", "side waist")]
)  # fmt: skip


@settings(max_examples=A_THIRD)
@given(block=st.integers(0, 2), which=WHICH, by=st.floats(0.5, 30.0))
def test_any_move_keeps_intake_angle_and_the_edge_as_sewn(
    block: int, which: tuple[str, str, str], by: float
) -> None:
    base = BLOCK if block == 2 else drafted(block)
    name, dart, toward = which
    try:
        new = done(down(by, piece=name, dart=dart, toward=toward), base).pattern.piece(name)
    except TrackerError:
        assume(False)
    old = base.piece(name)
    was, now = old.dart(dart), new.dart(dart)
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=1e-4)
    assert now.angle_rad == pytest.approx(was.angle_rad, abs=1e-7)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=0.01)
    edge = str(was.mouth)
    # The dart travels by a motion and the edge is trued to it: as long to half a millimetre.
    assert new.edge(edge).length == pytest.approx(old.edge(edge).length, abs=0.5)
    assert abs(folded_kink_deg(new, dart)) < 0.1
    for e in old.edges:
        if not e.mouths:
            assert new.edge(e.name) == e
