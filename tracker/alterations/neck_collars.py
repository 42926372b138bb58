"""Collars sewn to a neckline from centre to centre: what they are taken from, and the neck seam."""

from abc import abstractmethod
from dataclasses import dataclass

from tracker.alterations.tracing import EdgeOf, Tracing, edges_found
from tracker.drafting.centre import centre_name, is_centre
from tracker.drafting.laid_flat import Row, row_of
from tracker.drafting.strip import NECK_EDGE
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam

#: Two pieces lie on their seam by their directions this far from the row, millimetres.
_ALIGN_MM = 20.0
#: Right and left halves of a neckline within this are alike.
_ALIKE_MM = 0.5
ONE_SIDE = (BodySide.RIGHT, BodySide.LEFT)


@dataclass(frozen=True, kw_only=True)
class NeckCollar(Tracing):
    """A collar that is sewn to the neckline, folded at one centre.

    Attributes:
        edges: the neckline's edges; none named means those called neckline.
        fold_at: the centre it is folded at.
    """

    edges: tuple[EdgeOf, ...] = ()
    fold_at: str = ""

    def neckline(self, pattern: Pattern) -> tuple[EdgeOf, ...]:
        """Return the edges it is sewn to.

        Raises:
            PatternError: none is named and none is called neckline.
        """
        if self.edges:
            return self.edges
        found = dict.fromkeys(
            p.name for p in pattern.pieces for e in p.edges
            if p.layer == "shell" and e.name == "neckline"
        )  # fmt: skip
        if not found:
            raise PatternError("no piece has an edge called neckline; name the edges it is sewn to")
        return tuple(EdgeOf(piece=name, edge="neckline") for name in found)

    def neckline_words(self, pattern: Pattern) -> str:
        """Say what it is cut to: "the neckline of the front and the neckline of the back"."""
        found = edges_found(pattern, self.neckline(pattern))
        return " and ".join(dict.fromkeys(f"the {e.name} of the {p.name}" for p, e in found))

    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the pieces it is sewn to."""
        return tuple({p.key: p for p, _ in edges_found(pattern, self.neckline(pattern))}.values())

    def row(self, pattern: Pattern, align_mm: float = _ALIGN_MM) -> Row:
        """Return the neckline laid end to end.

        Where the block's sides differ elsewhere, the right half of it.

        Raises:
            PatternError: it differs right and left, or does not run from centre to centre.
        """
        found = edges_found(pattern, self.neckline(pattern))
        halves = [
            [(p, e) for p, e in found if e.side in (side, BodySide.BOTH)]
            for side in (BodySide.RIGHT, BodySide.LEFT)
        ]
        if len(halves[0]) < len(found):
            rights, lefts = ({(p.name, e.name): e.length for p, e in half} for half in halves)
            off = max((abs(mm - lefts.get(key, 0.0)) for key, mm in rights.items()), default=0.0)
            if off > _ALIKE_MM or len(rights) != len(lefts):
                raise PatternError(_unlike(off, sum(rights.values()) - sum(lefts.values())))
        row = row_of(pattern, halves[0], align_mm)
        for end, laid in ((row.before, row.edges[0]), (row.after, row.edges[-1])):
            other_half = end.edge.name == laid.edge.name and end.edge.side is not laid.edge.side
            if not other_half and not is_centre(pattern, end.piece, end.edge):
                raise PatternError(
                    f"the collar's edges end at the {end.edge.name} of the {end.piece.label}, not "
                    "at a centre; name the whole neckline, front and back"
                )
        return row

    def fold(self, pattern: Pattern, row: Row) -> tuple[str, bool]:
        """Return the centre it is folded at, and whether the row begins there.

        Raises:
            PatternError: it does not end at the centre named.
        """
        ends = (row.before, row.after)
        names = [_centre(pattern, e.piece, e.edge) for e in ends]
        if self.fold_at and self.fold_at not in names:
            raise PatternError(
                f"the collar ends at the {' and the '.join(names)}, not at the {self.fold_at}"
            )
        folded = [e.edge.name for e in ends if e.edge.name == e.piece.fold]
        behind = [n for n in names if "back" in n]
        at = self.fold_at or self.folds_itself(folded, behind) or names[0]
        return ("centre back" if "back" in at else "centre front"), names[0] == at

    @abstractmethod
    def folds_itself(self, folded: list[str], behind: list[str]) -> str:
        """Return the centre it is folded at if not told.

        Args:
            folded: the centres at which the neckline itself is on the fold.
            behind: the centre back, where the neckline ends there.
        """

    @abstractmethod
    def runs_backward(self, *, from_fold: bool) -> bool:
        """Tell whether its neck edge runs against the row of the neckline's edges."""

    def seams(self, pattern: Pattern, pieces: tuple[Piece, ...]) -> tuple[Seam, ...]:
        """Return the neck seam."""
        row, (collar,) = self.row(pattern), pieces
        _, from_fold = self.fold(pattern, row)
        backward = self.runs_backward(from_fold=from_fold)
        run = Run(collar.name, NECK_EDGE, BodySide.BOTH, backward=backward)
        sides = {laid.edge.side for laid in row.edges} - {BodySide.BOTH}
        out = []
        for side in (BodySide.RIGHT, BodySide.LEFT) if sides else (BodySide.BOTH,):
            mirrored = side is BodySide.LEFT  # her left half runs the other way round
            first = tuple(
                Run(e.piece.name, e.edge.name, side if e.edge.side in ONE_SIDE else e.edge.side,
                    backward=mirrored and e.edge.side in ONE_SIDE)
                for e in row.edges
            )  # fmt: skip
            matches = tuple(
                Match(e.piece.name, e.edge.end, collar.name, f"{s} notch")
                for s, e in zip(row.seams, row.edges, strict=False)
                if s
            )
            out.append(Seam("neck", side, first, (run,), matches))
        return tuple(out)


def _unlike(off_mm: float, more_mm: float) -> str:
    """Say how the right half of a neckline differs from the left, and what to type."""
    if abs(more_mm) <= _ALIKE_MM:
        return (
            f"the shoulder seam meets the neckline {off_mm:.1f} mm further round on one side than "
            "on the other, and a collar cut on the fold has one place for both: move the neck "
            'point of one side; tracker alter kinds "move a corner" shows how'
        )
    shorter = BodySide.LEFT if more_mm > 0 else BodySide.RIGHT
    return (
        f"the neckline is {abs(more_mm):.1f} mm longer on one side than on the other, and a "
        "collar cut on the fold is not: make them alike with tracker alter make "
        f'"change the neckline" to=looser by={abs(more_mm):.1f}mm side={shorter}'
    )


def _centre(pattern: Pattern, piece: Piece, edge: Edge) -> str:
    """The centre an edge lies at, or at which its other half goes on."""
    line = next((v.name for v in piece.levels if v.side is BodySide.CENTRE), "")
    return centre_name(pattern, piece, edge) or line or edge.name


__all__ = ["NeckCollar"]
