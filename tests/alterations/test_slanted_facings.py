"""Facings and linings of edges that meet the shoulder at a slant meet as the edges do."""

import irregular
import pytest

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.copy_a_lining import CopyLining
from tracker.alterations.kinds.cut_the_neckline import CutNeckline, NeckShape
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def traced(piece: str, edge: str, width_mm: float) -> TraceFacing:
    name = f"{piece} facing"
    return TraceFacing(name=name, edges=(EdgeOf(piece=piece, edge=edge),), width_mm=width_mm)


@pytest.mark.parametrize("width_mm", [30.0, 50.0, 63.5])
@pytest.mark.parametrize("edge", ["neckline", "armhole"])
@pytest.mark.parametrize("number", range(4))
def test_two_facings_and_linings_are_smooth_over_the_seam_they_meet_at(
    number: int, edge: str, width_mm: float
) -> None:
    block = irregular.block("bodice", number)
    known = {f.place for f in check(block).findings}
    new = done(
        block,
        traced("front", edge, width_mm),
        traced("back", edge, width_mm),
        CopyLining(name="front lining", piece="front", without=("front facing",)),
        CopyLining(name="back lining", piece="back", without=("back facing",)),
    )
    assert [f.sentence for f in check(new).findings if f.place not in known] == []
    shoulders = [new.piece(f"{p} facing").edge("shoulder").length for p in ("front", "back")]
    assert shoulders[0] == pytest.approx(shoulders[1], abs=0.1)


@pytest.mark.parametrize("front_mm", [40.0, 90.0, 130.0])
def test_a_deep_pointed_neckline_is_faced_to_its_point_at_the_centre(front_mm: float) -> None:
    block = irregular.block("bodice by hand")
    pointed = CutNeckline(front_mm=front_mm, front_shape=NeckShape.POINTED)
    faced = done(block, pointed, traced("front", "neckline", 50.0))
    front, facing = faced.piece("front"), faced.piece("front facing")
    assert facing.fold == "centre front"
    neckline = facing.edge("neckline")
    assert neckline.length == pytest.approx(front.edge("neckline").length, abs=1e-3)
    inner = facing.edge("inner edge")
    for k in range(3, 8):
        longer = neckline.parts[0].run_on(200.0, 200.0)
        off = longer.nearest(inner.point_at(inner.length * k / 10))[1]
        assert off == pytest.approx(50.0, abs=0.2)
    # Longer at the point, as the neckline comes to the centre at a slant.
    assert facing.edge("centre front").length > 52.0
    assert not [f for f in check(faced).findings if f.code == "taken pieces"]
