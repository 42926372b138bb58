"""A set-in sleeve drafted from an arm and an armhole: solved, measured again, accounted for.

The cap is solved to the armhole of the bodice it is set into, plus the planned cap ease; what arm
and armhole leave free is fixed by written preferences (``sleeve_solve``) and printed as chosen.
The construction is our own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tracker.body.ease import DEFAULT_SLEEVE_EASE, EasePlan
from tracker.drafting.bodice_measured import Row
from tracker.drafting.sleeve_armhole import Armhole
from tracker.drafting.sleeve_elbow import Bend, down_the_arm, with_elbow_dart
from tracker.drafting.sleeve_pattern import (
    BACK_POINT,
    BACK_UNDERARM,
    BACK_WRIST,
    CAP,
    ELBOW_LINE,
    FRONT_POINT,
    FRONT_UNDERARM,
    FRONT_WRIST,
    SHOULDER_NOTCH,
    UPPER_ARM_LINE,
    WRIST_LINE,
    cap_notch_name,
    sleeve_piece,
)
from tracker.drafting.sleeve_refusal import refuse_arm, sleeve_refusal
from tracker.drafting.sleeve_solve import SleeveSolution, solve_sleeve
from tracker.drafting.sleeve_wants import Arm, SleeveWants, sleeve_wants
from tracker.pattern.canonical import settled
from tracker.pattern.checks import folded_kink_deg
from tracker.pattern.measure import corner_angle, level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

MOST_SLANT_DEG = 28.0
"""The underarm seam slants up to this where no sleeve can be drawn without; common practice, no
source."""

__all__ = ["Arm", "Armhole", "SleeveDraft", "draft_sleeve"]


@dataclass(frozen=True, slots=True)
class SleeveDraft:
    """A drafted sleeve and its account.

    Attributes:
        piece: the sleeve as the wearer's right one, rounded as it is stored.
        table: wanted figures with what was got, chosen ones with what was preferred.
        eases: the cap ease behind and in front, mm.
        armhole: what it is set into.
        wants: the finished figures.
        bend: how the forearm is swung for the elbow dart; by nothing without one.
    """

    piece: Piece
    table: tuple[Row, ...]
    eases: tuple[float, float]
    armhole: Armhole
    wants: SleeveWants
    bend: Bend

    @property
    def wanted(self) -> tuple[Row, ...]:
        """The figures that had to be met."""
        return tuple(row for row in self.table if row.kind == "wanted")

    @property
    def chosen(self) -> tuple[Row, ...]:
        """The free figures, each with what was preferred for it."""
        return tuple(row for row in self.table if row.kind == "chosen")

    @property
    def cap_height_mm(self) -> float:
        """From the upper arm line to the top of the cap."""
        return next(row.got or 0.0 for row in self.chosen if row.name == "cap height")

    @property
    def worst_miss(self) -> float:
        """The largest miss of a wanted figure, mm or degrees."""
        return max(abs(row.miss) for row in self.wanted)


def draft_sleeve(
    armhole: Armhole,
    arm: Arm,
    ease: EasePlan = DEFAULT_SLEEVE_EASE,
    elbow_dart_mm: float = 0.0,
) -> SleeveDraft:
    """Draft a one-piece set-in sleeve.

    Args:
        armhole: the armhole, from ``sleeve_armhole.armholes``.
        arm: the arm.
        ease: lines "upper-arm", "elbow", "wrist", "sleeve-cap" and "arm-length".
        elbow_dart_mm: width of an elbow dart in the back seam; nothing for a straight sleeve.

    Raises:
        SleeveCannotBeMet: arm and armhole do not go together; the sentence names what does not.
        NoElbowDart: no elbow dart is so wide.
    """
    _ = armhole.back_notch, armhole.front_notch  # both have to be there
    wants = sleeve_wants(arm, armhole.back_mm, armhole.front_mm, ease)
    refuse_arm(arm, wants)
    bend = Bend.of(elbow_dart_mm, wants.elbow_mm)
    solution = solve_sleeve(wants)
    if not solution.is_met:  # a full upper arm over a slender elbow
        wants = wants.with_(most_slant_deg=MOST_SLANT_DEG)
        solution = solve_sleeve(wants)
    if elbow_dart_mm and solution.is_met:
        # The wedge at the elbow lengthens the way down the arm; that much less is drawn.
        for _round in range(2):
            front = bend.straight_mm / 2.0 + float(solution.shapes.middle[0])
            shorter = wants.arm_length_mm - bend.gap_mm(front)
            solution = solve_sleeve(wants.with_(elbow_mm=bend.straight_mm, arm_length_mm=shorter))
    if not solution.is_met:
        raise sleeve_refusal(arm, solution)
    piece = sleeve_piece(solution.shapes, solution.wants, armhole)
    if elbow_dart_mm:
        piece = with_elbow_dart(piece, bend)
    piece = settled(Pattern((piece,))).pieces[0]
    share = round(float(solution.shapes.front_share[0]), 9)
    eases = (wants.cap_ease_mm * (1.0 - share), wants.cap_ease_mm * share)
    table = (*_wanted(piece, armhole, wants, eases, bend), *_chosen(solution))
    return SleeveDraft(piece, table, eases, armhole, wants, bend)


def _wanted(
    piece: Piece, armhole: Armhole, w: SleeveWants, eases: tuple[float, float], bend: Bend
) -> Iterator[Row]:
    """Measure every wanted figure on the piece itself; all are of one sleeve."""
    cap = piece.edge(CAP)
    top = piece.notch(SHOULDER_NOTCH).distance_mm
    back, front = (
        piece.notch(cap_notch_name(n.name)).distance_mm
        for n in (armhole.back_notch, armhole.front_notch)
    )
    yield _met("cap", w.armhole_mm + w.cap_ease_mm, cap.length, "the armhole and the cap ease")
    yield _met("cap, back", w.back_armhole_mm + eases[0], top, "with its share of the ease")
    yield _met(
        "cap, front", w.front_armhole_mm + eases[1], cap.length - top, "with its share of the ease"
    )
    for name, got, there in (
        ("back", back, armhole.back_notch.at_mm),
        ("front", front, armhole.length_mm - armhole.front_notch.at_mm),
    ):
        yield _met(f"underarm to {name} notch", there, got, "as the armhole's: nothing eased there")
    for name, wanted, line in (
        ("upper arm", w.upper_arm_mm, UPPER_ARM_LINE),
        ("elbow", w.elbow_mm, ELBOW_LINE),
        ("wrist", w.wrist_mm, WRIST_LINE),
    ):
        yield _met(name, wanted, level_length(piece, piece.level(line)), "with ease")
    peak = cap.point_at(cap.length - top)
    yield _met(
        "arm length", w.arm_length_mm, down_the_arm(piece, peak, bend),
        "from the top of the cap over the elbow",
    )  # fmt: skip
    elbow = piece.level(ELBOW_LINE).strokes[0][0].imag
    yield _met("shoulder point to elbow", w.elbow_down_mm, peak.imag - elbow)
    seam = piece.edge(FRONT_UNDERARM)
    yield _met(
        "underarm seam, front", piece.edge(BACK_UNDERARM).length, seam.length,
        "equal to the back's, an elbow dart folded",
    )  # fmt: skip
    other = piece.edge(BACK_UNDERARM)
    for name, front_end, back_end in (("cap", FRONT_POINT, BACK_POINT),
                                      ("wrist", FRONT_WRIST, BACK_WRIST)):  # fmt: skip
        total = corner_angle(piece, seam, seam.end == front_end) + corner_angle(
            piece, other, other.end == back_end
        )
        yield _met(f"{name} through the underarm seam", 180.0, total, "a smooth line", "°")
    for dart in piece.darts:
        kink = folded_kink_deg(piece, dart.name)
        yield _met(f"back seam over the folded {dart.name}", 180.0, 180.0 + kink, "smooth", "°")
    yield _met("cap level at its top", 0.0, cap_slope_deg(piece), "no peak", "°")


def cap_slope_deg(piece: Piece) -> float:
    """Return how far from level the cap runs at its shoulder notch, degrees."""
    cap = piece.edge(CAP)
    heading = cap.heading_at(cap.length - piece.notch(SHOULDER_NOTCH).distance_mm)
    return float(np.degrees(np.arctan2(heading.imag, abs(heading.real))))


def _chosen(solution: SleeveSolution) -> Iterator[Row]:
    for p in solution.preferences():
        if p.spoken:
            got, target, low, high = (
                round(float(np.ravel(v)[0]), 3) for v in (p.got, p.target, p.low, p.high)
            )
            yield Row(
                kind="chosen", name=p.name, wanted=target, got=got, unit=p.unit,
                low=low, high=high, note=p.source,
            )  # fmt: skip


def _met(name: str, wanted: float, got: float, note: str = "", unit: str = "mm") -> Row:
    return Row(kind="wanted", name=name, wanted=wanted, got=got, unit=unit, note=note)
