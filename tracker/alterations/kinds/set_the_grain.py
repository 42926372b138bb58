"""Set a piece's grain line."""

import cmath
import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import ONE_SIDE, on_paper, parted, whose
from tracker.geometry.point import Point, dot, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: The arrow keeps so far off the edges, and is drawn so long at least where it is kept in place.
CLEAR_MM = 8.0
SHORTEST_MM = 60.0


class Lies(StrEnum):
    """How the grain lies to a line of the piece."""

    ALONG = "along"
    SQUARE = "square to"


@dataclass(frozen=True, kw_only=True)
class SetGrain(Kind):
    """Lay a piece's grain line along, or square to, one of its lines.

    Attributes:
        piece: the piece's name.
        lies: along the line, or square to it.
        to: an edge of the piece or one of its material lines, taken straight end to end.
        turned_deg: turned from there, counter-clockwise; 45 is the true bias.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "set the grain"
    help: ClassVar[str] = (
        "Lay the grain line along, or square to, an edge or line of the piece, or at an angle to "
        "it, as on the bias."
    )

    piece: str
    lies: Lies
    to: str
    turned_deg: float = 0.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not -90 <= self.turned_deg <= 90:
            raise PatternError("the grain is turned by up to 90 degrees either way")

    @classmethod
    def example(cls) -> Example:
        """A skirt front on the bias."""
        return Example(
            examples.skirt(),
            cls(piece="front", lies=Lies.ALONG, to="centre front", turned_deg=45.0),
        )

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Grain of the back laid along the centre back"."""
        pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        turned = f", turned {abs(self.turned_deg):.0f} degrees" if self.turned_deg else ""
        if turned:
            turned += " counter-clockwise" if self.turned_deg > 0 else " clockwise"
        name = "grain" if begin else "Grain"
        return f"{begin}{name} of the {self.piece} laid {self.lies} the {self.to}{turned}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw the grain line again through its own middle."""
        del step_id  # the grain carries no displacement
        before = pattern
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern = split.pattern
        notes = []
        for piece in pattern.pieces:
            if piece.name != self.piece or (
                self.side in ONE_SIDE and piece.side not in (self.side, BodySide.CENTRE)
            ):
                continue
            if self.side in ONE_SIDE and piece.side is BodySide.CENTRE:
                raise PatternError(
                    f"the {piece.label} lies across the centre and has one grain for both sides"
                )
            line = self._direction(piece)
            mirrored = piece.side is BodySide.LEFT
            angle = math.radians(-self.turned_deg if mirrored else self.turned_deg)
            grain = _laid(piece, line * cmath.exp(1j * angle))
            notes.append(f"grain of the {piece.label} {_turn(piece.grain, grain)}")
            pattern = pattern.with_pieces(replace(piece, grain=grain))
        return Applied(pattern, effect_between(before, pattern, notes=notes), split.trace)

    def _direction(self, piece: Piece) -> Point:
        """The direction asked for, pointing up the piece."""
        ends: tuple[Point, Point] | None = None
        for edge in piece.edges:
            if edge.name == self.to:
                ends = edge.drawn[0].start, edge.drawn[-1].end
                break
        for level in piece.levels:
            if ends is None and level.name == self.to and level.strokes:
                ends = level.strokes[0][0], level.strokes[0][-1]
        if ends is None:
            known = dict.fromkeys([*(e.name for e in piece.edges), *(v.name for v in piece.levels)])
            raise UnknownName(
                f"the {piece.label} has no edge or line called {self.to!r} to lay the grain by; it "
                f"has {', '.join(known)}"
            )
        along = unit(ends[1] - ends[0])
        line = along * 1j if self.lies == Lies.SQUARE else along
        return -line if (line.imag, line.real) < (0.0, 0.0) else line


def _laid(piece: Piece, direction: Point) -> tuple[Point, Point]:
    """A grain line in a direction through the middle of the old one, or of the piece."""
    left, low, right, high = piece.box
    middle, half = complex(left + right, low + high) / 2, (high - low) * 0.3
    if piece.grain:
        middle, half = sum(piece.grain) / 2, abs(piece.grain[1] - piece.grain[0]) / 2
    return _within(piece, middle, direction, half)


def _within(piece: Piece, middle: Point, direction: Point, half: float) -> tuple[Point, Point]:
    """A line through a point, as long as asked for where that fits on the piece, else shorter."""
    import shapely

    from tracker.geometry.area import polygon

    reach = abs(complex(*piece.box[2:]) - complex(*piece.box[:2]))
    ends = [middle + direction * reach * k for k in (-1, 1)]
    across = polygon(piece.plain_ring).intersection(
        shapely.LineString([(p.real, p.imag) for p in ends])
    )
    runs = [
        sorted(dot(complex(x, y) - middle, direction) for x, y in shapely.get_coordinates(run))
        for run in shapely.get_parts(across)
        if isinstance(run, shapely.LineString)
    ]
    # On the stretch of the piece the point is on, or nearest to; the arrow keeps off its edges.
    run = min(runs, key=lambda r: max(r[0], -r[-1], 0.0))
    low, high = run[0] + CLEAR_MM, run[-1] - CLEAR_MM
    half = min(half, -low, high)
    if half >= SHORTEST_MM / 2:
        return middle - direction * half, middle + direction * half
    # The point lies beside the piece, or close to its edge: the line goes along the middle.
    return middle + direction * low, middle + direction * high


def _turn(old: tuple[Point, Point] | None, new: tuple[Point, Point]) -> str:
    if old is None:
        return "drawn"
    turned = math.degrees(cmath.phase((new[1] - new[0]) / (old[1] - old[0])))
    return f"turned {turned:+.1f} degrees"
