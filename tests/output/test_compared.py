"""What history measured, carried over to the page."""

import pytest
from output.showcase import moved
from wardrobe import bodice

from tracker.history.compare import compare
from tracker.output.compared import (
    check_rows,
    furthest_rows,
    girth_rows,
    laid_on,
    moved_most,
    seam_rows,
)  # fmt: skip
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.units import Unit


@pytest.fixture(scope="module")
def pair():
    old = bodice()
    return old, moved(old, "front", "side", (0, 0.0), (1, 5.0))


def test_girths_carry_body_and_plan(pair):
    rows = girth_rows(compare(*pair), {"waist line": 700.0}, {"waist line": 30.0})
    waist = next(r for r in rows if r.line == "waist line")
    assert waist.old_mm == pytest.approx(girth(pair[0], "waist line"))
    assert waist.new_mm == pytest.approx(girth(pair[1], "waist line"))
    assert (waist.body_mm, waist.planned_mm) == (700.0, 30.0)
    assert {"neckline", "armhole"} <= {r.line for r in rows}


def test_a_centre_seam_is_one_length_and_others_are_two(pair):
    rows = {r.seam: r for r in seam_rows(compare(*pair))}
    assert rows["centre back"].new.words(Unit.CM) == "back 410"
    assert rows["shoulder"].new.words(Unit.CM).endswith("ease 5 (plan 5)")


def test_every_check_of_either_version_is_on_the_page_and_failing_ones_come_first(pair):
    old, new = (check(p) for p in pair)
    rows = check_rows(old, new)
    assert len(rows) >= max(len(c.findings) + len(c.figures) for c in (old, new))
    failing = [r.new_passes is False for r in rows]
    assert failing == sorted(failing, reverse=True)
    assert sum(failing) == len(new.findings)
    for finding in new.findings:
        row = next(r for r in rows if r.place == f"{finding.code}: {finding.place}")
        assert row.remedy == finding.remedy


def test_only_pieces_that_moved_are_far_apart(pair):
    rows = furthest_rows(compare(*pair))
    assert [r.piece for r in rows] == ["front"]
    assert rows[0].mm == pytest.approx(5.0, abs=0.2)
    assert "the front at its centre front" in laid_on(compare(*pair))


def test_a_number_points_where_the_edge_moved_most(pair):
    old, new = pair[0].piece("front"), pair[1].piece("front")
    at = moved_most(old, new, "side")
    along, gap = new.edge("side").nearest(at)
    assert gap < 1e-6
    assert along > 0.85 * new.edge("side").length
    still, _ = new.edge("shoulder").nearest(moved_most(old, new, "shoulder"))
    assert still == pytest.approx(new.edge("shoulder").length / 2)
