"""What an effect says of a garment whose right and left halves differ."""

from fitted import fitted

from tracker.alterations.bodyside import split_sides
from tracker.alterations.effect import Changed, Effect
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, kind_named
from tracker.alterations.told import _bent
from tracker.pattern.checks import check
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


def side_out(amount_mm: float) -> Kind:
    return kind_named("take in a seam").from_parameters(
        {"seam": "side", "side": "right", "share": 1.0, "amounts": [
            {"corner": "underarm point", "distance_mm": 0.0, "amount_mm": amount_mm},
            {"corner": "side waist", "distance_mm": 0.0, "amount_mm": 0.0}]}
    )  # fmt: skip


def test_where_a_sleeve_ends_on_one_side_no_join_is_left_to_true() -> None:
    parts = split_sides(fitted("sleeved"), ("front", "back", "sleeve")).pattern
    bent = tuple(
        Changed(f"{side}{seam} seam at the underarm point", 180.0, 183.0)
        for side in ("right ", "left ", "")
        for seam in ("armhole", "side")
    )
    # At an armhole two other seams meet, and how they run on is the style's.
    assert [told.partition(" seam")[0] for told in _bent(parts, Effect(joins=bent))] == [
        "right side", "left side", "side"
    ]  # fmt: skip


def test_a_finding_says_on_which_side_it_is() -> None:
    lopsided = apply_step(side_out(24.0), fitted("bodice"), "1").pattern
    found = [f.sentence for f in check(lopsided).findings if f.place.startswith("side seam")]
    assert found
    assert all("right side seam" in sentence for sentence in found)
