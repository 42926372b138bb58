"""An edge of a piece: one or more drawn parts with dart mouths between them."""

from dataclasses import dataclass, replace
from functools import cached_property

from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point
from tracker.geometry.profile import Profile, Sum
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import NoOutline


@dataclass(frozen=True, slots=True)
class Displacement:
    """How far one step moved an edge, square to its base line.

    Attributes:
        step: the opaque id of the step that did it.
        profile: amounts by distance along the edge's base line as sewn (mouths skipped),
            millimetres; positive moves the line into the piece, which makes it smaller.
    """

    step: str
    profile: Profile


def kept(displacements: tuple[Displacement, ...]) -> tuple[Displacement, ...]:
    """Return displacements as the store keeps them.

    Only the last can be fresh from a step: what stands before one that is rounded came with
    the settled pattern, so that a long history costs nothing.
    """
    settled = len(displacements)
    while settled:
        profile = displacements[settled - 1].profile
        if profile.rounded is profile:
            break
        settled -= 1
    if settled == len(displacements):
        return displacements
    fresh = (replace(d, profile=d.profile.rounded) for d in displacements[settled:])
    return (*displacements[:settled], *fresh)


@dataclass(frozen=True)
class Edge:
    """A named stretch of a piece's outline between two corners.

    Its length, every distance along it and every walk skip the dart mouths, as sewn.

    Attributes:
        name: "shoulder", "armhole", "side" …
        side: the wearer's side it lies on.
        start: the corner where it begins, going round the piece counter-clockwise.
        end: the corner where it ends.
        parts: the drawn lines in order; none where the pattern has no outline.
        mouths: the dart that interrupts the edge after each part but the last.
        bases: the untrimmed, undisplaced line of each part; none where they are the parts.
        displacements: what steps did to the base lines, oldest first.
        declared_mm: the length someone measured, for an edge without an outline.
    """

    name: str
    side: BodySide
    start: str
    end: str
    parts: tuple[Curve, ...] = ()
    mouths: tuple[str, ...] = ()
    bases: tuple[Curve, ...] = ()
    displacements: tuple[Displacement, ...] = ()
    declared_mm: float | None = None

    @property
    def key(self) -> tuple[str, BodySide]:
        """Name and body side."""
        return self.name, self.side

    @property
    def drawn(self) -> tuple[Curve, ...]:
        """The parts.

        Raises:
            NoOutline: the edge has a name and perhaps a length, but no line.
        """
        if not self.parts:
            raise NoOutline(
                f"the {self.name} edge has no outline; measure it and give its length instead"
            )
        return self.parts

    @cached_property
    def length(self) -> float:
        """The length as sewn, millimetres: parts added, dart mouths left out."""
        if not self.parts and self.declared_mm is not None:
            return self.declared_mm
        return sum(part.length for part in self.drawn)

    @property
    def base_lines(self) -> tuple[Curve, ...]:
        """The line displacements are taken from."""
        return self.bases or self.drawn

    @property
    def total(self) -> Sum:
        """All displacements added."""
        return Sum.of(d.profile for d in self.displacements)

    def locate(self, distance_mm: float) -> tuple[int, float]:
        """Return part number and distance on it; at a mouth, the mouth's start."""
        rest = distance_mm
        for index, part in enumerate(self.drawn):
            if rest <= part.length + 1e-9 or index == len(self.parts) - 1:
                return index, min(max(rest, 0.0), part.length)
            rest -= part.length
        raise AssertionError("an edge has at least one part")

    def point_at(self, distance_mm: float) -> Point:
        """Return the point at a distance from the edge's start, as sewn."""
        index, rest = self.locate(distance_mm)
        return self.parts[index].point_at(rest)

    def heading_at(self, distance_mm: float) -> Point:
        """Return the direction of the edge at a distance from its start."""
        index, rest = self.locate(distance_mm)
        return self.parts[index].heading_at(rest)

    def nearest(self, point: Point) -> tuple[float, float]:
        """Return distance along as sewn, and gap, of the point of the edge nearest to one."""
        before, best = 0.0, (0.0, float("inf"))
        for part in self.drawn:
            along, gap = part.nearest(point)
            if gap < best[1]:
                best = before + along, gap
            before += part.length
        return best

    def base_distance(self, distance_mm: float) -> float:
        """Return the distance along the base line of the foot of a drawn place.

        A corner's is the base line's end, wherever the corner has slid to; a place within
        1 mm of one an earlier step named is that place.
        """
        if not self.bases:
            return distance_mm
        if distance_mm <= SAME_MM:
            return 0.0
        if distance_mm >= self.length - SAME_MM:
            return self.base_length
        index, rest = self.locate(distance_mm)
        along, _ = self.bases[index].nearest(self.parts[index].point_at(rest))
        found = sum(base.length for base in self.bases[:index]) + along
        known = [s for d in self.displacements for s, _ in d.profile.knots]
        return min(
            (s for s in known if abs(s - found) < 1.0), default=found, key=lambda s: abs(s - found)
        )

    @cached_property
    def base_length(self) -> float:
        """The length of the base line as sewn, millimetres."""
        return sum(base.length for base in self.base_lines)

    def rebased(self) -> "Edge":
        """Return the edge with its drawn line as its base: what it was is history now."""
        return replace(self, bases=(), displacements=())
