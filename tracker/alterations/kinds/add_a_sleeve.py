"""Add a sleeve: a set-in sleeve drafted to the armhole there is, and sewn into it."""

from dataclasses import dataclass, replace
from typing import Any, ClassVar

from tracker.alterations import examples
from tracker.alterations.bodyside import split_sides
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import on_paper
from tracker.body.ease import DEFAULT_SLEEVE_EASE, EasePlan
from tracker.drafting.sleeve import SleeveDraft, draft_sleeve
from tracker.drafting.sleeve_armhole import Armhole, armholes
from tracker.drafting.sleeve_pattern import NAME, sleeve_seams
from tracker.drafting.sleeve_underarm import cut_at_the_underarm
from tracker.drafting.sleeve_wants import Arm
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace
from tracker.units import write_tenths


@dataclass(frozen=True, kw_only=True)
class AddSleeve(Kind):
    """Draft a set-in sleeve to the bodice's armhole.

    One piece stands for both sleeves where both armholes are one drawing; where right and left
    differ, each armhole gets its own. Girths at the sleeve's lines are of the garment like every
    other: of both sleeves together; of one, when a body side is asked for.

    Attributes:
        upper_arm_mm: round the upper arm, the body's.
        elbow_mm: round the bent elbow.
        wrist_mm: round the wrist.
        arm_length_mm: shoulder point over the elbow to the wrist bone.
        shoulder_to_elbow_mm: shoulder point to the elbow.
        upper_arm_ease_mm: how much larger the sleeve is there.
        elbow_ease_mm: the same at the elbow.
        wrist_ease_mm: the same at the wrist.
        cap_ease_mm: how much longer the cap is than the armhole, eased in above the notches.
        length_ease_mm: how much longer the sleeve is than the arm.
        elbow_dart_mm: width of an elbow dart; nothing for a straight sleeve.
        side: both, or the wearer's right or left only, for arms that differ.
        estimated: names of the arm's measurements that were worked out, not taken.
    """

    word: ClassVar[str] = "add a sleeve"
    #: Rule 2 hollows and rounds a low cap less, which rule 1 drew flat on top.
    rule: ClassVar[int] = 2
    family: ClassVar[str] = "draft"
    help: ClassVar[str] = (
        "Draft a set-in sleeve from the arm's measurements: its cap is solved to the armhole plus "
        "the cap ease, which lies between the notches only, and it is notched and sewn in."
    )

    upper_arm_mm: float
    elbow_mm: float
    wrist_mm: float
    arm_length_mm: float
    shoulder_to_elbow_mm: float
    upper_arm_ease_mm: float = DEFAULT_SLEEVE_EASE.mm("upper-arm")
    elbow_ease_mm: float = DEFAULT_SLEEVE_EASE.mm("elbow")
    wrist_ease_mm: float = DEFAULT_SLEEVE_EASE.mm("wrist")
    cap_ease_mm: float = DEFAULT_SLEEVE_EASE.mm("sleeve-cap")
    length_ease_mm: float = DEFAULT_SLEEVE_EASE.mm("arm-length")
    elbow_dart_mm: float = 0.0
    side: BodySide = BodySide.BOTH
    estimated: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.side is BodySide.CENTRE:
            raise PatternError("a sleeve is for the right arm, the left arm or both")

    @classmethod
    def to_fit(
        cls, arm: Arm, ease: EasePlan = DEFAULT_SLEEVE_EASE, side: BodySide = BodySide.BOTH
    ) -> "AddSleeve":
        """Return the step for an arm and an ease plan."""
        return cls(
            upper_arm_mm=arm.upper_arm_mm,
            elbow_mm=arm.elbow_mm,
            wrist_mm=arm.wrist_mm,
            arm_length_mm=arm.arm_length_mm,
            shoulder_to_elbow_mm=arm.shoulder_to_elbow_mm,
            upper_arm_ease_mm=ease.mm("upper-arm"),
            elbow_ease_mm=ease.mm("elbow"),
            wrist_ease_mm=ease.mm("wrist"),
            cap_ease_mm=ease.mm("sleeve-cap"),
            length_ease_mm=ease.mm("arm-length"),
            side=side,
        )

    def parameters(self) -> dict[str, Any]:
        """Return the parameters as plain values; where nothing was estimated that is not said."""
        plain = super().parameters()
        return plain if self.estimated else {k: v for k, v in plain.items() if k != "estimated"}

    @property
    def arm(self) -> Arm:
        """The arm."""
        return Arm(
            upper_arm_mm=self.upper_arm_mm,
            elbow_mm=self.elbow_mm,
            wrist_mm=self.wrist_mm,
            arm_length_mm=self.arm_length_mm,
            shoulder_to_elbow_mm=self.shoulder_to_elbow_mm,
        )

    @property
    def ease(self) -> EasePlan:
        """The ease plan."""
        plan = DEFAULT_SLEEVE_EASE
        for line, mm in (
            ("upper-arm", self.upper_arm_ease_mm),
            ("elbow", self.elbow_ease_mm),
            ("wrist", self.wrist_ease_mm),
            ("sleeve-cap", self.cap_ease_mm),
            ("arm-length", self.length_ease_mm),
        ):
            if mm != plan.mm(line):
                plan = plan.with_line(line, mm)
        return plan

    @classmethod
    def example(cls) -> Example:
        """Sleeves for the bodice."""
        return Example(examples.bodice(), cls.to_fit(examples.arm()))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Set-in sleeves for an upper arm of 285 mm, …"."""
        del pattern
        who = (
            "Set-in sleeves"
            if self.side is BodySide.BOTH
            else f"Set-in sleeve on the wearer's {self.side} side only"
        )
        dart = f"; elbow dart {write_tenths(self.elbow_dart_mm)}" if self.elbow_dart_mm else ""
        return (
            f"{who} for an upper arm of {write_tenths(self.upper_arm_mm)}, "
            f"elbow {write_tenths(self.elbow_mm)}, wrist {write_tenths(self.wrist_mm)} and arm "
            f"length {write_tenths(self.arm_length_mm)}, with "
            f"{write_tenths(self.upper_arm_ease_mm)}, {write_tenths(self.elbow_ease_mm)} and "
            f"{write_tenths(self.wrist_ease_mm)} of ease round them; the cap "
            f"{write_tenths(self.cap_ease_mm)} longer than the armhole{dart}"
        )

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Draft a sleeve for each armhole meant and sew it in."""
        del step_id  # nothing that was there is moved
        before = pattern
        if not any(p.has_outline for p in pattern.pieces):
            return on_paper(before, self.sentence(before))
        cut = cut_at_the_underarm(pattern, BodySide.BOTH)
        pattern, trace = settled(cut.pattern), cut.trace
        found = armholes(pattern)
        if self.side is not BodySide.BOTH and found[0].side is BodySide.BOTH:
            split = split_sides(pattern, {run.piece for run in found[0].runs})
            pattern, trace = settled(split.pattern), trace.then(split.trace)
            found = armholes(pattern)
        pieces, seams, notes = list(pattern.pieces), list(pattern.seams), []
        for armhole in found:
            if self.side not in (BodySide.BOTH, armhole.side):
                continue
            there = (armhole.side, BodySide.BOTH)
            if any(
                p.name == NAME and (armhole.side is BodySide.BOTH or p.side in there)
                for p in pieces
            ):
                raise PatternError("this pattern has a sleeve there already")
            draft = draft_sleeve(armhole, self.arm, self.ease, self.elbow_dart_mm)
            piece = _on_side(draft.piece, armhole.side)
            pieces.append(piece)
            seams += sleeve_seams(piece, armhole, draft.eases)
            notes += _notes(draft, armhole)
            trace = trace.beside(_trace(piece))
        new = settled(replace(pattern, pieces=tuple(pieces), seams=tuple(seams)))
        notches = ("the cap is notched to the armhole: front single, back double, and its own "
                   "at the shoulder point",)  # fmt: skip
        effect = effect_between(before, new, notches=notches, notes=tuple(notes))
        return Applied(new, effect, trace)


def _on_side(piece: Piece, side: BodySide) -> Piece:
    """The right or the left one of a pair, or the piece that stands for both."""
    if side is BodySide.BOTH:
        return piece
    return split_sides(Pattern((piece,)), {piece.name}).pattern.piece(piece.name, side)


def _notes(draft: SleeveDraft, armhole: Armhole) -> list[str]:
    who = "" if armhole.side is BodySide.BOTH else f"{armhole.side} "
    back, front = draft.eases
    return [
        f"{who}armhole {write_tenths(armhole.length_mm)}, cap "
        f"{write_tenths(armhole.length_mm + back + front)}: {write_tenths(back)} eased in behind "
        f"and {write_tenths(front)} in front, between the notches and the shoulder, none "
        "below them",
        f"{who}cap height {write_tenths(draft.cap_height_mm)}, chosen",
    ]


def _trace(piece: Piece) -> Trace:
    fates = tuple(Fate(None, Stretch.whole(piece, edge)) for edge in piece.edges)
    new = [Renamed("piece", ("", ""), (piece.name, str(piece.side)))]
    for thing, names in (
        ("notch", [n.name for n in piece.notches]), ("level", [v.name for v in piece.levels]),
        ("dart", [d.name for d in piece.darts]),
    ):  # fmt: skip
        new += [Renamed(thing, ("", ""), (piece.name, name)) for name in names]
    new += [Renamed("seam", ("", ""), ("", name)) for name in ("armhole", "underarm")]
    return Trace(fates, tuple(new))
