"""A trouser block drafted from a body: solved, measured again, accounted for line by line.

Waist, hip and knee are met with their ease, hip depth, crotch depth and inside leg to the
millimetre, thigh and crotch lengths where they were measured, be it only the
whole crotch length. The rest is fixed by written preferences (``trousers_preferences``) and
printed as chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from tracker.body.body import Body, BodyRecordUnreadable, reading_record
from tracker.body.ease import EasePlan
from tracker.body.ease_tables import TROUSER_EASE
from tracker.drafting.account import Account, chosen_row, estimated_rows, uneven_rows
from tracker.drafting.bodice_measured import Row
from tracker.drafting.bodice_wants import MeasurementsMissing
from tracker.drafting.conflict import BodyCannotBeMet
from tracker.drafting.lower_solve import Solution
from tracker.drafting.questioned import TROUSER_QUESTIONS, mind_rows
from tracker.drafting.skirt_conflict import refusal_of, refuse_contradictions_among
from tracker.drafting.trousers_measured import trouser_rows
from tracker.drafting.trousers_pattern import trouser_pattern
from tracker.drafting.trousers_shape import LegShapes
from tracker.drafting.trousers_solve import TROUSERS, solve_trousers
from tracker.drafting.trousers_wants import (
    CROTCH,
    MET_RULE,
    NEEDED,
    TO_ESTIMATE,
    WHOLE_CROTCH,
    NotTrousers,
    TrouserChoices,
    TrouserWants,
    missing_from,
    trouser_wants,
)
from tracker.pattern.measure import girth
from tracker.units import write_tenths

KIND = "draft trousers"
FORMAT = 1
#: Rule 1 gave many fronts two darts and the back one, or none. Rule 2 shaped the seat more by its
#: slope than by darts, and let a measured crotch length bend the crotch in one place. Rule 3
#: left a measured thigh, and a crotch length measured only whole, to preference.
RULE = MET_RULE

USED = (*TO_ESTIMATE, "crotch-length", "outside-leg")

__all__ = [
    "TO_ESTIMATE",
    "BodyCannotBeMet",
    "MeasurementsMissing",
    "NotTrousers",
    "TrouserChoices",
    "TrouserDraft",
    "draft_trousers",
    "missing_from",
    "trousers_from_record",
]


@dataclass(frozen=True)
class TrouserDraft(Account):
    """A drafted trouser block and its account.

    Attributes:
        choices: what the maker decided.
        rule: the revision of the arithmetic.
    """

    choices: TrouserChoices
    rule: int = RULE

    @property
    def used(self) -> tuple[str, ...]:
        """The keys of the measurements it was drafted from."""
        return TO_ESTIMATE

    def sentence(self) -> str:
        """Say what was drafted, for people."""
        guessed = ", partly estimated" if any(v.key in USED for v in self.body.estimates) else ""
        darts = ", ".join(
            f"{piece.name} {dart.name} {write_tenths(dart.intake_mm)}"
            for piece in self.pattern.pieces
            for dart in piece.darts
        )
        lengths = " and ".join(
            f"{write_tenths(piece.edge('crotch').length)} {where}"
            for piece, where in zip(self.pattern.pieces, ("in front", "behind"), strict=True)
        )
        return (
            f"Trouser block drafted from waist {write_tenths(self.body.value('waist-girth'))} and "
            f"hip {write_tenths(self.body.value('hip-girth'))}{guessed}, with "
            f"{write_tenths(self.ease.mm('waist'))} ease at the waist and "
            f"{write_tenths(self.ease.mm('hip'))} at the hip; crotch {lengths}, thigh "
            f"{write_tenths(girth(self.pattern, 'crotch line') / 2)}, {self._below()}; "
            f"{darts or 'no darts'}."
        )

    def _below(self) -> str:
        knee, hem = (write_tenths(girth(self.pattern, line) / 2) for line in ("knee line", "hem"))
        return f"knee {knee} and hem {hem}" if self.choices.hem_mm else f"knee and hem {knee}"

    def to_record(self) -> dict[str, Any]:
        """Return its recipe as plain values, to be stored beside the geometry."""
        return self.recipe(KIND, FORMAT, self.rule, self.choices.to_record())


def draft_trousers(
    body: Body,
    ease: EasePlan = TROUSER_EASE,
    choices: TrouserChoices | None = None,
    rule: int = RULE,
) -> TrouserDraft:
    """Draft a trouser block, straight from the knee down or to the hem that was asked for.

    Args:
        body: the body, with all that ``missing_from`` asks for.
        ease: how much larger the trousers are than the body, line by line.
        choices: what the maker decides.
        rule: the revision of the arithmetic; an older one drafts an old recipe again.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        NotTrousers: the hem asked for cannot be.
        BodyCannotBeMet: measurements contradict each other; the sentence names them.
    """
    choices = TrouserChoices() if choices is None else choices
    refuse_contradictions_among(body, USED, "pair of trousers")
    wants = trouser_wants(body, ease, choices, rule)
    solution = solve_trousers(wants)
    if not solution.is_met:
        whole = (WHOLE_CROTCH,) if wants.crotch_whole_mm else ()
        raise refusal_of(
            body,
            (*whole, *(key for key in NEEDED if not (whole and key in CROTCH))),
            choices.body_side,
            "trouser block",
            lambda other, rough: _is_met(other, ease, choices, rule, rough),
            ("crotch-depth", "hip-girth"),
            lambda other: _pull(solution, other, ease, choices),
        )
    pattern = trouser_pattern(solution.shapes, wants, ease)
    table = (
        *trouser_rows(pattern, wants),
        *(chosen_row(p) for p in solution.preferences() if p.spoken),
        *mind_rows(solution.preferences(), TROUSER_QUESTIONS),
        *_notes(body, choices),
    )
    return TrouserDraft(pattern, table, body, ease, choices, rule)


def trousers_from_record(record: Mapping[str, Any]) -> TrouserDraft:
    """Draft again from a stored recipe, to check it; the stored geometry stays what counts.

    Raises:
        BodyRecordUnreadable: it is no recipe of trousers, or of a format not known here.
    """
    with reading_record(record, "trouser recipe", FORMAT):
        kind, rule = record["kind"], int(record["rule"])
        body = Body.from_record(record["body"])
        ease = EasePlan.from_record(record["ease"])
        choices = TrouserChoices(**record["choices"])
    if kind != KIND:
        raise BodyRecordUnreadable(f"this is the recipe of a {kind}, not of trousers")
    return draft_trousers(body, ease, choices, rule)


def _is_met(body: Body, ease: EasePlan, choices: TrouserChoices, rule: int, rough: bool) -> bool:
    try:
        return solve_trousers(trouser_wants(body, ease, choices, rule), rough).is_met
    except NotTrousers:
        return False


def _pull(
    failed: Solution[LegShapes, TrouserWants], other: Body, ease: EasePlan, choices: TrouserChoices
) -> float:
    wants = failed.wants
    try:
        there = trouser_wants(other, ease, choices, wants.rule)
    except NotTrousers:
        return 0.0
    # What was estimated is still only aimed at when it is tried a little longer.
    there = replace(there, crotch_met=wants.crotch_met, thigh_met=wants.thigh_met)
    return TROUSERS.pull(failed, there)


def _notes(body: Body, choices: TrouserChoices) -> Iterator[Row]:
    yield from uneven_rows(body, NEEDED, choices.body_side)
    yield from estimated_rows(body, TO_ESTIMATE)
