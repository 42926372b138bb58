"""One body side: a piece drawn for both is split into the wearer's right and left."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.profile import Profile
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Displacement, Edge
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace
from tracker.pattern.walk import notch_on_edge

_SIDES = (BodySide.RIGHT, BodySide.LEFT)
_ABOUT_CENTRE = Motion(factor=-1 + 0j, mirrored=True)


@dataclass(frozen=True)
class Split:
    """A pattern with pieces split, and what became of them."""

    pattern: Pattern
    trace: Trace


def split_sides(pattern: Pattern, names: Iterable[str]) -> Split:
    """Split the named pieces that stand for both sides.

    A piece on the fold is unfolded into one whole piece whose centre becomes a line on it;
    any other becomes a right and a left piece. Seams follow. A piece without an outline stays one:
    which side is meant is marked on the paper.
    """
    pieces: list[Piece] = []
    done: set[str] = set()
    trace = Trace()
    wanted = set(names)
    for piece in pattern.pieces:
        if piece.name not in wanted or piece.side is not BodySide.BOTH or not piece.has_outline:
            pieces.append(piece)
            continue
        done.add(piece.name)
        fresh = (unfolded(piece),) if piece.fold else (right_half(piece), mirrored(piece))
        pieces.extend(fresh)
        trace = trace.beside(_trace(piece, fresh))
    if not done:
        return Split(pattern, trace)
    seams: list[Seam] = []
    for seam in pattern.seams:
        seams.extend(_seams(seam, done))
    return Split(replace(pattern, pieces=tuple(pieces), seams=tuple(seams)), trace)


def right_half(piece: Piece) -> Piece:
    """Return the wearer's right piece of a pair."""
    return replace(_sided(piece, BodySide.RIGHT), side=BodySide.RIGHT, copies=1, cut="cut 1")


def mirrored(piece: Piece) -> Piece:
    """Return the wearer's left piece of a pair, mirrored about the centre line x = 0."""
    left = _sided(_mirror(piece, _ABOUT_CENTRE), BodySide.LEFT)
    return replace(left, side=BodySide.LEFT, copies=1, cut="cut 1")


def unfolded(piece: Piece) -> Piece:
    """Return a piece on the fold as one whole piece, its fold a line named after the edge.

    A notch on the fold is on no edge any more: it becomes a mark at the centre.
    """
    assert piece.fold is not None
    fold = piece.edge(piece.fold)
    start, end = fold.drawn[0].start, fold.drawn[-1].end
    over = [_over_the_centre(piece.dart(name, fold.side), start, end) for name in fold.mouths]
    right = _sided(piece, BodySide.RIGHT)
    left = _sided(_mirror(piece, Motion.mirror(start, end)), BodySide.LEFT)
    at = piece.edge_index(fold)
    half = (*right.edges[at + 1 :], *right.edges[:at])
    at_left = next(i for i, e in enumerate(left.edges) if e.name == piece.fold)
    other = (*left.edges[at_left + 1 :], *left.edges[:at_left])
    stops = [start, *(p for _, mouth in over for p in mouth), end]
    strokes = tuple(zip(stops[::2], stops[1::2], strict=True))
    centre = Level(piece.fold, BodySide.CENTRE, strokes)
    darts = (d for d in (*right.darts, *left.darts) if d.name not in fold.mouths)
    return replace(
        piece,
        side=BodySide.CENTRE,
        edges=half + other,
        darts=(*darts, *(dart for dart, _ in over)),
        notches=tuple(n for n in right.notches + left.notches if n.edge != fold.name),
        levels=(*right.levels, *left.levels, centre),
        marks=(*right.marks, *left.marks, *marked_at_the_centre(fold, piece.notches)),
        fold=None,
        copies=1,
        cut="cut 1, opened out",
        cuts=(),
    )


def marked_at_the_centre(centre: Edge, notches: Iterable[Notch]) -> tuple[Mark, ...]:
    """Return the notches of a centre edge as marks, for a piece that goes on over it."""
    return tuple(
        Mark(n.name, BodySide.CENTRE, centre.point_at(notch_on_edge(centre, n)))
        for n in notches
        if n.edge == centre.name
    )


def _over_the_centre(dart: Dart, start: Point, end: Point) -> tuple[Dart, tuple[Point, Point]]:
    """A dart from the fold opened out, two points and its widest place between them; and that."""
    along = end - start
    met = [with_line(leg, start, along) for leg in dart.legs]
    a, b = (
        found[0].point if found else foot
        for found, foot in zip(met, (dart.mouth_start, dart.mouth_end), strict=True)
    )
    far = Motion.mirror(start, end).of(dart.pivot)
    legs = Curve.line(dart.pivot, a, far), Curve.line(dart.pivot, b, far)
    return replace(dart, side=BodySide.CENTRE, legs=legs, mouth=None), (a, b)


def _sided(piece: Piece, side: BodySide) -> Piece:
    def to(s: BodySide) -> BodySide:
        return side if s is BodySide.BOTH else s

    return replace(
        piece,
        edges=tuple(replace(e, side=to(e.side)) for e in piece.edges),
        darts=tuple(replace(d, side=to(d.side)) for d in piece.darts),
        notches=tuple(replace(n, side=to(n.side)) for n in piece.notches),
        levels=tuple(replace(v, side=to(v.side)) for v in piece.levels),
        marks=tuple(replace(m, side=to(m.side)) for m in piece.marks),
        cuts=tuple(c.sided(side) for c in piece.cuts),
        earlier=(),
    )


def _mirror(piece: Piece, motion: Motion) -> Piece:
    def curve(c: Curve) -> Curve:
        return c.moved(motion).reversed

    def edge(e: Edge) -> Edge:
        whole = e.base_length if e.parts else 0.0
        return replace(
            e,
            start=e.end,
            end=e.start,
            parts=tuple(curve(p) for p in reversed(e.parts)),
            mouths=e.mouths[::-1],
            bases=tuple(curve(b) for b in reversed(e.bases)),
            displacements=tuple(
                Displacement(
                    d.step, Profile(tuple((whole - s, v) for s, v in reversed(d.profile.knots)))
                )
                for d in e.displacements
            ),
        )

    def dart(d: Dart) -> Dart:
        if d.double_pointed:
            return replace(d, legs=(d.legs[1].moved(motion), d.legs[0].moved(motion)))
        return replace(d, legs=(curve(d.legs[1]), curve(d.legs[0])))

    def points(stroke: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(motion.of(p) for p in stroke)

    return replace(
        piece,
        edges=tuple(edge(e) for e in reversed(piece.edges)),
        darts=tuple(dart(d) for d in piece.darts),
        levels=tuple(replace(v, strokes=tuple(points(s) for s in v.strokes)) for v in piece.levels),
        marks=tuple(replace(m, point=motion.of(m.point)) for m in piece.marks),
        cuts=tuple(c.mirrored(motion) for c in piece.cuts),
        grain=None
        if piece.grain is None
        else (motion.of(piece.grain[0]), motion.of(piece.grain[1])),
    )


def _seams(seam: Seam, split: set[str]) -> tuple[Seam, ...]:
    runs = (*seam.first, *seam.second)
    if not any(r.piece in split and r.side is BodySide.BOTH for r in runs):
        return (seam,)

    def to(side: BodySide, runs: tuple[Run, ...]) -> tuple[Run, ...]:
        return tuple(
            replace(r, side=side) if r.piece in split and r.side is BodySide.BOTH else r
            for r in runs
        )

    def turned(runs: tuple[Run, ...]) -> tuple[Run, ...]:
        # A mirrored piece's edges run the other way round.
        return tuple(
            replace(r, side=BodySide.LEFT, backward=not r.backward)
            if r.piece in split and r.side is BodySide.BOTH
            else r
            for r in runs
        )

    if seam.side is BodySide.CENTRE:
        return (replace(seam, first=to(BodySide.RIGHT, seam.first), second=turned(seam.second)),)
    if seam.side is BodySide.BOTH:
        return (
            replace(
                seam,
                side=BodySide.RIGHT,
                first=to(BodySide.RIGHT, seam.first),
                second=to(BodySide.RIGHT, seam.second),
            ),
            replace(seam, side=BodySide.LEFT, first=turned(seam.first), second=turned(seam.second)),
        )
    if seam.side is BodySide.LEFT:
        return (replace(seam, first=turned(seam.first), second=turned(seam.second)),)
    return (replace(seam, first=to(seam.side, seam.first), second=to(seam.side, seam.second)),)


def _trace(old: Piece, fresh: tuple[Piece, ...]) -> Trace:
    fates: list[Fate] = []
    for edge in old.edges:
        if not edge.parts:
            continue
        was = Stretch.whole(old, edge)
        if edge.name == old.fold:
            fates.append(Fate(was, None))
            continue
        for piece in fresh:
            for now in piece.edges:
                if now.name == edge.name and now.side in _SIDES:
                    fates.append(
                        Fate(was, Stretch.whole(piece, now), now.side is BodySide.LEFT, still=True)
                    )
    renamed = [Renamed("piece", (old.name, str(old.side)), (p.name, str(p.side))) for p in fresh]
    return Trace(tuple(fates), tuple(renamed))
