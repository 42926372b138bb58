"""Part pieces on a line: a yoke, a style seam, a band, a seam through a dart's point."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.across import names_listed
from tracker.alterations.bodyside import Split, split_sides
from tracker.alterations.crossed_darts import left_out, refuse_both
from tracker.alterations.in_halves import in_halves, opened_again
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.parting import (
    PartLine,
    clear_of_joints,
    part_piece,
)
from tracker.alterations.parting_told import PartReport, leaving_told, lines_told
from tracker.alterations.partners import met_at
from tracker.alterations.shaping import spot
from tracker.alterations.slash import CutAt
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper, whose
from tracker.drafting.style_line import even_line
from tracker.drafting.style_split import CannotPart, place_inside
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot, left_of, turn_between, turned, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam

#: A line through a dart's point turns there by this at most on either side.
_MOST_TURN_RAD = math.radians(35)


class LineShape(StrEnum):
    """How a line runs between its two ends."""

    STRAIGHT = "straight"
    CURVED = "curved"


class NewPart(StrEnum):
    """Which of the two parts gets a name of its own."""

    UPPER = "upper"
    LOWER = "lower"


@dataclass(frozen=True, kw_only=True)
class LineEnd:
    """Where a line meets an edge.

    Attributes:
        corner: the corner of the edge the distance is from.
        distance_mm: along the edge, as sewn.
        edge: the edge.
    """

    corner: str
    distance_mm: float = 0.0
    edge: str


@dataclass(frozen=True, kw_only=True)
class PartOnLine(Kind):
    """Part a piece, or several that are sewn together, on one line.

    Attributes:
        pieces: the pieces in order along the line, each sewn to the next.
        ends: where the line meets the edges: one place more than there are pieces. The places
            between are on the seams, and the next piece is cut where it is sewn to them.
        shape: straight, or curved so that it is square to the edges it meets.
        bow_mm: how far a straight line dips at its middle; negative arches it. One that runs
            up and down bows to the side.
        close: the darts that are closed into it, each with its point moved onto the line.
        leave: the darts it runs across that stay: sewn shut on the part that has the mouth, on
            the other the rest is a dart from the new seam.
        through: the dart whose point the line runs through; it is closed into it.
        down: the dart whose legs it runs down, each one part's edge; it needs no second end.
        named: what the new part is called after its piece: "yoke".
        part: which part that is, upper or lower.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "part on a line"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Part a piece, or several joined at a seam, on a line from edge to edge: a yoke, a band, a "
        "style seam. Darts that end on the line are closed into it; a dart with two points that it "
        "runs across becomes two. Notches, lines and grain are kept and the new seam has its own."
    )

    pieces: tuple[str, ...]
    ends: tuple[LineEnd, ...]
    shape: LineShape = LineShape.STRAIGHT
    bow_mm: float = 0.0
    close: tuple[str, ...] = ()
    through: str = ""
    down: str = ""
    named: str = "yoke"
    part: NewPart = NewPart.UPPER
    leave: tuple[str, ...] = ()
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.pieces or len(set(self.pieces)) < len(self.pieces):
            raise PatternError("name the pieces the line runs over, each once")
        wanted = len(self.pieces) + (0 if self.down else 1)
        if len(self.ends) != wanted:
            over = f"{len(self.pieces)} piece{'' if len(self.pieces) == 1 else 's'}"
            raise PatternError(
                f"over {over} a line meets the edges at {wanted} "
                f"{'place' if wanted == 1 else 'places'}, and {len(self.ends)} "
                f"{'is' if len(self.ends) == 1 else 'are'} named"
            )
        if (self.through or self.down) and len(self.pieces) > 1:
            raise PatternError("a line through a dart's point is drawn on one piece at a time")
        if self.through and self.down:
            raise PatternError("the line runs through a dart's point or down its legs, not both")
        if self.bow_mm and (self.shape is LineShape.CURVED or self.through or self.down):
            raise PatternError("only a straight line from edge to edge is bowed by an amount")
        refuse_both(self.close, self.leave)
        if not self.named.strip():
            raise PatternError("the new part needs a name, such as “yoke”")

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; pieces may be one text: "back, front"."""
        return super().from_parameters(names_listed(parameters))

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values; without darts to leave, as ever recorded."""
        return left_out(super().parameters())

    @classmethod
    def example(cls) -> Example:
        """A back yoke the shoulder dart is closed into."""
        return Example(
            examples.bodice(),
            cls(
                pieces=("back",),
                ends=(
                    LineEnd(corner="shoulder point", distance_mm=90.0, edge="armhole"),
                    LineEnd(corner="centre back neck", distance_mm=105.0, edge="centre back"),
                ),
                close=("shoulder dart",),
            ),
        )

    def new_name(self, piece: str) -> str:
        """What the new part of a piece is called."""
        return f"{piece} {self.named}"

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Back parted from the armhole, 90 mm from the shoulder point, to …"."""
        names = [pattern.piece(n, None).name for n in self.pieces]
        listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
        begin = whose(self.side)
        where = [_place(end) for end in self.ends]
        told = f"{begin}{listed if begin else listed.capitalize()} parted on a {self.shape} line"
        if self.bow_mm:
            told += f" bowed {mm(abs(self.bow_mm))} {'down' if self.bow_mm > 0 else 'up'}"
        told += f" from {where[0]}"
        told += "".join(f" to {place}" for place in where[1:])
        if self.through:
            told += f", through the {self.through}'s point; that dart closed into it"
        if self.down:
            told += f", to the {self.down}'s point and down its legs"
        if self.close:
            told += f"; the {' and the '.join(self.close)} closed into it"
        told += leaving_told(self.leave)
        new = " and the ".join(self.new_name(n) for n in names)
        return f"{told}; the {self.part} part is the {new}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Part each piece in turn."""
        del step_id  # a cut through an edge makes the drawn line the new base
        before = pattern
        concerned = [pattern.piece(n, None) for n in self.pieces]
        if not all(p.has_outline for p in concerned):
            return on_paper(before, self.sentence(before))
        split, centres = self._apart(pattern)
        pattern, trace = split.pattern, split.trace
        reports: list[PartReport] = []
        plans = [plan for side in self._sides(pattern) for plan in self._plans(pattern, side)]
        for key, plan in plans:
            done = part_piece(pattern, pattern.piece(*key), plan)
            pattern, trace = done.pattern, trace.then(done.trace)
            reports.append(done.report)
        whole = opened_again(pattern, trace, centres)
        pattern, trace = whole.pattern, whole.trace
        seams = {r.seam for r in reports}
        notches = [
            f"{len(s.matches)} {'pair' if len(s.matches) == 1 else 'pairs'} of notches set in the "
            f"{s.name} seam"
            for s in pattern.seams
            if s.name in seams
        ]
        return applied(
            before, pattern, trace, notches=dict.fromkeys(notches), notes=lines_told(reports)
        )

    def _apart(self, pattern: Pattern) -> tuple[Split, tuple[str, ...]]:
        """The pattern with what is opened out in halves, and for one side, or beside such, all."""
        split, centres = in_halves(pattern, self.pieces)
        apart = {p.side for p in split.pattern.pieces if p.name in self.pieces} - {BodySide.BOTH}
        sides = split_sides(split.pattern, self.pieces if apart or self.side in ONE_SIDE else ())
        trace = split.trace.then(sides.trace) if split.trace.fates else sides.trace
        # Opened out by being split just now, it is cut in halves too.
        again, more = in_halves(sides.pattern, self.pieces)
        trace = trace.then(again.trace) if again.trace.fates else trace
        return Split(again.pattern, trace), (*centres, *more)

    # -- where it runs -------------------------------------------------------------------

    def _sides(self, pattern: Pattern) -> tuple[BodySide, ...]:
        found = {p.side for p in pattern.pieces if p.name in self.pieces}
        if self.side in ONE_SIDE:
            return (self.side,)
        return (BodySide.BOTH,) if found == {BodySide.BOTH} else ONE_SIDE

    def _plans(
        self, pattern: Pattern, side: BodySide
    ) -> list[tuple[tuple[str, BodySide], PartLine]]:
        out: list[tuple[tuple[str, BodySide], PartLine]] = []
        start: CutAt | None = None
        for k, name in enumerate(self.pieces):
            piece = pattern.piece(name, side)
            at_side = piece.side
            new = self.new_name(piece.name)
            if any(p.name == new and p.side in (at_side, BodySide.BOTH) for p in pattern.pieces):
                raise CannotPart(
                    f"the pattern has a {new} already; call the new part something else"
                )
            one = start or self._at(piece, self.ends[k], at_side)
            dart = piece.dart(self.down, at_side) if self.down else None
            if dart:
                other = self._at_dart(piece, dart)
            else:
                other = self._at(piece, self.ends[k + 1], at_side)
            if one.edge.key == other.edge.key and not dart:
                raise CannotPart(
                    f"both ends of the line lie on the {one.edge.name} of the {piece.label}; it "
                    "runs from one edge to another"
                )
            plan = PartLine(
                name=new,
                one=one.edge,
                one_mm=one.at_mm,
                other=other.edge,
                other_mm=other.at_mm,
                line=self._line(piece, one, other, dart),
                close=self._closing(piece, at_side),
                down=dart,
                new=new,
                upper=self.part == NewPart.UPPER,
                leave=self._left(piece, at_side),
            )
            out.append((piece.key, plan))
            if k + 1 < len(self.pieces):
                after = pattern.piece(self.pieces[k + 1], side)
                seam = _seam_between(pattern, piece, other.edge, after)
                start = clear_of_joints(met_at(pattern, seam, piece, other, after))
        return out

    def _closing(self, piece: Piece, side: BodySide) -> tuple[str, ...]:
        """The darts of a piece that are closed; each named one has to be on some piece."""
        wanted = (*self.close, *((self.through,) if self.through else ()))
        if len(self.pieces) == 1:
            for name in wanted:
                piece.dart(name, side)
        return tuple(n for n in wanted if any(d.key == (n, side) for d in piece.darts))

    def _left(self, piece: Piece, side: BodySide) -> tuple[str, ...]:
        """The darts of a piece that stay; on a single piece each named one has to be there."""
        if len(self.pieces) == 1:
            for name in self.leave:
                piece.dart(name, side)
        return tuple(n for n in self.leave if any(d.key == (n, side) for d in piece.darts))

    @staticmethod
    def _at(piece: Piece, end: LineEnd, side: BodySide) -> CutAt:
        edge = piece.edge(end.edge, side)
        at = spot(piece, edge, end.corner, end.distance_mm)
        place_inside(edge, at, f"the {piece.label}", end.corner)
        return clear_of_joints(CutAt(edge, at))

    @staticmethod
    def _at_dart(piece: Piece, dart: Dart) -> CutAt:
        if dart.mouth is None:
            raise CannotPart(
                f"the {dart.name} of the {piece.label} has two points and no mouth to run down to"
            )
        edge = piece.edge(dart.mouth, dart.side)
        before = edge.parts[: edge.mouths.index(dart.name) + 1]
        return CutAt(edge, sum(p.length for p in before))

    def _line(self, piece: Piece, one: CutAt, other: CutAt, down: Dart | None) -> Curve:
        p, q = one.point, other.point
        if down:
            return even_line(p, down.pivot, down.axis)
        if self.through:
            return _through(piece, p, piece.dart(self.through, one.edge.side).pivot, q)
        if self.shape == LineShape.CURVED:
            reach = abs(q - p) / 3
            into = left_of(one.edge.heading_at(one.at_mm))
            back = left_of(other.edge.heading_at(other.at_mm))
            return Curve.cubic(p, p + into * reach, q + back * reach, q)
        if not self.bow_mm:
            return Curve.line(p, q)
        off = _downward(piece, p, q) * (self.bow_mm * 4 / 3)
        return Curve.cubic(p, p + (q - p) / 3 + off, q - (q - p) / 3 + off, q)


def _place(end: LineEnd) -> str:
    off = f", {mm(end.distance_mm)} from the {end.corner}" if end.distance_mm else ""
    return f"the {end.edge}{off}" if off else f"the {end.edge} at the {end.corner}"


def _downward(piece: Piece, p: Point, q: Point) -> Point:
    """Square to a line, down the grain; of one that runs up and down, away from the centre."""
    up = unit(piece.grain[1] - piece.grain[0]) if piece.grain else 1j
    square = left_of(unit(q - p))
    down = dot(square, up)
    if abs(down) < 0.3:
        middle = (p + q) / 2
        return square if square.real * middle.real > 0 else -square
    return -square if down > 0 else square


def _through(piece: Piece, start: Point, pivot: Point, end: Point) -> Curve:
    """A line from edge to edge through a dart's point, one even bend on either side of it."""
    one, two = pivot - start, end - pivot
    turn = turn_between(one, two) / 2
    if abs(turn) > _MOST_TURN_RAD:
        raise CannotPart(
            f"the line would turn by {abs(math.degrees(2 * turn)):.0f} degrees at the dart's point "
            f"of the {piece.label}; choose ends more nearly opposite each other"
        )
    arcs = []
    for a, chord, first, last in (
        (start, one, -turn, turn), (pivot, two, -turn, turn)
    ):  # fmt: skip
        reach = abs(chord) / 3
        leave, arrive = turned(unit(chord), 0j, first), turned(unit(chord), 0j, last)
        arcs.append(Curve.cubic(a, a + leave * reach, a + chord - arrive * reach, a + chord))
    return arcs[0].joined(arcs[1])


def _seam_between(pattern: Pattern, piece: Piece, edge: Edge, after: Piece) -> Seam:
    for seam in pattern.seams_on(piece, edge):
        if any(r.piece == after.name for r in (*seam.first, *seam.second)):
            return seam
    raise PatternError(
        f"the {edge.name} of the {piece.label} is not sewn to the {after.label}; name the pieces "
        "in order along the line, and the places between on the seams that join them"
    )


__all__ = ["LineEnd", "LineShape", "NewPart", "PartOnLine"]
