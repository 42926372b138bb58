"""Change a dart: take in more or less with it, make it longer, move its point."""

from dataclasses import dataclass, replace
from typing import ClassVar, Self

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.kinds.turn_a_dart import darts_meant, mouths_told
from tracker.alterations.mouth_moved import inner_drawn, mouth_drawn, mouth_for
from tracker.alterations.told import applied, mm, on_paper, parted, whose
from tracker.alterations.turning import ONE_PIVOT_MM, Swung
from tracker.errors import nearest_names
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, left_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.by_side import told_by_side
from tracker.pattern.dart import Dart
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@dataclass(frozen=True, kw_only=True)
class ChangeDart(Kind):
    """Change a dart's intake, its length, or where it points.

    Attributes:
        piece: the piece.
        dart: the dart.
        deeper_mm: how much more it takes in at its mouth (or, double-pointed, where it is
            widest), on each half; negative takes in less.
        longer_mm: how much further from the mouth its pivot lies (of a double-pointed dart
            the two points together, in proportion); negative is shorter.
        across_mm: how far its pivot moves square to the dart,
        toward: towards the side on which this corner of the mouth's edge lies.
        stand_back_mm: how far short of the pivot it is sewn; as before unless told.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "change a dart"
    #: Rule 3 gives back what was there when its very opposite was done before.
    rule: ClassVar[int] = 3
    help: ClassVar[str] = (
        "Make a dart deeper or shallower, longer or shorter, or move its point to one side; the "
        "edge it opens from is trued and its length as sewn follows."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("deeper_mm", "longer_mm", "across_mm")
    one_way: ClassVar[bool] = True

    piece: str
    dart: str
    deeper_mm: float = 0.0
    longer_mm: float = 0.0
    across_mm: float = 0.0
    toward: str = ""
    stand_back_mm: float | None = None
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if not (self.deeper_mm or self.longer_mm or self.across_mm) and self.stand_back_mm is None:
            raise PatternError(
                "what is to change? Say how much deeper or longer it is to be, how far its point "
                "moves across, or how far short of the pivot it is sewn"
            )
        if self.across_mm < 0 or bool(self.across_mm) != bool(self.toward):
            raise PatternError(
                "to move the point across, give an amount and the corner it moves towards"
            )
        if self.stand_back_mm is not None and self.stand_back_mm < 0:
            raise PatternError("a dart is sewn to its pivot or short of it, never past it")

    @classmethod
    def example(cls) -> Example:
        """A waist dart that takes in more and runs on higher."""
        return Example(
            examples.bodice(), cls(piece="back", dart="waist dart", deeper_mm=6.0, longer_mm=15.0)
        )

    def opposite(self, pattern: Pattern) -> Self | None:
        """As much shallower and shorter, or deeper and longer."""
        del pattern
        if self.across_mm or self.stand_back_mm is not None:
            return None
        return replace(self, deeper_mm=-self.deeper_mm, longer_mm=-self.longer_mm)

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Waist dart of the front 6 mm deeper at its mouth: the waist 6 mm …"."""
        piece = pattern.piece(self.piece, self.side)
        begin = whose(self.side)
        who = self.dart if begin else self.dart.capitalize()
        told = []
        if self.deeper_mm:
            word = "deeper" if self.deeper_mm > 0 else "shallower"
            two = piece.has_outline and piece.dart(self.dart, self.side).double_pointed
            where = "where it is widest" if two else "at its mouth"
            told.append(f"{mm(abs(self.deeper_mm))} {word} {where}, to nothing at its point")
        if self.longer_mm:
            told.append(
                f"{mm(abs(self.longer_mm))} {'longer' if self.longer_mm > 0 else 'shorter'}"
            )
        if self.across_mm:
            told.append(f"its point {mm(self.across_mm)} towards the {self.toward}")
        if self.stand_back_mm is not None:
            told.append(f"sewn to {mm(self.stand_back_mm)} short of its pivot")
        said = f"{begin}{who} of the {self.piece} {', '.join(told)}"
        if self.deeper_mm and piece.has_outline:
            mouth = piece.dart(self.dart, self.side).mouth or "garment there"
            each = "" if begin else " on each half"
            word = "shorter" if self.deeper_mm > 0 else "longer"
            said += f": the {mouth} about {mm(abs(self.deeper_mm))} {word}{each}"
        return said

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draw its legs again and true the edge so that it is smooth with the dart folded."""
        del step_id  # what was drawn becomes the base; nothing is displaced
        before = pattern
        if not pattern.piece(self.piece, self.side).has_outline:
            return on_paper(before, self.sentence(before))
        split = parted(pattern, {self.piece}, self.side)
        pattern, trace, notes = split.pattern, split.trace, []
        for key, side in darts_meant(pattern, self.piece, self.dart, self.side):
            piece = pattern.piece(*key)
            done = self._changed(piece, piece.dart(self.dart, side))
            pattern, trace = pattern.with_pieces(done.piece), trace.then(done.trace)
            told = (*mouths_told(piece, done.piece), *left_alone(piece, done.piece, self.dart))
            notes += [(side, one) for one in told]
        return applied(before, pattern, trace, notes=told_by_side(notes, " "))

    def _changed(self, piece: Piece, dart: Dart) -> Swung:
        if dart.double_pointed:
            return self._inner_changed(piece, dart)
        if self.stand_back_mm is not None:
            dart = replace(dart, stand_back_mm=self.stand_back_mm)
        if not self.amount_mm:
            _refuse_short(piece, dart, dart.leg_lengths[0])
            return Swung(piece.with_dart(dart))
        edge = piece.edge(str(dart.mouth), dart.side)
        pivot = dart.pivot - dart.axis * self.longer_mm
        if self.toward:
            ends = [edge.start, edge.end]
            if self.toward not in ends:
                raise UnknownName(
                    f"the {edge.name} of the {piece.label} has no corner called {self.toward!r}; "
                    f"it runs from the {' to the '.join(ends)}.{nearest_names(self.toward, ends)}"
                )
            # Going round the piece the mouth's end lies to the left of the axis outwards.
            sideways = left_of(dart.axis) * (1 if self.toward == edge.end else -1)
            pivot += sideways * self.across_mm
        intake = dart.intake_mm + self.deeper_mm
        if intake < 1.0:
            raise PatternError(
                f"the {dart.name} takes in {dart.intake_mm:.0f} mm, so nothing would be left of "
                "it; remove it instead"
            )
        middle = (dart.mouth_start + dart.mouth_end) / 2
        length = abs(dart.pivot - middle)
        if self.longer_mm <= -length * 0.8:
            raise PatternError(
                f"the {dart.name} is {length:.0f} mm long; it can be made "
                f"{length * 0.8:.0f} mm shorter at most"
            )
        if self.deeper_mm or self.across_mm:
            mouth = mouth_for(edge, dart, pivot, intake)
        else:
            mouth = dart.mouth_start, dart.mouth_end
        _refuse_short(piece, dart, abs(mouth[0] - pivot))
        _refuse_outside(piece, dart, pivot)
        _refuse_into_another(piece, dart, pivot, mouth)
        return mouth_drawn(piece, dart, pivot, mouth, notches_follow=True)

    def _inner_changed(self, piece: Piece, dart: Dart) -> Swung:
        """A double-pointed dart: wider where it is widest, its points further out."""
        if self.toward:
            raise PatternError(
                f"the {dart.name} of the {piece.label} has two points and no mouth; its points "
                "cannot be moved across"
            )
        if self.stand_back_mm is not None:
            dart = replace(dart, stand_back_mm=self.stand_back_mm)
        long = abs(dart.legs[0].end - dart.pivot)
        intake, length = dart.intake_mm + self.deeper_mm, long + self.longer_mm
        if intake < 1.0 or length < 2 * dart.stand_back_mm + 10.0:
            raise PatternError(
                f"the {dart.name} is {dart.intake_mm:.0f} mm wide and {long:.0f} mm long, so "
                "nothing would be left of it; remove it instead"
            )
        new = inner_drawn(piece, dart, intake / dart.intake_mm, length / long)
        for end in (new.dart(*dart.key).pivot, new.dart(*dart.key).legs[0].end):
            _refuse_outside(piece, dart, end)
        return Swung(new)


def _refuse_short(piece: Piece, dart: Dart, leg_mm: float) -> None:
    if dart.stand_back_mm >= leg_mm:
        raise PatternError(
            f"sewn to {dart.stand_back_mm:.0f} mm short of its pivot nothing would be left of "
            f"the {dart.name} of the {piece.label}, {leg_mm:.0f} mm long"
        )


def _refuse_outside(piece: Piece, dart: Dart, pivot: Point) -> None:
    import shapely

    from tracker.geometry.area import polygon

    outline = polygon([c for e in piece.edges for c in e.parts])
    if not outline.contains(shapely.Point(pivot.real, pivot.imag)):
        raise PatternError(f"the point of the {dart.name} would lie outside the {piece.label}")


def _refuse_into_another(
    piece: Piece, dart: Dart, pivot: Point, mouth: tuple[Point, Point]
) -> None:
    legs = [Curve.line(pivot, end) for end in mouth]
    for other in piece.darts:
        if other.key == dart.key:
            continue
        # That the two meet in one pivot is no crossing.
        if any(
            abs(c.point - other.pivot) > 0.5
            for one in legs
            for two in other.legs
            for c in of_curves(one, two)
        ):
            shared = abs(other.pivot - dart.pivot) < ONE_PIVOT_MM
            raise PatternError(
                f"the {dart.name} of the {piece.label} would run into the {other.name}"
                + (
                    ", which has the same pivot; move that dart whole, and this one points with "
                    "it, or make this one shorter as well"
                    if shared
                    else "; make it shorter or less deep"
                )
            )


def left_alone(old: Piece, new: Piece, name: str) -> list[str]:
    """Say of darts that shared a pivot with one that no longer has it that they stay."""
    return [
        f"the {d.name} keeps its own point; the two had one pivot and now have two"
        for d in old.darts
        if d.name != name and not d.double_pointed
        for was in old.darts
        if was.name == name and was.side is d.side and abs(was.pivot - d.pivot) < 1e-3
        and abs(new.dart(name, d.side).pivot - was.pivot) > 1e-3
    ]  # fmt: skip


__all__ = ["ChangeDart", "left_alone"]
