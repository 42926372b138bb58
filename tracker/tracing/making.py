"""A tracing made into a pattern, with how near its lines came and what to look at again."""

from dataclasses import dataclass, replace

from tracker.errors import nearest_names
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.checks import SEAM_MM, ring_fault
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths
from tracker.tracing.corners import corner_between, named_apart
from tracker.tracing.drawn import EdgeFit, drawn_from
from tracker.tracing.faults import Faults
from tracker.tracing.marked import length_known, marked
from tracker.tracing.outline import ring_of
from tracker.tracing.sewn import sewn
from tracker.tracing.tracing import Stop, TracedPiece, Tracing

#: A tape and the points may differ by so much; paper patterns are trued to 1/16 in (Threads, 10
#: patternwork skills, 2020).
TAPE_MM = 1.6


@dataclass(frozen=True, slots=True)
class SeamSides:
    """A seam's two sides, and how they agree.

    Attributes:
        seam: its name.
        first: the piece or pieces of its first side.
        first_mm: their length.
        second: of its second side.
        second_mm: their length.
        ease_mm: how much longer the second is meant to be.
        agrees: they differ by no more than 1.5 mm from that.
    """

    seam: str
    first: str
    first_mm: float
    second: str
    second_mm: float
    ease_mm: float
    agrees: bool


@dataclass(frozen=True, slots=True)
class Traced:
    """A pattern as it was traced in.

    Attributes:
        pattern: the pattern.
        edges: each edge, how long it is and how near its line came to the points.
        seams: each seam with both lengths known.
        notes: what to look at again.
    """

    pattern: Pattern
    edges: tuple[EdgeFit, ...]
    seams: tuple[SeamSides, ...]
    notes: tuple[str, ...]

    @property
    def furthest_mm(self) -> float:
        """How far any line stands from any of its points."""
        return max((e.furthest_mm for e in self.edges), default=0.0)

    @property
    def sentence(self) -> str:
        """What was traced, in a sentence without its source."""
        labels = [p.label for p in self.pattern.pieces]
        pieces = f"{', '.join(labels[:-1])} and {labels[-1]}" if len(labels) > 1 else labels[0]
        points = sum(e.points for e in self.edges)
        if points:
            return (
                f"{pieces} through {points} points, no line further than "
                f"{self.furthest_mm:.2f} mm from its points"
            )
        drawn = any(p.has_outline for p in self.pattern.pieces)
        return f"{pieces} as drawn" if drawn else f"{pieces} by names and lengths, without outlines"


def made(tracing: Tracing, faults: Faults) -> Traced:
    """Make a pattern of a tracing.

    Raises:
        NotATracing: it cannot be; every fault is told with its line.
    """
    notes: list[str] = []
    fits: list[EdgeFit] = []
    pieces = []
    for traced in tracing.pieces:
        piece = _piece(traced, faults, notes, fits)
        if piece is not None:
            pieces.append(piece)
    faults.stop_if_any()
    _known_to_each_other(tracing, pieces, faults)
    pattern = sewn(
        Pattern(tuple(pieces), (), tuple(sorted(tracing.girths))), tracing.seams, faults, notes
    )
    faults.stop_if_any()
    pattern = settled(pattern)
    sides = _sides(pattern)
    _told(pattern, fits, notes)
    return Traced(pattern, tuple(fits), sides, tuple(dict.fromkeys(notes)))


def _piece(
    traced: TracedPiece, faults: Faults, notes: list[str], fits: list[EdgeFit]
) -> Piece | None:
    if not traced.edges:
        faults.tell(traced.line, f"the {traced.label} has no edge; give it points, or edges")
        return None
    if traced.fold and not any(e.name == traced.fold for e in traced.edges):
        known = [e.name for e in traced.edges]
        faults.tell(
            traced.line,
            f"the {traced.label} has no edge called {traced.fold} to lie on the fold; it has "
            f"{', '.join(known)}.{nearest_names(traced.fold, known, 1)}",
        )
    if traced.half == "left":
        traced = _turned_over(traced)
    elif not traced.half and (centre := _lies_left(traced)):
        traced = _turned_over(traced)
        toward = "left" if centre == "centre front" else "right"
        notes.append(
            f"the {traced.label} lay with its {centre} to the {toward}, as her left half does or "
            "with its wrong side up, and was turned over; say right under “half” if it is to stay"
        )
    told = len(faults.found)
    edges: tuple[Edge, ...] = ()
    darts: tuple[Dart, ...] = ()
    if any(e.stops or e.drawn for e in traced.edges):
        ring = ring_of(traced, faults, notes)
        drawn = drawn_from(traced, ring, faults, notes) if ring else None
        if drawn is None:
            return None
        edges, darts = drawn.edges, drawn.darts
        fits.extend(drawn.fits)
    else:
        edges = _by_tape(traced)
        fits.extend(EdgeFit(traced.label, e.name, 0, e.declared_mm, 0.0) for e in edges)
        for dart in traced.darts:
            faults.tell(
                dart.line, f"the {traced.label} has no points, so a dart cannot be drawn in it"
            )
    piece = Piece(
        name=traced.name,
        side=traced.side,
        edges=edges,
        darts=darts,
        fold=traced.fold or None,
        layer=traced.layer,
        copies=traced.copies,
        cut=traced.cut or _usual_cut(traced),
        taken_from=traced.taken_from or None,
    )
    if len(faults.found) > told:
        return None
    fault = ring_fault(piece) if piece.has_outline else None
    if fault:
        faults.tell(traced.line, f"{fault}; look at the points near there, and at their order")
        return None
    return marked(piece, traced, faults, notes)


def _usual_cut(traced: TracedPiece) -> str:
    if traced.fold:
        return "cut 1 on the fold"
    if traced.copies == 1:
        return "cut 1"
    return "cut 2, a pair" if traced.copies == 2 else f"cut {traced.copies}"


def _by_tape(traced: TracedPiece) -> tuple[Edge, ...]:
    """The edges of a piece without outline, in turn, their corners named."""
    edges = traced.edges
    given = [edge.start or edges[k - 1].end for k, edge in enumerate(edges)]
    usual = [corner_between(edges[k - 1].name, edge.name) for k, edge in enumerate(edges)]
    names = named_apart(given, usual if len(edges) > 1 else ["its end"])
    return tuple(
        Edge(
            edge.name, edge.side, names[k], edge.end or names[(k + 1) % len(edges)],
            declared_mm=edge.tape_mm,
        )
        for k, edge in enumerate(edges)
    )  # fmt: skip


def _lies_left(piece: TracedPiece) -> str:
    """Name the centre by which a piece lies as her left half, or nothing.

    As worn and seen from outside, her right half has its centre front to the right of its side,
    and its centre back to the left.
    """
    if piece.side is not BodySide.BOTH:
        return ""

    def middle(name: str) -> float | None:
        across = [
            p.real
            for e in piece.edges
            if e.name == name
            for p in (*(s.point for s in e.stops), *(q for c in e.drawn for q in (c.start, c.end)))
        ]
        return sum(across) / len(across) if across else None

    side = middle("side")
    for centre, way in (("centre front", 1.0), ("centre back", -1.0)):
        at = middle(centre)
        if side is not None and at is not None and (at - side) * way < 0:
            return centre
    return ""


def _turned_over(piece: TracedPiece) -> TracedPiece:
    """A piece that lay as her left half, as her right."""
    over = Motion(factor=-1 + 0j, mirrored=True)

    def stop(s: Stop) -> Stop:
        return replace(s, point=over.of(s.point))

    def spot(p: Point | None) -> Point | None:
        return None if p is None else over.of(p)

    def curves(lines: tuple[Curve, ...]) -> tuple[Curve, ...]:
        return tuple(line.moved(over) for line in lines)

    darts = []
    for dart in piece.darts:
        one, two = (tuple(map(stop, leg)) for leg in dart.legs)
        drawn = (
            None if dart.drawn is None else (dart.drawn[0].moved(over), dart.drawn[1].moved(over))
        )
        points = tuple(map(over.of, dart.points))
        darts.append(replace(dart, points=points, legs=(one, two), drawn=drawn))
    return replace(
        piece,
        edges=tuple(
            replace(e, stops=tuple(map(stop, e.stops)), drawn=curves(e.drawn)) for e in piece.edges
        ),
        darts=tuple(darts),
        notches=tuple(replace(n, spot=spot(n.spot)) for n in piece.notches),
        lines=tuple(
            replace(v, strokes=tuple(tuple(map(over.of, s)) for s in v.strokes))
            for v in piece.lines
        ),
        marks=tuple(replace(m, point=over.of(m.point)) for m in piece.marks),
        grain=None if piece.grain is None else (over.of(piece.grain[0]), over.of(piece.grain[1])),
    )


def _known_to_each_other(tracing: Tracing, pieces: list[Piece], faults: Faults) -> None:
    known = [p.name for p in pieces]
    for traced in tracing.pieces:
        if traced.taken_from and traced.taken_from not in known:
            faults.tell(
                traced.line,
                f"the {traced.label} is taken from “{traced.taken_from}”, which is no piece here."
                f"{nearest_names(traced.taken_from, known, 1)}",
            )


def _sides(pattern: Pattern) -> tuple[SeamSides, ...]:
    out = []
    for seam in pattern.seams:
        edges = [pattern.edge_of(run) for run in (*seam.first, *seam.second)]
        if seam.on_itself or not all(map(length_known, edges)):
            continue
        first, second = side_lengths(pattern, seam)
        names = (" and ".join(dict.fromkeys(r.piece for r in s)) for s in (seam.first, seam.second))
        one, other = names
        ease = seam.planned_ease_mm
        agrees = abs(second - first - ease) <= SEAM_MM
        out.append(SeamSides(seam.name, one, first, other, second, ease, agrees))
    return tuple(out)


def _told(pattern: Pattern, fits: list[EdgeFit], notes: list[str]) -> None:
    for fit in fits:
        if fit.points and fit.tape_mm is not None and fit.length_mm is not None:
            off = fit.length_mm - fit.tape_mm
            if abs(off) > TAPE_MM:
                notes.append(
                    f"{fit.piece}, {fit.edge}: {fit.length_mm:.1f} mm through its points and "
                    f"{fit.tape_mm:.1f} mm by the tape; one of them is {abs(off):.1f} mm out"
                )
    if not pattern.seams:
        notes.append("no seam is named yet, so nothing can be said of what is sewn to what")
    if not any(p.levels for p in pattern.pieces):
        notes.append("no bust, waist or hip line is named, so no girth can be told")
