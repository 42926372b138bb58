"""Cut the neckline lower, higher, wider or narrower, round, to a point or square."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.edge_ends import EdgeEnd, lengths_told, moved_end, within_the_piece
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import applied, mm, on_paper
from tracker.drafting.style_finish import with_grain
from tracker.drafting.style_split import FROM_CORNER_MM, CannotPart
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, dot, left_of, unit
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch, Trace
from tracker.pattern.walk import notch_on_edge

NECKLINE, SHOULDER = "neckline", "shoulder"
#: With handles of this share of its height and width a cubic is a quarter of an ellipse.
_ROUND = 0.5523
#: A dip by less is not worth a word.
_WORTH_MM = 2.0
#: A handle is at least this share of the straight between the ends.
_LEAST = 0.06


class NeckShape(StrEnum):
    """How the neckline runs from the centre to the shoulder."""

    ROUND = "round"
    POINTED = "pointed"
    SQUARE = "square"


@dataclass(frozen=True, kw_only=True)
class CutNeckline(Kind):
    """Draw the neckline anew from the centre to the shoulder.

    Attributes:
        front_mm: how much lower at the centre front; negative is higher.
        back_mm: how much lower at the centre back.
        shoulder_mm: how much wider, along the shoulder on each side; negative is narrower.
        front_shape: the front's shape: round, pointed or square.
        back_shape: the back's shape.
    """

    word: ClassVar[str] = "cut the neckline"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Cut the neckline lower, higher, wider or narrower by amounts at the centre front, the "
        "centre back and along the shoulder: round, pointed or square. The shoulders still match; "
        "what is faced or sewn to the neckline follows by a step of its own."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("front_mm", "back_mm", "shoulder_mm")

    front_mm: float = 0.0
    back_mm: float = 0.0
    shoulder_mm: float = 0.0
    front_shape: NeckShape = NeckShape.ROUND
    back_shape: NeckShape = NeckShape.ROUND

    def __post_init__(self) -> None:
        plain = (self.front_shape, self.back_shape) == (NeckShape.ROUND, NeckShape.ROUND)
        if plain and not (self.front_mm or self.back_mm or self.shoulder_mm):
            raise PatternError(
                "by how much? Say how much lower at the centre front or back, how much wider at "
                "the shoulder, or another shape"
            )

    @classmethod
    def example(cls) -> Example:
        """A wide scoop."""
        return Example(examples.bodice(), cls(front_mm=60.0, back_mm=20.0, shoulder_mm=30.0))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Neckline 60 mm lower at the centre front, 30 mm wider at each shoulder …"."""
        del pattern
        told = []
        for amount, where in ((self.front_mm, "front"), (self.back_mm, "back")):
            if amount:
                way = "lower" if amount > 0 else "higher"
                told.append(f"{mm(abs(amount))} {way} at the centre {where}")
        if self.shoulder_mm:
            way = "wider" if self.shoulder_mm > 0 else "narrower"
            told.append(f"{mm(abs(self.shoulder_mm))} {way} along each shoulder")
        shape = f"{self.front_shape} in front and {self.back_shape} behind"
        if self.front_shape == self.back_shape:
            shape = f"{self.front_shape} in front and behind"
        return f"Neckline {', '.join([*told, shape])}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the ends of the shoulder and the centre, and draw the neckline between them."""
        del step_id  # a cut through an edge makes the drawn line the new base
        before = pattern
        pieces = [
            p for p in pattern.pieces
            if p.layer == "shell" and any(e.name == NECKLINE for e in p.edges)
        ]  # fmt: skip
        if not pieces:
            raise PatternError("no piece of this pattern has an edge called 'neckline'")
        if any(not p.has_outline for p in pieces):
            return on_paper(before, self.sentence(before))
        fates: list[Fate] = []
        told: list[str] = []
        for piece in pieces:
            new, its, dips = self._cut(piece)
            pattern = pattern.with_pieces(new)
            fates += its
            told += dips
        was, now = around(before, NECKLINE), around(pattern, NECKLINE)
        notes = [
            f"neckline all round {mm(round(was, 1))} before, {mm(round(now, 1))} now",
            *lengths_told(before, pattern, (SHOULDER,)),
            *dict.fromkeys(told),
        ]
        if now < was - 1.0:
            notes.append("it has to go over the head: see that an opening is long enough for it")
        leaves = [
            f"the {p.label} is taken from the {p.taken_from} and is out of date"
            for p in pattern.pieces
            if p.traced is None and p.taken_from in {piece.name for piece in pieces}
        ]
        return applied(before, pattern, Trace(tuple(fates)), notes=notes, leaves=leaves)

    def _cut(self, piece: Piece) -> tuple[Piece, list[Fate], list[str]]:
        old, fates = piece, []
        necks = [e for e in piece.edges if e.name == NECKLINE]
        drawn: dict[tuple[str, object], tuple[Edge, Curve]] = {}
        moved_centres: set[object] = set()
        for neck in necks:
            plan = _Neck.of(old, neck)
            depth = self.back_mm if plan.behind else self.front_mm
            shape = self.back_shape if plan.behind else self.front_shape
            shoulder = plan.shoulder
            if self.shoulder_mm:
                end = EdgeEnd(shoulder, at_start=shoulder.start == plan.neck_corner)
                self._room(piece, end, self.shoulder_mm)
                piece, its = moved_end(piece, end, self.shoulder_mm)
                fates += its
            spot = piece.edge(*shoulder.key)
            top = spot.parts[0].start if spot.start == plan.neck_corner else spot.parts[-1].end
            if plan.centre is None:
                up = _up(old)
                low = plan.low_point(neck) - up * depth
                across = _away_from_centre(-up * 1j, low, top)
            else:
                if depth and plan.centre.key not in moved_centres:
                    at_start = plan.centre.start == plan.low_corner
                    end = EdgeEnd(plan.centre, at_start=at_start)
                    self._room(piece, end, depth)
                    piece, its = moved_end(piece, end, depth)
                    fates += its
                    moved_centres.add(plan.centre.key)
                centre = piece.edge(*plan.centre.key)
                at_start = centre.start == plan.low_corner
                low = centre.parts[0].start if at_start else centre.parts[-1].end
                heading = centre.parts[0].start_heading if at_start else (
                    centre.parts[-1].end_heading
                )  # fmt: skip
                across = _away_from_centre(left_of(heading), low, top)
            line = _line(low, across, top, plan.arrival, shape)
            line = line if neck.start == plan.low_corner else line.reversed
            drawn[neck.key] = neck, line
        for neck, line in drawn.values():
            fresh = replace(neck, parts=(line,), mouths=(), bases=(), displacements=())
            piece = piece.with_edge(fresh)
            fates.append(
                Fate(
                    Stretch.whole(old, neck),
                    Stretch(piece.name, neck.name, neck.side, 0.0, fresh.length),
                )
            )
            piece = replace(
                piece,
                notches=tuple(
                    replace(n, distance_mm=n.distance_mm * fresh.length / neck.length)
                    if (n.edge, n.side) == neck.key and notch_on_edge(neck, n) >= 0
                    else n
                    for n in piece.notches
                ),
            )
        heading = old.grain[1] - old.grain[0] if old.grain else 1j
        piece = within_the_piece(piece, [line for _, line in drawn.values()])
        return with_grain(piece, heading, "bust line"), fates, self._dips(piece)

    @staticmethod
    def _dips(piece: Piece) -> list[str]:
        told = []
        for neck in (e for e in piece.edges if e.name == NECKLINE):
            plan = _Neck.of(piece, neck)
            by = _dip(piece, neck, plan.low_point(neck), _up(piece))
            if by > _WORTH_MM:
                where = "back" if plan.behind else "front"
                told.append(
                    f"the neckline of the {piece.label} dips {mm(round(by, 1))} below its centre: "
                    f"cut the centre {where} lower by as much, or the shoulder less wide"
                )
        return told

    @staticmethod
    def _room(piece: Piece, end: EdgeEnd, by_mm: float) -> None:
        room = end.room_mm
        if by_mm > room - FROM_CORNER_MM:
            most = max(0.0, room - FROM_CORNER_MM)
            raise PatternError(
                f"the {end.edge.name} of the {piece.label} has {room:.0f} mm before its other end "
                f"or a dart; at most {most:.0f} mm can be cut from it there"
            )


@dataclass(frozen=True, slots=True)
class _Neck:
    """A neckline edge with what it meets at its two ends."""

    shoulder: Edge
    centre: Edge | None
    neck_corner: str
    low_corner: str
    behind: bool
    edge: Edge

    @classmethod
    def of(cls, piece: Piece, neck: Edge) -> "_Neck":
        before, after = piece.before(neck), piece.after(neck)
        if neck.mouths:
            raise CannotPart(
                f"the {neck.mouths[0]} opens from the neckline of the {piece.label}; turn it "
                "elsewhere before the neckline is cut"
            )
        if before.name == SHOULDER:
            shoulder, other, top, low = before, after, neck.start, neck.end
        elif after.name == SHOULDER:
            shoulder, other, top, low = after, before, neck.end, neck.start
        else:
            raise CannotPart(
                f"the neckline of the {piece.label} does not run from the centre to the shoulder; "
                "cut it before the piece is parted there"
            )
        if other.name == f"stand {NECKLINE}":
            raise CannotPart(
                f"a button stand is drawn on to the neckline of the {piece.label}; withdraw the "
                "stand, cut the neckline, and draw the stand again"
            )
        central = other.name.startswith("centre ") or other.name == NECKLINE
        if not central:
            raise CannotPart(
                f"the neckline of the {piece.label} ends at the {other.name} and not at the "
                "centre; cut it before the piece is parted there"
            )
        centre = None if other.name == NECKLINE else other
        return cls(shoulder, centre, top, low, "back" in low, neck)

    def low_point(self, neck: Edge) -> Point:
        """Where it ends at the centre."""
        return neck.drawn[0].start if neck.start == self.low_corner else neck.drawn[-1].end

    @property
    def arrival(self) -> Point:
        """The direction in which it reaches the shoulder now, from the centre up."""
        at_end = self.edge.end == self.neck_corner
        return self.edge.drawn[-1].end_heading if at_end else -self.edge.drawn[0].start_heading


def _up(piece: Piece) -> Point:
    return unit(piece.grain[1] - piece.grain[0]) if piece.grain else 1j


def _away_from_centre(across: Point, low: Point, top: Point) -> Point:
    return across if dot(across, top - low) > 0 else -across


def _line(low: Point, across: Point, top: Point, arrival: Point, shape: NeckShape) -> Curve:
    """The neckline from the centre to the shoulder.

    Round it leaves the centre square, and arrives at the shoulder as it did, so that front and
    back still make one line there.
    """
    chord = top - low
    if shape == NeckShape.POINTED:
        reach = abs(chord) / 3
        return Curve.cubic(low, low + chord / 3, top - arrival * reach, top)
    if shape == NeckShape.SQUARE:
        return Curve.line(low, _square_corner(low, across, top, arrival), top)
    one = max(_ROUND * dot(chord, across), abs(chord) * _LEAST)
    two = max(_ROUND * abs(dot(chord, left_of(across))), abs(chord) * _LEAST)
    return Curve.cubic(low, low + across * one, top - arrival * two, top)


def _square_corner(low: Point, across: Point, top: Point, arrival: Point) -> Point:
    """Where a line down from the shoulder, as it arrives there, meets one across the centre."""
    chord = top - low
    wide = dot(chord, across)
    rise = cross(across, arrival)
    if abs(rise) > 0.3:
        corner = top - arrival * (cross(across, chord) / rise)
        if 0.25 * wide <= dot(corner - low, across) <= 1.5 * wide:
            return corner
    return low + across * wide


def _dip(piece: Piece, neck: Edge, low: Point, up: Point) -> float:
    """How far a neckline dips below where it is at the centre."""
    line = piece.edge(*neck.key).drawn[0]
    return max(dot(low - line.point_at(line.length * k / 40), up) for k in range(41))


__all__ = ["CutNeckline", "NeckShape"]
