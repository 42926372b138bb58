"""Pieces taken from others: drawn by a kind that can draw them again."""

from abc import abstractmethod
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar, Self

from tracker.alterations.bodyside import mirrored, right_half
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.told import ONE_SIDE, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace
from tracker.pattern.traced import Traced


@dataclass(frozen=True, kw_only=True)
class EdgeOf:
    """An edge of a piece, by name."""

    piece: str
    edge: str

    @property
    def words(self) -> str:
        """Say it: "neckline of the front"."""
        return f"{self.edge} of the {self.piece}"


def edges_listed(parameters: Mapping[str, Any], *names: str) -> dict[str, Any]:
    """Return parameters with edges that were typed as one text taken apart.

    "neckline of front; neckline of back".

    Raises:
        PatternError: one of them does not name a piece.
    """
    given = dict(parameters)
    for name in names:
        if isinstance(given.get(name), str):
            given[name] = tuple(_edge_of(text) for text in given[name].split(";") if text.strip())
    return given


def _edge_of(text: str) -> dict[str, str]:
    edge, of, piece = text.strip().partition(" of ")
    if not of:
        raise PatternError(f"“{text.strip()}” does not say of which piece; write neckline of front")
    return {"edge": edge.removeprefix("the ").strip(), "piece": piece.removeprefix("the ").strip()}


def edges_found(
    pattern: Pattern, wanted: Iterable[EdgeOf], side: BodySide = BodySide.BOTH
) -> list[tuple[Piece, Edge]]:
    """Return the edges meant, on every body side they are drawn for.

    A piece that was parted since into panels ("front" into "centre front" and "side front") is
    looked for among them.

    Raises:
        UnknownName: there is no such piece or edge.
    """
    out: list[tuple[Piece, Edge]] = []
    for one in wanted:
        named = [p for p in pattern.pieces if p.name == one.piece]
        if not named:
            named = [
                p
                for p in pattern.pieces
                if p.layer == "shell"
                and p.name.endswith(f" {one.piece}")
                and any(e.name == one.edge for e in p.edges)
            ]
        if not named:
            pattern.piece(one.piece)  # says which there are
        found = [
            (p, e)
            for p in named
            for e in p.edges
            if e.name == one.edge and (side not in ONE_SIDE or e.side in (side, BodySide.BOTH))
        ]
        if not found:
            named[0].edge(one.edge, side if side in ONE_SIDE else None)
        out.extend(f for f in found if f not in out)
    return out


def names_found(pattern: Pattern, wanted: Iterable[str]) -> list[Piece]:
    """Return the pieces of some names, on every body side.

    Raises:
        UnknownName: there is none of a name.
    """
    out: list[Piece] = []
    for name in wanted:
        named = [p for p in pattern.pieces if p.name == name]
        if not named:
            pattern.piece(name)  # says which there are
        out.extend(named)
    return out


def heirs_found(pattern: Pattern, wanted: str) -> list[Piece]:
    """Return the pieces of a name on every body side, or the panels such a piece became.

    Raises:
        UnknownName: there is none.
    """
    if any(p.name == wanted for p in pattern.pieces):
        return names_found(pattern, [wanted])
    panels = [p for p in pattern.pieces if p.layer == "shell" and p.name.endswith(f" {wanted}")]
    return panels or names_found(pattern, [wanted])


@dataclass(frozen=True, kw_only=True)
class Tracing(Kind):
    """A kind that takes pieces from others.

    Attributes:
        name: what the new piece is called.
    """

    family: ClassVar[str] = "style"

    name: str

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise PatternError("what is the new piece called? Give it a name, such as neck facing")

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; edges may be one text: "neckline of front; neckline of back"."""
        return super().from_parameters(edges_listed(parameters, "edges"))

    @abstractmethod
    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Return the pieces, and what is worth saying of them.

        Raises:
            TrackerError: they cannot be drawn; the sentence says what would work.
        """

    @abstractmethod
    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the pieces it is taken from."""

    def seams(self, pattern: Pattern, pieces: tuple[Piece, ...]) -> tuple[Seam, ...]:
        """Return the seams in which the new pieces are sewn to the pattern's."""
        del pattern, pieces
        return ()

    def traced(self, **what: Any) -> Traced:
        """Return the record of how a piece was taken."""
        # Read back as the store will have them: a whole number given for a length is a length.
        return Traced(self.word, type(self).from_parameters(self.parameters()).parameters(), **what)

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Add the pieces to the pattern."""
        del step_id  # nothing that was there is moved
        if any(p.name == self.name for p in pattern.pieces):
            raise NameTaken(
                f"this pattern has a piece called {self.name} already; give this one another "
                "name, or have that one traced again"
            )
        if not all(p.has_outline for p in self.parents(pattern)):
            return on_paper(pattern, self.sentence(pattern))
        pieces, notes = self.drawn(pattern)
        seams = self.seams(pattern, pieces)
        new = replace(pattern, pieces=(*pattern.pieces, *pieces), seams=(*pattern.seams, *seams))
        new = settled(new)
        trace = new_pieces(pieces)
        added = tuple(Renamed("seam", ("", ""), ("", s.name)) for s in seams)
        trace = replace(trace, renamed=trace.renamed + added)
        told = (*(_lengths(p) for p in pieces), *notes)
        return Applied(new, effect_between(pattern, new, notes=told), trace)


def _lengths(piece: Piece) -> str:
    """Say a new piece: how it is cut, and how long its edges are."""
    edges = ", ".join(f"{e.name} {e.length:.0f} mm" for e in piece.edges)
    return f"{piece.label}, {piece.cut}: {edges}"


class NameTaken(UnknownName):
    """A new piece that was to have the name of one that exists."""


def new_pieces(pieces: Iterable[Piece]) -> Trace:
    """Return the trace of pieces that are new altogether."""
    fates: list[Fate] = []
    renamed: list[Renamed] = []
    for piece in pieces:
        fates += [Fate(None, Stretch.whole(piece, edge)) for edge in piece.edges]
        renamed.append(Renamed("piece", ("", ""), (piece.name, str(piece.side))))
        for thing, names in (
            ("notch", [n.name for n in piece.notches]),
            ("level", [v.name for v in piece.levels]),
            ("dart", [d.name for d in piece.darts]),
            ("mark", [m.name for m in piece.marks]),
        ):
            renamed += [Renamed(thing, ("", ""), (piece.name, name)) for name in names]
    return Trace(tuple(fates), tuple(renamed))


def for_side(piece: Piece, side: BodySide) -> Piece:
    """Return a piece drawn for both sides as it is for one; any other as it is.

    What would lie on the fold gets an edge at the centre instead.
    """
    if side not in ONE_SIDE or piece.side is not BodySide.BOTH:
        return piece
    whole = replace(piece, fold=None)
    return right_half(whole) if side is BodySide.RIGHT else mirrored(whole)


__all__ = [
    "EdgeOf", "NameTaken", "Tracing", "edges_found", "edges_listed", "for_side", "heirs_found",
    "names_found", "new_pieces",
]  # fmt: skip
