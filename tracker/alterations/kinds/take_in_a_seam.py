"""Take in or let out a seam."""

from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations.bodyside import split_sides
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Kind
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.redraw import redraw
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace, edge_fates
from tracker.pattern.walk import Walked, across, seam_distance, walked


@dataclass(frozen=True, kw_only=True)
class AmountAt:
    """How much at one place of a seam.

    Attributes:
        corner: the named corner the distance is from.
        distance_mm: along the seam's first side.
        amount_mm: out of the garment at this seam, on each body side it exists on; a
            negative amount lets out. 0 is "to nothing".
    """

    corner: str
    distance_mm: float
    amount_mm: float


@dataclass(frozen=True, kw_only=True)
class TakeIn(Kind):
    """Take in or let out a seam by amounts at places.

    Attributes:
        seam: the seam's name.
        side: both, or the wearer's right or left only; a centre seam exists once.
        amounts: at least one; joined smoothly, flat at a nothing; one alone holds all along.
        share: the part of the amount that comes off the seam's first side.
    """

    word: ClassVar[str] = "take in a seam"
    help: ClassVar[str] = (
        "Take in (or, with a negative amount, let out) a seam at one or more places; "
        "the edge is moved square to itself and its neighbours run on to meet it."
    )

    seam: str
    amounts: tuple[AmountAt, ...]
    side: BodySide = BodySide.BOTH
    share: float = 0.5

    def __post_init__(self) -> None:
        if not self.amounts:
            raise PatternError("how much, and where? Give one amount at a place at least")
        if not any(a.amount_mm for a in self.amounts):
            raise PatternError("every amount is nothing, so there is nothing to alter")
        if not 0 <= self.share <= 1:
            raise PatternError("the share of the first side lies between 0 and 1")

    @property
    def amount_mm(self) -> float:
        """The largest amount."""
        return max((a.amount_mm for a in self.amounts), key=abs)

    def scaled(self, factor: float) -> Self:
        """Return the same with every amount multiplied."""
        return replace(
            self,
            amounts=tuple(replace(a, amount_mm=a.amount_mm * factor) for a in self.amounts),
        )

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Right and left side seams in 10 mm at the side waist, to nothing at …"."""
        seam = pattern.seam(self.seam, self.side)
        inward = self.amount_mm > 0
        centre = seam.side is BodySide.CENTRE
        if centre:
            who = f"{self.seam.capitalize()} seam"
        elif self.side is BodySide.BOTH:
            who = f"Right and left {self.seam} seams"
        else:
            who = f"{self.side.capitalize()} {self.seam} seam only:"
        some = [f"{_mm(abs(a.amount_mm))} {_at(a)}" for a in self.amounts if a.amount_mm]
        nothing = [_at(a).removeprefix("at ") for a in self.amounts if not a.amount_mm]
        told = f"{who} {'in' if inward else 'out'} {', '.join(some)}"
        if len(self.amounts) == 1:
            told += " and the same all along"
        if nothing:
            told += f", to nothing at {' and '.join(nothing)}"
        most = abs(self.amount_mm)
        if centre:
            return f"{told}: {_mm(most / 2)} from each half"
        one, two = seam.first[0].piece, seam.second[0].piece
        verb = "from" if inward else "to"
        return (
            f"{told}: {_mm(most * self.share)} {verb} the {one} and "
            f"{_mm(most * (1 - self.share))} {verb} the {two}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both sides' edges square to themselves and draw their pieces again."""
        before, trace = pattern, Trace()
        seam = pattern.seam(self.seam, self.side)
        if self.side in (BodySide.RIGHT, BodySide.LEFT) and seam.side is BodySide.BOTH:
            names = {r.piece for r in (*seam.first, *seam.second)}
            split = split_sides(pattern, names)
            pattern, trace = split.pattern, split.trace
        for part in _alike(pattern, self.seam, self.side):
            if any(not pattern.edge_of(r).parts for r in (*part.first, *part.second)):
                return Applied(before, effect_between(before, before, leaves=(
                    f"mark it on the paper: {self.sentence(before)}",)), Trace())  # fmt: skip
            pattern, moved = self._taken_in(pattern, part, step_id)
            trace = trace.then(moved)
        leaves = _left_to_do(before, pattern)
        return Applied(pattern, effect_between(before, pattern, leaves=leaves), trace)

    def _taken_in(self, pattern: Pattern, seam: Seam, step_id: str) -> tuple[Pattern, Trace]:
        places = [
            (
                seam_distance(
                    pattern,
                    Place(
                        seam=seam.name, side=seam.side, corner=a.corner, distance_mm=a.distance_mm
                    ),
                ),
                a.amount_mm,
            )
            for a in self.amounts
        ]
        places.sort()
        first = [(s, amount * self.share) for s, amount in places]
        if seam.side is BodySide.CENTRE and seam.on_itself:
            first = [(s, amount * 0.5) for s, amount in places]
        moves = _edge_moves(walked(pattern, seam.first), first)
        if not seam.on_itself:
            rest = 1 - self.share if seam.side is not BodySide.CENTRE else 0.5
            if seam.side is BodySide.CENTRE:
                moves = _edge_moves(walked(pattern, seam.first), [(s, v * 0.5) for s, v in places])
            second = [(across(pattern, seam, s), amount * rest) for s, amount in places]
            moves |= _edge_moves(walked(pattern, seam.second), second)
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


def _edge_moves(side: tuple[Walked, ...], places: list[tuple[float, float]]) -> Moves:
    """Turn amounts along a seam's side into a profile along each edge's base line."""
    moves: Moves = {}
    for step in side:
        knots = []
        for s, amount in places:
            on_edge = step.on_edge(s)
            inside = min(max(on_edge, 0.0), step.edge.length)
            knots.append((step.edge.base_distance(inside) + on_edge - inside, amount))
        run = step.run
        moves[run.piece, run.side, run.edge, run.side] = Profile(tuple(sorted(knots)))
    return moves


def _alike(pattern: Pattern, name: str, side: BodySide) -> tuple[Seam, ...]:
    """The seams of a name that an alteration for a body side means."""
    found = tuple(
        s
        for s in pattern.seams
        if s.name == name and (side in (BodySide.BOTH, s.side) or s.side is BodySide.CENTRE)
    )
    return found or (pattern.seam(name, side),)


def _left_to_do(old: Pattern, new: Pattern) -> tuple[str, ...]:
    from tracker.pattern.measure import around

    told = []
    for side in (BodySide.RIGHT, BodySide.LEFT):
        by = around(new, "armhole", side) - around(old, "armhole", side)
        if abs(by) >= 0.5:
            told.append(
                f"{side} armhole {abs(by):.1f} mm {'longer' if by > 0 else 'shorter'}: a sleeve "
                f"for it needs the same {'put into' if by > 0 else 'taken out of'} its seam"
            )
    fresh = {p.name for p in new.pieces if p not in old.pieces}
    told.extend(
        f"the {p.label} is taken from the {p.taken_from} and is out of date"
        for p in new.pieces
        if p.taken_from in fresh
    )
    return tuple(told)


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0") + " mm"


def _at(a: AmountAt) -> str:
    if a.distance_mm == 0:
        return f"at the {a.corner}"
    return f"at {a.distance_mm:.0f} mm from the {a.corner}"
