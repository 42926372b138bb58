from dataclasses import replace

import pytest
from altering import NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck, NeckAt
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest, settled
from tracker.pattern.edge import Edge
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import side_lengths

BOTH = BodySide.BOTH
BLOCK = bodice()
LOOSER = ChangeNeckline(to=Neck.LOOSER, by_mm=12.0)
FRONT_ONLY = ChangeNeckline(
    to=Neck.LOOSER,
    by_mm=10.0,
    places=(
        NeckAt(piece="front", corner="centre front neck", distance_mm=0.0, share=1.0),
        NeckAt(piece="front", corner="neck point", distance_mm=0.0, share=0.0),
    ),
)


def collared(fold: str | None = "centre back") -> Pattern:
    """The bodice with a straight collar, half of it, as long as the neck and 6 mm over."""
    half = around(BLOCK, "neckline") / 2 + 6.0
    collar = Piece(
        "collar", BOTH,
        (
            Edge("collar neck", BOTH, "centre back neck", "collar front", (Curve.line(0j, half),)),
            Edge("collar end", BOTH, "collar front", "collar tip",
                 (Curve.line(complex(half), complex(half + 10, 60)),)),
            Edge("collar outer", BOTH, "collar tip", "centre back outer",
                 (Curve.line(complex(half + 10, 60), 60j),)),
            Edge("centre back" if fold else "fall", BOTH, "centre back outer", "centre back neck",
                 (Curve.line(60j, 0j),)),
        ),
        layer="shell", fold=fold, copies=2,
    )  # fmt: skip
    neck = Seam(
        "collar", BOTH,
        (Run("back", "neckline", BOTH, backward=True), Run("front", "neckline", BOTH, True)),
        (Run("collar", "collar neck", BOTH),),
    )  # fmt: skip
    return settled(Pattern((*BLOCK.pieces, collar), (*BLOCK.seams, neck), BLOCK.ease))


@pytest.mark.parametrize("to", list(Neck))
def test_the_amount_is_had_round_the_whole_neck(to: Neck) -> None:
    step = replace(LOOSER, to=to)
    new = done(step, BLOCK).pattern
    by = 12.0 if to is Neck.LOOSER else -12.0
    assert around(new, "neckline") == pytest.approx(around(BLOCK, "neckline") + by, abs=0.05)
    for name in ("front", "back"):
        assert new.piece(name).edge("armhole").parts == BLOCK.piece(name).edge("armhole").parts


def test_front_and_back_shoulders_change_alike() -> None:
    new = done(LOOSER, BLOCK).pattern
    was, now = (side_lengths(p, p.seam("shoulder")) for p in (BLOCK, new))
    assert now[0] - was[0] == pytest.approx(now[1] - was[1], abs=0.05)
    assert now[0] < was[0]


def test_at_named_places_only_the_pieces_named_change() -> None:
    new = done(FRONT_ONLY, BLOCK).pattern
    assert new.piece("back") == BLOCK.piece("back")
    assert new.piece("front").corner("neck point") == BLOCK.piece("front").corner("neck point")
    assert around(new, "neckline") == pytest.approx(around(BLOCK, "neckline") + 10, abs=0.05)


def test_the_sentences() -> None:
    assert LOOSER.sentence(BLOCK) == "Neckline 12 mm looser round the whole neck, evenly all round"
    assert FRONT_ONLY.sentence(BLOCK) == (
        "Neckline 10 mm looser round the whole neck, most at the centre front neck of the front, "
        "to nothing at the neck point of the front"
    )
    assert LOOSER.sentence(collared()).endswith("; the collar made to match at its centre back")


def test_a_collar_is_made_to_match_at_its_centre_back() -> None:
    """All of a change of a neckband or collar is at the centre back (The New Dressmaker, 1921)."""
    before = collared()
    applied = done(LOOSER, before)
    first, second = side_lengths(applied.pattern, applied.pattern.seam("collar"))
    assert second - first == pytest.approx(6.0, abs=0.05)
    collar, old = applied.pattern.piece("collar"), before.piece("collar")
    assert collar.edge("collar end") == old.edge("collar end")
    assert abs(collar.edge("centre back").heading_at(0) - old.edge("centre back").heading_at(0)) < (
        1e-9
    )
    assert any("collar 12 mm longer at its centre back" in note for note in applied.effect.notes)


def test_a_collar_that_cannot_be_let_out_at_its_centre_back_is_left_and_told() -> None:
    before = collared(None)
    applied = done(LOOSER, before)
    assert applied.pattern.piece("collar") == before.piece("collar")
    assert any("make it 12 mm longer there by hand" in told for told in applied.effect.leaves)


def test_a_collar_is_left_when_told_and_one_that_is_not_there_is_offered() -> None:
    applied = done(ChangeNeckline(to=Neck.LOOSER, by_mm=12.0, collar=False), collared())
    assert any("make the collar 12 mm longer" in told for told in applied.effect.leaves)
    assert any(
        "a collar or facing for this neckline needs 12 mm more" in told
        for told in done(LOOSER, BLOCK).effect.leaves
    )


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_side_all_along_runs_out_to_nothing_at_the_centre(side: BodySide) -> None:
    new = done(ChangeNeckline(to=Neck.LOOSER, by_mm=4.0, side=side), BLOCK).pattern
    half = around(BLOCK, "neckline") / 2
    assert around(new, "neckline", side) == pytest.approx(half + 4.0, abs=0.05)
    front = new.piece("front")
    assert abs(front.corner("centre front neck", side) - 345j) < 1e-5


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only(side: BodySide) -> None:
    step = ChangeNeckline(
        to=Neck.LOOSER, by_mm=5.0, side=side,
        places=(NeckAt(piece="front", corner="neck point", distance_mm=50.0, share=1.0),
                NeckAt(piece="front", corner="neck point", distance_mm=0.0, share=0.0),
                NeckAt(piece="front", corner="centre front neck", distance_mm=0.0, share=0.0)),
    )  # fmt: skip
    new = done(step, BLOCK).pattern
    half = around(BLOCK, "neckline") / 2
    assert around(new, "neckline", side) == pytest.approx(half + 5.0, abs=0.05)
    assert around(new, "neckline", side.opposite) == pytest.approx(half, abs=1e-4)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (ChangeNeckline(to=Neck.TIGHTER, by_mm=900.0), "mm is the most that can be drawn here"),
        (ChangeNeckline(to=Neck.LOOSER, by_mm=9.0, places=(
            NeckAt(piece="front", corner="hem", distance_mm=0.0, share=1.0),)),
         "no corner called 'hem'"),
        (ChangeNeckline(to=Neck.LOOSER, by_mm=9.0, places=(
            NeckAt(piece="sleeve", corner="hem", distance_mm=0.0, share=1.0),)),
         "no piece called 'sleeve'"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: ChangeNeckline, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = ChangeNeckline(to=Neck.TIGHTER, by_mm=900.0)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert most > 20
    apply_step(step.scaled(most / 900.0), BLOCK, "one")


def test_figures_that_cannot_be_are_refused() -> None:
    with pytest.raises(TrackerError):
        ChangeNeckline(to=Neck.LOOSER, by_mm=0.0)
    with pytest.raises(TrackerError, match="between 0 and 1"):
        ChangeNeckline(
            to=Neck.LOOSER, by_mm=5.0,
            places=(NeckAt(piece="front", corner="neck point", distance_mm=0.0, share=3.0),),
        )  # fmt: skip


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(LOOSER, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE + "Neckline 12 mm looser")


@given(by=st.floats(-25, 25).filter(lambda a: abs(a) > 0.5), number=st.sampled_from([0, 1, 2, 3]))
def test_any_amount_is_met_and_the_way_back_leads_back(by: float, number: int) -> None:
    block = BLOCK if number == 0 else drafted(number - 1)
    step = ChangeNeckline(to=Neck.LOOSER, by_mm=by)
    new = done(step, block).pattern
    assert around(new, "neckline") == pytest.approx(around(block, "neckline") + by, abs=0.05)
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 0.0021)


def test_after_one_side_and_a_shaped_centre_back_the_way_back_leads_back() -> None:
    """Found by the sequences: a hair round the neck once moved its line by far more."""
    pattern = drafted(1)
    for number, step in enumerate((
        ChangeNeckline(to=Neck.TIGHTER, by_mm=6.35, side=BodySide.RIGHT),
        ReshapeEdge(piece="back", edge="centre back", amounts=(
            AmountAt(corner="centre back neck", distance_mm=0.0, amount_mm=4.86),
        )),
    )):  # fmt: skip
        pattern = done(step, pattern, str(number)).pattern
    step = ChangeNeckline(to=Neck.TIGHTER, by_mm=4.34)
    back = done(step.scaled(-1.0), done(step, pattern, "there").pattern, "back").pattern
    assert_same(back, pattern, 0.0021)
