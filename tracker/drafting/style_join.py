"""Joining side panels without a side seam: one piece from princess seam to princess seam."""

import math
from dataclasses import dataclass, replace

from tracker.drafting.style_join_choice import DART_POINT_MM, JoinPlan
from tracker.drafting.style_join_edges import Drawn, armhole_of, bottom_of, double_pointed
from tracker.drafting.style_join_marks import Levels, joined_levels, joined_notches
from tracker.drafting.style_join_report import JoinReport, LineJoined
from tracker.drafting.style_join_trace import seams_after, trace_after
from tracker.drafting.style_join_turn import Between, Laid, between, laid, met, refuse_unequal
from tracker.drafting.style_split import CannotPart
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.checks import ring_fault
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import UnknownName
from tracker.pattern.marks import Mark
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

#: The corner the panels are joined at, and the mark that is left of it.
UNDERARM = "underarm point"
#: The dart's point lies at least this far above the waist.
LEAST_DART_MM = 40.0
#: A gap under this is none.
NO_GAP_MM = 0.005


@dataclass(frozen=True)
class Joined:
    """A pattern whose side panels are joined.

    Attributes:
        pattern: the new pattern, settled to the store's rounding.
        trace: what became of the material.
        reports: the figures, one for each joined pair of panels.
    """

    pattern: Pattern
    trace: Trace
    reports: tuple[JoinReport, ...]


def join_side_panels(
    pattern: Pattern, plan: JoinPlan | None = None, side: BodySide = BodySide.BOTH
) -> Joined:
    """Join the side front and the side back panel into one, without a side seam.

    They meet at the underarm and are turned until their grain lines are parallel and plumb.
    What the panel seams take or give at a line (``plan.choices``) is stated in the report and
    left to be taken in or let out there.

    Args:
        pattern: a panelled bodice.
        plan: what she chose; the waist's gap goes into a plumb dart if not told.
        side: the wearer's side; both where the panels are drawn for both.

    Raises:
        CannotPart: they cannot be joined; the sentence says why.
    """
    plan = plan or JoinPlan()
    joined = Joined(pattern, Trace(), ())
    for at in _sides(pattern, plan, side):
        now = _one_side(joined.pattern, plan, at)
        trace = joined.trace.then(now.trace) if joined.reports else now.trace
        joined = Joined(now.pattern, trace, (*joined.reports, *now.reports))
    return joined


def _sides(pattern: Pattern, plan: JoinPlan, side: BodySide) -> tuple[BodySide, ...]:
    missing = [n for n in (plan.front, plan.back) if all(p.name != n for p in pattern.pieces)]
    if missing:
        try:
            pattern.piece(missing[0])
        except UnknownName as fault:
            raise CannotPart(
                f"side panels are joined after the front and the back were panelled: {fault}"
            ) from fault
    out = tuple(
        p.side for p in pattern.pieces if p.name == plan.front and side in (BodySide.BOTH, p.side)
    )
    if not out:
        raise CannotPart(
            f"the {plan.front} is drawn for both sides at once; open it out for the {side} side "
            "first"
        )
    return out


def _one_side(pattern: Pattern, plan: JoinPlan, side: BodySide) -> Joined:
    front, back = pattern.piece(plan.front, side), pattern.piece(plan.back, side)
    _refuse(pattern, plan, front, back)
    panels = laid(front, plan.seam, plan.waist), laid(back, plan.seam, plan.waist)
    one, other = panels if panels[0].leads else panels[::-1]
    if one.leads == other.leads:
        raise CannotPart(
            f"the {plan.front} and the {plan.back} lie the same way round; lay one as worn first"
        )
    refuse_unequal(one, other)
    other = met(one, other)
    gaps = between(one, other)
    told = {b.line for b in gaps}
    for choice in plan.choices:
        if choice.line not in told:
            raise CannotPart(
                f"the panels have no {choice.line} that reaches the join; they have "
                f"{', '.join(b.line for b in gaps)}"
            )
    piece, arm, bottom, dart, levels = _piece(plan, one, other, gaps)
    fault = ring_fault(piece)
    if fault:
        raise CannotPart(f"joined like this {fault}; choose other shares, or true the sides first")
    trace, names = trace_after((one, other), (front, back), piece, arm, bottom, dart, plan)
    fresh = settled(seams_after(pattern, plan, (front, back), piece, names))
    report = JoinReport(
        side=str(side),
        copies=piece.copies,
        panels=(plan.front, plan.back),
        turned_rad=(panels[0].turned_rad, panels[1].turned_rad),
        sides_mm=(panels[0].side.length, panels[1].side.length),
        bottom=bottom.edge.name,
        lines=tuple(_told(plan, b, levels, dart) for b in gaps),
        dart_point_mm=plan.dart_point_mm if dart else None,
        dart_deg=math.degrees(dart.angle_rad) if dart else 0.0,
        armhole_by_mm=arm.edge.length - front.edge("armhole").length - back.edge("armhole").length,
        armhole_moved_mm=arm.moved_mm,
        armhole_bend_deg=math.degrees(arm.bend_rad),
    )
    return Joined(fresh, trace, (report,))


def _refuse(pattern: Pattern, plan: JoinPlan, front: Piece, back: Piece) -> None:
    for piece in (front, back):
        if not piece.has_outline:
            raise CannotPart(f"the {piece.label} has no outline, and panels are joined on theirs")
    if any(p.name == plan.name for p in pattern.pieces if p.side is front.side):
        raise CannotPart(f"the pattern has a {plan.name} already; give the joined one its own name")
    if not any(s.name == plan.seam for s in pattern.seams):
        raise CannotPart(f"the panels are not sewn in a {plan.seam} seam, so none can be dropped")
    sewn = [s.name for p in (front, back) for s in pattern.seams_on(p, p.edge("armhole"))]
    if sewn:
        raise CannotPart(
            f"a sleeve is set into this armhole (the {sewn[0]} seam) and its underarm seam needs "
            "a place to start from; join the panels first and draft the sleeve to them"
        )
    ours = {e.name for e in front.edges} & {e.name for e in back.edges}
    both = sorted(ours - {"armhole", plan.seam, _bottom(front, plan), _bottom(back, plan)})
    if both:
        raise CannotPart(
            f"both panels have a {both[0]}, and one piece cannot have two; start one of the two "
            "panel lines from the armhole"
        )


def _bottom(piece: Piece, plan: JoinPlan) -> str:
    side = piece.edge(plan.seam)
    before, after = piece.before(side), piece.after(side)
    return after.name if before.name == "armhole" else before.name


def _piece(
    plan: JoinPlan, one: Laid, other: Laid, gaps: tuple[Between, ...]
) -> tuple[Piece, Drawn, Drawn, Dart | None, Levels]:
    point = one.underarm - 1j * plan.dart_point_mm
    arm = armhole_of(one, other)
    waist_mm, at_edge, y = _dart_width(plan, one, gaps)
    bottom, dart = bottom_of(one, other, waist_mm if at_edge else 0.0, point)
    if waist_mm > 0 and not at_edge:
        dart = double_pointed(one.side, point, y, _low(one, other, gaps, y), waist_mm)
    edges = (
        *_round(one.piece, one.bottom.name, one.armhole.name),
        arm.edge,
        *_round(other.piece, other.armhole.name, other.bottom.name),
        bottom.edge,
    )
    piece = Piece(
        name=plan.name,
        side=one.piece.side,
        edges=edges,
        darts=(*one.piece.darts, *other.piece.darts, *((dart,) if dart else ())),
        marks=(
            *one.piece.marks,
            *(m for m in other.piece.marks if m.key not in {k.key for k in one.piece.marks}),
            Mark(UNDERARM, one.side.side, one.underarm),
        ),
        grain=_grain(one, other),
        layer=one.piece.layer,
        copies=one.piece.copies,
        cut=one.piece.cut,
    )
    piece = replace(piece, notches=joined_notches(one, other, arm, bottom))
    levels = joined_levels(one, other, piece, dart)
    return replace(piece, levels=levels.levels), arm, bottom, dart, levels


def _dart_width(plan: JoinPlan, one: Laid, gaps: tuple[Between, ...]) -> tuple[float, bool, float]:
    """The dart's width, whether it opens from the outline, and where its waist is."""
    for gap in gaps:
        share = plan.at(gap.line, gap.gap_mm)  # refuses what cannot be at every line
        if not share.dart or share.dart * gap.gap_mm <= NO_GAP_MM:
            continue
        if not 0 < plan.dart_point_mm <= gap.below_mm - LEAST_DART_MM:
            raise CannotPart(
                f"the dart's point cannot lie {plan.dart_point_mm:.0f} mm below the underarm: the "
                f"waist is {gap.below_mm:.0f} mm below it; choose from 1 to "
                f"{gap.below_mm - LEAST_DART_MM:.0f} mm, {DART_POINT_MM:.0f} is usual"
            )
        return share.dart * gap.gap_mm, gap.outline, one.underarm.imag - gap.below_mm
    return 0.0, True, 0.0


def _low(one: Laid, other: Laid, gaps: tuple[Between, ...], waist_y: float) -> Point:
    """The lower point of a waist dart of a piece that goes on: on the next line, or 150 mm."""
    below = [one.underarm.imag - g.below_mm for g in gaps]
    end = max(one.foot.imag, other.foot.imag)
    lower = [y for y in below if end + 1 < y < waist_y - 60]
    y = max(lower, default=max(waist_y - 150, end + 20))
    return complex(one.underarm.real, y)


def _round(piece: Piece, after: str, before: str) -> tuple[Edge, ...]:
    """The edges after one and before another, going round."""
    names = [e.name for e in piece.edges]
    n, i, j = len(names), names.index(after), names.index(before)
    return tuple(piece.edges[k % n] for k in range(i + 1, j if j > i else j + n))


def _grain(one: Laid, other: Laid) -> tuple[Point, Point]:
    """Plumb from just below the underarm to just above the waist."""
    low = max(one.foot.imag, other.foot.imag)
    return complex(one.underarm.real, low + 10), one.underarm - 8j


def _told(plan: JoinPlan, gap: Between, levels: Levels, dart: Dart | None) -> LineJoined:
    choice = plan.at(gap.line, gap.gap_mm)
    if gap.outline:
        taken = choice.dart * gap.gap_mm if dart and dart.mouth else 0.0
    else:
        taken = levels.taken_mm.get(gap.line, 0.0)
    return LineJoined(gap.line, gap.gap_mm, taken, choice.seams * gap.gap_mm)
