"""Blocks of whole size charts beside the published drafts: every size inside their spread.

Figures in centimetres, as the drafts have them. Where two drafts differ, ours lies between them
or as near as the stated play; each row names its drafts.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import pytest
from published.bodies import NamedBody, bdims_bodies, chart_bodies

from tracker.body.ease import EasePlan
from tracker.body.ease_tables import SKIRT_EASE
from tracker.body.estimate import SLEEVE_NEEDS, estimate
from tracker.drafting.bodice import draft_bodice
from tracker.drafting.bodice_wants import BodiceChoices
from tracker.drafting.skirt import TO_ESTIMATE, draft_skirt
from tracker.drafting.sleeve import draft_sleeve
from tracker.drafting.sleeve_armhole import armholes
from tracker.drafting.sleeve_wants import Arm
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern

IN = 25.4
SIZES = [one for one in chart_bodies() if "petite" not in one.name and "women" not in one.name]
each_size = pytest.mark.parametrize("one", SIZES, ids=lambda one: one.name)


@cache
def drafted(one: NamedBody) -> Pattern:
    return draft_bodice(one.body).pattern


@dataclass(frozen=True)
class Row:
    """A figure of a draft: how it is measured on ours, and what the published rules give.

    Attributes:
        ours: centimetres, from the block.
        rules: centimetres, from bust and neck girth; one for each published draft.
        play: how far outside their spread ours may lie.
    """

    ours: Callable[[Pattern], float]
    rules: tuple[Callable[[float, float], float], ...]
    play: float


def across(piece: str) -> Callable[[Pattern], float]:
    """How far the neck point lies from the centre."""
    return lambda p: abs(p.piece(piece).corner("neck point").real) / 10


def below(piece: str, corner: str) -> Callable[[Pattern], float]:
    """How far a corner lies below the neck point of its piece."""
    return lambda p: (p.piece(piece).corner("neck point") - p.piece(piece).corner(corner)).imag / 10


def underarm_below_nape(pattern: Pattern) -> float:
    back = pattern.piece("back")
    return (back.corner("centre back neck") - back.corner("underarm point")).imag / 10


ROWS = {
    # Close-fitting textbook block (from memory): neck / 5 - 0.7. Proportional block of a
    # Japanese college (its width B / 24 + 3.4 is common practice): less than it.
    "front neck width": Row(
        across("front"), (lambda b, n: n / 5 - 0.7, lambda b, n: b / 24 + 3.4), 0.1
    ),
    # The same two (from memory): neck / 5 - 0.2; 0.2 more than in front.
    "back neck width": Row(
        across("back"), (lambda b, n: n / 5 - 0.2, lambda b, n: b / 24 + 3.6), 0.2
    ),
    # From memory: neck / 5 - 0.2; B / 24 + 3.9. Woman's Institute shirt draft: neck / 6. School
    # Sewing, front: 2 in for a neck of 12 in, 1/8 in more for each 1/2 in.
    "front neck depth": Row(
        below("front", "centre front neck"),
        (lambda b, n: n / 5 - 0.2, lambda b, n: b / 24 + 3.9, lambda b, n: n / 6,
         lambda b, n: 2.54 * (2 + (n / 2.54 - 12) / 4)),
        0.1,
    ),
    # From memory: 1.5; a third of the back neck width. Woman's Institute: 3/4 in.
    "back neck rise": Row(
        below("back", "centre back neck"),
        (lambda b, n: 1.5, lambda b, n: (b / 24 + 3.6) / 3, lambda b, n: 0.75 * 2.54), 0.15,
    ),
    # From memory: B / 12 + 13.7, taken from the nape. Common practice, no source: B / 6 + 7.
    "underarm below the nape": Row(
        underarm_below_nape, (lambda b, n: b / 12 + 13.7, lambda b, n: b / 6 + 7), 1.5
    ),
    # Common practice, no source: an armhole is near half the bust girth.
    "armhole": Row(
        lambda p: around(p, "armhole") / 20, (lambda b, n: 0.9 * b / 2, lambda b, n: b / 2), 1.5
    ),
}  # fmt: skip


@each_size
@pytest.mark.parametrize("name", ROWS)
def test_a_figure_of_the_block_lies_in_the_spread_of_the_published_drafts(
    name: str, one: NamedBody
) -> None:
    row = ROWS[name]
    bust, neck = (one.body.value(key) / 10 for key in ("bust-girth", "neck-base-girth"))
    given = [rule(bust, neck) for rule in row.rules]
    ours = row.ours(drafted(one))
    assert min(given) - row.play <= ours <= max(given) + row.play, (given, ours)


@each_size
def test_darts_are_as_wide_as_the_published_rules_make_them(one: NamedBody) -> None:
    front, back = (drafted(one).piece(name) for name in ("front", "back"))
    bust, waist = (one.body.value(key) for key in ("bust-girth", "waist-girth"))
    # Common practice: (bust - waist) x dart length / (4 x waist to bust point), body figures.
    dart = front.dart("waist dart")
    long = dart.leg_lengths[0]
    by_rule = (bust - waist) * (long - dart.stand_back_mm) / (4 * long)
    assert dart.intake_mm == pytest.approx(by_rule, rel=0.25)
    # From 2 cm on 13 cm (common practice) to B / 4 - 2.5 degrees (from memory).
    assert 8.82 <= math.degrees(front.dart("bust dart").angle_rad) <= bust / 40 - 2.5
    # Common practice: back shoulder dart 1/2 to 3/4 in.
    assert 0.5 * IN <= back.dart("shoulder dart").intake_mm <= 0.75 * IN


@each_size
def test_the_bust_dart_is_sewn_short_of_the_bust_point_as_is_published(one: NamedBody) -> None:
    # ICAR e-course: 1/2 in after moving; common practice: 3/4 to 1 in generally.
    for dart in ("bust dart", "waist dart"):
        assert 0.5 * IN <= drafted(one).piece("front").dart(dart).stand_back_mm <= IN


#: Real women beside the sizes: their slopes are estimated with the published spread.
SLOPES = [*SIZES, *bdims_bodies()[::13]]


@pytest.mark.parametrize("one", SLOPES, ids=lambda one: one.name)
def test_shoulders_slope_as_shoulders_do(one: NamedBody) -> None:
    # Study of 273 girls of 15 to 18 (1979): 14 to 35 degrees, mean 24.2 right, 25.1 left; of 455
    # students (1970): 22.3 and 23.6. The seam's mean is the body's.
    found = []
    for name in ("front", "back"):
        piece = drafted(one).piece(name)
        run = piece.corner("shoulder point") - piece.corner("neck point")
        found.append(math.degrees(math.atan2(-run.imag, abs(run.real))))
    assert 14.0 <= sum(found) / 2 <= 35.0
    if one in SIZES:
        assert sum(found) / 2 == pytest.approx(22.3, abs=2.0)
    # Proportional block (from memory): 22 in front, 18 behind; trade: 19-22 and 17-19.
    assert 1.0 <= found[0] - found[1] <= 6.0


@each_size
def test_an_eased_back_shoulder_is_longer_by_what_is_published(one: NamedBody) -> None:
    # Woman's Encyclopaedia, about 1912, and Cutter's Practical Guide, part 13: 1/4 in; common
    # practice: less than 1/2 in is eased.
    eased = draft_bodice(one.body, choices=BodiceChoices(back_shoulder="ease")).pattern
    more = (
        eased.piece("back").edge("shoulder").length - eased.piece("front").edge("shoulder").length
    )
    assert more == pytest.approx(0.25 * IN, abs=0.5)


@each_size
def test_a_cap_is_longer_than_its_armhole_by_what_is_published(one: NamedBody) -> None:
    # Santa Rosa Junior College: 1 to 1 7/8 in; jackets (Successful sleeves): 1 to 1 1/2 in.
    armhole = armholes(drafted(one))[0]
    sleeve = draft_sleeve(armhole, Arm.of(estimate(one.body, SLEEVE_NEEDS)))
    ease = sleeve.piece.edge("cap").length - armhole.length_mm
    assert 1.0 * IN <= ease <= 1.5 * IN
    # Santa Rosa Junior College, McConnell (Foundations, sleeves): single in front, double behind,
    # the shoulder's own.
    counts = {n.name: n.count for n in sleeve.piece.notches}
    assert (counts["front cap notch"], counts["back cap notch"]) == (1, 2)


@pytest.mark.parametrize(
    "one", [s for s in SIZES if s.name.startswith("home")], ids=lambda one: one.name
)
def test_a_skirt_is_shared_between_front_and_back_as_on_the_published_block(
    one: NamedBody,
) -> None:
    # Close textbook block (common practice): half H / 2 + 1.5, its back half H / 4 + 1.5. So with
    # 3 cm of ease round the hips the front has H / 4.
    ease = EasePlan(SKIRT_EASE.lines).with_line("waist", 10.0).with_line("hip", 30.0)
    pattern = draft_skirt(estimate(one.body, TO_ESTIMATE), ease).pattern
    hip = one.body.value("hip-girth") / 4
    widths = [abs(pattern.piece(n).corner("side hem").real) for n in ("front", "back")]
    assert sum(widths) == pytest.approx(2 * hip + 15.0, abs=0.2)
    assert widths[0] == pytest.approx(hip, abs=8.0)
    assert widths[1] == pytest.approx(hip + 15.0, abs=8.0)
