"""What a cut across a piece replaced, so that the same cut taken back gives it back.

A cut that is opened or closed leaves edges drawn again smoothly, and legs of darts. Drawn from
what lies there, the way back would only come near; so a piece keeps what was there before.
"""

from dataclasses import dataclass, replace

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level

#: A piece keeps so many of its last cuts.
KEPT_CUTS = 8


@dataclass(frozen=True, slots=True)
class Redrawn:
    """A stretch of an edge that a cut had drawn again, where the edge lies now.

    Attributes:
        edge: the edge's name.
        side: its body side.
        was: the line before.
        now: the line in its place.
        taken: from where to where on ``was`` cloth was taken out, millimetres from its start.
        put: from where to where on ``now`` cloth was put in.
        by_mm: how far the cut was opened there; negative is closed.
        start_moved: the edge before the stretch was moved, and not the one after it.
    """

    edge: str
    side: BodySide
    was: Curve
    now: Curve
    taken: tuple[float, float] = (0.0, 0.0)
    put: tuple[float, float] = (0.0, 0.0)
    by_mm: float = 0.0
    start_moved: bool = False

    @property
    def key(self) -> tuple[str, BodySide]:
        """The edge's name and body side."""
        return self.edge, self.side

    def carried(self, motion: Motion) -> "Redrawn":
        """Return it after a later step moved the cloth it is on."""
        return replace(self, was=self.was.moved(motion), now=self.now.moved(motion))

    def mirrored(self, motion: Motion) -> "Redrawn":
        """Return it on the other half, where edges run the other way."""
        was, now = self.was.length, self.now.length
        return replace(
            self,
            was=self.was.moved(motion).reversed,
            now=self.now.moved(motion).reversed,
            taken=(was - self.taken[1], was - self.taken[0]),
            put=(now - self.put[1], now - self.put[0]),
            start_moved=not self.start_moved,
        )


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut across a piece.

    Attributes:
        spots: two spots far apart, before the moved cloth was moved.
        went: where it took them.
        ends: the stretches at its two ends.
        beside: other stretches that were drawn again, at the mouths of darts it crossed.
        darts: those darts before and after.
        levels: material lines that were run on over it or cut back, before and after.
        edges: edges it was drawn on that had been altered: their base lines and what moved them.
    """

    spots: tuple[Point, Point]
    went: tuple[Point, Point]
    ends: tuple[Redrawn, Redrawn]
    beside: tuple[Redrawn, ...] = ()
    darts: tuple[tuple[Dart, Dart], ...] = ()
    levels: tuple[tuple[Level, Level], ...] = ()
    edges: tuple[Edge, ...] = ()

    @property
    def back(self) -> Motion:
        """The motion that takes the moved cloth back."""
        (a, b), (c, d) = self.went, self.spots
        factor = (d - c) / (b - a)
        factor /= abs(factor)
        return Motion(factor=factor, shift=(c + d) / 2 - factor * (a + b) / 2)

    def sided(self, side: BodySide) -> "Cut":
        """Return it on the piece of one body side that stood for both."""

        def to(s: BodySide) -> BodySide:
            return side if s is BodySide.BOTH else s

        return replace(
            self,
            ends=(
                replace(self.ends[0], side=to(self.ends[0].side)),
                replace(self.ends[1], side=to(self.ends[1].side)),
            ),
            beside=tuple(replace(r, side=to(r.side)) for r in self.beside),
            darts=tuple(
                (replace(a, side=to(a.side)), replace(b, side=to(b.side))) for a, b in self.darts
            ),
            levels=tuple(
                (replace(a, side=to(a.side)), replace(b, side=to(b.side))) for a, b in self.levels
            ),
            edges=tuple(replace(e, side=to(e.side)) for e in self.edges),
        )

    def mirrored(self, motion: Motion) -> "Cut":
        """Return it on the other half. What else it changed is not kept there."""
        return Cut(
            (motion.of(self.spots[0]), motion.of(self.spots[1])),
            (motion.of(self.went[0]), motion.of(self.went[1])),
            (self.ends[0].mirrored(motion), self.ends[1].mirrored(motion)),
        )
