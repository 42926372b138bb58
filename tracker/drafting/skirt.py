"""A straight skirt block drafted from a body: solved, measured again, accounted for line by line.

Waist and hip are met with their ease, the side seam is as long as the body's hip depth and hangs
plumb below the hip line; what the hip has more than the waist is shared between side seam and
darts by the body's own front and back arcs, no dart over a sensible intake. The rest is fixed by
written preferences (``skirt_preferences``) and printed as chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tracker.body.body import Body, BodyRecordUnreadable, reading_record
from tracker.body.ease import EasePlan
from tracker.body.ease_tables import SKIRT_EASE
from tracker.drafting.account import Account, chosen_row, estimated_rows, note_row, uneven_rows
from tracker.drafting.bodice_measured import Row
from tracker.drafting.bodice_wants import MeasurementsMissing
from tracker.drafting.conflict import BodyCannotBeMet
from tracker.drafting.lower_solve import Solution
from tracker.drafting.skirt_conflict import refusal_of, refuse_contradictions_among
from tracker.drafting.skirt_measured import skirt_rows
from tracker.drafting.skirt_pattern import skirt_pattern
from tracker.drafting.skirt_shape import SkirtShapes
from tracker.drafting.skirt_solve import SKIRT, solve_skirt
from tracker.drafting.skirt_wants import (
    KNEE,
    NEEDED,
    TO_ESTIMATE,
    TO_FLOOR,
    TO_FLOOR_AT,
    NotASkirt,
    SkirtChoices,
    SkirtWants,
    missing_from,
    wants_of,
)
from tracker.units import write_tenths

KIND = "draft skirt"
FORMAT = 1
RULE = 1

USED = (*TO_ESTIMATE, TO_FLOOR, *TO_FLOOR_AT.values())

__all__ = [
    "TO_ESTIMATE",
    "BodyCannotBeMet",
    "MeasurementsMissing",
    "NotASkirt",
    "SkirtChoices",
    "SkirtDraft",
    "draft_skirt",
    "missing_from",
    "skirt_from_record",
]


@dataclass(frozen=True)
class SkirtDraft(Account):
    """A drafted skirt block and its account.

    Attributes:
        choices: what the maker decided.
    """

    choices: SkirtChoices

    @property
    def used(self) -> tuple[str, ...]:
        """The keys of the measurements it was drafted from."""
        return _used(self.choices)

    def sentence(self) -> str:
        """Say what was drafted, for people."""
        guessed = ", partly estimated" if any(v.key in USED for v in self.body.estimates) else ""
        darts = []
        for piece in self.pattern.pieces:
            count = len(piece.darts)
            if not count:
                darts.append(f"no dart in the {piece.name}")
                continue
            each = " of " if count == 1 else " of each "
            noun = "dart" if count == 1 else "darts"
            darts.append(
                f"{('one', 'two')[count - 1]} {piece.name} {noun}{each}"
                f"{write_tenths(piece.darts[0].intake_mm)}"
            )
        length = self.pattern.piece("back").edge("side").length
        return (
            f"Straight skirt block drafted from waist "
            f"{write_tenths(self.body.value('waist-girth'))} and hip "
            f"{write_tenths(self.body.value('hip-girth'))}{guessed}, with "
            f"{write_tenths(self.ease.mm('waist'))} ease at the waist and "
            f"{write_tenths(self.ease.mm('hip'))} at the hip, {write_tenths(length)} long down the "
            f"side: {', '.join(darts)}."
        )

    def to_record(self) -> dict[str, Any]:
        """Return its recipe as plain values, to be stored beside the geometry."""
        return self.recipe(KIND, FORMAT, RULE, self.choices.to_record())


def draft_skirt(
    body: Body, ease: EasePlan = SKIRT_EASE, choices: SkirtChoices | None = None
) -> SkirtDraft:
    """Draft a straight skirt block.

    Args:
        body: the body, with all that ``missing_from`` asks for.
        ease: how much larger the skirt is than the body at waist and hip.
        choices: what the maker decides; by default down to the knee.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        NotASkirt: the length or a dart asked for cannot be.
        BodyCannotBeMet: measurements contradict each other; the sentence names them.
    """
    choices = SkirtChoices() if choices is None else choices
    refuse_contradictions_among(body, USED, "skirt")
    wants = wants_of(body, ease, choices)
    solution = solve_skirt(wants)
    if not solution.is_met:
        raise refusal_of(
            body,
            NEEDED,
            choices.body_side,
            "straight skirt",
            lambda other, rough: _is_met(other, ease, choices, rough),
            pull=lambda other: _pull(solution, other, ease, choices),
        )
    pattern = skirt_pattern(solution.shapes, wants, ease)
    table = (
        *skirt_rows(pattern, wants),
        *(chosen_row(p) for p in solution.preferences() if p.spoken),
        *_notes(body, choices, solution),
    )
    return SkirtDraft(pattern, table, body, ease, choices)


def skirt_from_record(record: Mapping[str, Any]) -> SkirtDraft:
    """Draft again from a stored recipe, to check it; the stored geometry stays what counts.

    Raises:
        BodyRecordUnreadable: it is no recipe of a skirt, or of a format not known here.
    """
    with reading_record(record, "skirt recipe", FORMAT):
        kind = record["kind"]
        body = Body.from_record(record["body"])
        ease = EasePlan.from_record(record["ease"])
        choices = SkirtChoices(**record["choices"])
    if kind != KIND:
        raise BodyRecordUnreadable(f"this is the recipe of a {kind}, not of a skirt")
    return draft_skirt(body, ease, choices)


def _is_met(body: Body, ease: EasePlan, choices: SkirtChoices, rough: bool) -> bool:
    try:
        return solve_skirt(wants_of(body, ease, choices), rough).is_met
    except NotASkirt:
        return False


def _pull(
    failed: Solution[SkirtShapes, SkirtWants], other: Body, ease: EasePlan, choices: SkirtChoices
) -> float:
    try:
        return SKIRT.pull(failed, wants_of(other, ease, choices))
    except NotASkirt:
        return 0.0


def _notes(
    body: Body, choices: SkirtChoices, solution: Solution[SkirtShapes, SkirtWants]
) -> Iterator[Row]:
    yield from uneven_rows(body, ("hip-depth",), choices.body_side)
    for where, half in (("front", solution.shapes.front), ("back", solution.shapes.back)):
        if not half.darts:
            yield note_row(
                f"{where} waist dart",
                f"the {where} needs no dart: its waist is nearly as wide as its hip",
            )
    yield from estimated_rows(body, _used(choices))


def _used(choices: SkirtChoices) -> tuple[str, ...]:
    return (*NEEDED, *TO_ESTIMATE[4:], *((KNEE,) if choices.length_mm is None else ()))
