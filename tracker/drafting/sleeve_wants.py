"""What a set-in sleeve must meet: the arm's figures with their ease, and the armhole's."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tracker.body.body import Body
from tracker.body.ease import DEFAULT_SLEEVE_EASE, EasePlan
from tracker.body.estimate import SLEEVE_NEEDS
from tracker.body.measurement import BodySide
from tracker.body.vocabulary import BY_KEY, name_with_side
from tracker.errors import TrackerError


class ArmNotMeasured(TrackerError):
    """A sleeve is asked for of a body whose arm was not measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """One arm of the body, millimetres, without ease.

    Attributes:
        upper_arm_mm: round the fullest part of the upper arm.
        elbow_mm: round the bent elbow.
        wrist_mm: round the wrist.
        arm_length_mm: shoulder point over the elbow to the wrist bone.
        shoulder_to_elbow_mm: shoulder point to the elbow.
    """

    upper_arm_mm: float
    elbow_mm: float
    wrist_mm: float
    arm_length_mm: float
    shoulder_to_elbow_mm: float

    @classmethod
    def of(cls, body: Body, side: BodySide = "both") -> Arm:
        """Take an arm from a body: the right or left one, or the mean of both.

        Raises:
            ArmNotMeasured: something was neither measured nor estimated; all of it is named.
        """
        missing = [
            name_with_side(BY_KEY[key], side) for key in SLEEVE_NEEDS if not body.has(key, side)
        ]
        if missing:
            raise ArmNotMeasured(
                f"a sleeve needs {', '.join(missing)}; measure what is missing or ask for it to "
                f"be estimated with --estimate"
            )
        return cls(
            upper_arm_mm=body.value("upper-arm-girth", side),
            elbow_mm=body.value("elbow-girth", side),
            wrist_mm=body.value("wrist-girth", side),
            arm_length_mm=body.value("arm-length", side),
            shoulder_to_elbow_mm=body.value("shoulder-to-elbow", side),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveWants:
    """The finished figures of one sleeve, ease included, millimetres.

    Attributes:
        back_armhole_mm: the armhole from the underarm up the back to the shoulder.
        front_armhole_mm: from the shoulder down the front to the underarm.
        cap_ease_mm: how much longer the cap is than both together.
        upper_arm_mm: round the sleeve at the upper arm line.
        elbow_mm: at the elbow line.
        wrist_mm: at the wrist line.
        arm_length_mm: from the top of the cap down to the wrist.
        elbow_down_mm: from the top of the cap down to the elbow line.
        most_slant_deg: how much the underarm seam may slant.
    """

    back_armhole_mm: float
    front_armhole_mm: float
    cap_ease_mm: float
    upper_arm_mm: float
    elbow_mm: float
    wrist_mm: float
    arm_length_mm: float
    elbow_down_mm: float
    most_slant_deg: float = 24.0

    @property
    def armhole_mm(self) -> float:
        """The whole armhole."""
        return self.back_armhole_mm + self.front_armhole_mm

    def with_(self, **changed: float) -> SleeveWants:
        """Return these wants with some changed."""
        return replace(self, **changed)


def sleeve_wants(
    arm: Arm,
    back_armhole_mm: float,
    front_armhole_mm: float,
    ease: EasePlan = DEFAULT_SLEEVE_EASE,
) -> SleeveWants:
    """Return what a sleeve must meet.

    A planned ease in the length is shared out above and below the elbow as the arm is.
    """
    longer = (arm.arm_length_mm + ease.mm("arm-length")) / arm.arm_length_mm
    return SleeveWants(
        back_armhole_mm=back_armhole_mm,
        front_armhole_mm=front_armhole_mm,
        cap_ease_mm=ease.mm("sleeve-cap"),
        upper_arm_mm=arm.upper_arm_mm + ease.mm("upper-arm"),
        elbow_mm=arm.elbow_mm + ease.mm("elbow"),
        wrist_mm=arm.wrist_mm + ease.mm("wrist"),
        arm_length_mm=arm.arm_length_mm * longer,
        elbow_down_mm=arm.shoulder_to_elbow_mm * longer,
    )
