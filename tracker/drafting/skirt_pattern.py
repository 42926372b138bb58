"""From a solved skirt shape to its pattern: pieces, darts, levels, notches, seams."""

from __future__ import annotations

from dataclasses import replace

from tracker.body.ease import EasePlan
from tracker.drafting.bodice_curves import Cubics, Points
from tracker.drafting.skirt_shape import SkirtHalf, SkirtShapes
from tracker.drafting.skirt_wants import SkirtWants
from tracker.geometry.bezier import Segment, between
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam

BOTH = BodySide.BOTH

OPENING_MM = 200.0
"""The centre back is open so far down from the waist, at most to the hip line; common practice."""

DART_NAMES = {1: ("waist dart",), 2: ("waist dart", "side waist dart")}
"""The dart nearest the centre is the waist dart; a second one is the side waist dart."""


def skirt_pattern(s: SkirtShapes, wants: SkirtWants, ease: EasePlan) -> Pattern:
    """Return the block's pattern, on its sewing lines, rounded as it is stored."""
    below = wants.length_mm - wants.hip_depth_mm
    back = _piece("back", s.back, wants.hip_depth_mm, below)
    front = turned_over(_piece("front", s.front, wants.hip_depth_mm, below))
    front = replace(front, fold="centre front", cut="cut 1 on the fold")
    opening = min(OPENING_MM, back.corner("centre back waist").imag + wants.hip_depth_mm)
    back = replace(
        back,
        notches=(
            *back.notches,
            Notch("opening notch", BOTH, "centre back", "centre back waist", round(opening, 3)),
        ),
    )
    seams = (
        Seam(
            "side",
            BOTH,
            (Run("front", "side", BOTH),),
            (Run("back", "side", BOTH, backward=True),),
            (Match("front", "hip notch", "back", "hip notch"),),
        ),
        Seam(
            "centre back",
            BodySide.CENTRE,
            (Run("back", "centre back", BOTH),),
            (Run("back", "centre back", BOTH),),
        ),
    )
    planned = (("waist line", ease.mm("waist")), ("hip line", ease.mm("hip")))
    return settled(Pattern((front, back), seams, planned))


def _piece(where: str, half: SkirtHalf, depth: float, below: float) -> Piece:
    """Return one piece with its side to the right; the hip line lies ``depth`` below 0."""
    down = Motion.move(complex(0.0, -depth))
    width = float(half.width[0])
    hip, hem = complex(width, -depth), complex(width, -depth - below)
    centre = down.of(one_point(half.centre))
    centre_hem = complex(0.0, hem.imag)
    waist, darts = waist_and_darts(where, half, down)
    side = Curve.line(hem, hip).joined(curve_of(half.side).moved(down))
    edges = (
        Edge(f"centre {where}", BOTH, f"centre {where} waist", f"centre {where} hem",
             (Curve.line(centre, centre_hem),)),
        Edge("hem", BOTH, f"centre {where} hem", "side hem", (Curve.line(centre_hem, hem),)),
        Edge("side", BOTH, "side hem", "side waist", (side,)),
        waist,
    )  # fmt: skip
    grain_x = 0.4 * width
    return Piece(
        name=where,
        side=BOTH,
        edges=edges,
        darts=darts,
        notches=(Notch("hip notch", BOTH, "side", "side waist", round(depth, 3)),),
        levels=(
            Level("waist line", BOTH, (), ("waist",)),
            Level("hip line", BOTH, ((complex(0.0, -depth), hip),)),
            Level("hem", BOTH, (), ("hem",)),
        ),
        grain=(complex(grain_x, hem.imag + 0.12 * below), complex(grain_x, -depth - 0.06 * below)),
    )


def waist_and_darts(where: str, half: SkirtHalf, move: Motion) -> tuple[Edge, tuple[Dart, ...]]:
    """Return the waist from the side back to the centre, with its darts, side to the right."""
    parts = [part.moved(move) for part in _waist_parts(half)]
    names = DART_NAMES.get(len(half.darts), ())
    waist = Edge(
        "waist",
        BOTH,
        "side waist",
        f"centre {where} waist",
        tuple(part.reversed for part in reversed(parts)),
        tuple(reversed(names)),
    )
    darts = []
    for name, dart in zip(names, half.darts, strict=True):
        inner, pivot, outer = (move.of(one_point(p)) for p in (dart.inner, dart.pivot, dart.outer))
        legs = (Curve.line(outer, pivot), Curve.line(pivot, inner))
        darts.append(Dart(name, BOTH, legs, 0.0, "to the centre", "waist"))
    return waist, tuple(darts)


def _waist_parts(half: SkirtHalf) -> list[Curve]:
    """Cut the folded waist at its darts and swing each part open, from the centre to the side."""
    whole = _segment(half.waist)
    cuts = [0.0, *(dart.cut for dart in half.darts), 1.0]
    out = []
    for at, (factor, shift) in enumerate(zip(half.factor, half.shift, strict=True)):
        swing = Motion(one_point(factor), one_point(shift))
        out.append(Curve.of([between(whole, cuts[at], cuts[at + 1])]).moved(swing))
    return out


def turned_over(piece: Piece) -> Piece:
    """Return the piece on the wearer's right, which lies at negative x, and the ring again."""
    over = Motion.mirror(0j, 1j)

    def turned(curve: Curve) -> Curve:
        return curve.reversed.moved(over)

    edges = tuple(
        replace(
            edge,
            start=edge.end,
            end=edge.start,
            parts=tuple(turned(part) for part in reversed(edge.parts)),
            mouths=tuple(reversed(edge.mouths)),
        )
        for edge in reversed(piece.edges)
    )
    darts = tuple(
        replace(dart, legs=(turned(dart.legs[1]), turned(dart.legs[0]))) for dart in piece.darts
    )
    levels = tuple(
        replace(level, strokes=tuple(tuple(map(over.of, s)) for s in level.strokes))
        for level in piece.levels
    )
    assert piece.grain is not None
    low, high = piece.grain
    grain = over.of(low), over.of(high)
    return replace(piece, edges=edges, darts=darts, levels=levels, grain=grain)


def one_point(points: Points) -> Point:
    """Return the point of the only trial shape."""
    return complex(points[0])


def _segment(curve: Cubics) -> Segment:
    return one_point(curve.p0), one_point(curve.p1), one_point(curve.p2), one_point(curve.p3)


def curve_of(cubics: Cubics) -> Curve:
    """Return the curve of the only trial shape."""
    return Curve.of([_segment(cubics)])
