"""One cut across a piece: opened, closed, hinged; rigid parts, darts, notches, lines, trace."""

import itertools
import math
from dataclasses import replace

import pytest
from cut_across import told
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import back, front

from tracker.alterations.mouth_trued import folded_kink_of
from tracker.alterations.slash import CutAt, Slashed, slashed
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import ring_fault
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Mark
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

BOTH = BodySide.BOTH
FRONT, BACK = front(), back()


def cut(piece: Piece, edge: str, at_mm: float) -> CutAt:
    return CutAt(piece.edge(edge), at_mm)


def blades(amount: float, hinge: float = 90.0, stays: complex = 60 + 100j) -> Slashed:
    """The back from centre back at the blades to the armhole; the upper part turns."""
    return slashed(
        BACK, cut(BACK, "centre back", 110), cut(BACK, "armhole", hinge), amount, 0, stays
    )


def across_waist(amount: float, piece: Piece = BACK) -> Slashed:
    """The back cut square across, 60 mm above the waist, through the waist dart."""
    at = with_line(piece.edge("side").parts[0], 60j, 1 + 0j)[0].first_mm
    return slashed(
        piece, cut(piece, "centre back", 350), cut(piece, "side", at), amount, amount, 60 + 300j
    )


@pytest.mark.parametrize("amount", [3.0, 12.7, 20.0])
def test_a_wedge_about_a_hinge_has_the_angle_of_plain_trigonometry(amount: float) -> None:
    # Project's published checks, section 5 item 5: opening s at distance L is 2 asin(s / 2L).
    length = abs(BACK.edge("centre back").point_at(110) - BACK.edge("armhole").point_at(90))
    assert abs(blades(amount).angle_rad) == pytest.approx(2 * math.asin(amount / 2 / length))


def test_the_published_wedges_have_their_angles() -> None:
    # Section 5 item 5: 12.7 at 175: 4.159 deg; 25.4 at 200: 7.281; 10 at 200: 2.865 [calc].
    for s, length, degrees in ((12.7, 175, 4.159), (25.4, 200, 7.281), (10, 200, 2.865)):
        box = _box(length)
        done = slashed(box, cut(box, "left", 150), cut(box, "right", 150), s, 0, 100 + 10j)
        assert math.degrees(abs(done.angle_rad)) == pytest.approx(degrees, abs=6e-4)


def _box(width: float, height: float = 300.0) -> Piece:
    from tracker.pattern.edge import Edge

    a, b, c, d = 0j, complex(width), complex(width, height), complex(0, height)
    names = (("bottom", a, b), ("right", b, c), ("top", c, d), ("left", d, a))
    return Piece(
        "box", BOTH,
        tuple(Edge(n, BOTH, f"{n} start", f"{n} end", (Curve.line(p, q),)) for n, p, q in names),
        grain=(complex(10, 20), complex(10, 280)),
    )  # fmt: skip


def test_the_area_put_in_is_that_of_the_wedge() -> None:
    # Section 5 item 6: exactly L^2/2 sin(phi) before fairing; fairing rounds both its ends.
    box = _box(200)
    for s in (2.0, 5.0, 10.0, -2.0, -5.0, -10.0):
        done = slashed(box, cut(box, "left", 150), cut(box, "right", 150), s, 0, 100 + 10j)
        wedge = 200**2 / 2 * math.sin(abs(done.angle_rad)) * (1 if s > 0 else -1)
        assert done.gap_area_mm2 == pytest.approx(wedge, rel=0.08)


def test_a_parallel_cut_adds_its_width_times_its_length() -> None:
    # Section 5 item 7: length grows by s, widths are unchanged, area by s times the cut.
    box = _box(200)
    for s in (12.0, -12.0):
        done = slashed(box, cut(box, "left", 150), cut(box, "right", 150), s, s, 100 + 10j)
        assert done.gap_area_mm2 == pytest.approx(200 * s)
        assert done.angle_rad == 0
        assert done.piece.edge("left").length == pytest.approx(300 + s)
        assert len(done.piece.edge("left").parts[0].runs) == 1
        assert done.piece.edge("bottom").length == done.piece.edge("top").length == 200


def test_what_was_opened_and_closed_again_at_one_place_is_the_same_piece() -> None:
    box = _box(200)
    there = slashed(box, cut(box, "left", 150), cut(box, "right", 150), 15, 15, 100 + 290j)
    p = there.piece
    back_again = slashed(p, cut(p, "left", 150), cut(p, "right", 165), -15, -15, 100 + 300j).piece
    assert [c.start for c in back_again.ring] == [c.start for c in box.ring]


@pytest.mark.parametrize("amount", [-12.0, 4.0, 12.0, 20.0])
def test_a_hinge_leaves_its_edge_as_long_as_it_was(amount: float) -> None:
    for at in (60.0, 90.0, 120.0):
        done = blades(amount, at)
        assert done.piece.edge("armhole").length == pytest.approx(
            BACK.edge("armhole").length, abs=0.05
        )


def test_the_part_that_stays_does_not_move_and_the_other_is_rigid() -> None:
    done = blades(14.0)
    new = done.piece
    for name in ("waist", "side"):
        assert new.edge(name) is BACK.edge(name)
    assert new.edge("centre back").point_at(new.edge("centre back").length) == 0j
    for name in ("shoulder", "neckline"):
        assert new.edge(name).length == pytest.approx(BACK.edge(name).length, abs=1e-9)
        old_turn = turn_between(
            BACK.edge("shoulder").parts[0].start_heading, BACK.edge(name).parts[0].end_heading
        )
        new_turn = turn_between(
            new.edge("shoulder").parts[0].start_heading, new.edge(name).parts[0].end_heading
        )
        assert new_turn == pytest.approx(old_turn, abs=1e-12)
    blade, moved = BACK.mark("blade point").point, new.mark("blade point").point
    corners = [BACK.corner("neck point"), BACK.corner("shoulder point")]
    after = [new.corner("neck point"), new.corner("shoulder point")]
    for a, b in zip(corners, after, strict=True):
        assert abs(blade - a) == pytest.approx(abs(moved - b), abs=1e-9)
    assert new.grain == BACK.grain


def test_the_opened_edge_is_as_much_longer_as_it_was_opened() -> None:
    # The gap lies square to the cut; along the centre back it counts by the cosine of the slant.
    slant = BACK.edge("armhole").point_at(90) - 300j
    for amount in (-12.0, 5.0, 12.0):
        grown = blades(amount).piece.edge("centre back").length - BACK.edge("centre back").length
        assert grown == pytest.approx(amount * slant.real / abs(slant), abs=0.06)


@pytest.mark.parametrize("amount", [-14.0, -4.0, 6.0, 18.0])
def test_no_edge_bends_at_a_cut(amount: float) -> None:
    for done in (blades(amount), across_waist(amount)):
        for edge in done.piece.edges:
            for part in edge.parts:
                for one, two in itertools.pairwise(part.segments):
                    a = Curve.of([one]).end_heading
                    b = Curve.of([two]).start_heading
                    assert abs(math.degrees(turn_between(a, b))) < 0.1


@pytest.mark.parametrize("amount", [-20.0, -5.0, 5.0, 20.0, 40.0])
def test_a_dart_the_cut_goes_across_keeps_its_pivot_its_mouth_and_a_smooth_edge(
    amount: float,
) -> None:
    done = across_waist(amount).piece
    was, now = BACK.dart("waist dart"), done.dart("waist dart")
    assert now.pivot == was.pivot
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=0.02)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=1e-5)
    assert now.leg_lengths[0] == pytest.approx(
        math.hypot(was.intake_mm / 2, 170 * math.cos(math.radians(5)) + amount), abs=0.02
    )
    kink = folded_kink_of(done, "waist dart", BOTH) - folded_kink_of(BACK, "waist dart", BOTH)
    assert abs(kink) < 0.11
    assert done.edge("waist").length == pytest.approx(BACK.edge("waist").length, abs=0.05)


def test_notches_keep_to_their_cloth() -> None:
    done = across_waist(20.0).piece
    assert done.notch("side notch").distance_mm == pytest.approx(120.0)  # from the underarm
    assert done.notch("back armhole notch") == BACK.notch("back armhole notch")
    # Measured from the other end, the same notch is as much further off as was put in.
    low = replace(BACK.notch("side notch"), corner="side waist", distance_mm=30.0)
    done = across_waist(20.0, BACK.with_notch(low)).piece
    assert done.notch("side notch").distance_mm == pytest.approx(30.0)
    high = replace(low, distance_mm=140.0)
    done = across_waist(20.0, BACK.with_notch(high)).piece
    assert done.notch("side notch").distance_mm == pytest.approx(160.0, abs=0.3)


def test_a_line_runs_on_across_cloth_put_in_and_is_cut_where_it_is_taken_out() -> None:
    upright = Level("middle", BOTH, ((20 + 10j, 20 + 250j),))
    piece = replace(BACK, levels=(*BACK.levels, upright))
    for amount in (20.0, -20.0):
        strokes = across_waist(amount, piece).piece.level("middle").strokes
        assert len(strokes) == 1
        assert abs(strokes[0][-1] - strokes[0][0]) == pytest.approx(240 + amount)
        # The bust line above the cut stays, and ends on the side drawn again.
        done = across_waist(amount, piece).piece
        ((start, end),) = done.level("bust line").strokes
        assert start == pytest.approx(180j)
        assert end.imag == pytest.approx(180.0)
        assert done.edge("side").nearest(end)[1] < 1e-4


def test_marks_go_with_their_cloth_and_those_taken_out_go_to_the_cut() -> None:
    marks = (
        Mark("low", BOTH, 30 + 20j),
        Mark("high", BOTH, 30 + 200j),
        Mark("gone", BOTH, 30 + 55j),
    )
    piece = replace(BACK, marks=marks)
    done = across_waist(-20.0, piece).piece
    assert done.mark("low").point == pytest.approx(30 + 40j)
    assert done.mark("high").point == 30 + 200j
    assert done.mark("gone").point.imag == pytest.approx(60.0, abs=0.1)
    opened = across_waist(20.0, piece).piece
    assert opened.mark("gone").point == pytest.approx(30 + 35j)


def test_the_grain_line_of_a_lengthened_piece_is_lengthened_with_it() -> None:
    done = across_waist(20.0, replace(BACK, grain=(40 + 50j, 40 + 260j))).piece
    assert done.grain == (pytest.approx(40 + 30j), 40 + 260j)


def _inner(low: float, high: float) -> Dart:
    middle = complex(30, (low + high) / 2)
    points = complex(30, high), middle + 6, middle - 6, complex(30, low)
    legs = Curve.line(points[0], points[1], points[3]), Curve.line(points[0], points[2], points[3])
    return Dart("shaping", BOTH, legs, 0.0, "to the centre", None)


def test_a_double_pointed_dart_moves_with_its_cloth_or_is_made_longer() -> None:
    for low, high, by in ((70.0, 200.0, 0.0), (5.0, 50.0, 0.0), (10.0, 150.0, 20.0)):
        piece = replace(BACK, darts=(*BACK.darts, _inner(low, high)))
        dart = across_waist(20.0, piece).piece.dart("shaping")
        assert abs(dart.legs[0].end - dart.pivot) == pytest.approx(high - low + by)
        assert dart.intake_mm == pytest.approx(12.0, abs=0.1)


def test_a_double_pointed_dart_is_not_slashed_at_an_angle_where_it_is_widest() -> None:
    piece = replace(BACK, darts=(*BACK.darts, _inner(250, 330)))
    with pytest.raises(PatternError, match="go through the shaping of the back"):
        slashed(piece, cut(piece, "centre back", 110), cut(piece, "armhole", 90), 8, 0, 60 + 100j)


@pytest.mark.parametrize("amount", [-9.0, 12.0])
@pytest.mark.parametrize(("low", "high"), [(180.0, 330.0), (240.0, 390.0)])
def test_one_cut_at_an_angle_beside_its_widest_place_is_drawn_again(
    amount: float, low: float, high: float
) -> None:
    piece = replace(BACK, darts=(*BACK.darts, _inner(low, high)))
    done = slashed(
        piece, cut(piece, "centre back", 110), cut(piece, "armhole", 90), amount, 0, 60 + 100j
    )
    was, now = piece.dart("shaping"), done.piece.dart("shaping")
    a, b = now.leg_lengths
    assert a == pytest.approx(b, abs=1e-9)
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=1e-9)
    # Longer, or shorter, by what the wedge is wide there: between its mouth and its hinge.
    longer = abs(now.legs[0].end - now.pivot) - abs(was.legs[0].end - was.pivot)
    assert 0.4 * abs(amount) < longer * (1 if amount > 0 else -1) < abs(amount)


@pytest.mark.parametrize("amount", [-15.0, 15.0])
def test_the_trace_accounts_for_every_millimetre(amount: float) -> None:
    for done in (blades(amount), across_waist(amount)):
        told(Trace(done.fates), BACK, done.piece)
    words = {f.word for f in across_waist(amount).fates}
    assert words == {"carried", "new" if amount > 0 else "cut away"}


@pytest.mark.parametrize(
    ("one", "other", "amounts", "sentence"),
    [
        (("centre back", 100), ("centre back", 200), (5, 5), "both its ends are on the"),
        (("centre back", 100), ("armhole", 90), (5, -5), "opened at both ends, closed at both"),
        (("centre back", 100), ("armhole", 90), (0, 0), "is a hinge at one of them"),
        (("centre back", 1), ("armhole", 90), (5, 0), "too near its end"),
        (("centre back", 350), ("waist", 84.0), (5, 0), "too near its end or a dart"),
        (("centre back", 100), ("side", 60), (-80, -80), "more would be closed"),
        (("centre back", 240), ("side", 170), (5, 5), "through the point of the waist dart"),
        (("centre back", 100), ("shoulder", 60), (300, 0), "too short to be opened"),
        (("side", 150), ("armhole", 190), (4, 0), "would leave the back"),
    ],
)  # fmt: skip
def test_a_cut_that_cannot_be_is_refused_in_a_sentence(
    one: tuple[str, float], other: tuple[str, float], amounts: tuple[float, float], sentence: str
) -> None:
    with pytest.raises(PatternError, match=sentence):
        slashed(BACK, cut(BACK, *one), cut(BACK, *other), *amounts, 60 + 10j)


def test_a_place_on_another_piece_is_refused() -> None:
    stray = replace(BACK.edge("armhole"), side=BodySide.LEFT)
    with pytest.raises(PatternError, match="has no armhole on that side"):
        slashed(BACK, cut(BACK, "centre back", 100), CutAt(stray, 90.0), 5, 0, 60 + 10j)


def test_a_fold_is_not_slashed_at_an_angle() -> None:
    with pytest.raises(PatternError, match="lies on the fold and has to stay straight"):
        slashed(
            FRONT, cut(FRONT, "centre front", 250), cut(FRONT, "armhole", 100), 6, 0, -60 + 100j
        )


SHARE = st.floats(0.02, 0.98)


@given(
    which=st.integers(0, 2),
    ends=st.tuples(st.integers(0, 5), st.integers(0, 5)),
    shares=st.tuples(SHARE, SHARE),
    amount=st.floats(-25, 25).filter(lambda a: abs(a) > 0.1),
    hinge=st.sampled_from([0.0, 0.5, 1.0]),
    stays=st.sampled_from([-60 + 100j, -60 + 330j, 60 + 100j, 60 + 330j]),
)
def test_any_cut_gives_an_outline_or_a_sentence(
    which: int, ends: tuple[int, int], shares: tuple[float, float], amount: float, hinge: float,
    stays: complex,
) -> None:  # fmt: skip
    piece = (FRONT, BACK, replace(FRONT, fold=None))[which]
    one, other = (piece.edges[i] for i in ends)
    a, b = CutAt(one, one.length * shares[0]), CutAt(other, other.length * shares[1])
    try:
        done = slashed(piece, a, b, amount, amount * hinge, stays)
    except PatternError:
        return
    if ring_fault(done.piece) is None:
        told(Trace(done.fates), piece, done.piece)
        for dart in done.piece.darts:
            assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=0.01)
