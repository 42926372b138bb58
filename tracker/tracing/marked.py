"""Notches, material lines and marks of a traced piece, put where its outline is."""

import itertools
import math
from dataclasses import replace

from tracker.errors import nearest_names
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, cross, unit
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.marks import Level, Mark, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.tracing.faults import Faults
from tracker.tracing.tracing import TracedNotch, TracedPiece

#: What was read this near to an edge was meant to be on it; 1/8 in, as home patterns are trued.
ON_EDGE_MM = 3.2
#: A grain line that leans by more, and by less than bias, was hardly meant to, degrees.
LEANS_DEG, BIAS_DEG = 2.0, 30.0


def marked(piece: Piece, traced: TracedPiece, faults: Faults, notes: list[str]) -> Piece:
    """Return a piece with everything that was marked on it."""
    notches = [_notch(piece, n, faults) for n in traced.notches]
    levels = []
    for line in traced.lines:
        for name in line.edges:
            if not any(e.name == name for e in piece.edges):
                faults.tell(line.line, _no_edge(piece, name, f"the {line.name}"))
        strokes = [s for stroke in line.strokes for s in _stroke(piece, stroke)]
        levels.append(Level(line.name, line.side, tuple(strokes), line.edges))
    if traced.grain is not None:
        _leaning(piece, traced.grain, notes)
    return replace(
        piece,
        notches=tuple(n for n in notches if n is not None),
        levels=tuple(levels),
        marks=tuple(Mark(m.name, m.side, m.point) for m in traced.marks),
        grain=traced.grain,
    )


def _no_edge(piece: Piece, name: str, what: str) -> str:
    known = list(dict.fromkeys(e.name for e in piece.edges))
    return (
        f"{what} names the edge “{name}”, and the {piece.label} has {', '.join(known)}."
        f"{nearest_names(name, known, 1)}"
    )


def _notch(piece: Piece, traced: TracedNotch, faults: Faults) -> Notch | None:
    where = f"the {traced.name} of the {piece.label}"
    try:
        edge = piece.edge(traced.edge, traced.side)
    except UnknownName:
        faults.tell(traced.line, _no_edge(piece, traced.edge, where))
        return None
    corner, away = traced.corner, traced.distance_mm
    if corner and corner not in (edge.start, edge.end):
        faults.tell(
            traced.line,
            f"{where} is measured from the “{corner}”, and the {edge.name} runs from the "
            f"{edge.start} to the {edge.end}",
        )
        return None
    if away is None:
        if not edge.parts or traced.spot is None:
            faults.tell(traced.line, f"{where} needs a corner and a distance along the edge")
            return None
        along, gap = edge.nearest(traced.spot)
        if gap > ON_EDGE_MM:
            faults.tell(
                traced.line, f"{where} was read {gap:.1f} mm off the {edge.name}; look at it again"
            )
            return None
        corner = corner or (edge.start if along <= edge.length / 2 else edge.end)
        away = along if corner == edge.start else edge.length - along
    known = bool(edge.parts) or edge.declared_mm is not None
    if away < 0 or (known and away > edge.length + ON_EDGE_MM):
        faults.tell(
            traced.line,
            f"{where} is {away:.1f} mm from the {corner}, off the {edge.name}, which is "
            f"{edge.length:.1f} mm long" if known else f"{where} lies before its corner",
        )  # fmt: skip
        return None
    away = min(away, edge.length) if known else away
    return Notch(traced.name, traced.side, edge.name, corner, away, traced.count)


def _stroke(piece: Piece, stroke: Stroke) -> list[Stroke]:
    """End a line on the outline where it was meant to, and break it where a dart crosses it."""
    if not piece.has_outline:
        return [stroke]
    ends = _onto(piece, stroke)
    ends = _onto(piece, ends[::-1])[::-1]
    pieces = [ends]
    for dart in piece.darts:
        if dart.mouth:
            wedge = dart.mouth_start, dart.pivot, dart.mouth_end
            pieces = [s for one in pieces for s in _outside(one, dart.legs, wedge)]
    return pieces


def _onto(piece: Piece, stroke: Stroke) -> Stroke:
    """Run the last end on, or cut it back, to the edge it was read beside."""
    end, heading = stroke[-1], unit(stroke[-1] - stroke[-2])
    near = min(piece.edges, key=lambda e: e.nearest(end)[1])
    gap = near.nearest(end)[1]
    if gap < 1e-3 or gap > ON_EDGE_MM or heading == 0:
        return stroke
    met = [c for part in near.drawn for c in with_line(part, end, heading)]
    best = min(met, key=lambda c: abs(c.second_mm), default=None)
    if best is None or abs(best.second_mm) > 3 * ON_EDGE_MM:
        return stroke
    return (*stroke[:-1], best.point)


def _outside(
    stroke: Stroke, legs: tuple[Curve, Curve], wedge: tuple[Point, Point, Point]
) -> list[Stroke]:
    line = Curve.line(*stroke)
    cuts = {0.0, line.length}
    for leg in legs:
        cuts |= {c.first_mm for c in of_curves(line, leg)}
    kept: list[Curve] = []
    ends = sorted(cuts)
    for a, b in itertools.pairwise(ends):
        if b - a < 1e-3:
            continue
        part = line.part(a, b)
        if _within(line.point_at((a + b) / 2), wedge):
            continue
        if kept and abs(kept[-1].end - part.start) < 1e-6:
            kept[-1] = line.part(line.nearest(kept[-1].start)[0], b)
        else:
            kept.append(part)
    if len(kept) == 1 and kept[0].length > line.length - 1e-3:
        return [stroke]
    return [(one.start, *(run[-1] for run in one.runs)) for one in kept]


def _within(point: Point, wedge: tuple[Point, Point, Point]) -> bool:
    a, b, c = wedge
    turns = [cross(q - p, point - p) for p, q in ((a, b), (b, c), (c, a))]
    return all(t > 0 for t in turns) or all(t < 0 for t in turns)


def _leaning(piece: Piece, grain: tuple[Point, Point], notes: list[str]) -> None:
    along = grain[1] - grain[0]
    lean = abs(math.degrees(math.atan2(along.real, along.imag)))
    lean = min(lean, 180 - lean)
    if LEANS_DEG < lean < BIAS_DEG:
        notes.append(
            f"{piece.label}: its grain leans by {lean:.0f}°; lay the piece on the grid with its "
            "grain upright, unless it is cut so"
        )


def length_known(edge: Edge) -> bool:
    """Tell whether an edge has a length: drawn, or by the tape."""
    return bool(edge.parts) or edge.declared_mm is not None
