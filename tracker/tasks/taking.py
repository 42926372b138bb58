"""Pieces taken from others, as they are asked for: facings, linings, interfacings."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.copy_a_lining import CopyLining, EdgeEase
from tracker.alterations.kinds.cut_an_interfacing import CutInterfacing
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.drafting.button_stand import FRONT_EDGE
from tracker.errors import TrackerError, nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.tasks.named import the_version

if TYPE_CHECKING:
    from tracker.pattern.pattern import Pattern
    from tracker.pattern.piece import Piece
    from tracker.store.engine import Store


class NothingToTake(TrackerError):
    """A piece was to be taken from nothing."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class FacingWish:
    """What the maker asks of facings.

    Attributes:
        edges: each an edge of every shell piece that has it ("neckline"), or of one piece
            ("neckline of front").
        width_mm: how wide they are.
        name: what they are called; "" for the piece's or the edge's name and "facing".
        in_one: edges of several pieces are faced in one, not a facing for each piece.
        side: both, or the wearer's right or left only.
    """

    edges: tuple[str, ...]
    width_mm: float
    name: str = ""
    in_one: bool = False
    side: BodySide = BodySide.BOTH

    def kinds(self, pattern: "Pattern") -> tuple[Kind, ...]:
        """Return a step for each facing; over a button stand it covers its edges too.

        Raises:
            NothingToTake: no edge is named, or none of the name is there.
        """
        found = edges_said(pattern, self.edges, over_stands=True)
        if self.in_one:
            name = self.name or f"{found[0].edge} facing"
            return (self._facing(name, found),)
        by_piece: dict[str, list[EdgeOf]] = {}
        for one in found:
            by_piece.setdefault(one.piece, []).append(one)
        taken = {p.name for p in pattern.pieces}
        kinds = []
        for piece, edges in by_piece.items():
            name = f"{piece} {self.name}" if len(by_piece) > 1 else self.name
            if not self.name:
                name = f"{piece} facing"
                name = name if name not in taken else f"{piece} {edges[0].edge} facing"
            kinds.append(self._facing(name, edges))
        return tuple(kinds)

    def _facing(self, name: str, edges: Iterable[EdgeOf]) -> Kind:
        return TraceFacing(name=name, edges=tuple(edges), width_mm=self.width_mm, side=self.side)


@dataclass(frozen=True, slots=True, kw_only=True)
class LiningWish:
    """What the maker asks of linings.

    Attributes:
        pieces: the pieces; none named means every piece of the shell but bands and collars.
        ease: (edge, mm) larger there, on the pieces that have the edge.
        pleat_mm: a pleat at the centre, on the pieces that have that edge.
        pleat_at: the edge it lies at.
        whole: not cut off at the facings.
    """

    pieces: tuple[str, ...] = ()
    ease: tuple[tuple[str, float], ...] = ()
    pleat_mm: float = 0.0
    pleat_at: str = "centre back"
    whole: bool = False

    def kinds(self, pattern: "Pattern") -> tuple[Kind, ...]:
        """Return a step for each piece.

        Raises:
            NothingToTake: no piece has an edge that was named.
        """
        pieces = lined(pattern, self.pieces)
        for edge, _ in self.ease:
            edges_said(pattern, (edge,))
        if self.pleat_mm:
            edges_said(pattern, (self.pleat_at,))
        return tuple(self._lining(pattern, piece) for piece in pieces)

    def _lining(self, pattern: "Pattern", piece: "Piece") -> Kind:
        edges = {e.name for e in piece.edges}
        faced = tuple(
            p.name
            for p in pattern.pieces
            if p.layer == "facing"
            and p.traced is not None
            and any(run.piece == piece.name for sewn in p.traced.sewn for run in sewn.to)
        )
        return CopyLining(
            name=f"{piece.name} lining",
            piece=piece.name,
            ease=tuple(EdgeEase(edge=e, by_mm=mm) for e, mm in self.ease if e in edges),
            pleat_mm=self.pleat_mm if self.pleat_at in edges else 0.0,
            pleat_at=self.pleat_at,
            without=() if self.whole else tuple(dict.fromkeys(faced)),
        )


def lined(pattern: "Pattern", names: tuple[str, ...]) -> tuple["Piece", ...]:
    """Return the pieces named, or every piece of the shell but those taken from others."""
    if names:
        return tuple(pattern.piece(name) for name in names)
    shell = [p for p in pattern.pieces if p.layer == "shell" and p.traced is None]
    return tuple({p.name: p for p in shell}.values())


def interfacings(
    pattern: "Pattern", pieces: tuple[str, ...], smaller_mm: float
) -> tuple[Kind, ...]:
    """Return a step for each piece that is to be interfaced; every facing, if none is named.

    Raises:
        NothingToTake: none is named and there is no facing.
    """
    names = pieces or tuple(
        dict.fromkeys(
            p.name
            for p in pattern.pieces
            if p.layer == "facing" or (p.layer == "shell" and p.traced is not None)
        )
    )
    if not names:
        raise NothingToTake(
            "which piece is interfaced? There is no facing, band or collar yet; name one with "
            "--piece"
        )
    return tuple(
        CutInterfacing(name=f"{name} interfacing", piece=name, smaller_mm=smaller_mm)
        for name in names
    )


def edges_said(
    pattern: "Pattern", texts: Iterable[str], *, over_stands: bool = False
) -> tuple[EdgeOf, ...]:
    """Return the edges said: "neckline of front", or "neckline" of every shell piece with one.

    Args:
        pattern: the pattern.
        texts: what was said.
        over_stands: with an edge that runs on over a button stand, the stand's edges too.

    Raises:
        NothingToTake: none is said, or no piece has one of the name.
    """
    out: list[EdgeOf] = []
    for text in texts:
        edge, of, piece = (part.strip() for part in text.partition(" of "))
        if of:
            out.append(EdgeOf(piece=piece.removeprefix("the "), edge=edge))
            continue
        shell = [p for p in pattern.pieces if p.layer == "shell"]
        found = dict.fromkeys(p.name for p in shell for e in p.edges if e.name == edge)
        if not found:
            known = list(dict.fromkeys(e.name for p in shell for e in p.edges))
            raise NothingToTake(
                f"no piece has an edge called “{edge}”; there are {', '.join(known)}."
                f"{nearest_names(edge, known)}"
            )
        for name in found:
            besides = _over_a_stand(pattern, name, edge) if over_stands else ()
            out += [EdgeOf(piece=name, edge=e) for e in (edge, *besides)]
    if not out:
        raise NothingToTake("which edge? Name it with --edge, such as neckline")
    return tuple(dict.fromkeys(out))


def _over_a_stand(pattern: "Pattern", piece: str, edge: str) -> tuple[str, ...]:
    """The edges an edge runs on into over a button stand: what is sewn to it covers these too."""
    have = {e.name for e in pattern.piece(piece).edges}
    run = (f"stand {edge}", FRONT_EDGE)
    return run if have >= set(run) else ()


def pattern_of(store: "Store", said: str | None) -> "Pattern":
    """Return the pattern of a version.

    Raises:
        TrackerError: no such version.
    """
    with store.reading() as books:
        return the_version(books, said).pattern
