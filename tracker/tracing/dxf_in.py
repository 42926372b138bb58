"""DXF on the layers of the sewn products standard into a tracing; see :mod:`dxf_out`."""

import io
import math
from dataclasses import dataclass, field, replace
from typing import Any

from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.pattern.bodyside import BodySide
from tracker.tracing.dxf_out import (
    BOUNDARY,
    CORNERS,
    FOLD,
    GRAIN,
    HOLES,
    INSIDE,
    NOTCHES,
    SORTS,
    WORDS,
    half_way,
)
from tracker.tracing.faults import Faults
from tracker.tracing.tracing import (
    Stop,
    TracedDart,
    TracedEdge,
    TracedLine,
    TracedMark,
    TracedNotch,
    TracedPiece,
    Tracing,
)
from tracker.units import read_length

SEWING = "14"
_NOTCHES = (NOTCHES, "80", "81", "82", "83")
#: What the file's header says its unit is (DXF reference, $INSUNITS), in millimetres.
_UNITS = {1: 25.4, 4: 1.0, 5: 10.0}
#: Words and points are about what lies this near.
NEAR_MM = 0.5
#: Without marked corners, a bend sharper than this is one; common practice, no source.
CORNER_DEG = 20.0


@dataclass(frozen=True, slots=True)
class _Words:
    """Words of ours on layer 15: a sort, a name, and what else is told."""

    sort: str
    name: str
    told: dict[str, str]
    at: Point


class _NotASide(ValueError):
    """A body side that is none."""


def _own_side(words: _Words, usual: BodySide) -> BodySide:
    """The body side that is told, or the usual."""
    word = words.told.get("body side", str(usual))
    if word not in tuple(BodySide):
        raise _NotASide(f"“{word}” is no body side; it is {', '.join(BodySide)}")
    return BodySide(word)


@dataclass(slots=True)
class _Held:
    """What a block holds, in millimetres."""

    name: str
    lines: dict[str, list[tuple[list[Point], bool]]] = field(default_factory=dict)
    points: dict[str, list[Point]] = field(default_factory=dict)
    words: list[_Words] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)

    def about(self, sort: str, at: Point, edge: str = "") -> _Words | None:
        """Return the words of a sort at a place, of one edge where several meet there."""
        near = [
            w
            for w in self.words
            if w.sort == sort
            and abs(w.at - at) <= NEAR_MM
            and (not edge or w.told.get("edge", edge) == edge)
        ]
        return min(near, key=lambda w: abs(w.at - at), default=None)


def tracing_of_dxf(text: str, faults: Faults, notes: list[str]) -> Tracing:
    """Read a file.

    Raises:
        NotATracing: it cannot be read; every fault is told.
    """
    held = _blocks(text, faults)
    faults.stop_if_any()
    pieces = []
    for block in (h for h in held if BOUNDARY in h.lines or SEWING in h.lines):
        try:
            pieces.append(_piece(block, faults, notes))
        except _NotASide as fault:
            faults.tell(0, f"the block {block.name}: {fault}")
    if not pieces:
        faults.tell(
            0, "there is no piece in this DXF: a piece is a block with its outline on layer 1"
        )
    faults.stop_if_any()
    return Tracing(tuple(p for p in pieces if p is not None))


def _blocks(text: str, faults: Faults) -> list[_Held]:
    """Return what every block holds."""
    import logging

    from ezdxf.filemanagement import read

    # What it passes over it would print; what we cannot use is told as a fault.
    logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    try:
        doc = read(io.StringIO(text))
        scale = _scale(doc, faults)
        return [_held(b, scale) for b in doc.blocks if not b.name.startswith(("*", "_"))]
    except Exception as fault:  # a damaged file may trip the library anywhere
        faults.tell(0, f"this is no DXF that can be read ({' '.join(str(fault).split())[:80]})")
        return []


def _scale(doc: Any, faults: Faults) -> float:
    layouts = [doc.modelspace(), *doc.blocks]
    texts = [t.dxf.text.lower() for layout in layouts for t in layout.query("TEXT")]
    if any(t.startswith("units:") and "metric" in t for t in texts):
        return 1.0
    if any(t.startswith("units:") and "english" in t for t in texts):
        return 25.4
    found = _UNITS.get(doc.header.get("$INSUNITS", 0))
    if found is None:
        faults.tell(
            0, "this DXF does not say its unit; the standard has a text Units: METRIC or ENGLISH"
        )
        return 1.0
    return found


def _held(block: Any, scale: float) -> _Held:
    out = _Held(block.name)
    for entity in block:
        layer, sort = entity.dxf.layer, entity.dxftype()
        if sort == "POINT":
            out.points.setdefault(layer, []).append(_at(entity.dxf.location, scale))
        elif sort in ("TEXT", "MTEXT"):
            words = entity.dxf.text if sort == "TEXT" else entity.text
            out.texts.append(words)
            kind, _, rest = words.partition(":")
            if layer == WORDS and kind in SORTS:
                name, *told = (part.strip() for part in rest.split(";"))
                out.words.append(_Words(kind, name, _told(told), _at(entity.dxf.insert, scale)))
        elif sort in ("POLYLINE", "LWPOLYLINE", "LINE", "SPLINE", "ARC"):
            out.lines.setdefault(layer, []).append(_line(entity, scale))
    return out


def _told(parts: list[str]) -> dict[str, str]:
    known = ("body side", "taken from", "kept from", "stand back")
    out = {}
    for part in parts:
        key = next((k for k in known if part.startswith(f"{k} ")), part.partition(" ")[0])
        out[key] = part[len(key) :].strip()
    return out


def _at(spot: Any, scale: float) -> Point:
    return complex(spot[0], spot[1]) * scale


def _line(entity: Any, scale: float) -> tuple[list[Point], bool]:
    from ezdxf import path

    points = [_at(p, scale) for p in path.make_path(entity).flattening(0.02)]
    closed = len(points) > 2 and abs(points[0] - points[-1]) < 1e-6
    return (points[:-1] if closed else points), closed


def _piece(held: _Held, faults: Faults, notes: list[str]) -> TracedPiece | None:
    outlines = held.lines.get(SEWING) or held.lines[BOUNDARY]
    points, _ = max(outlines, key=lambda line: len(line[0]))
    ours = any(w.sort == "piece" for w in held.words)
    if not ours and SEWING not in held.lines:
        notes.append(
            f"{held.name}: the file gives no sewing line, so its outline was taken; take its seam "
            "allowances off if they are on it"
        )
    told = next((w for w in held.words if w.sort == "piece"), _Words("piece", held.name, {}, 0j))
    side = _own_side(told, BodySide.BOTH)
    edges, darts = _Ring(held, points, side).read(faults)
    if not edges:
        faults.tell(0, f"the outline of the block {held.name} has fewer than two corners")
        return None
    if not ours:
        names = ", ".join(e.name for e in edges)
        notes.append(f"{held.name}: its edges have no names in the file and are called {names}")
    copies = told.told.get("copies", "2" if side is BodySide.BOTH else "1")
    return TracedPiece(
        told.name, side, 0,
        layer=told.told.get("layer", "shell"),
        copies=int(copies) if copies.isdigit() else 2,
        fold=_fold(held, edges),
        cut=told.told.get("cut", ""),
        taken_from=told.told.get("taken from", ""),
        edges=edges,
        darts=(*darts, *_double(held, side)),
        notches=_notches(held, edges, side),
        lines=_inside(held, side),
        marks=_marks(held, side),
        grain=_grain(held),
    )  # fmt: skip


class _Ring:
    """Parts an outline at its corners, and knows the darts in it."""

    def __init__(self, held: _Held, points: list[Point], side: BodySide) -> None:
        self.held, self.side = held, side
        turns = [
            turn_between(p - points[k - 1], points[(k + 1) % len(points)] - p)
            for k, p in enumerate(points)
        ]
        marked = held.points.get(CORNERS, [])
        self.sharp = [
            any(abs(p - c) <= NEAR_MM for c in marked)
            if marked
            else abs(math.degrees(turn)) > CORNER_DEG
            for p, turn in zip(points, turns, strict=True)
        ]
        named = [held.about("corner", p) for p in points]
        ends = [n is not None for n in named] if any(named) else self.sharp
        first = next((k for k, end in enumerate(ends) if end), 0)
        order = [(first + k) % len(points) for k in range(len(points))]
        self.points = [points[k] for k in order]
        self.sharp = [self.sharp[k] for k in order]
        self.ends = [ends[k] for k in order]
        self.names = ["" if (n := named[k]) is None else n.name for k in order]

    def read(self, faults: Faults) -> tuple[tuple[TracedEdge, ...], tuple[TracedDart, ...]]:
        cuts = [k for k, end in enumerate(self.ends) if end]
        if len(cuts) < 2:
            return (), ()
        edges: list[TracedEdge] = []
        darts: list[TracedDart] = []
        for number, (a, b) in enumerate(zip(cuts, [*cuts[1:], len(self.points)], strict=True), 1):
            stops = [self._stop(k % len(self.points)) for k in range(a, b + 1)]
            told = self._edge(stops, number)
            side = _own_side(told, self.side)
            stops, found = self._without_darts(stops, told.name, faults)
            darts.extend(replace(dart, side=side) for dart in found)
            edges.append(TracedEdge(told.name, side, 0, tuple(stops)))
        return tuple(edges), tuple(darts)

    def _stop(self, k: int) -> Stop:
        kind = "corner" if self.sharp[k] or self.ends[k] else "curve"
        return Stop(self.points[k], kind, self.names[k], 0, f"{k + 1}")

    def _without_darts(
        self, stops: list[Stop], edge: str, faults: Faults
    ) -> tuple[list[Stop], list[TracedDart]]:
        """Take the legs of named darts out of an edge and mark their mouths."""
        found: list[TracedDart] = []
        k = 1
        while k < len(stops) - 1:
            told = self.held.about("dart", stops[k].point, edge)
            if told is None or stops[k].kind != "corner":
                k += 1
                continue
            one = max(j for j in range(k) if stops[j].kind != "curve")
            two = min(j for j in range(k + 1, len(stops)) if stops[j].kind != "curve")
            legs = tuple(stops[one + 1 : k]), tuple(stops[k + 1 : two])
            found.append(_dart(told, (stops[k].point,), legs, self.side, faults))
            mouth = [Stop(stops[j].point, "mouth", told.name, 0, stops[j].said) for j in (one, two)]
            stops = [*stops[:one], *mouth, *stops[two + 1 :]]
            k = one + 2
        return stops, found

    def _edge(self, stops: list[Stop], number: int) -> _Words:
        """The words about an edge: those nearest to its first part."""
        line = Curve.line(*(s.point for s in stops))
        known = [w for w in self.held.words if w.sort == "edge"]
        near = min(known, key=lambda w: line.nearest_spot(w.at)[2], default=None)
        if near is not None and line.nearest_spot(near.at)[2] <= 3.0:
            return near
        return _Words("edge", f"edge {number}", {}, 0j)


def _dart(
    told: _Words, points: tuple[Point, ...], legs: tuple[tuple[Stop, ...], tuple[Stop, ...]],
    side: BodySide, faults: Faults,
) -> TracedDart:  # fmt: skip
    back = 0.0
    try:
        back = read_length(told.told.get("stand back", "0 mm"))
    except TrackerError as fault:
        faults.tell(0, f"the {told.name}: {fault.sentence}")
    own = _own_side(told, side)
    return TracedDart(told.name, own, 0, points, back, told.told.get("pressed", ""), legs)


def _double(held: _Held, side: BodySide) -> list[TracedDart]:
    """Double-pointed darts: closed lines inside, named as darts."""
    out = []
    for points, closed in held.lines.get(INSIDE, []):
        told = held.about("dart", points[0])
        if not closed or told is None:
            continue
        low = min(range(len(points)), key=lambda k: points[k].imag)
        marked = held.points.get(CORNERS, [])
        stops = [
            Stop(p, "corner" if any(abs(p - c) <= NEAR_MM for c in marked) else "curve", "", 0, "")
            for p in points
        ]
        legs = tuple(stops[1:low]), tuple(stops[low + 1 :])
        out.append(_dart(told, (points[0], points[low]), legs, side, Faults()))
    return out


def _notches(held: _Held, edges: tuple[TracedEdge, ...], side: BodySide) -> tuple[TracedNotch, ...]:
    out = []
    spots = [p for layer in _NOTCHES for p in held.points.get(layer, [])]
    for number, spot in enumerate(spots, 1):
        told = held.about("notch", spot) or _Words("notch", f"notch {number}", {}, spot)
        near = min(
            edges, key=lambda e: Curve.line(*(s.point for s in e.stops)).nearest_spot(spot)[2]
        )
        count = told.told.get("count", "1")
        out.append(
            TracedNotch(
                told.name, _own_side(told, side), 0,
                told.told.get("edge", near.name), told.told.get("kept from", ""), None, spot,
                int(count) if count in ("1", "2", "3") else 1,
            )
        )  # fmt: skip
    return tuple(out)


def _inside(held: _Held, side: BodySide) -> tuple[TracedLine, ...]:
    strokes: dict[tuple[str, BodySide], list[tuple[Point, ...]]] = {}
    edges: dict[tuple[str, BodySide], list[str]] = {}
    for told in (w for w in held.words if w.sort == "line"):
        key = told.name, _own_side(told, side)
        strokes.setdefault(key, [])
        edges.setdefault(key, [])
        if "edge" in told.told:
            edges[key].append(told.told["edge"])
    for number, (points, closed) in enumerate(held.lines.get(INSIDE, []), 1):
        if closed and held.about("dart", points[0]):
            continue
        found = held.about("line", half_way(points)) or _Words("line", f"line {number}", {}, 0j)
        key = found.name, _own_side(found, side)
        strokes.setdefault(key, []).append(tuple(points))
    return tuple(
        TracedLine(*key, 0, tuple(some), tuple(edges.get(key, ()))) for key, some in strokes.items()
    )


def _marks(held: _Held, side: BodySide) -> tuple[TracedMark, ...]:
    out = []
    for number, spot in enumerate(held.points.get(HOLES, []), 1):
        told = held.about("mark", spot) or _Words("mark", f"mark {number}", {}, spot)
        own = _own_side(told, side)
        out.append(TracedMark(told.name, own, 0, spot))
    return tuple(out)


def _grain(held: _Held) -> tuple[Point, Point] | None:
    for points, _ in held.lines.get(GRAIN, []):
        one, two = points[0], points[-1]
        return (one, two) if one.imag <= two.imag else (two, one)
    return None


def _fold(held: _Held, edges: tuple[TracedEdge, ...]) -> str:
    """The edge both of whose ends lie on the mirror line."""
    for points, _ in held.lines.get(FOLD, []):
        line = Curve.line(points[0], points[-1])
        for edge in edges:
            ends = edge.stops[0].point, edge.stops[-1].point
            if all(line.nearest_spot(p)[2] <= 2 * NEAR_MM for p in ends):
                return edge.name
    return ""
