"""A piece opened out across the centre: its two halves, and what is made of them again."""

from dataclasses import replace

from tracker.geometry.curve import Curve
from tracker.geometry.point import cross, unit
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace

_HALVES = (BodySide.RIGHT, BodySide.LEFT)
#: The centre's ends lie this near its line, and two halves' ends this near one another.
MEET_MM = 0.01


def centre_line(piece: Piece) -> Level:
    """Return the line a piece was on the fold at.

    Raises:
        PatternError: it was not opened out, or has edges that belong to neither half.
    """
    sides = [e.side for e in piece.edges]
    changes = sum(a is not b for a, b in zip(sides, (*sides[1:], sides[0]), strict=True))
    line = next((v for v in piece.levels if v.side is BodySide.CENTRE and v.strokes), None)
    if line is None or set(sides) != set(_HALVES) or changes != 2:
        raise PatternError(
            f"the {piece.label} is cut in one across the centre and is not a front or back that "
            "was opened out, so it has no two halves"
        )
    return line


def halves_of(piece: Piece) -> tuple[Piece, Piece]:
    """Return the right and the left half of a piece that was opened out, each with a centre edge.

    Raises:
        PatternError: it has no two halves with a straight centre between them.
    """
    line = centre_line(piece)
    start, end = line.strokes[0][0], line.strokes[-1][-1]
    across = next((d.name for d in piece.darts if d.side is BodySide.CENTRE), None)
    if across is not None:
        raise PatternError(
            f"the {across} of the {piece.label} lies across the centre, so its two halves are not "
            "altered one by one"
        )
    along = unit(end - start)
    mirror = Motion.mirror(start, end)
    halves = []
    for side in _HALVES:
        mine = _in_order(piece, side)
        one, other = mine[-1], mine[0]
        a, b = one.drawn[-1].end, other.drawn[0].start
        if any(abs(cross(along, p - start)) > MEET_MM for p in (a, b)):
            raise PatternError(
                f"the two halves of the {piece.label} do not meet at its {line.name} any more"
            )
        centre = Edge(line.name, side, one.end, other.start, (Curve.line(a, b),))
        grain = piece.grain
        if grain is not None and side is BodySide.LEFT:
            grain = mirror.of(grain[0]), mirror.of(grain[1])
        halves.append(
            replace(
                piece,
                side=side,
                edges=(centre, *mine),
                darts=tuple(d for d in piece.darts if d.side is side),
                notches=(
                    *(n for n in piece.notches if n.side is side),
                    *_centre_notches(piece, centre),
                ),
                levels=tuple(v for v in piece.levels if v.side is side),
                marks=tuple(m for m in piece.marks if m.side is side),
                grain=grain,
                copies=1,
                cut="cut 1",
            )
        )
    return halves[0], halves[1]


def _centre_notches(piece: Piece, centre: Edge) -> tuple[Notch, ...]:
    """The marks that lie on the centre, notches of it again."""
    out = []
    for mark in piece.marks:
        if mark.side is BodySide.CENTRE:
            along, off = centre.nearest(mark.point)
            if off <= MEET_MM:
                # From the same corner in either half, which run opposite ways.
                right = centre.side is BodySide.RIGHT
                corner, away = (
                    (centre.start, along) if right else (centre.end, centre.length - along)
                )
                out.append(Notch(mark.name, centre.side, centre.name, corner, away))
    return tuple(out)


def _in_order(piece: Piece, side: BodySide) -> tuple[Edge, ...]:
    """A half's edges from the centre round to the centre."""
    edges = piece.edges
    first = next(k for k, e in enumerate(edges) if e.side is side and edges[k - 1].side is not side)
    around = (*edges[first:], *edges[:first])
    return tuple(e for e in around if e.side is side)


def whole_again(piece: Piece, right: Piece, left: Piece) -> Piece | None:
    """Put two halves together again; nothing where their centres are no longer alike.

    Args:
        piece: the piece the halves were taken from.
        right: its right half, altered.
        left: its left half, altered.
    """
    line = centre_line(piece)
    one, other = right.edge(line.name, BodySide.RIGHT), left.edge(line.name, BodySide.LEFT)
    # A mirrored half runs the other way round.
    a, b = one.drawn[0].start, one.drawn[-1].end
    if abs(a - other.drawn[-1].end) > MEET_MM or abs(b - other.drawn[0].start) > MEET_MM:
        return None
    fresh = {e.key: e for half in (right, left) for e in half.edges}
    # A half that was not altered stays; the other one's ends are put on it to the last digit.
    if all(e is one or e == piece.edge(*e.key) for e in right.edges):
        half, middle, there = left, other, (b, a)
    else:
        half, middle, there = right, one, (other.drawn[-1].end, other.drawn[0].start)
        a, b = there
    last, first = half.before(middle), half.after(middle)
    fresh[last.key] = replace(last, parts=(*last.drawn[:-1], last.drawn[-1].ended_at(there[0])))
    first = fresh[first.key]
    fresh[first.key] = replace(first, parts=(first.drawn[0].started_at(there[1]), *first.drawn[1:]))
    darts = {d.key: d for half in (right, left) for d in half.darts}
    notches = {n.key: n for half in (right, left) for n in half.notches}
    marks = {(m.name, m.side): m for half in (right, left) for m in half.marks}
    return replace(
        piece,
        edges=tuple(fresh[e.key] for e in piece.edges),
        darts=tuple(darts[d.key] for d in piece.darts),
        notches=tuple(notches[n.key] for n in piece.notches),
        levels=(*right.levels, *left.levels, replace(line, strokes=((a, b),))),
        marks=tuple(marks.get(m.key, m) for m in piece.marks),
        grain=right.grain,
    )


def as_a_pair(pattern: Pattern, piece: Piece, right: Piece, left: Piece) -> tuple[Pattern, Trace]:
    """Cut an opened-out piece as a right and a left one, sewn together at the centre.

    Args:
        pattern: the pattern.
        piece: the piece that is opened out.
        right: its right half, as ``halves_of`` gives it.
        left: its left half.
    """
    name = centre_line(piece).name
    pieces = tuple(
        p for old in pattern.pieces for p in ((right, left) if old.key == piece.key else (old,))
    )
    seam = Seam(
        name, BodySide.CENTRE, (Run(piece.name, name, BodySide.RIGHT),),
        (Run(piece.name, name, BodySide.LEFT, backward=True),),
    )  # fmt: skip
    was = piece.name, str(piece.side)
    renamed = (
        *(Renamed("piece", was, (p.name, str(p.side))) for p in (right, left)),
        Renamed("seam", ("", ""), ("", name)),
    )
    fates = tuple(Fate(None, Stretch.whole(p, p.edge(name, p.side))) for p in (right, left))
    return replace(pattern, pieces=pieces, seams=(*pattern.seams, seam)), Trace(fates, renamed)


__all__ = ["as_a_pair", "centre_line", "halves_of", "whole_again"]
