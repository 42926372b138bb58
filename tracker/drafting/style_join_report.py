"""What joining side panels did, in figures and in sentences for people."""

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LineJoined:
    """One line where the panels were joined; on one side of the body.

    Attributes:
        line: its name.
        gap_mm: what lay between the panels there; an overlap is negative.
        dart_mm: what the dart on the join takes out there.
        seams_mm: what the two panel seams take out there together; given back is negative.
    """

    line: str
    gap_mm: float
    dart_mm: float
    seams_mm: float

    @property
    def left_mm(self) -> float:
        """What is left as width."""
        return self.gap_mm - self.dart_mm - self.seams_mm


@dataclass(frozen=True)
class JoinReport:
    """The figures of one pair of joined panels.

    Attributes:
        side: the wearer's side, or both.
        copies: how often the joined panel is in the garment.
        panels: the panels' names, the front one first.
        turned_rad: how far each was turned; left positive, right side of the cloth up.
        sides_mm: the lengths of the edges that were joined.
        bottom: the name of the joined panel's lower edge.
        lines: the lines, from the top down.
        dart_point_mm: how far below the underarm the dart's point lies; none without a dart.
        dart_deg: the dart's angle.
        armhole_by_mm: how much longer truing made one armhole.
        armhole_moved_mm: the furthest it moved.
        armhole_bend_deg: the bend there was at the underarm.
    """

    side: str
    copies: int
    panels: tuple[str, str]
    turned_rad: tuple[float, float]
    sides_mm: tuple[float, float]
    bottom: str
    lines: tuple[LineJoined, ...]
    dart_point_mm: float | None
    dart_deg: float
    armhole_by_mm: float
    armhole_moved_mm: float
    armhole_bend_deg: float

    def at(self, line: str) -> LineJoined:
        """Return the figures at a line."""
        return next(x for x in self.lines if x.line == line)

    @property
    def sentences(self) -> tuple[str, ...]:
        """What was done, for people."""
        who = "" if self.side == "both" else f"{self.side}: "
        turns = " and ".join(
            f"the {name} {abs(math.degrees(turn)):.1f}°"
            for name, turn in zip(self.panels, self.turned_rad, strict=True)
        )
        told = [
            f"{who}{turns} turned about the underarm until the grain lines ran parallel",
            f"{who}at the underarm they meet: no gap",
        ]
        told += [f"{who}{self._line(line)}" for line in self.lines]
        if self.dart_point_mm is not None:
            told.append(
                f"{who}the dart on the join is plumb, {self.dart_deg:.1f}°, its point "
                f"{self.dart_point_mm:.0f} mm below the underarm"
            )
        told.append(
            f"{who}the armhole bent by {abs(self.armhole_bend_deg):.1f}° at the underarm and was "
            f"trued by at most {self.armhole_moved_mm:.1f} mm; "
            f"{'each' if self.copies > 1 else 'that'} armhole is {_by(self.armhole_by_mm)}"
        )
        return tuple(told)

    def _line(self, line: LineJoined) -> str:
        what = "gap" if line.gap_mm >= 0 else "overlap"
        size = abs(line.gap_mm)
        told = f"at the {line.line} the {what} is {size:.1f} mm"
        if self.copies > 1:
            told += f" a side, {size * self.copies:.1f} mm round the body"
        went = []
        if abs(line.dart_mm) >= 0.05:
            went.append(f"{line.dart_mm:.1f} mm into the dart")
        if line.seams_mm >= 0.05:
            went.append(f"{line.seams_mm:.1f} mm taken in at the two panel seams")
        if line.seams_mm <= -0.05:
            went.append(f"{-line.seams_mm:.1f} mm given back at the two panel seams")
        if abs(line.left_mm) >= 0.05:
            went.append(f"{line.left_mm:.1f} mm left as width")
        return told + (f": {', '.join(went)}" if went else "")


def joined_told(reports: Sequence[JoinReport]) -> tuple[str, ...]:
    """Say what was done on each side, and of two that differ what lay between all round."""
    told = [sentence for report in reports for sentence in report.sentences]
    if len(reports) > 1:
        for line in reports[0].lines:
            size = sum(r.at(line.line).gap_mm * r.copies for r in reports)
            what = "gap" if size >= 0 else "overlap"
            told.append(f"at the {line.line} the {what} is {abs(size):.1f} mm round the body")
    return tuple(told)


def _by(mm: float) -> str:
    if abs(mm) < 0.05:
        return "as long as before"
    return f"{abs(mm):.1f} mm {'longer' if mm > 0 else 'shorter'}"
