"""The walk before cutting: every check of a pattern, and whether what was taken is up to date."""

from collections.abc import Mapping
from dataclasses import replace

from tracker.alterations.out_of_date import SAME_MM, findings_of, out_of_date
from tracker.pattern.checked import Checked
from tracker.pattern.checks import check
from tracker.pattern.following import furthest_since
from tracker.pattern.pattern import Pattern


def before_cutting(pattern: Pattern, body_girths: Mapping[str, float] | None = None) -> Checked:
    """Check a pattern as a maker would before cutting.

    Args:
        pattern: the pattern.
        body_girths: the body's girth in millimetres at material lines, for the ease check.
    """
    late = out_of_date(pattern)
    walked = check(pattern, body_girths)
    # What is out of date no longer matches its edges: one cause is told once.
    ends = tuple(f" of the {o.label}" for o in late)
    findings = tuple(
        f for f in walked.findings if not (f.code == "taken pieces" and f.place.endswith(ends))
    )
    return replace(walked, findings=findings).beside(_following(pattern, {o.piece for o in late}))


def _following(pattern: Pattern, late: set[str]) -> Checked:
    """See whether the pieces taken from others are what would be taken from them now."""
    figures = []
    for piece in pattern.pieces:
        if piece.traced is None or piece.name in late:
            continue
        moved = furthest_since(pattern, piece)
        # Further than this it moved along, with its parent.
        told = moved if moved <= SAME_MM else 0.0
        figures.append((f"up to date: the {piece.label}", f"{told + 0.0:.1f} mm"))
    untraced = tuple(
        f"whether the {p.label} still follows the {p.taken_from}: no step took it from there"
        for p in pattern.pieces
        if p.taken_from and p.traced is None
    )
    return Checked(tuple(findings_of(pattern)), tuple(figures), untraced)


__all__ = ["before_cutting"]
