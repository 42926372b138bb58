"""Applying a step: validated, settled, refused with the most that would fit."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from tracker.alterations.cap_match import caps_left_to_do
from tracker.alterations.given_back import given_back, remembering
from tracker.alterations.kind import Applied, DoesNotFit, Kind
from tracker.alterations.out_of_date import told_out_of_date
from tracker.alterations.still import lying_still
from tracker.alterations.told import mm
from tracker.alterations.tracing import Tracing
from tracker.errors import TrackerError
from tracker.pattern.canonical import settled
from tracker.pattern.checks import ring_fault
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import OffTheEnd

#: Limits are told to this many millimetres, and the planned ease is left to as many.
LIMIT_MM = 0.5
#: They are looked for more closely, so that what is told is never more than half a step short.
_CLOSE_MM = 0.1
#: Below the limit found every ``LIMIT_MM`` is looked at, or so many amounts spread evenly.
_FINE = 16


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
    except UnknownName:
        raise
    except PatternError as fault:
        limits = _limits(kind, pattern, body_girths)
        if isinstance(fault, OffTheEnd) and not limits:
            raise  # a place that is not there, whatever the amount
        raise DoesNotFit(f"{_lower(str(fault))}{limits}") from fault
    applied = replace(applied, trace=lying_still(pattern, applied.pattern, applied.trace))
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
    back = given_back(kind, pattern)
    applied = back or kind.apply(pattern, step_id)
    fresh = settled(applied.pattern)
    if back is None:
        fresh = settled(remembering(kind, pattern, fresh))
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
        least = {v: min(body_girths[v] + plan[v], girth(pattern, v)) - LIMIT_MM for v in lines}

        def leaves(share: float) -> bool:
            new = self.at(share)
            return new is not None and all(girth(new, v) >= least[v] for v in lines)

        return self.most(leaves)

    def most(self, good: Callable[[float], bool]) -> float | None:
        """The largest amount all of whose smaller amounts are good, as far as shares of it tell.

        Rounded down to ``LIMIT_MM`` where it is not the whole amount, so that it can be had.
        """
        amount = self.kind.amount_mm
        if not amount or self.kind.scaled(1.0) is None:
            return None
        whole, reached, shares = abs(amount), 1.0, 8
        while reached * whole > LIMIT_MM:
            tried = [reached * i / shares for i in range(shares + 1)]
            bad = next((k for k in range(1, shares + 1) if not good(tried[k])), None)
            if bad is None and reached == 1.0:
                return whole
            if bad is None:
                finer = min(_FINE, math.ceil(reached * whole / LIMIT_MM))
                tried = [reached * i / finer for i in range(finer + 1)]
                bad = next((k for k in range(1, finer + 1) if not good(tried[k])), None)
                if bad is not None:
                    reached = self._last(good, tried[bad - 1], tried[bad])
                    continue
                told = math.floor(reached * whole / LIMIT_MM) * LIMIT_MM
                if good(told / whole):
                    return told
                reached = self._last(good, tried[-2], told / whole)
                continue
            # Shares of a large amount lie far apart: of what fits, quarters are looked at too.
            reached = self._last(good, tried[bad - 1], tried[bad]) if bad > 1 else tried[1]
            shares = 4 if bad > 1 else 8
        return 0.0

    def _last(self, good: Callable[[float], bool], low: float, high: float) -> float:
        """The last good share between a good one and a bad one."""
        while (high - low) * abs(self.kind.amount_mm) > _CLOSE_MM:
            middle = (low + high) / 2
            if good(middle):
                low = middle
            else:
                high = middle
        return low


def _limits(kind: Kind, pattern: Pattern, body_girths: Mapping[str, float] | None) -> str:
    limits = _Limits(kind, pattern)
    most = limits.drawn()
    if most is None or most < LIMIT_MM:
        # It is not the amount that keeps it from being drawn.
        return ""
    told = f"; {mm(most)} is the most that can be drawn here"
    # What is taken from other pieces has no part in what goes round her.
    if body_girths and not isinstance(kind, Tracing):
        eased = limits.eased(body_girths)
        if eased is not None and eased > most - LIMIT_MM:
            told += ", and it leaves her the planned ease"
        elif eased is not None:
            told += f", and {mm(eased)} is the most that leaves her the planned ease"
    return told
