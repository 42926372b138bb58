"""A base line displaced by a profile: exact where it can be, within 0.02 mm elsewhere."""

import math
from itertools import pairwise

import pytest
from curves_for_tests import GENTLE
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from test_profile import profiles

from tracker.geometry import bezier
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.fit import fitted
from tracker.geometry.point import FIT_MM, Point, left_of, turn_between, unit
from tracker.geometry.profile import Profile, Sum

STRAIGHT = Curve.line(10 + 20j, 10 + 320j)
BENT = Curve.line(0j, 150 + 0j, 150 + 150j)  # a corner to the left


@st.composite
def s_curves(draw: st.DrawFn) -> Curve:
    """Two cubics, smoothly joined: a seam that bends one way and then the other."""
    a = complex(0, 0)
    b = complex(draw(st.floats(60, 120)), draw(st.floats(-40, 40)))
    c = b + complex(draw(st.floats(60, 120)), draw(st.floats(-40, 40)))
    h0, h1, h2 = (
        complex(math.cos(t), math.sin(t)) for t in (draw(st.floats(-0.6, 0.6)) for _ in range(3))
    )
    one, two = abs(b - a) / 3, abs(c - b) / 3
    return Curve.of([(a, a + h0 * one, b - h1 * one, b), (b, b + h1 * two, c - h2 * two, c)])


def true_points(base: Curve, amounts: Sum, steps: int = 200) -> list[Point]:
    """The displaced line by its own definition, point by point."""
    out = []
    for k in range(steps + 1):
        s = base.length * k / steps
        out.append(base.point_at(s) + left_of(base.heading_at(s)) * amounts.at(s)[0])
    return out


def scaled_to(profile: Profile, base: Curve) -> Profile:
    return Profile(tuple((s / 300.0 * base.length, v) for s, v in profile.knots))


@settings(max_examples=25)
@given(base=s_curves(), profile=profiles(12.0))
def test_a_displaced_curve_is_drawn_within_its_tolerance(base: Curve, profile: Profile) -> None:
    amounts = Sum.of([scaled_to(profile, base)])
    drawn = displaced(base, amounts)
    assert max(drawn.nearest(p)[1] for p in true_points(base, amounts)) <= FIT_MM
    # And the other way: the drawn line strays nowhere else.
    from shapely import LineString
    from shapely import Point as Spot

    told = LineString([(p.real, p.imag) for p in true_points(base, amounts, 1500)])
    for k in range(101):
        p = drawn.point_at(drawn.length * k / 100)
        assert told.distance(Spot(p.real, p.imag)) <= FIT_MM


@given(base=s_curves(), one=profiles(6.0), other=profiles(6.0))
def test_a_sum_of_profiles_is_drawn_within_the_tolerance_too(
    base: Curve, one: Profile, other: Profile
) -> None:
    amounts = Sum.of([scaled_to(one, base), scaled_to(other, base)])
    drawn = displaced(base, amounts)
    assert max(drawn.nearest(p)[1] for p in true_points(base, amounts)) <= FIT_MM


@given(profile=profiles())
def test_a_straight_base_is_displaced_exactly(profile: Profile) -> None:
    amounts = Sum.of([profile])
    drawn = displaced(STRAIGHT, amounts)
    for p in true_points(STRAIGHT, amounts, 120):
        # The line runs up and its left is −x: at each height the amount and nothing else.
        along, gap = drawn.nearest(p)
        assert gap < 1e-6
        assert along >= 0.0


def test_a_straight_base_moved_the_same_all_along_stays_straight() -> None:
    drawn = displaced(STRAIGHT, Sum.of([Profile(((0.0, 7.5),))]))
    assert drawn.runs == ((2.5 + 320j,),)
    assert drawn.start == 2.5 + 20j


@pytest.mark.parametrize(
    "base", [STRAIGHT, Curve.of([GENTLE[0]]), Curve.of([GENTLE[0], (GENTLE[0][3], 150 - 190j)])]
)
@given(profile=profiles(12.0))
def test_a_displacement_and_its_negative_leave_the_base_byte_for_byte(
    base: Curve, profile: Profile
) -> None:  # fmt: skip
    scaled = scaled_to(profile, base)
    assert displaced(base, Sum.of([scaled, scaled.times(-1.0)])) == base


@given(base=s_curves(), share=st.floats(0.05, 0.45), amount=st.floats(-10, 10))
def test_what_does_not_move_stays_byte_equal(base: Curve, share: float, amount: float) -> None:
    assume(abs(amount) > 0.1)
    reach = base.lengths[0]
    profile = Profile(((0.0, amount), (share * reach, amount / 2), (0.9 * reach, 0.0)))
    drawn = displaced(base, Sum.of([profile]))
    assert drawn.segments[-1] == base.segments[-1]
    # The rest of the cut segment is the same curve.
    rest = drawn.segments[-2]
    for k in range(5):
        assert base.nearest(bezier.point_on(rest, k / 4))[1] < 1e-6


@given(base=s_curves(), one=profiles(8.0), share=st.floats(0.55, 0.75), amount=st.floats(1, 6))
def test_a_further_step_leaves_what_it_does_not_reach_as_it_was_drawn(
    base: Curve, one: Profile, share: float, amount: float
) -> None:
    first = scaled_to(one, base)
    at = share * base.length
    further = Profile(((at, 0.0), (at + 15.0, amount), (at + 30.0, 0.0)))
    before, after = displaced(base, Sum.of([first])), displaced(base, Sum.of([first, further]))
    # Every segment that ends before the step's reach is the same to the last digit …
    kept = [
        s for s in before.segments if base.nearest(s[-1])[0] < at - 0.5 - 0.0 * amount
        and base.nearest(s[0])[0] < at - 0.5
    ]  # fmt: skip
    whole = [s for s in kept if s in after.segments]
    assert len(whole) >= len(kept) - 1
    # … and the drawn line up to there the same curve.
    for k in range(40):
        spot = before.point_at(before.length * k / 40)
        if base.nearest(spot)[0] < at - 12.0:
            assert after.nearest(spot)[1] < 1e-6


@given(base=s_curves(), one=profiles(8.0), share=st.sampled_from([0.25, 0.5, 0.6]))
def test_an_amount_in_two_steps_is_drawn_as_in_one(base: Curve, one: Profile, share: float) -> None:
    whole = scaled_to(one, base)
    part, rest = whole.times(share), whole.times(1.0 - share)
    once, twice = displaced(base, Sum.of([whole])), displaced(base, Sum.of([part, rest]))
    for a, b in zip(once.segments, twice.segments, strict=True):
        assert max(abs(p - q) for p, q in zip(a, b, strict=True)) < 1e-6


@given(base=s_curves(), one=profiles(8.0), other=profiles(5.0))
def test_a_displaced_smooth_line_is_smooth(base: Curve, one: Profile, other: Profile) -> None:
    drawn = displaced(base, Sum.of([scaled_to(one, base), scaled_to(other, base)]))
    for a, b in pairwise(drawn.segments):
        assert a[-1] == b[0]
        kink = abs(turn_between(bezier.heading(a, 1.0), bezier.heading(b, 0.0)))
        assert math.degrees(kink) < 0.5


@pytest.mark.parametrize(("amount", "corner"), [(10.0, 140 + 10j), (-10.0, 160 - 10j)])
def test_a_corner_inside_a_base_stays_a_corner(amount: float, corner: Point) -> None:
    drawn = displaced(BENT, Sum.of([Profile(((0.0, amount),))]))
    assert drawn == Curve.line(complex(0, amount), corner, complex(150 - amount, 150))


def test_a_corner_between_curves_is_mitred_too() -> None:
    up = Curve.cubic(0j, 30 + 3j, 60 + 3j, 90 + 0j).joined(
        Curve.cubic(90 + 0j, 100 + 30j, 100 + 60j, 95 + 90j)
    )
    for amount in (6.0, -6.0):
        drawn = displaced(up, Sum.of([Profile(((0.0, amount),))]))
        assert abs(up.nearest(drawn.point_at(30.0))[1] - 6.0) < FIT_MM
        for k in range(41):
            off = up.nearest(drawn.point_at(drawn.length * k / 40))[1]
            assert off >= 6.0 - FIT_MM  # a mitre stands further off at its point, never nearer


def test_a_fitted_line_meets_its_ends_and_directions() -> None:
    def spiral(t: float) -> tuple[Point, Point]:
        turn = complex(math.cos(3 * t), math.sin(3 * t))
        return (40 + 30 * t) * turn, 30 * turn + (40 + 30 * t) * 3j * turn

    drawn = Curve.of(fitted(spiral))
    for k in range(201):
        assert drawn.nearest(spiral(k / 200)[0])[1] <= FIT_MM
    assert abs(drawn.start_heading - unit(spiral(0.0)[1])) < 1e-9
    assert abs(drawn.end_heading - unit(spiral(1.0)[1])) < 1e-9
    # The same from directions of no particular length.
    again = Curve.of(fitted(lambda t: (spiral(t)[0], unit(spiral(t)[1]))))
    for k in range(201):
        assert again.nearest(spiral(k / 200)[0])[1] <= FIT_MM
