"""Laying two side panels underarm to underarm, grain to grain, and measuring between them."""

import cmath
import itertools
from collections.abc import Iterable
from dataclasses import dataclass, replace

from tracker.drafting.style_split import CannotPart
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Stroke
from tracker.pattern.piece import Piece

#: The two sides may differ by this: what a seam may differ by.
SIDES_MM = 1.5
#: A material line ends on an edge within this.
ON_EDGE_MM = 0.05


@dataclass(frozen=True)
class Laid:
    """A panel laid for joining: its grain plumb, its underarm on the other's.

    Attributes:
        piece: the panel, turned.
        side: its edge at the join.
        armhole: its edge above it.
        bottom: its edge below it.
        turned_rad: how far it was turned; left positive.
        leads: the outline comes from the armhole to the join; the other's goes the other way.
    """

    piece: Piece
    side: Edge
    armhole: Edge
    bottom: Edge
    turned_rad: float
    leads: bool

    @property
    def underarm(self) -> Point:
        """The point it is joined at."""
        return self.side.drawn[0].start if self.leads else self.side.drawn[-1].end

    @property
    def foot(self) -> Point:
        """The lower end of its edge at the join."""
        return self.side.drawn[-1].end if self.leads else self.side.drawn[0].start

    def level(self, name: str) -> Level | None:
        """Return a material line by name, if it has it."""
        return next((v for v in self.piece.levels if v.name == name), None)

    def to_join(self, level: Level) -> Stroke | None:
        """Return the stroke of a material line that ends at the join, running towards it."""
        for stroke in level.strokes:
            for run in (stroke, stroke[::-1]):
                if self.side.nearest(run[-1])[1] < ON_EDGE_MM:
                    return run
        return None


def laid(piece: Piece, seam: str, waist: str) -> Laid:
    """Return a panel turned so that its grain, square to its waist line, is plumb.

    The grain line runs square to the straight from end to end of the waist line; the point at
    which it is drawn (the middle at the bust line) does not change its direction.

    Args:
        piece: the panel.
        seam: the name of its edge at the join.
        waist: the name of its waist line.

    Raises:
        CannotPart: a dart opens from the side, or there is no waist line to be square to.
    """
    side = piece.edge(seam)
    if side.mouths:
        raise CannotPart(
            f"the {side.mouths[0]} of the {piece.label} still opens from the {seam}; turn it shut "
            "first"
        )
    before, after = piece.before(side), piece.after(side)
    leads = before.name == "armhole"
    armhole, bottom = (before, after) if leads else (after, before)
    if armhole.name != "armhole":
        raise CannotPart(
            f"the {seam} of the {piece.label} does not end at the armhole, and the panels are "
            "joined at the underarm"
        )
    here = Laid(piece, side, armhole, bottom, 0.0, leads)
    across = _waist_across(here, waist)
    angle = -cmath.phase(across)
    turn = Motion.turn(here.underarm, angle)
    return _moved(replace(here, turned_rad=angle), turn)


def _waist_across(here: Laid, waist: str) -> Point:
    """The straight across a panel's waist line, from the wearer's view left to right."""
    level = here.level(waist)
    if level is None:
        raise CannotPart(
            f"the {here.piece.label} has no {waist}, and its grain line is square to it; draw "
            "the line first"
        )
    if here.bottom.name in level.edges:
        far = here.bottom.drawn[-1].end if here.leads else here.bottom.drawn[0].start
        return far - here.foot if here.leads else here.foot - far
    stroke = here.to_join(level)
    if stroke is None:
        raise CannotPart(f"the {waist} of the {here.piece.label} does not reach the side")
    return stroke[0] - stroke[-1] if here.leads else stroke[-1] - stroke[0]


def met(one: Laid, other: Laid) -> Laid:
    """Return the second panel shifted so that its underarm is the first's."""
    return _moved(other, Motion.move(one.underarm - other.underarm))


def _moved(here: Laid, motion: Motion) -> Laid:
    piece = here.piece
    moved = replace(
        piece,
        edges=tuple(replace(e, parts=tuple(p.moved(motion) for p in e.drawn),
                            bases=tuple(b.moved(motion) for b in e.bases)) for e in piece.edges),
        darts=tuple(replace(d, legs=(d.legs[0].moved(motion), d.legs[1].moved(motion)))
                    for d in piece.darts),
        levels=tuple(replace(v, strokes=tuple(tuple(motion.of(p) for p in s) for s in v.strokes))
                     for v in piece.levels),
        marks=tuple(replace(m, point=motion.of(m.point)) for m in piece.marks),
    )  # fmt: skip
    return replace(
        here,
        piece=moved,
        side=moved.edge(*here.side.key),
        armhole=moved.edge(*here.armhole.key),
        bottom=moved.edge(*here.bottom.key),
    )


def refuse_unequal(one: Laid, other: Laid) -> None:
    """Refuse sides of different length.

    Raises:
        CannotPart: they differ by more than 1.5 mm.
    """
    off = one.side.length - other.side.length
    if abs(off) > SIDES_MM:
        longer = one if off > 0 else other
        raise CannotPart(
            f"the side of the {longer.piece.label} is {abs(off):.1f} mm longer than the other; "
            f"side panels are joined where the two differ by at most {SIDES_MM} mm: true the "
            "side seam first"
        )


@dataclass(frozen=True, slots=True)
class Between:
    """What lies between two panels at one line, before anything is done about it.

    Attributes:
        line: its name.
        gap_mm: how far apart they are there, along the line; an overlap is negative.
        below_mm: how far below the underarm.
        outline: it is the outline's own bottom edge.
    """

    line: str
    gap_mm: float
    below_mm: float
    outline: bool


def between(one: Laid, other: Laid) -> tuple[Between, ...]:
    """Return the gap or overlap at every line both panels have, from the top down."""
    found = []
    for level in one.piece.levels:
        theirs = other.level(level.name)
        if theirs is None:
            continue
        if one.bottom.name in level.edges:
            if other.bottom.name not in theirs.edges:
                raise CannotPart(
                    f"the {level.name} is the lower edge of the {one.piece.label} but not of the "
                    f"{other.piece.label}; bring the panels to one length first"
                )
            gap = (one.foot - other.foot).real
            middle = (one.foot + other.foot) / 2
            found.append(Between(level.name, gap, (one.underarm - middle).imag, True))
            continue
        mine, its = one.to_join(level), other.to_join(theirs)
        if mine is None or its is None:
            continue
        strokes = joined_stroke(its, mine)
        gap = length(strokes) - length((mine, its))
        middle = (mine[-1] + its[-1]) / 2
        found.append(Between(level.name, gap, (one.underarm - middle).imag, False))
    return tuple(sorted(found, key=lambda b: b.below_mm))


def joined_stroke(left: Stroke, right: Stroke) -> tuple[Stroke, ...]:
    """Return one line from two that run towards the join, or both cut back where they overlap."""
    if left[-1].real <= right[-1].real:
        return ((*left, *right[::-1]),)
    x = (left[-1].real + right[-1].real) / 2
    return _cut(left, x, keep_left=True), _cut(right, x, keep_left=False)[::-1]


def _cut(stroke: Stroke, x: float, *, keep_left: bool) -> Stroke:
    out = [stroke[0]]
    for a, b in itertools.pairwise(stroke):
        if (b.real > x) if keep_left else (b.real < x):
            share = (x - a.real) / (b.real - a.real)
            out.append(a + (b - a) * share)
            break
        out.append(b)
    return tuple(out)


def length(strokes: Iterable[Stroke]) -> float:
    """Return the length of strokes, millimetres."""
    return sum(abs(b - a) for s in strokes for a, b in itertools.pairwise(s))


def crossing_mm(edge: Edge, stroke: Stroke) -> float | None:
    """Return how far along an edge a stroke ends on it, or nothing."""
    for end in (stroke[0], stroke[-1]):
        along, gap = edge.nearest(end)
        if gap < ON_EDGE_MM:
            return along
    return None
