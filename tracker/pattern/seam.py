"""A seam: two sides, each a run of edges in sewing order."""

from dataclasses import dataclass

from tracker.pattern.bodyside import BodySide


@dataclass(frozen=True, slots=True)
class Run:
    """An edge in a seam's side.

    Attributes:
        piece: the piece's name.
        edge: the edge's name.
        side: the body side of both.
        backward: sewn from the edge's end to its start.
    """

    piece: str
    edge: str
    side: BodySide
    backward: bool = False


@dataclass(frozen=True, slots=True)
class Match:
    """Two notches that meet when the seam is walked, by name, on first and second side.

    Instead of a notch, a corner that the side runs through may be named (a shoulder point).
    """

    first_piece: str
    first: str
    second_piece: str
    second: str


@dataclass(frozen=True, slots=True)
class PlannedEase:
    """How much longer the second side is than the first, between two named places.

    Attributes:
        amount_mm: second side minus first side.
        start: a corner or a notch of the second side.
        end: a corner or a notch of the second side.
    """

    amount_mm: float
    start: str
    end: str


@dataclass(frozen=True, slots=True)
class Seam:
    """Two sides sewn together.

    Attributes:
        name: "side", "shoulder", "centre back" …
        side: the wearer's side; a centre seam exists once.
        first: the first side's edges in sewing order; distances are taken on it.
        second: the second side's. A centre seam of a mirrored piece has the same runs twice.
        matches: the notch pairs, in sewing order.
        ease: the ease planned in it.
    """

    name: str
    side: BodySide
    first: tuple[Run, ...]
    second: tuple[Run, ...]
    matches: tuple[Match, ...] = ()
    ease: tuple[PlannedEase, ...] = ()

    @property
    def key(self) -> tuple[str, BodySide]:
        """Name and body side."""
        return self.name, self.side

    @property
    def on_itself(self) -> bool:
        """Tell whether a mirrored piece is sewn to its own mirror image."""
        return self.first == self.second

    @property
    def planned_ease_mm(self) -> float:
        """The whole ease planned in the second side."""
        return sum(e.amount_mm for e in self.ease)
