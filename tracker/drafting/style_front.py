"""The front princess line: from the shoulder or the armhole over the bust to the waist."""

import math
from dataclasses import dataclass

from tracker.drafting.style_line import bowed_line, even_line
from tracker.drafting.style_panels import NotchAt, Plan, panelled
from tracker.drafting.style_report import Styled
from tracker.drafting.style_split import CannotPart, Cut, refuse_crossings
from tracker.drafting.style_start import (
    Corners,
    dart_cut,
    further_corners,
    held_rounding,
    sides_to_part,
    start_of,
    start_words,
    straight_below,
    waist_crossing,
)
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace

SEAM = "front princess"
#: Notches stand at the bust line and about this far above and below it; common practice.
NOTCH_MM = 50.0
#: A line from the armhole bows up about 1 cm; common practice. More of it is tried in turn.
BOWS_MM = (10.0, 12.0, 14.0, 16.0, 18.0)
#: It is bowed no more once it arrives within this of the waist dart's middle.
ARRIVES_RAD = math.radians(15)
#: A line that turns by more than this at the bust point, darts apart, is refused.
MOST_TURN_DEG = 25.0
#: The edges a front line may start from, each with the corner its place is told from.
STARTS = {"shoulder": "neck point", "armhole": "shoulder point"}


@dataclass(frozen=True, kw_only=True)
class FrontLine:
    """Where the front princess line runs.

    Attributes:
        piece: the piece.
        start: "shoulder" or "armhole".
        share: how far along that edge it starts, from the neck point or the shoulder point.
        distance_mm: the same as a distance; it goes before the share.
        bow_mm: how far a line from the armhole bows at its middle; if not told about 10 mm,
            and up to 18 where it would otherwise turn sharply over the bust.
        rounding_mm: how far above and below the bust point the corner is rounded.
    """

    piece: str = "front"
    start: str = "shoulder"
    share: float = 0.5
    distance_mm: float | None = None
    bow_mm: float | None = None
    rounding_mm: float = 50.0


def panel_front(
    pattern: Pattern, line: FrontLine | None = None, side: BodySide = BodySide.BOTH
) -> Styled:
    """Part the front into a centre front and a side front panel.

    The line runs from the shoulder or the armhole through the bust point; below it each leg
    of the waist dart becomes one panel's edge, and the bust dart is turned shut.

    Args:
        pattern: the pattern.
        line: where it runs; from mid-shoulder if not told.
        side: the wearer's side; both where the front is drawn for both.

    Raises:
        CannotPart: it cannot be drawn; the sentence says why.
    """
    line = line or FrontLine()
    styled = Styled(pattern, Trace(), ())
    for piece_name, at in sides_to_part(pattern, line.piece, "centre front", side):
        one = _one_side(styled.pattern, piece_name, at, line)
        trace = styled.trace.then(one.trace) if styled.reports else one.trace
        styled = Styled(one.pattern, trace, (*styled.reports, *one.reports))
    return styled


def _one_side(pattern: Pattern, name: str, side: BodySide, line: FrontLine) -> Styled:
    piece = pattern.piece(name, side)
    top, top_mm = start_of(piece, side, line.start, STARTS, line.share, line.distance_mm)
    dart = waist_dart_at_bust(piece, side)
    bust = dart.pivot
    start = top.point_at(top_mm)
    upper = upper_line(line, start, bust, top.heading_at(top_mm), dart)
    refuse_crossings(piece, upper, f"the {SEAM} line")
    turn = abs(math.degrees(turn_between(upper.end_heading, dart.axis)))
    if turn > MOST_TURN_DEG:
        raise CannotPart(
            f"started from the {start_words(STARTS, line.start, line.share, line.distance_mm)}, "
            f"the line would turn by {turn:.0f}° at the bust point; start it "
            + ("nearer the shoulder point" if line.start == "armhole" else "nearer mid-shoulder")
        )
    others = [d for d in piece.darts if d.side is side and d.key != dart.key
              and not d.double_pointed and abs(d.pivot - bust) <= 2 * SAME_MM]  # fmt: skip
    for other in others:
        if other.mouth not in ("side", "armhole") or (
            other.mouth == line.start and _mouth_mm(piece, other) < top_mm
        ):
            raise CannotPart(
                f"the {other.name} of the {piece.label} opens from the {other.mouth}, on the "
                "centre front's side of the line; turn it into the side seam first"
            )
    cut = line_down(piece, side, (top, top_mm), dart, upper)
    return panelled(
        pattern,
        piece,
        Plan(
            cut=cut,
            upper=upper,
            anchor=bust,
            corner="bust point",
            centre_edge="neckline",
            names=("centre front", "side front"),
            close=tuple(d.name for d in others),
            rounding_mm=held_rounding(line.rounding_mm),
            notches=front_notches(piece, side, upper, dart),
            corners=front_corners(dart, line.rounding_mm),
        ),
    )


def line_down(
    piece: Piece,
    side: BodySide,
    top: tuple[Edge, float],
    dart: Dart,
    upper: Curve,
    upper_behind: Curve | None = None,
) -> Cut:
    """Return the front line: down the waist dart's legs, and from a lower point straight on."""
    if dart.mouth is not None:
        return dart_cut(SEAM, *top, piece.edge(dart.mouth, side), dart, upper, upper_behind)
    bottom, at, tail = straight_below(piece, dart)
    return dart_cut(SEAM, *top, bottom, dart, upper, upper_behind, tail=tail, bottom_mm=at)


def upper_line(line: FrontLine, start: Point, end: Point, crossing: Point, dart: Dart) -> Curve:
    """Return the line from its top to the bust line, there directed as the waist dart's middle.

    From the armhole it is bowed until it arrives within 15°.
    """
    if line.start != "armhole":
        return even_line(start, end, dart.axis)
    for bow in BOWS_MM if line.bow_mm is None else (line.bow_mm,):
        upper = bowed_line(start, end, crossing, dart.axis, bow)
        if abs(turn_between(upper.end_heading, dart.axis)) <= ARRIVES_RAD:
            break
    return upper


def waist_dart_at_bust(piece: Piece, side: BodySide) -> Dart:
    """Return the waist dart that runs to the bust point.

    Raises:
        CannotPart: there is none.
    """
    darts = [d for d in piece.darts if d.side is side and d.mouth in ("waist", None)]
    if not darts:
        raise CannotPart(
            f"the {piece.label} has no waist dart, and the princess line runs down its legs; "
            "add a waist dart to the bust point first, or turn part of the bust dart there"
        )
    points = [m.point for m in piece.marks if m.name == "bust point" and m.side is side]
    if not points:
        raise CannotPart(
            f"the {piece.label} has no bust point marked, and the princess line runs over it; "
            "mark the bust point first, or name the piece that has it"
        )
    for dart in darts:
        if abs(dart.pivot - points[0]) <= 2 * SAME_MM:
            return dart
    off = min(abs(d.pivot - points[0]) for d in darts)
    raise CannotPart(
        f"the waist dart of the {piece.label} runs to a pivot {off:.1f} mm beside the bust "
        "point; move it to the bust point first"
    )


def _mouth_mm(piece: Piece, dart: Dart) -> float:
    edge = piece.edge(dart.mouth or "", dart.side)
    return sum(p.length for p in edge.parts[: edge.mouths.index(dart.name) + 1])


def front_corners(dart: Dart, rounding_mm: float) -> Corners:
    """Return the corners below the bust that are rounded: those of a double-pointed dart."""
    return further_corners((dart,), rounding_mm) if dart.double_pointed else ()


def front_notches(piece: Piece, side: BodySide, upper: Curve, dart: Dart) -> tuple[NotchAt, ...]:
    """Return the notches of the front seam, and one at the waist where it runs on below."""
    above = min(NOTCH_MM, upper.length / 2)
    leg = min(dart.leg_lengths)
    below = min(NOTCH_MM, leg / 2)
    notches: tuple[NotchAt, ...] = (
        NotchAt("above the bust", -above, 1),
        NotchAt("at the bust line", 0.0, 1),
        NotchAt("below the bust", below, 1),
    )
    waist = waist_crossing(piece, side, dart) if dart.double_pointed else None
    if waist is not None and waist - below > NOTCH_MM / 2:
        notches = (*notches, NotchAt("at the waist line", waist, 1))
    return notches
