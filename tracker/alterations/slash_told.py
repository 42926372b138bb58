"""What became of the edges of a piece that was cut across."""

from collections.abc import Collection
from dataclasses import dataclass

from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.piece import Piece
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch

Key = tuple[str, BodySide]


@dataclass(frozen=True, slots=True)
class Join:
    """Where a cut edge was put together, millimetres along it.

    Attributes:
        low: where, on the old edge, what was taken out begins.
        high: where it ends.
        here: where, on the new edge, what was put in begins.
        there: where it ends.
        back: how far before it the edge was drawn again.
        on: how far after it.
    """

    low: float
    high: float
    here: float
    there: float
    back: float
    on: float


def cut_fates(
    piece: Piece, old: Edge, new: Edge, join: Join, crossed: Collection[Key], start_stays: bool
) -> list[Fate]:
    """Return the stretch that moved, the one that stays, what went and what is new between.

    Args:
        piece: the piece before.
        old: the cut edge before.
        new: the same after.
        join: where it was put together.
        crossed: the darts the cut went across.
        start_stays: the edge's start is on the part that stays.
    """
    out: list[Fate] = []

    def stretch(edge: Edge, a: float, b: float) -> Stretch:
        return Stretch(piece.name, edge.name, edge.side, a, b)

    def carried(a: float, b: float, c: float, d: float, still: bool = False) -> None:
        if b - a > SHORTEST_MM:
            out.append(Fate(stretch(old, a, b), stretch(new, c, d), still=still))

    # Where a dart's mouth was trued, its edge has moved a little far from the cut too.
    trued = any((name, old.side) in crossed for name in old.mouths)
    # Of the stretch that stays, what was drawn again beside the join has moved.
    kept = max(join.low - join.back, 0.0) if start_stays else join.low
    carried(0.0, kept, 0.0, kept, still=start_stays and not trued)
    carried(kept, join.low, kept, join.here)
    if join.high - join.low > SHORTEST_MM:
        out.append(Fate(stretch(old, join.low, join.high), None))
    if join.there - join.here > SHORTEST_MM:
        out.append(Fate(None, stretch(new, join.here, join.there)))
    rest = old.length - join.high
    kept = min(join.on, rest) if not start_stays else 0.0
    onward = new.length - (rest - kept) if kept > SHORTEST_MM else join.there
    carried(join.high, join.high + kept, join.there, onward)
    carried(join.high + kept, old.length, onward, new.length, still=not start_stays and not trued)
    return out


def carried_whole(piece: Piece, old: Edge, new: Edge) -> Fate:
    """Return the fate of an edge that went as a whole."""
    return Fate(Stretch.whole(piece, old), Stretch.whole(piece, new))
