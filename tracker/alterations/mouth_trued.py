"""Truing the edge at a dart's mouth after its legs were drawn again."""

import math
from dataclasses import replace

from tracker.drafting.style_round import with_end_heading, with_start_heading
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, turned, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import folded_kink_deg
from tracker.pattern.piece import Piece

#: The edge is trued over at most this far on each side of a mouth.
TRUED_MM = 60.0
#: Folded, the edge may bend by this much more than before, degrees.
SMOOTH_DEG = 0.1


def legs_equal(piece: Piece, name: str, side: BodySide) -> Piece:
    """Return a piece with a dart's two legs made equally long and the edge ending on them."""
    dart = piece.dart(name, side)
    if dart.mouth is None:
        return piece
    edge = piece.edge(dart.mouth, dart.side)
    k = edge.mouths.index(dart.name)
    one, two = dart.leg_lengths
    if abs(one - two) > 1e-5:
        length = (one + two) / 2
        a = dart.pivot + unit(dart.mouth_start - dart.pivot) * length
        b = dart.pivot + unit(dart.mouth_end - dart.pivot) * length
        dart = replace(dart, legs=(Curve.line(a, dart.pivot), Curve.line(dart.pivot, b)))
        piece = piece.with_dart(dart)
    parts = list(edge.parts)
    if abs(parts[k].end - dart.mouth_start) > SAME_MM:
        parts[k] = parts[k].ended_at(dart.mouth_start)
    if abs(parts[k + 1].start - dart.mouth_end) > SAME_MM:
        parts[k + 1] = parts[k + 1].started_at(dart.mouth_end)
    if tuple(parts) != edge.parts:
        piece = piece.with_edge(replace(edge, parts=tuple(parts), bases=(), displacements=()))
    return piece


def mouth_trued(
    piece: Piece, name: str, side: BodySide, kink_deg: float, share: float = 0.5
) -> Piece:
    """Return a piece with the edge at a dart's mouth bent so that it closes as it did before.

    Args:
        piece: the piece.
        name: the dart.
        side: the wearer's side it lies on.
        kink_deg: the bend the folded edge had before.
        share: how much of the truing is done on the part before the mouth.
    """
    dart = piece.dart(name, side)
    if dart.mouth is None:
        return piece
    for _ in range(3):
        more = folded_kink_of(piece, name, side) - kink_deg
        if abs(more) <= SMOOTH_DEG:
            break
        edge = piece.edge(dart.mouth, side)
        k = edge.mouths.index(name)
        turn = math.radians(more)
        before, after = edge.parts[k], edge.parts[k + 1]
        first = (
            before
            if share == 0
            else with_end_heading(
                before,
                min(TRUED_MM, before.length * 0.45),
                turned(before.end_heading, 0j, turn * share),
            )
        )
        second = (
            after
            if share == 1
            else with_start_heading(
                after,
                min(TRUED_MM, after.length * 0.45),
                turned(after.start_heading, 0j, -turn * (1 - share)),
            )
        )
        parts = (*edge.parts[:k], first, second, *edge.parts[k + 2 :])
        piece = piece.with_edge(replace(edge, parts=parts, bases=(), displacements=()))
    return piece


def folded_kink_of(piece: Piece, name: str, side: BodySide) -> float:
    """Return the bend of the edge at a folded dart's mouth on one body side, degrees."""
    dart = piece.dart(name, side)
    if dart.mouth is None:
        return 0.0
    alone = replace(
        piece,
        darts=(dart,),
        edges=tuple(e for e in piece.edges if e.key == (dart.mouth, dart.side)),
    )
    return folded_kink_deg(alone, name)
