import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits, most_within_ease
from tracker.alterations.kind import BadParameters, DoesNotFit
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth
from tracker.pattern.walk import side_lengths

BLOCK = bodice()


def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)


def at_the_waist(amount: float, side: BodySide = BodySide.BOTH) -> TakeIn:
    return TakeIn(
        seam="side", side=side, amounts=(at("underarm point", 0.0), at("side waist", amount))
    )


def test_ten_at_the_waist_to_nothing_at_the_underarm_makes_the_waist_twenty_smaller() -> None:
    done = apply_step(at_the_waist(10.0), BLOCK, "one")
    assert girth(BLOCK, "waist line") - girth(done.pattern, "waist line") == pytest.approx(
        20.0, abs=0.05
    )
    assert around(done.pattern, "armhole") == around(BLOCK, "armhole")
    assert around(done.pattern, "neckline") == around(BLOCK, "neckline")
    assert done.effect.sentence().startswith("waist line 20 mm smaller") or (
        "waist line 20 mm smaller" in done.effect.sentence()
    )


def test_the_sentence_names_both_ends_and_both_shares() -> None:
    assert at_the_waist(10.0).sentence(BLOCK) == (
        "Right and left side seams in 10 mm at the side waist, to nothing at the underarm point: "
        "5 mm from the front and 5 mm from the back"
    )


def test_letting_out_what_was_taken_in_gives_the_pattern_back() -> None:
    taken = apply_step(at_the_waist(10.0), BLOCK, "one").pattern
    back = apply_step(at_the_waist(-10.0), taken, "two").pattern
    for before, after in zip(BLOCK.pieces, back.pieces, strict=True):
        assert after.ring == before.ring
        assert after.levels == before.levels


def test_every_segment_outside_the_reach_is_the_same_to_the_byte() -> None:
    step = TakeIn(seam="side", amounts=(at("underarm point", 0.0, 120), at("side waist", 8.0)))
    done = apply_step(step, BLOCK, "one").pattern
    for name in ("front", "back"):
        before, after = BLOCK.piece(name), done.piece(name)
        for edge in ("centre front", "centre back", "neckline", "shoulder", "armhole"):
            if any(e.name == edge for e in before.edges):
                assert after.edge(edge) == before.edge(edge)


def test_a_centre_seam_is_counted_once() -> None:
    step = TakeIn(
        seam="centre back",
        amounts=(at("centre back waist", 10.0), at("centre back waist", 0.0, 200)),
    )
    done = apply_step(step, BLOCK, "one")
    assert girth(BLOCK, "waist line") - girth(done.pattern, "waist line") == pytest.approx(
        10.0, abs=0.1
    )
    back = done.pattern.piece("back")
    assert abs(back.corner("centre back waist").real - 5.0) < 0.05
    assert "5 mm from each half" in step.sentence(BLOCK)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_leaves_the_other_alone(side: BodySide) -> None:
    done = apply_step(at_the_waist(12.0, side), BLOCK, "one")
    new = done.pattern
    assert girth(new, "waist line", side) == pytest.approx(
        girth(BLOCK, "waist line", side) - 12.0, abs=0.05
    )
    assert girth(new, "waist line", side.opposite) == pytest.approx(
        girth(BLOCK, "waist line", side.opposite), abs=1e-5
    )
    assert {p.label for p in new.pieces} == {"front", "right back", "left back"}
    assert new.piece("front").side is BodySide.CENTRE
    assert check(new).clean
    # A later step for both works on the two of them.
    again = apply_step(at_the_waist(6.0), new, "two").pattern
    assert girth(new, "waist line") - girth(again, "waist line") == pytest.approx(12.0, abs=0.05)


def test_the_left_done_is_the_mirror_image_of_the_right_done() -> None:
    right = apply_step(at_the_waist(9.0, BodySide.RIGHT), BLOCK, "one").pattern
    left = apply_step(at_the_waist(9.0, BodySide.LEFT), BLOCK, "one").pattern
    one, other = right.piece("back", BodySide.RIGHT), left.piece("back", BodySide.LEFT)
    for edge in one.edges:
        twin = other.edge(edge.name)
        assert edge.length == pytest.approx(twin.length, abs=1e-5)
        mirrored = complex(-twin.point_at(twin.length).real, twin.point_at(twin.length).imag)
        assert abs(edge.point_at(0) - mirrored) < 1e-5


def test_what_cannot_be_drawn_is_refused_with_the_most_that_can() -> None:
    with pytest.raises(DoesNotFit) as told:
        apply_step(
            TakeIn(seam="side", amounts=(at("side waist", 400.0),)),
            BLOCK,
            "one",
            {"bust line": 900.0, "waist line": 660.0},
        )
    assert "mm is the most that can be drawn here" in str(told.value)
    assert "the most that leaves her the planned ease" in str(told.value)


def test_the_limit_fits_and_a_little_more_does_not() -> None:
    step = TakeIn(seam="side", amounts=(at("side waist", 400.0),))
    most = most_that_fits(step, BLOCK)
    assert most is not None
    apply_step(step.scaled(most / 400.0), BLOCK, "one")
    with pytest.raises(TrackerError):
        apply_step(step.scaled((most + 1.0) / 400.0), BLOCK, "one")


def test_the_limit_by_ease_leaves_exactly_the_planned_ease() -> None:
    body = {"waist line": girth(BLOCK, "waist line") - 30.0 - 16.0}
    most = most_within_ease(at_the_waist(50.0), BLOCK, body)
    assert most == pytest.approx(8.0, abs=0.5)


@pytest.mark.parametrize(
    ("parameters", "told"),
    [
        ({"seam": "side", "amounts": []}, "how much, and where"),
        ({"seam": "side", "amounts": [
            {"corner": "side waist", "distance_mm": 0, "amount_mm": 0}]}, "nothing to alter"),
        ({"seam": "side", "amount": 3}, "amounts"),
        ({"seam": "side", "amounts": [
            {"corner": "side waist", "distance_mm": "far", "amount_mm": 1}]}, "distance_mm"),
    ],
)  # fmt: skip
def test_parameters_that_cannot_be_are_told_in_a_sentence(
    parameters: dict[str, object], told: str
) -> None:
    with pytest.raises(TrackerError, match=told):
        TakeIn.from_parameters(parameters)
    assert issubclass(BadParameters, TrackerError)


@pytest.mark.parametrize(
    ("step", "told"),
    [
        # a seam that is not there
        (TakeIn(seam="sid", amounts=(at("side waist", 5),)), "Did you mean side"),
        # a corner the seam does not have
        (TakeIn(seam="side", amounts=(at("neck point", 5),)), "has no corner called 'neck point'"),
        # a reading off the end
        (TakeIn(seam="side", amounts=(at("side waist", 5, 900),)), "off the end of the side seam"),
    ],
)
def test_a_place_that_is_not_there_is_told_with_what_would_work(step: TakeIn, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_a_pattern_without_outlines_gets_its_words() -> None:
    done = apply_step(at_the_waist(10.0), paper(), "one")
    assert pattern_digest(done.pattern) == pattern_digest(paper())
    assert done.effect.leaves[0].startswith("mark it on the paper: Right and left side seams in")


def test_what_the_armhole_loses_is_offered_to_the_sleeve() -> None:
    done = apply_step(TakeIn(seam="side", amounts=(at("underarm point", 8.0),)), BLOCK, "one")
    assert any("a sleeve for it needs the same taken out" in told for told in done.effect.leaves)


amounts = st.floats(-12, 12).filter(lambda a: abs(a) > 0.5)


@given(amount=amounts, distance=st.floats(30, 170), share=st.floats(0, 1))
def test_an_amount_is_met_square_to_the_seam_at_its_place(
    amount: float, distance: float, share: float
) -> None:
    step = TakeIn(
        seam="side",
        share=share,
        amounts=(at("underarm point", 0.0), at("underarm point", amount, distance),
                 at("side waist", 0.0)),
    )  # fmt: skip
    done = apply_step(step, BLOCK, "one").pattern
    for name, part in (("front", share), ("back", 1 - share)):
        old, new = BLOCK.piece(name).edge("side"), done.piece(name).edge("side")
        on = distance if name == "front" else old.length - distance
        # Straight out from the old line: where the new one is crossed.
        gap = min(abs(new.point_at(new.length * k / 4000) - old.point_at(on)) for k in range(4001))
        assert gap == pytest.approx(abs(amount) * part, abs=0.06)


@given(amount=amounts)
def test_both_sides_of_a_seam_stay_equally_long(amount: float) -> None:
    done = apply_step(at_the_waist(amount), BLOCK, "one").pattern
    first, second = side_lengths(done, done.seam("side"))
    before = side_lengths(BLOCK, BLOCK.seam("side"))
    assert (first - second) == pytest.approx(before[0] - before[1], abs=1.0)


@given(first=amounts, second=amounts)
def test_two_amounts_at_one_place_add(first: float, second: float) -> None:
    if abs(first + second) < 0.5:
        return
    one_by_one = apply_step(
        at_the_waist(second), apply_step(at_the_waist(first), BLOCK, "one").pattern, "two"
    ).pattern
    at_once = apply_step(at_the_waist(first + second), BLOCK, "three").pattern
    for a, b in zip(one_by_one.pieces, at_once.pieces, strict=True):
        for one, other in zip(a.ring, b.ring, strict=True):
            for k in range(5):
                p, q = one.point_at(one.length * k / 4), other.point_at(other.length * k / 4)
                assert math.isclose(abs(p - q), 0.0, abs_tol=1e-5)


@given(amount=amounts, side=st.sampled_from(BodySide))
def test_the_trace_accounts_for_every_millimetre_of_every_old_edge(
    amount: float, side: BodySide
) -> None:
    if side is BodySide.CENTRE:
        return
    done = apply_step(at_the_waist(amount, side), BLOCK, "one")
    for piece in BLOCK.pieces:
        for edge in piece.edges:
            fates = done.trace.of(piece.name, edge.name, edge.side)
            if not fates:
                continue
            # Split in two, an old stretch may be told twice: once for each half.
            reached = 0.0
            for old in sorted((f.old for f in fates if f.old), key=lambda o: o.start_mm):
                assert old.start_mm <= reached + 1e-3
                reached = max(reached, old.end_mm)
            assert reached == pytest.approx(edge.length, abs=1e-3)
