"""Steps put onto another base: withdrawing some, or bringing corrections across."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from tracker.alterations.effect import Effect
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.withdraw_steps import WithdrawSteps
from tracker.errors import TrackerError
from tracker.history.step import Taken
from tracker.history.version import Version
from tracker.pattern.pattern import Pattern

#: A girth that changes by this much more or less than it did is a change worth stating.
OTHERWISE_MM = 1.0


class Outcome(StrEnum):
    """What became of a step put onto another base."""

    APPLIES = "applies"
    CHANGED = "applies with a change"
    CANNOT = "cannot be done here"


@dataclass(frozen=True)
class Brought:
    """One step put onto another base.

    Attributes:
        kind: the step.
        because: ids of the observations behind it.
        sentence: what it does there.
        outcome: applies, applies with a change, or cannot.
        told: the change, or why it cannot be.
        effect: what it changes there; none where it cannot be done.
    """

    kind: Kind
    because: tuple[str, ...]
    sentence: str
    outcome: Outcome
    told: str = ""
    effect: Effect | None = None


@dataclass(frozen=True)
class Onward:
    """Steps tried on a base; nothing is recorded until it is accepted.

    Attributes:
        pattern: the base with every step that could be done.
        steps: each step and what became of it, in order.
    """

    pattern: Pattern
    steps: tuple[Brought, ...]

    @property
    def done(self) -> tuple[tuple[Kind, tuple[str, ...]], ...]:
        """The steps that could be done, ready for a version."""
        return tuple((b.kind, b.because) for b in self.steps if b.outcome is not Outcome.CANNOT)

    @property
    def left_out(self) -> tuple[Brought, ...]:
        """The steps that could not."""
        return tuple(b for b in self.steps if b.outcome is Outcome.CANNOT)


def bring_across(
    taken: Sequence[Taken], onto: Pattern, body_girths: Mapping[str, float] | None = None
) -> Onward:
    """Put recorded steps onto another pattern: a redrafted block, a sister style.

    Args:
        taken: the steps in their order.
        onto: the pattern to put them onto.
        body_girths: body girths in millimetres by line, for the limits of a refusal.
    """
    out: list[Brought] = []
    pattern = onto
    for position, one in enumerate(taken):
        kind = one.step.as_kind()
        try:
            said = kind.sentence(pattern)
            applied = apply_step(kind, pattern, f"brought{position}", body_girths)
        except TrackerError as fault:
            out.append(
                Brought(kind, one.step.because, one.sentence, Outcome.CANNOT, fault.sentence)
            )
            continue
        told = _otherwise(one.effect, applied.effect)
        outcome = Outcome.CHANGED if told else Outcome.APPLIES
        out.append(Brought(kind, one.step.because, said, outcome, told, applied.effect))
        pattern = applied.pattern
    return Onward(pattern, tuple(out))


def _otherwise(before: Effect, after: Effect) -> str:
    """What a step changes more or less than it did where it was made."""
    was = {c.what: c.by for c in (*before.girths, *before.rounds)}
    now = {c.what: c.by for c in (*after.girths, *after.rounds)}
    told = [
        f"{what} changes by {now.get(what, 0.0):+.0f} mm where it changed by "
        f"{was.get(what, 0.0):+.0f}"
        for what in dict.fromkeys((*was, *now))
        if abs(now.get(what, 0.0) - was.get(what, 0.0)) >= OTHERWISE_MM
    ]
    return "; ".join(told)


@dataclass(frozen=True)
class Withdrawal:
    """What withdrawing steps would give.

    Attributes:
        parent: the version before the first of them, from which the rest is worked out again.
        onward: the rest.
        record: the step that says what was withdrawn; first in the new version.
    """

    parent: Version
    onward: Onward
    record: WithdrawSteps

    @property
    def steps(self) -> tuple[tuple[Kind, tuple[str, ...]], ...]:
        """The new version's steps."""
        return ((self.record, ()), *self.onward.done)


def withdraw(
    lineage: Sequence[Version],
    step_ids: Sequence[str],
    body_girths: Mapping[str, float] | None = None,
) -> Withdrawal:
    """Leave out named steps and work out the rest again.

    Args:
        lineage: the versions from the root to the newest, oldest first.
        step_ids: ids of the steps to leave out; the first letters of one are enough.
        body_girths: for limits.

    Raises:
        TrackerError: a step is not in that line of versions, or is told by too few letters.
    """
    known = [(v, t) for v in lineage for t in v.taken]
    gone: list[Taken] = []
    for wanted in step_ids:
        found = [t for _, t in known if t.step.step_id.startswith(wanted)]
        if len(found) != 1:
            raise TrackerError(
                f"{wanted!r} is {'no step' if not found else 'more than one step'} of "
                f"{lineage[-1].address}; list its steps with their ids first"
            )
        gone.append(found[0])
    first = next(i for i, v in enumerate(lineage) if any(t in gone for t in v.taken))
    rest = [t for v in lineage[first:] for t in v.taken if t not in gone]
    parent = lineage[first - 1]
    record = WithdrawSteps(
        steps=tuple(t.step.step_id for t in gone),
        sentences=tuple(t.sentence for t in gone),
        from_version=str(lineage[-1].address),
    )
    return Withdrawal(parent, bring_across(rest, parent.pattern, body_girths), record)
