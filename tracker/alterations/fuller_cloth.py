"""The cloth of a front opened through its bust point: how each spot and line of it moves."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from tracker.alterations.cut_cloth import within
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot, unit
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Stroke


@dataclass(frozen=True, slots=True)
class Spot:
    """A place of the ring where one part ends and the next begins."""

    edge: Edge
    at_mm: float


@dataclass(frozen=True)
class Cloth:
    """A front in its parts.

    Attributes:
        point: the bust point.
        up: towards the neck.
        out: square to it, towards the side.
        beside: how the part beside the bust, above the bust dart, moves.
        below: how the part below the bust dart moves.
        lower: how the centre's lower part moves.
        rings: the outlines of the first two.
        hinge: the hinge on the armhole.
        slit: below a double-pointed waist dart: from its lower point to the lower edge.
        levelled: where the centre is cut, above and below what is taken out.
        legs: of the two darts.
        drop_mm: how far the lower part goes down.
        by_mm: how far the part below goes out.
    """

    point: Point
    up: Point
    out: Point
    beside: Motion
    below: Motion
    lower: Motion
    rings: tuple[tuple[Point, ...], tuple[Point, ...]]
    hinge: Point
    slit: tuple[Point, Point] | None
    levelled: tuple[Point, ...]
    legs: tuple[Curve, ...]
    drop_mm: float
    by_mm: float

    def part(self, spot: Point) -> Motion | None:
        """How a spot inside moves; nothing where it is taken out."""
        if within(self.rings[0], spot):
            return self.beside
        if within(self.rings[1], spot):
            return self.below
        high, low = self.levelled
        if dot(spot - low, self.up) < 0:
            return self.lower
        return STAY if dot(spot - high, self.up) >= 0 else None

    def of(self, spot: Point) -> Point:
        """Where a spot is afterwards; what is taken out goes to the cut."""
        motion = self.part(spot)
        if motion is None:
            return spot + self.up * dot(self.levelled[0] - spot, self.up)
        return motion.of(spot)

    def through(self, stroke: Stroke) -> bool:
        """Tell whether a line runs through the bust point."""
        return self._at_point(stroke) is not None

    def strokes(self, strokes: Sequence[Stroke], pivot: Point, centre: Edge) -> tuple[Stroke, ...]:
        """A material line's strokes, moved with their cloth.

        Args:
            strokes: the strokes.
            pivot: where the bust point is afterwards.
            centre: the edge at the centre.
        """
        out: list[Stroke] = []
        for stroke in strokes:
            if self.through(stroke):
                out.append(self._through(stroke, pivot, centre))
            else:
                out.extend(self._stroke(stroke))
        return tuple(out)

    def _at_point(self, stroke: Stroke) -> int | None:
        """Which stretch of a line the bust point lies on."""
        for k, (a, b) in enumerate(itertools.pairwise(stroke)):
            if Curve.line(a, b).nearest(self.point)[1] < 1.0:
                return k
        return None

    def _through(self, stroke: Stroke, pivot: Point, centre: Edge) -> Stroke:
        """The line through the bust point: square from the centre to it, then with the side."""
        k = self._at_point(stroke)
        assert k is not None
        one, other = stroke[: k + 1], stroke[k + 1 :]
        far = centre.nearest(stroke[0])[1] > centre.nearest(stroke[-1])[1]
        outer = [z for z in (one[::-1] if far else other) if abs(z - self.point) > 1.0]
        start = stroke[-1] if far else stroke[0]
        level = start + self.up * dot(pivot - start, self.up)
        moved, before = [], self.point
        for z in outer:
            # By the middle of the stretch: its ends may lie on the outline.
            motion = self.part((before + z) / 2) or STAY
            moved.append(motion.of(z))
            before = z
        line = (level, pivot, *moved)
        return line[::-1] if far else line

    def _stroke(self, stroke: Stroke) -> list[Stroke]:
        out: list[list[Point]] = []
        last: Motion | None = None
        for a, b in self._bits(stroke):
            motion = self.part((a + b) / 2)
            if motion is None:
                pass
            elif motion == last:
                out[-1].append(motion.of(b))
            elif {last, motion} == {STAY, self.lower} and self.drop_mm > 0:
                out[-1].extend((motion.of(a), motion.of(b)))
            elif {last, motion} == {self.below, self.lower} and self.slit is not None:
                # Over the slit: run on over what is put in, cut back by what is taken out.
                if self.by_mm > 0:
                    out[-1].extend((motion.of(a), motion.of(b)))
                else:
                    out[-1] = _longer(out[-1], self.by_mm / 2)
                    out.append(_longer([motion.of(b), motion.of(a)], self.by_mm / 2)[::-1])
            elif {last, motion} == {STAY, self.beside}:
                # Broken at the slash; what is put in there is drawn on the staying side.
                gap = dot(self.beside.of(a) - a, self.out)
                if last == STAY:
                    out[-1] = _longer(out[-1], gap)
                    out.append([motion.of(a), motion.of(b)])
                else:
                    out.append(_longer([b, a], gap)[::-1])
            else:
                out.append([motion.of(a), motion.of(b)])
            last = motion
        return [tuple(line) for line in out if abs(line[0] - line[-1]) > 1e-6]

    def _bits(self, stroke: Stroke) -> list[tuple[Point, Point]]:
        cuts = [
            Curve.line(self.hinge, self.point),
            *(Curve.line(p - self.out * 1000, p + self.out * 1000) for p in self.levelled),
            *self.legs,
        ]
        if self.slit is not None:
            cuts.append(Curve.line(*self.slit))
        bits = []
        for a, b in itertools.pairwise(stroke):
            size = abs(b - a)
            stops = {0.0, size}
            for line in cuts:
                stops |= {c.first_mm for c in of_curves(Curve.line(a, b), line)}
            for low, high in itertools.pairwise(sorted(stops)):
                if high - low > 1e-6:
                    bits.append((a + (b - a) * (low / size), a + (b - a) * (high / size)))
        return bits


def length(stroke: Stroke) -> float:
    """Return how long a line of points is."""
    return sum(abs(b - a) for a, b in itertools.pairwise(stroke))


def _longer(line: list[Point], by: float) -> list[Point]:
    """A line with its last end run on, or cut back."""
    heading = unit(line[-1] - line[-2])
    room = abs(line[-1] - line[-2])
    return [*line[:-1], line[-1] + heading * max(by, -room)]


__all__ = ["Cloth", "Spot", "length"]
