"""Matched notches that a cut across several pieces parted, brought together again."""

from dataclasses import replace

from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge, notch_on_side, walked

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


__all__ = ["PARTED_MM", "notches_met"]
