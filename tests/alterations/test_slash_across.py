import pytest
from altering import A_THIRD, done
from cut_across import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.slash_across import SlashAcross
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = bodice()
PANELS = apply_step(PanelFront(), apply_step(PanelBack(), BLOCK, "a").pattern, "b").pattern
BACKS = ("centre back", "side back")
ALL = (*BACKS, "side front", "centre front")


def across(
    first: float, last: float, pieces: tuple[str, ...] = BACKS, above: float = 55.0, **more: object
) -> SlashAcross:
    values: dict[str, object] = {
        "pieces": list(pieces), "line": "waist line", "above_mm": above,
        "first_mm": first, "last_mm": last,
    }  # fmt: skip
    return SlashAcross.from_parameters(values | more)


def matched(before: Pattern, after: Pattern, name: str, within: float = 0.1) -> bool:
    was, now = side_lengths(before, before.seam(name)), side_lengths(after, after.seam(name))
    return abs((now[1] - now[0]) - (was[1] - was[0])) <= within


@pytest.mark.parametrize("by", [-12.0, -4.0, 6.0, 14.0])
def test_a_sway_back_over_two_panels_runs_to_nothing_at_the_side(by: float) -> None:
    new = done(across(by, 0.0), PANELS).pattern
    for name in ("side front", "centre front"):
        assert new.piece(name) is PANELS.piece(name)
    grown = {
        (p, e): new.piece(p).edge(e).length - PANELS.piece(p).edge(e).length
        for p, e in (
            ("centre back", "centre back"), ("centre back", "back princess"),
            ("side back", "back princess"), ("side back", "side"),
        )
    }  # fmt: skip
    assert grown["centre back", "centre back"] == pytest.approx(by, abs=0.3)
    # Evenly between: the panel seam is part of the way along, and both its edges change alike.
    assert grown["centre back", "back princess"] == pytest.approx(
        grown["side back", "back princess"], abs=0.15
    )
    assert 0.4 < grown["centre back", "back princess"] / by < 0.7
    assert grown["side back", "side"] == pytest.approx(0.0, abs=0.05)
    assert matched(PANELS, new, "back princess", 0.15)
    assert matched(PANELS, new, "side")
    assert girth(new, "bust line") == pytest.approx(girth(PANELS, "bust line"), abs=0.6)
    assert around(new, "armhole") == around(PANELS, "armhole")
    assert [f for f in check(new).findings if f.code in ("seam sides", "notches")] == []


def test_the_same_at_both_ends_is_lengthening() -> None:
    one = apply_step(across(10.0, 10.0, ("back", "front"), 63.5), BLOCK, "one").pattern
    other = apply_step(Lengthen(line="waist line", above_mm=63.5, by_mm=10.0), BLOCK, "one").pattern
    for piece in other.pieces:
        for edge in piece.edges:
            assert one.piece(piece.name).edge(edge.name).length == pytest.approx(
                edge.length, abs=0.3
            )


def test_round_all_four_panels_every_seam_still_matches() -> None:
    new = done(across(10.0, 10.0, ALL), PANELS).pattern
    for name in ("back princess", "front princess", "side"):
        assert matched(PANELS, new, name, 0.2)
    slanted = done(across(10.0, 4.0, ALL, centre="straighten the fold"), PANELS).pattern
    for name in ("back princess", "side"):
        assert matched(PANELS, slanted, name, 0.3)
    assert slanted.piece("centre front").fold == "centre front"


def test_a_fold_at_its_end_is_refused_unless_told() -> None:
    with pytest.raises(TrackerError, match="lies on the fold and would be bent"):
        apply_step(across(10.0, 0.0, ("back", "front")), BLOCK, "one")
    new = done(across(10.0, 0.0, ("back", "front"), centre="shape a seam"), BLOCK).pattern
    assert new.piece("front").fold is None
    assert matched(BLOCK, new, "side", 0.3)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_side_only_leaves_the_other_alone(side: BodySide) -> None:
    new = done(across(8.0, 0.0, side=side), PANELS).pattern
    for name in BACKS:
        for edge in PANELS.piece(name).edges:
            assert new.piece(name, side.opposite).edge(edge.name).length == pytest.approx(
                edge.length, abs=1e-5
            )
    # A later step for both works on the two of them.
    again = apply_step(across(4.0, 0.0), new, "two").pattern
    for s, by in ((side, 12.0), (side.opposite, 4.0)):
        grown = again.piece("centre back", s).edge("centre back").length
        was = PANELS.piece("centre back").edge("centre back").length
        assert grown - was == pytest.approx(by, abs=0.4)


def test_the_sentence_states_both_ends() -> None:
    assert across(-10.0, 0.0).sentence(PANELS) == (
        "Centre back and side back folded out across at 55 mm above the waist line: 10 mm at the "
        "far edge of the centre back, to nothing at the far edge of the side back, evenly between"
    )


def test_pieces_may_be_typed_as_one_text() -> None:
    step = SlashAcross.from_parameters(across(1.0, 0.0).parameters() | {"pieces": "back, front"})
    assert step.pieces == ("back", "front")
    assert Lengthen.from_parameters(
        {"line": "waist line", "above_mm": 60, "by_mm": 5, "pieces": "back and front"}
    ).pieces == ("back", "front")


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (lambda: across(5, 0, ("back",)), "name two pieces or more"),
        (lambda: across(5, -5), "opened all along or closed all along"),
        (lambda: across(0, 0), "both amounts are nothing"),
        (lambda: across(5, 0, ("centre back", "side front")), "no seam joins the centre back"),
        (lambda: across(5, 0, ("centre back", "sideback")), "Did you mean side back"),
        (lambda: across(5, 0, BACKS, 600), "would miss the centre back"),
        (lambda: across(-150, 0), "mm is the most that can be drawn here"),
        (lambda: across(5, 0, line="wais line"), "Did you mean waist line"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: object, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(step(), PANELS, "one")


def test_the_limit_fits() -> None:
    most = most_that_fits(across(-150.0, 0.0), PANELS)
    assert most is not None
    assert 20 < most < 150
    apply_step(across(-most, 0.0), PANELS, "one")


def test_without_outlines_it_is_marked_on_the_paper() -> None:
    applied = apply_step(across(5.0, 0.0, ("back", "front")), paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith("mark it on the paper: Back and front slashed")


@settings(max_examples=A_THIRD)
@given(
    which=st.integers(0, 2),
    first=st.floats(-20, 25),
    share=st.floats(0, 1),
    above=st.floats(15, 150),
    side=st.sampled_from(["both", "right", "left"]),
    centre=st.sampled_from(["refuse", "shape a seam", "straighten the fold"]),
)
def test_any_amounts_give_a_valid_pattern_whose_seams_match_or_a_sentence(
    which: int, first: float, share: float, above: float, side: str, centre: str
) -> None:
    block = (BLOCK, drafted(0), PANELS)[which]
    pieces = ALL if which == 2 else ("back", "front")
    try:
        step = across(first, first * share, pieces, above, side=side, centre=centre)
        new = done(step, block).pattern
    except TrackerError:
        return
    if side == "both" and centre != "straighten the fold":
        assert matched(block, new, "side", 1.5)
