"""What parting a piece on a line did, in figures and in sentences for people."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shut:
    """A dart closed into the line.

    Attributes:
        name: its name.
        moved_mm: how far its point was moved onto the line; positive made it longer.
        lost_rad: the angle it had there.
        gained_rad: how far the line turns there now.
        piece: the part it was on.
    """

    name: str
    moved_mm: float
    lost_rad: float
    gained_rad: float
    piece: str


@dataclass(frozen=True, slots=True)
class LeftOver:
    """A dart the line ran across that stays.

    Attributes:
        name: its name.
        width_mm: how wide it stands open at the new seam, and
        long_mm: how long it is from there to its pivot.
    """

    name: str
    width_mm: float
    long_mm: float


@dataclass(frozen=True)
class PartReport:
    """What parting a piece did.

    Attributes:
        seam: the new seam.
        parts: the two parts' names, the upper one first.
        sides_mm: the seam's two sides.
        shut: the darts closed into it.
        cut: the double-pointed darts it cut in two.
        down: the dart it runs down, if any.
        left: the darts with a mouth it ran across that stay.
    """

    seam: str
    parts: tuple[str, str]
    sides_mm: tuple[float, float]
    shut: tuple[Shut, ...]
    cut: tuple[str, ...]
    down: str = ""
    left: tuple[LeftOver, ...] = ()

    @property
    def sentences(self) -> tuple[str, ...]:
        """What was done, for people."""
        told = []
        for s in self.shut:
            moved = ""
            if abs(s.moved_mm) >= 0.05:
                way = "longer" if s.moved_mm > 0 else "shorter"
                moved = f", made {abs(s.moved_mm):.1f} mm {way} to end on the line,"
            told.append(
                f"the {s.name} of the {s.piece}{moved} was closed into the {self.seam} seam: "
                f"{math.degrees(s.lost_rad):.1f}° lost there, {math.degrees(s.gained_rad):.1f}° "
                "gained in the seam"
            )
        told += [
            f"the {name} was cut in two: a dart opens from the {self.seam} seam on either part"
            for name in self.cut
        ]
        told += [
            f"the {d.name} was cut across: sewn shut where its mouth was, it goes on from the "
            f"{self.seam} seam as a dart {d.width_mm:.1f} mm wide there and {d.long_mm:.0f} mm long"
            for d in self.left
        ]
        if self.down:
            told.append(f"the {self.down} went into the {self.seam} seam, one leg to each part")
        one, other = self.sides_mm
        told.append(f"{self.seam} seam: {self.parts[0]} {one:.1f}, {self.parts[1]} {other:.1f} mm")
        return tuple(told)


def leaving_told(leave: Sequence[str]) -> str:
    """Say which darts stay: "; the waist dart left across it"."""
    return f"; the {' and the '.join(leave)} left across it" if leave else ""


def lines_told(reports: Sequence[PartReport]) -> tuple[str, ...]:
    """Return what several partings did, said once."""
    return tuple(dict.fromkeys(itertools.chain.from_iterable(r.sentences for r in reports)))


__all__ = ["LeftOver", "PartReport", "Shut", "leaving_told", "lines_told"]
