"""A skirt sewn to a bodice at the waist: the waists equal, the side seams met, darts told."""

from dataclasses import replace
from functools import cache

import pytest
import wardrobe
from published.bodies import chart_bodies, posture_bodies

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.join_a_skirt import MOST_EASE_MM, Fit, JoinSkirt
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.body.estimate import estimate
from tracker.drafting.bodice import draft_bodice
from tracker.drafting.skirt import TO_ESTIMATE, draft_skirt
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths, stations

BODIES = (chart_bodies()[3], chart_bodies()[16], posture_bodies()[1])


@cache
def bodice(number: int) -> Pattern:
    return draft_bodice(BODIES[number].body).pattern


@cache
def skirt(number: int) -> Pattern:
    return draft_skirt(estimate(BODIES[number].body, TO_ESTIMATE)).pattern


@cache
def panelled(number: int) -> Pattern:
    return made(made(bodice(number), PanelFront()).pattern, PanelBack()).pattern


def made(pattern: Pattern, step: Kind) -> Applied:
    return apply_step(step, pattern, "one")


def joining(number: int, fit: Fit = Fit.SKIRT) -> JoinSkirt:
    return JoinSkirt.of_pattern(skirt(number), "mara/skirt@1", fit)


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("block", [bodice, panelled], ids=["plain", "panelled"])
def test_the_waists_are_equal_and_the_side_seams_meet(number: int, block: object) -> None:
    upper: Pattern = block(number)
    done = made(upper, joining(number))
    new = done.pattern
    known = {f.place for f in check(upper).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    first, second = side_lengths(new, new.seam("waist"))
    assert first == pytest.approx(second, abs=0.1)
    (side,) = stations(new, new.seam("waist"))[1:-1]
    assert side[0] == pytest.approx(side[1], abs=0.1)
    for line in ("bust line", "waist line"):
        assert girth(new, line) == pytest.approx(girth(upper, line), abs=1e-6), line
    assert girth(new, "hip line") == pytest.approx(girth(skirt(number), "hip line"), abs=0.3)
    assert around(new, "hem") == pytest.approx(around(skirt(number), "hem"), abs=1e-4)
    for piece in upper.pieces:
        assert new.piece(*piece.key) == piece


def test_the_skirts_pieces_seams_and_notches_are_named_after_it() -> None:
    new = made(bodice(0), joining(0)).pattern
    assert {"skirt front", "skirt back"} <= {p.name for p in new.pieces}
    side = new.seam("skirt side")
    assert side.matches[0].first_piece == "skirt front"
    assert stations(new, side)
    runs = new.seam("waist")
    assert [r.piece for r in runs.first] == ["front", "back"]
    assert [r.piece for r in runs.second] == ["skirt front", "skirt back"]
    assert dict(new.ease)["hip line"] == dict(skirt(0).ease)["hip line"]


def test_what_was_fitted_and_where_the_darts_meet_is_said() -> None:
    told = "; ".join(made(bodice(0), joining(0)).effect.notes)
    assert "waist of each half: bodice" in told
    assert "to nothing at the hip line" in told
    assert "the skirt's waist dart of the front meets the seam" in told


def test_a_little_longer_is_eased_in_and_more_is_refused() -> None:
    block, lower = bodice(0), skirt(0)
    over = around(lower, "waist") / 2 - around(block, "waist") / 2
    if over > MOST_EASE_MM or over <= 0:
        with pytest.raises(TrackerError, match="fit the skirt instead"):
            made(block, joining(0, Fit.EASE))
    # Let the skirt out at its side until it is 4 mm longer on each half.
    out = AmountAt(corner="side waist", distance_mm=0.0, amount_mm=-(4.0 - over))
    flat = AmountAt(corner="side waist", distance_mm=190.0, amount_mm=0.0)
    longer = made(lower, TakeIn(seam="side", amounts=(out, flat))).pattern
    new = made(block, JoinSkirt.of_pattern(longer, "", Fit.EASE)).pattern
    (ease,) = new.seam("waist").ease
    first, second = side_lengths(new, new.seam("waist"))
    assert second - first == pytest.approx(ease.amount_mm, abs=1e-4)
    assert ease.amount_mm == pytest.approx(4.0, abs=0.3)
    assert check(new).clean


def test_replayed_from_its_record_it_gives_the_same_pattern() -> None:
    step = joining(0)
    again = JoinSkirt.from_parameters(step.parameters())
    assert again == step
    one, two = (made(bodice(0), s).pattern for s in (step, again))
    assert pattern_digest(one) == pattern_digest(two)
    assert step.sentence(bodice(0)) == (
        "Skirt mara/skirt@1 joined at the waist, fitted at its side seams"
    )


def test_its_trace_says_that_every_edge_of_the_skirt_is_new() -> None:
    done = made(bodice(0), joining(0))
    for name in ("skirt front", "skirt back"):
        for edge in done.pattern.piece(name).edges:
            (fate,) = done.trace.into(name, edge.name, edge.side)
            assert fate.old is None
            assert fate.new is not None
            assert fate.new.length_mm == pytest.approx(edge.length, abs=1e-3)
    assert not done.trace.of("front", "waist", BodySide.BOTH)


def test_what_cannot_be_joined_is_refused_in_a_sentence() -> None:
    with pytest.raises(TrackerError, match="no edge called 'waist'"):
        made(skirt(0), JoinSkirt.of_pattern(Pattern(()), ""))
    half_drawn = replace(bodice(0), pieces=(*bodice(0).pieces, *wardrobe.paper().pieces))
    with pytest.raises(TrackerError, match="has no outline"):
        made(half_drawn, joining(0))
    with pytest.raises(TrackerError, match="in the waist seam already"):
        made(made(bodice(0), joining(0)).pattern, joining(0))
    with pytest.raises(TrackerError, match="no pattern that can be read"):
        made(bodice(0), JoinSkirt(skirt="{}"))


@pytest.mark.parametrize("upper", [0, 1, 2])
@pytest.mark.parametrize("lower", [0, 1, 2])
def test_what_fitting_another_bodys_skirt_leaves_of_its_own_seams_is_said(
    upper: int, lower: int
) -> None:
    done = made(bodice(upper), joining(lower))
    left = " ".join(done.effect.leaves)
    found = [f for f in check(done.pattern).findings if f.place.startswith("skirt ")]
    assert [f.place for f in found if f"{f.place}: " not in left] == []
    assert bool(found) == bool(left) == (upper != lower)
