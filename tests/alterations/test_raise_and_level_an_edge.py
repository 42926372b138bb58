import pytest
from altering import NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.level_an_edge import HeightAt, LevelEdge
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.walk import side_lengths

BLOCK = bodice()
RAISED = RaiseEdge(to=Height.RAISE, by_mm=12.0, edge="waist")


def height(piece: str, corner: str, height_mm: float, distance: float = 0.0) -> HeightAt:
    return HeightAt(piece=piece, corner=corner, distance_mm=distance, height_mm=height_mm)


def leveled(*readings: HeightAt, side: BodySide = BodySide.BOTH) -> LevelEdge:
    return LevelEdge(edge="waist", wanted_mm=1000.0, readings=readings, side=side)


LEVEL = leveled(
    height("front", "centre front waist", 992.0),
    height("front", "side waist", 1000.0),
    height("back", "centre back waist", 1005.0),
)


def test_a_waist_is_raised_on_every_piece_that_has_it() -> None:
    new = done(RAISED, BLOCK).pattern
    for name, centre in (("front", "centre front"), ("back", "centre back")):
        old, now = BLOCK.piece(name), new.piece(name)
        assert now.edge("side").length == pytest.approx(old.edge("side").length - 12, abs=0.05)
        assert now.edge(centre).length == pytest.approx(old.edge(centre).length - 12, abs=0.05)


def test_a_hem_is_lowered_by_adding_to_its_piece() -> None:
    new = done(RaiseEdge(to=Height.LOWER, by_mm=10.0), sleeved()).pattern
    assert new.piece("sleeve").edge("hem").point_at(0).imag == pytest.approx(-430.0, abs=1e-5)


def test_a_hem_is_levelled_by_its_readings_from_the_floor() -> None:
    new = done(LEVEL, BLOCK).pattern
    front, back = new.piece("front"), new.piece("back")
    assert front.edge("centre front").length == pytest.approx(337.0, abs=0.05)
    assert back.edge("centre back").length == pytest.approx(415.0, abs=0.05)
    # The reading at the side counts for both pieces.
    assert side_lengths(new, new.seam("side")) == pytest.approx((205.0, 205.0), abs=1e-4)


def test_the_sentences() -> None:
    assert RAISED.sentence(BLOCK) == "Waist raised 12 mm all round, on the front and back"
    assert LEVEL.sentence(BLOCK) == (
        "Waist brought to 1000 mm from the floor: raised 8 mm at the centre front waist of the "
        "front, left at the side waist of the front, lowered 5 mm at the centre back waist of the "
        "back"
    )


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only(side: BodySide) -> None:
    step = leveled(
        height("front", "side waist", 994.0), height("front", "centre front waist", 1000.0),
        height("back", "centre back waist", 1000.0), side=side,
    )  # fmt: skip
    new = done(step, BLOCK).pattern.piece("front")
    assert new.edge("side", side).length == pytest.approx(199.0, abs=0.05)
    assert new.edge("side", side.opposite).length == pytest.approx(205.0, abs=1e-5)


def test_an_end_that_was_not_read_is_said_to_go_as_the_nearest_does() -> None:
    step = leveled(
        height("front", "side waist", 994.0), height("back", "centre back waist", 1000.0)
    )
    told = step.sentence(BLOCK)
    assert told.endswith("; as much as nearest to it at the centre front waist of the front")


def test_one_side_cannot_be_levelled_past_a_centre_that_stays() -> None:
    dipped = leveled(
        height("front", "side waist", 994.0), height("front", "centre front waist", 996.0),
        height("back", "centre back waist", 1000.0), side=BodySide.RIGHT,
    )  # fmt: skip
    with pytest.raises(TrackerError, match="on over the centre front waist to the half that stays"):
        done(dipped, BLOCK)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_side_raised_runs_out_to_nothing_at_the_centre(side: BodySide) -> None:
    step = RaiseEdge(to=Height.RAISE, by_mm=9.0, edge="waist", side=side)
    assert step.sentence(BLOCK).endswith("waist raised 9 mm, to nothing at the centre, on the "
                                         "front and back")  # fmt: skip
    new = done(step, BLOCK).pattern
    assert new.piece("front").edge("side", side).length == pytest.approx(196.0, abs=0.05)
    assert abs(new.piece("front").corner("centre front waist", side)) < 1e-5
    back = new.piece("back", side)
    assert back.edge("centre back").length == pytest.approx(410.0, abs=1e-5)
    # A later one for both works on the two of them.
    again = done(RAISED, new, "two").pattern
    assert again.piece("front").edge("side", side).length == pytest.approx(184.0, abs=0.1)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (RaiseEdge(to=Height.RAISE, by_mm=5.0, edge="hem"), "edge called 'hem'"),
        (RaiseEdge(to=Height.RAISE, by_mm=5.0, edge="side"), "runs up and down"),
        (RaiseEdge(to=Height.RAISE, by_mm=800.0, edge="waist"), "the most that can be drawn here"),
        (leveled(height("front", "side waist", 990.0), height("back", "elbow", 3.0)),
         "no corner called 'elbow'"),
        (leveled(height("front", "centre front waist", 990.0)), "no reading lies on the waist"),
        (leveled(height("front", "centre front waist", 990.0),
                 height("back", "centre back waist", 1000.0)), "give a reading at the side waist"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: RaiseEdge | LevelEdge, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


@pytest.mark.parametrize(
    "bad",
    [
        {"wanted_mm": 300.0, "readings": ()},
        {"wanted_mm": -3.0, "readings": (height("front", "side waist", 3.0),)},
        {"wanted_mm": 300.0, "readings": (height("front", "side waist", 300.0),)},
    ],
)
def test_readings_that_cannot_be_are_refused(bad: dict[str, object]) -> None:
    with pytest.raises(TrackerError):
        LevelEdge(**bad)


@pytest.mark.parametrize("step", [RAISED, LEVEL])
def test_a_pattern_without_outlines_gets_its_words(step: RaiseEdge | LevelEdge) -> None:
    applied = apply_step(step, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Waist")


@given(by=st.floats(-40, 40).filter(lambda a: abs(a) > 0.5), number=st.sampled_from([0, 1, 2]))
def test_any_amount_and_back(by: float, number: int) -> None:
    block = BLOCK if number == 0 else drafted(number - 1)
    step = RaiseEdge(to=Height.RAISE, by_mm=by, edge="waist")
    new = done(step, block).pattern
    was, now = (side_lengths(p, p.seam("side")) for p in (block, new))
    assert now[0] - was[0] == pytest.approx(-by, abs=0.3)
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block)
