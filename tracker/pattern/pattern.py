"""A pattern: pieces, the seams that join them, and the ease that was planned."""

from dataclasses import dataclass, replace
from functools import cached_property

from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.piece import Piece, PieceKey
from tracker.pattern.seam import Run, Seam

FORMAT = 1


@dataclass(frozen=True)
class Pattern:
    """Pieces and seams; a step returns a new one.

    Attributes:
        pieces: the pieces.
        seams: the seams.
        ease: planned ease by material line in millimetres of the whole girth.
    """

    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...] = ()
    ease: tuple[tuple[str, float], ...] = ()

    @cached_property
    def _by_key(self) -> dict[PieceKey, Piece]:
        return {piece.key: piece for piece in self.pieces}

    def piece(self, name: str, side: BodySide | None = None) -> Piece:
        """Return a piece by name and body side.

        A side asked of a piece that is cut as a mirrored pair, or that lies across the
        centre, gives that piece; both sides asked of one that differs right and left give the
        right one.

        Raises:
            UnknownName: there is none; the message lists those there are.
        """
        named = [p for p in self.pieces if p.name == name]
        for piece in named:
            if side is None or piece.side is side:
                return piece
        for piece in named:
            if piece.side in (BodySide.BOTH, BodySide.CENTRE):
                return piece
        if named and side is BodySide.BOTH:
            return named[0]
        known = sorted({p.name for p in self.pieces})
        raise UnknownName(
            f"this pattern has no piece called {name!r}; it has {', '.join(known)}."
            f"{nearest_names(name, known)}"
        )

    def seam(self, name: str, side: BodySide | None = None) -> Seam:
        """Return a seam by name and body side.

        Both sides asked of a seam that differs right and left gives the right one.

        Raises:
            UnknownName: there is none; the message lists those there are.
        """
        named = [s for s in self.seams if s.name == name]
        for seam in named:
            if side is None or seam.side is side:
                return seam
        for seam in named:
            if seam.side in (BodySide.BOTH, BodySide.CENTRE):
                return seam
        if named and side is BodySide.BOTH:
            return named[0]
        known = sorted({s.name for s in self.seams})
        if named and side is not None:
            raise UnknownName(f"the {name} seam has no {side} side in this pattern")
        raise UnknownName(
            f"this pattern has no seam called {name!r}; it has {', '.join(known)}."
            f"{nearest_names(name, known)}"
        )

    def edge_of(self, run: Run) -> Edge:
        """Return the edge a run names."""
        return self.piece(run.piece, run.side).edge(run.edge, run.side)

    def seams_on(self, piece: Piece, edge: Edge) -> tuple[Seam, ...]:
        """Return the seams an edge is sewn in."""
        return tuple(
            seam
            for seam in self.seams
            if any(
                run.piece == piece.name and run.edge == edge.name and run.side is edge.side
                for run in (*seam.first, *seam.second)
            )
        )

    def with_pieces(self, *pieces: Piece) -> "Pattern":
        """Return the pattern with the pieces of the same keys replaced."""
        fresh = {p.key: p for p in pieces}
        return replace(self, pieces=tuple(fresh.get(p.key, p) for p in self.pieces))

    def with_seam(self, seam: Seam) -> "Pattern":
        """Return the pattern with the seam of the same key replaced."""
        return replace(self, seams=tuple(seam if s.key == seam.key else s for s in self.seams))
