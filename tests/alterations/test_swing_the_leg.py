import math

import pytest
from altering import A_THIRD, NO_OUTLINE, done
from hypothesis import given, settings
from hypothesis import strategies as st
from trousered import BLOCKS, NAMES, bends, drafted, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.swing_the_leg import Swing, SwingLeg
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import corner_angle, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths

BLOCK = drafted()


def hem(piece: Piece) -> complex:
    edge = piece.edge("hem")
    return edge.point_at(edge.length / 2)


def outwards(new: Pattern, old: Pattern, name: str) -> float:
    """How far the hem went towards the side."""
    was = old.piece(name)
    to_side = math.copysign(1.0, was.corner("side hem").real - was.corner("inside hem").real)
    return (hem(new.piece(name)) - hem(was)).real * to_side


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
@pytest.mark.parametrize("to", list(Swing))
def test_the_hem_goes_so_far_and_both_seams_still_match(block: Pattern, to: Swing) -> None:
    new = done(SwingLeg(to=to, by_mm=25.0), block).pattern
    way = 1 if to == Swing.OUTWARDS else -1
    gone = [way * outwards(new, block, name) for name in ("front", "back")]
    assert sum(gone) / 2 == pytest.approx(25.0, abs=0.02)
    assert gone == [pytest.approx(25.0, abs=3.0)] * 2
    for name in ("inside leg", "side"):
        before, after = (side_lengths(p, p.seam(name)) for p in (block, new))
        assert after[1] - after[0] == pytest.approx(before[1] - before[0], abs=0.05)
    opened, hinge = ("inside leg", "side") if way > 0 else ("side", "inside leg")
    for piece in block.pieces:
        now = new.piece(piece.name)
        # Opened at the one and turned about the other, then trued level: both gain half of it.
        grown = [now.edge(e).length - piece.edge(e).length for e in (opened, hinge)]
        assert grown[0] == pytest.approx(grown[1], abs=0.5)
        assert grown[0] > 2.5
        ends = [now.corner(c).imag - piece.corner(c).imag for c in ("side hem", "inside hem")]
        assert ends[0] == pytest.approx(ends[1], abs=0.1)
        # Square to its seams still, so that it is smooth over them.
        for at_end in (True, False):
            was = corner_angle(piece, piece.edge("hem"), at_end)
            assert corner_angle(now, now.edge("hem"), at_end) == pytest.approx(was, abs=0.1)


@pytest.mark.parametrize("block", BLOCKS, ids=NAMES)
def test_above_the_cut_nothing_moves_and_the_hem_keeps_its_width(block: Pattern) -> None:
    new = done(SwingLeg(to=Swing.OUTWARDS, by_mm=20.0), block).pattern
    for piece in block.pieces:
        now = new.piece(piece.name)
        for name in ("crotch", "waist"):
            assert now.edge(name) == piece.edge(name)
        # An even wave of a few millimetres, from square at the one seam to square at the other.
        assert now.edge("hem").length == pytest.approx(piece.edge("hem").length, abs=0.5)
        assert now.grain == piece.grain
        # The two seams of a leg turn by the same angle: plain trigonometry.
        turn = math.degrees(
            turn_between(piece.edge("hem").heading_at(1.0), now.edge("hem").heading_at(1.0))
        )
        below = abs(hem(piece).imag - piece.level("knee line").strokes[0][0].imag) + 15
        assert abs(turn) == pytest.approx(math.degrees(math.atan(20 / below)), abs=0.3)
        for name in ("inside leg", "side"):
            assert max(map(abs, bends(now, name))) < 3.0
    for line in ("waist line", "hip line", "crotch line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=1e-4)


def test_a_drafted_block_checks_clean_afterwards() -> None:
    assert check(done(SwingLeg(to=Swing.OUTWARDS, by_mm=25.0), BLOCK).pattern).clean


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_leg_only(side: BodySide) -> None:
    new = done(SwingLeg(to=Swing.INWARDS, by_mm=15.0, side=side), BLOCK).pattern
    was = BLOCK.piece("front").edge("side").length
    assert new.piece("front", side).edge("side").length > was + 2
    assert new.piece("front", side.opposite).edge("side").length == pytest.approx(was, abs=1e-5)


def test_the_sentence_states_both_ends_and_what_is_opened() -> None:
    told = SwingLeg(to=Swing.OUTWARDS, by_mm=25.0).sentence(BLOCK)
    assert told.startswith(
        "Leg swung 25 mm outwards at the hem, from 15 mm above the knee line: front and back "
        "opened 12."
    )
    assert told.endswith("mm at the inside leg, to nothing at the side")


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(SwingLeg(to=Swing.INWARDS, by_mm=15.0), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Leg swung 15 mm inwards")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"to": "outwards", "by_mm": 0}, "More than nothing"),
        ({"to": "outwards", "by_mm": 9, "line": "kneeline"}, "Did you mean knee line"),
        ({"to": "outwards", "by_mm": 9, "line": "hip line"}, "between inside leg and side"),
        ({"to": "outwards", "by_mm": 9, "above_mm": -9000}, "a cut would miss"),
        ({"to": "inwards", "by_mm": 3000}, "mm is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(values: dict[str, object], told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(SwingLeg.from_parameters(values), BLOCK, "one")


@settings(max_examples=A_THIRD)
@given(
    which=st.sampled_from(range(3)),
    by=st.floats(0.5, 60),
    to=st.sampled_from(list(Swing)),
    above=st.floats(-150, 120),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_amount_is_met_or_refused_in_a_sentence(
    which: int, by: float, to: Swing, above: float, side: BodySide
) -> None:
    block = BLOCKS[which]
    try:
        new = done(SwingLeg(to=to, by_mm=by, above_mm=above, side=side), block).pattern
    except TrackerError:
        return
    one, other = side_lengths(new, new.seam("inside leg", side))
    a, b = side_lengths(block, block.seam("inside leg"))
    assert one - other == pytest.approx(a - b, abs=0.6)
