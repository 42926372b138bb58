"""From a solved leg to the trousers' pattern: pieces, darts, levels, notches, seams."""

from __future__ import annotations

import numpy as np

from tracker.body.ease import EasePlan
from tracker.drafting.bodice_curves import shallow
from tracker.drafting.skirt_pattern import curve_of, one_point, turned_over, waist_and_darts
from tracker.drafting.trousers_shape import LegHalf, LegShapes
from tracker.drafting.trousers_wants import EVEN_RULE, TrouserWants
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam

BOTH = BodySide.BOTH


def trouser_pattern(s: LegShapes, w: TrouserWants, ease: EasePlan) -> Pattern:
    """Return the block's pattern, on its sewing lines, rounded as it is stored."""
    hem = -w.hip_depth_mm - w.hip_above_crotch_mm - float(s.leg[0])
    front = turned_over(_piece("front", s.front, w, hem))
    back = _piece("back", s.back, w, hem)
    seams = (
        Seam(
            "side",
            BOTH,
            (Run("front", "side", BOTH),),
            (Run("back", "side", BOTH, backward=True),),
            tuple(Match("front", name, "back", name) for name in ("hip notch", "knee notch")),
        ),
        Seam(
            "inside leg",
            BOTH,
            (Run("front", "inside leg", BOTH, backward=True),),
            (Run("back", "inside leg", BOTH),),
            (Match("front", "inside knee notch", "back", "inside knee notch"),),
        ),
        *(
            Seam(
                f"centre {where}",
                BodySide.CENTRE,
                (Run(where, "crotch", BOTH),),
                (Run(where, "crotch", BOTH),),
            )
            for where in ("front", "back")
        ),
    )
    planned = [("waist line", ease.mm("waist")), ("hip line", ease.mm("hip"))]
    if w.rule >= EVEN_RULE:
        # Round both legs. Of the thigh the plan says only the least; it has what was drafted.
        thigh = float((s.front.thigh + s.back.thigh)[0]) - (w.thigh_mm - ease.mm("thigh"))
        planned += [("crotch line", 2 * round(thigh, 1)), ("knee line", 2 * ease.mm("knee"))]
    return settled(Pattern((front, back), seams, tuple(planned)))


def _piece(where: str, half: LegHalf, w: TrouserWants, hem: float) -> Piece:
    """Return one piece with its side to the right, the waist about y = 0."""
    move = Motion.move(complex(0.0, -w.hip_depth_mm))
    centre, fork, inside_knee, side_knee = (
        move.of(one_point(p))
        for p in (half.top.centre, half.fork, half.inside_knee, half.side_knee)
    )
    hip, at_hip = (move.of(complex(float(x[0]), 0.0)) for x in (half.top.width, half.at_hip.real))
    inside_hem, side_hem = complex(inside_knee.real, hem), complex(side_knee.real, hem)
    across_hem = Curve.line(inside_hem, side_hem)
    if w.hem_mm:
        crease, half_hem = float(half.crease[0]), float(half.hem[0])
        inside_hem, side_hem = (complex(crease + x, hem) for x in (-half_hem, half_hem))
        across_hem = _arc(inside_hem, side_hem, float(half.slant[0]))
    waist, darts = waist_and_darts(where, half.top, move)
    bent = curve_of(half.crotch).moved(move).reversed
    crotch = Curve.line(centre, bent.start).joined(bent)
    inside = curve_of(half.inside).moved(move).reversed
    below_hip = curve_of(half.side).moved(move)
    side = (
        Curve.line(side_hem, side_knee)
        .joined(below_hip.reversed)
        .joined(curve_of(half.top.side).moved(move))
    )
    point = "inside-leg point"
    edges = (
        Edge("crotch", BOTH, f"centre {where} waist", point, (crotch,)),
        Edge("inside leg", BOTH, point, "inside hem",
             (inside.joined(Curve.line(inside_knee, inside_hem)),)),
        Edge("hem", BOTH, "inside hem", "side hem", (across_hem,)),
        Edge("side", BOTH, "side hem", "side waist", (side,)),
        waist,
    )  # fmt: skip
    across = with_line(below_hip, fork, 1 + 0j)[0].point
    crease = float(half.crease[0])
    knee = w.hip_depth_mm + below_hip.length
    return Piece(
        name=where,
        side=BOTH,
        edges=edges,
        darts=darts,
        notches=(
            Notch("hip notch", BOTH, "side", "side waist", round(w.hip_depth_mm, 3)),
            Notch("knee notch", BOTH, "side", "side waist", round(knee, 3)),
            Notch("inside knee notch", BOTH, "inside leg", point, round(inside.length, 3)),
        ),
        levels=(
            Level("waist line", BOTH, (), ("waist",)),
            Level("hip line", BOTH, ((at_hip, hip),)),
            Level("crotch line", BOTH, ((fork, across),)),
            Level("knee line", BOTH, ((inside_knee, side_knee),)),
            Level("hem", BOTH, (), ("hem",)),
        ),
        grain=(complex(crease, hem + 60.0), complex(crease, -w.hip_depth_mm)),
    )


def _arc(start: Point, end: Point, slant_rad: float) -> Curve:
    """A hem square to legs that lean in by an angle at both its ends, an arc of a circle."""
    turn = np.exp(1j * np.array([slant_rad]))
    points = (np.array([p]) for p in (start, end))
    one, other = points
    return curve_of(shallow(one, turn, other, turn.conjugate()))
