"""Add a notch, and the one it meets."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.notch_pairs import edge_at, opposite, sewn, with_match
from tracker.alterations.shaping import spot
from tracker.alterations.together import split_together
from tracker.alterations.told import edges_meant, mm, on_paper, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match
from tracker.pattern.walk import walked

_COUNTS = {1: "single", 2: "double", 3: "triple"}


@dataclass(frozen=True, kw_only=True)
class AddNotch(Kind):
    """Add a notch to an edge.

    Attributes:
        piece: the piece's name.
        edge: the edge it is on.
        corner: the corner of that edge its distance is kept from.
        distance_mm: along the edge as sewn.
        name: what it is called; both notches of a pair are.
        count: 1 single, 2 double, 3 triple.
        side: both, or the wearer's right or left only.
        partner: where the edge is sewn to another, one is added there to meet it.
    """

    word: ClassVar[str] = "add a notch"
    help: ClassVar[str] = (
        "Add a notch to an edge at a distance from one of its corners; where the edge is sewn to "
        "another, the notch that meets it is added there too."
    )

    piece: str
    edge: str
    corner: str
    distance_mm: float
    name: str
    count: int = 1
    side: BodySide = BodySide.BOTH
    partner: bool = True

    def __post_init__(self) -> None:
        if self.count not in _COUNTS:
            raise PatternError("a notch is single, double or triple: its count is 1, 2 or 3")
        if not self.name.strip():
            raise PatternError("the notch needs a name")

    @classmethod
    def example(cls) -> Example:
        """A notch where a side zip ends."""
        return Example(
            examples.skirt(),
            cls(
                piece="front", edge="side", corner="side waist", distance_mm=120.0,
                name="zip notch",
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Single notch 'hip notch' added to the side of the front, 90 mm from …"."""
        piece = pattern.piece(self.piece, self.side)
        edge = piece.edge(self.edge)
        begin = whose(self.side)
        kind = f"{_COUNTS[self.count]} notch"
        met = sewn(pattern, piece, edge) if self.partner else None
        also = ", and the one that meets it" if met else ""
        return (
            f"{begin}{kind if begin else kind.capitalize()} {self.name!r} added to the {self.edge} "
            f"of the {self.piece}, {mm(self.distance_mm)} from the {self.corner}{also}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Put the notch on its edge, and its partner where it meets it."""
        del step_id  # a notch carries no displacement
        before = pattern
        first = edges_meant(pattern, self.piece, self.edge, BodySide.BOTH)[0]
        if not first[1].parts:
            return on_paper(before, self.sentence(before))
        names = {self.piece}
        met = sewn(pattern, *first) if self.partner else None
        if met:
            names |= {r.piece for r in met[2]}
        split = split_together(pattern, names, self.side)
        pattern = split.pattern
        told: list[str] = []
        for piece, edge in edges_meant(pattern, self.piece, self.edge, self.side):
            self._free(piece, edge.side)
            at_mm = spot(piece, edge, self.corner, self.distance_mm)
            notch = Notch(
                self.name, edge.side, edge.name, self.corner, self.distance_mm, self.count
            )
            piece = pattern.piece(*piece.key)
            pattern = pattern.with_pieces(replace(piece, notches=(*piece.notches, notch)))
            told.append(f"{self.name} of the {piece.label} added")
            if self.partner:
                pattern, more = self._partner(pattern, piece, edge, at_mm)
                told.extend(more)
        return Applied(pattern, effect_between(before, pattern, notches=told), split.trace)

    def _free(self, piece: Piece, side: BodySide) -> None:
        if any((n.name, n.side) == (self.name, side) for n in piece.notches):
            raise PatternError(
                f"the {piece.label} has a notch called {self.name!r} already; give this one "
                "another name"
            )

    def _partner(
        self, pattern: Pattern, piece: Piece, edge: Edge, at_mm: float
    ) -> tuple[Pattern, list[str]]:
        found = sewn(pattern, piece, edge)
        if found is None:
            return pattern, []
        seam, near, far = found
        mine = next(
            s
            for s in walked(pattern, near)
            if (s.run.piece, s.run.edge, s.run.side) == (piece.name, edge.name, edge.side)
        )
        over = opposite(pattern, seam, near, mine.on_side(at_mm))
        theirs = edge_at(walked(pattern, far), over)
        other = pattern.piece(theirs.run.piece, theirs.run.side)
        self._free(other, theirs.run.side)
        there = theirs.on_edge(over)
        # Kept from the corner of the same name where there is one, so that both stay together.
        from_end = theirs.edge.end == self.corner or (
            theirs.edge.start != self.corner and theirs.run.backward
        )
        corner = theirs.edge.end if from_end else theirs.edge.start
        distance = theirs.edge.length - there if from_end else there
        notch = Notch(self.name, theirs.run.side, theirs.run.edge, corner, distance, self.count)
        pattern = pattern.with_pieces(replace(other, notches=(*other.notches, notch)))
        pair = (piece.name, self.name, other.name, self.name)
        if near is not seam.first:
            pair = (other.name, self.name, piece.name, self.name)
        pattern = with_match(pattern, seam, Match(*pair))
        return pattern, [
            f"{self.name} of the {other.label} added to meet it, {distance:.1f} mm from the "
            f"{corner}"
        ]
