"""Cut a stand collar: straight or shaped, as long as the neckline it is sewn to."""

import itertools
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Example
from tracker.alterations.neck_collars import NeckCollar
from tracker.alterations.told import mm
from tracker.alterations.tracing import EdgeOf
from tracker.drafting.strip import NECK_EDGE, Spot, stand_collar
from tracker.pattern.errors import PatternError
from tracker.pattern.following import seen_all
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, kw_only=True)
class CutStandCollar(NeckCollar):
    """Cut a stand collar and sew it to the neckline.

    Attributes:
        edges: the neckline's edges; none named means those called neckline.
        height_mm: how high it stands.
        beyond_mm: how far it goes on beyond the centre, over a button stand.
        fold_at: the centre it is folded at; else where the neckline is on the fold, else the
            centre back.
        shorter_mm: how much shorter its top is than the neckline, all round, so that it leans to
            the neck; shaped from the shoulder to the centre front. 0 for a straight one.
    """

    word: ClassVar[str] = "cut a stand collar"
    help: ClassVar[str] = (
        "Cut a stand collar on the fold, as long as the neckline from centre to centre, straight "
        "or shaped with a top that is shorter, notched at the shoulder, and sew it on; changing "
        "the neckline then carries it along."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("height_mm",)
    one_way: ClassVar[bool] = True

    edges: tuple[EdgeOf, ...] = ()
    height_mm: float = 35.0
    beyond_mm: float = 0.0
    fold_at: str = ""
    shorter_mm: float = 0.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.height_mm <= 0 or self.beyond_mm < 0:
            raise PatternError(
                "a collar stands higher than nothing, and goes on by nothing or more"
            )
        if self.shorter_mm < 0:
            raise PatternError("the top of a stand collar is as long as its neck edge, or shorter")

    @classmethod
    def example(cls) -> Example:
        """A shaped stand collar for a bodice."""
        return Example(examples.bodice(), cls(name="collar", shorter_mm=16.0))

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values; a straight one's as ever recorded."""
        plain = super().parameters()
        if not self.shorter_mm:
            del plain["shorter_mm"]
        return plain

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Collar 35 mm high, straight, cut to the neckline of the front and …"."""
        over = f", going on {mm(self.beyond_mm)} beyond the centre" * (self.beyond_mm > 0)
        shape = f"shaped, its top {mm(self.shorter_mm)} shorter" if self.shorter_mm else "straight"
        return (
            f"{self.name.strip().capitalize()} {mm(self.height_mm)} high, {shape}, cut to "
            f"{self.neckline_words(pattern)}{over}"
        )

    def drawn(self, pattern: Pattern) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
        """Draw the collar."""
        row = self.row(pattern)
        fold, from_fold = self.fold(pattern, row)
        lengths = [laid.edge.length for laid in row.edges]
        names = [f"{s} notch" if s else e.edge.end
                 for s, e in zip(row.seams, row.edges, strict=False)]  # fmt: skip
        if not from_fold:
            lengths, names = lengths[::-1], names[::-1]
        at = list(itertools.accumulate(lengths))
        spots = [Spot(s, name) for s, name in zip(at, names, strict=False)]
        piece = stand_collar(
            at[-1], self.height_mm, self.beyond_mm, spots, fold, self.shorter_mm / 2
        )
        seen = seen_all((laid.piece, laid.edge) for laid in row.edges)
        parent = row.edges[0].piece.name
        piece = replace(
            piece, name=self.name.strip(), taken_from=parent, traced=self.traced(seen=seen)
        )
        notes = ["cut it twice: once for the outside, once for its facing"]
        if self.shorter_mm:
            rise = piece.edge(NECK_EDGE).drawn[0].start.imag
            notes.append(f"its neck edge rises by {mm(round(rise, 1))} to its end")
        return (piece,), tuple(notes)

    def folds_itself(self, folded: list[str], behind: list[str]) -> str:
        """Where the neckline is on the fold, else behind."""
        return next(iter((folded if len(folded) == 1 else []) or behind), "")

    def runs_backward(self, *, from_fold: bool) -> bool:
        """The neck edge runs towards the fold."""
        return from_fold
