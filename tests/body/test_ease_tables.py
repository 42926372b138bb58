"""Named ease tables against published minimum ease."""

import pytest

from tracker.body.ease_tables import EASE_TABLES, UnknownEaseTable, ease_table

IN = 25.4


@pytest.mark.parametrize(
    ("garment", "line", "low_mm", "high_mm"),
    [
        # Central Washington University costume text, ch. 16: bodice, dress waist, any hip.
        ("bodice", "bust", 1.5 * IN, 2 * IN),
        ("bodice", "waist", 0.75 * IN, 1 * IN),
        ("bodice", "hip", 2 * IN, 2.75 * IN),
        ("torso", "bust", 1.5 * IN, 2 * IN),
        ("torso", "hip", 2 * IN, 2.75 * IN),
        # Santa Rosa Junior College, sleeve lesson: 1 1/2 to 2 in or more; cap 1 to 1 7/8 in.
        ("bodice", "upper-arm", 1.5 * IN, 2 * IN),
        ("sleeve", "upper-arm", 1.5 * IN, 2 * IN),
        ("sleeve", "elbow", 1.5 * IN, 2 * IN),
        ("sleeve", "wrist", 1.5 * IN, 2 * IN),
        ("sleeve", "sleeve-cap", 1 * IN, 1.875 * IN),
        # Woman's Encyclopaedia, about 1912: back shoulder 1/4 in longer than the front.
        ("bodice", "shoulder", 0.2 * IN, 0.25 * IN),
        # Common practice, no source: bust ease shared 20 % to the back, none to the front; back
        # length 5 to 10 mm; armhole depth 15 to 25 mm.
        ("bodice", "across-back", 0.2 * 38, 0.2 * 102),
        ("bodice", "across-front", 0.0, 0.08 * 51),
        ("bodice", "back-length", 5.0, 10.0),
        ("bodice", "armhole-depth", 15.0, 25.0),
        # Central Washington University costume text, ch. 16.
        ("skirt", "waist", 0.5 * IN, 0.75 * IN),
        ("skirt", "hip", 2 * IN, 2.75 * IN),
        ("trousers", "waist", 0.5 * IN, 0.75 * IN),
        ("trousers", "hip", 2 * IN, 2.75 * IN),
        # NIMI CITS Dress Making, practical volume, p. 180, trouser block: thigh and knee 1 in at
        # least; New Mexico State University Guide C-209: thigh 1 to 2 in or more. No
        # more than a classic block leaves on a usual thigh: common practice, no source.
        ("trousers", "thigh", 1 * IN, 4 * IN),
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


def test_stretch_cloth_may_be_less_than_the_body_round_it_but_not_in_depth() -> None:
    for line in ("bust", "waist", "hip"):
        assert ease_table("torso", "stretch").line(line).low < 0
    for garment, line in (
        ("bodice", "armhole-depth"), ("trousers", "crotch-depth"), ("sleeve", "sleeve-cap"),
    ):  # fmt: skip
        assert ease_table(garment, "stretch").line(line).low == 0
    # Common practice, no source: cap ease in knit 0 to 1/2 in.
    assert ease_table("sleeve", "stretch").mm("sleeve-cap") <= 0.5 * IN


def test_every_garment_has_the_same_lines_in_either_cloth() -> None:
    for garment, cloth in EASE_TABLES:
        assert ease_table(garment, cloth).names == ease_table(garment).names, cloth


def test_an_unknown_garment_or_cloth_is_answered_with_those_there_are() -> None:
    with pytest.raises(UnknownEaseTable, match="Did you mean skirt"):
        ease_table("skrit")
    with pytest.raises(UnknownEaseTable, match="woven, stretch"):
        ease_table("skirt", "paper")
