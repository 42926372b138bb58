"""The underarm of a bodice: where the armhole meets the side seam, or goes through without one."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.true_a_join import TrueJoin
from tracker.alterations.shaping import Shapes, at
from tracker.alterations.told import ONE_SIDE
from tracker.drafting.sleeve_armhole import BACK_EDGE, EDGE, SHOULDER, UNDERARM
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import notch_on_edge

#: Joins bent by more than this are trued, degrees.
_BENT_DEG = 1.0
_UNDERARM_NOTCH = "underarm notch"
#: Without a notch the armhole is back on its old line this far from the underarm.
_BLEND_MM = 80.0
#: A notch nearer than this to the underarm is too near for the armhole to follow to.
_NEAREST_MM = 50.0


def side_seam(pattern: Pattern, side: BodySide) -> Seam | None:
    """Return the seam that meets the armhole at the underarm on both its sides."""
    for seam in pattern.seams:
        if not _meant(seam.side, side):
            continue
        for last in (False, True):
            ends = [seam_end(pattern, runs, last) for runs in (seam.first, seam.second)]
            if all(corner == UNDERARM and across == EDGE for corner, across, _ in ends):
                return seam
    return None


def seam_end(pattern: Pattern, runs: tuple[Run, ...], last: bool) -> tuple[str, str, float]:
    """Return the corner at an end of a seam's side, the edge across there, and the angle."""
    run = runs[-1] if last else runs[0]
    piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
    at_end = last != run.backward
    across = piece.after(edge) if at_end else piece.before(edge)
    angle = corner_angle(piece, edge, at_end) if piece.has_outline else 0.0
    return (edge.end if at_end else edge.start), across.name, angle


def raised(pattern: Pattern, side: BodySide, by_mm: float) -> Iterator[Kind]:
    """Return the steps that raise the underarm (lower it when negative), where seams allow them.

    With a side seam both its pieces' underarm points go along it; without one the armhole is
    reshaped at its underarm notch. Either way it is back on its old line at its lowest notches.
    """
    seam = side_seam(pattern, side)
    if seam is None:
        yield from _reshaped(pattern, side, by_mm)
        return
    last = seam_end(pattern, seam.first, True)[0] == UNDERARM
    for runs in (seam.first, seam.second):
        run = runs[-1] if last else runs[0]
        yield MoveCorner(
            piece=run.piece, corner=UNDERARM, edge=run.edge, along_mm=by_mm,
            blend_mm=_blend(pattern.piece(run.piece, run.side), run.side), side=side,
        )  # fmt: skip


def raised_through(pattern: Pattern, side: BodySide, by_mm: float) -> dict[object, Shapes]:
    """Return, piece by piece, how armholes cut at the underarm for a sleeve are raised as one."""
    out: dict[object, Shapes] = {}
    for piece in pattern.pieces:
        for back in piece.edges:
            if back.name != BACK_EDGE or not _meant(back.side, side):
                continue
            front = piece.edge(EDGE, back.side)
            out[piece.key, back.side] = {
                at(piece, edge): (_towards_the_underarm(piece, edge, -by_mm),)
                for edge in (front, back)
            }
    return out


def _towards_the_underarm(piece: Piece, edge: Edge, amount: float) -> Profile:
    """Return amounts that are full at the underarm and nothing at the lowest notch."""
    whole, blend = edge.base_length, _blend(piece, edge.side, edge)
    if edge.start == UNDERARM:
        return Profile(((0.0, amount), (blend, 0.0)))
    return Profile(((whole - blend, 0.0), (whole, amount)))


def underarm_notches_kept(before: Pattern, after: Pattern) -> Pattern:
    """Put underarm notches where their place of the armhole went."""
    known = {p.key for p in before.pieces}
    for piece in after.pieces:
        if not piece.has_outline or piece.key not in known:
            continue
        was = before.piece(*piece.key)
        for notch in piece.notches:
            if notch.name != _UNDERARM_NOTCH or notch.edge not in (EDGE, BACK_EDGE):
                continue
            edge, old = piece.edge(notch.edge, notch.side), was.edge(notch.edge, notch.side)
            if edge.parts == old.parts:
                continue
            old_at = notch_on_edge(old, was.notch(*notch.key))
            if UNDERARM in (edge.start, edge.end):
                # The corner is its place.
                there = edge.length if edge.end == UNDERARM else 0.0
            else:
                on_base = old.base_distance(old_at)
                by = edge.total.at(on_base)[0] - old.total.at(on_base)[0]
                there = edge.nearest(old.point_at(old_at) + old.heading_at(old_at) * 1j * by)[0]
            distance = there if notch.corner == edge.start else edge.length - there
            piece = piece.with_notch(replace(notch, distance_mm=distance))
            after = after.with_pieces(piece)
    return after


def trued(before: Pattern, after: Pattern, side: BodySide) -> Iterable[Kind]:
    """Return the steps that true joins of the armhole that became bent, one for both sides."""
    done: set[str] = set()
    for seam in after.seams:
        if not _meant(seam.side, side) or (seam.name in done and side not in ONE_SIDE):
            continue
        for last in (False, True):
            ends = [seam_end(after, runs, last) for runs in (seam.first, seam.second)]
            corner = ends[0][0]
            if corner not in (UNDERARM, SHOULDER) or any(a != EDGE for _, a, _ in ends):
                continue
            was = next((s for s in before.seams if s.name == seam.name), seam)
            old = sum(seam_end(before, runs, last)[2] for runs in (was.first, was.second))
            off = abs(sum(angle for _, _, angle in ends) - 180.0)
            if off > max(_BENT_DEG, abs(old - 180.0) + 0.1):
                done.add(seam.name)
                yield TrueJoin(seam=seam.name, corner=corner, side=side)
                break


def _meant(of: BodySide, side: BodySide) -> bool:
    return side not in ONE_SIDE or of in (side, BodySide.BOTH)


def _blend(piece: Piece, side: BodySide, edge: Edge | None = None) -> float:
    """How far along the armhole's base line from the underarm its lowest notch is.

    On the base line, so that the way back is drawn over the same stretch.
    """
    edge = edge or piece.edge(EDGE, side)
    from_underarm = [
        there if edge.start == UNDERARM else edge.base_length - there
        for there in (
            edge.base_distance(notch_on_edge(edge, n))
            for n in piece.notches
            if (n.edge, n.side) == edge.key
        )
    ]
    near = [s for s in from_underarm if s >= _NEAREST_MM]
    return min(near, default=min(_BLEND_MM, edge.length))


def _reshaped(pattern: Pattern, side: BodySide, by_mm: float) -> Iterator[Kind]:
    """Raise an armhole that goes through under the arm without a seam."""
    for piece in pattern.pieces:
        found = [
            n for n in piece.notches
            if n.name == _UNDERARM_NOTCH and n.edge == EDGE and _meant(n.side, side)
        ]  # fmt: skip
        for notch in found[:1]:
            edge = piece.edge(notch.edge, notch.side)
            if UNDERARM in (edge.start, edge.end):
                continue
            middle = notch_on_edge(edge, notch)
            others = sorted(
                notch_on_edge(edge, n) for n in piece.notches
                if (n.edge, n.side) == edge.key and n.name != _UNDERARM_NOTCH
            )  # fmt: skip
            low = max([s for s in others if s < middle - 20.0], default=max(middle - 90.0, 0.0))
            high = min(
                [s for s in others if s > middle + 20.0], default=min(middle + 90.0, edge.length)
            )
            yield ReshapeEdge(
                piece=piece.name, edge=edge.name, side=side,
                amounts=tuple(
                    AmountAt(corner=edge.start, distance_mm=s, amount_mm=v)
                    for s, v in ((low, 0.0), (middle, -by_mm), (high, 0.0))
                ),
            )  # fmt: skip
            return


def each_way(pattern: Pattern, side: BodySide) -> tuple[BodySide, ...]:
    """Return the side meant; or, where only one side has a side seam, right and left apart."""
    if side in ONE_SIDE:
        return (side,)
    found = {side_seam(pattern, one) is None for one in ONE_SIDE}
    return ONE_SIDE if len(found) == 2 else (side,)


def refuse_without(pattern: Pattern, side: BodySide) -> None:
    """Refuse a pattern without an armhole.

    Raises:
        PatternError: there is none on that side.
    """
    if not any(
        e.name == EDGE and _meant(e.side, side)
        for p in pattern.pieces
        if p.layer == "shell"
        for e in p.edges
    ):
        raise PatternError("this pattern has no armhole there")


__all__ = ["each_way", "raised", "raised_through", "refuse_without", "seam_end", "side_seam",
           "trued", "underarm_notches_kept"]  # fmt: skip
