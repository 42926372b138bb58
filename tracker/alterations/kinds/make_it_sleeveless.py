"""Make a sleeved bodice sleeveless: the sleeves off, the armhole closer."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.true_a_join import TrueJoin
from tracker.alterations.sleeve_removed import sleeve_pieces, without_sleeves
from tracker.alterations.told import ONE_SIDE, applied, mm, on_paper
from tracker.drafting.sleeve_armhole import BACK_EDGE, SHOULDER, UNDERARM
from tracker.drafting.sleeve_armhole import EDGE as ARMHOLE
from tracker.drafting.sleeve_underarm import joined_at_the_underarm
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.measure import corner_angle, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import notch_on_edge

#: How much closer a sleeveless armhole is cut than a sleeved one's; common practice, no source.
RAISED_MM = 12.0
SIDE_IN_MM = 12.0
SHOULDER_MM = 15.0
#: Ease changed by less is left as it was planned.
_PLANNED_MM = 0.5
#: Joins bent by more than this are trued, degrees.
_BENT_DEG = 1.0
_UNDERARM_NOTCH = "underarm notch"
#: The armhole follows a shorter shoulder over this much, half-way down it on most bodices.
_FOLLOWS_MM = 110.0


@dataclass(frozen=True, kw_only=True)
class MakeSleeveless(Kind):
    """Take the sleeves off and bring the armhole closer, as a sleeveless garment has it.

    Without a sleeve the ease that its movement needed would gape, the underarm would show what
    is worn beneath, and the shoulder's end has nothing to hold it out.

    Attributes:
        raised_mm: how far the underarm is raised, along the side seam.
        side_in_mm: how much the side seam is taken in at the underarm, half from each piece, to
            nothing at its other end.
        shoulder_mm: how much shorter the shoulder is, at the shoulder point.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "make it sleeveless"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Take the sleeves off a bodice, and cut its armhole closer: the underarm raised, the side "
        "taken in there and the shoulder shortened by amounts you may choose."
    )

    raised_mm: float = RAISED_MM
    side_in_mm: float = SIDE_IN_MM
    shoulder_mm: float = SHOULDER_MM
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if min(self.raised_mm, self.side_in_mm, self.shoulder_mm) < 0:
            raise PatternError(
                "a sleeveless armhole is cut closer, so its amounts are nothing or more; to lower "
                "the underarm or widen the side, alter it afterwards"
            )

    @property
    def amount_mm(self) -> float:
        """The largest of the amounts."""
        return max(self.raised_mm, self.side_in_mm, self.shoulder_mm)

    def scaled(self, factor: float) -> Self | None:
        """Return the same with every amount multiplied."""
        if factor < 0 or not self.amount_mm:
            return None
        return replace(
            self,
            raised_mm=self.raised_mm * factor,
            side_in_mm=self.side_in_mm * factor,
            shoulder_mm=self.shoulder_mm * factor,
        )

    @classmethod
    def example(cls) -> Example:
        """A sleeved bodice made a shell."""
        return Example(examples.sleeved(), cls())

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Made sleeveless: the sleeve taken off; underarm raised 12 mm, …"."""
        names = sleeve_pieces(pattern, self.side)
        begin = "Made sleeveless"
        if self.side in ONE_SIDE:
            begin += f" on the {self.side} side only"
        told = [f"the {' and the '.join(names)} taken off" if names else "it has no sleeve"]
        closer = []
        if self.raised_mm:
            closer.append(f"underarm raised {mm(self.raised_mm)}")
        if self.side_in_mm and self._side_seam(pattern) is not None:
            closer.append(
                f"side seam in {mm(self.side_in_mm)} at the underarm, half from each piece, to "
                "nothing at its other end"
            )
        if self.shoulder_mm:
            closer.append(f"shoulder {mm(self.shoulder_mm)} shorter at the shoulder point")
        if not closer:
            closer.append("the armhole left as it is")
        return f"{begin}: {'; '.join([*told, ', '.join(closer)])}"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Take the sleeves off, then alter the armhole step by step."""
        before = pattern
        holes = [
            (p, e) for p in pattern.pieces if p.layer == "shell" for e in p.edges
            if e.name == ARMHOLE and (self.side not in ONE_SIDE or e.side in
                                      (self.side, BodySide.BOTH))
        ]  # fmt: skip
        if not holes:
            raise PatternError("this pattern has no armhole, so there is no sleeve to take off")
        if any(not e.parts for _, e in holes):
            return on_paper(before, self.sentence(before))
        trace = Trace()
        names = sleeve_pieces(pattern, self.side)
        if self.side in ONE_SIDE:
            # An armhole cut for two sleeves is made whole on the one side and stays on the other.
            cut = {p.name for p in pattern.pieces if any(e.name == BACK_EDGE for e in p.edges)}
            split = split_sides(pattern, {*names, *cut})
            pattern, trace = split.pattern, split.trace
        removed = without_sleeves(pattern, self.side)
        pattern, trace = settled(removed.pattern), trace.then(removed.trace)
        whole = joined_at_the_underarm(pattern, self.side)
        pattern, trace = settled(whole.pattern), trace.then(whole.trace)
        notes: list[str] = []
        leaves: list[str] = []
        seamless = False
        for one in self._each(pattern):
            seamless |= one._side_seam(pattern) is None
            for steps in (one._steps, lambda p, one=one: one._truing(before, p)):
                for step in steps(pattern):
                    done = step.apply(pattern, step_id)
                    pattern, trace = settled(done.pattern), trace.then(done.trace)
                    notes.append(step.sentence(pattern))
        pattern, planned = _planned_anew(removed.pattern, pattern)
        notes += planned
        if self.side_in_mm and seamless:
            leaves.append(
                f"there is no side seam to take in: take {mm(self.side_in_mm / 2)} in at the "
                f"underarm at each of the two panel seams that end on the armhole"
            )
        leaves.append("the armhole is finished with a facing or a binding: trace it from the edge")
        gone = f"taken off: {', '.join(f'the {label}' for label in removed.labels)}"
        made = applied(
            before, pattern, trace, notes=[*([gone] if removed.labels else []), *notes],
            leaves=leaves,
        )  # fmt: skip
        told = tuple(left for left in made.effect.leaves if "a sleeve for it" not in left)
        return replace(made, effect=replace(made.effect, leaves=told))

    def _each(self, pattern: Pattern) -> tuple[Self, ...]:
        """The step itself; or, where one side only has a side seam, that for each side."""
        if self.side in ONE_SIDE:
            return (self,)
        halves = tuple(replace(self, side=side) for side in ONE_SIDE)
        found = {half._side_seam(pattern) is None for half in halves}
        return halves if len(found) == 2 else (self,)

    def _side_seam(self, pattern: Pattern) -> Seam | None:
        """The seam that meets the armhole at the underarm on both its sides."""
        for seam in pattern.seams:
            if self.side in ONE_SIDE and seam.side not in (self.side, BodySide.BOTH):
                continue
            for last in (False, True):
                ends = [_end(pattern, runs, last) for runs in (seam.first, seam.second)]
                if all(corner == UNDERARM and across == ARMHOLE for corner, across, _ in ends):
                    return seam
        return None

    def _steps(self, pattern: Pattern) -> Iterable[Kind]:
        seam = self._side_seam(pattern)
        if seam is not None:
            ends = [_end(pattern, seam.first, last)[0] for last in (False, True)]
            other = ends[1] if ends[0] == UNDERARM else ends[0]
            if self.side_in_mm:
                yield TakeIn(
                    seam=seam.name, side=self.side,
                    amounts=(
                        AmountAt(corner=UNDERARM, distance_mm=0.0, amount_mm=self.side_in_mm),
                        AmountAt(corner=other, distance_mm=0.0, amount_mm=0.0),
                    ),
                )  # fmt: skip
            if self.raised_mm:
                last = ends[1] == UNDERARM
                for runs in (seam.first, seam.second):
                    run = runs[-1] if last else runs[0]
                    piece = pattern.piece(run.piece, run.side)
                    yield MoveCorner(
                        piece=run.piece, corner=UNDERARM, edge=run.edge, along_mm=self.raised_mm,
                        blend_mm=_blend(piece, run.side), side=self.side,
                    )  # fmt: skip
        elif self.raised_mm:
            yield from self._raised_between_notches(pattern)
        if self.shoulder_mm:
            yield ShoulderLength(
                to=Length.SHORTER, by_mm=self.shoulder_mm, side=self.side, blend_mm=_FOLLOWS_MM
            )

    def _raised_between_notches(self, pattern: Pattern) -> Iterable[Kind]:
        """Raise an armhole that goes through under the arm without a seam."""
        for piece in pattern.pieces:
            found = [
                n for n in piece.notches if n.name == _UNDERARM_NOTCH and n.edge == ARMHOLE
                and (self.side not in ONE_SIDE or n.side in (self.side, BodySide.BOTH))
            ]  # fmt: skip
            for notch in found[:1]:
                edge = piece.edge(notch.edge, notch.side)
                middle = notch_on_edge(edge, notch)
                at = sorted(
                    notch_on_edge(edge, n) for n in piece.notches
                    if (n.edge, n.side) == edge.key and n.name != _UNDERARM_NOTCH
                )  # fmt: skip
                low = max([s for s in at if s < middle - 20.0], default=max(middle - 90.0, 0.0))
                high = min([s for s in at if s > middle + 20.0],
                           default=min(middle + 90.0, edge.length))  # fmt: skip
                yield ReshapeEdge(
                    piece=piece.name, edge=edge.name, side=self.side,
                    amounts=tuple(
                        AmountAt(corner=edge.start, distance_mm=s, amount_mm=v)
                        for s, v in ((low, 0.0), (middle, -self.raised_mm), (high, 0.0))
                    ),
                )  # fmt: skip
                return

    def _truing(self, before: Pattern, after: Pattern) -> Iterable[Kind]:
        """True the joins that became bent at the underarm and at the shoulder point."""
        for seam in after.seams:
            if self.side in ONE_SIDE and seam.side not in (self.side, BodySide.BOTH):
                continue
            for last in (False, True):
                ends = [_end(after, runs, last) for runs in (seam.first, seam.second)]
                corner = ends[0][0]
                if corner not in (UNDERARM, SHOULDER) or any(a != ARMHOLE for _, a, _ in ends):
                    continue
                was = next((s for s in before.seams if s.name == seam.name), seam)
                old = sum(_end(before, runs, last)[2] for runs in (was.first, was.second))
                off = abs(sum(angle for _, _, angle in ends) - 180.0)
                if off > max(_BENT_DEG, abs(old - 180.0) + 0.1):
                    yield TrueJoin(seam=seam.name, corner=corner, side=self.side)
                    break


def _planned_anew(before: Pattern, after: Pattern) -> tuple[Pattern, list[str]]:
    """Plan as much less ease at each line as was taken there: it was meant to be closer."""
    plan, told = [], []
    known = set(lines_of(after))
    for line, planned in after.ease:
        by = girth(after, line) - girth(before, line) if line in known else 0.0
        if abs(by) < _PLANNED_MM:
            plan.append((line, planned))
            continue
        plan.append((line, round(planned + by, 1)))
        told.append(f"the ease planned at the {line} is {mm(plan[-1][1])} now, not {mm(planned)}")
    return replace(after, ease=tuple(plan)), told


def _blend(piece: Piece, side: BodySide) -> float:
    """How far along the armhole the raised underarm is back on its line: at its lowest notch."""
    edge = piece.edge(ARMHOLE, side)
    from_underarm = [
        at if edge.start == UNDERARM else edge.length - at
        for at in (notch_on_edge(edge, n) for n in piece.notches if (n.edge, n.side) == edge.key)
    ]
    return min([s for s in from_underarm if s >= 50.0], default=70.0)


def _end(pattern: Pattern, runs: tuple[Run, ...], last: bool) -> tuple[str, str, float]:
    """The corner at an end of a seam's side, the edge across there, and the angle."""
    run = runs[-1] if last else runs[0]
    piece, edge = pattern.piece(run.piece, run.side), pattern.edge_of(run)
    at_end = last != run.backward
    across = piece.after(edge) if at_end else piece.before(edge)
    angle = corner_angle(piece, edge, at_end) if piece.has_outline else 0.0
    return (edge.end if at_end else edge.start), across.name, angle


__all__ = ["RAISED_MM", "SHOULDER_MM", "SIDE_IN_MM", "MakeSleeveless"]
