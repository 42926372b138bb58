"""Hems flared and pegged: the amount all round met, the waist kept, darts closed into flare."""

import itertools
import math
from functools import cache

import irregular
import pytest
from altering import assert_accounted
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import bdims_bodies, chart_bodies, posture_bodies

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied
from tracker.alterations.kinds.flare_or_peg import Flare, FlareOrPeg
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.run_on_below import RunOnBelow
from tracker.body.estimate import estimate
from tracker.drafting.skirt import TO_ESTIMATE, draft_skirt
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BODIES = (chart_bodies()[3], posture_bodies()[1], bdims_bodies()[120])


@cache
def skirt(number: int) -> Pattern:
    return draft_skirt(estimate(BODIES[number].body, TO_ESTIMATE)).pattern


def made(pattern: Pattern, step: FlareOrPeg) -> Applied:
    return apply_step(step, pattern, "one")


@settings(max_examples=15)
@given(
    st.integers(0, 2), st.floats(20, 900), st.integers(1, 5), st.sampled_from(Flare)
)  # fmt: skip
def test_the_amount_is_met_round_the_whole_hem_and_the_waist_keeps_its_length(
    number: int, by_mm: float, slashes: int, to: Flare
) -> None:
    by_mm = by_mm / 6 if to is Flare.PEG else by_mm
    block = skirt(number)
    done = made(block, FlareOrPeg(to=to, by_mm=by_mm, slashes=slashes))
    new = done.pattern
    sign = 1 if to is Flare.FLARE else -1
    assert around(new, "hem") - around(block, "hem") == pytest.approx(sign * by_mm, abs=0.05)
    assert around(new, "waist") == pytest.approx(around(block, "waist"), abs=0.5)
    assert around(new, "side") == pytest.approx(around(block, "side"), abs=1e-4)
    first, second = side_lengths(new, new.seam("side"))
    assert first == pytest.approx(second, abs=0.05)
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    for piece in block.pieces:
        fold = new.piece(piece.name).edge(f"centre {piece.name}")
        assert fold.parts == piece.edge(f"centre {piece.name}").parts
        for edge in piece.edges:
            fates = done.trace.of(piece.name, edge.name, edge.side)
            told = sum(f.old.length_mm for f in fates if f.old)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3), edge.name


def test_the_share_of_each_piece_is_as_its_hem_is_long() -> None:
    block = skirt(0)
    new = made(block, FlareOrPeg(by_mm=400.0)).pattern
    shares = {
        name: (new.piece(name).edge("hem").length - block.piece(name).edge("hem").length)
        / block.piece(name).edge("hem").length
        for name in ("front", "back")
    }
    assert shares["front"] == pytest.approx(shares["back"], rel=0.01)


@pytest.mark.parametrize("number", range(3))
def test_a_dart_closed_opens_the_hem_by_its_angle_times_how_far_it_is(number: int) -> None:
    block = skirt(number)
    done = made(block, FlareOrPeg(close=("waist dart",)))
    front = block.piece("front")
    dart = front.dart("waist dart")
    # An arc's chord, 2 r sin(a / 2): the hem lies that far straight below the dart's point.
    below = dart.pivot.imag - front.edge("hem").point_at(0.0).imag
    wide = 2 * below * math.sin(dart.angle_rad / 2)
    more = done.pattern.piece("front").edge("hem").length - front.edge("hem").length
    assert more == pytest.approx(wide, abs=1.5)
    assert "waist dart" not in {d.name for p in done.pattern.pieces for d in p.darts}
    assert around(done.pattern, "waist") == pytest.approx(around(block, "waist"), abs=0.2)
    assert check(done.pattern).clean


def test_what_the_darts_give_counts_and_the_rest_is_slashed() -> None:
    shown = FlareOrPeg.example()
    done = apply_step(shown.kind, shown.pattern, "one")
    grown = around(done.pattern, "hem") - around(shown.pattern, "hem")
    assert grown == pytest.approx(480.0, abs=0.05)
    told = "; ".join(done.effect.notes)
    assert "the darts give" in told
    assert "put in at each of 2 slashes" in told


def test_more_from_the_darts_than_was_asked_for_is_said() -> None:
    done = made(skirt(0), FlareOrPeg(by_mm=100.0, close=("waist dart",)))
    assert any("the darts alone give more than the 100 mm" in n for n in done.effect.notes)


def test_the_hem_is_one_smooth_line_and_the_hip_line_runs_on() -> None:
    block = skirt(0)
    new = made(block, FlareOrPeg(by_mm=500.0)).pattern
    for name in ("front", "back"):
        (line,) = new.piece(name).edge("hem").parts
        headings = [line.heading_at(k * 2) for k in range(int(line.length / 2))]
        bends = [abs(turn_between(a, b)) for a, b in itertools.pairwise(headings)]
        assert max(bends) < 0.06  # 3.4° in two millimetres would be a corner
        assert len(new.piece(name).level("hip line").strokes) == 1
    assert girth(new, "hip line") > girth(block, "hip line") + 50


def test_replayed_from_its_record_it_gives_the_same_pattern() -> None:
    step = FlareOrPeg(by_mm=250.0, slashes=4)
    again = FlareOrPeg.from_parameters(step.parameters())
    assert again == step
    one, two = (made(skirt(0), s).pattern for s in (step, again))
    assert pattern_digest(one) == pattern_digest(two)


def test_the_sentence_says_how_much_and_where() -> None:
    assert FlareOrPeg(to=Flare.PEG, by_mm=80.0, slashes=2).sentence(skirt(0)) == (
        "Hem pegged by 80 mm all round, slashed at 2 places of each half of the front and back; "
        "the edge above keeps its length"
    )


def test_one_piece_alone_takes_all_of_it() -> None:
    block = skirt(0)
    new = made(block, FlareOrPeg(by_mm=200.0, pieces=("back",))).pattern
    assert new.piece("front") == block.piece("front")
    assert around(new, "hem") - around(block, "hem") == pytest.approx(200.0, abs=0.05)


REFUSED: list[tuple[dict[str, object], str]] = [
    ({}, "by how much"),
    ({"by_mm": -5.0}, "say “peg”"),
    ({"by_mm": 5.0, "slashes": 0}, "at 1 to 9 places"),
    ({"by_mm": 5.0, "to": Flare.PEG, "close": ("waist dart",)}, "pegs nothing"),
    ({"by_mm": 5.0, "close": ("wast dart",)}, "Did you mean waist dart"),
    ({"by_mm": 5.0, "edge": "hm"}, "Did you mean hem"),
    ({"by_mm": 900.0, "to": Flare.PEG}, "would fit|can be drawn|crosses"),
]


@pytest.mark.parametrize(("given_", "sentence"), REFUSED)
def test_what_cannot_be_is_refused_in_a_sentence(given_: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        made(skirt(0), FlareOrPeg(**given_))


def test_a_piece_without_one_edge_above_is_refused_with_what_would_do() -> None:
    with pytest.raises(TrackerError, match="part it at the waist first"):
        made(drafted(0), FlareOrPeg(by_mm=50.0, edge="waist", pieces=("back",)))


@cache
def dress(number: int, panels: bool) -> Pattern:
    """A torso run on to a dress: no edge lies across above its hem."""
    new = irregular.block("torso", number)
    steps = (PanelFront(), PanelBack()) if panels else ()
    for step in (*steps, RunOnBelow(by_mm=420.0)):
        new = apply_step(step, new, "before").pattern
    return new


@pytest.mark.parametrize(
    ("step", "line"),
    [
        (FlareOrPeg(by_mm=320.0), "hip line"),
        (FlareOrPeg(by_mm=320.0, from_line="waist line"), "waist line"),
        (FlareOrPeg(to=Flare.PEG, by_mm=60.0), "hip line"),
    ],
)
@pytest.mark.parametrize("panels", [False, True], ids=["plain", "panelled"])
@pytest.mark.parametrize("number", range(4))
def test_a_dress_without_a_waist_seam_is_flared_at_its_seams(
    number: int, panels: bool, step: FlareOrPeg, line: str
) -> None:
    block = dress(number, panels)
    done = made(block, step)
    new = done.pattern
    sign = 1 if step.to is Flare.FLARE else -1
    assert around(new, "hem") - around(block, "hem") == pytest.approx(sign * step.by_mm, abs=0.05)
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    assert_accounted(block, done)
    above = ["across front", "bust line", "waist line", "hip line"]
    for name in above[: above.index(line) + 1]:
        assert girth(new, name) == pytest.approx(girth(block, name), abs=0.05), name
    for seam in block.seams:
        # Bent, not stretched: the hem hangs as far below the line as it did.
        was, now = side_lengths(block, seam), side_lengths(new, new.seam(*seam.key))
        assert now == pytest.approx(was, abs=0.05), seam.name
    for piece in block.pieces:
        old_hem, hem = piece.edge("hem"), new.piece(*piece.key).edge("hem")
        (line_of_hem,) = hem.parts
        turns = [
            math.degrees(turn_between(line_of_hem.heading_at(a), line_of_hem.heading_at(a + 5.0)))
            for a in range(0, int(hem.length) - 5, 5)
        ]
        # One even curve, hollow up for a flare: it never turns the other way by more than a hair.
        old = old_hem.parts[0]
        straight = abs(turn_between(old.start_heading, old.end_heading)) < 0.01
        if straight:
            assert all(sign * t > -0.35 for t in turns), piece.label


def test_the_sentence_and_the_notes_say_at_which_seams_and_from_where() -> None:
    step = FlareOrPeg(by_mm=320.0)
    block = dress(0, True)
    told = step.sentence(block)
    assert "by 320 mm all round at the seams, from the hip line down" in told
    assert "keeps its length" not in told
    notes = "; ".join(made(block, step).effect.notes)
    assert "side and front princess and back princess seams bent out" in notes
    assert "from_line" not in step.parameters()
    named = FlareOrPeg(by_mm=320.0, from_line="waist line")
    assert FlareOrPeg.from_parameters(named.parameters()) == named


def test_a_skirt_is_flared_at_its_seams_where_a_line_is_named() -> None:
    block = skirt(0)
    new = made(block, FlareOrPeg(by_mm=200.0, from_line="hip line")).pattern
    assert around(new, "hem") - around(block, "hem") == pytest.approx(200.0, abs=0.05)
    assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=0.05)


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (FlareOrPeg(by_mm=4000.0), "flare it from a higher line, or part it at the waist first"),
        (FlareOrPeg(by_mm=100.0, from_line="knee line"), "there is no knee line; the pieces have"),
        (
            FlareOrPeg(to=Flare.PEG, by_mm=900.0),
            "bent at its seams the hem changes by at most about",
        ),
    ],
)
def test_what_cannot_be_flared_at_seams_is_refused(step: FlareOrPeg, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        made(dress(0, False), step)
