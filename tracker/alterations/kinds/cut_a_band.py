"""Cut a band: straight, as long as the edges it is sewn to."""

import itertools
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
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
#: Where a band opens in a side seam; on her left by common practice.
_AT_SIDE = {"left side": BodySide.LEFT, "right side": BodySide.RIGHT}


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
        opens_at: the centre it opens at, or "left side" or "right side"; else the centre that is
            not on the fold, the back first, and where both are on it the left side. At a side the
            overlap goes on at the back's end, beneath the front's.
    """

    word: ClassVar[str] = "cut a band"
    help: ClassVar[str] = (
        "Cut a straight band, for a waist, a hem or a wrist, to the sewn length of the edges it "
        "goes on, notched where their seams and centres meet it, with an overlap if it closes."
    )
    #: Rule 3 opens it at the left side where nothing opens at either centre.
    rule: ClassVar[int] = 3
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
        # Where one piece differs right and left, the others are laid as both halves too.
        pattern = split_sides(pattern, {p.name for p, e in found}).pattern
        found = edges_found(pattern, self.edges)
        pieces, notes = [], list[str]()
        halves = {
            side: [(p, e) for p, e in found if e.side is side]
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
        rows = (right,) if right is left else (right, left)
        if opening in _AT_SIDE:
            piece = self._round_from_side(right, left, ends, _AT_SIDE[opening])
            return (self._finished(piece, rows, 2 // len(rows), self.overlap_mm),), note
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
        return (self._finished(piece, rows, 2 // len(rows), self.overlap_mm),), note

    def _round_from_side(
        self, right: Row, left: Row, ends: tuple[str, str], side: BodySide
    ) -> Piece:
        """One strip all round from a side seam on, as it is seen from outside."""
        back = next((name for name in ends if "back" in name), ends[0])
        front = next(name for name in ends if name != back)
        halves = [
            self._from_opening(row, ends[0] == back) for row in (right, left)
        ]  # fmt: skip
        # Seen from outside her right half follows the centre back, then her left.
        middle = halves[0][-1][0]
        whole = middle + halves[1][-1][0]
        marks = [(0.0, back), (middle, front)]
        marks += [(at, f"right {name}") for at, name in halves[0][:-1]]
        marks += [(whole - at, f"left {name}") for at, name in halves[1][:-1]]
        begin = next(at for at, name in marks if name == f"{side} side")
        # Left of the opening lies the front on her right side, the back on her left.
        back_first = side is BodySide.LEFT
        over = self.overlap_mm if back_first else 0.0
        spots = sorted(
            (Spot(over + (at - begin) % whole, name) for at, name in marks),
            key=lambda spot: spot.at_mm,
        )
        if not over:
            spots.append(Spot(whole, f"{side} side"))
        return band(
            whole + self.overlap_mm, self.width_mm, spots, BodySide.CENTRE, doubled=self.doubled
        )

    def _opening(self, row: Row, ends: tuple[str, str]) -> tuple[str, tuple[str, ...]]:
        """The name of the centre the band opens at."""
        if ends[0] == ends[1]:
            raise PatternError(
                f"both ends of the band are at an edge called {ends[0]}, so it cannot "
                "be told where it opens; cut it on the wearer's right or left only"
            )
        sides = list(_AT_SIDE) if "side" in row.seams else []
        if self.opens_at:
            if self.opens_at not in (*ends, *sides):
                known = " or the ".join((*ends, *sides))
                raise PatternError(
                    f"the band goes round and can open at the {known}, not at the "
                    f"{self.opens_at}; say one of them"
                )
            return self.opens_at, ()
        both = zip(ends, (row.before, row.after), strict=True)
        loose = [name for name, e in both if name != e.piece.fold]
        names = sorted(loose or ends, key=lambda name: "back" not in name)
        if loose:
            return names[0], ()
        nothing = f"nothing opens at the {' or the '.join(ends)}"
        if sides:
            return sides[0], (
                f"{nothing}: the band is drawn open at the {sides[0]}, where such a garment "
                "usually opens; leave the side seam open there",
            )
        return names[0], (
            f"{nothing}: the band is drawn open at the {names[0]}, which needs an opening",
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
    laid = row.before, row.after
    before, after = (centre_name(pattern, e.piece, e.edge) or e.edge.name for e in laid)
    if before == after:
        # Trousers: both centres are called crotch, and the pieces tell them apart.
        parts = [next((p for p in ("front", "back") if p in e.piece.name), "") for e in laid]
        if parts[0] != parts[1] and all(parts):
            return f"centre {parts[0]}", f"centre {parts[1]}"
    return before, after
