"""A bodice block drafted from a body: solved, measured again, and accounted for line by line.

The construction is our own. Every wanted figure is met; what the body leaves free is fixed by
written preferences (``bodice_preferences``) and printed as chosen. The result is rounded and
stored, never solved again on replay.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tracker.body.body import Body, BodyRecordUnreadable, reading_record
from tracker.body.ease import DEFAULT_BODICE_EASE, EasePlan
from tracker.body.vocabulary import BY_KEY
from tracker.drafting.account import estimated_rows
from tracker.drafting.bodice_measured import Row, wanted_rows
from tracker.drafting.bodice_pattern import bodice_pattern
from tracker.drafting.bodice_solve import Solution, solve
from tracker.drafting.bodice_wants import (
    NEEDED,
    OWN_ARCS_RULE,
    SLANT_BACK,
    SLANT_FRONT,
    SLOPE,
    BodiceChoices,
    MeasurementsMissing,
    missing_from,
    used_of,
    wants_of,
)
from tracker.drafting.conflict import BodyCannotBeMet, refusal, refuse_contradictions
from tracker.drafting.questioned import BODICE_QUESTIONS, mind_rows
from tracker.pattern.measure import around
from tracker.pattern.pattern import Pattern
from tracker.units import write_angle, write_tenths

KIND = "draft bodice"
FORMAT = 1
#: Rule 1 had every neckline leave the shoulder square, which turned a flat back neck up sharply.
#: Rule 2 shared bust and waist only roughly as measured arcs are, and knew arcs only in pairs.
RULE = OWN_ARCS_RULE
MET_WITHIN_MM = 0.1

__all__ = [
    "BodiceChoices",
    "BodyCannotBeMet",
    "Draft",
    "MeasurementsMissing",
    "Row",
    "draft_bodice",
    "draft_from_record",
    "missing_from",
]


@dataclass(frozen=True, slots=True)
class Draft:
    """A drafted block and its account.

    Attributes:
        pattern: front and back, rounded as they are stored.
        table: wanted figures with what was got, chosen ones with what was preferred, notes.
        body: the body it was drafted from.
        ease: the ease plan.
        choices: what the maker decided.
        rule: the revision of the arithmetic.
    """

    pattern: Pattern
    table: tuple[Row, ...]
    body: Body
    ease: EasePlan
    choices: BodiceChoices
    rule: int = RULE

    @property
    def wanted(self) -> tuple[Row, ...]:
        """The figures that had to be met."""
        return tuple(row for row in self.table if row.kind == "wanted")

    @property
    def chosen(self) -> tuple[Row, ...]:
        """The free figures, each with what was preferred for it."""
        return tuple(row for row in self.table if row.kind == "chosen")

    @property
    def notes(self) -> tuple[str, ...]:
        """What there is to know besides."""
        return tuple(row.note for row in self.table if row.kind == "note")

    @property
    def worst_miss(self) -> float:
        """The largest miss of a wanted figure, mm or degrees."""
        return max(abs(row.miss) for row in self.wanted)

    @property
    def used(self) -> tuple[str, ...]:
        """The keys of the measurements it was drafted from."""
        return used_of(self.body, self.choices.body_side)

    def sentence(self) -> str:
        """Say what was drafted, for people."""
        front, back = self.pattern.piece("front"), self.pattern.piece("back")
        darts = ", ".join(
            f"{piece.name} {dart.name} {write_tenths(dart.intake_mm)}"
            for piece in (front, back)
            for dart in piece.darts
        )
        side = self.choices.body_side
        whose = "" if side == "both" else f", the wearer's {side} shoulder taken for both"
        partly = any(v.key in self.used for v in self.body.estimates)
        guessed = ", partly estimated" if partly else ""
        return (
            f"Bodice block drafted from bust {write_tenths(self.body.value('bust-girth'))} and "
            f"waist {write_tenths(self.body.value('waist-girth'))}{guessed}{whose}, with "
            f"{write_tenths(self.ease.mm('bust'))} ease at the bust and "
            f"{write_tenths(self.ease.mm('waist'))} at the waist: {darts}; armhole "
            f"{write_tenths(around(self.pattern, 'armhole') / 2)}, neckline "
            f"{write_tenths(around(self.pattern, 'neckline'))}."
        )

    def to_record(self) -> dict[str, Any]:
        """Return its recipe as plain values, to be stored beside the geometry."""
        return {
            "kind": KIND,
            "format": FORMAT,
            "rule": self.rule,
            "body": self.body.to_record(),
            "ease": self.ease.to_record(),
            "choices": self.choices.to_record(),
        }


def draft_bodice(
    body: Body,
    ease: EasePlan = DEFAULT_BODICE_EASE,
    choices: BodiceChoices | None = None,
    rule: int = RULE,
    darts_take: float = 1.0,
) -> Draft:
    """Draft a bodice block.

    Args:
        body: the body, with all that ``missing_from`` asks for.
        ease: how much larger the garment is than the body, line by line.
        choices: what the maker decides; by default a back shoulder dart, and the mean of left
            and right where they differ.
        rule: the revision of the arithmetic; an older one drafts an old recipe again.
        darts_take: the share of what waist darts usually take; the side seam takes the rest.

    Raises:
        MeasurementsMissing: a needed measurement is neither measured nor estimated.
        BodyCannotBeMet: measurements contradict each other; the sentence names them.
    """
    choices = BodiceChoices() if choices is None else choices
    refuse_contradictions(body)
    solution = solve(wants_of(body, ease, choices, rule).with_(darts_take=darts_take))
    if not solution.is_met:
        raise refusal(body, choices, solution)
    pattern = bodice_pattern(solution.shapes, ease, choices)
    table = (
        *wanted_rows(pattern, solution.wants),
        *_chosen_rows(solution),
        *_notes(body, choices, solution),
    )
    return Draft(pattern, table, body, ease, choices, rule)


def draft_from_record(record: Mapping[str, Any]) -> Draft:
    """Draft again from a stored recipe, to check it; the stored geometry stays what counts.

    Raises:
        BodyRecordUnreadable: it is no recipe of a bodice, or of a format not known here.
    """
    with reading_record(record, "bodice recipe", FORMAT):
        kind, rule = record["kind"], int(record["rule"])
        body = Body.from_record(record["body"])
        ease = EasePlan.from_record(record["ease"])
        choices = BodiceChoices(**record["choices"])
    if kind != KIND:
        raise BodyRecordUnreadable(f"this is the recipe of a {kind}, not of a bodice")
    return draft_bodice(body, ease, choices, rule)


def _chosen_rows(solution: Solution) -> Iterator[Row]:
    for p in solution.preferences():
        if p.spoken:
            got, target, low, high = (
                round(float(v if isinstance(v, (int, float)) else v.flat[0]), 3)
                for v in (p.got, p.target, p.low, p.high)
            )
            yield Row(
                kind="chosen", name=p.name, wanted=target, got=got, unit=p.unit,
                low=low, high=high, note=p.source,
            )  # fmt: skip


def _notes(body: Body, choices: BodiceChoices, solution: Solution) -> Iterator[Row]:
    used = [*NEEDED, SLOPE, SLANT_BACK, SLANT_FRONT]
    for key in used:
        if body.has(key) and body.is_uneven(key):
            right, left = body.value(key, "right"), body.value(key, "left")
            write = write_angle if BY_KEY[key].unit == "deg" else write_tenths
            taken = (
                "their mean is drafted"
                if choices.body_side == "both"
                else f"the {choices.body_side} one is drafted for both sides"
            )
            yield _note(
                BY_KEY[key].name,
                f"{BY_KEY[key].name} is {write(right)} right and {write(left)} left; {taken}, "
                f"and one side is altered afterwards",
            )
    if solution.wants.slope_rad is None and body.has(SLOPE):
        yield _note(
            "shoulder slope",
            f"the shoulders follow the slants to the waist; the slope measured, "
            f"{write_angle(body.value(SLOPE))}, was not used",
        )
    for name, half in (("back", solution.shapes.back), ("front", solution.shapes.front)):
        if float(half.upper_armhole.bow_start[0]) < 0 or float(half.upper_armhole.bow_end[0]) < 0:
            yield _note(
                f"{name} armhole",
                f"the shoulder is wide for the across {name}: the {name} armhole leaves the "
                f"shoulder with a slight counter-curve",
            )
    yield from mind_rows(solution.preferences(), BODICE_QUESTIONS)
    yield from estimated_rows(body, used_of(body, choices.body_side))


def _note(name: str, text: str) -> Row:
    return Row(kind="note", name=name, note=text)
