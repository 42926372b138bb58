"""Slash and pivot is a rigid motion of two parts: plain geometry, held on irregular blocks.

Distances within either part stay, and one is turned against the other by the angle of the
opening, 2 asin(s / 2L) at a hinge a distance L away.
"""

import itertools
import math
import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import SORTS, block

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.errors import TrackerError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

EXAMPLES = 3000 if os.environ.get("TRACKER_TESTS") == "deep" else 300
blocks = st.builds(block, st.sampled_from(SORTS), st.integers(0, 5))


def parts(piece: Piece, one: int, other: int) -> tuple[list[str], list[str]]:
    """The corners to either side of a cut from one edge to another, going round the piece."""
    names, k = [], one
    while k != other:
        names.append(piece.edges[k].end)
        k = (k + 1) % len(piece.edges)
    return names, [c for c in piece.corners if c not in names]


def turn_of(old: Piece, new: Piece, corners: list[str]) -> float | None:
    """How far a part was turned, radians, and that it was not bent."""
    for a, b in itertools.combinations(corners, 2):
        was, now = (abs(p.corner(a) - p.corner(b)) for p in (old, new))
        assert now == pytest.approx(was, abs=1e-5), (a, b)
    if len(corners) < 2:
        return None
    a, b = corners[:2]
    turn = (new.corner(b) - new.corner(a)) / (old.corner(b) - old.corner(a))
    return math.atan2(turn.imag, turn.real)


@settings(max_examples=EXAMPLES)
@given(
    pattern=blocks,
    which=st.integers(0, 5),
    ends=st.tuples(st.integers(0, 5), st.integers(0, 5)),
    shares=st.tuples(st.floats(0.1, 0.9), st.floats(0.1, 0.9)),
    by=st.floats(3.0, 15.0),
    kind=st.sampled_from([SlashAndSpread, FoldOut]),
)
def test_both_parts_of_a_slashed_piece_are_rigid_and_one_turns_by_the_opening(
    pattern: Pattern, which: int, ends: tuple[int, int], shares: tuple[float, float], by: float,
    kind: type[SlashAndSpread],
) -> None:  # fmt: skip
    piece = pattern.pieces[which % len(pattern.pieces)]
    one, other = (k % len(piece.edges) for k in ends)
    if one == other:
        return
    mouth, hinge = piece.edges[one], piece.edges[other]
    at = shares[0] * mouth.length, shares[1] * hinge.length
    step = kind(
        piece=piece.name, mouth_edge=mouth.name, mouth_corner=mouth.start, mouth_mm=at[0],
        hinge_edge=hinge.name, hinge_corner=hinge.start, hinge_mm=at[1], by_mm=by,
    )  # fmt: skip
    try:
        new = apply_step(step, pattern, "one").pattern.piece(*piece.key)
    except TrackerError:
        return
    turns = [turn_of(piece, new, corners) for corners in parts(piece, one, other)]
    if None not in turns:
        long = abs(mouth.point_at(at[0]) - hinge.point_at(at[1]))
        assert abs(turns[0] - turns[1]) == pytest.approx(2 * math.asin(by / 2 / long), abs=1e-6)
        assert min(map(abs, turns)) < 1e-6  # what holds the grain stays


@settings(max_examples=EXAMPLES)
@given(pattern=blocks, line=st.integers(0, 4), above=st.floats(-90, 160), by=st.floats(-20, 20))
def test_lengthened_every_corner_stays_or_goes_down_by_the_amount(
    pattern: Pattern, line: int, above: float, by: float
) -> None:
    # Central Washington University costume text, ch. 17: the same amount right across.
    names = sorted({v.name for p in pattern.pieces for v in p.levels})
    if abs(by) < 1.0 or abs(above) < 10.0:
        return
    step = Lengthen(line=names[line % len(names)], above_mm=above, by_mm=by)
    try:
        after = apply_step(step, pattern, "one").pattern
    except TrackerError:
        return
    for piece in pattern.pieces:
        moves = [
            after.piece(*piece.key).corner(c) - piece.corner(c)
            for c in piece.corners
            if c in after.piece(*piece.key).corners
        ]
        far = max(moves, key=abs)
        assert abs(far) == pytest.approx(abs(by), abs=1e-4) or abs(far) < 1e-5
        for move in moves:
            assert min(abs(move), abs(move - far)) < 1e-4, piece.label
