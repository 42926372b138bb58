"""Running a piece on below its lower edge: seams carried down, its darts closed off below."""

import cmath
import math
from dataclasses import dataclass, replace

from tracker.alterations.across import up_of
from tracker.alterations.mouth import broken_by
from tracker.drafting.style_finish import NO_BEND_RAD
from tracker.drafting.style_round import rounded_corner
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, left_of, turn_between, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch
from tracker.pattern.walk import notch_on_edge

#: Where a seam leaves its old direction it is rounded over at most this far.
ROUNDED_MM = 40.0
#: The lower point of a dart stays this far above the new edge.
ABOVE_HEM_MM = 20.0
#: The old line inside the piece is kept as chords that stand off it no more than this.
_FLAT_MM = 0.0005


@dataclass(frozen=True, slots=True)
class RunOn:
    """A piece run on below.

    Attributes:
        piece: the piece.
        fates: what became of its edges.
        corners: the names of the corners that are lower now: old name to new.
        old_at: for each edge that was run on, how far from its start its old end lies.
    """

    piece: Piece
    fates: tuple[Fate, ...]
    corners: tuple[tuple[str, str], ...]
    old_at: tuple[tuple[tuple[str, BodySide], float], ...]


@dataclass(frozen=True, slots=True)
class Below:
    """How a piece is run on.

    Attributes:
        edge: its lower edge.
        by_mm: how far, along each seam.
        named: what the new lower edge is called.
        lean_rad: how far a seam that is not at the centre leans out from plumb.
        dart_mm: how far below the old edge a dart that opened from it ends.
    """

    edge: Edge
    by_mm: float
    named: str
    lean_rad: float
    dart_mm: float


def corner_named(corner: str, edge: str, named: str) -> str:
    """Return the name of a corner after its edge has another name: "side hip" is "side hem"."""
    if corner.endswith(edge):
        return corner.removesuffix(edge) + named
    return corner if edge == named else f"{corner} {named}"


def run_on(piece: Piece, below: Below) -> RunOn:
    """Return a piece run on below its lower edge.

    The seams to either side go on in the direction told, rounded where that is another than
    theirs; a fold or a centre goes on as it is. Each is run on by the same length, so that the
    new edge is square to both.

    Raises:
        PatternError: a dart is left without room.
    """
    edge = below.edge
    before, after = piece.before(edge), piece.after(edge)
    up = up_of(piece)
    one, at_one = _longer(piece, before, True, below, up)
    two, at_two = _longer(piece, after, False, below, up)
    start, end = one.parts[-1].end, two.parts[0].start
    names = [(c, corner_named(c, edge.name, below.named)) for c in (edge.start, edge.end)]
    lower = Edge(
        below.named, edge.side, names[0][1], names[1][1],
        (_square_to(start, one.parts[-1].end_heading, end, two.parts[0].start_heading),),
    )  # fmt: skip
    one = replace(one, end=names[0][1])
    two = replace(two, start=names[1][1])
    fresh = {before.key: one, after.key: two, edge.key: lower}
    darts = tuple(
        _closed_below(piece, d, below) if d.mouth == edge.name and d.side is edge.side else d
        for d in piece.darts
    )
    levels = [_inside(v, edge, below.named) for v in piece.levels]
    if all(v.name != below.named or v.side is not edge.side for v in levels):
        levels.append(Level(below.named, edge.side, (), (below.named,)))
    notches = [
        _kept(n, {before.key: (before, one, 0.0), after.key: (after, two, at_two)}, dict(names))
        for n in piece.notches
        if (n.edge, n.side) != edge.key
    ]
    new = replace(
        piece,
        edges=tuple(fresh.get(e.key, e) for e in piece.edges),
        darts=darts,
        levels=tuple(levels),
        notches=tuple(notches),
    )
    for dart in darts:
        if dart.double_pointed and not piece.dart(*dart.key).double_pointed:
            new = replace(new, levels=broken_by(new.levels, dart))

    def stretch(of: Edge, a: float, b: float) -> Stretch:
        return Stretch(piece.name, of.name, of.side, a, b)

    more_two = two.length - after.length
    fates = (
        Fate(Stretch.whole(piece, before), stretch(one, 0.0, at_one), still=one is before),
        Fate(None, stretch(one, at_one, one.length)),
        Fate(Stretch.whole(piece, edge), None),
        Fate(None, stretch(lower, 0.0, lower.length)),
        Fate(None, stretch(two, 0.0, more_two)),
        Fate(Stretch.whole(piece, after), stretch(two, more_two, two.length)),
    )
    return RunOn(new, fates, tuple(names), ((before.key, at_one), (after.key, more_two)))


def _longer(piece: Piece, edge: Edge, at_end: bool, below: Below, up: Point) -> tuple[Edge, float]:
    """An edge run on down, and how far from its start its old lower end lies."""
    parts = list(edge.drawn)
    line = parts[-1] if at_end else parts[0].reversed
    heading = line.end_heading
    if not (edge.name == piece.fold or edge.name.startswith("centre ")):
        # Away from the piece: it lies to the left of its outline.
        out = -left_of(heading) if at_end else left_of(heading)
        lean = below.lean_rad if cross(-up, out) > 0 else -below.lean_rad
        heading = -up * cmath.exp(1j * lean)
    whole = line.joined(Curve.line(line.end, line.end + heading * below.by_mm))
    at = line.length
    bend = abs(turn_between(line.end_heading, heading))
    if bend > NO_BEND_RAD:
        reach = min(ROUNDED_MM, 0.45 * at, 0.45 * below.by_mm)
        whole = rounded_corner(whole, at, reach)
        at = whole.nearest(line.end)[0]
    elif len(line.runs[-1]) == 1 and bend < 1e-9:
        # A straight line run on straight is one straight line.
        head = line.runs[:-1]
        whole = Curve(line.start, (*head, (line.end + heading * below.by_mm,)))
    if at_end:
        parts[-1] = whole
        new = replace(edge, parts=tuple(parts), bases=(), displacements=())
        return new, edge.length - line.length + at
    parts[0] = whole.reversed
    new = replace(edge, parts=tuple(parts), bases=(), displacements=())
    return new, new.length - (edge.length - line.length + at)


def _square_to(start: Point, down: Point, end: Point, up: Point) -> Curve:
    """The new lower edge, square to the seams at both its ends."""
    leave, arrive = left_of(down), -left_of(up)
    chord = end - start
    straight = max(abs(turn_between(leave, chord)), abs(turn_between(chord, arrive)))
    if straight < 1e-6:
        return Curve.line(start, end)
    reach = abs(chord) / 3
    return Curve.cubic(start, start + unit(leave) * reach, end - unit(arrive) * reach, end)


def _closed_below(piece: Piece, dart: Dart, below: Below) -> Dart:
    """A dart that opened from the old edge, run on to a second point below it."""
    long = min(below.dart_mm, below.by_mm - ABOVE_HEM_MM)
    if long < dart.intake_mm:
        raise PatternError(
            f"the {dart.name} of the {piece.label} is {dart.intake_mm:.0f} mm wide and needs at "
            f"least as much below the {below.edge.name} to come to a point; run the piece on by "
            f"{math.ceil(dart.intake_mm + ABOVE_HEM_MM)} mm or more"
        )
    one, two = dart.mouth_start, dart.mouth_end
    point = (one + two) / 2 + dart.axis * long
    legs = (Curve.line(dart.pivot, one, point), Curve.line(dart.pivot, two, point))
    return replace(dart, legs=legs, mouth=None)


def _inside(level: Level, edge: Edge, named: str) -> Level:
    """A material line that was the old edge, as a line inside the piece."""
    if edge.name not in level.edges or level.side is not edge.side or edge.name == named:
        return level
    strokes: list[Stroke] = [tuple(part.flattened(_FLAT_MM)) for part in edge.drawn]
    left = tuple(name for name in level.edges if name != edge.name)
    return replace(level, strokes=(*level.strokes, *strokes), edges=left)


def _kept(
    notch: Notch, edges: dict[tuple[str, BodySide], tuple[Edge, Edge, float]],
    names: dict[str, str],
) -> Notch:  # fmt: skip
    """A notch on its cloth on an edge that was run on."""
    found = edges.get((notch.edge, notch.side))
    if found is None:
        return notch
    old, new, at_start = found
    at = notch_on_edge(old, notch) + (new.length - old.length if at_start else 0.0)
    corner = names.get(notch.corner, notch.corner)
    return replace(notch, corner=corner, distance_mm=at if corner == new.start else new.length - at)


__all__ = ["Below", "RunOn", "corner_named", "run_on"]
