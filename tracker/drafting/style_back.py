"""The back line: from the armhole to the waist, down the waist dart's legs where there is one."""

from dataclasses import dataclass

from tracker.drafting.style_finish import level_crossing
from tracker.drafting.style_line import between_points, bowed_line, even_line
from tracker.drafting.style_panels import NotchAt, Plan, panelled
from tracker.drafting.style_report import Styled
from tracker.drafting.style_split import CannotPart, Cut, place_inside, refuse_crossings
from tracker.drafting.style_start import (
    dart_cut,
    further_corners,
    held_rounding,
    ray_below,
    sides_to_part,
    start_of,
    straight_below,
    waist_crossing,
)
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Stroke
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

SEAM = "back princess"
STARTS = {"armhole": "shoulder point", "shoulder": "neck point"}
HALF_WAY = 0.5
#: A place told on the shoulder is the dart's mouth within this.
ON_MOUTH_MM = 2.0
#: A material line ends on an edge within this.
ON_LINE_MM = 0.1
#: A notch this near an end of the seam, or another notch, is of no use.
NOTCH_APART_MM = 20.0
#: Material lines that run over the blade, whichever the back has.
BLADE_LINES = ("blade line", "across back", "across back line")


@dataclass(frozen=True, kw_only=True)
class BackLine:
    """Where the back line runs.

    Attributes:
        piece: the piece.
        start: "armhole" or "shoulder"; from the shoulder it runs down the shoulder dart's legs
            where there is one.
        share: how far along that edge it starts, from the shoulder point or the neck point.
        distance_mm: the same as a distance; it goes before the share.
        foot: "waist dart", down its legs; or "waist", half-way between the side waist and
            the dart; "" is the dart where there is one.
        bow_mm: how far the line bows at its middle.
        rounding_mm: how far above and below the dart's pivot the corner is rounded.
    """

    piece: str = "back"
    start: str = "armhole"
    share: float = 0.5
    distance_mm: float | None = None
    foot: str = ""
    bow_mm: float = 10.0
    rounding_mm: float = 50.0


def panel_back(
    pattern: Pattern, line: BackLine | None = None, side: BodySide = BodySide.BOTH
) -> Styled:
    """Part the back into a centre back and a side back panel.

    A shoulder dart, or ease in the shoulder, stays as it is; but a line from the shoulder runs
    down the shoulder dart's legs where there is one.

    Args:
        pattern: the pattern.
        line: where it runs; from mid-armhole through the waist dart if not told.
        side: the wearer's side; both where the back is drawn for both.

    Raises:
        CannotPart: it cannot be drawn; the sentence says why.
    """
    line = line or BackLine()
    styled = Styled(pattern, Trace(), ())
    for piece_name, at in sides_to_part(pattern, line.piece, "centre back", side):
        one = _one_side(styled.pattern, piece_name, at, line)
        trace = styled.trace.then(one.trace) if styled.reports else one.trace
        styled = Styled(one.pattern, trace, (*styled.reports, *one.reports))
    return styled


def _one_side(pattern: Pattern, name: str, side: BodySide, line: BackLine) -> Styled:
    piece = pattern.piece(name, side)
    if any(m.name == "bust point" for m in piece.marks):
        raise CannotPart(
            f"the {piece.label} has a bust point, so it is panelled as a front; name the back"
        )
    upper_dart = shoulder_dart(piece, side, line)
    if upper_dart:
        top = piece.edge("shoulder", side)
        top_mm = mouth_mm(top, upper_dart)
        start, crossing = upper_dart.pivot, top.heading_at(top_mm)
    else:
        top, top_mm = start_of(piece, side, line.start, STARTS, line.share, line.distance_mm)
        start, crossing = top.point_at(top_mm), top.heading_at(top_mm)
    dart = _waist_dart(piece, side, line.foot)

    def down_to(end: Point, heading: Point) -> Curve:
        if upper_dart:
            return between_points(start, -upper_dart.axis, end, heading)
        if line.start == "shoulder":
            return even_line(start, end, heading)
        return bowed_line(start, end, crossing, heading, line.bow_mm)

    if dart:
        upper = down_to(dart.pivot, dart.axis)
        anchor = dart.pivot
    else:
        foot, tail, bottom, bottom_mm = _foot(piece, side)
        upper = down_to(foot, tail.start_heading if tail else _down(bottom, bottom_mm))
    refuse_crossings(piece, upper, f"the {SEAM} line")
    ahead = behind = upper
    if upper_dart:
        ahead = upper_dart.legs[1].reversed.joined(upper)
        behind = upper_dart.legs[0].joined(upper)
    if dart and dart.mouth is not None:
        cut = dart_cut(SEAM, top, top_mm, piece.edge(dart.mouth, side), dart, ahead, behind)
    elif dart:
        bottom, at, tail = straight_below(piece, dart)
        cut = dart_cut(SEAM, top, top_mm, bottom, dart, ahead, behind, tail=tail, bottom_mm=at)
    else:
        if tail:
            ahead, behind = ahead.joined(tail), behind.joined(tail)
        cut = Cut(SEAM, top, top_mm, bottom, bottom_mm, ahead, behind)
        anchor = _bust_crossing(piece, side, upper)
    return panelled(
        pattern,
        piece,
        Plan(
            cut=cut,
            upper=upper,
            anchor=anchor,
            corner="waist dart's point" if dart else "bust line",
            centre_edge="neckline",
            names=("centre back", "side back"),
            close=(),
            rounding_mm=held_rounding(line.rounding_mm),
            notches=_notches(piece, side, cut, anchor, dart),
            corners=further_corners((upper_dart, _inner(dart)), line.rounding_mm),
        ),
    )


def _inner(dart: Dart | None) -> Dart | None:
    return dart if dart and dart.double_pointed else None


def shoulder_dart(piece: Piece, side: BodySide, line: BackLine) -> Dart | None:
    """Return the shoulder dart whose legs a line from the shoulder runs down, if it does.

    It does where no place was told, or the place told is the dart's mouth.
    """
    darts = [d for d in piece.darts if d.side is side and d.mouth == "shoulder"]
    if line.start != "shoulder" or not darts:
        return None
    shoulder = piece.edge("shoulder", side)
    if line.distance_mm is None:
        return darts[0] if line.share == HALF_WAY else None
    told = line.distance_mm
    at = told if shoulder.start == STARTS["shoulder"] else shoulder.length - told
    near = [d for d in darts if abs(mouth_mm(shoulder, d) - at) <= ON_MOUTH_MM]
    return near[0] if near else None


def mouth_mm(edge: Edge, dart: Dart) -> float:
    """Return how far along an edge, as sewn, a dart's mouth is."""
    return sum(p.length for p in edge.parts[: edge.mouths.index(dart.name) + 1])


def _waist_dart(piece: Piece, side: BodySide, foot: str) -> Dart | None:
    if foot not in ("", "waist dart", "waist"):
        raise CannotPart(
            f"the back line can run to the waist dart or to the waist, not to the {foot}"
        )
    darts = [d for d in piece.darts if d.side is side and d.mouth in ("waist", None)]
    if foot == "waist dart" and not darts:
        raise CannotPart(
            f"the {piece.label} has no waist dart for the line to run to; let it run to the "
            "waist, or add a waist dart first"
        )
    return darts[0] if darts and foot != "waist" else None


def _foot(piece: Piece, side: BodySide) -> tuple[Point, Curve | None, Edge, float]:
    """Half-way between the side waist and the dart: the point, and what lies below it.

    Returns:
        The point, the straight line from there to the lower edge where the piece goes on below
        the waist, the lower edge, and how far along it the line ends.
    """
    for waist in piece.edges:
        if waist.name == "waist" and waist.side is side:
            at = _half_way(waist)
            place_inside(waist, at, f"the {piece.label}", "side waist")
            return waist.point_at(at), None, waist, at
    stroke = _outer_stroke(piece, side)
    point = _middle_of(stroke)
    down = piece.grain[0] - piece.grain[1] if piece.grain else -1j
    bottom, at, tail = ray_below(piece, point, down, f"the {SEAM} line")
    return point, tail, bottom, at


def _outer_stroke(piece: Piece, side: BodySide) -> Stroke:
    """The stretch of the waist line that ends at the side seam."""
    edge = piece.edge("side", side)
    for level in piece.levels:
        if level.name == "waist line" and level.side is side:
            for stroke in level.strokes:
                if min(edge.nearest(p)[1] for p in (stroke[0], stroke[-1])) < ON_LINE_MM:
                    return stroke
    raise CannotPart(
        f"the {piece.label} has no waist line to run half-way along; let the line run to the "
        "waist dart"
    )


def _middle_of(stroke: Stroke) -> Point:
    line = Curve.line(*stroke)
    return line.point_at(line.length / 2)


def _down(bottom: Edge, at_mm: float) -> Point:
    return -1j * bottom.heading_at(at_mm)


def _half_way(waist: Edge) -> float:
    """How far along the waist half-way between the side waist and the nearest dart's leg is."""
    at_end = waist.end == "side waist"
    last = waist.parts[-1 if at_end else 0]
    share = 0.5
    return waist.length - last.length * share if at_end else last.length * share


def _bust_crossing(piece: Piece, side: BodySide, line: Curve) -> Point:
    for level in piece.levels:
        if level.name == "bust line" and level.side is side:
            point = level_crossing(level, line)
            if point is not None:
                return point
    return line.point_at(line.length / 2)


def _notches(
    piece: Piece, side: BodySide, cut: Cut, anchor: Point, dart: Dart | None
) -> tuple[NotchAt, ...]:
    """Double notches at the blade line and the bust line, where the seam crosses them."""
    line = cut.behind
    middle = line.nearest(anchor)[0]
    wanted = [("at the blade line", _blade_mm(piece, side, line)),
              ("at the bust line", _bust_mm(piece, side, line))]  # fmt: skip
    if dart and dart.double_pointed:
        waist = waist_crossing(piece, side, dart)
        wanted.append(("at the waist line", None if waist is None else middle + waist))
    kept: list[tuple[str, float]] = []
    for words, at in wanted:
        clear = at is not None and NOTCH_APART_MM < at < line.length - NOTCH_APART_MM
        if at is not None and clear and all(abs(at - k) > NOTCH_APART_MM for _, k in kept):
            kept.append((words, at))
    if not kept:
        kept = [("at the middle", middle)]
    return tuple(NotchAt(words, at - middle, 2) for words, at in sorted(kept, key=lambda k: k[1]))


def _bust_mm(piece: Piece, side: BodySide, line: Curve) -> float | None:
    for level in piece.levels:
        if level.name == "bust line" and level.side is side:
            point = level_crossing(level, line)
            return line.nearest(point)[0] if point is not None else None
    return None


def _blade_mm(piece: Piece, side: BodySide, line: Curve) -> float | None:
    for name in BLADE_LINES:
        for level in piece.levels:
            if level.name == name and level.side is side:
                point = level_crossing(level, line)
                if point is not None:
                    return line.nearest(point)[0]
    marks = [m.point for m in piece.marks if m.name == "blade point" and m.side is side]
    if marks:
        plumb = piece.grain[1] - piece.grain[0] if piece.grain else 1j
        found = with_line(line, marks[0], plumb * 1j)
        return found[0].first_mm if found else None
    return None
