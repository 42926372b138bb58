"""Blocks run on below: the hem as long as asked for, the old line and its darts kept."""

from functools import cache

import irregular
import pytest
import wardrobe
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import bdims_bodies, chart_bodies, posture_bodies

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.run_on_below import RunOnBelow
from tracker.body.estimate import estimate
from tracker.drafting.torso import TO_ESTIMATE, draft_torso
from tracker.errors import TrackerError
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, corner_angle, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths, stations

BODIES = (chart_bodies()[3], posture_bodies()[1], bdims_bodies()[120])


@cache
def torso(number: int) -> Pattern:
    return draft_torso(estimate(BODIES[number].body, TO_ESTIMATE)).pattern


@cache
def panelled(number: int) -> Pattern:
    one = made(torso(number), PanelFront(beside_mm=10.0)).pattern
    return made(one, PanelBack(start="shoulder")).pattern


def made(pattern: Pattern, step: Kind) -> Applied:
    return apply_step(step, pattern, "one")


def fresh_findings(before: Pattern, after: Pattern) -> list[str]:
    known = {f.place for f in check(before).findings}
    return [f.sentence for f in check(after).findings if f.place not in known]


@settings(max_examples=8)
@given(st.integers(0, 2), st.booleans(), st.floats(150, 900), st.floats(0.0, 0.8))
def test_the_hem_is_as_long_as_asked_for_and_every_seam_still_walks(
    number: int, panels: bool, by_mm: float, wider: float
) -> None:
    block = panelled(number) if panels else torso(number)
    hem = girth(block, "hip line") + wider * by_mm
    done = made(block, RunOnBelow(by_mm=by_mm, hem_mm=hem))
    new = done.pattern
    assert fresh_findings(block, new) == []
    assert around(new, "hem") == pytest.approx(hem, abs=0.01)
    for line in ("bust line", "waist line", "hip line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.02), line
    for seam in block.seams:
        was = side_lengths(block, seam)
        now = side_lengths(new, new.seam(*seam.key))
        assert now[1] - now[0] == pytest.approx(was[1] - was[0], abs=0.1), seam.name
    for piece in block.pieces:
        for edge in piece.edges:
            fates = done.trace.of(piece.name, edge.name, edge.side)
            told = sum(f.old.length_mm for f in fates if f.old)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3), edge.name
    for piece in new.pieces:
        for edge in piece.edges:
            fates = done.trace.into(piece.name, edge.name, edge.side)
            told = sum(f.new.length_mm for f in fates if f.new)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3), edge.name


@pytest.mark.parametrize("number", range(3))
def test_without_a_length_for_the_hem_the_seams_go_down_plumb(number: int) -> None:
    block = torso(number)
    new = made(block, RunOnBelow(by_mm=400.0)).pattern
    assert around(new, "hem") == pytest.approx(girth(block, "hip line"), abs=0.5)
    for name in ("front", "back"):
        piece = new.piece(name)
        gap = block.piece(name).corner(f"centre {name} hip") - piece.corner(f"centre {name} hem")
        assert gap == pytest.approx(400j, abs=1e-4)


def test_a_hem_narrower_than_the_hip_leans_in() -> None:
    block = torso(0)
    wanted = girth(block, "hip line") - 60.0
    done = made(block, RunOnBelow(by_mm=500.0, hem_mm=wanted))
    assert around(done.pattern, "hem") == pytest.approx(wanted, abs=0.01)
    assert any("leans in" in note for note in done.effect.notes)


def test_the_hem_is_square_to_the_centre_and_to_every_seam() -> None:
    new = made(panelled(0), RunOnBelow(by_mm=500.0, hem_mm=2000.0)).pattern
    for piece in new.pieces:
        hem = piece.edge("hem")
        for at_end in (True, False):
            assert corner_angle(piece, hem, at_end) == pytest.approx(90.0, abs=0.1)


def test_the_old_edge_stays_as_a_line_with_a_pair_of_notches_at_every_seam() -> None:
    block = panelled(0)
    done = made(block, RunOnBelow(by_mm=500.0, hem_mm=1800.0))
    for name in ("side", "front princess", "back princess"):
        pairs = stations(done.pattern, done.pattern.seam(name))
        lowest = max(a for a, _ in pairs[1:-1])
        assert lowest == pytest.approx(pairs[-1][0] - 500.0, abs=0.5)
    assert len(done.effect.notches) == 3
    for piece in done.pattern.pieces:
        level = piece.level("hip line")
        assert level.edges == ()
        assert level.strokes


@pytest.mark.parametrize("number", range(3))
def test_a_bodice_run_on_has_darts_that_end_below_the_waist(number: int) -> None:
    block = drafted(number)
    new = made(block, RunOnBelow(by_mm=350.0, hem_mm=1200.0)).pattern
    assert fresh_findings(block, new) == []
    for name in ("front", "back"):
        old, dart = block.piece(name).dart("waist dart"), new.piece(name).dart("waist dart")
        assert dart.double_pointed
        assert dart.pivot == pytest.approx(old.pivot, abs=1e-6)
        assert dart.intake_mm == pytest.approx(old.intake_mm, abs=1e-3)
        assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=0.01)
        low = dart.legs[0].end
        middle = (old.mouth_start + old.mouth_end) / 2
        assert abs(low - middle) == pytest.approx(110.0, abs=1e-4)
    assert girth(new, "waist line") == pytest.approx(girth(block, "waist line"), abs=0.02)
    assert around(new, "hem") == pytest.approx(1200.0, abs=0.01)


def test_a_dress_made_of_a_torso_is_panelled_and_parted_like_any_block() -> None:
    dress = made(torso(1), RunOnBelow(by_mm=500.0, hem_mm=1400.0)).pattern
    panels = made(made(dress, PanelFront(start="armhole")).pattern, PanelBack()).pattern
    assert check(panels).clean
    assert "front princess hem" in panels.piece("side front").corners
    parted = made(dress, PartAtHeight(line="waist line", above_mm=-40.0)).pattern
    assert check(parted).clean
    assert around(parted, "hem") == pytest.approx(1400.0, abs=0.05)


def test_a_line_below_a_hem_makes_it_longer_still() -> None:
    dress = made(torso(0), RunOnBelow(by_mm=300.0)).pattern
    longer = made(dress, RunOnBelow(by_mm=200.0, edge="hem")).pattern
    assert check(longer).clean
    for name in ("front", "back"):
        edge = f"centre {name}"
        more = longer.piece(name).edge(edge).length - dress.piece(name).edge(edge).length
        assert more == pytest.approx(200.0, abs=1e-4)


def test_replayed_from_its_record_it_gives_the_same_pattern() -> None:
    step = RunOnBelow(by_mm=400.0, hem_mm=1300.0)
    again = RunOnBelow.from_parameters(step.parameters())
    assert again == step
    one, two = (made(torso(0), s).pattern for s in (step, again))
    assert pattern_digest(one) == pattern_digest(two)


def test_the_sentence_says_how_far_and_how_wide() -> None:
    assert RunOnBelow(by_mm=400.0, hem_mm=1250.0).sentence(torso(0)) == (
        "Front and back run on 400 mm below the hip to a hem of 1250 mm all round"
    )
    assert "seams plumb" in RunOnBelow(by_mm=400.0).sentence(torso(0))


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    (told,) = made(wardrobe.paper(), RunOnBelow(by_mm=300.0)).effect.leaves
    assert told.startswith("mark it on the paper: Front and back run on 300 mm below the waist")


@pytest.mark.parametrize(
    ("given_", "sentence"),
    [
        ({"by_mm": 0.0}, "by how much"),
        ({"by_mm": 100.0, "hem_mm": 9000.0}, r"can be from \d+ to \d+ mm all round"),
        ({"by_mm": 100.0, "hem_mm": -1.0}, "longer than nothing"),
        ({"by_mm": 100.0, "edge": "hp"}, "Did you mean hip"),
        ({"by_mm": 100.0, "edge": "shoulder"}, "no lower edge|sewn in the shoulder seam"),
        ({"by_mm": 100.0, "named": " "}, "needs a name"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(given_: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        made(torso(0), RunOnBelow(**given_))


def test_a_dart_without_room_below_is_refused_with_how_far_would_do() -> None:
    with pytest.raises(TrackerError, match=r"run the piece on by \d+ mm or more"):
        made(drafted(0), RunOnBelow(by_mm=40.0))


@pytest.mark.parametrize("number", range(3))
def test_a_skirt_is_run_on_below_its_hem_and_not_its_waist(number: int) -> None:
    block = irregular.block("skirt", number)
    step = RunOnBelow(by_mm=100.0)
    assert step.sentence(block).startswith("Front and back run on 100 mm below the hem")
    new = made(block, step).pattern
    assert fresh_findings(block, new) == []
    side, was = side_lengths(new, new.seam("side"))[0], side_lengths(block, block.seam("side"))[0]
    assert side == pytest.approx(was + 100.0, abs=0.5)
    assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=1e-3)


HIPS = {"hip_below_mm": 205.0, "hip_girth_mm": 1060.0, "hip_ease_mm": 51.0}


@pytest.mark.parametrize("number", [0, 1])
def test_past_the_hips_there_is_a_hip_line_whose_ease_a_check_holds_to_the_body(
    number: int,
) -> None:
    block = drafted(number)
    plain = made(block, RunOnBelow(by_mm=600.0, hem_mm=1500.0)).pattern
    with pytest.raises(TrackerError, match="no line called 'hip line'"):
        girth(plain, "hip line")
    hem = around(plain, "hem")
    done = made(block, RunOnBelow(by_mm=600.0, hem_mm=1500.0, **HIPS))
    assert around(done.pattern, "hem") == pytest.approx(hem, abs=1e-3)
    finished = girth(done.pattern, "hip line")
    assert girth(block, "waist line") < finished < hem
    for piece in done.pattern.pieces:
        ends = [end for stroke in piece.level("hip line").strokes for end in stroke]
        side = piece.edge("side")
        below = piece.corner("side hem")
        found = min(ends, key=lambda end: min(part.nearest(end)[1] for part in side.drawn))
        assert min(part.nearest(found)[1] for part in side.drawn) < 0.01
        assert abs(found - below) == pytest.approx(395.0, abs=0.3)  # rounded above
    assert dict(done.pattern.ease)["hip line"] >= 51.0
    short = finished + 30.0
    told = made(block, RunOnBelow(by_mm=600.0, hem_mm=1500.0, **{**HIPS, "hip_girth_mm": short}))
    assert any("does not go over them" in note for note in told.effect.notes)
    found = [f.place for f in check(told.pattern, {"hip line": short}).findings if f.code == "ease"]
    assert found == ["hip line"]
    assert dict(told.pattern.ease)["hip line"] == 51.0


def test_hips_that_are_not_known_or_not_reached_leave_record_and_pattern_as_they_were() -> None:
    step = RunOnBelow(by_mm=600.0, hem_mm=1500.0)
    assert not [name for name in step.parameters() if name.startswith("hip")]
    known = RunOnBelow(by_mm=600.0, hem_mm=1500.0, **HIPS)
    assert RunOnBelow.from_parameters(known.parameters()) == known
    short = made(drafted(0), RunOnBelow(by_mm=200.0, **HIPS)).pattern
    assert pattern_digest(short) == pattern_digest(
        made(drafted(0), RunOnBelow(by_mm=200.0)).pattern
    )
    has_one = made(torso(0), RunOnBelow(by_mm=400.0, **HIPS)).pattern
    assert pattern_digest(has_one) == pattern_digest(
        made(torso(0), RunOnBelow(by_mm=400.0)).pattern
    )
