"""How everything points at a spot: never a bare coordinate, never an index."""

from dataclasses import dataclass

from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.units import write_tenths


@dataclass(frozen=True, slots=True)
class Place:
    """A spot on a seam or on an edge of a piece.

    Attributes:
        corner: the named corner it is measured from.
        side: the wearer's side.
        seam: the seam it is on, or
        piece: the piece, and
        edge: its edge.
        distance_mm: along the seam's first side or the edge, as sewn, from the corner; or
        fraction: the share of the whole length, 0 to 1.

    Raises:
        PatternError: neither seam nor edge, or no distance.
    """

    corner: str
    side: BodySide = BodySide.BOTH
    seam: str | None = None
    piece: str | None = None
    edge: str | None = None
    distance_mm: float | None = None
    fraction: float | None = None

    def __post_init__(self) -> None:
        if (self.seam is None) == (self.edge is None) or (self.edge is None) != (
            self.piece is None
        ):
            raise PatternError(
                "a place is on a seam, or on an edge of a piece: name the one or the other"
            )
        if (self.distance_mm is None) == (self.fraction is None):
            raise PatternError(
                f"how far from the {self.corner}? Give a distance or a share of the length"
            )
        if self.fraction is not None and not 0 <= self.fraction <= 1:
            raise PatternError("a share of a length lies between 0 and 1")

    @property
    def sentence(self) -> str:
        """The spot in words: "side seam, 40 mm from the underarm point"."""
        line = f"{self.seam} seam" if self.seam else f"{self.edge} of the {self.piece}"
        who = "" if self.side in (BodySide.BOTH, BodySide.CENTRE) else f"{self.side} "
        if self.distance_mm == 0 or self.fraction == 0:
            return f"{who}{line} at the {self.corner}"
        if self.fraction is not None:
            return f"{who}{line}, {self.fraction:.0%} of the way from the {self.corner}"
        return f"{who}{line}, {write_tenths(self.distance_mm or 0.0)} from the {self.corner}"
