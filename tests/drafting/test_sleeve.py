"""A set-in sleeve meets its armhole and its arm, and has the shape a cutter looks for."""

import cmath
import itertools
import math
from dataclasses import replace

import pytest
from drafted import drafted
from published.bodies import NamedBody, chart_bodies, posture_bodies

from tracker.body.body import Body
from tracker.body.ease import DEFAULT_SLEEVE_EASE
from tracker.body.estimate import SLEEVE_NEEDS, estimate
from tracker.body.vocabulary import BY_KEY
from tracker.drafting.bodice import draft_bodice
from tracker.drafting.sleeve import SleeveDraft, draft_sleeve
from tracker.drafting.sleeve_armhole import Armhole, NoArmhole, NotchThere, armholes
from tracker.drafting.sleeve_elbow import NoElbowDart
from tracker.drafting.sleeve_refusal import SleeveCannotBeMet, sleeve_refusal
from tracker.drafting.sleeve_solve import solve_sleeve
from tracker.drafting.sleeve_wants import Arm, ArmNotMeasured, sleeve_wants
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.pattern import Pattern

ARM = Arm(upper_arm_mm=284, elbow_mm=260, wrist_mm=160, arm_length_mm=585, shoulder_to_elbow_mm=340)
"""Upper arm, wrist and arm length of a textbook size 12 (from memory); the elbow estimated."""


def hole(length: float = 430.0, back_share: float = 0.51, notch_up: float = 78.0) -> Armhole:
    """An armhole of a length, of no bodice."""
    return Armhole(
        BodySide.BOTH,
        (),
        length,
        length * back_share,
        "back",
        (
            NotchThere("back", "back armhole notch", notch_up, 2),
            NotchThere("front", "front armhole notch", length - notch_up, 1),
        ),
    )


CASES = {
    "textbook": (hole(), ARM),
    "small armhole": (hole(370), Arm(upper_arm_mm=262, elbow_mm=245, wrist_mm=146,
                                     arm_length_mm=540, shoulder_to_elbow_mm=312)),
    "large arm": (hole(560), Arm(upper_arm_mm=420, elbow_mm=318, wrist_mm=168,
                                 arm_length_mm=570, shoulder_to_elbow_mm=332)),
    "thin arm in a deep armhole": (hole(470), Arm(upper_arm_mm=255, elbow_mm=242, wrist_mm=150,
                                                  arm_length_mm=610, shoulder_to_elbow_mm=350)),
    "front longer than the back": (hole(440, 0.48), ARM),
}  # fmt: skip


@pytest.fixture(scope="module", params=CASES.values(), ids=CASES.keys())
def sleeve(request: pytest.FixtureRequest) -> SleeveDraft:
    where, arm = request.param
    return draft_sleeve(where, arm)


def turns_deg(curve: Curve, steps: int = 120) -> list[float]:
    """By how much a curve turns, step by step of equal length; left is positive."""
    ways = [curve.heading_at(curve.length * k / steps) for k in range(steps + 1)]
    return [math.degrees(cmath.phase(b / a)) for a, b in itertools.pairwise(ways)]


LOW = [
    (430.0, 325.0), (430.0, 345.0), (444.0, 355.0), (400.0, 318.0), (470.0, 375.0), (520.0, 415.0),
]  # fmt: skip


@pytest.mark.parametrize(("armhole_mm", "upper_arm_mm"), LOW)
def test_a_low_cap_is_round_on_top_not_flat_with_shoulders(
    armhole_mm: float, upper_arm_mm: float
) -> None:
    arm = Arm(
        upper_arm_mm=upper_arm_mm, elbow_mm=0.85 * upper_arm_mm, wrist_mm=0.52 * upper_arm_mm,
        arm_length_mm=585, shoulder_to_elbow_mm=340,
    )  # fmt: skip
    made = draft_sleeve(hole(armhole_mm), arm)
    piece = made.piece
    cap = piece.edge("cap").drawn[0]
    at_top = cap.length - piece.notch("shoulder notch").distance_mm
    # By how much it turns on 8 mm at the top, and at most anywhere on 8 mm.
    turns = turns_deg(cap, steps=int(cap.length / 8))
    middle = int(at_top / 8)
    assert min(turns[middle - 1 : middle + 2]) > 0.45 * max(turns)
    # The height is near all that a cap of this width and length can have: two straight lines'.
    width = abs(cap.end - cap.start)
    most = math.sqrt((cap.length / 2) ** 2 - (width / 2) ** 2)
    assert made.cap_height_mm > 0.8 * most


def test_everything_wanted_is_met_to_a_tenth_of_a_millimetre(sleeve: SleeveDraft) -> None:
    assert sleeve.worst_miss < 0.1
    names = {row.name for row in sleeve.wanted}
    assert {"cap", "upper arm", "elbow", "wrist", "arm length"} <= names


def test_every_chosen_figure_lies_in_its_range_and_says_where_it_comes_from(
    sleeve: SleeveDraft,
) -> None:
    for row in sleeve.chosen:
        assert None not in (row.low, row.high, row.got)
        assert (row.low or 0) <= (row.got or 0) <= (row.high or 0), row.name
        assert row.note


def test_the_cap_is_as_long_as_the_armhole_and_its_ease_measured_apart(sleeve: SleeveDraft) -> None:
    from scipy.integrate import quad

    total = 0.0
    for a, b, c, d in sleeve.piece.edge("cap").drawn[0].segments:
        total += quad(
            lambda t, a=a, b=b, c=c, d=d: abs(
                3 * ((1 - t) ** 2 * (b - a) + 2 * (1 - t) * t * (c - b) + t * t * (d - c))
            ),
            0.0,
            1.0,
        )[0]
    assert total == pytest.approx(sleeve.armhole.length_mm + 30.0, abs=1e-4)


def test_nothing_is_eased_below_the_notches(sleeve: SleeveDraft) -> None:
    piece = sleeve.piece
    assert piece.notch("back cap notch").distance_mm == pytest.approx(78.0, abs=1e-4)
    assert piece.notch("front cap notch").distance_mm == pytest.approx(78.0, abs=1e-4)
    assert [piece.notch(n).count for n in ("back cap notch", "shoulder notch", "front cap notch")] \
        == [2, 1, 1]  # fmt: skip


def test_the_cap_turns_once_from_hollow_to_round_on_each_side_and_nowhere_else(
    sleeve: SleeveDraft,
) -> None:
    # Going round with the cloth on the left, hollow turns right and round turns left.
    turns = turns_deg(sleeve.piece.edge("cap").drawn[0])
    signs = [turn > 0 for turn in turns if abs(turn) > 0.02]
    changes = [k for k, (a, b) in enumerate(itertools.pairwise(signs)) if a != b]
    assert len(changes) == 2
    assert not signs[0]
    assert not signs[-1]


def test_the_cap_rises_all_the_way_to_its_top_where_it_is_level(sleeve: SleeveDraft) -> None:
    cap = sleeve.piece.edge("cap").drawn[0]
    top = cap.length - sleeve.piece.notch("shoulder notch").distance_mm
    heights = [cap.point_at(cap.length * k / 200).imag for k in range(201)]
    peak = max(range(201), key=heights.__getitem__)
    # A sleeve that widens below its underarm dips there by less than a line is wide.
    assert all(b > a - 0.4 for a, b in itertools.pairwise(heights[: peak + 1]))
    assert all(b < a + 0.4 for a, b in itertools.pairwise(heights[peak:]))
    assert abs(cap.heading_at(top).imag) < 1e-4
    assert cap.point_at(top).real == pytest.approx(0.0, abs=1e-4)


def test_the_cap_has_no_flat_and_no_hook_at_its_top(sleeve: SleeveDraft) -> None:
    # Common practice, no source: a crown is round, neither a point nor a table.
    cap = sleeve.piece.edge("cap").drawn[0]
    top = cap.length - sleeve.piece.notch("shoulder notch").distance_mm
    for to in (-15.0, 15.0):
        turn = abs(cmath.phase(cap.heading_at(top + to) / cap.heading_at(top)))
        assert 35.0 < 15.0 / turn < 220.0


def test_no_step_of_the_cap_bends_like_a_corner(sleeve: SleeveDraft) -> None:
    assert max(map(abs, turns_deg(sleeve.piece.edge("cap").drawn[0]))) < 8.0


def test_the_front_is_hollowed_deeper_than_the_back(sleeve: SleeveDraft) -> None:
    cap = sleeve.piece.edge("cap").drawn[0]
    top = cap.length - sleeve.piece.notch("shoulder notch").distance_mm

    def hollow(start: float, end: float) -> float:
        a, b = cap.point_at(start), cap.point_at(end)
        way = (b - a) / abs(b - a)
        spots = (cap.point_at(start + (end - start) * k / 100) for k in range(101))
        return max(((p - a) * way.conjugate()).imag for p in spots)

    assert hollow(0.0, top) > hollow(top, cap.length) + 0.9


def test_the_underarm_edges_are_equal_and_both_lines_run_through_them(sleeve: SleeveDraft) -> None:
    rows = {row.name: row for row in sleeve.wanted}
    front, back = (sleeve.piece.edge(f"{n} underarm").length for n in ("front", "back"))
    assert front == pytest.approx(back, abs=1e-4)
    for name in ("cap through the underarm seam", "wrist through the underarm seam"):
        assert rows[name].got == pytest.approx(180.0, abs=0.01)


def test_the_lines_are_level_and_the_grain_plumb(sleeve: SleeveDraft) -> None:
    for name in ("upper arm line", "elbow line"):
        stroke = sleeve.piece.level(name).strokes[0]
        assert stroke[0].imag == pytest.approx(stroke[-1].imag, abs=1e-5)
    grain = sleeve.piece.grain
    assert grain is not None
    assert grain[0].real == grain[1].real
    assert grain[0].imag < grain[1].imag


def test_the_same_arm_gives_the_same_sleeve() -> None:
    one, two = (Pattern((draft_sleeve(hole(), ARM).piece,)) for _ in range(2))
    assert pattern_digest(one) == pattern_digest(two)


def test_more_upper_arm_in_the_same_armhole_lowers_the_cap() -> None:
    heights = [
        draft_sleeve(hole(), replace(ARM, upper_arm_mm=girth)).cap_height_mm
        for girth in (260, 280, 300, 320)
    ]
    assert heights == sorted(heights, reverse=True)
    assert heights[0] - heights[-1] > 20


@pytest.mark.parametrize("ease_mm", [0.0, 13.0, 48.0])
def test_cap_ease_is_what_was_planned(ease_mm: float) -> None:
    draft = draft_sleeve(hole(), ARM, DEFAULT_SLEEVE_EASE.with_line("sleeve-cap", ease_mm))
    assert draft.piece.edge("cap").length == pytest.approx(430.0 + ease_mm, abs=1e-4)
    assert sum(draft.eases) == pytest.approx(ease_mm)


# ------------------------------------------------------------------ refusals


@pytest.mark.parametrize(
    ("where", "changed", "keys", "words"),
    [
        (hole(), {"upper_arm_mm": 400.0}, ("upper-arm-girth", "armhole"), "too large for an arm"),
        (hole(600), {"upper_arm_mm": 195.0, "elbow_mm": 192.0, "wrist_mm": 130.0},
         ("upper-arm-girth", "armhole"), "too small for an armhole"),
        (hole(), {"shoulder_to_elbow_mm": 560.0}, ("shoulder-to-elbow", "arm-length"), "elbow"),
        (hole(560), {"upper_arm_mm": 420.0, "elbow_mm": 420.0}, ("elbow-girth", "wrist-girth"),
         "do not go together"),
        (hole(), {"wrist_mm": 0.0}, ("wrist-girth",), "greater than nothing"),
    ],
)  # fmt: skip
def test_an_arm_that_cannot_be_met_is_refused_naming_what_conflicts(
    where: Armhole, changed: dict[str, float], keys: tuple[str, ...], words: str
) -> None:
    with pytest.raises(SleeveCannotBeMet, match=words) as refused:
        draft_sleeve(where, replace(ARM, **changed))
    assert set(keys) <= set(refused.value.keys)
    assert all(key in BY_KEY for key in keys if key != "armhole")


def test_the_upper_arm_a_refusal_says_would_do_does() -> None:
    much = replace(ARM, upper_arm_mm=400.0)
    failed = solve_sleeve(sleeve_wants(much, 219.3, 210.7))
    sentence = str(sleeve_refusal(much, failed))
    most = float(sentence.split("at most ")[1].split(" mm")[0])
    assert 300 < most < 400
    share = (most + 50) / 450
    draft_sleeve(
        hole(),
        replace(much, upper_arm_mm=most - 1, elbow_mm=300 * share - 40, wrist_mm=200 * share - 40),
    )


def test_an_unmeasured_arm_is_named() -> None:
    body = Body.of({"bust-girth": 900.0, "upper-arm-girth": 285.0, "wrist-girth": 154.0})
    with pytest.raises(ArmNotMeasured, match="elbow girth, arm length"):
        Arm.of(body)
    assert Arm.of(estimate(body, SLEEVE_NEEDS)).upper_arm_mm == 285.0


def test_a_right_arm_is_taken_where_both_were_measured() -> None:
    body = estimate(Body.of({"bust-girth": 900.0}), SLEEVE_NEEDS)
    body = body.with_value("upper-arm-girth", 301.0, "right")
    assert Arm.of(body, "right").upper_arm_mm == 301.0
    assert Arm.of(body, "left").upper_arm_mm != 301.0


# ------------------------------------------------------------------ the armhole


def test_the_armhole_runs_up_the_back_and_down_the_front() -> None:
    block = drafted()
    (found,) = armholes(block)
    assert [run.piece for run in found.runs] == ["back", "front"]
    assert found.back_mm == pytest.approx(block.piece("back").edge("armhole").length)
    assert found.front_mm == pytest.approx(block.piece("front").edge("armhole").length)
    assert (found.back_notch.count, found.front_notch.count) == (2, 1)


def test_a_bodice_without_a_side_seam_is_told_what_a_sleeve_needs() -> None:
    block = drafted()
    loose = replace(block, seams=tuple(s for s in block.seams if s.name != "shoulder"))
    with pytest.raises(NoArmhole, match="side and shoulder seams"):
        armholes(loose)
    bare = replace(block.piece("back"), notches=())
    with pytest.raises(NoArmhole, match="back armhole has no notch"):
        draft_sleeve(armholes(block.with_pieces(bare))[0], ARM)
    with pytest.raises(NoArmhole, match="no armhole edge"):
        armholes(Pattern((draft_sleeve(hole(), ARM).piece,)))


# ------------------------------------------------------------------ published bodies


@pytest.mark.parametrize(
    "one", [*chart_bodies()[::6], *posture_bodies()[::4]], ids=lambda b: b.name
)
def test_a_sleeve_is_met_for_published_sizes_and_postures(one: NamedBody) -> None:
    block = draft_bodice(one.body).pattern
    draft = draft_sleeve(armholes(block)[0], Arm.of(estimate(one.body, SLEEVE_NEEDS)))
    assert draft.worst_miss < 0.1


# ------------------------------------------------------------------ the elbow dart


@pytest.mark.parametrize("width", [6.0, 15.0, 25.0])
def test_an_elbow_dart_is_as_wide_as_told_and_everything_is_still_met(width: float) -> None:
    draft = draft_sleeve(hole(), ARM, elbow_dart_mm=width)
    (dart,) = draft.piece.darts
    assert dart.intake_mm == pytest.approx(width, abs=1e-4)
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=1e-4)
    assert draft.worst_miss < 0.1
    rows = {row.name: row for row in draft.wanted}
    assert rows["back seam over the folded elbow dart"].got == pytest.approx(180.0, abs=0.1)
    assert rows["underarm seam, front"].miss == pytest.approx(0.0, abs=0.01)
    assert rows["elbow"].got == pytest.approx(300.0, abs=0.01)


def test_an_elbow_dart_swings_the_forearm_forward_and_leaves_the_cap_alone() -> None:
    plain, bent = (draft_sleeve(hole(), ARM, elbow_dart_mm=w) for w in (0.0, 18.0))
    wrists = [d.piece.corner("front wrist").real for d in (plain, bent)]
    assert wrists[1] > wrists[0] + 8
    lengths = [d.piece.edge("cap").length for d in (plain, bent)]
    assert lengths[0] == pytest.approx(lengths[1], abs=1e-4)
    assert [n.count for n in bent.piece.notches] == [n.count for n in plain.piece.notches]


@pytest.mark.parametrize("width", [-1.0, 40.0])
def test_an_elbow_dart_no_sleeve_has_is_refused_with_what_is_usual(width: float) -> None:
    with pytest.raises(NoElbowDart, match="0 \\(none\\) to 30 mm"):
        draft_sleeve(hole(), ARM, elbow_dart_mm=width)
