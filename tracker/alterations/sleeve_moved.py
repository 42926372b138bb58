"""A set-in sleeve drawn again about a changed cap: its underarm seams, notches and lines.

The underarm seams are carried across, most at the underarm point and to nothing at a stated
place; what lies below stays. Heights do not change, so front and back stay as they were to one
another.
"""

from dataclasses import dataclass, replace

from tracker.alterations.cap import HIGHEST, LOWEST, Cap, CapMove
from tracker.alterations.set_in import SetIn
from tracker.drafting.sleeve_pattern import ELBOW_LINE
from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, dot
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch
from tracker.pattern.walk import notch_on_edge

#: A line's end this near an edge ends on it.
_ON_MM = 0.05
#: The underarm seam is carried over this much at least.
LEAST_MM = 40.0
#: The grain line stays this far below the top of the cap.
_GRAIN_MM = 15.0


@dataclass(frozen=True)
class Moved:
    """A sleeve drawn again.

    Attributes:
        piece: the sleeve.
        fates: what became of its edges.
    """

    piece: Piece
    fates: tuple[Fate, ...]


def to_nothing(sleeve: SetIn, depth_mm: float | None) -> tuple[float, float]:
    """Return how far down both underarm edges the change ends: cap's start's, its end's.

    Args:
        sleeve: the sleeve.
        depth_mm: how far below the underarm points, square to the line between them; none for
            the elbow line, or half-way without one.

    Raises:
        PatternError: it is off the seam, or a dart opens before it.
    """
    cap = Cap(sleeve.cap.drawn[0])
    out = []
    for edge, down in ((sleeve.begins, False), (sleeve.ends, True)):
        line = edge.drawn[0] if down else edge.drawn[-1].reversed
        at = _elbow(sleeve.piece, edge, down) if depth_mm is None else None
        if at is None:
            far = edge.drawn[-1].end if down else edge.drawn[0].start
            deep = depth_mm or dot(line.start - far, cap.up) / 2
            level = line.start - cap.up * deep
            met = with_line(line, level, cap.across)
            if not met and len(edge.parts) > 1:
                dart = edge.mouths[0 if down else -1]
                most = dot(line.start - line.end, cap.up)
                raise PatternError(
                    f"the {dart} of the {sleeve.piece.label} opens {most:.0f} mm below the "
                    f"underarm point; the change has to end above it: {most - 1:.0f} mm is the most"
                )
            if not met:
                most = dot(line.start - line.end, cap.up)
                raise PatternError(
                    f"{deep:.0f} mm below the underarm point is off the underarm seam, which "
                    f"reaches {most:.0f} mm down; to change the {_far_edge(sleeve, edge, down)} "
                    "too, taper or widen it"
                )
            at = min(c.first_mm for c in met)
        if at < LEAST_MM:
            raise PatternError(
                f"the underarm seam follows over {LEAST_MM:.0f} mm at least; the change ends "
                f"{at:.0f} mm below the underarm point"
            )
        out.append(min(at, line.length))
    return out[0], out[1]


def _far_edge(sleeve: SetIn, edge: Edge, down: bool) -> str:
    return (sleeve.piece.after(edge) if down else sleeve.piece.before(edge)).name


def _elbow(piece: Piece, edge: Edge, down: bool) -> float | None:
    """How far down an underarm edge the elbow line meets it."""
    for level in piece.levels:
        if level.name != ELBOW_LINE:
            continue
        for stroke in level.strokes:
            for end in (stroke[0], stroke[-1]):
                along, gap = edge.nearest(end)
                if gap < _ON_MM:
                    return along if down else edge.length - along
    return None


def sleeve_moved(
    pattern: Pattern, sleeve: SetIn, move: CapMove, nothing_mm: tuple[float, float]
) -> Moved:
    """Draw a sleeve again.

    Args:
        pattern: the pattern it is in.
        sleeve: the sleeve.
        move: how its cap changes.
        nothing_mm: from ``to_nothing``.

    Raises:
        PatternError: no cap is left, or one no armhole takes.
    """
    old = sleeve.piece
    cap = Cap(sleeve.cap.drawn[0])
    new_cap = cap.moved(move)
    whole = new_cap.line.length
    if not LOWEST * whole <= new_cap.height_mm <= HIGHEST * whole:
        low = new_cap.height_mm < LOWEST * whole
        raise PatternError(
            f"the cap of the {old.label} would be {new_cap.height_mm:.0f} mm high on a line of "
            f"{whole:.0f} mm: {'hardly any cap would be left' if low else 'higher than it can be'}"
        )
    fates: list[Fate] = []
    piece = old.with_edge(_drawn(sleeve.cap, (new_cap.line,)))
    half = move.wider_mm / 2
    for edge, down, way, reach in (
        (sleeve.begins, False, cap.across, nothing_mm[0]),
        (sleeve.ends, True, -cap.across, nothing_mm[1]),
    ):
        if not half:
            continue
        parts = list(edge.drawn)
        line = parts[0] if down else parts[-1].reversed
        done = _carried(line, reach, way * half, cap.up)
        parts[0 if down else -1] = done if down else done.reversed
        fresh = _drawn(edge, tuple(parts))
        piece = piece.with_edge(fresh)
        fates += _carried_fates(piece, edge, fresh, down, reach)
    piece, more = _notches(pattern, sleeve, piece)
    fates += more
    keys = {sleeve.begins.key, sleeve.ends.key, sleeve.cap.key}
    ends = {sleeve.cap.drawn[0].start: new_cap.line.start, sleeve.cap.drawn[-1].end:
            new_cap.line.end}  # fmt: skip
    levels = tuple(_level(v, old, piece, keys, ends) for v in piece.levels)
    return Moved(replace(piece, levels=levels, grain=_grain(piece, new_cap)), tuple(fates))


def _drawn(edge: Edge, parts: tuple[Curve, ...]) -> Edge:
    return replace(edge, parts=parts, bases=(), displacements=())


def _carried(line: Curve, reach: float, shift: Point, up: Point) -> Curve:
    """Carry a line's start by a shift, the rest by less and less, to nothing at a distance."""
    head, tail = line.split(reach) if reach < line.length - SAME_MM else (line, None)
    top = line.start
    depth = dot(top - head.end, up)
    if depth < LEAST_MM / 2:
        raise PatternError("the underarm seam runs across, so nothing can be carried down it")

    def share(p: Point) -> tuple[float, float]:
        """How much of the shift a point gets, and how that grows on the way down."""
        v = min(max(dot(top - p, up) / depth, 0.0), 1.0)
        return 1.0 - v * v * (3.0 - 2.0 * v), -6.0 * v * (1.0 - v) / depth

    out: list[Segment] = []
    for a, b, c, d in map(bezier.as_cubic, head.segments):
        (one, grows), (two, there) = share(a), share(d)
        first, last = a + shift * one, d + shift * two
        out.append((
            first, first + (b - a) - shift * (grows * dot(b - a, up)),
            last - (d - c) + shift * (there * dot(d - c, up)), last,
        ))  # fmt: skip
    # What ended to nothing ends where it did.
    done = Curve.of(out).ended_at(head.end)
    return done if tail is None else done.joined(tail)


def _carried_fates(piece: Piece, old: Edge, new: Edge, down: bool, reach: float) -> list[Fate]:
    def stretch(edge: Edge, a: float, b: float) -> Stretch:
        if not down:
            a, b = edge.length - b, edge.length - a
        return Stretch(piece.name, edge.name, edge.side, a, b)

    rest = old.length - reach
    fates = [Fate(stretch(old, 0.0, reach), stretch(new, 0.0, new.length - rest))]
    if rest > SAME_MM:
        at = new.length - rest
        fates.append(
            Fate(stretch(old, reach, old.length), stretch(new, at, new.length), still=True)
        )
    return fates


def _notches(pattern: Pattern, sleeve: SetIn, piece: Piece) -> tuple[Piece, list[Fate]]:
    """Keep the lowest cap notches where they are from the underarm, the rest between them."""
    old, new = sleeve.cap, piece.edge(*sleeve.cap.key)
    at = [d for _, d in sleeve.notches(pattern)]
    low, high = (at[0], at[-1]) if len(at) > 1 else (0.0, old.length)
    far = new.length - (old.length - high)
    if far <= low + 10.0:
        raise PatternError(f"nothing would be left of the {old.name} between its notches")
    stretches = [((0.0, low), (0.0, low)), ((low, high), (low, far)),
                 ((high, old.length), (far, new.length))]  # fmt: skip
    fates = [
        Fate(
            Stretch(piece.name, old.name, old.side, *before),
            Stretch(piece.name, new.name, new.side, *after),
        )
        for before, after in stretches
        if before[1] - before[0] > SAME_MM
    ]
    if abs(new.length - old.length) < 1e-5:
        return piece, fates
    for notch in piece.notches:
        if (notch.edge, notch.side) == old.key:
            there = notch_on_edge(old, notch)
            (a, b), (c, d) = next(s for s in stretches if there <= s[0][1] + SAME_MM)
            there = c + (d - c) * ((there - a) / (b - a) if b > a else 0.0)
            piece = piece.with_notch(_at(notch, new, there))
    return piece, fates


def _at(notch: Notch, edge: Edge, there: float) -> Notch:
    return replace(notch, distance_mm=there if notch.corner == edge.start else edge.length - there)


def _level(
    level: Level, old: Piece, new: Piece, keys: set[tuple[str, BodySide]], ends: dict[Point, Point]
) -> Level:
    """A line that ends at an underarm point goes with it; others are run to the seam again."""

    def corner(p: Point) -> Point | None:
        return next((to for at, to in ends.items() if abs(p - at) < _ON_MM), None)

    strokes: list[Stroke] = []
    for stroke in level.strokes:
        found = corner(stroke[0]), corner(stroke[-1])
        if found == (None, None):
            again = level_again(Level(level.name, level.side, (stroke,)), old, new, keys)
            strokes += again.strokes
        else:
            first = stroke[0] if found[0] is None else found[0]
            last = stroke[-1] if found[1] is None else found[1]
            strokes.append((first, *stroke[1:-1], last))
    return replace(level, strokes=tuple(strokes))


def _grain(piece: Piece, cap: Cap) -> tuple[Point, Point] | None:
    """The grain line, cut back where it would stand out of a lowered cap."""
    if piece.grain is None:
        return None
    foot, head = piece.grain
    over = dot(head - cap.line.end, cap.up) - (cap.height_mm - _GRAIN_MM)
    rise = dot(head - foot, cap.up)
    if over <= 0 or rise <= over + 20.0:
        return piece.grain
    return foot, head - (head - foot) * (over / rise)


__all__ = ["LEAST_MM", "Moved", "sleeve_moved", "to_nothing"]
