"""What an effect says of a garment whose right and left halves differ."""

from fitted import fitted

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import kind_named
from tracker.pattern.pattern import Pattern


def lowered() -> Pattern:
    """A bodice with a lower right shoulder: two side seams, each of its own angles."""
    slope = kind_named("change the shoulder slope").from_parameters(
        {"to": "sloping", "by_mm": 6.0, "side": "right"}
    )
    return apply_step(slope, fitted("bodice"), "1").pattern


def test_a_join_is_held_against_its_own_side_and_not_the_other() -> None:
    deeper = kind_named("change a dart").from_parameters(
        {"piece": "front", "dart": "waist dart", "deeper_mm": 6.0, "side": "left"}
    )
    effect = apply_step(deeper, lowered(), "2").effect
    assert [c.what for c in effect.joins if "underarm" in c.what] == []


def test_a_join_that_changed_on_one_side_is_told_with_that_side() -> None:
    inward = kind_named("take in a seam").from_parameters(
        {"seam": "side", "side": "right", "share": 0.5, "amounts": [
            {"corner": "side waist", "distance_mm": 0.0, "amount_mm": 16.0},
            {"corner": "underarm point", "distance_mm": 0.0, "amount_mm": 0.0}]}
    )  # fmt: skip
    effect = apply_step(inward, lowered(), "2").effect
    told = [c.what for c in effect.joins]
    assert "right side seam at the side waist" in told
    assert all(what.startswith("right ") for what in told)
