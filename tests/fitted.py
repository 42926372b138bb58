"""Patterns a fitter meets, made once: bodice, sleeved, panelled, skirt, torso, trousers, paper."""

from functools import cache

from published.bodies import chart_bodies
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.body.estimate import estimate
from tracker.drafting import skirt, torso, trousers
from tracker.drafting.bodice import draft_bodice
from tracker.pattern.pattern import Pattern

GARMENTS = ("by hand", "bodice", "sleeved", "panelled", "skirt", "torso", "trousers", "paper")


@cache
def fitted(garment: str) -> Pattern:
    """Return one of them by its word."""
    body = chart_bodies()[3].body
    match garment:
        case "by hand":
            return bodice()
        case "paper":
            return paper()
        case "sleeved":
            sleeve = AddSleeve(
                upper_arm_mm=278, elbow_mm=256, wrist_mm=152, arm_length_mm=560,
                shoulder_to_elbow_mm=325,
            )  # fmt: skip
            return apply_step(sleeve, fitted("bodice"), "sleeve").pattern
        case "panelled":
            front = apply_step(PanelFront(), fitted("bodice"), "front").pattern
            return apply_step(PanelBack(), front, "back").pattern
        case "skirt":
            return skirt.draft_skirt(estimate(body, skirt.TO_ESTIMATE)).pattern
        case "torso":
            return torso.draft_torso(estimate(body, torso.TO_ESTIMATE)).pattern
        case "trousers":
            return trousers.draft_trousers(estimate(body, trousers.TO_ESTIMATE)).pattern
    return draft_bodice(body).pattern
