"""A seam moved towards one of its pieces, all that lies across it shared out exactly.

The first side's edges are moved by the amounts, the second side's by as much the other way.
Where a line of the garment crosses the seam (a neighbouring edge, a bust line) at other than
a right angle the two would not quite make up for each other; the second side is then moved by
the hair that is missing.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.alterations.adjusted import adjusted
from tracker.alterations.along_seams import AmountAt, edge_moves, named_by
from tracker.alterations.shaping import EdgeAt, Shapes, level_on_base, merged, shaped
from tracker.alterations.sleeve_seam import cap_kept
from tracker.geometry.profile import Profile
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import Walked, across, notch_on_edge, seam_distance, side_lengths, walked

#: An amount this small needs no making up for.
_NOTHING_MM = 0.01
#: A notch this near a corner is that corner's.
_AT_CORNER_MM = 0.5
#: A cap notch is looked for this near the place that meets the seam.
_CAP_MM = 3.0


@dataclass(frozen=True)
class Shifted:
    """A seam shifted, and what went with it in words."""

    pattern: Pattern
    trace: Trace
    notches: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class _Line:
    """What must stay: a line of the garment that crosses the seam, and where on each side."""

    measured: tuple[tuple[Run, str], ...]
    edge: EdgeAt
    base_mm: float
    level: bool

    def length(self, pattern: Pattern) -> float:
        total = 0.0
        for run, name in self.measured:
            piece = pattern.piece(run.piece, run.side)
            if self.level:
                total += level_length(piece, piece.level(name, run.side))
            else:
                total += piece.edge(name, run.side).length
        return total


def shifted(
    pattern: Pattern, seam: Seam, amounts: Sequence[AmountAt], way: float, step_id: str
) -> Shifted:
    """Shift a seam.

    Args:
        pattern: the pattern.
        seam: one of its seams, of two different sides.
        amounts: at places of its first side.
        way: 1 towards the first side, -1 towards the second.
        step_id: the id the displacements carry.

    Raises:
        PatternError: the seam cannot go there.
    """
    first, second = walked(pattern, seam.first), walked(pattern, seam.second)
    places = []
    for a in amounts:
        place = Place(seam=seam.name, side=seam.side, corner=a.corner, distance_mm=a.distance_mm)
        places.append((seam_distance(pattern, place), way * a.amount_mm))
    places.sort()
    over = [(across(pattern, seam, s), -v) for s, v in places]
    named = [named_by(first, s) for s, _ in places]
    main: Shapes = {
        key: (profile,)
        for moves in (edge_moves(first, places), edge_moves(second, over, named))
        for key, profile in moves.items()
    }
    lines = _lines(pattern, first, second, main)
    pinned = _pinned(second, over)
    before = [line.length(pattern) for line in lines]

    def drawn(extra: Sequence[float]) -> tuple[Pattern, Trace]:
        return shaped(pattern, merged(main, _making_up(lines, extra, pinned)), step_id)

    def misses(extra: Sequence[float]) -> list[float]:
        new = drawn(extra)[0]
        return [line.length(new) - was for line, was in zip(lines, before, strict=True)]

    # Into the second side's piece is shorter.
    extra = adjusted(
        misses, [0.0] * len(lines), [-1.0] * len(lines),
        f"the {seam.name} seam cannot be shifted so far that the lines across it stay as long as "
        "they are; a smaller amount would",
        decimals=3,
    )  # fmt: skip
    new, trace = drawn(extra)
    new, notches = _notches_kept(pattern, new, seam)
    new, cap = _cap_notch(pattern, new, seam)
    new, own = cap_kept(pattern, new, seam)
    return Shifted(new, trace, (*notches, *cap, *own), (_difference(pattern, new, seam),))


def _ends(side: tuple[Walked, ...]) -> tuple[tuple[Walked, bool], tuple[Walked, bool]]:
    """The edges at a side's two ends, and whether the end is the edge's own end."""
    return (side[0], side[0].run.backward), (side[-1], not side[-1].run.backward)


def _neighbour(piece: Piece, edge: Edge, at_end: bool) -> Edge:
    return piece.after(edge) if at_end else piece.before(edge)


def _key(run: Run) -> EdgeAt:
    return run.piece, run.side, run.edge, run.side


def _lines(
    pattern: Pattern, first: tuple[Walked, ...], second: tuple[Walked, ...], main: Shapes
) -> list[_Line]:
    """Everything that crosses the seam where the second side is moved."""
    found: list[_Line] = []

    def moved(key: EdgeAt, base_mm: float) -> bool:
        return abs(main[key][0].at(base_mm)[0]) > _NOTHING_MM

    for (one, one_end), (two, two_end) in zip(_ends(first), _ends(second), strict=True):
        base = two.edge.base_length if two_end else 0.0
        if moved(_key(two.run), base):
            measured = tuple(
                (w.run, _neighbour(pattern.piece(w.run.piece, w.run.side), w.edge, end).name)
                for w, end in ((one, one_end), (two, two_end))
            )
            found.append(_Line(measured, _key(two.run), base, False))
    for two in second:
        piece = pattern.piece(two.run.piece, two.run.side)
        for level in piece.levels:
            if level.side is not two.run.side:
                continue
            here = level_on_base(two.edge, level.strokes)
            if here is None or not moved(_key(two.run), here):
                continue
            if any(abs(here - x.base_mm) < 2.0 for x in found if x.edge == _key(two.run)):
                continue
            one_run = _other(pattern, first, level.name)
            if one_run:
                measured = (one_run, level.name), (two.run, level.name)
                found.append(_Line(measured, _key(two.run), here, True))
    return found


def _other(pattern: Pattern, first: tuple[Walked, ...], level: str) -> Run | None:
    """The first side's run on which a material line ends, if it does."""
    for one in first:
        for known in pattern.piece(one.run.piece, one.run.side).levels:
            if (known.name, known.side) == (level, one.run.side) and (
                level_on_base(one.edge, known.strokes) is not None
            ):
                return one.run
    return None


def _pinned(
    second: tuple[Walked, ...], over: Sequence[tuple[float, float]]
) -> dict[EdgeAt, list[float]]:
    """Where nothing may be made up: the places to nothing, the ends, and inner corners."""
    out: dict[EdgeAt, list[float]] = {}
    for step in second:
        edge = step.edge
        nothing = [0.0, edge.base_length]
        for s, v in over:
            if v == 0 and step.from_mm <= s <= step.to_mm:
                nothing.append(edge.base_distance(step.on_edge(s)))
        out[_key(step.run)] = nothing
    return out


def _making_up(
    lines: Sequence[_Line], extra: Sequence[float], pinned: dict[EdgeAt, list[float]]
) -> Shapes:
    out: dict[EdgeAt, tuple[Profile, ...]] = {}
    for key in dict.fromkeys(line.edge for line in lines):
        mine = [(x.base_mm, e) for x, e in zip(lines, extra, strict=True) if x.edge == key]
        still = [(s, 0.0) for s in pinned[key] if all(abs(s - t) > 1.0 for t, _ in mine)]
        knots = sorted(dict([*still, *mine]).items())
        kept = [k for i, k in enumerate(knots) if i == 0 or k[0] - knots[i - 1][0] > 1e-3]
        out[key] = (Profile(tuple(kept)),)
    return out


def _notches_kept(old: Pattern, new: Pattern, seam: Seam) -> tuple[Pattern, list[str]]:
    """Keep notches of the edges across the seam on their cloth, though their corner moved."""
    told: list[str] = []
    for runs in (seam.first, seam.second):
        for walk, at_end in _ends(walked(old, runs)):
            was = old.piece(walk.run.piece, walk.run.side)
            edge = _neighbour(was, walk.edge, at_end)
            corner = walk.edge.end if at_end else walk.edge.start
            piece = new.piece(walk.run.piece, walk.run.side)
            by = piece.edge(*edge.key).length - edge.length
            own = seam.first[-1].piece == seam.second[-1].piece  # see cap_kept
            if abs(by) < 1e-4 or own:
                continue
            for notch in was.notches:
                if (notch.edge, notch.side) != edge.key or notch.corner != corner:
                    continue
                if notch.distance_mm <= _AT_CORNER_MM:
                    continue
                distance = notch.distance_mm + by
                if distance <= 0:
                    raise PatternError(
                        f"the {seam.name} seam would go past the {notch.name} of the "
                        f"{was.label}, {notch.distance_mm:.0f} mm from the {corner}"
                    )
                piece = piece.with_notch(replace(notch, distance_mm=distance))
                told.append(
                    f"{notch.name} of the {was.label} stays on its cloth, now {distance:.1f} mm "
                    f"from the {corner}"
                )
            new = new.with_pieces(piece)
    return new, told


def _armhole_seam(pattern: Pattern, seam: Seam) -> tuple[Seam, tuple[Run, ...], float] | None:
    """The seam across this one that joins both its pieces to a third; its far side; where."""
    for at_last in (1, 0):
        edges = []
        for runs in (seam.first, seam.second):
            walk, at_end = _ends(walked(pattern, runs))[at_last]
            piece = pattern.piece(walk.run.piece, walk.run.side)
            edges.append((piece.name, _neighbour(piece, walk.edge, at_end).name, walk.run.side))
        for other in pattern.seams:
            for near, far in ((other.first, other.second), (other.second, other.first)):
                keys = [(r.piece, r.edge, r.side) for r in near]
                if not all(e in keys for e in edges):
                    continue
                steps = walked(pattern, near)
                at = max(steps[keys.index(e)].from_mm for e in edges)
                return other, far, at
    return None


def cap_of(pattern: Pattern, seam: Seam) -> tuple[Run, ...]:
    """Return the edges (a sleeve's cap, a collar) sewn across a seam; none where none is."""
    found = _armhole_seam(pattern, seam)
    return found[1] if found else ()


def _cap_notch(old: Pattern, new: Pattern, seam: Seam) -> tuple[Pattern, list[str]]:
    """Move the notch of a sleeve or collar that meets the seam as far as the seam went."""
    was, now = _armhole_seam(old, seam), _armhole_seam(new, seam)
    if was is None or now is None or abs(now[2] - was[2]) < 1e-4:
        return new, []
    other, far, at = was
    by = now[2] - at
    if far is other.second:
        there = across(old, other, at)
    else:
        one, two = side_lengths(old, other)
        there = at * one / two
    best: tuple[float, Walked, str] | None = None
    for step in walked(old, far):
        piece = old.piece(step.run.piece, step.run.side)
        for notch in piece.notches:
            if (notch.edge, notch.side) == step.edge.key:
                off = abs(step.on_side(notch_on_edge(step.edge, notch)) - there)
                if off < _CAP_MM and (best is None or off < best[0]):
                    best = off, step, notch.name
    if best is None:
        return new, []
    _, step, name = best
    piece = new.piece(step.run.piece, step.run.side)
    notch = piece.notch(name, step.run.side)
    along = (notch.corner == step.edge.start) != step.run.backward
    moved = replace(notch, distance_mm=notch.distance_mm + (by if along else -by))
    told = f"{name} of the {piece.label} goes {abs(by):.1f} mm along with the {seam.name} seam"
    return new.with_pieces(piece.with_notch(moved)), [told]


def _difference(old: Pattern, new: Pattern, seam: Seam) -> str:
    a, b = side_lengths(old, seam), side_lengths(new, seam)
    was, now = a[1] - a[0], b[1] - b[0]
    one, two = seam.first[-1].piece, seam.second[-1].piece
    if one == two:
        one, two = seam.first[-1].edge, seam.second[-1].edge
    return (
        f"{seam.name} seam: {one} {b[0]:.1f} mm, {two} {b[1]:.1f} mm; their difference is "
        f"{now:.1f} mm and was {was:.1f} mm ({now - was:+.1f} mm)"
    )
