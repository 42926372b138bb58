"""The hips under what is run on past them: a hip line, and the ease it is held to."""

from dataclasses import dataclass, replace

from tracker.alterations.mouth import broken_by
from tracker.alterations.running_on import RunOn
from tracker.pattern.bodyside import BodySide
from tracker.pattern.marks import Level
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import write_tenths

HIP_LINE = "hip line"


@dataclass(frozen=True, slots=True)
class Hips:
    """The hips of the body something is run on past.

    Attributes:
        below_mm: how far below the waist they lie.
        girth_mm: how much they are round.
        ease_mm: the least ease that is planned there.
    """

    below_mm: float
    girth_mm: float
    ease_mm: float


def with_hip_line(made: RunOn, below_mm: float, side: BodySide) -> Piece:
    """Return a piece run on below its waist with a hip line, so far below it along both seams."""
    piece = made.piece
    (one_key, at_one), (two_key, at_two) = made.old_at
    one, two = piece.edge(*one_key), piece.edge(*two_key)
    last = one.parts[-1]
    stroke = (
        last.point_at(at_one + below_mm - (one.length - last.length)),
        two.parts[0].point_at(at_two - below_mm),
    )
    old = [level for level in piece.levels if level.name == HIP_LINE and level.side is side]
    level = Level(HIP_LINE, side, (stroke,))
    for dart in piece.darts:
        if dart.double_pointed:
            (level,) = broken_by((level,), dart)
    if old:
        level = replace(old[0], strokes=(*old[0].strokes, *level.strokes))
    others = (kept for kept in piece.levels if kept not in old)
    return replace(piece, levels=(*others, level))


def planned_at_the_hips(pattern: Pattern, hips: Hips) -> tuple[Pattern, list[str]]:
    """Return the pattern with its ease at the hips planned, and what to say of it.

    Planned is what was drawn, and at least the least: a check finds what is short of that.
    """
    if HIP_LINE not in lines_of(pattern):
        return pattern, []
    finished = girth(pattern, HIP_LINE)
    left = finished - hips.girth_mm
    plan = [(line, mm) for line, mm in pattern.ease if line != HIP_LINE]
    ease = max(round(left, 1), hips.ease_mm)
    told = f"hip line {write_tenths(finished)} round, {write_tenths(hips.below_mm)} below the waist"
    if left < 0:
        told += f", on hips of {write_tenths(hips.girth_mm)}: it does not go over them"
    return replace(pattern, ease=(*plan, (HIP_LINE, ease))), [told]
