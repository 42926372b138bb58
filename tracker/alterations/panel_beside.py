"""The front princess line beside the bust point: the bust dart's slash meets it at the bust line.

The waist dart moves over to the line, its angle kept; below it the panels' edges are bowed by
whatever keeps the waist as it was. The bust dart is turned into a slash that
runs from the line's top down to the bust line and along it to the bust point; parted on the
line, the panel that holds the bust point keeps the slash's end, with the whole angle.
"""

import itertools
import math
from dataclasses import replace

from tracker.alterations.mouth import broken_by
from tracker.alterations.mouth_moved import bowed, meeting_mm, mended, mouth_drawn
from tracker.alterations.turning import Swung, angle_of, chained, closed_up, refuse_near_end, swung
from tracker.drafting.style_front import (
    MOST_TURN_DEG,
    STARTS,
    FrontLine,
    front_corners,
    front_notches,
    line_down,
    upper_line,
    waist_dart_at_bust,
)
from tracker.drafting.style_leftover import (
    LEAST_BESIDE_MM,
    MOST_BESIDE_MM,
    Left,
    Leftover,
)
from tracker.drafting.style_panels import Plan, panelled
from tracker.drafting.style_report import Styled
from tracker.drafting.style_split import CannotPart, refuse_crossings
from tracker.drafting.style_start import (
    held_rounding,
    sides_to_part,
    start_of,
    waist_crossing,
)
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, cross, dot, turn_between, turned, unit
from tracker.geometry.transform import Motion
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Renamed, Trace

#: What the slash is called while it is open; no dart of a pattern has that name.
_SLASH = "slash to the bust point"
#: The slash keeps this far from the bust dart's leg.
_FROM_LEG_RAD = math.radians(1.0)
#: The waist is kept to this, in so many attempts.
_WAIST_MM, _TRIES = 0.005, 8


def panel_front_beside(
    pattern: Pattern,
    line: FrontLine,
    beside_mm: float,
    leftover: Leftover,
    side: BodySide = BodySide.BOTH,
) -> Styled:
    """Part the front on a line that passes beside the bust point.

    Args:
        pattern: the pattern.
        line: where it runs otherwise.
        beside_mm: how far beside the bust point, along the bust line; positive to the side,
            negative to the centre.
        leftover: what becomes of what is left of the bust dart.
        side: the wearer's side.

    Raises:
        CannotPart: it cannot be drawn; the sentence says why.
    """
    if not LEAST_BESIDE_MM <= abs(beside_mm) <= MOST_BESIDE_MM:
        raise CannotPart(
            f"a panel line {abs(beside_mm):.0f} mm beside the bust point: from "
            f"{LEAST_BESIDE_MM:.0f} to {MOST_BESIDE_MM:.0f} mm would do, to the side or "
            "(negative) to the centre; nearer, draw it through the bust point"
        )
    styled = Styled(pattern, Trace(), ())
    for name, at in sides_to_part(pattern, line.piece, "centre front", side):
        one = _Beside(styled.pattern, name, at, line, beside_mm, leftover).done()
        trace = styled.trace.then(one.trace) if styled.reports else one.trace
        styled = Styled(one.pattern, trace, (*styled.reports, *one.reports))
    return styled


class _Beside:
    def __init__(
        self,
        pattern: Pattern,
        name: str,
        side: BodySide,
        line: FrontLine,
        beside_mm: float,
        leftover: Leftover,
    ) -> None:
        self.pattern, self.side, self.line, self.leftover = pattern, side, line, leftover
        self.piece = piece = pattern.piece(name, side)
        self.to_side = beside_mm > 0
        self.off = abs(beside_mm)
        self.waist_dart = waist_dart_at_bust(piece, side)
        self.bust = self.waist_dart.pivot
        self.top, self.top_mm = start_of(
            piece, side, line.start, STARTS, line.share, line.distance_mm
        )
        self.others = [
            d
            for d in piece.darts
            if d.side is side
            and d.key != self.waist_dart.key
            and not d.double_pointed
            and abs(d.pivot - self.bust) <= 2 * SAME_MM
        ]

    def done(self) -> Styled:
        spot = self._spot()
        start, crossing = self.top.point_at(self.top_mm), self.top.heading_at(self.top_mm)
        upper = upper_line(self.line, start, spot, crossing, self.waist_dart)
        self._refuse(upper)
        if not self.others:
            return self._parted(Swung(self.piece), upper, upper, spot, None)
        swung_open = self._turned(upper.joined(Curve.line(spot, self.bust)))
        slash = swung_open.piece.dart(_SLASH, self.side)
        fore, aft = slash.legs[0], slash.legs[1].reversed  # both from the top to the bust point
        behind = fore.part(0.0, fore.length - self.off)
        ahead = aft.part(0.0, aft.length - self.off)
        # The plain panel runs straight on; the other runs to the bust point and back first.
        plain_ahead = self._ahead_is_side() == self.to_side
        plain = ahead if plain_ahead else behind
        spot = plain.end
        holding = (behind if plain_ahead else ahead).joined(
            Curve.line((behind if plain_ahead else ahead).end, self.bust, spot)
        )
        faces = (plain, holding) if plain_ahead else (holding, plain)
        left = Left(
            self.others[0].name, self.bust, self.off, abs(angle_of(slash)), self.leftover,
            on_centre=self.to_side,
        )  # fmt: skip
        left.refuse_fullness()
        return self._parted(swung_open, *faces, spot, left)

    def _parted(
        self, drawn: Swung, ahead: Curve, behind: Curve, spot: Point, left: Left | None
    ) -> Styled:
        """Part it, the waist dart bowed by what keeps the waist."""
        waist = self._waist_mm(self.pattern)
        tried: list[tuple[float, float]] = []
        bow = 0.0
        for _ in range(_TRIES):
            styled = self._parted_bowed(drawn, ahead, behind, spot, left, bow)
            over = self._waist_mm(styled.pattern) - waist
            if abs(over) < _WAIST_MM:
                break
            tried.append((bow, over))
            # The waist is narrower by what each edge is bowed out, once a front half.
            slope = -1.0
            if len(tried) > 1 and tried[-1][0] != tried[-2][0]:
                (b1, o1), (b2, o2) = tried[-2:]
                slope = min((o2 - o1) / (b2 - b1), -0.2)
            bow -= over / slope
        (report,) = styled.reports
        return replace(styled, reports=(replace(report, bowed_mm=bow / 2),))

    def _waist_mm(self, pattern: Pattern) -> float:
        """The waist of one body side, or the edge the dart opens from where no line is marked."""
        half = BodySide.RIGHT if self.side is BodySide.BOTH else self.side
        if "waist line" in lines_of(pattern):
            return girth(pattern, "waist line", half)
        return around(pattern, self.waist_dart.mouth or "waist", half)

    def _parted_bowed(
        self,
        drawn: Swung,
        ahead: Curve,
        behind: Curve,
        spot: Point,
        left: Left | None,
        bow_mm: float,
    ) -> Styled:
        moved = self._waist_dart_at(drawn.piece, spot, bow_mm)
        piece, before = moved.piece, drawn.trace.then(moved.trace)
        dart = piece.dart(*self.waist_dart.key)
        top = piece.edge(*self.top.key)
        top_mm = self.top_mm
        upper = ahead if left is None or left.on_centre == self._ahead_is_side() else behind
        cut = line_down(piece, self.side, (top, top_mm), dart, ahead, behind)
        plan = Plan(
            cut=cut,
            upper=upper,
            anchor=spot,
            corner="bust line",
            centre_edge="neckline",
            names=("centre front", "side front"),
            close=(),
            rounding_mm=held_rounding(self.line.rounding_mm),
            notches=front_notches(piece, self.side, upper, dart),
            left=left,
            corners=front_corners(dart, self.line.rounding_mm),
        )
        old = self.pattern.piece(*self.piece.key)
        named = replace(
            piece,
            darts=tuple(
                replace(d, name=left.name) if left and d.name == _SLASH else d for d in piece.darts
            ),
            edges=tuple(
                replace(
                    e,
                    mouths=tuple(left.name if left and m == _SLASH else m for m in e.mouths),
                )
                for e in piece.edges
            ),
        )
        plan = replace(plan, cut=replace(cut, top=named.edge(*self.top.key)))
        styled = panelled(self.pattern.with_pieces(named), named, plan)
        assert old.key == named.key
        return replace(styled, trace=before.then(styled.trace))

    # -- the line ------------------------------------------------------------------------

    def _outward(self) -> Point:
        """The direction from the bust point to the side, square to the grain."""
        piece = self.piece
        up = unit(piece.grain[1] - piece.grain[0]) if piece.grain else 1j
        arm = piece.edge("armhole", self.side)
        across = up * 1j
        return across if dot(across, arm.point_at(arm.length / 2) - self.bust) > 0 else -across

    def _ahead_is_side(self) -> bool:
        """Tell whether the side panel lies ahead of the line's top, going round the piece."""
        ring = [e.key for e in self.piece.edges]
        first = ring.index(self.top.key)
        onward = ring[first:] + ring[:first]
        # The armhole comes before the centre's neckline, going ahead from the top.
        if self.top.name == "armhole":
            return self.top.start == "shoulder point"
        return onward.index(("armhole", self.side)) < onward.index(("neckline", self.side))

    def _spot(self) -> Point:
        """Where the line crosses the bust line, clear of the bust dart's mouth."""
        out = self._outward() if self.to_side else -self._outward()
        spot = self.bust + out * self.off
        for level in self.piece.levels:
            if level.name == "bust line" and level.side is self.side:
                found = [
                    p
                    for stroke in level.strokes
                    for p in _at_distance(stroke, self.bust, self.off)
                    if dot(p - self.bust, out) > 0
                ]
                spot = found[0] if found else spot
        for dart in self.others:
            spot = self._clear_of(dart, spot)
        return spot

    def _clear_of(self, dart: Dart, spot: Point) -> Point:
        """A spot turned out of a dart's mouth, towards the line's top."""
        one, two = dart.mouth_start - self.bust, dart.mouth_end - self.bust
        ray = spot - self.bust
        inside = cross(one, ray) * cross(ray, two) > 0 and dot(ray, one + two) > 0
        near = min(abs(turn_between(leg, ray)) for leg in (one, two))
        if not inside and near > _FROM_LEG_RAD / 2:
            return spot
        top = self.top.point_at(self.top_mm) - self.bust
        leg = min((one, two), key=lambda leg: abs(turn_between(leg, top)))
        off = math.copysign(_FROM_LEG_RAD, turn_between(leg, top))
        return self.bust + unit(turned(leg, 0j, off)) * self.off

    def _refuse(self, upper: Curve) -> None:
        refuse_crossings(self.piece, upper, "the front princess line")
        turn = abs(math.degrees(turn_between(upper.end_heading, self.waist_dart.axis)))
        if turn > MOST_TURN_DEG:
            raise CannotPart(
                f"started there the line would turn by {turn:.0f}° at the bust line; start it "
                + ("nearer the shoulder point" if self.line.start == "armhole"
                   else "nearer mid-shoulder")
            )  # fmt: skip
        for other in self.others:
            if other.mouth not in ("side", "armhole"):
                raise CannotPart(
                    f"the {other.name} of the {self.piece.label} opens from the {other.mouth}; "
                    "turn it into the side seam first"
                )
        refuse_near_end(self.piece, self.top, self.top_mm)

    # -- the darts -----------------------------------------------------------------------

    def _turned(self, path: Curve) -> Swung:
        """The piece with its bust darts turned into the slash."""
        index, rest = self.top.locate(self.top_mm)
        before, after = self.top.drawn[index].split(rest)
        path = path.started_at(before.end)
        edge = replace(
            self.top,
            parts=(*self.top.parts[:index], before, after.started_at(before.end),
                   *self.top.parts[index + 1 :]),
            mouths=(*self.top.mouths[:index], _SLASH, *self.top.mouths[index:]),
            bases=(),
            displacements=(),
        )  # fmt: skip
        fresh = replace(self.others[0], name=_SLASH, legs=(path, path.reversed), mouth=edge.name)
        piece = replace(self.piece.with_edge(edge), darts=(*self.piece.darts, fresh))
        trace = Trace()
        for dart in self.others:
            turned_one = swung(piece, dart.key, fresh.key, abs(angle_of(dart)))
            shut = closed_up(turned_one.piece, dart.key)
            gone = Renamed("dart", (piece.name, dart.name), (piece.name, ""))
            renamed = (gone,) if dart is not self.others[0] else ()
            piece = shut.piece
            trace = trace.then(turned_one.trace).then(Trace(shut.trace.fates, renamed))
        return Swung(piece, trace)

    def _waist_dart_at(self, piece: Piece, spot: Point, bow_mm: float) -> Swung:
        """The piece with its waist dart moved over to a pivot on the line, its angle kept.

        Args:
            piece: the piece.
            spot: the new pivot.
            bow_mm: how much wider the dart is at the waist than its angle makes it.
        """
        dart = piece.dart(*self.waist_dart.key)
        by = Motion.move(spot - dart.pivot)
        if dart.double_pointed:
            over = [leg.moved(by).started_at(spot) for leg in dart.legs]
            # Bowed most at its widest, where two lines of each leg meet.
            near = waist_crossing(piece, self.side, dart) or over[0].length / 2
            joints = [r[-1] for r in over[0].runs[:-1]] or [over[0].point_at(near)]
            widest = min(joints, key=lambda p: abs(p - over[0].point_at(near)))
            deep = dot(widest - spot, dart.axis)
            turns = [turn_between(dart.axis, leg.start_heading) for leg in over]
            one, two = (
                bowed(leg, dart.axis, deep, bow_mm / 2 * math.copysign(1.0, turn))
                for leg, turn in zip(over, turns, strict=True)
            )
            fresh = replace(dart, legs=(one, two))
            levels = broken_by(tuple(mended(v, dart) for v in piece.levels), fresh)
            levels = tuple(replace(v, strokes=chained(list(v.strokes))) for v in levels)
            return Swung(replace(piece.with_dart(fresh), levels=levels))
        edge = piece.edge(str(dart.mouth), dart.side)
        k = edge.mouths.index(dart.name)
        lines = (
            edge.parts[k].run_on(after_mm=MOST_BESIDE_MM * 1.5),
            edge.parts[k + 1].run_on(before_mm=MOST_BESIDE_MM * 1.5),
        )
        outs = [unit(m - dart.pivot) for m in (dart.mouth_start, dart.mouth_end)]
        near = dart.leg_lengths[0]
        leg = sum(
            meeting_mm(line, spot, out, near) for line, out in zip(lines, outs, strict=True)
        ) / 2  # fmt: skip
        turn = turn_between(outs[0], outs[1])
        legs = tuple(
            bowed(
                Curve.line(spot, spot + out * leg), out, leg, bow_mm / 2 * math.copysign(1.0, off)
            )
            for out, off in zip(outs, (-turn, turn), strict=True)
        )
        return mouth_drawn(
            piece, dart, spot, (legs[0].end, legs[1].end), notches_follow=False, legs=legs
        )


def _at_distance(stroke: tuple[Point, ...], centre: Point, off_mm: float) -> list[Point]:
    """The points of a line that lie so far from a point."""
    out = []
    for a, b in itertools.pairwise(stroke):
        along = unit(b - a)
        foot = dot(centre - a, along)
        gap2 = abs(centre - a) ** 2 - foot**2
        if off_mm**2 < gap2:
            continue
        reach = math.sqrt(off_mm**2 - gap2)
        out += [a + along * s for s in (foot - reach, foot + reach) if 0 <= s <= abs(b - a)]
    return out


__all__ = ["panel_front_beside"]
