"""Side panels joined without a side seam, as a cutter would check them."""

import itertools
import math
from dataclasses import replace
from functools import cache

import pytest
import wardrobe
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import bdims_bodies, chart_bodies, posture_bodies

from tracker.drafting.bodice import draft_bodice
from tracker.drafting.style_back import panel_back
from tracker.drafting.style_front import FrontLine, panel_front
from tracker.drafting.style_join import join_side_panels
from tracker.drafting.style_join_choice import AtLine, JoinPlan
from tracker.drafting.style_split import CannotPart
from tracker.errors import TrackerError
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest, settled
from tracker.pattern.checks import check
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import notch_on_edge, side_lengths

BOTH = BodySide.BOTH


@cache
def panelled() -> dict[str, Pattern]:
    """A hand-drawn bodice and drafted ones, panelled from the shoulder and the armhole."""
    blocks = {"by hand": wardrobe.bodice()}
    for body in (*chart_bodies()[::16], *posture_bodies()[::5], *bdims_bodies()[::130]):
        try:
            blocks[body.name] = draft_bodice(body.body).pattern
        except TrackerError:
            continue
    assert len(blocks) > 5
    return {
        f"{name}, {start}": panel_back(panel_front(block, FrontLine(start=start)).pattern).pattern
        for name, block in blocks.items()
        for start in ("shoulder", "armhole")
    }


def by_hand() -> Pattern:
    return panelled()["by hand, shoulder"]


some_bodice = st.deferred(lambda: st.sampled_from(sorted(panelled())))
dart_shares = st.sampled_from([0.0, 0.25, 0.5, 1.0])


@settings(max_examples=30)
@given(some_bodice, dart_shares)
def test_a_joined_bodice_passes_every_check_and_its_girths_are_what_was_stated(
    name: str, dart: float
) -> None:
    # Geometry statement: joined width(y) = front(y) + back(y) + gap(y), once the two underarm
    # edges are laid together rigidly.
    before = panelled()[name]
    joined = join_side_panels(before, JoinPlan(choices=(AtLine(line="waist line", dart=dart),)))
    known = {f.place for f in check(before).findings}
    assert [f.sentence for f in check(joined.pattern).findings if f.place not in known] == []
    report = joined.reports[0]
    assert [x.line for x in report.lines] == ["bust line", "waist line"]
    for x in report.lines:
        grown = girth(joined.pattern, x.line) - girth(before, x.line)
        assert grown == pytest.approx(2 * (x.gap_mm - x.dart_mm), abs=0.05), x.line
    waist = report.at("waist line")
    assert waist.dart_mm == pytest.approx(dart * waist.gap_mm, abs=1e-9)
    assert waist.seams_mm == 0.0
    for seam in ("front princess", "back princess"):
        assert side_lengths(joined.pattern, joined.pattern.seam(seam)) == pytest.approx(
            side_lengths(before, before.seam(seam)), abs=1e-4
        )


def _laid_by_hand(pattern: Pattern) -> tuple[float, float, float]:
    """The gap at the waist and both turns, from the corner points alone."""
    front, back = pattern.piece("side front"), pattern.piece("side back")
    turns, feet = [], []
    for piece, far, near in (
        (front, "front princess waist", "side waist"), (back, "back princess waist", "side waist"),
    ):  # fmt: skip
        across = piece.corner(far) - piece.corner(near)
        across = across if piece is front else -across
        turn = -turn_between(1 + 0j, across)
        turns.append(turn)
        underarm = piece.corner("underarm point")
        feet.append(Motion.turn(underarm, turn).of(piece.corner(near)) - underarm)
    return (feet[0] - feet[1]).real, turns[0], turns[1]


@settings(max_examples=15)
@given(some_bodice)
def test_the_gap_and_the_turns_are_those_of_the_corners_laid_square_to_the_waist(
    name: str,
) -> None:
    before = panelled()[name]
    report = join_side_panels(before).reports[0]
    gap, front, back = _laid_by_hand(before)
    assert report.at("waist line").gap_mm == pytest.approx(gap, abs=1e-6)
    assert report.turned_rad == pytest.approx((front, back), abs=1e-9)


@settings(max_examples=20)
@given(some_bodice, dart_shares)
def test_every_millimetre_of_every_old_edge_is_accounted_for(name: str, dart: float) -> None:
    before = panelled()[name]
    joined = join_side_panels(before, JoinPlan(choices=(AtLine(line="waist line", dart=dart),)))
    for panel in ("side front", "side back"):
        for edge in before.piece(panel).edges:
            fates = joined.trace.of(panel, edge.name, edge.side)
            spans = [(f.old.start_mm, f.old.end_mm) for f in fates if f.old]
            assert spans[0][0] == pytest.approx(0.0, abs=1e-4)
            assert spans[-1][1] == pytest.approx(edge.length, abs=1e-4)
            assert all(a[1] == pytest.approx(b[0]) for a, b in itertools.pairwise(spans))
            if edge.name == "side":
                assert [f.word for f in fates] == ["cut away"]
    new = joined.pattern.piece("side panel")
    for edge in new.edges:
        made_of = joined.trace.into("side panel", edge.name, edge.side)
        assert sum(f.new.length_mm for f in made_of if f.new) == pytest.approx(
            edge.length, abs=1e-4
        ), edge.name


def test_a_note_on_a_panel_is_found_on_the_joined_one() -> None:
    before = by_hand()
    joined = join_side_panels(before)
    here = joined.trace.forward("side back", "back princess", BOTH, 40.0)
    assert here is not None
    assert (here.piece, here.edge, here.start_mm) == ("side panel", "back princess", 40.0)
    there = joined.trace.forward("side back", "armhole", BOTH, 60.0)
    assert there is not None
    new = joined.pattern.piece("side panel").edge("armhole")
    old = before.piece("side back").edge("armhole")
    assert new.length - there.start_mm == pytest.approx(old.length - 60.0, abs=1e-4)
    assert joined.trace.forward("side front", "side", BOTH, 30.0) is None


def test_there_is_one_panel_and_no_side_seam() -> None:
    before, new = by_hand(), join_side_panels(by_hand()).pattern
    assert [p.name for p in new.pieces] == ["centre front", "side panel", "centre back"]
    assert {s.name for s in new.seams} == {
        "shoulder", "centre back", "front princess", "back princess"
    }  # fmt: skip
    panel = new.piece("side panel")
    assert [e.name for e in panel.edges] == [
        "front princess", "shoulder", "armhole", "back princess", "waist"
    ]  # fmt: skip
    assert (panel.copies, panel.cut) == (2, "cut 2, a pair")
    assert [r.piece for r in new.seam("back princess").second] == ["side panel"]
    assert new.seam("front princess").matches[0].second_piece == "side panel"
    for name in ("centre front", "centre back"):
        assert new.piece(name) is before.piece(name) or new.piece(name) == before.piece(name)


def test_side_seam_notches_go_and_the_others_and_an_underarm_mark_are_kept() -> None:
    before, new = by_hand(), join_side_panels(by_hand()).pattern
    panel = new.piece("side panel")
    old = {n.name for p in ("side front", "side back") for n in before.piece(p).notches}
    assert {n.name for n in panel.notches} == old - {"side notch"} | {"underarm notch"}
    armhole, front = panel.edge("armhole"), before.piece("side front")
    notch = panel.notch("front armhole notch")
    assert notch_on_edge(armhole, notch) == pytest.approx(
        notch_on_edge(front.edge("armhole"), front.notch("front armhole notch")), abs=1e-6
    )
    at = armhole.point_at(notch_on_edge(armhole, panel.notch("underarm notch")))
    assert abs(at - panel.mark("underarm point").point) < 1e-5


def test_the_dart_is_plumb_on_the_join_40_mm_below_the_underarm_with_a_plumb_grain() -> None:
    panel = join_side_panels(by_hand()).pattern.piece("side panel")
    dart, underarm = panel.dart("side dart"), panel.mark("underarm point").point
    assert abs(dart.pivot - (underarm - 40j)) < 1e-5
    assert abs(dart.axis - -1j) < 1e-9
    assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=1e-5)
    low, high = panel.grain or (0j, 0j)
    assert low.real == high.real == underarm.real
    assert underarm.imag - high.imag < 10


@settings(max_examples=15)
@given(some_bodice)
def test_the_armhole_bottom_is_one_smooth_line(name: str) -> None:
    before = panelled()[name]
    joined = join_side_panels(before)
    armhole = joined.pattern.piece("side panel").edge("armhole")
    assert len(armhole.parts) == 1
    line = armhole.parts[0]
    turns = [
        turn_between(line.heading_at(k), line.heading_at(k + 1)) for k in range(int(line.length))
    ]
    assert max(map(abs, turns)) < 0.06  # no kink; the bottom curves over 20 mm and more
    middle = turns[len(turns) // 3 : 2 * len(turns) // 3]
    assert all(t > -0.004 for t in middle) or all(t < 0.004 for t in middle)  # and no wave
    stated = 2 * joined.reports[0].armhole_by_mm
    assert around(joined.pattern, "armhole") - around(before, "armhole") == pytest.approx(
        stated, abs=1e-4
    )
    assert abs(stated) < 1.5


def test_a_bust_line_is_one_line_broken_where_a_low_dart_point_is_raised_above_it() -> None:
    before = by_hand()
    whole = join_side_panels(before).pattern.piece("side panel").level("bust line")
    assert len(whole.strokes) == 1
    raised = join_side_panels(before, JoinPlan(dart_point_mm=5.0))
    panel = raised.pattern.piece("side panel")
    assert len(panel.level("bust line").strokes) == 2
    bust = raised.reports[0].at("bust line")
    y = panel.level("bust line").strokes[0][-1].imag
    legs = [with_line(leg, complex(0, y), 1 + 0j)[0].point for leg in panel.dart("side dart").legs]
    assert bust.dart_mm == pytest.approx(abs(legs[0] - legs[1]), abs=0.05)


def test_joining_twice_gives_the_same_pattern() -> None:
    one, two = (join_side_panels(by_hand()).pattern for _ in range(2))
    assert pattern_digest(one) == pattern_digest(two)
    assert settled(one) == one


def test_what_was_done_is_said_in_sentences_with_figures() -> None:
    told = "; ".join(join_side_panels(by_hand()).reports[0].sentences)
    assert "the side front 11.7° and the side back 0.1° turned about the underarm" in told
    assert "at the underarm they meet: no gap" in told
    assert "at the waist line the gap is 28.4 mm a side, 56.8 mm round the body: 28.4" in told
    assert "the dart on the join is plumb, 9.9°, its point 40 mm below the underarm" in told
    assert "each armhole is 0.2 mm longer" in told


# -- pieces that go on below the waist ------------------------------------------------------


def _panel(name: str, princess: str, at: Point, flare: float, mirror: bool) -> Piece:
    """A plain panel to the hip; its side curves in to the waist and out again."""
    s = -1 if mirror else 1

    def p(x: float, y: float) -> Point:
        return at + complex(s * x, y)

    side = Curve.of([
        (p(0, 200), p(4, 140), p(12, 80), p(12, 0)),
        (p(12, 0), p(12, -70), p(-flare, -130), p(-flare, -200)),
    ])  # fmt: skip
    armhole = Curve.cubic(p(70, 280), p(70, 230), p(40, 200), p(0, 200))
    edges = [
        Edge("armhole", BOTH, f"{princess} armhole", "underarm point", (armhole,)),
        Edge("side", BOTH, "underarm point", "side hip", (side,)),
        Edge("hip", BOTH, "side hip", f"{princess} hip",
             (Curve.line(p(-flare, -200), p(90, -200)),)),
        Edge(princess, BOTH, f"{princess} hip", f"{princess} armhole",
             (Curve.line(p(90, -200), p(90, 0), p(70, 280)),)),
    ]  # fmt: skip
    if mirror:
        edges = [
            replace(e, start=e.end, end=e.start, parts=tuple(c.reversed for c in e.parts))
            for e in edges[::-1]
        ]
    levels = (
        Level("waist line", BOTH, ((p(90, 0), p(12, 0)),)),
        Level("hip line", BOTH, (), ("hip",)),
    )
    return Piece(name, BOTH, tuple(edges), levels=levels)


def torso(flare: float) -> Pattern:
    """Two side panels to the hip, sewn in the side."""
    front = _panel("side front", "front princess", 0j, flare, mirror=False)
    back = _panel("side back", "back princess", 400 + 0j, flare, mirror=True)
    run = (Run("side front", "side", BOTH),), (Run("side back", "side", BOTH, backward=True),)
    return settled(Pattern((front, back), (Seam("side", BOTH, *run),)))


def test_below_the_waist_the_dart_has_two_points_and_a_gap_at_the_hip_is_left_as_width() -> None:
    before = torso(-6.0)
    joined = join_side_panels(before)
    report, panel = joined.reports[0], joined.pattern.piece("side panel")
    waist, hip = report.at("waist line"), report.at("hip line")
    assert (waist.gap_mm, hip.gap_mm) == (pytest.approx(24.0), pytest.approx(12.0))
    dart = panel.dart("side dart")
    assert dart.double_pointed
    assert dart.intake_mm == pytest.approx(24.0, abs=1e-4)
    for x in report.lines:
        grown = girth(joined.pattern, x.line) - girth(before, x.line)
        assert grown == pytest.approx(2 * (x.gap_mm - x.dart_mm), abs=0.05), x.line
    assert check(joined.pattern).clean


def test_an_overlap_at_the_hip_is_stated_and_to_be_given_back_at_the_panel_seams() -> None:
    before = torso(9.0)
    joined = join_side_panels(before)
    hip = joined.reports[0].at("hip line")
    assert hip.gap_mm == pytest.approx(-18.0)
    assert hip.seams_mm == hip.gap_mm
    assert girth(joined.pattern, "hip line") - girth(before, "hip line") == pytest.approx(
        2 * hip.gap_mm, abs=0.05
    )
    assert "the overlap is 18.0 mm a side, 36.0 mm round the body: 18.0 mm given back" in "; ".join(
        joined.reports[0].sentences
    )
    for plan in (AtLine(line="hip line"), AtLine(line="hip line", seams=0.5)):
        with pytest.raises(CannotPart, match=r"overlap by 18\.0 mm; left so"):
            join_side_panels(before, JoinPlan(choices=(plan,)))


# -- refusals ---------------------------------------------------------------------------


def _longer_side(pattern: Pattern) -> Pattern:
    back = pattern.piece("side back")
    side, waist = back.edge("side"), back.edge("waist")
    foot = side.parts[0].start - side.parts[0].start_heading * 1.8
    return pattern.with_pieces(
        back.with_edge(replace(side, parts=(side.parts[0].started_at(foot),))).with_edge(
            replace(waist, parts=(*waist.parts[:-1], waist.parts[-1].ended_at(foot)))
        )
    )


REFUSED = [
    ("not panelled", JoinPlan(), "after the front and the back were panelled"),
    ("sides differ", JoinPlan(), "is 1.8 mm longer than the other"),
    ("dart at the bust", JoinPlan(choices=(AtLine(line="bust line", dart=1.0),)), "a waist dart"),
    ("no such line", JoinPlan(choices=(AtLine(line="hip line"),)), "have bust line, waist line"),
    ("dart point low", JoinPlan(dart_point_mm=190.0), r"choose from 1 to 1\d\d mm, 40 is usual"),
    ("dart point above", JoinPlan(dart_point_mm=-5.0), "40 is usual"),
    ("dart point nowhere", JoinPlan(dart_point_mm=math.nan), "40 is usual"),
    ("name taken", JoinPlan(name="centre back"), "has a centre back already"),
    ("no outline", JoinPlan(front="front", back="back"), "has no outline"),
    ("dart in the side", JoinPlan(front="front"), "still opens from the side; turn it shut first"),
]  # fmt: skip


@pytest.mark.parametrize(("case", "plan", "sentence"), REFUSED, ids=[r[0] for r in REFUSED])
def test_what_cannot_be_joined_is_refused_in_one_sentence(
    case: str, plan: JoinPlan, sentence: str
) -> None:
    pattern = by_hand()
    if case == "not panelled":
        pattern = wardrobe.bodice()
    elif case == "sides differ":
        pattern = _longer_side(pattern)
    elif case == "no outline":
        pattern = wardrobe.paper()
    elif case == "dart in the side":
        pattern = panel_back(wardrobe.bodice()).pattern
    with pytest.raises(CannotPart, match=sentence):
        join_side_panels(pattern, plan)


def test_one_side_only_of_panels_drawn_for_both_is_refused() -> None:
    with pytest.raises(CannotPart, match="drawn for both sides at once"):
        join_side_panels(by_hand(), side=BodySide.RIGHT)


@pytest.mark.parametrize(("dart", "seams"), [(0.7, 0.4), (-0.1, 0.0), (math.nan, 0.0)])
def test_shares_are_refused_where_they_are_not_shares(dart: float, seams: float) -> None:
    with pytest.raises(CannotPart, match="each share lies between 0 and 1"):
        AtLine(line="waist line", dart=dart, seams=seams)
