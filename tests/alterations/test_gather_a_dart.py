"""A dart left open and gathered: the cloth is there, the sewn length as it was."""

import math

import pytest
import wardrobe
from drafted import drafted

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.gather_a_dart import GatherDart
from tracker.alterations.kinds.remove_a_dart import RemoveDart
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.errors import TrackerError
from tracker.output.mouth import gathered_line, mouth_shape
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge, side_lengths, stations
from tracker.tasks.style_darts import DartPlace, DartWish, NotPlaced

TO_SHOULDER = TurnDart(
    piece="front", dart="bust dart", edge="shoulder", corner="neck point", distance_mm=60.0
)


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def test_the_bust_dart_turned_to_the_shoulder_and_gathered_is_sewn_to_the_back_shoulder() -> None:
    block = drafted(0)
    new = done(block, TO_SHOULDER, GatherDart(piece="front", dart="shoulder dart"))
    assert check(new).clean
    first, second = side_lengths(new, new.seam("shoulder"))
    assert first == pytest.approx(second, abs=0.05)
    assert around(new, "shoulder") == pytest.approx(around(block, "shoulder"), abs=1e-5)
    dart = new.piece("front").dart("shoulder dart")
    assert dart.gathered
    assert dart.angle_rad == pytest.approx(block.piece("front").dart("bust dart").angle_rad)


def test_a_notch_stands_at_either_end_of_the_gathers_and_one_to_meet_each() -> None:
    turned = done(drafted(0), TO_SHOULDER)
    new = done(turned, GatherDart(piece="front", dart="shoulder dart", each_side_mm=25.0))
    pairs = stations(new, new.seam("shoulder"))
    assert [round(a, 3) for a, _ in pairs[1:-1]] == [35.0, 85.0]
    assert all(a == pytest.approx(b, abs=0.05) for a, b in pairs)
    told = "; ".join(
        apply_step(
            GatherDart(piece="front", dart="shoulder dart", each_side_mm=25.0), turned, "two"
        ).effect.notes
    )
    assert "of fullness drawn in between the notches, to 50 mm as sewn" in told


def test_the_sentence_says_how_much_cloth_goes_onto_how_much_edge() -> None:
    block = wardrobe.bodice()
    wide = block.piece("front").dart("waist dart").intake_mm
    told = GatherDart(piece="front", dart="waist dart").sentence(block)
    assert told == (
        f"Waist dart of the front left open and gathered: {60 + wide:.1f} mm of cloth onto 60 mm "
        "of the waist, between notches 30 mm and 30 mm to either side of it"
    )


def test_gathers_stop_short_of_the_end_of_the_edge() -> None:
    block = wardrobe.bodice()
    front = block.piece("front")
    new = done(block, GatherDart(piece="front", dart="waist dart", each_side_mm=400.0))
    piece = new.piece("front")
    waist = piece.edge("waist")
    at = [
        notch_on_edge(waist, piece.notch(f"waist dart gathers {word}")) for word in ("start", "end")
    ]
    assert at == pytest.approx([5.0, front.edge("waist").length - 5.0], abs=1e-4)


def test_finished_girths_are_what_they_were_because_gathers_draw_the_mouth_in() -> None:
    block = drafted(0)
    new = done(block, GatherDart(piece="front", dart="waist dart"))
    for line in ("bust line", "waist line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=1e-6)


def test_it_is_cut_on_a_smooth_line_and_not_in_the_shape_of_a_folded_dart() -> None:
    block = wardrobe.bodice()
    piece = done(block, GatherDart(piece="front", dart="waist dart")).piece("front")
    dart, waist = piece.dart("waist dart"), piece.edge("waist")
    line = gathered_line(piece, dart)
    assert line.start_heading == pytest.approx(waist.parts[0].end_heading, abs=1e-9)
    assert line.end_heading == pytest.approx(waist.parts[1].start_heading, abs=1e-9)
    shape = mouth_shape(piece, dart)
    assert shape[0] == dart.mouth_start
    assert abs(shape[-1] - dart.mouth_end) < 1e-9
    folded = mouth_shape(block.piece("front"), block.piece("front").dart("waist dart"))
    lowest = min(p.imag for p in folded)
    assert lowest < min(p.imag for p in shape) - 1.0


def test_one_body_side_is_gathered_and_the_other_sewn() -> None:
    new = done(drafted(0), GatherDart(piece="front", dart="waist dart", side=BodySide.LEFT))
    front = new.piece("front")
    assert {str(d.side): d.gathered for d in front.darts if d.name == "waist dart"} == {
        "right": False, "left": True,
    }  # fmt: skip
    assert check(new).clean


def test_replayed_from_its_record_it_gives_the_same_pattern() -> None:
    step = GatherDart(piece="front", dart="waist dart", each_side_mm=40.0)
    again = GatherDart.from_parameters(step.parameters())
    block = drafted(0)
    assert pattern_digest(done(block, again)) == pattern_digest(done(block, step))


def test_turned_away_it_is_sewn_again() -> None:
    block = drafted(0)
    new = done(block, TO_SHOULDER, GatherDart(piece="front", dart="shoulder dart"))
    back = done(new, TurnDart(
        piece="front", dart="shoulder dart", edge="side", corner="underarm point",
        distance_mm=60.0, name="bust dart",
    ))  # fmt: skip
    assert not back.piece("front").dart("bust dart").gathered


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    effect = apply_step(
        GatherDart(piece="front", dart="waist dart"), wardrobe.paper(), "one"
    ).effect
    assert effect.leaves == (
        "mark it on the paper: Waist dart of the front left open and gathered between notches "
        "30 mm to either side of it",
    )


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"dart": "wast dart"}, "Did you mean waist dart"),
        ({"each_side_mm": 2.0}, "5 mm to either side of the mouth at least"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        done(drafted(0), GatherDart(**({"piece": "front", "dart": "waist dart"} | more)))


def test_gathered_twice_is_refused() -> None:
    step = GatherDart(piece="front", dart="waist dart")
    with pytest.raises(TrackerError, match="gathered already"):
        done(drafted(0), step, step)


# -- a dart shared out ----------------------------------------------------------------------


def at(edge: str, corner: str, mm: float, share: float | None = None) -> DartPlace:
    return DartPlace(share=share, edge=edge, corner=corner, distance_mm=mm)


PLACES = (
    at("shoulder", "neck point", 60.0, 0.4),
    at("armhole", "shoulder point", 60.0),
    at("neckline", "neck point", 40.0),
    DartPlace(share=0.2, into="waist dart"),
)


@pytest.mark.parametrize("number", range(3))
def test_a_dart_shared_out_loses_what_the_others_gain_and_no_other_edge_changes(
    number: int,
) -> None:
    """The cone's angle deficit (Gauss and Bonnet) is the same however it is shared out."""
    block = drafted(number)
    front = block.piece("front")
    wish = DartWish(piece="front", dart="bust dart", to=PLACES)
    new = done(block, *wish.kinds())
    assert check(new).clean
    piece = new.piece("front")
    whole = front.dart("bust dart").angle_rad
    assert not [d for d in piece.darts if d.name == "bust dart"]
    assert piece.dart("shoulder dart").angle_rad == pytest.approx(0.4 * whole, abs=1e-7)
    assert piece.dart("armhole dart").angle_rad == pytest.approx(0.2 * whole, abs=1e-7)
    assert piece.dart("neckline dart").angle_rad == pytest.approx(0.2 * whole, abs=1e-7)
    assert sum(d.angle_rad for d in piece.darts) == pytest.approx(
        sum(d.angle_rad for d in front.darts), abs=1e-7
    )
    for edge in ("neckline", "shoulder", "armhole", "waist", "centre front"):
        assert piece.edge(edge).length == pytest.approx(front.edge(edge).length, abs=1e-5), edge
    assert new.piece("back") == block.piece("back")


def test_any_edge_will_do_that_sees_the_point() -> None:
    block = drafted(0)
    for edge in ("shoulder", "armhole", "neckline", "centre front"):
        one = block.piece("front").edge(edge)
        wish = DartWish(
            piece="front", dart="bust dart", to=(at(edge, one.start, one.length / 2, 0.5),)
        )
        if edge == "centre front":
            # Only the fold is no place: it would be bent.
            with pytest.raises(TrackerError, match="lies on the fold and stays straight"):
                done(block, *wish.kinds())
        else:
            assert check(done(block, *wish.kinds())).clean, edge


def test_two_new_darts_on_one_edge_have_two_names() -> None:
    wish = DartWish(
        piece="front", dart="bust dart",
        to=(at("shoulder", "neck point", 40.0), at("shoulder", "neck point", 80.0)),
    )  # fmt: skip
    names = {d.name for d in done(drafted(0), *wish.kinds()).piece("front").darts}
    assert {"shoulder dart", "shoulder dart 2"} <= names


def test_shared_out_and_gathered_each_new_mouth_is_gathered() -> None:
    wish = DartWish(
        piece="front", dart="bust dart", sewn="gathers", spread_mm=15.0,
        to=(at("shoulder", "neck point", 40.0), at("shoulder", "neck point", 85.0)),
    )  # fmt: skip
    new = done(drafted(0), *wish.kinds())
    assert all(d.gathered for d in new.piece("front").darts if d.mouth == "shoulder")
    assert check(new).clean


def test_eased_where_it_was_taken_to_it_is_planned_in_the_seam() -> None:
    wish = DartWish(
        piece="front", dart="bust dart", sewn="ease",
        to=(at("shoulder", "neck point", 60.0, 0.1),),
    )  # fmt: skip
    assert isinstance(wish.kinds()[-1], RemoveDart)
    block = drafted(1)
    new = done(block, *wish.kinds())
    angle = 0.1 * block.piece("front").dart("bust dart").angle_rad
    point = block.piece("front").mark("bust point").point
    there = block.piece("front").edge("shoulder").point_at(60.0)
    wide = 2 * abs(there - point) * math.sin(angle / 2)
    before, after = (p.seam("shoulder").planned_ease_mm for p in (block, new))
    # The front is the first side: what it is longer is less ease of the back.
    assert before - after == pytest.approx(wide, abs=0.3)
    assert check(new).clean


@pytest.mark.parametrize(
    ("wish", "sentence"),
    [
        (DartWish(piece="front", dart="bust dart"), "where to"),
        (DartWish(piece="front", dart="bust dart", sewn="pleats"), "not as “pleats”"),
        (
            DartWish(piece="front", dart="bust dart", to=(
                at("shoulder", "neck point", 40.0, 0.7), at("shoulder", "neck point", 80.0, 0.7)
            )),
            "add up to 140%",
        ),
        (
            DartWish(piece="front", dart="bust dart", to=(
                at("shoulder", "neck point", 40.0, 1.0), at("shoulder", "neck point", 80.0)
            )),
            "nothing is left for the others",
        ),
    ],
)  # fmt: skip
def test_what_is_asked_of_a_dart_has_to_add_up(wish: DartWish, sentence: str) -> None:
    with pytest.raises(NotPlaced, match=sentence):
        wish.kinds()
