"""Turn a dart to another place, wholly or by a share of its angle."""

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.shaping import spot
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.alterations.turning import (
    ONE_PIVOT_MM,
    Swung,
    angle_of,
    closed_up,
    opened_at,
    swung,
)
from tracker.pattern.bodyside import BodySide
from tracker.pattern.by_side import told_by_side
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Renamed, Trace

#: Edges whose darts are pressed to the centre unless told; others down. Common practice.
_TO_CENTRE = ("waist", "shoulder", "neckline")


@dataclass(frozen=True, kw_only=True)
class TurnDart(Kind):
    """Turn a dart about its pivot to another place.

    Attributes:
        piece: the piece.
        dart: the dart that closes.
        into: another dart of the same pivot that takes its angle; or
        edge: the edge of the new mouth,
        corner: the corner of that edge its place is measured from, and
        distance_mm: how far from there, as sewn.
        share: the part of the dart's angle that is turned, up to 1.
        name: what the new dart is called; its edge's name and "dart" unless told.
        stand_back_mm: how far short of the pivot the new dart is sewn; as the old one unless
            told. Another dart keeps its own unless told.
        pressed: the side the new dart is pressed to.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "turn a dart"
    help: ClassVar[str] = (
        "Close a dart, or a share of it, and open the same angle somewhere else about the same "
        "point: the bust dart to the shoulder, half the waist dart to the side."
    )

    piece: str
    dart: str
    into: str = ""
    edge: str = ""
    corner: str = ""
    distance_mm: float = 0.0
    share: float = 1.0
    name: str = ""
    stand_back_mm: float | None = None
    pressed: str = ""
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not 0 < self.share <= 1:
            raise PatternError(
                "the share that is turned is more than nothing and at most 1, the whole dart"
            )
        if bool(self.into) == bool(self.edge):
            raise PatternError(
                "where to? Name another dart of the same pivot, or an edge with a corner and a "
                "distance from it; the one or the other"
            )
        if self.edge and not self.corner:
            raise PatternError(f"where on the {self.edge}? Name the corner it is measured from")
        if self.stand_back_mm is not None and self.stand_back_mm < 0:
            raise PatternError("a dart is sewn to its pivot or short of it, never past it")
        if self.into and self.into == self.dart:
            raise PatternError(f"the {self.dart} cannot be turned into itself")

    @property
    def new_name(self) -> str:
        """What the dart that opens is called."""
        return self.into or self.name or f"{self.edge} dart"

    @classmethod
    def example(cls) -> Example:
        """A bust dart turned to the shoulder."""
        return Example(
            examples.bodice(),
            cls(
                piece="front", dart="bust dart", edge="shoulder", corner="neck point",
                distance_mm=60.0,
            ),
        )  # fmt: skip

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Bust dart of the front turned wholly to the shoulder, 60 mm from the …"."""
        piece = pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        who = self.dart if begin else self.dart.capitalize()
        amount = "wholly" if self.share == 1 else f"by {self.share:.0%} of its angle"
        if self.into:
            where = f"into the {self.into}"
        else:
            where = f"to the {self.edge}, {mm(self.distance_mm)} from the {self.corner}"
        told = f"{begin}{who} of the {self.piece} turned {amount} {where}"
        if piece.has_outline:
            angle = math.degrees(piece.dart(self.dart, self.side).angle_rad)
            told += f": {angle * self.share:.1f} of its {angle:.1f} degrees"
        if self.stand_back_mm is not None:
            told += f"; sewn to {mm(self.stand_back_mm)} short of its pivot"
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Turn the outline between the two mouths about the pivot."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        known = pattern.piece(self.piece, self.side)
        if self.edge:
            known.edge(self.edge)
        if not known.has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace, notes = split.pattern, split.trace, []
        for key, side in darts_meant(pattern, self.piece, self.dart, self.side):
            piece = pattern.piece(*key)
            done = self._turned(piece, piece.dart(self.dart, side))
            pattern, trace = pattern.with_pieces(done.piece), trace.then(done.trace)
            notes += [(side, told) for told in mouths_told(piece, done.piece)]
        return applied(before, pattern, trace, notes=told_by_side(notes, " "))

    def _turned(self, piece: Piece, dart: Dart) -> Swung:
        if dart.double_pointed:
            raise PatternError(
                f"the {dart.name} of the {piece.label} has two points and no mouth, so it cannot "
                "be turned; take it out and add a dart"
            )
        piece, renamed = self._opening(piece, dart)
        whole = angle_of(dart)
        done = swung(piece, dart.key, (self.new_name, dart.side), whole * self.share)
        piece, trace = done.piece, done.trace
        if self.share == 1:
            shut = closed_up(piece, dart.key)
            piece, trace = shut.piece, trace.then(shut.trace)
            renamed = (*renamed, Renamed("dart", (piece.name, dart.name), (piece.name, "")))
        return Swung(piece, Trace(trace.fates, renamed))

    def _opening(self, piece: Piece, dart: Dart) -> tuple[Piece, tuple[Renamed, ...]]:
        """The piece with the mouth that is to open, if only as a cut."""
        if self.into:
            return with_target(piece, dart.pivot, self.into, dart.side, self.stand_back_mm), ()
        if any(d.key == (self.new_name, dart.side) for d in piece.darts):
            raise PatternError(
                f"the {piece.label} has a {self.new_name} already; turn it into that one, or "
                "give the new one a name"
            )
        edge = piece.edge(self.edge, dart.side)
        at = spot(piece, edge, self.corner, self.distance_mm)
        pressed = self.pressed or ("to the centre" if self.edge in _TO_CENTRE else "down")
        back = dart.stand_back_mm if self.stand_back_mm is None else self.stand_back_mm
        reach = abs(edge.point_at(at) - dart.pivot)
        if back >= reach:
            raise PatternError(
                f"sewn to {back:.0f} mm short of its pivot nothing would be left of a dart "
                f"{reach:.0f} mm long"
            )
        fresh = replace(
            dart, name=self.new_name, stand_back_mm=back, pressed=pressed, mouth=edge.name
        )
        renamed = (Renamed("dart", (piece.name, ""), (piece.name, self.new_name)),)
        return opened_at(piece, edge, at, dart.pivot, fresh), renamed


def darts_meant(
    pattern: Pattern, piece: str, dart: str, side: BodySide
) -> tuple[tuple[tuple[str, BodySide], BodySide], ...]:
    """Return the piece keys and body sides on which a dart of a name is meant.

    Raises:
        UnknownName: there is none.
    """
    found = tuple(
        (p.key, d.side)
        for p in pattern.pieces
        if p.name == piece
        for d in p.darts
        if d.name == dart and side.covers(d.side)
    )
    if not found:
        pattern.piece(piece, side).dart(dart, side)
        raise PatternError(f"the {piece} has no {dart} on the wearer's {side}")
    return found


def with_target(
    piece: Piece, pivot: complex, name: str, side: BodySide, stand_back_mm: float | None
) -> Piece:
    """Return a piece with the dart that is to take an angle, its pivot exactly the other's.

    Raises:
        PatternError: it has another pivot, or no mouth.
    """
    dart = piece.dart(name, side)
    if dart.double_pointed or abs(dart.pivot - pivot) > ONE_PIVOT_MM:
        raise PatternError(
            f"the {name} of the {piece.label} has another pivot; an angle can only be turned "
            "about one pivot: choose a new place on an edge instead"
        )
    if stand_back_mm is not None:
        dart = replace(dart, stand_back_mm=stand_back_mm)
    legs = dart.legs[0].ended_at(pivot), dart.legs[1].started_at(pivot)
    return piece.with_dart(replace(dart, legs=legs))


def mouths_told(old: Piece, new: Piece) -> list[str]:
    """Say of each dart of a piece that changed what it is now."""
    was = {d.key: d for d in old.darts}
    now = {d.key: d for d in new.darts}
    told = []
    for key in (*was, *(k for k in now if k not in was)):
        a, b = was.get(key), now.get(key)
        if b is None:
            told.append(f"{key[0]}: closed")
        elif a is None or abs(a.angle_rad - b.angle_rad) > 1e-6:
            before = f", {math.degrees(a.angle_rad):.1f} before" if a else ", new"
            told.append(
                f"{key[0]}: {math.degrees(b.angle_rad):.1f} degrees{before}; mouth "
                f"{mm(b.intake_mm)}, legs {mm(b.leg_lengths[0])}"
            )
    return told


__all__ = ["TurnDart", "darts_meant", "mouths_told", "with_target"]
