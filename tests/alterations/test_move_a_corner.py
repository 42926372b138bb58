import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.errors import TrackerError
from tracker.geometry.point import left_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest

BLOCK = bodice()
SHOULDER = MoveCorner(
    piece="front", corner="shoulder point", edge="shoulder", along_mm=8.0, across_mm=-4.0
)


def test_the_corner_goes_where_it_is_told() -> None:
    old = BLOCK.piece("front")
    new = done(SHOULDER, BLOCK).pattern.piece("front")
    out = old.edge("shoulder").drawn[0].end_heading
    wanted = old.corner("shoulder point") + 8.0 * out - 4.0 * left_of(out)
    assert abs(new.corner("shoulder point") - wanted) < 0.02


def test_both_edges_are_on_their_old_lines_a_blend_away() -> None:
    old, new = BLOCK.piece("front"), done(SHOULDER, BLOCK).pattern.piece("front")
    assert new.corner("neck point") == old.corner("neck point")
    for edge, towards in (("shoulder", "end"), ("armhole", "start")):
        line = old.edge(edge)
        at = line.length - 65.0 if towards == "end" else 65.0
        assert new.edge(edge).nearest(line.point_at(at))[1] < 1e-5


def test_the_sentence_tells_both_ways() -> None:
    assert SHOULDER.sentence(BLOCK) == (
        "Shoulder point of the front 8 mm out along the shoulder and 4 mm out of the piece, square "
        "to the shoulder; both edges back on their old lines 60 mm away"
    )


def test_a_corner_on_the_fold_goes_along_the_fold_only() -> None:
    lower = MoveCorner(
        piece="front", corner="centre front neck", edge="centre front", along_mm=-15.0
    )
    new = done(lower, BLOCK).pattern.piece("front")
    assert new.corner("centre front neck") == pytest.approx(330j, abs=0.01)
    beside = MoveCorner(
        piece="front", corner="centre front neck", edge="centre front", across_mm=5.0
    )
    with pytest.raises(TrackerError, match="lies on the fold and can only be moved along it"):
        apply_step(beside, BLOCK, "one")


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_leaves_the_other_alone(side: BodySide) -> None:
    step = MoveCorner(piece="front", corner="side waist", edge="side", along_mm=-10.0, side=side)
    new = done(step, BLOCK).pattern.piece("front")
    assert new.edge("side", side).length == pytest.approx(195.0, abs=0.02)
    assert new.edge("side", side.opposite).length == pytest.approx(205.0, abs=1e-5)


def test_a_seam_made_longer_is_told() -> None:
    effect = done(SHOULDER, BLOCK).effect
    assert any("shoulder seam: front 130.7 mm" in told for told in effect.leaves)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (MoveCorner(piece="front", corner="elbow", edge="side", along_mm=5.0),
         "no corner called 'elbow'"),
        (MoveCorner(piece="front", corner="side waist", edge="armhole", along_mm=5.0),
         "the side and the waist meet there"),
        (MoveCorner(piece="front", corner="side waist", edge="side", along_mm=-500.0),
         "mm is the most that can be drawn here"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: MoveCorner, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = MoveCorner(piece="front", corner="side waist", edge="side", along_mm=-500.0)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert most > 10
    apply_step(step.scaled(most / 500.0), BLOCK, "one")


@pytest.mark.parametrize("bad", [{}, {"along_mm": 5.0, "blend_mm": 1.0}])
def test_amounts_that_cannot_be_are_refused(bad: dict[str, float]) -> None:
    with pytest.raises(TrackerError):
        MoveCorner(piece="front", corner="side waist", edge="side", **bad)


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(SHOULDER, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Shoulder point of the front")


small = st.floats(-12, 12).filter(lambda a: abs(a) > 0.3)


@settings(max_examples=A_THIRD)
@given(
    along=small,
    across=small,
    where=st.sampled_from(
        [("shoulder point", "shoulder"), ("underarm point", "side"), ("side waist", "waist"),
         ("neck point", "shoulder")]
    ),
    number=st.sampled_from([0, 1]),
)  # fmt: skip
def test_any_corner_goes_any_way_and_nothing_else_moves(
    along: float, across: float, where: tuple[str, str], number: int
) -> None:
    block = drafted(1) if number else BLOCK
    corner, name = where
    step = MoveCorner(piece="back", corner=corner, edge=name, along_mm=along, across_mm=across)
    new = done(step, block).pattern
    old, now = block.piece("back"), new.piece("back")
    assert abs(abs(now.corner(corner) - old.corner(corner)) - step.amount_mm) < 0.02
    for edge in old.edges:
        if corner not in (edge.start, edge.end):
            assert now.edge(edge.name).parts == edge.parts
        else:
            other = edge.start if edge.end == corner else edge.end
            assert now.corner(other) == old.corner(other)


@pytest.mark.parametrize(
    "step",
    [
        SHOULDER,
        MoveCorner(piece="back", corner="underarm point", edge="armhole", along_mm=8.0),
        MoveCorner(piece="back", corner="underarm point", edge="side", along_mm=-8.0),
        MoveCorner(piece="front", corner="centre front neck", edge="centre front", along_mm=-15.0),
    ],
)
def test_the_way_back_leads_back(step: MoveCorner) -> None:
    new = done(step, BLOCK).pattern
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, BLOCK)
