"""Walking a seam: distances along its two sides, and how the notches carry one to the other."""

import itertools
from dataclasses import dataclass

from tracker.errors import nearest_names
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.place import Place
from tracker.pattern.seam import Match, Run, Seam


class OffTheEnd(PatternError):
    """A reading that lies beyond the end of its seam or edge."""


@dataclass(frozen=True, slots=True)
class Walked:
    """One edge of a seam's side with the distance at which it begins along the side."""

    run: Run
    edge: Edge
    from_mm: float

    @property
    def to_mm(self) -> float:
        """Where it ends along the side."""
        return self.from_mm + self.edge.length

    def on_edge(self, distance_mm: float) -> float:
        """Return the distance from the edge's own start of a distance along the side."""
        rest = distance_mm - self.from_mm
        return self.edge.length - rest if self.run.backward else rest

    def on_side(self, distance_mm: float) -> float:
        """Return the distance along the side of a distance from the edge's own start."""
        rest = self.edge.length - distance_mm if self.run.backward else distance_mm
        return self.from_mm + rest

    @property
    def first_corner(self) -> str:
        """The corner at which the side reaches this edge."""
        return self.edge.end if self.run.backward else self.edge.start

    @property
    def last_corner(self) -> str:
        """The corner at which the side leaves this edge."""
        return self.edge.start if self.run.backward else self.edge.end


def walked(pattern: Pattern, runs: tuple[Run, ...]) -> tuple[Walked, ...]:
    """Return a side's edges with their distances."""
    out: list[Walked] = []
    at = 0.0
    for run in runs:
        edge = pattern.edge_of(run)
        out.append(Walked(run, edge, at))
        at += edge.length
    return tuple(out)


def side_lengths(pattern: Pattern, seam: Seam) -> tuple[float, float]:
    """Return the lengths of a seam's first and second side, millimetres."""
    first = walked(pattern, seam.first)[-1].to_mm
    return first, first if seam.on_itself else walked(pattern, seam.second)[-1].to_mm


def notch_on_edge(edge: Edge, notch: Notch) -> float:
    """Return a notch's distance from its edge's own start."""
    if notch.corner == edge.start:
        return notch.distance_mm
    if notch.corner == edge.end:
        return edge.length - notch.distance_mm
    raise UnknownName(
        f"the notch {notch.name!r} is measured from the {notch.corner}, "
        f"which is no end of the {edge.name} edge"
    )


def notch_on_side(pattern: Pattern, side: tuple[Walked, ...], piece: str, name: str) -> float:
    """Return the distance along a seam's side of a notch on it, or of a corner it runs through.

    A cap's shoulder notch meets the shoulder point itself, which needs no notch.
    """
    for step in side:
        if step.run.piece == piece:
            for notch in pattern.piece(piece, step.run.side).notches:
                if (notch.name, notch.side, notch.edge) == (name, step.edge.side, step.edge.name):
                    return step.on_side(notch_on_edge(step.edge, notch))
    for step in side:
        if step.run.piece == piece and name in (step.first_corner, step.last_corner):
            return step.from_mm if name == step.first_corner else step.to_mm
    raise UnknownName(f"no notch called {name!r} lies on that side of the seam")


def _pair(
    pattern: Pattern, first: tuple[Walked, ...], second: tuple[Walked, ...], match: Match
) -> tuple[float, float]:
    return (
        notch_on_side(pattern, first, match.first_piece, match.first),
        notch_on_side(pattern, second, match.second_piece, match.second),
    )


def stations(pattern: Pattern, seam: Seam) -> tuple[tuple[float, float], ...]:
    """Return the pairs of distances that meet: both ends and every matched notch, in order."""
    first, second = walked(pattern, seam.first), walked(pattern, seam.second)
    pairs = [_pair(pattern, first, second, m) for m in seam.matches]
    return tuple(sorted([(0.0, 0.0), *pairs, (first[-1].to_mm, second[-1].to_mm)]))


def eased_between(pattern: Pattern, seam: Seam) -> list[tuple[float, float, float]]:
    """Return each planned ease with where it begins and ends along the second side."""
    side = walked(pattern, seam.second)
    whole = side[-1].to_mm
    spots = {w.first_corner: w.from_mm for w in side} | {w.last_corner: w.to_mm for w in side}
    for match in seam.matches:
        spots[match.second] = notch_on_side(pattern, side, match.second_piece, match.second)
    out = []
    for ease in seam.ease:
        places = [spots[name] for name in (ease.start, ease.end) if name in spots]
        between = (min(places), max(places)) if len(set(places)) == 2 else (0.0, whole)
        out.append((ease.amount_mm, *between))
    return out


def across(pattern: Pattern, seam: Seam, first_mm: float) -> float:
    """Return the distance along the second side that meets one along the first.

    Through the matched notches, and proportionally between them.
    """
    if seam.on_itself:
        return first_mm
    for (a0, b0), (a1, b1) in itertools.pairwise(stations(pattern, seam)):
        if first_mm <= a1 + 1e-9:
            share = (first_mm - a0) / (a1 - a0) if a1 > a0 else 0.0
            return b0 + share * (b1 - b0)
    return side_lengths(pattern, seam)[1]


def seam_distance(pattern: Pattern, place: Place) -> float:
    """Return how far along its seam's first side a place lies.

    Raises:
        UnknownName: the seam has no such corner.
        OffTheEnd: the distance is longer than the seam.
    """
    assert place.seam is not None
    seam = pattern.seam(place.seam, place.side)
    return _along(walked(pattern, seam.first), place, f"the {seam.name} seam")


def edge_distance(pattern: Pattern, place: Place) -> float:
    """Return how far from its edge's own start a place lies.

    Raises:
        UnknownName: the edge has no such corner.
        OffTheEnd: the distance is longer than the edge.
    """
    assert place.piece is not None
    assert place.edge is not None
    edge = pattern.piece(place.piece, place.side).edge(place.edge)
    step = Walked(Run(place.piece, place.edge, edge.side), edge, 0.0)
    return _along((step,), place, f"the {edge.name} of the {place.piece}")


def _along(side: tuple[Walked, ...], place: Place, line: str) -> float:
    whole = side[-1].to_mm
    corners = {side[0].first_corner: 0.0} | {step.last_corner: step.to_mm for step in side}
    if place.corner not in corners:
        known = list(corners)
        raise UnknownName(
            f"{line} has no corner called {place.corner!r}; it runs from the "
            f"{' to the '.join(known)}.{nearest_names(place.corner, known)}"
        )
    from_mm = corners[place.corner]
    backward = from_mm == whole and len(corners) > 1
    room = whole if backward else whole - from_mm
    distance = place.distance_mm if place.distance_mm is not None else (place.fraction or 0) * room
    if distance > room + 0.05 or distance < 0:
        raise OffTheEnd(
            f"{distance:.0f} mm from the {place.corner} is off the end of {line}, which is "
            f"{room:.0f} mm long from there; give a distance from 0 to {room:.0f} mm"
        )
    distance = min(distance, room)
    return whole - distance if backward else from_mm + distance
