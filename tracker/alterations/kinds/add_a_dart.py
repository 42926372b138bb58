"""Add a dart: shaping from an edge, or double-pointed inside a piece."""

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.mouth import Opened, broken_by, cut_mouth
from tracker.alterations.told import applied, mm, on_paper
from tracker.geometry.curve import Curve
from tracker.geometry.point import left_of, turned
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.trace import Trace
from tracker.pattern.walk import edge_distance


@dataclass(frozen=True, kw_only=True)
class AddDart(Kind):
    """Add a dart to a piece.

    Attributes:
        piece: the piece.
        name: what to call it, "back neck dart".
        edge: the edge it opens from, or whose place a double-pointed one is measured from.
        corner: the corner of that edge the distance is from.
        distance_mm: along the edge to the middle of the mouth.
        width_mm: how much it takes in: the mouth, or the greatest width.
        length_mm: from the mouth to the pivot; of a double-pointed dart, from the widest
            place to the point further from the edge.
        inward_mm: 0 for a dart from the edge; else how far in, square to the edge, the
            widest place of a double-pointed dart lies.
        toward_edge_mm: of a double-pointed dart, from the widest place to the other point.
        lean_deg: the axis leans this much to the left of square to the edge.
        stand_back_mm: it is sewn to this far short of the pivot.
        pressed: the side its fold is pressed to.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "add a dart"
    #: Rule 3 takes from a curved edge, folded, what was stated.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Add a dart from an edge, or a double-pointed one inside a piece; the width comes out "
        "of the edge as sewn."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("width_mm",)
    one_way: ClassVar[bool] = True

    piece: str
    name: str
    edge: str
    corner: str
    distance_mm: float
    width_mm: float
    length_mm: float
    inward_mm: float = 0.0
    toward_edge_mm: float = 0.0
    lean_deg: float = 0.0
    stand_back_mm: float = 0.0
    pressed: str = "to the centre"
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.width_mm <= 0 or self.length_mm <= 0:
            raise PatternError("a dart has a width and a length; both are more than nothing")
        if self.inward_mm and self.toward_edge_mm <= 0:
            raise PatternError(
                "a double-pointed dart has two lengths; say how far its second point lies "
                "towards the edge"
            )
        if self.inward_mm and self.toward_edge_mm >= self.inward_mm:
            raise PatternError(
                f"its point would lie {self.toward_edge_mm - self.inward_mm:.0f} mm beyond the "
                f"{self.edge}; a dart from the edge itself has no distance inwards"
            )

    @classmethod
    def example(cls) -> Example:
        """A dart from the back neckline."""
        return Example(
            examples.bodice(),
            cls(
                piece="back", name="back neck dart", edge="neckline", corner="neck point",
                distance_mm=30.0, width_mm=10.0, length_mm=80.0,
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Dart of 12 mm, 120 mm long, from the back waist 95 mm from the …"."""
        del pattern
        who = "" if self.side is BodySide.BOTH else f" ({self.side} side only)"
        at = f"{mm(self.distance_mm)} from the {self.corner}"
        name = self.name[:1].upper() + self.name[1:]
        if self.inward_mm:
            whole = self.length_mm + self.toward_edge_mm
            return (
                f"{name}, double-pointed, {mm(self.width_mm)} wide and {mm(whole)} "
                f"long in the {self.piece}{who}, widest {mm(self.inward_mm)} in from the "
                f"{self.edge} at {at}"
            )
        return (
            f"{name} of {mm(self.width_mm)}, {mm(self.length_mm)} long, from the "
            f"{self.edge} of the {self.piece}{who} at {at}, pressed {self.pressed}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut the mouth and true the edge so that it is smooth with the dart folded."""
        del step_id  # the drawn edge becomes the base; nothing is displaced
        before, trace = pattern, Trace()
        if self.side in (BodySide.RIGHT, BodySide.LEFT):
            if pattern.piece(self.piece, self.side).fold == self.edge:
                raise PatternError(
                    f"the {self.edge} of the {self.piece} is on the fold, and a dart from there is "
                    "the same on both halves; let it be for both, or make the centre a seam first"
                )
            split = split_sides(pattern, {self.piece})
            pattern, trace = split.pattern, split.trace
        if not pattern.piece(self.piece, self.side).edge(self.edge).parts:
            return on_paper(before, self.sentence(before))
        for piece in [p for p in pattern.pieces if p.name == self.piece]:
            for side in dict.fromkeys(e.side for e in piece.edges if e.name == self.edge):
                if not self.side.covers(side):
                    continue
                old = pattern.piece(piece.name, piece.side)
                opened = self._added(old, side)
                pattern = pattern.with_pieces(opened.piece)
                trace = trace.then(Trace(opened.fates))
        return applied(before, pattern, trace)

    def _added(self, piece: Piece, side: BodySide) -> Opened:
        if any(d.name == self.name and d.side is side for d in piece.darts):
            raise PatternError(f"the {piece.label} has a {self.name} already; give this one a name")
        edge = piece.edge(self.edge, side)
        place = Place(
            piece=piece.name, edge=self.edge, side=side, corner=self.corner,
            distance_mm=self.distance_mm,
        )  # fmt: skip
        at = edge_distance(Pattern((piece,)), place)
        if self.inward_mm:
            return self._double_pointed(piece, side, at)
        return cut_mouth(
            piece, edge, at, self.width_mm, self.length_mm, math.radians(self.lean_deg),
            Dart(self.name, side, (Curve.line(0j, 0j), Curve.line(0j, 0j)), self.stand_back_mm,
                 self.pressed, self.edge),
        )  # fmt: skip

    def _double_pointed(self, piece: Piece, side: BodySide, at: float) -> Opened:
        edge = piece.edge(self.edge, side)
        foot, heading = edge.point_at(at), edge.heading_at(at)
        inward = turned(left_of(heading), 0j, math.radians(self.lean_deg))
        widest = foot + left_of(heading) * self.inward_mm
        far, near = widest + inward * self.length_mm, widest - inward * self.toward_edge_mm
        half = left_of(inward) * (self.width_mm / 2)
        upper, lower = (far, near) if far.imag >= near.imag else (near, far)
        legs = (
            Curve.line(upper, widest + half, lower),
            Curve.line(upper, widest - half, lower),
        )
        dart = Dart(self.name, side, legs, self.stand_back_mm, self.pressed, None)
        for spot in (upper, lower, widest + half, widest - half):
            if not _inside(piece, spot):
                raise PatternError(
                    f"the {self.name} would reach outside the {piece.label}; make it shorter "
                    "or lay it further in"
                )
        levels = broken_by(piece.levels, dart)
        return Opened(replace(piece, darts=(*piece.darts, dart), levels=levels), ())


def _inside(piece: Piece, spot: complex) -> bool:
    import shapely

    from tracker.geometry.area import polygon

    return bool(polygon(piece.plain_ring).contains(shapely.Point(spot.real, spot.imag)))
