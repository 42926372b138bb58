"""Applying a step: validated, settled, refused with the most that would fit."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from tracker.alterations.cap_match import caps_left_to_do
from tracker.alterations.kind import Applied, DoesNotFit, Kind
from tracker.alterations.out_of_date import told_out_of_date
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
    try:
        _drawn(kind, pattern, "try")
    except TrackerError:
        return False
    return True


def most_that_fits(kind: Kind, pattern: Pattern) -> float | None:
    """Return the largest amount in millimetres, all of whose smaller amounts can be drawn.

    Nothing for a kind without an amount.
    """
    return _most(kind, lambda k: fits(k, pattern))


def most_within_ease(
    kind: Kind, pattern: Pattern, body_girths: Mapping[str, float]
) -> float | None:
    """Return the largest amount in millimetres that leaves the planned ease at every line."""
    plan = dict(pattern.ease)
    lines = [v for v in lines_of(pattern) if v in body_girths and v in plan]

    def leaves(k: Kind) -> bool:
        try:
            new = _drawn(k, pattern, "try").pattern
        except TrackerError:
            return False
        return all(
            girth(new, v) >= min(body_girths[v] + plan[v], girth(pattern, v)) - 0.05 for v in lines
        )

    return _most(kind, leaves)


def _most(kind: Kind, good: Callable[[Kind], bool]) -> float | None:
    amount = kind.amount_mm
    if amount is None or kind.scaled(1.0) is None:
        return None

    def ok(factor: float) -> bool:
        k = kind.scaled(factor)
        return k is not None and good(k)

    low, steps = 0.0, 8
    for i in range(1, steps + 1):
        if not ok(i / steps):
            high = i / steps
            break
        low = i / steps
    else:
        return abs(amount)
    while (high - low) * abs(amount) > LIMIT_MM / 2:
        middle = (low + high) / 2
        if ok(middle):
            low = middle
        else:
            high = middle
    return low * abs(amount)


def _limits(kind: Kind, pattern: Pattern, body_girths: Mapping[str, float] | None) -> str:
    most = most_that_fits(kind, pattern)
    if most is None or most < LIMIT_MM:
        # It is not the amount that keeps it from being drawn.
        return ""
    told = f"; {most:.0f} mm is the most that can be drawn here"
    if body_girths and kind.amount_mm and kind.amount_mm > 0:
        eased = most_within_ease(kind, pattern, body_girths)
        if eased is not None and eased > most - LIMIT_MM:
            told += ", and it leaves her the planned ease"
        elif eased is not None:
            told += f", and {eased:.0f} mm is the most that leaves her the planned ease"
    return told
