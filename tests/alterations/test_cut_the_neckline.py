"""Necklines cut lower, higher, wider, narrower: amounts met, shoulders matched, one line."""

import itertools

import pytest
import wardrobe
from drafted import drafted
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.kinds.cut_the_neckline import CutNeckline, NeckShape
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.following import changed_since
from tracker.pattern.measure import around, corner_angle, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

BLOCKS = {"by hand": wardrobe.bodice(), **{f"drafted {n}": drafted(n) for n in range(3)}}


def made(pattern: Pattern, step: Kind) -> Applied:
    return apply_step(step, pattern, "one")


def fresh_findings(before: Pattern, after: Pattern) -> list[str]:
    known = {f.place for f in check(before).findings}
    return [f.sentence for f in check(after).findings if f.place not in known]


@settings(max_examples=25)
@given(
    st.sampled_from(sorted(BLOCKS)), st.floats(-20, 110), st.floats(-12, 110), st.floats(-12, 40)
)
def test_round_every_amount_is_met_and_front_and_back_make_one_line_at_the_shoulder(
    name: str, front: float, back: float, shoulder: float
) -> None:
    assume(front or back or shoulder)
    block = BLOCKS[name]
    done = made(block, CutNeckline(front_mm=front, back_mm=back, shoulder_mm=shoulder))
    new = done.pattern
    assert fresh_findings(block, new) == []
    for piece, amount in (("front", front), ("back", back)):
        before, after = block.piece(piece), new.piece(piece)
        low = f"centre {piece} neck"
        assert before.corner(low).imag - after.corner(low).imag == pytest.approx(amount, abs=1e-4)
        was, now = before.edge("shoulder").length, after.edge("shoulder").length
        assert was - now == pytest.approx(shoulder, abs=1e-4)
        for edge in before.edges:
            if edge.name not in ("neckline", "shoulder", f"centre {piece}"):
                assert after.edge(edge.name).parts == edge.parts
    first, second = side_lengths(new, new.seam("shoulder"))
    was_first, was_second = side_lengths(block, block.seam("shoulder"))
    assert second - first == pytest.approx(was_second - was_first, abs=1e-4)
    for piece_ in block.pieces:
        for edge in piece_.edges:
            fates = done.trace.of(piece_.name, edge.name, edge.side)
            told = sum(f.old.length_mm for f in fates if f.old)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3)


@pytest.mark.parametrize("shape", NeckShape)
@pytest.mark.parametrize("name", BLOCKS)
def test_whatever_its_shape_it_runs_on_over_the_shoulder_seam(name: str, shape: NeckShape) -> None:
    block = BLOCKS[name]
    new = made(
        block,
        CutNeckline(front_mm=70, back_mm=40, shoulder_mm=20, front_shape=shape, back_shape=shape),
    ).pattern
    total = sum(
        corner_angle(new.piece(p), new.piece(p).edge("neckline"), at_end)
        for p, at_end in (("front", True), ("back", False))
    )
    was = sum(
        corner_angle(block.piece(p), block.piece(p).edge("neckline"), at_end)
        for p, at_end in (("front", True), ("back", False))
    )
    assert total == pytest.approx(was, abs=0.01)


def test_round_it_leaves_the_centre_square_and_has_no_corner() -> None:
    new = made(drafted(0), CutNeckline(front_mm=80, shoulder_mm=30)).pattern
    front = new.piece("front")
    neck = front.edge("neckline")
    assert corner_angle(front, neck, at_end=False) == pytest.approx(90.0, abs=0.01)
    (line,) = neck.parts
    headings = [line.heading_at(k) for k in range(int(line.length))]
    assert max(abs(turn_between(a, b)) for a, b in itertools.pairwise(headings)) < 0.05


def test_a_pointed_neckline_is_straight_at_the_centre_and_a_square_one_has_a_corner() -> None:
    pointed = made(drafted(0), CutNeckline(front_mm=100, front_shape=NeckShape.POINTED)).pattern
    (line,) = pointed.piece("front").edge("neckline").parts
    chord = line.end - line.start
    assert abs(turn_between(line.start_heading, chord)) < 1e-6
    square = made(drafted(0), CutNeckline(front_mm=60, front_shape=NeckShape.SQUARE)).pattern
    (line,) = square.piece("front").edge("neckline").parts
    assert len(line.runs) == 2
    assert abs(line.start_heading.imag) < 1e-6


def test_a_line_across_that_was_cut_off_ends_at_the_neckline() -> None:
    block = drafted(0)
    new = made(block, CutNeckline(front_mm=90, shoulder_mm=20)).pattern
    (stroke,) = new.piece("front").level("across front").strokes
    (line,) = new.piece("front").edge("neckline").parts
    assert min(line.nearest(p)[1] for p in (stroke[0], stroke[-1])) < 0.05
    assert girth(new, "across front") < girth(block, "across front")
    assert girth(new, "bust line") == girth(block, "bust line")


def test_how_long_it_is_all_round_is_said_and_that_it_has_to_go_over_the_head() -> None:
    block = drafted(0)
    lower = made(block, CutNeckline(front_mm=60, shoulder_mm=20))
    before, after = around(block, "neckline"), around(lower.pattern, "neckline")
    assert (
        f"neckline all round {before:.1f} mm before, {after:.1f} mm now".replace(".0 mm", " mm")
        in lower.effect.notes
    )
    higher = made(block, CutNeckline(front_mm=-15, back_mm=-10, shoulder_mm=-10))
    assert any("over the head" in note for note in higher.effect.notes)


def test_a_wide_neckline_that_dips_behind_says_by_how_much_to_lower_it() -> None:
    block = drafted(1)
    told = [n for n in made(block, CutNeckline(shoulder_mm=80)).effect.notes if "dips" in n]
    assert len(told) == 1
    assert "of the back" in told[0]
    by = float(told[0].split("dips ")[1].split(" mm")[0])
    again = made(block, CutNeckline(shoulder_mm=80, back_mm=by + 2.0))
    assert not any("dips" in n for n in again.effect.notes)


def test_panels_and_a_front_opened_out_are_cut_too() -> None:
    panelled = made(drafted(1), PanelFront(start="armhole")).pattern
    new = made(panelled, CutNeckline(front_mm=80, shoulder_mm=30)).pattern
    assert fresh_findings(panelled, new) == []
    low = AmountAt(corner="side waist", distance_mm=0.0, amount_mm=4.0)
    opened = made(drafted(1), TakeIn(seam="side", side=BodySide.RIGHT, amounts=(low,))).pattern
    both = made(opened, CutNeckline(front_mm=80, shoulder_mm=30)).pattern
    assert fresh_findings(opened, both) == []
    assert around(both, "neckline") == pytest.approx(around(new, "neckline"), abs=0.05)


def test_a_facing_traced_from_it_is_known_to_be_out_of_date() -> None:
    faced = made(drafted(0), TraceFacing.example().kind).pattern
    facing = next(p for p in faced.pieces if p.layer == "facing")
    assert changed_since(faced, facing) == ()
    new = made(faced, CutNeckline(front_mm=40)).pattern
    again = next(p for p in new.pieces if p.layer == "facing")
    assert changed_since(new, again)


def test_lowered_and_raised_again_the_ends_are_where_they_were() -> None:
    block = drafted(0)
    there = made(block, CutNeckline(front_mm=50, back_mm=20, shoulder_mm=15)).pattern
    back = made(there, CutNeckline(front_mm=-50, back_mm=-20, shoulder_mm=-15)).pattern
    for piece in ("front", "back"):
        for corner in ("neck point", f"centre {piece} neck"):
            gap = abs(back.piece(piece).corner(corner) - block.piece(piece).corner(corner))
            assert gap < 1e-4


def test_replayed_from_its_record_it_gives_the_same_pattern() -> None:
    step = CutNeckline(front_mm=90, shoulder_mm=10, front_shape=NeckShape.POINTED)
    again = CutNeckline.from_parameters(step.parameters())
    assert again == step
    one, two = (made(drafted(0), s).pattern for s in (step, again))
    assert pattern_digest(one) == pattern_digest(two)


def test_the_sentence_says_every_amount() -> None:
    assert CutNeckline(front_mm=60, back_mm=-5, shoulder_mm=30).sentence(drafted(0)) == (
        "Neckline 60 mm lower at the centre front, 5 mm higher at the centre back, 30 mm wider "
        "along each shoulder, round in front and behind"
    )


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    (told,) = made(wardrobe.paper(), CutNeckline(front_mm=30)).effect.leaves
    assert told.startswith("mark it on the paper: Neckline 30 mm lower")


def test_what_cannot_be_is_refused_in_a_sentence() -> None:
    with pytest.raises(TrackerError, match="by how much"):
        CutNeckline()
    with pytest.raises(TrackerError, match=r"at most \d+ mm can be cut.*\d+ mm is the most"):
        made(drafted(0), CutNeckline(shoulder_mm=90))
    with pytest.raises(TrackerError, match="at most"):
        made(drafted(0), CutNeckline(front_mm=400))
    darted = made(drafted(0), _dart_to_the_neck()).pattern
    with pytest.raises(TrackerError, match="turn it elsewhere before"):
        made(darted, CutNeckline(front_mm=20))


def _dart_to_the_neck() -> Kind:
    from tracker.alterations.kinds.turn_a_dart import TurnDart

    return TurnDart(
        piece="front", dart="bust dart", edge="neckline", corner="neck point", distance_mm=40.0
    )
