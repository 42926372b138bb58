"""Cut a flat collar: traced from front and back laid together at the shoulder."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Example
from tracker.alterations.neck_collars import NeckCollar
from tracker.alterations.told import mm
from tracker.alterations.tracing import EdgeOf
from tracker.drafting.flat_collar import CollarEnd, flat_collar
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: More overlap than this makes no flat collar.
MOST_OVERLAP_MM = 80.0


@dataclass(frozen=True, kw_only=True)
class CutFlatCollar(NeckCollar):
    """Cut a flat collar and sew it to the neckline.

    Attributes:
        edges: the neckline's edges; none named means those called neckline.
        width_mm: how wide it is, square to the neck edge.
        overlap_mm: how far front and back are overlapped at the shoulder point; nothing lies
            quite flat, 10 to 25 mm rolls a little over its seam, 50 mm and more stands. From
            memory.
        end: round or point.
        point_mm: how much longer a pointed end is than the collar is wide.
        fold_at: the centre it is folded at; the centre back if not told.
    """

    word: ClassVar[str] = "cut a flat collar"
    help: ClassVar[str] = (
        "Trace a flat collar from front and back laid together at the shoulder, overlapped there "
        "at the shoulder point by as much as it is to roll, as wide as told, and sew it to the "
        "neckline; when the neckline changes it is traced again."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("width_mm",)
    one_way: ClassVar[bool] = True

    edges: tuple[EdgeOf, ...] = ()
    width_mm: float = 65.0
    overlap_mm: float = 13.0
    end: CollarEnd = CollarEnd.ROUND
    point_mm: float = 0.0
    fold_at: str = ""

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.width_mm <= 0:
            raise PatternError("how wide is the collar? Give a width of more than nothing")
        if not 0 <= self.overlap_mm <= MOST_OVERLAP_MM:
            raise PatternError(
                f"front and back overlap at the shoulder point by nothing up to "
                f"{MOST_OVERLAP_MM:.0f} mm; 13 mm is usual"
            )
        if self.point_mm < 0 or (self.point_mm and self.end is CollarEnd.ROUND):
            raise PatternError("only a pointed end is longer than the collar is wide")

    @classmethod
    def example(cls) -> Example:
        """A round collar that rolls a little."""
        return Example(examples.bodice(), cls(name="collar"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Collar 65 mm wide, flat and round, traced from the neckline of …"."""
        over = (
            f"overlapped by {mm(self.overlap_mm)} at the shoulder point"
            if self.overlap_mm
            else "laid together at the shoulder"
        )
        shape = "round" if self.end is CollarEnd.ROUND else "pointed"
        point = f", its point {mm(self.point_mm)} longer" if self.point_mm else ""
        return (
            f"{self.name.strip().capitalize()} {mm(self.width_mm)} wide, flat and {shape}{point}, "
            f"traced from {self.neckline_words(pattern)}, {over}"
        )

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Trace the collar."""
        row = self.row(pattern, self._along_shoulder(pattern))
        fold, from_fold = self.fold(pattern, row)
        if not any(row.seams):
            raise PatternError(
                "a flat collar is traced from a front and a back that are sewn at the shoulder; "
                "name the neckline of both"
            )
        made = flat_collar(
            row, fold, from_fold, self.width_mm, self.overlap_mm, self.end, self.point_mm
        )
        seen = seen_all(
            (laid.piece, e)
            for k, laid in enumerate(row.edges)
            for e in (laid.edge, *((laid.piece.after(laid.edge),) if k < len(row.seams) else ()))
        )
        piece = replace(
            made.piece, name=self.name.strip(), taken_from=row.edges[0].piece.name,
            traced=self.traced(seen=seen),
        )  # fmt: skip
        notes = ["cut it twice: once for the outside, once for its under side"]
        if made.shorter_mm > 0.05:
            notes.append(
                f"overlapped so, its outer edge is {mm(round(2 * made.shorter_mm, 1))} shorter all "
                "round than laid flat, and draws it up at the neck: it rolls by about a quarter "
                f"of the overlap, {mm(round(self.overlap_mm / 4, 1))}"
            )
        if abs(made.neck_off_mm) > 0.05:
            way = "longer" if made.neck_off_mm > 0 else "shorter"
            notes.append(
                f"its neck edge, smoothed at the shoulder, was made "
                f"{mm(abs(round(made.neck_off_mm, 1)))} {way} at the {fold} to be as long as the "
                "neckline"
            )
        return (piece,), tuple(notes)

    def _along_shoulder(self, pattern: Pattern) -> float:
        """The pieces are laid together along the whole shoulder."""
        row = self.row(pattern)
        seams = [
            e.piece.after(e.edge) for s, e in zip(row.seams, row.edges, strict=False) if s
        ]  # fmt: skip
        return max((e.length for e in seams), default=1.0)

    def folds_itself(self, folded: list[str], behind: list[str]) -> str:
        """Behind, as collars are."""
        del folded
        return next(iter(behind), "")

    def runs_backward(self, *, from_fold: bool) -> bool:
        """The neck edge runs as the neckline does."""
        del from_fold
        return False


__all__ = ["MOST_OVERLAP_MM", "CollarEnd", "CutFlatCollar"]
