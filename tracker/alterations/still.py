"""What a trace calls still, held against the lines: a line that moved is told as moved.

A kind says what it did; a mouth trued, a corner slid or a line fitted afresh may have moved a
little of what it means to leave. Why a line is where it is, is asked of the trace.
"""

import itertools
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, dot
from tracker.geometry.transform import STAY, Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import SHORTEST_MM, Fate, Stretch, Trace

#: A line within this of where it lay has not moved, millimetres.
STILL_MM = 0.01
#: A segment is looked at about this often along, and so many times at least.
_LOOK_MM, _LOOKS = 8.0, 4

Key = tuple[str, str, BodySide]


def lying_still(before: Pattern, after: Pattern, trace: Trace) -> Trace:
    """Return a trace that calls still only what lies within 0.01 mm of where it lay.

    A piece laid elsewhere as a whole under another name, or mirrored as the other half, lies
    where it lay; a stretch of which only some moved is told in parts.

    Args:
        before: the pattern before the step.
        after: the pattern after it.
        trace: what the step says.
    """
    if not any(f.still for f in trace.fates):
        return trace
    was, now = _edges(before), _edges(after)
    motions = _laid(trace.fates, was, now)
    fates: list[Fate] = []
    for fate in trace.fates:
        if fate.still and fate.old and fate.new:
            one, other = was.get(fate.old.key), now.get(fate.new.key)
            motion = motions.get(_way(fate), STAY)
            if one is None or other is None or motion is None:
                fates.append(replace(fate, still=False))
            elif one.parts is other.parts and motion is STAY:
                fates.append(fate)
            else:
                fates.extend(_Held(fate, one, other, motion).told())
        else:
            fates.append(fate)
    return Trace(tuple(fates), trace.renamed)


def _edges(pattern: Pattern) -> dict[Key, Edge]:
    return {(p.name, e.name, e.side): e for p in pattern.pieces for e in p.edges if e.parts}


# -- pieces laid elsewhere ----------------------------------------------------------------

_Way = tuple[str, BodySide, str, BodySide]


def _way(fate: Fate) -> _Way:
    assert fate.old is not None
    assert fate.new is not None
    return fate.old.piece, fate.old.side, fate.new.piece, fate.new.side


def _laid(
    fates: Iterable[Fate], was: dict[Key, Edge], now: dict[Key, Edge]
) -> dict[_Way, Motion | None]:
    """How pieces were laid that have another name now or are the other half; none for no way."""
    moved: dict[_Way, list[Fate]] = defaultdict(list)
    for fate in fates:
        if fate.still and fate.old and fate.new and (
            fate.old.piece != fate.new.piece or _mirrored(fate)
        ):  # fmt: skip
            moved[_way(fate)].append(fate)
    out: dict[_Way, Motion | None] = {}
    for way, some in moved.items():
        found = None
        for fate in sorted(some, key=lambda f: -f.new.length_mm if f.new else 0.0):
            found = found or _motion(fate, was, now)
        out[way] = found
    return out


def _mirrored(fate: Fate) -> bool:
    assert fate.old is not None
    assert fate.new is not None
    return fate.new.side is BodySide.LEFT and fate.old.side is BodySide.BOTH


def _motion(fate: Fate, was: dict[Key, Edge], now: dict[Key, Edge]) -> Motion | None:
    """How a stretch was laid where it is, if it was laid there as a whole."""
    old, new = fate.old, fate.new
    assert old is not None
    assert new is not None
    one, other = was.get(old.key), now.get(new.key)
    if one is None or other is None or new.length_mm < 1.0:
        return None
    shares = (0.0, 1.0, 0.5, 0.2)
    at = [old.start_mm + (1 - s if fate.turned else s) * old.length_mm for s in shares]
    p = [one.point_at(x) for x in at]
    q = [other.point_at(new.start_mm + s * new.length_mm) for s in shares]
    mirror = Motion(mirrored=True) if _mirrored(fate) else STAY
    a, b = mirror.of(p[0]), mirror.of(p[1])
    if max(abs(mirror.of(x) - y) for x, y in zip(p, q, strict=True)) < STILL_MM:
        return mirror
    if abs(abs(b - a) - abs(q[1] - q[0])) > STILL_MM or abs(b - a) < 1.0:
        return None
    factor = (q[1] - q[0]) / (b - a)
    factor /= abs(factor)
    motion = mirror.then(Motion(factor=factor, shift=q[0] - factor * a))
    off = max(abs(motion.of(x) - y) for x, y in zip(p, q, strict=True))
    return motion if off < STILL_MM else None


# -- one stretch --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Look:
    """A spot of the new line, and whether the line from it to the next lies where it lay."""

    at_mm: float
    still: bool


class _Held:
    """A stretch that is called still, held against where it lay."""

    def __init__(self, fate: Fate, was: Edge, now: Edge, motion: Motion) -> None:
        assert fate.old is not None
        assert fate.new is not None
        self.fate, self.old, self.new = fate, fate.old, fate.new
        self.now = now
        self.parts = was.parts
        if motion is not STAY:
            self.parts = tuple(p.moved(motion) for p in was.parts)
        self.known = {s for part in self.parts for s in part.segments}
        if fate.turned:
            self.known |= {s[::-1] for s in self.known}

    def told(self) -> Iterator[Fate]:
        """The fates of its parts: those that lie still, those that moved."""
        runs = [
            (still, [look for look, _ in pairs])
            for still, pairs in itertools.groupby(
                itertools.pairwise(self._looks()), key=lambda pair: pair[0].still
            )
        ]
        if all(still for still, _ in runs) and self._as_long():
            yield self.fate
            return
        starts = [looks[0].at_mm for _, looks in runs]
        news = [self.new.start_mm, *starts[1:], self.new.end_mm]
        first, last = self._ends()
        olds = self._olds(news, runs[0][0], runs[-1][0])
        for k, (still, _) in enumerate(runs):
            new = replace(self.new, start_mm=news[k], end_mm=news[k + 1])
            yield replace(self.fate, old=self._between(olds[k], olds[k + 1]), new=new, still=still)
        # Cut back or run on without a word: what is left of the old stretch went.
        for one, other in ((first, olds[0]), (olds[-1], last)):
            if abs(one - other) > SHORTEST_MM:
                yield Fate(self._between(one, other), None)

    def _as_long(self) -> bool:
        return abs(self.old.length_mm - self.new.length_mm) <= 2 * STILL_MM

    def _ends(self) -> tuple[float, float]:
        """The ends of the old stretch, as the new one runs."""
        first, last = self.old.start_mm, self.old.end_mm
        return (last, first) if self.fate.turned else (first, last)

    def _between(self, one: float, other: float) -> Stretch:
        return replace(self.old, start_mm=min(one, other), end_mm=max(one, other))

    def _olds(self, news: Sequence[float], starts: bool, ends: bool) -> list[float]:
        """Where on the old edge the ends of the parts lay, one way along it.

        An end that moved is the old one's.
        """
        first, last = self._ends()
        at = [self._foot(self.now.point_at(x)) for x in news]
        at[0] = at[0] if starts and abs(at[0] - first) > STILL_MM else first
        at[-1] = at[-1] if ends and abs(at[-1] - last) > STILL_MM else last
        low, high = sorted((first, last))
        at = [min(max(x, low), high) for x in at]
        # A fold in the line may put a foot before the last one.
        return list(itertools.accumulate(at, min if self.fate.turned else max))

    def _foot(self, point: Point) -> float:
        before, best = 0.0, (0.0, float("inf"))
        for part in self.parts:
            along, gap = part.nearest(point)
            if gap < best[1]:
                best = before + along, gap
            before += part.length
        return best[0]

    def _looks(self) -> Iterator[_Look]:
        """The spots of the stretch at which the answer may change, and its end."""
        at = 0.0
        for part in self.now.parts:
            for segment, length in zip(part.segments, part.lengths, strict=True):
                start, end = max(at, self.new.start_mm), min(at + length, self.new.end_mm)
                if end - start > SHORTEST_MM:
                    yield from self._look(segment, start - at, end - at, length, at)
                at += length
        yield _Look(self.new.end_mm, still=True)

    def _look(
        self, segment: Segment, start: float, end: float, length: float, at: float
    ) -> Iterator[_Look]:
        if segment in self.known or self._straight_on_it(segment) or self._rest_of_one(segment):
            yield _Look(at + start, still=True)
            return
        count = max(_LOOKS, min(40, int((end - start) / _LOOK_MM)))
        spots = [start + (end - start) * k / count for k in range(count + 1)]
        lies = [self._off(bezier.point_on(segment, _at(segment, x, length))) for x in spots]
        for k in range(count):
            yield _Look(at + spots[k], still=lies[k] <= STILL_MM >= lies[k + 1])

    def _off(self, point: Point) -> float:
        return min(part.nearest_spot(point)[2] for part in self.parts)

    def _rest_of_one(self, segment: Segment) -> bool:
        """Tell whether a curve is what is left of one of the old edge's, cut back at one end."""
        for old in self.known if len(segment) == 4 else ():
            if len(old) != 4 or (segment[0] != old[0] and segment[3] != old[3]):
                continue
            far = 3 if segment[0] == old[0] else 0
            _, t, gap = Curve.of([old]).nearest_spot(segment[far])
            rest = bezier.between(old, 0.0, t) if far else bezier.between(old, t, 1.0)
            if gap <= STILL_MM and _within(segment, rest):
                return True
        return False

    def _straight_on_it(self, segment: Segment) -> bool:
        """Tell whether a straight line lies on one straight line of the old edge."""
        if len(segment) != 2:
            return False
        return any(len(s) == 2 and all(_beside(s, p) for p in segment) for s in self.known)


def _at(segment: Segment, along: float, length: float) -> float:
    if along <= SHORTEST_MM or along >= length - SHORTEST_MM:
        return 0.0 if along <= SHORTEST_MM else 1.0
    return bezier.parameter_at(segment, along, length)


def _within(one: Segment, other: Segment) -> bool:
    # Two cubics stand no further apart than their handles do.
    return all(abs(p - q) <= STILL_MM for p, q in zip(one, other, strict=True))


def _beside(line: Segment, point: Point) -> bool:
    along = line[1] - line[0]
    size = abs(along)
    share = dot(point - line[0], along) / (size * size)
    return abs(line[0] + along * min(max(share, 0.0), 1.0) - point) <= STILL_MM
