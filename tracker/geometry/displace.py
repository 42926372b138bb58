"""A base line displaced square to itself by a profile, drawn as a fitted chain."""

import bisect
import itertools
from collections.abc import Callable, Iterator

from tracker.geometry import bezier
from tracker.geometry.bezier import Segment
from tracker.geometry.crossing import nearest_spot
from tracker.geometry.curve import Curve
from tracker.geometry.fit import fitted_parts
from tracker.geometry.point import SAME_MM, Point, cross, dot, left_of, turn_between, unit
from tracker.geometry.profile import Sum

#: Where a base line bends by more than this at a joint (radians), it has a corner there.
BEND_RAD = 0.01
#: What is beside a place, millimetres.
_BESIDE_MM = 1e-3
#: How far the two lines at such a corner are run on at most, as a multiple of the amount.
MITRE = 4.0


def displaced(base: Curve, amounts: Sum, offset_mm: float = 0.0) -> Curve:
    """Return the base line moved to its left by the amounts, fitted to 0.02 mm.

    Stretches on which nothing moves are the base's own segments, byte for byte; a straight
    base stretch is displaced exactly. A stretch on which a further profile is zero is drawn as
    it was without that profile. A corner inside the base stays a corner.

    Args:
        base: the line from which distances and square directions are taken.
        amounts: how far to the left (millimetres) at each distance.
        offset_mm: the distance, in the amounts' terms, of the base's start.
    """
    summed = amounts.merged
    out: list[Segment] = []
    last: Acting = ()
    bends = _bends(base) if summed.profiles else [(None, None)] * len(base.runs)
    for k, segment in enumerate(base.segments):
        piece = _Segment(segment, base.lengths[k], offset_mm + base.reaches[k], bends[k])
        for drawn, acting in piece.displaced(summed):
            # A hair between two ways of fitting is taken up where more is being moved.
            _join(out, drawn, set(last) > set(acting))
            last = acting
    return Curve.of(out)


#: Which profiles move a stretch, by number.
Acting = tuple[int, ...]


_Bends = tuple[float | None, float | None]


def _bends(base: Curve) -> list[_Bends]:
    """Return the curvature to draw with at each segment's two ends, where it is not its own.

    Where a smooth line changes its curvature suddenly, a displacement that slopes there would
    put a kink; drawn with the mean of the two it does not. A straight line keeps its 0.
    """
    out: list[_Bends] = []
    before: float | None = None
    for one, other in itertools.pairwise(base.segments):
        h1, h2 = bezier.heading(one, 1.0), bezier.heading(other, 0.0)
        shared = None
        if abs(turn_between(h1, h2)) < BEND_RAD:
            shared = 0.0
            if len(one) == len(other) == 4:
                shared = (bezier.curvature(one, 1.0) + bezier.curvature(other, 0.0)) / 2
        out.append((before, shared))
        before = shared
    return [*out, (before, None)]


class _Segment:
    """One segment of a base line, and where it begins in the amounts' terms."""

    def __init__(self, segment: Segment, length: float, s0: float, bends: _Bends) -> None:
        self.segment, self.length, self.s0, self.bends = segment, length, s0, bends
        self._known: list[tuple[float, float]] = [(0.0, 0.0), (length, 1.0)]
        self._measure = bezier.ruler(segment)

    def displaced(self, amounts: Sum) -> Iterator[tuple[Segment, Acting]]:
        s0, s1 = self.s0, self.s0 + self.length
        inner = [b for b in amounts.breaks if s0 + SAME_MM < b < s1 - SAME_MM]
        stretches: list[tuple[float, float, Acting, float, float]] = []
        for a, b in itertools.pairwise([s0, *inner, s1]):
            # Whatever is at rest here has no say in how the rest is drawn.
            acting = tuple(k for k, p in enumerate(amounts.profiles) if not p.is_zero_between(a, b))
            whole = amounts.between_breaks(acting, a, b, s0, s1)
            if stretches and stretches[-1][2:] == (acting, *whole):
                stretches[-1] = (stretches[-1][0], b, acting, *whole)
            else:
                stretches.append((a, b, acting, *whole))
        for a, b, acting, from_s, to_s in stretches:
            if not acting:
                yield bezier.between(self.segment, self.t_at(a), self.t_at(b)), acting
            else:
                for drawn in self.moved(amounts.only(acting), from_s, to_s, a, b):
                    yield drawn, acting

    def t_at(self, s: float) -> float:
        """The parameter at a distance in the amounts' terms."""
        at = min(self.length, max(0.0, s - self.s0))
        if at <= SAME_MM:
            return 0.0
        if at >= self.length - SAME_MM:
            return 1.0
        return bezier.parameter_at(self.segment, at, self.length)

    def s_at(self, t: float) -> float:
        """The distance, in the amounts' terms, at a parameter; measured from the nearest known."""
        known = self._known
        i = bisect.bisect(known, t, key=lambda pair: pair[1])
        at, before = known[i - 1]
        if t != before:
            at += self._measure(before, t)
            known.insert(i, (at, t))
        return self.s0 + at

    def moved(
        self, amounts: Sum, from_s: float, to_s: float, a: float, b: float
    ) -> Iterator[Segment]:
        """Draw the stretch from ``from_s`` to ``to_s`` and yield what lies from a to b."""
        if len(self.segment) == 2:
            drawn = self._straight(amounts, from_s, to_s)
            size = to_s - from_s
            yield bezier.between(drawn, (a - from_s) / size, (b - from_s) / size)
            return
        t0, t1 = self.t_at(from_s), self.t_at(to_s)
        ta, tb = self.t_at(a), self.t_at(b)
        fitted = fitted_parts(self._line(amounts, t0, t1))
        # Cut off by a further profile, it is what is left of the line that was drawn without it.
        if a > from_s + SAME_MM and (met := self._met(amounts, from_s, -1.0)) is not None:
            fitted[0] = (_started(fitted[0][0], met), *fitted[0][1:])
        if b < to_s - SAME_MM and (met := self._met(amounts, to_s, 1.0)) is not None:
            fitted[-1] = (_started(fitted[-1][0][::-1], met)[::-1], *fitted[-1][1:])
        for drawn, share_0, share_1 in fitted:
            u0, u1 = t0 + (t1 - t0) * share_0, t0 + (t1 - t0) * share_1
            if u1 <= ta + 1e-12 or u0 >= tb - 1e-12:
                continue
            first = self._beside(drawn, ta, (ta - u0) / (u1 - u0)) if ta > u0 else 0.0
            last = self._beside(drawn, tb, (tb - u0) / (u1 - u0)) if tb < u1 else 1.0
            yield bezier.between(drawn, first, last)

    def _met(self, amounts: Sum, at: float, way: float) -> Point | None:
        """Where a line is met, at one of its ends, by that of the amounts that go on beyond it.

        Nothing where all of them do, or none: there is no hair to be taken up.
        """
        beyond = at + way * _BESIDE_MM
        if not self.s0 < beyond < self.s0 + self.length:
            return None
        low, high = min(at, beyond), max(at, beyond)
        on = tuple(k for k, p in enumerate(amounts.profiles) if not p.is_zero_between(low, high))
        if len(on) in (0, len(amounts.profiles)):
            return None
        from_s, to_s = amounts.between_breaks(on, low, high, self.s0, self.s0 + self.length)
        t0, t1, t = self.t_at(from_s), self.t_at(to_s), self.t_at(at)
        for drawn, share_0, share_1 in fitted_parts(self._line(amounts.only(on), t0, t1)):
            u0, u1 = t0 + (t1 - t0) * share_0, t0 + (t1 - t0) * share_1
            if u0 - 1e-12 <= t <= u1 + 1e-12:
                share = min(1.0, max(0.0, (t - u0) / (u1 - u0)))
                return bezier.point_on(drawn, self._beside(drawn, t, share))
        return None

    def _straight(self, amounts: Sum, from_s: float, to_s: float) -> Segment:
        a, b = self.segment
        along = unit(b - a)
        square = left_of(along)
        (v0, m0), (v1, m1) = amounts.at(from_s), amounts.at(to_s)
        # At an end of the base line the point itself, not what distances make of it.
        start = a if from_s <= self.s0 else a + along * (from_s - self.s0)
        end = b if to_s >= self.s0 + self.length else a + along * (to_s - self.s0)
        start, end = start + square * v0, end + square * v1
        if v0 == v1 and m0 == m1 == 0.0:
            return start, end
        third = (to_s - from_s) / 3
        return (
            start,
            start + (along + square * m0) * third,
            end - (along + square * m1) * third,
            end,
        )

    def _line(self, amounts: Sum, t0: float, t1: float) -> Callable[[float], tuple[Point, Point]]:
        a, b, c, d = self.segment
        stride = t1 - t0
        p1, p2, p3 = 3 * (b - a), 3 * (c - 2 * b + a), d - 3 * c + 3 * b - a

        def at(share: float) -> tuple[Point, Point]:
            t = t0 + stride * share
            value, slope = amounts.at(self.s_at(t))
            point = a + t * (p1 + t * (p2 + t * p3))
            v = p1 + t * (2 * p2 + 3 * t * p3)
            speed = abs(v)
            if speed < 1e-9:
                heading = bezier.heading(self.segment, t)
                return point + left_of(heading) * value, heading
            heading = v / speed
            square = left_of(heading)
            shared = self.bends[0] if t == 0.0 else self.bends[1] if t == 1.0 else None
            bend = cross(v, 2 * p2 + 6 * t * p3) / speed**3 if shared is None else shared
            ahead = heading * (1 - bend * value) + square * slope
            return point + square * value, ahead * (speed * stride)

        return at

    def _beside(self, drawn: Segment, t: float, guess: float) -> float:
        """The parameter of a drawn cubic at which it stands beside the base's point at t."""
        point, heading = bezier.point_on(self.segment, t), bezier.heading(self.segment, t)
        for _ in range(6):
            ahead = dot(bezier.point_on(drawn, guess) - point, heading)
            speed = dot(bezier.velocity(drawn, guess), heading)
            if speed <= 0.0 or abs(ahead) < 1e-12:
                break
            guess = min(1.0, max(0.0, guess - ahead / speed))
        return guess


def _join(out: list[Segment], segment: Segment, before_gives: bool) -> None:
    """Chain a segment on; a gap or an overlap at a corner of the base is mitred."""
    if not out or segment[0] == out[-1][-1]:
        out.append(segment)
        return
    before = out[-1]
    gap = segment[0] - before[-1]
    h1, h2 = bezier.heading(before, 1.0), bezier.heading(segment, 0.0)
    if abs(turn_between(h1, h2)) < BEND_RAD or abs(gap) < SAME_MM:
        if before_gives:
            out[-1] = _started(before[::-1], segment[0])[::-1]
            out.append(segment)
        else:
            out.append(_started(segment, before[-1]))
        return
    det = cross(h1, h2)
    on, back = cross(gap, h2) / det, -cross(gap, h1) / det
    if on >= 0 and back >= 0:
        meeting = before[-1] + h1 * on
        if max(on, back) > MITRE * abs(gap):
            out.extend([(before[-1], segment[0]), segment])
        else:
            _extend(out, meeting)
            out.extend(_begun(segment, meeting))
        return
    spot = nearest_spot(Curve.of([before]), Curve.of([segment]), before[-1])
    if spot is None:
        out.extend([(before[-1], segment[0]), segment])
    else:
        out[-1] = (*bezier.split(before, spot.first[1])[0][:-1], spot.point)
        out.append((spot.point, *bezier.split(segment, spot.second[1])[1][1:]))


def _started(segment: Segment, at: Point) -> Segment:
    """The segment with its start put a hair elsewhere, the first handle along."""
    if len(segment) == 2:
        return at, segment[1]
    return at, segment[1] + (at - segment[0]), *segment[2:]


def _extend(out: list[Segment], to: Point) -> None:
    if len(out[-1]) == 2:
        out[-1] = (out[-1][0], to)
    else:
        out.append((out[-1][-1], to))


def _begun(segment: Segment, at: Point) -> list[Segment]:
    return [(at, segment[1])] if len(segment) == 2 else [(at, segment[0]), segment]
