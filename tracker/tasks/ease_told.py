"""What to do about ease that is not as planned: plan it anew where a fitting changed it."""

from collections.abc import Iterable
from dataclasses import replace

from tracker.alterations.effect import Effect
from tracker.history.version import Version
from tracker.pattern.finding import Finding
from tracker.pattern.pattern import Pattern


def lines_changed(effects: Iterable[Effect | None]) -> frozenset[str]:
    """Return the material lines whose girth some steps changed."""
    return frozenset(c.what for effect in effects if effect for c in effect.girths)


def lines_fitted(line: Iterable[Version]) -> frozenset[str]:
    """Return the material lines whose girth was changed because of a fitting."""
    return lines_changed(t.effect for v in line for t in v.taken if t.step.because)


def as_fitted(
    findings: Iterable[Finding], fitted: frozenset[str], pattern: Pattern
) -> tuple[Finding, ...]:
    """Return findings with the remedy that suits a line a fitting has just changed.

    To let out again what was pinned out at a fitting is no remedy; but a garment smaller than
    the body is let out all the same, or she is measured again.

    Args:
        findings: what a check found.
        fitted: the lines whose girth was changed because of a fitting.
        pattern: the pattern that was checked, with the ease that was planned.
    """
    plan = dict(pattern.ease)
    return tuple(
        replace(
            f,
            remedy="it was altered for a fitting: plan the ease anew, unless the next fitting "
            "says otherwise",
        )
        if f.code == "ease" and f.place in fitted and f.figure + plan.get(f.place, 0.0) >= 0
        else f
        for f in findings
    )


__all__ = ["as_fitted", "lines_changed", "lines_fitted"]
