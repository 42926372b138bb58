"""Facings where one shoulder slopes more, or where a panel's shoulder is too short for them."""

import irregular
import pytest

from tracker.alterations.engine import DoesNotFit, apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.output.fit import fit_to_print
from tracker.output.order import PrintOrder
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def facing(piece: str, width_mm: float) -> TraceFacing:
    edges = (EdgeOf(piece=piece, edge="neckline"),)
    return TraceFacing(name=f"{piece} facing", edges=edges, width_mm=width_mm)


@pytest.mark.parametrize("width_mm", [24.0, 40.0, 60.0, 100.0])
@pytest.mark.parametrize("sort", ["bodice", "sleeved bodice"])
@pytest.mark.parametrize("number", range(3))
def test_a_neckline_whose_one_shoulder_was_lowered_is_faced_as_wide_as_the_other(
    number: int, sort: str, width_mm: float
) -> None:
    lower = ShoulderSlope(to=Slope.SLOPING, by_mm=5.0, side=BodySide.RIGHT)
    new = done(irregular.block(sort, number), lower, facing("front", width_mm))
    made = new.piece("front facing")
    necks = [made.edge("neckline", side) for side in (BodySide.RIGHT, BodySide.LEFT)]
    inner = made.edge("inner edge").parts[0]
    for share in (0.3, 0.4, 0.6, 0.7):
        at = inner.point_at(inner.length * share)
        off = min(neck.nearest(at)[1] for neck in necks)
        assert off == pytest.approx(width_mm, abs=0.5)


def test_a_facing_wider_than_a_panel_s_shoulder_goes_on_over_the_panel_beside_it() -> None:
    panelled = irregular.block("panelled bodice", 1)
    room = panelled.piece("centre front").edge("shoulder").length
    within = done(panelled, facing("centre front", room - 1.0)).piece("centre front facing")
    assert within.edge("shoulder").length == pytest.approx(room - 1.0, abs=0.1)
    over = done(panelled, facing("centre front", room + 15.0))
    made = over.piece("centre front facing")
    assert made.edge("centre front shoulder").length == pytest.approx(room, abs=0.1)
    assert made.edge("side front shoulder").length == pytest.approx(15.0, abs=0.1)
    order = PrintOrder(over, "A-017", "bodice@3", "for cloth", "5 March 2026")
    short = [f.sentence for f in fit_to_print(order).findings if f.code == "cutting line"]
    assert short == []


def test_a_facing_too_wide_is_refused_with_a_width_that_fits_and_no_word_of_her_ease() -> None:
    panelled = irregular.block("panelled bodice", 1)
    with pytest.raises(DoesNotFit, match=r"past the shoulder of the .* and the .* is") as refused:
        apply_step(facing("centre front", 200.0), panelled, "s", {"bust line": 1000.0})
    said = str(refused.value)
    assert "ease" not in said
    most = float(said.split("; ")[-1].split(" mm")[0])
    apply_step(facing("centre front", most), panelled, "s")
    with pytest.raises(DoesNotFit):
        apply_step(facing("centre front", most + 1.0), panelled, "s")
