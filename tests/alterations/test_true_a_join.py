import pytest
from altering import A_THIRD, NO_OUTLINE, done
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.shift_a_seam import AmountAt, ShiftSeam
from tracker.alterations.kinds.true_a_join import TrueJoin
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import around, corner_angle
from tracker.pattern.pattern import Pattern

BLOCK = bodice()
UNDERARM = TrueJoin(seam="side", corner="underarm point")


def shifted(amount: float, side: BodySide = BodySide.BOTH) -> Pattern:
    amounts = (AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=amount),)
    step = ShiftSeam(seam="side", towards="back", amounts=amounts, side=side)
    return apply_step(step, BLOCK, "shift").pattern


def underarm_sum(pattern: Pattern, side: BodySide = BodySide.BOTH) -> float:
    total = 0.0
    for name in ("front", "back"):
        piece = pattern.piece(name, side)
        edge = piece.edge("armhole", None if side is BodySide.BOTH else side)
        total += corner_angle(piece, edge, edge.end == "underarm point")
    return total


def test_a_bent_armhole_is_one_line_again() -> None:
    before = shifted(12.0)
    assert underarm_sum(before) > 184.0
    applied = done(UNDERARM, before)
    assert underarm_sum(applied.pattern) == pytest.approx(180.0, abs=0.05)
    assert around(applied.pattern, "armhole") == pytest.approx(around(before, "armhole"), abs=2.0)
    assert "now 180.0" in applied.effect.notes[0]


def test_only_the_edges_across_the_seam_near_it_change() -> None:
    before = shifted(12.0)
    new = done(UNDERARM, before).pattern
    for name in ("front", "back"):
        old, now = before.piece(name), new.piece(name)
        line = old.edge("armhole")
        far = line.length - 80.0 if line.end == "underarm point" else 80.0
        assert now.edge("armhole").nearest(line.point_at(far))[1] < 1e-5
        assert now.edge("waist").parts == old.edge("waist").parts
        assert now.edge("side").length == pytest.approx(old.edge("side").length, abs=0.6)


def test_the_sentence_and_the_words_for_paper() -> None:
    assert UNDERARM.sentence(BLOCK) == (
        "Join of the side seam trued at the underarm point, over 60 mm on each side"
    )
    applied = apply_step(UNDERARM, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves == (NO_OUTLINE + UNDERARM.sentence(paper()),)


def test_one_body_side_only() -> None:
    before = shifted(12.0)
    step = TrueJoin(seam="side", corner="underarm point", side=BodySide.LEFT)
    new = done(step, before).pattern
    assert underarm_sum(new, BodySide.LEFT) == pytest.approx(180.0, abs=0.05)
    assert underarm_sum(new, BodySide.RIGHT) == pytest.approx(underarm_sum(before), abs=0.01)


def test_an_angle_the_style_asks_for() -> None:
    step = TrueJoin(seam="side", corner="underarm point", degrees=172.0)
    assert underarm_sum(done(step, BLOCK).pattern) == pytest.approx(172.0, abs=0.05)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (TrueJoin(seam="side", corner="neck point"), "does not end at a 'neck point'"),
        (TrueJoin(seam="side", corner="underarm point", degrees=260.0), "not trued but shaped"),
        (TrueJoin(seam="hem", corner="underarm point"), "no seam called 'hem'"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: TrueJoin, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


@pytest.mark.parametrize("bad", [{"degrees": 30.0}, {"blend_mm": 3.0}])
def test_figures_that_cannot_be_are_refused(bad: dict[str, float]) -> None:
    with pytest.raises(TrackerError):
        TrueJoin(seam="side", corner="underarm point", **bad)


@settings(max_examples=A_THIRD)
@given(amount=st.floats(-20, 20), corner=st.sampled_from(["underarm point", "side waist"]))
def test_whatever_the_shift_the_join_comes_true(amount: float, corner: str) -> None:
    if abs(amount) < 0.5:
        return
    before = shifted(amount)
    done(TrueJoin(seam="side", corner=corner), before)
