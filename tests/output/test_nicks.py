"""The cutting line over a dart's mouth has no nick too narrow to cut."""

import irregular
import pytest
import shapely

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.copy_a_lining import CopyLining
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.output.allowance import Allowances, cutting_line
from tracker.pattern.pattern import Pattern

#: Scissors cannot turn in less, millimetres; common practice.
NARROW_MM = 5.0


def lined(number: int, width_mm: float) -> Pattern:
    edges = (EdgeOf(piece="back", edge="neckline"),)
    facing = TraceFacing(name="back facing", edges=edges, width_mm=width_mm)
    lining = CopyLining(name="back lining", piece="back", without=("back facing",))
    pattern = irregular.block("bodice", number)
    for step in (facing, lining):
        pattern = apply_step(step, pattern, step.name).pattern
    return pattern


@pytest.mark.parametrize("seam_mm", [10.0, 15.0, 25.0])
@pytest.mark.parametrize("number", range(4))
def test_a_lining_cut_off_over_a_dart_has_no_nick_in_its_cutting_line(
    number: int, seam_mm: float
) -> None:
    pattern = lined(number, 60.0)
    for piece in pattern.pieces:
        ring = cutting_line(piece, Allowances(seam_mm))
        cut = shapely.Polygon([(p.real, p.imag) for p in ring])
        assert cut.is_valid
        wider = cut.buffer(NARROW_MM / 2, join_style="mitre", mitre_limit=20.0)
        closed = wider.buffer(-NARROW_MM / 2, join_style="mitre", mitre_limit=20.0)
        assert closed.difference(cut).area < 0.5
