"""What is asked for when a pattern is printed at full scale."""

from dataclasses import dataclass

from tracker.errors import TrackerError
from tracker.output.allowance import Allowances
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import MM_PER_INCH, Unit

#: What every print says.
CAUTION = (
    "Check the test square before cutting cloth. "
    "A pattern is a starting point for a fitting, not a promise."
)
#: A printer that is further out than this is set wrong, not inexact.
WORST_PRINT = (80.0, 125.0)


class CannotPrint(TrackerError):
    """A print that would not be right."""


class NotACorrection(TrackerError):
    """A measured test square that no printer makes."""

    exit_code = 2


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper for tiled prints.

    Attributes:
        name: "A4" …
        width_mm: across.
        height_mm: up.
        cell_mm: width and height of what each sheet shows once, within its frame.
    """

    name: str
    width_mm: float
    height_mm: float
    cell_mm: tuple[float, float]


#: ISO 216 A4; the frame leaves 10 mm of overlap all round and 10 mm no printer can reach.
A4 = Paper("A4", 210.0, 297.0, (170.0, 250.0))
#: 8 1/2 by 11 in.
LETTER = Paper("Letter", 8.5 * MM_PER_INCH, 11 * MM_PER_INCH, (175.0, 230.0))
PAPERS = {paper.name: paper for paper in (A4, LETTER)}


@dataclass(frozen=True, slots=True)
class PrintOrder:
    """A version to be printed.

    Attributes:
        pattern: the pattern.
        client_code: the code that stands for the client; never the name unless she asked.
        address: "bodice@3".
        standing: the version's standing in words, "for a test garment".
        day: the date in words.
        unit: the maker's unit: it decides the usual allowance and how lengths are written.
        allowances: the allowances, when not the usual ones.
        test_garment: wider seams, and the bust, waist and hip lines drawn.
        estimated: names of the measurements that were estimated, not taken.
        estimated_of: (piece, names) of those that only this piece depends on: a sleeve's arm.
        kept_back: pieces kept from printing because they are out of date.
        printed_square_mm: what the 100 mm test square of an earlier print measured, across and
            up; everything is then drawn larger or smaller to make up for the printer.
        roll_mm: the width of the paper roll, for one large sheet.

    Raises:
        NotACorrection: the square measured under 80 or over 125 mm.
    """

    pattern: Pattern
    client_code: str
    address: str
    standing: str
    day: str
    unit: Unit = Unit.CM
    allowances: Allowances | None = None
    test_garment: bool = False
    estimated: tuple[str, ...] = ()
    estimated_of: tuple[tuple[str, tuple[str, ...]], ...] = ()
    kept_back: tuple[str, ...] = ()
    printed_square_mm: tuple[float, float] = (100.0, 100.0)
    roll_mm: float | None = None

    def __post_init__(self) -> None:
        for measured in self.printed_square_mm:
            if not WORST_PRINT[0] <= measured <= WORST_PRINT[1]:
                raise NotACorrection(
                    f"a 100 mm test square that measures {measured:g} mm was not printed at "
                    "full scale; print at 100 %, without fitting to the page, and measure again"
                )

    def estimated_for(self, piece: Piece) -> tuple[str, ...]:
        """Return the names of the estimated measurements a piece depends on."""
        own = [n for name, names in self.estimated_of if name == piece.name for n in names]
        traced = piece.traced.seen if piece.traced else ()
        parents = dict.fromkeys(s.piece for s in traced)
        own += [n for name, names in self.estimated_of if name in parents for n in names]
        return tuple(dict.fromkeys((*self.estimated, *own)))

    @property
    def all_estimated(self) -> tuple[str, ...]:
        """Names of the estimated measurements any piece depends on."""
        of_pieces = [n for _, names in self.estimated_of for n in names]
        return tuple(dict.fromkeys((*self.estimated, *of_pieces)))

    @property
    def added(self) -> Allowances:
        """The allowances to use."""
        if self.allowances is not None:
            return self.allowances
        return Allowances.by_preference(self.unit, test_garment=self.test_garment)

    @property
    def scale(self) -> tuple[float, float]:
        """Paper millimetres per millimetre, across and up."""
        across, up = self.printed_square_mm
        return 100.0 / across, 100.0 / up
