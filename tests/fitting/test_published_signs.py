"""Published tables of wrinkles: each sign, noted as a fitter would, has its published cause.

What is published: a sign, its likely cause, what is done about it. The cause is asked to come
first; where two are published, both to be there, in either order.
"""

import pytest
from fitted import fitted

from tracker.fitting.looking import Stage, stage_of
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.suggest import in_order, likely
from tracker.pattern.bodyside import BodySide

PRACTICE = "common practice, no source"
WSU = "Garment Fitting, E.M. 2246, Washington State University, 1962"
LINING_8 = "The Dressmaker (1910s), part 8"
USDA = "Fitting Dresses, U.S. Department of Agriculture, 1946"

#: (source, garment, what is noted, the published causes)
PUBLISHED = (
    # wrinkles across: too tight there, or too long
    (PRACTICE, "skirt", {"sign": Sign.FOLDS_ACROSS, "seam": "side"}, ("hips too tight",)),
    (PRACTICE, "bodice", {"sign": Sign.FOLDS_ACROSS, "seam": "side"}, ("short waist",)),
    # wrinkles up and down: too wide, or too short and taut
    (PRACTICE, "bodice", {"sign": Sign.FOLDS_ALONG, "piece": "back"}, ("narrow back",)),
    (PRACTICE, "bodice", {"sign": Sign.FOLDS_ALONG, "piece": "back",
                          "direction": "taut between neck and waist"}, ("long waist",)),
    # aslant, pointing at a spot: that spot is too small
    (PRACTICE, "bodice", {"sign": Sign.DRAG_LINES, "piece": "front",
                          "direction": "pointing at the bust"}, ("full bust",)),
    (PRACTICE, "skirt", {"sign": Sign.DRAG_LINES, "piece": "front",
                         "direction": "pointing at the hip"}, ("hips too tight",)),
    (PRACTICE, "trousers", {"sign": Sign.DRAG_LINES, "piece": "front",
                            "direction": "pointing at the crotch"},
     ("crotch too short in front",)),
    (PRACTICE, "trousers", {"sign": Sign.DRAG_LINES, "piece": "back",
                            "direction": "pointing at the crotch"}, ("crotch too short behind",)),
    (PRACTICE, "sleeved", {"sign": Sign.DRAG_LINES, "piece": "sleeve",
                           "direction": "pointing at the upper arm"}, ("full upper arm",)),
    # from the shoulder tip to a centre, the seam standing off near the neck: square shoulders
    (WSU, "bodice", {"sign": Sign.DRAG_LINES, "piece": "front",
                     "direction": "from the shoulder point to the centre front"},
     ("square shoulders",)),
    (WSU, "bodice", {"sign": Sign.DRAG_LINES, "piece": "back",
                     "direction": "from the shoulder point to the centre back"},
     ("square shoulders",)),
    (WSU, "bodice", {"sign": Sign.STANDING_AWAY, "seam": "shoulder",
                     "direction": "near the neck"}, ("square shoulders",)),
    # from the armpit up to the shoulder or the collar: sloping shoulders
    (WSU, "bodice", {"sign": Sign.DRAG_LINES, "piece": "front", "edge": "armhole",
                     "direction": "from the armpit up to the collar"}, ("sloping shoulders",)),
    # rising from the underarm to the side-back, away from the back below: a round back
    (LINING_8, "bodice", {"sign": Sign.DRAG_LINES, "piece": "back",
                          "direction": "rising from the underarm to the side-back"},
     ("round back",)),
    (LINING_8, "bodice", {"sign": Sign.STANDING_AWAY, "piece": "back",
                          "direction": "pulled up over round shoulders"}, ("round back",)),
    # across the back waist, strongest at the centre: sway back, or hips too tight below
    (PRACTICE, "torso", {"sign": Sign.FOLDS_ACROSS, "piece": "back",
                         "direction": "at the waist, strongest at the centre"},
     ("hollow back", "hips too tight")),
    # the same, but on into the side seams and the front: shortened all round
    (PRACTICE, "bodice", {"sign": Sign.FOLDS_ACROSS, "piece": "front",
                          "direction": "above the waist, at the sides too"}, ("short waist",)),
    (f"{USDA}, part 9", "bodice", {"sign": Sign.FOLDS_ACROSS, "piece": "front",
                                   "direction": "sags below the bust"},
     ("front too long above the bust",)),
    (f"{USDA}, part 14", "skirt", {"sign": Sign.RIDING_UP, "seam": "side"}, ("hips too tight",)),
    (f"{USDA}, part 14", "skirt", {"sign": Sign.STRAIN, "seam": "side",
                                   "fitter_words": "puckered"}, ("cloth off its grain",)),
    (f"{USDA}, part 14", "skirt", {"sign": Sign.TWISTING, "seam": "side",
                                   "fitter_words": "crooked"}, ("cloth off its grain",)),
    (f"{USDA}, part 15", "skirt", {"sign": Sign.GAPING, "edge": "hem",
                                   "fitter_words": "the pleats spread"},
     ("waist too loose", "hips too tight", "cloth off its grain")),
    (f"{USDA}, part 15", "skirt", {"sign": Sign.OFF_LEVEL, "edge": "hem"},
     ("hem off level", "waist too loose")),
    # cloth wings at the armhole: not enough bust shaping
    (PRACTICE, "bodice", {"sign": Sign.GAPING, "piece": "front", "edge": "armhole"},
     ("full bust", "bust shaping too small")),
    # the waist rises in front, side seams come forward, lines from shoulder to bust: full bust
    (PRACTICE, "bodice", {"sign": Sign.RIDING_UP, "piece": "front", "edge": "waist"},
     ("full bust",)),
    (PRACTICE, "bodice", {"sign": Sign.SWINGING, "seam": "side", "direction": "forward"},
     ("full bust",)),
    (PRACTICE, "bodice", {"sign": Sign.DRAG_LINES, "piece": "front",
                          "direction": "from the shoulder to the bust"}, ("full bust",)),
)  # fmt: skip


@pytest.mark.parametrize(("source", "garment", "seen", "causes"), PUBLISHED)
def test_a_published_sign_has_its_published_cause(
    source: str, garment: str, seen: dict[str, object], causes: tuple[str, ...]
) -> None:
    note = Observation(observation_id="n1", fitting_id="f1", number=1, **seen)
    found = [s.cause.name for s in likely(fitted(garment), note)]
    assert found[0] in causes, (source, found)
    assert set(causes) <= set(found), (source, found)


def test_one_body_side_has_the_causes_of_that_side() -> None:
    # Common practice, no source: what shows on one side only has a cause on that side.
    note = Observation(
        observation_id="n1", fitting_id="f1", number=1, sign=Sign.DRAG_LINES, seam="side",
        side=BodySide.LEFT, direction="to the left hip, which is higher",
    )  # fmt: skip
    assert likely(fitted("skirt"), note)[0].cause.name == "one hip higher"


#: One note for each chapter, in the booklet's order; the grain comes first in it (part 1).
CHAPTERS = (
    (1, "sleeved", {"sign": Sign.TWISTING, "piece": "front"}, Stage.HANG),
    (5, "sleeved", {"sign": Sign.GAPING, "piece": "front", "edge": "neckline"}, Stage.SHOULDER),
    (9, "sleeved", {"sign": Sign.FOLDS_ACROSS, "piece": "front", "direction": "sags"}, Stage.BUST),
    (10, "sleeved", {"sign": Sign.GAPING, "piece": "front", "edge": "armhole"}, Stage.ARMHOLE),
    (13, "sleeved", {"sign": Sign.TOO_LOOSE, "piece": "front", "edge": "waist"}, Stage.WAIST),
    (14, "skirt", {"sign": Sign.TOO_TIGHT, "seam": "side", "fitter_words": "hips"}, Stage.HIPS),
    (15, "skirt", {"sign": Sign.TOO_LONG, "piece": "front", "edge": "hem"}, Stage.HEM),
)


def test_notes_are_looked_at_in_the_order_of_the_booklets_chapters() -> None:
    # Fitting Dresses, 1946, parts 1 to 15. The sleeve waits until its armhole is settled: common
    # practice, no source.
    notes = {
        part: Observation(observation_id=f"n{part}", fitting_id="f1", number=part, **seen)
        for part, _, seen, _ in CHAPTERS
    }
    found = [stage_of(notes[part], fitted(garment)) for part, garment, *_ in CHAPTERS]
    assert found == [stage for *_, stage in CHAPTERS]
    assert found == sorted(found)
    for garment in ("sleeved", "skirt"):
        own = tuple(notes[part] for part, of, *_ in CHAPTERS if of == garment)
        assert in_order(fitted(garment), own[::-1]) == own
    assert max(Stage) is Stage.SLEEVE
