"""A remedy for ease names the seams that run across the line."""

import pytest
from fitted import fitted

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.pattern.across_line import seams_across
from tracker.pattern.checks import check
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern


def without_side_seams() -> Pattern:
    return apply_step(JoinSidePanels(), fitted("panelled"), "joined").pattern


@pytest.mark.parametrize(
    ("garment", "line", "seams"),
    [
        ("bodice", "waist line", ("side",)),  # the waist is its edge there
        ("bodice", "bust line", ("side",)),
        ("panelled", "bust line", ("side",)),  # and princess seams, but the side comes first
        ("sleeved", "elbow line", ("underarm",)),
        ("skirt", "hip line", ("side",)),
        ("bodice", "across back", ("centre back",)),
        ("bodice", "across front", ()),  # on the fold, and the armhole at its end is no seam
    ],
)
def test_the_seams_across_a_line_are_those_it_ends_at(
    garment: str, line: str, seams: tuple[str, ...]
) -> None:
    assert seams_across(fitted(garment), line) == seams


def test_a_pattern_without_side_seams_is_not_told_to_take_them_in() -> None:
    joined = without_side_seams()
    [told] = [
        f.remedy
        for f in check(joined, {"waist line": girth(joined, "waist line")}).findings
        if f.code == "ease"
    ]
    assert told.startswith("take in or let out the front princess and back princess seams, or")
    assert "side" not in told
