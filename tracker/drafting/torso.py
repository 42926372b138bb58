"""A torso block drafted from a body: a bodice that goes on to the hip, its waist darts two-pointed.

Above the waist it is the bodice block, met in every figure; below, hip girth and hip depth are
met, and the waist darts run on to a second point. There is no waist seam: the waist is a line on
the cloth.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tracker.body.body import Body, BodyRecordUnreadable, reading_record
from tracker.body.ease import EasePlan
from tracker.body.ease_tables import ease_table
from tracker.drafting.account import Account, estimated_rows
from tracker.drafting.bodice import RULE as BODICE_RULE
from tracker.drafting.bodice import Draft, draft_bodice
from tracker.drafting.bodice_measured import Row
from tracker.drafting.bodice_preference import PRACTICE
from tracker.drafting.bodice_wants import EASY_NECK_RULE, BodiceChoices, MeasurementsMissing
from tracker.drafting.conflict import BodyCannotBeMet
from tracker.drafting.skirt_conflict import refusal_of, refuse_contradictions_among
from tracker.drafting.torso_measured import torso_rows
from tracker.drafting.torso_pattern import below_the_waist, torso_pattern
from tracker.drafting.torso_shape import LEAST_SIDE_MM, MOST_SIDE_MM, SideSeam
from tracker.drafting.torso_wants import (
    TO_ESTIMATE,
    NotATorso,
    TorsoChoices,
    TorsoWants,
    missing_from,
    torso_wants,
)
from tracker.units import write_tenths

KIND = "draft torso"
FORMAT = 1
#: As the bodice's: the part above the waist is one.
RULE = BODICE_RULE
TORSO_EASE = ease_table("torso")

LESS_DART = (0.7, 0.45, 0.25)
"""The shares of their usual intake waist darts are tried with on a straight figure."""

HIPS = ("hip-girth", "hip-depth", "hip-arc-front", "hip-arc-back", "waist-girth")

__all__ = [
    "TORSO_EASE",
    "TO_ESTIMATE",
    "BodyCannotBeMet",
    "MeasurementsMissing",
    "NotATorso",
    "TorsoChoices",
    "TorsoDraft",
    "draft_torso",
    "missing_from",
    "torso_from_record",
]


@dataclass(frozen=True)
class TorsoDraft(Account):
    """A drafted torso block and its account.

    Attributes:
        choices: what the maker decided.
        bodice: the bodice it was taken from.
        rule: the revision of the arithmetic.
    """

    choices: TorsoChoices
    bodice: Draft
    rule: int = RULE

    @property
    def used(self) -> tuple[str, ...]:
        """The keys of the measurements it was drafted from."""
        return _used(self.bodice)

    def sentence(self) -> str:
        """Say what was drafted, for people."""
        guessed = ", partly estimated" if self.body.estimates else ""
        girths = ", ".join(
            f"{line} {write_tenths(self.body.value(f'{line}-girth'))}" for line in ("bust", "waist")
        )
        ease = ", ".join(
            f"{write_tenths(self.ease.mm(line))} at the {line}" for line in ("bust", "waist", "hip")
        )
        darts = ", ".join(
            f"{piece.name} {dart.name} {write_tenths(dart.intake_mm)}"
            for piece in self.pattern.pieces
            for dart in piece.darts
        )
        return (
            f"Torso block drafted to the hip from {girths} and hip "
            f"{write_tenths(self.body.value('hip-girth'))}{guessed}, with ease of {ease}: {darts}."
        )

    def to_record(self) -> dict[str, Any]:
        """Return its recipe as plain values, to be stored beside the geometry."""
        return self.recipe(KIND, FORMAT, self.rule, self.choices.to_record())


def draft_torso(
    body: Body,
    ease: EasePlan = TORSO_EASE,
    choices: TorsoChoices | None = None,
    rule: int = RULE,
) -> TorsoDraft:
    """Draft a torso block: a bodice to the hip.

    Args:
        body: the body, with all that ``missing_from`` asks for.
        ease: how much larger the garment is than the body, line by line; a bodice's plan, of
            which the hip counts here too.
        choices: what the maker decides.
        rule: the revision of the arithmetic; an older one drafts an old recipe again.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        NotATorso: a dart asked for cannot be.
        BodyCannotBeMet: measurements contradict each other; the sentence names them.
    """
    choices = TorsoChoices() if choices is None else choices
    wants = torso_wants(body, ease, choices)
    refuse_contradictions_among(body, HIPS, "torso block")
    bodice = draft_bodice(body, ease, choices.bodice, rule)
    seams = below_the_waist(bodice.pattern, wants)
    if not _is_met(seams) and rule >= EASY_NECK_RULE:
        bodice, seams = _for_a_straight_figure(bodice, wants, seams)
    if not _is_met(seams):
        raise refusal_of(
            body,
            ("hip-girth",),
            choices.bodice.body_side,
            "torso block",
            lambda other, _: _is_met(
                below_the_waist(bodice.pattern, torso_wants(other, ease, choices))
            ),
            ("hip-girth", "waist-girth"),
        )
    pattern = torso_pattern(bodice.pattern, wants, ease)
    table = (
        *torso_rows(pattern, bodice, wants),
        *(row for row in bodice.chosen if "side waist above" not in row.name),
        *_chosen(seams, wants.hip_share_mm),
        *_notes(body, bodice),
    )
    return TorsoDraft(pattern, table, body, ease, choices, bodice, rule)


def torso_from_record(record: Mapping[str, Any]) -> TorsoDraft:
    """Draft again from a stored recipe, to check it; the stored geometry stays what counts.

    Raises:
        BodyRecordUnreadable: it is no recipe of a torso, or of a format not known here.
    """
    with reading_record(record, "torso recipe", FORMAT):
        kind, rule = record["kind"], int(record["rule"])
        body = Body.from_record(record["body"])
        ease = EasePlan.from_record(record["ease"])
        said = dict(record["choices"])
        choices = TorsoChoices(bodice=BodiceChoices(**said.pop("bodice")), **said)
    if kind != KIND:
        raise BodyRecordUnreadable(f"this is the recipe of a {kind}, not of a torso")
    return draft_torso(body, ease, choices, rule)


def _for_a_straight_figure(
    bodice: Draft, wants: TorsoWants, seams: tuple[SideSeam, SideSeam]
) -> tuple[Draft, tuple[SideSeam, SideSeam]]:
    """Let the waist darts take less, and the side seam more, where the hip is hardly wider.

    A dart opens the waist, and ends above the hip: what it takes, the hip has to have too.
    """
    for share in LESS_DART:
        if not any(seam.wider_mm < LEAST_SIDE_MM for seam in seams):
            break
        try:
            bodice = draft_bodice(bodice.body, bodice.ease, bodice.choices, bodice.rule, share)
        except BodyCannotBeMet:
            break
        seams = below_the_waist(bodice.pattern, wants)
    return bodice, seams


def _is_met(seams: tuple[SideSeam, SideSeam]) -> bool:
    return all(LEAST_SIDE_MM <= seam.wider_mm <= MOST_SIDE_MM for seam in seams)


def _chosen(seams: tuple[SideSeam, SideSeam], share: float) -> Iterator[Row]:
    front, back = seams
    got = front.width_mm - back.width_mm
    yield Row(
        kind="chosen", name="hip, half front less half back", wanted=share, got=round(got, 3),
        low=share - 60.0, high=share + 60.0, note="the body's own arcs",
    )  # fmt: skip
    even = (front.wider_mm + back.wider_mm) / 2
    for where, seam in (("front", front), ("back", back)):
        yield Row(
            kind="chosen", name=f"{where} side seam, hip wider than the waist",
            wanted=round(even, 3), got=round(seam.wider_mm, 3),
            low=LEAST_SIDE_MM, high=MOST_SIDE_MM, note=PRACTICE,
        )  # fmt: skip


def _notes(body: Body, bodice: Draft) -> Iterator[Row]:
    yield from (row for row in bodice.table if row.kind == "note" and row.name != "estimated")
    yield from estimated_rows(body, _used(bodice))


def _used(bodice: Draft) -> tuple[str, ...]:
    return (*bodice.used, *(key for key in TO_ESTIMATE if key.startswith("hip-")))
