"""Shared by the pattern tests: altering an edge of the bodice drawn by hand."""

import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
import wardrobe

from tracker.geometry.profile import Profile
from tracker.pattern.canonical import settled
from tracker.pattern.edge import Displacement
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.redraw import redraw

# The steps beside the tests: `from steps_for_tests import …`.
sys.path.insert(0, str(Path(__file__).parent))

Knots = Sequence[tuple[float, float]]


@pytest.fixture(scope="session")
def bodice() -> Pattern:
    """The bodice drawn by hand."""
    return wardrobe.bodice()


@pytest.fixture(scope="session")
def altered() -> Callable[..., Piece]:
    """Displace an edge by amounts at shares of its base line, and keep it as the store does."""

    def alter(piece: Piece, edge_name: str, knots: Knots, step: str = "s1") -> Piece:
        edge = piece.edge(edge_name)
        # Two names, two places: shares may fall on the same spot after rounding.
        profile = Profile(tuple((share * edge.base_length, amount) for share, amount in knots))
        moved = replace(edge, displacements=(*edge.displacements, Displacement(step, profile)))
        drawn = redraw(piece.with_edge(moved), {edge.key})
        return settled(Pattern((drawn,))).pieces[0]

    return alter
