"""Every piece parted across at a height: waists dropped and raised, yokes all round, bands."""

from functools import cache

import pytest
import wardrobe
from altering import made_or_told
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import bdims_bodies, chart_bodies, posture_bodies

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.part_on_a_line import NewPart
from tracker.body.estimate import estimate
from tracker.drafting.torso import TO_ESTIMATE, draft_torso
from tracker.errors import TrackerError
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BODIES = (chart_bodies()[3], posture_bodies()[4], bdims_bodies()[130])


@cache
def torso(number: int) -> Pattern:
    return draft_torso(estimate(BODIES[number].body, TO_ESTIMATE)).pattern


@cache
def panelled(number: int) -> Pattern:
    one = apply_step(PanelFront(beside_mm=10.0), torso(number), "one").pattern
    return apply_step(PanelBack(start="shoulder"), one, "two").pattern


def made(pattern: Pattern, step: PartAtHeight) -> Applied:
    return apply_step(step, pattern, "step")


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("above_mm", [0.0, -70.0, 60.0])
def test_a_waist_seam_lies_on_the_waist_dropped_or_raised(number: int, above_mm: float) -> None:
    block = torso(number)
    done = made(block, PartAtHeight(line="waist line", above_mm=above_mm))
    new = done.pattern
    assert [f.sentence for f in check(new).findings] == []
    for line in ("bust line", "waist line", "hip line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.1), line
    for name in ("front", "back"):
        old = block.piece(name).edge(f"centre {name}").length
        two = [new.piece(n).edge(f"centre {name}").length for n in (name, f"{name} skirt")]
        assert sum(two) == pytest.approx(old, abs=1e-4)
        low = new.piece(name).corner(f"{name} skirt centre {name}").imag
        assert low == pytest.approx(above_mm, abs=6.0)  # the waist line dips a little there


@settings(max_examples=8)
@given(st.integers(0, 2), st.floats(-150, 150), st.sampled_from(["bust line", "waist line"]))
def test_at_any_height_it_matches_at_every_seam_or_is_refused(
    number: int, above_mm: float, line: str
) -> None:
    block = panelled(number)
    step = PartAtHeight(line=line, above_mm=above_mm, named="lower")
    done, told = made_or_told(lambda: made(block, step))
    if done is None:
        assert "choose" in told
        return
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(done.pattern).findings if f.place not in known] == []
    for seam in block.seams:
        new = done.pattern.seam(seam.name)
        if seam.on_itself:
            continue
        was, now = side_lengths(block, seam), side_lengths(done.pattern, new)
        assert now == pytest.approx(was, abs=1e-4)
        # The parts of a seam are as long on the one side as on the other, but for its ease.
        runs = [[done.pattern.edge_of(r).length for r in side] for side in (new.first, new.second)]
        if len(runs[0]) == len(runs[1]) == len(seam.first) + 1 and not new.ease:
            assert runs[0] == pytest.approx(runs[1], abs=0.2) or runs[0] == pytest.approx(
                runs[1][::-1], abs=0.2
            )


def test_a_yoke_all_round_a_skirt_closes_its_darts() -> None:
    shown = PartAtHeight.example()
    done = apply_step(shown.kind, shown.pattern, "step")
    new = done.pattern
    assert not [d for p in new.pieces for d in p.darts]
    assert around(new, "waist") == pytest.approx(around(shown.pattern, "waist"), abs=0.2)
    assert sum("closed into" in note for note in done.effect.notes) == 3
    assert check(new).clean


def test_a_band_below_the_hip_of_named_pieces_only() -> None:
    shown = PartAtHeight.example().pattern
    step = PartAtHeight(line="hip line", above_mm=-300.0, named="flounce", pieces=("front",))
    new = made(shown, step).pattern
    assert {p.name for p in new.pieces} == {"front", "back", "front flounce"}
    assert step.sentence(shown) == (
        "Front parted across at 300 mm below the hip line; the lower part is the front flounce"
    )


def test_replayed_from_its_record_it_gives_the_same_pattern() -> None:
    step = PartAtHeight(line="waist line", above_mm=-40.0, part=NewPart.UPPER, named="bodice")
    again = PartAtHeight.from_parameters(step.parameters())
    assert again == step
    one, two = (made(torso(0), s).pattern for s in (step, again))
    assert pattern_digest(one) == pattern_digest(two)


def test_the_trace_accounts_for_every_millimetre() -> None:
    block = panelled(0)
    trace = made(block, PartAtHeight(line="waist line", above_mm=-50.0)).trace
    for piece in block.pieces:
        for edge in piece.edges:
            fates = trace.of(piece.name, edge.name, edge.side)
            told = sum(f.old.length_mm for f in fates if f.old)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3)


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    (told,) = made(wardrobe.paper(), PartAtHeight(line="waist line", above_mm=30.0)).effect.leaves
    assert told.startswith("mark it on the paper: Front and back parted across at 30 mm above")


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (PartAtHeight(line="wast line"), "Did you mean waist line"),
        (PartAtHeight(line="waist line", above_mm=30.0), "close that dart into it"),
        (PartAtHeight(line="waist line", above_mm=-300.0), "from edge to edge|choose a height"),
        (PartAtHeight(line="waist line", above_mm=0.0), "choose a place|from edge to edge"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: PartAtHeight, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        made(drafted(0), step)


def test_a_dart_named_that_is_nowhere_is_refused() -> None:
    shown = PartAtHeight.example().pattern
    with pytest.raises(TrackerError, match="Did you mean waist dart"):
        made(shown, PartAtHeight(line="hip line", above_mm=-100.0, close=("wast dart",)))
