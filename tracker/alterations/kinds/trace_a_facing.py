"""Trace a facing: from an edge, or from several that are sewn end to end."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Example
from tracker.alterations.told import ONE_SIDE, mm
from tracker.alterations.tracing import EdgeOf, Tracing, edges_found, for_side
from tracker.drafting.centre import centre_name
from tracker.drafting.facing import JOIN, Facing, TooWide, facing_of
from tracker.drafting.grown_on import GROWN_EDGE, runs_on_to_facing, without_grown_on
from tracker.drafting.laid_flat import EdgeOn, Laid, Row, row_of
from tracker.drafting.over_panels import over_panels
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece, PieceKey
from tracker.pattern.seam import Run
from tracker.pattern.traced import Sewn

#: 2 1/2 in; common practice, no source.
USUAL_MM = 63.5


@dataclass(frozen=True, kw_only=True)
class TraceFacing(Tracing):
    """Trace a facing from edges.

    Attributes:
        edges: the edges; those of several pieces are laid together at the seam that joins
            them, and the facing is cut in one.
        width_mm: how far inside the edges it ends, square to them.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "trace a facing"
    #: Rule 3 lets it meet the next piece's at a slanted seam as their edges do.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Trace a facing from a neckline, an armhole, a waist or a front edge: as wide as told, "
        "with the piece's grain and its darts closed; edges of pieces that are sewn together may "
        "be faced in one."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("width_mm",)
    one_way: ClassVar[bool] = True

    edges: tuple[EdgeOf, ...]
    width_mm: float = USUAL_MM
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.edges:
            raise PatternError("which edges are faced? Name them, such as neckline of front")
        if self.width_mm <= 0:
            raise PatternError("how wide is the facing? Give a width of more than nothing")

    @classmethod
    def example(cls) -> Example:
        """A neckline faced in front."""
        edges = (EdgeOf(piece="front", edge="neckline"),)
        return Example(examples.bodice(), cls(name="front facing", edges=edges))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Neck facing traced from the neckline of the front, 64 mm wide"."""
        found = self._found(pattern)
        names = dict.fromkeys(f"the {e.name} of the {p.name}" for p, e in found)
        who = f" for the wearer's {self.side} side only" if self.side in ONE_SIDE else ""
        one = ", in one" if len(names) > 1 else ""
        return (
            f"{self.name.strip().capitalize()} traced{who} from {' and '.join(names)}{one}, "
            f"{mm(self.width_mm)} wide"
        )

    def _found(self, pattern: Pattern) -> list[EdgeOn]:
        return edges_found(pattern, self.edges, self.side)

    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the pieces it is traced from."""
        return tuple({p.key: p for p, _ in self._found(pattern)}.values())

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Trace one facing, or a right and a left one where they differ."""
        stopped, grown = _up_to_grown_on(pattern, self._found(pattern))
        found = self._found(stopped)
        pieces, notes = [], list[str]()
        for some in _apart(found):
            row = row_of(stopped, some, self.width_mm)
            row, facing, beside = _traced(stopped, row, self.width_mm)
            laids = (*row.edges, *row.beside_start, *row.beside_end)
            seen = seen_all(
                [(p, e) for laid in laids for p, e in _of_the_whole(pattern, laid, grown)]
            )
            traced = self.traced(
                seen=seen,
                sewn=tuple(
                    Sewn(e.name, e.side, runs, 1, _covered(pattern, e, runs, grown))
                    for e, runs in facing.sewn
                ),
                beside=tuple(b for b in facing.beside if b[1].edge != JOIN),
            )
            piece = replace(facing.piece, name=self.name.strip(), traced=traced)
            pieces.append(for_side(piece, self.side))
            notes += [n for n in (*beside, *_notes(pattern, row, facing)) if n not in notes]
        return tuple(pieces), tuple(notes)


def _traced(pattern: Pattern, row: Row, width_mm: float) -> tuple[Row, Facing, tuple[str, ...]]:
    """A facing, over the panels beside it where its own piece is too narrow, and how it lies."""
    try:
        return row, facing_of(pattern, row, width_mm), ()
    except TooWide:
        wider, laid = over_panels(pattern, row, width_mm)
        if not laid:
            raise
    facing = facing_of(pattern, wider, width_mm)
    reached = {run.piece for _, run in facing.beside}
    own = {laid.piece.name for laid in (row.before, *row.edges, row.after)}
    told = (f"traced with {' and '.join(laid)}",) if reached - own else ()
    return wider, facing, told


def _up_to_grown_on(pattern: Pattern, found: list[EdgeOn]) -> tuple[Pattern, set[PieceKey]]:
    """The pattern with pieces cut off where a facing is grown on that faces the edges too."""
    grown: set[PieceKey] = set()
    named = {(p.key, e.key) for p, e in found}
    for piece, edge in found:
        whole = (piece.key, (f"stand {edge.name}", edge.side)) in named
        if not whole and runs_on_to_facing(piece, edge):
            now = pattern.piece(*piece.key)
            pattern = pattern.with_pieces(without_grown_on(now, now.edge(*edge.key)))
            grown.add(piece.key)
    return pattern, grown


def _of_the_whole(pattern: Pattern, laid: Laid, grown: set[PieceKey]) -> list[EdgeOn]:
    """The edge as the pattern has it; of one that stops at a facing grown on, that one's too."""
    if laid.piece.key not in grown:
        return [(laid.piece, laid.edge)]
    piece = pattern.piece(*laid.piece.key)
    name = GROWN_EDGE if laid.edge.name == JOIN else laid.edge.name
    return [(piece, piece.edge(name, laid.edge.side))]


def _covered(pattern: Pattern, edge: Edge, runs: tuple[Run, ...], grown: set[PieceKey]) -> float:
    """How much shorter a facing's edge is than what it is sewn to, a facing grown on there."""
    theirs = [(pattern.piece(r.piece, r.side), r) for r in runs]
    if not any(p.key in grown for p, _ in theirs):
        return 0.0
    return edge.length - sum(p.edge(r.edge, r.side).length for p, r in theirs)


def _apart(found: list[EdgeOn]) -> list[list[EdgeOn]]:
    """Those of the right and of the left side apart, where they do not meet in one piece."""
    sides = {e.side for _, e in found}
    if not {BodySide.RIGHT, BodySide.LEFT} <= sides:
        return [found]
    meeting = any(
        p.key == q.key and e.side is not f.side and f.key in (p.after(e).key, p.before(e).key)
        for p, e in found
        for q, f in found
    )
    if meeting:
        return [found]
    return [
        [(p, e) for p, e in found if e.side in (side, BodySide.BOTH)]
        for side in (BodySide.RIGHT, BodySide.LEFT)
    ]


def _notes(pattern: Pattern, row: Row, facing: Facing) -> list[str]:
    told = []
    if any(laid.edge.name == JOIN for laid in (row.before, row.after)):
        told.append(
            "it ends where the facing that is grown on ends when it is turned in, and is sewn to it"
        )
    if facing.closed:
        told.append(f"closed in it: {', '.join(facing.closed)}")
    if facing.seams:
        told.append(f"cut in one across the {' and the '.join(facing.seams)} seam")
    for laid in (row.before, row.after):
        centre = centre_name(pattern, laid.piece, laid.edge)
        if centre == laid.edge.name and centre != facing.piece.fold:
            told.append(
                f"it has an edge at the {laid.edge.name}, as the {laid.piece.name} has: put it on "
                "the fold if nothing opens there"
            )
    return told
