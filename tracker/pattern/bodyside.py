"""Which side of the wearer: part of every key in a pattern."""

from enum import StrEnum


class BodySide(StrEnum):
    """A side of the body, always the wearer's.

    ``both`` stands for a right half drawn and its mirror image on the left; ``centre`` for
    what lies across the middle and exists once.
    """

    BOTH = "both"
    RIGHT = "right"
    LEFT = "left"
    CENTRE = "centre"

    @property
    def opposite(self) -> "BodySide":
        """The same place on the other side of the body."""
        return {BodySide.RIGHT: BodySide.LEFT, BodySide.LEFT: BodySide.RIGHT}.get(self, self)

    def covers(self, other: "BodySide") -> bool:
        """Tell whether something said of this side is said of ``other`` too."""
        return self is other or self is BodySide.BOTH
