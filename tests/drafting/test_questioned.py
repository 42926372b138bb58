"""What a cutter would question in a draft is said in a sentence, and little else is."""

from dataclasses import replace

from published.bodies import chart_bodies, posture_bodies

from tracker.body.body import Body
from tracker.body.estimate import estimate
from tracker.drafting.account import Account
from tracker.drafting.bodice import Draft, draft_bodice
from tracker.drafting.questioned import BODICE_QUESTIONS, MIND, TROUSER_QUESTIONS
from tracker.drafting.trousers import TO_ESTIMATE, draft_trousers

BODIES = {one.name: one.body for one in (*chart_bodies(), *posture_bodies())}


def minded(draft: Draft | Account) -> list[str]:
    return [row.note for row in draft.table if row.name == MIND]


def test_a_neckline_that_is_nearly_a_v_is_said() -> None:
    (told,) = minded(draft_bodice(estimate(BODIES["very square shoulders"])))
    assert told.startswith("the front neckline is deep for its width, nearly a V")
    assert "87.3 mm, where 75.3 mm is liked" in told
    assert "measure them again" in told


def test_an_armhole_that_does_not_hollow_in_is_said() -> None:
    body = estimate(BODIES["textbook size 12"])
    wide = body.with_value("across-front", body.value("across-front") + 38.0)
    (told,) = (note for note in minded(draft_bodice(wide)) if "front armhole" in note)
    assert "instead of hollowing in at the across front (-" in told
    assert "°, where 7° is liked)" in told


def test_a_crotch_short_for_a_slim_thigh_is_said() -> None:
    body = estimate(BODIES["textbook size 12"], TO_ESTIMATE)
    slim = Body(
        tuple(
            replace(v, value=500.0, estimated=False) if v.key == "thigh-girth" else v for v in body
        )
    )
    assert any("the front crotch is short" in note for note in minded(draft_trousers(slim)))


def test_a_usual_body_raises_no_question() -> None:
    for name in ("textbook size 12", "home chart size 14", "misses 8 straight"):
        assert not minded(draft_bodice(estimate(BODIES[name])))
        assert not minded(draft_trousers(estimate(BODIES[name], TO_ESTIMATE)))


def test_every_question_is_about_a_figure_that_is_drafted() -> None:
    body = estimate(estimate(BODIES["textbook size 12"]), TO_ESTIMATE)
    for draft, questions in (
        (draft_bodice(body), BODICE_QUESTIONS), (draft_trousers(body), TROUSER_QUESTIONS)
    ):  # fmt: skip
        names = {row.name for row in draft.chosen}
        assert {question.name for question in questions} <= names
