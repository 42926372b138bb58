"""Panelled bodices, drawn by hand and drafted from bodies, as a cutter would check them."""

import itertools
from dataclasses import replace
from functools import cache

import pytest
import wardrobe
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import bdims_bodies, chart_bodies, posture_bodies

from tracker.drafting.bodice import draft_bodice
from tracker.drafting.style_back import BackLine, panel_back
from tracker.drafting.style_front import FrontLine, panel_front
from tracker.drafting.style_region import Region
from tracker.drafting.style_report import Styled
from tracker.drafting.style_split import CannotPart
from tracker.errors import TrackerError
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest, settled
from tracker.pattern.checks import check
from tracker.pattern.errors import UnknownName
from tracker.pattern.marks import Level
from tracker.pattern.measure import area, around, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace
from tracker.pattern.walk import notch_on_edge, side_lengths, stations

PLAIN = FrontLine(rounding_mm=0.0)


@cache
def blocks() -> dict[str, Pattern]:
    """A hand-drawn bodice and drafted ones: chart sizes, postures, a few real women."""
    out = {"by hand": wardrobe.bodice()}
    for body in (*chart_bodies()[::8], *posture_bodies()[::3], *bdims_bodies()[::65]):
        try:
            out[body.name] = draft_bodice(body.body).pattern
        except TrackerError:
            continue
    assert len(out) > 6
    return out


some_block = st.deferred(lambda: st.sampled_from(sorted(blocks())))
front_lines = st.builds(
    FrontLine, start=st.sampled_from(["shoulder", "armhole"]), share=st.floats(0.3, 0.65)
)
back_lines = st.builds(
    BackLine, share=st.floats(0.35, 0.6), foot=st.sampled_from(["", "waist"])
)  # fmt: skip


def both(pattern: Pattern, front: FrontLine, back: BackLine) -> tuple[Styled, Styled]:
    one = panel_front(pattern, front)
    return one, panel_back(one.pattern, back)


@settings(max_examples=40)
@given(some_block, front_lines, back_lines)
def test_a_panelled_bodice_passes_every_check_its_block_passed(
    name: str, front: FrontLine, back: BackLine
) -> None:
    block = blocks()[name]
    one, two = both(block, front, back)
    known = {f.place for f in check(block).findings}
    found = [f.sentence for f in check(two.pattern).findings if f.place not in known]
    assert found == []
    for seam in ("front princess", "back princess"):
        first, second = side_lengths(two.pattern, two.pattern.seam(seam))
        assert first == pytest.approx(second, abs=0.5)  # 1/16 in would do for paper patterns
    assert one.reports[0].gained_rad == pytest.approx(one.reports[0].lost_rad, abs=1e-7)


@settings(max_examples=25)
@given(some_block, front_lines)
def test_before_rounding_girths_rounds_and_areas_are_what_they_were(
    name: str, front: FrontLine
) -> None:
    block = blocks()[name]
    new = panel_front(block, replace(front, rounding_mm=0.0)).pattern
    for line in lines_of(block):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.05), line
    for edge in ("neckline", "armhole", "shoulder", "side"):
        assert around(new, edge) == pytest.approx(around(block, edge), abs=1e-4), edge
    assert area(new) == pytest.approx(area(block), abs=0.5)


@settings(max_examples=25)
@given(some_block, front_lines, back_lines)
def test_the_trace_accounts_for_every_millimetre_of_every_old_edge(
    name: str, front: FrontLine, back: BackLine
) -> None:
    block = blocks()[name]
    one, two = both(block, front, back)
    trace = one.trace.then(two.trace)
    _accounts_for_all(block, two.pattern, trace)


def _accounts_for_all(old: Pattern, new: Pattern, trace: Trace) -> None:
    for piece in old.pieces:
        for edge in piece.edges:
            fates = trace.of(piece.name, edge.name, edge.side)
            assert sum(f.old.length_mm for f in fates if f.old) == pytest.approx(
                edge.length, abs=1e-4
            ), (piece.label, edge.name)
    for piece in new.pieces:
        for edge in piece.edges:
            made_of = trace.into(piece.name, edge.name, edge.side)
            assert sum(f.new.length_mm for f in made_of if f.new) == pytest.approx(
                edge.length, abs=1e-4
            ), (piece.label, edge.name)


def test_a_note_on_the_old_front_is_found_on_its_panel() -> None:
    block = wardrobe.bodice()
    styled = panel_front(block)
    shoulder = block.piece("front").edge("shoulder").length
    near_neck = styled.trace.forward("front", "shoulder", BodySide.BOTH, 20.0)
    near_arm = styled.trace.forward("front", "shoulder", BodySide.BOTH, shoulder - 20.0)
    assert near_neck is not None
    assert (near_neck.piece, near_neck.start_mm) == ("centre front", pytest.approx(20.0))
    assert near_arm is not None
    assert near_arm.piece == "side front"
    assert near_arm.start_mm == pytest.approx(shoulder / 2 - 20.0, abs=1e-6)
    old = styled.trace.back("side front", "waist", BodySide.BOTH, 10.0)
    assert old is not None
    assert (old.piece, old.edge) == ("front", "waist")


def test_the_front_panels_have_their_edges_lines_notches_and_grain() -> None:
    new = panel_front(wardrobe.bodice()).pattern
    centre, side = new.piece("centre front"), new.piece("side front")
    assert (centre.fold, centre.cut, centre.copies) == ("centre front", "cut 1 on the fold", 2)
    assert (side.fold, side.cut, side.copies) == (None, "cut 2, a pair", 2)
    assert [e.name for e in side.edges] == [
        "shoulder", "armhole", "side", "waist", "front princess"
    ]  # fmt: skip
    assert not centre.darts
    assert not side.darts
    for panel in (centre, side):
        assert {"bust line", "waist line"} <= {v.name for v in panel.levels}
        assert panel.grain is not None
        ring = Region(panel.plain_ring)
        assert all(ring.holds(p) for p in panel.grain)
        assert panel.mark("bust point") == wardrobe.bodice().piece("front").mark("bust point")
        princess = [n for n in panel.notches if n.edge == "front princess"]
        assert [n.count for n in princess] == [1, 1, 1]
        assert sorted(n.distance_mm for n in princess) == [n.distance_mm for n in princess]
    # The part below the dart keeps the parent's grain: plumb here.
    low, high = side.grain or (0j, 0j)
    assert high.real - low.real == pytest.approx(0.0, abs=1e-6)
    shoulder = new.seam("shoulder")
    assert [r.piece for r in shoulder.first] == ["centre front", "side front"]
    assert new.seam("side").matches[0].first_piece == "side front"


def test_the_notches_of_the_princess_seam_stand_50_mm_above_and_below_the_bust() -> None:
    new = panel_front(wardrobe.bodice()).pattern
    pairs = stations(new, new.seam("front princess"))
    (up, _), (bust, _), (down, _) = pairs[1:-1]
    assert bust - up == pytest.approx(50.0, abs=1e-6)
    assert down - bust == pytest.approx(50.0, abs=1e-6)
    point = wardrobe.bodice().piece("front").mark("bust point").point
    for panel in ("centre front", "side front"):
        edge = new.piece(panel).edge("front princess")
        notch = new.piece(panel).notch("front princess notch at the bust line")
        assert abs(edge.point_at(notch_on_edge(edge, notch)) - point) < 1e-5


def test_a_line_below_the_bust_ends_on_the_rounded_seam_and_its_girth_says_what_was_added() -> None:
    block = wardrobe.bodice()
    front = block.piece("front")
    bust = front.mark("bust point").point
    y = bust.imag - 50 / 3  # where a line rounded over 50 mm stands off most
    legs = [with_line(leg, complex(0, y), 1 + 0j)[0].point for leg in front.dart("waist dart").legs]
    strokes = ((complex(0, y), legs[1]), (legs[0], legs[0] - 20))
    low = Level("underbust line", BodySide.BOTH, strokes)
    with_low = block.with_pieces(replace(front, levels=(*front.levels, low)))
    styled = panel_front(with_low)
    for panel in ("centre front", "side front"):
        piece = styled.pattern.piece(panel)
        seam = piece.edge("front princess")
        ends = [p for s in piece.level("underbust line").strokes for p in (s[0], s[-1])]
        assert min(seam.nearest(p)[1] for p in ends) < 1e-5
    grown = girth(styled.pattern, "underbust line") - girth(with_low, "underbust line")
    assert grown == pytest.approx(styled.reports[0].underbust_mm, abs=0.1)
    assert grown > 1.0


def test_a_facing_follows_the_centre_panel() -> None:
    block = wardrobe.bodice()
    front = block.piece("front")
    facing = replace(front, name="neck facing", layer="facing", taken_from="front")
    new = panel_front(replace(block, pieces=(*block.pieces, facing))).pattern
    assert new.piece("neck facing").taken_from == "centre front"


def test_the_line_over_the_bust_is_smooth_and_keeps_the_width_at_the_bust_line() -> None:
    block = wardrobe.bodice()
    styled = panel_front(block)
    new, bust = styled.pattern, block.piece("front").mark("bust point").point
    for panel in ("centre front", "side front"):
        line = new.piece(panel).edge("front princess").parts[0]
        headings = [line.heading_at(k) for k in range(int(line.length))]
        most = max(abs(turn_between(a, b)) for a, b in itertools.pairwise(headings))
        assert most < 0.035  # 2° in a millimetre would be a corner
        assert line.nearest(bust)[1] < 1e-5
    assert girth(new, "bust line") == pytest.approx(girth(block, "bust line"), abs=1e-4)
    # Not a figure of the drawing but of the two radii: the garment is a little larger below.
    assert 0.5 < styled.reports[0].underbust_mm < 5.0


def test_differences_come_off_the_waist_and_never_off_the_shoulder_or_armhole() -> None:
    block = wardrobe.bodice()
    plain, rounded = panel_front(block, PLAIN).pattern, panel_front(block)
    assert rounded.reports[0].trimmed_from == "side front"
    for edge in ("shoulder", "armhole"):
        assert rounded.pattern.piece("side front").edge(edge) == plain.piece("side front").edge(
            edge
        )
    assert rounded.pattern.piece("side front").edge("waist") != plain.piece("side front").edge(
        "waist"
    )
    assert rounded.pattern.piece("centre front").edge("waist") == plain.piece("centre front").edge(
        "waist"
    )


def test_a_waist_that_bends_across_the_new_seam_is_trued_and_the_seam_keeps_its_length() -> None:
    block = wardrobe.bodice()
    front = block.piece("front")
    waist = front.edge("waist")
    flat = replace(waist, parts=tuple(Curve.line(p.start, p.end) for p in waist.parts))
    bent = block.with_pieces(front.with_edge(flat))
    styled = panel_front(bent)
    report = styled.reports[0]
    assert abs(report.waist_deg) > 5.0
    assert 0.2 < report.waist_moved_mm < 3.0
    places = {f.place for f in check(styled.pattern).findings}
    assert "front princess seam at the front princess waist" not in places
    assert report.sides_mm == pytest.approx(panel_front(block).reports[0].sides_mm, abs=1e-6)


def test_a_side_that_bends_where_the_dart_was_is_trued() -> None:
    block = wardrobe.bodice()
    front = block.piece("front")
    side = front.edge("side")
    first, second = side.parts
    middle = (second.start + second.end) / 2 + 5
    bowed = Curve.cubic(second.start, middle, middle, second.end)
    bent = block.with_pieces(front.with_edge(replace(side, parts=(first, bowed))))
    styled = panel_front(bent)
    report = styled.reports[0]
    assert 2.0 < abs(report.closed_deg) < 8.0
    assert 0.1 < report.closed_moved_mm < 2.0
    line = styled.pattern.piece("side front").edge("side").parts[0]
    headings = [line.heading_at(k) for k in range(int(line.length))]
    most = max(abs(turn_between(a, b)) for a, b in itertools.pairwise(headings))
    assert most < 0.0175  # no bend over 1° that was not there before


def test_pieces_the_line_does_not_touch_are_the_very_same() -> None:
    block = wardrobe.bodice()
    assert panel_front(block).pattern.piece("back") == block.piece("back")
    assert panel_back(block).pattern.piece("front") == block.piece("front")


def test_panelling_twice_gives_the_same_pattern() -> None:
    one, two = (panel_front(wardrobe.bodice()).pattern for _ in range(2))
    assert pattern_digest(one) == pattern_digest(two)
    assert settled(one) == one


def test_what_was_done_is_said_in_sentences_with_figures() -> None:
    told = "; ".join(panel_front(wardrobe.bodice()).sentences)
    assert "the bust dart was turned shut: 9.5° lost there, 9.5° gained in the seam" in told
    assert "at the bust point nothing changed" in told
    assert "came off the side front at the waist" in told


def test_the_back_shoulder_stays_as_it_was_decided() -> None:
    for name, block in blocks().items():
        back = block.piece("back")
        new = panel_back(block).pattern.piece("centre back")
        assert new.edge("shoulder") == back.edge("shoulder"), name
        kept = [d for d in back.darts if d.mouth == "shoulder"]
        assert [d for d in new.darts if d.mouth == "shoulder"] == kept, name


def test_the_back_line_meets_the_armhole_at_60_degrees_and_bows_about_10_mm() -> None:
    for name, block in blocks().items():
        for foot in ("", "waist"):
            report = panel_back(block, BackLine(foot=foot)).reports[0]
            assert report.meets_deg >= 60 - 1e-6, name
            assert report.bow_mm == pytest.approx(10.0, abs=6.0), name


def test_a_back_line_to_the_waist_leaves_the_dart_on_the_centre_back() -> None:
    new = panel_back(wardrobe.bodice(), BackLine(foot="waist")).pattern
    assert [d.name for d in new.piece("centre back").darts] == ["waist dart"]
    assert not new.piece("side back").darts
    block = wardrobe.bodice()
    part = block.piece("back").edge("waist").parts[-1].length
    assert new.piece("side back").edge("waist").length == pytest.approx(part / 2, abs=1e-6)


REFUSED = [
    ("no waist dart", FrontLine(), "no waist dart"),
    ("off the shoulder", FrontLine(distance_mm=400.0), r"choose a place from 12 to \d+ mm"),
    ("at the neck point", FrontLine(share=0.0), "0 mm from the neck point"),
    ("low on the armhole", FrontLine(start="armhole", share=0.9), "nearer the shoulder point"),
    ("from the neckline", FrontLine(start="neckline"), "from the shoulder or the armhole"),
    ("too much rounding", FrontLine(rounding_mm=300.0), "50 mm above and below is usual"),
    ("unknown piece", FrontLine(piece="frnt"), "Did you mean front"),
    ("dart beside the bust point", FrontLine(), r"\d+\.\d mm beside the bust point"),
    ("no outline", FrontLine(), "has no outline"),
    ("dart towards the neck", FrontLine(), "turn it into the side seam first"),
    ("panelled before", FrontLine(piece="side front"), "no waist dart"),
    ("no bust point", FrontLine(), "no bust point marked"),
]


@pytest.mark.parametrize(("case", "line", "sentence"), REFUSED, ids=[r[0] for r in REFUSED])
def test_what_cannot_be_done_is_refused_in_one_sentence(
    case: str, line: FrontLine, sentence: str
) -> None:
    pattern = wardrobe.bodice()
    front = pattern.piece("front")
    if case == "no waist dart":
        waist = front.edge("waist")
        whole = replace(waist, parts=(waist.parts[0].joined(waist.parts[1]),), mouths=())
        bust_only = tuple(d for d in front.darts if d.name == "bust dart")
        pattern = pattern.with_pieces(replace(front.with_edge(whole), darts=bust_only))
    elif case == "dart beside the bust point":
        moved = tuple(replace(m, point=m.point + 8) for m in front.marks)
        pattern = pattern.with_pieces(replace(front, marks=moved))
    elif case == "no bust point":
        pattern = pattern.with_pieces(replace(front, marks=()))
    elif case == "no outline":
        pattern = wardrobe.paper()
    elif case == "dart towards the neck":
        sides = replace(front.dart("bust dart"), mouth="neckline")
        pattern = pattern.with_pieces(front.with_dart(sides))
    elif case == "panelled before":
        pattern = panel_front(pattern).pattern
    with pytest.raises((CannotPart, UnknownName), match=sentence):
        panel_front(pattern, line)


def test_one_side_only_of_a_front_drawn_for_both_is_refused() -> None:
    with pytest.raises(CannotPart, match="drawn for both sides at once"):
        panel_front(wardrobe.bodice(), side=BodySide.RIGHT)
