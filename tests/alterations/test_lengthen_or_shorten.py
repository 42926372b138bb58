import itertools
import math

import irregular
import pytest
from cut_across import drafted, told
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kind import DoesNotFit
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth, level_length, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = bodice()
#: The Dressmaker, part 4 (1910s): the lower pleat of a bodice, 2 1/2 in above the waist.
PLEAT_MM = 63.5


def by(amount: float, above: float = PLEAT_MM, **more: object) -> Lengthen:
    values: dict[str, object] = {"line": "waist line", "above_mm": above, "by_mm": amount}
    return Lengthen.from_parameters(values | more)


@pytest.mark.parametrize("block", [BLOCK, drafted(0)], ids=["drawn", "drafted"])
@pytest.mark.parametrize("amount", [20.0, 6.0, -6.0, -20.0])
def test_every_piece_is_longer_by_the_same_and_as_wide_as_it_was(
    block: Pattern, amount: float
) -> None:
    # The New Dressmaker and The Dressmaker part 4: the same amount on both pieces, centre front
    # and back stay straight, the side seam is drawn again between its old ends.
    done = apply_step(by(amount), block, "one").pattern
    for name, centre in (("front", "centre front"), ("back", "centre back")):
        old, new = block.piece(name), done.piece(name)
        assert new.edge(centre).length == pytest.approx(old.edge(centre).length + amount, abs=1e-5)
        assert len(new.edge(centre).parts[0].runs) == 1
        for edge in ("neckline", "shoulder", "armhole"):
            assert new.edge(edge) == old.edge(edge)
        for corner in ("side waist", f"{centre} waist"):
            assert abs(new.corner(corner) - (old.corner(corner) - amount * 1j)) < 2e-5
        # The side slants, so it grows by the amount times its cosine, near enough.
        rise = old.corner("underarm point") - old.corner("side waist")
        assert new.edge("side").length - old.edge("side").length == pytest.approx(
            amount * rise.imag / abs(rise), abs=0.8
        )
    assert around(done, "armhole") == around(block, "armhole")
    for line in ("bust line", "waist line"):
        assert girth(done, line) == pytest.approx(girth(block, line), abs=0.1)
    one, other = side_lengths(done, done.seam("side"))
    assert one == pytest.approx(other, abs=0.8)
    assert check(done).clean


def test_waist_darts_are_drawn_again_from_their_pivot_to_their_mouth() -> None:
    done = apply_step(by(20.0), BLOCK, "one").pattern
    for name in ("front", "back"):
        was, now = BLOCK.piece(name).dart("waist dart"), done.piece(name).dart("waist dart")
        assert now.pivot == was.pivot
        assert now.intake_mm == pytest.approx(was.intake_mm, abs=0.02)
        half = was.intake_mm / 2
        deep = math.sqrt(was.leg_lengths[0] ** 2 - half**2) + 20
        assert now.leg_lengths[0] == pytest.approx(math.hypot(half, deep), abs=0.02)


def test_a_straight_side_with_no_dart_below_the_cut_is_straight_from_the_bust_line_down() -> None:
    done = apply_step(by(20.0), BLOCK, "one").pattern
    side = done.piece("back").edge("side").parts[0]
    bust = BLOCK.piece("back").level("bust line").strokes[0]
    assert [len(run) for run in side.runs] == [1, 1]
    assert min(abs(side.runs[0][-1] - end) for end in (bust[0], bust[-1])) < 1e-5
    bend = turn_between(side.start_heading, side.end_heading)
    assert 0.1 < abs(math.degrees(bend)) < 1.0


HEIGHTS = (-60.0, -20.0, 20.0, 45.0, 80.0, 120.0, 160.0)


@pytest.mark.parametrize("sort", ["bodice by hand", "bodice", "torso", "skirt", "trousers"])
@pytest.mark.parametrize("amount", [15.0, -12.0])
def test_widths_stay_at_every_line_carried_wherever_it_is_cut(sort: str, amount: float) -> None:
    cut = 0
    for number in (0, 1):
        start = irregular.block(sort, number)
        for line, above in itertools.product(lines_of(start), HEIGHTS):
            try:
                done = apply_step(by(amount, above, line=line), start, "one").pattern
            except TrackerError:
                continue
            cut += 1
            for old in start.pieces:
                new = done.piece(old.name)
                for was, now in zip(old.levels, new.levels, strict=True):
                    assert level_length(new, now) == pytest.approx(
                        level_length(old, was), abs=0.05
                    ), (line, above, old.name, was.name)
    assert cut > 10


def test_a_line_that_leans_across_the_cut_is_told_as_longer() -> None:
    # On a side panel the line across the front leans as the dart that was closed turned it.
    start = irregular.block("panelled bodice", 0)
    step = by(-12.0, 20.0, line="across front")
    done = apply_step(step, start, "one")
    told = [n for n in done.effect.notes if "the cut runs across it" in n]
    changed = [
        f"the {was.name} of the {old.label}"
        for old in start.pieces
        for was, now in zip(old.levels, done.pattern.piece(old.name).levels, strict=True)
        if abs(level_length(done.pattern.piece(old.name), now) - level_length(old, was)) > 0.05
    ]
    assert changed
    assert all(n.startswith(c) for n, c in zip(told, changed, strict=True))


def test_the_sentence_states_the_fold_when_shortening() -> None:
    # Central Washington University costume text, ch. 17: a fold takes up twice its depth.
    assert by(-20.0).sentence(BLOCK) == (
        "Front and back 20 mm shorter at 63.5 mm above the waist line: the same right across "
        "every piece; a fold 10 mm deep takes out twice its depth"
    )
    assert "fold" not in by(20.0).sentence(BLOCK)


@pytest.mark.parametrize("amount", [15.0, -15.0])
def test_shortening_by_what_was_lengthened_gives_the_straight_edges_back(amount: float) -> None:
    there = apply_step(by(amount), BLOCK, "one").pattern
    back = apply_step(by(-amount, PLEAT_MM + max(amount, 0.0)), there, "two").pattern
    for name in ("front", "back"):
        for edge in BLOCK.piece(name).edges:
            if edge.name not in ("side", "waist"):
                assert back.piece(name).edge(edge.name).length == pytest.approx(
                    edge.length, abs=1e-5
                )
        for corner in BLOCK.piece(name).corners:
            assert abs(back.piece(name).corner(corner) - BLOCK.piece(name).corner(corner)) < 3e-5


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_side_only_runs_to_nothing_at_the_centre_seam(side: BodySide) -> None:
    done = apply_step(by(12.0, side=side), BLOCK, "one").pattern
    assert done.piece("front").side is BodySide.CENTRE
    # The two halves of the centre back seam still match; the side seams do, each with its own.
    one, other = side_lengths(done, done.seam("centre back"))
    assert one == pytest.approx(other, abs=0.1)
    grown = [
        done.piece("back", s).edge("side").length - BLOCK.piece("back").edge("side").length
        for s in (side, side.opposite)
    ]
    assert grown == [pytest.approx(12.0, abs=0.2), pytest.approx(0.0, abs=1e-5)]
    front = done.piece("front")
    assert front.edge("side", side).length - front.edge(
        "side", side.opposite
    ).length == pytest.approx(12.0, abs=0.3)


def test_a_notch_the_cut_came_between_meets_its_partner_again_and_is_told() -> None:
    done = apply_step(by(20.0), BLOCK, "one")
    assert done.effect.notches == (
        "side notch of the back moved 19.6 mm along to meet the side notch of the front",
    )


def test_a_piece_can_be_named_alone_and_the_seam_says_so() -> None:
    done = apply_step(by(10.0, pieces=["back"]), BLOCK, "one")
    assert done.pattern.piece("front") is BLOCK.piece("front")
    assert any("side seam" in told for told in done.effect.leaves)


def test_above_the_underarm_the_armhole_is_told() -> None:
    done = apply_step(by(10.0, above=110.0, line="bust line"), BLOCK, "one")
    grown = around(done.pattern, "armhole") - around(BLOCK, "armhole")
    assert 30 < grown < 60
    assert any("a sleeve for it" in told for told in done.effect.leaves)


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (lambda: by(10.0, above=4.0), "never on the waist line itself"),
        (lambda: by(0.0), "by how much"),
        (lambda: by(10.0, line="wast line"), "Did you mean waist line"),
        (lambda: by(10.0, above=-50.0), "a cut would miss the"),
        (lambda: by(10.0, above=900.0), "reaches from"),
        (lambda: by(10.0, above=135.0), "bust dart of the front opens where the cut would end"),
        (lambda: by(10.0, pieces=["skirt"]), "no piece called 'skirt'"),
        (lambda: by(-80.0), "is the most that can be drawn here"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: object, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(step(), BLOCK, "one")


def test_the_height_a_refusal_offers_will_do() -> None:
    with pytest.raises(DoesNotFit) as refused:
        apply_step(by(10.0, above=135.0), BLOCK, "one")
    words = str(refused.value).split()
    heights = [float(words[i - 1]) for i, word in enumerate(words) if word == "mm"][:2]
    for offered in heights:
        apply_step(by(10.0, above=offered), BLOCK, "one")


def test_the_limit_fits() -> None:
    most = most_that_fits(by(-200.0), BLOCK)
    assert most is not None
    assert 30 < most < 200
    apply_step(by(-most), BLOCK, "one")


def test_without_outlines_it_is_marked_on_the_paper() -> None:
    done = apply_step(by(10.0), paper(), "one")
    assert pattern_digest(done.pattern) == pattern_digest(paper())
    assert done.effect.leaves[0].startswith("mark it on the paper: Front and back 10 mm longer")


@given(
    number=st.sampled_from([-1, 0, 7]),
    above=st.floats(12, 160),
    amount=st.floats(-25, 40).filter(lambda a: abs(a) > 0.5),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
)
def test_any_length_gives_a_valid_pattern_or_a_sentence(
    number: int, above: float, amount: float, side: BodySide
) -> None:
    block = BLOCK if number < 0 else drafted(number)
    step = by(amount, above, side=side)
    try:
        done = apply_step(step, block, "one")
    except TrackerError:
        return
    again = apply_step(Lengthen.from_parameters(step.parameters()), block, "two")
    assert pattern_digest(done.pattern) == pattern_digest(again.pattern)
    if side is BodySide.BOTH:
        for piece in block.pieces:
            told(done.trace, piece, done.pattern.piece(piece.name))
