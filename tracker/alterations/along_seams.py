"""Edges moved square to themselves by amounts along a seam: what many kinds are made of."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.alterations.set_in import armhole_seams, sews_in_a_cap
from tracker.geometry.point import SAME_MM
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.redraw import redraw
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace, edge_fates
from tracker.pattern.walk import Walked, across, seam_distance, walked
from tracker.units import write_tenths

#: What one step named on both sides of a seam lies across from itself within this, millimetres.
NEAR_MM = 10.0


@dataclass(frozen=True, kw_only=True)
class AmountAt:
    """How much at one place of a seam.

    Attributes:
        corner: the named corner the distance is from.
        distance_mm: along the seam's first side.
        amount_mm: the amount; 0 is "to nothing".
    """

    corner: str
    distance_mm: float
    amount_mm: float

    @property
    def words(self) -> str:
        """The place in words: "at the side waist", "at 40 mm from the underarm point"."""
        if self.distance_mm == 0:
            return f"at the {self.corner}"
        return f"at {write_tenths(self.distance_mm)} from the {self.corner}"


def seam_moved(
    pattern: Pattern,
    seam: Seam,
    amounts: tuple[AmountAt, ...],
    first: float,
    second: float,
    step_id: str,
) -> tuple[Pattern, Trace]:
    """Move the edges of a seam's two sides by amounts at places of the seam.

    Args:
        pattern: the pattern.
        seam: one of its seams.
        amounts: at places of its first side; they reach the second through the notches.
        first: the factor for the first side; positive amounts go into the piece.
        second: the factor for the second side.
        step_id: the id the displacements carry.
    """
    places = sorted(
        (
            seam_distance(
                pattern,
                Place(seam=seam.name, side=seam.side, corner=a.corner, distance_mm=a.distance_mm),
            ),
            a.amount_mm,
        )
        for a in amounts
    )
    one = walked(pattern, seam.first)
    moves = edge_moves(one, [(s, v * first) for s, v in places])
    if not seam.on_itself:
        second_places = [(across(pattern, seam, s), v * second) for s, v in places]
        named = [named_by(one, s) for s, _ in places]
        moves |= edge_moves(walked(pattern, seam.second), second_places, named)
    return displace_edges(pattern, moves, step_id)


Moves = dict[tuple[str, BodySide, str, BodySide], Profile]


def displace_edges(pattern: Pattern, moves: Moves, step_id: str) -> tuple[Pattern, Trace]:
    """Displace edges by profiles along their base lines and redraw their pieces.

    Args:
        pattern: the pattern.
        moves: by piece name and side, edge name and side.
        step_id: the id the displacements carry.
    """
    by_piece: dict[tuple[str, BodySide], list[tuple[Edge, Profile]]] = {}
    for (name, piece_side, edge_name, side), profile in moves.items():
        piece = pattern.piece(name, piece_side)
        by_piece.setdefault(piece.key, []).append((piece.edge(edge_name, side), profile))
    trace = Trace()
    for key, edges in by_piece.items():
        old = pattern.piece(*key)
        new: Piece = old
        for edge, profile in edges:
            if any(v for _, v in profile.knots):
                moved = (*edge.displacements, Displacement(step_id, profile))
                new = new.with_edge(replace(edge, displacements=moved))
        new = redraw(new, {edge.key for edge, _ in edges})
        pattern = pattern.with_pieces(new)
        fates = [
            fate
            for a, b in zip(old.edges, new.edges, strict=True)
            if a != b
            for fate in edge_fates(old.name, a, b)
        ]
        trace = trace.beside(Trace(tuple(fates)))
    return pattern, trace


def named_by(side: tuple[Walked, ...], along_mm: float) -> frozenset[str]:
    """The earlier steps that named a place between the corners of a seam's side."""
    for step in side:
        at = step.on_edge(along_mm)
        if SAME_MM < at < step.edge.length - SAME_MM:
            base = step.edge.base_distance(at)
            return frozenset(
                d.step
                for d in step.edge.displacements
                for s, _ in d.profile.knots
                if abs(s - base) <= SAME_MM
            )
    return frozenset()


def edge_moves(
    side: tuple[Walked, ...],
    places: list[tuple[float, float]],
    named: Sequence[frozenset[str]] = (),
) -> Moves:
    """Turn amounts along a seam's side into a profile along each edge's base line.

    Args:
        side: the side, edge by edge.
        places: how far along it, and how much there.
        named: for each place the steps that named it on the seam's other side: what they named
            here is that place, though the notches it is reached through have gone elsewhere.
    """
    # Places of another edge lie as far off as the base lines are long, as altered as they are.
    starts = list(itertools.accumulate((w.edge.base_length for w in side), initial=0.0))
    found = []
    for k, (s, amount) in enumerate(places):
        j = next((i for i, w in enumerate(side) if s <= w.to_mm + SAME_MM), len(side) - 1)
        edge = side[j].edge
        at = min(max(side[j].on_edge(s), 0.0), edge.length)
        base = edge.base_distance(at)
        if named and SAME_MM < at < edge.length - SAME_MM:
            base = _partner(edge, base, named[k])
        along = starts[j] + (edge.base_length - base if side[j].run.backward else base)
        found.append((j, base, along, amount))
    moves: Moves = {}
    for k, step in enumerate(side):
        knots = []
        for j, base, along, amount in found:
            rest = along - starts[k]
            off = step.edge.base_length - rest if step.run.backward else rest
            knots.append((base if j == k else off, amount))
        run = step.run
        moves[run.piece, run.side, run.edge, run.side] = Profile(tuple(sorted(knots)))
    return moves


def _partner(edge: Edge, at_mm: float, steps: frozenset[str]) -> float:
    """The place of a base line that some steps named there, if they did; else the place itself."""
    known = [
        s
        for d in edge.displacements
        if d.step in steps
        for s, _ in d.profile.knots
        if abs(s - at_mm) <= NEAR_MM and SAME_MM < s < edge.base_length - SAME_MM
    ]
    return min(known, default=at_mm, key=lambda s: abs(s - at_mm))


def seams_meant(pattern: Pattern, name: str, side: BodySide) -> tuple[Seam, ...]:
    """The seams of a name that an alteration for a body side means."""
    found = tuple(
        s
        for s in pattern.seams
        if s.name == name and (side in (BodySide.BOTH, s.side) or s.side is BodySide.CENTRE)
    )
    return found or (pattern.seam(name, side),)


def left_to_do(old: Pattern, new: Pattern) -> tuple[str, ...]:
    """Say what an alteration leaves to be done elsewhere: sleeves, pieces taken from others."""
    told = []
    for side in (BodySide.RIGHT, BodySide.LEFT):
        by = around(new, "armhole", side) - around(old, "armhole", side)
        if any(sews_in_a_cap(new, s) for s in armhole_seams(new, side)):
            continue  # told by the engine, against the ease planned
        if abs(by) >= 0.5:
            told.append(
                f"{side} armhole {abs(by):.1f} mm {'longer' if by > 0 else 'shorter'}: a sleeve "
                f"for it needs the same {'put into' if by > 0 else 'taken out of'} its seam"
            )
    fresh = {p.name for p in new.pieces if p not in old.pieces}
    told.extend(
        f"the {p.label} is taken from the {p.taken_from} and is out of date"
        for p in new.pieces
        if p.taken_from in fresh and p.traced is None
    )
    return tuple(told)
