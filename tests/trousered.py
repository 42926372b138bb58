"""Trousers for tests: drawn by hand, drafted once from published bodies, and bought on paper."""

import itertools
import math
from dataclasses import replace
from functools import cache

from published.bodies import bdims_bodies, chart_bodies

from tracker.body.estimate import estimate
from tracker.drafting.trousers import TO_ESTIMATE, draft_trousers
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam

BOTH = BodySide.BOTH
POINT = "inside-leg point"


def _leg(where: str, lean: float, reach: float, drop: float, width: float) -> Piece:
    """A leg drawn by hand, its side to the right, the hip line at y = 0."""
    waist, hip = complex(lean, 200), 0j
    point, knee, hem = complex(-reach, -100 - drop), complex(-30, -420), complex(-30, -840)
    side_hem, side_knee = hem + width - 40, knee + width - 40
    side_hip = complex(width, 0)
    # The crotch is square to the inside leg where they meet; so are waist and centre.
    down = complex(0.2, -1) / abs(complex(0.2, -1))
    up = (waist - hip) / abs(waist - hip)
    crotch = Curve.cubic(hip, -60 * up, point + 45j * down, point)
    inside = Curve.cubic(point, point + 110 * down, knee + 110j, knee)
    side = Curve.cubic(side_hip, side_hip - 150j, side_knee + 150j, side_knee)
    side_waist = complex(width - 30, 203)
    square = -1j * up
    one, two, tip = complex(lean + 70, 194), complex(lean + 88, 194), complex(lean + 79, 90)
    edges = (
        Edge("crotch", BOTH, f"centre {where} waist", POINT,
             (Curve.line(waist, hip).joined(crotch),)),
        Edge("inside leg", BOTH, POINT, "inside hem", (inside.joined(Curve.line(knee, hem)),)),
        Edge("hem", BOTH, "inside hem", "side hem", (Curve.line(hem, side_hem),)),
        Edge("side", BOTH, "side hem", "side waist",
             (Curve.line(side_hem, side_knee).joined(side.reversed).joined(
                 Curve.cubic(side_hip, side_hip + 70j, side_waist + complex(8, -60), side_waist)
             ),)),
        Edge("waist", BOTH, "side waist", f"centre {where} waist",
             (Curve.line(side_waist, two), Curve.cubic(one, one - 20, waist + 20 * square, waist)),
             ("waist dart",)),
    )  # fmt: skip
    return Piece(
        name=where, side=BOTH, edges=edges,
        darts=(Dart("waist dart", BOTH, (Curve.line(two, tip), Curve.line(tip, one)), 0.0,
                    "to the centre", "waist"),),
        notches=(Notch("hip notch", BOTH, "side", "side waist", 205.0),
                 Notch("inside knee notch", BOTH, "inside leg", POINT, 330.0)),
        levels=(
            Level("waist line", BOTH, (), ("waist",)),
            Level("hip line", BOTH, ((hip, side_hip),)),
            Level("crotch line", BOTH, ((point, complex(side.point_at(100 + drop).real,
                                                       point.imag)),)),
            Level("knee line", BOTH, ((knee, side_knee),)),
        ),
        grain=(complex(70, -780), complex(70, -20)),
    )  # fmt: skip


@cache
def drawn() -> Pattern:
    """Trousers drawn by hand; their seams do not quite match, as hands have it."""
    front = _leg("front", 8.0, 62.0, 0.0, 242.0)
    back = _leg("back", 34.0, 105.0, 5.0, 254.0)
    return settled(Pattern((front, back), _seams(), (("waist line", 20.0), ("hip line", 50.0))))


def _seams() -> tuple[Seam, ...]:
    return (
        Seam("side", BOTH, (Run("front", "side", BOTH),), (Run("back", "side", BOTH),),
             (Match("front", "hip notch", "back", "hip notch"),)),
        Seam("inside leg", BOTH, (Run("front", "inside leg", BOTH),),
             (Run("back", "inside leg", BOTH),),
             (Match("front", "inside knee notch", "back", "inside knee notch"),)),
        *(Seam(f"centre {where}", BodySide.CENTRE, (Run(where, "crotch", BOTH),),
               (Run(where, "crotch", BOTH),)) for where in ("front", "back")),
    )  # fmt: skip


@cache
def drafted(number: int = -1) -> Pattern:
    """A drafted block: of the textbook's size 12, or of one of 260 women (Heinz and others)."""
    if number < 0:
        body = next(one.body for one in chart_bodies() if one.name == "textbook size 12")
    else:
        body = bdims_bodies()[number].body
    return draft_trousers(estimate(body, TO_ESTIMATE)).pattern


@cache
def paper() -> Pattern:
    """The trousers bought as a garment: names and no outlines."""
    pieces = tuple(
        Piece(name=p.name, side=p.side, edges=tuple(
            Edge(e.name, e.side, e.start, e.end) for e in p.edges))
        for p in drawn().pieces
    )  # fmt: skip
    return Pattern(pieces, tuple(replace(s, matches=()) for s in drawn().seams))


BLOCKS = (drawn(), drafted(), drafted(40))
NAMES = ("drawn", "drafted", "drafted 40")


def corner_sum(pattern: Pattern) -> float:
    """The angle across the inside leg at its point: 180 degrees is smooth."""
    return sum(corners(pattern))


def corners(pattern: Pattern) -> tuple[float, ...]:
    """Each piece's angle between crotch and inside leg."""
    out = []
    for piece in pattern.pieces:
        crotch = piece.edge("crotch")
        out.append(corner_angle(piece, crotch, crotch.end == POINT))
    return tuple(out)


def bends(piece: Piece, name: str) -> list[float]:
    """How an edge turns from one of 200 places to the next, degrees."""
    line = piece.edge(name).drawn[0]
    ways = [line.heading_at(line.length * k / 200) for k in range(201)]
    return [math.degrees(turn_between(a, b)) for a, b in itertools.pairwise(ways)]
