"""Cut a stand collar: straight, as long as the neckline it is sewn to."""

import itertools
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Example
from tracker.alterations.told import mm
from tracker.alterations.tracing import EdgeOf, Tracing, edges_found
from tracker.drafting.centre import centre_name, is_centre
from tracker.drafting.laid_flat import Row, row_of
from tracker.drafting.strip import NECK_EDGE, Spot, stand_collar
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam

#: Two pieces lie on their seam by their directions this far from the row, millimetres.
_ALIGN_MM = 20.0


@dataclass(frozen=True, kw_only=True)
class CutStandCollar(Tracing):
    """Cut a straight stand collar and sew it to the neckline.

    Attributes:
        edges: the neckline's edges; none named means those called neckline.
        height_mm: how high it stands.
        beyond_mm: how far it goes on beyond the centre, over a button stand.
        fold_at: the centre it is folded at; else where the neckline is on the fold, else the
            centre back.
    """

    word: ClassVar[str] = "cut a stand collar"
    help: ClassVar[str] = (
        "Cut a straight stand collar on the fold, as long as the neckline from centre to centre, "
        "notched at the shoulder, and sew it on; changing the neckline then carries it along."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("height_mm",)
    one_way: ClassVar[bool] = True

    edges: tuple[EdgeOf, ...] = ()
    height_mm: float = 35.0
    beyond_mm: float = 0.0
    fold_at: str = ""

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.height_mm <= 0 or self.beyond_mm < 0:
            raise PatternError(
                "a collar stands higher than nothing, and goes on by nothing or more"
            )

    @classmethod
    def example(cls) -> Example:
        """A stand collar for a bodice."""
        return Example(examples.bodice(), cls(name="collar"))

    def _edges(self, pattern: Pattern) -> tuple[EdgeOf, ...]:
        if self.edges:
            return self.edges
        found = dict.fromkeys(
            p.name for p in pattern.pieces for e in p.edges
            if p.layer == "shell" and e.name == "neckline"
        )  # fmt: skip
        if not found:
            raise PatternError("no piece has an edge called neckline; name the edges it is sewn to")
        return tuple(EdgeOf(piece=name, edge="neckline") for name in found)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Collar 35 mm high, straight, cut to the neckline of the front and …"."""
        found = edges_found(pattern, self._edges(pattern))
        names = dict.fromkeys(f"the {e.name} of the {p.name}" for p, e in found)
        over = f", going on {mm(self.beyond_mm)} beyond the centre" * (self.beyond_mm > 0)
        return (
            f"{self.name.strip().capitalize()} {mm(self.height_mm)} high, straight, cut to "
            f"{' and '.join(names)}{over}"
        )

    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the pieces it is sewn to."""
        return tuple({p.key: p for p, _ in edges_found(pattern, self._edges(pattern))}.values())

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Draw the collar."""
        row = self._row(pattern)
        fold, from_fold = self._fold(pattern, row)
        lengths = [laid.edge.length for laid in row.edges]
        names = [f"{s} notch" if s else e.edge.end
                 for s, e in zip(row.seams, row.edges, strict=False)]  # fmt: skip
        if not from_fold:
            lengths, names = lengths[::-1], names[::-1]
        at = list(itertools.accumulate(lengths))
        spots = [Spot(s, name) for s, name in zip(at, names, strict=False)]
        piece = stand_collar(at[-1], self.height_mm, self.beyond_mm, spots, fold)
        seen = seen_all((laid.piece, laid.edge) for laid in row.edges)
        parent = row.edges[0].piece.name
        piece = replace(
            piece, name=self.name.strip(), taken_from=parent, traced=self.traced(seen=seen)
        )
        return (piece,), ("cut it twice: once for the outside, once for its facing",)

    def _row(self, pattern: Pattern) -> Row:
        found = edges_found(pattern, self._edges(pattern))
        if {e.side for _, e in found} & {BodySide.RIGHT, BodySide.LEFT}:
            raise PatternError(
                "the neckline is not the same on the right and on the left, and a collar cut on "
                "the fold is; true the neckline first"
            )
        row = row_of(pattern, found, _ALIGN_MM)
        for end in (row.before, row.after):
            if not is_centre(pattern, end.piece, end.edge):
                raise PatternError(
                    f"the collar's edges end at the {end.edge.name} of the {end.piece.label}, not "
                    "at a centre; name the whole neckline, front and back"
                )
        return row

    def _fold(self, pattern: Pattern, row: Row) -> tuple[str, bool]:
        """The centre it is folded at, and whether the row begins there."""
        ends = (row.before, row.after)
        names = [centre_name(pattern, e.piece, e.edge) or e.edge.name for e in ends]
        if self.fold_at and self.fold_at not in names:
            raise PatternError(
                f"the collar ends at the {' and the '.join(names)}, not at the {self.fold_at}"
            )
        folded = [e.edge.name for e in ends if e.edge.name == e.piece.fold]
        behind = [n for n in names if "back" in n]
        whole = folded if len(folded) == 1 else []
        at = self.fold_at or next(iter(whole or behind), names[0])
        return ("centre back" if "back" in at else "centre front"), names[0] == at

    def seams(self, pattern: Pattern, pieces: tuple[Piece, ...]) -> tuple[Seam, ...]:
        """Return the neck seam."""
        row, (collar,) = self._row(pattern), pieces
        _, from_fold = self._fold(pattern, row)
        first = tuple(Run(e.piece.name, e.edge.name, e.edge.side) for e in row.edges)
        matches = tuple(
            Match(e.piece.name, e.edge.end, collar.name, f"{s} notch")
            for s, e in zip(row.seams, row.edges, strict=False)
            if s
        )
        # The neck edge runs towards the fold.
        run = Run(collar.name, NECK_EDGE, BodySide.BOTH, backward=from_fold)
        return (Seam("neck", BodySide.BOTH, first, (run,), matches),)
