"""A drawing with named paths into a tracing: a group is a piece, a path an edge of it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.pattern.bodyside import BodySide
from tracker.tracing.faults import Faults
from tracker.tracing.reading import tracing_of
from tracker.tracing.rows import Rows, rows_of_csv
from tracker.tracing.svg_path import Stroke, strokes_of
from tracker.tracing.svg_tree import NOT_DRAWN, Node, Place, full_scale, place_of, tree_of
from tracker.tracing.tracing import (
    TracedDart,
    TracedEdge,
    TracedLine,
    TracedMark,
    TracedNotch,
    TracedPiece,
    Tracing,
)
from tracker.units import read_length

_SORTS = ("edge", "dart", "notch", "line", "mark")
_SHAPES = {"path", "line", "polyline", "polygon"}


@dataclass(slots=True)
class _Group:
    """What a named group holds."""

    name: str
    line: int
    laid_at: Point
    shapes: list[tuple[Node, str, tuple[Stroke, ...]]] = field(default_factory=list)


def tracing_of_svg(text: str, faults: Faults) -> Tracing:
    """Read a drawing.

    Raises:
        NotATracing: it cannot be read; every fault is told.
    """
    root = tree_of(text, faults)
    scale = full_scale(root, faults) if root is not None else None
    faults.stop_if_any()
    assert root is not None
    assert scale is not None
    groups: dict[str, _Group] = {}
    up = Place(d=-1.0)
    for node, place, group in _shapes(root, up.after(scale), None, faults):
        found = _piece_and_name(node, group)
        if found is None:
            faults.tell(
                node.line,
                f"“{node.name}” is in no named group; put each piece into a group with its name, "
                "or write both, such as front.side",
            )
            continue
        piece, name = found
        laid = 0j if group is None else _laid(group)
        held = groups.setdefault(piece, _Group(piece, node.line, laid))
        strokes = _strokes(node, place, faults)
        if strokes:
            held.shapes.append((node, name, strokes))
    faults.stop_if_any()
    rest = _tables(root, faults)
    if not groups and not rest.rows:
        faults.tell(
            root.line,
            "there is no named path in this drawing; give each edge a title or an id, such as "
            "side, and each piece a group with its name",
        )
        faults.stop_if_any()
    if not rest.unit:
        rest.unit = "mm"
    known = tracing_of(rest, faults) if rest.rows else Tracing(())
    labels = {p.label: p for p in known.pieces}
    usual = {name: TracedPiece(name, BodySide.BOTH, g.line) for name, g in groups.items()}
    pieces = [_piece(labels.get(n) or usual[n], g, faults) for n, g in groups.items()]
    pieces += [p for label, p in labels.items() if label not in groups]
    faults.stop_if_any()
    return replace(known, pieces=tuple(pieces))


def _piece_and_name(node: Node, group: Node | None) -> tuple[str, str] | None:
    """Which piece a line is of, and its own name: by its group, or both in one name."""
    if group is not None:
        return group.name, node.name
    found = re.fullmatch(r"([^./:]+)[./:](.+)", node.name)
    return (found[1].strip(), found[2].strip()) if found else None


def _tables(root: Node, faults: Faults) -> Rows:
    """The tables that stand in the drawing's metadata."""
    for node in root.all("metadata"):
        if "," in node.text or ";" in node.text:
            return rows_of_csv(node.text, faults, node.line)
    return Rows()


def _shapes(
    node: Node, place: Place, group: Node | None, faults: Faults
) -> Iterator[tuple[Node, Place, Node | None]]:
    """Every named line with its place and the group it is in."""
    if node.tag in NOT_DRAWN:
        return
    place = place.after(place_of(node, faults))
    if node.tag in _SHAPES and node.name:
        yield node, place, group
    if node.tag == "g" and node.name:
        group = node
    for child in node.children:
        yield from _shapes(child, place, group, faults)


def _strokes(node: Node, place: Place, faults: Faults) -> tuple[Stroke, ...]:
    a = node.attributes
    try:
        if node.tag == "path":
            strokes = strokes_of(a.get("d", ""))
        elif node.tag == "line":
            x1, y1, x2, y2 = (float(a.get(k, "0")) for k in ("x1", "y1", "x2", "y2"))
            strokes = (Stroke(Curve.line(complex(x1, y1), complex(x2, y2)), False),)
        else:
            n = [float(v) for v in re.split(r"[\s,]+", a.get("points", "").strip()) if v]
            points = [complex(*n[k : k + 2]) for k in range(0, len(n) - 1, 2)]
            closed = node.tag == "polygon"
            strokes = (Stroke(Curve.line(*points, *points[: 1 if closed else 0]), closed),)
    except (TrackerError, ValueError, IndexError) as fault:
        faults.tell(node.line, f"{node.name}: {fault}")
        return ()
    out = []
    for stroke in strokes:
        c = stroke.line
        moved = Curve(place.of(c.start), tuple(tuple(place.of(p) for p in run) for run in c.runs))
        if moved.length > 1e-6:
            out.append(Stroke(moved, stroke.closed))
    if not out:
        faults.tell(node.line, f"{node.name} has no length")
    return tuple(out)


def _laid(group: Node) -> Point:
    found = re.search(r"laid at\s+(\S+)\s+(\S+)", group.said("desc"))
    try:
        return complex(float(found[1]), float(found[2].rstrip(";"))) if found else 0j
    except ValueError:
        return 0j


def _told(node: Node, heading: str) -> str:
    """What an element's description says under a heading: "from underarm point; to …"."""
    for part in node.said("desc").split(";"):
        if part.strip().startswith(f"{heading} "):
            return part.strip()[len(heading) :].strip()
    return ""


def _piece(piece: TracedPiece, group: _Group, faults: Faults) -> TracedPiece:
    """Put what is drawn in a group onto its piece."""
    edges: list[TracedEdge] = []
    darts: list[TracedDart] = []
    notches: list[TracedNotch] = []
    lines = list(piece.lines)
    marks: list[TracedMark] = []
    grain = piece.grain
    for node, called, strokes in group.shapes:
        chains = tuple(_moved(s.line, -group.laid_at) for s in strokes)
        sort, _, name = called.partition(" ")
        sort, name = sort.lower(), name.strip()
        side = _side(node, piece, faults)
        if called.lower() in ("grain", "grain line"):
            low, high = chains[0].start, chains[-1].end
            grain = (low, high) if low.imag <= high.imag else (high, low)
        elif sort not in _SORTS or not name or sort == "edge":
            edge = name if sort == "edge" and name else called
            ends = _told(node, "from"), _told(node, "to")
            edges.append(TracedEdge(edge, side, node.line, (), chains, *ends))
        elif sort == "dart":
            darts.append(_dart(name, side, node, strokes, chains, faults))
        elif sort == "notch":
            count = _told(node, "count") or "1"
            told = int(count) if count in ("1", "2", "3") else 1
            on = _told(node, "edge")
            notches.append(
                TracedNotch(
                    name, side, node.line, on, _told(node, "from"), None, chains[0].start, told
                )
            )
        elif sort == "line":
            runs = tuple(tuple(c.flattened(0.05)) for c in chains)
            lines = _with_line(lines, TracedLine(name, side, node.line, runs))
        else:
            marks.append(TracedMark(name, side, node.line, chains[0].start))
    notches = [_on_an_edge(notch, edges) for notch in notches]
    return replace(
        piece, edges=tuple(edges), darts=tuple(darts), notches=tuple(notches),
        lines=tuple(lines), marks=tuple(marks), grain=grain,
    )  # fmt: skip


def _on_an_edge(notch: TracedNotch, edges: list[TracedEdge]) -> TracedNotch:
    """A notch whose edge was not told, on the nearest."""
    spot = notch.spot
    if notch.edge or spot is None or not edges:
        return notch
    near = min(edges, key=lambda e: min(c.nearest(spot)[1] for c in e.drawn))
    return replace(notch, edge=near.name, side=near.side)


def _with_line(lines: list[TracedLine], line: TracedLine) -> list[TracedLine]:
    """Add strokes to a line the tables know by its edge already."""
    for k, known in enumerate(lines):
        if (known.name, known.side) == (line.name, line.side):
            lines[k] = replace(known, strokes=known.strokes + line.strokes)
            return lines
    return [*lines, line]


def _side(node: Node, piece: TracedPiece, faults: Faults) -> BodySide:
    word = _told(node, "body side") or str(piece.side)
    try:
        return BodySide(word)
    except ValueError:
        faults.tell(node.line, f"{node.name}: “{word}” is no body side")
        return piece.side


def _dart(
    name: str, side: BodySide, node: Node, strokes: tuple[Stroke, ...], chains: tuple[Curve, ...],
    faults: Faults,
) -> TracedDart:  # fmt: skip
    back = 0.0
    try:
        back = read_length(_told(node, "stand back") or "0 mm")
    except TrackerError as fault:
        faults.tell(node.line, f"{node.name}: {fault.sentence}")
    drawn = _legs(strokes, chains)
    if drawn is None:
        faults.tell(
            node.line,
            f"{node.name} is drawn from its mouth to its point and back to its mouth, or, with "
            "two points, as two strokes from the upper to the lower",
        )
    return TracedDart(name, side, node.line, (), back, _told(node, "pressed"), ((), ()), drawn)


def _legs(strokes: tuple[Stroke, ...], chains: tuple[Curve, ...]) -> tuple[Curve, Curve] | None:
    if len(chains) == 2:
        one, two = (c if c.start.imag >= c.end.imag else c.reversed for c in chains)
        return one, two
    chain = chains[0]
    if len(chains) != 1 or len(chain.segments) < 2:
        return None
    joints = list(chain.reaches[1:])
    if strokes[0].closed:
        heights = [chain.point_at(at).imag for at in (0.0, *joints)]
        low, high = heights.index(min(heights)), heights.index(max(heights))
        cuts = sorted(((0.0, *joints)[low], (0.0, *joints)[high]))
        one, rest = chain.part(*cuts), chain.part(cuts[1], chain.length)
        two = rest.joined(chain.part(0.0, cuts[0])) if cuts[0] > 0 else rest
        one, two = (c if c.start.imag >= c.end.imag else c.reversed for c in (one, two))
        return one, two
    bends = [
        abs(turn_between(Curve.of([a]).end_heading, Curve.of([b]).start_heading))
        for a, b in zip(chain.segments, chain.segments[1:], strict=False)
    ]
    return chain.split(joints[bends.index(max(bends))])


def _moved(line: Curve, by: Point) -> Curve:
    return Curve(line.start + by, tuple(tuple(p + by for p in run) for run in line.runs))
