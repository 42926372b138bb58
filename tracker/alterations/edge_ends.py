"""Cutting an edge shorter at one end, or running it on, with its notches and its trace."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from tracker.alterations.told import mm
from tracker.drafting.style_region import Region, joined_strokes, strokes_by_region
from tracker.geometry.curve import Curve
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch
from tracker.pattern.walk import notch_on_edge


@dataclass(frozen=True, slots=True)
class EdgeEnd:
    """One end of an edge."""

    edge: Edge
    at_start: bool

    @property
    def room_mm(self) -> float:
        """How much lies between this end and a dart's mouth, or the edge's other end."""
        parts = self.edge.drawn
        return (parts[0] if self.at_start else parts[-1]).length


def moved_end(piece: Piece, end: EdgeEnd, by_mm: float) -> tuple[Piece, list[Fate]]:
    """Return a piece with an edge cut shorter at an end (or run on straight, when negative).

    Its neighbour there is not changed. Notches stay on their cloth; one that was cut away with
    it goes to the new end.
    """
    old = end.edge
    parts = list(old.drawn)
    index = 0 if end.at_start else -1
    part = parts[index]
    if by_mm > 0:
        cut = part.part(by_mm, part.length) if end.at_start else part.part(0.0, part.length - by_mm)
    elif end.at_start:
        cut = part.run_on(before_mm=-by_mm)
    else:
        cut = part.run_on(after_mm=-by_mm)
    parts[index] = _plain(cut)
    new = replace(old, parts=tuple(parts), bases=(), displacements=())
    # Where a place of the old edge is on the new one.
    shift = -by_mm if end.at_start else 0.0
    notches = []
    for notch in piece.notches:
        if (notch.edge, notch.side) == old.key:
            at = min(max(notch_on_edge(old, notch) + shift, 0.0), new.length)
            distance = at if notch.corner == new.start else new.length - at
            notch = replace(notch, distance_mm=distance)
        notches.append(notch)

    def stretch(edge: Edge, a: float, b: float) -> Stretch:
        return Stretch(piece.name, edge.name, edge.side, a, b)

    gone, more = max(by_mm, 0.0), max(-by_mm, 0.0)
    if end.at_start:
        fates = [
            Fate(stretch(old, gone, old.length), stretch(new, more, new.length), still=True),
            Fate(stretch(old, 0.0, gone), None) if gone else Fate(None, stretch(new, 0.0, more)),
        ]
    else:
        kept = old.length - gone
        fates = [
            Fate(stretch(old, 0.0, kept), stretch(new, 0.0, new.length - more), still=True),
            Fate(stretch(old, kept, old.length), None)
            if gone
            else Fate(None, stretch(new, new.length - more, new.length)),
        ]
    return replace(piece.with_edge(new), notches=tuple(notches)), fates


def _plain(line: Curve) -> Curve:
    """A straight line run on straight is one straight line."""
    points = [line.start, *(run[-1] for run in line.runs)]
    if any(len(run) > 1 for run in line.runs) or len(points) < 3:
        return line
    along = (points[-1] - points[0]) / abs(points[-1] - points[0])
    if all(abs(((p - points[0]) * along.conjugate()).imag) < 1e-9 for p in points):
        return Curve.line(points[0], points[-1])
    return line


def within_the_piece(piece: Piece, lines: Sequence[Curve]) -> Piece:
    """Return a piece with its material lines cut off at lines it was drawn anew on."""
    region = Region(piece.plain_ring)
    levels = []
    for level in piece.levels:
        strokes = joined_strokes(strokes_by_region(level.strokes, lines, [region])[0])
        if strokes or level.edges:
            levels.append(replace(level, strokes=strokes) if strokes != level.strokes else level)
    return replace(piece, levels=tuple(levels))


def lengths_told(before: Pattern, after: Pattern, names: Iterable[str]) -> list[str]:
    """Say how long edges of some names are now, piece by piece, where that changed."""
    told = []
    for piece in after.pieces:
        for edge in piece.edges:
            if edge.name in names and piece.has_outline:
                was = before.piece(*piece.key).edge(*edge.key).length
                if abs(was - edge.length) > 0.05:
                    told.append(
                        f"{edge.name} of the {piece.label}: {mm(round(edge.length, 1))}, "
                        f"{mm(round(was, 1))} before"
                    )
    return list(dict.fromkeys(told))


__all__ = ["EdgeEnd", "lengths_told", "moved_end", "within_the_piece"]
