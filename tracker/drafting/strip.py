"""Straight strips: bands and collars cut to the length of what they are sewn to."""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch
from tracker.pattern.piece import Piece

#: The edge of a band that is sewn on.
BAND_SEAM = "band seam"
#: The edge of a collar that is sewn to the neckline.
NECK_EDGE = "neck edge"
FOLD_LINE = "fold line"


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
    length_mm: float, height_mm: float, beyond_mm: float, spots: Iterable[Spot], fold: str
) -> Piece:
    """Draw the right half of a straight stand collar, on the fold, its neck edge below.

    Args:
        length_mm: half of the neckline.
        height_mm: how high it stands.
        beyond_mm: how far it goes on beyond the other centre: over a button stand.
        spots: notches on the neck edge, from the fold.
        fold: the centre it is folded at, "centre back".
    """
    other = "centre front" if fold == "centre back" else "centre back"
    both = BodySide.BOTH
    a, b = complex(-length_mm, 0), 0j
    c, d = 1j * height_mm, complex(-length_mm - beyond_mm, height_mm)
    edges = [
        _edge(NECK_EDGE, both, f"{other} neck", f"{fold} neck", a, b),
        _edge(fold, both, f"{fold} neck", f"{fold} top", b, c),
        _edge("top", both, f"{fold} top", "end top", c, d),
    ]
    levels: tuple[Level, ...] = ()
    if beyond_mm > 0:
        foot = d.real + 0j
        edges += [
            _edge("end", both, "end top", "end foot", d, foot),
            _edge("over the stand", both, "end foot", f"{other} neck", foot, a),
        ]
        levels = (Level(other, BodySide.CENTRE, ((a, a + 1j * height_mm),)),)
    else:
        edges.append(_edge("end", both, "end top", f"{other} neck", d, a))
    half = -length_mm / 2
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
        grain=(complex(half, height_mm * 0.15), complex(half, height_mm * 0.85)),
        fold=fold,
        copies=2,
        cut="cut 2 on the fold",
    )


def _edge(name: str, side: BodySide, start: str, end: str, a: Point, b: Point) -> Edge:
    return Edge(name, side, start, end, (Curve.line(a, b),))


__all__ = ["BAND_SEAM", "FOLD_LINE", "NECK_EDGE", "Spot", "band", "stand_collar"]
