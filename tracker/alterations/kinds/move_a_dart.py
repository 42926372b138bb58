"""Move a whole dart along the edge it opens from: a bust dart down."""

import cmath
from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.turn_a_dart import darts_meant
from tracker.alterations.mouth_moved import LEFT_MM, meeting_mm, mouth_drawn, mouth_for
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.alterations.turning import ONE_PIVOT_MM, Swung
from tracker.drafting.style_region import MEET_MM
from tracker.errors import nearest_names
from tracker.geometry.point import Point, turn_between, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, kw_only=True)
class MoveDart(Kind):
    """Move a dart, mouth and point, along its edge.

    A dart of the same pivot keeps its mouth and points where the pivot now is; so does a mark
    there (the bust point).

    Attributes:
        piece: the piece.
        dart: the dart.
        by_mm: how far.
        toward: the corner of its edge it is moved towards.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "move a dart"
    #: Rule 3 gives back what was there when its very opposite was done before.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Move a whole dart along the edge it opens from, point and all: a bust dart 15 mm down. "
        "It takes in as much as before and the edge as sewn stays as long; darts of the same "
        "point follow with theirs."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)
    one_way: ClassVar[bool] = True

    piece: str
    dart: str
    by_mm: float
    toward: str
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm <= 0:
            raise PatternError(
                "how far? More than nothing, and towards which corner; for the other way name "
                "the other corner"
            )

    @classmethod
    def example(cls) -> Example:
        """A bust dart above the bust."""
        return Example(
            examples.bodice(), cls(piece="front", dart="bust dart", by_mm=15.0, toward="side waist")
        )

    def opposite(self, pattern: Pattern) -> Self | None:
        """As far towards the other end of its edge."""
        for piece in (p for p in pattern.pieces if p.name == self.piece):
            mouth = next((d.mouth for d in piece.darts if d.name == self.dart), None)
            for ends in ((e.start, e.end) for e in piece.edges if e.name == mouth):
                if self.toward in ends:
                    return replace(self, toward=ends[ends[0] == self.toward])
        return None

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Bust dart of the front, whole, 15 mm along towards the side waist"."""
        pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        who = self.dart if begin else self.dart.capitalize()
        return (
            f"{begin}{who} of the {self.piece}, mouth and point, {mm(self.by_mm)} along its edge "
            f"towards the {self.toward}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw the dart where it is to be and true the edge at its mouth."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace, notes = split.pattern, split.trace, []
        for key, side in darts_meant(pattern, self.piece, self.dart, self.side):
            piece = pattern.piece(*key)
            done = self._moved(piece, piece.dart(self.dart, side))
            pattern, trace = pattern.with_pieces(done.piece), trace.then(done.trace)
            notes += _gone_along(piece, done.piece, piece.dart(self.dart, side))
        return applied(before, pattern, trace, notes=dict.fromkeys(notes))

    def _moved(self, piece: Piece, dart: Dart) -> Swung:
        if dart.double_pointed:
            raise PatternError(
                f"the {dart.name} of the {piece.label} opens from no edge to be moved along"
            )
        edge = piece.edge(str(dart.mouth), dart.side)
        ends = [edge.start, edge.end]
        if self.toward not in ends:
            raise UnknownName(
                f"the {edge.name} of the {piece.label} has no corner called {self.toward!r}; it "
                f"runs from the {' to the '.join(ends)}.{nearest_names(self.toward, ends)}"
            )
        k = edge.mouths.index(dart.name)
        one, two = edge.parts[k], edge.parts[k + 1]
        onward = self.toward == edge.end
        room = (two if onward else one).length - LEFT_MM
        if self.by_mm > room:
            raise PatternError(
                f"there are {max(room, 0.0):.0f} mm for the {dart.name} to move towards the "
                f"{self.toward} before it comes to the end of the {edge.name} or another dart"
            )
        # Half-way between the edge's directions on both sides, as folded and unfolded; where
        # the edge bends on its way the dart turns with it.
        by = self.by_mm if onward else -self.by_mm
        there = (
            turn_between(two.start_heading, two.heading_at(by))
            if onward
            else turn_between(one.end_heading, one.heading_at(one.length + by))
        )
        along = unit(one.end_heading + two.start_heading) * cmath.exp(0.5j * there)
        factor = cmath.exp(1j * there)
        middle = (dart.mouth_start + dart.mouth_end) / 2
        new_middle = middle + along * by
        axis = dart.axis * factor

        def put(spot: complex) -> complex:
            return new_middle + (spot - middle) * factor

        # In or out along the dart until both ends of its mouth are as near the edge as can be.
        first, second = one.run_on(after_mm=self.by_mm + 20), two.run_on(before_mm=self.by_mm + 20)
        off = 0.0
        for line, spot in ((first, dart.mouth_start), (second, dart.mouth_end)):
            at = put(spot)
            off += (meeting_mm(line, at - axis * 50, axis, 50.0) - 50.0) / 2
        shift = axis * off
        mouth = put(dart.mouth_start) + shift, put(dart.mouth_end) + shift
        pivot = put(dart.pivot) + shift
        done = mouth_drawn(piece, dart, pivot, mouth, notches_follow=False)
        return _with_its_pivot(done, dart, pivot)


def _with_its_pivot(moved: Swung, dart: Dart, pivot: Point) -> Swung:
    """Take along what was at the moved dart's pivot: the points of other darts, and marks.

    The pivot of a bust dart is the bust point; where that lies lower it does for every dart.
    """
    piece, trace = moved.piece, moved.trace
    piece = replace(
        piece,
        marks=tuple(
            replace(m, point=pivot) if abs(m.point - dart.pivot) <= MEET_MM else m
            for m in piece.marks
        ),
    )
    for other in _sharing(piece, dart):
        edge = piece.edge(str(other.mouth), other.side)
        mouth = mouth_for(edge, other, pivot, other.intake_mm)
        drawn = mouth_drawn(piece, other, pivot, mouth, notches_follow=True)
        piece, trace = drawn.piece, trace.then(drawn.trace)
    return Swung(piece, trace)


def _sharing(piece: Piece, dart: Dart) -> list[Dart]:
    return [
        d
        for d in piece.darts
        if d.key != dart.key and not d.double_pointed and abs(d.pivot - dart.pivot) < ONE_PIVOT_MM
    ]


def _gone_along(old: Piece, new: Piece, dart: Dart) -> list[str]:
    """Say what went along with a moved dart."""
    told = [
        f"the {m.name} went along: {mm(round(abs(m.point - new.mark(*m.key).point), 1))}"
        for m in old.marks
        if abs(m.point - dart.pivot) <= MEET_MM
    ]
    for was in _sharing(old, dart):
        now = new.dart(*was.key)
        told.append(
            f"the {was.name} has the same pivot and points there again: its mouth stays, its legs "
            f"are {mm(round(now.leg_lengths[0], 1))}, {mm(round(was.leg_lengths[0], 1))} before"
        )
    return told


__all__ = ["MoveDart"]
