"""Removing a dart: its intake is eased, or comes out of a seam; nothing is lost."""

import irregular
import pytest
from alterations.test_lines_end_on_the_outline import assert_ends_on_outline
from altering import NO_OUTLINE, done
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.change_a_dart import ChangeDart
from tracker.alterations.kinds.remove_a_dart import RemoveDart
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.trace import Renamed
from tracker.pattern.walk import side_lengths

BLOCK = bodice()


def remove(**more: object) -> RemoveDart:
    return RemoveDart(**({"piece": "front", "dart": "waist dart"} | more))


def test_an_edge_without_its_dart_is_longer_by_what_it_took_in() -> None:
    applied = done(remove(), BLOCK)
    front = applied.pattern.piece("front")
    assert [d.name for d in front.darts] == ["bust dart"]
    assert front.edge("waist").mouths == ()
    (edge,) = applied.effect.edges
    assert edge.by == pytest.approx(BLOCK.piece("front").dart("waist dart").intake_mm, abs=0.3)
    assert Renamed("dart", ("front", "waist dart"), ("front", "")) in applied.trace.renamed


def test_more_than_disappears_in_sewing_is_warned_of_and_little_is_not() -> None:
    # Design of this project: at most 6 mm eased in one seam, else warned; common practice.
    assert any("longer on each half, more than" in t for t in done(remove(), BLOCK).effect.leaves)
    block = drafted(0)
    shoulder = ChangeDart(piece="back", dart="shoulder dart", deeper_mm=-9.0)
    small = done(shoulder, block).pattern
    for base, much in ((block, True), (small, False)):
        applied = done(RemoveDart(piece="back", dart="shoulder dart"), base)
        told = [t for t in applied.effect.leaves if "will show as fullness" in t]
        assert bool(told) is much


def test_eased_it_is_planned_so_that_the_seam_still_walks() -> None:
    block = drafted(0)
    new = done(RemoveDart(piece="back", dart="shoulder dart"), block).pattern
    was, now = block.seam("shoulder"), new.seam("shoulder")
    grown = new.piece("back").edge("shoulder").length - block.piece("back").edge("shoulder").length
    assert abs(now.planned_ease_mm - was.planned_ease_mm) == pytest.approx(grown, abs=1e-4)
    assert not [f for f in check(new).findings if f.code == "seam sides" and "shoulder" in f.place]


@pytest.mark.parametrize("share", [0.0, 0.5, 0.85])
def test_eased_between_the_notches_beside_the_mouth_all_notches_meet(share: float) -> None:
    block = irregular.block("bodice")
    if share:
        turn = TurnDart(piece="front", dart="bust dart", into="waist dart", share=share)
        block = done(turn, block).pattern
    applied = done(RemoveDart(piece="front", dart="bust dart"), block)
    assert applied.pattern.seam("side").ease[0].end == "side notch"
    found = check(applied.pattern).findings
    assert not [f for f in found if f.code in ("seam sides", "notches") and "side" in f.place]
    # The bust line ends on the new side, and its girth is told as it is measured.
    assert_ends_on_outline(block, applied.pattern)
    was, now = (girth(p, "bust line") for p in (block, applied.pattern))
    (told,) = [c for c in applied.effect.girths if c.what == "bust line"] or [None]
    assert abs((told.by if told else 0.0) - (now - was)) < 0.005


def test_the_side_seam_takes_what_the_dart_did_and_the_waist_is_as_it_was() -> None:
    applied = done(remove(seam="side"), BLOCK)
    front = applied.pattern.piece("front")
    assert [d.name for d in front.darts] == ["bust dart"]
    assert girth(applied.pattern, "waist line") == pytest.approx(
        girth(BLOCK, "waist line"), abs=0.5
    )
    assert [e.parts for e in applied.pattern.piece("back").edges] == [
        e.parts for e in BLOCK.piece("back").edges
    ]


def test_the_centre_seam_takes_it_too() -> None:
    new = done(remove(piece="back", seam="centre back"), BLOCK).pattern
    assert girth(new, "waist line") == pytest.approx(girth(BLOCK, "waist line"), abs=0.5)


def test_one_body_side_loses_its_dart_and_the_other_keeps_it() -> None:
    new = done(remove(side=BodySide.LEFT), BLOCK).pattern.piece("front")
    assert ("waist dart", BodySide.RIGHT) in {d.key for d in new.darts}
    assert ("waist dart", BodySide.LEFT) not in {d.key for d in new.darts}


def test_a_double_pointed_dart_is_simply_gone() -> None:
    added = done(
        AddDart(piece="back", name="shaping", edge="waist", corner="side waist",
                distance_mm=50.0, width_mm=10.0, length_mm=160.0, inward_mm=60.0,
                toward_edge_mm=40.0),
        BLOCK,
    ).pattern  # fmt: skip
    assert girth(added, "bust line") < girth(BLOCK, "bust line") - 3.0
    applied = done(remove(piece="back", dart="shaping"), added)
    assert girth(applied.pattern, "bust line") == pytest.approx(girth(BLOCK, "bust line"), abs=0.01)
    assert applied.pattern.piece("back").edges == BLOCK.piece("back").edges
    assert any("10 mm wider where the shaping was" in t for t in applied.effect.leaves)


def test_the_sentence_says_where_the_intake_goes() -> None:
    assert remove(seam="side").sentence(BLOCK) == (
        "Waist dart of the front removed; the side seam takes its 31.7 mm at that end, all of it "
        "from the front, to nothing as far along it as the dart reached, or at the bust line"
    )


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    assert apply_step(remove(), paper(), "one").effect.leaves[0].startswith(NO_OUTLINE)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"dart": "hip dart"}, "no dart called 'hip dart'"),
        ({"seam": "panel"}, "no seam"),
        ({"seam": "shoulder"}, "does not end on the edge"),
        ({"seam": "centre back"}, "does not end on the edge"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(remove(**more), BLOCK, "one")


@given(
    block=st.integers(0, 2),
    which=st.sampled_from([("front", "waist dart"), ("front", "bust dart"),
                           ("back", "waist dart")]),
)  # fmt: skip
def test_every_other_edge_is_as_it_was(block: int, which: tuple[str, str]) -> None:
    base = BLOCK if block == 2 else drafted(block)
    piece, dart = which
    new = done(remove(piece=piece, dart=dart), base).pattern.piece(piece)
    mouth = base.piece(piece).dart(dart).mouth
    for e in base.piece(piece).edges:
        if e.name != mouth:
            assert new.edge(e.name) == e


@pytest.mark.parametrize("piece", ["front", "back"])
@pytest.mark.parametrize("number", range(4))
def test_taken_in_at_the_side_the_sides_agree_the_waist_is_smooth_and_the_girths_stay(
    number: int, piece: str
) -> None:
    block = irregular.block("bodice", number)
    step = RemoveDart(piece=piece, dart="waist dart", seam="side")
    new = apply_step(step, block, "one").pattern
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    first, second = side_lengths(new, new.seam("side"))
    assert first == pytest.approx(second, abs=0.05)
    for line in ("bust line", "waist line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.12), line
