"""Part every piece across at a height from a line: a dropped or raised waist seam, a band."""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.across import height, names_listed, up_of
from tracker.alterations.crossed_darts import left_out, refuse_both
from tracker.alterations.in_halves import in_halves, opened_again
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.part_on_a_line import NewPart
from tracker.alterations.parting import (
    PartLine,
    clear_of_joints,
    part_piece,
)
from tracker.alterations.parting_told import PartReport, leaving_told, lines_told
from tracker.alterations.partners import met_at
from tracker.alterations.slash import CutAt
from tracker.alterations.told import applied, on_paper
from tracker.drafting.style_split import CannotPart, place_inside
from tracker.errors import nearest_names
from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import SAME_MM, Point, dot, turn_between, turned, unit
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece, PieceKey

#: Where pieces are joined a line is turned by at most this at its end to run smoothly on.
_MOST_TURNED_RAD = math.radians(20)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line across a piece, from where to where and how it arrives there."""

    left: CutAt
    right: CutAt
    leaves: Point
    arrives: Point

    @property
    def curve(self) -> Curve:
        p, q = self.left.point, self.right.point
        reach = abs(q - p) / 3
        return Curve.cubic(p, p + self.leaves * reach, q - self.arrives * reach, q)

    def inward(self, at_left: bool) -> Point:
        """The direction into the piece at one end."""
        return self.leaves if at_left else -self.arrives

    def turned(self, at_left: bool, inward: Point) -> "_Line":
        """The line with another direction into the piece at one end."""
        return replace(self, leaves=inward) if at_left else replace(self, arrives=-inward)


@dataclass(frozen=True, kw_only=True)
class PartAtHeight(Kind):
    """Part every piece that has a line across, at a height above or below it.

    Attributes:
        line: the material line the height is from, "waist line".
        above_mm: how far above it; negative is below; 0 on it.
        named: what the new part is called after its piece.
        part: which part that is, upper or lower.
        pieces: which pieces; none named means every piece of the shell that has the line.
        close: the darts that are closed into it, each with its point moved onto the line.
        leave: the darts it runs across that stay: sewn shut on the part that has the mouth, on
            the other the rest is a dart from the new seam.
    """

    word: ClassVar[str] = "part at a height"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Part every piece across at a height above or below the bust, waist or hip line, matched "
        "where they are sewn together: a waist seam dropped or raised, a yoke all round, a band."
    )

    line: str
    above_mm: float = 0.0
    named: str = "skirt"
    part: NewPart = NewPart.LOWER
    pieces: tuple[str, ...] = ()
    close: tuple[str, ...] = ()
    leave: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        refuse_both(self.close, self.leave)
        if not self.named.strip():
            raise PatternError("the new part needs a name, such as “skirt”")

    @classmethod
    def from_parameters(cls, parameters: Mapping[str, Any]) -> Self:
        """Read parameters back; pieces may be one text: "back, front"."""
        return super().from_parameters(names_listed(parameters))

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values; without darts to leave, as ever recorded."""
        return left_out(super().parameters())

    @classmethod
    def example(cls) -> Example:
        """A yoke all round a skirt, its waist darts closed."""
        return Example(
            examples.skirt(),
            cls(
                line="waist line", above_mm=-100.0, named="yoke", part=NewPart.UPPER,
                close=("waist dart", "side waist dart"),
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Front and back parted across 50 mm below the waist line; …"."""
        names = list(dict.fromkeys(n for n, _ in self._keys(pattern)))
        listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
        where = f"at {height(self.above_mm, self.line)}" if self.above_mm else f"at the {self.line}"
        told = f"{listed.capitalize()} parted across {where}"
        if self.close:
            told += f"; the {' and the '.join(self.close)} closed into it"
        told += leaving_told(self.leave)
        new = " and the ".join(f"{n} {self.named}" for n in names)
        return f"{told}; the {self.part} {'parts are' if len(names) > 1 else 'part is'} the {new}"

    def _keys(self, pattern: Pattern) -> list[PieceKey]:
        wanted = {pattern.piece(n, None).name for n in self.pieces}
        drawn = any(p.has_outline for p in pattern.pieces)
        found = [
            p.key
            for p in pattern.pieces
            if (p.name in wanted if wanted else p.layer == "shell")
            and (not drawn or any(v.name == self.line for v in p.levels))
        ]
        if not found:
            known = sorted({v.name for p in pattern.pieces for v in p.levels})
            raise UnknownName(
                f"no piece has a line called {self.line!r}; there are {', '.join(known)}."
                f"{nearest_names(self.line, known)}"
            )
        return found

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Find where the line meets each piece, then part them one after the other."""
        del step_id  # a cut through an edge makes the drawn line the new base
        before = pattern
        keys = self._keys(pattern)
        if not all(pattern.piece(*k).has_outline for k in keys):
            return on_paper(before, self.sentence(before))
        split, centres = in_halves(pattern, tuple(dict.fromkeys(n for n, _ in keys)))
        pattern, trace = split.pattern, split.trace
        keys = self._keys(pattern)
        lines = self._matched(pattern, {k: self._across(pattern.piece(*k)) for k in keys})
        lines = _smooth(pattern, lines)
        reports: list[PartReport] = []
        closed: set[str] = set()
        for key, line in lines.items():
            piece = pattern.piece(*key)
            new = f"{piece.name} {self.named}"
            if any(p.name == new and p.side is piece.side for p in pattern.pieces):
                raise CannotPart(
                    f"the pattern has a {new} already; call the new part something else"
                )
            close = tuple(n for n in self.close if any(d.name == n for d in piece.darts))
            leave = tuple(n for n in self.leave if any(d.name == n for d in piece.darts))
            closed |= {*close, *leave}
            plan = PartLine(
                new, line.left.edge, line.left.at_mm, line.right.edge, line.right.at_mm,
                line.curve, close, None, new, self.part == NewPart.UPPER, leave,
            )  # fmt: skip
            done = part_piece(pattern, piece, plan)
            pattern, trace = done.pattern, trace.then(done.trace)
            reports.append(done.report)
        whole = opened_again(pattern, trace, centres)
        pattern, trace = whole.pattern, whole.trace
        missing = [n for n in (*self.close, *self.leave) if n not in closed]
        if missing:
            known = sorted({d.name for k in keys for d in before.piece(*k).darts})
            raise UnknownName(
                f"no piece that is parted has a {missing[0]}.{nearest_names(missing[0], known)}"
            )
        notches = [
            f"{len(s.matches)} {'pair' if len(s.matches) == 1 else 'pairs'} of notches set in the "
            f"{s.name} seam"
            for s in pattern.seams
            if s.name in {r.seam for r in reports}
        ]
        return applied(
            before, pattern, trace, notches=dict.fromkeys(notches), notes=lines_told(reports)
        )

    def _across(self, piece: Piece) -> _Line:
        """The line across one piece: from its left edge to its right, square to neither."""
        up = up_of(piece)
        right = complex(up.imag, -up.real)
        spots = [p + up * self.above_mm for p in _points_of(piece, self.line)]
        spots.sort(key=lambda p: dot(p, right))
        ends = []
        for spot, inner, out in ((spots[0], spots[1], -right), (spots[-1], spots[-2], right)):
            heading = unit(spot - inner) if abs(spot - inner) > SAME_MM else out
            ends.append((self._meeting(piece, spot, heading), heading))
        (left, leaves), (far, arrives) = ends
        for end in (left, far):
            place_inside(end.edge, end.at_mm, f"the {piece.label}", end.edge.start)
        if left.edge.key == far.edge.key:
            raise CannotPart(self._off(piece))
        return _Line(left, far, -leaves, arrives)

    def _meeting(self, piece: Piece, spot: Point, heading: Point) -> CutAt:
        met: list[tuple[float, CutAt]] = []
        for edge in piece.edges:
            before = 0.0
            for part in edge.parts:
                for c in with_line(part, spot, heading):
                    met.append((abs(c.second_mm), CutAt(edge, before + c.first_mm)))
                before += part.length
        if not met:
            raise CannotPart(self._off(piece))
        return clear_of_joints(min(met, key=lambda m: m[0])[1])

    def _off(self, piece: Piece) -> str:
        return (
            f"{height(self.above_mm, self.line)} a line would not run across the {piece.label} "
            "from edge to edge; choose a height on it, or name the pieces that reach so far"
        )

    def _matched(self, pattern: Pattern, lines: dict[PieceKey, _Line]) -> dict[PieceKey, _Line]:
        """The lines with each end where the piece it is sewn to is cut."""
        out = dict(lines)
        for seam in pattern.seams:
            if seam.on_itself:
                continue
            ends = [
                (key, end)
                for key, line in out.items()
                for end in (line.left, line.right)
                if seam in pattern.seams_on(pattern.piece(*key), end.edge)
            ]
            for (one, at), (other, _) in itertools.combinations(ends, 2):
                if one == other:
                    continue
                there = clear_of_joints(
                    met_at(pattern, seam, pattern.piece(*one), at, pattern.piece(*other))
                )
                line = out[other]
                if line.left.edge.key == there.edge.key:
                    out[other] = replace(line, left=there)
                elif line.right.edge.key == there.edge.key:
                    out[other] = replace(line, right=there)
        return out


_End = tuple[PieceKey, bool]


def _smooth(pattern: Pattern, lines: dict[PieceKey, _Line]) -> dict[PieceKey, _Line]:
    """The lines with their directions at the seams such that they run smoothly over them.

    At a seam the two angles add to 180 degrees; at a fold or a centre seam each is square.
    """
    out = dict(lines)
    spots: list[tuple[_End, CutAt]] = []
    for key, line in lines.items():
        spots += [((key, True), line.left), ((key, False), line.right)]
    for seam in (None, *pattern.seams):
        ends = []
        for (key, at_left), at in spots:
            piece = pattern.piece(*key)
            on = pattern.seams_on(piece, at.edge)
            fold = piece.fold == at.edge.name
            if (seam is None and fold) or (seam is not None and seam in on and not fold):
                ends.append(((key, at_left), at))
        alone = seam is None or seam.on_itself
        for pair in [(e,) for e in ends] if alone else [tuple(ends)] if len(ends) == 2 else []:
            angles = [_angle(pattern, out, end, at) for end, at in pair]
            off = (sum(angles) - math.pi / 2 * len(pair)) / len(pair)
            if abs(off) > _MOST_TURNED_RAD:
                continue
            for (end, at), angle in zip(pair, angles, strict=True):
                (key, at_left), up = end, _upward(pattern.piece(*end[0]), at)
                turn = turn_between(up, out[key].inward(at_left))
                fresh = turned(up, 0j, math.copysign(angle - off, turn))
                out[key] = out[key].turned(at_left, fresh)
    return out


def _upward(piece: Piece, at: CutAt) -> Point:
    """The direction of an edge at a place, up the grain."""
    heading = at.edge.heading_at(at.at_mm)
    return heading if dot(heading, up_of(piece)) > 0 else -heading


def _angle(pattern: Pattern, lines: dict[PieceKey, _Line], end: _End, at: CutAt) -> float:
    """The angle between a line and the edge above it at one of its ends."""
    key, at_left = end
    return abs(turn_between(_upward(pattern.piece(*key), at), lines[key].inward(at_left)))


def _points_of(piece: Piece, line: str) -> list[Point]:
    """The points of a material line on a piece, inside it or along its outline."""
    points: list[Point] = []
    for level in piece.levels:
        if level.name == line:
            points += [p for stroke in level.strokes for p in stroke]
            points += [
                p for n in level.edges for part in piece.edge(n, level.side).parts
                for p in part.flattened(0.05)
            ]  # fmt: skip
    if len(points) < 2:
        raise UnknownName(f"the {piece.label} has no {line} to part it from")
    return points


__all__ = ["PartAtHeight"]
