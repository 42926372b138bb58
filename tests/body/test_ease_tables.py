"""Named ease tables against published minimum ease."""

import pytest

from tracker.body.ease_tables import EASE_TABLES, UnknownEaseTable, ease_table

IN = 25.4


@pytest.mark.parametrize(
    ("garment", "line", "low_mm", "high_mm"),
    [
        # Central Washington University costume text, ch. 16.
        ("skirt", "waist", 0.5 * IN, 0.75 * IN),
        ("skirt", "hip", 2 * IN, 2.75 * IN),
        ("trousers", "waist", 0.5 * IN, 0.75 * IN),
        ("trousers", "hip", 2 * IN, 2.75 * IN),
        # New Mexico State University Guide C-209.
        ("trousers", "thigh", 1 * IN, 2.05 * IN),
        ("trousers", "crotch-depth", 0.5 * IN, 1 * IN),
        ("trousers", "knee", 1 * IN, 4 * IN),
    ],
)
def test_woven_tables_keep_to_published_minimum_ease(
    garment: str, line: str, low_mm: float, high_mm: float
) -> None:
    assert low_mm <= ease_table(garment).mm(line) <= high_mm


def test_stretch_never_has_more_ease_than_woven_and_every_figure_is_usual() -> None:
    for (garment, cloth), plan in EASE_TABLES.items():
        for line in plan.lines:
            assert line.is_usual, (garment, cloth, line.name)
            assert len(line.source) > 10
            assert line.mm <= ease_table(garment, "woven").mm(line.name)


def test_an_unknown_garment_or_cloth_is_answered_with_those_there_are() -> None:
    with pytest.raises(UnknownEaseTable, match="Did you mean skirt"):
        ease_table("skrit")
    with pytest.raises(UnknownEaseTable, match="woven, stretch"):
        ease_table("skirt", "paper")
