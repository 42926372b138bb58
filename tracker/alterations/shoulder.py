"""The two pieces of a shoulder seam: its neck point, its shoulder point, the armhole below it."""

from dataclasses import dataclass

from tracker.alterations.bodyside import Split
from tracker.alterations.together import split_together
from tracker.drafting.sleeve_armhole import EDGES as ARMHOLES
from tracker.geometry.point import Point, dot, left_of, unit
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import Walked, walked

SHOULDER_POINT = "shoulder point"
NECK_POINT = "neck point"
UNDERARM = "underarm point"


@dataclass(frozen=True)
class Half:
    """One piece's part in a shoulder seam.

    Attributes:
        side: the shoulder's edges from the neck to the shoulder point (several when panelled).
        tip: the piece at the shoulder point.
        armhole: its edge from there.
        armhole_ends_there: the shoulder point is the armhole's end, not its start.
        neck: the piece at the neck point.
        neckline: its edge from there.
        neckline_ends_there: the neck point is the neckline's end.
    """

    side: tuple[Walked, ...]
    tip: Piece
    armhole: Edge
    armhole_ends_there: bool
    neck: Piece
    neckline: Edge
    neckline_ends_there: bool

    @property
    def length(self) -> float:
        """The shoulder's length as sewn."""
        return self.side[-1].to_mm

    @property
    def shoulder_point(self) -> Point:
        """Where the shoulder point is."""
        part = self.armhole.drawn[-1 if self.armhole_ends_there else 0]
        return part.end if self.armhole_ends_there else part.start

    @property
    def under(self) -> Edge | None:
        """The side edge at the armhole's other end, where that is the underarm point."""
        if self.armhole_ends_there:
            edge = self.tip.before(self.armhole) if self.armhole.start == UNDERARM else None
        else:
            edge = self.tip.after(self.armhole) if self.armhole.end == UNDERARM else None
        # Where one piece goes through under the arm there is no side below it.
        return None if edge is None or edge.name in ARMHOLES else edge

    def from_tip(self, profile_knots: list[tuple[float, float]]) -> Profile:
        """Return a profile along the armhole's base given by distance from the shoulder point."""
        whole = self.armhole.base_length
        if not self.armhole_ends_there:
            return Profile(tuple(sorted(profile_knots)))
        return Profile(tuple(sorted((whole - u, v) for u, v in profile_knots)))

    def base_at(self, u: float) -> tuple[Point, Point]:
        """Return point and inward direction of the armhole's base, ``u`` from the shoulder."""
        whole = self.armhole.base_length
        s = min(max(whole - u if self.armhole_ends_there else u, 0.0), whole)
        for line in self.armhole.base_lines:
            if s <= line.length + 1e-9:
                return line.point_at(s), left_of(line.heading_at(s))
            s -= line.length
        line = self.armhole.base_lines[-1]
        return line.end, left_of(line.end_heading)

    def moved_by(self, shift: Point) -> Profile:
        """Return the profile that carries the armhole along a shift without changing its shape."""
        whole = self.armhole.base_length
        us = [whole * k / 10 for k in range(11)]
        knots = [(u, dot(shift, self.base_at(u)[1])) for u in us]
        # Past its ends the line goes on turning as it did, so that its direction is kept there.
        first = (knots[0][1] - dot(shift, self.base_at(2.0)[1])) / 2.0
        last = (knots[-1][1] - dot(shift, self.base_at(whole - 2.0)[1])) / 2.0
        before = [(-20.0, knots[0][1] + 20 * first), (-10.0, knots[0][1] + 10 * first)]
        after = [(whole + u, knots[-1][1] + u * last) for u in (10.0, 20.0)]
        return self.from_tip([*before, *knots, *after])

    def up_the_side(self) -> Point | None:
        """The direction in which the side runs on beyond the underarm."""
        edge = self.under
        if edge is None:
            return None
        if self.armhole_ends_there:
            return unit(edge.base_lines[-1].end_heading)
        return unit(-edge.base_lines[0].start_heading)


def halves(pattern: Pattern, seam: Seam) -> tuple[Half, Half]:
    """Return both pieces' parts in a shoulder seam.

    Raises:
        PatternError: the seam does not run from a neck point to a shoulder point, or what
            meets it there is no armhole and no neckline.
    """
    return _half(pattern, seam, seam.first), _half(pattern, seam, seam.second)


def _half(pattern: Pattern, seam: Seam, runs: tuple[Run, ...]) -> Half:
    steps = walked(pattern, runs)
    if steps[0].first_corner == SHOULDER_POINT:
        runs = tuple(Run(r.piece, r.edge, r.side, not r.backward) for r in reversed(runs))
        steps = walked(pattern, runs)
    if steps[0].first_corner != NECK_POINT or steps[-1].last_corner != SHOULDER_POINT:
        raise PatternError(
            f"the {seam.name} seam runs from the {steps[0].first_corner} to the "
            f"{steps[-1].last_corner}; a shoulder runs from the neck point to the shoulder point"
        )
    neck = pattern.piece(steps[0].run.piece, steps[0].run.side)
    tip = pattern.piece(steps[-1].run.piece, steps[-1].run.side)
    neckline = neck.after(steps[0].edge) if steps[0].run.backward else neck.before(steps[0].edge)
    armhole = tip.before(steps[-1].edge) if steps[-1].run.backward else tip.after(steps[-1].edge)
    return Half(
        steps,
        tip,
        armhole,
        steps[-1].run.backward,
        neck,
        neckline,
        not steps[0].run.backward,
    )


def shoulder_parts(pattern: Pattern, seam: str, side: BodySide) -> tuple[Seam, Split]:
    """Return the shoulder seam meant and the pattern split where one body side is meant."""
    found = pattern.seam(seam, side)
    names = {r.piece for r in (*found.first, *found.second)}
    return found, split_together(pattern, names, side)
