"""Sleeves for real and published bodies, and against published rules of thumb for caps."""

import math

import pytest
from published.bodies import NamedBody, bdims_bodies, chart_bodies, posture_bodies

from tracker.body.ease import DEFAULT_SLEEVE_EASE
from tracker.body.estimate import SLEEVE_NEEDS, estimate
from tracker.drafting.bodice import BodyCannotBeMet, draft_bodice
from tracker.drafting.sleeve import SleeveDraft, draft_sleeve
from tracker.drafting.sleeve_armhole import armholes
from tracker.drafting.sleeve_refusal import SleeveCannotBeMet
from tracker.drafting.sleeve_solve import solve_sleeve
from tracker.drafting.sleeve_wants import Arm, SleeveWants

IN = 25.4


def sleeve_for(one: NamedBody) -> SleeveDraft | None:
    """The sleeve of a body, upper arm measured where the source has it; none without a bodice."""
    try:
        block = draft_bodice(one.body).pattern
    except BodyCannotBeMet:
        return None
    return draft_sleeve(armholes(block)[0], Arm.of(estimate(one.body, SLEEVE_NEEDS)))


def test_hardly_any_body_is_refused_a_sleeve_and_all_others_are_met() -> None:
    # bdims (Heinz, Peterson, Johnson and Kerk, 2003), every sixth of its 260 women with her own
    # upper arm and wrist; sizes of published charts; made-up postures.
    bodies = (*bdims_bodies()[::6], *chart_bodies()[::5], *posture_bodies()[1::6])
    refused, misses, shares = 0, [], []
    for one in bodies:
        try:
            draft = sleeve_for(one)
        except SleeveCannotBeMet:
            refused += 1
            continue
        if draft is not None:
            misses.append(draft.worst_miss)
            shares.append(draft.cap_height_mm / draft.armhole.length_mm)
    assert refused <= 0.02 * len(bodies)
    assert len(misses) > 0.9 * len(bodies)
    assert max(misses) < 0.1
    # Common practice, no source: about a third of the armhole.
    assert 0.31 < sum(shares) / len(shares) < 0.36


def test_the_planned_cap_ease_lies_within_the_published_band() -> None:
    # Santa Rosa Junior College, sleeve fundamentals: 1 to 1 7/8 in.
    line = DEFAULT_SLEEVE_EASE.line("sleeve-cap")
    assert 1.0 * IN <= line.mm <= 1.875 * IN
    assert line.is_usual


def test_the_planned_ease_round_the_arm_is_at_least_what_is_published() -> None:
    # Santa Rosa Junior College, sleeve fundamentals: 1 1/2 to 2 in or more at upper arm, elbow
    # and wrist. Common practice: 4 in is ample at the upper arm.
    for name in ("upper-arm", "elbow", "wrist"):
        assert 1.5 * IN <= DEFAULT_SLEEVE_EASE.mm(name) <= 4.0 * IN


def wants(armhole: float, width: float, ease: float) -> SleeveWants:
    return SleeveWants(
        back_armhole_mm=0.51 * armhole,
        front_armhole_mm=0.49 * armhole,
        cap_ease_mm=ease,
        upper_arm_mm=width,
        elbow_mm=0.86 * width,
        wrist_mm=0.6 * width,
        arm_length_mm=580.0,
        elbow_down_mm=335.0,
    )


@pytest.mark.parametrize("armhole", [380.0, 430.0, 500.0])
@pytest.mark.parametrize("share", [0.74, 0.80, 0.86])
@pytest.mark.parametrize("ease_in", [1.25, 1.5, 1.75])
def test_cap_height_agrees_with_the_triangle_draft(
    armhole: float, share: float, ease_in: float
) -> None:
    # Common practice, no source: a triangle on the upper arm width whose sides are front and back
    # armhole, each + 1/4 in, gives a cap with 1.25 to 1.75 in of ease.
    width = share * armhole
    one, other = 0.51 * armhole + IN / 4, 0.49 * armhole + IN / 4
    half = (one + other + width) / 2
    area = math.sqrt(half * (half - one) * (half - other) * (half - width))
    found = solve_sleeve(wants(armhole, width, ease_in * IN))
    assert found.is_met
    height = float(found.shapes.cap_height[0])
    assert height == pytest.approx(2 * area / width, abs=0.13 * height)


def test_a_sleeve_wider_than_its_armhole_takes_more_than_a_set_in_ease() -> None:
    # School Sewing, one-piece sleeve: armhole 16 in, 17 in wide at the underarm, cap 4 in high:
    # a gathered sleeve. Sewn with the most set-in ease published, 1 7/8 in, a cap on that width
    # would be lower than those 4 in.
    found = solve_sleeve(wants(16 * IN, 17 * IN, 1.875 * IN))
    assert float(found.shapes.cap_height[0]) < 4 * IN
    # On the width of a fitted sleeve the cap is higher than that of the gathered one.
    fitted = solve_sleeve(wants(16 * IN, 13 * IN, 1.25 * IN))
    assert fitted.is_met
    assert float(fitted.shapes.cap_height[0]) > 4 * IN
