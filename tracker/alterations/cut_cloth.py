"""A piece parted by a straight cut: which cloth stays, which moves, which is taken out."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum, auto

from tracker.geometry.area import FLAT_MM
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, dot, left_of, unit
from tracker.geometry.transform import Motion
from tracker.pattern.marks import Stroke


class Part(Enum):
    """What becomes of a spot of cloth."""

    STAYS = auto()
    MOVES = auto()
    GOES = auto()


@dataclass(frozen=True)
class CutCloth:
    """A piece in parts.

    Attributes:
        cut: the cut, the staying cloth to its right.
        far: where the moving cloth begins; the cut itself unless cloth is taken out.
        beyond: the outline of all that lies to the left of the cut, mouths closed.
        moving: the outline of what moves.
        motion: how it moves.
    """

    cut: Curve
    far: Curve
    beyond: tuple[Point, ...]
    moving: tuple[Point, ...]
    motion: Motion

    def part(self, spot: Point) -> Part:
        """Tell what becomes of a spot."""
        if within(self.moving, spot):
            return Part.MOVES
        return Part.GOES if within(self.beyond, spot) else Part.STAYS

    def moved(self, spot: Point) -> Point:
        """Return where a spot is afterwards; what is taken out goes to the cut."""
        return self._as(self.part(spot), spot)

    def _as(self, part: Part, spot: Point) -> Point:
        if part is Part.MOVES:
            return self.motion.of(spot)
        if part is Part.GOES:
            along = unit(self.cut.end - self.cut.start)
            return spot - left_of(along) * cross(along, spot - self.cut.start)
        return spot

    def strokes(self, strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
        """Return a material line's strokes, moved with their cloth and run on over the cut."""
        out: list[Stroke] = []
        for stroke in strokes:
            out.extend(self._stroke(stroke))
        return tuple(out)

    def _stroke(self, stroke: Stroke) -> list[Stroke]:
        # Opened, the line runs on across the cloth that was put in; where its own cloth is taken
        # out it runs along the cut.
        line: list[Point] = []
        for (a, b), part in self._bits(stroke):
            line += [self._as(part, a), self._as(part, b)]
        plain = _plain(line) if line else ()
        return [plain] if len(plain) > 1 and abs(plain[0] - plain[-1]) > 1e-6 else []

    def _bits(self, stroke: Stroke) -> list[tuple[tuple[Point, Point], Part]]:
        bits: list[tuple[tuple[Point, Point], Part]] = []
        for a, b in itertools.pairwise(stroke):
            size = abs(b - a)
            stops = {0.0, size}
            for line in (self.cut, self.far):
                stops |= {c.first_mm for c in of_curves(Curve.line(a, b), line)}
            kept = sorted(stops)
            for low, high in itertools.pairwise(kept):
                if high - low > 1e-6:
                    start, end = (
                        a + (b - a) * (low / size),
                        b if high == size else (a + (b - a) * (high / size)),
                    )
                    bits.append(((start, end), self.part((start + end) / 2)))
        return bits


def _plain(line: list[Point]) -> Stroke:
    """Leave out points that lie on the straight between their neighbours."""
    kept = [line[0]]
    for before, after in itertools.pairwise(line[1:]):
        if abs(before - kept[-1]) <= 1e-6:
            continue
        one, two = unit(before - kept[-1]), unit(after - before)
        if abs(cross(one, two)) > 1e-9 or dot(one, two) < 0:
            kept.append(before)
    return (*kept, line[-1])


def outline(curves: Sequence[Curve]) -> tuple[Point, ...]:
    """Return a ring of lines as points, gaps between them closed straight."""
    return tuple(p for c in curves for p in c.flattened(FLAT_MM))


def within(points: Sequence[Point], spot: Point) -> bool:
    """Tell whether a spot lies within a ring of points (even and odd crossings)."""
    inside = False
    for a, b in zip(points, (*points[1:], points[0]), strict=True):
        if (a.imag > spot.imag) != (b.imag > spot.imag):
            x = a.real + (b.real - a.real) * (spot.imag - a.imag) / (b.imag - a.imag)
            inside ^= spot.real < x
    return inside
