"""Notches added and removed; grain, cut instruction and layer set."""

import cmath
import math

import pytest
from altering import NO_OUTLINE, done
from hypothesis import given
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.remove_a_notch import RemoveNotch
from tracker.alterations.kinds.set_the_cut import SetCut
from tracker.alterations.kinds.set_the_grain import Lies, SetGrain
from tracker.alterations.kinds.set_the_layer import Layer, SetLayer
from tracker.errors import TrackerError
from tracker.geometry.area import polygon
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import lines_of
from tracker.pattern.walk import stations

BLOCK = bodice()
HIP = AddNotch(
    piece="back", edge="side", corner="underarm point", distance_mm=60.0, name="upper notch"
)


def test_a_notch_is_added_with_the_one_it_meets() -> None:
    new = done(HIP, BLOCK).pattern
    front = new.piece("front").notch("upper notch")
    assert (front.edge, front.corner) == ("side", "underarm point")
    assert front.distance_mm == pytest.approx(60.0, abs=1e-4)
    assert [m.first for m in new.seam("side").matches] == ["upper notch", "side notch"]
    assert check(new).clean


def test_a_notch_on_a_free_edge_or_alone_has_none_to_meet() -> None:
    free = AddNotch(
        piece="front", edge="neckline", corner="neck point", distance_mm=30.0, name="facing notch"
    )
    assert done(free, BLOCK).pattern.seams == BLOCK.seams
    alone = AddNotch(
        piece="back", edge="side", corner="underarm point", distance_mm=60.0, name="n",
        partner=False, count=2,
    )  # fmt: skip
    new = done(alone, BLOCK).pattern
    assert new.piece("front") == BLOCK.piece("front")
    assert new.piece("back").notch("n").count == 2


def test_a_notch_of_the_armhole_meets_one_of_the_cap_between_their_neighbours() -> None:
    before = sleeved()
    step = AddNotch(
        piece="front", edge="armhole", corner="shoulder point", distance_mm=50.0, name="upper"
    )
    new = done(step, before).pattern
    pairs = stations(new, new.seam("armhole"))
    assert pairs == tuple(sorted(pairs))
    assert len(pairs) == len(stations(before, before.seam("armhole"))) + 1


def test_removing_what_was_added_gives_the_pattern_back() -> None:
    new = done(HIP, BLOCK).pattern
    back = done(RemoveNotch(piece="back", notch="upper notch"), new).pattern
    assert pattern_digest(back) == pattern_digest(BLOCK)


def test_a_removed_notch_takes_its_partner_unless_told_not_to() -> None:
    both = done(RemoveNotch(piece="front", notch="side notch"), BLOCK).pattern
    assert [n.name for n in both.piece("back").notches] == ["back armhole notch"]
    one = done(RemoveNotch(piece="front", notch="side notch", partner=False), BLOCK).pattern
    assert one.piece("back").notches == BLOCK.piece("back").notches
    assert one.seam("side").matches == both.seam("side").matches == ()


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_notches_on_one_body_side(side: BodySide) -> None:
    step = AddNotch(
        piece="back", edge="side", corner="underarm point", distance_mm=60.0, name="n", side=side
    )
    new = done(step, BLOCK).pattern
    assert [n.side for n in new.piece("front").notches if n.name == "n"] == [side]
    assert len(new.seam("side", side).matches) == 2
    assert len(new.seam("side", side.opposite).matches) == 1
    assert check(new).clean
    gone = done(RemoveNotch(piece="front", notch="n", side=side), new).pattern
    assert not any(n.name == "n" for p in gone.pieces for n in p.notches)
    assert len(gone.seam("side", side).matches) == 1


@given(distance=st.floats(1, 204), back=st.booleans())
def test_a_pair_of_notches_always_meets(distance: float, back: bool) -> None:
    if abs(distance - 120) < 1:
        return
    step = AddNotch(
        piece="back" if back else "front", edge="side", corner="underarm point",
        distance_mm=distance, name="n",
    )  # fmt: skip
    new = done(step, BLOCK).pattern
    assert new.piece("front").notch("n").distance_mm == pytest.approx(
        new.piece("back").notch("n").distance_mm, abs=1e-4
    )


def test_the_grain_is_laid_along_or_square_to_a_line_or_on_the_bias() -> None:
    for step, degrees in (
        (SetGrain(piece="back", lies=Lies.ALONG, to="centre back"), 90.0),
        (SetGrain(piece="back", lies=Lies.SQUARE, to="bust line"), 90.0),
        (SetGrain(piece="back", lies=Lies.ALONG, to="centre back", turned_deg=45.0), 135.0),
        (SetGrain(piece="back", lies=Lies.ALONG, to="side"), 84.0),
    ):
        new = done(step, BLOCK).pattern.piece("back")
        assert new.grain is not None
        found = math.degrees(cmath.phase(new.grain[1] - new.grain[0]))
        assert found == pytest.approx(degrees, abs=0.01)
        old = BLOCK.piece("back").grain
        assert old is not None
        assert abs(sum(new.grain) - sum(old)) < 1e-4
        assert new.edges == BLOCK.piece("back").edges


@pytest.mark.parametrize("turned", [-80.0, -45.0, 15.0, 45.0, 60.0, 90.0])
@pytest.mark.parametrize("name", ["front", "back"])
def test_the_grain_stays_on_its_piece_however_it_is_turned(name: str, turned: float) -> None:
    from shapely import LineString

    step = SetGrain(piece=name, lies=Lies.ALONG, to=f"centre {name}", turned_deg=turned)
    grain = done(step, BLOCK).pattern.piece(name).grain
    assert grain is not None
    shape = polygon(BLOCK.piece(name).plain_ring)
    assert shape.contains(LineString([(p.real, p.imag) for p in grain]).buffer(5))
    assert abs(grain[1] - grain[0]) > 50


def test_the_bias_of_a_left_piece_is_the_mirror_image() -> None:
    step = SetGrain(
        piece="back", lies=Lies.ALONG, to="centre back", turned_deg=30.0, side=BodySide.LEFT
    )
    new = done(step, BLOCK).pattern
    left, right = new.piece("back", BodySide.LEFT).grain, new.piece("back", BodySide.RIGHT).grain
    assert left is not None
    assert right == BLOCK.piece("back").grain
    assert math.degrees(cmath.phase(left[1] - left[0])) == pytest.approx(60.0, abs=0.01)


def test_the_cut_instruction_is_written_and_the_copies_stay() -> None:
    applied = done(SetCut(piece="front", cut="cut 1 on the fold, right side up"), BLOCK)
    front = applied.pattern.piece("front")
    assert (front.cut, front.copies) == ("cut 1 on the fold, right side up", 2)
    assert applied.effect.notes[0].endswith("(was: cut 1 on the fold)")
    assert applied.effect.girths == ()


def test_a_piece_set_to_another_layer_is_not_measured_with_the_shell() -> None:
    applied = done(SetLayer(piece="sleeve", layer=Layer.LINING, taken_from="front"), sleeved())
    piece = applied.pattern.piece("sleeve")
    assert (piece.layer, piece.taken_from) == ("lining", "front")
    assert "sleeve hem line" not in lines_of(applied.pattern)


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (HIP, "Single notch 'upper notch' added to the side of the back, 60 mm from the underarm "
              "point, and the one that meets it"),
        (RemoveNotch(piece="front", notch="side notch"),
         "Side notch of the front removed, and the one it meets"),
        (SetGrain(piece="back", lies=Lies.SQUARE, to="waist", turned_deg=-45.0),
         "Grain of the back laid square to the waist, turned 45 degrees clockwise"),
        (SetCut(piece="back", cut="cut 2, a pair"), "Cut instruction of the back: cut 2, a pair"),
        (SetLayer(piece="back", layer=Layer.LINING), "Back set to lining"),
    ],
)  # fmt: skip
def test_the_sentences(step: Kind, sentence: str) -> None:
    assert step.sentence(BLOCK) == sentence


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (AddNotch(piece="back", edge="side", corner="underarm point", distance_mm=60.0,
                  name="side notch"), "has a notch called 'side notch' already"),
        (AddNotch(piece="back", edge="side", corner="underarm point", distance_mm=600.0,
                  name="n"), "off the end of the side"),
        (RemoveNotch(piece="back", notch="hip notch"), "no notch called 'hip notch'"),
        (SetGrain(piece="back", lies=Lies.ALONG, to="hip line"), "no edge or line called"),
        (SetGrain(piece="front", lies=Lies.ALONG, to="centre front", side=BodySide.LEFT),
         "one grain for both sides"),
        (SetCut(piece="sleeve", cut="cut 2"), "no piece called 'sleeve'"),
        (SetLayer(piece="back", layer=Layer.LINING, taken_from="yoke"), "no piece called 'yoke'"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_sentence(step: Kind, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_parameters_that_cannot_be_are_refused() -> None:
    for bad in (
        {"count": 4, "name": "n"}, {"name": "  "},
    ):  # fmt: skip
        with pytest.raises(TrackerError):
            AddNotch(piece="back", edge="side", corner="underarm point", distance_mm=6.0, **bad)
    with pytest.raises(TrackerError):
        SetCut(piece="back", cut=" ")
    with pytest.raises(TrackerError):
        SetLayer(piece="back", layer=Layer.LINING, taken_from="back")
    with pytest.raises(TrackerError):
        SetGrain(piece="back", lies=Lies.ALONG, to="side", turned_deg=100.0)
    with pytest.raises(TrackerError, match="lies:"):
        SetGrain.from_parameters({"piece": "back", "lies": "across", "to": "side"})


@pytest.mark.parametrize("step", [HIP, SetGrain(piece="back", lies=Lies.ALONG, to="centre back")])
def test_a_pattern_without_outlines_gets_its_words(step: Kind) -> None:
    applied = apply_step(step, paper(), "one")
    assert pattern_digest(applied.pattern) == pattern_digest(paper())
    assert applied.effect.leaves[0].startswith(NO_OUTLINE)
