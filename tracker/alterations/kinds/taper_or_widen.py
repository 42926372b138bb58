"""Taper or widen a skirt, sleeve, leg or bodice towards its lower edge."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.along_seams import seams_meant
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import Shapes, at, merged, shaped
from tracker.alterations.together import split_together
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import Walked, across, seam_distance, walked

#: The seam leaves its old line over at most this much, then runs straight.
_BLEND_MM = 80.0
#: Corners that add up as before within this many thousandths are left so.
_BENT = 0.5
#: The lower edge follows over half of it, and over this at most, drawn through these shares.
_REACH_MM = 150.0
_ALONG = (0.06, 0.16, 1 / 3, 0.6, 1.0)
#: A taper over less than this is a corner, not a taper.
_LEAST_MM = 20.0
#: Slopes are found in thousandths.
_FINE = 1000.0


class Taper(StrEnum):
    """Which way the lower edge goes."""

    TAPER = "taper"
    WIDEN = "widen"


class Round(StrEnum):
    """What the amount is measured round."""

    WHOLE = "the whole garment"
    EACH = "each sleeve or leg"


@dataclass(frozen=True, kw_only=True)
class SeamFrom:
    """Where on a seam it begins.

    Attributes:
        seam: the seam's name.
        corner: the corner the distance is from.
        distance_mm: along the seam's first side.
    """

    seam: str
    corner: str
    distance_mm: float = 0.0


@dataclass(frozen=True)
class _Shape:
    """A seam's sides run towards the lower edge, each with where the change begins on it.

    Attributes:
        sides: the sides, one where a piece is sewn to its own mirror image.
        room_mm: from there to the lower edge, on the first side.
        blend_mm: over which it leaves the old line.
    """

    sides: tuple[tuple[tuple[Walked, ...], float], ...]
    room_mm: float
    blend_mm: float


@dataclass(frozen=True, kw_only=True)
class TaperOrWiden(Kind):
    """Move seams in or out from a place on each of them to the lower edge.

    Attributes:
        to: taper (narrower at the lower edge) or widen.
        by_mm: the amount at the lower edge, all round; shared evenly by all the seams' edges.
        seams: the seams, each with the place it begins at.
        edge: the lower edge's name, "hem", "waist".
        round: all round the whole garment, or round each sleeve or leg.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "taper or widen"
    #: Rule 2 draws the lower edge back to its middle in one curve, its corners as they were; rule 3
    #: gives back what was there when its very opposite was done before.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Make a skirt, sleeve, leg or bodice narrower or wider at its lower edge, from a stated "
        "place on one or more seams; both sides of each seam move alike."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Taper
    by_mm: float
    seams: tuple[SeamFrom, ...]
    edge: str = "hem"
    round: Round = Round.WHOLE
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how much narrower or wider at the lower edge")
        if not self.seams:
            raise PatternError("at which seams, and from where? Name one at least")

    @property
    def _narrower(self) -> float:
        return self.by_mm if self.to == Taper.TAPER else -self.by_mm

    def _edges_round(self, pattern: Pattern) -> int:
        """How many edges share the amount."""
        count = 0
        for place in self.seams:
            seam = pattern.seam(place.seam, self.side)
            twice = seam.side is not BodySide.CENTRE and self.side not in ONE_SIDE
            count += 4 if twice and self.round == Round.WHOLE else 2
        return count

    @classmethod
    def example(cls) -> Example:
        """A skirt tapered to the hem."""
        return Example(
            examples.skirt(),
            cls(
                to=Taper.TAPER, by_mm=60.0,
                seams=(SeamFrom(seam="side", corner="side waist", distance_mm=210.0),),
            ),
        )  # fmt: skip

    def opposite(self, pattern: Pattern) -> Self | None:
        """As much the other way."""
        del pattern
        return replace(self, to=Taper.WIDEN if self.to == Taper.TAPER else Taper.TAPER)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Hem 40 mm narrower round the whole garment, from 20 mm below …"."""
        way = "narrower" if self._narrower > 0 else "wider"
        where = []
        for place in self.seams:
            off = f"{mm(place.distance_mm)} from " if place.distance_mm else ""
            where.append(f"{off}the {place.corner} of the {place.seam} seam")
        one = abs(self.by_mm) / self._edges_round(pattern)
        only = f"{self.side.capitalize()} side only: " if self.side in ONE_SIDE else ""
        name = self.edge if only else self.edge.capitalize()
        return (
            f"{only}{name} {mm(abs(self.by_mm))} {way} round {self.round}, from "
            f"{' and '.join(where)}: {mm(one)} {'from' if self._narrower > 0 else 'to'} each side "
            "of each seam"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move both sides of the seams, and true the lower edge at them."""
        before = pattern
        runs = [
            r
            for place in self.seams
            for s in seams_meant(pattern, place.seam, self.side)
            for r in (*s.first, *s.second)
        ]
        if any(not pattern.edge_of(r).parts for r in runs):
            return on_paper(before, self.sentence(before))
        split = split_together(pattern, {r.piece for r in runs}, self.side)
        start = split.pattern
        meant = [
            (place, seam)
            for place in self.seams
            for seam in seams_meant(start, place.seam, self.side)
        ]
        lower = {
            (*piece.key, *edge.key): piece.copies
            for _, seam in meant
            for piece, edge, _ in self._lower(start, seam)
        }
        twice = 2 if self.round == Round.EACH and self.side not in ONE_SIDE else 1

        def length(new: Pattern) -> float:
            return sum(
                new.piece(n, ps).edge(e, es).length * copies
                for (n, ps, e, es), copies in lower.items()
            )

        wanted = length(start) - self._narrower * twice
        shapes_of = [self._shape(start, place, seam) for place, seam in meant]
        one = self._narrower / self._edges_round(start)
        hold = 6.0 + abs(one)

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            shapes: Shapes = {}
            for (_, seam), shape in zip(meant, shapes_of, strict=True):
                slope, turn = amounts[0] / _FINE, sum(amounts) / _FINE
                more = self._moved(start, seam, shape, slope, turn, hold)
                shapes = merged(shapes, more)
            return shaped(start, shapes, step_id)

        ends = [
            (piece.key, edge.key, at_start)
            for _, seam in meant
            for piece, edge, at_start in self._lower(start, seam)
        ]

        def corners(new: Pattern) -> float:
            angles = [
                corner_angle(new.piece(*p), new.piece(*p).edge(*e), not at_start)
                for p, e, at_start in ends
            ]
            return math.radians(sum(angles) / len(angles))

        square = corners(start)

        def misses(amounts: Sequence[float]) -> list[float]:
            new = drawn(amounts)[0]
            return [length(new) - wanted, (corners(new) - square) * _FINE]

        reach = min(shape.room_mm - shape.blend_mm / 2 for shape in shapes_of)
        failing = f"the {self.edge} cannot be changed by so much from where the change begins"
        start_at, gains = (
            [one / reach * _FINE, 0.0],
            [-twice * self._edges_round(start) * reach / _FINE, -1.0],
        )
        amounts = adjusted(lambda a: misses(a)[:1], start_at[:1], gains[:1], failing, decimals=3)
        bent = misses(amounts)[1]
        if abs(bent) > _BENT:
            # A straight lower edge turns as its seams do; a curved one needs something else.
            amounts = adjusted(misses, [*amounts, bent], gains, failing, decimals=3)
        new, moved = drawn(amounts)
        return applied(before, new, split.trace.then(moved))

    def _lower(self, pattern: Pattern, seam: Seam) -> list[tuple[Piece, Edge, bool]]:
        """The lower edges a seam ends on, and whether the seam meets each at its start."""
        for last in (True, False):
            found = []
            for runs in dict.fromkeys((seam.first, seam.second)):
                run = runs[-1] if last else runs[0]
                piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
                at_end = last != run.backward
                crossing = piece.after(edge) if at_end else piece.before(edge)
                if crossing.name == self.edge:
                    found.append((piece, crossing, at_end))
            if found:
                return found
        raise UnknownName(f"the {seam.name} seam does not end on an edge called {self.edge!r}")

    def _ends_last(self, pattern: Pattern, seam: Seam) -> bool:
        """Tell whether the lower edge is at the seam's last end."""
        run = seam.first[-1]
        piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
        crossing = piece.before(edge) if run.backward else piece.after(edge)
        return crossing.name == self.edge

    def _shape(self, pattern: Pattern, place: SeamFrom, seam: Seam) -> _Shape:
        """Where on a seam's two sides the change begins, all run towards the lower edge."""
        self._lower(pattern, seam)
        spot = Place(
            seam=seam.name, side=seam.side, corner=place.corner, distance_mm=place.distance_mm
        )
        begin = seam_distance(pattern, spot)
        begins = begin, across(pattern, seam, begin)
        sides: list[tuple[tuple[Walked, ...], float]] = []
        for runs, at_mm in dict(zip((seam.first, seam.second), begins, strict=True)).items():
            side = walked(pattern, runs)
            if not self._ends_last(pattern, seam):
                at_mm = side[-1].to_mm - at_mm
                side = walked(
                    pattern, tuple(replace(r, backward=not r.backward) for r in reversed(runs))
                )
            sides.append((side, at_mm))
        room = sides[0][0][-1].to_mm - sides[0][1]
        if room < _LEAST_MM:
            raise PatternError(
                f"{place.distance_mm:.0f} mm from the {place.corner} is {room:.0f} mm from the "
                f"{self.edge}; begin {_LEAST_MM:.0f} mm from it at least"
            )
        # Told apart to 5 mm, so that the way back is drawn over the same stretch.
        return _Shape(tuple(sides), room, min(_BLEND_MM, 5 * max(1, round(room / 15))))

    def _moved(
        self, pattern: Pattern, seam: Seam, shape: _Shape, slope: float, turn: float, hold_mm: float
    ) -> Shapes:
        """Both sides of a seam turned by a slope, and the lower edge at them, which may curve."""
        blend = shape.blend_mm
        # Flat where it begins, straight from the blend to far beyond the lower edge.
        knots = [(0.0, 0.0), (blend, slope * blend / 2)]
        knots += [(u, slope * (u - blend / 2)) for u in (1.5 * blend, 2e3, 3e3)]
        out: Shapes = {}
        for side, begin in shape.sides:
            for step in side:
                if step.to_mm > begin + 1e-6:
                    key = step.run.piece, step.run.side, step.run.edge, step.run.side
                    out = merged(out, {key: (_from(step, begin, knots),)})
        for piece, edge, at_start in self._lower(pattern, seam):
            turned = _end_turned(edge, at_start, turn, hold_mm)
            out = merged(out, {at(piece, edge): (turned,)})
        return out


def _end_turned(edge: Edge, at_start: bool, turn: float, beyond_mm: float) -> Profile:
    """Return amounts that turn the lower edge about its end, smoothly back to its middle.

    Args:
        edge: the lower edge.
        at_start: about its start, otherwise its end.
        turn: the tangent of the turn; positive turns it into the piece.
        beyond_mm: how far beyond its end it may be run on.
    """
    whole = edge.base_length
    reach = min(whole / 2, _REACH_MM)
    # u (1 − u/reach)² is straight at the end, and level where it is nothing again.
    inner = [(u, turn * u * (1 - u / reach) ** 2) for u in (x * reach for x in _ALONG)]
    knots = [(u, turn * u) for u in (-2 * beyond_mm, -beyond_mm)] + inner
    if at_start:
        return Profile(tuple(knots))
    return Profile(tuple(sorted((whole - u, v) for u, v in knots)))


def _from(step: Walked, begin: float, knots: list[tuple[float, float]]) -> Profile:
    """Return amounts by distance from a place of a side, along an edge's base line."""
    edge, backward = step.edge, step.run.backward
    if begin >= step.from_mm:
        zero = edge.base_distance(step.on_edge(begin))
    else:
        before = step.from_mm - begin
        zero = edge.base_length + before if backward else -before
    return Profile(tuple(sorted((zero - u if backward else zero + u, v) for u, v in knots)))
