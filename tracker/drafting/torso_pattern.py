"""From a bodice block to a torso block: pieces that go on to the hip, darts with two points."""

from __future__ import annotations

from dataclasses import replace

from tracker.body.ease import EasePlan
from tracker.drafting.torso_shape import SideSeam, side_seams
from tracker.drafting.torso_wants import TorsoWants
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, unit
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match

BOTH = BodySide.BOTH
OVER = Motion.mirror(0j, 1j)
FLAT_MM = 0.0002
"""The waist line inside a piece is kept as chords that stand off the curve no more than this."""

SLENDER, LOWEST_SHARE = 2.2, 0.7
"""Below the waist a dart is this many times as long as it is wide, so that it does not pouch, and
ends at the latest this share of the way down to the hip line; common practice, no source."""


def torso_pattern(bodice: Pattern, wants: TorsoWants, ease: EasePlan) -> Pattern:
    """Return the torso block, rounded as it is stored."""
    front, back = bodice.piece("front"), bodice.piece("back")
    seams = below_the_waist(bodice, wants)
    pieces = (
        _longer(front, seams[0], OVER, wants.front_below_mm),
        _longer(back, seams[1], STAY, wants.back_below_mm),
    )
    side = bodice.seam("side")
    side = replace(
        side, matches=(*side.matches, Match("front", "waist notch", "back", "waist notch"))
    )
    planned = (*bodice.ease, ("hip line", ease.mm("hip")))
    return settled(Pattern(pieces, bodice.with_seam(side).seams, planned))


def below_the_waist(bodice: Pattern, wants: TorsoWants) -> tuple[SideSeam, SideSeam]:
    """Return the side seams of front and back below a bodice, side to the right."""
    front, back = bodice.piece("front"), bodice.piece("back")
    return side_seams(wants, (_stretch(front, OVER), _stretch(back, STAY)))


def _stretch(piece: Piece, over: Motion) -> tuple[Point, Point]:
    """The last straight stretch of the side seam down to the waist, side to the right."""
    side = piece.edge("side")
    line = side.parts[-1] if side.end == "side waist" else side.parts[0].reversed
    return over.of(line.start), over.of(line.end)


def _longer(piece: Piece, seam: SideSeam, over: Motion, below: float) -> Piece:
    centre = f"centre {piece.name}"
    hip = complex(0.0, seam.hip_mm)
    side_hip = over.of(seam.hip.end)
    lower = seam.bend.joined(seam.hip).moved(over)
    dart = _double_pointed(piece.dart("waist dart"), below, LOWEST_SHARE * abs(seam.hip_mm))
    side = piece.edge("side")
    edges = []
    for edge in piece.edges:
        if edge.name == centre and edge.end == f"{centre} neck":
            line = Curve.line(hip, edge.parts[0].end)
            edges.append(replace(edge, start=f"{centre} hip", parts=(line,)))
        elif edge.name == centre:
            line = Curve.line(edge.parts[0].start, hip)
            edges.append(replace(edge, end=f"{centre} hip", parts=(line,)))
        elif edge.name == "side" and edge.end == "side waist":
            upper = Curve.line(edge.parts[-1].start, lower.start)
            edges.append(
                replace(edge, end="side hip", parts=(*edge.parts[:-1], upper.joined(lower)))
            )
        elif edge.name == "side":
            up = lower.reversed
            upper = Curve.line(up.end, edge.parts[0].end)
            edges.append(replace(edge, start="side hip", parts=(up.joined(upper), *edge.parts[1:])))
        elif edge.name == "waist":
            ends = (hip, side_hip) if edge.start == f"{centre} waist" else (side_hip, hip)
            start, end = (
                "side hip" if name == "side waist" else f"{centre} hip"
                for name in (edge.start, edge.end)
            )
            edges.append(Edge("hip", BOTH, start, end, (Curve.line(*ends),)))
        else:
            edges.append(edge)
    longer = replace(
        piece,
        edges=tuple(edges),
        darts=tuple(dart if d.name == dart.name else d for d in piece.darts),
        levels=(
            *(level for level in piece.levels if level.name != "waist line"),
            Level("waist line", BOTH, _waist_strokes(piece.edge("waist"))),
            Level("hip line", BOTH, (), ("hip",)),
        ),
        grain=_grain(piece, seam.hip_mm),
    )
    along, _ = longer.edge("side").nearest(piece.corner("side waist"))
    if side.end != "side waist":
        along = longer.edge("side").length - along
    notch = Notch("waist notch", BOTH, "side", "underarm point", round(along, 6))
    return replace(longer, notches=(*longer.notches, notch))


def _double_pointed(dart: Dart, below: float, lowest: float) -> Dart:
    """The waist dart run on to a second point below, on the same line, both legs equal."""
    below = min(max(below, SLENDER * dart.intake_mm), lowest)
    one, two = dart.mouth_start, dart.mouth_end
    middle = (one + two) / 2
    point = middle + unit(middle - dart.pivot) * (below + dart.stand_back_mm)
    legs = (Curve.line(dart.pivot, one, point), Curve.line(dart.pivot, two, point))
    return replace(dart, legs=legs, mouth=None)


def _waist_strokes(waist: Edge) -> tuple[Stroke, ...]:
    """The waist line from the centre to the dart and on to the side."""
    parts = waist.parts
    if waist.start == "side waist":
        parts = tuple(part.reversed for part in reversed(parts))
    return tuple((part.start, *_points(part)) for part in parts)


def _points(part: Curve) -> list[Point]:
    found = list(part.flattened(FLAT_MM))
    return found[1:] if abs(found[0] - part.start) < 1e-9 else found


def _grain(piece: Piece, hip_mm: float) -> tuple[Point, Point] | None:
    if piece.grain is None:
        return None
    low, high = piece.grain
    return complex(low.real, 0.8 * hip_mm), high
