"""Change the width across the back or the front, at its own line."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import at, level_on_base, shaped
from tracker.alterations.shoulder import SHOULDER_POINT
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, parted
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.marks import Level
from tracker.pattern.measure import level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace


class Width(StrEnum):
    """Which way the width goes."""

    WIDER = "wider"
    NARROWER = "narrower"


@dataclass(frozen=True, kw_only=True)
class WidthAcross(Kind):
    """Make the back or front wider or narrower at a line that ends on the armhole.

    Attributes:
        line: the line, "across back", "across front".
        to: wider or narrower.
        by_mm: the amount at that line for the whole width, both sides together; for one body
            side, of that side alone.
        side: both, or the wearer's right or left only.
        shoulder: the shoulder point goes out or in by as much; otherwise it stays.
    """

    word: ClassVar[str] = "change the width across"
    help: ClassVar[str] = (
        "Make the width across the back or front larger or smaller by an amount at that line; the "
        "armhole is drawn again there, the shoulder point stays unless you say otherwise."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    line: str
    to: Width
    by_mm: float
    side: BodySide = BodySide.BOTH
    shoulder: bool = False

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how much wider or narrower it is to be")

    @property
    def _each(self) -> float:
        """What is added on each half."""
        wider = self.by_mm if self.to == Width.WIDER else -self.by_mm
        return wider if self.side in ONE_SIDE else wider / 2

    @classmethod
    def example(cls) -> Example:
        """A back that strains across the blades."""
        return Example(examples.bodice(), cls(line="across back", to=Width.WIDER, by_mm=14.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Across back 12 mm wider, measured at that line: 6 mm on each half …"."""
        if _drawn(pattern):
            self._lines(pattern, self.side)
        way = "wider" if self._each > 0 else "narrower"
        told = f"{self.line.capitalize()} {mm(abs(self.by_mm))} {way}, measured at that line: "
        if self.side in ONE_SIDE:
            told += f"all of it on the {self.side} half"
        else:
            told += f"{mm(abs(self._each))} on each half"
        rest = "the shoulder point goes as far" if self.shoulder else "the shoulder point stays"
        return f"{told}; {rest}, the underarm stays"

    def _lines(self, pattern: Pattern, side: BodySide) -> list[tuple[Piece, Level]]:
        found = [
            (p, v)
            for p in pattern.pieces
            if p.layer == "shell"
            for v in p.levels
            if v.name == self.line and (side not in ONE_SIDE or v.side in (side, BodySide.BOTH))
        ]
        if not found:
            known = [v.name for p in pattern.pieces for v in p.levels]
            listed = ", ".join(dict.fromkeys(known)) or "none"
            raise UnknownName(
                f"this pattern has no line called {self.line!r}; it has {listed}. Where none is "
                "drawn, reshape the armhole at a distance from the shoulder point instead"
            )
        return found

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the armholes out or in where the line meets them."""
        before = pattern
        if not _drawn(pattern):
            return on_paper(before, self.sentence(before))
        names = {p.name for p, _ in self._lines(pattern, self.side)}
        split = parted(pattern, names, self.side)
        pattern, trace = split.pattern, split.trace
        for piece, level in self._lines(pattern, self.side):
            if level.side not in (self.side, BodySide.BOTH) and self.side in ONE_SIDE:
                continue
            edge = self._armhole(piece, level)
            if edge is not None:
                pattern, moved = self._moved(pattern, piece, level, edge, step_id)
                trace = trace.then(moved)
        if not trace.fates:
            raise PatternError(f"the {self.line} does not end on an armhole")
        return applied(before, pattern, trace)

    @staticmethod
    def _armhole(piece: Piece, level: Level) -> tuple[Edge, float] | None:
        """The edge from the shoulder point on which the line ends, and where on its base line."""
        for edge in piece.edges:
            if edge.side is not level.side or SHOULDER_POINT not in (edge.start, edge.end):
                continue
            place = level_on_base(edge, level.strokes)
            if place is not None and 5 < place < edge.base_length - 5:
                return edge, place
        return None

    def _moved(
        self, pattern: Pattern, piece: Piece, level: Level, on: tuple[Edge, float], step_id: str
    ) -> tuple[Pattern, Trace]:
        piece = pattern.piece(*piece.key)
        edge, place = on
        whole = edge.base_length
        at_start = edge.start == SHOULDER_POINT
        wanted = level_length(piece, piece.level(*level.key)) + self._each
        tip, under = (0.0, whole) if at_start else (whole, 0.0)

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            at_tip = amounts[0] if self.shoulder else 0.0
            knots = sorted([(tip, at_tip), (place, amounts[0]), (under, 0.0)])
            return shaped(pattern, {at(piece, edge): (Profile(tuple(knots)),)}, step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            new = drawn(amounts)[0].piece(*piece.key)
            return [level_length(new, new.level(*level.key)) - wanted]

        amounts = adjusted(
            misses, [-self._each], [-1.0],
            f"the {self.line} of the {piece.label} cannot be changed so far; a smaller amount "
            "would fit",
            decimals=3,
        )  # fmt: skip
        return drawn(amounts)


def _drawn(pattern: Pattern) -> bool:
    """Whether any of the pattern is drawn; a tissue pattern has its lines on the paper only."""
    return any(p.levels or p.has_outline for p in pattern.pieces)
