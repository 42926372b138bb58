"""Copy a lining: a piece once more, with ease of its own, and without what is faced."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.copying import EdgeKey, copied, edges_called
from tracker.alterations.kind import Example
from tracker.alterations.told import mm
from tracker.alterations.tracing import Tracing, heirs_found
from tracker.drafting.cut_off import FACING_SEAM, cut_off
from tracker.drafting.facing import slanted
from tracker.drafting.facing_piece import INNER, clear_mm, grain_in
from tracker.drafting.laid_flat import closed_backward, closed_forward
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.marks import Level, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.traced import Sewn

#: Of a lining that is meant to meet its facing: longer than this by nothing she asked for.
_WORTH_MM = 0.05
#: More than this in one seam shows as fullness; common practice, no source.
MOST_EASE_MM = 6.0
#: A grain line nearer to what the lining is cut off at is drawn elsewhere.
_GRAIN_CLEAR_MM = 8.0


@dataclass(frozen=True, slots=True)
class _Faced:
    """A facing, how wide it is, and the piece's edges it faces."""

    facing: Piece
    width_mm: float
    edges: tuple[Edge, ...]


@dataclass(frozen=True, kw_only=True)
class EdgeEase:
    """How much larger a lining is at an edge.

    Attributes:
        edge: the edge's name.
        by_mm: how far outside the shell's edge it lies, square to it; negative inside: a
            shorter hem.
    """

    edge: str
    by_mm: float


@dataclass(frozen=True, kw_only=True)
class CopyLining(Tracing):
    """Copy a piece as its lining.

    Attributes:
        piece: the piece.
        ease: how much larger it is at which edges: "side: by 3mm", "hem: by -20mm".
        pleat_mm: the depth of a pleat at the centre, on the drawn half; the pleat takes up
            twice as much of the whole.
        pleat_at: the edge the pleat lies at.
        without: facings the lining is cut off at.
    """

    word: ClassVar[str] = "copy a lining"
    #: Rule 3 lets it meet the next piece's at a slanted seam as their edges do.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Copy a piece as its lining, with its darts and notches: with ease at the edges you name, "
        "a pleat at the centre back for movement, and cut off where a facing begins."
    )

    piece: str
    ease: tuple[EdgeEase, ...] = ()
    pleat_mm: float = 0.0
    pleat_at: str = "centre back"
    without: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.pleat_mm < 0:
            raise PatternError("a pleat is nothing deep, or more")
        names = [e.edge for e in self.ease]
        if len(set(names)) < len(names):
            raise PatternError("an edge of the lining has its ease told twice; tell it once")

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; facings may be one text: "front facing, back facing"."""
        given = dict(parameters)
        if isinstance(given.get("without"), str):
            given["without"] = tuple(
                n.strip() for n in given["without"].replace(";", ",").split(",") if n.strip()
            )
        return super().from_parameters(given)

    @classmethod
    def example(cls) -> Example:
        """A back lining with a pleat at the centre."""
        kind = cls(name="back lining", piece="back", pleat_mm=20.0)
        return Example(examples.bodice(), kind)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back lining copied from the back, with a pleat 20 mm deep at …"."""
        self.parents(pattern)  # says which pieces there are
        told = f"{self.name.strip().capitalize()} copied from the {self.piece}"
        if self.pleat_mm:
            told += f", with a pleat {mm(self.pleat_mm)} deep at the {self.pleat_at}"
        for one in self.ease:
            way = "larger" if one.by_mm > 0 else "smaller"
            told += f", {mm(abs(one.by_mm))} {way} at the {one.edge}"
        if self.without:
            told += f", cut off at the {' and the '.join(self.without)}"
        return told

    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the piece it is copied from, or its panels where it was parted into them since."""
        return tuple(heirs_found(pattern, self.piece))

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Copy it; a right and a left one where they differ, or one of each of its panels."""
        parents = self.parents(pattern)
        kinds = [self if p.name == self.piece else self._for_panel(pattern, p) for p in parents]
        self._refuse_missing(parents)
        pieces = [kind._copy(pattern, p) for kind, p in zip(kinds, parents, strict=True)]
        notes = []
        if any(kind is not self for kind in kinds):
            told = " and the ".join(dict.fromkeys(k.name for k in kinds))
            notes.append(f"the {self.piece} is in panels now, and so is its lining: the {told}")
        if self.pleat_mm and pieces[0].fold != self.pleat_at:
            notes.append(
                f"the lining has a seam at the {self.pleat_at}, as the {self.piece} has: put it "
                "on the fold if nothing opens there"
            )
        return tuple(pieces), tuple(notes)

    def _for_panel(self, pattern: Pattern, panel: Piece) -> Self:
        """The lining of a panel the piece was parted into, with what of its ease is there."""
        edges = {e.name for e in panel.edges}
        usual = self.name.strip() == f"{self.piece} lining"
        faced = [
            p.name
            for p in pattern.pieces
            if p.traced is not None
            and any(_faces(run, panel) for sewn in p.traced.sewn for run in sewn.to)
        ]
        return replace(
            self,
            name=f"{panel.name} {'lining' if usual else self.name.strip()}",
            piece=panel.name,
            ease=tuple(e for e in self.ease if e.edge in edges),
            pleat_mm=self.pleat_mm if self.pleat_at in edges else 0.0,
            without=tuple(n for n in self.without if n in faced),
        )

    def _refuse_missing(self, parents: tuple[Piece, ...]) -> None:
        """Refuse ease at an edge that none of the panels has.

        Raises:
            UnknownName: there is such an edge.
        """
        there = {e.name for p in parents for e in p.edges}
        for name in (*(e.edge for e in self.ease), *([self.pleat_at] if self.pleat_mm else [])):
            if name not in there:
                edges_called(parents[0], name)  # says which there are

    def _copy(self, pattern: Pattern, piece: Piece) -> Piece:
        outward: dict[EdgeKey, float] = {}
        for one in self.ease:
            for edge in edges_called(piece, one.edge):
                outward[edge.key] = outward.get(edge.key, 0.0) + one.by_mm
        if self.pleat_mm:
            for edge in edges_called(piece, self.pleat_at):
                outward[edge.key] = outward.get(edge.key, 0.0) + self.pleat_mm
        faced = self._faced(pattern, piece)
        copy = self._cut(pattern, piece, faced, outward)
        if copy.grain and clear_mm(copy, copy.grain) < _GRAIN_CLEAR_MM:
            copy = replace(copy, grain=grain_in(copy, copy.grain[1] - copy.grain[0]))
        if self.pleat_mm:
            copy = self._pleated(copy)
        sewn = tuple(self._sewn(piece, copy, one) for one in faced)
        traced = self.traced(
            seen=seen_all((piece, e) for e in piece.edges), sewn=tuple(s for s in sewn if s)
        )
        return replace(copy, traced=traced)

    def _cut(
        self,
        pattern: Pattern,
        piece: Piece,
        faced: tuple[_Faced, ...],
        outward: Mapping[EdgeKey, float],
    ) -> Piece:
        """Copy the piece without what is faced, its ease put on.

        The faced edges are moved in; where that cannot be, because a dart opens within the
        facing, edges go on in one another or meet their neighbours at a slant, the piece is cut
        off along the facing's inner line.
        """
        name = self.name.strip()
        if all(len(one.edges) == 1 and not _slanted(piece, one.edges[0]) for one in faced):
            moved = dict(outward)
            for one in faced:
                key = one.edges[0].key
                moved[key] = moved.get(key, 0.0) - one.width_mm
            try:
                return copied(pattern, piece, name, "lining", moved)
            except PatternError:
                if not faced:
                    raise
        left = piece
        for one in faced:
            edges = [left.edge(*e.key) for e in one.edges]
            left = cut_off(left, edges, one.width_mm)
        have = {e.key for e in left.edges}
        return copied(
            pattern, left, name, "lining", {k: mm for k, mm in outward.items() if k in have}
        )

    def _faced(self, pattern: Pattern, piece: Piece) -> tuple[_Faced, ...]:
        """The facings the lining is cut off at, each with the piece's edges it faces."""
        out = []
        for name in self.without:
            facing = pattern.piece(name, piece.side)
            traced = facing.traced
            width = traced.parameters.get("width_mm") if traced else None
            mine = tuple(
                piece.edge(run.edge, run.side)
                for sewn in (traced.sewn if traced else ())
                for run in sewn.to
                if _faces(run, piece)
            )
            if facing.layer != "facing" or width is None or not mine:
                raise PatternError(
                    f"the {name} is no facing that was traced from the {self.piece}; trace one, "
                    "and cut the lining off at that"
                )
            out.append(_Faced(facing, float(width), mine))
        return tuple(out)

    @staticmethod
    def _within(piece: Piece, copy: Piece, facing: Piece) -> bool:
        """Tell whether the facing closes a dart the lining no longer has."""
        assert facing.traced is not None
        mouths = {
            name
            for sewn in facing.traced.sewn
            for run in sewn.to
            if _faces(run, piece)
            for name in piece.edge(run.edge, run.side).mouths
        }
        return bool(mouths - {d.name for d in copy.darts})

    def _pleated(self, copy: Piece) -> Piece:
        """Notch the pleat on both edges beside it, its depth in, and draw the line it lies at."""
        notches, lines = list(copy.notches), list(copy.levels)
        for edge in edges_called(copy, self.pleat_at):
            before, after = copy.before(edge), copy.after(edge)
            ends = (
                before.point_at(before.length - self.pleat_mm),
                after.point_at(self.pleat_mm),
            )
            lines.append(Level("pleat line", BodySide.CENTRE, (ends,)))
            for beside, corner in ((copy.before(edge), edge.start), (copy.after(edge), edge.end)):
                name = f"{beside.name} pleat"
                notches.append(Notch(name, beside.side, beside.name, corner, self.pleat_mm))
        return replace(copy, notches=tuple(notches), levels=tuple(lines))

    def _sewn(self, piece: Piece, copy: Piece, faced: _Faced) -> Sewn | None:
        """Return the lining's cut edge against the facing's inner edge, where that is its own."""
        facing = faced.facing
        assert facing.traced is not None
        alone = all(_faces(run, piece) for sewn in facing.traced.sewn for run in sewn.to)
        names = {(FACING_SEAM, faced.edges[0].side), *(e.key for e in faced.edges)}
        cut = [e for e in copy.edges if e.key in names]
        if not alone or len(cut) != 1:
            return None
        mine, inner = cut[0], facing.edge(INNER)
        wanted = sum(
            abs(one.by_mm)
            for one in self.ease
            if one.edge in (copy.before(mine).name, copy.after(mine).name)
        )
        at_pleat = self.pleat_at in (copy.before(mine).name, copy.after(mine).name)
        wanted += self.pleat_mm if at_pleat else 0.0
        longer = mine.length - inner.length
        planned = longer if wanted > _WORTH_MM and abs(longer) <= wanted + 1.5 else 0.0
        if self._within(piece, copy, facing) and abs(longer) <= MOST_EASE_MM:
            planned = longer  # beyond a dart's point the facing is flat and the piece is not
        return Sewn(mine.name, mine.side, (Run(facing.name, INNER, inner.side),), 1, planned)


def _faces(run: Run, piece: Piece) -> bool:
    """Tell whether a facing's run means an edge of a piece, or of the piece it is a panel of."""
    if run.piece != piece.name and not piece.name.endswith(f" {run.piece}"):
        return False
    return any(e.key == (run.edge, run.side) for e in piece.edges)


def _slanted(piece: Piece, edge: Edge) -> bool:
    """Tell whether a faced edge meets what lies beside it at a slant: so does its facing."""
    laid = closed_forward(piece, edge)
    before = closed_backward(piece, piece.before(edge), laid.first)
    after = closed_forward(piece, piece.after(edge), laid.last)
    return slanted(before, laid, at_end=False) or slanted(after, laid, at_end=True)
