"""Cut a band: straight, as long as the edges it is sewn to."""

import itertools
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Example
from tracker.alterations.told import mm
from tracker.alterations.tracing import EdgeOf, Tracing, edges_found, for_side
from tracker.drafting.centre import centre_name, is_centre
from tracker.drafting.laid_flat import EdgeOn, Laid, Row, row_of
from tracker.drafting.strip import BAND_SEAM, Spot, band
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.traced import Sewn

#: Two pieces lie on their seam by their directions this far from the row, millimetres.
_ALIGN_MM = 20.0


@dataclass(frozen=True, kw_only=True)
class CutBand(Tracing):
    """Cut a straight band.

    Attributes:
        edges: the edges it is sewn to, "waist of front" and "waist of back"; where they reach
            from centre to centre it is one strip all round, else one for each side.
        width_mm: how wide it is when it is sewn.
        doubled: cut twice as wide, to be folded along its middle.
        overlap_mm: how far it goes on beyond the opening.
        overlap_on: the wearer's side whose end goes on.
        opens_at: the centre it opens at; else the one that is not on the fold, the back first.
    """

    word: ClassVar[str] = "cut a band"
    help: ClassVar[str] = (
        "Cut a straight band, for a waist, a hem or a wrist, to the sewn length of the edges it "
        "goes on, notched where their seams and centres meet it, with an overlap if it closes."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("width_mm",)
    one_way: ClassVar[bool] = True

    edges: tuple[EdgeOf, ...]
    width_mm: float = 30.0
    doubled: bool = True
    overlap_mm: float = 0.0
    overlap_on: BodySide = BodySide.RIGHT
    opens_at: str = ""

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.edges:
            raise PatternError("which edges is the band sewn to? Name them: waist of front")
        if self.width_mm <= 0 or self.overlap_mm < 0:
            raise PatternError("a band is wider than nothing, and overlaps by nothing or more")
        if self.overlap_on not in (BodySide.RIGHT, BodySide.LEFT):
            raise PatternError("the overlap goes on at the wearer's right or left end")

    @classmethod
    def example(cls) -> Example:
        """A waistband for a skirt that opens behind."""
        edges = (EdgeOf(piece="front", edge="waist"), EdgeOf(piece="back", edge="waist"))
        return Example(examples.skirt(), cls(name="waistband", edges=edges, overlap_mm=30.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Waistband 30 mm wide, cut to the waist of the front and …"."""
        found = edges_found(pattern, self.edges)
        names = dict.fromkeys(f"the {e.name} of the {p.name}" for p, e in found)
        over = f"; overlap {mm(self.overlap_mm)} on the {self.overlap_on}" * (self.overlap_mm > 0)
        double = ", cut double and folded" if self.doubled else ""
        return (
            f"{self.name.strip().capitalize()} {mm(self.width_mm)} wide{double}, cut to the sewn "
            f"length of {' and '.join(names)}{over}"
        )

    def parents(self, pattern: Pattern) -> tuple[Piece, ...]:
        """Return the pieces it is sewn to."""
        return tuple({p.key: p for p, _ in edges_found(pattern, self.edges)}.values())

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Draw the strip, or a right and a left one."""
        found = edges_found(pattern, self.edges)
        sides = {e.side for _, e in found}
        if not sides & {BodySide.RIGHT, BodySide.LEFT}:
            return self._strips(pattern, found)
        pieces, notes = [], list[str]()
        halves = {
            side: [(p, e) for p, e in found if e.side in (side, BodySide.BOTH)]
            for side in (BodySide.RIGHT, BodySide.LEFT)
        }
        rows = {side: row_of(pattern, some, _ALIGN_MM) for side, some in halves.items() if some}
        if all(self._goes_round(pattern, row) for row in rows.values()) and len(rows) == 2:
            return self._round(pattern, rows[BodySide.RIGHT], rows[BodySide.LEFT])
        for row in rows.values():
            fresh, told = self._one(row)
            pieces.append(fresh)
            notes += told
        return tuple(pieces), tuple(notes)

    def _strips(
        self, pattern: Pattern, found: list[EdgeOn]
    ) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        row = row_of(pattern, found, _ALIGN_MM)
        if self._goes_round(pattern, row):
            return self._round(pattern, row, row)
        piece, notes = self._one(row)
        return (piece,), notes

    @staticmethod
    def _goes_round(pattern: Pattern, row: Row) -> bool:
        """Tell whether a row reaches from centre to centre."""
        ends = row.before, row.after
        return all(is_centre(pattern, e.piece, e.edge) or _at_middle(e, row) for e in ends)

    def _round(
        self, pattern: Pattern, right: Row, left: Row
    ) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """One strip all round, from the opening on, as it is seen from outside."""
        ends = _ends(pattern, right)
        opening, note = self._opening(right, ends)
        behind = "back" in opening
        lengths = [self._from_opening(row, _ends(pattern, row)[0] == opening)
                   for row in (right, left)]  # fmt: skip
        first, second = lengths if behind else lengths[::-1]
        names = ("right", "left") if behind else ("left", "right")
        over = self.overlap_mm if self.overlap_on == names[0] else 0.0
        middle, whole = first[-1][0], first[-1][0] + second[-1][0]
        far = next(name for name in ends if name != opening)
        spots = [Spot(over + at, f"{names[0]} {name}") for at, name in first[:-1]]
        spots.append(Spot(over + middle, far))
        spots += [Spot(over + whole - at, f"{names[1]} {name}") for at, name in second[:-1][::-1]]
        spots.append(Spot(over or whole, opening))
        piece = band(
            whole + self.overlap_mm, self.width_mm, spots, BodySide.CENTRE, doubled=self.doubled
        )
        rows = (right,) if right is left else (right, left)
        return (self._finished(piece, rows, 2 // len(rows), self.overlap_mm),), note

    def _opening(self, row: Row, ends: tuple[str, str]) -> tuple[str, tuple[str, ...]]:
        """The name of the centre the band opens at."""
        if ends[0] == ends[1]:
            raise PatternError(
                f"both ends of the band are at an edge called {ends[0]}, so it cannot "
                "be told where it opens; cut it on the wearer's right or left only"
            )
        if self.opens_at:
            if self.opens_at not in ends:
                raise PatternError(
                    f"the band ends at the {' and the '.join(ends)}, not at the {self.opens_at}; "
                    "say one of them"
                )
            return self.opens_at, ()
        both = zip(ends, (row.before, row.after), strict=True)
        loose = [name for name, e in both if name != e.piece.fold]
        names = sorted(loose or ends, key=lambda name: "back" not in name)
        if loose:
            return names[0], ()
        return names[0], (
            f"nothing opens at the {' or the '.join(ends)}: the band is drawn open at the "
            f"{names[0]}; move its opening if the garment opens at the side",
        )

    @staticmethod
    def _from_opening(row: Row, from_start: bool) -> list[tuple[float, str]]:
        """Where each joint lies, and the end, going from the opening."""
        lengths = [laid.edge.length for laid in row.edges]
        joints = [s or e.edge.end for s, e in zip(row.seams, row.edges, strict=False)]
        if not from_start:
            lengths, joints = lengths[::-1], joints[::-1]
        return list(zip(itertools.accumulate(lengths), [*joints, "end"], strict=True))

    def _one(self, row: Row) -> tuple[Piece, tuple[str, ...]]:
        """A strip for one side: a cuff, or a band on one piece only."""
        lengths = [laid.edge.length for laid in row.edges]
        at = list(itertools.accumulate(lengths))
        joints = [s or e.edge.end for s, e in zip(row.seams, row.edges, strict=False)]
        spots = [Spot(s, name) for s, name in zip(at, joints, strict=False)]
        piece = band(
            at[-1] + self.overlap_mm, self.width_mm, spots, BodySide.BOTH, doubled=self.doubled
        )
        piece = for_side(piece, row.edges[0].edge.side)
        return self._finished(piece, (row,), 1, self.overlap_mm), ()

    def _finished(self, piece: Piece, rows: tuple[Row, ...], times: int, longer: float) -> Piece:
        edges = [laid for row in rows for laid in row.edges]
        runs = tuple(Run(e.piece.name, e.edge.name, e.edge.side) for e in edges)
        traced = self.traced(
            seen=seen_all((e.piece, e.edge) for e in edges),
            sewn=(Sewn(BAND_SEAM, piece.edge(BAND_SEAM).side, runs, times, longer),),
        )
        parent = edges[0].piece.name
        return replace(piece, name=self.name.strip(), taken_from=parent, traced=traced)


def _at_middle(end: Laid, row: Row) -> bool:
    """Tell whether what goes on at an end is the other half of the same edge."""
    return any(end.edge.name == e.edge.name for e in row.edges)


def _ends(pattern: Pattern, row: Row) -> tuple[str, str]:
    """The names of the centres a row reaches from and to."""
    before, after = (
        centre_name(pattern, e.piece, e.edge) or e.edge.name for e in (row.before, row.after)
    )
    return before, after
