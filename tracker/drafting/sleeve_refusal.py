"""Why a sleeve cannot be drafted: the measurements in conflict, and what would do."""

from __future__ import annotations

from tracker.body.body import Body
from tracker.body.plausible import contradictions
from tracker.body.vocabulary import measurement
from tracker.drafting.sleeve_solve import SleeveSolution, solve_sleeve
from tracker.drafting.sleeve_wants import Arm, SleeveWants
from tracker.errors import TrackerError
from tracker.units import write_both

HALVINGS = 7


class SleeveCannotBeMet(TrackerError):
    """No sleeve meets this arm and this armhole.

    Attributes:
        keys: the measurements in conflict; "armhole" is the pattern's.
    """

    def __init__(self, sentence: str, keys: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.keys = keys


_FIELDS = {
    "upper_arm_mm": "upper-arm-girth",
    "elbow_mm": "elbow-girth",
    "wrist_mm": "wrist-girth",
    "arm_length_mm": "arm-length",
    "shoulder_to_elbow_mm": "shoulder-to-elbow",
}


def refuse_arm(arm: Arm, wants: SleeveWants) -> None:
    """Refuse an arm whose own measurements contradict each other.

    Raises:
        SleeveCannotBeMet: the sentence names them.
    """
    for field in _FIELDS:
        if not getattr(arm, field) > 0:
            raise SleeveCannotBeMet(
                f"{_FIELDS[field].replace('-', ' ')} cannot be {getattr(arm, field):g} mm; give a "
                "length greater than nothing",
                (_FIELDS[field],),
            )
    body = Body.of({key: getattr(arm, field) for field, key in _FIELDS.items()})
    for finding in contradictions(body):
        raise SleeveCannotBeMet(
            f"{finding.sentence}; {finding.remedy}",
            tuple(measurement(name).key for name in finding.place.split("; ")),
        )
    for field in ("upper_arm_mm", "elbow_mm", "wrist_mm"):
        if getattr(wants, field) <= 0:
            raise SleeveCannotBeMet(
                f"the sleeve would have nothing round the {field.split('_mm')[0].replace('_', ' ')}"
                "; plan more ease there",
                (_FIELDS[field],),
            )
    below = wants.arm_length_mm - wants.elbow_down_mm
    if below < 60:
        raise SleeveCannotBeMet(
            f"shoulder point to elbow, {write_both(arm.shoulder_to_elbow_mm)}, leaves no forearm "
            f"of an arm length of {write_both(arm.arm_length_mm)}; measure both again",
            ("shoulder-to-elbow", "arm-length"),
        )


def sleeve_refusal(arm: Arm, failed: SleeveSolution) -> SleeveCannotBeMet:
    """Return the refusal of a sleeve that could not be solved."""
    w = failed.wants
    slants = [p.name for p in failed.broken() if p.name.startswith("slant")]
    cap = [p.name for p in failed.broken() if not p.name.startswith("slant")]
    if slants and not cap and failed.miss < 1.0:
        pair = (
            ("elbow", "wrist", arm.elbow_mm, arm.wrist_mm)
            if slants[-1].endswith("wrist")
            else ("upper arm", "elbow", arm.upper_arm_mm, arm.elbow_mm)
        )
        return SleeveCannotBeMet(
            f"{pair[0]} girth {write_both(pair[2])} and {pair[1]} girth {write_both(pair[3])} do "
            f"not go together in one sleeve: its underarm seam would slant more than "
            f"{w.most_slant_deg:g} degrees; measure both again, or plan other ease at one of them",
            (f"{pair[0].replace(' ', '-')}-girth", f"{pair[1]}-girth"),
        )
    wide = w.upper_arm_mm > _middling(w)
    good = _nearest(w, wide)
    if wide:
        would = (
            f"; at most {write_both(good - (w.upper_arm_mm - arm.upper_arm_mm))} round the upper "
            f"arm with the ease planned, or {write_both(good)} of sleeve, can be set into it: "
            "measure the upper arm again, enlarge or deepen the armhole, or plan more cap ease or "
            "less upper arm ease"
            if good is not None
            else "; measure the upper arm again, and check the armhole"
        )
        text = (
            f"upper arm girth {write_both(arm.upper_arm_mm)}, which makes a sleeve of "
            f"{write_both(w.upper_arm_mm)}, is too large for an armhole of "
            f"{write_both(w.armhole_mm)} with {write_both(w.cap_ease_mm)} of cap ease: hardly any "
            f"cap would be left{would}"
        )
    else:
        would = (
            f"; from {write_both(good - (w.upper_arm_mm - arm.upper_arm_mm))} round the upper arm "
            "on with the ease planned a cap can be drawn: measure the upper arm again, plan more "
            "ease there, or make the armhole smaller"
            if good is not None
            else "; measure the upper arm again, and check the armhole"
        )
        text = (
            f"upper arm girth {write_both(arm.upper_arm_mm)}, which makes a sleeve of "
            f"{write_both(w.upper_arm_mm)}, is too small for an armhole of "
            f"{write_both(w.armhole_mm)}: the cap would have to be nearly half as "
            f"high as it is long{would}"
        )
    return SleeveCannotBeMet(text, ("upper-arm-girth", "armhole"))


def _middling(w: SleeveWants) -> float:
    """A sleeve width that any armhole of this length takes."""
    return 0.78 * w.armhole_mm


def _nearest(w: SleeveWants, wide: bool) -> float | None:
    """The width nearest to the wanted one that can be solved, the other widths in proportion."""

    def does(width: float) -> bool:
        share = width / w.upper_arm_mm
        return solve_sleeve(
            w.with_(upper_arm_mm=width, elbow_mm=w.elbow_mm * share, wrist_mm=w.wrist_mm * share),
            roughly=True,
        ).is_met

    good, bad = _middling(w), w.upper_arm_mm
    if not does(good):
        return None
    for _ in range(HALVINGS):
        middle = (good + bad) / 2.0
        if does(middle):
            good = middle
        else:
            bad = middle
    # Rounded to the safe side.
    return good // 1.0 if wide else -(-good // 1.0)
