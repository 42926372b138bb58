"""Seams that run down to a hem, and where on each of them a line across the body meets it."""

from dataclasses import dataclass

from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece, PieceKey
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import Walked, walked

#: Lines a hem is flared from, in the order they are looked for when none is named.
FROM_LINES = ("hip line", "waist line")
#: A material line ends on an edge within this.
_ON_EDGE_MM = 0.1


@dataclass(frozen=True, slots=True)
class SeamDown:
    """A seam that runs down to a hem.

    Attributes:
        seam: its name.
        corner: the corner at its upper end, on its first side; and
        distance_mm: how far down from there the line meets it.
    """

    seam: str
    corner: str
    distance_mm: float


def seams_down(
    pattern: Pattern, keys: list[PieceKey], hem: str, line: str
) -> tuple[str, tuple[SeamDown, ...]]:
    """Return the seams between pieces that run down to a hem, but for the centre's.

    Args:
        pattern: the pattern.
        keys: the pieces.
        hem: the hem's name.
        line: the line; the hip line, or the waist line, where none is named.

    Returns:
        The line, and the seams with where it meets them.

    Raises:
        PatternError: there is no such seam, or the line does not meet one.
    """
    pieces = [pattern.piece(*k) for k in keys]
    names = {v.name for p in pieces for v in p.levels}
    line = line or next((n for n in FROM_LINES if n in names), "")
    if line not in names:
        known = ", ".join(sorted(names)) or "none"
        raise PatternError(
            f"to be flared at its seams a {hem} needs a line to begin at"
            + (f", and there is no {line}" if line else "")
            + f"; the pieces have {known}"
        )
    found: dict[str, SeamDown] = {}
    for seam in pattern.seams:
        if seam.side is BodySide.CENTRE or seam.on_itself or seam.name in found:
            continue
        if not all(_has(pattern, seam, runs, keys) for runs in (seam.first, seam.second)):
            continue
        side = walked(pattern, seam.first)
        up_first = _meets(pattern, side[-1], hem, at_end=True)
        if not up_first and not _meets(pattern, side[0], hem, at_end=False):
            continue
        at = met_mm(pattern, side, line)
        if at is None:
            raise PatternError(
                f"the {line} does not meet the {seam.name} seam; name another line to flare from"
            )
        corner = side[0].first_corner if up_first else side[-1].last_corner
        found[seam.name] = SeamDown(seam.name, corner, at if up_first else side[-1].to_mm - at)
    if not found:
        raise PatternError(
            f"no seam but the centre's runs down to the {hem} between these pieces, so it cannot "
            "be flared at its seams; name the pieces on both sides of one, or part it at the waist "
            "first and slash it there"
        )
    return line, tuple(found.values())


def _has(pattern: Pattern, seam: Seam, runs: tuple[Run, ...], keys: list[PieceKey]) -> bool:
    return any(pattern.piece(r.piece, r.side).key in keys for r in runs)


def _meets(pattern: Pattern, step: Walked, hem: str, *, at_end: bool) -> bool:
    """Tell whether a side ends on the hem there."""
    piece = pattern.piece(step.run.piece, step.run.side)
    onward = at_end != step.run.backward
    beside = piece.after(step.edge) if onward else piece.before(step.edge)
    return beside.name == hem


def met_mm(pattern: Pattern, side: tuple[Walked, ...], line: str) -> float | None:
    """Return how far along a seam's side a line across the body meets it, or nothing."""
    for step in side:
        piece: Piece = pattern.piece(step.run.piece, step.run.side)
        for level in piece.levels:
            if level.name != line:
                continue
            for spot in [p for s in level.strokes for p in (s[0], s[-1])]:
                at, gap = step.edge.nearest(spot)
                if gap < _ON_EDGE_MM:
                    return step.on_side(at)
            for name in level.edges:
                edge = piece.edge(name, level.side)
                for corner in (edge.start, edge.end):
                    if corner in (step.edge.start, step.edge.end):
                        return step.on_side(0.0 if corner == step.edge.start else step.edge.length)
    return None


__all__ = ["FROM_LINES", "SeamDown", "met_mm", "seams_down"]
