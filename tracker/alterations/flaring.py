"""Opening a piece below: slashes spread evenly along its hem, and darts closed into the hem."""

from dataclasses import replace

from tracker.alterations.mouth_moved import mended
from tracker.alterations.slash import CutAt, slashed
from tracker.alterations.turning import (
    Swung,
    angle_of,
    chained,
    closed_up,
    opened_at,
    swung,
)
from tracker.geometry.crossing import of_curves, with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot, unit
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Renamed, Trace

#: A slash keeps this far from dart mouths and the ends of the edge it hinges on.
CLEAR_MM = 6.0
#: ... and is led aside in such steps to keep clear of a dart, at most so many.
_STEP_MM, _STEPS = 4.0, 30
_FLARE = "flare"


def upper_edge(piece: Piece, hem: Edge) -> Edge:
    """Return the edge a hem's slashes run up to: that across the piece, opposite the hem.

    Raises:
        PatternError: straight up from the hem's middle there is none.
    """
    met = _above(piece, hem)
    if len(met) != 1:
        named = ", ".join(e.name for e in met) or "no edge that runs across"
        raise PatternError(
            f"above the {hem.name} the {piece.label} has {named}, and slashes need one edge to "
            "hinge on; part it at the waist first, or widen the hem at the seams (taper or widen)"
        )
    return met[0]


def has_one_above(piece: Piece, hem: Edge) -> bool:
    """Tell whether one edge across the piece lies above its hem."""
    return len(_above(piece, hem)) == 1


def _above(piece: Piece, hem: Edge) -> list[Edge]:
    up = _up(piece, hem)
    ends = {hem.name, piece.before(hem).name, piece.after(hem).name}
    met = []
    for edge in piece.edges:
        if edge.name in ends or edge.side is not hem.side:
            continue
        chord = edge.drawn[-1].end - edge.drawn[0].start
        if abs(dot(unit(chord), up)) < 0.7:
            met.append(edge)
    return met


def _up(piece: Piece, hem: Edge) -> Point:
    if piece.grain:
        return unit(piece.grain[1] - piece.grain[0])
    return unit(hem.heading_at(hem.length / 2)) * 1j


def staying(piece: Piece) -> Point | None:
    """Return a point of the part that stays: the fold's or the centre's middle."""
    for edge in piece.edges:
        if edge.name == piece.fold or edge.name.startswith("centre "):
            return edge.point_at(edge.length / 2)
    if piece.grain:
        return (piece.grain[0] + piece.grain[1]) / 2
    return None


def slashed_evenly(piece: Piece, hem: Edge, above: Edge, by_mm: float, count: int) -> Swung:
    """Return a piece slashed at even places of its hem and spread there.

    Args:
        piece: the piece.
        hem: its hem.
        above: the edge the slashes hinge on.
        by_mm: how much is put in at all of them together; negative takes out.
        count: how many.

    Raises:
        PatternError: one would cross a dart or does not fit.
    """
    each, trace = by_mm / count, Trace()
    stays = staying(piece)
    box = piece.box
    stays = complex((box[0] + box[2]) / 2, (box[1] + box[3]) / 2) if stays is None else stays
    # Places by their cloth: what is put in moves with it, so marks are found again.
    low = [hem.length * (k + 0.5) / count for k in range(count)]
    high = [_hinge(piece, hem, above, at) for at in low]
    # From the part that stays outwards, so that places not yet cut stay what they are.
    order = sorted(range(count), key=lambda k: abs(hem.point_at(low[k]) - stays))
    done: list[int] = []
    for k in order:
        now_hem, now_above = piece.edge(*hem.key), piece.edge(*above.key)
        added = now_hem.length - hem.length
        before = sum(1 for j in done if j < k) / len(done) * added if done else 0.0
        one = CutAt(now_hem, low[k] + before)
        other = CutAt(now_above, high[k])
        cut = slashed(piece, one, other, each, 0.0, stays)
        piece, trace = cut.piece, trace.then(Trace(cut.fates)) if done else Trace(cut.fates)
        done.append(k)
    return Swung(piece, trace)


def _hinge(piece: Piece, hem: Edge, above: Edge, at_mm: float) -> float:
    """Where on the edge above a slash from a place of the hem ends, clear of darts."""
    start = hem.point_at(at_mm)
    share = at_mm / hem.length
    # The two edges run opposite ways round the piece.
    wanted = above.length * (1 - share)
    stops, before = [0.0], 0.0
    for part in above.drawn:
        before += part.length
        stops.append(before)
    for step in range(_STEPS):
        for sign in (1, -1) if step else (1,):
            spot = wanted + sign * step * _STEP_MM
            if not CLEAR_MM <= spot <= above.length - CLEAR_MM:
                continue
            if min(abs(spot - s) for s in stops) < CLEAR_MM:
                continue
            line = Curve.line(start, above.point_at(spot))
            if not any(of_curves(line, leg) for d in piece.darts for leg in d.legs):
                return spot
    raise PatternError(
        f"a slash from the {hem.name} of the {piece.label} to its {above.name} would cross a dart "
        "wherever it is led; close that dart into the flare, or slash at fewer places"
    )


def place_of_dart(piece: Piece, dart: Dart, hem: str) -> float:
    """Return where straight below a dart's point the hem is.

    Raises:
        PatternError: the dart has no mouth, or no hem lies below it.
    """
    if dart.mouth is None:
        raise PatternError(
            f"the {dart.name} of the {piece.label} has two points; part the piece there first"
        )
    edge = piece.edge(hem, dart.side)
    down = -_up(piece, edge)
    before = 0.0
    for part in edge.drawn:
        for c in with_line(part, dart.pivot, down):
            if c.second_mm > 1.0:
                return before + c.first_mm
        before += part.length
    raise PatternError(f"no {hem} lies below the point of the {dart.name} of the {piece.label}")


def closed_into(piece: Piece, dart: Dart, hem: str, at_mm: float) -> Swung:
    """Return a piece with a dart closed and its angle opened at the hem, as cloth.

    The fold or the centre stays; the part to the side of the slash turns.
    """
    edge = piece.edge(hem, dart.side)
    kept = piece.grain
    centre = next((e for e in piece.edges if e.name.startswith("centre ")), None)
    if piece.fold is None and centre is not None:
        line = centre.drawn[0]
        inward = line.heading_at(line.length / 2) * 1j
        middle = line.point_at(line.length / 2) + inward
        piece = replace(piece, grain=(middle - inward * 1j, middle + inward * 1j))
    fresh = replace(dart, name=_FLARE, mouth=hem)
    opened = opened_at(piece, edge, at_mm, dart.pivot, fresh)
    turned = swung(opened, dart.key, fresh.key, abs(angle_of(dart)))
    shut = closed_up(turned.piece, dart.key)
    flare = shut.piece.dart(*fresh.key)
    levels = []
    for level in shut.piece.levels:
        whole = mended(level, flare)
        levels.append(
            whole if whole is level else replace(whole, strokes=tuple(chained([*whole.strokes])))
        )
    filled = closed_up(replace(shut.piece, levels=tuple(levels)), flare.key)
    gone = Renamed("dart", (piece.name, dart.name), (piece.name, ""))
    trace = turned.trace.then(shut.trace).then(filled.trace)
    return Swung(replace(filled.piece, grain=kept), Trace(trace.fates, (gone,)))


__all__ = ["closed_into", "place_of_dart", "slashed_evenly", "staying", "upper_edge"]
