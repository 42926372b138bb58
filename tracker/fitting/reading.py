"""Readings: the five ways in which people say an amount, and what each means."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from tracker.fitting.garment import FittingError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Seam


class ReadingKind(StrEnum):
    """How an amount was read."""

    PINNED_FOLD = "pinned fold"
    GAP = "gap"
    CHALK_LINE = "chalk line"
    TAPE_DIFFERENCE = "tape difference"
    ON_PAPER = "on paper"
    #: Only for a hem or a waist: its height, and (without a corner) the height wanted.
    FROM_FLOOR = "from the floor"


#: Read on one piece, as a line beside its edge: positive lies inside it.
ON_ONE_LAYER = (ReadingKind.CHALK_LINE, ReadingKind.ON_PAPER)

#: What to say to someone who has to choose.
READING_HELP = {
    ReadingKind.PINNED_FOLD: "the depth of a pinned fold, seam to fold: twice that comes out",
    ReadingKind.GAP: "how far a ripped or slashed seam stands open: that much goes in, once",
    ReadingKind.CHALK_LINE: "a chalk line this far from the seam, on one layer only",
    ReadingKind.TAPE_DIFFERENCE: "how much too large (or, negative, too small) the whole line is",
    ReadingKind.ON_PAPER: "an amount marked on one piece of paper: that edge moves by it",
    ReadingKind.FROM_FLOOR: "how high above the floor a hem or waist is there",
}


@dataclass(frozen=True, kw_only=True)
class Reading:
    """An amount read at a place of a seam.

    Attributes:
        kind: how it was read.
        corner: the corner of the seam the distance is from.
        distance_mm: along the seam's first side.
        value_mm: as read. A fold and a gap are sizes and never negative; a tape difference is
            negative where it is too small, a line or mark where it lies outside the seam.
        piece: the piece a chalk line or a paper mark is on.
        edge: the edge of a piece the place is on, where its corner alone does not say it.
    """

    kind: ReadingKind
    corner: str
    value_mm: float
    distance_mm: float = 0.0
    piece: str | None = None
    edge: str | None = None

    def __post_init__(self) -> None:
        if self.value_mm < 0 and self.kind is ReadingKind.FROM_FLOOR:
            raise FittingError("a height above the floor is never negative")
        if self.value_mm < 0 and self.kind in (ReadingKind.PINNED_FOLD, ReadingKind.GAP):
            raise FittingError(
                f"a {self.kind} is read as a size and is never negative; "
                "a gap already means that cloth goes in"
            )

    def record(self) -> dict[str, Any]:
        """Return it as plain values."""
        plain: dict[str, Any] = {
            "kind": str(self.kind),
            "corner": self.corner,
            "value": self.value_mm,
            "distance": self.distance_mm,
            "piece": self.piece,
        }
        return plain if self.edge is None else plain | {"edge": self.edge}

    @classmethod
    def from_record(cls, r: dict[str, Any]) -> "Reading":
        """Read it back."""
        return cls(
            kind=ReadingKind(r["kind"]), corner=r["corner"], value_mm=r["value"],
            distance_mm=r["distance"], piece=r["piece"], edge=r.get("edge"),
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Understood:
    """What readings of one seam come to.

    Attributes:
        amounts: (corner, distance in mm, amount in mm) at the seam on each body side it
            exists on; positive is out of the garment. For a centre seam the whole amount.
        share: the part that comes off the seam's first side.
        sentence: the reading echoed back.
    """

    amounts: tuple[tuple[str, float, float], ...]
    share: float
    sentence: str


def understand(
    pattern: Pattern, seam: Seam, side: BodySide, readings: Sequence[Reading]
) -> Understood:
    """Turn readings at one seam into amounts for that seam, counted right.

    A side, shoulder or panel seam exists on both body sides, so a tape difference of the
    whole line is halved for it; a centre seam or fold exists once. A chalk line and a paper
    mark move one piece's edge: the seam changes by that much, all of it from that piece. A
    line on a centre seam's edge is on both halves, so the garment changes by twice as much.

    Raises:
        FittingError: readings that cannot be taken together.
    """
    if not readings:
        raise FittingError("no reading was given; say how much at one place at least")
    kinds = {r.kind for r in readings}
    if len(kinds) > 1:
        raise FittingError(
            "one note reads its amounts in one way; these are read as "
            f"{' and '.join(sorted(str(k) for k in kinds))}: make a note of each"
        )
    kind = kinds.pop()
    if kind is ReadingKind.FROM_FLOOR:
        raise FittingError(
            "a height from the floor is read at a hem or waist, not along a seam; name the edge "
            "with --edge"
        )
    centre = seam.side is BodySide.CENTRE
    once = centre or side in (BodySide.RIGHT, BodySide.LEFT)
    factor, share, told = 1.0, 0.5, ""
    if kind is ReadingKind.PINNED_FOLD:
        factor, told = 2.0, "a fold takes up twice its depth"
    elif kind is ReadingKind.GAP:
        factor, told = -1.0, "the gap goes in, counted once"
    elif kind is ReadingKind.TAPE_DIFFERENCE:
        factor = 1.0 if once else 0.5
        told = (
            f"the whole of it at the one {seam.name} seam"
            if once
            else f"half of it at each {seam.name} seam"
        )
    else:
        share = 0.5 if centre else _share(seam, readings)
        factor = 2.0 if centre else 1.0
        told = (
            "on both halves, so twice that comes out of the garment"
            if centre
            else f"all of it on the {_piece(readings)}"
        )
    amounts = tuple((r.corner, r.distance_mm, r.value_mm * factor) for r in readings)
    return Understood(amounts, share, f"{kind}: {told}")


def _piece(readings: Sequence[Reading]) -> str:
    return next(r.piece for r in readings if r.piece)


def _share(seam: Seam, readings: Sequence[Reading]) -> float:
    pieces = {r.piece for r in readings if r.value_mm or r.piece}
    if pieces == {None}:
        raise FittingError(
            f"a {readings[0].kind} is on one piece; say which: on {seam.first[0].piece} or on "
            f"{seam.second[0].piece}"
            if readings[0].kind is ReadingKind.CHALK_LINE
            else f"an amount on paper is on one piece; say which: on {seam.first[0].piece} or on "
            f"{seam.second[0].piece}"
        )
    if len(pieces) > 1:
        raise FittingError("mark one piece at a time: these readings are on different pieces")
    piece = pieces.pop()
    if any(run.piece == piece for run in seam.first):
        return 1.0
    if any(run.piece == piece for run in seam.second):
        return 0.0
    raise FittingError(
        f"the {piece} has no edge in the {seam.name} seam, which joins "
        f"{seam.first[0].piece} and {seam.second[0].piece}"
    )
