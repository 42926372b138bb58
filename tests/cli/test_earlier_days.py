"""What was done before the store was kept is written down on the day it was done."""

from pathlib import Path
from typing import Any

MEASURED = ("measure", "new", "ines", "bust=91", "waist=72", "hip=98", "waist to floor, side=104")


def test_last_seasons_thread_is_entered_on_its_own_days(tmp_path: Path, tracker: Any) -> None:
    del tmp_path
    tracker("store", "new")
    tracker("client", "new", "ines", "Ines Vandermeer", "--consent", "measurements")
    for day, *typed in (
        ("2025-09-20", *MEASURED),
        ("2025-09-22", "block", "draft", "ines", "--estimate"),
        ("2025-09-24", "garment", "new", "--cloth", "calico"),
        ("2025-09-25", "fitting", "new", "--fitter", "Ida"),
        ("2025-09-26", "alter", "take-in", "--seam", "side", "4mm at side waist"),
    ):
        done = tracker("--day", day, *typed)
        assert done.status == 0, done.err
    versions = {v["address"]: v for v in tracker("version", "list", "--json").json}
    assert versions["ines/bodice@1"]["made_on"] == "2025-09-22"
    assert versions["ines/bodice@2"]["made_on"] == "2025-09-26"
    assert "2025-09-25" in tracker("fitting", "list").out


def test_a_day_to_come_or_before_the_parent_is_refused(studio: Path, tracker: Any) -> None:
    del studio
    ahead = tracker("--day", "2031-01-01", "version", "list")
    assert ahead.status == 2
    assert "only an earlier day" in ahead.err
    taken_in = ("alter", "take-in", "--seam", "side", "4mm at side waist")
    before = tracker("--day", "2020-01-01", *taken_in)
    assert before.status == 1
    assert "so nothing was made from it on 2020-01-01" in " ".join(before.err.split())
