import pytest
from altering import A_THIRD, NO_OUTLINE, done
from hypothesis import given, settings
from hypothesis import strategies as st
from trousered import BLOCKS, NAMES, POINT, bends, corners, drafted, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.change_the_crotch_depth import CrotchDepth
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern

BLOCK = drafted()
LINES = ("waist line", "hip line", "crotch line", "knee line")


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize("by", [20.0, 8.0, -8.0, -20.0])
def test_the_crotch_lies_so_much_lower_and_widths_stay(block: Pattern, by: float) -> None:
    # Central Washington University costume text, ch. 17: the same amount right across every
    # piece that is joined there.
    new = done(CrotchDepth(by_mm=by), block).pattern
    for piece in block.pieces:
        now = new.piece(piece.name)
        centre = next(c for c in piece.corners if c.startswith("centre"))
        for corner in ("side waist", centre):
            assert abs(now.corner(corner) - piece.corner(corner)) < 1e-5
        for corner in (POINT, "inside hem", "side hem"):
            assert abs(now.corner(corner) - (piece.corner(corner) - by * 1j)) < 2e-5
        assert now.edge("inside leg").length == pytest.approx(
            piece.edge("inside leg").length, abs=1e-5
        )
        assert now.edge("side").length - piece.edge("side").length == pytest.approx(by, abs=0.1)
    for line in LINES:
        assert girth(new, line) == pytest.approx(girth(block, line), abs=2.5)
    assert corners(new) == pytest.approx(corners(block), abs=0.01)


def test_the_crotch_stays_smooth_and_the_block_checks_clean() -> None:
    new = done(CrotchDepth(by_mm=15), BLOCK).pattern
    for piece in new.pieces:
        assert max(map(abs, bends(piece, "crotch"))) < 2.0
    assert check(new).clean


@pytest.mark.parametrize("by", [10.0, -10.0])
def test_what_is_given_back_gives_the_lengths_back(by: float) -> None:
    there = apply_step(CrotchDepth(by_mm=by), BLOCK, "one").pattern
    again = apply_step(CrotchDepth(by_mm=-by, below_hip_mm=20 + max(by, 0)), there, "two").pattern
    for piece in BLOCK.pieces:
        for corner in piece.corners:
            assert abs(again.piece(piece.name).corner(corner) - piece.corner(corner)) < 1e-4
        assert again.piece(piece.name).edge("crotch").length == pytest.approx(
            piece.edge("crotch").length, abs=0.3
        )


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_hip_higher_tips_what_is_above_the_cut(side: BodySide) -> None:
    new = done(CrotchDepth(by_mm=12, side=side), BLOCK).pattern
    for piece in BLOCK.pieces:
        mine, other = new.piece(piece.name, side), new.piece(piece.name, side.opposite)
        assert mine.edge("side").length - piece.edge("side").length == pytest.approx(12, abs=0.3)
        for name in ("crotch", "inside leg"):
            assert mine.edge(name).length == pytest.approx(piece.edge(name).length, abs=0.05)
        assert other.edge("side").length == pytest.approx(piece.edge("side").length, abs=1e-5)
        # The leg hangs as it did.
        assert abs(abs(mine.corner("side hem")) - abs(piece.corner("side hem"))) < 1e-5
    assert not [f for f in check(new).findings if f.code == "seam sides"]


def test_the_sentence_tells_the_fold_when_it_is_less() -> None:
    assert CrotchDepth(by_mm=-15).sentence(BLOCK) == (
        "Crotch depth 15 mm less, 20 mm below the hip line: the same right across front and back; "
        "a fold 7.5 mm deep takes out twice its depth"
    )
    assert (
        CrotchDepth(by_mm=10, side=BodySide.RIGHT)
        .sentence(BLOCK)
        .endswith("10 mm at the right side, to nothing at the centre")
    )


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(CrotchDepth(by_mm=15), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Crotch depth 15 mm more")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"by_mm": 0}, "by how much"),
        ({"by_mm": 9, "below_hip_mm": 3}, "never on the hip line itself"),
        ({"by_mm": 9, "below_hip_mm": 160}, "would lengthen the leg"),
        ({"by_mm": 9, "below_hip_mm": 9000}, "a cut would miss"),
        ({"by_mm": -300}, "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(values: dict[str, object], told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(CrotchDepth.from_parameters(values), BLOCK, "one")


@settings(max_examples=A_THIRD)
@given(
    which=st.sampled_from(range(3)),
    by=st.floats(-40, 60).filter(lambda v: abs(v) > 0.2),
    below=st.floats(10, 60),
    side=st.sampled_from([BodySide.BOTH, BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amount_is_met_or_refused_in_a_sentence(
    which: int, by: float, below: float, side: BodySide
) -> None:
    block = BLOCKS[which]
    try:
        new = done(CrotchDepth(by_mm=by, below_hip_mm=below, side=side), block).pattern
    except TrackerError:
        return
    for piece in block.pieces:
        now = new.piece(piece.name, side)
        grown = now.edge("side").length - piece.edge("side").length
        assert grown == pytest.approx(by, abs=1.0)
        assert now.edge("inside leg").length == pytest.approx(
            piece.edge("inside leg").length, abs=1e-4
        )
