"""Lines drawn through a traced piece's points, and its darts made true."""

import itertools
import math
from dataclasses import dataclass, replace

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.geometry.through import Through, off_its_neighbours, through
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.legs import leg_of_length
from tracker.tracing.faults import Faults
from tracker.tracing.outline import SAME_CORNER_MM, Part, Path
from tracker.tracing.squared import squared
from tracker.tracing.tracing import Stop, TracedDart, TracedEdge, TracedPiece

#: A dart's legs read differently by no more are made equal; 1/8 in (Threads, 10 patternwork
#: skills, 2020).
LEGS_MM = 3.2
#: A point that stands off the line of its neighbours by more was hardly meant; common practice,
#: no source.
DOUBTFUL_MM = 4.0
#: A line that turns by more between two readings, degrees, wants others between them where there
#: are fewer than one cubic has ways to bend.
SHARP_DEG, FEW = 20.0, 4
#: A fold that bows by more is no fold.
FOLD_MM = 1.0
#: Two readings of one dart point, or of one and the bust point, are no further apart.
ONE_POINT_MM = 1.0
#: A leg is already as long as the other.
_EQUAL_MM = 0.002


@dataclass(frozen=True, slots=True)
class EdgeFit:
    """How an edge came out.

    Attributes:
        piece: the piece's label.
        edge: the edge.
        points: how many points were read; 0 where the line itself was drawn, or none was.
        length_mm: its length as sewn; none where it was neither drawn nor taken.
        furthest_mm: how far the line stands from the furthest of its points.
        tape_mm: its length by the tape, where it was taken too.
    """

    piece: str
    edge: str
    points: int
    length_mm: float | None
    furthest_mm: float
    tape_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Drawn:
    """A piece's edges and darts, and how they came out."""

    edges: tuple[Edge, ...]
    darts: tuple[Dart, ...]
    fits: tuple[EdgeFit, ...]


def drawn_from(
    piece: TracedPiece, ring: tuple[Path, ...], faults: Faults, notes: list[str]
) -> Drawn | None:
    """Draw a piece's edges and darts, or tell why they cannot be."""
    ring, darts = _with_true_darts(piece, ring, faults, notes)
    edges, fits, most = list[Edge](), [], list[float]()
    for path in ring:
        parts, gaps = [], [0.0]
        fold = path.edge.name == piece.fold
        for part in path.parts:
            line, off = _line(part, fold)
            parts.append(line)
            gaps.extend(off)
        edge = Edge(path.edge.name, path.edge.side, path.start, path.end, tuple(parts), path.mouths)
        where = f"{piece.label}, {path.edge.name}"
        if fold and max(gaps) > FOLD_MM:
            faults.tell(
                path.edge.line,
                f"the {piece.fold} of the {piece.label} lies on the fold but bows by "
                f"{max(gaps):.1f} mm; a fold is straight: look at its points again",
            )
        _doubts(where, path, notes)
        edges.append(edge)
        most.append(max(gaps))
    edges = squared(piece, ring, edges, faults, notes)
    for path, edge, gap in zip(ring, edges, most, strict=True):
        fits.append(
            EdgeFit(
                piece.label, edge.name, len(path.edge.stops), edge.length, gap, path.edge.tape_mm
            )
        )
    return None if darts is None else Drawn(tuple(edges), darts, tuple(fits))


def _line(part: Part, fold: bool) -> tuple[Curve, list[float]]:
    """The line of a part and how far each of its points stands off it."""
    if part.drawn is not None:
        return part.drawn, []
    if fold:
        straight = Curve.line(part.start, part.end)
        return straight, [straight.nearest_spot(s.point)[2] for s in part.stops]
    fits = [through([s.point for s in run]) for run in _runs(part.stops)]
    line = fits[0].line
    for fit in fits[1:]:
        line = line.joined(fit.line)
    return line, [gap for fit in fits for gap in fit.gaps_mm]


def _runs(stops: tuple[Stop, ...]) -> list[tuple[Stop, ...]]:
    """Part points at the corners between."""
    cuts = [0, *(k for k in range(1, len(stops) - 1) if stops[k].kind == "corner"), len(stops) - 1]
    return [stops[a : b + 1] for a, b in itertools.pairwise(cuts)]


def _doubts(where: str, path: Path, notes: list[str]) -> None:
    """Tell of points that stand out, and of bends with too few of them."""
    for run in (run for part in path.parts if part.stops for run in _runs(part.stops)):
        points = [s.point for s in run]
        away = off_its_neighbours(points)
        if max(away) > DOUBTFUL_MM:
            # Its neighbours stand off because of it: without it the others are smoothest.
            doubted = min(
                range(1, len(run) - 1),
                key=lambda k: max(off_its_neighbours(points[:k] + points[k + 1 :])),
            )
            rest = through(points[:doubted] + points[doubted + 1 :]).line
            notes.append(
                f"{where}: point {run[doubted].said} (line {run[doubted].line}) stands "
                f"{rest.nearest_spot(points[doubted])[2]:.0f} mm off the line of its neighbours; "
                "look at it again"
            )
        else:
            turns = [
                abs(turn_between(points[k] - points[k - 1], points[k + 1] - points[k]))
                for k in range(1, len(points) - 1)
            ]
            if 0 < len(turns) < FEW and math.degrees(max(turns)) > SHARP_DEG:
                stop = run[turns.index(max(turns)) + 1]
                notes.append(
                    f"{where}: the line bends by {math.degrees(max(turns)):.0f}° at point "
                    f"{stop.said}; read it every 10 mm there, or say corner, for it to come out "
                    "true"
                )


# -- darts ---------------------------------------------------------------------------------


def _with_true_darts(
    piece: TracedPiece, ring: tuple[Path, ...], faults: Faults, notes: list[str]
) -> tuple[tuple[Path, ...], tuple[Dart, ...] | None]:
    """Make each dart's legs equal; the ends of its mouth slide along them."""
    told = len(faults.found)
    out = list(ring)
    known = {(d.name, d.side): d for d in _at_one_point(piece)}
    darts: dict[tuple[str, object], Dart] = {}
    for at, path in enumerate(ring):
        for index, name in enumerate(path.mouths):
            key = name, path.edge.side
            traced = known.pop(key, None)
            if traced is None:
                faults.tell(
                    path.edge.line,
                    f"the {name} of the {piece.label} has its mouth in the {path.edge.name}, but "
                    "where its two lines meet is not told; add it to the table of darts",
                )
                continue
            one, two = out[at].parts[index], out[at].parts[index + 1]
            dart = _dart(piece, path.edge, traced, (one.end, two.start), faults, notes)
            if dart is not None:
                darts[key] = dart
                parts = list(out[at].parts)
                parts[index] = one.moved_ends(None, dart.mouth_start)
                parts[index + 1] = two.moved_ends(dart.mouth_end, None)
                out[at] = replace(out[at], parts=tuple(parts))
    for key, traced in known.items():
        dart = _double_pointed(piece, traced, faults)
        if dart is not None:
            darts[key] = dart
    in_order = tuple(darts[d.name, d.side] for d in piece.darts if (d.name, d.side) in darts)
    return tuple(out), None if len(faults.found) > told else in_order


def _at_one_point(piece: TracedPiece) -> list[TracedDart]:
    """Darts read to nearly one point, or to a mark, meet there: two readings of one place."""
    spots = [mark.point for mark in piece.marks]
    out = []
    for dart in piece.darts:
        if len(dart.points) == 1:
            near = min(spots, key=lambda p: abs(p - dart.points[0]), default=None)
            if near is not None and abs(near - dart.points[0]) <= ONE_POINT_MM:
                dart = replace(dart, points=(near,))
            spots.append(dart.points[0])
        out.append(dart)
    return out


def _dart(
    piece: TracedPiece, edge: TracedEdge, traced: TracedDart, mouth: tuple[Point, Point],
    faults: Faults, notes: list[str],
) -> Dart | None:  # fmt: skip
    """A dart from an edge, its legs of one length."""
    where = f"the {traced.name} of the {piece.label}"
    if traced.drawn is None and len(traced.points) != 1:
        faults.tell(traced.line, f"{where} opens from an edge, so its lines meet in one point only")
        return None
    one, two = _legs(traced, mouth)
    lengths = one.length, two.length
    if min(lengths) < 1.0:
        faults.tell(traced.line, f"{where} ends in its own mouth; look at its point again")
        return None
    off = abs(lengths[0] - lengths[1])
    if off > LEGS_MM:
        faults.tell(
            traced.line,
            f"the lines of {where} are {lengths[0]:.1f} and {lengths[1]:.1f} mm long and are sewn "
            "to each other; fold it, true its mouth, and read it again",
        )
        return None
    if traced.stand_back_mm >= min(lengths):
        faults.tell(
            traced.line,
            f"{where} is {min(lengths):.0f} mm long and cannot be sewn "
            f"{traced.stand_back_mm:.0f} mm short of its point",
        )
        return None
    if off > _EQUAL_MM:
        mean = sum(lengths) / 2
        one, two = leg_of_length(one, mean), leg_of_length(two, mean)
        if off > 0.6:
            notes.append(
                f"{piece.label}: the lines of the {traced.name} were {lengths[0]:.1f} and "
                f"{lengths[1]:.1f} mm and were made {mean:.1f} mm both; true its mouth folded"
            )
    legs = one.reversed, two
    pressed = traced.pressed or ("down" if "bust" in traced.name else "to the centre")
    return Dart(traced.name, traced.side, legs, traced.stand_back_mm, pressed, edge.name)


def _legs(traced: TracedDart, mouth: tuple[Point, Point]) -> tuple[Curve, Curve]:
    """A dart's two legs from its point to the two ends of its mouth, in ring order."""
    if traced.drawn is not None:
        one, two = traced.drawn[0].reversed, traced.drawn[1]
        if abs(one.end - mouth[0]) > abs(two.end - mouth[0]):
            one, two = two, one
        return one.ended_at(mouth[0]), two.ended_at(mouth[1])
    point = traced.points[0]
    out = []
    for stops, end in zip(traced.legs, mouth, strict=True):
        between = [s.point for s in stops]
        if between and abs(between[0] - end) < abs(between[-1] - end):
            between.reverse()
        out.append(_through([point, *between, end]))
    return out[0], out[1]


def _double_pointed(piece: TracedPiece, traced: TracedDart, faults: Faults) -> Dart | None:
    where = f"the {traced.name} of the {piece.label}"
    pressed = traced.pressed or "to the centre"
    if traced.drawn is not None:
        return Dart(traced.name, traced.side, traced.drawn, traced.stand_back_mm, pressed)
    if len(traced.points) != 2:
        faults.tell(
            traced.line,
            f"{where} has no mouth in any edge: mark both ends of its mouth among the points, "
            "or give it two points, one above the other",
        )
        return None
    upper, lower = sorted(traced.points, key=lambda p: -p.imag)
    if not all(traced.legs):
        faults.tell(
            traced.line,
            f"{where} has two points; say how wide it is by a point or more on either of its "
            "lines, in the table of legs",
        )
        return None
    legs = []
    for stops in traced.legs:
        between = sorted((s.point for s in stops), key=lambda p: -p.imag)
        kinds = {s.kind for s in stops}
        points = [upper, *between, lower]
        legs.append(Curve.line(*points) if "corner" in kinds else _through(points))
    return Dart(traced.name, traced.side, (legs[0], legs[1]), traced.stand_back_mm, pressed)


def _through(points: list[Point]) -> Curve:
    fit: Through = through(points)
    return fit.line


__all__ = ["DOUBTFUL_MM", "LEGS_MM", "SAME_CORNER_MM", "Drawn", "EdgeFit", "drawn_from"]
