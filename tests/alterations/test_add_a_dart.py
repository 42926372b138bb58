import math
from dataclasses import replace

import pytest
from altering import done
from hypothesis import given
from hypothesis import strategies as st
from irregular import block
from wardrobe import bodice

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides, unfolded
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.reshape_an_edge import AmountAt, ReshapeEdge
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check, folded_kink_deg, ring_fault
from tracker.pattern.measure import around, girth

BLOCK = bodice()


def waist_dart(width: float = 12.0, **more: object) -> AddDart:
    values: dict[str, object] = {
        "piece": "back", "name": "second waist dart", "edge": "waist", "corner": "side waist",
        "distance_mm": 45.0, "width_mm": width, "length_mm": 110.0,
    }  # fmt: skip
    return AddDart.from_parameters(values | more)


def test_a_dart_takes_its_width_out_of_the_edge_as_sewn() -> None:
    done = apply_step(waist_dart(12.0), BLOCK, "one").pattern
    assert girth(BLOCK, "waist line") - girth(done, "waist line") == pytest.approx(24.0, abs=0.3)
    assert girth(BLOCK, "bust line") == girth(done, "bust line")
    assert check(done).clean


def test_its_legs_are_equal_and_the_edge_is_smooth_when_it_is_folded() -> None:
    for corner, distance in (("side waist", 30.0), ("side waist", 60.0)):
        done = apply_step(waist_dart(corner=corner, distance_mm=distance), BLOCK, "one").pattern
        dart = done.piece("back").dart("second waist dart")
        assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=1e-5)
        assert abs(folded_kink_deg(done.piece("back"), dart.name)) < 0.1


def test_a_double_pointed_dart_takes_in_at_a_line_and_leaves_the_edges_alone() -> None:
    step = AddDart(
        piece="back", name="back shaping", edge="waist", corner="side waist", distance_mm=45,
        width_mm=14, length_mm=50, inward_mm=120, toward_edge_mm=70,
    )  # fmt: skip
    done = apply_step(step, BLOCK, "one").pattern
    back = done.piece("back")
    assert back.edges == BLOCK.piece("back").edges
    dart = back.dart("back shaping")
    assert dart.double_pointed
    assert dart.intake_mm == pytest.approx(14.0, abs=0.01)
    # Its upper point, 50 mm above its widest place 120 mm up, stays just under the bust line.
    assert girth(BLOCK, "bust line") == girth(done, "bust line")
    assert girth(BLOCK, "waist line") == girth(done, "waist line")
    assert len(dart.sewn_points) == 2
    assert check(done).clean


def test_a_line_is_broken_where_a_dart_crosses_it() -> None:
    step = waist_dart(length_mm=220.0, width_mm=20.0)
    done = apply_step(step, BLOCK, "one").pattern
    level = done.piece("back").level("bust line")
    assert len(level.strokes) == 2
    # The dart's width 40 mm from its pivot of 220: 20 × 40/220, on both backs (intercept rule).
    taken = girth(BLOCK, "bust line") - girth(done, "bust line")
    assert 2 * 20 * 30 / 220 < taken < 2 * 20 * 60 / 220


@pytest.mark.parametrize("number", range(4))
@pytest.mark.parametrize("share", [0.35, 0.5, 0.7])
@pytest.mark.parametrize("part", ["front", "back"])
def test_an_edge_that_bends_keeps_its_shape_and_loses_what_was_stated(
    part: str, share: float, number: int
) -> None:
    before = block("bodice", number)
    old = before.piece(part).edge("armhole")
    step = AddDart(
        piece=part, name="armhole dart", edge="armhole", corner="shoulder point",
        distance_mm=share * old.length, width_mm=8.0, length_mm=70.0,
    )  # fmt: skip
    new = done(step, before).pattern.piece(part)
    assert old.length - new.edge("armhole").length == pytest.approx(8.0, abs=0.6)
    dart = new.dart("armhole dart")
    assert max(old.nearest(p)[1] for p in (dart.mouth_start, dart.mouth_end)) < 1.6
    assert abs(folded_kink_deg(new, "armhole dart")) < 0.1


def test_what_it_leaves_of_a_seam_is_told_with_what_would_do() -> None:
    step = AddDart(
        piece="back", name="second shoulder dart", edge="shoulder", corner="neck point",
        distance_mm=35.0, width_mm=6.0, length_mm=60.0,
    )  # fmt: skip
    (told,) = done(step, block("bodice", 1)).effect.leaves
    assert told.startswith("shoulder seam: front 115.9 mm, back 109.9 mm")
    assert "the front is 6.0 mm longer against the back than before" in told
    armhole = waist_dart(8.0, edge="armhole", corner="shoulder point", distance_mm=80.0)
    assert any("armhole 8." in t and "shorter" in t for t in done(armhole, BLOCK).effect.leaves)


def test_the_angle_is_that_of_plain_trigonometry() -> None:
    done = apply_step(waist_dart(14.0, length_mm=120.0), BLOCK, "one").pattern
    angle = done.piece("back").dart("second waist dart").angle_rad
    assert angle == pytest.approx(2 * math.atan(14.0 / 2 / 120.0), abs=1e-6)


def test_one_side_only_splits_the_back() -> None:
    done = apply_step(waist_dart(side="left"), BLOCK, "one").pattern
    assert done.piece("back", BodySide.LEFT).dart("second waist dart").side is BodySide.LEFT
    assert all(d.name != "second waist dart" for d in done.piece("back", BodySide.RIGHT).darts)
    assert check(done).clean


def test_a_notch_beyond_the_mouth_stays_on_its_cloth() -> None:
    step = AddDart(
        piece="back", name="side dart", edge="side", corner="side waist", distance_mm=40,
        width_mm=6, length_mm=90,
    )  # fmt: skip
    done = apply_step(step, BLOCK, "one").pattern
    before, after = BLOCK.piece("back").notch("side notch"), done.piece("back").notch("side notch")
    assert after.distance_mm == pytest.approx(before.distance_mm, abs=1.0)


def test_the_mouth_is_told_as_cut_away_and_the_rest_as_carried() -> None:
    done = apply_step(waist_dart(), BLOCK, "one")
    fates = done.trace.of("back", "waist", BodySide.BOTH)
    assert [f.word for f in fates] == ["carried", "cut away", "carried"]
    whole = BLOCK.piece("back").edge("waist").length
    assert sum(f.old.length_mm for f in fates if f.old) == pytest.approx(whole, abs=1e-6)
    gone = fates[1].old
    assert gone is not None
    assert gone.length_mm == pytest.approx(12.0, abs=0.2)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"distance_mm": 3.0}, "does not fit"),
        ({"edge": "wast"}, "Did you mean waist"),
        ({"width_mm": 0.0}, "more than nothing"),
        ({"name": "waist dart"}, "has a waist dart already"),
        ({"inward_mm": 100.0}, "two lengths"),
        ({"inward_mm": 40.0, "toward_edge_mm": 60.0}, "beyond the waist"),
        ({"inward_mm": 100.0, "toward_edge_mm": 60.0, "length_mm": 500.0}, "outside the back"),
    ],
)
def test_a_dart_that_cannot_be_is_refused_in_a_sentence(more: dict[str, object], told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(waist_dart(**more), BLOCK, "one")


@given(
    width=st.floats(4, 20),
    distance=st.floats(35, 70),
    length=st.floats(80, 150),
    lean=st.floats(-8, 8),
)
def test_any_dart_leaves_a_valid_piece_with_a_smooth_folded_edge(
    width: float, distance: float, length: float, lean: float
) -> None:
    step = waist_dart(width, distance_mm=distance, length_mm=length, lean_deg=lean)
    try:
        done = apply_step(step, BLOCK, "one").pattern
    except TrackerError:
        return
    back = done.piece("back")
    dart = back.dart("second waist dart")
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=0.01)
    assert abs(folded_kink_deg(back, dart.name)) < 0.5
    assert around(done, "armhole") == around(BLOCK, "armhole")


def from_the_fold(**more: object) -> AddDart:
    return AddDart.from_parameters(
        {"piece": "front", "name": "chest dart", "edge": "centre front",
         "corner": "centre front neck", "distance_mm": 120.0, "width_mm": 12.0,
         "length_mm": 70.0} | more
    )  # fmt: skip


def test_a_dart_from_the_fold_leaves_the_fold_straight_and_takes_its_width_from_it() -> None:
    block = examples.bodice()
    new = done(from_the_fold(), block).pattern
    front, old = new.piece("front"), block.piece("front")
    assert old.edge("centre front").length - front.edge("centre front").length == pytest.approx(
        12.0, abs=1e-5
    )
    assert all(p.start.real == p.end.real == 0.0 for p in front.edge("centre front").parts)
    assert front.dart("chest dart").intake_mm == pytest.approx(12.0, abs=1e-5)
    assert check(new).clean


def test_opened_out_it_has_two_points_and_its_widest_place_on_the_centre() -> None:
    folded = apply_step(from_the_fold(), examples.bodice(), "one").pattern
    new = split_sides(folded, ["front"]).pattern
    front = new.piece("front")
    assert ring_fault(front) is None
    dart = front.dart("chest dart", BodySide.CENTRE)
    assert dart.double_pointed
    assert dart.intake_mm == pytest.approx(12.0, abs=1e-5)
    assert dart.pivot.real == pytest.approx(-dart.legs[0].end.real, abs=1e-6)
    strokes = front.level("centre front", BodySide.CENTRE).strokes
    sewn = sum(abs(b - a) for a, b in strokes)
    assert sewn == pytest.approx(folded.piece("front").edge("centre front").length, abs=1e-5)
    assert check(new).clean
    # And what comes after it can still be done, to one side and to both.
    for side in BodySide.RIGHT, BodySide.BOTH:
        step = ReshapeEdge(
            piece="front", edge="neckline", side=side,
            amounts=(AmountAt(corner="neck point", distance_mm=40.0, amount_mm=3.0),
                     AmountAt(corner="neck point", distance_mm=0.0, amount_mm=0.0)),
        )  # fmt: skip
        assert ring_fault(apply_step(step, new, "two").pattern.piece("front")) is None


def test_a_stored_dart_that_bent_the_fold_is_opened_out_closed_all_the_same() -> None:
    # As it was drawn before the fold was kept straight: the edge squared to both legs.
    front = examples.bodice().piece("front")
    loose = replace(front, fold=None)
    given = from_the_fold()
    bent = given._added(loose, BodySide.BOTH).piece
    whole = unfolded(replace(bent, fold="centre front"))
    assert ring_fault(whole) is None
    assert whole.dart("chest dart", BodySide.CENTRE).intake_mm == pytest.approx(12.0, abs=0.1)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"side": "right"}, "on the fold, and a dart from there is the same on both halves"),
        ({"lean_deg": 10.0}, "a dart from there goes square to it"),
    ],
)
def test_a_dart_from_the_fold_is_the_same_on_both_halves(
    more: dict[str, object], sentence: str
) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(from_the_fold(**more), examples.bodice(), "one")
