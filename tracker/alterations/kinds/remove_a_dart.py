"""Remove a dart: what it took in is eased, or taken in at a seam."""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.down_to_hem import met_mm
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.turn_a_dart import darts_meant
from tracker.alterations.mouth_moved import mended
from tracker.alterations.shaping import at, shaped
from tracker.alterations.together import split_together
from tracker.alterations.told import applied, mm, on_paper, whose
from tracker.alterations.turning import chained, closed_up
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import PlannedEase, Run, Seam
from tracker.pattern.trace import Renamed, Trace
from tracker.pattern.walk import notch_on_side, side_lengths, walked

#: More than this in one seam shows as fullness; common practice, no source.
EASED_MM = 6.0
#: Sides that differ by less than this agree, millimetres.
_AGREES_MM = 0.05
_TRIES = 6
#: The edge that is brought up at the seam comes up straight over this share of it.
_RISES = 0.8
#: ... and is smoothed at the seam over so much of it.
_SMOOTH_MM = 140.0
_ALONG = (0.06, 0.16, 1 / 3, 0.6, 1.0)
#: Slopes are found in thousandths.
_FINE = 1000.0


@dataclass(frozen=True, kw_only=True)
class RemoveDart(Kind):
    """Draw an edge without its dart.

    Attributes:
        piece: the piece.
        dart: the dart.
        seam: the seam that takes in what the dart did, at the edge's end; none to ease it.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "remove a dart"
    #: Rule 3 brings the edge up at the seam that took the dart in until its sides agree.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Take a dart away: the edge is longer by what it took in, which is eased in when it is "
        "sewn, or comes out of a seam at the edge's end."
    )

    piece: str
    dart: str
    seam: str = ""
    side: BodySide = BodySide.BOTH

    @classmethod
    def example(cls) -> Example:
        """A back shoulder eased in instead."""
        return Example(examples.bodice(), cls(piece="back", dart="shoulder dart"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Waist dart of the front removed; the side seam takes its 31.7 mm …"."""
        piece = pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        who = self.dart if begin else self.dart.capitalize()
        took = ""
        if piece.has_outline:
            took = f" {mm(round(piece.dart(self.dart, self.side).intake_mm, 1))}"
        if not self.seam:
            where = f"its{took or ' intake'} on each half eased into the edge when it is sewn"
        else:
            where = (
                f"the {self.seam} seam takes its{took or ' intake'} at that end, all of it from "
                f"the {self.piece}, to nothing as far along it as the dart reached, or at the bust "
                "line"
            )
        return f"{begin}{who} of the {self.piece} removed; {where}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw the edge across the mouth; then plan the ease or take in the seam."""
        before = pattern
        if self.seam:
            pattern.seam(self.seam, self.side)
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(before, self.sentence(before))
        names = {self.piece}
        if self.seam:
            seam = pattern.seam(self.seam, self.side)
            names |= {r.piece for r in (*seam.first, *seam.second)}
        split = split_together(pattern, names, self.side)
        pattern, trace = split.pattern, split.trace
        leaves: list[str] = []
        for key, side in darts_meant(pattern, self.piece, self.dart, self.side):
            piece = pattern.piece(*key)
            dart = piece.dart(self.dart, side)
            gone = Renamed("dart", (piece.name, dart.name), (piece.name, ""))
            if dart.double_pointed:
                if self.seam:
                    raise PatternError(
                        f"the {dart.name} of the {piece.label} takes in nothing at an edge; "
                        "remove it, and take in the seam as a step of its own"
                    )
                left = tuple(d for d in piece.darts if d.key != dart.key)
                pattern = pattern.with_pieces(replace(_lines_mended(piece, dart), darts=left))
                trace = trace.then(Trace((), (gone,)))
                leaves.append(
                    f"the {piece.label} is {mm(round(dart.intake_mm, 1))} wider where the "
                    f"{dart.name} was"
                )
                continue
            old = piece.edge(str(dart.mouth), side)
            done = closed_up(_lines_mended(piece, dart), dart.key)
            new = done.piece.edge(*old.key)
            pattern = pattern.with_pieces(done.piece)
            trace = trace.then(Trace(done.trace.fates, (gone,)))
            more = new.length - old.length
            if self.seam:
                reach = dart.leg_lengths[0]
                pattern, moved = self._taken(
                    pattern, (old.start, old.end), side, more, reach, step_id
                )
                trace = trace.then(moved)
            else:
                mouth_mm = sum(p.length for p in old.parts[: old.mouths.index(dart.name) + 1])
                pattern, told = _eased(pattern, self.piece, new, mouth_mm, more)
                leaves += told
        return applied(before, pattern, trace, leaves=dict.fromkeys(leaves))

    def _taken(
        self,
        pattern: Pattern,
        ends: tuple[str, str],
        side: BodySide,
        more: float,
        reach_mm: float,
        step_id: str,
    ) -> tuple[Pattern, Trace]:
        """Take the intake in at the seam, to nothing as far along it as the dart reached."""
        seam = pattern.seam(self.seam, side)
        first = walked(pattern, seam.first)
        corners = [first[0].first_corner, *(w.last_corner for w in first)]
        mine = [on for on in (seam.first, seam.second) if any(r.piece == self.piece for r in on)]
        shared = [c for c in (corners[0], corners[-1]) if c in ends]
        if not mine or len(shared) != 1:
            raise PatternError(
                f"the {self.seam} seam does not end on the edge the {self.dart} opens from; name "
                "a seam of this piece that does, or ease it in"
            )
        centre = seam.side is BodySide.CENTRE
        mouth = next(e for e in pattern.piece(self.piece, side).edges if (e.start, e.end) == ends)
        was, taken = mouth.length - more, more
        bust = met_mm(pattern, first, "bust line")
        if bust is not None:
            # The bust keeps its girth.
            reach_mm = min(reach_mm, bust if shared[0] == corners[0] else first[-1].to_mm - bust)
        for _ in range(_TRIES):
            step = TakeIn(
                seam=self.seam,
                side=side,
                amounts=(
                    AmountAt(
                        corner=shared[0], distance_mm=0.0, amount_mm=taken * (2 if centre else 1)
                    ),
                    AmountAt(
                        corner=shared[0],
                        distance_mm=min(reach_mm, first[-1].to_mm),
                        amount_mm=0.0,
                    ),
                ),
                share=1.0 if mine[0] is seam.first else 0.0,
            )
            done = step.apply(pattern, step_id)
            if centre:
                return done.pattern, done.trace
            new, trued = self._trued(pattern, done.pattern, seam, mouth.key, shared[0], step_id)
            # Brought up along a slanting seam, the edge is a little longer again.
            longer = new.piece(self.piece, side).edge(*mouth.key).length - was
            if abs(longer) < _AGREES_MM:
                break
            taken += longer
        return new, done.trace.then(trued)

    def _trued(
        self,
        before: Pattern,
        pattern: Pattern,
        seam: Seam,
        mouth: tuple[str, BodySide],
        corner: str,
        step_id: str,
    ) -> tuple[Pattern, Trace]:
        """Bring the edge up, or down, at the seam until its sides agree, as smooth as it was.

        Taken in slanting, the side that gave is longer than the other.
        """
        side = mouth[1]

        def apart(new: Pattern) -> tuple[float, float]:
            now = new.seam(*seam.key)
            one, other = side_lengths(new, now)
            return other - one, math.radians(_corners_deg(new, now, corner))

        was = apart(before)
        piece = pattern.piece(self.piece, side)
        edge = piece.edge(*mouth)
        at_start = edge.start == corner
        whole = edge.base_length
        # Taken in, the corner lies inside its base line's end.
        base = edge.base_lines[0] if at_start else edge.base_lines[-1].reversed
        inside = base.nearest(edge.drawn[0].start if at_start else edge.drawn[-1].end)[0]
        key = at(piece, edge)
        way = 1.0 if any(r.piece == self.piece for r in seam.second) else -1.0
        room = whole - inside

        def place(u: float) -> float:
            return u if at_start else whole - u

        def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
            up, slope = amounts[0], amounts[1] / _FINE
            # Straight through the corner, and to nothing at the other end; smoothed at the seam by
            # u (1 − u/reach)², which is straight there and level where it is nothing again.
            far = min(0.7 * room, _SMOOTH_MM)
            straight = [(s, up * (1 - s / room / _RISES)) for s in (-30.0, -15.0, 0.0, 0.3 * room)]
            straight += [(0.75 * room, up * 0.06), (room, 0.0)]
            turned = [(s, slope * s) for s in (-30.0, -15.0)]
            turned += [(far * k, slope * far * k * (1 - k) ** 2) for k in _ALONG]
            raised, smoothed = (
                Profile(tuple(sorted((place(inside + s), v) for s, v in knots)))
                for knots in (straight, turned)
            )
            return shaped(pattern, {key: (raised, smoothed)}, step_id)

        def misses(amounts: Sequence[float]) -> list[float]:
            now = apart(drawn(amounts)[0])
            return [(now[0] - was[0]) * way, (now[1] - was[1]) * _FINE]

        off = apart(pattern)
        up = (off[0] - was[0]) * way
        if abs(up) < _AGREES_MM:
            return pattern, Trace()
        amounts = adjusted(
            misses, [up, (off[1] - was[1]) * _FINE], [-1.0, -1.0],
            f"the {seam.name} seam cannot take in the whole {self.dart} and still match; remove "
            "less of it, or ease some in",
        )  # fmt: skip
        return drawn(amounts)


def _corners_deg(pattern: Pattern, seam: Seam, corner: str) -> float:
    """What the corners of both sides of a seam at one of its ends add up to."""
    total = 0.0
    for runs in (seam.first, seam.second):
        for run in dict.fromkeys((runs[0], runs[-1])):
            piece = pattern.piece(run.piece, run.side)
            edge = piece.edge(run.edge, run.side)
            if corner in (edge.start, edge.end):
                total += corner_angle(piece, edge, edge.end == corner)
    return total


def _lines_mended(piece: Piece, dart: Dart) -> Piece:
    """The piece with its material lines running on where the dart broke them."""
    levels = []
    for level in piece.levels:
        whole = mended(level, dart)
        if whole is not level:
            whole = replace(whole, strokes=chained(list(whole.strokes)))
        levels.append(whole)
    return replace(piece, levels=tuple(levels))


def _eased(
    pattern: Pattern, piece: str, edge: Edge, mouth_mm: float, more: float
) -> tuple[Pattern, list[str]]:
    """Plan what an edge is longer as ease in each seam it is sewn in, and say so."""
    seams, told = [], []
    for seam in pattern.seams:
        sign = 0
        for runs, s in ((seam.first, -1), (seam.second, 1)):
            sign = s if _holds(runs, piece, edge) and not seam.on_itself else sign
        if not sign:
            seams.append(seam)
            continue
        seams.append(_with_ease(seam, more * sign, _about(pattern, seam, piece, edge, mouth_mm)))
        whole = abs(seams[-1].planned_ease_mm)
        told.append(f"ease {mm(round(more, 1))} more into the {seam.name} seam on the {piece}")
        if whole > EASED_MM:
            told.append(
                f"{mm(round(whole, 1))} of ease in the {seam.name} seam is more than the "
                f"{mm(EASED_MM)} that disappear in sewing: it will show as fullness"
            )
    if not told:
        word = "more than the 6 mm that disappear in sewing, so " if more > EASED_MM else ""
        told.append(
            f"the {edge.name} of the {piece} is {mm(round(more, 1))} longer on each half, {word}"
            "ease it to what it is sewn to, or take it in at a seam"
        )
    return replace(pattern, seams=tuple(seams)), told


def _holds(runs: Iterable[Run], piece: str, edge: Edge) -> bool:
    return any((r.piece, r.edge, r.side) == (piece, edge.name, edge.side) for r in runs)


def _about(
    pattern: Pattern, seam: Seam, piece: str, edge: Edge, mouth_mm: float
) -> tuple[str, str]:
    """The places of the second side on either side of a dart's mouth: notches that meet, or ends.

    The ease lies there and nowhere else, and beyond them the notches meet as before.
    """
    first, second = walked(pattern, seam.first), walked(pattern, seam.second)
    mine, at_second = (first, False) if _holds(seam.first, piece, edge) else (second, True)
    (there,) = (w.on_side(mouth_mm) for w in mine if _holds((w.run,), piece, edge))
    places = [(0.0, second[0].first_corner)]
    for m in seam.matches:
        who, name = (m.second_piece, m.second) if at_second else (m.first_piece, m.first)
        places.append((notch_on_side(pattern, mine, who, name), m.second))
    places = [*sorted(places), (mine[-1].to_mm, second[-1].last_corner)]
    for (_, before), (at_mm, after) in itertools.pairwise(places):
        if there < at_mm:
            return before, after
    return places[-2][1], places[-1][1]


def _with_ease(seam: Seam, amount: float, ends: tuple[str, str]) -> Seam:
    kept, added = [], False
    for ease in seam.ease:
        if not added and {ease.start, ease.end} == set(ends):
            ease, added = replace(ease, amount_mm=ease.amount_mm + amount), True
        kept.append(ease)
    if not added:
        kept.append(PlannedEase(amount, *ends))
    return replace(seam, ease=tuple(kept))


__all__ = ["RemoveDart"]
