"""A flat collar: traced from front and back laid together at the shoulder, overlapped at its tip.

Laid flat its outer edge would be as long as the garment is there, and the collar lies flat; the
shoulder tips overlapped, its outer edge is shorter and draws the collar up at the neck: it rolls.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from tracker.drafting.facing_piece import grain_in
from tracker.drafting.laid_flat import Row
from tracker.drafting.strip import NECK_EDGE
from tracker.geometry.crossing import nearest_crossing
from tracker.geometry.curve import Curve
from tracker.geometry.displace import displaced
from tracker.geometry.point import Point, turn_between
from tracker.geometry.profile import Profile, Sum
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.marks import Notch
from tracker.pattern.piece import Piece

#: The neck edge is smoothed over the shoulder within this on either side.
_SMOOTH_MM = 50.0
#: The collar's outer edge is found within this beyond its ends.
_ON_MM = 200.0
#: A rounded end takes at most this share of the neck edge.
_ROUND_SHARE = 0.45
#: A quarter of a circle as a cubic.
_QUARTER = 0.5523
OUTER = "outer edge"


class CollarEnd(StrEnum):
    """How a flat collar ends."""

    ROUND = "round"
    POINT = "point"


@dataclass(frozen=True)
class FlatCollar:
    """A flat collar as it was traced.

    Attributes:
        piece: the collar, without its name.
        shorter_mm: how much shorter its outer edge is than with nothing overlapped, on the half.
        neck_off_mm: by how much its neck edge was made longer at the fold to be as long as the
            neckline.
    """

    piece: Piece
    shorter_mm: float
    neck_off_mm: float


def flat_collar(
    row: Row,
    fold: str,
    from_fold: bool,
    width_mm: float,
    overlap_mm: float,
    end: CollarEnd,
    point_mm: float = 0.0,
) -> FlatCollar:
    """Trace a flat collar.

    Args:
        row: the neckline from centre to centre, its pieces laid together at the shoulder.
        fold: the centre it is folded at.
        from_fold: whether the row begins there.
        width_mm: how wide it is, square to the neck edge.
        overlap_mm: how far the pieces overlap at the shoulder point.
        end: how it ends.
        point_mm: how much longer a pointed end is than the collar is wide.

    Raises:
        PatternError: it has no room.
    """
    drawn = _lines(row, from_fold, width_mm, overlap_mm, point_mm)
    flat = _lines(row, from_fold, width_mm, 0.0, point_mm)
    neck, outer = drawn.neck, drawn.outer
    other = "centre front" if fold == "centre back" else "centre back"
    both = BodySide.BOTH
    # Drawn from its fold on, the collar to the left where the row begins there.
    edges = [(NECK_EDGE, f"{fold} neck", f"{other} neck", neck)]
    if end is CollarEnd.ROUND:
        rounded = _rounded(neck, outer, width_mm)
        edges.append((OUTER, f"{other} neck", f"{fold} outer", rounded.reversed))
    else:
        edges.append(("end", f"{other} neck", "end outer", Curve.line(neck.end, outer.end)))
        edges.append((OUTER, "end outer", f"{fold} outer", outer.reversed))
    edges.append((fold, f"{fold} outer", f"{fold} neck", Curve.line(outer.start, neck.start)))
    ring = tuple(Edge(name, both, a, b, (line,)) for name, a, b, line in edges)
    if not from_fold:
        ring = tuple(
            Edge(e.name, both, e.end, e.start, (e.parts[0].reversed,)) for e in reversed(ring)
        )
    notches = tuple(
        Notch(f"{name} notch", both, NECK_EDGE, f"{fold} neck", at) for at, name in drawn.joints
    )
    piece = Piece(
        name="collar", side=both, edges=ring, notches=notches, fold=fold, copies=2,
        cut="cut 2 on the fold",
    )  # fmt: skip
    heading = neck.start - outer.start
    upright = Motion.turn(neck.start, turn_between(heading, 1j)).then(Motion.move(-neck.start))
    piece = replace(
        piece,
        edges=tuple(replace(e, parts=tuple(p.moved(upright) for p in e.parts)) for e in ring),
    )
    piece = replace(piece, grain=grain_in(piece, 1j))
    longer = flat.outer.length - drawn.outer.length
    return FlatCollar(piece, longer, drawn.off_mm)


@dataclass(frozen=True)
class _Lines:
    """The neck edge and the line a width outside it, both from the fold on."""

    neck: Curve
    outer: Curve
    joints: tuple[tuple[float, str], ...]
    off_mm: float


def _lines(
    row: Row, from_fold: bool, width_mm: float, overlap_mm: float, point_mm: float
) -> _Lines:
    pieces = [laid.line for laid in row.edges]
    before, after = row.before.line, row.after.line
    neck = pieces[0]
    joints: list[tuple[float, str]] = []
    turned = Motion()
    for k, line in enumerate(pieces[1:]):
        corner = neck.end
        if row.seams[k]:
            turned = turned.then(_overlapped(row, k, corner, overlap_mm))
            joints.append((sum(e.edge.length for e in row.edges[: k + 1]), row.seams[k]))
        line = line.moved(turned)
        line = line.moved(Motion.move(corner - line.start))
        at = neck.length
        neck = neck.joined(line)
        if row.seams[k] and overlap_mm:
            neck = _smoothed(neck, at, min(_SMOOTH_MM, 0.6 * at, 0.6 * line.length))
    after = after.moved(turned)
    after = after.moved(Motion.move(neck.end - after.start))
    # Going round the pieces the garment, and so the collar, lies to the left of the neckline.
    inward = (before.reversed if from_fold else after).start_heading
    wanted = sum(laid.edge.length for laid in row.edges)
    if not from_fold:
        joints = [(wanted - at, name) for at, name in reversed(joints)]
    line = neck if from_fold else neck.reversed
    off = wanted - line.length
    line = _longer_at_start(line, off)
    side = 1.0 if from_fold else -1.0
    long = line.length
    wide, far = side * width_mm, side * (width_mm + point_mm)
    profile = Profile(((0.0, wide), (0.45 * long, wide), (long, far)))
    outer = displaced(line, Sum.of([profile])).run_on(_ON_MM, _ON_MM)
    fold = Curve.line(line.start - inward, line.start + inward * (3 * width_mm + _ON_MM))
    at_fold = nearest_crossing(outer, fold, line.start + inward * width_mm)
    if at_fold is None:
        raise PatternError(
            f"{width_mm:.0f} mm wide the collar's outer edge would not meet its fold; make it "
            "narrower, or overlap the shoulder less"
        )
    outer = outer.part(at_fold.first_mm, outer.length - _ON_MM).started_at(at_fold.point)
    if outer.length < 0.3 * long:
        raise PatternError(
            f"{width_mm:.0f} mm wide the collar would have no outer edge left; make it narrower, "
            "or overlap the shoulder less"
        )
    return _Lines(line, outer, tuple(joints), off)


def _smoothed(line: Curve, at_mm: float, reach_mm: float) -> Curve:
    """A line drawn again past a corner, evenly from one side of it to the other."""
    before, after = line.part(0.0, at_mm - reach_mm), line.part(at_mm + reach_mm, line.length)
    p, q = before.end, after.start
    handle = abs(q - p) / 3
    blend = Curve.cubic(p, p + before.end_heading * handle, q - after.start_heading * handle, q)
    return before.joined(blend).joined(after)


def _overlapped(row: Row, joint: int, corner: Point, overlap_mm: float) -> Motion:
    """How what follows a seam is turned about the neck point, its tip over the other's."""
    here = row.edges[joint]
    seam = here.piece.after(here.edge)
    long = sum(part.length for part in seam.drawn)
    angle = 2 * math.asin(min(0.5, overlap_mm / 2 / long))
    # The pieces lie to the left of the row: what follows is turned over what came before.
    return Motion.turn(corner, angle)


def _longer_at_start(line: Curve, by_mm: float) -> Curve:
    if abs(by_mm) < 1e-9:
        return line
    if by_mm < 0:
        return line.part(-by_mm, line.length)
    return line.run_on(before_mm=by_mm)


def _rounded(neck: Curve, outer: Curve, width_mm: float) -> Curve:
    """The outer edge rounded up to the end of the neck edge."""
    reach = min(0.9 * width_mm, _ROUND_SHARE * outer.length)
    begin = outer.part(0.0, outer.length - reach)
    corner, end = outer.end, neck.end
    p = begin.end
    far = abs(corner - p)
    bow = Curve.cubic(
        p, p + begin.end_heading * far * _QUARTER, end + (corner - end) * _QUARTER, end
    )
    return begin.joined(bow)


__all__ = ["OUTER", "CollarEnd", "FlatCollar", "flat_collar"]
