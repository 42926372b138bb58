import pytest
from altering import A_THIRD, NO_OUTLINE, assert_same, done
from hypothesis import given, settings
from hypothesis import strategies as st
from trousered import BLOCKS, NAMES, POINT, bends, corner_sum, corners, drafted, drawn, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.change_the_crotch_length import CrotchAt, CrotchLength
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = drafted()


def grown(new: Pattern, old: Pattern, edge: str) -> list[float]:
    return [
        new.piece(p.name).edge(edge).length - p.edge(edge).length for p in old.pieces
    ]  # front, back


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize(("front", "back"), [(10, 20), (-10, -20), (0, 15), (12, -12), (25, 30)])
def test_each_crotch_grows_by_its_amount_and_inside_legs_stay_equal(
    block: Pattern, front: float, back: float
) -> None:
    new = done(CrotchLength(front_mm=front, back_mm=back), block).pattern
    assert grown(new, block, "crotch") == [
        pytest.approx(front, abs=0.01), pytest.approx(back, abs=0.01)
    ]  # fmt: skip
    assert grown(new, block, "inside leg") == [pytest.approx(0, abs=0.01)] * 2
    assert side_lengths(new, new.seam("side")) == side_lengths(block, block.seam("side"))
    for line in ("waist line", "hip line", "knee line", "hem")[: 3 if block is drawn() else 4]:
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.05)


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize("by", [15.0, -12.0])
def test_the_crotch_stays_smooth_through_the_inside_leg_point(block: Pattern, by: float) -> None:
    new = done(CrotchLength(front_mm=by, back_mm=by), block).pattern
    assert corners(new) == pytest.approx(corners(block), abs=0.01)
    assert corner_sum(new) == pytest.approx(180.0, abs=0.02)
    for piece in new.pieces:
        old = block.piece(piece.name)
        hollow = 1 if sum(bends(old, "crotch")) > 0 else -1
        # One hollow sweep: it hardly bends the other way, and nowhere in a kink.
        assert sum(-hollow * b for b in bends(piece, "crotch") if hollow * b < 0) < 3.0
        assert max(map(abs, bends(piece, "crotch"))) < 3.5
        assert max(map(abs, bends(piece, "inside leg"))) < 1.1


def test_the_thigh_changes_about_as_much_and_the_crotch_line_runs_through_the_point() -> None:
    new = done(CrotchLength(front_mm=10, back_mm=20), BLOCK).pattern
    more = girth(new, "crotch line") - girth(BLOCK, "crotch line")
    assert more == pytest.approx(60.0, abs=6.0)
    for piece in new.pieces:
        ends = piece.level("crotch line").strokes[0]
        assert min(abs(end - piece.corner(POINT)) for end in ends) < 1e-5
    assert check(new).clean


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize(("front", "back"), [(8, 8), (20, -15)])
def test_what_is_given_back_gives_the_pattern_back(
    block: Pattern, front: float, back: float
) -> None:
    step = CrotchLength(front_mm=front, back_mm=back)
    there = apply_step(step, block, "one").pattern
    back_again = apply_step(step.scaled(-1.0), there, "two").pattern
    assert_same(back_again, block, 0.3)
    for piece in block.pieces:
        assert abs(back_again.piece(piece.name).corner(POINT) - piece.corner(POINT)) < 1e-3


def test_the_place_where_it_runs_to_nothing_is_the_makers() -> None:
    new = done(CrotchLength(back_mm=10, nothing_mm=150), BLOCK).pattern
    old, now = BLOCK.piece("back").edge("inside leg"), new.piece("back").edge("inside leg")
    for down in range(155, 700, 60):
        assert now.nearest(old.point_at(down))[1] < 1e-6
    assert now.nearest(old.point_at(100))[1] > 0.5
    assert new.piece("front") is BLOCK.piece("front")


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize(("front", "back"), [(0, 20), (15, 0), (-10, -15), (8, 25)])
def test_at_the_centre_a_wedge_runs_to_nothing_at_the_side(
    block: Pattern, front: float, back: float
) -> None:
    step = CrotchLength(front_mm=front, back_mm=back, at=CrotchAt.CENTRE)
    new = done(step, block).pattern
    assert grown(new, block, "crotch") == [
        pytest.approx(front, abs=0.01), pytest.approx(back, abs=0.01)
    ]  # fmt: skip
    # The hinge edge keeps its length, and the leg below the cut does not move.
    assert grown(new, block, "side") == [pytest.approx(0, abs=0.05)] * 2
    assert girth(new, "waist line") == pytest.approx(girth(block, "waist line"), abs=1e-4)
    assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=2.5)
    for piece in block.pieces:
        now = new.piece(piece.name)
        assert now.edge("inside leg") == piece.edge("inside leg")
        assert now.edge("hem") == piece.edge("hem")
        assert now.grain == piece.grain
    assert corners(new) == pytest.approx(corners(block), abs=0.01)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
@pytest.mark.parametrize("at", list(CrotchAt))
def test_one_body_side_only_leaves_the_other(side: BodySide, at: CrotchAt) -> None:
    applied = done(CrotchLength(back_mm=12, at=at, side=side), BLOCK)
    new = applied.pattern
    mine, other = (new.piece("back", s).edge("crotch") for s in (side, side.opposite))
    was = BLOCK.piece("back").edge("crotch").length
    assert mine.length == pytest.approx(was + 12, abs=0.01)
    assert other.length == pytest.approx(was, abs=1e-5)
    assert any("centre back seam" in told for told in applied.effect.leaves)
    both = done(CrotchLength(back_mm=-12, at=at), new).pattern
    assert both.piece("back", side.opposite).edge("crotch").length == pytest.approx(
        was - 12, abs=0.01
    )


def test_the_sentence_states_both_pieces_and_both_ends() -> None:
    assert CrotchLength(front_mm=10, back_mm=-5).sentence(BLOCK) == (
        "Crotch 10 mm longer in front and 5 mm shorter behind, at the inside-leg point; the inside "
        "leg keeps its length, back on its old line 280 mm below it"
    )
    assert CrotchLength(back_mm=20, at=CrotchAt.CENTRE, side=BodySide.LEFT).sentence(BLOCK) == (
        "Left side only: crotch 20 mm longer behind, at the centre, just below the hip line, to "
        "nothing at the side; the legs below stay as they are"
    )


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(CrotchLength(back_mm=20), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Crotch 20 mm longer behind")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({}, "by how much"),
        ({"back_mm": 9, "nothing_mm": 20}, "give 60 mm at least"),
        ({"back_mm": 9, "nothing_mm": 5000}, "off the end of the inside leg of the back"),
        ({"back_mm": 9, "below_waist_mm": 100}, "at=centre"),
        ({"back_mm": 9, "nothing_mm": 100, "at": "centre"}, "the inside leg does not move"),
        ({"back_mm": 9, "at": "centre", "below_waist_mm": 900}, "off the end of the crotch"),
        ({"back_mm": -400}, "mm is the most that can be drawn here"),
        ({"front_mm": -300, "at": "centre"}, "mm is the most that can be drawn here"),
        ({"back_mm": 9, "nothing_mm": -3}, "not negative"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(values: dict[str, object], told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(CrotchLength.from_parameters(values), BLOCK, "one")


def test_a_bodice_is_told_that_this_is_for_trousers() -> None:
    from wardrobe import bodice

    with pytest.raises(TrackerError, match="This is for trousers"):
        apply_step(CrotchLength(back_mm=9), bodice(), "one")


def test_the_limit_told_fits() -> None:
    step = CrotchLength(back_mm=-400)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert 30 < most < 120
    apply_step(step.scaled(most / 400), BLOCK, "one")


@settings(max_examples=A_THIRD)
@given(
    which=st.sampled_from(range(3)),
    front=st.floats(-30, 40).filter(lambda v: abs(v) > 0.2),
    back=st.floats(-40, 50).filter(lambda v: abs(v) > 0.2),
    at=st.sampled_from(list(CrotchAt)),
    side=st.sampled_from([BodySide.BOTH, BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amount_is_met_or_refused_in_a_sentence(
    which: int, front: float, back: float, at: CrotchAt, side: BodySide
) -> None:
    block = BLOCKS[which]
    step = CrotchLength(front_mm=front, back_mm=back, at=at, side=side)
    try:
        new = done(step, block).pattern
    except TrackerError:
        return
    for piece, by in zip(block.pieces, (front, back), strict=True):
        now = new.piece(piece.name, side)
        assert now.edge("crotch").length - piece.edge("crotch").length == pytest.approx(
            by, abs=0.02
        )
        assert now.edge("inside leg").length == pytest.approx(
            piece.edge("inside leg").length, abs=0.01
        )
