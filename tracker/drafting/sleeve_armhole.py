"""The armhole a sleeve is set into, found on a bodice of whatever pieces it has.

The edges called "armhole" are followed from piece to piece through the seams that join them:
from the underarm up the back to the shoulder, and down the front to the underarm again.
"""

from __future__ import annotations

from dataclasses import dataclass

from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run
from tracker.pattern.walk import Walked, notch_on_edge

EDGE, UNDERARM, SHOULDER = "armhole", "underarm point", "shoulder point"
#: What lies behind the underarm where one piece goes through under the arm; see
#: ``sleeve_underarm``.
BACK_EDGE = "back armhole"
EDGES = (EDGE, BACK_EDGE)
#: A notch this near the underarm is the underarm's own.
_AT_END_MM = 1.0


class NoArmhole(PatternError):
    """A bodice no sleeve can be set into as it is."""


@dataclass(frozen=True, slots=True)
class NotchThere:
    """A notch of the armhole, and how far from the underarm up the back it lies."""

    piece: str
    name: str
    at_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class Armhole:
    """One armhole, from the underarm up the back and down the front.

    Attributes:
        side: the wearer's side.
        runs: its edges in sewing order.
        length_mm: all of it.
        shoulder_mm: how far from its start the shoulder point lies.
        shoulder_piece: the back piece that has the shoulder point.
        notches: its notches in order.
    """

    side: BodySide
    runs: tuple[Run, ...]
    length_mm: float
    shoulder_mm: float
    shoulder_piece: str
    notches: tuple[NotchThere, ...]

    @property
    def back_mm(self) -> float:
        """From the underarm up the back to the shoulder."""
        return self.shoulder_mm

    @property
    def front_mm(self) -> float:
        """From the shoulder down the front to the underarm."""
        return self.length_mm - self.shoulder_mm

    @property
    def back_notch(self) -> NotchThere:
        """The lowest notch of the back, below which nothing is eased."""
        return self._lowest(behind=True)

    @property
    def front_notch(self) -> NotchThere:
        """The lowest notch of the front."""
        return self._lowest(behind=False)

    def _lowest(self, *, behind: bool) -> NotchThere:
        found = [n for n in self.notches if (n.at_mm < self.shoulder_mm) == behind]
        if not found:
            half = "back" if behind else "front"
            raise NoArmhole(
                f"the {half} armhole has no notch, so there is nowhere for the cap ease to end; "
                f"add one first, {'double' if behind else 'single'}, about 75 mm up from the "
                f"underarm point"
            )
        return found[0] if behind else found[-1]


def armholes(pattern: Pattern) -> tuple[Armhole, ...]:
    """Return the armholes of a pattern: one that stands for both, or the right and left one.

    Raises:
        NoArmhole: there is none that can be followed from the underarm round to it again.
    """
    sides = {e.side for p in pattern.pieces if p.layer == "shell" for e in p.edges
             if e.name in EDGES}  # fmt: skip
    if not sides:
        raise NoArmhole(
            "this pattern has no armhole edge to set a sleeve into; draft the bodice first"
        )
    if sides == {BodySide.BOTH}:
        return (_armhole(pattern, BodySide.BOTH),)
    return tuple(_armhole(pattern, side) for side in (BodySide.RIGHT, BodySide.LEFT))


_End = tuple[str, str]  # piece and corner


def _armhole(pattern: Pattern, side: BodySide) -> Armhole:
    here = [
        (p, e)
        for p in pattern.pieces
        if p.layer == "shell"
        for e in p.edges
        if e.name in EDGES and e.side in (side, BodySide.BOTH)
    ]
    for piece, edge in here:
        if not edge.parts:
            raise NoArmhole(
                f"the armhole of the {piece.label} was never drawn, so no cap can be drawn to it"
            )
    ends: dict[_End, Run] = {}
    starts: list[Run] = []
    for piece, edge in here:
        for corner, backward in ((edge.start, False), (edge.end, True)):
            run = Run(piece.name, edge.name, edge.side, backward=backward)
            if corner == UNDERARM:
                starts.append(run)
            else:
                ends[piece.name, corner] = run
    joints = _joints(pattern, side)
    ways = [_way(pattern, start, ends, joints) for start in starts]
    whole = [way for way in ways if way is not None]
    backs = [way for way in whole if _begins_behind(pattern, way)]
    if not backs:
        whose = "" if side is BodySide.BOTH else f"{side} "
        raise NoArmhole(
            f"the {whose}armhole cannot be followed from a side seam at the underarm over the "
            "shoulder to it again; a sleeve is set into a bodice with side and shoulder seams"
        )
    return _measured(pattern, side, backs[0])


def _joints(pattern: Pattern, side: BodySide) -> dict[_End, set[_End]]:
    """Which corners the seams lay on which."""
    out: dict[_End, set[_End]] = {}
    for seam in pattern.seams:
        if seam.side not in (side, BodySide.BOTH) or seam.on_itself:
            continue
        for at_end in (False, True):
            pair = []
            for runs in (seam.first, seam.second):
                run = runs[-1] if at_end else runs[0]
                edge = pattern.edge_of(run)
                pair.append((run.piece, edge.end if at_end != run.backward else edge.start))
            out.setdefault(pair[0], set()).add(pair[1])
            out.setdefault(pair[1], set()).add(pair[0])
    return out


def _way(
    pattern: Pattern, start: Run, ends: dict[_End, Run], joints: dict[_End, set[_End]]
) -> tuple[Run, ...] | None:
    """Follow the armhole from one underarm corner to another; nothing where it breaks off."""
    way: list[Run] = []
    run = start
    while len(way) <= len(ends):
        way.append(run)
        edge = pattern.edge_of(run)
        out = run.piece, edge.start if run.backward else edge.end
        if out[1] == UNDERARM:
            return tuple(way)
        onward = [e for e in joints.get(out, set()) if e in ends and e[0] != run.piece]
        if len(onward) != 1:
            return None
        run = ends[onward[0]]
    return None


def _begins_behind(pattern: Pattern, way: tuple[Run, ...]) -> bool:
    """A back is known by its name, or else by its double notch."""
    first, last = (pattern.piece(run.piece, run.side) for run in (way[0], way[-1]))
    if BACK_EDGE in (way[0].edge, way[-1].edge):
        return way[0].edge == BACK_EDGE
    if ("back" in first.name) != ("back" in last.name):
        return "back" in first.name
    return _most_notched(first) > _most_notched(last)


def _most_notched(piece: Piece) -> int:
    return max((n.count for n in piece.notches if n.edge in EDGES), default=0)


def _measured(pattern: Pattern, side: BodySide, way: tuple[Run, ...]) -> Armhole:
    at, shoulder = 0.0, None
    notches: list[NotchThere] = []
    for run in way:
        piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
        step = Walked(run, edge, at)
        at = step.to_mm
        if step.last_corner == SHOULDER and shoulder is None:
            shoulder = at, run.piece
        for notch in piece.notches:
            if (notch.edge, notch.side) == (edge.name, edge.side):
                where = step.on_side(notch_on_edge(edge, notch))
                notches.append(NotchThere(piece.name, notch.name, where, notch.count))
    if shoulder is None:
        raise NoArmhole("the armhole has no shoulder point, so the top of a cap has no place")
    notches = [n for n in notches if _AT_END_MM < n.at_mm < at - _AT_END_MM]
    notches.sort(key=lambda n: n.at_mm)
    return Armhole(side, way, at, *shoulder, tuple(notches))
