"""What she chooses when side panels are joined: where each line's gap or overlap goes."""

from dataclasses import dataclass

from tracker.drafting.style_split import CannotPart

#: How far below the underarm the waist dart's point lies, if not told.
DART_POINT_MM = 40.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AtLine:
    """Where the gap at one line goes, in shares; what is in neither share stays as width.

    Attributes:
        line: the line, "bust line", "waist line" …
        dart: the share taken by a plumb dart on the join; at the waist only.
        seams: the share taken in at the two panel seams. Of an overlap the share is 1: all of
            it is let out there again.

    Raises:
        CannotPart: the shares are none, or more than the whole.
    """

    line: str
    dart: float = 0.0
    seams: float = 0.0

    def __post_init__(self) -> None:
        # Written so that a share that is no number is refused too.
        if not (0 <= self.dart <= 1 and 0 <= self.seams <= 1 and self.dart + self.seams <= 1):
            raise CannotPart(
                f"at the {self.line} the dart would take {self.dart:.0%} and the panel seams "
                f"{self.seams:.0%}; each share lies between 0 and 1 and both together take at "
                "most the whole"
            )


@dataclass(frozen=True, kw_only=True)
class JoinPlan:
    """How two side panels are to be joined.

    Attributes:
        front: the front one.
        back: the back one.
        seam: the seam they are sewn in, which goes.
        name: the new piece's name.
        choices: where the gap goes at the lines she decided; elsewhere the waist's goes into
            the dart, other gaps stay as width, and overlaps are given back at the seams.
        waist: the line the dart is for.
        dart_point_mm: how far below the underarm the dart's point lies.
    """

    front: str = "side front"
    back: str = "side back"
    seam: str = "side"
    name: str = "side panel"
    choices: tuple[AtLine, ...] = ()
    waist: str = "waist line"
    dart_point_mm: float = DART_POINT_MM

    def at(self, line: str, gap_mm: float) -> AtLine:
        """Return where the gap at a line goes.

        Raises:
            CannotPart: an overlap would be lost, or a dart lies where none can.
        """
        for choice in self.choices:
            if choice.line == line:
                self._held(choice, gap_mm)
                return choice
        if gap_mm < 0:
            return AtLine(line=line, seams=1.0)
        return AtLine(line=line, dart=1.0 if line == self.waist else 0.0)

    def _held(self, choice: AtLine, gap_mm: float) -> None:
        if gap_mm < 0 and choice.seams < 1.0:
            raise CannotPart(
                f"at the {choice.line} the panels overlap by {-gap_mm:.1f} mm; left so, the "
                "garment would be that much smaller on each side: give it all back at the panel "
                "seams (a share of 1)"
            )
        if choice.dart and choice.line != self.waist:
            raise CannotPart(
                f"the dart on the join is a waist dart, so it cannot be taken at the "
                f"{choice.line}; leave the gap there as width or take it at the panel seams"
            )
