"""What panelling a piece did, in figures and in sentences for people."""

import math
from dataclasses import dataclass

from tracker.drafting.style_leftover import Left, Leftover
from tracker.drafting.style_round import Bulge
from tracker.pattern.by_side import told_by_side
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace


@dataclass(frozen=True, slots=True)
class RoundedOver:
    """How rounding the corner moved one panel's line.

    Attributes:
        panel: its name.
        above: the greatest move above the corner; positive adds cloth.
        below: the greatest move below it.
        longer_mm: how much longer its seam edge became.
    """

    panel: str
    above: Bulge
    below: Bulge
    longer_mm: float


@dataclass(frozen=True)
class PanelReport:
    """The figures of one seam that parts a piece into two panels.

    Attributes:
        seam: its name.
        side: the wearer's side, or both.
        panels: the two panels' names, centre first.
        top: the edge the line starts from.
        corner: the point the seam is walked from, in words: "bust point".
        meets_deg: the angle at which it meets that edge.
        bow_mm: how far its upper part stands off the straight.
        dart: the dart whose legs became the panels' edges, if any.
        turned: the darts turned shut, each with its angle in radians.
        gained_rad: the angle the seam opened by at the pivot, above it, before rounding.
        parted_mm: the two sides' lengths before rounding, centre first.
        up_mm: the two sides from the corner up.
        down_mm: the two sides from the corner down.
        rounded: what the rounding did to each panel.
        copies: how often the drawn seam is in the garment.
        trimmed_mm: what was taken off the waist; and
        trimmed_from: from which panel.
        waist_deg: how far the waist was from smooth across the seam, before it was trued.
        waist_moved_mm: the furthest the waist moved when it was trued.
        closed_deg: the bend where the closed dart's mouth was; and
        closed_moved_mm: the furthest that edge moved when it was trued.
        areas_mm2: the piece's area, and the two panels' before rounding.
        foot: the edge the line ends on.
        left: what is left of the dart where the line passes beside its pivot, if it does.
        bowed_mm: how far each panel's edge is bowed at the waist, beside the dart's angle, to
            keep the waist.
    """

    seam: str
    side: str
    panels: tuple[str, str]
    top: str
    corner: str
    meets_deg: float
    bow_mm: float
    dart: str | None
    turned: tuple[tuple[str, float], ...]
    gained_rad: float
    parted_mm: tuple[float, float]
    up_mm: tuple[float, float]
    down_mm: tuple[float, float]
    rounded: tuple[RoundedOver, ...]
    copies: int
    trimmed_mm: float
    trimmed_from: str
    waist_deg: float
    waist_moved_mm: float
    closed_deg: float
    closed_moved_mm: float
    areas_mm2: tuple[float, float, float]
    foot: str = "waist"
    left: Left | None = None
    bowed_mm: float = 0.0

    @property
    def lost_rad(self) -> float:
        """The angle of the darts turned shut."""
        return sum(abs(angle) for _, angle in self.turned)

    @property
    def sides_mm(self) -> tuple[float, float]:
        """The seam's two sides as finished, centre first."""
        return self.up_mm[0] + self.down_mm[0], self.up_mm[1] + self.down_mm[1]

    @property
    def underbust_mm(self) -> float:
        """What the rounding adds to the garment's girth below the corner, where it is most."""
        return sum(r.below.mm for r in self.rounded) * self.copies

    @property
    def sentences(self) -> tuple[str, ...]:
        """What was done, for people."""
        centre, side = self.panels
        told = []
        if self.dart:
            told.append(f"the {self.dart} went into the {self.seam} seam, one leg to each panel")
        if self.left:
            told.append(self._left_told(self.left))
        if abs(self.bowed_mm) >= 0.05:
            toward = "in" if self.bowed_mm > 0 else "out"
            told.append(
                f"below the {self.corner} each panel's edge is bowed {toward} by "
                f"{abs(self.bowed_mm):.1f} mm at the waist, which keeps the waist as it was"
            )
        for name, angle in () if self.left else self.turned:
            told.append(
                f"the {name} was turned shut: {abs(math.degrees(angle)):.1f}° lost there, "
                f"{math.degrees(self.gained_rad):.1f}° gained in the seam"
            )
        if self.closed_moved_mm >= 0.05:
            told.append(
                f"the edge bent by {abs(self.closed_deg):.1f}° where that dart was and was trued "
                f"by at most {self.closed_moved_mm:.1f} mm"
            )
        for r in self.rounded:
            if max(abs(r.above.mm), abs(r.below.mm)) >= 0.005:
                told.append(
                    f"rounding moved the {r.panel}'s line by {_signed(r.above.mm)} mm above and "
                    f"{_signed(r.below.mm)} mm below the {self.corner} and made it "
                    f"{_signed(r.longer_mm)} mm longer"
                )
        if abs(self.underbust_mm) >= 0.05:
            below = max((r.below for r in self.rounded), key=lambda b: abs(b.mm))
            told.append(
                f"{below.at_mm:.0f} mm below the {self.corner} the garment is "
                f"{_signed(self.underbust_mm)} mm round; at the {self.corner} nothing changed"
            )
        if self.trimmed_mm:
            told.append(
                f"walked from the {self.corner}: {self.trimmed_mm:.2f} mm came off the "
                f"{self.trimmed_from} at the {self.foot}"
            )
        if self.waist_moved_mm:
            told.append(
                f"the {self.foot} met at {180 + self.waist_deg:.1f}° across the seam and was "
                f"trued by at most {self.waist_moved_mm:.2f} mm"
            )
        one, other = self.sides_mm
        told.append(f"{self.seam} seam: {centre} {one:.1f}, {side} {other:.1f} mm")
        return tuple(told)

    def _left_told(self, left: Left) -> str:
        holds = self.panels[0 if left.on_centre else 1]
        begin = (
            f"the {left.name} was turned into the {self.seam} line, {left.beside_mm:.0f} mm beside "
            f"the bust point: of its {math.degrees(left.angle_rad):.1f}° "
            f"{math.degrees(self.gained_rad):.1f}° are left there on the {holds}, "
            f"{left.mouth_mm:.1f} mm at the line"
        )
        if left.choice == Leftover.EASE:
            return f"{begin}, eased in between the notches above and below the bust line"
        return f"{begin}, sewn as a dart {left.beside_mm:.0f} mm long"


def _signed(mm: float) -> str:
    return f"{mm + 0.0:+.2f}" if abs(mm) >= 0.005 else "0"


@dataclass(frozen=True)
class Styled:
    """A pattern after a style step.

    Attributes:
        pattern: the new pattern, settled to the store's rounding.
        trace: what became of the material.
        reports: the figures, one for each piece that was parted.
    """

    pattern: Pattern
    trace: Trace
    reports: tuple[PanelReport, ...]

    @property
    def sentences(self) -> tuple[str, ...]:
        """What was done, for people."""
        return told_by_side((r.side, s) for r in self.reports for s in r.sentences)
