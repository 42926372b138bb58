"""Straight strips: bands and collars cut to the length of what they are sewn to."""

import cmath
import math
from collections.abc import Iterable
from dataclasses import dataclass

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Level, Notch
from tracker.pattern.piece import Piece

#: The edge of a band that is sewn on.
BAND_SEAM = "band seam"
#: The edge of a collar that is sewn to the neckline.
NECK_EDGE = "neck edge"
FOLD_LINE = "fold line"
#: A shaped collar is bent by no more than this from its shoulder to the front; common practice
#: bends it by 5 to 20 degrees.
MOST_BENT_RAD = math.radians(45)
#: An arc is drawn in so many pieces: exact to a millionth of its length.
ARCS = 3


@dataclass(frozen=True, slots=True)
class Spot:
    """A notch on a strip's sewn edge: how far from its start, and its name."""

    at_mm: float
    name: str


def band(
    length_mm: float, height_mm: float, spots: Iterable[Spot], side: BodySide, *, doubled: bool
) -> Piece:
    """Draw a straight band, its sewn edge below, straight grain along it.

    Args:
        length_mm: along the sewn edge.
        height_mm: finished; a doubled one is drawn twice as high, with its fold line.
        spots: notches on the sewn edge.
        side: centre for one that goes all round, else the side of the piece it is sewn to.
        doubled: cut in one with its own inside.
    """
    high = height_mm * (2 if doubled else 1)
    a, b, c, d = 0j, complex(length_mm, 0), complex(length_mm, high), complex(0, high)
    piece_edges = (
        _edge(BAND_SEAM, side, "seam start", "seam end", a, b),
        _edge("far end", side, "seam end", "top end", b, c),
        _edge("top", side, "top end", "top start", c, d),
        _edge("near end", side, "top start", "seam start", d, a),
    )
    folded = Level(FOLD_LINE, BodySide.CENTRE, ((1j * height_mm, length_mm + 1j * height_mm),))
    whole = side is BodySide.CENTRE
    both = side is BodySide.BOTH
    return Piece(
        name="band",
        side=side,
        edges=piece_edges,
        notches=tuple(
            Notch(s.name, side, BAND_SEAM, "seam start", s.at_mm)
            for s in spots
            if 1.0 < s.at_mm < length_mm - 1.0
        ),
        levels=(folded,) if doubled else (),
        grain=(complex(0.1 * length_mm, high * 0.3), complex(0.9 * length_mm, high * 0.3)),
        copies=2 if both else 1,
        cut="cut 1" if whole or not both else "cut 2, a pair",
    )


def stand_collar(
    length_mm: float,
    height_mm: float,
    beyond_mm: float,
    spots: Iterable[Spot],
    fold: str,
    shorter_mm: float = 0.0,
) -> Piece:
    """Draw the right half of a stand collar, on the fold, its neck edge below.

    A shaped one bends up evenly from its shoulder to the centre front: bent by an angle, what lies
    a height above is shorter by the angle times the height.

    Args:
        length_mm: half of the neckline.
        height_mm: how high it stands.
        beyond_mm: how far it goes on beyond the other centre: over a button stand.
        spots: notches on the neck edge, from the fold.
        fold: the centre it is folded at, "centre back".
        shorter_mm: how much shorter its top is, on the half.

    Raises:
        PatternError: it would have to be bent too far.
    """
    other = "centre front" if fold == "centre back" else "centre back"
    both = BodySide.BOTH
    spots = list(spots)
    shoulder = next((s.at_mm for s in spots), length_mm / 2)
    bent = (0.0, shoulder) if fold == "centre front" else (shoulder, length_mm)
    turn = shorter_mm / height_mm
    most = min(MOST_BENT_RAD, 0.8 * (bent[1] - bent[0]) / height_mm)
    if turn > most:
        raise PatternError(
            f"the top of a collar {height_mm:.0f} mm high can be at most "
            f"{math.floor(2 * most * height_mm)} mm shorter than its neck edge, all round; it "
            "would be bent too far"
        )
    neck, top = (_bent_line(length_mm, bent, turn, up) for up in (0.0, height_mm))
    away = neck.start_heading  # the strip runs from the fold to its end, to the left
    b, c = neck.start, top.start
    a, d = neck.end, top.end
    assert abs(away + 1) < 1e-9
    out = neck.end_heading * beyond_mm
    edges = [
        Edge(NECK_EDGE, both, f"{other} neck", f"{fold} neck", (neck.reversed,)),
        _edge(fold, both, f"{fold} neck", f"{fold} top", b, c),
    ]
    levels: tuple[Level, ...] = ()
    if beyond_mm > 0:
        whole = top.joined(Curve.line(d, d + out))
        edges += [
            Edge("top", both, f"{fold} top", "end top", (whole,)),
            _edge("end", both, "end top", "end foot", d + out, a + out),
            _edge("over the stand", both, "end foot", f"{other} neck", a + out, a),
        ]
        levels = (Level(other, BodySide.CENTRE, ((a, d),)),)
    else:
        edges += [
            Edge("top", both, f"{fold} top", "end top", (top,)),
            _edge("end", both, "end top", f"{other} neck", d, a),
        ]
    half = -length_mm / 2
    low, high = (line.point_at(line.length / 2).imag for line in (neck, top))
    if not turn:
        low, high = 0.0, height_mm
    else:
        half = neck.point_at(neck.length / 2).real
    return Piece(
        name="collar",
        side=both,
        edges=tuple(edges),
        notches=tuple(
            Notch(s.name, both, NECK_EDGE, f"{fold} neck", s.at_mm)
            for s in spots
            if 1.0 < s.at_mm < length_mm - 1.0
        ),
        levels=levels,
        grain=(
            complex(half, low + (high - low) * 0.15), complex(half, low + (high - low) * 0.85),
        ),
        fold=fold,
        copies=2,
        cut="cut 2 on the fold",
    )  # fmt: skip


def _bent_line(length_mm: float, bent: tuple[float, float], turn_rad: float, up_mm: float) -> Curve:
    """A strip's neck edge from its fold to its end, or the line a height above it.

    Args:
        length_mm: the neck edge's length.
        bent: from where to where along it, it is bent, evenly.
        turn_rad: by how much, up.
        up_mm: how far above.
    """
    if not turn_rad:
        return Curve.line(1j * up_mm, complex(-length_mm, up_mm))
    at, heading = 0j, -1 + 0j
    lines: list[Curve] = []
    for low, high, turn in (
        (0.0, bent[0], 0.0), (*bent, turn_rad), (bent[1], length_mm, 0.0),
    ):  # fmt: skip
        if high - low < 1e-6:
            continue
        above = heading * -1j * up_mm
        if not turn:
            lines.append(Curve.line(at + above, at + heading * (high - low) + above))
            at += heading * (high - low)
            continue
        radius = (high - low) / turn
        for _ in range(ARCS):
            # Bent up, to the right of its way to the left.
            step = turn / ARCS
            middle = at + heading * -1j * radius
            on = middle + (at - middle) * cmath.exp(-1j * step)
            onward = heading * cmath.exp(-1j * step)
            handle = 4 / 3 * math.tan(step / 4) * (radius - up_mm)
            p, q = at + heading * -1j * up_mm, on + onward * -1j * up_mm
            lines.append(Curve.cubic(p, p + heading * handle, q - onward * handle, q))
            at, heading = on, onward
    whole = lines[0]
    for line in lines[1:]:
        whole = whole.joined(line.started_at(whole.end))
    return whole


def _edge(name: str, side: BodySide, start: str, end: str, a: Point, b: Point) -> Edge:
    return Edge(name, side, start, end, (Curve.line(a, b),))


__all__ = ["BAND_SEAM", "FOLD_LINE", "NECK_EDGE", "Spot", "band", "stand_collar"]
