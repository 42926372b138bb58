"""Matched notches that a cut across several pieces parted, brought together again."""

import itertools
from dataclasses import replace

from tracker.alterations.slash import CutAt
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.walk import notch_on_edge, notch_on_side, stations, walked

#: Partners that no longer meet by more than this are brought together, millimetres.
PARTED_MM = 0.5


def notches_met(before: Pattern, after: Pattern) -> tuple[Pattern, tuple[str, ...]]:
    """Move the second of two matched notches where an alteration came between them.

    A cut square to the grain meets a seam a little higher on one piece than on the other; a
    notch between the two heights moves on the one and stays on the other.

    Args:
        before: the pattern before, with the same seams.
        after: the pattern after.

    Returns:
        The pattern, and what was moved, in words.
    """
    told: list[str] = []
    old = {s.key: s for s in before.seams}
    for seam in after.seams:
        if not seam.matches or seam.key not in old:
            continue
        if any(not after.edge_of(r).parts for r in (*seam.first, *seam.second)):
            continue
        runs = {(r.piece, r.side) for r in (*seam.first, *seam.second)}
        if all(after.piece(*key) is before.piece(*key) for key in runs):
            continue
        for match in seam.matches:
            pairs = []
            for pattern in (before, after):
                first, second = walked(pattern, seam.first), walked(pattern, seam.second)
                a = notch_on_side(pattern, first, match.first_piece, match.first)
                b = notch_on_side(pattern, second, match.second_piece, match.second)
                pairs.append((b - a, (second[-1].to_mm - b) - (first[-1].to_mm - a)))
            (start0, end0), (start1, end1) = pairs
            if min(abs(start1 - start0), abs(end1 - end0)) <= PARTED_MM:
                continue
            by = start0 - start1 if abs(start0 - start1) <= abs(end0 - end1) else end1 - end0
            second = walked(after, seam.second)
            step = next(w for w in second if w.run.piece == match.second_piece)
            piece = after.piece(match.second_piece, step.run.side)
            notch = piece.notch(match.second, step.run.side)
            on = step.on_edge(step.on_side(notch_on_edge(step.edge, notch)) + by)
            on = min(max(on, 0.0), step.edge.length)
            distance = on if notch.corner == step.edge.start else step.edge.length - on
            moved = replace(notch, distance_mm=distance)
            after = after.with_pieces(piece.with_notch(moved))
            told.append(
                f"{notch.name} of the {piece.label} moved {abs(by):.1f} mm along to meet the "
                f"{match.first} of the {match.first_piece}"
            )
    return after, tuple(told)


def met_at(pattern: Pattern, seam: Seam, piece: Piece, at: CutAt, other: Piece) -> CutAt:
    """Return the place of another piece that a place of a piece is sewn to.

    Args:
        pattern: the pattern.
        seam: the seam that joins the two.
        piece: the piece the place is on.
        at: the place, on an edge of the seam.
        other: the piece it is sewn to there.

    Raises:
        PatternError: another piece is sewn to it there.
    """
    first, second = walked(pattern, seam.first), walked(pattern, seam.second)
    pairs = stations(pattern, seam)
    mine, its = first, second
    key = (piece.name, at.edge.name, at.edge.side)
    if all((w.run.piece, w.edge.name, w.edge.side) != key for w in first):
        mine, its = second, first
        pairs = tuple((b, a) for a, b in pairs)
    step = next(w for w in mine if (w.run.piece, w.edge.name, w.edge.side) == key)
    on = step.on_side(at.at_mm)
    there = pairs[-1][1]
    for (a0, b0), (a1, b1) in itertools.pairwise(pairs):
        if on <= a1 + 1e-9:
            there = b0 + (b1 - b0) * ((on - a0) / (a1 - a0) if a1 > a0 else 0.0)
            break
    for w in its:
        if (
            pattern.piece(w.run.piece, w.run.side).key == other.key
            and w.from_mm - 1e-9 <= there <= w.to_mm + 1e-9
        ):
            return CutAt(w.edge, w.on_edge(there))
    raise PatternError(
        f"the {seam.name} seam does not join the {piece.label} to the {other.label} there"
    )


__all__ = ["PARTED_MM", "met_at", "notches_met"]
