"""Parting a piece on a line from edge to edge: darts that end on it closed, those it cuts shared.

A dart closed into the line has its point moved onto the line first. A double-pointed dart the
line runs across becomes two darts that open from the new edges; one with a mouth stays where it
is named to (``crossed_darts``).
"""

import itertools
import math
from dataclasses import dataclass, replace

from tracker.alterations.crossed_darts import (
    Crossed,
    crossed_by,
    met_folded,
    sewn_shut,
)
from tracker.alterations.inner_darts import Inner, darts_opened, inner_across, way_round
from tracker.alterations.mouth import broken_by
from tracker.alterations.mouth_moved import mended
from tracker.alterations.parting_told import LeftOver, PartReport, Shut
from tracker.alterations.slash import CutAt
from tracker.alterations.turning import chained
from tracker.drafting.style_finish import NO_BEND_RAD, ends_again, with_grain
from tracker.drafting.style_follow import Panel, following, trace_of
from tracker.drafting.style_region import Region
from tracker.drafting.style_round import rounded_corner
from tracker.drafting.style_split import AT_END_MM, CannotPart, Cut, split_piece
from tracker.drafting.style_turn import turn_dart_shut
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, dot, turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam
from tracker.pattern.trace import Trace

#: A dart's point is moved onto the line by at most this much; common practice, no source.
MOST_MOVED_MM = 60.0
#: Where a dart was closed into the line the line is rounded over at most this far.
ROUNDED_MM = 40.0
#: A seam shorter than this has one pair of notches, a longer one two.
TWO_NOTCHES_MM = 120.0
_ON_MM = 0.05
_JOINT_MM = 0.05


@dataclass(frozen=True)
class PartLine:
    """A line a piece is to be parted on.

    Attributes:
        name: the name of the seam it makes.
        one: the edge it starts from, and
        one_mm: how far along that edge, as sewn.
        other: the edge it ends on, and
        other_mm: how far along that.
        line: the line.
        close: the darts to be closed into it.
        down: the dart whose legs it runs down at its end instead, if any; the line then ends at
            its point.
        new: the name of the part that gets a new name; and
        upper: whether that is the upper part.
        leave: the darts it runs across that stay.
    """

    name: str
    one: Edge
    one_mm: float
    other: Edge
    other_mm: float
    line: Curve
    close: tuple[str, ...]
    down: Dart | None
    new: str
    upper: bool
    leave: tuple[str, ...] = ()


@dataclass(frozen=True)
class Parted:
    """A pattern with a piece parted."""

    pattern: Pattern
    trace: Trace
    report: PartReport


def clear_of_joints(at: CutAt) -> CutAt:
    """Return a place moved onto a joint of the drawn line that lies within a hair of it.

    Cut just beside it, the line would keep a stretch too short to have a direction.
    """
    before = 0.0
    for part in at.edge.drawn:
        for reach in (*part.reaches, part.length):
            if abs(before + reach - at.at_mm) < _JOINT_MM:
                return CutAt(at.edge, before + reach)
        before += part.length
    return at


def part_piece(pattern: Pattern, piece: Piece, plan: PartLine) -> Parted:
    """Part a piece on a line.

    Raises:
        CannotPart: it cannot be drawn; the sentence says what would work.
    """
    return _Parting(pattern, piece, plan).done()


class _Parting:
    def __init__(self, pattern: Pattern, piece: Piece, plan: PartLine) -> None:
        self.pattern, self.old, self.plan = pattern, piece, plan
        self.moved: dict[str, float] = {}
        self.piece = self._points_on_the_line(piece)
        self.inner = inner_across(self.piece, plan.one.side, plan.line)
        self.left = crossed_by(self.piece, plan.one.side, plan.line, plan.leave)
        self.on_the_way: tuple[Inner | Crossed, ...] = tuple(
            sorted((*self.inner, *self.left), key=lambda i: i.first_mm)
        )
        self._refuse_crossings()

    def done(self) -> Parted:
        plan = self.plan
        ahead_line, behind_line = self._faces()
        cut = Cut(
            plan.name, plan.one, plan.one_mm, plan.other, plan.other_mm,
            ahead_line, behind_line, plan.down,
        )  # fmt: skip
        if plan.down:
            before = plan.other.parts[: plan.other.mouths.index(plan.down.name) + 1]
            cut = replace(cut, bottom_mm=sum(p.length for p in before))
        halves = split_piece(self.piece, cut)
        upper_ahead = self._higher(halves[0].piece) > self._higher(halves[1].piece)
        ordered = halves if upper_ahead else halves[::-1]
        names = (plan.new, self.old.name) if plan.upper else (self.old.name, plan.new)
        shut: list[Shut] = []
        panels = []
        for half, name in zip(ordered, names, strict=True):
            made, closed = self._closed(half.piece, name)
            shut += closed
            made = darts_opened(
                made, (cut.name, cut.top.side), self.on_the_way, ahead=half is halves[0]
            )
            if plan.down:
                made = self._rounded(made, plan.down.pivot)
            panels.append(Panel(self._named(made, name), half.sections))
        seam = self._seam((panels[0], panels[1]), cut)
        panels = [Panel(self._notched(p.piece, seam), p.sections) for p in panels]
        finished = panels[0], panels[1]
        done = settled(following(self.pattern, self.old, finished, seam))
        lengths = [p.piece.edge(cut.name, cut.top.side).length for p in finished]
        report = PartReport(
            seam=cut.name,
            parts=names,
            sides_mm=(lengths[0], lengths[1]),
            shut=tuple(shut),
            cut=tuple(i.dart.name for i in self.inner),
            left=tuple(LeftOver(c.dart.name, c.width_mm, c.at_mm) for c in self.left),
            down=plan.down.name if plan.down else "",
        )
        return Parted(done, trace_of(self.old, finished, seam), report)

    # -- before it is cut ----------------------------------------------------------------

    def _points_on_the_line(self, piece: Piece) -> Piece:
        """The piece with the points of the darts that are closed moved onto the line."""
        side = self.plan.one.side
        for name in self.plan.close:
            dart = piece.dart(name, side)
            if dart.double_pointed:
                raise CannotPart(
                    f"the {name} of the {piece.label} has two points; it is not closed into a "
                    "line but cut in two by one that runs across it"
                )
            middle = (dart.mouth_start + dart.mouth_end) / 2
            met = [
                c for c in with_line(self.plan.line, middle, -dart.axis)
                if c.second_mm > SAME_MM
            ]  # fmt: skip
            reach = dot(middle - dart.pivot, dart.axis)
            if not met:
                raise CannotPart(
                    f"the {name} of the {piece.label} does not point at the line, so it cannot be "
                    "closed into it; turn it first, or leave it out"
                )
            there = min(met, key=lambda c: abs(c.second_mm - reach))
            by = there.second_mm - reach
            if abs(by) > MOST_MOVED_MM:
                way = "short of" if by > 0 else "beyond"
                raise CannotPart(
                    f"the {name} of the {piece.label} ends {abs(by):.0f} mm {way} the line; lay "
                    f"the line within {MOST_MOVED_MM:.0f} mm of its point, or change the dart first"
                )
            self.moved[name] = by
            if abs(by) > SAME_MM:
                piece = _repointed(piece, dart, there.point)
        return piece

    def _refuse_crossings(self) -> None:
        piece, line = self.piece, self.plan.line
        pivots = [piece.dart(n, self.plan.one.side).pivot for n in self.plan.close]
        what = f"the {self.plan.name} line would cross the"
        for edge in piece.edges:
            for part in edge.drawn:
                for c in of_curves(line, part):
                    if AT_END_MM < c.first_mm < line.length - AT_END_MM:
                        raise CannotPart(
                            f"{what} {edge.name} of the {piece.label}; choose other places"
                        )
        crossed = {i.dart.key for i in self.on_the_way}
        for dart in piece.darts:
            if dart.key in crossed:
                continue
            for leg in dart.legs:
                for c in of_curves(line, leg):
                    inside = AT_END_MM < c.first_mm < line.length - AT_END_MM
                    if inside and all(abs(c.point - p) > _ON_MM for p in pivots):
                        raise CannotPart(
                            f"{what} {dart.name} of the {piece.label}; close that dart into it, "
                            "leave it (the rest opens from the new seam), choose other places, "
                            "or turn the dart first"
                        )
        if not Region(piece.plain_ring).holds(line.point_at(line.length / 2)) and not (
            self.on_the_way or pivots
        ):
            raise CannotPart(
                f"the {self.plan.name} line would lie outside the {piece.label}; choose other "
                "places"
            )

    # -- the cut -------------------------------------------------------------------------

    def _faces(self) -> tuple[Curve, Curve]:
        """The line as the part ahead of its start, going round, and as the other has it."""
        ahead, behind = self._detoured(True), self._detoured(False)
        if self.plan.down:
            one, two = self.plan.down.legs
            return ahead.joined(one.reversed), behind.joined(two)
        return ahead, behind

    def _detoured(self, right: bool) -> Curve:
        """The line with a way to the point of each dart it crosses and back, on one side.

        The part ahead of the line's start lies to the right of the line. A dart with a mouth is
        gone round by both parts: the one with the mouth closes on the way.
        """
        line, at = self.plan.line, 0.0
        bits: list[Curve] = []
        for met in self.on_the_way:
            bits.append(line.part(at, met.first_mm))
            at = met.second_mm
        bits.append(line.part(at, line.length) if at else line)
        ways = []
        for k, met in enumerate(self.on_the_way):
            if isinstance(met, Crossed):
                bits[k], bits[k + 1] = met_folded(bits[k], met, bits[k + 1])
                ways.append(met.detour)
            else:
                ways.append(way_round(met, right))
        out = bits[0]
        for way, bit in zip(ways, bits[1:], strict=True):
            out = out.ended_at(way.start).joined(way).joined(bit.started_at(way.end))
        return out

    def _higher(self, piece: Piece) -> float:
        grain = self.old.grain
        up = grain[1] - grain[0] if grain else 1j
        x0, y0, x1, y1 = piece.box
        return dot(complex((x0 + x1) / 2, (y0 + y1) / 2), up / abs(up))

    # -- after it ------------------------------------------------------------------------

    def _closed(self, half: Piece, name: str) -> tuple[Piece, list[Shut]]:
        """The part with its darts turned shut into the line, and the line rounded there."""
        shut = []
        side = self.plan.one.side
        for crossed in self.left:
            if any(d.key == crossed.dart.key for d in half.darts):
                keep = self._kept_edge(half, crossed.dart)
                half = sewn_shut(half, crossed, self.plan.name, keep)
        for dart_name in self.plan.close:
            if all((d.name, d.side) != (dart_name, side) for d in half.darts):
                continue
            dart = half.dart(dart_name, side)
            keep = self._kept_edge(half, dart)
            done = turn_dart_shut(half, dart.name, self.plan.name, keep)
            line = done.piece.edge(self.plan.name, side).parts[0]
            at = line.nearest(dart.pivot)[0]
            before = half.edge(self.plan.name, side).parts[0]
            was = _bend(before, before.nearest(dart.pivot)[0])
            gained = abs(_bend(line, at) - was)
            half = self._rounded(done.piece, dart.pivot)
            shut.append(Shut(dart_name, self.moved[dart_name], abs(done.angle_rad), gained, name))
        return half, shut

    def _rounded(self, half: Piece, pivot: Point) -> Piece:
        edge = half.edge(self.plan.name, self.plan.one.side)
        line = edge.parts[0]
        at = line.nearest(pivot)[0]
        reach = min(ROUNDED_MM, 0.7 * at, 0.7 * (line.length - at), 0.45 * self._apart())
        if abs(_bend(line, at)) < NO_BEND_RAD or reach < 1.0:
            return half
        new = rounded_corner(line, at, reach)
        return ends_again(half.with_edge(replace(edge, parts=(new,))), line, new)

    def _apart(self) -> float:
        """How near each other the points of the darts that are closed come, along the line."""
        at = sorted(
            self.plan.line.nearest(self.piece.dart(n, self.plan.one.side).pivot)[0]
            for n in self.plan.close
        )
        return min((b - a for a, b in itertools.pairwise(at)), default=math.inf)

    def _kept_edge(self, half: Piece, dart: Dart) -> str:
        """An edge of the part that stays: the fold, the centre, or the lower edge."""
        names = [e.name for e in half.edges if e.name not in (self.plan.name, dart.mouth)]
        for name in (half.fold, *(n for n in names if n.startswith("centre")), "waist", "hem"):
            if name in names:
                return str(name)
        return max(half.edges, key=lambda e: e.length if e.name in names else 0.0).name

    def _named(self, half: Piece, name: str) -> Piece:
        heading = self.old.grain[1] - self.old.grain[0] if self.old.grain else 1j
        cut = self.old.cut
        if self.old.fold and half.fold is None:
            cut = "cut 2, a pair" if self.old.side is BodySide.BOTH else "cut 1"
        named = with_grain(replace(half, name=name, cut=cut), heading, "")
        if name != self.old.name:
            named = replace(named, taken_from=None, traced=None)
        return named

    def _seam(self, panels: tuple[Panel, Panel], cut: Cut) -> Seam:
        runs = []
        for panel in panels:
            edge = panel.piece.edge(cut.name, cut.top.side)
            backward = edge.start != cut.top_corner
            runs.append((Run(panel.piece.name, edge.name, edge.side, backward),))
        lengths = [p.piece.edge(cut.name, cut.top.side).length for p in panels]
        count = 2 if min(lengths) > TWO_NOTCHES_MM else 1
        words = [f"{cut.name} notch"] if count == 1 else [f"{cut.name} notch {k}" for k in (1, 2)]
        names = [p.piece.name for p in panels]
        matches = tuple(Match(names[0], word, names[1], word) for word in words)
        side = cut.top.side
        return Seam(cut.name, side, runs[0], runs[1], matches)

    def _notched(self, piece: Piece, seam: Seam) -> Piece:
        run = next(r for r in (*seam.first, *seam.second) if r.piece == piece.name)
        edge = piece.edge(run.edge, run.side)
        top = edge.end if run.backward else edge.start
        count = len(seam.matches)
        fresh = tuple(
            Notch(m.first, edge.side, edge.name, top, edge.length * (k + 1) / (count + 1), 1)
            for k, m in enumerate(seam.matches)
        )
        return replace(piece, notches=(*piece.notches, *fresh))


def _bend(line: Curve, at: float) -> float:
    before, after = line.split(at)
    return turn_between(before.end_heading, after.start_heading)


def _repointed(piece: Piece, dart: Dart, pivot: Point) -> Piece:
    """The piece with a dart's straight legs drawn to another point on its middle."""
    fresh = replace(
        dart, legs=(Curve.line(dart.mouth_start, pivot), Curve.line(pivot, dart.mouth_end))
    )
    levels = broken_by(tuple(mended(v, dart) for v in piece.levels), fresh)
    levels = tuple(replace(v, strokes=chained(list(v.strokes))) for v in levels)
    return replace(piece.with_dart(fresh), levels=levels)


__all__ = [
    "PartLine", "Parted", "clear_of_joints", "part_piece",
]  # fmt: skip
