"""Close a gaping edge and give its angle to a dart: a neckline that stands off."""

import math
from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.turn_a_dart import darts_meant, mouths_told, with_target
from tracker.alterations.shaping import spot
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.alterations.turning import Swung, angle_of, closed_up, swung, wedge_out
from tracker.pattern.bodyside import BodySide
from tracker.pattern.by_side import told_by_side
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: The wedge while it stands open; no dart a person has is called so.
_GAP = "(gap)"
#: What a neckline usually gapes by at most, each side (from memory, 6 to 19 mm).
_USUAL_MM = 19.0


@dataclass(frozen=True, kw_only=True)
class CloseGap(Kind):
    """Close a gap at an edge in a wedge aimed at a dart's pivot; the dart takes its angle.

    Attributes:
        piece: the piece.
        edge: the edge that gapes.
        corner: the corner of that edge the place is measured from.
        distance_mm: along the edge to the middle of the gap.
        by_mm: how much is closed there, on each half, square to the wedge: twice the depth of a
            pinned fold. Where the wedge meets the edge aslant the edge is shorter by less.
        dart: the dart that takes the angle.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "close a gap into a dart"
    help: ClassVar[str] = (
        "Close a neckline or armhole that stands off the body in a wedge aimed at the bust point, "
        "and give the same angle to a dart that is there."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)
    one_way: ClassVar[bool] = True

    piece: str
    edge: str
    corner: str
    distance_mm: float
    by_mm: float
    dart: str
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm <= 0:
            raise PatternError("how wide is the gap? More than nothing")

    @classmethod
    def example(cls) -> Example:
        """A neckline that stands off the chest."""
        return Example(
            examples.bodice(),
            cls(
                piece="front", edge="neckline", corner="centre front neck", distance_mm=50.0,
                by_mm=8.0, dart="bust dart",
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Gap of 8 mm at the neckline of the front, 60 mm from the …, closed …"."""
        pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        each = "" if begin else " on each half"
        return (
            f"{begin}{'gap' if begin else 'Gap'} of {mm(self.by_mm)}{each} at the {self.edge} of "
            f"the {self.piece}, {mm(self.distance_mm)} from the {self.corner}, closed to nothing "
            f"at the pivot of the {self.dart}, which takes its angle"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Cut the wedge out, turn the cloth shut, and open the dart."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        known = pattern.piece(self.piece, self.side)
        known.edge(self.edge)
        if not known.has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace = split.pattern, split.trace
        notes: list[tuple[str, str]] = []
        for key, side in darts_meant(pattern, self.piece, self.dart, self.side):
            piece = pattern.piece(*key)
            done, angle = self._closed(piece, piece.dart(self.dart, side))
            pattern, trace = pattern.with_pieces(done.piece), trace.then(done.trace)
            told = f"{math.degrees(angle):.2f} degrees went from the {self.edge} to the {self.dart}"
            notes += [(side, one) for one in (told, *mouths_told(piece, done.piece))]
        if self.by_mm > _USUAL_MM:
            much = (
                f"{mm(self.by_mm)} is much for one gap ({mm(_USUAL_MM)} is about the most that is "
                "usual): look at the shoulder and the bust again first"
            )
            notes.append(("", much))
        return applied(before, pattern, trace, notes=told_by_side(notes, " "))

    def _closed(self, piece: Piece, dart: Dart) -> tuple[Swung, float]:
        piece = with_target(piece, dart.pivot, dart.name, dart.side, None)
        edge = piece.edge(self.edge, dart.side)
        at = spot(piece, edge, self.corner, self.distance_mm)
        cut = wedge_out(piece, edge, at, self.by_mm, dart.pivot, _GAP)
        gap = cut.piece.dart(_GAP, dart.side)
        angle = angle_of(gap)
        turned = swung(cut.piece, gap.key, dart.key, angle)
        shut = closed_up(turned.piece, gap.key)
        return Swung(shut.piece, cut.trace.then(turned.trace).then(shut.trace)), angle


__all__ = ["CloseGap"]
