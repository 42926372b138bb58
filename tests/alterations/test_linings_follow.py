"""Linings that follow what they were copied from: into panels, and past a dart's point."""

import irregular
import pytest

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.copy_a_lining import CopyLining, EdgeEase
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.out_of_date import out_of_date
from tracker.alterations.tracing import EdgeOf
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.canonical import pattern_digest, pattern_from, pattern_record
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge

LINED: tuple[Kind, ...] = (
    TraceFacing(
        name="front facing", edges=(EdgeOf(piece="front", edge="neckline"),), width_mm=40.0
    ),
    TraceFacing(
        name="back facing", edges=(EdgeOf(piece="back", edge="neckline"),), width_mm=40.0
    ),
    CopyLining(
        name="front lining", piece="front", without=("front facing",),
        ease=(EdgeEase(edge="side", by_mm=3.0), EdgeEase(edge="waist", by_mm=-10.0)),
    ),
    CopyLining(
        name="back lining", piece="back", pleat_mm=20.0, without=("back facing",),
        ease=(EdgeEase(edge="waist", by_mm=-10.0),),
    ),
)  # fmt: skip


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


@pytest.mark.parametrize("number", range(4))
def test_a_lining_of_a_piece_in_panels_since_is_traced_again_in_panels(number: int) -> None:
    block = irregular.block("bodice", number)
    lined = done(block, *LINED)
    known = {f.place for f in check(lined).findings}
    panelled = done(lined, PanelFront(), PanelBack())
    assert {o.piece for o in out_of_date(panelled)} >= {"front lining", "back lining"}
    new = done(panelled, TraceAgain())
    names = {p.name for p in new.pieces if p.layer == "lining"}
    panels = ("centre front", "side front", "centre back", "side back")
    assert names == {f"{panel} lining" for panel in panels}
    assert out_of_date(new) == ()
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    for panel in panels:
        shell, lining = new.piece(panel), new.piece(f"{panel} lining")
        assert lining.taken_from == panel
        assert lining.traced is not None
        princess = f"{panel.split()[1]} princess"
        was, now = shell.edge(princess).length, lining.edge(princess).length
        # The waist of the lining lies 10 mm higher.
        assert now - was == pytest.approx(-10.0, abs=1.5), panel
    eased = new.piece("side front lining").traced
    assert eased is not None
    assert [e["edge"] for e in eased.parameters["ease"]] == ["side", "waist"]
    assert new.piece("centre front lining").edge("neckline").length == pytest.approx(
        new.piece("front facing").edge("inner edge").length, abs=1.5
    )


def test_the_panels_linings_follow_their_own_panels_from_then_on() -> None:
    block = irregular.block("bodice")
    new = done(block, *LINED, PanelFront(), PanelBack(), TraceAgain())
    again = done(new, TraceAgain(piece="side front lining"))
    assert pattern_digest(again) == pattern_digest(new)
    assert pattern_digest(pattern_from(pattern_record(new))) == pattern_digest(new)


def test_ease_at_an_edge_none_of_the_panels_has_is_refused() -> None:
    block = irregular.block("bodice")
    panelled = done(block, PanelFront())
    step = CopyLining(name="lining", piece="front", ease=(EdgeEase(edge="hem", by_mm=3.0),))
    with pytest.raises(TrackerError, match="hem"):
        done(panelled, step)
    both = done(panelled, CopyLining(name="lining", piece="front"))
    names = [p.name for p in both.pieces if p.layer == "lining"]
    assert names == ["centre front lining", "side front lining"]


@pytest.mark.parametrize("number", [0, 1])
@pytest.mark.parametrize("past_mm", [5.0, 15.0])
def test_a_lining_is_cut_off_below_the_point_of_a_dart_the_facing_closes(
    number: int, past_mm: float
) -> None:
    block = irregular.block("bodice", number)
    dart = block.piece("back").dart("shoulder dart")
    edges = (EdgeOf(piece="back", edge="neckline"), EdgeOf(piece="back", edge="shoulder"))
    width = dart.leg_lengths[0] + past_mm
    facing = TraceFacing(name="yoke facing", edges=edges, width_mm=width)
    faced = done(block, facing)
    new = done(faced, CopyLining(name="back lining", piece="back", without=("yoke facing",)))
    lining = new.piece("back lining")
    assert [d.name for d in lining.darts] == ["waist dart"]
    (line,) = lining.edge("facing seam").parts
    inner = new.piece("yoke facing").edge("inner edge")
    # A cone, cut beyond its point: off by the dart's angle times how far beyond, at most.
    assert abs(line.length - inner.length) < dart.angle_rad * 2 * past_mm + 0.5
    known = {f.place for f in check(faced).findings}
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    at = line.nearest(dart.pivot)[0]
    assert abs(line.point_at(at) - dart.pivot) > 1.0
    # Rounded where the two halves of the line meet over the dart's middle.
    around = [line.heading_at(at + d) for d in (-0.02, 0.02)]
    assert abs(turn_between(*around)) < 0.01


@pytest.mark.parametrize("number", range(3))
def test_a_lining_s_side_notch_is_where_the_shell_s_is_though_a_facing_cut_the_side_shorter(
    number: int,
) -> None:
    block = irregular.block("bodice", number)
    edges = (EdgeOf(piece="front", edge="armhole"),)
    facing = TraceFacing(name="front facing", edges=edges, width_mm=50.0)
    lining = CopyLining(name="front lining", piece="front", without=("front facing",))
    new = apply_step(lining, apply_step(facing, block, "one").pattern, "two").pattern
    shell, copy = new.piece("front"), new.piece("front lining")
    spots = [
        piece.edge(notch.edge).point_at(notch_on_edge(piece.edge(notch.edge), notch))
        for piece in (shell, copy)
        for notch in piece.notches
        if notch.name == "side notch"
    ]
    assert abs(spots[0] - spots[1]) < 0.5
