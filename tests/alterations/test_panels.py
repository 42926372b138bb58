"""Panelling as steps of a version: recorded, replayed, on one body side, altered afterwards."""

import datetime as dt

import pytest
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import BadParameters, Kind, kind_named, kinds
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError
from tracker.history.replay import check_again
from tracker.history.version import Address, Root, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCK = bodice()


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def test_both_are_found_in_the_folder_of_kinds_as_style_steps() -> None:
    assert kind_named("panel the front") is PanelFront
    assert kind_named("panel the back") is PanelBack
    assert {kinds()[word].family for word in ("panel the front", "panel the back")} == {"style"}


@pytest.mark.parametrize(
    "step",
    [PanelFront(), PanelFront(start="armhole", share=0.4, bow_mm=12.0), PanelFront(distance_mm=50)],
)
def test_a_front_step_replayed_from_its_record_gives_the_same_pattern(step: PanelFront) -> None:
    again = PanelFront.from_parameters(step.parameters())
    assert again == step
    assert pattern_digest(done(BLOCK, again)) == pattern_digest(done(BLOCK, step))


@pytest.mark.parametrize("step", [PanelBack(), PanelBack(foot="waist", distance_mm=90.0)])
def test_a_back_step_replayed_from_its_record_gives_the_same_pattern(step: PanelBack) -> None:
    again = PanelBack.from_parameters(step.parameters())
    assert again == step
    assert pattern_digest(done(BLOCK, again)) == pattern_digest(done(BLOCK, step))


def test_the_sentences_say_where_the_lines_run() -> None:
    assert PanelFront().sentence(BLOCK) == (
        "Front panelled from the shoulder, half-way from the neck point, over the bust point, "
        "rounded 50 mm above and below it, and down the waist dart's legs; the bust dart turned "
        "shut"
    )
    assert PanelBack(distance_mm=95.0).sentence(BLOCK) == (
        "Back panelled from the armhole, 95 mm from the shoulder point, through the waist dart's "
        "point and down its legs"
    )
    assert "half-way to the side waist" in PanelBack(foot="waist").sentence(BLOCK)


def test_the_effect_gives_the_new_seam_the_girths_and_the_figures_of_the_rounding() -> None:
    effect = apply_step(PanelFront(), BLOCK, "one").effect
    assert {"centre front", "side front"} <= set(effect.pieces)
    princess = next(s for s in effect.seams if s.name == "front princess")
    assert princess.after[0] == pytest.approx(princess.after[1], abs=0.5)
    assert all(abs(c.by) < 0.5 for c in effect.girths)
    assert effect.notches == ("3 pairs of notches set in the front princess seam",)
    assert any("lost there" in note for note in effect.notes)
    assert "armhole unchanged" in effect.sentence()


def test_either_order_gives_the_same_panels() -> None:
    one, other = done(BLOCK, PanelFront(), PanelBack()), done(BLOCK, PanelBack(), PanelFront())
    assert {p.key: p for p in one.pieces} == {p.key: p for p in other.pieces}


def test_one_body_side_only_leaves_the_other_as_it_was() -> None:
    new = done(BLOCK, PanelFront(side=BodySide.RIGHT))
    assert check(new).clean
    names = {(p.name, p.side) for p in new.pieces}
    assert ("side front", BodySide.RIGHT) in names
    assert ("centre front", BodySide.CENTRE) in names
    assert ("side front", BodySide.LEFT) not in names
    assert [d.side for p in new.pieces for d in p.darts if d.name == "bust dart"] == [BodySide.LEFT]
    for line in lines_of(BLOCK):
        assert girth(new, line) == pytest.approx(girth(BLOCK, line), abs=0.2)


def test_a_front_opened_out_for_one_side_is_panelled_on_both() -> None:
    low = TakeIn(
        seam="side", side=BodySide.RIGHT,
        amounts=(AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
                 AmountAt(corner="side waist", distance_mm=0.0, amount_mm=8.0)),
    )  # fmt: skip
    uneven = done(BLOCK, low)
    new = done(uneven, PanelFront(), PanelBack())
    assert check(new).clean
    names = {(p.name, str(p.side)) for p in new.pieces}
    assert names == {
        ("centre front", "centre"), ("side front", "right"), ("side front", "left"),
        ("centre back", "right"), ("centre back", "left"),
        ("side back", "right"), ("side back", "left"),
    }  # fmt: skip
    assert around(new, "armhole") == pytest.approx(around(uneven, "armhole"), abs=1e-4)
    trace = apply_step(PanelFront(), uneven, "one").trace
    for edge in uneven.piece("front").edges:
        fates = trace.of("front", edge.name, edge.side)
        assert sum(f.old.length_mm for f in fates if f.old) == pytest.approx(edge.length, abs=1e-4)


def test_opened_out_and_panelled_both_halves_are_what_the_half_drawn_for_both_gives() -> None:
    half = done(BLOCK, PanelFront())
    nothing = AmountAt(corner="side waist", distance_mm=0.0, amount_mm=1e-4)
    whole = done(BLOCK, TakeIn(seam="side", side=BodySide.RIGHT, amounts=(nothing,)), PanelFront())
    wanted = half.piece("side front").area_mm2
    for side in (BodySide.RIGHT, BodySide.LEFT):
        assert whole.piece("side front", side).area_mm2 == pytest.approx(wanted, abs=1.0)
    assert whole.piece("centre front").area_mm2 == pytest.approx(
        2 * half.piece("centre front").area_mm2, abs=1.0
    )


def test_a_version_with_panels_is_replayed_from_its_steps_to_the_same_digest() -> None:
    root = first_version(
        Address("c1", "bodice", 1),
        Root("drawn by hand", 1, {}),
        BLOCK,
        "block",
        dt.date(2024, 3, 1),
    )
    steps: tuple[tuple[Kind, tuple[str, ...]], ...] = ((PanelFront(), ()), (PanelBack(), ()))
    version = next_version(root, Address("c1", "bodice", 2), steps, "panelled", dt.date(2024, 3, 2))
    again = check_again(version, root)
    assert again.damage == ()
    assert pattern_digest(version.pattern) == pattern_digest(done(BLOCK, PanelFront(), PanelBack()))


def test_an_altered_block_is_panelled_as_well_as_a_fresh_one() -> None:
    amounts = (
        AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
        AmountAt(corner="underarm point", distance_mm=150.0, amount_mm=7.0),
        AmountAt(corner="side waist", distance_mm=0.0, amount_mm=4.0),
    )
    altered = done(BLOCK, TakeIn(seam="side", amounts=amounts))
    new = done(altered, PanelFront(start="armhole"), PanelBack())
    known = {f.place for f in check(altered).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    front_only = done(altered, PanelFront(start="armhole"))
    assert girth(front_only, "bust line") == pytest.approx(girth(altered, "bust line"), abs=0.05)
    back = apply_step(PanelBack(), altered, "one").pattern.piece("side back")
    # The side was not cut: what the alteration did to it is still told and can be undone.
    assert back.edge("side") == altered.piece("back").edge("side")


def test_a_princess_seam_can_be_taken_in_afterwards() -> None:
    panelled = done(BLOCK, PanelFront(), PanelBack())
    amounts = (
        AmountAt(corner="front princess shoulder", distance_mm=0.0, amount_mm=0.0),
        AmountAt(corner="front princess shoulder", distance_mm=220.0, amount_mm=0.0),
        AmountAt(corner="front princess waist", distance_mm=0.0, amount_mm=6.0),
    )
    new = done(panelled, TakeIn(seam="front princess", amounts=amounts))
    # 6 mm at each of two seams, square to the seam and not along the waist.
    assert girth(panelled, "waist line") - girth(new, "waist line") == pytest.approx(12.0, abs=0.3)
    first, second = side_lengths(new, new.seam("front princess"))
    assert first == pytest.approx(second, abs=0.5)


def test_a_note_on_the_block_is_found_through_both_steps() -> None:
    one = apply_step(PanelFront(), BLOCK, "one")
    two = apply_step(PanelBack(), one.pattern, "two")
    trace = one.trace.then(two.trace)
    here = trace.forward("back", "side", BodySide.BOTH, 30.0)
    assert here is not None
    assert (here.piece, here.edge) == ("side back", "side")
    there = trace.forward("front", "armhole", BodySide.BOTH, 30.0)
    assert there is not None
    assert there.piece == "side front"


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (PanelFront(share=0.99), "choose a place from 12 to 110 mm"),
        (PanelBack(start="neckline"), "the armhole or the shoulder, not from the neckline"),
        (PanelBack(foot="hem"), "to the waist dart or to the waist, not to the hem"),
        (PanelFront(piece="back"), "the back has no bust point marked"),
        (PanelBack(piece="front"), "panelled as a front; name the back"),
    ],
)
def test_a_step_that_cannot_be_done_says_why(step: Kind, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(step, BLOCK, "one")


def test_a_record_with_an_unknown_parameter_is_refused() -> None:
    with pytest.raises(BadParameters, match="panel the front"):
        PanelFront.from_parameters({"stat": "shoulder"})
