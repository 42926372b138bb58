"""The ring of a traced piece: its edges brought round in turn, end to end, counter-clockwise."""

from dataclasses import dataclass, replace

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross
from tracker.tracing.corners import corner_between, named_apart
from tracker.tracing.faults import Faults
from tracker.tracing.tracing import Stop, TracedEdge, TracedPiece

#: Two readings of one corner are no further apart than this: 1/8 in, as home patterns are trued
#: (Threads, 10 patternwork skills, 2020).
SAME_CORNER_MM = 3.2
#: Readings of a corner further apart than this are told.
WORTH_TELLING_MM = 0.3


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of an edge without a dart mouth in it: points to draw through, or a line."""

    stops: tuple[Stop, ...] = ()
    drawn: Curve | None = None

    @property
    def start(self) -> Point:
        """Where it begins."""
        return self.drawn.start if self.drawn else self.stops[0].point

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.drawn.end if self.drawn else self.stops[-1].point

    @property
    def turned(self) -> "Part":
        """The stretch the other way."""
        return Part(self.stops[::-1], self.drawn.reversed if self.drawn else None)

    def points(self) -> list[Point]:
        """Points on it in order, for areas."""
        return self.drawn.flattened(1.0) if self.drawn else [s.point for s in self.stops]

    def moved_ends(self, start: Point | None, end: Point | None) -> "Part":
        """Return it with its ends put elsewhere."""
        stops, drawn = self.stops, self.drawn
        if drawn is not None:
            drawn = drawn if end is None else drawn.ended_at(end)
            drawn = drawn if start is None else drawn.started_at(start)
            return Part((), drawn)
        first = stops[0] if start is None else replace(stops[0], point=start)
        last = stops[-1] if end is None else replace(stops[-1], point=end)
        return Part((first, *stops[1:-1], last))


@dataclass(frozen=True, slots=True)
class Path:
    """An edge with its parts, the darts between them, and the names of its corners."""

    edge: TracedEdge
    parts: tuple[Part, ...]
    mouths: tuple[str, ...]
    start: str
    end: str

    @property
    def turned(self) -> "Path":
        """The edge the other way."""
        parts = tuple(part.turned for part in reversed(self.parts))
        return Path(self.edge, parts, self.mouths[::-1], self.end, self.start)

    def with_ends(self, start: Point, end: Point) -> "Path":
        """Return it with its two ends put elsewhere."""
        first = self.parts[0].moved_ends(start, None)
        parts = (first, *self.parts[1:])
        return replace(self, parts=(*parts[:-1], parts[-1].moved_ends(None, end)))


def ring_of(piece: TracedPiece, faults: Faults, notes: list[str]) -> tuple[Path, ...]:
    """Return a piece's edges in turn, each beginning where the last ended, counter-clockwise.

    What keeps them from being a ring is told as a fault and gives nothing.
    """
    edges = _with_next_corners(piece.edges)
    paths = [path for edge in edges if (path := _path(piece, edge, faults)) is not None]
    if len(paths) < len(piece.edges):
        return ()
    if len(paths) < 2:
        faults.tell(piece.line, f"the {piece.label} has one edge only; an outline takes two")
        return ()
    paths = _chained(paths)
    gaps = [abs(paths[k - 1].parts[-1].end - p.parts[0].start) for k, p in enumerate(paths)]
    if max(gaps) > SAME_CORNER_MM:
        _open(piece, paths, gaps, faults)
        return ()
    if _area(paths) < 0:
        paths = [path.turned for path in reversed(paths)]
    return tuple(_cornered(piece, paths, faults, notes))


def _open(piece: TracedPiece, paths: list[Path], gaps: list[float], faults: Faults) -> None:
    """Tell where a ring is open: at the end that is furthest from any other."""
    ends = [(p, p.parts[0].start) for p in paths] + [(p, p.parts[-1].end) for p in paths]
    lost, gap, near = None, 0.0, None
    for path, spot in ends:
        others = [(abs(spot - other), p) for p, other in ends if p is not path]
        off, other = min(others, key=lambda o: o[0])
        if off > gap:
            lost, gap, near = path, off, other
    if lost is None or near is None or gap <= SAME_CORNER_MM:
        at = gaps.index(max(gaps))
        lost, gap, near = paths[at], gaps[at], paths[at - 1]
    faults.tell(
        lost.edge.line,
        f"the {lost.edge.name} of the {piece.label} stops {gap:.1f} mm from where the "
        f"{near.edge.name} does; neighbours meet in one corner: look at both points again",
    )


def _with_next_corners(edges: tuple[TracedEdge, ...]) -> list[TracedEdge]:
    """Give an edge whose last corner was written with the next edge only that corner."""
    if any(edge.drawn for edge in edges):
        return list(edges)
    apart = [
        not edge.stops
        or not edges[(k + 1) % len(edges)].stops
        or abs(edge.stops[-1].point - edges[(k + 1) % len(edges)].stops[0].point) > SAME_CORNER_MM
        for k, edge in enumerate(edges)
    ]
    out = []
    for k, edge in enumerate(edges):
        after = edges[(k + 1) % len(edges)].stops
        last = edge.stops[-1] if edge.stops else None
        alone = last is None or not any(
            abs(end.point - last.point) <= SAME_CORNER_MM
            for other in edges
            if other is not edge and other.stops
            for end in (other.stops[0], other.stops[-1])
        )
        lacks = alone and (all(apart) or last is None or last.kind in ("curve", "mouth"))
        if apart[k] and after and (lacks or len(edge.stops) == 1):
            corner = replace(after[0], kind="corner")
            edge = replace(edge, stops=(*edge.stops, corner))
        out.append(edge)
    return out


def _path(piece: TracedPiece, edge: TracedEdge, faults: Faults) -> Path | None:
    """Part an edge at the mouths of its darts."""
    where = f"the {edge.name} of the {piece.label}"
    if edge.drawn:
        mouths = _mouths_between(piece, edge)
        if mouths is None:
            faults.tell(edge.line, f"{where} is broken where no dart has its mouth")
            return None
        parts = tuple(Part((), curve) for curve in edge.drawn)
        return Path(edge, parts, mouths, edge.start, edge.end)
    if len(edge.stops) < 2:
        faults.tell(edge.line, f"{where} has one point only; a line takes two")
        return None
    cut: list[list[Stop]] = [[]]
    mouths_named: list[str] = []
    open_mouth: Stop | None = None
    for stop in edge.stops:
        if stop.kind != "mouth":
            if open_mouth is not None:
                break
            cut[-1].append(stop)
        elif open_mouth is None:
            cut[-1].append(stop)
            open_mouth = stop
        else:
            if stop.name != open_mouth.name:
                break
            cut.append([stop])
            mouths_named.append(stop.name)
            open_mouth = None
    if open_mouth is not None:
        faults.tell(
            open_mouth.line,
            f"the mouth of the {open_mouth.name} has two ends on {where}, one after the other; "
            "only one is here",
        )
        return None
    if any(len(stops) < 2 for stops in cut):
        faults.tell(edge.line, f"a mouth stands at the very end of {where}; give the corner too")
        return None
    for one, other in ((s[k], s[k + 1]) for s in cut for k in range(len(s) - 1)):
        if abs(one.point - other.point) < 0.05:
            faults.tell(
                other.line,
                f"points {one.said} and {other.said} of {where} are in one place; leave one out",
            )
            return None
    first, last = edge.stops[0], edge.stops[-1]
    return Path(
        edge,
        tuple(Part(tuple(stops)) for stops in cut),
        tuple(mouths_named),
        edge.start or first.name,
        edge.end or last.name,
    )


def _mouths_between(piece: TracedPiece, edge: TracedEdge) -> tuple[str, ...] | None:
    """Name the dart in each gap of a drawn edge, by where the dart's lines begin and end."""
    out = []
    for one, other in zip(edge.drawn, edge.drawn[1:], strict=False):
        gap = {one.end, other.start}
        best = min(
            (dart for dart in piece.darts if dart.drawn),
            key=lambda d: _off(d.drawn, gap),
            default=None,
        )
        if best is None or _off(best.drawn, gap) > SAME_CORNER_MM:
            return None
        out.append(best.name)
    return tuple(out)


def _off(legs: tuple[Curve, Curve] | None, gap: set[Point]) -> float:
    if legs is None:
        return float("inf")
    ends = legs[0].start, legs[1].end
    return max(min(abs(e - g) for g in gap) for e in ends)


def _chained(paths: list[Path]) -> list[Path]:
    """Put edges in turn and the right way round where the file has them otherwise."""
    if all(
        abs(paths[k - 1].parts[-1].end - p.parts[0].start) <= SAME_CORNER_MM
        for k, p in enumerate(paths)
    ):
        return paths
    for first in (paths[0], paths[0].turned):
        out, rest = [first], paths[1:]
        while rest:
            at = out[-1].parts[-1].end
            ways = [p for path in rest for p in (path, path.turned)]
            near = min(ways, key=lambda p: abs(p.parts[0].start - at))
            if abs(near.parts[0].start - at) > SAME_CORNER_MM:
                break
            out.append(near)
            rest = [path for path in rest if path.edge is not near.edge]
        if not rest:
            return out
    return paths


def _area(paths: list[Path]) -> float:
    points = [p for path in paths for part in path.parts for p in part.points()]
    return sum(cross(points[k - 1], p) for k, p in enumerate(points)) / 2


def _cornered(
    piece: TracedPiece, paths: list[Path], faults: Faults, notes: list[str]
) -> list[Path]:
    """Bring the ends of neighbours to one spot and give each corner one name."""
    spots: list[Point] = []
    given = [path.start or paths[k - 1].end for k, path in enumerate(paths)]
    usual = [corner_between(paths[k - 1].edge.name, p.edge.name) for k, p in enumerate(paths)]
    names = named_apart(given, usual)
    for k, path in enumerate(paths):
        before = paths[k - 1]
        a, b = before.parts[-1].end, path.parts[0].start
        spots.append(a if abs(a - b) < 1e-9 else (a + b) / 2)
        if before.end and path.start and before.end != path.start:
            faults.tell(
                path.edge.line,
                f"the corner between the {before.edge.name} and the {path.edge.name} of the "
                f"{piece.label} is called {before.end} and {path.start}; give it one name",
            )
        if abs(a - b) > WORTH_TELLING_MM:
            notes.append(
                f"{piece.label}: the {names[k]} was read twice, {abs(a - b):.1f} mm apart; the "
                "middle is taken"
            )
    out = []
    for k, path in enumerate(paths):
        after = (k + 1) % len(paths)
        moved = path.with_ends(spots[k], spots[after])
        out.append(replace(moved, start=names[k], end=names[after]))
    return out
