"""Missing measurements worked out from the others, against published tables."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tracker.body.body import Body
from tracker.body.estimate import BODICE_NEEDS, CannotEstimate, estimate, source_of, spread
from tracker.body.layout import neck_shape, shoulder_point, slope_to_reach
from tracker.body.vocabulary import VOCABULARY

EVERY_KEY = tuple(entry.key for entry in VOCABULARY)
IN = 25.4

# ANSUR II, US Army 2012, women, n = 1,986: mean and standard deviation, mm. (Its waist is taken
# at the navel, lower than where a tape settles, and is left out.)
ANSUR_WOMEN = {
    "hip-girth": (1021.2, 75.9),
    "neck-girth": (329.8, 19.2),
    "neck-base-girth": (371.2, 19.7),
    "shoulder-length": (135.4, 10.3),
    "wrist-girth": (154.8, 7.8),
    "thigh-girth": (616.1, 55.8),
    "calf-girth": (373.3, 28.5),
    "ankle-girth": (215.7, 14.9),
    "arm-length": (543.6, 29.4),
    "back-neck-to-wrist": (806.7, 37.9),
    "inside-leg": (782.3, 44.6),
    "upper-arm-girth": (305.6, 30.8),  # flexed
}


@pytest.mark.parametrize("key", ANSUR_WOMEN)
def test_the_average_soldier_is_estimated_within_one_standard_deviation(key: str) -> None:
    # ANSUR II women: mean stature 1628.5, mean chest 946.9, mean hip 1021.2 mm.
    given_of_her = {"height": 1628.5, "bust-girth": 946.9, "hip-girth": 1021.2}
    given_of_her.pop(key, None)
    estimated = estimate(Body.of(given_of_her), [key]).value(key)
    mean, deviation = ANSUR_WOMEN[key]
    assert abs(estimated - mean) < deviation, (estimated, mean)


# ASTM D5585-11e1 misses (public abstract), sizes 00 to 18, inches.
D5585_BUST = (31.125, 31.75, 34.125, 36.25, 37.25, 38.75, 42.125, 44.0)
D5585 = {
    "neck-base-girth": ((13.25, 13.5, 14.0, 14.625, 14.875, 15.125, 15.75, 16.0), 8),
    "underbust-girth": ((25.75, 26.5, 28.0, 30.0, 31.0, 32.5, 35.75, 37.625), 20),
    "shoulder-girth": ((37.125, 37.75, 39.0, 40.5, 41.25, 42.0, 44.25, 45.5), 28),
}


@pytest.mark.parametrize("key", D5585)
@pytest.mark.parametrize("size", range(8))
def test_the_standards_misses_figures_are_met_over_all_sizes(key: str, size: int) -> None:
    row, within_mm = D5585[key]
    body = estimate(Body.of({"bust-girth": D5585_BUST[size] * IN}), [key])
    assert abs(body.value(key) - row[size] * IN) <= within_mm


# Long-used US home-pattern body chart, sizes 6 to 20, inches: bust, waist, hip, back length.
HOME_CHART = [
    (30.5, 23.0, 32.5, 15.5),
    (31.5, 24.0, 33.5, 15.75),
    (32.5, 25.0, 34.5, 16.0),
    (34.0, 26.5, 36.0, 16.25),
    (36.0, 28.0, 38.0, 16.5),
    (38.0, 30.0, 40.0, 16.75),
    (40.0, 32.0, 42.0, 17.0),
    (42.0, 34.0, 44.0, 17.25),
]


@pytest.mark.parametrize(("bust", "waist", "hip", "back"), HOME_CHART)
def test_the_home_charts_sizes_are_met_from_the_bust_alone(
    bust: float, waist: float, hip: float, back: float
) -> None:
    body = estimate(Body.of({"bust-girth": bust * IN}), EVERY_KEY)
    assert abs(body.value("waist-girth") - waist * IN) <= 15
    assert abs(body.value("hip-girth") - hip * IN) <= 10
    assert abs(body.value("back-neck-to-waist") - back * IN) <= spread("back-neck-to-waist")


@pytest.mark.parametrize(
    ("key", "mm"),
    # Widely printed textbook chart, size 12, bust 88 waist 68 hip 94 cm (from memory).
    [
        ("across-back", 344),
        ("across-front", 324),
        ("shoulder-length", 122.5),
        ("back-neck-to-waist", 410),
        ("upper-arm-girth", 284),
        ("wrist-girth", 160),
        ("hip-depth", 206),
        ("arm-length", 585),
        ("waist-to-knee", 585),
        ("crotch-depth", 280),
        ("outside-leg", 1040),
    ],
)
def test_a_textbook_size_12_is_met_within_one_and_a_half_spreads(key: str, mm: float) -> None:
    body = Body.of({"bust-girth": 880, "waist-girth": 680, "hip-girth": 940, "height": 1660})
    assert abs(estimate(body, [key]).value(key) - mm) <= 1.5 * spread(key)


def test_thigh_is_the_share_of_the_hip_that_bdims_has() -> None:
    # bdims (Heinz et al. 2003), 260 women: mean thigh 572, mean hip 956.5 mm.
    body = estimate(Body.of({"bust-girth": 900, "hip-girth": 956.5}), ["thigh-girth"])
    assert body.value("thigh-girth") == pytest.approx(572, abs=5)


def test_the_neck_of_a_proportional_block_is_found_again() -> None:
    # Published proportional block, B 83: widths 70.58 and 68.58, depth 73.58, rise 23.53 mm;
    # its neckline as two quarter ellipses, integrated here.
    def quarter(a: float, b: float) -> float:
        steps = 20_000
        angles = [math.pi / 2 * (i + 0.5) / steps for i in range(steps)]
        return sum(math.hypot(a * math.sin(t), b * math.cos(t)) for t in angles) * (
            math.pi / 2 / steps
        )

    girth = 2 * (quarter(70.58, 23.53) + quarter(68.58, 73.58))
    neck = neck_shape(girth)
    assert neck.back_width_mm == pytest.approx(70.58, abs=0.6)
    assert neck.front_depth_mm == pytest.approx(73.58, abs=0.6)


def test_a_shoulder_drops_as_trigonometry_says() -> None:
    # Drop over a 12.25 cm shoulder at 22 degrees: 4.59 cm.
    assert -shoulder_point(0j, 122.5, 22).imag == pytest.approx(45.9, abs=0.05)


@given(st.floats(55, 95), st.floats(380, 520), st.floats(95, 170), st.floats(8, 38))
def test_slope_and_shoulder_to_waist_say_the_same(
    width: float, height: float, length: float, slope: float
) -> None:
    neck_point = complex(width, height)
    far = abs(shoulder_point(neck_point, length, slope))
    assert slope_to_reach(neck_point, length, far) == pytest.approx(slope, abs=1e-6)


def test_no_slope_reaches_an_impossible_length() -> None:
    assert slope_to_reach(complex(70, 420), 125, 700) is None


bodies = st.builds(
    lambda bust, waist, hip, height: Body.of(
        {
            "bust-girth": bust,
            "waist-girth": bust * waist,
            "hip-girth": bust * hip,
            "height": height,
        }
    ),
    st.floats(720, 1450),
    st.floats(0.72, 0.98),
    st.floats(0.95, 1.2),
    st.floats(1480, 1850),
)


@given(bodies)
def test_estimates_of_one_body_agree_with_each_other(body: Body) -> None:
    full = estimate(body, EVERY_KEY)
    v = full.value
    assert v("bust-arc-front") + v("bust-arc-back") == pytest.approx(v("bust-girth"))
    assert v("waist-arc-front") + v("waist-arc-back") == pytest.approx(v("waist-girth"))
    assert v("hip-arc-front") + v("hip-arc-back") == pytest.approx(v("hip-girth"))
    assert v("armhole-depth") + v("side-length") == pytest.approx(v("back-neck-to-waist"))
    assert v("neck-point-to-bust-point") + v("bust-point-to-waist") == pytest.approx(
        v("neck-point-over-bust-to-waist")
    )
    assert v("high-bust-girth") < v("bust-girth")
    assert v("underbust-girth") < v("bust-girth")
    assert v("across-front") < v("across-back") + 20 < v("bust-girth") / 2
    assert v("across-back") < v("shoulder-width")
    assert v("neck-point-over-bust-to-waist") > v("neck-point-to-waist-back")
    assert v("centre-front-length") < v("neck-point-over-bust-to-waist") - 50
    assert v("bust-point-to-waist") > 120
    assert v("inside-leg") < v("outside-leg") - 0.7 * v("crotch-depth")


@given(bodies)
def test_nothing_that_was_measured_is_changed_and_what_was_not_is_marked(body: Body) -> None:
    full = estimate(body, BODICE_NEEDS)
    for one in body:
        assert one in full.values
    assert {one.key for one in full.estimates} == set(BODICE_NEEDS) - set(body.keys)
    assert estimate(full, BODICE_NEEDS) == full


@given(bodies, st.sampled_from(BODICE_NEEDS))
def test_an_estimate_forgotten_and_asked_for_again_comes_out_the_same(body: Body, key: str) -> None:
    full = estimate(body, BODICE_NEEDS)
    assume(not body.has(key))
    again = estimate(full.without(key), [key]).value(key)
    assert again == pytest.approx(full.value(key), abs=1e-6)


def test_only_what_is_wanted_is_filled_in() -> None:
    body = estimate(Body.of({"bust-girth": 880}), ["nape to waist"])
    assert body.keys == ("bust-girth", "back-neck-to-waist")
    assert body.is_estimated("back-neck-to-waist")


def test_a_low_right_shoulder_is_followed_on_its_side_only() -> None:
    body = Body.of(
        {"bust-girth": 880, ("shoulder-slope", "right"): 26, ("shoulder-slope", "left"): 21}
    )
    full = estimate(body, ["shoulder-point-to-centre-waist-back"])
    right = full.value("shoulder-point-to-centre-waist-back", "right")
    left = full.value("shoulder-point-to-centre-waist-back", "left")
    assert 6 < left - right < 14


def test_a_slope_is_worked_out_from_shoulder_to_waist_before_any_average() -> None:
    steep = estimate(Body.of({"bust-girth": 880, "shoulder-slope": 30}), EVERY_KEY)
    known = steep.without("shoulder-slope", "shoulder-width")
    assert estimate(known, ["shoulder-slope"]).value("shoulder-slope") == pytest.approx(30)


def test_without_bust_or_high_bust_nothing_is_made_up() -> None:
    with pytest.raises(CannotEstimate, match="bust girth"):
        estimate(Body.of({"waist-girth": 680, "height": 1650}))
    assert estimate(Body.of({"high-bust-girth": 860})).value("bust-girth") == pytest.approx(900)


def test_bust_points_too_far_apart_are_not_estimated_over() -> None:
    body = Body.of(
        {"bust-girth": 880, "neck-point-to-bust-point": 80, "bust-point-to-bust-point": 330}
    )
    with pytest.raises(CannotEstimate, match="measure both again"):
        estimate(body, ["centre-front-length"])


@pytest.mark.parametrize("key", [k for k in EVERY_KEY if k != "bust-girth"])
def test_every_estimate_says_its_spread_and_source(key: str) -> None:
    assert 0 <= spread(key) <= 70
    assert len(source_of(key)) > 5
