"""A piece of a pattern: a closed ring of edges and what is marked on it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Protocol, TypeVar

from tracker.errors import nearest_names
from tracker.geometry.area import signed_area
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.cut import Cut
from tracker.pattern.dart import Dart
from tracker.pattern.earlier import Earlier
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.traced import Traced

PieceKey = tuple[str, BodySide]


class _Named(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def side(self) -> BodySide: ...


T = TypeVar("T", bound=_Named)


@dataclass(frozen=True)
class Piece:
    """One piece of the garment, as worn, right side of the cloth up, millimetres.

    Attributes:
        name: "front", "back", "side front" …
        side: the wearer's body side; ``both`` is drawn as the right one and mirrored.
        edges: the outline in order, counter-clockwise; each begins where the last ended.
        darts: the darts, their legs part of the ring where they open from an edge.
        notches: the notches.
        levels: the material lines.
        marks: named points.
        grain: the grain line, lower end first; none where it was never marked.
        fold: the edge that lies on the fold of the cloth, if one does.
        layer: "shell", "facing", "lining" or "interfacing".
        copies: how many times the drawn half is in the garment (a fold counts twice).
        cut: the cut instruction in words, "cut 2, a pair".
        taken_from: the piece this one follows (a facing its front), if any.
        traced: how it was taken from it, where a step did it and can do it again.
        cuts: what the last cuts across it replaced, oldest first.
        earlier: how it was before the last steps whose opposite would only come near.
        allowances: edges with a seam allowance of their own, each with its millimetres.
    """

    name: str
    side: BodySide
    edges: tuple[Edge, ...]
    darts: tuple[Dart, ...] = ()
    notches: tuple[Notch, ...] = ()
    levels: tuple[Level, ...] = ()
    marks: tuple[Mark, ...] = ()
    grain: tuple[Point, Point] | None = None
    fold: str | None = None
    layer: str = "shell"
    copies: int = 2
    cut: str = "cut 2, a pair"
    taken_from: str | None = None
    traced: Traced | None = None
    cuts: tuple[Cut, ...] = ()
    earlier: tuple[Earlier, ...] = ()
    allowances: tuple[tuple[str, float], ...] = ()

    @property
    def key(self) -> PieceKey:
        """Name and body side."""
        return self.name, self.side

    @property
    def label(self) -> str:
        """The name a person reads: "front", "left back"."""
        if self.side in (BodySide.RIGHT, BodySide.LEFT):
            return f"{self.side} {self.name}"
        return self.name

    @property
    def has_outline(self) -> bool:
        """Tell whether the piece is drawn."""
        return bool(self.edges) and all(edge.parts for edge in self.edges)

    def edge(self, name: str, side: BodySide | None = None) -> Edge:
        """Return an edge by name, and by body side where the piece has it on both."""
        return _find(self.edges, "edge", name, side, self.label)

    def dart(self, name: str, side: BodySide | None = None) -> Dart:
        """Return a dart by name."""
        return _find(self.darts, "dart", name, side, self.label)

    def notch(self, name: str, side: BodySide | None = None) -> Notch:
        """Return a notch by name."""
        return _find(self.notches, "notch", name, side, self.label)

    def level(self, name: str, side: BodySide | None = None) -> Level:
        """Return a material line by name."""
        return _find(self.levels, "line", name, side, self.label)

    def mark(self, name: str, side: BodySide | None = None) -> Mark:
        """Return a named point."""
        return _find(self.marks, "mark", name, side, self.label)

    def edge_index(self, edge: Edge) -> int:
        """Return an edge's place in the ring."""
        return next(i for i, e in enumerate(self.edges) if e.key == edge.key)

    def before(self, edge: Edge) -> Edge:
        """Return the edge that ends where this one starts."""
        return self.edges[self.edge_index(edge) - 1]

    def after(self, edge: Edge) -> Edge:
        """Return the edge that starts where this one ends."""
        return self.edges[(self.edge_index(edge) + 1) % len(self.edges)]

    def with_edge(self, edge: Edge) -> "Piece":
        """Return the piece with the edge of the same key replaced."""
        return replace(self, edges=tuple(edge if e.key == edge.key else e for e in self.edges))

    def with_dart(self, dart: Dart) -> "Piece":
        """Return the piece with the dart of the same key replaced."""
        return replace(self, darts=tuple(dart if d.key == dart.key else d for d in self.darts))

    def with_notch(self, notch: Notch) -> "Piece":
        """Return the piece with the notch of the same key replaced."""
        return replace(
            self, notches=tuple(notch if n.key == notch.key else n for n in self.notches)
        )

    @cached_property
    def ring(self) -> tuple[Curve, ...]:
        """The whole outline in order, dart legs included."""
        out: list[Curve] = []
        for edge in self.edges:
            for index, part in enumerate(edge.drawn):
                out.append(part)
                if index < len(edge.mouths):
                    out.extend(self.dart(edge.mouths[index], edge.side).legs)
        return tuple(out)

    @cached_property
    def plain_ring(self) -> tuple[Curve, ...]:
        """The outline with each dart's legs ending 1 mm short of the pivot.

        Darts that share a pivot make the true ring touch itself there, which is no fault.
        """
        legs = {id(leg) for dart in self.darts if dart.mouth for leg in dart.legs}
        out: list[Curve] = []
        inward = True
        for curve in self.ring:
            if id(curve) in legs:
                short = min(1.0, curve.length / 4)
                if inward:
                    curve = curve.part(0.0, curve.length - short)
                else:
                    curve = curve.part(short, curve.length)
                    out.append(Curve.line(out[-1].end, curve.start))
                inward = not inward
            out.append(curve)
        return tuple(out)

    @cached_property
    def area_mm2(self) -> float:
        """The area within the ring, mm²; dart mouths are outside it."""
        return signed_area(self.ring)

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y of the outline's handles, millimetres."""
        boxes = [curve.box for curve in self.ring]
        return (
            min(b[0] for b in boxes), min(b[1] for b in boxes),
            max(b[2] for b in boxes), max(b[3] for b in boxes),
        )  # fmt: skip

    def corner(self, name: str, side: BodySide | None = None) -> Point:
        """Return where a named corner is."""
        for edge in self.edges:
            if edge.start == name and (side is None or edge.side is side):
                return edge.drawn[0].start
            if edge.end == name and (side is None or edge.side is side):
                return edge.drawn[-1].end
        raise UnknownName(
            f"the {self.label} has no corner called {name!r}; its corners are "
            f"{', '.join(self.corners)}.{nearest_names(name, list(self.corners))}"
        )

    @property
    def corners(self) -> tuple[str, ...]:
        """The corner names in order round the ring."""
        return tuple(edge.start for edge in self.edges)


def _find(things: Sequence[T], kind: str, name: str, side: BodySide | None, where: str) -> T:
    named = [t for t in things if t.name == name]
    for thing in named:
        if side is None or thing.side is side:
            return thing
    for thing in named:
        # What is drawn for both sides is there on the right and on the left; and both sides
        # asked of what differs right and left gives the right one.
        if thing.side is BodySide.BOTH or side is BodySide.BOTH:
            return thing
    known = sorted({t.name for t in things})
    if named:
        sides = " and ".join(str(t.side) for t in named)
        raise UnknownName(
            f"the {where} has {name!r} on the wearer's {sides} only, not on the {side}"
        )
    listed = ", ".join(known) if known else "none"
    raise UnknownName(
        f"the {where} has no {kind} called {name!r}; it has {listed}.{nearest_names(name, known)}"
    )
