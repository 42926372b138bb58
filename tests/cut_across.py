"""Shared by the tests of cuts across pieces: blocks drafted once, and the account of a cut."""

from functools import cache

import pytest
from published.bodies import chart_bodies

from tracker.drafting.bodice import draft_bodice
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace


@cache
def drafted(number: int = 0) -> Pattern:
    """A block drafted from one of the chart bodies."""
    return draft_bodice(chart_bodies()[number].body).pattern


def told(fates: Trace, old: Piece, new: Piece) -> None:
    """Every old millimetre of a touched edge goes somewhere, every new one comes from somewhere."""
    for edge in old.edges:
        mine = fates.of(old.name, edge.name, edge.side)
        now = new.edge(edge.name, edge.side)
        if not mine:
            assert now.parts == edge.parts
            continue
        reached = 0.0
        for fate in mine:
            assert fate.old is not None
            assert fate.old.start_mm == pytest.approx(reached, abs=1e-3)
            reached = fate.old.end_mm
        assert reached == pytest.approx(edge.length, abs=1e-3)
        reached = 0.0
        for fate in fates.into(old.name, edge.name, edge.side):
            assert fate.new is not None
            assert fate.new.start_mm == pytest.approx(reached, abs=1e-3)
            reached = fate.new.end_mm
        assert reached == pytest.approx(now.length, abs=1e-3)
        for fate in mine:
            if fate.still:
                assert fate.old is not None
                assert fate.new is not None
                for share in (0.01, 0.5, 0.99):
                    a = fate.old.start_mm + share * fate.old.length_mm
                    b = fate.new.start_mm + share * fate.new.length_mm
                    assert abs(edge.point_at(a) - now.point_at(b)) < 1e-3
