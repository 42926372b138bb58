"""What a cone lacks of flat is the same however it is sewn (Gauss and Bonnet; plain geometry).

The sum of dart and seam angles round the bust point is taken from the outlines alone, not from
what the pattern says of its darts: before and after turning, sharing out, gathering, panel lines
through and beside the bust, joined panels, yokes and seams across it, and styles that leave it.
"""

import math
from dataclasses import replace
from functools import cache

import pytest
from deficit import missing_along, missing_at, missing_round
from drafted import drafted
from irregular import block
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_button_stand import AddButtonStand
from tracker.alterations.kinds.close_a_gap_into_a_dart import CloseGap
from tracker.alterations.kinds.copy_a_lining import CopyLining
from tracker.alterations.kinds.cut_a_band import CutBand
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.cut_the_neckline import CutNeckline
from tracker.alterations.kinds.flare_or_peg import Flare, FlareOrPeg
from tracker.alterations.kinds.gather_a_dart import GatherDart
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.make_it_sleeveless import MakeSleeveless
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.part_on_a_line import LineEnd, NewPart, PartOnLine
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.alterations.kinds.remove_a_dart import RemoveDart
from tracker.alterations.kinds.run_on_below import RunOnBelow
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.drafting.style_join_choice import AtLine
from tracker.drafting.style_leftover import Leftover
from tracker.geometry.curve import Curve
from tracker.geometry.point import turned
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern

BUST = "bust point"
#: An even size, a posture, one drawn by hand, and women irregular in every way.
BODIES = ("by hand", "even", "posture", *range(5))
bodies = pytest.mark.parametrize("body", BODIES)


@cache
def bodiced(body: str | int) -> Pattern:
    if isinstance(body, int):
        return block("bodice", body)
    return {"by hand": bodice, "even": drafted, "posture": lambda: drafted(1)}[body]()


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def turn(edge: str, corner: str, mm: float, share: float = 1.0) -> TurnDart:
    return TurnDart(
        piece="front", dart="bust dart", edge=edge, corner=corner, distance_mm=mm, share=share
    )


def end(edge: str, mm: float, corner: str) -> LineEnd:
    return LineEnd(edge=edge, corner=corner, distance_mm=mm)


#: Legs of 60 mm and more as the store rounds them.
WITHIN_RAD = 1e-7
UNAFFECTED_MM = 1e-5


# -- turned, shared out, gathered -------------------------------------------------------------

TO_ARMHOLE = turn("armhole", "shoulder point", 90.0)
TURNED = {
    "to the shoulder": (turn("shoulder", "neck point", 55.0),),
    "to the armhole": (TO_ARMHOLE,),
    "to the neckline": (turn("neckline", "neck point", 40.0),),
    "elsewhere in the waist": (
        TurnDart(piece="front", dart="bust dart", edge="waist", corner="side waist",
                 distance_mm=30.0, name="side waist dart"),
    ),
    "into the waist dart": (TurnDart(piece="front", dart="bust dart", into="waist dart"),),
    "by a third": (turn("armhole", "shoulder point", 90.0, 1 / 3),),
    "in four shares": (
        turn("shoulder", "neck point", 55.0, 0.4),
        turn("armhole", "shoulder point", 80.0, 0.5),
        turn("neckline", "neck point", 40.0, 0.5),
    ),
    "on from there": (
        TO_ARMHOLE,
        TurnDart(piece="front", dart="armhole dart", edge="neckline", corner="neck point",
                 distance_mm=50.0, share=0.7),
        TurnDart(piece="front", dart="armhole dart", into="waist dart"),
    ),
    "and gathered": (
        turn("shoulder", "neck point", 55.0),
        GatherDart(piece="front", dart="shoulder dart"),
        GatherDart(piece="front", dart="waist dart"),
    ),
}  # fmt: skip


@bodies
@pytest.mark.parametrize("name", TURNED)
def test_a_dart_turned_takes_as_much_angle_with_it_and_no_length(
    name: str, body: str | int
) -> None:
    # NIMI, CITS Dress Making theory p. 180: turned about its point a dart keeps its angle.
    before = bodiced(body)
    after = done(before, *TURNED[name])
    assert missing_at(after, BUST) == pytest.approx(missing_at(before, BUST), abs=WITHIN_RAD)
    for edge in ("neckline", "shoulder", "armhole", "waist", "centre front"):
        assert around(after, edge) == pytest.approx(around(before, edge), abs=UNAFFECTED_MM), edge
    assert after.piece("back").edges == before.piece("back").edges


@bodies
@pytest.mark.parametrize("share", [0.05, 0.12])
def test_what_is_eased_of_a_dart_is_told_as_ease_and_the_rest_is_left(
    share: float, body: str | int
) -> None:
    # A dart's angle at the edge is a width, 2 r sin(angle / 2): eased in, it is that much length.
    before = bodiced(body)
    turned_ = done(before, turn("shoulder", "neck point", 55.0, share))
    dart = turned_.piece("front").dart("shoulder dart")
    after = done(turned_, RemoveDart(piece="front", dart="shoulder dart"))
    whole = before.piece("front").dart("bust dart").angle_rad
    assert missing_at(before, BUST) - missing_at(after, BUST) == pytest.approx(
        share * whole, abs=2 * WITHIN_RAD
    )
    eased = [p.seam("shoulder").planned_ease_mm for p in (before, after)]
    first = before.seam("shoulder").first[0].piece == "front"
    more = (eased[0] - eased[1]) if first else (eased[1] - eased[0])
    wide = 2 * dart.leg_lengths[0] * math.sin(share * whole / 2)
    assert more == pytest.approx(wide, rel=0.08)  # drawn across the mouth it is a little fairer


@bodies
def test_a_gap_closed_into_a_dart_adds_the_angle_of_its_wedge(body: str | int) -> None:
    # Published checks, computed: an opening s at a distance L is 2 asin(s / 2L).
    before = bodiced(body)
    front = before.piece("front")
    step = CloseGap(
        piece="front", edge="neckline", corner="centre front neck", distance_mm=45.0, by_mm=9.0,
        dart="bust dart",
    )  # fmt: skip
    spot = front.edge("neckline").point_at(45.0)
    wedge = 2 * math.asin(9.0 / 2 / abs(spot - front.mark(BUST).point))
    more = missing_at(done(before, step), BUST) - missing_at(before, BUST)
    assert more == pytest.approx(wedge, abs=1e-4)


# -- panel lines ------------------------------------------------------------------------------

PANELLED = {
    "from the shoulder": PanelFront(rounding_mm=0.0),
    "from the armhole": PanelFront(start="armhole", rounding_mm=0.0),
    "low on the armhole, bowed": PanelFront(
        start="armhole", share=0.55, bow_mm=8.0, rounding_mm=0.0
    ),
}


@bodies
@pytest.mark.parametrize("name", PANELLED)
def test_a_panel_seam_through_the_bust_stands_open_by_both_darts(
    name: str, body: str | int
) -> None:
    before = bodiced(body)
    after = done(before, PANELLED[name])
    assert not [d for p in after.pieces for d in p.darts if "front" in p.name]
    assert missing_at(after, BUST) == pytest.approx(missing_at(before, BUST), abs=WITHIN_RAD)
    for edge in ("neckline", "shoulder", "armhole", "centre front"):
        assert around(after, edge) == pytest.approx(around(before, edge), abs=UNAFFECTED_MM), edge


@bodies
@pytest.mark.parametrize("start", ["shoulder", "armhole"])
def test_rounding_over_the_bust_spreads_the_angle_along_the_seam_and_loses_none(
    start: str, body: str | int
) -> None:
    before = bodiced(body)
    after = done(before, PanelFront(start=start))
    assert abs(missing_at(after, BUST)) < math.radians(0.5)  # a corner hardly there is left
    assert missing_along(after, after.seam("front princess")) == pytest.approx(
        missing_at(before, BUST), abs=2 * WITHIN_RAD
    )


@bodies
@pytest.mark.parametrize("beside_mm", [20.0, 38.0, -12.0])
def test_a_panel_line_beside_the_bust_leaves_the_dart_and_holds_the_rest(
    beside_mm: float, body: str | int
) -> None:
    before = bodiced(body)
    step = PanelFront(beside_mm=beside_mm, leftover=Leftover.DART, rounding_mm=0.0)
    after = done(before, step)
    names = ("centre front", "side front")
    holding, plain = (after.piece(n) for n in (names if beside_mm > 0 else names[::-1]))
    short = holding.dart("bust dart")
    corners = [run[-1] for part in plain.edge("front princess").parts for run in part.runs[:-1]]
    corner = min(corners, key=lambda p: min(abs(p - short.mouth_start), abs(p - short.mouth_end)))
    # Round the corner the short dart is folded: both its mouth's corners are one place.
    seam = missing_round((holding, short.mouth_start), (holding, short.mouth_end), (plain, corner))
    left = missing_at(after, BUST)
    # As the store keeps points, 6e-6 radians over the length of a leg in millimetres.
    within = max(WITHIN_RAD, 6e-6 / abs(beside_mm))
    assert left == pytest.approx(before.piece("front").dart("bust dart").angle_rad, abs=within)
    assert left + seam == pytest.approx(missing_at(before, BUST), abs=within)
    assert [m.name for m in holding.marks] == [BUST]
    assert not plain.marks


@bodies
@pytest.mark.parametrize("start", ["armhole", "shoulder"])
def test_a_back_panel_seam_takes_up_the_darts_it_runs_down(start: str, body: str | int) -> None:
    before = bodiced(body)
    after = done(before, PanelBack(start=start))
    was = sum(d.angle_rad for d in before.piece("back").darts)
    now = sum(d.angle_rad for p in after.pieces if "back" in p.name for d in p.darts)
    gained = missing_along(after, after.seam("back princess"))
    assert now + gained == pytest.approx(was, abs=2 * WITHIN_RAD)
    assert gained > 0.05


JOINS = {
    "a plumb dart": (),
    "left as width": (AtLine(line="waist line", dart=0.0),),
}


@bodies
@pytest.mark.parametrize("name", JOINS)
def test_panels_joined_without_a_side_seam_keep_the_angle_of_the_bust_seam(
    name: str, body: str | int
) -> None:
    before = bodiced(body)
    after = done(before, PanelFront(), PanelBack(), JoinSidePanels(at=JOINS[name]))
    assert missing_along(after, after.seam("front princess")) == pytest.approx(
        missing_at(before, BUST), abs=2 * WITHIN_RAD
    )
    rough = done(before, PanelFront(rounding_mm=0.0), PanelBack(), JoinSidePanels(at=JOINS[name]))
    assert missing_at(rough, BUST) == pytest.approx(missing_at(before, BUST), abs=WITHIN_RAD)
    for edge in ("neckline", "shoulder", "centre front", "centre back"):
        assert around(after, edge) == pytest.approx(around(before, edge), abs=UNAFFECTED_MM), edge


# -- yokes and seams across -------------------------------------------------------------------

THROUGH = PartOnLine(
    pieces=("front",), through="bust dart", named="midriff", part=NewPart.LOWER,
    ends=(end("armhole", 90.0, "shoulder point"), end("centre front", 120.0, "centre front waist")),
)  # fmt: skip
DOWN = PartOnLine(
    pieces=("front",), down="bust dart", named="upper side",
    ends=(end("armhole", 90.0, "shoulder point"),),
)  # fmt: skip


@bodies
@pytest.mark.parametrize("step", [THROUGH, DOWN], ids=["through its point", "down its legs"])
def test_a_seam_across_the_bust_takes_the_bust_dart_and_leaves_the_other(
    step: PartOnLine, body: str | int
) -> None:
    before = bodiced(body)
    after = done(before, step)
    waist_dart = before.piece("front").dart("waist dart").angle_rad
    assert missing_at(after, BUST) == pytest.approx(waist_dart, abs=WITHIN_RAD)
    seam = missing_along(after, after.seam(step.new_name("front")))
    assert seam + waist_dart == pytest.approx(missing_at(before, BUST), abs=2 * WITHIN_RAD)


@pytest.mark.parametrize("body", [b for b in BODIES if b not in ("by hand", "posture")])
def test_a_yoke_seam_bends_by_the_dart_whose_point_was_moved_onto_it(body: str | int) -> None:
    # Published checks, computed: the mouth as wide as before on a leg of another length is another
    # angle; a point moved along the axis keeps w = 2 r sin(angle / 2) and not the angle.
    before = bodiced(body)
    back = before.piece("back")
    ends = (end("armhole", 90.0, "shoulder point"), end("centre back", 105.0, "centre back neck"))
    step = PartOnLine(pieces=("back",), ends=ends, close=("shoulder dart",))
    after = done(before, step)
    dart = back.dart("shoulder dart")
    one, other = (back.edge(e.edge) for e in ends)
    from_mm = 90.0 if one.start == "shoulder point" else one.length - 90.0
    to_mm = 105.0 if other.start == "centre back neck" else other.length - 105.0
    a, b = one.point_at(from_mm), other.point_at(to_mm)
    axis = (dart.mouth_start + dart.mouth_end) / 2 - dart.pivot
    down = axis / abs(axis)
    across = (b - a) / abs(b - a)
    # Where the axis meets the straight line between the ends.
    off = ((dart.pivot - a) / across).imag / (down / across).imag
    point = dart.pivot - down * off
    wanted = 2 * math.asin(dart.intake_mm / 2 / abs(dart.mouth_start - point))
    seam = after.seam(step.new_name("back"))
    assert missing_along(after, seam) == pytest.approx(wanted, abs=1e-5)


@pytest.mark.parametrize("number", range(3))
@pytest.mark.parametrize("above_mm", [0.0, -60.0, 60.0])
def test_a_waist_seam_dropped_or_raised_keeps_the_angle_at_bust_and_blade(
    above_mm: float, number: int
) -> None:
    before = block("torso", number)
    after = done(before, PartAtHeight(line="waist line", above_mm=above_mm))
    for mark in (BUST, "blade point"):
        assert missing_at(after, mark) == pytest.approx(missing_at(before, mark), abs=WITHIN_RAD)


# -- styles that do not come near it ----------------------------------------------------------

YOKE = PartOnLine(
    pieces=("front",),
    ends=(end("armhole", 60.0, "shoulder point"), end("centre front", 40.0, "centre front neck")),
)
LEFT_ALONE = {
    "a front yoke above the bust": YOKE,
    "a raised waist": RaiseEdge(to=Height.RAISE, by_mm=15.0, edge="waist"),
    "a neckline cut lower": CutNeckline.example().kind,
    "no sleeves": MakeSleeveless.example().kind,
    "a button stand": AddButtonStand.example().kind,
    "a lining": CopyLining.example().kind,
    "a facing": TraceFacing.example().kind,
    "a skirt below": RunOnBelow.example().kind,
    "a band round the waist": CutBand.example().kind,
    "a stand collar": CutStandCollar.example().kind,
}


@bodies
@pytest.mark.parametrize("name", LEFT_ALONE)
def test_a_style_away_from_the_bust_leaves_its_angle(name: str, body: str | int) -> None:
    before = bodiced(body)
    after = done(before, LEFT_ALONE[name])
    assert missing_at(after, BUST) == pytest.approx(missing_at(before, BUST), abs=WITHIN_RAD)


@bodies
def test_a_dress_flared_at_its_hem_keeps_the_angle_at_the_bust(body: str | int) -> None:
    before = bodiced(body)
    dress = done(before, RunOnBelow(by_mm=600.0, hem_mm=around(before, "waist") + 300.0))
    after = done(dress, FlareOrPeg(to=Flare.FLARE, by_mm=240.0, from_line="waist line"))
    for pattern in (dress, after):
        assert missing_at(pattern, BUST) == pytest.approx(missing_at(before, BUST), abs=1e-6)
    for edge in ("neckline", "shoulder", "armhole"):
        assert around(after, edge) == pytest.approx(around(before, edge), abs=UNAFFECTED_MM), edge


@bodies
def test_the_measure_sees_a_hundred_thousandth_of_a_radian(body: str | int) -> None:
    # It is taken from outlines alone: one that is a little off is told from one that is not.
    before = bodiced(body)
    front = before.piece("front")
    dart = front.dart("bust dart")
    off = Curve.line(dart.pivot, turned(dart.mouth_end, dart.pivot, 1e-5))
    bent = before.with_pieces(front.with_dart(replace(dart, legs=(dart.legs[0], off))))
    assert abs(missing_at(bent, BUST) - missing_at(before, BUST)) == pytest.approx(1e-5, rel=0.01)
