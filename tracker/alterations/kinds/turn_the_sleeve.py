"""Turn a sleeve in its armhole, forward or back."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.set_in import SetIn, set_in
from tracker.alterations.sleeve_moved import to_nothing
from tracker.alterations.sleeve_seam import MEETS_MM, behind_mm, turned
from tracker.alterations.sleeves import parted_sleeves, sleeves_meant, undrawn, who
from tracker.alterations.told import applied, mm, on_paper
from tracker.pattern.bodyside import BodySide
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.walk import notch_on_edge

#: A cap notch stays this far from the underarm.
_LEAST_MM = 15.0
#: How far a sleeve's seam may lie from the side seam unnoticed; common practice, no source.
USUAL_MM = 15.0


class Pitch(StrEnum):
    """Which way the sleeve hangs then."""

    FORWARD = "forward"
    BACK = "back"


@dataclass(frozen=True, kw_only=True)
class TurnSleeve(Kind):
    """Set a sleeve into its armhole turned a little: its pitch.

    The sleeve is drawn as it was. All its cap notches move together along the cap, to the back
    for a sleeve that is to hang further forward; the armhole's stay.

    Attributes:
        to: forward or back.
        by_mm: how far along the cap.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "turn the sleeve"
    help: ClassVar[str] = (
        "Turn a sleeve in its armhole so that it hangs further forward or back (its pitch): all "
        "cap notches, the shoulder's too, move together along the cap; the cap and its ease stay."
    )
    amounts_in: ClassVar[tuple[str, ...]] = ("by_mm",)

    to: Pitch
    by_mm: float
    side: BodySide = BodySide.BOTH

    def __post_init__(self) -> None:
        if self.by_mm == 0:
            raise PatternError("by how much? Give how far the cap notches move along the cap")

    @classmethod
    def example(cls) -> Example:
        """An arm that hangs further forward than its sleeve, which drags across the front."""
        return Example(examples.sleeved(), cls(to=Pitch.FORWARD, by_mm=10.0))

    @property
    def _forward(self) -> float:
        return self.by_mm if self.to == Pitch.FORWARD else -self.by_mm

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Sleeves turned 10 mm forward: all cap notches 10 mm towards the back …"."""
        undrawn(pattern, self.side)
        way, to = ("forward", "back") if self._forward > 0 else ("back", "front")
        amount = mm(abs(self.by_mm))
        return (
            f"{who(self.side)} turned {amount} {way} in the armhole: all cap notches, the "
            f"shoulder's too, {amount} along the cap towards the {to}; cap and cap ease as they "
            "were"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Move the notches, and tell the seam that its undersides are turned."""
        del step_id  # a notch carries no displacement
        if undrawn(pattern, self.side):
            return on_paper(pattern, self.sentence(pattern))
        split = parted_sleeves(pattern, self.side)
        new = split.pattern
        moved: list[str] = []
        for sleeve in sleeves_meant(split.pattern, self.side):
            piece = self._turned(split.pattern, sleeve, moved)
            new = new.with_pieces(piece)
        seams = {}
        leaves: dict[str, None] = {}
        for sleeve in set_in(split.pattern, self.side):
            seam = self._told_to(split.pattern, sleeve)
            seams[seam.key] = seam
            leaves[_seam_off(sleeve, behind_mm(seam, sleeve))] = None
        new = replace(new, seams=tuple(seams.get(s.key, s) for s in new.seams))
        return applied(pattern, new, split.trace, notches=moved, leaves=leaves)

    def _turned(self, pattern: Pattern, sleeve: SetIn, told: list[str]) -> Piece:
        # Towards the cap's end where the cap begins at the front and the sleeve goes forward.
        on = self._forward if sleeve.start_is_front else -self._forward
        piece, cap = sleeve.piece, sleeve.cap
        names = [name for name, _ in sleeve.notches(pattern)]
        if not names:
            raise PatternError(
                f"the cap of the {piece.label} has no notches that meet the armhole's, so nothing "
                "says how it is turned; add them first"
            )
        for notch in sleeve.piece.notches:
            if (notch.edge, notch.side) != cap.key or notch.name not in names:
                continue
            at = notch_on_edge(cap, notch) + on
            if not _LEAST_MM <= at <= cap.length - _LEAST_MM:
                raise PatternError(
                    f"the {notch.name} of the {piece.label} would stand within {_LEAST_MM:.0f} mm "
                    f"of the underarm, or past it"
                )
            distance = at if notch.corner == cap.start else cap.length - at
            piece = piece.with_notch(replace(notch, distance_mm=distance))
            way = f"along the cap towards the {'back' if self._forward > 0 else 'front'}"
            told.append(f"{notch.name} of the {piece.label} {mm(abs(self.by_mm))} {way}")
        return piece

    def _told_to(self, pattern: Pattern, sleeve: SetIn) -> Seam:
        """The armhole seam with what is turned to one side of the underarm and off the other."""
        seam = sleeve.seam
        names = [name for name, _ in sleeve.notches(pattern)]
        on = self._forward if sleeve.start_is_front else -self._forward
        return turned(seam, sleeve, names, on, -on)


def _seam_off(sleeve: SetIn, behind: float) -> str:
    label = sleeve.piece.label
    if abs(behind) < MEETS_MM:
        return f"the underarm seam of the {label} meets the side seam again"
    way = "behind" if behind > 0 else "in front of"
    much = "" if abs(behind) <= USUAL_MM else f", more than the {USUAL_MM:.0f} mm that goes unseen"
    front, back = (
        (sleeve.begins, sleeve.ends) if sleeve.start_is_front else (sleeve.ends, sleeve.begins)
    )
    to = front if behind > 0 else back
    first = sleeve.under.first[0]
    begins = first.edge == sleeve.begins.name
    corner = sleeve.cap.start if begins else sleeve.cap.end
    try:
        down = f"to nothing {mm(round(to_nothing(sleeve, None)[0 if begins else 1]))} below it"
    except PatternError:
        down = "to nothing at the elbow"
    return (
        f"the underarm seam of the {label} lies {mm(abs(behind))} {way} the side seam when it is "
        f"sewn in{much}; leave it there, nothing is eased below the notches, or bring it back to "
        f"the side seam: shift the {sleeve.under.name} seam {mm(abs(behind))} towards the "
        f"{to.name} at the {corner}, {down}"
    )


__all__ = ["Pitch", "TurnSleeve"]
