"""Profiles: Fritsch and Carlson's monotone cubic, against SciPy's where the two agree."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.geometry.profile import Profile, ProfileError, Sum


@st.composite
def profiles(draw: st.DrawFn, most_mm: float = 30.0) -> Profile:
    """Two to six amounts along 300 mm, at least 5 mm apart."""
    places = sorted(draw(st.sets(st.integers(0, 60), min_size=2, max_size=6)))
    amount = st.one_of(st.just(0.0), st.floats(-most_mm, most_mm).map(lambda v: round(v, 3)))
    return Profile(tuple((5.0 * s, draw(amount)) for s in places))


def between(profile: Profile, i: int, steps: int = 40) -> list[float]:
    (a, _), (b, _) = profile.knots[i], profile.knots[i + 1]
    return [profile.at(a + (b - a) * k / steps)[0] for k in range(steps + 1)]


@given(profile=profiles())
def test_a_profile_takes_each_amount_where_it_was_stated(profile: Profile) -> None:
    for s, amount in profile.knots:
        assert profile.at(s)[0] == pytest.approx(amount, abs=1e-12)


@given(profile=profiles())
def test_a_profile_stays_between_neighbouring_amounts_and_goes_one_way(profile: Profile) -> None:
    for i in range(len(profile.knots) - 1):
        values = between(profile, i)
        low, high = sorted((profile.knots[i][1], profile.knots[i + 1][1]))
        assert low - 1e-9 <= min(values)
        assert max(values) <= high + 1e-9
        rising = sorted(values)
        assert values == pytest.approx(rising, abs=1e-9) or values[::-1] == pytest.approx(
            rising, abs=1e-9
        )


@given(profile=profiles())
def test_a_profile_is_flat_at_a_nothing_and_nothing_between_two(profile: Profile) -> None:
    for s, amount in profile.knots:
        if amount == 0.0:
            assert profile.at(s)[1] == 0.0
            assert profile.at(s - 0.01)[0] == pytest.approx(0.0, abs=0.01)
    for i in range(len(profile.knots) - 1):
        (a, v), (b, w) = profile.knots[i], profile.knots[i + 1]
        nothing = v == 0.0 and w == 0.0
        assert profile.is_zero_between(a, b) is nothing
        if nothing:
            assert set(between(profile, i)) == {0.0}


@given(profile=profiles(), off=st.floats(0, 500))
def test_beyond_the_outermost_places_the_last_amount_holds(profile: Profile, off: float) -> None:
    assert profile.at(profile.knots[0][0] - off) == (profile.knots[0][1], 0.0)
    assert profile.at(profile.knots[-1][0] + off) == (profile.knots[-1][1], 0.0)


@given(profile=profiles(), share=st.floats(0.01, 0.99))
def test_the_slope_told_is_the_slope_there_is(profile: Profile, share: float) -> None:
    a, b = profile.knots[0][0], profile.knots[-1][0]
    s, step = a + (b - a) * share, 1e-4
    if any(abs(s - knot) < 2 * step for knot, _ in profile.knots):
        return
    measured = (profile.at(s + step)[0] - profile.at(s - step)[0]) / (2 * step)
    assert profile.at(s)[1] == pytest.approx(measured, abs=1e-4)


@given(
    places=st.sets(st.integers(0, 60), min_size=4, max_size=8),
    start=st.floats(0.5, 5),
    steps=st.lists(st.floats(0.1, 6), min_size=8, max_size=8),
)
def test_inner_slopes_of_a_rising_profile_are_scipys(
    places: set[int], start: float, steps: list[float]
) -> None:
    # SciPy's PCHIP is the same mean of secants inside; ours is flat at the two ends, so only
    # stretches that touch neither are the same curve.
    from scipy.interpolate import PchipInterpolator

    xs = [5.0 * p for p in sorted(places)]
    ys = [start]
    for step in steps[: len(xs) - 1]:
        ys.append(ys[-1] + step)
    ours, theirs = Profile(tuple(zip(xs, ys, strict=True))), PchipInterpolator(xs, ys)
    for x in xs[1:-1]:
        assert ours.at(x)[1] == pytest.approx(float(theirs.derivative()(x)), rel=1e-9)
    for k in range(101):
        x = xs[1] + (xs[-2] - xs[1]) * k / 100
        assert ours.at(x)[0] == pytest.approx(float(theirs(x)), abs=1e-9)


@given(profile=profiles(), factor=st.floats(-3, 3), s=st.floats(-20, 320))
def test_a_profile_grows_as_its_amounts_do(profile: Profile, factor: float, s: float) -> None:
    value, slope = profile.at(s)
    assert profile.times(factor).at(s) == pytest.approx((value * factor, slope * factor), abs=1e-9)


@given(profile=profiles(), share=st.sampled_from([0.5, 0.3, 2.0, -1.0]))
def test_profiles_of_one_shape_are_added_into_one(profile: Profile, share: float) -> None:
    two = Sum.of([profile, profile.times(share)])
    assert len(two.merged.profiles) <= 1
    for s in (0.0, 40.0, 133.0, 300.0):
        assert two.merged.at(s) == pytest.approx(two.at(s), abs=2e-9)


@given(profile=profiles(), other=profiles())
def test_adding_and_taking_away_again_leaves_the_rest_to_the_last_digit(
    profile: Profile, other: Profile
) -> None:
    back = Sum.of([profile, other, profile.times(-1.0)])
    for s in (0.0, 40.0, 133.0, 300.0):
        assert back.merged.at(s) == pytest.approx(Sum.of([other]).at(s), abs=1e-8)
    assert Sum.of([profile, profile.times(-1.0)]).merged.profiles == ()


def test_an_amount_held_further_in_is_reached_there() -> None:
    profile = Profile(((0.0, 4.0), (100.0, 0.0), (200.0, 10.0)))
    held = profile.held(5.0, 190.0)
    assert held.knots == ((5.0, 4.0), (100.0, 0.0), (190.0, 10.0))
    assert held.at(2.0)[0] == 4.0
    assert held.at(195.0)[0] == 10.0
    # Another place there already is not passed over, nor come too near.
    assert profile.held(120.0, 90.0).knots == ((80.0, 4.0), (100.0, 0.0), (120.0, 10.0))


@pytest.mark.parametrize(
    ("knots", "words"),
    [
        ((), "no amount"),
        (((10.0, 1.0), (10.0, 2.0)), "same place"),
        (((9.0, 1.0), (3.0, 2.0)), "same place"),
    ],
)
def test_amounts_that_make_no_profile_are_refused_in_a_sentence(
    knots: tuple[tuple[float, float], ...], words: str
) -> None:
    with pytest.raises(ProfileError, match=words):
        Profile(knots)
