"""Typed as it would be: a garment cut in its cloth is let out as far as its allowance goes."""

from pathlib import Path
from typing import Any

import pytest

SHEET = "height: 168\nbust: 92\nwaist: 74\nhip: 99\n"
LET_OUT = ("alter", "propose", "1.1")


@pytest.fixture
def basted(tracker: Any, tmp_path: Path) -> Any:
    (tmp_path / "sheet.txt").write_text(SHEET)
    for typed in (
        ("store", "new"),
        ("client", "new", "mara", "Mara Lind", "--consent", "measurements"),
        ("measure", "new", "--from", "sheet.txt", "--by", "Ida", "--on", "2026-03-01"),
        ("block", "draft", "--estimate"),
        ("garment", "new", "--kind", "basted", "--cloth", "wool", "--outlet", "15mm"),
        ("fitting", "new"),
    ):
        said = tracker(*typed)
        assert said.status == 0, said.err
    return tracker


@pytest.mark.parametrize(("gap", "fits"), [("17mm", True), ("18mm", True), ("20mm", False)])
def test_a_seam_is_let_out_by_the_allowance_less_six_and_no_further(
    basted: Any, gap: str, fits: bool
) -> None:
    said = basted("note", "new", "--seam", "side", "--sign", "too tight", "--gap",
                  f"{gap} at side waist")  # fmt: skip
    assert said.status == 0, said.err
    for typed in (LET_OUT, ("alter", "accept", "1.1")):
        told = basted(*typed)
        assert (told.status == 0) is fits
        if not fits:
            assert "9 mm is the most: the garment has 15 mm of allowance, of which 6 mm" in told.err
    assert ("mara/bodice@2" in basted("version", "list").out) is fits


@pytest.mark.parametrize(("by", "fits"), [("8mm", True), ("12mm", False)])
def test_shoulders_are_raised_within_the_allowance_too(basted: Any, by: str, fits: bool) -> None:
    said = basted("note", "new", "--seam", "shoulder", "--sign", "folds across")
    assert said.status == 0, said.err
    told = basted("alter", "propose", "1.1", "--as", "square shoulders", "--by", by)
    assert (told.status == 0) is fits
    if not fits:
        assert "would be let out 12.0 mm on a piece, and 9 mm is the most" in told.err
