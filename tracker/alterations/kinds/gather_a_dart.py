"""Gather a dart: its mouth is left open and drawn in by gathers between two notches."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.turn_a_dart import darts_meant
from tracker.alterations.mouth_moved import LEFT_MM
from tracker.alterations.notch_pairs import sewn
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import GATHERED, Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, kw_only=True)
class GatherDart(Kind):
    """Leave a dart's mouth open and gather it.

    Attributes:
        piece: the piece.
        dart: the dart.
        each_side_mm: how far to either side of the mouth the gathers are spread, as sewn; less
            where the edge ends or another dart opens sooner.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "gather a dart"
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Sew no dart: leave its mouth open and gather the edge there, between a notch on either "
        "side, to the length it had with the dart sewn. Turn the dart to where the gathers are "
        "wanted first."
    )

    piece: str
    dart: str
    each_side_mm: float = 30.0
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.each_side_mm < LEFT_MM:
            raise PatternError(
                f"gathers need an edge to be gathered on: {LEFT_MM:.0f} mm to either side of the "
                "mouth at least"
            )

    @classmethod
    def example(cls) -> Example:
        """The waist dart of a bodice gathered."""
        return Example(examples.bodice(), cls(piece="front", dart="waist dart"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Waist dart of the front gathered: 95 mm of cloth onto 60 mm of waist …"."""
        piece = pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        who = self.dart if begin else self.dart.capitalize()
        told = f"{begin}{who} of the {self.piece} left open and gathered"
        if not piece.has_outline:
            return f"{told} between notches {mm(self.each_side_mm)} to either side of it"
        dart = piece.dart(self.dart, self.side)
        back, on = self._room(piece, dart)
        whole = back + on
        return (
            f"{told}: {mm(round(whole + dart.intake_mm, 1))} of cloth onto {mm(round(whole, 1))} "
            f"of the {dart.mouth}, between notches {mm(round(back, 1))} and {mm(round(on, 1))} to "
            "either side of it"
        )

    def _room(self, piece: Piece, dart: Dart) -> tuple[float, float]:
        """How far before and after the mouth the gathers reach."""
        if dart.double_pointed:
            raise PatternError(
                f"the {dart.name} of the {piece.label} has two points and no mouth to gather; "
                "part the piece there first"
            )
        edge = piece.edge(str(dart.mouth), dart.side)
        k = edge.mouths.index(dart.name)
        room = [part.length - LEFT_MM for part in edge.parts[k : k + 2]]
        if min(room) < LEFT_MM:
            raise PatternError(
                f"the {dart.name} of the {piece.label} opens so near the end of the {edge.name} or "
                "another dart that nothing is left there to gather on"
            )
        return min(self.each_side_mm, room[0]), min(self.each_side_mm, room[1])

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Call the dart gathered, and set a notch at either end of the gathers."""
        before = pattern
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace = split.pattern, split.trace
        notes: list[str] = []
        notches: list[str] = []
        for key, side in darts_meant(pattern, self.piece, self.dart, self.side):
            piece = pattern.piece(*key)
            dart = piece.dart(self.dart, side)
            if dart.gathered:
                raise PatternError(
                    f"the {dart.name} of the {piece.label} is gathered already; turn it to "
                    "another place to sew it as a dart again"
                )
            back, on = self._room(piece, dart)
            edge = piece.edge(str(dart.mouth), side)
            k = edge.mouths.index(dart.name)
            mouth = sum(p.length for p in edge.parts[: k + 1])
            fresh = replace(dart, pressed=GATHERED)
            pattern = pattern.with_pieces(piece.with_dart(fresh))
            for word, at in (("start", mouth - back), ("end", mouth + on)):
                step = AddNotch(
                    piece=self.piece, edge=edge.name, corner=edge.start, distance_mm=at,
                    name=f"{dart.name} gathers {word}", side=side,
                )  # fmt: skip
                done = step.apply(pattern, step_id)
                pattern, trace = done.pattern, trace.then(done.trace)
                notches += done.effect.notches
            met = sewn(pattern, pattern.piece(*key), edge)
            seam = f", sewn to the {met[2][0].piece} in the {met[0].name} seam" if met else ""
            notes.append(
                f"{edge.name} of the {piece.label}: {mm(round(dart.intake_mm, 1))} of fullness "
                f"drawn in between the notches, to {mm(round(back + on, 1))} as sewn{seam}"
            )
        return applied(before, pattern, trace, notches=notches, notes=dict.fromkeys(notes))


__all__ = ["GatherDart"]
