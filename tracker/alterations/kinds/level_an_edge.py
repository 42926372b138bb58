"""Level a hem or waist by readings from the floor."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.lower_edges import edges_called, into_the_piece, meet_at_seams
from tracker.alterations.shaping import EdgeAt, at, shaped, spot
from tracker.alterations.told import applied, kept_at_the_centre, mm, on_paper, parted, whose
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, kw_only=True)
class HeightAt:
    """How high above the floor an edge was found at one place.

    Attributes:
        piece: the piece.
        corner: the corner of its edge the distance is from; a reading at a corner where pieces
            are sewn together counts for both.
        distance_mm: along the edge.
        height_mm: from the floor.
    """

    piece: str
    corner: str
    distance_mm: float
    height_mm: float

    @property
    def words(self) -> str:
        """The place in words."""
        off = f"{mm(self.distance_mm)} from " if self.distance_mm else ""
        return f"at {off}the {self.corner} of the {self.piece}"


@dataclass(frozen=True, kw_only=True)
class LevelEdge(Kind):
    """Bring an edge to one height above the floor.

    Attributes:
        wanted_mm: the height wanted all round.
        readings: the heights found, at several places.
        edge: the edge's name.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "level an edge"
    help: ClassVar[str] = (
        "Level a hem or waist: give its height from the floor at several places and the height "
        "wanted; it is raised or lowered at each by the difference."
    )

    wanted_mm: float
    readings: tuple[HeightAt, ...]
    edge: str = "hem"
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not self.readings:
            raise PatternError(
                "how high is it from the floor? Give a reading at one place at least"
            )
        if self.wanted_mm <= 0 or any(r.height_mm < 0 for r in self.readings):
            raise PatternError("heights from the floor are more than nothing")
        if all(r.height_mm == self.wanted_mm for r in self.readings):
            raise PatternError("every reading is the height wanted, so there is nothing to level")

    @classmethod
    def example(cls) -> Example:
        """A hem that dips behind."""
        return Example(
            examples.skirt(),
            cls(
                wanted_mm=520.0,
                readings=(
                    HeightAt(piece="front", corner="centre front hem", distance_mm=0.0,
                             height_mm=524.0),
                    HeightAt(piece="front", corner="side hem", distance_mm=0.0, height_mm=520.0),
                    HeightAt(piece="back", corner="centre back hem", distance_mm=0.0,
                             height_mm=508.0),
                ),
            ),
        )  # fmt: skip

    @property
    def amount_mm(self) -> float:
        """The largest amount it is raised by at a reading; negative lowers it."""
        return max((self.wanted_mm - r.height_mm for r in self.readings), key=abs)

    def scaled(self, factor: float) -> Self | None:
        """Return the same with what every reading is off multiplied."""
        if not factor:
            return None
        off = [(self.wanted_mm - r.height_mm) * factor for r in self.readings]
        # Only what they are off matters; a height itself is never below the floor.
        wanted = max(self.wanted_mm, *off)
        readings = tuple(
            replace(r, height_mm=wanted - by) for r, by in zip(self.readings, off, strict=True)
        )
        return replace(self, wanted_mm=wanted, readings=readings)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Hem brought to 300 mm from the floor: raised 12 mm at the …, lowered …"."""
        found = edges_called(pattern, self.edge, self.side)
        told = []
        for r in self.readings:
            by = self.wanted_mm - r.height_mm
            if by:
                told.append(f"{'raised' if by > 0 else 'lowered'} {mm(abs(by))} {r.words}")
            else:
                told.append(f"left {r.words}")
        begin = whose(self.side)
        name = self.edge if begin else self.edge.capitalize()
        brought = f"{begin}{name} brought to {mm(self.wanted_mm)} from the floor"
        return f"{brought}: {', '.join(told)}{self._held_on(found)}"

    def _held_on(self, found: Iterable[tuple[Piece, Edge]]) -> str:
        """Say at which ends nothing was read, so that the nearest reading holds on to there."""
        unread = [
            f"the {corner} of the {piece.name}"
            for piece, edge in found
            for corner in (edge.start, edge.end)
            if not any(r.corner == corner and not r.distance_mm for r in self.readings)
        ]
        return f"; as much as nearest to it at {' and '.join(dict.fromkeys(unread))}" * bool(unread)

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the edge of every piece by what its readings ask."""
        before = pattern
        found = edges_called(pattern, self.edge, self.side)
        if any(not e.parts for _, e in found):
            return on_paper(before, self.sentence(before))
        for r in self.readings:
            pattern.piece(r.piece, self.side).edge(self.edge)
        split = parted(pattern, {p.name for p, _ in found}, self.side)
        raised: dict[EdgeAt, Profile] = {}
        ways: dict[EdgeAt, float] = {}
        for p, e in edges_called(split.pattern, self.edge, self.side):
            raised[at(p, e)] = kept_at_the_centre(p, e, self._raised(p, e), self.side)
            ways[at(p, e)] = into_the_piece(p, e)
        apart = meet_at_seams(split.pattern, raised, self.edge)
        if apart:
            raise PatternError(
                f"the pieces sewn together at the {apart} would not meet there; give a reading at "
                f"the {apart}"
            )
        shapes = {key: (profile.times(ways[key]),) for key, profile in raised.items()}
        new, moved = shaped(split.pattern, shapes, step_id)
        return applied(before, new, split.trace.then(moved))

    def _raised(self, piece: Piece, edge: Edge) -> Profile:
        knots: dict[float, float] = {}
        for r in self.readings:
            corner = r.corner in (edge.start, edge.end) and r.distance_mm == 0
            if r.piece == piece.name or corner:
                at_mm = edge.base_distance(spot(piece, edge, r.corner, r.distance_mm))
                knots[at_mm] = self.wanted_mm - r.height_mm
        if not knots:
            raise PatternError(
                f"no reading lies on the {edge.name} of the {piece.label}; measure it there too"
            )
        return Profile(tuple(sorted(knots.items())))
