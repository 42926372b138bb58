"""The ease plan."""

import pytest

from tracker.body.ease import DEFAULT_BODICE_EASE, EasePlan, NotAnEase, UnknownEaseLine

IN = 25.4


@pytest.mark.parametrize(
    ("line", "low_mm", "high_mm"),
    [
        # Central Washington University costume text, ch. 16, wearing-ease figures.
        ("bust", 1.5 * IN, 2 * IN),
        ("waist", 0.75 * IN, 1 * IN),
        ("hip", 2 * IN, 2.75 * IN),
        # Santa Rosa Junior College, sleeve lesson.
        ("upper-arm", 1.5 * IN, 2 * IN),
        # Common practice, no source.
        ("neck-base", 5, 10),
        ("armhole-depth", 15, 25),
        ("back-length", 5, 10),
    ],
)
def test_the_usual_plan_lies_inside_the_published_minimum_ease(
    line: str, low_mm: float, high_mm: float
) -> None:
    assert low_mm <= DEFAULT_BODICE_EASE.mm(line) <= high_mm


def test_every_figure_is_usual_and_says_where_it_comes_from() -> None:
    for line in DEFAULT_BODICE_EASE.lines:
        assert line.is_usual, line.name
        assert len(line.source) > 10


def test_the_maker_changes_one_line_and_the_plan_says_so() -> None:
    plan = DEFAULT_BODICE_EASE.with_line("bust", 60)
    assert plan.mm("bust") == 60
    assert plan.line("bust").source == "the maker's own choice"
    assert plan.mm("waist") == DEFAULT_BODICE_EASE.mm("waist")
    assert DEFAULT_BODICE_EASE.mm("bust") == 50
    assert not plan.with_line("waist", -20).line("waist").is_usual  # stretch cloth


def test_an_unknown_line_is_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownEaseLine, match="Did you mean bust"):
        DEFAULT_BODICE_EASE.mm("bsut")
    with pytest.raises(UnknownEaseLine, match="armhole-depth"):
        DEFAULT_BODICE_EASE.mm("zzz")


@pytest.mark.parametrize("mm", [float("nan"), 5000.0])
def test_nonsense_is_no_ease(mm: float) -> None:
    with pytest.raises(NotAnEase):
        DEFAULT_BODICE_EASE.with_line("bust", mm)


def test_a_plan_is_the_same_after_storing() -> None:
    plan = DEFAULT_BODICE_EASE.with_line("hip", 60, "asked for by the client")
    assert EasePlan.from_record(plan.to_record()) == plan
