"""The elbow dart: the forearm of a sleeve swung forward, the back seam's surplus put in a dart.

The part below the elbow line turns forward about the elbow's end on the front seam, which keeps
both seams as long as they were. The wedge that opens is sewn as a dart from the back seam to half
the sleeve's width; what is left of it before the dart's point is the room the elbow bends in.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, replace

from tracker.drafting.sleeve_pattern import (
    BACK_UNDERARM,
    BACK_WRIST,
    ELBOW_LINE,
    FRONT_UNDERARM,
)
from tracker.errors import TrackerError
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turn_between, turned
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.piece import Piece

REACH = 0.5
"""How far across the sleeve the dart runs; common practice, no source."""
MOST_SHARE = 0.1
"""No elbow dart takes more than this share of the elbow's girth; common practice, no source."""
NAME = "elbow dart"


class NoElbowDart(TrackerError):
    """An elbow dart of a width no sleeve has."""


@dataclass(frozen=True, slots=True)
class Bend:
    """How a forearm is swung.

    Attributes:
        angle_rad: by how much it turns forward.
        straight_mm: elbow point to elbow point, straight, for the wanted girth over the dart.
    """

    angle_rad: float
    straight_mm: float

    @classmethod
    def of(cls, intake_mm: float, elbow_mm: float) -> Bend:
        """Return the bend of a dart's width on a finished elbow girth.

        Raises:
            NoElbowDart: the width is less than nothing or too much.
        """
        most = MOST_SHARE * elbow_mm
        if not 0 <= intake_mm <= most:
            raise NoElbowDart(
                f"an elbow dart {intake_mm:g} mm wide cannot be drawn on an elbow of "
                f"{elbow_mm:.0f} mm; give from 0 (none) to {most:.0f} mm, 15 mm is usual"
            )
        half = math.asin(intake_mm / (2.0 * elbow_mm))
        # The elbow line runs along the upper leg, which is a little longer than straight across.
        over = 1 - REACH + math.sqrt(1 + (1 - REACH) ** 2 - 2 * (1 - REACH) * math.cos(half))
        straight = elbow_mm / over
        return cls(2.0 * math.asin(intake_mm / (2.0 * straight)), straight)

    def gap_mm(self, from_front_mm: float) -> float:
        """Return how far the wedge stands open at a distance from the front seam."""
        return 2.0 * from_front_mm * math.sin(self.angle_rad / 2.0)


def elbow_ends(piece: Piece) -> tuple[Point, Point]:
    """Return the elbow line's ends: on the back seam, on the front seam."""
    stroke = piece.level(ELBOW_LINE).strokes[0]
    return stroke[0], stroke[-1]


def with_elbow_dart(piece: Piece, bend: Bend) -> Piece:
    """Return a plain sleeve with its forearm swung forward and the elbow dart in its back seam."""
    back, hinge = elbow_ends(piece)
    angle = bend.angle_rad

    def swung(p: Point) -> Point:
        return turned(p, hinge, angle)

    opened = swung(back)
    pivot = hinge + (1 - REACH) * ((back + opened) / 2 - hinge) / math.cos(angle / 2)
    spread = turn_between(back - pivot, opened - pivot)
    old_front, old_back = (piece.edge(n).drawn[0].segments for n in (FRONT_UNDERARM, BACK_UNDERARM))
    lower, upper = old_front
    front = Curve.of(
        (
            (swung(lower[0]), swung(lower[1]), turned(swung(lower[2]), hinge, -angle / 2), hinge),
            (hinge, turned(upper[1], hinge, angle / 2), upper[2], upper[3]),
        )
    )
    # Both sides of the mouth lean so that the seam is smooth when the dart is folded.
    lean = (spread - angle) / 2
    above, below = old_back
    top = Curve.of(((above[0], above[1], turned(above[2], back, -lean), back),))
    foot = (opened, turned(swung(below[1]), opened, lean), swung(below[2]), swung(below[3]))
    wrist = piece.edge("wrist").drawn[0].segments[0]
    hem = [swung(p) for p in wrist]
    way = (foot[3] - foot[2]) / abs(foot[3] - foot[2])
    for _ in range(6):
        # What the bends left unequal comes off or goes on at the back of the wrist.
        off = front.length - top.length - Curve.of((foot,)).length
        foot = (foot[0], foot[1], foot[2] + way * off, foot[3] + way * off)
        hem[0], hem[1] = hem[0] + way * off, hem[1] + way * off
    line = (back, pivot, hinge)
    edges = (
        replace(piece.edge("wrist"), parts=(Curve.of((tuple(hem),)),)),
        replace(piece.edge(FRONT_UNDERARM), parts=(front,)),
        piece.edges[2],
        Edge(
            BACK_UNDERARM, piece.edge(BACK_UNDERARM).side, piece.edge(BACK_UNDERARM).start,
            BACK_WRIST, (top, Curve.of((foot,))), (NAME,),
        ),
    )  # fmt: skip
    legs = (Curve.line(back, pivot), Curve.line(pivot, opened))
    return replace(
        piece,
        edges=edges,
        darts=(Dart(NAME, piece.side, legs, 0.0, "down", BACK_UNDERARM),),
        levels=tuple(
            Level(v.name, v.side, (line,)) if v.name == ELBOW_LINE else v for v in piece.levels
        ),
    )


def down_the_arm(piece: Piece, top: Point, bend: Bend) -> float:
    """Return the way from the top of the cap over the elbow to the wrist, millimetres."""
    _, hinge = elbow_ends(piece)
    elbow = complex(top.real, hinge.imag)
    below = turned(elbow, hinge, bend.angle_rad)
    heading = -1j * cmath.exp(1j * bend.angle_rad)
    wrist = with_line(piece.edge("wrist").drawn[0], below, heading)[0].point
    return abs(top - elbow) + abs(below - elbow) + abs(wrist - below)
