"""Seams bent out, or in, below a line, so that the hem they run down to is wider or narrower.

Each edge is bent over a stretch and is rigid below it: it keeps its length, so that both sides of
a seam still match and the hem stays as far from the line as it was. The hem keeps its corners'
angles and runs from one to the other in the shape it had.
"""

import math
from dataclasses import replace

from tracker.alterations.down_to_hem import SeamDown
from tracker.geometry import bezier
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turned
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.levels import level_again
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.trace import Fate, Stretch, Trace
from tracker.pattern.walk import walked

#: A seam is bent over this much, at most this share of what lies below the line.
_BENT_MM, _BENT_SHARE = 90.0, 0.4
#: A seam is bent by no more than this.
MOST_RAD = math.radians(40)
_LEAST_MM = 20.0

Key = tuple[str, BodySide]


def flared(
    pattern: Pattern, seams: tuple[SeamDown, ...], hem: str, turn_rad: float
) -> tuple[Pattern, Trace]:
    """Return a pattern with every edge of some seams bent out by an angle, and what became of it.

    Args:
        pattern: the pattern.
        seams: the seams, each with the place it begins at.
        hem: the hem's name.
        turn_rad: the angle; negative bends them in.

    Raises:
        PatternError: a seam begins too near the hem, or a dart opens from the hem.
    """
    trace = Trace()
    for down in seams:
        for seam in [s for s in pattern.seams if s.name == down.seam and not s.on_itself]:
            for runs in (seam.first, seam.second):
                run, begin = _last(pattern, runs, down, hem)
                pattern, made = _bent(pattern, run, begin, hem, turn_rad)
                trace = trace.then(Trace(tuple(made)))
    return pattern, trace


def _last(pattern: Pattern, runs: tuple[Run, ...], down: SeamDown, hem: str) -> tuple[Run, float]:
    """The edge of a side that ends on the hem, and how far down it the bend begins."""
    side = walked(pattern, runs)
    step = side[-1]
    piece = pattern.piece(step.run.piece, step.run.side)
    onward = piece.before(step.edge) if step.run.backward else piece.after(step.edge)
    at = down.distance_mm
    if onward.name == hem:
        return step.run, max(at - step.from_mm, 0.0)
    step = side[0]
    return step.run, max(at - (side[-1].to_mm - step.to_mm), 0.0)


def _bent(
    pattern: Pattern, run: Run, begin_mm: float, hem: str, turn_rad: float
) -> tuple[Pattern, list[Fate]]:
    piece = pattern.piece(run.piece, run.side)
    edge = piece.edge(run.edge, run.side)
    ahead = piece.after(edge).name == hem  # going round, the hem comes after the edge
    foot = piece.after(edge) if ahead else piece.before(edge)
    below = edge.length - begin_mm
    if below < _LEAST_MM:
        raise PatternError(
            f"the {edge.name} of the {piece.label} has only {below:.0f} mm below the line, too "
            f"little to be flared over; begin at least {_LEAST_MM:.0f} mm above the {hem}"
        )
    if len(foot.parts) != 1:
        raise PatternError(
            f"a dart opens from the {hem} of the {piece.label}; close it before the {hem} is flared"
        )
    # Ahead of the hem the piece lies to the left of the edge as it goes down.
    angle = -turn_rad if ahead else turn_rad
    part = edge.drawn[-1] if ahead else edge.drawn[0].reversed
    above = edge.length - part.length
    line, motion = _line_bent(part, max(begin_mm - above, 0.0), angle)
    parts = (*edge.drawn[:-1], line) if ahead else (line.reversed, *edge.drawn[1:])
    fresh = replace(edge, parts=parts, bases=(), displacements=())
    new_hem = replace(
        foot,
        parts=(_hem_turned(foot.drawn[0], motion, angle, at_start=ahead),),
        bases=(),
        displacements=(),
    )
    new = piece.with_edge(fresh).with_edge(new_hem)
    keys = [edge.key, foot.key]
    new = replace(new, levels=tuple(level_again(v, piece, new, keys) for v in piece.levels))
    fates = _fates(piece, edge, fresh, begin_mm if ahead else below, ahead)
    fates.append(Fate(Stretch.whole(piece, foot), Stretch.whole(new, new_hem)))
    return pattern.with_pieces(new), fates


def _line_bent(line: Curve, begin_mm: float, angle: float) -> tuple[Curve, Motion]:
    """A line bent by an angle below a place, its length kept, and how its end moves."""
    bend = min(_BENT_MM, _BENT_SHARE * (line.length - begin_mm))
    middle = line.part(begin_mm, begin_mm + bend)
    count = 48
    at = middle.start
    for k in range(count):
        share = (k + 0.5) / count
        at += turned(middle.heading_at(bend * share), 0j, angle * share) * (bend / count)
    leaves, arrives = middle.start_heading, turned(middle.end_heading, 0j, angle)
    chord = at - middle.start
    for _ in range(6):
        # By how much the cubic is too long or too short, its chord is too.
        reach = abs(chord) / 3
        at = middle.start + chord
        curve = Curve.cubic(middle.start, middle.start + leaves * reach, at - arrives * reach, at)
        chord *= bend / curve.length
    motion = Motion.turn(middle.end, angle)
    motion = motion.then(Motion.move(at - middle.end))
    tail = line.part(begin_mm + bend, line.length).moved(motion)
    bent = curve.joined(tail.started_at(at))
    head = line.part(0.0, begin_mm) if begin_mm > 1e-6 else None
    return (head.joined(bent) if head else bent), motion


def _hem_turned(hem: Curve, motion: Motion, angle: float, *, at_start: bool) -> Curve:
    """A hem whose one end goes along with a seam, in place and direction, the other staying."""
    if not at_start:
        return _hem_turned(hem.reversed, motion, angle, at_start=True).reversed
    by = motion.of(hem.start) - hem.start
    lean = (turned(hem.start_heading, 0j, angle) - hem.start_heading) * hem.length
    # Hermite's cubic from there to nothing, level at the other end.
    added: tuple[Point, ...] = (by, by + lean / 3, 0j, 0j)
    out = []
    for segment, reach, long in zip(hem.segments, hem.reaches, hem.lengths, strict=True):
        more = bezier.between(added, reach / hem.length, min(1.0, (reach + long) / hem.length))
        out.append(tuple(p + d for p, d in zip(bezier.as_cubic(segment), more, strict=True)))
    return Curve.of(out)


def _fates(piece: Piece, old: Edge, new: Edge, upper_mm: float, ahead: bool) -> list[Fate]:
    """What became of an edge that is as it was down to a place."""

    def stretch(edge: Edge, a: float, b: float) -> Stretch:
        return Stretch(piece.name, edge.name, edge.side, a, b)

    off = 0.0 if ahead else new.length - old.length
    spans = ((0.0, upper_mm, ahead), (upper_mm, old.length, not ahead))
    ends = (0.0, upper_mm + off, new.length)
    return [
        Fate(stretch(old, a, b), stretch(new, c, d), still=still)
        for (a, b, still), c, d in zip(spans, ends, ends[1:], strict=False)
        if b - a > 1e-6
    ]


__all__ = ["MOST_RAD", "flared"]
