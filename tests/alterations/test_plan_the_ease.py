import pytest
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.plan_the_ease import PlanEase
from tracker.errors import TrackerError
from tracker.pattern.checks import check
from tracker.pattern.measure import girth

BLOCK = bodice()


def test_the_checks_hold_the_pattern_to_the_new_plan_and_nothing_is_moved() -> None:
    body = {"waist line": girth(BLOCK, "waist line") - 24.0}
    assert [f.place for f in check(BLOCK, body).findings] == ["waist line"]
    done = apply_step(PlanEase(line="waist line", ease_mm=24.0), BLOCK, "one")
    assert check(done.pattern, body).clean
    assert done.pattern.pieces == BLOCK.pieces


def test_the_sentence_tells_the_old_plan_and_the_new() -> None:
    assert PlanEase(line="waist line", ease_mm=24.0).sentence(BLOCK) == (
        "Ease at the waist line planned at 24 mm, where it was 30 mm"
    )


@pytest.mark.parametrize(
    ("line", "ease_mm", "told"),
    [("waist", 20.0, "Did you mean waist line"), ("waist line", 30.0, "planned at the waist line")],
)
def test_a_line_that_is_not_there_or_a_plan_that_is_no_change_is_refused(
    line: str, ease_mm: float, told: str
) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(PlanEase(line=line, ease_mm=ease_mm), BLOCK, "one")
