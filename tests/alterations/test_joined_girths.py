"""A bodice joined without a side seam against the block it was made from, line by line.

Its girth at a line is the block's, plus the stated gap, less what the dart and the panel seams
took out there (a geometry statement: two panels laid together rigidly are as wide as both and
what lies between them).
"""

from functools import cache

import pytest
from irregular import block

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.drafting.style_join import join_side_panels
from tracker.drafting.style_join_choice import AtLine, JoinPlan
from tracker.drafting.style_join_report import JoinReport
from tracker.pattern.checks import check
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern

BODIES = range(6)
ROUTES = {
    "from the shoulder": (PanelFront(rounding_mm=0.0), PanelBack()),
    "from the armhole": (PanelFront(start="armhole", rounding_mm=0.0), PanelBack(foot="waist")),
    "beside the bust": (PanelFront(start="armhole", beside_mm=12.0, rounding_mm=0.0), PanelBack()),
}
#: Shares of the waist's gap that go into the dart and into the panel seams; of the bust's too.
DISPOSALS = {
    "as usual": (),
    "left as width": (AtLine(line="waist line"),),
    "taken at the panel seams": (AtLine(line="waist line", seams=1.0),),
    "in shares": (AtLine(line="waist line", dart=0.4, seams=0.35), AtLine(line="bust line")),
}


@cache
def panelled(sort: str, body: int, route: str) -> tuple[Pattern, Pattern]:
    before = block(sort, body)
    return before, done(before, *ROUTES[route])


def done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"step {number}").pattern
    return pattern


def stated(pattern: Pattern, choices: tuple[AtLine, ...]) -> JoinReport:
    """What lies between the panels at each line and where it goes, as the style says."""
    (report,) = join_side_panels(pattern, JoinPlan(choices=choices)).reports
    return report


CASES = [
    *(("bodice", body, route) for body in BODIES for route in ROUTES),
    *(("torso", body, "from the armhole") for body in range(4)),
]


@pytest.mark.parametrize("how", DISPOSALS)
@pytest.mark.parametrize(("sort", "body", "route"), CASES)
def test_each_girth_is_the_blocks_with_the_gap_less_what_was_taken(
    sort: str, body: int, route: str, how: str
) -> None:
    whole, panels = panelled(sort, body, route)
    gaps = stated(panels, DISPOSALS[how])
    joined = done(panels, JoinSidePanels(at=DISPOSALS[how]))
    for line in gaps.lines:
        grown = girth(joined, line.line) - girth(whole, line.line)
        assert grown == pytest.approx(2 * line.left_mm, abs=0.05), line
    waist = gaps.at("waist line")
    if waist.gap_mm > 0:
        (asked,) = [c for c in DISPOSALS[how] if c.line == "waist line"] or [
            AtLine(line="waist line", dart=1.0)
        ]
        share = 1 - asked.dart - asked.seams
        assert waist.left_mm == pytest.approx(share * waist.gap_mm, abs=0.1)
    for line in set(lines_of(whole)) - {x.line for x in gaps.lines}:
        assert girth(joined, line) == pytest.approx(girth(whole, line), abs=0.05), line
    for edge in ("neckline", "shoulder", "centre front", "centre back"):
        assert around(joined, edge) == pytest.approx(around(whole, edge), abs=1e-5), edge
    known = {f.place for f in check(panels).findings}
    assert [f.sentence for f in check(joined).findings if f.place not in known] == []
