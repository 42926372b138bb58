"""The table of signs: every row leads somewhere, every remedy can be drawn and does as it says."""

import pytest
from fitted import GARMENTS, fitted

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import BadParameters, kinds
from tracker.errors import TrackerError
from tracker.fitting.causes import CAUSES
from tracker.fitting.counting import AMOUNTS
from tracker.fitting.looking import ORDER_SAID, Stage, stage_of
from tracker.fitting.observation import Observation, Sign, read_sign
from tracker.fitting.propose import Answer, NoAmount, answers
from tracker.fitting.remedy import MEMORY, PRACTICE
from tracker.fitting.scene import Scene
from tracker.fitting.signs import ROWS, Row
from tracker.fitting.suggest import cause_named, chosen, in_order, likely, placed
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import around, girth

#: Titles a row or a cause may name, beside common practice and memory. They are those of
#: the published figures the project was checked against.
TITLES = (
    "Fitting Dresses", "Garment Fitting, E.M. 2246", "The New Dressmaker", "The Dressmaker",
    "Problem areas: the back", "Set-in sleeve solutions", "Fitting and Pattern Alteration",
    "TM 10-227", "Guide C-209",
)  # fmt: skip

#: What the trade asks of a fitter, by the names of the table.
ASKED_FOR = (
    "round back", "hollow back", "forward shoulder", "square shoulders", "sloping shoulders",
    "one shoulder lower", "front neckline too long", "back neck standing away",
    "bust shaping too small", "back armhole too long", "full bust", "small bust", "high bust",
    "low bust", "broad back", "narrow back", "broad chest", "narrow chest", "waist too tight",
    "waist too loose", "hips too tight", "hips too loose", "hollow chest", "long waist",
    "short waist", "full upper arm", "sleeve set for an arm further back", "cap too low",
    "cap too high", "stomach", "flat seat", "full seat", "crotch too high", "crotch too low",
    "hem off level", "one hip higher", "side seam swinging forward", "dart too long",
    "dart too short", "neck too tight", "neck too wide",
)  # fmt: skip


def note(sign: Sign = Sign.OTHER, **more: object) -> Observation:
    values: dict[str, object] = {
        "observation_id": "n1", "fitting_id": "f1", "number": 1, "sign": sign,
    }  # fmt: skip
    if not {"seam", "piece", "edge"} & set(more):
        values["edge"] = "hem"
    return Observation(**(values | more))


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.seen)
def test_a_row_names_causes_that_exist_and_where_it_is_from(row: Row) -> None:
    assert row.signs
    assert row.at
    assert set(row.causes) <= set(CAUSES)
    assert PRACTICE in row.source or any(title in row.source for title in TITLES)


@pytest.mark.parametrize("name", CAUSES)
def test_a_cause_names_kinds_that_exist_and_where_it_is_from(name: str) -> None:
    cause = CAUSES[name]
    assert cause.remedies or cause.by_hand
    for remedy in cause.remedies:
        for step in remedy.steps:
            assert step.word in kinds()
        assert remedy.kind in AMOUNTS
    assert any(w in cause.source for w in (PRACTICE, MEMORY, *TITLES))
    assert cause.usual_mm is None or any(w in cause.usual_from for w in (PRACTICE, MEMORY, *TITLES))
    assert any(name in row.causes for row in ROWS)


def test_what_the_trade_asks_for_is_there() -> None:
    assert set(ASKED_FOR) <= set(CAUSES)


@pytest.mark.parametrize("name", [n for n, c in CAUSES.items() if c.remedies])
def test_every_remedy_can_be_drawn_on_a_garment_it_is_for(name: str) -> None:
    cause = CAUSES[name]
    drawn = 0
    for garment in GARMENTS:
        pattern = fitted(garment)
        for remedy in cause.remedies:
            try:
                made = remedy.made(Scene(pattern, note()), cause.trial_mm)
                for kind in made:
                    kind.sentence(pattern)
                new = pattern
                for step in remedy.steps:
                    one = step.made(Scene(new, note()), cause.trial_mm)
                    assert one is None or one.word == step.word
                    new = apply_step(one, new, "one").pattern if one else new
            except BadParameters:
                raise
            except TrackerError:
                continue
            drawn += 1
            if garment != "paper" and "stand_back_mm" not in made[0].parameters():
                assert new != pattern
    assert drawn >= 1


#: (garment, note, likeliest cause); each as a fitter would put it. Common practice, no source,
#: except where the table's row names a handbook.
SEEN = (
    ("bodice", {"sign": Sign.GAPING, "piece": "front", "edge": "neckline"},
     "front neckline too long"),
    ("bodice", {"sign": Sign.STANDING_AWAY, "piece": "back", "edge": "neckline"}, "round back"),
    ("bodice", {"sign": Sign.DRAG_LINES, "seam": "shoulder",
                "direction": "from the neck to the underarm"}, "sloping shoulders"),
    ("bodice", {"sign": Sign.DRAG_LINES, "seam": "shoulder",
                "direction": "from the shoulder point to the centre front"}, "square shoulders"),
    ("bodice", {"sign": Sign.OFF_PLACE, "seam": "shoulder", "direction": "too far back"},
     "forward shoulder"),
    ("bodice", {"sign": Sign.DRAG_LINES, "piece": "front", "direction": "to the bust"},
     "full bust"),
    ("bodice", {"sign": Sign.FOLDS_ALONG, "piece": "front", "direction": "over the bust, empty"},
     "small bust"),
    ("bodice", {"sign": Sign.OFF_PLACE, "piece": "front",
                "fitter_words": "dart points below the bust"}, "high bust"),
    ("bodice", {"sign": Sign.OFF_PLACE, "piece": "front",
                "fitter_words": "dart points above her bust"}, "low bust"),
    ("bodice", {"sign": Sign.TOO_TIGHT, "piece": "back"}, "broad back"),
    ("bodice", {"sign": Sign.FOLDS_ALONG, "piece": "back", "edge": "armhole"}, "narrow back"),
    ("bodice", {"sign": Sign.GAPING, "piece": "front", "edge": "armhole"}, "full bust"),
    ("bodice", {"sign": Sign.GAPING, "piece": "back", "edge": "armhole"}, "round back"),
    ("bodice", {"sign": Sign.FOLDS_ACROSS, "piece": "back",
                "direction": "at the small of the back, above the waist"}, "hollow back"),
    ("bodice", {"sign": Sign.RIDING_UP, "piece": "back", "direction": "over the blades"},
     "round back"),
    ("panelled", {"sign": Sign.FOLDS_ACROSS, "piece": "centre back",
                  "direction": "above the waist"}, "hollow back"),
    ("panelled", {"sign": Sign.STRAIN, "seam": "front princess", "direction": "over the bust"},
     "full bust"),
    ("bodice", {"sign": Sign.FOLDS_ACROSS, "piece": "front", "direction": "above the bust"},
     "hollow chest"),
    ("bodice", {"sign": Sign.FOLDS_ACROSS, "seam": "side", "direction": "above the waist"},
     "short waist"),
    ("bodice", {"sign": Sign.TOO_TIGHT, "edge": "neckline"}, "neck too tight"),
    ("bodice", {"sign": Sign.STANDING_AWAY, "edge": "neckline"}, "neck too wide"),
    ("bodice", {"sign": Sign.TOO_TIGHT, "seam": "side", "fitter_words": "at the waist"},
     "waist too tight"),
    ("sleeved", {"sign": Sign.TOO_TIGHT, "piece": "sleeve"}, "full upper arm"),
    ("sleeved", {"sign": Sign.TOO_LONG, "piece": "sleeve", "edge": "wrist"}, "sleeve too long"),
    ("sleeved", {"sign": Sign.TWISTING, "piece": "sleeve",
                 "direction": "from the back of the cap towards the front"},
     "sleeve set for an arm further back"),
    ("skirt", {"sign": Sign.RIDING_UP, "seam": "side", "direction": "across the hips"},
     "hips too tight"),
    ("skirt", {"sign": Sign.RIDING_UP, "piece": "front", "direction": "in front, over the tummy"},
     "stomach"),
    ("skirt", {"sign": Sign.SWINGING, "seam": "side", "direction": "forward"}, "stomach"),
    ("skirt", {"sign": Sign.OFF_LEVEL, "edge": "hem"}, "hem off level"),
    ("skirt", {"sign": Sign.FOLDS_ACROSS, "piece": "back", "direction": "below the waist, hollow"},
     "hollow back"),
    ("skirt", {"sign": Sign.DRAG_LINES, "seam": "side", "side": BodySide.RIGHT,
               "direction": "to the right hip, which is higher"}, "one hip higher"),
    ("trousers", {"sign": Sign.FOLDS_ALONG, "piece": "back", "direction": "under the seat"},
     "flat seat"),
    ("trousers", {"sign": Sign.STRAIN, "piece": "back", "direction": "over the seat"},
     "full seat"),
    ("trousers", {"sign": Sign.TOO_TIGHT, "seam": "inside leg"}, "crotch too high"),
    ("trousers", {"sign": Sign.TOO_LONG, "seam": "inside leg"}, "crotch too low"),
    ("paper", {"sign": Sign.GAPING, "piece": "front", "edge": "neckline"},
     "front neckline too long"),
)  # fmt: skip


@pytest.mark.parametrize(("garment", "seen", "cause"), SEEN, ids=lambda v: str(v)[:60])
def test_what_is_seen_has_its_likeliest_cause(
    garment: str, seen: dict[str, object], cause: str
) -> None:
    found = likely(fitted(garment), note(**seen))
    assert found, "nothing in the table fits"
    assert found[0].cause.name == cause, [s.cause.name for s in found]


@pytest.mark.parametrize(("garment", "seen", "cause"), SEEN, ids=lambda v: str(v)[:60])
def test_the_amount_that_was_asked_for_is_drawn(
    garment: str, seen: dict[str, object], cause: str
) -> None:
    pattern, one = fitted(garment), note(**seen)
    if placed(pattern, one, CAUSES[cause])[0] is None:
        assert CAUSES[cause].by_hand
        return
    told = answers(pattern, one, None, (), Answer(cause, 10.0))
    assert told
    assert all(p.sentence for p in told)
    assert told[0].echo.startswith(cause)
    assert "10 mm" in told[0].sentence or "5 mm" in told[0].sentence or "mm" in told[0].sentence


def test_a_full_bust_gains_what_was_asked_for_round_the_bust() -> None:
    # All round 20 mm: half on each half of the front (Principle of the divided amount, common
    # practice, no source).
    block = fitted("bodice")
    told = answers(block, note(piece="front"), None, (), Answer("full bust", 20.0))
    gained = girth(told[-1].pattern, "bust line") - girth(block, "bust line")
    assert gained == pytest.approx(20.0, abs=1.5)


def test_a_neck_too_tight_is_longer_all_round_by_what_was_asked() -> None:
    block = fitted("bodice")
    told = answers(block, note(edge="neckline"), None, (), Answer("neck too tight", 12.0))
    longer = around(told[-1].pattern, "neckline") - around(block, "neckline")
    assert longer == pytest.approx(12.0, abs=0.05)


def test_a_waist_too_tight_is_wider_all_round_by_what_was_asked() -> None:
    # Two side seams, four edges: a quarter of the whole on each (Central Washington University
    # costume text, chapter 17).
    for garment in ("bodice", "skirt", "trousers", "panelled"):
        block = fitted(garment)
        told = answers(block, note(seam="side"), None, (), Answer("waist too tight", 20.0))
        wider = girth(told[-1].pattern, "waist line") - girth(block, "waist line")
        assert wider == pytest.approx(20.0, abs=0.6)


def test_on_one_body_side_only_that_side_is_altered() -> None:
    block = fitted("bodice")
    low = note(seam="shoulder", side=BodySide.RIGHT)
    told = answers(block, low, None, (), Answer("one shoulder lower", 6.0))
    assert told[-1].kind.parameters()["side"] == "right"
    assert "Right shoulder only" in told[-1].sentence


def test_an_amount_is_asked_for_with_what_is_usual() -> None:
    with pytest.raises(TrackerError, match=r"wants an amount: how far the slash opens .*6 to 20"):
        chosen(fitted("bodice"), note(piece="back"), CAUSES["round back"])


def test_a_note_without_amount_or_cause_says_where_to_find_one() -> None:
    with pytest.raises(NoAmount, match="--as and --by"):
        answers(fitted("bodice"), note(seam="side"))


def test_a_cause_is_named_or_numbered_and_otherwise_the_nearest_is_suggested() -> None:
    found = likely(fitted("bodice"), note(Sign.GAPING, piece="front", edge="neckline"))
    assert cause_named("2", found) is found[1].cause
    assert cause_named("Round  Back").name == "round back"
    with pytest.raises(TrackerError, match=r"Did you mean .*round back"):
        cause_named("rond back")


def test_a_remedy_without_a_place_says_why() -> None:
    with pytest.raises(TrackerError, match="round back: this pattern has no back with a"):
        chosen(fitted("trousers"), note(piece="back"), CAUSES["round back"], 10.0)


def test_notes_are_looked_at_from_the_top_down_and_length_before_width() -> None:
    # The chapters of Fitting Dresses, U.S. Department of Agriculture, 1946, parts 5 to 15.
    notes = [
        note(Sign.TOO_TIGHT, piece="sleeve"),
        note(Sign.TOO_LONG, edge="hem"),
        note(Sign.TOO_LOOSE, seam="side", fitter_words="at the hip"),
        note(Sign.TOO_LOOSE, piece="back", edge="waist"),
        note(Sign.FOLDS_ACROSS, piece="back", edge="waist"),
        note(Sign.GAPING, piece="front", edge="armhole"),
        note(Sign.TOO_TIGHT, piece="back"),
        note(Sign.GAPING, piece="front", edge="neckline"),
        note(Sign.SWINGING, seam="side"),
    ]
    order = in_order(fitted("sleeved"), notes)
    stages = [stage_of(n, fitted("sleeved")) for n in order]
    assert stages == sorted(stages)
    assert order[0].sign is Sign.SWINGING
    assert order[-1].piece == "sleeve"
    waist = [n for n in order if n.edge == "waist"]
    assert [n.sign for n in waist] == [Sign.FOLDS_ACROSS, Sign.TOO_LOOSE]
    assert Stage.HANG.words in ORDER_SAID


@pytest.mark.parametrize(
    ("said", "sign"),
    [("gapes", Sign.GAPING), ("Tight", Sign.TOO_TIGHT), ("stands off", Sign.STANDING_AWAY),
     ("drag-lines", Sign.DRAG_LINES), ("seam swinging", Sign.SWINGING)],
)  # fmt: skip
def test_a_sign_is_read_as_people_say_it(said: str, sign: Sign) -> None:
    assert read_sign(said) is sign
