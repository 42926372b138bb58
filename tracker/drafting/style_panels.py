"""Making two panels of a piece: parted, darts turned shut, rounded, walked, trued and marked."""

import math
from dataclasses import dataclass, replace

from tracker.drafting.style_finish import (
    NO_BEND_RAD,
    NO_DIFFERENCE_MM,
    SeamEnd,
    join_deg,
    rounded_over,
    seam_notch,
    trimmed_at_foot,
    trued_at_foot,
    with_grain,
)
from tracker.drafting.style_follow import Panel, following, trace_of
from tracker.drafting.style_leftover import Left, corner_in_seam, rounded_beside, with_short_dart
from tracker.drafting.style_line import bow_of, meeting_angle_deg
from tracker.drafting.style_report import PanelReport, RoundedOver, Styled
from tracker.drafting.style_split import CannotPart, Cut, Half, split_piece
from tracker.drafting.style_turn import Turned, turn_dart_shut
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam

#: The line nearest to which a panel's middle is taken for its grain.
MIDDLE_LINE = "bust line"


@dataclass(frozen=True, slots=True)
class NotchAt:
    """A notch to be set in the new seam.

    Attributes:
        words: what it is called after the seam's name: "at the bust line".
        from_anchor_mm: how far from the anchor, down the seam; negative is up.
        count: single or double.
    """

    words: str
    from_anchor_mm: float
    count: int


@dataclass(frozen=True)
class Plan:
    """How a piece is to be made into panels.

    Attributes:
        cut: the line.
        upper: the part of it that is drawn, from its top to the dart's pivot or to its foot.
        anchor: the point of the line from which the seam is walked.
        corner: that point in words: "bust point".
        centre_edge: an edge only the centre panel has.
        names: the panels' names, centre first.
        close: the darts to be turned shut.
        rounding_mm: how far to either side of the pivot the corner is rounded.
        notches: the notches.
        left: what is left of the dart where the line passes beside its pivot, if it does; the
            cut's line then runs to the pivot and back on the panel that holds it.
        corners: further points of the line at which it has a corner that is rounded, each with
            how far (the point of a shoulder dart it runs down).
    """

    cut: Cut
    upper: Curve
    anchor: Point
    corner: str
    centre_edge: str
    names: tuple[str, str]
    close: tuple[str, ...]
    rounding_mm: float
    notches: tuple[NotchAt, ...]
    left: Left | None = None
    corners: tuple[tuple[Point, float], ...] = ()


def panelled(pattern: Pattern, piece: Piece, plan: Plan) -> Styled:
    """Return the pattern with a piece made into a centre and a side panel.

    Raises:
        CannotPart: it cannot be drawn.
    """
    taken = [n for n in plan.names if any(p.name == n and p.key != piece.key and p.side in
             (piece.side, BodySide.BOTH) for p in pattern.pieces)]  # fmt: skip
    if taken:
        raise CannotPart(f"the pattern has a {taken[0]} already; it was panelled before")
    cut = plan.cut
    side_of = cut.top.side
    end = SeamEnd(cut.name, side_of, cut.top_corner, cut.bottom_corner, cut.bottom.name)
    centre_half, side_half = _halves(piece, plan)
    centre, side, turned = centre_half.piece, side_half.piece, []
    for name in plan.close:
        turned.append(turn_dart_shut(side, name, cut.name, cut.bottom.name))
        side = turned[-1].piece
    left, corners = plan.left, [plan.anchor, plan.anchor]
    if left:
        holds = with_short_dart(centre if left.on_centre else side, end, left)
        gained = holds.dart(left.name, side_of).angle_rad
        corners[0 if left.on_centre else 1] = corner_in_seam(holds, side_of, left)
        centre, side = (holds, side) if left.on_centre else (centre, holds)
    else:
        gained = abs(turn_between(
            centre.corner(end.top, side_of) - plan.anchor,
            side.corner(end.top, side_of) - plan.anchor,
        ))  # fmt: skip
    parted = end.edge(centre).length, end.edge(side).length
    areas = piece.area_mm2, centre.area_mm2, side.area_mm2
    rounded, panels = [], []
    for each, name in zip((centre, side), plan.names, strict=True):
        was = end.edge(each).length
        if left and (name == plan.names[0]) == left.on_centre:
            new, above, below = rounded_beside(each, end, left, plan.rounding_mm)
        else:
            new, above, below = rounded_over(each, end, plan.anchor, plan.rounding_mm)
        for corner, reach in plan.corners:
            new = rounded_over(new, end, corner, reach)[0]
        panels.append(new)
        rounded.append(RoundedOver(name, above, below, end.edge(new).length - was))
    up = [end.from_top(p, c) for p, c in zip(panels, corners, strict=True)]
    eased = (-left.eased_mm if left.on_centre else left.eased_mm) if left else 0.0
    panels, trimmed, trimmed_from = _walked(panels, end, plan.names, eased)
    panels, off, moved = _smooth_waist(panels, end)
    down = [end.edge(p).length - u for p, u in zip(panels, up, strict=True)]
    for notch in plan.notches:
        name = f"{cut.name} notch {notch.words}"
        at = notched(notch.from_anchor_mm, up, down, eased)
        panels = [
            seam_notch(p, end, name, here, notch.count) for p, here in zip(panels, at, strict=True)
        ]
    finished = (
        Panel(_named(panels[0], piece, plan.names[0], piece.side, piece.cut), centre_half.sections),
        Panel(_named(panels[1], piece, plan.names[1], side_of, _cut_words(side_of)),
              side_half.sections),
    )  # fmt: skip
    seam = _seam(finished, end, plan)
    report = PanelReport(
        seam=cut.name,
        side=str(side_of),
        panels=plan.names,
        top=cut.top.name,
        corner=plan.corner,
        meets_deg=meeting_angle_deg(plan.upper, cut.top.heading_at(cut.top_mm)),
        bow_mm=bow_of(plan.upper),
        dart=cut.dart.name if cut.dart else None,
        turned=tuple((n, t.angle_rad) for n, t in zip(plan.close, turned, strict=True))
        or (((left.name, left.angle_rad),) if left else ()),
        gained_rad=gained if turned or left else 0.0,
        parted_mm=parted,
        up_mm=(up[0], up[1]),
        down_mm=(down[0], down[1]),
        rounded=tuple(rounded),
        copies=piece.copies,
        trimmed_mm=trimmed,
        trimmed_from=trimmed_from,
        waist_deg=off,
        waist_moved_mm=moved,
        closed_deg=math.degrees(_most(turned, "bend_rad")),
        closed_moved_mm=_most(turned, "trued_mm"),
        areas_mm2=areas,
        foot=cut.bottom.name,
        left=left,
    )
    done = settled(following(pattern, piece, finished, seam))
    return Styled(done, trace_of(piece, finished, seam), (report,))


def notched(
    from_anchor_mm: float, up: list[float], down: list[float], eased_mm: float
) -> tuple[float, float]:
    """Return where a notch stands on both panels, from the top.

    The ease lies between the notches above and below the anchor: above it both panels are
    walked from the top, below it from the foot.
    """
    plain = 0 if eased_mm > 0 else 1
    here = up[plain] + from_anchor_mm
    if not eased_mm or from_anchor_mm == 0:
        at = [u + from_anchor_mm for u in up]
    elif from_anchor_mm < 0:
        at = [here, here]
    else:
        rest = up[plain] + down[plain] - here
        at = [u + d - rest for u, d in zip(up, down, strict=True)]
    return at[0], at[1]


def _most(turned: list[Turned], what: str) -> float:
    return max((getattr(t, what) for t in turned), key=abs, default=0.0)


def _halves(piece: Piece, plan: Plan) -> tuple[Half, Half]:
    one, other = split_piece(piece, plan.cut)
    if any(e.name == plan.centre_edge for e in one.piece.edges):
        return one, other
    return other, one


def _walked(
    panels: list[Piece], end: SeamEnd, names: tuple[str, str], eased_mm: float
) -> tuple[list[Piece], float, str]:
    """Take what one side is longer than it is to be off its waist."""
    over = end.edge(panels[1]).length - end.edge(panels[0]).length - eased_mm
    if abs(over) <= NO_DIFFERENCE_MM:
        return panels, 0.0, ""
    which = 1 if over > 0 else 0
    fresh = list(panels)
    fresh[which] = trimmed_at_foot(panels[which], end, abs(over))
    return fresh, abs(over), names[which]


def _smooth_waist(panels: list[Piece], end: SeamEnd) -> tuple[list[Piece], float, float]:
    """True the waist across the seam where it bends."""
    off = join_deg(panels[0], panels[1], end, at_foot=True) - 180.0
    if abs(math.radians(off)) < NO_BEND_RAD:
        return panels, off, 0.0
    trued = [trued_at_foot(p, end, math.radians(off) / 2) for p in panels]
    return [p for p, _ in trued], off, max(moved for _, moved in trued)


def _named(panel: Piece, old: Piece, name: str, side: BodySide, cut: str) -> Piece:
    grain = old.grain
    heading = grain[1] - grain[0] if grain else 1j
    return with_grain(replace(panel, name=name, side=side, cut=cut), heading, MIDDLE_LINE)


def _cut_words(side: BodySide) -> str:
    return "cut 2, a pair" if side is BodySide.BOTH else "cut 1"


def _seam(panels: tuple[Panel, Panel], end: SeamEnd, plan: Plan) -> Seam:
    """The new seam, sewn from its top down."""
    runs = []
    for panel in panels:
        edge = end.edge(panel.piece)
        runs.append((Run(panel.piece.name, edge.name, edge.side, edge.start != end.top),))
    names = [f"{plan.cut.name} notch {n.words}" for n in plan.notches]
    matches = tuple(Match(panels[0].piece.name, n, panels[1].piece.name, n) for n in names)
    left = plan.left
    if not left or not left.eased_mm:
        return Seam(plan.cut.name, end.side, runs[0], runs[1], matches)
    nearest = sorted(plan.notches, key=lambda n: abs(n.from_anchor_mm))
    above = next(n.words for n in nearest if n.from_anchor_mm < 0)
    below = next(n.words for n in nearest if n.from_anchor_mm > 0)
    between = (f"{plan.cut.name} notch {words}" for words in (above, below))
    ease = (PlannedEase(left.eased_mm, *between),)
    if left.on_centre:
        # The eased side is the second.
        runs.reverse()
        matches = tuple(Match(m.second_piece, m.second, m.first_piece, m.first) for m in matches)
    return Seam(plan.cut.name, end.side, runs[0], runs[1], matches, ease)
