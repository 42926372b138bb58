"""Seam allowance: the cutting line, made last from the finished sewing line.

Each edge may have its own allowance. The cutting line is the outer edge of the piece and a
strip beside each stretch of its sewing line, united; it is made from points that stand at
most :data:`FLAT_MM` off the sewing line, and never feeds back into it.
"""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.errors import TrackerError
from tracker.geometry.point import Point, cross, dot, unit
from tracker.geometry.transform import Motion
from tracker.output.mouth import mouth_shape
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import MM_PER_INCH, Unit

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

#: Points on the sewing line between which the cutting line is made.
FLAT_MM = 0.01
#: 15 mm; or 5/8 in, the usual allowance of home-sewing patterns.
SEAM_MM = {Unit.CM: 15.0, Unit.INCH: 5 / 8 * MM_PER_INCH}
#: A hem; common practice, no source.
HEM_MM = {Unit.CM: 40.0, Unit.INCH: 1.5 * MM_PER_INCH}
#: A test garment has room to let out in every seam.
TEST_GARMENT_MM = {Unit.CM: 25.0, Unit.INCH: MM_PER_INCH}
MOST_MM = 150.0
#: Edges of facings that are sewn to nothing: neatened where they end.
NEATENED = ("inner edge", "facing edge")
#: A nick in the cutting line narrower than this cannot be cut, millimetres.
NICK_MM = 10.0
#: A corner's point reaches at most this many allowances out: corners sharper than 60° are
#: blunted (a / sin(φ/2) is 2 a at 60°).
MITRE = 2.0


class NotAnAllowance(TrackerError):
    """A seam allowance nobody can cut."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class OwnAllowance:
    """An edge with an allowance of its own.

    Attributes:
        edge: the edge's name, "waist".
        mm: the allowance.
        piece: only on this piece, by name or label; on every piece when not given.
    """

    edge: str
    mm: float
    piece: str | None = None


@dataclass(frozen=True, slots=True)
class Allowances:
    """What is added outside the sewing line.

    Attributes:
        seam_mm: on every seam.
        hem_mm: on edges called a hem.
        own: edges with their own.

    Raises:
        NotAnAllowance: less than nothing or more than 150 mm.
    """

    seam_mm: float = SEAM_MM[Unit.CM]
    hem_mm: float = HEM_MM[Unit.CM]
    own: tuple[OwnAllowance, ...] = ()

    def __post_init__(self) -> None:
        named = (
            ("seams", self.seam_mm),
            ("hems", self.hem_mm),
            *((o.edge, o.mm) for o in self.own),
        )
        for name, mm in named:
            if not 0 <= mm <= MOST_MM:
                raise NotAnAllowance(
                    f"an allowance of {mm:g} mm on the {name} cannot be cut; "
                    f"give 0 to {MOST_MM:g} mm"
                )

    @classmethod
    def by_preference(cls, unit: Unit, *, test_garment: bool = False) -> "Allowances":
        """Return 15 mm or 5/8 in with its hem; a test garment's are 25 mm or 1 in."""
        seam = TEST_GARMENT_MM[unit] if test_garment else SEAM_MM[unit]
        return cls(seam_mm=seam, hem_mm=HEM_MM[unit])

    def with_own(self, edge: str, mm: float, piece: str | None = None) -> "Allowances":
        """Return the same with one edge's own allowance put first."""
        return replace(self, own=(OwnAllowance(edge, mm, piece), *self.own))

    def as_kept(self, pattern: Pattern) -> "Allowances":
        """Return the same with what the pattern keeps of its own edges, after what is given."""
        kept = tuple(
            OwnAllowance(edge, mm, p.label) for p in pattern.pieces for edge, mm in p.allowances
        )
        return replace(self, own=(*self.own, *kept))

    def neatened(self, pattern: Pattern) -> "Allowances":
        """Return the same with none on a facing's inner edge, but where a lining is sewn to it.

        What she gives such an edge herself goes before it: 6 mm (1/4 in) to turn it under.
        """
        lined = {
            (run.piece, run.edge)
            for p in pattern.pieces
            if p.layer == "lining" and p.traced is not None
            for sewn in p.traced.sewn
            for run in sewn.to
        }
        bare = tuple(
            OwnAllowance(e.name, 0.0, p.name)
            for p in pattern.pieces
            for e in p.edges
            if e.name in NEATENED and (p.name, e.name) not in lined
        )
        return replace(self, own=(*self.own, *dict.fromkeys(bare)))

    def of(self, piece: Piece, edge: Edge) -> float:
        """Return an edge's allowance in millimetres; none on a fold."""
        if edge.name == piece.fold:
            return 0.0
        for own in self.own:
            if own.edge == edge.name and own.piece in (None, piece.name, piece.label):
                return own.mm
        return self.hem_mm if is_hem(edge) else self.seam_mm


def is_hem(edge: Edge) -> bool:
    """Tell whether an edge is turned up rather than sewn to another."""
    return edge.name == "hem" or edge.name.endswith(" hem")


@dataclass(frozen=True, slots=True)
class Side:
    """One straight bit of the outline with what is added outside it."""

    start: Point
    end: Point
    allowance_mm: float
    kind: str = "seam"

    @property
    def along(self) -> Point:
        """Its direction, the piece on the left."""
        return unit(self.end - self.start)

    @property
    def out(self) -> Point:
        """The direction square to it, out of the piece."""
        return self.along * -1j

    @property
    def length(self) -> float:
        """Its length."""
        return abs(self.end - self.start)


def cutting_line(piece: Piece, allowances: Allowances) -> tuple[Point, ...]:
    """Return the cutting line of a piece as a closed ring of points, counter-clockwise.

    No allowance on a fold; dart mouths shaped for the side they are pressed to; a hem's ends
    mirrored about the hem line, so that turned up they lie on the seams beside them.
    """
    return outline_with(list(_sides(piece, allowances)))


def _sides(piece: Piece, allowances: Allowances) -> Iterator[Side]:
    for edge in piece.edges:
        mm = allowances.of(piece, edge)
        kind = "fold" if edge.name == piece.fold else "hem" if is_hem(edge) else "seam"
        for index, part in enumerate(edge.drawn):
            yield from _straight(part.flattened(FLAT_MM), mm, kind)
            if index < len(edge.mouths):
                mouth = mouth_shape(piece, piece.dart(edge.mouths[index], edge.side))
                yield from _straight(mouth, mm, "mouth" if kind == "seam" else kind)


def _straight(points: list[Point], mm: float, kind: str) -> Iterator[Side]:
    for a, b in itertools.pairwise(points):
        if abs(b - a) > 1e-6:
            yield Side(a, b, mm, kind)


def outline_with(sides: list[Side]) -> tuple[Point, ...]:
    """Return the outer edge of a ring of straight sides, each with its own allowance."""
    import shapely
    from shapely.geometry import Polygon

    body = Polygon([(s.start.real, s.start.imag) for s in sides])
    shapes = [body if body.is_valid else body.buffer(0)]
    count = len(sides)
    ends = [_corner(sides[i], sides[(i + 1) % count]) for i in range(count)]
    for i, side in enumerate(sides):
        if side.allowance_mm > 0 and side.kind != "hem":
            shapes.append(_shape([side.start, side.end, ends[i][0], ends[i - 1][-1]]))
        if len(ends[i]) > 1:
            shapes.append(_shape([side.end, *ends[i]]))
    shapes.extend(_hems(sides))
    whole: BaseGeometry = shapely.union_all([s for s in shapes if s.area > 0])
    for side in _runs(sides, "fold"):
        whole = whole.intersection(_half_plane(side.start, side.along))
    whole = _without_nicks(whole, sides)
    # The strips leave slivers between them: the outer ring of the largest part is the line.
    parts = [g for g in shapely.get_parts(whole) if isinstance(g, Polygon)]
    outer = max(parts, key=lambda g: g.area).exterior
    ring = shapely.simplify(Polygon(outer), FLAT_MM / 10).exterior
    points = tuple(complex(x, y) for x, y in ring.coords[:-1])
    return points if ring.is_ccw else points[::-1]


def _without_nicks(whole: "BaseGeometry", sides: list[Side]) -> "BaseGeometry":
    """Fill what is too narrow to cut beside the peak of a dart's mouth; cloth is only added."""
    import shapely

    mouths = [s for s in sides if s.kind == "mouth" and s.allowance_mm > 0]
    if not mouths:
        return whole

    def wider(shape: "BaseGeometry", by_mm: float) -> "BaseGeometry":
        return shape.buffer(by_mm, join_style="mitre", mitre_limit=20.0)

    closed = wider(wider(whole, NICK_MM / 2), -NICK_MM / 2)
    near = shapely.union_all(
        [
            shapely.LineString([(p.real, p.imag) for p in (s.start, s.end)]).buffer(
                (MITRE + 0.5) * s.allowance_mm
            )
            for s in mouths
        ]
    )
    nicks = [g for g in shapely.get_parts(closed.difference(whole)) if g.area > 0.01]
    inside = [wider(g, 0.01) for g in nicks if near.contains(g)]
    return shapely.union_all([whole, *inside]) if inside else whole


def _corner(one: Side, other: Side) -> tuple[Point, ...]:
    """Return where the strip beside one side ends and that beside the next begins.

    One point where they meet in a corner; more where the corner is blunted or stepped.
    """
    at, a, b = one.end, one.allowance_mm, other.allowance_mm
    square = at + one.out * a, at + other.out * b
    if "hem" in (one.kind, other.kind) and one.kind != other.kind:
        return _hem_corner(one, other)
    turn = math.atan2(cross(one.along, other.along), dot(one.along, other.along))
    if turn <= 0 or a + b == 0:
        return square  # inward corner: the strips overlap and the union is the corner
    if turn < 1e-6:
        return square
    # The point at distance a from one line and b from the other.
    beyond = (b - a * math.cos(turn)) / math.sin(turn)
    before = (a - b * math.cos(turn)) / math.sin(turn)
    most = MITRE * max(a, b)
    if min(beyond, before) < -1e-9 and "fold" not in (one.kind, other.kind):
        return square  # the corner point would eat into a side's own allowance
    corner = at + one.out * a + one.along * beyond
    if abs(corner - at) <= most and beyond >= -one.length and before >= -other.length:
        return (corner,)
    if "fold" in (one.kind, other.kind) or turn > math.pi - 1e-6:
        return square
    half = turn / 2
    cut_1 = min(beyond, max(0.0, (most - a * math.cos(half)) / math.sin(half)))
    cut_2 = min(before, max(0.0, (most - b * math.cos(half)) / math.sin(half)))
    return square[0] + one.along * cut_1, square[1] - other.along * cut_2


def _hem_corner(one: Side, other: Side) -> tuple[Point, ...]:
    """End the seam's strip on the hem line run on; the hem's own shape is added apart."""
    seam, hem = (other, one) if one.kind == "hem" else (one, other)
    foot = _meeting(one.end + seam.out * seam.allowance_mm, seam.along, one.end, hem.along)
    if foot is None or abs(foot - one.end) > 3 * seam.allowance_mm:
        foot = one.end + seam.out * seam.allowance_mm
    return (foot,)


def _hems(sides: list[Side]) -> Iterator["Polygon"]:
    """The turned-up shape of each hem: its ends are the seams beside it, mirrored."""
    import shapely
    from shapely import Polygon

    count = len(sides)
    for i, first in enumerate(sides):
        if first.kind != "hem" or sides[i - 1].kind == "hem":
            continue
        run = [first]
        while sides[(i + len(run)) % count].kind == "hem" and len(run) < count:
            run.append(sides[(i + len(run)) % count])
        before, after = sides[i - 1], sides[(i + len(run)) % count]
        mm, last = first.allowance_mm, run[-1]
        on = 2 * mm + 2 * max(before.allowance_mm, after.allowance_mm)
        run = [
            Side(first.start - first.along * on, first.start, mm),
            *run,
            Side(last.end, last.end + last.along * on, mm),
        ]
        strips = []
        for a, b in itertools.pairwise(run):
            strips.append(_strip(a))
            corner = _corner(Side(a.start, a.end, mm), Side(b.start, b.end, mm))
            strips.append(_shape([a.end, a.end + a.out * mm, *corner, a.end + b.out * mm]))
        strips.append(_strip(run[-1]))
        hem = shapely.union_all([s for s in strips if s.area > 0])
        for seam, line, at in ((before, first, first.start), (after, last, last.end)):
            mirror = Motion.mirror(at, at + line.along)
            start = seam.start + seam.out * seam.allowance_mm
            end = seam.end + seam.out * seam.allowance_mm
            far, near = mirror.of(start), mirror.of(end)
            hem = hem.intersection(_half_plane(near, unit(far - near)))
        yield from (g for g in shapely.get_parts(hem) if isinstance(g, Polygon))


def _strip(side: Side) -> "Polygon":
    out = side.out * side.allowance_mm
    return _shape([side.start, side.end, side.end + out, side.start + out])


def _runs(sides: list[Side], kind: str) -> Iterator[Side]:
    """Each unbroken run of sides of a kind, as the straight line from its start to its end."""
    count = len(sides)
    for i, side in enumerate(sides):
        if side.kind == kind and sides[i - 1].kind != kind:
            k = i
            while sides[(k + 1) % count].kind == kind and k - i < count:
                k += 1
            yield Side(side.start, sides[k % count].end, 0.0, kind)


def _half_plane(through: Point, along: Point) -> "Polygon":
    """Everything to the left of a line, as far as any pattern reaches."""
    far = 1e5
    a, b = through - far * along, through + far * along
    return _shape([a, b, b + 1j * far * along, a + 1j * far * along])


def _shape(points: list[Point]) -> "Polygon":
    import shapely
    from shapely.geometry import Polygon

    shape = Polygon([(p.real, p.imag) for p in points])
    if shape.is_valid:
        return shape
    hull = shapely.convex_hull(shape)
    return hull if isinstance(hull, Polygon) else Polygon()


def _meeting(at: Point, along: Point, through: Point, heading: Point) -> Point | None:
    slope = cross(along, heading)
    if abs(slope) < 1e-9:
        return None
    return at + along * (cross(through - at, heading) / slope)
