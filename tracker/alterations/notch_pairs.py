"""Notches and the ones they meet when a seam is walked."""

import itertools
from dataclasses import replace

from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam
from tracker.pattern.walk import Walked, notch_on_side, stations, walked


def sewn(
    pattern: Pattern, piece: Piece, edge: Edge
) -> tuple[Seam, tuple[Run, ...], tuple[Run, ...]] | None:
    """Return the seam an edge is sewn in, with its own side and the other; none for a free edge."""
    for seam in pattern.seams_on(piece, edge):
        if seam.on_itself:
            continue
        for near, far in ((seam.first, seam.second), (seam.second, seam.first)):
            if any((r.piece, r.edge, r.side) == (piece.name, edge.name, edge.side) for r in near):
                return seam, near, far
    return None


def opposite(pattern: Pattern, seam: Seam, near: tuple[Run, ...], at_mm: float) -> float:
    """Return the distance along the other side that meets one along ``near``."""
    pairs = stations(pattern, seam)
    if near is not seam.first:
        pairs = tuple(sorted((b, a) for a, b in pairs))
    for (a0, b0), (a1, b1) in itertools.pairwise(pairs):
        if at_mm <= a1 + 1e-9:
            share = (at_mm - a0) / (a1 - a0) if a1 > a0 else 0.0
            return b0 + share * (b1 - b0)
    return pairs[-1][1]


def edge_at(side: tuple[Walked, ...], at_mm: float) -> Walked:
    """Return the edge of a side on which a distance along it lies."""
    return next((s for s in side if at_mm <= s.to_mm + 1e-9), side[-1])


def match_of(seam: Seam, piece: str, name: str) -> Match | None:
    """Return the pair a notch belongs to."""
    return next(
        (
            m
            for m in seam.matches
            if (piece, name) in ((m.first_piece, m.first), (m.second_piece, m.second))
        ),
        None,
    )


def with_match(pattern: Pattern, seam: Seam, match: Match) -> Pattern:
    """Return the pattern with a pair of notches added to a seam, in sewing order."""
    side = walked(pattern, seam.first)
    pairs = [*seam.matches, match]
    pairs.sort(key=lambda m: notch_on_side(pattern, side, m.first_piece, m.first))
    return pattern.with_seam(replace(seam, matches=tuple(pairs)))


def without_notch(pattern: Pattern, piece: Piece, name: str, side: BodySide) -> Pattern:
    """Return the pattern with a notch of a piece gone."""
    left = tuple(n for n in piece.notches if (n.name, n.side) != (name, side))
    return pattern.with_pieces(replace(piece, notches=left))
