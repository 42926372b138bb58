"""An amount shared out over the edges of seams, as published: each edge gives its share."""

import math

import pytest
from altering import done
from published.procedures import BODIES, IN, at, drawn

from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern


def stands_off(before: Pattern, after: Pattern, piece: str, edge: str, corner: str) -> float:
    """How far a corner lies from its edge's old line run on, square to it."""
    old = before.piece(piece).edge(edge)
    part = old.drawn[0 if old.start == corner else -1]
    return part.run_on(40.0, 40.0).nearest(after.piece(piece).corner(corner))[1]


@pytest.mark.parametrize("number", [-1, *BODIES])
@pytest.mark.parametrize(("whole_in", "each_in"), [(0.5, 0.125), (1.0, 0.25), (2.0, 0.5)])
def test_two_side_seams_are_four_edges_and_each_gives_a_quarter(
    whole_in: float, each_in: float, number: int
) -> None:
    # Central Washington University costume text, ch. 17: the total over the number of edges.
    before = drawn("bodice", number)
    for way in (1.0, -1.0):
        amounts = (at("underarm point", 0.0), at("side waist", way * whole_in * IN / 2))
        after = done(TakeIn(seam="side", amounts=amounts), before).pattern
        for piece in ("front", "back"):
            off = stands_off(before, after, piece, "side", "side waist")
            assert off == pytest.approx(each_in * IN, abs=0.05), (piece, way)


def test_a_side_seam_shared_unequally_adds_up_round_the_body() -> None:
    # Common practice, no source: 3 cm on each front edge and 1.5 cm on each back edge is 9 cm.
    before = drawn("bodice", -1)
    side = before.seam("side")
    share = 2 / 3 if side.first[0].piece == "front" else 1 / 3
    after = done(TakeIn(seam="side", amounts=(at("underarm point", -45.0),), share=share), before)
    for piece, mm in (("front", 30.0), ("back", 15.0)):
        off = stands_off(before, after.pattern, piece, "side", "side waist")
        assert off == pytest.approx(mm, abs=0.05), piece
    # The bust line runs 4 and 6 degrees from square to the two edges.
    grown = girth(after.pattern, "bust line") - girth(before, "bust line")
    slant = 60.0 / math.cos(math.radians(4)) + 30.0 / math.cos(math.radians(6))
    assert grown == pytest.approx(slant, abs=0.5)


@pytest.mark.parametrize("number", BODIES)
@pytest.mark.parametrize(
    ("seams", "edges"),
    [(("back princess",), 4), (("side", "front princess", "back princess"), 12)],
)
def test_panel_seams_share_a_total_over_all_their_edges(
    seams: tuple[str, ...], edges: int, number: int
) -> None:
    # Common practice, no source: 3 cm too big over two back panel seams is 0.75 cm off each of
    # four edges; over side and panel seams all round there are twelve (computed).
    before = pattern = drawn("panelled bodice", number)
    each = 30.0 / edges
    for seam in seams:
        run = before.seam(seam).first[0]
        edge = before.edge_of(run)
        foot = next(c for c in (edge.start, edge.end) if c.endswith("waist"))
        top = edge.end if foot == edge.start else edge.start
        step = TakeIn(seam=seam, amounts=(at(foot, 2 * each), at(top, 0.0, edge.length / 2)))
        pattern = done(step, pattern).pattern
    for seam in seams:
        for run in (*before.seam(seam).first, *before.seam(seam).second):
            edge = before.edge_of(run)
            foot = next(c for c in (edge.start, edge.end) if c.endswith("waist"))
            off = stands_off(before, pattern, run.piece, run.edge, foot)
            assert off == pytest.approx(each, abs=0.05), (seam, run.piece)
    smaller = girth(before, "waist line") - girth(pattern, "waist line")
    assert smaller == pytest.approx(30.0, abs=1.0)
