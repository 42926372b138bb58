"""Adding a sleeve as a recorded step: sewn into whatever armhole there is, and replayed."""

import datetime as dt
import itertools
from dataclasses import replace

import pytest
from altering import assert_same
from drafted import drafted

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import BadParameters, Kind, kind_named
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.change_the_upper_arm import Room, UpperArm
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.make_it_sleeveless import MakeSleeveless
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.drafting.sleeve_refusal import SleeveCannotBeMet
from tracker.errors import TrackerError
from tracker.history.replay import check_again
from tracker.history.version import Address, Root, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest, pattern_from, pattern_record
from tracker.pattern.checks import check
from tracker.pattern.marks import Notch
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import PlannedEase
from tracker.pattern.walk import notch_on_edge, side_lengths, stations

BLOCK = drafted()
SLEEVE = AddSleeve(
    upper_arm_mm=278, elbow_mm=256, wrist_mm=152, arm_length_mm=560, shoulder_to_elbow_mm=325
)


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


JOINED = JoinSidePanels(opening_in="centre back")
RIGHT, LEFT = (replace(SLEEVE, side=side) for side in (BodySide.RIGHT, BodySide.LEFT))
ROUTES: dict[str, tuple[Kind, ...]] = {
    "a plain bodice": (SLEEVE,),
    "panels from the shoulder": (PanelFront(), PanelBack(), SLEEVE),
    "panels from the armhole": (PanelFront(start="armhole"), PanelBack(), SLEEVE),
    "panelled afterwards": (SLEEVE, PanelFront(start="armhole"), PanelBack()),
    "one side panelled": (PanelFront(side=BodySide.LEFT), SLEEVE),
    "one side panelled afterwards": (SLEEVE, PanelFront(side=BodySide.LEFT)),
    "panels joined without a side seam": (PanelFront(), PanelBack(), JOINED, SLEEVE),
    "joined below the armhole's own panels": (
        PanelFront(start="armhole"),
        PanelBack(),
        JOINED,
        SLEEVE,
    ),
    "joined on one side only": (
        PanelFront(),
        PanelBack(),
        replace(JOINED, side=BodySide.LEFT),
        SLEEVE,
    ),
    "one arm of a joined bodice": (PanelFront(), PanelBack(), JOINED, RIGHT),
    "each arm of a joined bodice": (
        PanelFront(),
        PanelBack(),
        JOINED,
        RIGHT,
        replace(LEFT, upper_arm_mm=290),
    ),
    "with an elbow dart": (replace(SLEEVE, elbow_dart_mm=15),),
    "an elbow dart on the left arm only": (replace(LEFT, elbow_dart_mm=15),),
    "the right arm only": (RIGHT,),
    "each arm by itself": (RIGHT, replace(LEFT, upper_arm_mm=290)),
}


@pytest.mark.parametrize("steps", ROUTES.values(), ids=ROUTES.keys())
def test_a_sleeve_passes_every_check_wherever_it_is_sewn_in(steps: tuple[Kind, ...]) -> None:
    new = done(BLOCK, *steps)
    checked = check(new)
    assert checked.clean, [f.sentence for f in checked.findings]
    assert any(what.startswith("seam sides: armhole") for what, _ in checked.figures)
    for seam in new.seams:
        if seam.name == "armhole":
            armhole, cap = side_lengths(new, seam)
            assert cap - armhole == pytest.approx(30.0, abs=1e-4)
            assert len(seam.matches) == 3


def test_the_eased_lengths_lie_between_the_notches_only() -> None:
    new = done(BLOCK, SLEEVE)
    pairs = stations(new, new.seam("armhole"))
    gains = [
        (b1 - b0) - (a1 - a0) for (a0, b0), (a1, b1) in itertools.pairwise(pairs)
    ]  # underarm, back notch, shoulder, front notch, underarm
    assert gains[0] == pytest.approx(0.0, abs=1e-4)
    assert gains[3] == pytest.approx(0.0, abs=1e-4)
    assert gains[1] + gains[2] == pytest.approx(30.0, abs=1e-4)
    assert gains[1] >= gains[2] > 0


def test_a_cap_sewn_to_two_pieces_is_found_out_when_a_notch_is_moved() -> None:
    new = done(BLOCK, SLEEVE)
    sleeve = new.piece("sleeve")
    for name in ("back cap notch", "shoulder notch", "front cap notch"):
        notch = sleeve.notch(name)
        off = new.with_pieces(sleeve.with_notch(replace(notch, distance_mm=notch.distance_mm + 6)))
        findings = check(off).findings
        assert {f.code for f in findings} == {"notches"}, name


def test_a_cap_of_another_length_is_found_out() -> None:
    new = done(BLOCK, SLEEVE)
    seam = new.seam("armhole")
    wrong = replace(seam, ease=(PlannedEase(20.0, "back cap notch", "front cap notch"),))
    codes = {f.code for f in check(new.with_seam(wrong)).findings}
    assert "seam sides" in codes


def test_a_girth_is_of_both_sleeves_and_of_one_where_a_side_is_asked_for() -> None:
    new = done(BLOCK, SLEEVE)
    assert girth(new, "upper arm line") == pytest.approx(2 * (278 + 50), abs=1e-3)
    for line, wanted in (("upper arm line", 328), ("elbow line", 296), ("wrist line", 192)):
        assert girth(new, line, BodySide.RIGHT) == pytest.approx(wanted, abs=1e-3)
    apart = done(BLOCK, RIGHT, replace(LEFT, upper_arm_mm=290))
    assert girth(apart, "upper arm line", BodySide.LEFT) == pytest.approx(340, abs=1e-3)
    assert girth(apart, "upper arm line") == pytest.approx(668, abs=1e-3)


def test_the_sleeve_is_cut_as_a_pair_and_one_for_each_arm_where_they_differ() -> None:
    piece = done(BLOCK, SLEEVE).piece("sleeve")
    assert (piece.side, piece.copies, piece.cut) == (BodySide.BOTH, 2, "cut 2, a pair")
    apart = done(BLOCK, RIGHT, LEFT)
    assert {(p.side, p.copies) for p in apart.pieces if p.name == "sleeve"} == {
        (BodySide.RIGHT, 1), (BodySide.LEFT, 1),
    }  # fmt: skip
    right, left = (apart.piece("sleeve", side) for side in (BodySide.RIGHT, BodySide.LEFT))
    assert right.area_mm2 == pytest.approx(left.area_mm2, rel=1e-6)


def test_the_bodice_is_left_as_it_was() -> None:
    new = done(BLOCK, SLEEVE)
    assert [new.piece(n) for n in ("front", "back")] == [BLOCK.piece(n) for n in ("front", "back")]
    assert set(BLOCK.seams) <= set(new.seams)


NO_SIDE_SEAM = done(BLOCK, PanelFront(start="armhole"), PanelBack(), JOINED)


def test_an_armhole_without_a_side_seam_is_cut_at_the_underarm_and_nothing_moves() -> None:
    applied = apply_step(SLEEVE, NO_SIDE_SEAM, "sleeve")
    old, new = NO_SIDE_SEAM.piece("side panel"), applied.pattern.piece("side panel")
    front, back = new.edge("armhole"), new.edge("back armhole")
    assert {front.start, front.end} & {back.start, back.end} == {"underarm point"}
    assert front.length + back.length == pytest.approx(old.edge("armhole").length, abs=1e-6)
    assert new.area_mm2 == pytest.approx(old.area_mm2, abs=1e-3)
    for k in range(11):
        for edge in (front, back):
            on = edge.point_at(edge.length * k / 10)
            assert old.edge("armhole").nearest(on)[1] < 1e-5
    assert abs(new.corner("underarm point") - old.mark("underarm point").point) < 2.0
    fates = applied.trace.of("side panel", "armhole", BodySide.BOTH)
    assert [f.new.edge for f in fates if f.new] == ["armhole", "back armhole"]
    assert all(f.still for f in fates)
    # The armhole all round is what it was, and every notch is still on its cloth.
    assert around(applied.pattern, "armhole") == pytest.approx(
        around(NO_SIDE_SEAM, "armhole"), abs=1e-6
    )
    for notch in old.notches:
        was, now = (at_notch(p, p.notch(notch.name)) for p in (old, new))
        assert abs(was - now) < 1e-4


def at_notch(piece: Piece, notch: Notch) -> complex:
    edge = piece.edge(notch.edge, notch.side)
    return edge.point_at(notch_on_edge(edge, notch))


def test_with_the_sleeve_off_again_the_armhole_is_one_edge_as_before() -> None:
    off = MakeSleeveless(raised_mm=0.0, side_in_mm=0.0, shoulder_mm=0.0)
    back = done(NO_SIDE_SEAM, SLEEVE, off)
    assert_same(back, NO_SIDE_SEAM)
    assert [e.name for e in back.piece("side panel").edges] == [
        e.name for e in NO_SIDE_SEAM.piece("side panel").edges
    ]


def test_panels_with_a_sleeve_in_them_are_not_joined_behind_its_back() -> None:
    with pytest.raises(TrackerError, match="join the panels first and draft the sleeve to them"):
        done(BLOCK, SLEEVE, PanelFront(), PanelBack(), JOINED)


def test_replayed_from_its_record_it_is_the_same_sleeve() -> None:
    again = kind_named("add a sleeve").from_parameters(SLEEVE.parameters())
    assert again == SLEEVE
    new = done(BLOCK, SLEEVE)
    assert pattern_digest(done(BLOCK, again)) == pattern_digest(new)
    assert pattern_digest(pattern_from(pattern_record(new))) == pattern_digest(new)
    root = first_version(
        Address("c1", "bodice", 1), Root("drawn by hand", 1, {}), BLOCK, "block",
        dt.date(2026, 3, 1),
    )  # fmt: skip
    steps: tuple[tuple[Kind, tuple[str, ...]], ...] = ((SLEEVE, ()),)
    version = next_version(root, Address("c1", "bodice", 2), steps, "sleeved", dt.date(2026, 3, 2))
    assert check_again(version, root).damage == ()


def test_a_second_sleeve_in_the_same_armhole_is_refused() -> None:
    with pytest.raises(TrackerError, match="a sleeve there already"):
        done(BLOCK, SLEEVE, SLEEVE)
    with pytest.raises(TrackerError, match="a sleeve there already"):
        done(BLOCK, RIGHT, RIGHT)
    # Sleeves that were altered apart are there all the same.
    with pytest.raises(TrackerError, match="a sleeve there already"):
        done(BLOCK, SLEEVE, UpperArm(to=Room.FULLER, by_mm=8.0, side=BodySide.LEFT), SLEEVE)


def test_an_arm_that_does_not_go_in_is_refused_by_name() -> None:
    with pytest.raises(SleeveCannotBeMet, match="upper arm girth 400 mm"):
        done(BLOCK, replace(SLEEVE, upper_arm_mm=400))


def test_a_step_without_an_arm_says_what_is_missing() -> None:
    with pytest.raises(BadParameters, match="wrist_mm"):
        AddSleeve.from_parameters({"upper_arm_mm": 280, "elbow_mm": 256, "arm_length_mm": 560})


def test_the_sentence_says_for_which_arm_and_with_how_much_ease() -> None:
    assert SLEEVE.sentence(BLOCK) == (
        "Set-in sleeves for an upper arm of 278 mm, elbow 256 mm, wrist 152 mm and arm length "
        "560 mm, with 50 mm, 40 mm and 40 mm of ease round them; the cap 30 mm longer than the "
        "armhole"
    )
    assert RIGHT.sentence(BLOCK).startswith("Set-in sleeve on the wearer's right side only")
