"""Applying a step: validated, settled, refused with the most that would fit."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from tracker.alterations.cap_match import caps_left_to_do
from tracker.alterations.kind import Applied, DoesNotFit, Kind
from tracker.alterations.out_of_date import told_out_of_date
from tracker.alterations.told import mm
from tracker.errors import TrackerError
from tracker.pattern.canonical import settled
from tracker.pattern.checks import ring_fault
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import OffTheEnd

#: Limits are told to this many millimetres.
LIMIT_MM = 0.5


def apply_step(
    kind: Kind,
    pattern: Pattern,
    step_id: str,
    body_girths: Mapping[str, float] | None = None,
) -> Applied:
    """Apply a step to a pattern.

    Args:
        kind: the step.
        pattern: a settled pattern.
        step_id: the opaque id its displacements are marked with.
        body_girths: the body's girths in millimetres by material line; with them a refusal
            also says the most that leaves the planned ease.

    Raises:
        DoesNotFit: the amount cannot be drawn; the sentence gives the most that can.
        TrackerError: it cannot be done here at all.
    """
    try:
        applied = _drawn(kind, pattern, step_id)
    except (UnknownName, OffTheEnd):
        raise
    except PatternError as fault:
        raise DoesNotFit(f"{_lower(str(fault))}{_limits(kind, pattern, body_girths)}") from fault
    late = (
        *caps_left_to_do(pattern, applied.pattern),
        *told_out_of_date(pattern, applied.pattern),
    )
    if not late:
        return applied
    return replace(applied, effect=replace(applied.effect, leaves=(*applied.effect.leaves, *late)))


def _lower(sentence: str) -> str:
    return sentence.rstrip(". ")


def _drawn(kind: Kind, pattern: Pattern, step_id: str) -> Applied:
    applied = kind.apply(pattern, step_id)
    fresh = settled(applied.pattern)
    same = {id(p) for p in pattern.pieces}
    for piece in fresh.pieces:
        if id(piece) not in same and piece.has_outline:
            fault = ring_fault(piece)
            if fault:
                raise PatternError(fault)
    return Applied(fresh, applied.effect, applied.trace)


def fits(kind: Kind, pattern: Pattern) -> bool:
    """Tell whether a step can be drawn."""
    return _tried(kind, pattern) is not None


def _tried(kind: Kind, pattern: Pattern) -> Pattern | None:
    try:
        return _drawn(kind, pattern, "try").pattern
    except TrackerError:
        return None


def most_that_fits(kind: Kind, pattern: Pattern) -> float | None:
    """Return the largest amount in millimetres, all of whose smaller amounts can be drawn.

    Nothing for a kind without an amount.
    """
    return _Limits(kind, pattern).drawn()


def most_within_ease(
    kind: Kind, pattern: Pattern, body_girths: Mapping[str, float]
) -> float | None:
    """Return the largest amount in millimetres that leaves the planned ease at every line."""
    return _Limits(kind, pattern).eased(body_girths)


class _Limits:
    """The largest amounts of a step, each share of its amount drawn once for both."""

    def __init__(self, kind: Kind, pattern: Pattern) -> None:
        self.kind = kind
        self.pattern = pattern
        self.seen: dict[float, Pattern | None] = {}

    def at(self, share: float) -> Pattern | None:
        """The pattern with a share of the amount, or nothing where it cannot be drawn."""
        if share not in self.seen:
            step = self.kind.scaled(share)
            self.seen[share] = None if step is None else _tried(step, self.pattern)
        return self.seen[share]

    def drawn(self) -> float | None:
        return self.most(lambda share: self.at(share) is not None)

    def eased(self, body_girths: Mapping[str, float]) -> float | None:
        pattern = self.pattern
        plan = dict(pattern.ease)
        lines = [v for v in lines_of(pattern) if v in body_girths and v in plan]
        least = {v: min(body_girths[v] + plan[v], girth(pattern, v)) - 0.05 for v in lines}

        def leaves(share: float) -> bool:
            new = self.at(share)
            return new is not None and all(girth(new, v) >= least[v] for v in lines)

        return self.most(leaves)

    def most(self, good: Callable[[float], bool]) -> float | None:
        """The largest amount all of whose smaller amounts are good, as far as eighths tell."""
        amount = self.kind.amount_mm
        if amount is None or self.kind.scaled(1.0) is None:
            return None
        eighths = [i / 8 for i in range(9)]
        bad = next((share for share in eighths[1:] if not good(share)), None)
        if bad is None:
            return abs(amount)
        low, high = bad - eighths[1], bad
        while (high - low) * abs(amount) > LIMIT_MM / 2:
            middle = (low + high) / 2
            if good(middle):
                low = middle
            else:
                high = middle
        return low * abs(amount)


def _told(limit_mm: float) -> str:
    """A limit rounded down, so that what is named can be had."""
    return mm(math.floor(limit_mm / LIMIT_MM) * LIMIT_MM)


def _limits(kind: Kind, pattern: Pattern, body_girths: Mapping[str, float] | None) -> str:
    limits = _Limits(kind, pattern)
    most = limits.drawn()
    if most is None or most < LIMIT_MM:
        # It is not the amount that keeps it from being drawn.
        return ""
    told = f"; {_told(most)} is the most that can be drawn here"
    if body_girths and kind.amount_mm and kind.amount_mm > 0:
        eased = limits.eased(body_girths)
        if eased is not None and eased > most - LIMIT_MM:
            told += ", and it leaves her the planned ease"
        elif eased is not None:
            told += f", and {_told(eased)} is the most that leaves her the planned ease"
    return told
