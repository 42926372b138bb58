"""Edges that follow each other round the body, from the centre front to the centre back."""

import itertools

from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.walk import walked


def round_of(pattern: Pattern, edge: str, side: BodySide) -> tuple[Run, ...]:
    """Return the edges of a name from the centre front round to the centre back, as sewn.

    Args:
        pattern: the pattern.
        edge: the edges' name.
        side: the wearer's side; both where all pieces are alike.

    Raises:
        PatternError: they do not follow each other from seam to seam.
    """
    pieces = [
        p for p in pattern.pieces
        if p.layer == "shell" and any(e.key == (edge, side) for e in p.edges)
    ]  # fmt: skip

    def start_of(piece: Piece) -> Edge | None:
        own = piece.edge(edge, side)
        opened = any(v.side is BodySide.CENTRE and v.name == "centre front" for v in piece.levels)
        return next(
            (
                e
                for e in _beside(piece, own)
                # Opened out, the other half's edge goes on at the centre.
                if e.name == "centre front" or (opened and e.name == edge and e.side is not side)
            ),
            None,
        )

    start = next((p for p in pieces if start_of(p) is not None), None)
    if start is None:
        raise PatternError(f"no piece with a {edge} has a centre front to begin at")
    runs: list[Run] = []
    piece, came = start, start_of(start)
    while came is not None:
        own = piece.edge(edge, side)
        before, after = _beside(piece, own)
        backward = before.key != came.key
        runs.append(Run(piece.name, edge, own.side, backward))
        leaving = before if backward else after
        onward = [
            (other, e)
            for seam in pattern.seams_on(piece, leaving)
            if not seam.on_itself
            for r in (*seam.first, *seam.second)
            if r.piece != piece.name
            for other in [pattern.piece(r.piece, r.side)]
            if other in pieces
            for e in _beside(other, other.edge(edge, side))
            if e.key == (r.edge, r.side)
        ]
        if not onward:
            break
        piece, came = onward[0]
        if any(r.piece == piece.name for r in runs):
            break
    if len(runs) != len(pieces):
        missing = next(p.label for p in pieces if p.name not in {r.piece for r in runs})
        raise PatternError(
            f"the {edge} of the {missing} does not follow from seam to seam from the centre front"
        )
    return tuple(runs)


def _beside(piece: Piece, edge: Edge) -> tuple[Edge, Edge]:
    return piece.before(edge), piece.after(edge)


def at_side(pattern: Pattern, runs: tuple[Run, ...]) -> int | None:
    """Return which of the edges round a waist is the last before the side seam."""
    for k, (one, other) in enumerate(itertools.pairwise(runs)):
        for seam in pattern.seams:
            names = {r.piece for r in (*seam.first, *seam.second)}
            if seam.name == "side" and {one.piece, other.piece} <= names:
                return k
    return None


def parts_of(pattern: Pattern, runs: tuple[Run, ...]) -> list[float]:
    """Return the lengths before and behind the side seam; one length where there is none."""
    side, at = walked(pattern, runs), at_side(pattern, runs)
    whole = side[-1].to_mm
    return [whole] if at is None else [side[at].to_mm, whole - side[at].to_mm]


def length_of(pattern: Pattern, runs: tuple[Run, ...]) -> float:
    """Return how long the edges are together, as sewn."""
    return walked(pattern, runs)[-1].to_mm


def darts_told(
    one: Pattern, upper: tuple[Run, ...], other: Pattern, lower: tuple[Run, ...], name: str
) -> list[str]:
    """Say how far apart the darts of both meet the seam."""

    def places(pattern: Pattern, runs: tuple[Run, ...]) -> list[tuple[float, str]]:
        out = []
        for step in walked(pattern, runs):
            at = 0.0
            for part, mouth in zip(step.edge.drawn, step.edge.mouths, strict=False):
                at += part.length
                out.append((step.on_side(at), f"{mouth} of the {step.run.piece}"))
        return sorted(out)

    told = []
    found = places(other, lower)
    for at, dart in places(one, upper):
        if not found:
            break
        near, its = min(found, key=lambda f: abs(f[0] - at))
        if abs(near - at) >= 1.0:
            # Behind, it is the centre back that is looked from.
            behind = at > length_of(one, upper) / 2
            way = "further from" if (near > at) != behind else "nearer"
            told.append(
                f"the {name}'s {its} meets the seam {abs(near - at):.0f} mm {way} the centre "
                f"{'back' if behind else 'front'} than the bodice's {dart}"
            )
    return told


__all__ = ["at_side", "darts_told", "length_of", "parts_of", "round_of"]
