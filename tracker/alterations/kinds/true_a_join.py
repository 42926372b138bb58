"""True a join: the edges that cross a seam turned until they run on in one another."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.adjusted import adjusted
from tracker.alterations.along_seams import seams_meant
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import BLEND_MM, at, end_turned, shaped
from tracker.alterations.together import split_together
from tracker.alterations.told import applied, mm, on_paper, whose
from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.measure import corner_angle
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace

#: A bend this far from what is wanted is no truing but another shape.
MOST_DEG = 40.0
#: Slopes are found in thousandths.
_FINE = 1000.0
_DEG = math.degrees(1.0)


@dataclass(frozen=True, kw_only=True)
class TrueJoin(Kind):
    """Turn the two edges that cross a seam at one of its ends, half each.

    Attributes:
        seam: the seam's name.
        corner: the end of it at which they meet, "shoulder point".
        side: both, or the wearer's right or left only.
        degrees: what the two corners are to add up to.
        blend_mm: how far from the seam each edge is back on its old line.
    """

    word: ClassVar[str] = "true a join"
    help: ClassVar[str] = (
        "Draw the edges that cross a seam again near it (an armhole at the shoulder, a neckline, "
        "a hem), so that with the seam sewn they make one smooth line."
    )

    seam: str
    corner: str
    side: BodySide = BodySide.BOTH
    degrees: float = 180.0
    blend_mm: float = BLEND_MM

    def __post_init__(self) -> None:
        if not 90 <= self.degrees <= 270:
            raise PatternError("the two corners of a join add up to between 90 and 270 degrees")
        if self.blend_mm < 10:
            raise PatternError("a join is trued over 10 mm on each side of the seam at least")

    @classmethod
    def example(cls) -> Example:
        """An armhole bent where a side seam was moved."""
        return Example(examples.shifted(), cls(seam="side", corner="underarm point"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Join of the shoulder seam trued at the shoulder point, over 60 mm …"."""
        _ends(pattern, pattern.seam(self.seam, self.side), self.corner)
        told = "" if self.degrees == 180 else f" to {self.degrees:.0f} degrees"
        begin = whose(self.side)
        join = f"{'join' if begin else 'Join'} of the {self.seam} seam trued at the {self.corner}"
        return f"{begin}{join}{told}, over {mm(self.blend_mm)} on each side"

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Turn both edges by the same angle about their corner."""
        before = pattern
        seam = pattern.seam(self.seam, self.side)
        runs = (*seam.first, *seam.second)
        _ends(pattern, seam, self.corner)
        if any(not pattern.edge_of(r).parts for r in runs):
            return on_paper(before, self.sentence(before))
        split = split_together(pattern, {r.piece for r in runs}, self.side)
        pattern, trace, notes = split.pattern, split.trace, []
        for part in seams_meant(pattern, self.seam, self.side):
            was = _sum(pattern, part, self.corner)
            pattern, moved = self._trued(pattern, part, step_id)
            trace = trace.then(moved)
            notes.append(
                f"{part.name} seam at the {self.corner}: the corners added up to {was:.1f} "
                f"degrees, now {_sum(pattern, part, self.corner):.1f}"
            )
        return applied(before, pattern, trace, notes=tuple(dict.fromkeys(notes)))

    def _trued(self, pattern: Pattern, seam: Seam, step_id: str) -> tuple[Pattern, Trace]:
        excess = _sum(pattern, seam, self.corner) - self.degrees
        if abs(excess) > MOST_DEG:
            raise PatternError(
                f"the corners of the {seam.name} seam at the {self.corner} add up to "
                f"{excess + self.degrees:.0f} degrees; what is more than {MOST_DEG:.0f} degrees "
                "off is not trued but shaped: reshape the edges"
            )
        ends = _ends(pattern, seam, self.corner)
        sides = []
        for piece, sewn, sewn_end in ends:
            crossing = piece.after(sewn) if sewn_end else piece.before(sewn)
            if piece.fold == crossing.name:
                raise PatternError(f"the {crossing.name} of the {piece.label} lies on the fold")
            sides.append((piece, crossing, sewn_end, _inside(crossing, sewn_end)))

        def drawn(slope: float) -> tuple[Pattern, Trace]:
            shapes = {
                at(piece, edge): (
                    end_turned(edge, start, slope, inside_mm=inside, blend_mm=self.blend_mm),
                )
                for piece, edge, start, inside in sides
            }
            return shaped(pattern, shapes, step_id)

        def misses(slopes: Sequence[float]) -> list[float]:
            found = _sum(drawn(slopes[0] / _FINE)[0], seam, self.corner)
            return [(found - self.degrees) / _DEG * _FINE]

        (slope,) = adjusted(
            misses, [excess / _DEG / 2 * _FINE], [-float(len(set(map(_key, sides))))],
            f"the join of the {seam.name} seam at the {self.corner} cannot be trued over "
            f"{self.blend_mm:.0f} mm; give it more",
        )  # fmt: skip
        return drawn(slope / _FINE)


def _key(side: tuple[Piece, Edge, bool, float]) -> object:
    return at(side[0], side[1])


def _ends(pattern: Pattern, seam: Seam, corner: str) -> list[tuple[Piece, Edge, bool]]:
    """Both pieces, their sewn edge, and whether the corner is that edge's end.

    Raises:
        UnknownName: the seam does not end at such a corner.
    """
    known: list[str] = []
    for last in (False, True):
        found = []
        for runs in (seam.first, seam.second):
            run = runs[-1] if last else runs[0]
            edge = pattern.edge_of(run)
            end = last != run.backward
            found.append((pattern.piece(run.piece, run.side), edge, end))
        known.append(found[0][1].end if found[0][2] else found[0][1].start)
        if known[-1] == corner:
            return found
    raise UnknownName(
        f"the {seam.name} seam does not end at a {corner!r}; it runs from the "
        f"{' to the '.join(known)}.{nearest_names(corner, known)}"
    )


def _sum(pattern: Pattern, seam: Seam, corner: str) -> float:
    return sum(
        corner_angle(pattern.piece(p.name, p.side), pattern.piece(p.name, p.side).edge(*e.key), end)
        for p, e, end in _ends(pattern, seam, corner)
    )


def _inside(edge: Edge, at_start: bool) -> float:
    """How far inside its base line's end an edge's corner lies, negative beyond it."""
    base = edge.base_lines[0] if at_start else edge.base_lines[-1].reversed
    drawn = edge.drawn[0].start if at_start else edge.drawn[-1].end
    along, _ = base.nearest(drawn)
    if along > 1e-6:
        return along
    gap = drawn - base.start
    return (gap * base.start_heading.conjugate()).real
