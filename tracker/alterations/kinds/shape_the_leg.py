"""Shape the leg of trousers: wider or narrower at the knee and at the hem, its crease kept."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.crotch import CROTCH_LINE, INSIDE_LEG, KNEE_LINE, Fork, forks, line_on
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import Shapes, at, end_turned, merged, shaped
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

HEM, SIDE = "hem", "side"
#: The leg runs on so far beyond its hem while it is shaped.
_BEYOND_MM = 400.0
#: The bend at the knee is rounded so far below it, or over a third of what is below.
_ROUNDED_MM = 100.0
#: No leg is narrower than this round; common practice, no source.
_NO_LEG_MM = 150.0
#: Amounts smaller than this are not told apart from nothing.
_LEAST_MM = 0.05


@dataclass(frozen=True, kw_only=True)
class ShapeLeg(Kind):
    """Move the inside leg and the side of every leg alike, by amounts at the knee and the hem.

    Attributes:
        knee_mm: how much wider each leg is at the knee line, all round; negative is narrower.
        hem_mm: the same at the hem.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "shape the leg"
    help: ClassVar[str] = (
        "Make trouser legs wider or (with a negative amount) narrower at the knee, at the hem, or "
        "both by different amounts; inside leg and side move alike, to nothing at the crotch line, "
        "and the crease stays in the middle."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("knee_mm", "hem_mm")

    knee_mm: float = 0.0
    hem_mm: float = 0.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if max(abs(self.knee_mm), abs(self.hem_mm)) < _LEAST_MM:
            raise PatternError(
                "by how much? Give how much wider each leg is at the knee, at the hem, or both "
                "(knee=-2cm hem=-6cm)"
            )

    @classmethod
    def example(cls) -> Example:
        """A slim leg: a little off the knee, more off the hem."""
        return Example(examples.trousers(), cls(knee_mm=-20.0, hem_mm=-70.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Each leg 20 mm narrower at the knee line and 70 mm narrower at the hem, …"."""
        found = forks(pattern, self.side)
        told = []
        for line, by in ((KNEE_LINE, self.knee_mm), (HEM, self.hem_mm)):
            if abs(by) < _LEAST_MM:
                told.append(f"as it was at the {line}")
                continue
            word = f"{mm(abs(by))} {'wider' if by > 0 else 'narrower'} at the {line}"
            if all(f.piece.has_outline for f in found):
                was = _round(found, line)
                word += f" ({was:.0f} to {was + by:.0f} mm round)"
            told.append(word)
        if told[0].startswith("as"):
            told.reverse()
        begin = whose(self.side)
        words = " and ".join(told)
        return (
            f"{begin}{'each leg' if begin else 'Each leg'} {words}: a quarter at each edge of "
            f"{INSIDE_LEG} and {SIDE}, to nothing at the {CROTCH_LINE}, the crease in the middle"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both seams of every leg, and true the hem at them."""
        before = pattern
        found = forks(pattern, self.side)
        if not all(f.piece.has_outline for f in found):
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {f.piece.name for f in found}, self.side)
        start = split.pattern
        # One leg is measured; right and left are alike, or only one is meant.
        legs = _legs(forks(start, self.side))
        trace, new = split.trace, start
        for leg in legs:
            new, moved = self._shaped(new, leg, step_id)
            trace = trace.then(moved)
        return applied(before, new, trace)

    def _shaped(
        self, pattern: Pattern, leg: tuple[Fork, ...], step_id: str
    ) -> tuple[Pattern, Trace]:
        knee, hem = _round(leg, KNEE_LINE) + self.knee_mm, _round(leg, HEM) + self.hem_mm
        for line, left in ((KNEE_LINE, knee), (HEM, hem)):
            if left < _NO_LEG_MM:
                raise PatternError(
                    f"at the {line} each leg would be {max(left, 0.0):.0f} mm round, which no leg "
                    "goes through; a smaller amount would fit"
                )
        edges = [e for fork in leg for e in _edges(fork)]
        share = len(edges)

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            shapes: Shapes = {}
            for line in edges:
                shapes = merged(shapes, line.shapes(-amounts[0] / share, -amounts[1] / share))
            return shaped(pattern, shapes, step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            now = [replace(f, piece=drawn_piece(amounts, f)) for f in leg]
            return [_round(now, KNEE_LINE) - knee, _round(now, HEM) - hem]

        kept: dict[tuple[float, ...], Pattern] = {}

        def drawn_piece(amounts: Sequence[float], fork: Fork) -> Piece:
            key = tuple(amounts)
            if key not in kept:
                kept[key] = drawn(amounts)[0]
            return kept[key].piece(*fork.piece.key)

        amounts = adjusted(
            misses, [self.knee_mm, self.hem_mm], [1.0, 1.0],
            "the leg cannot be shaped so much; a smaller amount would fit",
        )  # fmt: skip
        return drawn(amounts)


def _legs(found: Iterable[Fork]) -> list[tuple[Fork, ...]]:
    """Put the pieces of one leg together."""
    out: dict[BodySide, list[Fork]] = {}
    for fork in found:
        out.setdefault(fork.piece.side, []).append(fork)
    both = out.pop(BodySide.BOTH, [])
    if not out:
        return [tuple(both)]
    return [(*leg, *both) for leg in out.values()]


def _round(leg: Iterable[Fork], line: str) -> float:
    """How wide one leg is at a material line, or at its hem, front and back together."""
    total, seen = 0.0, set[str]()
    for fork in leg:
        if fork.where in seen:
            continue
        seen.add(fork.where)
        if line == HEM:
            total += fork.piece.edge(HEM).length
        else:
            total += sum(level_length(fork.piece, v) for v in fork.piece.levels if v.name == line)
    return total


@dataclass(frozen=True)
class _Line:
    """An edge of a leg that is moved.

    Attributes:
        piece: its piece.
        edge: the edge.
        down: whether it runs downwards.
        top: where it begins to move, along its base from its upper end.
        knee: where the knee line meets it.
    """

    piece: Piece
    edge: Edge
    down: bool
    top: float
    knee: float

    def shapes(self, knee_mm: float, hem_mm: float) -> Shapes:
        """Return how it moves into the piece, and the hem at its end with it."""
        whole = self.edge.base_length
        below = whole - self.knee
        slope = (hem_mm - knee_mm) / below
        # Straight below the knee; above it from nothing, and as smoothly through the knee as the
        # two allow.
        bend = min(_ROUNDED_MM, below / 3)
        above = self.knee - self.top
        rises = 0.0
        if slope * knee_mm > 0:
            rises = math.copysign(min(abs(slope), 3 * abs(knee_mm) / above), slope)
        knots = [(self.top, 0.0)]
        for k in range(1, 6):
            u = k / 5
            amount = knee_mm * u * u * (3 - 2 * u) + rises * above * u * u * (u - 1)
            knots.append((self.top + above * u, amount))
        if abs(rises - slope) > 1e-9:
            # From the slope at the knee to the straight one, over the bend.
            for k in range(1, 4):
                u = k / 4
                end = knee_mm + slope * bend
                amount = (
                    knee_mm * (1 + 2 * u) * (1 - u) ** 2 + rises * bend * u * (1 - u) ** 2
                    + end * u * u * (3 - 2 * u) + slope * bend * u * u * (u - 1)
                )  # fmt: skip
                knots.append((self.knee + bend * u, amount))
        knots += [
            (u, knee_mm + slope * (u - self.knee))
            for u in (self.knee + bend, whole - below / 4, *_ends_beyond(whole))
        ]
        placed = ((u if self.down else whole - u, v) for u, v in knots)
        hem = self.piece.edge(HEM)
        turn = end_turned(hem, self.down, slope, hold_mm=6.0 + abs(hem_mm))
        return {
            at(self.piece, self.edge): (Profile(tuple(sorted(placed))),),
            at(self.piece, hem): (turn,),
        }


def _ends_beyond(whole: float) -> tuple[float, float]:
    return whole + _BEYOND_MM, whole + 2 * _BEYOND_MM


def _edges(fork: Fork) -> tuple[_Line, _Line]:
    """The inside leg and the side of one piece of a leg."""
    piece, out = fork.piece, []
    hem = piece.edge(HEM)
    for edge in (piece.before(hem), piece.after(hem)):
        if edge.name not in (INSIDE_LEG, SIDE):
            raise PatternError(
                f"the {HEM} of the {piece.label} does not lie between its {INSIDE_LEG} and {SIDE}"
            )
        down = edge is piece.before(hem)

        def from_top(line: str, edge: Edge = edge, down: bool = down) -> float:
            met = line_on(piece, edge, line)
            if met is None:
                raise PatternError(
                    f"the {piece.label} has no {line} that meets its {edge.name}, and a leg is "
                    f"shaped by its {KNEE_LINE} and {CROTCH_LINE}"
                )
            base = edge.base_distance(met)
            return base if down else edge.base_length - base

        top = 0.0 if edge.name == INSIDE_LEG else from_top(CROTCH_LINE)
        out.append(_Line(piece, edge, down, top, from_top(KNEE_LINE)))
    return out[0], out[1]


__all__ = ["ShapeLeg"]
